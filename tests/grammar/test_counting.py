"""Counting words: against Unicode's own word boundaries (UAX #29, as the package regex has them), and our rulings."""

import pytest
import regex
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.manuscript.counting import count_words, ends_sentence, options_in, word_ranges

PLAIN = [
    "The wind is blowing. My hat is flying!",
    "It's windy, isn't it? Don't go!",
    "“Where’s my kite?” said Rafi.",
    "There are 12 boats and 1,000 fish at 7.30.",
    "Oh no … the cat – the big one – has got it!",
    "Café au lait, naïve, piñata",
    "cafe\u0301 au lait",
    "Mina (8) and Rafi (9) live here; they’re friends.",
]


@pytest.mark.parametrize("text", PLAIN)
def test_words_are_those_of_unicode_text_segmentation(text: str) -> None:
    segments = regex.findall(r"(?w)\b\w.*?\b", text)
    assert count_words(text) == len(segments)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("round-ended scissors", 2),
        ("a well-known ice-cream", 3),
        ("She ____ a bike.", 3),
        ("____", 0),
        ("He is / are at home", 5),
        ("– … !", 0),
        ("", 0),
        ("\ufffc is on the \ufffc", 3),
    ],
)
def test_a_hyphened_word_is_one_and_a_gap_or_a_picture_none(text: str, number: int) -> None:
    assert count_words(text) == number


@given(st.text())
def test_ranges_are_in_order_and_hold_a_letter_or_a_digit(text: str) -> None:
    last = 0
    for start, end in word_ranges(text):
        assert last <= start < end <= len(text)
        assert any(char.isalnum() for char in text[start:end])
        last = end


def test_what_ends_a_sentence_and_what_is_a_choice() -> None:
    assert ends_sentence("It is red.")
    assert ends_sentence("“Is it red?” ")
    assert not ends_sentence("apple, hen")
    assert options_in("is / are") == 1
    assert options_in("red/blue/green") == 2
    assert options_in("red") == 0
