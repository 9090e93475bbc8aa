"""One run over units that are in memory: read, run the rules, settle. Still no disk, network or terminal.

What is remembered of a unit is not read again; the rest is read by a pool of processes, where there is one and enough
to do for it to pay, else in this process.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import islice
from typing import Protocol

from lint_rules.course.model import Course
from lint_rules.course.problem import CourseProblem
from lint_rules.engine.check import Outcome, Result, choose, settle
from lint_rules.engine.read_units import UnitReader
from lint_rules.finding import Finding, Severity
from lint_rules.language.service import English, Language
from lint_rules.rule import RuleModule
from lint_rules.source import Position, Source, Span

UNITS_AT_ONCE = 4
LARGEST_UNIT = 500_000  # characters; a unit of 1,200 words has some 15,000 with all its notes


class Memory(Protocol):
    """Remembers what reading a unit gave."""

    def recall(self, source: Source) -> Outcome | None:
        """The outcome, where it is known."""
        ...

    def keep(self, source: Source, outcome: Outcome) -> None:
        """Remember an outcome."""
        ...


class Pool(Protocol):
    """Reads many units in several processes."""

    def read(self, sources: Sequence[Source]) -> Iterator[Outcome]:
        """What reading them gave, in order; fewer, from the first on, when the pool is of no use (any more)."""
        ...


@dataclass(frozen=True)
class Job:
    """What a run works on. ``rules`` are all that exist; ``files`` the art files that exist, by path in the course."""

    course: Course
    sources: Sequence[Source]
    rules: Sequence[RuleModule]
    language: Language
    today: date
    whole_book: bool
    english: English | None = None
    files: frozenset[str] = frozenset()
    unreadable: Sequence[CourseProblem] = ()  # unit files that could not be opened or decoded
    memory: Memory | None = None
    pool: Pool | None = None
    progress: Callable[[int], None] = field(default=lambda done: None)


def run(job: Job) -> Result:
    """Check the units of a job. The order of its sources changes nothing."""
    chosen = choose(job.rules, job.course, english=job.english is not None)
    sources = {source.path: source for source in sorted(job.sources, key=lambda source: source.path)}
    small_enough = [source for source in sources.values() if len(source.text) <= LARGEST_UNIT]
    outcomes = _outcomes(job, chosen, small_enough)
    names = [module.rule.name for module in job.rules]
    result = settle(job.course, outcomes, sources, chosen, job.today, whole_book=job.whole_book, all_names=names)
    too_large = (_too_large(source) for source in sources.values() if len(source.text) > LARGEST_UNIT)
    findings = (*result.findings, *(_unreadable(problem) for problem in (*job.unreadable, *too_large)))
    return replace(result, findings=tuple(sorted(findings, key=lambda f: f.order)))


def _outcomes(job: Job, chosen: Sequence[RuleModule], sources: Sequence[Source]) -> dict[str, Outcome]:
    """What reading each unit gave, now or before, by path, in the order of the sources."""
    found: dict[str, Outcome] = {}
    for source in sources:
        known = job.memory.recall(source) if job.memory else None
        if known is not None:
            found[source.path] = known
            job.progress(1)
    missing = [source for source in sources if source.path not in found]
    for source, outcome in zip(missing, _read(job, chosen, missing), strict=True):
        found[source.path] = outcome
        if job.memory:
            job.memory.keep(source, outcome)
        job.progress(1)
    return {source.path: found[source.path] for source in sources}


def _read(job: Job, chosen: Sequence[RuleModule], missing: Sequence[Source]) -> Iterator[Outcome]:
    done = 0
    if job.pool is not None:
        for outcome in job.pool.read(missing):
            done += 1
            yield outcome
    reader = UnitReader(job.course, chosen, job.language, job.english, job.files)
    waiting = iter(missing[done:])
    while some := list(islice(waiting, UNITS_AT_ONCE)):
        yield from reader.read(some).values()


def _unreadable(problem: CourseProblem) -> Finding:
    """A file that is no text is a finding like any other, so that it shows in every report; no setting silences it."""
    place = Position(max(problem.line, 1), max(problem.column, 1))
    return Finding("unreadable-manuscript", Severity.STOP, problem.path, Span(0, 0), place, place, "", problem.message)


def _too_large(source: Source) -> CourseProblem:
    message = (
        f"This file has {len(source.text):,} characters, so it was not read: a unit is a few pages. If it holds a "
        "whole book, give each unit a file of its own; if pictures are written into it, give each picture one."
    )
    return CourseProblem(source.path, 1, 1, message)
