"""What a list is made from, and what it is: a book's units with what a run found, and tables of plain cells."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from lint_rules.course.model import Course, Level
from lint_rules.facts import UnitFacts
from lint_rules.finding import Finding
from lint_rules.manuscript.model import Activity, Lesson, Part, Unit
from lint_rules.vocabulary_map import WordRow

Cell = str | int


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its head, and about how many characters wide a reader wants it."""

    head: str
    width: int = 14


@dataclass(frozen=True, slots=True)
class Table:
    """A table of a list; ``note`` is what a reader must know to read it ('' for nothing)."""

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True)
class UnitOfBook:
    """A unit as read, and its level."""

    level: Level
    unit: Unit

    @property
    def name(self) -> str:
        """The unit as people call it: `level-1 unit 2`."""
        return f"{self.level.name} unit {self.unit.front.unit}"


@dataclass(frozen=True)
class BookOfUnits:
    """A book: its course, its units in teaching order, and what a run found (nothing for a list that needs no run).

    ``facts`` are in the order of ``units``; ``findings`` of every status; ``files`` the art files that exist.
    ``written_by`` says who wrote a line of a file (path, line from 1), '' where nobody knows.
    """

    course: Course
    units: tuple[UnitOfBook, ...]
    facts: tuple[UnitFacts, ...] = ()
    vocabulary: tuple[WordRow, ...] = ()
    findings: tuple[Finding, ...] = ()
    files: frozenset[str] = frozenset()
    structures_named: Callable[[str], tuple[str, ...]] = field(default=lambda label: ())
    written_by: Callable[[str, int], str] = field(default=lambda path, line: "")

    @property
    def by_path(self) -> Mapping[str, UnitOfBook]:
        """The units by path."""
        return {one.unit.path: one for one in self.units}


@dataclass(frozen=True, slots=True)
class Spot:
    """An activity, a lesson's beginning or a unit's, with what stands there and how people call it."""

    of: UnitOfBook
    lesson: Lesson | None
    activity: Activity | None
    part: Part
    lesson_number: int

    @property
    def cells(self) -> tuple[Cell, ...]:
        """Level, unit, lesson and activity, as cells (what there is none of is empty)."""
        number = self.activity.heading.number.rstrip(". )") if self.activity else ""
        return (self.of.level.name, self.of.unit.front.unit, self.lesson_number or "", number)


PLACE = (Column("level", 10), Column("unit", 5), Column("lesson", 7), Column("activity", 9))


def spots(book: BookOfUnits) -> Iterator[Spot]:
    """Everything of a book, place by place, in file order."""
    for of in book.units:
        yield Spot(of, None, None, of.unit.opening, 0)
        for activity in of.unit.opening_activities:
            yield Spot(of, None, activity, activity.part, 0)
        for number, lesson in enumerate(of.unit.lessons, start=1):
            yield Spot(of, lesson, None, lesson.part, number)
            for activity in lesson.activities:
                yield Spot(of, lesson, activity, activity.part, number)


def joined(texts: Sequence[str], between: str = ", ") -> str:
    """Texts in one cell, each once, in order."""
    return between.join(dict.fromkeys(text for text in texts if text))


def one_line(text: str) -> str:
    """A text in one line, without the mark of a picture."""
    return " ".join(text.replace("\ufffc", " ").split())
