"""What a sentence shows of its meaning without a parser: word pieces, pairs of them, and the words around it.

A sign is a number: a kind, and one or two word pieces (or a place, or a class of the heading). Learned tables
(``learned``) give each sign a weight. A sentence is read by itself, so that one dangerous act among harmless steps
weighs whole; the words of the heading and of the sentences near it stand beside it as signs of their own, because they
tell a mime, a tale or a picture card from the thing itself.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from lint_rules import lazy_re
from lint_rules.safety.word_pieces import pieces_of
from lint_rules.tables import words as words_in

if TYPE_CHECKING:  # a remembered run does not need numpy
    import numpy as np
    from numpy.typing import NDArray

Numbered = TypeVar("Numbered", int, "NDArray[np.int64]")
PIECE, PAIR, APART, NEAR, KIND, PLACE = range(6)
_BEHIND = 3  # words behind a run that ends in a small word
_BEFORE = 6  # word pieces of an order that may stand before its heaviest words
_NEAR = 4  # sentences before and after that are read with a sentence
_SENTENCE = lazy_re.compile(r"(?<=[.!?;:•])\s+|\n")


class Word(NamedTuple):
    """A word piece: its number in the tables, the word that it is of, and where that stands in the text."""

    number: int
    word: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence: the text that it is of (an index), its words, its place (a number), whether it heads the texts."""

    of: int
    words: tuple[Word, ...]
    place: int
    heads: bool


def sentences_of(texts: Iterable[tuple[str, int]], heading: int, names: frozenset[str] = frozenset()) -> list[Sentence]:
    """Cut texts, each with its place, into sentences; ``heading`` is the place of what heads them. ``names`` are those
    of a course: Pin is a girl there, and nothing sharp."""
    return [
        Sentence(of, words, place, place == heading)
        for of, (text, place) in enumerate(texts)
        for words in (_without(_cut(text), names) if names else _cut(text))
    ]


def _without(sentences: Iterable[tuple[Word, ...]], names: frozenset[str]) -> Iterator[tuple[Word, ...]]:
    for words in sentences:
        rest = tuple(word for word in words if word.word not in names)
        if any(word.word[0].isalnum() for word in rest):
            yield rest


@lru_cache(maxsize=1_000)  # two rules read a page
def _cut(text: str) -> tuple[tuple[Word, ...], ...]:
    words = [Word(piece.number, text[piece.start : piece.end], piece.start, piece.end) for piece in pieces_of(text)]
    cuts = [cut.end() for cut in _SENTENCE.finditer(text)]
    found = []
    for start, end in pairwise([0, *cuts, len(text)]):
        own = tuple(word for word in words if start <= word.start < end) if cuts else tuple(words)
        if any(word.word[0].isalnum() for word in own):
            found.append(own)
    return tuple(found)


def near(sentences: Sequence[Sentence]) -> Iterator[list[int]]:
    """For each sentence of a text those that are read with it: what heads the text, those around it, and itself."""
    heads = [at for at, sentence in enumerate(sentences) if sentence.heads]
    for at in range(len(sentences)):
        start = max(at - _NEAR, 0)
        yield [*(head for head in heads if head < start), *range(start, min(at + _NEAR + 1, len(sentences)))]


@lru_cache(maxsize=1_000)
def placed_signs(place: int, kinds: tuple[str, ...]) -> tuple[int, ...]:
    """Where a sentence stands: its place, and the classes of the heading."""
    named = {sign(KIND, piece.number) for kind in kinds for piece in pieces_of(kind)}
    return tuple(sorted({sign(PLACE, place), *named}))


def sign(kind: int, one: Numbered, other: Numbered | int = 0) -> Numbered:
    """The number of a sign: of one, or of many at once."""
    return (kind << 40) | (one << 20) | other


def is_large(word: Word) -> bool:
    """Say whether a word is none of those that only hold others together."""
    return word.word.lower() not in words_in("passed_over")


_APOSTROPHES = frozenset({"'", "’"})


def heaviest(sentence: Sentence, given: Sequence[float]) -> tuple[int, int]:
    """The range of the run of words that adds most to a score, where each word adds what is given."""
    words = sentence.words
    # A small word may stand between others; alone it shows nobody anything.
    counted = [share if is_large(word) else min(share, 0.0) for word, share in zip(words, given, strict=True)]
    usual = sum(abs(share) for share in counted) / len(counted)  # a word that adds less than most ends a run
    best, low, high = -math.inf, 0, 1
    for start, end, total in _runs([share - usual for share in counted]):
        if total > best:
            best, low, high = total, start, end
    low = _from_its_verb(words, low, high)
    high = _to_its_thing(words, low, high)
    while low + 1 < high and not words[low].word[0].isalnum():
        low += 1
    while low + 1 < high and not words[high - 1].word[0].isalnum():
        high -= 1
    while low and _is_of_one(words[low - 1], words[low]):
        low -= 1
    while high < len(words) and _is_of_one(words[high - 1], words[high]):
        high += 1
    return words[low].start, words[high - 1].end


def _is_of_one(left: Word, right: Word) -> bool:
    """Say whether an apostrophe ties two pieces to one word: child's."""
    return left.end == right.start and (left.word in _APOSTROPHES or right.word in _APOSTROPHES)


def _to_its_thing(words: Sequence[Word], low: int, high: int) -> int:
    """Where to end so that what it is done to is told: Boil the water in the `kettle`; Stand on your `chair`."""
    if high - low > 1 and is_large(words[high - 1]):
        return high
    for at in range(high, min(high + _BEHIND, len(words))):
        if not words[at].word[0].isalnum():
            return high
        if is_large(words[at]):
            return at + 1
    return high


def _from_its_verb(words: Sequence[Word], low: int, high: int) -> int:
    """Where to begin so that what is done is told as well: an order begins its clause (`Light the` candle)."""
    for start in range(low, max(low - _BEFORE, 0) - 1, -1):
        if (
            start == 0
            or not words[start - 1].word[0].isalnum()
            or words[start - 1].word.lower() in ("and", "or", "then")
        ):
            return start
    return low


def _runs(shares: Sequence[float]) -> Iterator[tuple[int, int, float]]:
    """The runs that could be the heaviest: each word as an end, with the start that makes most of it."""
    start, total = 0, 0.0
    for end, share in enumerate(shares, start=1):
        if total <= 0:
            start, total = end - 1, 0.0
        total += share
        yield start, end, total
