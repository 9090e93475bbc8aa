"""The vocabulary map: where each target word of the course is taught, met again, and tested. Pure, over facts.

Taught is the first lesson of the unit that teaches a word (by the word list, or for a word without a unit the first
unit of its level that presents it) in which the word stands on a pupil's page or in a script, a `words` panel before
anything else; a word of instructions is taught by an instruction too. A later lesson in which children read, hear, say
or write the word is one meeting, however often it has it there.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import groupby

from lint_rules.course.model import Course, Level, WordEntry
from lint_rules.facts import TEACHING, Spot, UnitFacts, Where, WordMet
from lint_rules.unit_language.tests_of import TEST

_IN_TEST = (Where.TEST, Where.KEY)
_BEST_SEEN = (Where.PANEL, Where.PAGE, Where.SCRIPT)  # where a word is pointed at, before a heading or a picture


@dataclass(frozen=True, slots=True)
class Sight:
    """A target word in one lesson of one unit: the unit (index in the book), the lesson, and the first place."""

    unit: int
    lesson: int
    spot: Spot
    wheres: frozenset[Where]


@dataclass(frozen=True, slots=True)
class WordRow:
    """One target word: its row of the list, where it is taught (None: nowhere), where met again, where tested, and how
    many lessons of its level come after the one that teaches it (``room``)."""

    entry: WordEntry
    taught: Sight | None
    met: tuple[Sight, ...]
    tested: tuple[Sight, ...]
    room: int
    headed: bool = False  # not taught, but its unit has it in a heading or an instruction
    in_passing: bool = False  # not taught, but its unit has it somewhere: in the notes, in a label

    @property
    def meetings(self) -> int:
        """How many later lessons have the word."""
        return len(self.met)


def vocabulary_map(course: Course, units: Sequence[UnitFacts]) -> tuple[WordRow, ...]:
    """A row for every target word, in the order of the word lists. ``units`` are in teaching order."""
    sights = _sights(units, len(course.words))
    lessons_after = _lessons_after(units)
    numbers = _numbers(units)
    return tuple(
        _row(at, entry, sights[at], units, lessons_after, numbers.get((entry.level, entry.unit), ()))
        for at, entry in enumerate(course.words)
    )


def _sights(units: Sequence[UnitFacts], count: int) -> list[list[Sight]]:
    """The lessons that have each word, in order."""
    met: list[list[tuple[int, WordMet]]] = [[] for _ in range(count)]
    for number, unit in enumerate(units):
        for word in unit.words:
            met[word.entry].append((number, word))
    return [list(_by_lesson(words)) for words in met]


def _by_lesson(met: Sequence[tuple[int, WordMet]]) -> Iterator[Sight]:
    """One word's sights, lesson by lesson. ``met`` are its meetings with the index of their unit."""

    def lesson(one: tuple[int, WordMet]) -> tuple[int, int]:
        return one[0], one[1].lesson

    for place, words in groupby(sorted(met, key=lesson), lesson):
        yield _sight(*place, [word for _, word in words])


def _sight(unit: int, lesson: int, words: Sequence[WordMet]) -> Sight:
    first = min(words, key=lambda word: (_preference(word.where), word.spot.start))
    return Sight(unit, lesson, first.spot, _all_of(*(word.where for word in words)))


def _preference(where: Where) -> int:
    return 0 if where is Where.PANEL else 1 if where in _BEST_SEEN else 2


@cache
def _all_of(*wheres: Where) -> frozenset[Where]:
    """One set for all that are equal: a long book has hundreds of thousands of sights."""
    return frozenset(wheres)


def _lessons_after(units: Sequence[UnitFacts]) -> list[int]:
    """How many lessons of its level come after each unit."""
    after: Counter[int] = Counter()
    found = [0] * len(units)
    for number, unit in reversed(list(enumerate(units))):
        found[number] = after[unit.level]
        after[unit.level] += len(unit.lessons)
    return found


def _row(
    at: int,
    entry: WordEntry,
    sights: Sequence[Sight],
    units: Sequence[UnitFacts],
    lessons_after: Sequence[int],
    teaching: tuple[int, ...],
) -> WordRow:
    taught = _taught(sights, teaching, TEACHING | {Where.HEADING} if entry.use == _KNOW else TEACHING)
    if taught is None:
        headed = any(sight.unit in teaching and sight.wheres & _HEADED for sight in sights)
        tested = tuple(sight for sight in sights if sight.wheres & {*_IN_TEST})
        in_passing = not tested and any(at in units[number].in_passing for number in teaching)
        return WordRow(entry, None, (), tested, 0, headed, in_passing)
    later = [sight for sight in sights if (sight.unit, sight.lesson) > (taught.unit, taught.lesson)]
    tested = tuple(
        sight
        for sight in sights
        if sight.wheres & {*_IN_TEST} and (sight.unit, sight.lesson) >= (taught.unit, taught.lesson)
    )
    room = lessons_after[taught.unit] + len(units[taught.unit].lessons) - 1 - taught.lesson
    return WordRow(entry, taught, tuple(later), tested, room)


def _numbers(units: Sequence[UnitFacts]) -> Mapping[tuple[int, int], tuple[int, ...]]:
    """The units that teach what a list gives to a level and a unit; 0, as in the lists, is any unit of the level."""
    found: defaultdict[tuple[int, int], list[int]] = defaultdict(list)
    for number, unit in enumerate(units):
        for of in {0, unit.unit}:
            found[unit.level, of].append(number)
    return {place: tuple(numbers) for place, numbers in found.items()}


def _taught(sights: Sequence[Sight], teaching: Sequence[int], wheres: Set[Where]) -> Sight | None:
    """The first lesson that teaches a word. A word in a test, a title or a picture alone is not taught; but children
    need only know some, and meet them in an instruction."""
    own = frozenset(teaching)
    fair = [sight for sight in sights if sight.unit in own and sight.wheres & wheres]
    panels = [sight for sight in fair if Where.PANEL in sight.wheres]
    return next(iter(panels or fair), None)


_KNOW = "know"
_HEADED = frozenset({Where.HEADING, Where.RUBRIC})


class Gap(StrEnum):
    """What is missing of a target word; what is still to come in units that are not written yet is waited for."""

    TAUGHT = "not taught"
    MET = "met too seldom"
    TESTED = "not tested"


def gaps(row: WordRow, course: Course, units: Sequence[UnitFacts]) -> tuple[Gap, ...]:
    """What is missing of a word: the rules report these, and the map lists them."""
    level = course.levels[row.entry.level]
    mine = [unit for unit in units if unit.level == level.index]
    if row.taught is None:
        if row.in_passing and row.entry.use == _KNOW:
            return ()
        return (Gap.TAUGHT,) if unit_to_teach(row, level, mine) is not None else ()
    if row.entry.use == _KNOW:
        return ()  # children need only understand it when they meet it
    met = () if _is_met_enough(row, level, mine) else (Gap.MET,)
    return met if _is_tested_enough(row, level, mine, units[row.taught.unit]) else (*met, Gap.TESTED)


def unit_to_teach(row: WordRow, level: Level, units: Sequence[UnitFacts]) -> UnitFacts | None:
    """The unit, of a level's, that should teach a word; None while it may still come in one that is not written yet."""
    own = next((unit for unit in units if unit.unit == row.entry.unit), None)
    complete = bool(level.units) and len(units) >= level.units
    return own if own is not None or not complete or not units else units[-1]


def _is_met_enough(row: WordRow, level: Level, units: Sequence[UnitFacts]) -> bool:
    """Say whether a word comes back often enough, or as often as there are lessons; those of units that are still to be
    written may all have it, if they have as many as the others."""
    lessons = max((len(unit.lessons) for unit in units), default=0)
    to_come = max(0, level.units - len(units)) * lessons
    return row.meetings + to_come >= min(level.limits.recycle, row.room + to_come)


def _is_tested_enough(row: WordRow, level: Level, units: Sequence[UnitFacts], unit: UnitFacts) -> bool:
    """Say whether a test asks for a word, or need not: who does what an instruction says knows its words, a level may
    test nothing, and the test of a unit may still be to come."""
    if row.tested or row.taught is None or Where.RUBRIC in row.taught.wheres:
        return True
    tests = TEST in level.unit_pattern or any(map(has_test, units))
    return not tests or (len(units) < level.units and not has_test(unit))


def has_test(unit: UnitFacts) -> bool:
    """Say whether a unit's tests ask for any target word."""
    return any(word.where in _IN_TEST for word in unit.words)
