"""Words that stand twice: said for fun, letters of a sound, the letter of an option, or a slip."""

import pytest

from lint_rules.english.said_twice import TWICE, may_stand_twice
from lint_rules.language.service import EnglishMatch
from tests.english.test_left_alone import passage_with


def stands(words: str, text: str, *spellings: str) -> bool:
    passage = passage_with(words, text)
    at = passage.text.index(words)
    match = EnglishMatch(at, at + len(words), TWICE, "MISC", "You said it twice.", ())
    return may_stand_twice(passage, match, spellings)


@pytest.mark.parametrize(
    ("words", "text", "spellings"),
    [
        ("big big", "A big big dog!", ()),
        ("No no", "No no no, Odo!", ()),
        ("or or", "Write or or oar.", ("or", "oar")),
        ("a a", "It is a a board game or b a card game.", ()),
        ("a a", "It is a a board game b. a card game.", ()),
    ],
)
def test_what_is_meant_stands(words: str, text: str, spellings: tuple[str, ...]) -> None:
    assert stands(words, text, *spellings)


@pytest.mark.parametrize(
    ("words", "text", "spellings"),
    [
        ("the the", "Fly the the kite.", ()),
        ("The the", "The the kite is red.", ()),
        ("or or", "Is it red or or blue?", ("ar",)),
        ("a a", "It is a a board game.", ()),
        ("a a", "Take b a bag. It is a a game.", ()),
        ("is is", "It is is a board game or b a card game.", ()),
    ],
)
def test_what_nobody_says_twice_is_told(words: str, text: str, spellings: tuple[str, ...]) -> None:
    assert not stands(words, text, *spellings)
