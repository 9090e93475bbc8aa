"""A sentence as the key completes it, and what is wrong in it: what the patterns of slips share. Plain data."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from lint_rules.language.tokens import Token
from lint_rules.tables import words

SINGULAR = frozenset({"he", "she", "it", "this", "that", "everybody", "everyone", "nobody", "somebody", "someone"})
PLURAL = frozenset({"we", "they", "you", "these", "those"})
MANY = frozenset(
    {"two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
    | {"many", "these", "those", "both", "several", "few"}
)
ONE = frozenset({"a", "an", "one", "every", "each", "another"})
MODALS = frozenset({"can", "could", "must", "should", "will", "would", "may", "might", "ca", "wo", "cannot"})
_NAMING = frozenset({"word", "words", "sound", "sounds", "rhyme", "rhymes", "answer", "answers"})


@dataclass(frozen=True, slots=True)
class KeySlip:
    """A range of the sentence that is wrong, and what would be right ('' where there are several ways)."""

    start: int
    end: int
    better: str = ""


@dataclass(frozen=True)
class KeySentence:
    """A sentence's words, and which of them stand in a gap or were chosen."""

    tokens: Sequence[Token]
    filled: frozenset[int]
    variety: str

    def low(self, index: int) -> str:
        """A word in lower case; '' outside the sentence."""
        return self._low[index] if 0 <= index < len(self._low) else ""

    @cached_property
    def _low(self) -> Sequence[str]:  # some hundred patterns ask
        return [token.text.casefold().replace("’", "'") for token in self.tokens]

    def touches(self, *indices: int) -> bool:
        """Whether the key has put any of some words there."""
        return any(index in self.filled for index in indices)

    def names_words(self, end: int) -> bool:
        """Whether what stands before an index speaks of words: the words with the sound are see and sea."""
        return not _NAMING.isdisjoint(self._low[:end])

    def slip(self, first: int, last: int, better: str = "") -> KeySlip:
        """A slip that runs from one word to another."""
        return KeySlip(self.tokens[first].start, self.tokens[last].end, better)


def either_number() -> frozenset[str]:
    """Words whose number their form does not show."""
    return words("either_number")
