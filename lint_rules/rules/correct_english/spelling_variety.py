"""A spelling of the other variety of English: color in a British course, colour in an American one.

A child who reads “favourite” on one page and “favorite” on the next takes one of them for a mistake, and a teacher
takes both for carelessness. The course says which variety it is written in (`variety` in course.yaml); this rule
holds pupil's pages, audio scripts, answers and teacher's notes to it.

Words that are good in both varieties are left alone: realize in a British course, practice (the noun), program,
check. So are names, the course's known words, and activities whose mistakes are deliberate. Words that differ
altogether (lift, elevator) are no matter of spelling. Canadian English spells some words one way and some the other:
for en-CA this rule has nothing to say.
"""

from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.english.text import passages_to_check
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.language.grammar.steps import is_among_orders
from lint_rules.language.tokens import Token
from lint_rules.language.vocabulary.varieties import AMERICAN, doubtful, out_of_place, spelt_as, wrong_as
from lint_rules.language.vocabulary.word_shapes import is_bare
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Passage, Role
from lint_rules.plain_words import LETTERS
from lint_rules.rule import By, Example, Gather, Limit, Need, Reading, Rule, Within

RULE = Rule(
    name="spelling-variety",
    family="correct English",
    severity=Severity.QUERY,
    cure=(
        "Take the spelling of the course's own variety: `hornbook mend` writes it. If the other one is meant, "
        "as in a name, let it stand."
    ),
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example("::: teacher\n**Words:** wake up, brush, practise, early\n:::\n", why="in a list it may be the verb"),
        Example("::: teacher\n**Steps:** Groups of four. Read, practise, show.\n:::\n", why="an order among orders"),
        Example("What's your favourite colour?\n\nIt's grey.\n"),
        Example("::: teacher\n**Steps:** 1) Pairs practise. 2) Groups of four practise and choose.\n:::\n"),
        Example("My dog and I ____ (practise) a trick.\n", why="a hint: the verb that is to be put in"),
        Example("What's your favorite color?\n\nIt's gray.\n", course="variety: en-US"),
        Example("I realize that. Look at the program!\n", why="right in British English too"),
        Example("We do our music practice at home.\n", why="the noun is spelt so in both"),
        Example("::: teacher\n**Steps:** Children practise in pairs. Practice 2 is for later.\n:::\n"),
        Example("::: teacher\n**Steps:** Children practice in pairs.\n:::\n", course="variety: en-US"),
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
        Example("::: {.audio track=1.1}\nMINA: This is my «mom». I'm in my «pajamas»!\n:::\n"),
        Example("::: teacher\n**Steps:** Children «practice» the song in pairs.\n:::\n", why="the verb"),
        Example("### 1 Listen and «practice».\n"),
        Example("My «neighbor»'s dog is big.\n", why="with its ending"),
        Example("The bus has got four «tyres».\n", course="variety: en-US"),
    ),
    limits=(
        Limit(
            "frequent words only: a Zipf frequency of 2.3 or more (wordfreq 3.1.1)",
            "SCOWL 2020.12.07 (Spell-Checker Oriented Word Lists), its lists of American and British words",
        ),
    ),
    gathers=(Gather(Within.COURSE, By.WORDS),),
    fault="a word",
)

_IN_HINT = lazy_re.compile(r"_\s*\([^()]*$")
_TITLES = frozenset({Role.UNIT_TITLE, Role.LESSON_TITLE, Role.TITLE, Role.INSTRUCTION, Role.HEAD})


def find(reading: Reading) -> Iterator[Found]:
    """Report the words that are spelt as the other variety spells them."""
    variety = reading.course.variety
    other, doubted = out_of_place(variety), doubtful(variety)
    names = {word.casefold() for name in (*reading.course.names, *reading.course.known) for word in name.split()}
    for passage, _ in passages_to_check(reading.unit):
        for match in LETTERS.finditer(passage.text):
            word = match[0].casefold()
            if (word not in other and word not in doubted) or word in names or _is_name(passage, match.start()):
                continue
            if right := other.get(word):
                yield _found(passage, match.start(), match[0], right, _other_variety(match[0], right, variety))
            elif part := _part_it_is_wrong_as(word, passage, match.start(), reading):
                right = wrong_as(variety)[word, part]
                yield _found(passage, match.start(), match[0], right, _other_part(match[0], right, part, variety))


def _part_it_is_wrong_as(word: str, passage: Passage, start: int, reading: Reading) -> str:
    """The part of speech that a word is here, if the course's variety spells it otherwise as that; else ''."""
    wrong = wrong_as(reading.course.variety)
    if is_bare(tokens := reading.analyse(passage).tokens) or field_key(passage.field) == "word":
        return ""  # a word by itself, or in a list, may be either
    if _IN_HINT.search(passage.text[:start]):
        return ""  # `____ (practise)`: a hint is the word's dictionary form, and stands in no sentence
    at = next((index for index, token in enumerate(tokens) if token.start == start), None)
    if at is None:
        return ""
    part = tokens[at].pos
    if part == "NOUN" and is_among_orders(reading.analyse(passage), start):
        part = "VERB"  # Read, practise, show: an order among orders
    if (word, part) not in wrong or (part == "NOUN" and not _is_surely_noun(tokens, at)):
        return ""
    after = tokens[at + 1].pos if at + 1 < len(tokens) else ""
    is_title = after == "NUM" or (at == 0 and after in {"NOUN", "PROPN"})  # 'Practice 2', 'Practice time': a noun
    return "" if is_title else part


def _is_surely_noun(tokens: Sequence[Token], at: int) -> bool:
    """Say whether something before a word makes a noun of it: the practise, good practise; not: Pairs practise."""
    before = tokens[at - 1] if at else None
    return before is not None and (before.pos in ("ADJ", "ADP") or before.tag in ("DT", "PRP$", "POS"))


def _other_variety(word: str, right: str, variety: str) -> str:
    here, there = ("American", "British") if spelt_as(variety) == AMERICAN else ("British", "American")
    return f"“{word}” is the {there} spelling; this course is in {here} English ({variety}), which has “{right}”."


def _other_part(word: str, right: str, part: str, variety: str) -> str:
    here, other = ("verb", "noun") if part == "VERB" else ("noun", "verb")
    return f"“{word}” is the {other}; in British English ({variety}) the {here} is “{right}”."


def _found(passage: Passage, start: int, word: str, right: str, message: str) -> Found:
    span = passage.span(start, start + len(word))
    whole = span.end - span.start == len(word)  # no emphasis or entity within: the edit would lose it
    edit = Edit(span, _cased(right, word))
    return Found(span, word, message, mend=Mend(f"write “{edit.text}”", (edit,)) if whole else None)


def _is_name(passage: Passage, start: int) -> bool:
    """Say whether a word has a capital that no sentence or title gives it: a name is spelt as its owner likes."""
    if not passage.text[start].isupper() or passage.role in _TITLES or passage.text[start:].split()[0].isupper():
        return False
    before = passage.text[:start].rstrip()
    return before.endswith(",") or before[-1:].isalnum()


def _cased(right: str, word: str) -> str:
    if word.isupper() and len(word) > 1:
        return right.upper()
    return right.capitalize() if word[0].isupper() else right
