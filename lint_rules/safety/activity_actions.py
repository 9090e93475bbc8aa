"""What children do in a lesson, passage by passage, and what its notes say of care."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.manuscript.model import Activity, Audience, DivKind, Lesson, Part, Passage, Role, Unit, field_key
from lint_rules.safety.cue_index import Cue
from lint_rules.safety.cue_lists import cues_in_materials, works_with_pictures
from lint_rules.safety.cues import cues_in_actions

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
_YOU_NEED = re.compile(r"\s*(?:you(?:'ll| will)? need|what you(?:'ll| will)? need|materials)\b", re.I)


@dataclass(frozen=True, slots=True)
class ActivityActions:
    """What children do in one activity (or what a lesson's own notes say they do), and the notes that count for it.

    ``safety`` are the texts of the Safety fields, ``notes`` of all other teacher's notes; ``part`` is where a note
    belongs; ``lesson`` numbers the lesson within the unit (-1 before the first); ``acts`` are all the actions that
    the listed materials may be for.
    """

    lesson: int
    whole_lesson: bool
    part: Part
    actions: tuple[Passage, ...]
    materials: tuple[Passage, ...]
    safety: tuple[str, ...]
    notes: tuple[str, ...]
    pictures: bool
    acts: tuple[Passage, ...] = ()

    def cues(self) -> list[tuple[Cue, Passage]]:
        """The cue of each hazard that shows first, words that raise it before all others."""
        found: dict[str, tuple[Cue, Passage]] = {}
        for passage, cue in self._all_cues():
            before = found.get(cue.hazard.id)
            if before is None or (cue.raised and not before[0].raised):
                found[cue.hazard.id] = (cue, passage)
        return list(found.values())

    def _all_cues(self) -> Iterator[tuple[Passage, Cue]]:
        for passage in self.actions:
            for cue in cues_in_actions(passage.text, pictures=self.pictures):
                yield passage, cue
        for passage in self.materials:
            for cue in cues_in_materials(passage.text, [act.text for act in self.acts]):
                yield passage, cue


def actions_of(unit: Unit) -> Iterator[ActivityActions]:
    """What children do in a unit: activity by activity, and after a lesson's activities what its own notes say."""
    for activity in unit.opening_activities:
        yield _of_activity(unit, activity, None, -1)
    for number, lesson in enumerate(unit.lessons):
        of_activities = [_of_activity(unit, activity, lesson, number) for activity in lesson.activities]
        yield from of_activities
        own = lesson.part
        yield ActivityActions(
            lesson=number,
            whole_lesson=True,
            part=own,
            actions=_told(own),
            acts=(*_told(own), *(passage for actions in of_activities for passage in actions.actions)),
            materials=_materials(own),
            safety=(*_safety(own), *(text for actions in of_activities for text in actions.safety)),
            notes=(*_other_notes(own), *(text for actions in of_activities for text in actions.notes)),
            pictures=_shows_pictures(own),
        )


def _of_activity(unit: Unit, activity: Activity, lesson: Lesson | None, number: int) -> ActivityActions:
    part = activity.part
    to_follow, needed = _page_steps(unit, activity)
    actions = (activity.heading.passage, *to_follow, *_told(part))
    return ActivityActions(
        lesson=number,
        whole_lesson=False,
        part=part,
        actions=actions,
        acts=actions,
        materials=(*needed, *_materials(part)),
        safety=(*_safety(part), *(_safety(lesson.part) if lesson else ())),
        notes=_other_notes(part),
        pictures=_shows_pictures(part) or (lesson is not None and _shows_pictures(lesson.part)),
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


def _safety(part: Part) -> tuple[str, ...]:
    return tuple(p.text for p in part.passages if p.audience is Audience.TEACHER and p.field.casefold() == "safety")


def _other_notes(part: Part) -> tuple[str, ...]:
    return tuple(p.text for p in part.passages if p.audience is Audience.TEACHER and p.field.casefold() != "safety")


def _shows_pictures(part: Part) -> bool:
    return any(works_with_pictures(text) for text in _other_notes(part))


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
