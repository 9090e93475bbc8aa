"""Statements that compare two the wrong way round: *Button was heavier than the drum* is called true, and of the drum
the story says *It was heavier than Button*.

Nothing is understood: the same comparative stands between the same two, exchanged, and nowhere in their order (that a
text says a statement word for word is seen elsewhere). Told is the one answer of an exercise of three or more that
differs.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.plain_words import DENIED, SENTENCE
from lint_rules.unit_language.option_support import content_words

_FEWEST = 3  # statements
_COMPARED = lazy_re.compile(
    r"(?P<one>[^.,;:!?]*?)(?:['’](?:s|re)|\s(?:is|are|was|were))\s+(?:(?:much|even|a lot) )?"
    r"(?P<how>[a-z]+er|worse|(?:more|less) [a-z]+) than (?P<other>[^.,;:!?]+)",
    re.I,
)
_PRONOUN = lazy_re.compile(r"(?:\W|\b(?:and|but|so|oh)\b)*(?:it|he|she|they)\s*", re.I)


@dataclass(frozen=True, slots=True)
class _Two:
    """One, how, than the other; ``points``: *it* or *she*, who is among the words of the sentence before."""

    one: frozenset[str]
    how: str
    other: frozenset[str]
    points: bool = False

    def is_said_by(self, told: "_Two") -> bool:
        """Whether a text says the same."""
        return not told.points and (self.one, self.how, self.other) == (told.one, told.how, told.other)

    def is_turned_round_by(self, told: "_Two") -> bool:
        """Whether a text says it of the other one."""
        whom = self.other <= told.one if told.points else self.other == told.one
        return whom and self.how == told.how and self.one == told.other


def compared_otherwise(items: Sequence[Item], texts: Sequence[Passage]) -> tuple[Item, str] | None:
    """The one statement whose answer does not go with how a text compares the two, and the sentence; else None."""
    called = [
        (item, verdict)
        for item in items
        if item.answer is not None and not item.example and (verdict := yes_or_no(item.answer.text)) is not None
    ]
    if len(called) < _FEWEST:
        return None
    told = [one for passage in texts for one in _told(passage.text)]
    return the_one_out_of_step(_marked(called, told), 0)


def _marked(
    called: Sequence[tuple[Item, bool]], told: Sequence[tuple[_Two, str]]
) -> Iterator[tuple[bool, tuple[Item, str]]]:
    for item, verdict in called:
        stated = _two(bare_statement(item.text), "")
        if stated is None or stated.points or any(stated.is_said_by(two) for two, _ in told):
            continue
        turned = next((sentence for two, sentence in told if stated.is_turned_round_by(two)), "")
        if turned:
            yield not verdict, (item, turned)


def _told(text: str) -> Iterator[tuple[_Two, str]]:
    before = ""
    for sentence in SENTENCE.findall(text):
        two = _two(sentence, before)
        if two is not None and not sentence.rstrip().endswith("?"):
            yield two, sentence.strip(" “\"‘'")
        before = sentence


def _two(sentence: str, before: str) -> _Two | None:
    """Who or what a sentence compares, and how; None where it denies it, or compares nothing."""
    match = _COMPARED.search(sentence)
    if match is None or DENIED.search(sentence):
        return None
    points = _PRONOUN.fullmatch(match["one"]) is not None
    first, second = content_words(before if points else match["one"]), content_words(match["other"])
    return _Two(first, match["how"].casefold(), second, points) if first and second else None
