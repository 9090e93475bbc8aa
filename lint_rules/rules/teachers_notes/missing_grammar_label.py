"""A lesson practises a structure, and its teacher's notes do not say which.

The children see sentences, never terms; so the notes are the one place where a teacher, or the editor who looks for
the lesson on the past simple, finds what is practised. A lesson practises a structure when it has a pattern (a
`pattern` div) or when it is a `{.grammar}` lesson with activities. The label stands in the Grammar field, or anywhere
else in the lesson's notes (`Aim: practise the present continuous`). A test needs none.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Mend, Severity
from lint_rules.language.grammar.grammar_levels import names
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.manuscript.insert_field import field_edit
from lint_rules.manuscript.model import Lesson
from lint_rules.manuscript.pattern_table import pattern_passages
from lint_rules.rule import Example, Need, Reading, Rule
from lint_rules.unit_language.named_grammar import main_structures, names_grammar, practised
from lint_rules.unit_language.tests_of import TEST

_PATTERN = "### 1 Listen and say. {.listening}\n\n::: pattern\nThe wind is blowing.\n\nThe kite is flying.\n:::\n"

RULE = Rule(
    name="missing-grammar-label",
    family="teacher's notes",
    severity=Severity.NOTE,
    cure="Write a **Grammar:** field into the lesson's notes, as teachers call the structure.",
    passes=(
        Example(
            "## Lesson 2: It's windy {.grammar}\n\n::: teacher\n**Aim:** talk about the weather\n"
            "**Grammar:** present continuous\n:::\n\n" + _PATTERN
        ),
        Example(
            "## Lesson 2: It's windy {.grammar}\n\n::: teacher\n**Aim:** practise the present continuous\n:::\n\n"
            + _PATTERN,
            why="named in the aim",
        ),
        Example(
            "## Lesson 2: Jobs {.jobs}\n\n::: teacher\n**Aim:** names of jobs\n:::\n\n### 1 Write. {.writing}\n\n"
            "::: pattern\n| -er | -or |\n|---|---|\n| work → work**er** | visit → visit**or** |\n:::\n",
            why="it builds words",
        ),
        Example(
            "## Lesson 2: My bike {.grammar}\n\n::: teacher\n**Aim:** use *have got* with toys\n:::\n\n"
            "### 1 Say. {.speaking}\n\n::: pattern\nI have got a bike.\n:::\n"
        ),
        Example(
            "## Lesson 2: It's windy {.grammar}\n\n"
            + _PATTERN
            + "\n::: teacher\n**Grammar:** present continuous\n:::\n",
            why="in the notes of an activity",
        ),
        Example("## Lesson 3: A kite in a tree {.story}\n\n### 1 Read. {.story}\n\nThe wind is blowing.\n"),
        Example("## Lesson 6: Test {.test}\n\n" + _PATTERN, why="a test needs none"),
        Example("## Lesson 2: It's windy {.grammar}\n\nTo be written.\n", why="no activities yet"),
    ),
    fails=(
        Example(
            "## Lesson 2: «It's windy» {.grammar}\n\n::: teacher\n**Aim:** talk about the weather\n:::\n\n" + _PATTERN
        ),
        Example("## Lesson 1: «It's windy» {.words}\n\n" + _PATTERN, why="a pattern in any lesson"),
        Example(
            "## Lesson 2: «Games» {.grammar}\n\n::: teacher\n**Aim:** say what children can do\n:::\n\n"
            "### 1 Ask and answer. {.speaking}\n\nCan you swim?\n",
            why="`can` is a word of the aim here, not its name",
        ),
    ),
    needs=frozenset({Need.LANGUAGE}),
)


# The head of a pattern that builds words: | -tion | -ment |, protect → protection. No structure to name.
_BUILDING = lazy_re.compile(r"\W*(?:tion|sion|ment|ness|ist|or|ful|less|able|ship|hood|un|dis|re)\W*", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report lessons that practise grammar and do not name it, at their headings."""
    unit = reading.unit
    for lesson in unit.lessons:
        passages = tuple(lesson.passages)
        pattern = pattern_passages(unit, passages)
        has_pattern = bool(pattern) and not any(_BUILDING.fullmatch(passage.text) for passage in pattern)
        if TEST in lesson.classes or not (has_pattern or ("grammar" in lesson.classes and lesson.activities)):
            continue
        shown = main_structures(practised(unit, passages, reading.analyse))
        if not names_grammar(passages, shown):
            yield _found(reading, lesson, shown)


def _found(reading: Reading, lesson: Lesson, shown: tuple[str, ...]) -> Found:
    labels = _labels(reading, shown)
    called = " and ".join(names()[name].called for name in shown[:2])
    what = f", and its pattern sentences show {called}" if shown else ", and it is a grammar lesson"
    label = labels[0] if labels else "the structure"
    message = f"The notes of this lesson name no grammar{what}. Write there, for the teacher: **Grammar:** {label}."
    edit = field_edit(reading.unit, lesson.part, "Grammar", labels[0]) if len(labels) == 1 else None
    mend = Mend(f"add “Grammar: {labels[0]}” to the lesson's notes", (edit,)) if edit else None
    passage = lesson.heading.passage
    return Found(passage.span(), passage.text, message, mend=mend)


def _labels(reading: Reading, shown: tuple[str, ...]) -> list[str]:
    """How to label the structures shown: as the unit's front matter does, else by what teachers call them."""
    own = [label for label in reading.unit.front.grammar if not frozenset(shown).isdisjoint(structures_of_label(label))]
    if len(own) > 1:
        return []  # I'm + name; It's a …: which of them, the author knows
    return own or [names()[name].called.removeprefix("the ") for name in shown]
