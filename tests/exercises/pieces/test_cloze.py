# ruff: noqa: E501 - each row is one text
"""Numbers within a running text, before its blanks or behind them; and the one that it has lost."""

import pytest

from lint_rules.page.exercises.model import Exercise
from tests.exercises.pieces.places import key
from tests.exercises.test_layouts import ACTIVITY, read, unit_of


def cloze_of(page: str) -> Exercise:
    (one,) = read(ACTIVITY + page).exercises
    return one


@pytest.mark.parametrize(
    ("page", "items"),
    [
        ("I (1) ____ six. You (2) ____ ten.", {"1": "____ six. You", "2": "____ ten."}),
        ("I (1)____ six. You (2)____ ten.", {"1": "____ six. You", "2": "____ ten."}),
        ("I (1) … six. You (2) … ten.", {"1": "____ six. You", "2": "____ ten."}),
        ("I (1) ☐ six. You (2) ☐ ten.", {"1": "☐ six. You", "2": "☐ ten."}),
        ("I 1 ____ six and 2 ____ ten, 3 ____ up.", {"1": "____ six and", "2": "____ ten,", "3": "____ up."}),
        ("Ed: I (1) go / goes up. You (2) go / goes.", {"1": "go / goes up. You", "2": "go / goes."}),
        ("Ed: I (1) go / goes.\n\nMo: He (2) go / goes.", {"1": "go / goes.", "2": "go / goes."}),
        ("It's ____ (1) and ____ (2). We ____ (3).", {"1": "It's ____", "2": "and ____", "3": ". We ____"}),
        ("Frame 1 ____\n\nFrame 2 ____", {"1": "____", "2": "____"}),
        # The one that a text has lost, with a sentence in which it may have stood; or only its blank.
        ("I (1) ____ six. You (2) ____ ten. We sing. You (4) ____ up.", {"1": "____ six. You", "2": "____ ten. We sing. You", "3": "", "4": "____ up."}),
        ("I (1) ____ six. You (2) ____ ten – we go. You (4) ____ up.", {"1": "____ six. You", "2": "____ ten – we go. You", "3": "", "4": "____ up."}),
        ("I (1) ____ six. You (2) ____ ten.\nWe sing.\nYou (4) ____ up. He (5) ____ on.", {"1": "____ six. You", "2": "____ ten.\nWe sing.\nYou", "3": "", "4": "____ up. He", "5": "____ on."}),
        ("I (1) ____ six. You (2) ten. He (3) ____ up.", {"1": "____ six. You", "2": "ten. He", "3": "____ up."}),
        # No sentence stands between, or a second one is lost: the text goes on with the last.
        ("I (1) ____ six. You (2) ____ ten. You (4) ____ up.", {"1": "____ six. You", "2": "____ ten. You (4) ____ up."}),
        ("I (1) ____ six. You (2) ____ ten. We go. ____ sing. You (5) ____ up.", {"1": "____ six. You", "2": "____ ten. We go. ____ sing. You (5) ____ up."}),
        ("I (1) ____ a. You (2) ____ b. We go. You (4) ____ c. We sing. You (6) ____ d.", {"1": "____ a. You", "2": "____ b. We go. You", "3": "", "4": "____ c. We sing. You (6) ____ d."}),
    ],
)  # fmt: skip
def test_the_items_of_a_text_with_numbers(page, items):
    one = cloze_of(page + key("1 am\n2 is"))
    assert one.cloze
    assert {item.label.text: item.text for item in one.items} == items


@pytest.mark.parametrize(
    "page",
    [
        "1 ____ is red.\n\n2 ____ is old.",
        "Animals: 1 ____ 2 ____",
        "The hen   1 ____   2 ____",
        "1. I sing.\n2. You ____ ten.",
        "It is (1). I ____ (2) here. We (3) ____.",
    ],
)
def test_other_numbers_are_items_of_their_own(page):
    assert not cloze_of(page + key("1 am\n2 is")).cloze


@pytest.mark.parametrize(
    ("between", "words"),
    [
        ("We go.", "We go"),
        ("We go! They sing.", "We go"),
        ("We go.\nthey sing.\n", "they sing"),  # what begins with a small letter has lost its beginning
        ("Ed: are you from here?", "Ed: are you from here"),
        ("– We go –", "We go"),
        ("We go.\nMo sings.\n", "We go"),
    ],
)
def test_where_the_lost_number_may_have_stood(between, words):
    page = f"{ACTIVITY}I (1) ____ six. You (2) ____ ten. {between} You (4) ____ up.\n" + key("1 am")
    (lost,) = [item for item in read(page).exercises[0].items if item.label.text == "3"]
    assert unit_of(page).source.slice(lost.label.span).startswith(words)
    assert lost.label.mark is None
