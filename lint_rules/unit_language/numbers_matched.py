"""Numbers in figures that a key matches with other numbers in words: *15*, and *thirteen*."""

from collections.abc import Iterator

from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.page.number_words import numbers_in

_FEWEST = 2  # pairs that go together
_MOST = 2  # pairs that do not: one slip, or two that have changed places


def mismatched_numbers(exercise: Exercise) -> list[tuple[Item, str]]:
    """The items, one or two that have changed places, whose number is not that of the option which the key matches
    with it, and that option; none where more differ."""
    pairs = list(_pairs(exercise))
    wrong = [(item, other) for item, other, same in pairs if not same]
    return wrong if len(pairs) - len(wrong) >= _FEWEST and len(wrong) <= _MOST else []


def _pairs(exercise: Exercise) -> Iterator[tuple[Item, str, bool]]:
    """Items that are a number alone, and the option that is matched, where that is one as well."""
    for item in exercise.items:
        matched = completed(item, exercise).matched if item.answer is not None and not item.example else None
        own, other = _alone(item.text), _alone(matched.text) if matched is not None else None
        if matched is not None and own is not None and other is not None:
            yield item, matched.text.strip(), own == other


def _alone(text: str) -> int | None:
    found = list(numbers_in(text))
    whole = len(found) == 1 and not (text[: found[0][1]] + text[found[0][2] :]).strip(" .,_|")
    return found[0][0] if whole else None
