"""Words cut into the pieces that the learned tables know, each with its range of the text.

The pieces are those of an open encoder's vocabulary, cut down to what course texts need; ``data/word_pieces.txt`` says
whose. A word that is no piece itself is cut greedily from its start, as that vocabulary is meant to be used. There `-`
stands before a piece that goes on with a word (`-ing`).
"""

import unicodedata
from collections.abc import Container, Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from lint_rules import lazy_re
from lint_rules.tables import entries

WORD = lazy_re.compile(r"[^\W_]+|[^\w\s]|_+")
_LONGEST = 40  # letters; no word of a course is longer
_UNKNOWN = "[UNK]"


class Piece(NamedTuple):
    """A piece of a word: its number in the tables, and the range of the whole word in the text."""

    number: int
    start: int
    end: int


def pieces_of(text: str) -> list[Piece]:
    """The pieces of a text."""
    return [
        Piece(number, match.start(), match.end())
        for match in WORD.finditer(text)
        for number in _numbers(match.group().lower())
    ]


@lru_cache(maxsize=20_000)
def _numbers(word: str) -> tuple[int, ...]:
    known = _vocabulary()
    return tuple(known[piece] for piece in cut(word, known, "-")) or (known[_UNKNOWN],)


def cut(word: str, known: Container[str], goes_on: str) -> tuple[str, ...]:
    """A word in lower case as known pieces, greedily from its start (none where it cannot be cut).

    ``goes_on`` stands before a piece that goes on with a word.
    """
    plain = "_" if word[0] == "_" else word
    if not plain.isascii():
        plain = "".join(char for char in unicodedata.normalize("NFD", plain) if not unicodedata.combining(char))
    found: list[str] = []
    start = 0
    while start < len(plain) <= _LONGEST:
        mark = goes_on if start else ""
        end = next((end for end in range(len(plain), start, -1) if mark + plain[start:end] in known), None)
        if end is None:
            return ()
        found.append(mark + plain[start:end])
        start = end
    return tuple(found)


@cache
def _vocabulary() -> Mapping[str, int]:
    return {piece: number for number, piece in enumerate(entries("word_pieces.txt"))}
