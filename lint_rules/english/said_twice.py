"""Words that stand twice, and are meant so."""

from collections.abc import Sequence

from lint_rules import lazy_re
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Passage
from lint_rules.tables import entries

TWICE = "ENGLISH_WORD_REPEAT_RULE"
_NEXT_LETTER = lazy_re.compile(r"\s[bB][.)]?\s")


def may_stand_twice(passage: Passage, match: EnglishMatch, spellings: Sequence[str]) -> bool:
    """Say whether a word is said twice for fun, is letters that the unit teaches the sound of (Write or or o;
    ``spellings``), or an article behind the letter of an option (A a board game or B a card game)."""
    said = passage.text[match.start : match.end].casefold().split()
    if said == ["a", "a"] and _NEXT_LETTER.search(passage.text, match.end) is not None:
        return True
    return frozenset(entries("never_twice.txt")).isdisjoint(said) or not {*said}.isdisjoint(spellings)
