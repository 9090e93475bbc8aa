"""Learned tables: what weight each sign of a sentence has for each of a table's columns, and the sense of its words.

A table is a file of plain numbers in ``data``: a row a sign, a column a hazard, a care or a topic. Beside the signs
the sense of all words together is weighed (``senses.npz``, a static table drawn from an open sentence encoder, so that
a word that was never seen weighs as its neighbours do). How the tables were learned is in ``tests/safety/README.md``.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from lint_rules.safety.signs import Sentence, Sign, near, near_signs, own_signs, placed_signs
from lint_rules.tables import table_path

Numbers = NDArray[np.float32]
# How much what stands beside the own signs of a sentence (of length one) weighs. Chosen on hands that were left out.
NEARBY, PLACED, SENSE, SENSE_NEARBY = 1.0, 0.3, 0.5, 0.3
ANY = "any"  # the last column of a table whose columns compete: does a sentence show any of them at all?
_ANY_COUNTS = 0.5  # how much that question weighs beside the one for a column


@dataclass(frozen=True)
class Table:
    """A learned table: its columns' names, and a row of weights for each sign (``keys``, sorted)."""

    names: tuple[str, ...]
    keys: NDArray[np.int64]
    rarity: Numbers
    weights: NDArray[np.int8]
    scale: Numbers
    bias: Numbers
    of_sense: Numbers  # rows: the sense of a sentence, then that of the sentences near it
    reads_near: bool


@dataclass(frozen=True, slots=True)
class Shown:
    """What a sentence shows: its own signs, how often it and those near it show each, and what they mean."""

    words: int
    own: tuple[Sign, ...]
    counts: tuple[Mapping[int, int], Mapping[int, int], Mapping[int, int]]
    sense: Numbers


def shown(sentences: Sequence[Sentence], kinds: Iterable[str], *, reads_near: bool) -> list[Shown]:
    """What each sentence of a text shows."""
    kinds = tuple(kinds)
    meant = [_unit(_senses()[[word.number for word in one.words]].sum(axis=0)) for one in sentences]
    found = []
    for at, sentence in enumerate(sentences):
        own = tuple(own_signs(sentence))
        around = near(sentences, at) if reads_near else []
        beside = _unit(np.sum([meant[other] for other in around], axis=0)) if around else np.zeros_like(meant[at])
        counts = (
            Counter(sign.key for sign in own),
            near_signs(sentences, around),
            placed_signs(sentence, kinds),
        )
        found.append(
            Shown(len(sentence.words), own, counts, np.concatenate([SENSE * meant[at], SENSE_NEARBY * beside]))
        )
    return found


def values_of(one: Shown, keys: NDArray[np.int64], rarity: Numbers) -> tuple[NDArray[np.int64], Numbers]:
    """The rows of a table that a sentence shows, and how strongly."""
    own, beside, placed = one.counts
    parts = [_rows(own, keys, rarity, 1.0), _rows(beside, keys, rarity, NEARBY)]
    rows, _ = _rows(placed, keys, rarity, 1.0)
    parts.append((rows, np.full(len(rows), PLACED, dtype=np.float32)))
    return np.concatenate([rows for rows, _ in parts]), np.concatenate([values for _, values in parts])


def weigh(table: Table, said: Sequence[Shown]) -> Numbers:
    """The scores of sentences: a row a sentence, a column a name of the table."""
    scores = np.empty((len(said), len(table.names)), dtype=np.float32)
    for at, one in enumerate(said):
        rows, values = values_of(one, table.keys, table.rarity)
        scores[at] = (values @ table.weights[rows].astype(np.float32)) * table.scale
        scores[at] += one.sense @ table.of_sense + table.bias
    return scores


def competing(scores: Numbers) -> Numbers:
    """Let the columns of a table compete in each sentence (what could be anything is nothing for sure); ANY is gone."""
    each, any_ = scores[:, :-1], scores[:, -1:]
    top = each.max(axis=1, keepdims=True)
    all_ = top + np.log(np.exp(each - top).sum(axis=1, keepdims=True))
    return np.asarray(np.round(2 * each - all_ + _ANY_COUNTS * any_, 2), dtype=np.float32)


def shares(table: Table, one: Shown, column: int) -> list[float]:
    """What each of the words of a sentence adds to the score of a competing column."""
    of = np.full(len(table.names), -1 / (len(table.names) - 1), dtype=np.float32)
    of[column], of[-1] = 2.0, _ANY_COUNTS
    found = np.zeros(one.words)
    rows, values = _rows(one.counts[0], table.keys, table.rarity, 1.0)
    by_key = dict(zip(table.keys[rows].tolist(), zip(rows.tolist(), values.tolist(), strict=True), strict=True))
    for sign in one.own:
        if sign.key in by_key:
            row, value = by_key[sign.key]
            share = float((table.weights[row] * table.scale) @ of) * value / one.counts[0][sign.key]
            for at in sign.words:
                found[at] += share / len(sign.words)
    return [float(share) for share in found]


def _rows(
    counts: Mapping[int, int], keys: NDArray[np.int64], rarity: Numbers, length: float
) -> tuple[NDArray[np.int64], Numbers]:
    """Signs that a table has, as rows and as values of this length together."""
    asked = np.fromiter(counts.keys(), dtype=np.int64, count=len(counts))
    rows = np.minimum(np.searchsorted(keys, asked), len(keys) - 1)
    had = keys[rows] == asked
    many = np.fromiter(counts.values(), dtype=np.float32, count=len(counts))[had]
    values = (1 + np.log(many)) * rarity[rows[had]]
    norm = np.sqrt((values * values).sum())
    return rows[had], np.asarray(length * values / norm if norm else values, dtype=np.float32)


def _unit(vector: Numbers) -> Numbers:
    return np.asarray(vector / (np.linalg.norm(vector) + 1e-9), dtype=np.float32)


@cache
def _senses() -> Numbers:
    with np.load(table_path("senses.npz"), allow_pickle=False) as stored:
        return np.asarray(stored["senses"].astype(np.float32) * stored["scale"].astype(np.float32))


@cache
def table(name: str) -> Table:
    """The table ``data/<name>.npz``."""
    with np.load(table_path(f"{name}.npz"), allow_pickle=False) as stored:
        return Table(
            names=tuple(str(one) for one in stored["names"].tolist()),
            keys=stored["keys"],
            rarity=stored["rarity"].astype(np.float32),
            weights=stored["weights"],
            scale=stored["scale"].astype(np.float32),
            bias=stored["bias"].astype(np.float32),
            of_sense=stored["of_sense"].astype(np.float32),
            reads_near=bool(stored["reads_near"]),
        )
