"""What a unit's children have read or heard as a story: story activities and boxes, and audio scripts."""

from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.manuscript.model import Activity, Audience, DivKind, Passage, Role, Unit

STORY = frozenset({"story", "comic", "play"})
_READ = frozenset({Role.TEXT, Role.TURN, Role.LINE, Role.CAPTION, Role.TITLE, Role.CELL, Role.HEAD, Role.ITEM})
_RUNNING = frozenset({Role.TEXT, Role.TURN, Role.LINE, Role.CAPTION})
_OTHER_PANELS = frozenset({DivKind.WORDS, DivKind.PATTERN})


@dataclass(frozen=True, slots=True)
class StoryText:
    """A passage of a story, or of a script (then children hear it)."""

    passage: Passage
    script: bool


def story_texts(unit: Unit) -> Iterator[StoryText]:
    """The passages of a unit's stories and scripts, in file order.

    In a lesson of class ``story`` the running text of every activity counts, but no item: that may be false on purpose.
    """
    for passage in unit.passages:
        if passage.audience is Audience.LISTENER and passage.role not in (Role.ALT, Role.CODE):
            yield StoryText(passage, script=True)
        elif passage.audience is Audience.PUPIL and passage.role in _READ and _in_story_box(passage, unit):
            yield StoryText(passage, script=False)
    for activity in unit.opening_activities:
        yield from _of_activity(activity, unit, in_story_lesson=False)
    for lesson in unit.lessons:
        in_story_lesson = bool(STORY.intersection(lesson.classes))
        if in_story_lesson:
            yield from (
                StoryText(p, script=False) for p in lesson.part.passages if _on_page(p, unit) and p.role in _READ
            )
        for activity in lesson.activities:
            yield from _of_activity(activity, unit, in_story_lesson=in_story_lesson)


def _of_activity(activity: Activity, unit: Unit, *, in_story_lesson: bool) -> Iterator[StoryText]:
    told = bool(STORY.intersection(activity.kinds))
    if not told and (not in_story_lesson or "picture-sentence" in activity.kinds):
        return
    roles = _READ if told else _RUNNING
    for passage in activity.part.passages:
        if _on_page(passage, unit) and passage.role in roles:
            yield StoryText(passage, script=False)


def _on_page(passage: Passage, unit: Unit) -> bool:
    return passage.audience is Audience.PUPIL and _OTHER_PANELS.isdisjoint(unit.div_kinds(passage))


def _in_story_box(passage: Passage, unit: Unit) -> bool:
    index = passage.div
    while index is not None:
        if STORY.intersection(unit.divs[index].attributes.classes):
            return True
        index = unit.divs[index].parent
    return False
