"""The lines of a page: what is one, which of them are the children's, heads and dates among them."""

import pytest

from lint_rules.page.exercises.model import Place
from lint_rules.page.exercises.stream import Line, dates_in, is_bold, is_led, mended_passages, page_lines
from tests.exercises.pieces.places import place_of
from tests.exercises.test_layouts import ACTIVITY, unit_of


def lines(page: str) -> list[Line]:
    unit = unit_of(f"{ACTIVITY}{page}\n")
    (activity,) = unit.activities
    return page_lines(activity, unit, mended_passages(activity, unit))


@pytest.mark.parametrize(
    ("page", "texts"),
    [
        ("The hen\nis red.\n\nThe cow.", ["The hen", "is red.", "The cow."]),
        ("The hen\\\nis red.", ["The hen", "is red."]),
        ("- hen\n- cow\n  pig", ["hen", "cow", "pig"]),
        ("| hen | cow |\n|---|---|\n| pig | |", ["hen", "cow", "pig"]),
        ("| The hen\n| is red.", ["The hen", "is red."]),
        ("**Ed:** Hello.\n\nHi.", ["Hello.", "Hi."]),
        ("Hen.\n\n::: teacher\nSing.\n:::\n\n::: answers\nred\n:::\n", ["Hen."]),
        ("Hen.\n\n::: pattern\nIt is red.\n:::\n", ["Hen."]),
        ("#### Write.\n\nHen.", ["Hen."]),
        ("#### 1. Who is red?\n\n#### 2. Who is old?\n\nHen.", ["1. Who is red?", "2. Who is old?", "Hen."]),
        ("#### 1. The hen\n\n#### 2. The cow\n\nHen.", ["Hen."]),  # chapters
        ("#### 1. Who is red?\n\nHen.", ["Hen."]),
        ("#### 1. Who is red?\n\n#### 2. Who is old?\n\n1. hen\n2. cow", ["hen", "cow"]),
        ("#### 1. Who is red?\n\n#### 2. Who is old?\n\n(1) hen", ["(1) hen"]),
        ("#### 1. Who is red?\n\n#### 2. Who is old?\n\n- hen", ["1. Who is red?", "2. Who is old?", "hen"]),
    ],
)
def test_the_lines_of_the_page(page, texts):
    assert [line.text for line in lines(page)] == texts


def test_only_the_first_line_of_an_entry_has_its_label():
    assert [line.first for line in lines("1. hen\n   cow\n2. pig")] == [True, False, True]


CALENDAR = "| 1 | 2 | 3 dentist | 4 |\n|---|---|---|---|\n| 5 | 6. Mo's day | 7 | 8 |\n| 9 | 10 | {} | |"


@pytest.mark.parametrize(
    ("page", "dates"),
    [
        (CALENDAR.format("11"), ["3 ", "6. "]),
        (CALENDAR.format("12th"), ["3 ", "6. "]),
        (CALENDAR.format("11").replace("| 7 |", "| x |").replace("| 8 |", "| y |"), ["3 ", "6. "]),
        (CALENDAR.format("z").replace("| 7 |", "| x |").replace("| 8 |", "| y |"), []),  # too few to be days
        ("1 dentist 2 3 4 5 6 7 8", []),
    ],
)
def test_the_numbers_of_days(page, dates):
    places = [Place(line.passage, line.start, line.end) for line in lines(page)]
    assert [date.text for date in dates_in(places)] == dates


@pytest.mark.parametrize(
    ("page", "words", "bold"),
    [
        ("**1** hen", "1", True),
        ("**1.** hen", "1", True),
        ("**(1)** hen", "1", True),
        ("**1 hen**", "1", False),
        ("**No 1** hen", "1", False),
        ("1 **hen**", "1", False),
        ("1 hen", "1", False),
    ],
)
def test_a_label_alone_is_set_in_bold(page, words, bold):
    place = place_of(page)
    start = place.text.index(words)
    assert is_bold(place.passage, start, start + len(words)) is bold


@pytest.mark.parametrize(
    ("page", "head", "led"),
    [
        ("**Across** 2 hat", "Across ", True),
        ("**Student B** 3 Friday", "Student B ", True),
        ("**across** 2 hat", "across ", False),
        ("**Across 2** hat", "Across ", False),
        ("Go **Across** 2 hat", "Go Across ", False),
        ("Across 2 hat", "Across ", False),
    ],
)
def test_a_head_in_bold_leads_a_row(page, head, led):
    place = place_of(page)
    assert place.text.startswith(head)
    assert is_led(place.passage, 0, len(head)) is led
