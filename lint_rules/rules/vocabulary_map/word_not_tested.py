"""A target word that no test asks for, neither in its own unit nor later.

What is not tested, a teacher cannot see whether a child has learnt. A word is tested where a test's page, script or
picture has it, or where the answers have it (a child writes it). A test samples: nothing is said where tests ask for a
third of the words that a unit teaches (of 104 judged notes none was thanked for), nor of words that children need only
know when they meet them (`use` know). This is for information; a level that tests nothing at all, and does not mean to,
is left alone, and units that are still to be written are waited for. `hornbook words --gaps` lists every one.
"""

from collections import Counter
from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.rule import Book, Example, Gather, Need, Rule, Within
from lint_rules.source import Span
from lint_rules.vocabulary_map import Gap, gaps

_TWO_UNITS = "levels:\n  - units: 2\n    unit_pattern: [words, test]\n"
_LIST = "kite,noun,toys,1\nhill,noun,places,1\n"
_PANEL = "## Lesson 1: Look {{.words}}\n\n### 1 Look.\n\n::: words\nkite, {}\n:::\n\n"
_TEST = "## Lesson 2: Test {{.test}}\n\n### 1 Write. {{.test .writing}}\n\n{}\n"

RULE = Rule(
    name="word-not-tested",
    family="vocabulary map",
    severity=Severity.NOTE,
    cure="Let a test ask for the word, or leave it so if children need only understand it.",
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_PANEL.format("hill") + _TEST.format("The kite is on the hill."), words=_LIST),
        Example(
            _PANEL.format("hill") + _TEST.format("The kite is on the ____.\n\n::: answers\n1 hill\n:::"),
            words=_LIST,
            why="the child writes it",
        ),
        Example(_PANEL.format("hill"), words=_LIST, course="levels:\n  - unit_pattern: [words]\n", why="no tests here"),
        Example(
            "## Lesson 1: Look {.words}\n\n### 1 Circle.\n\n" + _TEST.format("A kite!"),
            words="circle,verb,,1\n",
            why="a word of instructions",
        ),
        Example(
            _PANEL.format("hill, boat") + _TEST.format("The kite is in the boat."),
            words=_LIST + "boat,noun,toys,1\n",
            why="a test samples",
        ),
        Example(
            _PANEL.format("hill") + _TEST.format("The kite is red."),
            words="kite,noun,toys,1,say,\nhill,noun,places,1,know,\n",
            why="children need only know it",
        ),
        Example(_PANEL.format("hill"), words=_LIST, course=_TWO_UNITS, why="its test is still to come"),
    ),
    fails=(
        Example(
            _PANEL.format("«hill», «boat», «sea»") + _TEST.format("The kite is red."),
            words=_LIST + "boat,noun,,1\nsea,noun,,1\n",
        ),
        Example(
            _PANEL.format("«hill», «boat», «sea»")
            + _TEST.format("The kite is red.\n\n::: teacher\n**Steps:** Draw a hill.\n:::"),
            words=_LIST + "boat,noun,,1\nsea,noun,,1\n",
            why="the notes do not test",
        ),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            says="No test asks for {count} words that this unit teaches: {keys}. Let a test ask for them, or leave it "
            "so if they are only met.",
        ),
    ),
)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report each such word where it is taught."""
    taught: Counter[int] = Counter()
    untested: Counter[int] = Counter()
    for row in book.vocabulary:
        if row.taught is not None:
            taught[row.taught.unit] += 1
            untested[row.taught.unit] += Gap.TESTED in gaps(row, book.course, book.units)
    for row in book.vocabulary:
        level = book.course.levels[row.entry.level]
        if row.taught is None or Gap.TESTED not in gaps(row, book.course, book.units):
            continue
        if untested[row.taught.unit] * 3 <= taught[row.taught.unit] * 2:
            continue
        units = [unit for unit in book.units if unit.level == level.index]
        unit, spot = book.units[row.taught.unit], row.taught.spot
        to_come = len(units) < level.units
        cure = (
            "Let a test of a later unit ask for it."
            if to_come
            else "Let the test of this unit or a later one ask for it, or leave it so if it is only met."
        )
        message = f"No test asks for “{row.entry.word}” so far. {cure}"
        yield Found(Span(spot.start, spot.end), spot.text, message, path=unit.path, key=row.entry.word)
