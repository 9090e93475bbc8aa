"""Which alarms of an English checker are listened to, and how much they weigh.

A checker that is made for letters and reports cries wolf on a children's page. What counts is whether a check was seen
to be right (`english_checks.csv`; `python -m tests.english.checks URL` counts what each says).
"""

from collections.abc import Sequence
from functools import cache

from lint_rules.english.left_alone import SPELLER
from lint_rules.finding import Severity
from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.misspellings import one_slip_away
from lint_rules.language.vocabulary.reference import common
from lint_rules.language.vocabulary.word_index import function_bands
from lint_rules.tables import rows

_USUAL = 3.0  # Zipf frequency (decode has 3.3): common practice, no source
_COMMON = 5.2  # Zipf frequency of a word that opens many a sentence
_SHORTEST = 3  # letters of a part of a word


def is_listened_to(match: EnglishMatch) -> bool:
    """Say whether an alarm is of a check that was seen to be right."""
    return listens_to(match.rule)


def listens_to(check: str) -> bool:
    """Say whether a check of this name was seen to be right."""
    return check.startswith((*_checks("sure"), *_checks("doubtful")))


@cache
def _checks(weight: str) -> tuple[str, ...]:
    return tuple(name for of, name in rows("english_checks.csv") if of == weight)


def weight_of(match: EnglishMatch) -> Severity | None:
    """How much an alarm weighs: of a check that is mostly right a query, of others a note; so a word that is two."""
    sure = match.rule.startswith(_checks("sure"))
    if sure and not (match.rule.startswith(SPELLER) and _is_two_words(match.replacements[:1])):
        return None
    return Severity.NOTE


def _is_two_words(proposed: Sequence[str]) -> bool:
    """Say whether a checker would only part a word (pinecone): two things, not infront or alot."""
    parts = [word for words in proposed for word in words.split()]
    return len(parts) > 1 and all(len(part) >= _SHORTEST and not function_bands(part) for part in parts)


def is_slip(word: str, proposed: Sequence[str]) -> bool:
    """Say whether a spelling may be a slip for a usual word: one letter off what the checker proposes, or two words.
    What has a capital may only be a slip for a very common word (Whre, and not Benno for Benny, Savi for Save)."""
    near = set(one_slip_away(word.casefold()))
    if word[:1].isupper():
        return any(other.casefold() in near and common(other.casefold()) >= _COMMON for other in proposed)
    return any(" " in other or (other.casefold() in near and common(other.casefold()) >= _USUAL) for other in proposed)
