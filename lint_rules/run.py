"""One run over units that are in memory: read, analyse, run the rules, settle. Still no disk, network or terminal.

Units are taken a handful at a time, so that the language room gets full batches and a book of a thousand units does not
have to be in memory at once.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache
from itertools import islice
from typing import Protocol

from lint_rules.check import Outcome, Result, choose, read_unit_rules, request_of, requests_of, settle
from lint_rules.course.model import Course, Level
from lint_rules.course.problem import CourseProblem
from lint_rules.finding import Finding, Severity
from lint_rules.language.course_words import CourseWords
from lint_rules.language.english_text import matches_of
from lint_rules.language.service import (
    English,
    EnglishMatch,
    EnglishUnavailable,
    Language,
    LanguageUnavailable,
    Request,
)
from lint_rules.language.tokens import Analysis
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Need, Reading, RuleModule
from lint_rules.source import Position, Source, Span

UNITS_AT_ONCE = 8
LARGEST_UNIT = 500_000  # characters; a unit of 1,200 words has some 15,000 with all its notes


class Memory(Protocol):
    """Remembers what reading a unit gave."""

    def recall(self, sources: Sequence[Source]) -> dict[str, Outcome]:
        """The outcomes that are known, by path."""
        ...

    def keep(self, source: Source, outcome: Outcome) -> None:
        """Remember an outcome."""
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
    progress: Callable[[int], None] = field(default=lambda done: None)


def run(job: Job) -> Result:
    """Check the units of a job. The order of its sources changes nothing."""
    chosen = choose(job.rules, job.course, english=job.english is not None)
    outcomes: dict[str, Outcome] = {}
    sources = {source.path: source for source in sorted(job.sources, key=lambda source: source.path)}
    lists: CourseWords | None = None
    for some in _handfuls(source for source in sources.values() if len(source.text) <= LARGEST_UNIT):
        known = job.memory.recall(some) if job.memory else {}
        missing = [source for source in some if source.path not in known]
        lists = lists or (CourseWords(job.course) if missing else None)
        fresh = _read_some(job, missing, chosen, lists) if lists else {}
        if job.memory:
            for path, outcome in fresh.items():
                job.memory.keep(sources[path], outcome)
        outcomes |= known | fresh
        job.progress(len(some))
    names = [module.rule.name for module in job.rules]
    result = settle(job.course, outcomes, sources, chosen, job.today, whole_book=job.whole_book, all_names=names)
    too_large = (_too_large(source) for source in sources.values() if len(source.text) > LARGEST_UNIT)
    findings = (*result.findings, *(_unreadable(problem) for problem in (*job.unreadable, *too_large)))
    return replace(result, findings=tuple(sorted(findings, key=lambda f: f.order)))


def _unreadable(problem: CourseProblem) -> Finding:
    """A file that is no text is a finding like any other, so that it shows in every report; no setting silences it."""
    place = Position(max(problem.line, 1), max(problem.column, 1))
    return Finding("unreadable-manuscript", Severity.STOP, problem.path, Span(0, 0), place, place, "", problem.message)


def _why(error: Exception) -> str:
    known = isinstance(error, LanguageUnavailable | EnglishUnavailable)
    return str(error) if known else f"{type(error).__name__}: {error}"


def _too_large(source: Source) -> CourseProblem:
    message = (
        f"This file has {len(source.text):,} characters, so it was not read: a unit is a few pages. If it holds a "
        "whole book, give each unit a file of its own; if pictures are written into it, give each picture one."
    )
    return CourseProblem(source.path, 1, 1, message)


def level_of(unit: Unit, course: Course) -> Level:
    """The level of a unit: the one whose folder it is in, else the one its front matter names.

    Raises KeyError when it is in none: the caller must not ask.
    """
    level = course.level_of(unit.path) or course.level_named(unit.front.level)
    if level is None:
        raise KeyError(unit.path)
    return level


def _handfuls(sources: Iterable[Source]) -> Iterator[list[Source]]:
    waiting = iter(sources)
    while some := list(islice(waiting, UNITS_AT_ONCE)):
        yield some


def _read_some(
    job: Job, sources: Sequence[Source], chosen: Sequence[RuleModule], lists: CourseWords
) -> dict[str, Outcome]:
    units = [read_unit(source) for source in sources]
    unavailable: dict[Need, str] = {}
    analyses: dict[Request, Analysis] = {}
    matches: dict[Passage, tuple[EnglishMatch, ...]] = {}
    if any(Need.LANGUAGE in module.rule.needs for module in chosen):
        try:
            analyses = _analyses(job, units)
        except Exception as error:  # a room that breaks must neither stop the other checks nor pass for a clean page
            unavailable[Need.LANGUAGE] = _why(error)
    if job.english is not None and any(Need.ENGLISH in module.rule.needs for module in chosen):
        try:
            matches = matches_of(job.english, units, job.course.variety)
        except Exception as error:
            unavailable[Need.ENGLISH] = _why(error)

    @cache
    def analyse(passage: Passage) -> Analysis:
        return analyses[request_of(passage, job.course)] if analyses else Analysis((), (), ())

    def english(passage: Passage) -> tuple[EnglishMatch, ...]:
        return matches.get(passage, ())

    outcomes = {}
    for source, unit in zip(sources, units, strict=True):
        reading = Reading(unit, job.course, level_of(unit, job.course), analyse, english, job.files, lists)
        outcomes[source.path] = read_unit_rules(reading, chosen, unavailable)
    return outcomes


def _analyses(job: Job, units: Sequence[Unit]) -> dict[Request, Analysis]:
    wanted = list(dict.fromkeys(request for unit in units for request in requests_of(unit, job.course)))
    return dict(zip(wanted, job.language.analyse(wanted), strict=True))
