"""What the tests of a unit ask of children."""

from collections.abc import Sequence

from lint_rules.manuscript.counting import read_by_children
from lint_rules.manuscript.model import Activity, Audience, Passage, Unit
from lint_rules.manuscript.reader_state import SONGS

TEST = "test"  # class of a lesson in the unit pattern, and of an activity
_NO_TEST = SONGS | {"game", "make"}  # a game after the test, in its lesson


def is_test(activity: Activity, classes: Sequence[str]) -> bool:
    """Say whether an activity asks what children know: it is a test, or part of a lesson that is one (``classes``)."""
    return TEST in activity.kinds or (TEST in classes and _NO_TEST.isdisjoint(activity.kinds))


def asked_in_tests(unit: Unit) -> frozenset[int]:
    """The passages of a unit's tests that ask something of children: pages, scripts and answers, by identity."""
    asked: set[int] = set()
    for lesson in unit.lessons:
        if TEST in lesson.classes:
            asked |= _asked(lesson.part.passages)
        for activity in lesson.activities:
            if is_test(activity, lesson.classes):
                asked |= _asked(activity.part.passages)
    for activity in unit.opening_activities:
        if is_test(activity, ()):
            asked |= _asked(activity.part.passages)
    return frozenset(asked)


def _asked(passages: tuple[Passage, ...]) -> set[int]:
    return {id(passage) for passage in passages if passage.audience is Audience.KEY or read_by_children(passage)}
