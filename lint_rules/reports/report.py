"""What every report is made from: one run's result, and how its files are called where the reader stands."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from lint_rules.course.model import Course
from lint_rules.engine.check import Broken, Result
from lint_rules.engine.gather import Point
from lint_rules.engine.suppression.carried import Entry
from lint_rules.facts import UnitFacts
from lint_rules.finding import Finding, Severity, Status
from lint_rules.source import Source


@dataclass(frozen=True, slots=True)
class Skipped:
    """A file that was not checked, and why. ``inside`` is its path inside the course, where it is in one."""

    path: str
    why: str
    inside: str = ""
    line: int = 0


@dataclass(frozen=True, slots=True)
class Lack:
    """What a release asks for and this book does not have: in a few words, and what would be right."""

    what: str  # 'level-1: units 2 and 3 of 3 are not there'
    cure: str


@dataclass(frozen=True)
class Report:
    """One run over one course.

    ``shown`` gives, for each path inside the course, the path that the reader knows it by (relative to where the
    command was given). ``blocks_from`` is the least severity that makes the run fail. ``unchecked`` names the checks
    that nobody asked for, with the reason (they are neither clean nor broken). ``spoilt`` says that part of the course
    could not be read (a row of a word list, say), so that the run was not whole. ``carried_gone`` are the entries of
    carried.yaml whose finding is gone, ``carried_kept`` those that still stand. ``lacks`` is what a release asks for
    and the book does not have; ``told`` what a release says besides; ``part`` the one level that is released.
    """

    course: Course
    result: Result
    sources: Mapping[str, Source]
    shown: Mapping[str, str]
    blocks_from: Severity
    skipped: tuple[Skipped, ...] = ()
    unchecked: Mapping[str, str] = field(default_factory=dict)
    root: Path = Path(".")
    files: frozenset[str] = frozenset()
    carried_gone: tuple[Entry, ...] = ()
    carried_kept: tuple[Entry, ...] = ()
    spoilt: bool = False
    prefix: str = ""  # of a path inside the course, as seen from the top of the repository: `books/kites/`
    lacks: tuple[Lack, ...] = ()
    told: tuple[str, ...] = ()
    part: str = ""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The findings that count, sorted."""
        return self.result.open

    @property
    def broken(self) -> tuple[Broken, ...]:
        """The checks that could not run."""
        return self.result.broken

    @property
    def points(self) -> tuple[Point, ...]:
        """The findings that count, gathered into what one decision answers: what people see and count."""
        return self.result.points

    @property
    def blocking(self) -> tuple[Point, ...]:
        """The points that make the run fail."""
        return tuple(point for point in self.points if point.severity.weight >= self.blocks_from.weight)

    @property
    def facts(self) -> tuple[UnitFacts, ...]:
        """Facts of every unit, in teaching order."""
        return self.result.facts

    def path(self, path: str) -> str:
        """The path that the reader knows a file by."""
        return self.shown.get(path, path)

    def count(self) -> Counter[Severity]:
        """Points by severity."""
        return Counter(point.severity for point in self.points)

    def with_status(self, status: Status) -> tuple[Finding, ...]:
        """The findings of one status."""
        return tuple(finding for finding in self.result.findings if finding.status is status)
