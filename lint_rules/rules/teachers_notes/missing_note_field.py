"""A field that a teacher needs is missing in the notes: the Aim of a lesson, the Steps of an activity.

Many teachers open the notes on the way to the classroom. Without an aim they do not know what the lesson is for;
without steps they do not know what to do with the page. (The Time that lessons and activities need is missing-time's.)
A field that is there and empty counts as missing, and a name that was mistyped (`Setps:`) is pointed out. A course may
have fields of its own, and names them under `note_fields` in course.yaml.
"""

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.manuscript.insert_field import field_edit
from lint_rules.manuscript.model import DivKind, Field, Heading, Part, Role, field_key
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.tables import rows

_NOTED = "## Lesson 1: Kites {.words}\n\n::: teacher\n**Aim:** name toys\n**Time:** 40 minutes\n:::\n\n"

RULE = Rule(
    name="missing-note-field",
    family="teacher's notes",
    severity=Severity.QUERY,
    passes=(
        Example(
            "## Lesson 1: Kites\n\n::: teacher\n**Aims:** name toys\n\n**Material:** paper\n:::\n\n"
            "### 1 Look. {.reading}\n\n::: teacher\n**STEPS:** Children look.\n:::\n",
            why="Aims is Aim, Material is Materials",
        ),
        Example(
            _NOTED
            + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 5 minutes\n\n**Steps:** Play it twice.\n:::\n"
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 5 minutes\n**Steps:**\n\n"
            "1. Play the audio.\n2. Children point.\n:::\n",
            why="steps in a list",
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Steps:** Play it.\n**Warm-up:** Sing.\n"
            "**Homework:** Draw a kite.\n:::\n",
            why="fields of the course's own; the missing Time is missing-time's",
        ),
    ),
    fails=(
        Example(
            "## Lesson 1: «Kites» {.words}\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 «Listen and point.» {.listening}\n\n::: teacher\n**Time:** 5 minutes\n:::\n"
        ),
        Example(_NOTED + "### 1 «Listen and point.» {.listening}\n", why="no notes at all"),
        Example(
            _NOTED
            + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 5 minutes\n**«Setps»:** Play it twice.\n:::\n"
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**«Procedure»:** Play it twice.\n:::\n",
            why="a name that stands for Steps elsewhere",
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 5 minutes\n\n**«Steps»:**\n:::\n",
            why="empty",
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Steps:** Play it.\n\n**«Materials»:**\n:::\n",
            why="empty, and no teacher needs it: a note",
            weight=Severity.NOTE,
        ),
    ),
    limits=(Limit("what notes must hold: Aim for a lesson, Steps for an activity", "common practice, no source"),),
)

FIELDS = ("Aim", "Grammar", "Words", "Materials", "Time", "Steps", "Safety", "Answers", "Support", "Extra")
# What other houses call the fields that a teacher needs.
_ELSEWHERE = {
    "procedure": "Steps",
    "method": "Steps",
    "stages": "Steps",
    "what to do": "Steps",
    "objective": "Aim",
    "objectives": "Aim",
    "goal": "Aim",
    "goals": "Aim",
    "duration": "Time",
    "timing": "Time",
}


def find(reading: Reading) -> Iterator[Found]:
    """Report fields that are missing (at the heading), empty or misnamed (at their names)."""
    for lesson in reading.unit.lessons:
        yield from _in_part(reading, lesson.heading, lesson.part, "Aim", "lesson", lesson.classes)
    for activity in reading.unit.activities:
        yield from _in_part(reading, activity.heading, activity.part, "Steps", "activity", activity.kinds)


def _in_part(
    reading: Reading, heading: Heading, part: Part, needed: str, what: str, classes: Sequence[str]
) -> Iterator[Found]:
    there = {field_key(field.name) for field in part.fields}
    misnamed = {}
    for field in part.fields:
        meant = _meant(reading, field.name, there)
        if meant:
            misnamed[meant] = field
            yield _misnamed(field, meant)
    for field in part.fields:
        if not field.text.strip() and field.name.casefold() != "time":
            yield _empty(field, needed, what)
    if field_key(needed) not in there and needed not in misnamed:
        yield _missing(reading, heading, part, needed, what, classes)


def _meant(reading: Reading, name: str, there: set[str]) -> str:
    """The field that was probably meant by a name that is none; '' when it may be one of the course's own."""
    known = (*FIELDS, *reading.course.note_fields)
    if field_key(name) in {field_key(field) for field in known}:
        return ""
    close = get_close_matches(name.casefold(), [field.casefold() for field in FIELDS], n=1, cutoff=0.75)
    meant = next((field for field in FIELDS if close and field.casefold() == close[0]), "")
    meant = meant or _ELSEWHERE.get(name.casefold(), "")
    return "" if field_key(meant) in there else meant


def _misnamed(field: Field, meant: str) -> Found:
    message = (
        f"No field is called “{field.name}”: did you mean {meant}? Under this name nobody finds it. "
        "(If it is a field of your own, add it to note_fields in course.yaml.)"
    )
    mend = Mend(f"call it {meant}", (Edit(field.name_span, meant),))
    return Found(field.name_span, field.name, message, mend=mend)


def _empty(field: Field, needed: str, what: str) -> Found:
    if field_key(field.name) == field_key(needed):
        message = f"The {needed} of this {what} is empty. {_why(needed)}"
        return Found(field.name_span, field.name, message)
    message = f"This field is empty: fill in {field.name}, or take it out."
    return Found(field.name_span, field.name, message, Severity.NOTE)


def _missing(reading: Reading, heading: Heading, part: Part, needed: str, what: str, classes: Sequence[str]) -> Found:
    draft = _draft(needed, classes)
    has_notes = any(reading.unit.divs[index].kind is DivKind.TEACHER for index in part.divs)
    if not has_notes:
        first = f"This {what} has no teacher's notes: they need at least {needed} and Time."
    elif any(passage.role is Role.NOTE for passage in part.passages):
        first = f"The notes of this {what} have no {needed}. If what stands there is it, write **{needed}:** before it."
    else:
        first = f"The notes of this {what} have no {needed}."
    edit = field_edit(reading.unit, part, needed, f"[check] {draft}") if has_notes else None
    mend = Mend(f"add a draft of {needed}, to be checked", (edit,)) if edit else None
    passage = heading.passage
    message = f"{first} {_why(needed)} A draft: **{needed}:** {draft}"
    return Found(passage.span(), passage.text, message, mend=mend)


def _why(needed: str) -> str:
    return (
        "A teacher wants to know what the lesson is for." if needed == "Aim" else "A teacher wants to know what to do."
    )


def _draft(needed: str, classes: Sequence[str]) -> str:
    drafts = {of_class: draft for field, of_class, draft in rows("draft_notes.csv") if field == needed}
    return next((drafts[name] for name in classes if name in drafts), drafts[""])
