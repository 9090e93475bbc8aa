"""Keys that put things in order: each step once."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "answers-mismatch"]
ORDER = "Put the sentences in order. {.reading}"
NUMBER = "Number the sentences. {.reading}"
STORY = "a) It flies.\nb) It is new.\nc) It falls.\nd) I cry.\n"
TURNS = "a ____ It flies.\\\nb ____ It is new.\\\nc ____ It falls.\\\nd ____ I cry.\n"
BOXES = "☐ Hello!\n\n☐ Bye!\n\n☐ Here you are.\n\n☐ Thanks.\n"
LEFT_OUT = "The steps are a to d; the key leaves out {}. Give each step once."
TWICE = "The key has {} twice, and no {}. Give each step its number."
NONE = "The key has the numbers up to {}, but no {}. Give each step its number."


@pytest.mark.parametrize(
    ("page", "said"),
    [
        (STORY + key("b, d, a"), [("b, d, a", LEFT_OUT.format("c"))]),
        (STORY + key("b, d"), [("b, d", LEFT_OUT.format("a, c"))]),
        (STORY + key("b, d, a, c"), []),
        (STORY + "\ne) We run.\n" + key("b, d"), []),  # too few to be an order
        ("1. First\n2. Then\n3. Last\n\n" + STORY + key("b, d, a"), [("b, d, a", LEFT_OUT.format("c"))]),
        (
            "1. a kite\n2. a hen\n3. a cow\n4. a pig\n\na) red  b) old\n" + key("3, 1, 2"),
            [("3, 1, 2", LEFT_OUT.format("4").replace("a to d", "1 to 4"))],
        ),
    ],
)  # fmt: skip
def test_an_order_of_letters_has_each_step_once(page, said):
    assert said_of(RULE, page, ORDER) == said
    assert said_of(RULE, page, "Which are true? {.reading}") == []


@pytest.mark.parametrize(
    ("page", "said"),
    [
        (TURNS + key("a 2 b 1 c 2 d 4"), [("2", TWICE.format(2, 3))]),
        (TURNS + key("a 4 b 1 c 3 d 4"), [("4", TWICE.format(4, 2))]),
        (TURNS + key("a 2 b 3 c 2 d 4"), [("2", TWICE.format(2, 1))]),
        ("a ____ It flies.\\\nb ____ It is new.\\\nc ____ I cry.\n" + key("a 2 b 1 c 2"), [("2", TWICE.format(2, 3))]),
        (TURNS + key("a 2 b 1 c 3 d 4"), []),
        (TURNS + key("a 2 b 2 c 1 d 1"), []),  # two are missing: no order
        (TURNS + key("a 2 b 1 c 9 d 4"), []),
        (TURNS + key("a 2 b 1 c last d 2"), []),
        ("a ____ It flies.\\\nb ____ It is new.\n" + key("a 1 b 1"), []),
        ("1. ____ It flies.\n2. ____ It is new.\n3. ____ It falls.\n" + key("1. 2\n2. 1\n3. 2"), []),
        ("a. It *flies / fly*.\nb. It *is / are* new.\nc. I *cry / cries*.\n" + key("a 2 b 1 c 2"), []),
        ("Example: ____ I sing.\n\n" + TURNS + key("a 2 b 1 c 2 d 4"), [("2", TWICE.format(2, 3))]),
    ],
)
def test_each_lettered_step_has_a_number_of_its_own(page, said):
    assert said_of(RULE, page, NUMBER) == said
    assert said_of(RULE, page, "How many are there? {.reading}") == []


@pytest.mark.parametrize(
    ("page", "said"),
    [
        (BOXES + key("3 – 1 – 4"), [("3 – 1 – 4", NONE.format(4, 2))]),
        (BOXES + key("3 – 1 – 4 – 4"), [("3 – 1 – 4 – 4", NONE.format(4, 2))]),
        (BOXES + key("3 – 1 – 2 – 2"), [("3 – 1 – 2 – 2", TWICE.format(2, 4))]),
        (BOXES + key("3 – 1 – 4 – 2"), []),
        (BOXES + key("3 – 1 – 2"), []),
        (BOXES + key("3 – 1"), []),
        (BOXES + key("5 – 1 – 4"), []),  # two are missing: no order
        (BOXES + key("3 – 3 – 1 – 1"), []),
        (BOXES + key("4 – 1 – 1 – 1 – 3"), []),
        (BOXES + key("2 – 2 – 1 – 1"), []),
        (BOXES + key("0 – 1 – 2 – 3"), []),
        (BOXES + key("3, 1, four"), []),
        (BOXES + key("3\n\n1\n\n4"), []),  # each in a paragraph of its own
    ],
)
def test_numbers_alone_have_each_once(page, said):
    assert said_of(RULE, page, NUMBER) == said
    assert said_of(RULE, page, "How many are there? {.reading}") == []
