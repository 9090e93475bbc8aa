"""Keys laid out as tables: labels across, labels down, items again with a sign; and tables that are no key."""

import pytest

from lint_rules.manuscript.model import Audience
from lint_rules.page.exercises.key_tables import tabled
from tests.exercises.test_layouts import ACTIVITY, unit_of


def table(text: str) -> str:
    """A table of rows parted by semicolons, and cells by strokes."""
    first, *others = [f"| {row.strip()} |" for row in text.split(";")]
    return "\n".join([first, "|" + "---|" * (first.count("|") - 1), *others])


def read(text: str) -> tuple[list[str], list[str]]:
    """The rows of answers with their labels, and the cells that are left."""
    (activity,) = unit_of(f"{ACTIVITY}Look.\n\n::: answers\n{table(text)}\n:::\n").activities
    rows, left = tabled([one for one in activity.part.passages if one.audience is Audience.KEY])
    said = [" ".join(f"{one.label.text if one.label else ''}={one.text}" for one in row) for row in rows]
    return said, [one.text for one in left]


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        # Across.
        ("1 | 2 | 3; red | old | big", ["1=red 2=old 3=big"]),
        ("No. | 1 | 2; Answer | red | old", ["1=red 2=old"]),
        ("1 | 2; red | old; 3 | 5; big | six", ["1=red 2=old 3=big 5=six"]),
        ("1 | 3; red | old", ["1=red 3=old"]),
        ("1–2 | 3; red | old", ["1=red 2=red 3=old"]),
        ("a | b; red | old", ["a=red b=old"]),
        ("A | B; red | old", ["A=red B=old"]),
        ("1 | 2; red |", ["1=red"]),
        # Down.
        ("1 | red; 2 | old", ["1=red 2=old"]),
        ("1 | a; 2 | b", ["1=a 2=b"]),
        ("No. | Answer | Why; 1 | red | It is.; 2 | old | It was.", ["1=red 2=old"]),
        ("No. | Why | Answer; 1 | It is. | red; 2 | It was. | old", ["1=red 2=old"]),
        ("No. | Word | Why; 1 | red | It is.; 2 | old | It was.", ["1=red 2=old"]),
        ("1 | red | 3 | big; 2 | old | 4 | six", ["1=red 2=old 3=big 4=six"]),
        ("1 | red | 3 | big; 2 | old | |", ["1=red 2=old 3=big"]),
        ("No. | Answer; 1–2 | red; 3 | old", ["1=red 2=red 3=old"]),
        ("No. | Answer; 1 | red; 2 | old; 1 | big; 2 | six", ["1=red 2=old", "1=big 2=six"]),
        ("Q1 | red; Q2 | old", ["1=red 2=old"]),
        ("1st | red; 2nd | old", ["1=red 2=old"]),
        ("(1) | red; (2) | old", ["1=red 2=old"]),
        ("① | red; ② | old", ["1=red 2=old"]),
        # The items again.
        ("1 hen | T; 2 cow | F", ["1=T 2=F"]),
        ("1 hen | (a); 2 cow | ✓", ["1=(a) 2=✓"]),
        ("Thing | Whose; 1 hen | c; 3 cow | a", ["1=c 3=a"]),
    ],
)
def test_a_table_of_answers(text, rows):
    assert read(text) == (rows, [])


@pytest.mark.parametrize(
    "text",
    [
        "2 | 1; red | old",
        "1 | x2; red | old",
        "1 | a; red | old",
        "1 | 2; red | old; 3 | 4",
        "hen | red; cow | old",
        "No. | Answer; 1 | red; x | old",
        "No. | Answer; 1 | red",
        "No. | Answer; 2 | red; 1 | old",
        "9–1 | red; 10 | old",
        "1–90 | red; 91 | old",
        "1 hen | true; 2 cow | very",
        "2 hen | T; 1 cow | F",
        "1 hen | T | so; 2 cow | F | so",
        "1 hen | T",
        "hen | Answers; 11 | 1 red 2 old",
        "Act. | Answers; eleven | 1 red 2 old",
    ],
)
def test_another_table_is_left_to_be_read_in_other_ways(text):
    rows, left = read(text)
    assert rows == []
    assert " ".join(left) == " ".join(text.replace("|", " ").replace(";", " ").split())


def test_what_heads_a_table_without_labels_is_no_answer():
    assert read("Tray | Answer; red | old; blue | new") == ([], ["red", "old", "blue", "new"])


def test_the_number_of_an_activity_is_no_label():
    assert read("Act. | Answers; 11 | 1 red 2 old") == ([], ["1 red 2 old"])
    assert read("Task | Answers; 3 | 1 red 2 old") == ([], ["1 red 2 old"])
