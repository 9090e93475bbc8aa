"""Names that are verbs as well; and days and months, which stay flagged. Common practice, no source."""

import pytest

from lint_rules.english.left_alone import is_left_alone
from lint_rules.language.service import EnglishMatch
from tests.english.test_left_alone import GRAMMAR, SPELLING, passage_with

OURS = {"Stilts", "School", "Polish", "Ding", "Grumble", "Saturday", "May", "Mina", "run"}


@pytest.mark.parametrize(
    ("words", "text", "rule", "alone"),
    [
        ("I'm Ding", "Hello! I'm Ding, and this is Mina.", GRAMMAR, True),
        ("Grumble", "What hasn't Grumble got?", GRAMMAR, True),
        ("in Saturday", "We make kites in Saturday at home.", GRAMMAR, False),
        ("in School", "We play in School at home.", GRAMMAR, False),
        ("a Polish", "She buys a Polish apples.", GRAMMAR, False),
        ("on May", "We make kites on May at home.", GRAMMAR, False),
        ("Grumble", "Good evening! Grumble go home.", GRAMMAR, False),  # a sentence begins
        ("run", "She has run home.", GRAMMAR, False),
        ("I'm Dong", "Hello! I'm Dong, and this is Mina.", GRAMMAR, False),  # nobody of the course
        ("Grumble", "What hasn't Grumble got?", SPELLING, False),
        ("was", "They came to the water. Stilts was there.", GRAMMAR, True),  # one heron
        ("was", "They came to the water. Storks was there.", GRAMMAR, False),
        ("was", "We saw that Stilts was there.", GRAMMAR, False),
        ("A", "A apples ____ · B cake ____ · C tea ____", GRAMMAR, True),  # a picture's letter
        ("A", "A apple is red. B is a letter.", GRAMMAR, True),
        ("A", "A apple is red. Bo likes it.", GRAMMAR, False),
        ("full with", "Fill the jar half full with water.", "FULL_WITH_OF", True),
        ("full with", "The jar is full with water.", "FULL_WITH_OF", False),
    ],
)
def test_names_that_are_verbs(words: str, text: str, rule: str, alone: bool) -> None:
    passage = passage_with(words, text)
    at = passage.text.index(words)
    match = EnglishMatch(at, at + len(words), rule, "TYPOS", "A slip?", ())
    assert is_left_alone(passage, match, OURS.__contains__) is alone
