"""A lesson is longer or shorter than a lesson of this level is.

A lesson that is planned too long ends in the middle of the story; one too short leaves a class of seven-year-olds with
nothing to do. What counts is the total that the lesson states, else the sum of its activities. A total that is a range
and lies partly outside is only a note: the teacher can choose.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Lesson
from lint_rules.page.time_plans import activities_minutes, total_of
from lint_rules.page.times import Minutes, speaks_of_time
from lint_rules.rule import Example, Limit, Reading, Rule

RULE = Rule(
    name="lesson-length",
    family="timing",
    severity=Severity.QUERY,
    cure=(
        "Move an activity to another lesson, or give one more or less time. If your lessons are longer or "
        "shorter, set `lesson_minutes` in course.yaml."
    ),
    passes=(
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n"),
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** 35–45 minutes\n:::\n"),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 60 minutes\n:::\n",
            course="levels:\n  - lesson_minutes: [50, 60]\n",
        ),
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** 2 x 40 minutes\n:::\n", why="a double lesson"),
        Example("## Lesson 1: Kites\n\n### 1 Listen. {.song}\n", why="no time to go by: missing-time says so"),
        Example(
            "## Lesson 1: Kites\n\n### 1 Listen. {.song}\n\n::: teacher\n**Time:** 10–60 minutes\n:::\n",
            why="the sum is a range that a lesson fits into",
        ),
    ),
    fails=(
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** «60 minutes»\n:::\n"),
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** «2 x 60 minutes»\n:::\n", why="two long ones"),
        Example("## Lesson 1: Kites\n\n::: teacher\n**Time:** about «20 min», no more\n:::\n"),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «40–50 minutes»\n:::\n",
            why="partly outside: a note",
            weight=Severity.NOTE,
        ),
        Example(
            "## Lesson 1: «Kites»\n\n### 1 Listen. {.song}\n\n::: teacher\n**Time:** 15 minutes\n:::\n",
            why="no total: the sum counts",
        ),
    ),
    limits=(Limit("35 to 45 minutes a lesson, unless the course says otherwise", "common practice, no source"),),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report lessons outside the level's limits, at the stated total or at the heading."""
    low, high = reading.level.limits.lesson_minutes
    allowed = Minutes(low, high)
    for lesson in reading.unit.lessons:
        yield from _judged(lesson, allowed, f"a lesson of {reading.level.name} takes {allowed}")


def _judged(lesson: Lesson, allowed: Minutes, rule: str) -> Iterator[Found]:
    total = total_of(lesson)
    if total is not None and total.minutes is not None:
        span, words = total.passage.span(total.start, total.end), total.passage.text[total.start : total.end]
        one = total.each or total.minutes  # a double lesson is two
        if not one.overlaps(allowed):
            yield Found(span, words, f"This lesson takes {one}; {rule}. {_cure(one, allowed)}")
        elif one.low < allowed.low or one.high > allowed.high:
            message = f"This lesson may take {one}; {rule}. Say what to leave out or add, or narrow the range."
            yield Found(span, words, message, severity=Severity.NOTE)
        return
    added = None if speaks_of_time(lesson.part) else activities_minutes(lesson)
    if added is not None and not added.overlaps(allowed):
        heading = lesson.heading.passage
        message = f"The activities of this lesson add up to {added}; {rule}. {_cure(added, allowed)}"
        yield Found(heading.span(), heading.text, message)


def _cure(minutes: Minutes, allowed: Minutes) -> str:
    if minutes.low > allowed.high:
        return "Shorten an activity, or move one to another lesson."
    return "Add an activity, or give one more time."
