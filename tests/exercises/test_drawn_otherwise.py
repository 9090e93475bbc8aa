"""Things that the art of a story has otherwise than its text; and the like that is right. Invented sentences."""

import pytest

from lint_rules.unit_language.drawn_otherwise import drawn_otherwise
from tests.exercises.test_layouts import unit_of

STORY = "### 1 Read. {{.story}}\n\n**1** {}\n\n**2** {}\n\n::: art\n{}\n:::\n"


def differing(first: str, second: str, art: str) -> list[tuple[str, str]]:
    return [(one.text, other.text) for one, other in drawn_otherwise(unit_of(STORY.format(first, second, art)))]


@pytest.mark.parametrize(
    ("first", "second", "art", "found"),
    [
        ("Pim has a green hat.", "He runs.", "Drawing: Pim with a red hat.", [("red hat", "green hat")]),
        ("Pim has a small grey hat.", "He runs.", "Drawing: Pim with a big red hat.", [("red hat", "grey hat")]),
        ("Here are six carrots.", "Pim eats.", "1 Pim with five carrots. 2 A bowl.", [("five carrots", "six carrots")]),
        ("A red bag.", "Two kites.", "A blue bag, 3 kites.", [("blue bag", "red bag"), ("3 kites", "Two kites")]),
        ("Pim has a gray hat.", "He runs.", "Drawing: Pim with a red hat.", [("red hat", "gray hat")]),
        ("Here is an egg! It's blue.", "He runs.", "Pim has a red egg.", [("red egg", "an egg! It's blue")]),
    ],
)  # fmt: skip
def test_what_is_drawn_otherwise_is_told(first: str, second: str, art: str, found: list[tuple[str, str]]) -> None:
    assert sorted(differing(first, second, art)) == sorted(found)


@pytest.mark.parametrize(
    ("first", "second", "art"),
    [
        ("Pim has a green hat.", "He runs.", "Drawing: Pim with a green hat."),
        ("Pim has a gray hat.", "He runs.", "Drawing: Pim with a grey hat."),
        ("Pim sees yellow flowers.", "He sees red flowers, too.", "Drawing: Pim with yellow, red and blue flowers."),
        ("Pim sees yellow, red and blue flowers.", "He runs.", "Drawing: Pim with yellow flowers."),
        ("Pim has a green hat.", "Nell has a red hat.", "Drawing: Nell with a red hat."),  # one of two
        ("Pim has a green hat.", "He runs.", "1 Pim with a green hat. 2 A red hat in a shop."),
        ("Pim has a green hat.", "He runs.", "Drawing: Nell with a red hat."),  # hers
        ("Look, a yellow sock!", "It runs.", "Drawing: green socks."),  # of two, and of one
        ("There are five eggs.", "Now there are four eggs.", "Drawing: six eggs."),
        ("One egg is here.", "It runs.", "Drawing: two eggs."),
        ("Four children come.", "They run.", "Drawing: three children."),  # the others are outside it
        ("He sees a green light.", "He runs.", "Drawing: a street in yellow light."),
        ("Pim has a hat.", "It is green.", "Drawing: a red hat."),  # needs understanding
        ("The house is fifty years old.", "He runs.", "Drawing: a boy of about eight years."),
        ("There is a green tree.", "He runs.", "Drawing: an orange tree."),
        ("Pim sees three hens.", "Then a fourth hen comes.", "Drawing: Pim with four hens."),
        ("Pim has red juice.", "He sees green trees.", "Drawing: orange juice beside orange trees."),
    ],
)
def test_what_may_be_drawn_so_is_let_alone(first: str, second: str, art: str) -> None:
    assert differing(first, second, art) == []


def test_the_art_of_another_activity_is_of_other_things_unless_it_names_somebody() -> None:
    look = "### 1 Look and say. {.speaking}\n\n::: art\nPhoto: a red hat on a table.\n:::\n\n"
    assert list(drawn_otherwise(unit_of(look + "### 2 Read. {.story}\n\nPim has a green hat.\n"))) == []


TRAIN = "### 1 Read. {{.reading}}\n\n{}\n\n::: art\nDrawing: a green train with two wheels.\n:::\n"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("This is my train. It is old and green. It has got three wheels and a key.", ["two wheels"]),
        ("This is my train. It is old and green. It has got two wheels and a key.", []),
        ("This is my train. It is old and green. It has three more wheels than a bike.", []),
        ("The train has got three wheels. ____", []),  # to call right or wrong
        ("This is my train. It is green. It has got three wheels. It hasn't got a driver!", ["two wheels"]),
        ("This is my train. It is green. It needs three wheels to go to the next town.", []),
        ("This is my train. It is green. It hasn't got three wheels and it is slow.", []),
        ("This is my train. It has got three wheels. Then Pim paints it and changes them.", []),
    ],
)
def test_a_text_to_read_is_held_against_its_own_art(text: str, found: list[str]) -> None:
    assert [one.text for one, _ in drawn_otherwise(unit_of(TRAIN.format(text)))] == found


def test_the_art_of_another_activity_is_not_held_against_a_text_to_read() -> None:
    art = "### 2 Look. {.reading}\n\n::: art\nDrawing: Pim with a red hat.\n:::\n"
    text = "### 1 Read. {.reading}\n\nThis is Pim. He is a boy. Pim has a green hat and a drum.\n\n"
    assert list(drawn_otherwise(unit_of(text + art))) == []


FRAMES = (
    "### 1 Read. {{.story}}\n\n**1** Pim has a yellow dress.\n\n**2** Oh no! Look! The dress is red!\n\n**3** {}\n\n"
    "::: art\nThree frames. 1: Pim with a yellow dress. 2: A red dress and red hands. 3: {}\n:::\n"
)


@pytest.mark.parametrize(
    ("words", "art", "found"),
    [
        ("Now the dress is yellow. Oh no! Pim is red.", "A green dress on the line.", ["green dress"]),
        ("There is one grey feather on it.", "Pim with three big white feathers.", ["white feathers"]),
        ("Now the dress is yellow.", "A yellow dress on the line.", []),
        ("Pim wants a blue dress.", "A yellow dress on the line.", []),
        ("I need a blue dress.", "A yellow dress on the line.", []),
        ("Is it a blue dress?", "A yellow dress on the line.", []),
        ("Nell has a blue dress.", "Pim with a yellow dress.", []),
        ("Look at the blue dress.", "Pim with a yellow dress.", ["yellow dress"]),
        ("The dress is yellow, red and blue.", "A red, blue and green dress.", []),
        ("Pim has a blue hat and a red hat.", "Pim with a red hat.", []),
        ("The dress turns blue, and it is dry.", "A yellow dress on the line.", []),
    ],
)
def test_a_frame_is_held_against_its_own_words(words: str, art: str, found: list[str]) -> None:
    assert [one.text for one, _ in drawn_otherwise(unit_of(FRAMES.format(words, art)))] == found


def test_frames_that_say_their_name_and_stand_in_a_table() -> None:
    rows = "| 1 | Pim runs. |\n| 2 | He sees a red kite. |\n| 3 | Then he sees a red hat and a blue kite. |\n"
    art = "::: art\nFrame 1: Pim. Frame 2: a green kite. Frame 3: a blue kite and a red hat.\n:::\n"
    unit = unit_of(f"### 1 Read. {{.story}}\n\n| Frame | Words |\n|---|---|\n{rows}\n{art}")
    assert [one.text for one, _ in drawn_otherwise(unit)] == ["green kite"]


LISTED = "1. Pim runs.\n2. He sees a red kite.\n{}3. Then he sees a red hat and a blue kite.\n"


@pytest.mark.parametrize(
    ("between", "art", "found"),
    [
        ("", "1. Pim.\n2. a green kite.\n3. a blue kite.", ["green kite"]),
        ("", "1. Pim.\n2. a red kite.\n3. a blue kite.", []),
        ("", "Pim, and then a green kite and a blue kite.", []),  # no frames
        ("", "1. Pim.\n2. a green kite and a blue kite.", []),  # two are no story
        ("\n   It is his hat. He has a grey bag.\n\n", "1. Pim.\n2. a black bag.\n3. a hat.", ["black bag"]),
    ],
)
def test_frames_in_lists(between: str, art: str, found: list[str]) -> None:
    unit = unit_of(f"### 1 Read. {{.story}}\n\n{LISTED.format(between)}\n::: art\n{art}\n:::\n")
    assert [one.text for one, _ in drawn_otherwise(unit)] == found


def test_frames_whose_numbers_do_not_count_are_none() -> None:
    page = "**1** Pim runs.\n\n**2** He sees a red kite.\n\n**4** He sees a red hat and a blue kite.\n"
    art = "::: art\nFrame 1: Pim. Frame 2: a green kite. Frame 4: a blue kite.\n:::\n"
    assert list(drawn_otherwise(unit_of(f"### 1 Read. {{.story}}\n\n{page}\n{art}"))) == []
