"""How well words of English go with meanings in plain words: *lantern* with *a lamp that you can carry*.

A learned table (``data/meanings.npz``; ``tests/meanings/train.py`` says from what) has two vectors a word: one for what
is meant, one for a word that tells it. How well a meaning goes with a word is the product of the word's vector and the
sum of those of the meaning's words: a number without a unit, worth something beside others of its exercise only.
"""

from collections.abc import Mapping, Sequence
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from lint_rules.tables import table_path

if TYPE_CHECKING:  # a remembered run does not need numpy
    import numpy as np
    from numpy.typing import NDArray

TABLE, SIZE = "meanings.npz", 64


class _Vectors(NamedTuple):
    """Words, each with the number of its row."""

    rows: Mapping[str, int]
    values: "NDArray[np.float32]"

    def of(self, words: Sequence[str]) -> "NDArray[np.float32]":
        """The sum of the vectors of those words that are known, by the root of how many they are."""
        known = [self.rows[word] for word in words if word in self.rows]
        total: NDArray[np.float32] = self.values[known].sum(0) / max(len(known), 1) ** 0.5
        return total


def is_known(word: Sequence[str], meaning: Sequence[str]) -> bool:
    """Say whether a word, or the words of a compound, and a meaning are known; all in dictionary forms."""
    meant, told = _table()
    return bool(word) and all(one in meant.rows for one in word) and any(one in told.rows for one in meaning)


def fits(words: Sequence[Sequence[str]], meanings: Sequence[Sequence[str]]) -> list[list[float]]:
    """How well each word goes with each meaning: a row a word. All are given in dictionary forms."""
    meant, told = _table()
    return [[float(meant.of(word) @ told.of(meaning)) for meaning in meanings] for word in words]


@cache
def _table() -> tuple[_Vectors, _Vectors]:
    import numpy as np

    with np.load(table_path(TABLE), allow_pickle=False) as stored:

        def vectors(name: str) -> _Vectors:
            words = stored[f"{name}_words"].tobytes().decode().split("\n")
            values = stored[name].astype(np.float32) * stored[f"{name}_scale"].astype(np.float32)
            return _Vectors({word: row for row, word in enumerate(words)}, values)

        return vectors("meant"), vectors("told")
