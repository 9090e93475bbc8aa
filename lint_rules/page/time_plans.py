"""The plan of a lesson as a table in its notes: `| Activity | Minutes |`, a row each, perhaps with a total."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, Lesson, Part, Passage
from lint_rules.page.times import Minutes, NumberedTime, StatedTime, add_up, line_plan, read_time, stated_time

_TOTAL = lazy_re.compile(r"\b(?:total|in all|sum|whole lesson)\b|^\W*(?:all\s+)?together\b", re.I)  # not: sing together
_NUMBER = lazy_re.compile(
    r"(?:(?:activity|exercise|task|no\.?|nr\.?)\s*)?(?:[0-9]{1,2}\.)?([0-9]{1,3}[a-z]?)(?![\w%])", re.I
)
_STAGE = lazy_re.compile(
    r"\s*(?:stage|phase|part|step)\s+(?P<number>\d{1,2})\b\s*(?:[(:,–—-]\s*(?P<time>[^()–—:.]{1,20}))?", re.I
)
_PARAGRAPH = lazy_re.compile(
    r"\W*(?:activity|exercise|task)\s+(?P<number>[0-9]{1,3}[a-z]?)\s*[.:,;(–—-]+\s*(?P<time>[^.,;:()]{3,28})(?=[.,;:)])",
    re.I,
)
_BRACKETED = lazy_re.compile(r"\(([^()]{1,20})\)")  # 1. Moving circle (4 minutes). Do an action.
_FEWEST_STAGES = 3
_FIGURE = lazy_re.compile(r"\s*[0-9]{1,3}\s*")


@dataclass(frozen=True, slots=True)
class TimePlan:
    """What a lesson's plan says: the times of its activities (in their order, None where no row is theirs), of which it
    says what happens, the minutes of rows that are no activity's, and the total that it states."""

    activities: tuple[StatedTime | None, ...]
    told: frozenset[int] = frozenset()  # activities (by place, from 0) of which it says what happens
    beside: float = 0.0
    total: StatedTime | None = None


def plan_of(lesson: Lesson) -> TimePlan:
    """The plan in a lesson's notes; an empty one where they have none."""
    tables: dict[int, list[Passage]] = {}
    for passage in lesson.part.passages:
        if passage.audience is Audience.TEACHER and passage.cell is not None:
            tables.setdefault(passage.cell.table, []).append(passage)
    for cells in tables.values():
        column = next((c.cell.column for c in cells if c.cell and _heads_times(c)), None)
        if column is None and _begins_with_times(cells):
            column = 0
        if column is not None:
            return _read(lesson, cells, column)
    for passage in lesson.part.passages:
        if passage.audience is Audience.TEACHER and (planned := line_plan(passage.text)):
            return _of_line(lesson, passage, planned)
    return TimePlan(_of_paragraphs(lesson) or (None,) * len(lesson.activities))


def _of_paragraphs(lesson: Lesson) -> tuple[StatedTime | None, ...]:
    """The times of a lesson's activities where its notes have a paragraph for each: `Activity 3. Seven minutes. Say …`;
    nothing where one has none."""
    times: list[StatedTime | None] = [None] * len(lesson.activities)
    for passage in lesson.part.passages:
        match = _PARAGRAPH.match(passage.text) if passage.audience is Audience.TEACHER else None
        at = _numbered(lesson.activities, match["number"]) if match is not None else None
        minutes = _whole_time(match["time"]) if match is not None else None
        if match is not None and at is not None and minutes is not None:
            times[at] = StatedTime(minutes, passage, *match.span("time"))
    return tuple(times) if all(times) else ()


def _begins_with_times(cells: Sequence[Passage]) -> bool:
    """Whether a table's first column has minutes (8, 8 min) that do not count its rows, under a head that is the name
    of a field (so that it is no cell of its own)."""
    first = [one for one in cells if one.cell is not None and one.cell.column == 0]
    headed = any(one.cell is not None and one.cell.row == 0 for one in cells) or not any(
        one.cell is not None and not one.cell.row for one in first
    )
    counted = [str(at) for at in range(1, len(first) + 1)]
    minutes = len(first) >= _FEWEST_STAGES and all(_time(one) is not None for one in first)
    return headed and minutes and [one.text.strip() for one in first] != counted


def _of_line(lesson: Lesson, passage: Passage, planned: Sequence[NumberedTime]) -> TimePlan:
    """A plan in one line: `Ex. 1 5', Ex. 2 4'.`"""
    times: list[StatedTime | None] = [None] * len(lesson.activities)
    beside = 0.0
    for one in planned:
        at = _numbered(lesson.activities, one.number)
        if at is None:
            beside += one.time.minutes.low
        else:
            times[at] = StatedTime(one.time.minutes, passage, one.time.start, one.time.end)
    # Its notes stand with it, and are for all of them.
    told = frozenset(at for at, time in enumerate(times) if time is not None)
    return TimePlan(tuple(times), told, beside)


def times_of(lesson: Lesson) -> tuple[StatedTime | None, ...]:
    """The time of each activity: what its own notes say, else the lesson's plan."""
    own = [stated_time(activity.part) for activity in lesson.activities]
    if all(own):
        return tuple(own)
    return tuple(said or planned for said, planned in zip(own, plan_of(lesson).activities, strict=True))


def total_of(lesson: Lesson) -> StatedTime | None:
    """The total that a lesson's notes state, in their Time or in the last row of their plan."""
    return stated_time(lesson.part) or plan_of(lesson).total


def activities_minutes(lesson: Lesson) -> Minutes | None:
    """The sum of the times of a lesson's activities; None unless every activity has one (or there are none)."""
    times = times_of(lesson)
    read = [time.minutes for time in times if time is not None and time.minutes is not None]
    return add_up(read) if read and len(read) == len(times) else None


def stages_minutes(lesson: Lesson) -> tuple[Minutes, ...]:
    """The times of the stages of a lesson's notes (`Stage 1 (5 min) – …`), or of its steps (`1. Moving circle (4
    minutes).`); none where not each of them has one."""
    found: list[Minutes] = []
    for passage in lesson.part.passages:
        match = _STAGE.match(passage.text) if passage.audience is Audience.TEACHER else None
        if match is None:
            continue
        time = read_time(match["time"] or "")
        if time is None or int(match["number"]) != len(found) + 1:
            return ()
        found.append(time.minutes)
    found = found or list(steps_minutes(lesson.part))
    return tuple(found) if len(found) >= _FEWEST_STAGES else ()


def steps_minutes(part: Part) -> tuple[Minutes, ...]:
    """The times of the steps of a lesson's or an activity's notes: each names one in brackets, or there are none."""
    found: list[Minutes] = []
    for passage in part.passages:
        if passage.audience is Audience.TEACHER and passage.item is not None and field_key(passage.field) == "step":
            times = [time for match in _BRACKETED.finditer(passage.text) if (time := _whole_time(match[1])) is not None]
            if len(times) != 1:
                return ()
            found += times
    return tuple(found) if found else _rows_minutes(part)


def _rows_minutes(part: Part) -> tuple[Minutes, ...]:
    """The times of the rows of a table in the notes, | Stage | Time |; none where not each row has one."""
    cells = [one for one in part.passages if one.audience is Audience.TEACHER and one.cell is not None]
    column = next((one.cell.column for one in cells if one.cell and _heads_times(one)), None)
    rows: dict[int, list[Passage]] = {}
    for one in cells:
        if one.cell is not None and one.cell.row > 0:
            rows.setdefault(one.cell.row, []).append(one)
    tables = {one.cell.table for one in cells if one.cell}
    if column is None or len(tables) != 1 or any(_TOTAL.search(_before(row, column)) for row in rows.values()):
        return ()
    times = [_time(one) for row in rows.values() for one in row if one.cell and one.cell.column == column]
    read = [one.minutes for one in times if one is not None and one.minutes is not None]
    return tuple(read) if len(read) == len(rows) else ()


def _whole_time(text: str) -> Minutes | None:
    """The time that some words are, and nothing else: 4 minutes; not: after 4 minutes change over."""
    time = read_time(text)
    return time.minutes if time is not None and not text[time.end :].strip(" .") else None


def lesson_minutes(lesson: Lesson) -> Minutes | None:
    """How long a lesson takes: the total it states, else the sum of its activities, else None."""
    stated = total_of(lesson)
    if stated is not None and stated.minutes is not None:
        return stated.minutes
    return activities_minutes(lesson)


def _heads_times(cell: Passage) -> bool:
    return cell.cell is not None and cell.cell.row == 0 and field_key(cell.text) == "time"


def _read(lesson: Lesson, cells: Sequence[Passage], column: int) -> TimePlan:
    rows: dict[int, list[Passage]] = {}
    for cell in cells:
        if cell.cell is not None and cell.cell.row > 0:
            rows.setdefault(cell.cell.row, []).append(cell)
    times: list[StatedTime | None] = [None] * len(lesson.activities)
    beside, total = 0.0, None
    told: set[int] = set()
    by_number = not _has_own_numbers(lesson.activities, [_before(row, column) for row in rows.values()])
    for row in rows.values():
        time = next((_time(one) for one in row if one.cell and one.cell.column == column), None)
        if time is None or time.minutes is None:
            continue
        what = _before(row, column)
        numbered = (_numbered(lesson.activities, one.text) for one in row if _names(one, column))
        at = next((number for number in numbered if number is not None), None) if by_number else None
        at = at if at is not None else next(iter(_called(lesson.activities, what)), None)
        beside_it = (one for one in row if one.cell and one.cell.column > max(column, 1))
        if at is not None and any(len(one.text.split()) > 1 for one in beside_it):
            told.add(at)
        if _TOTAL.search(what):
            total = time
        elif at is None:
            beside += time.minutes.low
        else:  # a second row of the same activity adds to its first
            times[at] = _and_also(times[at], time.minutes) or time
    # Rows of which none is an activity's are its activities by other names.
    return TimePlan(tuple(times), frozenset(told), beside if any(times) else 0.0, total)


def _and_also(first: StatedTime | None, more: Minutes) -> StatedTime | None:
    return replace(first, minutes=first.minutes + more) if first is not None and first.minutes is not None else None


def _time(cell: Passage) -> StatedTime | None:
    """The minutes of a cell: `15` under Minutes, `15 min`."""
    if _FIGURE.fullmatch(cell.text):
        figure = float(cell.text)
        return StatedTime(Minutes(figure, figure), cell, 0, len(cell.text))
    found = read_time(cell.text)
    return StatedTime(found.minutes, cell, found.start, found.end, found.each) if found is not None else None


def _before(row: Sequence[Passage], column: int) -> str:
    """What a row says before its minutes, or right behind them where they come first: | 8 | 2 Talk | … |."""
    return " ".join(one.text for one in row if _names(one, column))


def _names(cell: Passage, column: int) -> bool:
    """Whether a cell says what a row is for; ``column`` is that of the minutes."""
    return cell.cell is not None and (cell.cell.column < column or (not column and cell.cell.column == 1))


def _has_own_numbers(activities: Sequence[Activity], rows: Sequence[str]) -> bool:
    """Whether a plan numbers its rows otherwise than the page its activities: 1 Hello, 2 Sing, where Sing is 1."""
    both = [(_numbered(activities, what), _called(activities, what)) for what in rows if _NUMBER.match(what.strip())]
    agree = [numbered in called for numbered, called in both if called]
    return sum(agree) * 2 < len(agree)


def _numbered(activities: Sequence[Activity], what: str) -> int | None:
    """Which activity has the number that a row begins with."""
    number = _NUMBER.match(what.strip())
    own = [activity.heading.figure for activity in activities]
    return next((at for at, one in enumerate(own) if one and number and one == number[1].casefold()), None)


def _called(activities: Sequence[Activity], what: str) -> list[int]:
    """Which activities' instructions have the words of a row, or part of them."""
    words = _words(what)
    said = [_words(activity.heading.passage.text) for activity in activities]
    return [at for at, one in enumerate(said) if words and one and (one in words or words in one)]


def _words(text: str) -> str:
    return " ".join(re.findall(r"[^\W\d_]+", text.casefold()))
