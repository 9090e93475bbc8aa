"""What a rule is, what it may need, what an example is, and what a rule gets to see.

A rule is a module under ``lint_rules/rules/<family>/`` named as the rule (with underscores). It holds a docstring (what
it catches and why that matters to a child or a teacher), one ``RULE``, and one generator: ``find(reading)`` for a rule
that one unit can be judged by, ``find_in_book(book)`` for one that needs the whole book (or both), or
``find_in_stets(review)`` for one about stets.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cached_property
from types import ModuleType

from lint_rules.course.model import Course, Level
from lint_rules.course.versions import FIRST, version_parts
from lint_rules.facts import UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.language.service import EnglishMatch
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.course_words import CourseWords
from lint_rules.manuscript.model import Passage, Stet, Unit
from lint_rules.page.readings import Readings, readings_of
from lint_rules.unit_language.grammar_uses import Place, grammar_uses
from lint_rules.unit_language.unit_words import UnitWords
from lint_rules.vocabulary_map import WordRow, vocabulary_map


class Need(StrEnum):
    """What must be computed before a rule can run."""

    LANGUAGE = "language"
    ENGLISH = "english"


@dataclass(frozen=True, slots=True)
class Limit:
    """A figure a rule holds a text to, and where it is from: a published source or 'common practice, no source'."""

    what: str
    source: str


@dataclass(frozen=True, slots=True)
class Example:
    """A manuscript that a rule lets pass or flags. The words to be flagged stand in « ».

    ``text`` is a whole unit (it starts with ``---``), lessons (``## …``), activities (``### …``) or what stands in one
    activity; what is missing around it is supplied. ``course`` is YAML merged into the plain example course (its one
    level is ``level-1``, A1), ``words`` are rows of its word list; ``later_words`` are rows of the list of a second
    level, ``level-2`` (A2), which the course has only then. ``others`` are further whole units of the same course.
    ``english`` is what an English checker would say: (words, category, rule, message) for each match, and after these
    what it proposes. ``weight`` is what its findings weigh, where that is not what the rule's usually do.
    """

    text: str
    course: str = ""
    words: str = ""
    later_words: str = ""
    others: tuple[str, ...] = ()
    english: tuple[tuple[str, ...], ...] = ()
    files: tuple[str, ...] = ()  # art files that exist
    why: str = ""
    weight: Severity | None = None


class Within(StrEnum):
    """How far apart findings may be that one decision answers."""

    ACTIVITY = "activity"
    UNIT = "unit"
    COURSE = "course"


class By(StrEnum):
    """What findings have in common that one decision answers."""

    RULE = "rule"  # that the rule found them
    WORDS = "words"  # the words that a reader sees there
    KEY = "key"  # ``Found.key``
    ABOUT = "about"  # ``Found.about``


@dataclass(frozen=True, slots=True)
class Gather:
    """How a rule's findings gather into points: those that one decision of the author answers are one point.

    A finding that has nothing to gather ``by`` (no key, say) goes by the rule's next way, or stays a point.
    ``says`` is what a point of several findings says, all alike or by what they are about: `{count}` is how many they
    are, `{words}` the different words they point at, `{keys}` their different keys, `{key}` and `{about}` those of the
    first. Without it a point says what its first finding says. ``only``: a way for findings that are about this alone.
    """

    within: Within
    by: By = By.RULE
    says: str | Mapping[str, str] = ""
    only: str = ""


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule's declaration. ``severity`` is its usual weight; ``needs`` what it needs beyond the manuscript; ``cure``
    what to do, for the rule's page, which also shows the first two examples of each kind.

    ``since`` is the version of hornbook that brought it: in a course that has adopted an older one it only advises.
    ``gathers`` says which of its findings are one point: the first way that fits (else each is one). Rules of the same
    ``fault`` that point at the very same words have found one fault: that is one point too. ``quiet``: authors never
    thanked for its notes, so only a course that names the rule in its `rules` is told them.
    """

    name: str
    family: str
    severity: Severity
    passes: tuple[Example, ...]
    fails: tuple[Example, ...]
    needs: frozenset[Need] = frozenset()
    limits: tuple[Limit, ...] = ()
    cure: str = ""
    since: str = FIRST
    gathers: tuple[Gather, ...] = ()
    fault: str = ""
    quiet: bool = False


@dataclass(frozen=True)
class Reading:
    """What a unit rule sees: the unit, its course and level, and the language of its passages.

    ``files`` are the paths (inside the course) of the art files that exist; ``lists`` the course's word lists, indexed
    (without them the reading indexes them itself), ``done`` the unit with its exercises done (without it, likewise).
    """

    unit: Unit
    course: Course
    level: Level
    analyse: Callable[[Passage], Analysis]
    english: Callable[[Passage], tuple[EnglishMatch, ...]]
    files: frozenset[str] = frozenset()
    lists: CourseWords | None = None
    done: Readings | None = None

    @cached_property
    def readings(self) -> Readings:
        """The unit as a child ends up reading it, its exercises done; and how its exercises were read."""
        return self.done or readings_of(self.unit)

    @property
    def read(self) -> Unit:
        """The unit as a child ends up reading it: what rules about words and sentences look at."""
        return self.readings.done

    @cached_property
    def words(self) -> UnitWords:
        """The words of the unit's passages and their levels."""
        return UnitWords(self.read, self.lists or CourseWords(self.course), self.analyse)

    @cached_property
    def grammar(self) -> tuple[Place, ...]:
        """The structures that children meet in the unit, place by place."""
        return tuple(grammar_uses(self.read, self.analyse))


@dataclass(frozen=True)
class Book:
    """What a book rule sees: the course and small facts of every unit, in teaching order."""

    course: Course
    units: tuple[UnitFacts, ...]

    @cached_property
    def vocabulary(self) -> tuple[WordRow, ...]:
        """Where each target word is taught, met again and tested."""
        return vocabulary_map(self.course, self.units)


@dataclass(frozen=True, slots=True)
class StetReview:
    """What the rules about stets see, once all other findings of a file are known.

    ``unused`` are those of ``stets`` that let nothing stand although their rule has run on all that they cover.
    """

    stets: tuple[Stet, ...]
    unused: tuple[Stet, ...]
    rule_names: tuple[str, ...]
    today: date


UnitFinder = Callable[[Reading], Iterator[Found]]
BookFinder = Callable[[Book], Iterator[Found]]
StetFinder = Callable[[StetReview], Iterator[Found]]


@dataclass(frozen=True, slots=True)
class RuleModule:
    """A rule as loaded: its declaration, its page (the docstring), its generators, and the name of its module."""

    rule: Rule
    code: str
    page: str
    find: UnitFinder | None
    find_in_book: BookFinder | None
    find_in_stets: StetFinder | None


def from_module(module: ModuleType) -> RuleModule:
    """Read a rule module. Raises TypeError when it is not one."""
    rule = getattr(module, "RULE", None)
    find: UnitFinder | None = getattr(module, "find", None)
    find_in_book: BookFinder | None = getattr(module, "find_in_book", None)
    find_in_stets: StetFinder | None = getattr(module, "find_in_stets", None)
    if not isinstance(rule, Rule) or not module.__doc__ or not (find or find_in_book or find_in_stets):
        raise TypeError(f"{module.__name__} must hold a docstring, a RULE, and find, find_in_book or find_in_stets")
    if version_parts(rule.since) is None:
        raise TypeError(f"{module.__name__}: since must be a version such as 0.2, not {rule.since!r}")
    return RuleModule(rule, module.__name__, module.__doc__, find, find_in_book, find_in_stets)
