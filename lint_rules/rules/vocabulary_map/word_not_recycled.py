"""A target word that comes back too seldom after the lesson that teaches it.

A child who meets a word once has heard it, no more; each later meeting makes it surer, and examinations for children
ask for words above all. A meeting is a later lesson that has the word on a pupil's page or in a script. Headings,
instructions and teacher's notes do not count, nor does a word count twice in one lesson. Where no unit of the level is
left to bring a word back, this is a note; units that are still to be written are waited for.
"""

from collections.abc import Iterator, Sequence

from lint_rules.course.model import Course, Level
from lint_rules.facts import UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.rule import Book, Example, Gather, Limit, Need, Rule, Within
from lint_rules.source import Span
from lint_rules.vocabulary_map import WordRow

_LIST = "kite,noun,toys,1\n"


def _unit(number: int, *lessons: str) -> str:
    body = "".join(
        f"## Lesson {index}: Look {{.words}}\n\n### 1 Look.\n\n{text}\n\n" for index, text in enumerate(lessons, 1)
    )
    return f"---\nlevel: level-1\nunit: {number}\ntitle: Kites\n---\n\n# Kites\n\n{body}"


_TWICE = "levels:\n  - recycle: 2\n    units: 2\n"

RULE = Rule(
    name="word-not-recycled",
    family="vocabulary map",
    severity=Severity.QUERY,
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_unit(1, "A kite!", "Two kites!"), others=(_unit(2, "My kite is red."),), words=_LIST, course=_TWICE),
        Example(
            _unit(1, "A kite!", "::: {.audio track=1.1}\nMILO: My kite!\n:::"),
            others=(_unit(2, "His kite is red."),),
            words=_LIST,
            course=_TWICE,
            why="a script counts",
        ),
        Example(_unit(1, "A kite!"), words=_LIST, course="levels:\n  - recycle: 0\n", why="the course asks for none"),
        Example(_unit(1, "A kite!", "A hat!"), words=_LIST, course=_TWICE, why="unit 2 is still to come"),
        Example(_unit(1, "A hat!"), words=_LIST, course=_TWICE, why="never taught: another rule says so"),
    ),
    fails=(
        Example(
            _unit(1, "A «kite»!", "Two kites! The kites are red."),
            others=(_unit(2, "My hat is red."),),
            words=_LIST,
            course=_TWICE,
            why="twice in one lesson is one meeting",
        ),
        Example(
            _unit(1, "Look! A kite.\n\n::: words\n«kite»\n:::", "A hat!"),
            others=(_unit(2, "My hat is red."),),
            words=_LIST,
            course=_TWICE,
            why="found in the panel that teaches it",
        ),
        Example(
            _unit(1, "A hat!"),
            others=(_unit(2, "A «kite»!", "A hat!"),),
            words="kite,noun,toys,2\n",
            course=_TWICE,
            why="the last unit of the level: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "A «kite»!"),
            others=(_unit(2, "A hat!"),),
            words=_LIST,
            course=_TWICE,
            why="one lesson is left for two meetings: a note",
            weight=Severity.NOTE,
        ),
    ),
    limits=(Limit("the later lessons under `recycle` of the level", "house default, no source"),),
    gathers=(
        Gather(
            Within.UNIT,
            says="{count} words that this unit teaches come back in too few later lessons: {keys}. `hornbook words` "
            "shows where each is met.",
        ),
    ),
)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report each such word where it is taught."""
    for row in book.vocabulary:
        level = book.course.levels[row.entry.level]
        wanted = level.limits.recycle
        units = [unit for unit in book.units if unit.level == level.index]
        if row.taught is None or row.meetings >= wanted or _can_still_come(row, level, units):
            continue
        unit, spot = book.units[row.taught.unit], row.taught.spot
        severity, why = _hope(unit, row.room, level, units)
        message = f"{_said(row, wanted, book.course, book.units)} {why}"
        yield Found(Span(spot.start, spot.end), spot.text, message, severity, path=unit.path, key=row.entry.word)


def _can_still_come(row: WordRow, level: Level, units: Sequence[UnitFacts]) -> bool:
    """Whether the units that are not written yet have lessons enough, if they are like those that are."""
    lessons = max((len(unit.lessons) for unit in units), default=0)
    return (level.units - len(units)) * lessons >= level.limits.recycle - row.meetings


def _hope(unit: UnitFacts, room: int, level: Level, units: Sequence[UnitFacts]) -> tuple[Severity | None, str]:
    """A fair verdict on the last units: a word that no later unit can bring back is only a note."""
    if len(units) < level.units:
        return (
            Severity.NOTE,
            f"The units of {level.name} still to come can make up for a part of it only: use them, and this one.",
        )
    if unit is units[-1] or room < level.limits.recycle:
        return Severity.NOTE, f"No later unit of {level.name} can bring it back; the lessons of this one still may."
    return None, "Bring it back in a later story, dialogue, game or review."


def _said(row: WordRow, wanted: int, course: Course, units: Sequence[UnitFacts]) -> str:
    word = row.entry.word
    level = course.levels[row.entry.level].name
    if not row.met:
        return f"“{word}” is taught here and never met again; {level} wants it in {_lessons(wanted)}."
    where = ", ".join(f"unit {units[sight.unit].unit} lesson {sight.lesson + 1}" for sight in row.met)
    return f"“{word}” is met again in only {_lessons(row.meetings)} ({where}); {level} wants {wanted}."


def _lessons(count: int) -> str:
    return "1 later lesson" if count == 1 else f"{count} later lessons"
