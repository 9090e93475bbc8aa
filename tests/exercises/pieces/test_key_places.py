"""Where a key stands: in a div of its own, under a heading or in a field of the notes, in a sentence that says so."""

import pytest

from lint_rules.page.exercises.key_places import behind_lead, keys_in, told_answers
from tests.exercises.test_layouts import ACTIVITY, unit_of

PAGE = "1. The hen is ____.\n2. The cow is ____.\n\n"


def keys(page: str) -> list[str]:
    (activity,) = unit_of(ACTIVITY + PAGE + page).activities
    return [one.text for one in keys_in(activity.part.passages)]


@pytest.mark.parametrize(
    "said",
    [
        "The answers – red, old",
        "Correct answers – red, old",
        "The answers are: red, old",
        "Answer key – red, old",
        "Solutions – red, old",
        "Key – red, old",
        "Ans. – red, old",
        "Answers – 1 red 2 old",
        "Answers – (1) red (2) old",
        "Answers – a red b old",
        "Answers – number 1 is red",
        "*Answers* 1 red 2 old",
        "*The answers* red, old",
    ],
)
def test_a_sentence_of_the_notes_that_begins_as_a_key_does(said):
    assert keys(f"::: teacher\n{said}\n:::\n") == [said.replace("*", "")]


@pytest.mark.parametrize(
    "said",
    [
        "Answers – in pairs",
        "Answers in pairs.",
        "Answers 1 red",
        "*Answers* in pairs",
        "The answers may vary.",
        "House keys: red, old",
        "Ask for the answers: 1 red 2 old",
        "Answers – 100 children",
    ],
)
def test_other_sentences_of_the_notes_are_none(said):
    assert keys(f"::: teacher\n{said}\n:::\n") == []


def test_keys_of_their_own():
    assert keys("::: answers\nred, old\n:::\n") == ["red, old"]
    assert keys("::: teacher\n**Answers:** red, old\n\n**Time:** 5 minutes\n:::\n") == ["red, old"]
    assert keys("::: teacher\n#### Solution\n\nred, old\n\nSee the book.\n\n#### More\n\nSing.\n:::\n") == [
        "red, old",
        "See the book.",
    ]
    assert keys("::: teacher\n#### Steps\n\nred, old\n:::\n") == []
    assert keys("::: teacher\n#### Solution\n\n**Time:** 5 minutes\n:::\n") == []


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("Key – 1 red", "1 red"),
        ("Ans.: 1 red", "1 red"),
        ("Answers are: 1 red", "1 red"),
        ("Answers 1 red", "Answers 1 red"),
        ("Colours: red", "Colours: red"),
        ("Answers:", "Answers:"),
    ],
)
def test_a_key_goes_on_behind_its_name(text, rest):
    assert text[behind_lead(text) :] == rest


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("They colour it. → 1 red · 2 blue · 3 green", ["1 red · 2 blue · 3 green"]),
        ("→ 1 ☺ · 2 ☹ · 3 ☺", ["1 ☺ · 2 ☹ · 3 ☺"]),
        ("They write the times (1 8:30; 2 8:45; 3 ten).", ["1 8:30; 2 8:45; 3 ten"]),
        ("Check: 1 12, 2 8, 3 40.", ["1 12, 2 8, 3 40"]),
        ("Look at pages (1, 2, 3).", []),
        ("They look for: 1 → red, 2 → blue", []),
        ("Go on. → 1 more minute", []),
        ("They go from here → 2 steps, 3 steps, 4 steps", []),
    ],
)
def test_answers_behind_an_arrow(text: str, told: list[str]) -> None:
    assert [text[start:end] for start, end in told_answers(text)] == told
