"""Reading units by the unit rules of a run, in this process: from sources to outcomes.

A few units are read at once, so that the English checker gets full batches.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from lint_rules.course.model import Course, Level
from lint_rules.engine.budget import budget_for_a_unit
from lint_rules.engine.check import Outcome, passages_to_analyse, read_unit_rules, request_of
from lint_rules.english.text import matches_of
from lint_rules.language.service import (
    English,
    EnglishMatch,
    EnglishUnavailable,
    Language,
    LanguageUnavailable,
    Request,
)
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.course_words import CourseWords, course_words
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.rule import Need, Reading, RuleModule
from lint_rules.source import Source

_SILENT = Analysis((), (), ())


@dataclass(frozen=True)
class UnitReader:
    """What reading a unit takes: ``rules`` are those of this run, ``files`` the art files that exist."""

    course: Course
    rules: Sequence[RuleModule]
    language: Language
    english: English | None = None
    files: frozenset[str] = frozenset()

    def read(self, sources: Sequence[Source]) -> dict[str, Outcome]:
        """What reading some units gives, by path."""
        units = [readings_of(read_unit(source)) for source in sources]
        unavailable: dict[Need, str] = {}
        requests = {passage: request_of(passage, self.course) for u in units for passage in passages_to_analyse(u)}
        analyses: Mapping[Request, Analysis] = {}
        matches: Mapping[Passage, tuple[EnglishMatch, ...]] = {}
        # A room that breaks must neither stop the other checks nor pass for a clean page.
        try:
            if self.english is not None and self._asks(Need.ENGLISH):
                matches = matches_of(self.english, units, self.course.variety)
        except Exception as error:
            unavailable[Need.ENGLISH] = _why(error)
        try:
            if self._asks(Need.LANGUAGE):
                wanted = list(dict.fromkeys(requests.values()))
                analyses = dict(zip(wanted, self.language.analyse(wanted), strict=True))
        except Exception as error:
            unavailable[Need.LANGUAGE] = _why(error)

        analysed = {passage: analyses[request] for passage, request in requests.items()} if analyses else {}

        def analyse(passage: Passage) -> Analysis:
            known = analysed.get(passage)
            if known is None and analyses:
                return analyses[request_of(passage, self.course)]  # a rule may put passages together
            return known or _SILENT

        def english(passage: Passage) -> tuple[EnglishMatch, ...]:
            return matches.get(passage, ())

        outcomes = {}
        for readings in units:
            unit = readings.unit
            level = level_of(unit, self.course)
            reading = Reading(unit, self.course, level, analyse, english, self.files, self._lists, done=readings)
            with budget_for_a_unit() as budget:
                outcomes[unit.path] = read_unit_rules(reading, self.rules, unavailable, budget)
        return outcomes

    @cached_property
    def _lists(self) -> CourseWords:
        return course_words(self.course)

    def _asks(self, need: Need) -> bool:
        return any(need in module.rule.needs for module in self.rules)


def level_of(unit: Unit, course: Course) -> Level:
    """The level of a unit: the one whose folder it is in, else the one its front matter names.

    Raises KeyError when it is in none: the caller must not ask.
    """
    level = course.level_of(unit.path) or course.level_named(unit.front.level)
    if level is None:
        raise KeyError(unit.path)
    return level


def _why(error: Exception) -> str:
    known = isinstance(error, LanguageUnavailable | EnglishUnavailable)
    return str(error) if known else f"{type(error).__name__}: {error}"
