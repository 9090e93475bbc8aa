"""A lesson says no total, an activity no time, or the Time field holds no time that can be read.

Children of six to ten have a lesson of fixed length, and the bell does not wait. A teacher who plans it needs to know
what each activity takes; without that the last activity, often the song or the game, is the one that falls off.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Heading, Part
from lint_rules.page.times import stated_time
from lint_rules.rule import Example, Reading, Rule

RULE = Rule(
    name="missing-time",
    family="timing",
    severity=Severity.QUERY,
    passes=(
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** 5–10 min\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 1 hour\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** about ten minutes (longer with the actions)\n:::\n"
        ),
    ),
    fails=(
        Example(
            "## Lesson 1: «Kites»\n\n::: teacher\n**Aim:** talk about kites\n:::\n\n"
            "### 1 «Listen and point.» {.listening}\n\n::: teacher\n**Steps:** Play the audio for 5 minutes.\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «one lesson»\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** «40»\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**«Time»:**\n\n**Steps:** Sing.\n:::\n",
            why="the field is empty",
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report lessons without a total and activities without a time, at their headings or at what cannot be read."""
    usual = sum(reading.level.limits.lesson_minutes) // 2
    for lesson in reading.unit.lessons:
        yield from _missing(lesson.heading, lesson.part, "This lesson has no Time: a teacher needs its total", usual)
    for activity in reading.unit.activities:
        yield from _missing(activity.heading, activity.part, "This activity has no Time: a teacher needs one", 10)


def _missing(heading: Heading, part: Part, lack: str, usual: int) -> Iterator[Found]:
    stated = stated_time(part)
    if stated is not None and stated.minutes is None:
        words = stated.passage.text[stated.start : stated.end]
        message = f"“{words}” cannot be read as a time. Write it as “10 minutes” or “5–10 minutes”."
        yield Found(stated.passage.span(stated.start, stated.end), words, message)
    elif stated is None:
        message = f"{lack} to plan the lesson. Write it in the teacher's notes: **Time:** {usual} minutes."
        field = part.field("Time")
        if field is not None:
            yield Found(field.name_span, field.name, message)
        else:
            yield Found(heading.passage.span(), heading.passage.text, message)
