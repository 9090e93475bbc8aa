"""Numbers of things in a key that is a list, held against the script or the picture of the task.

*Sea Farm 2 kilos, 5 books*, where the script has six books; *tomatoes 6, onions 4*, where five onions are drawn. Only
the one pair of a thing and its number that is nowhere there, where at least three others are.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.briefs import briefs_of
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Answer, Exercises, Place
from lint_rules.page.number_words import in_words, numbers_in
from lint_rules.unit_language.texts_around import single

_FEWEST = 3  # pairs that are there, before one that is not is a slip
_MORE = lazy_re.compile(r"\b(?:more|another|sorry)\b", re.I)  # what is reckoned, or taken back
_BEHIND = lazy_re.compile(r"(?:^|[,;:]\s*)([^\W\d_]+(?: [^\W\d_]+)?) ?[–—:-]? (\d{1,2})(?=\s*(?:[,;.]|$))")  # onions 4


class Miscounted(NamedTuple):
    """An answer that counts a thing wrong, where its number stands, and what is there in words for a message."""

    answer: Answer
    thing: str
    at: Place
    there: str


def miscounted_in_list(read: Exercises, unit: Unit) -> Miscounted | None:
    """The answer with the one number of a thing that is not there."""
    heard = heard_in(read.activity, unit)
    name, there = ("script", heard) if heard else ("picture", briefs_of(read.activity, unit))
    of: dict[str, set[int]] = {}
    for thing, number in _pairs_in(there):
        of.setdefault(thing, set()).add(number)
    answers = [item.answer for one in read.exercises for item in one.items if item.answer and not item.example]
    marked = [
        (pair.number in of[single(pair.thing)], (answer, pair))
        for answer in (*answers, *read.loose)
        for pair in _pairs(answer.text)
        if single(pair.thing) in of
    ]
    found = the_one_out_of_step(marked, _FEWEST)
    if found is None:
        return None
    answer, pair = found
    there_are = of[single(pair.thing)]
    said = f"no {pair.number}" if len(there_are) > 1 else in_words(*there_are)
    place = answer.place
    at = Place(place.passage, place.start + pair.start, place.start + pair.end)
    return Miscounted(answer, pair.thing, at, f"the {name} has {said} {pair.thing}")


class _Pair(NamedTuple):
    """A thing as it is written, its number, and where the number stands in a text."""

    thing: str
    number: int
    start: int
    end: int


def _pairs_in(passages: Sequence[Passage]) -> Iterator[tuple[str, int]]:
    for passage in passages if not any(_MORE.search(one.text) for one in passages) else ():
        for number, _, _, thing in numbers_in(passage.text):
            if thing:
                yield single(thing), number


def _pairs(text: str) -> Iterator[_Pair]:
    """Things with their numbers: 5 books; onions 4."""
    before = [_Pair(thing, number, start, end) for number, start, end, thing in numbers_in(text) if thing]
    behind = (
        _Pair(match[1].split()[-1], int(match[2]), match.start(2), match.end(2)) for match in _BEHIND.finditer(text)
    )
    yield from before or behind
