"""What children do in a lesson, passage by passage, and the materials that its notes list."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, Audience, DivKind, Part, Passage, Role, Unit

# Fields that say what the lesson is for, what the answer is or what the world is like, not what children do.
_NO_ACTS = frozenset(
    {
        "aim",
        "grammar",
        "word",
        "time",
        "safety",
        "answer",
        "culture",
        "culture note",
        "background",
        "language",
    }
)
# Kinds of activity whose page holds steps to follow, not a text to read.
_FOLLOWED = frozenset({"make", "game"})
_YOU_NEED = lazy_re.compile(r"\s*(?:you(?:'ll| will)? need|what you(?:'ll| will)? need|materials)\b", re.I)


@dataclass(frozen=True, slots=True)
class ActivityActions:
    """What children do in one activity (or what a lesson's own notes say they do), and the materials it lists.

    ``part`` is where its notes belong; ``lesson`` numbers the lesson within the unit (-1 before the first).
    """

    lesson: int
    part: Part
    actions: tuple[Passage, ...]
    materials: tuple[Passage, ...]


def actions_of(unit: Unit) -> Iterator[ActivityActions]:
    """What children do in a unit: activity by activity, and after a lesson's activities what its own notes say."""
    for activity in unit.opening_activities:
        yield _of_activity(unit, activity, -1)
    for number, lesson in enumerate(unit.lessons):
        for activity in lesson.activities:
            yield _of_activity(unit, activity, number)
        yield ActivityActions(number, lesson.part, _told(lesson.part), _materials(lesson.part))


def _of_activity(unit: Unit, activity: Activity, number: int) -> ActivityActions:
    part = activity.part
    to_follow, needed = _page_steps(unit, activity)
    return ActivityActions(
        number, part, (activity.heading.passage, *to_follow, *_told(part)), (*needed, *_materials(part))
    )


def _told(part: Part) -> tuple[Passage, ...]:
    """The lines of the teacher's notes that say what children do."""
    return tuple(
        passage
        for passage in part.passages
        if passage.audience is Audience.TEACHER
        and passage.role not in (Role.CODE, Role.ALT)
        and field_key(passage.field) not in _NO_ACTS | {"material"}
    )


def _materials(part: Part) -> tuple[Passage, ...]:
    return tuple(p for p in part.passages if p.audience is Audience.TEACHER and field_key(p.field) == "material")


def _page_steps(unit: Unit, activity: Activity) -> tuple[list[Passage], list[Passage]]:
    """The steps on a page where children make or play something, and what it says they need."""
    steps: list[Passage] = []
    needed: list[Passage] = []
    if _FOLLOWED.isdisjoint(activity.kinds):
        return steps, needed
    listing = False
    for passage in activity.part.passages:
        if passage.audience is not Audience.PUPIL or passage.role not in (Role.TEXT, Role.ITEM):
            continue
        if {DivKind.WORDS, DivKind.PATTERN} & set(unit.div_kinds(passage)):
            continue
        if _YOU_NEED.match(passage.text):
            listing = True
            needed.append(passage)
        elif listing and passage.role is Role.ITEM and not (passage.item and passage.item.label.isdigit()):
            needed.append(passage)
        else:
            listing = False
            steps.append(passage)
    return steps, needed
