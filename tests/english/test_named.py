"""Names that are verbs as well; and days and months, which stay flagged. Common practice, no source."""

import pytest

from lint_rules.english.left_alone import is_left_alone
from lint_rules.language.service import EnglishMatch
from tests.english.test_left_alone import GRAMMAR, SPELLING, passage_with

OURS = {"School", "Polish", "Ding", "Grumble", "Saturday", "May", "Mina", "run"}


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
    ],
)
def test_names_that_are_verbs(words: str, text: str, rule: str, alone: bool) -> None:
    passage = passage_with(words, text)
    at = passage.text.index(words)
    match = EnglishMatch(at, at + len(words), rule, "TYPOS", "A slip?", ())
    assert is_left_alone(passage, match, OURS.__contains__) is alone
