"""Letters that an instruction gives to write, and an answer that is another one."""

import pytest

from lint_rules.page.exercises.codes import letters_told, outside_code
from tests.exercises.test_layouts import read


@pytest.mark.parametrize(
    ("instruction", "letters"),
    [
        ("Write F (farm) or S (sea).", ("F", "S")),
        ("W = winter, S = summer", ("W", "S")),
        ("Write w for winter and s for summer.", ("w", "s")),
        ("Write P – a park, B – a beach, P – a park.", ("P", "B")),
        ("Write A, B or C.", ("A", "B", "C")),
        ("Write the letters A or B.", ("A", "B")),
        ("Write a, b or c.", ()),  # small ones may be articles
        ("Write F (farm).", ()),
        ("Write A (a cat) or b (a dog).", ()),
        ("Write the word.", ()),
        ("Choose A, B or C.", ()),
        ("Ella's = Ella is, S = summer", ()),
        ("Write F (farm), or A or B.", ()),
    ],
)
def test_the_letters_of_a_code(instruction, letters):
    assert letters_told(instruction) == letters


def outside(answers: list[str], *, page: str = "a cow ____", told: str = "Write F (farm) or S (sea).", more: str = ""):
    items = "".join(f"{number}. {page}\n" for number in range(1, len(answers) + 1))
    said = "\n".join(f"{number}. {answer}" for number, answer in enumerate(answers, 1))
    (exercise,) = read(f"### 1 {told} {{.reading}}\n\n{items}\n{more}\n::: answers\n{said}\n:::\n").exercises
    found = outside_code(exercise, told)
    return found.text if found is not None else None


@pytest.mark.parametrize(
    ("answers", "letter"),
    [
        (["F", "S", "S", "B"], "B"),
        (["F", "S", "s", "F / S", "B"], "B"),
        (["F", "S", "S", "F"], None),
        (["F", "S", "B"], None),  # too few to tell
        (["F", "S", "B", "F", "B"], None),
        (["F", "S", "S", "S", "B", "on the farm"], "B"),
        (["F", "S", "S", "on the farm", "at sea", "B"], None),  # too many that are none
    ],
)
def test_the_one_answer_that_is_another_letter(answers, letter):
    assert outside(answers) == letter


def test_letters_of_options_and_columns_are_no_code():
    answers = ["F", "S", "S", "B"]
    assert outside(answers, told="Write the letter.") is None
    assert outside(answers, page="It is F / S / B.") is None
    assert outside(answers, more="a) red  b) blue  c) green\n") is None
