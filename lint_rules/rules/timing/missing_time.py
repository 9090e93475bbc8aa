"""A lesson says no total, an activity no time where others do, or a Time field holds no time that can be read.

Children of six to ten have a lesson of fixed length, and the bell does not wait. A teacher who plans it needs its
total. Where most activities of a lesson say what they take, one that does not is a slip: the last one, often the song
or the game, falls off. Until the course itself asks for it, under `required_notes`, a time that is missing from notes
that are there is only a note. A course that wants a Time everywhere says so: `required_notes: {activity: [Time]}`.
"""

from collections.abc import Iterable, Iterator

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, Heading, Part, Unit
from lint_rules.page.time_plans import times_of, total_of
from lint_rules.page.times import StatedTime, speaks_of_time, stated_time
from lint_rules.rule import By, Example, Gather, Reading, Rule, Within

RULE = Rule(
    name="missing-time",
    family="timing",
    severity=Severity.QUERY,
    cure="Write a **Time:** field into the notes, such as 10 minutes or 5–10 minutes.",
    passes=(
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n### 1 Sing. {.song}\n\n"
            "## Cut-out page: the kite {.cut-out}\n\n**Colour. Cut. Fold.**\n",
            why="a page of the book is no lesson",
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** 5–10 min\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 1 hour\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** about ten minutes (longer with the actions)\n:::\n"
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Sing. {.song}\n\n### 2 Draw. {.make}\n",
            why="the lesson has one, and no activity",
        ),
        Example("## Lesson 1: Kites\n", course="required_notes: {lesson: [Aim]}\n", why="this course asks for none"),
    ),
    fails=(
        Example(
            "## Lesson 1: «Kites»\n\n::: teacher\n**Aim:** talk about kites\n:::\n\n"
            "### 1 «Listen and point.» {.listening}\n\n::: teacher\n**Steps:** Play the audio for 5 minutes.\n:::\n",
            course="required_notes: {activity: [Time]}\n",
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Sing. {.song}\n\n::: teacher\n**Time:** 5 minutes\n:::\n\n### 2 «Draw.» {.make}\n",
            why="the other activity of the lesson has one",
            weight=Severity.NOTE,
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** «one lesson»\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**Time:** «40»\n:::\n",
            why="a person may read it",
            weight=Severity.NOTE,
        ),
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 Listen. {.song}\n\n::: teacher\n**«Time»:**\n\n**Steps:** Sing.\n:::\n",
            why="the field is empty",
        ),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.ABOUT,
            {
                "lesson": "{count} lessons have no Time. A teacher needs their totals to plan the day.",
                "activity": "{count} activities have no Time. A teacher needs it to plan the lesson.",
                "unread": "{count} times cannot be read. Write them as “10 minutes” or “5–10 minutes”.",
            },
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report lessons without a total and activities without a time, at their headings or at what cannot be read."""
    usual = sum(reading.level.limits.lesson_minutes) // 2
    required = reading.course.required_notes
    for lesson in reading.unit.taught:
        told = total_of(lesson) is not None or speaks_of_time(lesson.part)
        wanted = _asks_for(required.lesson) and not told
        has_notes = any(passage.audience is Audience.TEACHER for passage in lesson.part.passages)
        weight = Severity.NOTE if has_notes and not required.of_course else None
        yield from _missing(lesson.heading, lesson.part, "lesson", usual, weight, wanted=wanted)
    everywhere = _asks_for(required.activity or ())
    for activities, planned in _together(reading.unit):
        timed = sum(activity.part.field("Time") is not None for activity in activities)
        for activity, plan in zip(activities, planned, strict=True):
            told = plan is not None or speaks_of_time(activity.part)
            wanted = (everywhere or timed > len(activities) - 1 - timed) and not told
            weight = None if everywhere else Severity.NOTE
            yield from _missing(activity.heading, activity.part, "activity", 10, weight, wanted=wanted)


def _asks_for(fields: Iterable[str]) -> bool:
    return any(field_key(name) == field_key("Time") for name in fields)


def _together(unit: Unit) -> Iterator[tuple[tuple[Activity, ...], tuple[StatedTime | None, ...]]]:
    """The activities that are planned together, with their times: those of a lesson, and those before the first one."""
    yield unit.opening_activities, tuple(stated_time(activity.part) for activity in unit.opening_activities)
    yield from ((lesson.activities, times_of(lesson)) for lesson in unit.lessons)


def _missing(
    heading: Heading, part: Part, what: str, usual: int, weight: Severity | None, *, wanted: bool
) -> Iterator[Found]:
    stated = stated_time(part)
    field = part.field("Time")
    if stated is not None and stated.minutes is None:
        words = stated.passage.text[stated.start : stated.end]
        message = f"“{words}” cannot be read as a time. Write it as “10 minutes” or “5–10 minutes”."
        yield Found(stated.passage.span(stated.start, stated.end), words, message, Severity.NOTE, about="unread")
    elif stated is None and field is not None:
        message = f"The Time of this {what} is empty. Write how long it takes: **Time:** {usual} minutes."
        yield Found(field.name_span, field.name, message, about=what)
    elif stated is None and wanted:
        lack = {
            "lesson": "This lesson has no Time, and a teacher plans by its total.",
            "activity": "This activity has no Time, and a teacher plans the lesson by it.",
        }[what]
        message = f"{lack} Write it in the notes: **Time:** {usual} minutes."
        yield Found(heading.passage.span(), heading.passage.text, message, weight, about=what)
