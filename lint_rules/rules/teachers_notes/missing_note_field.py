"""A field that a teacher needs is missing in the notes: the Aim of a lesson, Steps where the page does not say it all.

Many teachers open the notes on the way to the classroom. Without an aim they do not know what the lesson is for. What
children do alone, the page tells them; but how a game goes, how often a track is played, who asks whom, only steps tell
(games, songs, surveys, listening, work with classmates, crafts without steps). A field that is there and empty counts
as missing, and a name that was mistyped (`Setps:`) is pointed out. Until the course itself asks for fields, under
`required_notes` in course.yaml, one that is missing is only a note, but for a lesson without any notes. A course may
have fields of its own under `note_fields`. (Time is missing-time's.)
"""

from collections.abc import Iterable, Iterator, Sequence
from difflib import get_close_matches

from lint_rules import lazy_re
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.manuscript.field_names import NOTE_FIELDS, field_key, is_usual
from lint_rules.manuscript.insert_field import field_edit
from lint_rules.manuscript.model import Activity, Audience, DivKind, Field, Heading, Lesson, Part, Role
from lint_rules.page.teacher_led import is_teacher_led
from lint_rules.page.time_plans import plan_of
from lint_rules.rule import By, Example, Gather, Limit, Reading, Rule, Within
from lint_rules.tables import rows

_NOTED = "## Lesson 1: Kites {.words}\n\n::: teacher\n**Aim:** name toys\n**Time:** 40 minutes\n:::\n\n"

RULE = Rule(
    name="missing-note-field",
    family="teacher's notes",
    severity=Severity.QUERY,
    cure=(
        "Fill in the field: `hornbook mend` adds a draft, marked [check]. What every lesson and activity must "
        "have is set under `required_notes` in course.yaml."
    ),
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
        Example(
            _NOTED
            + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 8 minutes\n\nPlay it twice. They point.\n:::\n",
            why="prose under the Time",
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Procedure:** Play it twice.\n:::\n",
            why="what other houses call Steps",
        ),
        Example(
            _NOTED + "### 1 Listen. {.listening}\n\n::: teacher\n**Steps:**\n\n1. WATCH – they watch the film.\n"
            "2. SAY – they say what they saw.\n:::\n",
            why="heads of steps are no fields",
        ),
        Example(
            _NOTED + "### 1 Play. {.game}\n\n::: teacher\n**Steps:** They play in pairs.\n\nMIME – show a kite.\n:::\n",
            why="a word, and no slip for Time",
        ),
        Example(_NOTED + "### 1 Read and match. {.reading}\n", why="the rubric says it all"),
        Example(_NOTED + "### 1 Listen and repeat. {.sounds .listening}\n", why="the rubric says it all"),
        Example(_NOTED + "### 1 Tell your partner why. {.odd-one-out .speaking}\n", why="the rubric says it all"),
        Example(
            _NOTED + "### 1 Make a kite. {.make}\n\n1. Fold the paper.\n2. Colour it.\n",
            why="the steps stand on the page",
        ),
        Example(
            "## Lesson 1: Kites {.words}\n\n### 1 Play the game. {.game}\n",
            course="required_notes: {lesson: [], activity: []}\n",
            why="this course asks for none",
        ),
        Example(
            _NOTED + "### 1 Read. {.reading}\n\nA kite.\n\n:::: teacher\n#### Time\n\n5 minutes\n\n#### Watch out\n\n"
            "**Safety** | Walk.\n\n#### Answers\n\n::: answers\n1 a\n:::\n::::\n",
            why="what the heads announce stands below them",
        ),
    ),
    fails=(
        Example(
            "## Lesson 1: «Kites» {.words}\n\n::: teacher\n**Time:** 40 minutes\n:::\n\n"
            "### 1 «Listen and point.» {.listening}\n\n::: teacher\n**Time:** 5 minutes\n:::\n",
            weight=Severity.NOTE,
        ),
        Example("## Lesson 1: «Kites» {.words}\n\n### 1 Read. {.reading}\n", why="no notes at all"),
        Example(_NOTED + "### 1 «Listen and point.» {.listening}\n", why="no notes", weight=Severity.NOTE),
        Example(
            _NOTED
            + "### 1 Listen. {.listening}\n\n::: teacher\n**Time:** 5 minutes\n**«Setps»:** Play it twice.\n:::\n"
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
        Example(
            _NOTED + "### 1 «Ask your partner.» {.speaking}\n",
            why="who asks first, and what then?",
            weight=Severity.NOTE,
        ),
        Example(_NOTED + "### 1 «Make a kite.» {.make}\n", why="no page says how", weight=Severity.NOTE),
        Example(
            _NOTED + "### 1 «Make a kite.» {.make}\n\n1. Fold the paper.\n2. Colour it.\n",
            course="levels:\n  - cefr: Pre-A1\n",
            why="children cannot read the steps yet",
            weight=Severity.NOTE,
        ),
        Example(
            "## Lesson 1: «Kites» {.words}\n\n::: teacher\n**Aim:** name toys\n:::\n\n"
            "### 1 «Read and match.» {.reading}\n",
            course="required_notes: {lesson: [Aim, Materials], activity: [Steps]}\n",
            why="what this course asks for",
        ),
    ),
    limits=(
        Limit(
            "what notes must hold: Aim for a lesson, Steps where the page does not say it all (`required_notes`)",
            "common practice, no source",
        ),
    ),
    gathers=(
        Gather(Within.COURSE, By.ABOUT, "{count} {about}."),
        Gather(Within.COURSE, By.WORDS),
    ),
)

_USUAL = ("Aim", "Steps")  # what a carried book may hold findings of: those have no key
_TIME = "time"  # as field_key writes it
_MENTIONED = lazy_re.compile(r"\bActivity (\d{1,3}[a-z]?)\b")
_A_FEW = 2
_FEWEST_WORDS = 4  # of prose that may say what a lesson is for, or how an activity goes


def find(reading: Reading) -> Iterator[Found]:
    """Report fields that are missing (at the heading), empty or misnamed (at their names)."""
    required = reading.course.required_notes
    for lesson in reading.unit.taught:
        yield from _in_part(reading, lesson.heading, lesson.part, required.lesson, "lesson", lesson.classes)
    planned = {id(activity) for lesson in reading.unit.lessons for activity in _planned(lesson)}
    for activity in reading.unit.activities:
        needed = required.activity
        if needed is None:
            led = is_teacher_led(activity, reading.level.cefr) and id(activity) not in planned
            needed = ("Steps",) if led else ()
        yield from _in_part(reading, activity.heading, activity.part, needed, "activity", activity.kinds)


def _planned(lesson: Lesson) -> Iterable[Activity]:
    """The activities of which the lesson's own notes say what happens: in their Steps, or in a row of the plan."""
    if lesson.part.field("Steps"):
        return lesson.activities
    told = plan_of(lesson).told
    notes = " ".join(p.text for p in lesson.part.passages if p.audience in (Audience.TEACHER, Audience.KEY))
    named = {match[1] for match in _MENTIONED.finditer(notes)}  # In Activity 3 the children ask three friends.
    return [one for at, one in enumerate(lesson.activities) if at in told or one.heading.number.strip(" .") in named]


def _in_part(
    reading: Reading, heading: Heading, part: Part, needed: Sequence[str], what: str, classes: Sequence[str]
) -> Iterator[Found]:
    there = {field_key(field.name) for field in part.fields}
    if any(reading.unit.divs[index].kind is DivKind.ANSWERS for index in part.divs):
        there.add(field_key("Answers"))
    misnamed = {}
    for field in part.fields:
        meant = _meant(reading, field.name, there)
        if meant:
            misnamed[meant] = field
            yield _misnamed(field, meant)
    filled = {field_key(field.name) for field in part.fields if field.text.strip()}
    if any(reading.unit.divs[index].kind is DivKind.ANSWERS for index in part.divs):
        filled.add(field_key("Answers"))  # the key stands in a div below
    for field in part.fields:
        if not field.text.strip() and field_key(field.name) not in (_TIME, *filled):
            yield _empty(field, needed, what)
    told = _says_more(reading, part)
    for name in needed:
        if field_key(name) not in {*there, _TIME} and name not in misnamed and not (told and name in _USUAL):
            yield _missing(reading, heading, part, name, what, classes)


def _says_more(reading: Reading, part: Part) -> bool:
    """Whether notes say something outside the usual fields, which may be an aim or steps: prose, a field of the house's
    own, a list under a word that mostly heads something else (Help, and three things to do)."""
    own = {field_key(name) for name in reading.course.note_fields}
    behind = {id(p) for field in part.fields if field_key(field.name) == _TIME for p in field.passages[1:]}
    listed = 0
    for passage in part.passages:
        if passage.audience is not Audience.TEACHER or passage.role not in (Role.NOTE, Role.FIELD):
            continue
        usual = (
            passage.field and id(passage) not in behind and (is_usual(passage.field) or field_key(passage.field) in own)
        )
        if not usual and len(passage.text.split()) >= _FEWEST_WORDS:
            return True
        listed += passage.item is not None and field_key(passage.field) in ("support", "extra")
    return listed > _A_FEW


def _meant(reading: Reading, name: str, there: set[str]) -> str:
    """The field that was probably meant by a name that is none; '' when it may be one of the course's own."""
    known = (*NOTE_FIELDS, *reading.course.note_fields)
    if field_key(name) in {field_key(field) for field in known} or lowest(name.casefold()):  # Mime, Sport: words
        return ""
    close = get_close_matches(name.casefold(), [field.casefold() for field in NOTE_FIELDS], n=1, cutoff=0.75)
    meant = next((field for field in NOTE_FIELDS if close and field.casefold() == close[0]), "")
    return "" if field_key(meant) in there else meant


def _misnamed(field: Field, meant: str) -> Found:
    message = (
        f"No field is called “{field.name}”: did you mean {meant}? "
        "If it is a field of your own, add it to `note_fields` in course.yaml."
    )
    mend = Mend(f"call it {meant}", (Edit(field.name_span, meant),))
    return Found(field.name_span, field.name, message, mend=mend)


def _empty(field: Field, needed: Sequence[str], what: str) -> Found:
    name = next((name for name in needed if field_key(name) == field_key(field.name)), "")
    if name:
        return Found(field.name_span, field.name, f"The {name} of this {what} is empty. {_why(name)}")
    message = f"This field is empty: fill in {field.name}, or take it out."
    return Found(field.name_span, field.name, message, Severity.NOTE)


def _missing(reading: Reading, heading: Heading, part: Part, needed: str, what: str, classes: Sequence[str]) -> Found:
    has_notes = any(reading.unit.divs[index].kind is DivKind.TEACHER for index in part.divs)
    if not has_notes:
        first = f"This {what} has no teacher's notes, and they need {needed}."
    else:
        first = f"The notes of this {what} have no {needed}. {_why(needed)}"
    draft = _draft(needed, classes)
    edit = field_edit(reading.unit, part, needed, f"[check] {draft}") if has_notes and draft else None
    mend = Mend(f"add a draft of {needed}, to be checked", (edit,)) if edit else None
    many = "activities" if what == "activity" else "lessons"
    return Found(
        heading.passage.span(),
        heading.passage.text,
        first,
        _weight(reading, what, has_notes=has_notes),
        mend=mend,
        key="" if needed in _USUAL else needed,
        about=f"{many} have no {needed} in their notes" if has_notes else f"{many} have no teacher's notes",
    )


def _weight(reading: Reading, what: str, *, has_notes: bool) -> Severity | None:
    """A note, unless the course asks for the field itself or a lesson has no notes at all: of 28 judged courses no
    author was grateful for more."""
    advised = has_notes or what == "activity"
    return Severity.NOTE if advised and not reading.course.required_notes.of_course else None


def _why(needed: str) -> str:
    return {
        "Aim": "A teacher wants to know what the lesson is for.",
        "Steps": "Say who does what, and in which order: the page alone does not tell a teacher.",
    }.get(needed, "This course asks for it.")


def _draft(needed: str, classes: Sequence[str]) -> str:
    """The first draft of a field whose classes are all there; '' where there is none."""
    drafts = (
        draft for field, of, draft in rows("draft_notes.csv") if field == needed and set(of.split()) <= {*classes}
    )
    return next(drafts, "")
