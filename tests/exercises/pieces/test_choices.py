# ruff: noqa: E501 - each row is one line
"""Options inside a line: where they begin and end, with and without what the key says."""

import pytest

from lint_rules.page.exercises.choices import choices_in, is_all, stands_behind
from lint_rules.page.exercises.model import Place
from tests.exercises.pieces.places import as_it_stands, key, place_of
from tests.exercises.test_layouts import ACTIVITY, read


def offered(place: Place, said: str, *, sure: bool = False) -> list[tuple[list[str], str]]:
    found = choices_in(place, said, sure=sure)
    return [([option.text for option in one.options], one.inline.text if one.inline else "") for one in found]


# A line; what the key says; its options, and what they take up.
LINES = [
    ("The hen is red / blue.", "", ["red", "blue"], "red / blue"),
    ("The hen is red/blue/old now.", "blue", ["The hen is red", "blue", "old now"], "The hen is red/blue/old now"),
    ("He is 6 / 7 today.", "", ["6", "7"], "6 / 7"),
    ("He is very old / quite new today.", "very old", ["very old", "quite"], "very old / quite"),
    ("He is very old / quite new today.", "quite new", ["old", "quite new"], "old / quite new"),
    ("He is very old / quite new today.", "small", [], ""),
    ("red / blue", "red", ["red", "blue"], "red / blue"),
    ("red / blue", "", [], ""),  # two words to put in order, or to read
    ("red / blue.", "", [], ""),
    ("a red hen / an old cow / two pigs", "", ["a red hen", "an old cow", "two pigs"], "a red hen / an old cow / two pigs"),
    ("in the barn / in the shed", "", ["in the barn", "in the shed"], "in the barn / in the shed"),
    ("in the barn / on the shed", "", ["barn", "on"], "barn / on"),
    ("Is it red. / Is it blue.", "", [], ""),
    ("a / hen / has / Mo / today", "", ["a", "hen", "has", "Mo", "today"], "a / hen / has / Mo / today"),
    ("It is ☐ red ☐ blue", "", ["red", "blue"], "☐ red ☐ blue"),
    ("It is ☐ red", "", [], ""),
    ("(the barn) (the shop)", "the barn", ["the barn", "the shop"], "(the barn) (the shop)"),
    ("(the barn) or (the shop)", "the shop", ["the barn", "the shop"], "(the barn) or (the shop)"),
    ("(the barn) (the shop)", "a tent", [], ""),
    ("The hen is (red / blue).", "", ["red", "blue"], "(red / blue)"),
    ("The hen is (red or blue).", "", ["red", "blue"], "(red or blue)"),
    ("The hen is (red, blue).", "", [], ""),
    ("The hen is (red, blue).", "blue", ["red", "blue"], "(red, blue)"),
    ("The hen is [red; blue].", "blue", ["red", "blue"], "[red; blue]"),
    ("The hen is {red – blue}.", "red", ["red", "blue"], "{red – blue}"),
    ("The hen is (red, ____).", "red", [], ""),
    ("(one two three four five six seven / eight)", "", ["seven", "eight"], "seven / eight"),
    ("ship     sheep", "ship", ["ship", "sheep"], "ship     sheep"),
    ("ship     sheep", "boat", [], ""),
    ("red · blue", "blue", ["red", "blue"], "red · blue"),
    ("red, blue", "blue", ["red", "blue"], "red, blue"),
    ("red, blue, ____", "blue", [], ""),
    ("red, blue, …", "blue", [], ""),
    ("red, blue, red", "red", ["red", "blue", "red"], "red, blue, red"),
    ("red, blue, old hen", "red / blue", [], ""),  # it takes two
    ("◂ cold ▸ hot", "hot", ["cold", "hot"], "◂ cold ▸ hot"),
    ("It flies.   a hen   a bee", "a bee", ["a hen", "a bee"], "a hen   a bee"),
    ("It flies. a hen, a bee", "a bee", ["a hen", "a bee"], "a hen, a bee"),
    ("It flies. a hen; a bee", "a bee", ["a hen", "a bee"], "a hen; a bee"),
    ("It flies. a hen, a bee", "a cow", [], ""),
    ("It flies, a hen, a bee", "a bee", ["It flies", "a hen", "a bee"], "It flies, a hen, a bee"),
    ("I see ____.   red   blue", "red", ["red", "blue"], "red   blue"),
    ("I see", "see", [], ""),
]  # fmt: skip


@pytest.mark.parametrize(("line", "said", "options", "inline"), LINES)
def test_what_a_line_offers(line, said, options, inline):
    assert offered(as_it_stands(line), said) == ([(options, inline)] if options else [])


@pytest.mark.parametrize(
    "line",
    ["The hen is (red, blue).", "ship     sheep", "It flies. a hen, a bee", "red, blue", "(the barn) (the shop)"],
)
def test_in_company_a_line_offers_something_whatever_the_key_says(line):
    assert offered(as_it_stands(line), "other") == []
    assert len(offered(as_it_stands(line), "other", sure=True)) == 1


@pytest.mark.parametrize(
    ("line", "said", "options", "inline"),
    [
        ("The hen **is** or **are** red.", "", ["is", "are"], "is or are"),
        ("The hen *is*, *are* or *am* red.", "", [], ""),
        ("The hen *is*, *are* or *am* red.", "is", ["is", "are", "am"], "is, are or am"),
        ("The hen **is / are** red.", "", ["is", "are"], "is / are"),
        ("The hen **(is / are)** red.", "", ["is", "are"], "(is / are)"),
        ("The hen *is, are* red.", "are", ["is", "are"], "is, are"),
        ("The hen *is, are* red.", "am", [], ""),
        ("The **hen** is *red*.", "red", [], ""),
        ("Is it a hen **or** a cow **or** a pig?", "", ["a hen", "a cow", "a pig"], "a hen or a cow or a pig"),
        ("Is it red **or** blue?", "", ["red", "blue"], "red or blue"),
        ("Is it a hen **or** a cow?", "a hen", ["a hen", "a cow"], "a hen or a cow"),
        ("Is it one big red old hen **or** a cow?", "a cow", ["old hen", "a cow"], "old hen or a cow"),
    ],
)
def test_what_is_set_off_in_a_line(line, said, options, inline):
    assert offered(place_of(line), said) == ([(options, inline)] if options else [])


def test_two_choices_of_one_line_stand_in_order_and_apart():
    place = as_it_stands("I (am / is) six. You (is / are) ten. (red, blue)")
    assert [one for one, _ in offered(place, "am")] == [["am", "is"], ["is", "are"]]
    part = Place(place.passage, 16, 36)
    assert [one for one, _ in offered(part, "am")] == [["is", "are"]]


@pytest.mark.parametrize(
    ("line", "behind", "whole"),
    [
        ("The hen is red. yes / no", True, False),
        ("The hen is (red / old).", False, False),
        ("The hen is red! yes / no.", True, False),
        ("red / old / new", False, True),
        ("It is ☐ red ☐ old", False, True),
    ],
)
def test_where_a_choice_stands_in_its_item(line, behind, whole):
    said = {"red / old / new": "red"}.get(line, "yes" if "yes" in line.casefold() else "red")
    (exercise,) = read(f"{ACTIVITY}1. {line}\n2. {line}\n" + key(f"1. {said}\n2. {said}")).exercises
    for item in exercise.items:
        (choice,) = item.choices
        assert (stands_behind(choice), is_all(choice, item)) == (behind, whole)
