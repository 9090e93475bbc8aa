"""Learned tables: what weight each sign of a sentence has for each of a table's columns, and the sense of its words.

A table is a file of plain numbers in ``data``: a row a sign, a column a hazard, a care or a topic. Beside the signs
the sense of all words together is weighed (``senses.npz``, a static table drawn from an open sentence encoder, so that
a word that was never seen weighs as its neighbours do). How the tables were learned is in ``tests/safety/README.md``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from lint_rules.safety.signs import APART, NEAR, PAIR, PIECE, Sentence, is_large, near, placed_signs, sign
from lint_rules.tables import table_path

Numbers = NDArray[np.float32]
Whole = NDArray[np.int64]
Text = tuple[Sequence[Sentence], Sequence[str]]  # the sentences of a text, and the classes of its heading
# How much what stands beside the own signs of a sentence (of length one) weighs. Chosen on hands that were left out.
NEARBY, PLACED, SENSE, SENSE_NEARBY = 1.0, 0.3, 0.5, 0.3
ANY = "any"  # the last column of a table whose columns compete: does a sentence show any of them at all?
_AT_ONCE = 100  # sentences that are weighed at once: more are no faster, and take memory
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
class Signs:
    """Signs that sentences show: the sentence, the sign (sorted within a sentence), and how often it is shown there."""

    of: Whole
    keys: Whole
    times: Numbers


@dataclass(frozen=True, slots=True)
class Shown:
    """What sentences show: signs of themselves, of those near them, of their places; and what they mean (rows)."""

    own: Signs
    near: Signs
    placed: Signs
    sense: Numbers


def shown(texts: Sequence[Text], *, reads_near: bool) -> Shown:
    """What the sentences of some texts show, one after the other. Many texts at once are read much faster."""
    sentences = [one for text, _ in texts for one in text]
    many = np.array([len(one.words) for one in sentences], dtype=np.int64)
    pieces = np.array([word.number for one in sentences for word in one.words], dtype=np.int64)
    own = _own_signs(sentences)[:2]
    placed = [placed_signs(one.place, tuple(kinds)) for text, kinds in texts for one in text]
    meant = _of_length_one(_sums(_senses()[pieces], many))
    if reads_near:
        of, others = _near(texts)
        beside, meaning = _pieces_of(others, pieces, many), _of_length_one(_sums(meant[others], np.bincount(of)))
        around = _counted(np.repeat(of, many[others]), sign(NEAR, beside))
    else:
        around, meaning = _counted(pieces[:0], pieces[:0]), np.zeros_like(meant)
    return Shown(
        _counted(*own),
        around,
        _counted(_numbered([len(signs) for signs in placed]), np.array([one for signs in placed for one in signs])),
        np.concatenate([SENSE * meant, SENSE_NEARBY * meaning], axis=1),
    )


def _own_signs(sentences: Sequence[Sentence]) -> tuple[Whole, Whole, Whole, Whole]:
    """The signs of sentences' own words: the sentence, the sign, and the two words that show it (counted through).

    A sign is each piece (then the two words are the same one), and each pair: pieces that stand together, or with
    nothing but small words between.
    """
    pieces = np.array([word.number for one in sentences for word in one.words], dtype=np.int64)
    of = _numbered([len(one.words) for one in sentences])
    at = np.arange(len(pieces))
    large = np.nonzero([is_large(word) for one in sentences for word in one.words])[0]
    found = [(of, sign(PIECE, pieces), at, at)]
    for kind, row in ((PAIR, at), (APART, large)):
        one, other = row[:-1], row[1:]
        together = of[one] == of[other]
        one, other = one[together], other[together]
        found.append((of[one], sign(kind, pieces[one], pieces[other]), one, other))
    first, second, third, fourth = (np.concatenate(parts) for parts in zip(*found, strict=True))
    return first, second, third, fourth


def _near(texts: Sequence[Text]) -> tuple[Whole, Whole]:
    """The sentences that are read with each: a row a pair, the sentence and the other one."""
    of: list[int] = []
    others: list[int] = []
    start = 0
    for sentences, _ in texts:
        for at, around in enumerate(near(sentences), start):
            of += [at] * len(around)
            others += [start + other for other in around]
        start += len(sentences)
    return np.array(of, dtype=np.int64), np.array(others, dtype=np.int64)


def _pieces_of(sentences: Whole, pieces: Whole, many: Whole) -> Whole:
    """The pieces of these sentences, one after the other, where the n-th sentence of all has so many of all pieces."""
    starts, wanted = (np.cumsum(many) - many)[sentences], many[sentences]
    return np.asarray(pieces[np.repeat(starts - (np.cumsum(wanted) - wanted), wanted) + np.arange(wanted.sum())])


def values_of(said: Shown, keys: Whole, rarity: Numbers) -> tuple[Whole, Numbers, Whole]:
    """The rows of a table that sentences show, how strongly, and how many rows each sentence has."""
    blocks = [_block(said.own, keys, rarity, 1.0), _block(said.near, keys, rarity, NEARBY)]
    rows, values, of = _block(said.placed, keys, rarity, 1.0)
    blocks.append((rows, np.full(len(values), PLACED, dtype=np.float32), of))
    rows, values, of = (np.concatenate(parts) for parts in zip(*blocks, strict=True))
    order = np.argsort(of, kind="stable")
    return rows[order], values[order], np.bincount(of, minlength=len(said.sense))


def weigh(table: Table, said: Shown) -> Numbers:
    """The scores of sentences: a row a sentence, a column a name of the table."""
    rows, values, many = values_of(said, table.keys, table.rarity)
    weighed = table.weights[rows] * values[:, None]
    return np.asarray(_sums(weighed, many) * table.scale + said.sense @ table.of_sense + table.bias)


def competing(scores: Numbers) -> Numbers:
    """Let the columns of a table compete in each sentence (what could be anything is nothing for sure); ANY is gone."""
    each, any_ = scores[:, :-1], scores[:, -1:]
    top = each.max(axis=1, keepdims=True)
    all_ = top + np.log(np.exp(each - top).sum(axis=1, keepdims=True))
    return np.asarray(np.round(2 * each - all_ + _ANY_COUNTS * any_, 2), dtype=np.float32)


def scores_of_texts(table: Table, texts: Sequence[Text]) -> Iterator[Numbers]:
    """The competing scores of each text: a row a sentence, a column a name of the table."""
    waiting: list[Text] = []
    for text in texts:
        waiting.append(text)
        if sum(len(sentences) for sentences, _ in waiting) >= _AT_ONCE:
            yield from _scores(table, waiting)
            waiting = []
    yield from _scores(table, waiting)


def _scores(table: Table, texts: Sequence[Text]) -> Sequence[Numbers]:
    if not any(sentences for sentences, _ in texts):
        return [np.zeros((0, len(table.names) - 1), dtype=np.float32)] * len(texts)
    scores = competing(weigh(table, shown(texts, reads_near=table.reads_near)))
    return np.split(scores, np.cumsum([len(sentences) for sentences, _ in texts])[:-1])


def shares(table: Table, sentence: Sentence, column: int) -> list[float]:
    """What each of the words of a sentence adds to the score of a competing column."""
    of = np.full(len(table.names), -1 / (len(table.names) - 1), dtype=np.float32)
    of[column], of[-1] = 2.0, _ANY_COUNTS
    whose, keys, *words = _own_signs([sentence])
    own = _counted(whose, keys)
    rows, values, _ = _block(own, table.keys, table.rarity, 1.0)
    share = dict(zip(table.keys[rows].tolist(), ((table.weights[rows] * table.scale) @ of) * values, strict=True))
    many = dict(zip(own.keys.tolist(), own.times.tolist(), strict=True))
    found = np.zeros(len(sentence.words))
    for key, one, other in zip(keys.tolist(), *words, strict=True):
        for word in (one, other):
            found[word] += share.get(key, 0.0) / many[key] / 2
    return [float(share) for share in found]


def _counted(of: Whole, signs: Whole) -> Signs:
    both, times = np.unique((of << 43) | signs, return_counts=True)  # a sign has 43 bits
    return Signs(both >> 43, both & ((1 << 43) - 1), times.astype(np.float32))


def _block(signs: Signs, keys: Whole, rarity: Numbers, length: float) -> tuple[Whole, Numbers, Whole]:
    """Signs that a table has: rows, values of this length together in each sentence, and the sentences."""
    rows = np.minimum(np.searchsorted(keys, signs.keys), len(keys) - 1)
    had = keys[rows] == signs.keys
    rows, of = rows[had], signs.of[had]
    values = (1 + np.log(signs.times[had])) * rarity[rows]
    norms = np.sqrt(np.bincount(of, weights=values * values))
    return rows, np.asarray(length * values / np.maximum(norms[of], 1e-9), dtype=np.float32), of


def _numbered(many: Sequence[int]) -> Whole:
    """The number of each group, once for each that is in it."""
    return np.repeat(np.arange(len(many)), many)


def _sums(rows: Numbers, many: Whole) -> Numbers:
    """The sum of the first so many rows, of the next so many, and so on."""
    sums = np.zeros((len(many), rows.shape[1]), dtype=np.float32)
    has = np.nonzero(many)[0]
    if len(has):
        sums[has] = np.add.reduceat(rows, (np.cumsum(many) - many)[has], axis=0)
    return sums


def _of_length_one(rows: Numbers) -> Numbers:
    return np.asarray(rows / (np.linalg.norm(rows, axis=1, keepdims=True) + 1e-9), dtype=np.float32)


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
