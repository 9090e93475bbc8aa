"""One key for several activities that names lesson and activity: a table (`| Lesson 1 | 2 | 1 c, 2 a |`), heads
(`### Lesson 1, Activity 2`), or the rows of a lesson's plan (`| 8 | 2 Talk | Pairs ask. | 1 c, 2 a |`)."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Lesson, Passage, Role, Unit
from lint_rules.page.exercises.decimal_keys import headed_by_decimals
from lint_rules.page.exercises.key_places import keys_in, part_of

_HEADS = (
    lazy_re.compile(r"\W*lessons?\W*", re.I),
    lazy_re.compile(r"\W*(?:act(?:ivity|ivities)?|ex(?:ercises?)?|tasks?)\W*", re.I),
    lazy_re.compile(r"\W*(?:(?:the\s+)?(?:correct\s+)?answers?|ans\.?|keys?|solutions?)\W*", re.I),
)
_FIGURE = lazy_re.compile(r"[0-9]{1,3}")
_NUMBERS = lazy_re.compile(r"([0-9]{1,3})\s*[–—-]\s*([0-9]{1,3})|([0-9]{1,3}[a-z]?)", re.I)
# What names an activity in a plan: 2 Talk, Activity 3; a figure alone may be its minutes, and 2 minutes are.
_NAMED = lazy_re.compile(
    r"\s*(?:(?:act(?:ivity)?|ex(?:ercise)?|task)\.?\s*)([0-9]{1,2}[a-z]?)\b|\s*([0-9]{1,2}[a-z]?)[.:)]?\s+"
    r"(?!(?:min(?:ute)?s?|sec(?:ond)?s?|h(?:ours?)?|children|pupils|students|learners)\b)(?=[^\W\d_])",
    re.I,
)
_HEAD = lazy_re.compile(
    r"\W*lesson\s+([0-9]{1,2})\s*[,:;./–—-]?\s*(?:activity|exercise|ex\.|act\.|task)\s*([0-9]{1,3}[a-z]?)\s*(?:[:.)–—-]\s*|$|(?=\n))",
    re.I,
)
_FEWEST = 2  # heads: one alone may be a reference
_SAYS = lazy_re.compile(r"\w")
_OF_LESSON = lazy_re.compile(r"\blesson\s+([0-9]{1,3})\b", re.I)
_TEST = lazy_re.compile(r"\b(?:test|quiz)\b", re.I)

Grid = Mapping[tuple[int, int], Passage]


@dataclass(frozen=True, slots=True)
class UnitKeys:
    """The passages of such keys, what each activity gets of them, and the lesson of each answer; all by identity."""

    passages: frozenset[int]
    given: Mapping[int, tuple[Passage, ...]]
    lessons: Mapping[int, Lesson]


@lru_cache(maxsize=8)  # asked for by each activity of a unit
def unit_keys_of(unit: Unit) -> UnitKeys:
    """The keys of a unit that name lesson and activity."""
    passages: set[int] = set()
    given: dict[int, list[Passage]] = {}
    lessons: dict[int, Lesson] = {}
    for home, grid in _tables(unit):
        columns = _columns(grid)
        shares = list(_shares(grid, columns, unit) if columns else _of_plan(grid, home))
        if len(shares) > 1:
            passages.update(map(id, grid.values()))
            for lesson, activity, answers in shares:
                given.setdefault(id(activity), []).append(replace(answers, cell=None))
                lessons[id(answers)] = lesson
    for lesson, headed, whole, rest in _headed(unit):
        passages.add(id(whole))
        lessons[id(whole)] = lesson
        if headed is not None and rest is not None:
            given.setdefault(id(headed), []).append(rest)
    for lesson, activity, whole, rest in headed_by_decimals(unit):
        passages.add(id(whole))
        lessons[id(whole)] = lesson
        if rest is not None:
            given.setdefault(id(activity), []).append(rest)
    return UnitKeys(frozenset(passages), {activity: tuple(several) for activity, several in given.items()}, lessons)


def _headed(unit: Unit) -> Iterator[tuple[Lesson, Activity | None, Passage, Passage | None]]:
    """The passages behind heads that name lesson and activity, with what answers; nothing where there is one such
    head alone."""
    every = [
        passage
        for lesson in unit.lessons
        for part in (lesson.part, *(activity.part for activity in lesson.activities))
        for passage in keys_in(part.passages)
    ]
    heads = [_HEAD.match(passage.text) for passage in every]
    if sum(match is not None for match in heads) < _FEWEST:
        return
    at: tuple[Lesson, Activity | None] | None = None
    div = None
    for passage, match in zip(every, heads, strict=True):
        if match is not None:
            lesson = _lesson(match[1], unit)
            numbers = enumerate(lesson.activities, 1) if lesson is not None else ()
            activity = next((one for place, one in numbers if _number(one, place) == match[2].casefold()), None)
            at, div = (lesson, activity) if lesson is not None else None, passage.div
        elif passage.div != div:
            at = None  # another key
        if at is not None:
            start = match.end() if match is not None else 0
            rest = part_of(passage, start, len(passage.text)) if passage.text[start:].strip() else None
            yield (*at, passage, rest)


def _tables(unit: Unit) -> Iterator[tuple[Lesson, Grid]]:
    """The tables that have a cell of a key, whole, each with the lesson that it stands in."""
    for lesson in unit.lessons:
        for part in (lesson.part, *(activity.part for activity in lesson.activities)):
            keyed = {passage.cell.table for passage in keys_in(part.passages) if passage.cell is not None}
            tables: dict[int, dict[tuple[int, int], Passage]] = {}
            for passage in part.passages if keyed else ():
                if passage.cell is not None and passage.cell.table in keyed:
                    tables.setdefault(passage.cell.table, {})[passage.cell.row, passage.cell.column] = passage
            yield from ((lesson, grid) for grid in tables.values())


def _of_plan(grid: Grid, lesson: Lesson) -> Iterator[tuple[Lesson, Activity, Passage]]:
    """The answers of a lesson's plan, each in the row of its activity: | 8 | 2 Talk | Pairs ask. | 1 yes; 2 no |."""
    keys = [cell for cell in keys_in(tuple(grid.values())) if cell.cell is not None and cell.role is not Role.HEAD]
    if len({cell.cell.column for cell in keys if cell.cell}) != 1:
        return
    for answers in keys:
        row, column = (answers.cell.row, answers.cell.column) if answers.cell else (0, 0)
        before = (grid[row, at].text for at in range(column) if (row, at) in grid)
        named = next((match for text in before if (match := _NAMED.match(text))), None)
        for at, activity in enumerate(lesson.activities, 1):
            if (
                named is not None
                and (named[1] or named[2]).casefold() == _number(activity, at)
                and _SAYS.search(answers.text)
            ):
                yield lesson, activity, answers


def _columns(grid: Grid) -> Sequence[int]:
    """The columns of the lesson, the activity and the answers; none where the head does not name all three."""
    heads = {column: cell for (_, column), cell in grid.items() if cell.role is Role.HEAD}
    found = [next((at for at, cell in heads.items() if name.fullmatch(cell.text)), -1) for name in _HEADS]
    return found if min(found) >= 0 else ()


def _shares(grid: Grid, columns: Sequence[int], unit: Unit) -> Iterator[tuple[Lesson, Activity, Passage]]:
    named = ""
    for row in sorted({row for row, _ in grid} - {0}):
        lesson_cell, activity_cell, answers = (grid.get((row, column)) for column in columns)
        if lesson_cell is not None and lesson_cell.text.strip():
            named = lesson_cell.text  # an empty cell: the lesson above
        lesson = _lesson(named, unit)
        if lesson is None or activity_cell is None or answers is None or not answers.text.strip():
            continue
        for number in _numbers(activity_cell.text):
            for at, activity in enumerate(lesson.activities, 1):
                if number == _number(activity, at):
                    yield lesson, activity, answers


def _lesson(named: str, unit: Unit) -> Lesson | None:
    """The lesson that a cell names: by its number (Lesson 2 test), or the unit's one test (Unit 1 test)."""
    of_lesson, figure = _OF_LESSON.search(named), _FIGURE.search(named)
    if of_lesson is None and _TEST.search(named):
        tests = [lesson for lesson in unit.lessons if "test" in lesson.classes]
        tests = tests or [lesson for lesson in unit.lessons if _TEST.search(lesson.heading.passage.text)]
        return tests[0] if len(tests) == 1 else None
    wanted = of_lesson[1] if of_lesson is not None else figure[0] if figure is not None else None
    numbers = ((lesson, _FIGURE.search(lesson.heading.number)) for lesson in unit.lessons)
    return next((lesson for lesson, own in numbers if own is not None and own[0] == wanted), None)


def _numbers(text: str) -> Iterator[str]:
    for match in _NUMBERS.finditer(text):
        if match[3]:
            yield match[3].casefold()
        else:
            yield from map(str, range(int(match[1]), int(match[2]) + 1))


def _number(activity: Activity, place: int) -> str:
    return activity.heading.figure or str(place)
