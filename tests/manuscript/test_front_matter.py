"""Front matter: what people really write is understood, with its place."""

import time

import pytest

from lint_rules.manuscript.front_matter import read_front_matter
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source


def source(*lines: str, line_end: str = "\n") -> Source:
    return Source("level-1/unit-01.md", line_end.join(lines) + line_end)


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


def test_brackets_inside_an_entry_keep_it_together() -> None:
    grammar = "grammar: [there is, prepositions of place (in, on, under), can]"
    text = source("---", "level: level-1", "unit: 1", "title: A", grammar, "---")
    front, problems = read_front_matter(text)
    assert problems == ()
    assert front.grammar == ("there is", "prepositions of place (in, on, under)", "can")
    assert [text.slice(span) for span in front.grammar_spans] == list(front.grammar)


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
    took = []
    for _ in range(3):
        start = time.process_time()
        front, _ = read_front_matter(text)
        took.append(time.process_time() - start)
        assert front.title == "A"
    assert min(took) < 0.05  # measured: under a millisecond
