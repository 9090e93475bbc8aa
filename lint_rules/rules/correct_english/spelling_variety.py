"""A spelling of the other variety of English: color in a British course, colour in an American one.

A child who reads “favourite” on one page and “favorite” on the next takes one of them for a mistake, and a teacher
takes both for carelessness. The course says which variety it is written in (`variety` in course.yaml); this rule
holds pupil's pages, audio scripts, answers and teacher's notes to it.

Words that are good in both varieties are left alone: realize in a British course, practice (the noun), program,
check. So are names, the course's known words, and activities whose mistakes are deliberate. Words that differ
altogether (lift, elevator) are no matter of spelling. Canadian English spells some words one way and some the other:
for en-CA this rule has nothing to say.
"""

import re
from collections.abc import Iterator

from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.language.english_text import passages_to_check
from lint_rules.language.varieties import AMERICAN, out_of_place, spelt_as
from lint_rules.manuscript.model import Passage, Role
from lint_rules.rule import Example, Limit, Reading, Rule

RULE = Rule(
    name="spelling-variety",
    family="correct English",
    severity=Severity.QUERY,
    passes=(
        Example("What's your favourite colour?\n\nIt's grey.\n"),
        Example("What's your favorite color?\n\nIt's gray.\n", course="variety: en-US"),
        Example("I realize that. Look at the program!\n", why="right in British English too"),
        Example("We do our music practice at home.\n", why="the noun is spelt so in both"),
        Example("Mr Gray is our teacher.\n", course="characters: [Mr Gray]", why="a name"),
        Example("We can see Sydney Harbor in the photo.\n", why="a capital inside a sentence: a name"),
        Example("![a color photo](art/beach.svg)\n", why="alternative text is for the artist"),
        Example("### 1 Find the mistakes. {.mistakes}\n\nMy favorite colour is red.\n", why="deliberate"),
        Example("My favourite color is red.\n", course="variety: en-CA", why="Canada spells both ways"),
    ),
    fails=(
        Example("What's your «favorite» «color»?\n\nIt's «gray».\n"),
        Example("What's your «favourite» «colour»?\n\nIt's «grey».\n", course="variety: en-US"),
        Example("## Lesson 1: My «Favorite» Toy {.words}\n\n### 1 Look. {.reading}\n\nA kite.\n"),
        Example("::: teacher\n**Steps:** Children sit in the «center» of the room.\n:::\n"),
        Example("::: {.audio track=1.1}\nZOFI: This is my «mom». I'm in my «pajamas»!\n:::\n"),
        Example("My «neighbor»'s dog is big.\n", why="with its ending"),
        Example("The bus has got four «tyres».\n", course="variety: en-US"),
    ),
    limits=(
        Limit(
            "881 pairs of spellings, frequent words only",
            "SCOWL 2020.12.07 (Spell-Checker Oriented Word Lists), its lists of American and British words",
        ),
    ),
)

_WORD = re.compile(r"[^\W\d_]+")
_TITLES = frozenset({Role.UNIT_TITLE, Role.LESSON_TITLE, Role.TITLE, Role.INSTRUCTION, Role.HEAD})


def find(reading: Reading) -> Iterator[Found]:
    """Report the words that are spelt as the other variety spells them."""
    variety = reading.course.variety
    elsewhere = out_of_place(variety)
    names = {word.casefold() for name in (*reading.course.characters, *reading.course.known) for word in name.split()}
    for passage, _ in passages_to_check(reading.unit):
        for match in _WORD.finditer(passage.text):
            right = elsewhere.get(match[0].casefold())
            if right is None or match[0].casefold() in names or _is_name(passage, match.start()):
                continue
            yield _found(passage, match.start(), match[0], _cased(right, match[0]), variety)


def _found(passage: Passage, start: int, word: str, right: str, variety: str) -> Found:
    span = passage.span(start, start + len(word))
    here, there = ("American", "British") if spelt_as(variety) == AMERICAN else ("British", "American")
    message = f"“{word}” is the {there} spelling; this course is in {here} English ({variety}), which has “{right}”."
    whole = span.end - span.start == len(word)  # no emphasis or entity within: the edit would lose it
    return Found(span, word, message, mend=Mend(f"write “{right}”", (Edit(span, right),)) if whole else None)


def _is_name(passage: Passage, start: int) -> bool:
    """Say whether a word has a capital that no sentence or title gives it."""
    if not passage.text[start].isupper() or passage.role in _TITLES or passage.text[start:].split()[0].isupper():
        return False
    before = passage.text[:start].rstrip()
    return before.endswith(",") or before[-1:].isalnum()


def _cased(right: str, word: str) -> str:
    if word.isupper() and len(word) > 1:
        return right.upper()
    return right.capitalize() if word[0].isupper() else right
