# ruff: noqa: E501 - each row is one key
"""Keys that tell each answer in a sentence: what is the answer, and what only leads to it."""

import pytest

from lint_rules.page.exercises.reading import exercises_in
from tests.exercises.test_layouts import unit_of

ITEMS = {
    "letters": "1. queen ____\n2. eggs ____\n3. leaf ____\n",
    "odd": "1. hat, bag, sky\n2. hen, cow, pen\n3. red, run, blue\n",
    "options": "1. What is it?\n   a. a kite\n   b. a hat\n2. Where is it?\n   a. here\n   b. there\n",
    "two": "1. It is late. The hen ____ go.\n2. The cow ____ go.\n",
    "both": "1. ____ is wearing ____ .\n2. ____ is carrying ____ .\n",
    "places": "1. Hill Street ____\n2. Last Stop ____\n",
    "right": "1. Hens fly. ____\n2. Cows eat. ____\n",
    "told": "1. The hen ____ fly.\n2. The cow ____ eat.\n",
}


def answers(kind: str, key: str) -> list[str]:
    unit = unit_of(f"### 1 Write. {{.reading}}\n\n{ITEMS[kind]}\n::: teacher\n**Answers:** {key}\n:::\n")
    (activity,) = unit.activities
    (exercise,) = exercises_in(activity, unit).exercises
    return [item.answer.text if item.answer is not None else "" for item in exercise.items]


@pytest.mark.parametrize(
    ("kind", "key", "told"),
    [
        ("letters", "1 The queen is c. 2 The eggs are d. 3 The leaf is a.", ["c", "d", "a"]),
        ("letters", "1 The queen is (c). 2 The eggs are (d). 3 The leaf is (a).", ["c", "d", "a"]),
        ("odd", "1 The odd one out is sky; the others are things. 2 The odd one is pen. 3 The odd one out is run.", ["sky", "pen", "run"]),
        ("odd", "1 The different word is sky. 2 The different word is pen. 3 The word is run.", ["sky", "pen", "run"]),
        ("options", "1 The answer is b: it is on a head. 2 The answer is a.", ["b", "a"]),
        ("options", "1 b, because it is on a head. 2 a because it is near.", ["b", "a"]),
        ("right", "1 True, because they have wings. 2 False, because it is late.", ["True", "False"]),
        ("told", "1 can, because it is a hen. 2 can't, because it is ill.", ["can", "can't"]),
        ("two", "1 The hen ____ go. (has to) 2 The cow ____ go. (can)", ["has to", "can"]),
        ("two", "1 It is late. The hen ____ go. (has to) 2 The cow ____ go. [can]", ["has to", "can"]),
        ("places", "1 Hill Street (5.10) 2 Last Stop (5.40)", ["5.10", "5.40"]),
        ("right", "1 Hens fly. (F) 2 Cows eat. (T)", ["F", "T"]),
        ("told", "1 can – hens have wings. 2 can't – it is ill today.", ["can", "can't"]),
        ("options", "1 b – it is on a head. 2 a – \"here it is\".", ["b – it is on a head", 'a – "here it is"']),  # its letter is read
        ("told", "1 The hen can't fly. – it is ill. 2 The cow can eat. – it can eat.", ["The hen can't fly.", "The cow can eat."]),
        # Leave alone: words beside words, the item before its answer, a dash in one answer alone.
        ("letters", "1 queen – under the tree 2 eggs – in the nest 3 leaf – on it", ["queen – under the tree", "eggs – in the nest", "leaf – on it"]),
        ("right", "1 fly – run, hop 2 eat – sleep", ["fly – run, hop", "eat – sleep"]),
        ("told", "1 can – hens have wings. 2 can't", ["can – hens have wings", "can't"]),
        ("both", "1 Bo – a red hat 2 Ida – a blue coat", ["Bo – a red hat", "Ida – a blue coat"]),  # two blanks
        ("right", "1 F – they can't fly. 2 T – they eat grass.", ["F – they can't fly", "T – they eat grass"]),
        # Leave alone: sentences to write, which have because; remarks in brackets behind what is no gap.
        ("told", "1 I'm wet because it rains. 2 I'm sad because I fell.", ["I'm wet because it rains.", "I'm sad because I fell."]),
        ("told", "1 The blue one is mine. 2 The green one is his.", ["The blue one is mine.", "The green one is his."]),
        ("odd", "1 hat, bag, sky (line 3) 2 hen, cow, pen (page 4) 3 red", ["hat, bag, sky (line 3)", "hen, cow, pen (page 4)", "red"]),
        # Leave alone: what is to be written has a reason itself; a remark in brackets.
        ("told", "1 cold, because it snows 2 warm", ["cold, because it snows", "warm"]),
        ("right", "1 F (They can't.) 2 T (They can.)", ["F (They can't.)", "T (They can.)"]),
        # Leave alone: sentences that are the answers, and a row that is told so only in part.
        ("told", "1 The hen can't fly. 2 The cow can eat.", ["The hen can't fly.", "The cow can eat."]),
        ("letters", "1 The queen is big. 2 The eggs are d. 3 The leaf is a.", ["The queen is big.", "The eggs are d.", "The leaf is a."]),
    ],
)  # fmt: skip
def test_what_leads_to_an_answer_is_no_part_of_it(kind: str, key: str, told: list[str]) -> None:
    assert [one.rstrip(".") for one in answers(kind, key)] == [one.rstrip(".") for one in told]


@pytest.mark.parametrize("lead", ["Key:", "Answers:", "**Key:**", "The answers are:"])
def test_the_last_of_numbered_steps_may_be_the_key(lead: str) -> None:
    steps = f"1. They look.\n2. They write. Help them.\n3. {lead} 1 c, 2 d, 3 a."
    unit = unit_of(f"### 1 Write. {{.reading}}\n\n{ITEMS['letters']}\n::: teacher\n**Steps:**\n\n{steps}\n:::\n")
    (activity,) = unit.activities
    (exercise,) = exercises_in(activity, unit).exercises
    found = [item.answer.text.rstrip(".") if item.answer is not None else "" for item in exercise.items]
    assert found == ["c", "d", "a"]


HOUSE = "### {} Write. {{.reading}}\n\n{}\n::: teacher\n**Steps:** They look. They write.\n\n{} 1 c, 2 d, 3 a\n:::\n\n"


@pytest.mark.parametrize(
    ("names", "told"), [(["On the tail of the kite:"] * 3, ["c", "d", "a"]), (["Sing:", "Run:", "Look:"], [""] * 3)]
)
def test_a_key_by_a_name_of_the_house_is_told_by_its_coming_back(names: list[str], told: list[str]) -> None:
    unit = unit_of("".join(HOUSE.format(at, ITEMS["letters"], name) for at, name in enumerate(names, 1)))
    (exercise,) = exercises_in(next(iter(unit.activities)), unit).exercises
    assert [item.answer.text if item.answer is not None else "" for item in exercise.items] == told
