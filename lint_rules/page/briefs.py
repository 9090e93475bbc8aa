"""The art briefs of the pictures that an activity is about: its own, or one that children look back at."""

import re

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Passage, Unit
from lint_rules.page.exercises.small_words import small_words

_LOOKS_BACK = lazy_re.compile(r"\bpictures?\b|\blook (?:again|back)\b", re.I)
_LOOKS_AT = lazy_re.compile(r"\blook at (?:the |an? |[A-Z]\w+['’]s )?([a-z]{3,})(?=\W*$|[.!?])", re.I)
_BACK_TO = lazy_re.compile(
    r"\bpictures? (?:in|of|from) (?:activity|exercise|task)\s+(?:\d{1,2}\.)?(\d{1,3}|[A-H])\b", re.I
)
_AT_ACTIVITY = lazy_re.compile(r"\b(?:activity|exercise|task)\s+(?:\d{1,2}\.)?(\d{1,3}|[A-H])\b", re.I)


def briefs_of(activity: Activity, unit: Unit) -> list[Passage]:
    """The briefs of an activity's pictures; without any, where its task speaks of a picture, those of the activity that
    it names (*Look at the picture in Activity 1*), else the last ones of its lesson before it; so where its page begins
    with *Look at the garden*, and those have the garden."""
    own = _own(activity)
    task = activity.heading.passage.text
    looks_back = _LOOKS_BACK.search(task) is not None or _BACK_TO.search(_first_on_page(activity)) is not None
    thing = "" if looks_back else _looked_at(activity)
    if own or activity.part.pictures or not (looks_back or thing):
        return own
    lesson = next((one for one in unit.lessons if any(other is activity for other in one.activities)), None)
    if lesson is None:
        return []
    before = lesson.activities[: next(at for at, one in enumerate(lesson.activities) if one is activity)]
    named = _AT_ACTIVITY.search(task) or _BACK_TO.search(_first_on_page(activity)) or _sent_back(activity)
    if named is not None:
        numbers = {
            one.heading.figure or one.heading.number.casefold() or str(at): one for at, one in enumerate(before, 1)
        }
        return _own(numbers[named[1].casefold()]) if named[1].casefold() in numbers else []
    drawn = (own for one in reversed(before) if (own := _own(one)))
    if not thing:
        return next(drawn, [])
    shown = re.compile(rf"(?<!\d )\b{thing}(?:e?s)?\b", re.I)  # not only an entry of a list: 6 garden
    return next((own for own in drawn if any(shown.search(one.text) for one in own)), [])


def _sent_back(activity: Activity) -> "re.Match[str] | None":
    """Where notes send children back to a picture: (1) Use the picture in activity 1."""
    notes = (one.text for one in activity.part.passages if one.audience is Audience.TEACHER)
    return next((found for one in notes if (found := _BACK_TO.search(one)) is not None), None)


def _looked_at(activity: Activity) -> str:
    """What children look at, by the first words of the page below a heading; '' where they look at nothing."""
    found = _LOOKS_AT.match(_first_on_page(activity).lstrip())
    return found[1].casefold() if found is not None and found[1].casefold() not in small_words() else ""


def _first_on_page(activity: Activity) -> str:
    """The first words of the page below a heading."""
    page = (one for one in activity.part.passages if one.audience is Audience.PUPIL)
    return next((one.text for one in page if one is not activity.heading.passage), "")


def _own(activity: Activity) -> list[Passage]:
    return [one for one in activity.part.passages if one.audience is Audience.ARTIST]
