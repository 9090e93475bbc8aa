"""An activity as the safety rules read it: its sentences, each with the place where it stands.

Who reads a sentence, and as what, says much of what it means: `Light the candles!` is a step in the teacher's notes
and a line of the tale in a story. A lesson's own notes are read as an activity of their own.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, DivKind, Lesson, Part, Passage, Role, Unit
from lint_rules.page.exercises.key_places import part_of


class Place(IntEnum):
    """Where a sentence stands. The numbers are those of the model's tables."""

    KIND = 0  # the classes of the heading
    INSTRUCTION = 1
    PAGE = 2
    STEPS = 3  # the teacher's notes, but for those below
    MATERIALS = 4
    SAFETY = 5
    HEARD = 6
    LIST = 7  # an item of a list on the pupil's page
    LESSON_SAFETY = 8  # Safety notes of the lesson around it, or of the activities in it
    LESSON_MATERIALS = 9  # the Materials of the lesson around it


# Where something is done. What is heard, and what the notes say of care, is no act.
DONE = frozenset({Place.INSTRUCTION, Place.PAGE, Place.STEPS, Place.MATERIALS, Place.LIST})
# Fields that say what the lesson is for, what the answer is or what the world is like, not what children do.
_NO_ACTS = frozenset(
    {"aim", "grammar", "word", "time", "answer", "culture", "culture note", "background", "language", "homework"}
)
_PAGE_ROLES = {
    Role.INSTRUCTION: Place.INSTRUCTION,
    Role.TITLE: Place.PAGE,
    Role.TEXT: Place.PAGE,
    Role.ITEM: Place.LIST,
    Role.CAPTION: Place.PAGE,
    Role.CELL: Place.LIST,
    Role.LINE: Place.HEARD,  # a line of verse is said, whatever it says: and drink a cup of tea
    Role.TURN: Place.HEARD,
}


_OF_ACTIVITY = lazy_re.compile(
    r"\W*(?:activity|exercise|task)\s+(?:[0-9]{1,2}\.)?(?P<number>[0-9]{1,3}[a-z]?)\s*[.:,;(–—-]+\s*(?=\w)", re.I
)
_CARE = lazy_re.compile(r"\b(?:safety|take care|careful|watch out|caution)\s*[:–—]\s*(?=\w)", re.I)
_ROW = lazy_re.compile(
    r"\W*(?:activity |exercise |task )?(?:[0-9]{1,2}\.)?(?P<number>[0-9]{1,3}[a-z]?)(?:[.:)]|\s|$)", re.I
)
_FEWEST = 2  # paragraphs: one alone may only speak of an activity
_OF_LESSON = {Place.SAFETY: Place.LESSON_SAFETY, Place.MATERIALS: Place.LESSON_MATERIALS}


@dataclass(frozen=True, slots=True)
class Said:
    """A passage and its place in the activity."""

    passage: Passage
    place: Place


@dataclass(frozen=True, slots=True)
class ActivityText:
    """All that an activity says (or a lesson's own notes), in file order.

    ``part`` is where a note belongs; ``lesson`` numbers the lesson within the unit (-1 before the first).
    """

    lesson: int
    whole_lesson: bool
    part: Part
    kinds: tuple[str, ...]
    said: tuple[Said, ...]


def activity_texts(unit: Unit) -> Iterator[ActivityText]:
    """The activities of a unit, and after a lesson's activities its own notes."""
    for activity in unit.opening_activities:
        yield _of_activity(unit, activity, None, -1)
    for number, lesson in enumerate(unit.lessons):
        for activity in lesson.activities:
            yield _of_activity(unit, activity, lesson, number)
        of_one = {id(passage) for passage, _ in _by_activity(lesson)}
        own = [one for one in _said(unit, lesson.part) if id(one.passage) not in of_one]
        if own:
            of_activities = (one for activity in lesson.activities for one in _safety(unit, activity.part))
            yield ActivityText(number, True, lesson.part, lesson.classes, (*own, *of_activities))


def _of_activity(unit: Unit, activity: Activity, lesson: Lesson | None, number: int) -> ActivityText:
    said = [Said(activity.heading.passage, Place.INSTRUCTION), *_said(unit, activity.part)]
    if lesson is not None:
        of_one = dict.fromkeys(id(passage) for passage, _ in _by_activity(lesson))
        around = (one for one in _said(unit, lesson.part) if one.place in _OF_LESSON and id(one.passage) not in of_one)
        said += [Said(one.passage, _OF_LESSON[one.place]) for one in around]
        said += [one for passage, of in _by_activity(lesson) if of is activity for one in _told(passage)]
    return ActivityText(number, False, activity.part, activity.kinds, tuple(said))


def _by_activity(lesson: Lesson) -> Iterator[tuple[Passage, Activity]]:
    """What a lesson's notes say about one activity each, two or more, whatever field it stands behind: paragraphs
    (`Activity 3. Twelve minutes. Every child …`), and the rows of a plan that has one for each (`| 1 Make | 16 min |
    Children cut …`)."""
    headed = [
        (passage, match["number"])
        for passage in lesson.part.passages
        if passage.audience is Audience.TEACHER and (match := _OF_ACTIVITY.match(passage.text)) is not None
    ]
    numbers = {activity.heading.figure or str(at): activity for at, activity in enumerate(lesson.activities, 1)}
    if len(headed) >= _FEWEST:
        yield from ((passage, numbers[number]) for passage, number in headed if number in numbers)
    for rows in _tables(lesson.part):
        named = {row: match["number"] for row, cells in rows.items() if (match := _ROW.match(cells[0].text))}
        if len(named) >= _FEWEST and sorted(named.values()) == sorted(numbers):
            yield from ((cell, numbers[number]) for row, number in named.items() for cell in rows[row])


def _tables(part: Part) -> Iterator[dict[int, list[Passage]]]:
    """The tables of some notes, each row with its cells."""
    tables: dict[int, dict[int, list[Passage]]] = {}
    for passage in part.passages:
        if passage.audience is Audience.TEACHER and passage.cell is not None and passage.role is not Role.HEAD:
            tables.setdefault(passage.cell.table, {}).setdefault(passage.cell.row, []).append(passage)
    yield from tables.values()


def _told(passage: Passage) -> Iterator[Said]:
    """What such a paragraph has children do, and from the word on, what it says of care: Safety: the sand stays …"""
    if field_key(passage.field) == "material":
        yield Said(passage, Place.MATERIALS)
        return
    care = _CARE.search(passage.text)
    end = care.start() if care is not None else len(passage.text)
    yield Said(part_of(passage, 0, end), Place.STEPS)
    if care is not None:
        yield Said(part_of(passage, care.end(), len(passage.text)), Place.SAFETY)


def _safety(unit: Unit, part: Part) -> Iterator[Said]:
    """The Safety notes of the lesson around an activity, or of the activities in a lesson."""
    for one in _said(unit, part):
        if one.place is Place.SAFETY:
            yield Said(one.passage, Place.LESSON_SAFETY)


def _said(unit: Unit, part: Part) -> Iterator[Said]:
    for passage in part.passages:
        place = _place(unit, passage)
        if place is not None and passage.text.strip():
            yield Said(passage, place)


def _place(unit: Unit, passage: Passage) -> Place | None:
    """Where a passage stands, or None where it says nothing of what is done."""
    if passage.role in (Role.CODE, Role.ALT):
        return None
    if passage.audience is Audience.TEACHER:
        name = field_key(passage.field)
        if name in _NO_ACTS:
            return None
        return {"material": Place.MATERIALS, "safety": Place.SAFETY}.get(name, Place.STEPS)
    if passage.audience is Audience.LISTENER:
        return Place.HEARD
    if passage.audience is not Audience.PUPIL or {DivKind.WORDS, DivKind.PATTERN} & set(unit.div_kinds(passage)):
        return None
    return _PAGE_ROLES.get(passage.role)
