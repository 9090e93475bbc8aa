"""Where a place of a unit's file is, as people say it: `level-1, unit 3: A market`, `Lesson 3, activity 2`."""

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from lint_rules.course.model import Course
from lint_rules.manuscript.model import Activity, Lesson, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

_BEFORE = "Before the first lesson"


@dataclass(frozen=True, slots=True)
class Spot:
    """An activity, the beginning of a lesson or of a unit: its name (`Lesson 3, activity 2`), its title, its start."""

    name: str
    title: str = ""
    start: int = 0


@dataclass(frozen=True)
class Whereabouts:
    """A unit that has been read, and how people call its places."""

    unit: Unit
    level: str

    @property
    def short_in_level(self) -> str:
        """The unit by its number: `unit 3`; one without a number by its file."""
        number = self.unit.front.unit
        return f"unit {number}" if number else self.unit.path.rpartition("/")[2]

    @property
    def short(self) -> str:
        """The unit by its number with its level: `level-1, unit 3`."""
        return f"{self.level}, {self.short_in_level}" if self.level else self.short_in_level

    @property
    def name(self) -> str:
        """The unit by its number and title: `level-1, unit 3: A market`."""
        title = self.unit.heading.passage.text if self.unit.heading else self.unit.front.title
        return f"{self.short}: {_one_line(title)}" if title.strip() else self.short

    @cached_property
    def _spots(self) -> tuple[tuple[int, ...], tuple[Spot, ...]]:
        spots = tuple(_spots_of(self.unit))
        return tuple(spot.start for spot in spots), spots

    def spot(self, offset: int) -> Spot:
        """The activity, or the beginning of a lesson or of the unit, that has an offset of the file."""
        starts, spots = self._spots
        return spots[max(0, bisect_right(starts, offset) - 1)]


def whereabouts(source: Source, course: Course) -> Whereabouts:
    """Read a unit's file for the names of its places."""
    unit = read_unit(source)
    level = course.level_of(unit.path)
    return Whereabouts(unit, level.name if level else unit.front.level)


def activity_number(activity: Activity, at: int) -> str:
    """An activity's number as written; where none is written, which one of its lesson it is."""
    return activity.heading.number.rstrip(". )") or str(at)


def lesson_name(at: int) -> str:
    """What a lesson is called by its place in the unit."""
    return f"Lesson {at}"


def _spots_of(unit: Unit) -> Iterator[Spot]:
    yield Spot("The unit as a whole")
    if unit.heading is not None:
        yield Spot(_BEFORE, "", unit.heading.span.end)
    for at, activity in enumerate(unit.opening_activities, start=1):
        yield _spot(activity, f"{_BEFORE}, activity {activity_number(activity, at)}")
    for number, lesson in enumerate(unit.lessons, start=1):
        yield _spot(lesson, lesson_name(number))
        for at, activity in enumerate(lesson.activities, start=1):
            yield _spot(activity, f"{lesson_name(number)}, activity {activity_number(activity, at)}")


def _spot(part: Lesson | Activity, name: str) -> Spot:
    return Spot(name, _one_line(part.heading.passage.text), part.span.start)


def _one_line(text: str) -> str:
    return " ".join(text.replace("\ufffc", " ").split())
