"""What an item offers: its options, its words to put in order, its gaps, as a reader sees them."""

import pytest

from tests.exercises.test_layouts import read
from tests.exercises.test_readings import ACTIVITY

# An item, its key; the choices it has, the words to put in order, the gaps.
ITEMS = [
    ("She is playing / plays a game.", "is playing", [["is playing", "plays"]], "", []),
    ("She plays / is playing a game.", "is playing", [["plays", "is playing"]], "", []),
    ("She plays / played a game.", "plays", [["plays", "played"]], "", []),
    ("tea / coffee / milk", "milk", [["tea", "coffee", "milk"]], "", []),
    ("ship     sheep", "sheep", [["ship", "sheep"]], "", []),
    ("red · blue", "blue", [["red", "blue"]], "", []),
    ("red, blue", "blue", [["red", "blue"]], "", []),
    ("red | blue | old", "old", [["red", "blue", "old"]], "", []),
    ("red, blue, ____", "blue", [], "", ["____"]),  # a row to go on with
    ("I (am / is) seven. You (is / are) six.", "am, are", [["am", "is"], ["is", "are"]], "", []),
    ("It is ☐ red ☐ blue.", "red", [["red", "blue"]], "", []),
    ("Do you like *tea or coffee*?", "tea", [["tea", "coffee"]], "", []),
    ("a) red b) blue", "a", [["red", "blue"]], "", []),
    ("What turned? – a a cup · b a spoon · c a bell", "b", [["a cup", "a spoon", "a bell"]], "", []),
    ("has / a / dog / Mina", "Mina has a dog.", [], "has / a / dog / Mina", []),
    ("has / a / dog / Mina → ____", "Mina has a dog.", [], "has / a / dog / Mina", ["____"]),
    ("has / a / Mina", "Mina has a.", [], "has / a / Mina", []),
    ("has / a", "has a", [], "", []),  # two words are in order soon
    ("has / a → ____", "a has", [], "", ["____"]),
    (
        "one big red dog here / sleeps / now",
        "Now one big red dog sleeps here.",
        [],
        "",
        [],
    ),  # no list has pieces so long
    ("one big red dog / sleeps / now", "Now one big red dog sleeps.", [], "one big red dog / sleeps / now", []),
]


@pytest.mark.parametrize(("page", "answer", "choices", "jumble", "gaps"), ITEMS)
def test_an_item(page, answer, choices, jumble, gaps):
    found = read(f"{ACTIVITY}1. {page}\n2. {page}\n\n::: answers\n1 {answer}\n2 {answer}\n:::\n")
    items = [item for exercise in found.exercises for item in exercise.items]
    assert len(items) == 2
    for item in items:
        assert [[option.place.text for option in choice.options] for choice in item.choices] == choices
        assert (item.jumble.text if item.jumble else "") == jumble
        assert [gap.place.text for gap in item.gaps] == gaps


def test_a_key_that_is_only_a_stroke_is_read():
    found = read(f"{ACTIVITY}1. red / is / it\n2. is / red / it\n\n::: answers\n1 / 2 It is red.\n:::\n")
    assert [item.label.text for exercise in found.exercises for item in exercise.items] == ["1", "2"]
