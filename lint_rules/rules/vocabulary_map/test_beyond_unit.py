"""A test that asks for a word or a structure that a later unit of the level teaches.

A child who fails on a word nobody has taught learns only that tests are unfair, and the teacher can tell nothing from
the result. Read are the pages, the scripts and the answers of a unit's tests: what a child has to write must have been
taught too. Words and grammar of a later level are word-above-level and grammar-above-level, in a test as elsewhere.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.language.grammar.grammar_levels import names, standing
from lint_rules.manuscript.counting import first_words, is_title
from lint_rules.manuscript.model import Audience
from lint_rules.rule import By, Example, Gather, Need, Reading, Rule, Within
from lint_rules.unit_language.grammar_uses import is_carried, is_listed_as_state
from lint_rules.unit_language.other_senses import is_another_sense
from lint_rules.unit_language.tests_of import asked_in_tests
from lint_rules.unit_language.unit_words import Met

_LIST = "kite,noun,toys,1\nhill,noun,places,2\n"
_TEST = "## Test {{.test}}\n\n### 1 Read and write. {{.test .reading}}\n\n{}\n"


def _unit(number: int, grammar: str, lessons: str = "## Lesson 1: Look {.words}\n") -> str:
    return f"---\nlevel: level-1\nunit: {number}\ntitle: Kites\ngrammar: [{grammar}]\n---\n\n# Kites\n\n{lessons}"


RULE = Rule(
    name="test-beyond-unit",
    family="vocabulary map",
    severity=Severity.NOTE,
    cure="Ask for what is taught by now, or teach the word or structure before the test.",
    needs=frozenset({Need.LANGUAGE}),
    passes=(
        Example(_TEST.format("The kite is red."), words=_LIST),
        Example(_TEST.format("The hill is big."), words="green hill,noun,,1\nhill,noun,,2\n", why="the green hill"),
        Example("### 1 Read. {.reading}\n\nThe hill is big.\n", words=_LIST, why="no test; another rule looks there"),
        Example(
            _TEST.format("The kite is red.\n\n::: teacher\n**Steps:** Draw a hill.\n:::"),
            words=_LIST,
            why="the notes are not asked of the child",
        ),
        Example(
            _unit(1, "present simple be", "## I can do it! {.test}\n\n### 1 Read. {.test .reading}\n\nIt's a bird.\n"),
            others=(_unit(2, "can"),),
            why="a title asks nothing",
        ),
        Example(
            _unit(2, "can", _TEST.format("I can swim.")),
            others=(_unit(1, "present simple be"),),
            why="taught by now",
        ),
    ),
    fails=(
        Example(_TEST.format("The kite is on the «hill»."), words=_LIST),
        Example(
            _TEST.format("1. The kite is on the «____».\n\n::: answers\n1 hill\n:::"),
            words=_LIST,
            why="the child has to write it",
        ),
        Example(
            _unit(1, "present simple be", _TEST.format("It's a bird. It «can fly».")),
            others=(_unit(2, "can"),),
        ),
    ),
    gathers=(Gather(Within.COURSE, By.KEY),),
    fault="a word",
)


def find(reading: Reading) -> Iterator[Found]:
    """Report words and structures of later units of the level in the unit's tests, each once in an activity."""
    if reading.unit.front.unit:
        yield from _words(reading)
        yield from _structures(reading)


def _words(reading: Reading) -> Iterator[Found]:
    number, level = reading.unit.front.unit, reading.level
    asked = asked_in_tests(reading.read)
    for met in reading.words.met(lambda passage: id(passage) in asked):
        entry = met.word.entry
        if reading.words.lists.is_taught_otherwise(met.word, level, number):
            continue
        if met.passage.audience is Audience.KEY and met.word.text.casefold() in _REMARKS:
            continue
        if entry is not None and is_another_sense(met.passage.text, met.word.start, met.word.end, entry):
            continue
        if entry is not None and not met.word.free and entry.level == level.index and entry.unit > number:
            where = "its answers have" if met.passage.audience is Audience.KEY else "it has"
            message = (
                f"This test goes beyond unit {number}: {where} “{met.word.text}”, which unit {entry.unit} teaches "
                f"({entry.path}). Ask for a word taught by now, or teach this one by unit {number}."
            )
            yield _found(met, message, entry.word)


# What a key says to the teacher: Open. Own answers. “Nose” is right too.
_REMARKS = frozenset({"open", "own", "right", "correct", "free", "any", "example", "accept", "possible"})


def _found(met: Met, message: str, word: str) -> Found:
    return Found(met.passage.span(met.word.start, met.word.end), met.word.text, message, key=word)


def _structures(reading: Reading) -> Iterator[Found]:
    course, level, number = reading.course, reading.level, reading.unit.front.unit

    def is_known(name: str) -> bool:
        return standing(name, course, level, number) is None

    for place in reading.grammar:
        if not place.is_test:
            continue
        told: set[str] = set()
        for use in place.uses:
            name = use.structure.name
            where = standing(name, course, level, number, use.shown)
            if where is None or where.later is None or not where.same_level or name in told or use.in_instruction:
                continue
            if is_carried(use, is_known) or is_title(use.passage) or is_listed_as_state(use, course.words):
                continue
            told.add(name)
            message = (
                f"This test goes beyond unit {number}: “{first_words(use.text)}” ({names()[name].called}) is taught in "
                f"unit {where.later.unit}. Ask for what is taught by now, or teach it by unit {number}."
            )
            yield Found(use.passage.span(use.structure.start, use.structure.end), use.text, message, key=name)
