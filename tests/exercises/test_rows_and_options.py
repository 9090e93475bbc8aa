"""Questions before their number in a row, options behind an ellipsis, words that mean something. Invented sentences."""

import pytest

from lint_rules.page.exercises.reading import exercises_in
from lint_rules.unit_language.option_support import content_in_order
from tests.exercises.test_layouts import unit_of


def items_of(page: str) -> list[tuple[str, list[str]]]:
    unit = unit_of(f"### 1 Listen and write. {{.listening}}\n\n{page}\n")
    (activity,) = unit.activities
    return [
        (item.text.strip(), [option.text for choice in item.choices for option in choice.options])
        for exercise in exercises_in(activity, unit).exercises
        for item in exercise.items
    ]


CHART = "| Question | Answer |\n|---|---|\n| How old is it? | 1 ____ years |\n| How many are there? | 2 ____ wheels |\n"


@pytest.mark.parametrize(
    ("page", "texts"),
    [
        (CHART, ["How old is it? ____ years", "How many are there? ____ wheels"]),
        ("| Age | 1 ____ years |\n|---|---|\n| Wheels | 2 ____ wheels |\n", ["____ years", "____ wheels"]),
        ("| ____ | 1 a kite |\n|---|---|\n| ____ | 2 a hat |\n", ["____ a kite", "____ a hat"]),
    ],
)
def test_what_stands_before_a_number_in_its_row(page: str, texts: list[str]) -> None:
    assert [text for text, _ in items_of(page)] == texts


@pytest.mark.parametrize(
    ("page", "options"),
    [
        ("1. There was … a a rope. b a bag.\n2. It was … a red. b old.\n", [["a rope.", "a bag."], ["red.", "old."]]),
        ("1. She … a cat. a) has b) have\n2. He … it. a) has b) have\n", [["has", "have"], ["has", "have"]]),
        ("1. Crabs: a 3  b 5  c 8\n2. Ants: a 2  b 4  c 6\n", [["3", "5", "8"], ["2", "4", "6"]]),
    ],
)
def test_options_behind_their_letters(page: str, options: list[list[str]]) -> None:
    assert [found for _, found in items_of(page)] == options


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("I've got a drum", ("get", "drum")),
        ("They're big", ("big",)),
        ("We’ll see a hen", ("see", "hen")),
        ("It isn't wet", ("wet",)),
        ("the hen's egg", ("hen", "egg")),
    ],
)
def test_short_forms_mean_nothing_by_themselves(text: str, words: tuple[str, ...]) -> None:
    assert content_in_order(text) == words
