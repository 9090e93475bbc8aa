"""Learned tables: what weight each sign of a sentence has for each of a table's columns, and the sense of its words.

A table is a file of plain numbers in ``data``: a row a sign, a column a hazard, a care or a topic. Beside the signs
the sense of all words together is weighed (``senses.npz``, a static table drawn from an open sentence encoder, so that
a word that was never seen weighs as its neighbours do). How the tables were learned is in ``tests/safety/README.md``.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from lint_rules.safety.signs import Sentence, near, near_signs, own_signs, placed_signs
from lint_rules.tables import table_path

Numbers = NDArray[np.float32]
Counted = tuple[NDArray[np.int64], Numbers]  # signs, sorted, and how often each
_NONE: Counted = (np.array([], dtype=np.int64), np.array([], dtype=np.float32))
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
    """What a sentence shows: signs and how often, of itself, of those near it, of its place; and what they mean."""

    own: Counted
    near: Counted
    placed: Counted
    sense: Numbers


def shown(sentences: Sequence[Sentence], kinds: Iterable[str], *, reads_near: bool) -> list[Shown]:
    """What each sentence of a text shows."""
    kinds = tuple(kinds)
    pieces = [np.array([word.number for word in one.words], dtype=np.int64) for one in sentences]
    meant = [_unit(_senses()[numbers].sum(axis=0)) for numbers in pieces]
    found = []
    for at, sentence in enumerate(sentences):
        own = _counted(np.array([key for key, _ in own_signs(sentence)], dtype=np.int64))
        around = near(sentences, at) if reads_near else []
        beside, meaning = _NONE, np.zeros_like(meant[at])
        if around:
            numbers, many = _counted(np.concatenate([pieces[other] for other in around]))
            beside = (near_signs(numbers), many)
            meaning = _unit(np.sum([meant[other] for other in around], axis=0))
        placed = _counted(np.array(placed_signs(sentence, kinds), dtype=np.int64))
        found.append(Shown(own, beside, placed, np.concatenate([SENSE * meant[at], SENSE_NEARBY * meaning])))
    return found


def values_of(
    said: Sequence[Shown], keys: NDArray[np.int64], rarity: Numbers
) -> tuple[NDArray[np.int64], Numbers, NDArray[np.int64]]:
    """The rows of a table that sentences show, how strongly, and how many rows each sentence has."""
    blocks = [_block([one.own for one in said], keys, rarity, 1.0)]
    blocks.append(_block([one.near for one in said], keys, rarity, NEARBY))
    rows, values, of = _block([one.placed for one in said], keys, rarity, 1.0)
    blocks.append((rows, np.full(len(values), PLACED, dtype=np.float32), of))
    rows, values, of = (np.concatenate(parts) for parts in zip(*blocks, strict=True))
    order = np.argsort(of, kind="stable")
    return rows[order], values[order], np.bincount(of, minlength=len(said))


def weigh(table: Table, said: Sequence[Shown]) -> Numbers:
    """The scores of sentences: a row a sentence, a column a name of the table."""
    rows, values, many = values_of(said, table.keys, table.rarity)
    weighed = table.weights[rows] * values[:, None]
    scores = np.zeros((len(said), len(table.names)), dtype=np.float32)
    has = np.nonzero(many)[0]
    if len(has):
        scores[has] = np.add.reduceat(weighed, (np.cumsum(many) - many)[has], axis=0)
    return np.asarray(scores * table.scale + np.array([one.sense for one in said]) @ table.of_sense + table.bias)


def competing(scores: Numbers) -> Numbers:
    """Let the columns of a table compete in each sentence (what could be anything is nothing for sure); ANY is gone."""
    each, any_ = scores[:, :-1], scores[:, -1:]
    top = each.max(axis=1, keepdims=True)
    all_ = top + np.log(np.exp(each - top).sum(axis=1, keepdims=True))
    return np.asarray(np.round(2 * each - all_ + _ANY_COUNTS * any_, 2), dtype=np.float32)


def shares(table: Table, one: Shown, sentence: Sentence, column: int) -> list[float]:
    """What each of the words of a sentence adds to the score of a competing column."""
    of = np.full(len(table.names), -1 / (len(table.names) - 1), dtype=np.float32)
    of[column], of[-1] = 2.0, _ANY_COUNTS
    found = np.zeros(len(sentence.words))
    rows, values, _ = _block([one.own], table.keys, table.rarity, 1.0)
    value = dict(zip(table.keys[rows].tolist(), zip(rows.tolist(), values.tolist(), strict=True), strict=True))
    many = dict(zip(*(part.tolist() for part in one.own), strict=True))
    for key, words in own_signs(sentence):
        if key in value:
            row, strength = value[key]
            share = float((table.weights[row] * table.scale) @ of) * strength / many[key]
            found[list(words)] += share / len(words)
    return [float(share) for share in found]


def _counted(signs: NDArray[np.int64]) -> Counted:
    keys, many = np.unique(signs, return_counts=True)
    return keys, many.astype(np.float32)


def _block(
    counted: Sequence[Counted], keys: NDArray[np.int64], rarity: Numbers, length: float
) -> tuple[NDArray[np.int64], Numbers, NDArray[np.int64]]:
    """Signs that a table has: rows, values of this length together in each sentence, and the sentences."""
    asked = np.concatenate([signs for signs, _ in counted])
    many = np.concatenate([times for _, times in counted])
    of = np.repeat(np.arange(len(counted)), [len(signs) for signs, _ in counted])
    rows = np.minimum(np.searchsorted(keys, asked), len(keys) - 1)
    had = keys[rows] == asked
    rows, of = rows[had], of[had]
    values = (1 + np.log(many[had])) * rarity[rows]
    norms = np.sqrt(np.bincount(of, weights=values * values, minlength=len(counted)))
    return rows, np.asarray(length * values / np.maximum(norms[of], 1e-9), dtype=np.float32), of


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
