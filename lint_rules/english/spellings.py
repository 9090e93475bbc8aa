"""The spellings that a course vouches for: its names, known words and target words, and what is no misspelling.

Left alone are also noises drawn out, words spelt out, sung syllables (fol-de-ray), spellings of the other variety
(spelling-variety says those), and in the notes what teachers write: letters of a sound (igh), decodable, preteach.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.course.model import Course
from lint_rules.language.inflection.forms import every_form
from lint_rules.language.vocabulary.house_words import house_spellings, spelling_of
from lint_rules.language.vocabulary.noises import DRAWN_OUT
from lint_rules.language.vocabulary.reference import common, common_words, lowest
from lint_rules.language.vocabulary.varieties import out_of_place, spelt_either_way
from lint_rules.plain_words import PART
from lint_rules.tables import entries

LETTERS = 3  # of a spelling that is talked about
_KNOWN = 3.0  # Zipf frequency (decode has 3.3): common practice, no source
_BEGINNINGS = ("pre", "re", "un", "non", "mini", "multi", "over")
_ENDINGS = ("able", "ables")
_SPELT_OUT = lazy_re.compile(r"[^\W\d_](?:-[^\W\d_])*")


@dataclass(frozen=True)
class Spellings:
    """Spellings that are right in a unit: the house's, and those that are spelling-variety's to say."""

    house: frozenset[str]
    elsewhere: Mapping[str, str]

    def vouch_for(self, words: str) -> bool:
        """Say whether words are the house's, or no misspelling."""
        word = spelling_of(words)
        return (
            word in self.house
            or self._are_ours(re.split(r"[\s-]+", word))
            or word in self.elsewhere
            or DRAWN_OUT.search(word) is not None
            or _SPELT_OUT.fullmatch(word) is not None
            or _is_nonsense(word.split("-"))
        )

    def _are_ours(self, parts: Sequence[str]) -> bool:
        """Say whether of several words one is the house's, and the others are too or plain English (Sts can)."""
        plain = all(part in self.house or lowest(part) in {"A1", "A2"} for part in parts)
        return plain and not self.house.isdisjoint(parts)


def spellings_for(course: Course, more: Iterable[str]) -> Spellings:
    """The spellings of a course, and ``more`` that a unit has (letters of its sounds, words of another language)."""
    house = house_spellings(course) | _listed("sound_words.txt") | _listed("trade_words.txt")
    house |= {spelling_of(word) for word in (*PART.findall(course.title), *more)}
    house |= spelt_either_way(course.variety)  # pyjamas in Canada
    return Spellings(house, out_of_place(course.variety))


def doubtful(words: str) -> str:
    """Of two words that a checker flags together the one that nobody knows (Sts can), where it is one."""
    unknown = [word for word in words.split() if lowest(word.casefold()) not in {"A1", "A2", "B1"}]
    return unknown[0] if len(unknown) == 1 else words


def is_of_the_trade(word: str) -> bool:
    """Say whether a teacher may write a word that no dictionary has: letters of a sound (igh), or a known word with an
    ending or a beginning (decodable, preteach)."""
    if len(word) <= LETTERS:
        return len(word) < LETTERS or not any(
            sorted(word) == sorted(other) for other in common_words() if len(other) == len(word)
        )
    for beginning in _BEGINNINGS:
        if word.startswith(beginning) and lowest(word.removeprefix(beginning)) not in {"", "C2"}:
            return True
    bases = {word.removesuffix(end) + more for end in _ENDINGS if word.endswith(end) for more in ("", "e")}
    return any(lowest(base) not in {"", "C2"} or common(base) >= _KNOWN for base in bases if len(base) > LETTERS)


def _listed(table: str) -> frozenset[str]:
    return frozenset(form for word in entries(table) for form in every_form(word))


def _is_nonsense(parts: Sequence[str]) -> bool:
    """Say whether a word of three beats and more is sung or howled: fol-de-ray, whoo-oo-oo."""
    return len(parts) > 2 and lowest(parts[0]) in {"", "C2"}
