"""Letters of a column as answers: each is one of the column, and used once where there are as many as items."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import letters_of, plain, range_of
from lint_rules.page.exercises.model import Exercise, Item, Slip

_FEWEST = 3
_MATCH = lazy_re.compile(r"\bmatch\b", re.I)


def in_column(exercise: Exercise, instruction: str) -> Iterator[Slip]:
    """A letter must be in the column; where there are as many letters as items, each is used once."""
    labels = {option.label.key: option for option in exercise.column if option.label is not None}
    pictured = not any(plain(option.text) for option in exercise.column)  # columns of boxes to tick
    given = [(item, letters_of(item.answer.text)) for item in exercise.items if item.answer is not None]
    if not labels:
        yield from _one_to_one(exercise, given, instruction)
    if not labels or not given or sum(bool(letters) for _, letters in given) * 2 < len(given):
        return
    shown = range_of([option.label.text for option in exercise.column if option.label is not None])
    if sum(any(letter not in labels for letter in letters) for _, letters in given) * 3 > len(given) + 1:
        return  # another column is meant
    used: Counter[str] = Counter()
    for item, letters in given:
        answer = item.answer
        assert answer is not None
        for letter in letters:
            used[letter] += 1
            if letter not in labels:
                message = f"The answers to choose from are {shown}; there is no {letter} for item {item.label.text}."
                yield Slip(answer.place, message)
            elif (
                used[letter] == 2
                and not pictured
                and len(labels) == len(exercise.items)
                and len(given) == len(labels) > 2
            ):
                missing = [one for one in labels if not any(one in others for _, others in given)]
                if len(missing) == 1:
                    yield Slip(answer.place, _twice(letter, missing[0], given))


def _one_to_one(exercise: Exercise, given: Sequence[tuple[Item, tuple[str, ...]]], instruction: str) -> Iterator[Slip]:
    """Letters of pictures, one for each item to match: `1 b 2 d 3 a 4 e 5 d` has d twice and c not at all."""
    letters = [one for _, several in given for one in several]
    alone = all(len(several) == 1 for _, several in given) and not any(item.choices for item, _ in given)
    if not alone or len(letters) < _FEWEST + 1 or len(letters) != len(exercise.items) or not _MATCH.search(instruction):
        return
    missing = {chr(ord("a") + at) for at in range(len(letters))} - {*letters}
    if len(missing) != 1 or len({*letters}) != len(letters) - 1 or max(letters) > chr(ord("a") + len(letters) - 1):
        return
    at = next(at for at, letter in enumerate(letters) if letter in letters[:at])
    answer = given[at][0].answer
    assert answer is not None
    yield Slip(answer.place, _twice(letters[at], min(missing), given))


def _twice(letter: str, missing: str, given: Sequence[tuple[Item, tuple[str, ...]]]) -> str:
    """One of the two is wrong, and which one nobody can tell by the key alone: the message names both."""
    items = " and ".join(item.label.text for item, letters in given if letter in letters and item.label.text)
    where = f", for {items}" if " and " in items else ""
    return f"{letter} stands in the key twice{where}, and {missing} not at all. Give each letter once."
