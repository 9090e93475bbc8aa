"""A target word of the word list that its unit never teaches.

What the list promises, a teacher plans for and an examiner may ask for. A word counts as taught where a child meets
it in its unit: on a pupil's page or in an audio script, best in a `words` panel; a word of instructions (listen,
circle) in an instruction too. A title, another word of an instruction, a test and the teacher's notes teach no word;
but words that children need only know (`use` know) are met in any heading, and the small words among them everywhere.
Where a child at least reads a word in a heading or an instruction of its unit, or the notes or a picture's brief have
it, its finding is a note; of a word that children need only know there is none then.
A word without a unit in the list may be taught anywhere in its level. Units that are not written yet are waited for.
"""

from collections.abc import Iterator, Sequence, Set

from lint_rules.course.model import Level, WordEntry
from lint_rules.facts import UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.rule import Book, By, Example, Gather, Need, Rule, Within
from lint_rules.source import Span
from lint_rules.vocabulary_map import WordRow, unit_to_teach

_LIST = "kite,noun,toys,1\nhill,noun,places,1\n"
_BOTH = "::: words\nkite, hill\n:::\n"

_HEADED = "headed"
_TESTED = "tested"
RULE = Rule(
    name="target-word-not-taught",
    family="vocabulary map",
    severity=Severity.QUERY,
    cure=(
        "Put the word into the unit's `words` panel, or change its unit in the word list. `hornbook words "
        "--unit` shows what a unit teaches."
    ),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_BOTH, words=_LIST),
        Example("The kites are on the hill.\n", words=_LIST, why="no panel, but on the page, in another form"),
        Example(
            "### 1 Circle the kite. {.reading}\n\nA kite!\n",
            words="kite,noun,,1\ncircle,verb,,1\n",
            why="it teaches circle",
        ),
        Example(
            "### 1 Find the mistakes. {.mistakes}\n\n1. She were on a hill.\n2. I has a kite.\n\n"
            "::: answers\n1 were: was; 2 has → have\n:::\n",
            words=_LIST,
            why="in sentences that children put right",
        ),
        Example(
            "::: words\nphotographer\n:::\n\n1. I like it. ____\n2. It is big. ____\n\n::: answers\n1 A 2 F\n:::\n",
            words="photographer,noun,,1\n",
            why="a long word of a panel, and no letters to find words in",
        ),
        Example(
            "A kite!\n\n::: teacher\n**Steps:** Show the hill.\n:::\n",
            words="kite,noun,,1\nhill,noun,,1,know\n",
            why="the teacher says it, and children need only know it",
        ),
        Example("What's your name?\n", words="name,noun,,1\n", why="in a set phrase"),
        Example("::: {.audio track=1.1}\nMILO: A kite! On the hill!\n:::\n", words=_LIST),
        Example(_BOTH, words=_LIST + "cloud,noun,weather,2\n", why="unit 2 is not written yet"),
        Example(_BOTH, words=_LIST + "sun,noun,weather,\n", course="levels:\n  - units: 3\n", why="there is time"),
    ),
    fails=(
        Example("# «Kites»\n\n## Lesson 1: Look {.words}\n\n### 1 Look.\n\nThe kite is red.\n", words=_LIST),
        Example(
            "# «Kites»\n\n## Lesson 1: Look {.words}\n\n### 1 Look.\n\nThe kite is red.\n\n<!-- a hill here? -->\n",
            words="kite,noun,,1\nhill,noun,,1,know\n",
            why="a comment",
        ),
        Example(
            "# «Kites»\n\n## Lesson 1: A hill {.words}\n\n### 1 Draw the hill.\n\nThe kite is red.\n\n"
            "::: teacher\n**Words:** hill\n:::\n",
            words=_LIST,
            why="a heading, an instruction and a note teach no word, and children read two of them",
            weight=Severity.NOTE,
        ),
        Example(
            "# «Kites»\n\n## Lesson 1: Look {.words}\n\n### 1 Look.\n\nThe kite is red.\n\n"
            "::: teacher\n**Steps:** Teach hill with your hands.\n:::\n",
            words=_LIST,
            why="taught by the teacher alone",
            weight=Severity.NOTE,
        ),
        Example(
            "# «Kites»\n\n## Lesson 1: Look {.words}\n\n### 1 Look.\n\nThe kite is red.\n\n"
            "## Lesson 2: Test {.test}\n\n### 1 Read. {.test .reading}\n\nThe hill is big.\n",
            words=_LIST,
            why="a test asks for it, and nobody has taught it",
        ),
        Example(
            f"# «Kites»\n\n## Lesson 1: Look {{.words}}\n\n### 1 Look.\n\n{_BOTH}",
            words=_LIST + "sun,noun,weather,\n",
            course="levels:\n  - units: 1\n",
            why="all units are there, and none has it",
        ),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} target words of this unit stand there in headings, instructions or notes alone: {keys}. A `words` "
            "panel would teach them.",
            only=_HEADED,
        ),
        Gather(
            Within.UNIT,
            By.ABOUT,
            "{count} target words of this unit stand there in a test alone: {keys}. Teach them before it, in a `words` "
            "panel or a text, or give them another unit in the list.",
            only=_TESTED,
        ),
        Gather(
            Within.UNIT,
            says="{count} target words of this unit are taught nowhere in it: {keys}. Put them in the unit's `words` "
            "panel, or give them another unit in the list.",
        ),
    ),
)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report each such word at the title of the unit that should teach it (without one: of the level's last unit)."""
    several = _listed_as_several(book.course.words)
    by_level: dict[int, list[UnitFacts]] = {level.index: [] for level in book.course.levels}
    for unit in book.units:
        by_level[unit.level].append(unit)
    for row in book.vocabulary:
        heard = row.entry.use == "know" and (row.in_passing or _is_everyday(row.entry.word))
        if row.taught is None and not heard:
            level = book.course.levels[row.entry.level]
            place = unit_to_teach(row, level, by_level[level.index])
            if place is not None:
                tested = any(book.units[sight.unit] is place for sight in row.tested)
                yield _found(row, level, place, _as_what(row.entry, several), tested=tested)


def _is_everyday(word: str) -> bool:
    """Say whether a word is one of the small ones that hold sentences together: children who need only know it hear it
    every day, and no panel is the place for it."""
    return bool(function_bands(word))


def _listed_as_several(words: Sequence[WordEntry]) -> frozenset[str]:
    """Spellings that the lists have as more than one part of speech."""
    first: dict[str, str] = {}
    return frozenset(one.word for one in words if first.setdefault(one.word, one.part_of_speech) != one.part_of_speech)


def _as_what(entry: WordEntry, several: Set[str]) -> str:
    """The word's part of speech, where the lists have its spelling as another too: shop (verb)."""
    return f" ({entry.part_of_speech})" if entry.word in several and entry.part_of_speech else ""


def _found(row: WordRow, level: Level, unit: UnitFacts, as_what: str, *, tested: bool) -> Found:
    entry = row.entry
    listed = f"{entry.path}, line {entry.row}"
    where = f"{level.name} unit {entry.unit}" if entry.unit else level.name
    lack = "only a test there has it" if tested else "nothing there teaches it"
    if row.headed:
        lack = "only a heading or an instruction there has it"
    elif row.in_passing:
        lack = "it stands there in passing only"
    cure = "its `words` panel" if entry.unit else "a unit"
    message = (
        f"“{entry.word}”{as_what} is a target word of {where} ({listed}), and {lack}. "
        f"Put it in {cure}, or change the list."
    )
    title = Span(unit.title.start, unit.title.end)
    weight, about = (Severity.NOTE, _HEADED) if row.headed or row.in_passing else (None, _TESTED if tested else "")
    return Found(title, unit.title.text, message, weight, path=unit.path, key=entry.word, about=about)
