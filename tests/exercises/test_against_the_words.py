"""Gaps that the key fills against the very words of the text, and letters of pictures set off by marks alone."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

STAGE = (
    "You mustn't eat on the stage. You mustn't pull the curtain. Odo can sing. The hen is under the table.\n\n"
    "### 1 Write. {.writing}\n\n1. You ____ run here.\n2. You ____ pull the curtain.\n3. Odo ____ sing.\n"
    "4. The hen is ____ the table.\n"
)


@pytest.mark.parametrize(
    ("answers", "wrong"),
    [
        ("1 mustn't\n2 must\n3 can\n4 under", ["must"]),
        ("1 mustn't\n2 mustn't\n3 can't\n4 under", ["can't"]),
        ("1 mustn't\n2 mustn't\n3 can\n4 under", []),
        ("1 must\n2 mustn't\n3 can\n4 under", []),  # the text does not speak of it
        ("1 mustn't\n2 mustn't\n3 can\n4 behind", []),  # another hen, in another picture
    ],
)
def test_a_gap_filled_against_the_words_of_the_text(answers: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, STAGE + key(answers))] == wrong


MATCH = "### 1 Match. {{.reading}}\n\n::: art\n{}\n:::\n\n1. bear\n2. fox\n3. duck\n4. owl\n"


@pytest.mark.parametrize(
    "brief",
    [
        "a: a duck. b: a bear. c: an owl. d: a fox.",
        "Four drawings in a row: a a duck; b a bear; c an owl; d a fox.",
        "Four drawings, with letters. a a duck. b a bear. c an owl. d a fox.",
    ],
)
def test_letters_of_pictures_that_have_changed_places(brief: str) -> None:
    page = MATCH.format(brief)
    assert [words for words, _ in said_of(RULE, page + key("1 b; 2 d; 3 c; 4 a"))] == ["c"]
    assert said_of(RULE, page + key("1 b; 2 d; 3 a; 4 c")) == []


def test_an_article_is_no_letter_of_a_picture() -> None:
    page = MATCH.format("Drawing: a duck, a bear, an owl and a fox in a row, with a big tree behind.")
    assert said_of(RULE, page + key("1 b; 2 d; 3 c; 4 a")) == []


HEARD = (
    "### 1 Listen. Write the letters. {.listening audio=1.1}\n\n::: art\nA a pair of gloves, b a watering can, c a jar "
    "of honey, d an empty clay pot, e a plant's roots.\n:::\n\n1 ____ 2 ____ 3 ____ 4 ____\n\n::: {.audio track=1.1}\n"
    "ODO: One. My hands are cold: where are my gloves?\n\nILO: Two. The can is full of water.\n\nODO: Three. Bees made "
    "the honey in this jar.\n\nILO: Four. I put soil in this. Then I planted a seed.\n:::\n"
)


def test_a_script_that_speaks_of_other_things_as_well_decides_nothing() -> None:
    assert said_of(RULE, HEARD + key("1 a, 2 b, 3 c, 4 d")) == []


# The page of the rule's own example, up to its key.
COLOURS = next(one.text for one in RULE.rule.passes if "Listen and colour" in one.text).partition("\n::: answers")[0]


@pytest.mark.parametrize(
    "answers",
    ["1 green; 2 the red one; 3 pink; 4 grey", "1 a green frog; 2 a red boat; 3 a blue snake; 4 yellow birds"],
)
def test_words_of_a_key_s_own_and_other_words_for_the_same(answers: str) -> None:
    assert said_of(RULE, COLOURS + key(answers)) == []


def test_a_picture_may_say_it_in_its_own_way() -> None:
    page = (
        "### 1 Look and write.\n\n::: art\nFour pictures, numbered 1 to 4: 1 Pim walks; 2 ten buns; 3 a small cat; "
        "4 Tam with a wide smile.\n:::\n\n1. Pim can ____.\n2. ____ buns!\n3. The cat is ____.\n4. Tam is ____.\n"
    )
    assert said_of(RULE, page + key("1 walk, 2 ten, 3 small, 4 happy")) == []


STORY = "### 1 Read. {{.story}}\n\nPim is late. Pim dropped his kite. Nell has a torch. Nell carried the cake.\n\n"
QUESTIONS = """### 2 Choose. {.reading}

1. What did Pim drop?
   a) his torch  b) his kite
2. Who carried the cake?
   a) Pim  b) Nell
3. Where is Nell?
   a) at school  b) at home

"""


@pytest.mark.parametrize(
    ("answers", "wrong"),
    [
        ("1 a\n2 b\n3 a", ["a"]),
        ("1 b\n2 a\n3 a", ["a"]),
        ("1 b\n2 b\n3 a", []),
        ("1 b\n2 b\n3 b", []),  # the text does not say
    ],
)
def test_a_question_that_the_text_answers_outright(answers: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, STORY + QUESTIONS + key(answers))] == wrong


@pytest.mark.parametrize(
    "text",
    [
        "Mum thinks Pim dropped his kite. He has a torch. Where is it?",
        "If Pim dropped his kite, he is sad. He has a torch.",
        "Nell said, “Pim dropped his kite!” He has a torch.",
    ],
)
def test_what_is_only_supposed_answers_nothing(text: str) -> None:
    story = f"### 1 Read. {{.story}}\n\n{text} Pim is here. Nell carried the cake to the old house.\n\n"
    assert said_of(RULE, story + QUESTIONS + key("1 a\n2 b\n3 a")) == []


PLACES = (
    "The cat is under the table.\n\n### 1 Listen and write. {.listening audio=1.1}\n\n1. The frog is ____ the leaf.\n"
    "2. The bee is ____ the box.\n\n::: {.audio track=1.1}\nILO: The frog is under the leaf. The bee is in the box.\n"
    ":::\n"
)


@pytest.mark.parametrize(
    ("answers", "wrong"), [("1 on\n2 in", ["on"]), ("1 under\n2 in", []), ("1 under\n2 next to", ["next to"])]
)
def test_where_things_are_by_the_task_s_own_script(answers: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, PLACES + key(answers))] == wrong


KITES = (
    "::: art\nDrawing: a green hill. There are four red kites and three blue kites in the air. Two dogs sit there.\n"
    ":::\n\n1. ____ red kites\n2. ____ blue kites\n3. ____ dogs\n4. How many kites{}? ____\n"
)


@pytest.mark.parametrize(("counted", "wrong"), [("", ["seven"]), (" in all", []), (" altogether", [])])
def test_a_sum_is_no_number_of_the_picture(counted: str, wrong: list[str]) -> None:
    page = KITES.format(counted) + key("1 four, 2 three, 3 two, 4 seven")
    assert [words for words, _ in said_of(RULE, page, "Count and write the number. {.writing}")] == wrong
