"""What a structure is: its name, its level, its examples, and the function that finds it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from lint_rules.language.parsing.verb_groups import Group, infinitive
from lint_rules.language.parsing.words import Text, Word

Range = tuple[int, int]  # first and last index of the words that show a structure
Finder = Callable[["Parsed"], Iterator[Range]]


@dataclass(slots=True)
class Parsed:
    """What a finder sees: the corrected words of one passage, and its verb groups, in order and by their verb."""

    text: Text
    groups: list[Group]
    by_verb: dict[int, Group]


@dataclass(frozen=True, slots=True)
class StructureDeclaration:
    """One structure of English grammar.

    ``level`` is the CEFR band from which it is free, ``higher`` the band of another source that places it later (''
    when none does), ``source`` says where they are from. In ``examples`` the words that show it stand in « »;
    ``decoys`` look like it and are something else. ``sure`` is False where the finder is right in fewer than 85 of 100
    finds (``measured`` says where and how often it is right), so that nothing may be stopped on its word alone.
    """

    name: str
    gloss: str
    level: str
    source: str
    examples: tuple[str, ...]
    decoys: tuple[str, ...]
    find: Finder
    higher: str = ""
    sure: bool = True
    measured: str = ""


def by_form(name: str) -> Finder:
    """A finder of the verb groups whose form shows ``name`` (see ``verb_groups``): from the first auxiliary to the
    verb. Before a gap, an auxiliary that shows it by itself (`Where do you ____?`, `I can ____`) is all there is."""

    def find(parsed: Parsed) -> Iterator[Range]:
        for group in parsed.groups:
            if name in group.names:
                yield group.first, with_not(parsed, group.first if group.verb.gap else group.last)

    return find


def with_not(parsed: Parsed, last: int) -> int:
    """The index of the *n't* that is written together with a word, else that word's own: `No, he doesn't.`"""
    after = parsed.text.after(parsed.text.words[last])
    return last + 1 if after is not None and after.lower == "n't" else last


def with_infinitive(name: str) -> Finder:
    """A finder as ``by_form``, of groups that reach to the infinitive after them: `have to go`."""

    def find(parsed: Parsed) -> Iterator[Range]:
        for group in parsed.groups:
            if name in group.names:
                verb = infinitive(parsed.text, group.verb) or group.verb
                yield group.first, verb.index - verb.gap

    return find


_MARKS = frozenset({".", ",", "!", "?", ":", ";", '"', "'", "''", "``", "-", "(", ")", "..."})


def clause(parsed: Parsed, group: Group, start: Word | None = None) -> Range:
    """The clause of a verb group, from ``start`` if given, without the marks at its ends."""
    words = parsed.text.words
    first, last = parsed.text.reach(group.verb)
    if start is not None:
        first = start.index
    last = max(last, group.last)
    while last > group.last and (words[last].lower in _MARKS or words[last].gap):
        last -= 1
    while first < group.first and words[first].lower in _MARKS:
        first += 1
    return first, last
