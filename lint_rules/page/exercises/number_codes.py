"""Words in a code of numbers, A for 1 and so on: *3, 8, 1, 9, 14* spells chain, and the key has chair."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Item

_CODED = lazy_re.compile(r"\W*\d{1,2}(?:\s*[,;·–-]\s*\d{1,2}){2,}\s*[→=:_\W]*")
_LETTERS = 26
_FEWEST = 2  # words that the key spells as the numbers do


def miscoded(exercise: Exercise) -> tuple[Item, str] | None:
    """The one item whose answer is not what its numbers spell, and what they do spell; None where others are not."""
    return the_one_out_of_step(_spelt(exercise), _FEWEST)


def _spelt(exercise: Exercise) -> Iterator[tuple[bool, tuple[Item, str]]]:
    for item in exercise.items:
        numbers = [int(one) for one in re.findall(r"\d+", item.text)] if _CODED.fullmatch(item.text) else []
        if item.answer is None or item.example or not numbers or not all(0 < one <= _LETTERS for one in numbers):
            continue
        word = "".join(chr(ord("a") + one - 1) for one in numbers)
        yield plain(item.answer.text) == word, (item, word)
