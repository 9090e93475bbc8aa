"""What a sentence shows of its meaning without a parser: word pieces, pairs of them, and the words around it.

A sign is a number: a kind, and one or two word pieces (or a place, or a class of the heading). Learned tables
(``learned``) give each sign a weight. A sentence is read by itself, so that one dangerous act among harmless steps
weighs whole; the words of the heading and of the sentences near it stand beside it as signs of their own, because they
tell a mime, a tale or a picture card from the thing itself.
"""

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lint_rules.safety.word_pieces import pieces_of
from lint_rules.tables import words as words_in

if TYPE_CHECKING:  # a remembered run does not need numpy
    import numpy as np
    from numpy.typing import NDArray

PIECE, PAIR, APART, NEAR, KIND, PLACE = range(6)
_BEFORE = 4  # word pieces of an order that may stand before its heaviest word
_NEAR = 4  # sentences before and after that are read with a sentence
_SENTENCE = re.compile(r"(?<=[.!?;:•])\s+|\n")


@dataclass(frozen=True, slots=True)
class Word:
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


def sentences_of(texts: Iterable[tuple[str, int]], heading: int) -> list[Sentence]:
    """Cut texts, each with its place, into sentences; ``heading`` is the place of what heads them."""
    found = []
    for of, (text, place) in enumerate(texts):
        words = [Word(piece.number, text[piece.start : piece.end], piece.start, piece.end) for piece in pieces_of(text)]
        cuts = [cut.end() for cut in _SENTENCE.finditer(text)]
        for start, end in pairwise([0, *cuts, len(text)]):
            own = tuple(word for word in words if start <= word.start < end)
            if any(word.word[0].isalnum() for word in own):
                found.append(Sentence(of, own, place, place == heading))
    return found


def own_signs(sentence: Sentence) -> list[tuple[int, tuple[int, ...]]]:
    """The signs of a sentence's own words, each with the words that show it (indices): each piece, and each pair.

    A pair stands together, or with nothing but small words between.
    """
    words = sentence.words
    found: list[tuple[int, tuple[int, ...]]] = [(_key(PIECE, word.number), (at,)) for at, word in enumerate(words)]
    large = [at for at, word in enumerate(words) if is_large(word)]
    for kind, row in ((PAIR, range(len(words))), (APART, large)):
        found += [(_key(kind, words[one].number, words[other].number), (one, other)) for one, other in pairwise(row)]
    return found


def near(sentences: Sequence[Sentence], at: int) -> list[int]:
    """The sentences that are read with one: what heads the text, those around it, and itself."""
    return [
        other for other, sentence in enumerate(sentences) if abs(other - at) <= _NEAR or (sentence.heads and other < at)
    ]


def near_signs(pieces: "NDArray[np.int64]") -> "NDArray[np.int64]":
    """The signs of word pieces that stand in a sentence near by."""
    return (NEAR << 40) | (pieces << 20)


def placed_signs(sentence: Sentence, kinds: Iterable[str]) -> list[int]:
    """Where a sentence stands: its place, and the classes of the heading."""
    named = {_key(KIND, piece.number) for kind in kinds for piece in pieces_of(kind)}
    return sorted({_key(PLACE, sentence.place), *named})


def is_large(word: Word) -> bool:
    """Say whether a word is none of those that only hold others together."""
    return word.word.lower() not in words_in("passed_over")


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
    while low + 1 < high and not words[low].word[0].isalnum():
        low += 1
    while low + 1 < high and not words[high - 1].word[0].isalnum():
        high -= 1
    return words[low].start, words[high - 1].end


def _from_its_verb(words: Sequence[Word], low: int, high: int) -> int:
    """Where to begin so that one word alone is not all: an order begins its clause (`Light the` candle)."""
    if len({word.start for word in words[low:high] if is_large(word)}) > 1:
        return low
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


def _key(kind: int, one: int, other: int = 0) -> int:
    return (kind << 40) | (one << 20) | other
