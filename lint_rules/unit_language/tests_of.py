"""What the tests of a unit ask of children."""

from lint_rules.manuscript.model import Audience, Passage, Unit
from lint_rules.unit_language.unit_words import read_by_children

TEST = "test"  # class of a lesson in the unit pattern, and of an activity


def asked_in_tests(unit: Unit) -> frozenset[int]:
    """The passages of a unit's tests that ask something of children: pages, scripts and answers, by identity."""
    asked: set[int] = set()
    for lesson in unit.lessons:
        if TEST in lesson.classes:
            asked |= _asked(lesson.part.passages)
        for activity in lesson.activities:
            if TEST in lesson.classes or TEST in activity.kinds:
                asked |= _asked(activity.part.passages)
    for activity in unit.opening_activities:
        if TEST in activity.kinds:
            asked |= _asked(activity.part.passages)
    return frozenset(asked)


def _asked(passages: tuple[Passage, ...]) -> set[int]:
    return {id(passage) for passage in passages if passage.audience is Audience.KEY or read_by_children(passage)}
