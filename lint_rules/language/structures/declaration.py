"""What a structure is: its name, its level, its examples, and the function that finds it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from lint_rules.language.verb_groups import Group
from lint_rules.language.words import Text

Range = tuple[int, int]  # first and last index of the words that show a structure


@dataclass(frozen=True, slots=True)
class Parsed:
    """What a matcher sees: the corrected words of one passage, and its verb groups."""

    text: Text
    groups: list[Group]


@dataclass(frozen=True, slots=True)
class StructureDeclaration:
    """One structure of English grammar.

    ``level`` is the CEFR band from which it is free, ``higher`` the band of another source that places it later ('' when
    none does), ``source`` says where they are from. In ``examples`` the words that show the structure stand in « »;
    ``decoys`` look like it and are something else. ``sure`` is False where the finder is right in fewer than 85 of 100
    cases (``measured`` says what it is right in), so that nothing may be stopped on its word alone.
    """

    name: str
    gloss: str
    level: str
    source: str
    examples: tuple[str, ...]
    decoys: tuple[str, ...]
    find: Callable[[Parsed], Iterator[Range]]
    higher: str = ""
    sure: bool = True
    measured: str = ""


def by_form(name: str) -> Callable[[Parsed], Iterator[Range]]:
    """A finder of the verb groups whose form shows ``name`` (see ``verb_groups``)."""

    def find(parsed: Parsed) -> Iterator[Range]:
        for group in parsed.groups:
            if name in group.names:
                supported = group.verb.gap and parsed.text.words[group.first].lower in ("do", "does", "did")
                yield group.first, group.first if supported else group.last

    return find


def by_first_word(name: str) -> Callable[[Parsed], Iterator[Range]]:
    """As ``by_form``, for what the first word shows alone: a modal before a gap is still a modal."""

    def find(parsed: Parsed) -> Iterator[Range]:
        for group in parsed.groups:
            if name in group.names:
                yield group.first, group.first if group.verb.gap else group.last

    return find
