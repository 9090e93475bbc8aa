"""Where a finding stands in a unit, by its headings: what carried findings are keyed on, and reports group by."""

from bisect import bisect_right
from collections.abc import Sequence

import msgspec

from lint_rules.manuscript.model import Activity, Unit
from lint_rules.source import Span


class Section(msgspec.Struct, frozen=True, array_like=True):
    """A lesson or an activity: the offsets it runs over, and its name ('lesson / activity')."""

    start: int
    end: int
    name: str


def sections_of(unit: Unit) -> tuple[Section, ...]:
    """Lessons and activities of a unit in file order, outer ones first."""
    sections = [_section(activity, "") for activity in unit.opening_activities]
    for lesson in unit.lessons:
        title = lesson.heading.passage.text
        sections.append(Section(lesson.span.start, lesson.span.end, title))
        sections += [_section(activity, title) for activity in lesson.activities]
    return tuple(sections)


def place_of(span: Span, sections: Sequence[Section]) -> str:
    """Name of the innermost section that a span starts in; '' when it is in none."""
    last = bisect_right(sections, span.start, key=lambda section: section.start)
    before = (sections[index] for index in range(last - 1, -1, -1))
    return next((section.name for section in before if span.start < max(section.end, section.start + 1)), "")


def _section(activity: Activity, lesson: str) -> Section:
    name = activity.heading.passage.text
    return Section(activity.span.start, activity.span.end, f"{lesson} / {name}" if lesson else name)
