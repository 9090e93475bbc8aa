"""Front matter: the quick way and the parser's way give the same, and what people really write is understood."""

import random
import time

import pytest

from lint_rules.manuscript import front_matter
from lint_rules.manuscript.front_matter import front_matter_lines, read_front_matter
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source, Span

VALUES = [
    *[
        "level-1",
        "4",
        "04",
        "A windy day",
        "[a, b]",
        "[present continuous,can]",
        "[]",
        "[a]",
        "[a,]",
        "true",
        "No",
        "null",
        "~",
    ],
    *[
        "",
        "yes we can",
        "What's new?",
        "a: b",
        "x # c",
        "'q'",
        '"q w"',
        "- a",
        "3.5",
        "-1",
        "0",
        "1e3",
        "2020-01-01",
        "a, b",
    ],
    *[
        "[a: b]",
        "[1, b]",
        "[a b , c d ]",
        "|",
        "> x",
        "*a",
        "&b c",
        "!t x",
        "%x",
        "@x",
        "`x",
        "{a: b}",
        "A (big) day!",
        "5 apples",
    ],
    *[
        "on",
        "Off",
        "y",
        ".inf",
        "nan",
        "_",
        "a_b",
        "a/b",
        "don't",
        "a  b",
        "?",
        "? x",
        "a?",
        "Hello, world",
        "[Hello!, (x)]",
    ],
    *[
        "0x1F",
        "1_000",
        "é",
        "[null]",
        "[true, a]",
        "a - b",
        "a -b",
        "[a -b]",
        "[a' b]",
        "a#b",
        "[a#b]",
        "a:b",
        "[a:b]",
        "A, & B",
    ],
]
KEYS = ["level", "unit", "title", "topics", "grammar", "author", "x-y", "1", "Level"]


def source(*lines: str, line_end: str = "\n") -> Source:
    return Source("level-1/unit-01.md", line_end.join(lines) + line_end)


def test_the_quick_way_gives_what_the_parser_gives() -> None:
    made_up = random.Random(20261125)
    compared = 0
    for _ in range(6000):
        lines = [
            f"{made_up.choice(KEYS)}{made_up.choice([': ', ': ', ':  ', ':'])}{made_up.choice(VALUES)}"
            f"{made_up.choice(['', '', ' ', '  # note'])}"
            for _ in range(made_up.randint(0, 5))
        ]
        text = source(
            "---", *lines, made_up.choice(["---", "..."]), "# T", line_end=made_up.choice(["\n", "\r\n", "\r"])
        )
        last, _ = front_matter_lines(text)
        quick = front_matter._plain(text, last - 1)
        if quick is None:
            continue
        problems: list[object] = []
        span = Span(text.line_starts[1], text.line_starts[last - 1])
        assert quick == front_matter._parsed(text, span, problems), text.text  # type: ignore[arg-type]
        assert not problems
        compared += 1
    assert compared > 500


def test_values_and_their_places() -> None:
    text = source(
        "---",
        'level: "level-1"',
        "unit: 04",
        "title: >",
        "  A windy",
        "  day",
        "topics:",
        "- weather",
        "- 'red hats'",
        "---",
    )
    front, problems = read_front_matter(text)
    assert problems == ()
    assert (front.level, front.unit, front.title, front.topics) == (
        "level-1",
        4,
        "A windy day",
        ("weather", "red hats"),
    )
    assert text.slice(front.spans["level"]) == '"level-1"'
    assert text.slice(front.spans["unit"]) == "04"
    assert front.spans["grammar"] == front.span


def test_a_list_without_its_brackets() -> None:
    text = source("---", "level: level-1", "unit: 1", "title: A", "grammar: present continuous, can", "---")
    front, problems = read_front_matter(text)
    assert problems == ()
    assert front.grammar == ("present continuous", "can")
    assert [text.slice(span) for span in front.grammar_spans] == ["present continuous", "can"]


@pytest.mark.parametrize("extra", ["author: {name: A}", "lang: en-GB", "keywords: [a, [b]]", "1: 2", "'a b': c", "? x"])
def test_other_keys_are_left_alone(extra: str) -> None:
    assert read_front_matter(source("---", "level: level-1", "unit: 1", "title: A", extra, "---"))[1] == ()


def test_reading_the_front_matter_alone_gives_what_reading_the_unit_gives() -> None:
    text = source("---", "level: level-1", "unit: 1", "title: 'A: b'", "---", "# A", "## Lesson 1: B", "---", "more")
    unit = read_unit(text)
    front, problems = read_front_matter(text)
    assert front == unit.front
    assert problems == () == unit.problems


@pytest.mark.timeout(60)
def test_the_front_matter_of_a_large_file_is_read_at_once() -> None:
    text = source("---", "level: level-1", "unit: 1", "title: A", "---", *["Some words on a line."] * 100_000)
    start = time.perf_counter()
    front, _ = read_front_matter(text)
    assert front.title == "A"
    assert time.perf_counter() - start < 0.05  # measured: under a millisecond
