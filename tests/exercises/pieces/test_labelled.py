# ruff: noqa: E501 - each row is one page
"""Which stretch of a page belongs to which label: items, their options, a column to match."""

import pytest

from lint_rules.page.exercises.model import Exercise, Option
from tests.exercises.test_layouts import ACTIVITY, read

TEXT = "I (1) ____ up and (2) ____ on.\n\n"
TWO = "1. a hen\n2. a cow\n\n"


def said(option: Option) -> str:
    return f"{option.label.text}={option.text}" if option.label else option.text


def items(page: str) -> list[tuple[str, ...]]:
    """Each item: its label, its words, its options."""
    return [
        (
            item.label.text,
            " + ".join(place.text.strip() for place in item.prompt),
            *(" ".join(map(said, choice.options)) for choice in item.choices),
        )
        for one in read(ACTIVITY + page).exercises
        for item in one.items
    ]


def column(page: str) -> str:
    return " ".join(said(option) for one in read(ACTIVITY + page).exercises for option in one.column)


@pytest.mark.parametrize(
    ("page", "found"),
    [
        # Options within an item.
        ("1. It is  a) red b) old\n2. He is  a) six b) ten", [("1", "It is", "a=red b=old"), ("2", "He is", "a=six b=ten")]),
        ("1. It is\n   a) red\n   b) old\n2. He is\n   a) six\n   b) ten", [("1", "It is", "a=red b=old"), ("2", "He is", "a=six b=ten")]),
        ("1. a) red b) old\n2. a) six b) ten", [("1", "", "a=red b=old"), ("2", "", "a=six b=ten")]),
        ("1. It is  A red  B old\n2. He is  A six  B ten", [("1", "It is", "A=red B=old"), ("2", "He is", "A=six B=ten")]),
        ("1. hen\n\n| a) red | b) old |\n|---|---|\n\n2. cow\n\n| a) six | b) ten |\n|---|---|", [("1", "hen", "a=red b=old"), ("2", "cow", "a=six b=ten")]),
        ("1. a e b d\n2. f a c e", [("1", "a e b d"), ("2", "f a c e")]),  # letters to put in order
        ("1. A: How ____ you? B: Fine.\n2. A: Who ____ she? B: Ann.", [("1", "A: How ____ you? B: Fine."), ("2", "A: Who ____ she? B: Ann.")]),
        ("| | A | B | C |\n|---|---|---|---|\n| 1 Who? | Mo | Ed | Jo |\n| 2 Why? | ☐ | ☐ | ☐ |", [("1", "Who?", "A=Mo B=Ed C=Jo"), ("2", "Why? + ☐ + ☐ + ☐")]),
        # What belongs to an item.
        ("1. hen\n\n   It is red.\n2. cow\n\n   It is old.\n\nThe end.", [("1", "hen + It is red."), ("2", "cow + It is old.")]),
        ("1 hen\n\nIt is red.\n\n2 cow\n\nIt is old.\n\nThe end.", [("1", "hen + It is red."), ("2", "cow + It is old.")]),
        ("1. hen\n2. cow\n\nThe end.", [("1", "hen"), ("2", "cow")]),
        ("1 a spoon / 2 a cup / 3 a hat", [("1", "a spoon"), ("2", "a cup"), ("3", "a hat")]),
        ("**A** Write.\n\n1. hen\n2. cow\n\n**B** Draw.\n\n1. pig\n2. ant", [("1", "hen"), ("2", "cow"), ("1", "pig"), ("2", "ant")]),
        ("**A** Write.\n\n1. hen\n2. cow\n\n**B** Draw.\n\n3. pig\n4. ant", [("1", "hen"), ("2", "cow"), ("3", "pig"), ("4", "ant")]),
        ("Frame 1 ____ red\n\nFrame 2 ____ old", [("1", "____ red"), ("2", "____ old")]),
        ("a. It is red.\nb. It is old.", [("a", "It is red."), ("b", "It is old.")]),
        ("sp__n (A)\n\nb__k (B)", [("A", "sp__n"), ("B", "b__k")]),
        ("A: I ____ up.\n\nB: I ____.\n\nA: You ____.", [("A", "I ____ up."), ("B", "I ____.")]),
        # The same labels again.
        (TWO + "1 ____ 2 ____", [("1", "a hen + ____"), ("2", "a cow + ____")]),
        (TEXT + "1. a) get b) go\n2. a) sit b) set", [("1", "____ up and", "a=get b=go"), ("2", "____ on.", "a=sit b=set")]),
        (TEXT + "| (1) | get | gets |\n|---|---|---|\n| (2) | sit | sits |", [("1", "____ up and", "get gets"), ("2", "____ on.", "sit sits")]),
        (TEXT + "| 1 | get ____ | gets |\n|---|---|---|\n| 2 | sit ____ | sits |", [("1", "____ up and"), ("2", "____ on."), ("1", "get ____ + gets"), ("2", "sit ____ + sits")]),
        # Tables.
        ("| ____ | 1. a kite |\n|---|---|\n| ____ | 2. a hen |", [("1", "____ + a kite"), ("2", "____ + a hen")]),
        ("| 1 hen | 2 cow |\n|---|---|\n| ____ | ____ |", [("1", "hen + ____"), ("2", "cow + ____")]),
        ("| 1 hen | 3 |\n|---|---|\n| 2 cow | 5 |\n| 3 pig | 2 |", [("1", "hen + 3"), ("2", "cow + 5"), ("3", "pig + 2")]),  # so many letters
        ("| c | a | t |\n|---|---|---|\n| o | 1 | 2 |\n| w | x | y |", []),  # a square of letters
    ],
)  # fmt: skip
def test_what_belongs_to_a_label(page, found):
    assert items(page) == found


@pytest.mark.parametrize(
    ("page", "options"),
    [
        (TWO + "a) red b) old", "a=red b=old"),
        (TWO + "(a) red\n\n(b) old", "a=red b=old"),
        (TWO + "A red\n\nB old", "A=red B=old"),
        (TWO + "i) red ii) old", "i=red ii=old"),
        (TWO + "a Sumi / b Mo / c Dan", "a=Sumi b=Mo c=Dan"),
        (TWO + "a Sumi / b Mo", ""),
        (TWO + "a. It's got a tail.\nb. a rabbit", "a=It's got a tail. b=a rabbit"),
        (TWO + "a. hen\n", ""),
        (TWO + "A: I ____ up.\n\nB: I ____.\n\nA: You ____.", ""),
        ("| 1 | a red kite | a | Sumi |\n|---|---|---|---|\n| 2 | a hat | b | Mo |", "a=Sumi b=Mo"),
        ("| A | B |\n|---|---|\n| 1. baker | a. bakes |\n| 2. farmer | b. farms |", "a=bakes b=farms"),
        ("1. It is  a) red b) old\n2. He is  a) six b) ten", ""),
        ("A\n\n1. hen\n2. cow\n\nB\n\n1. pig\n2. ant", ""),  # heads of parts
    ],
)
def test_a_column_to_match(page, options):
    assert column(page) == options


def test_a_column_belongs_to_what_it_stands_behind():
    page = "1. hen\n2. cow\n\n**B** Match.\n\n1. pig\n2. ant\n\na) red b) old\n"
    found: list[Exercise] = list(read(ACTIVITY + "**A** Write.\n\n" + page).exercises)
    assert [len(one.column) for one in found] == [0, 2]


def test_what_is_said_again_is_marked_as_such():
    (one,) = read(ACTIVITY + TEXT + "| (1) | get | gets |\n|---|---|---|\n| (2) | sit | sits |").exercises
    assert [[label.mark.text for label in item.more if label.mark] for item in one.items] == [["(1)"], ["(2)"]]
    (one,) = read(ACTIVITY + TWO + "1 ____ 2 ____").exercises
    assert [[label.mark.text for label in item.more if label.mark] for item in one.items] == [["1 "], ["2 "]]
