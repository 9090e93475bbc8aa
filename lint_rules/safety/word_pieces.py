"""Words cut into the pieces that the sense tables know, each with its range of the text.

The pieces are those of an open encoder's vocabulary, cut down to what course texts need; ``data/word_pieces.txt`` says
whose. A word that is no piece itself is cut greedily from its start, as that vocabulary is meant to be used. There `-`
stands before a piece that goes on with a word (`-ing`).
"""

import re
import unicodedata
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import NamedTuple

from lint_rules.tables import entries

_WORD = re.compile(r"[^\W_]+|[^\w\s]|_+")
_LONGEST = 40  # letters; no word of a course is longer
UNKNOWN, OPENING = "[UNK]", "[CLS]"


class Piece(NamedTuple):
    """A piece of a word: its number in the tables, and the range of the whole word in the text."""

    number: int
    start: int
    end: int


def pieces_of(text: str) -> list[Piece]:
    """The pieces of a text."""
    return [
        Piece(number, match.start(), match.end())
        for match in _WORD.finditer(text)
        for number in _numbers(match.group().lower())
    ]


def number_of(piece: str) -> int:
    """The number of a piece that the vocabulary is sure to have."""
    return _vocabulary()[piece]


@lru_cache(maxsize=20_000)
def _numbers(word: str) -> tuple[int, ...]:
    known = _vocabulary()
    plain = "".join(
        char
        for char in unicodedata.normalize("NFD", "_" if word[0] == "_" else word)
        if not unicodedata.combining(char)
    )
    found: list[int] = []
    start = 0
    while start < len(plain) <= _LONGEST:
        mark = "-" if start else ""
        end = next((end for end in range(len(plain), start, -1) if mark + plain[start:end] in known), None)
        if end is None:
            break
        found.append(known[mark + plain[start:end]])
        start = end
    return tuple(found) if found and start == len(plain) else (known[UNKNOWN],)


@cache
def _vocabulary() -> Mapping[str, int]:
    return {piece: number for number, piece in enumerate(entries("word_pieces.txt"))}
