"""Pandoc's attributes: our parser against Pandoc's own, over thousands of made-up ones in one run of Pandoc."""

import random

import pytest

from lint_rules.manuscript.attributes import broken_braces
from tests.manuscript.pandoc import MARKDOWN, Attributed, pandoc_reads, we_read

PARTS = [
    *[
        "{",
        "}",
        " ",
        ".a",
        ".b-c",
        "#id",
        "#u-1.2",
        "k=v",
        'key="v w"',
        "k='v w'",
        'k=""',
        "k=",
        "=",
        '"',
        "'",
        '\\"',
        "\\",
    ],
    *[
        "-",
        ".",
        "#",
        "é",
        ".größe",
        "k=é",
        "1",
        ".1a",
        'class="x y"',
        "class=z",
        "id=q",
        "k=a\\ b",
        "k=&amp;",
        'k="&amp;"',
    ],
    *['k="a\\"b"', "x", "k=a}b", "_", ":", "k:l=m", "data-x=1", "k={", "*", "`"],
]


def first_of_each_key(attributes: Attributed) -> Attributed:
    """Pandoc keeps a key that is given twice; our mapping keeps the first."""
    identifier, classes, values = attributes
    first: dict[str, str] = {}
    for key, value in values:
        first.setdefault(key, value)
    return identifier, classes, tuple(first.items())


def test_attributes_read_as_pandoc_reads_them() -> None:
    made_up = random.Random(20261125)
    headings = []
    for _ in range(3000):
        parts = " ".join(made_up.choice(PARTS) for _ in range(made_up.randint(1, 5)))
        space = made_up.choice(["", " "])
        headings.append(f"#### T {{{space}{parts}{made_up.choice(['', ' '])}{made_up.choice(['}', '}', '}', '} x'])}")
    text = "\n\n".join(headings) + "\n"
    pandocs = [first_of_each_key(attributes) for _, attributes, _ in pandoc_reads(text, MARKDOWN).headings]
    ours = [attributes for _, attributes, _ in we_read(text).headings]
    assert len(ours) == len(headings)
    wrong = [(heading, one, other) for heading, one, other in zip(headings, ours, pandocs, strict=True) if one != other]
    assert wrong == []


@pytest.mark.parametrize("text", ["A {.warm-up", "A {.x k=v", "A {#id .x y}", 'A {k="v}', "A { .x, .y }"])
def test_braces_that_were_meant_as_attributes(text: str) -> None:
    assert broken_braces(text) == 2


@pytest.mark.parametrize("text", ["A {or B}", "A {x", "{ } [ ]", "Sets {1, 2, 3}", "A {.x} B", "A {...", "Smile :}"])
def test_braces_that_are_text(text: str) -> None:
    assert broken_braces(text) is None
