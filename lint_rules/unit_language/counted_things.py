"""The one number of a key that is not the picture's, of several things that a picture has and the key counts."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Answer, Item
from lint_rules.page.number_words import numbers_in
from lint_rules.unit_language.asked_items import thing_counted
from lint_rules.unit_language.texts_around import Around, single

_HOW_MANY = lazy_re.compile(r"\bhow many\b[^?]*\?\s*$", re.I)
_HABIT = 2  # things that key and picture count alike


@dataclass(frozen=True, slots=True)
class Miscounted:
    """An answer that counts a thing otherwise than the picture: where its number stands in the passage of the key, the
    number, the thing, and the picture's number."""

    answer: Answer
    start: int
    end: int
    number: int
    thing: str
    other: int


def miscounted_thing(items: Sequence[Item], around: Around) -> Miscounted | None:
    """The one such answer; None where there is none, or where others do not go by the picture."""
    return the_one_out_of_step(_by_thing(items, around), _HABIT)


def _answered(script: Sequence[str]) -> Iterator[int]:
    """The numbers that are the answer to somebody's question how many."""
    for before, text in pairwise(script):
        first = next(numbers_in(text), None)
        if _HOW_MANY.search(before) and first is not None and not text[: first[1]].strip():
            yield first[0]


def _by_thing(items: Sequence[Item], around: Around) -> Iterator[tuple[bool, Miscounted]]:
    near = around.tiers[0]
    alone = set(_answered(around.script))
    for item in items:
        asked = thing_counted(item.text)
        told = list(numbers_in(item.answer.text)) if item.answer is not None else []
        of = near.of.get(single(asked), set()) if asked else set()
        if item.answer is None or len(of) != 1 or len(told) != 1:
            continue
        ((number, start, end, _),), (other,) = told, of
        if number not in of and number in alone:
            continue  # How many buns? Five, please: of somebody else who asked for buns
        at = item.answer.place.start
        yield number in of, Miscounted(item.answer, at + start, at + end, number, asked, other)
