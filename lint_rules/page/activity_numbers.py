"""How the activities of a unit are numbered: lesson by lesson, or straight through."""

import re

from lint_rules.manuscript.model import Lesson, Unit


def numbers_of(lesson: Lesson) -> frozenset[int]:
    """The numbers of a lesson's activities: as written, else by place."""
    figures = (re.match(r"\d+", activity.heading.figure) for activity in lesson.activities)
    written = {int(figure[0]) for figure in figures if figure is not None}
    return frozenset(written or range(1, len(lesson.activities) + 1))


def numbered_through(unit: Unit) -> frozenset[int]:
    """The numbers of a unit's activities where they run straight through its lessons, so that each is named once; none
    where they begin anew in a lesson."""
    own = [numbers_of(lesson) for lesson in unit.lessons]
    every = frozenset[int]().union(*own)
    return every if len(own) > 1 and sum(map(len, own)) == len(every) else frozenset()
