"""The art briefs of the pictures that an activity is about: its own, or one that children look back at."""

import re

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Passage, Unit

_LOOKS_BACK = lazy_re.compile(r"\bpictures?\b|\blook (?:again|back)\b", re.I)
_AT_ACTIVITY = lazy_re.compile(r"\b(?:activity|exercise|task)\s+(?:\d{1,2}\.)?(\d{1,3}|[A-H])\b", re.I)


def briefs_of(activity: Activity, unit: Unit) -> list[Passage]:
    """The briefs of an activity's pictures; without any, where its task speaks of a picture, those of the activity that
    it names (*Look at the picture in Activity 1*), else the last ones of its lesson before it."""
    own = _own(activity)
    task = activity.heading.passage.text
    if own or activity.part.pictures or not _LOOKS_BACK.search(task):
        return own
    lesson = next((one for one in unit.lessons if any(other is activity for other in one.activities)), None)
    if lesson is None:
        return []
    before = lesson.activities[: next(at for at, one in enumerate(lesson.activities) if one is activity)]
    named = _AT_ACTIVITY.search(task)
    if named is not None:
        numbers = {
            one.heading.figure or one.heading.number.casefold() or str(at): one for at, one in enumerate(before, 1)
        }
        return _own(numbers[named[1].casefold()]) if named[1].casefold() in numbers else []
    return next((found for one in reversed(before) if (found := _own(one))), [])


def _own(activity: Activity) -> list[Passage]:
    return [one for one in activity.part.passages if one.audience is Audience.ARTIST]
