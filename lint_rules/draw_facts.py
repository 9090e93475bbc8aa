"""Draws the small facts of one unit that the book's rules work on."""

from lint_rules.facts import LessonTime, Spot, UnitFacts
from lint_rules.language.times import lesson_minutes
from lint_rules.manuscript.model import Lesson
from lint_rules.rule import Reading


def facts_of(reading: Reading) -> UnitFacts:
    """Draw the facts of one unit."""
    unit = reading.unit
    title = unit.heading.passage.text if unit.heading else unit.front.title
    return UnitFacts(
        unit.path,
        reading.level.index,
        unit.front.unit,
        Spot(*unit.title_span, title),
        lessons=tuple(_lesson_time(lesson) for lesson in unit.lessons),
    )


def _lesson_time(lesson: Lesson) -> LessonTime:
    heading = Spot(*lesson.heading.passage.span(), lesson.heading.passage.text)
    minutes = lesson_minutes(lesson)
    return LessonTime(heading, minutes.low, minutes.high) if minutes else LessonTime(heading, -1, -1)
