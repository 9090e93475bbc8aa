"""One run over units that are in memory: read, analyse, run the rules, settle. Still no disk, network or terminal.

Units are taken a handful at a time, so that the language room gets full batches and a book of a thousand units does not
have to be in memory at once. The next handful is read, and its language begun, before the rules run on the one before.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache, partial
from itertools import islice
from typing import NoReturn, Protocol

from lint_rules.course.model import Course, Level
from lint_rules.course.problem import CourseProblem
from lint_rules.engine.check import Outcome, Result, choose, read_unit_rules, request_of, requests_of, settle
from lint_rules.engine.packed import PackedOutcomes
from lint_rules.engine.preload import load_tables
from lint_rules.english.text import matches_of
from lint_rules.finding import Finding, Severity
from lint_rules.language.service import (
    English,
    EnglishMatch,
    EnglishUnavailable,
    Language,
    LanguageUnavailable,
    Request,
)
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.course_words import CourseWords
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.rule import Need, Reading, RuleModule
from lint_rules.source import Position, Source, Span

_Finish = Callable[[], dict[str, Outcome]]  # gives what reading some units gave, by path

UNITS_AT_ONCE = 4
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
    outcomes = PackedOutcomes()
    sources = {source.path: source for source in sorted(job.sources, key=lambda source: source.path)}
    lists = cache(lambda: CourseWords(job.course))
    small_enough = (source for source in sources.values() if len(source.text) <= LARGEST_UNIT)
    for finish in _one_ahead(_begin(job, some, chosen, lists) for some in _handfuls(small_enough)):
        done = finish()
        outcomes.add(done)
        job.progress(len(done))
    if job.whole_book:
        job.language.rest()
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


def _one_ahead(begun: Iterable[_Finish]) -> Iterator[_Finish]:
    """Each of these once the one after it has begun: what that asks of other processes goes on meanwhile."""
    before: _Finish | None = None
    for one in begun:
        if before is not None:
            yield before
        before = one
    if before is not None:
        yield before


def _begin(job: Job, some: Sequence[Source], chosen: Sequence[RuleModule], lists: Callable[[], CourseWords]) -> _Finish:
    """Read what is not remembered of some units, and begin with its language; calling what this gives does the rest."""
    known = job.memory.recall(some) if job.memory else {}
    missing = [source for source in some if source.path not in known]
    if not missing:
        return lambda: known
    asks = any(Need.LANGUAGE in module.rule.needs for module in chosen)
    can_wait = asks and job.language.expect()
    units = [read_unit(source) for source in missing]
    waiting = _begin_language(job, units) if asks else dict
    if can_wait:
        with suppress(Exception):  # a rule that misses its table says so
            load_tables()

    def finish() -> dict[str, Outcome]:
        fresh = _read_some(job, dict(zip(missing, units, strict=True)), chosen, lists(), waiting)
        if job.memory:
            for source in missing:
                job.memory.keep(source, fresh[source.path])
        return known | fresh

    return finish


def _begin_language(job: Job, units: Sequence[Unit]) -> Callable[[], dict[Request, Analysis]]:
    """Begin with what some units ask; what goes wrong in that is raised where the answers are wanted."""
    try:
        wanted = list(dict.fromkeys(request for unit in units for request in requests_of(unit, job.course)))
        waiting = job.language.begin(wanted)
    except Exception as error:
        return partial(_raise, error)
    return lambda: dict(zip(wanted, waiting(), strict=True))


def _raise(error: Exception) -> NoReturn:
    raise error


def _read_some(
    job: Job,
    units: Mapping[Source, Unit],
    chosen: Sequence[RuleModule],
    lists: CourseWords,
    waiting: Callable[[], dict[Request, Analysis]],
) -> dict[str, Outcome]:
    unavailable: dict[Need, str] = {}
    analyses: dict[Request, Analysis] = {}
    matches: dict[Passage, tuple[EnglishMatch, ...]] = {}
    if job.english is not None and any(Need.ENGLISH in module.rule.needs for module in chosen):
        try:
            matches = matches_of(job.english, list(units.values()), job.course.variety)
        except Exception as error:  # a room that breaks must neither stop the other checks nor pass for a clean page
            unavailable[Need.ENGLISH] = _why(error)
    try:
        analyses = waiting()
    except Exception as error:
        unavailable[Need.LANGUAGE] = _why(error)

    @cache
    def analyse(passage: Passage) -> Analysis:
        return analyses[request_of(passage, job.course)] if analyses else Analysis((), (), ())

    def english(passage: Passage) -> tuple[EnglishMatch, ...]:
        return matches.get(passage, ())

    outcomes = {}
    for source, unit in units.items():
        reading = Reading(unit, job.course, level_of(unit, job.course), analyse, english, job.files, lists)
        outcomes[source.path] = read_unit_rules(reading, chosen, unavailable)
    return outcomes
