"""How much an activity's words speak of each hazard: a small learned table, and the words that weighed most.

Signs are word pieces, pairs of them, their places, the kind of the activity, and the sense of all words together (a
static table drawn from an open encoder, so that a word that was never seen weighs as its neighbours do). Two questions
are asked of them: is anything done here that can hurt someone at all, and if so, what. The tables are in
``data/signs.npz``; how they were learned is in ``tests/safety/README.md``. No parser is needed.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lint_rules.manuscript.model import Passage
from lint_rules.safety.activity_text import ActivityText, Place
from lint_rules.safety.word_pieces import pieces_of
from lint_rules.tables import table_path
from lint_rules.tables import words as words_in

Numbers = NDArray[np.float32]
# Where something is done. What is heard, and what the notes say of care, is no sign.
DONE = frozenset({Place.INSTRUCTION, Place.PAGE, Place.STEPS, Place.MATERIALS, Place.LIST})
_KIND, _PIECE, _PAIR, _APART, _PLACED, _PLACE = range(6)
WHAT = 2.5  # how much the second question weighs against the first (chosen on hands that were left out)
SENSE = 0.3  # how much the sense of all words weighs against the single signs (the same)


@dataclass(frozen=True, slots=True)
class Word:
    """A word piece where it stands."""

    number: int
    passage: Passage
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign (its key in the tables) and the words that show it, as indices."""

    key: int
    words: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Signs:
    """All that an activity shows: its words, their signs."""

    words: tuple[Word, ...]
    signs: tuple[Sign, ...]


@dataclass(frozen=True)
class _Tables:
    keys: NDArray[np.int64]
    rarity: Numbers
    weights: Numbers  # a row a sign, a column a hazard; the last asks whether there is any
    bias: Numbers
    sense: Numbers  # a row a word piece
    of_sense: Numbers
    hazards: tuple[str, ...]


def signs_of(text: ActivityText) -> Signs:
    """The signs of an activity."""
    words: list[Word] = []
    signs = [Sign(_key(_KIND, piece.number), ()) for kind in text.kinds for piece in pieces_of(kind)]
    for said in text.said:
        if said.place in DONE:
            first = len(words)
            words += [Word(p.number, said.passage, p.start, p.end) for p in pieces_of(said.passage.text)]
            signs += _of_passage(words, first, said.place)
    return Signs(tuple(words), tuple(signs))


def _of_passage(words: Sequence[Word], first: int, place: Place) -> Iterator[Sign]:
    here = range(first, len(words))
    yield Sign(_key(_PLACE, int(place)), ())
    large = [at for at in here if is_large(words[at])]
    for at in here:
        yield Sign(_key(_PIECE, words[at].number), (at,))
        yield Sign(_key(_PLACED, words[at].number, int(place)), (at,))
    for kind, row in ((_PAIR, list(here)), (_APART, large)):
        for one, other in pairwise(row):
            yield Sign(_key(kind, words[one].number, words[other].number), (one, other))


def is_large(word: Word) -> bool:
    """Say whether a word is none of those that only hold others together."""
    return word.passage.text[word.start : word.end].lower() not in words_in("passed_over")


def _key(kind: int, one: int, other: int = 0) -> int:
    return (kind << 40) | (one << 20) | other


@dataclass(frozen=True)
class Weighed:
    """What the tables say of an activity: a score for each hazard, and how much each sign adds to it."""

    signs: Signs
    scores: Numbers
    known: tuple[tuple[Sign, int, float], ...]  # signs that the tables have: row, value

    def words_for(self, hazard: str) -> list[float]:
        """What each word adds to a hazard's score."""
        tables = _tables()
        column = tables.hazards.index(hazard)
        shares = np.zeros(len(self.signs.words))
        others = tables.weights[:, :-1].mean(axis=1)
        for sign, row, value in self.known:
            weight = WHAT * (tables.weights[row, column] - others[row]) + tables.weights[row, -1]
            for at in sign.words:
                shares[at] += float(weight) * value / len(sign.words)
        return [float(share) for share in shares]


def weigh(text: ActivityText) -> Weighed:
    """Weigh an activity's signs."""
    tables = _tables()
    signs = signs_of(text)
    values, rows = vector(signs)
    total = (tables.weights[rows] * values[:, None]).sum(axis=0) + tables.bias
    total = total + SENSE * sense_of(signs, tables.sense) @ tables.of_sense
    what = total[:-1] - total[:-1].max()
    what -= np.log(np.exp(what).sum())
    scores = np.round(total[-1] + WHAT * what, 2)
    by_row = dict(zip(rows.tolist(), values.tolist(), strict=True))
    counts = Counter(sign.key for sign in signs.signs)
    found = []
    for sign in signs.signs:
        row = _row(sign.key)
        if row is not None:
            found.append((sign, row, by_row[row] / counts[sign.key]))
    return Weighed(signs, np.asarray(scores, dtype=np.float32), tuple(found))


def hazard_ids() -> tuple[str, ...]:
    """The hazards that the tables know, in the order of the scores."""
    return _tables().hazards


def vector(signs: Signs) -> tuple[Numbers, NDArray[np.int64]]:
    """The signs that the tables know, as values of length one, and their rows."""
    tables = _tables()
    counts = Counter(row for sign in signs.signs if (row := _row(sign.key)) is not None)
    rows = np.array(sorted(counts), dtype=np.int64)
    values = np.array([1 + math.log(counts[row]) for row in rows.tolist()], dtype=np.float32)
    values *= tables.rarity[rows]
    length = float(np.sqrt((values * values).sum()))
    return (values / length if length else values), rows


def sense_of(signs: Signs, table: Numbers) -> Numbers:
    """The sense of all words together, of length one."""
    total = table[[word.number for word in signs.words]].sum(axis=0) if signs.words else np.zeros(table.shape[1])
    return np.asarray(total / (np.linalg.norm(total) + 1e-9), dtype=np.float32)


@cache
def _rows() -> dict[int, int]:
    return {key: row for row, key in enumerate(_tables().keys.tolist())}


def _row(key: int) -> int | None:
    return _rows().get(key)


@cache
def _tables() -> _Tables:
    with np.load(table_path("signs.npz"), allow_pickle=False) as stored:

        def whole(name: str) -> Numbers:
            return np.asarray(stored[name].astype(np.float32) * stored[f"{name}.scale"].astype(np.float32))

        hazards: Any = stored["hazards"]
        return _Tables(
            stored["keys"],
            stored["rarity"].astype(np.float32),
            whole("weights"),
            stored["bias"].astype(np.float32),
            whole("sense"),
            stored["of_sense"].astype(np.float32),
            tuple(str(name) for name in hazards),
        )
