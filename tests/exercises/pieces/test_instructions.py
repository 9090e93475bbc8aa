# ruff: noqa: E501 - each row is one instruction
"""What an instruction asks for: each word once, words left over, an order, a number of things."""

import pytest

from lint_rules.page.exercises.instructions import (
    asked_for,
    asks_for_order,
    each_once,
    has_spare,
    instruction_of,
    is_about_words,
    named_in,
    numbers_in,
    one_letter_each,
    spare_words,
)
from tests.exercises.test_layouts import unit_of


@pytest.mark.parametrize(
    ("instruction", "once", "spare"),
    [
        ("Use each word once.", True, False),
        ("Use every word only once.", True, False),
        ("Use all the words.", True, False),
        ("Each word goes in one gap.", True, False),
        ("You need every word.", True, False),
        ("Use each word once. There is one extra word.", False, True),
        ("There are two words you don't need.", False, True),
        ("Use one word twice.", False, True),
        ("Use the words.", False, False),
        ("Write the word.", False, False),
    ],
)
def test_each_word_once_and_words_to_spare(instruction, once, spare):
    assert (each_once(instruction), has_spare(instruction)) == (once, spare)


@pytest.mark.parametrize(
    ("instruction", "said"),
    [
        ("There is one extra word.", (1, "one extra word")),
        ("There is an extra word.", (1, "an extra word")),
        ("There are Two words you don't need.", (2, "Two words you don't need")),
        ("12 words too many", (12, "12 words too many")),
        ("Three of the words are extra", (3, "Three of the words are extra")),
        ("Use two words.", None),
    ],
)
def test_how_many_words_are_left_over(instruction, said):
    found = spare_words(instruction)
    assert (None if found is None else (found[0], instruction[found[1] : found[2]])) == said


@pytest.mark.parametrize(
    ("instruction", "is_so"),
    [
        ("Each line is one letter.", True),
        ("Write one letter on each line.", True),
        ("One line, one letter.", True),
        ("One gap means one letter.", True),
        ("Write a letter to Mo.", False),
    ],
)
def test_each_line_is_one_letter(instruction, is_so):
    assert one_letter_each(instruction) is is_so


@pytest.mark.parametrize(
    ("instruction", "is_so"), [("Put them in order.", True), ("Number the pictures.", True), ("Order tea.", True), ("Write the number.", False), ("Write.", False)]
)  # fmt: skip
def test_things_are_put_in_order(instruction, is_so):
    assert asks_for_order(instruction) is is_so


@pytest.mark.parametrize(
    ("instruction", "asked"),
    [
        ("Find seven colours.", [("seven colours", 7, "find", "colours", False)]),
        ("Find 12 big red Birds.", [("12 big red Birds", 12, "find", "birds", False)]),
        ("Ask two classmates or more.", [("two classmates", 2, "ask", "classmates", True)]),
        ("Write two sentences about your pet.", [("two sentences", 2, "write", "sentences", True)]),
        ("Find eight words about the sea.", [("eight words", 8, "find", "words", False)]),
        ("Find eight words of your own.", [("eight words", 8, "find", "words", True)]),
        ("There are three mistakes.", [("three mistakes", 3, "there are", "mistakes", False)]),
        ("There are three birds.", []),
        ("Here are four words.", [("four words", 4, "here are", "words", False)]),
        ("There are four words in this puzzle.", [("four words", 4, "there are", "words", False)]),
        ("Find four words. Write two lines.", [("four words", 4, "find", "words", False), ("two lines", 2, "write", "lines", False)]),
        ("There are two differences.", [("two differences", 2, "there are", "differences", False)]),
        ("Circle six words about food.", [("six words", 6, "circle", "words", False)]),
        ("Write one to three words.", []),
        ("Find 1 animals.", []),
        ("Find one word.", []),
        ("Write two or three words.", []),
        ("Write the names of the six tools.", []),
    ],
)  # fmt: skip
def test_a_number_of_things_is_asked_for(instruction, asked):
    found = [
        (instruction[one.start : one.end], one.number, one.verb, one.noun, one.free) for one in asked_for(instruction)
    ]
    assert found == asked


@pytest.mark.parametrize(
    ("instruction", "named"),
    [
        ("Write the Names  of the six tools.", [("six tools", 6, "names of", "tools", False)]),
        ("Label the five red planets.", [("five red planets", 5, "label", "planets", False)]),
        ("Look at the three tents.", [("three tents", 3, "look at", "tents", False)]),
        ("Look at the three birds.", []),  # that is asked for
        ("Label five planets.", []),
        ("Draw the five planets.", []),
    ],
)
def test_names_of_a_number_of_things_are_asked_for(instruction, named):
    found = [
        (instruction[one.start : one.end], one.number, one.verb, one.noun, one.free) for one in named_in(instruction)
    ]
    assert found == named


def test_all_numbers_that_it_says():
    assert numbers_in("Find two or Three words in 12 lines of one text.") == {2, 3, 12}


def test_what_stands_below_about_the_words_belongs_to_it():
    page = "### 1 Write. {.writing}\n\nYou need each word once. It is fun.\n\n1. The words ____ fit.\n\nUse them all.\n\n::: teacher\nUse each word once.\n:::\n"
    (activity,) = unit_of(page).activities
    assert instruction_of(activity) == "Write. You need each word once. Use them all."


@pytest.mark.parametrize(
    ("text", "about"),
    [
        ("You need each word once.", True),
        ("You need each word once. It is fun.", False),
        ("I use all my ____ words.", False),
        ("The hen is red.", False),
    ],
)
def test_a_text_is_only_about_the_words(text, about):
    assert is_about_words(text) is about
