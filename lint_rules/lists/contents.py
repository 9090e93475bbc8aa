"""The scope and sequence: a row a unit, with its topics, words, grammar, sounds, skills, story, project and minutes."""

from collections.abc import Iterator

from lint_rules.lists.book import BookOfUnits, Cell, Column, Table, UnitOfBook, joined, one_line
from lint_rules.manuscript.model import Activity, Role, Unit
from lint_rules.page.story_texts import STORY
from lint_rules.page.time_plans import lesson_minutes
from lint_rules.page.times import Minutes, add_up

_SKILLS = ("listening", "speaking", "reading", "writing")
_COLUMNS = (
    Column("level", 10),
    Column("unit", 5),
    Column("title", 24),
    Column("topics", 20),
    Column("words", 48),
    Column("grammar", 24),
    Column("sounds", 16),
    Column("skills", 24),
    Column("story", 24),
    Column("project", 24),
    Column("lessons", 8),
    Column("minutes", 9),
)


def contents(book: BookOfUnits) -> Iterator[Table]:
    """One table, units in teaching order."""
    yield Table("Scope and sequence", _COLUMNS, tuple(_row(book, of) for of in book.units))


def _row(book: BookOfUnits, of: UnitOfBook) -> tuple[Cell, ...]:
    unit = of.unit
    words = [
        entry.word for entry in book.course.words if (entry.level, entry.unit) == (of.level.index, unit.front.unit)
    ]
    kinds = {kind for activity in unit.activities for kind in activity.kinds}
    return (
        of.level.name,
        unit.front.unit,
        unit.front.title,
        joined(unit.front.topics),
        joined(words),
        joined(unit.front.grammar),
        joined([_sound(activity) for activity in unit.activities]),
        joined([skill for skill in _SKILLS if skill in kinds]),
        joined(list(_stories(unit)), "; "),
        joined([one_line(one.heading.passage.text) for one in unit.activities if "make" in one.kinds], "; "),
        len(unit.lessons),
        minutes_of(unit),
    )


def _sound(activity: Activity) -> str:
    values = activity.heading.attributes.values
    sound, spelling = values.get("sound", ""), values.get("spelling", "")
    return " ".join(part for part in (f"/{sound}/" if sound else "", spelling) if part)


def _stories(unit: Unit) -> Iterator[str]:
    """The titles of a unit's stories; the instruction of one that has no title."""
    for activity in unit.activities:
        if STORY.intersection(activity.kinds):
            titles = [one_line(passage.text) for passage in activity.part.passages if passage.role is Role.TITLE]
            yield joined(titles) or one_line(activity.heading.passage.text)


def minutes_of(unit: Unit) -> str:
    """A unit's minutes: `240`, `230–250`; `240 +` where a lesson does not say how long it takes; '' where none does."""
    times = [lesson_minutes(lesson) for lesson in unit.lessons]
    known = [time for time in times if time is not None]
    if not known:
        return ""
    total: Minutes = add_up(known)
    shown = f"{total.low:g}" if total.low == total.high else f"{total.low:g}–{total.high:g}"
    return shown if len(known) == len(times) else f"{shown} +"
