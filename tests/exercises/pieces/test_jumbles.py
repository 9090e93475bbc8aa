"""Letters, parts and words to put in order, as they stand on a page."""

import pytest

from lint_rules.page.exercises.jumbles import asks_for_order, letters_in, letters_of, parts_in, words_in, words_of
from tests.exercises.pieces.places import as_it_stands


@pytest.mark.parametrize(
    ("page", "letters"),
    [
        ("k i t h c e n", "k i t h c e n"),
        ("The word is k i t", "k i t"),
        ("k, i, t", "k, i, t"),
        ("k - i - t →", "k - i - t"),
        ("k / i / t", "k / i / t"),
        ("k · i · t", "k · i · t"),
        ("(k i t)", "k i t"),
        ("k i t?", "k i t"),
        ("k i", None),
        ("I am 6 a b", None),
        ("kit", None),
        ("2 3 4", None),
    ],
)
def test_letters_one_by_one(page, letters):
    found = letters_in(as_it_stands(page))
    assert (found.text if found else None) == letters


@pytest.mark.parametrize(
    ("page", "parts"),
    [
        ("co · broc", "co · broc"),
        ("ter + win", "ter + win"),
        ("ter+win+x → ____", "ter+win+x"),
        ("(ter / win) ____", "ter / win"),
        ("ter win", None),
        ("ter + win is", None),
        ("longwords + win", None),
        ("3 + 4", None),
    ],
)
def test_parts_of_one_word(page, parts):
    found = parts_in(as_it_stands(page))
    assert (found.text if found else None) == parts


SIGNS = ("{} / {} / {}", "{}, {}, {}", "{}; {}; {}", "{} + {} + {}", "{} – {} – {}", "{}  {}  {}", "[{}] [{}] [{}]")
OTHERS = (
    "({}) ({}) ({})",
    "{} // {} / / {}",
    "{} <> {} <> {}",
    " {} · {} · {} ",
    "{} / {} / {} → ____",
    "{}/{}/{} => Mo",
)


@pytest.mark.parametrize("page", [*SIGNS, *OTHERS])
def test_words_between_any_signs(page):
    assert [one.text for one in words_in(as_it_stands(page.format("has", "an old", "hen")))] == ["has", "an old", "hen"]


@pytest.mark.parametrize(
    ("page", "said", "words"),
    [
        ("has / hen", "", []),
        ("has a hen", "", []),
        ("one big red hen / has / a", "", ["one big red hen", "has", "a"]),
        ("one big red old hen / has / a", "", []),  # no list has pieces so long
        ("MO: has / a / hen", "", ["has", "a", "hen"]),
        ("Mr Mo Hill: has / a / hen", "She has a hen.", ["has", "a", "hen"]),
        ("MO: has / a / hen", "Mo has a hen.", ["MO: has", "a", "hen"]),  # the key says the name
        ("12: has / a / hen", "", ["12: has", "a", "hen"]),
    ],
)
def test_which_pieces_are_a_list(page, said, words):
    assert [one.text for one in words_in(as_it_stands(page), said)] == words


def test_only_a_range_is_looked_at():
    whole = as_it_stands("MO: has / a / hen / now → then / is")
    part = type(whole)(whole.passage, 0, 17)
    assert [one.text for one in words_in(part)] == ["has", "a", "hen"]
    assert letters_in(type(whole)(as_it_stands("a b c d").passage, 0, 3)) is None


@pytest.mark.parametrize(
    ("instruction", "asks"),
    [
        ("Put the words in order.", True),
        ("Order the words.", True),
        ("Make sentences.", True),
        ("Make a question.", True),
        ("JUMBLED words", True),
        ("Find the right order.", True),
        ("Number the pictures.", False),
        ("Write.", False),
    ],
)
def test_an_instruction_asks_for_order(instruction, asks):
    assert asks_for_order(instruction) is asks


def test_letters_and_words_are_counted():
    assert letters_of("E g-g 2") == {"e": 1, "g": 2}
    assert words_of("The hen, the “hen”.") == {"the": 2, "hen": 2}
