"""A target word that comes back too seldom after the lesson that teaches it.

A child who meets a word once has heard it, no more; each later meeting makes it surer, and examinations for children
ask for words above all. A meeting is a later lesson in which children read, hear, say or write the word: on a page,
in a script, a heading or an instruction, as a picture that stands for it, in an answer of a test. Several times in
one lesson is one meeting; teacher's notes are none. Words that children need only know (`use` know) are not asked
for. A word that comes back, and only too seldom, is a note (of the authors of thirteen courses none took up more than
the words that never do), unless the course has set a limit of its own. Where no unit of the level is left to bring a
word back, this is a note, too; units that are still to be written are waited for, and no more meetings are asked for
than lessons are left.
"""

from collections.abc import Iterator, Sequence

from lint_rules.course.defaults import default_limits
from lint_rules.course.model import Level
from lint_rules.facts import UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.rule import Book, By, Example, Gather, Limit, Need, Rule, Within
from lint_rules.source import Span
from lint_rules.vocabulary_map import Gap, Sight, WordRow, gaps

_LIST = "kite,noun,toys,1\n"


def _unit(number: int, *lessons: str) -> str:
    body = "".join(
        f"## Lesson {index}: Look {{.words}}\n\n### 1 Look.\n\n{text}\n\n" for index, text in enumerate(lessons, 1)
    )
    return f"---\nlevel: level-1\nunit: {number}\ntitle: Kites\n---\n\n# Kites\n\n{body}"


_NEVER, _SELDOM = "never", "seldom"
_LAST = "levels:\n  - recycle: 2\n    units: 1\n"
_TWICE = "levels:\n  - recycle: 2\n    units: 2\n"

RULE = Rule(
    name="word-not-recycled",
    family="vocabulary map",
    severity=Severity.QUERY,
    cure=(
        "Bring the word back in a later story, dialogue, game or review. `hornbook words` shows where each word is met."
    ),
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
        Example(_unit(1, "A hat!", "A kite!"), words=_LIST, course=_LAST, why="no lesson is left"),
        Example(
            _unit(1, "A kite!", "![a kite](art/kite.svg)", "### 2 Colour the kite."),
            words=_LIST,
            course=_LAST,
            why="seen and read",
        ),
        Example(
            _unit(1, "A kite!", "The Kite is a boat.", "### 2 Write. {.test .writing}\n\n::: answers\n1 kite\n:::"),
            words=_LIST,
            course=_LAST,
            why="in a name, and written in a test",
        ),
        Example(
            _unit(1, "Two kites!", "My kite!", "His kite!"),
            words="kites,noun,toys,1\n",
            course=_LAST,
            why="listed in the plural",
        ),
    ),
    fails=(
        Example(
            _unit(1, "A «kite»!", "Two kites! The kites are red."),
            others=(_unit(2, "My hat is red."),),
            words=_LIST,
            course=_TWICE,
            why="twice in one lesson is one meeting: too few, and so a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "A «kite»!", "Two kites! The kites are red.", "My hat!"),
            others=(_unit(2, "My hat is red."),),
            words=_LIST,
            course="levels:\n  - recycle: 3\n    units: 2\n",
            why="the course asks for three more lessons itself",
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
            why="one lesson is left, and has not got it: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "A «kite»!", "::: teacher\n**Steps:** Show a kite.\n:::"),
            others=(_unit(2, "A hat!", "A bat!"),),
            words=_LIST,
            course=_TWICE,
            why="children do not read the notes",
        ),
    ),
    limits=(Limit("the later lessons under `recycle` of the level", "common practice, no source"),),
    gathers=(
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} words that this unit teaches come back in no later lesson: {keys}. Bring them back in a story, a "
            "game or a review.",
            only=_NEVER,
        ),
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} words that this unit teaches come back in fewer later lessons than the level asks for: {keys}. "
            "Bring them back in a story, a game or a review.",
            only=_SELDOM,
        ),
    ),
)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report each such word where it is taught."""
    for row in book.vocabulary:
        level = book.course.levels[row.entry.level]
        units = [unit for unit in book.units if unit.level == level.index]
        if row.taught is None or Gap.MET not in gaps(row, book.course, book.units):
            continue
        unit, spot = book.units[row.taught.unit], row.taught.spot
        severity, cure = _hope(unit, row.room, level, units)
        asked = level.limits.recycle != default_limits(level.cefr).recycle  # the course has a limit of its own
        severity = severity if not row.met or asked else Severity.NOTE
        about = _SELDOM if row.met else _NEVER
        message = f"{_said(row, level, book)} {cure}"
        yield Found(
            Span(spot.start, spot.end),
            spot.text,
            message,
            severity,
            path=unit.path,
            key=row.entry.word,
            about=about,
        )


def _hope(unit: UnitFacts, room: int, level: Level, units: Sequence[UnitFacts]) -> tuple[Severity | None, str]:
    """A fair verdict on the last units: a word that no later unit can bring back is only a note."""
    if len(units) < level.units:
        return Severity.NOTE, "Use the units still to come, and a later lesson of this one."
    if unit is units[-1] or room < level.limits.recycle:
        return Severity.NOTE, f"{level.name} has no later unit; a later lesson of this one may bring it back."
    return None, "Bring it back in a later story, dialogue, game or review."


def _said(row: WordRow, level: Level, book: Book) -> str:
    word, wanted = row.entry.word, level.limits.recycle
    if not row.met:
        more = "one later lesson" if wanted == 1 else f"{wanted} later lessons"
        return f"No later lesson has “{word}”, and {level.name} wants it in {more}."
    where = ", ".join(_place(sight, book) for sight in row.met)
    return f"Of the later lessons only {_lessons(row.meetings)} “{word}” ({where}); {level.name} wants {wanted}."


def _place(sight: Sight, book: Book) -> str:
    unit = book.units[sight.unit]
    lesson = f" lesson {sight.lesson + 1}" if sight.lesson >= 0 else ""
    return f"{book.course.levels[unit.level].name} unit {unit.unit}{lesson}"


def _lessons(count: int) -> str:
    return "one has" if count == 1 else f"{count} have"
