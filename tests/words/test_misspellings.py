"""Spellings that are one slip of the pen away from a word that children know.

The wrong spellings are common ones (common practice, no source), the words that stand one letter apart and are both
right are ordinary English.
"""

import pytest

from lint_rules.language.vocabulary.misspellings import meant_by, plays_with_letters
from lint_rules.language.vocabulary.word_index import build_index

SLIPS = {
    "freind": "friend",
    "beutiful": "beautiful",
    "libary": "library",
    "becuase": "because",
    "childern": "children",
    "recieve": "receive",
    "purpel": "purple",
    "trian": "train",
    "umberella": "umbrella",
    "sandwhich": "sandwich",
}


@pytest.mark.parametrize("spelling", SLIPS)
def test_a_slip_has_the_word_that_was_meant(spelling: str) -> None:
    assert meant_by(spelling, build_index(None)) == SLIPS[spelling]


@pytest.mark.parametrize(
    "spelling",
    ["", "teh", "zoggle", "plims", "jellybun", "splishy", "wiggly", "grr-grr", "héllo", "houseboat"],
)
def test_other_spellings_are_left_alone(spelling: str) -> None:
    assert meant_by(spelling, build_index(None)) == ""


@pytest.mark.parametrize(
    ("instruction", "plays"),
    [
        ("Put the letters in order.", True),
        ("Find the mistakes.", True),
        ("Unjumble the words.", True),
        ("Listen and spell.", True),
        ("Listen and point.", False),
        ("Write a message.", False),
    ],
)
def test_activities_that_play_with_letters(instruction: str, plays: bool) -> None:
    assert plays_with_letters(instruction) == plays
