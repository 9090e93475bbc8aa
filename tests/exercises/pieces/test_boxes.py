"""Words to choose from: which lines, tables and instructions give them, and which only look so."""

import pytest

from lint_rules.page.exercises.boxes import entries_of, in_words_div, names_box
from lint_rules.page.exercises.reading import exercises_in
from tests.exercises.pieces.places import as_it_stands, key
from tests.exercises.test_layouts import unit_of

ITEMS = "\n\n1. It ____.\n2. He ____.\n3. She ____.\n"
HEADS = "| hen | cow |\n|---|---|\n| pig | dog |"


def boxes(page: str, instruction: str = "Look.", said: str = "") -> list[tuple[list[str], bool]]:
    unit = unit_of(f"### 1 {instruction} {{.reading}}\n\n{page}{ITEMS}" + (key(said) if said else ""))
    (activity,) = unit.activities
    return [([word.text for word in box.words], box.instead) for box in exercises_in(activity, unit).boxes]


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("Word box: hen, cow, pig", "hen cow pig"),
        ("Words: hen, cow", "hen cow"),
        ("The words in the box are: hen, cow, pig", "hen cow pig"),
        ("Use these words: hen and cow", "hen cow"),
        ("Words: hen, cow and pig", "hen cow pig"),
        ("Word bank\\\nhen\\\ncow", "hen cow"),
        ("Words:\n\nhen, cow", "hen cow"),
        ("Words\\\nhen, cow", "hen cow"),
        ("hen, cow, pig", "hen cow pig"),
        ("hen, cow, pig or dog", "hen cow pig dog"),
        ("| **Box** | hen, cow, pig |\n|---|---|", "hen cow pig"),
        ("hen / cow / pig", "hen cow pig"),
        ("hen · cow · pig", "hen cow pig"),
        ("hen – cow – pig", "hen cow pig"),
        ("hen; cow; pig", "hen cow pig"),
        ("hen + cow + pig", "hen cow pig"),
        ("hen → cow → pig", "hen cow pig"),
        ("(hen) (cow) (pig)", "hen cow pig"),
        ("hen&nbsp;&nbsp;cow&nbsp;&nbsp;pig", "hen cow pig"),
        ("**hen** **cow** **pig**", "hen cow pig"),
        ("*hen* *cow* *pig*", "hen cow pig"),
        ("hen, cow, pig\\\ndog, ant, bee", "hen cow pig dog ant bee"),
        ("Letters: B, C, D", "B C D"),
        ("::: words\nhen\ncow\n:::", "hen cow"),
        ("::: box\nhen, cow\n:::", "hen cow"),
        ("::: word-box\nUse each word once.\n\nhen, cow\n:::", "hen cow"),
        ("| hen | cow | pig |\n|---|---|---|", "hen cow pig"),
        ("| hen, cow, pig |\n|---|", "hen cow pig"),
        ("| hen | cow |\n|---|---|", "hen cow"),
    ],
)
def test_words_to_choose_from(page, words):
    assert boxes(page) == [(words.split(), False)]


@pytest.mark.parametrize(
    "page",
    [
        "hen, cow",  # two alone may be anything
        "Words: hen",
        "**hen** **cow**",
        "**hen** **cow** and **pig**",
        "**g** **m** **p**",  # letters
        "hen, cow and pig and dog, a very long list of all of them",
        "☐ hen, cow, pig",
        "hen = red, cow = old, pig = big",
        "I see a hen, a cow, a pig.",
        "Who? hen, cow, pig?",
        "hen, cow, pig!",
        "hen, cow, pig:",
        "Can you …? hen, cow, pig",
        "p → d → w",
        "- hen, cow, pig\n- red, old, big",
        "hen, ____, pig",
        HEADS,
        "| hen | one two three four five |\n|---|---|",
        "| 1 hen | 2 cow |\n|---|---|",
        "| a | b | c |\n|---|---|---|",
        "| ☐ hen | ☐ cow |\n|---|---|",
        "| ☐ hen, cow, pig |\n|---|",
        "| hen, cow |\n|---|",
    ],
)
def test_other_rows_are_no_words_to_choose_from(page):
    assert boxes(page) == []


@pytest.mark.parametrize(
    ("page", "said", "is_box"),
    [
        (HEADS, "1 hen 2 pig 3 dog", True),  # the key uses the heads too
        (HEADS, "1 hen 2 pig 3 ant", False),
        (HEADS, "1 pig 2 dog 3 ant", False),
        (HEADS, "1 hen 2 cow 3 ant", False),
        ("| hen | cow |\n|---|---|\n| pig | |", "1 hen 2 cow 3 pig", False),
        (HEADS + "\n| ant | bee |", "1 hen 2 pig 3 dog, ant", True),
        (HEADS + "\n| ant | bee |\n| fly | moth |", "1 hen, cow 2 pig, dog 3 ant, bee, fly, moth", False),
    ],
)
def test_a_table_with_heads_is_a_box_where_the_key_uses_them(page, said, is_box):
    assert bool(boxes(page, said=said)) is is_box


@pytest.mark.parametrize(
    ("instruction", "words", "instead"),
    [
        ("Write: hen, cow, pig.", "hen cow pig", False),
        ("Write (hen, cow, pig).", "hen cow pig", False),
        ("Write {Who} {When}.", "Who When", False),
        ("Choose the word: hen, cow.", "hen cow", False),
        ("Write *is* or *are*.", "is are", True),
        ("Write **is** / *are*.", "is are", True),
        ("Write *is*, *am* or *are*.", "is am are", True),
        ("Write *is* or *are*. It is *fun*.", "is are", True),
        ("Write {Who}.", "", False),
        ("Write *is*.", "", False),
        ("Write *is* in the gaps, then *are*.", "", False),
        ("Test: Listen, read and write.", "", False),
        ("Write (a, b, c).", "", False),
        ("Write (F = farm, S = sea).", "", False),
        ("Write the words.", "", False),
    ],
)
def test_words_that_the_instruction_gives(instruction, words, instead):
    assert boxes("I sing.", instruction) == ([(words.split(), instead)] if words else [])


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("hen, cow", ["hen", "cow"]),
        ("hen, cow and pig", ["hen", "cow and pig"]),
        ("hen, , cow.", ["hen", "cow"]),
        ("one big red hen, cow", ["one big red hen", "cow"]),
        ("one big red old hen, cow", []),
        ("hen", []),
        ("red or blue, cow", ["red or blue", "cow"]),
        ("cow, red or blue", ["cow", "red", "blue"]),
        ("(hen), [cow]", ["hen", "cow"]),
        ("hen, c_w", []),
        ("", []),
    ],
)
def test_the_entries_of_a_list(text, entries):
    assert [one.text for one in entries_of(as_it_stands(text))] == entries


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Word box", True),
        ("Words:", True),
        ("The verbs bank", True),
        ("Key words to use", True),
        ("Words and more", False),
        ("Box", False),
    ],
)
def test_a_line_names_a_box(text, names):
    assert names_box(text) is names


def test_what_stands_in_a_box_of_its_own():
    page = "### 1 Look. {.reading}\n\n::: words\nhen\n:::\n\n::: {.box}\ncow\n\n> dog\n:::\n\npig\n"
    unit = unit_of(page)
    (activity,) = unit.activities
    found = {one.text: in_words_div(one, unit) for one in activity.part.passages}
    assert found == {"hen": True, "cow": True, "dog": True, "pig": False}
