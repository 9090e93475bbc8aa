"""The labelled texts of this folder as sentences, each with what it was labelled with: for training and measuring."""

import json
import random
import re
from array import array
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

from lint_rules.manuscript.counting import SENTENCE_ROLES, is_for_children
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.manuscript.reading import read_unit
from lint_rules.safety.activity_text import ActivityText, Place, activity_texts
from lint_rules.safety.acts import CARES, DONE
from lint_rules.safety.sensitive_topics import listed
from lint_rules.safety.signs import Sentence, sentences_of
from lint_rules.source import Source, Span

HERE = Path(__file__).parent
ACTIVITIES = HERE / "activities"
HELD_BACK = {"hand-12", "hand-13"}
TAUGHT = [path for path in sorted(ACTIVITIES.glob("hand-*.jsonl")) if path.stem not in HELD_BACK]
# Courses that were read for hazards; the later ones of tests/judged have acts without a note on purpose.
_READ_FOR_HAZARDS = ("boathouse-lab", "button-mill", "button-theatre", "ferry-log", "little-plum", "marrow-files")
COURSES = [HERE.parents[1] / "example_manuscript", *(HERE.parent / "judged" / name for name in _READ_FOR_HAZARDS)]
FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A\n\n"
_PLACES = {
    "instruction": Place.INSTRUCTION,
    "page": Place.PAGE,
    "steps": Place.STEPS,
    "materials": Place.MATERIALS,
    "safety": Place.SAFETY,
}
_LETTERS = {"i": Place.INSTRUCTION, "p": Place.PAGE, "t": Place.STEPS, "m": Place.MATERIALS}
_HEADS = ("Make and say.", "Play the game.", "Let's do it!", "Do and say.", "Work with a partner.", "Now you!")
_ACTING = ("make", "game", "speaking")
_QUIET = (*_ACTING, "listening", "story", "reading", "song")
_LISTED = (
    "…",
    "…, card, crayons",
    "paper, …, string",
    "- …",
    "… and paper",
    "… for each child",
    "a …, tape",
    "…; pens",
)
Marks = list[tuple[str, int, int]]  # name, start, end in a passage


@dataclass
class Labelled:
    """A text: its sentences, and beside each the names that its words were labelled with.

    ``labels`` are those of the whole text (a hazard with its care), ``disputed`` those of which no reading says where
    their words stand: they teach nothing.
    """

    id: str
    hand: str
    kinds: tuple[str, ...]
    sentences: list[Sentence]
    marked: list[set[str]]
    texts: list[str]
    labels: dict[str, str]
    weight: float = 1.0
    disputed: set[str] = field(default_factory=set)


def lines_of(path: Path) -> Iterator[str]:
    """The lines of a file but for comments."""
    yield from (line for line in path.read_text("utf-8").splitlines() if line.strip() and line[0] != "#")


def passage(text: str) -> Passage:
    """A passage that stands nowhere."""
    return Passage(text, array("i"), array("i"), Audience.PUPIL, Role.TEXT, Span(0, 0))


def labelled(said: Iterable[tuple[Passage, Place, Marks]], places: frozenset[Place], **rest: Any) -> Labelled:
    """Cut what is said in these places into sentences, and give each the marks that touch it."""
    wanted = [(one.text, place, marks) for one, place, marks in said if place in places]
    sentences = sentences_of([(text, int(place)) for text, place, _ in wanted], int(Place.INSTRUCTION))
    marked = []
    for sentence in sentences:
        first, last = sentence.words[0].start, sentence.words[-1].end
        marked.append({name for name, start, end in wanted[sentence.of][2] if start < last and end > first})
    return Labelled(sentences=sentences, marked=marked, texts=[text for text, _, _ in wanted], **rest)


def activities(hands: Iterable[Path], *, care: bool) -> Iterator[Labelled]:
    """Activities of several hands, marked with what is done in them, or else with the care that is taken."""
    for path in hands:
        for row in settled_rows(path):
            labels = {one["hazard"]: one["care"] for one in row["hazards"]}
            bare = {
                one["hazard"] for one in row["hazards"] if one["care"] == "sufficient" and not one.get("care_words")
            }
            yield _activity(row, labels, care, hand=path.stem, disputed=bare if care else set())


def settled_rows(path: Path) -> Iterator[dict[str, Any]]:
    """The activities of a hand; where two readers differ on a hazard or its care, a third one's word counts."""
    settled = _third_readings()
    for row in map(json.loads, path.read_text("utf-8").splitlines()):
        labels = {one["hazard"]: one for one in row["hazards"]}
        for one in settled.get(row["id"], ()):
            before = labels.pop(one["hazard"], {})
            if one["real"]:
                labels[one["hazard"]] = {**one, **before, "care": one["care"]}
        yield row | {"hazards": list(labels.values())}


@cache
def _third_readings() -> dict[str, list[dict[str, Any]]]:
    rows = map(json.loads, (ACTIVITIES / "third.jsonl").read_text("utf-8").splitlines())
    return {row["id"]: row["settled"] for row in rows}


def _activity(row: dict[str, Any], labels: dict[str, str], care: bool, **rest: Any) -> Labelled:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + row["activity"].rstrip() + "\n"))
    marks: Marks = []
    for label in row["hazards"]:
        words = (label.get("care_words") if label["care"] == "sufficient" else "") if care else label["words"]
        at = row["activity"].find(words) if words else -1
        if at >= 0:
            marks.append((label["hazard"], len(FRONT) + at, len(FRONT) + at + len(words)))
    said: list[tuple[Passage, Place, Marks]] = []
    kinds: tuple[str, ...] = ()
    for text in activity_texts(unit):
        kinds = kinds or text.kinds
        said += [(one.passage, one.place, list(_within(one.passage, marks))) for one in text.said]
    return labelled(said, CARES if care else DONE, id=row["id"], kinds=kinds, labels=labels, **rest)


def _within(one: Passage, marks: Marks) -> Iterator[tuple[str, int, int]]:
    for name, start, end in marks:
        at = [i for i in range(len(one.text)) if one.starts[i] < end and one.ends[i] > start]
        if at:
            yield name, at[0], at[-1] + 1


def lines_of_acts() -> Iterator[Labelled]:
    """Single lines that were written for training, each as a small activity, two in five among harmless steps."""
    rng = random.Random(1)
    harmless = list(_harmless_steps())

    def line(text: str, place: Place, labels: Iterable[str], span: tuple[int, int], weight: float) -> Labelled:
        labels = dict.fromkeys(labels, "none")
        said = [(passage(text), place, [(name, *span) for name in labels])]
        if place is not Place.INSTRUCTION:
            said.insert(0, (passage(rng.choice(_HEADS)), Place.INSTRUCTION, []))
        kinds = (rng.choice(_ACTING if labels else _QUIET),)
        if rng.random() < 0.4:
            around = rng.choice(harmless)
            at = rng.randrange(1, len(around) + 1)
            heading = [] if place is Place.INSTRUCTION else around[:1]
            said = [*heading, *around[1:at], said[-1], *around[at:]]
        return labelled(said, DONE, id=text, hand="lines", kinds=kinds, labels=labels, weight=weight)

    for path in sorted(ACTIVITIES.glob("lines-*.jsonl")):
        for row in map(json.loads, path.read_text("utf-8").splitlines()):
            text, span = unmarked(row["line"])
            names = [row["hazard"], *row["also"]] if row["real"] else row["also"]
            yield line(text, _PLACES[row["place"]], names, span, 0.7)
    hazard = ""
    for one in lines_of(ACTIVITIES / "house_lines.txt"):
        if one[0] in "+-":
            yield line(one[3:], _LETTERS[one[1]], [hazard] if one[0] == "+" else [], (0, len(one) - 3), 0.7)
        else:
            hazard = one
    for one in lines_of(HERE / "acts_fire.txt"):
        name, marked = one.split(": ", 1)
        text, span = unmarked(marked)
        for place in (Place.INSTRUCTION, Place.STEPS):
            yield line(text, place, [name], span, 1.5)
    for one in lines_of(HERE / "acts_quiet.txt"):
        for place in (Place.INSTRUCTION, Place.PAGE, Place.STEPS):
            yield line(one, place, [], (0, 0), 1.5)


def _harmless_steps() -> Iterator[list[tuple[Passage, Place, Marks]]]:
    """What is said in activities that show no hazard and look like none."""
    rows = [row for path in TAUGHT for row in map(json.loads, path.read_text("utf-8").splitlines())]
    bodies = [row["activity"] for row in rows if not row["hazards"] and not row.get("decoy_for")]
    units = [read_unit(Source("level-1/unit-01.md", FRONT + body.rstrip() + "\n")) for body in bodies]
    texts = [next(iter(activity_texts(unit))) for unit in units]
    for text in [*texts, *_quiet_texts(COURSES)]:
        said: list[tuple[Passage, Place, Marks]] = [(one.passage, one.place, []) for one in text.said]
        said = [one for one in said if one[1] in DONE]
        if len(said) > 1:
            yield said[:6]


def unmarked(line: str) -> tuple[str, tuple[int, int]]:
    """A line without its « », and the range that stood between."""
    start, end = line.find("«"), line.rfind("»")
    text = re.sub("[«»]", "", line)
    return text, (start, end - 1) if start >= 0 else (0, len(text))


def lines_of_care() -> Iterator[Labelled]:
    """Notes that are enough for a hazard, and some that are not."""

    def note(hazard: str, text: str, place: Place, enough: bool, weight: float = 1.0) -> Labelled:
        marks: Marks = [(hazard, 0, len(text))] if enough else []
        labels = {hazard: "sufficient" if enough else "insufficient"}
        said = [(passage(text), place, marks)]
        return labelled(said, CARES, id=text, hand="lines", kinds=(), labels=labels, weight=weight)

    hazard = ""
    for line in lines_of(ACTIVITIES / "house_notes.txt"):
        if line[0] in "+-":
            yield note(hazard, line[2:], Place.SAFETY, line[0] == "+")
        else:
            hazard = line
    for path in sorted(ACTIVITIES.glob("notes-*.jsonl")):
        for row in map(json.loads, path.read_text("utf-8").splitlines()):
            for text, place in zip(row["enough"], row["place"], strict=True):
                yield note(row["hazard"], text, _PLACES[place], True)
            for text in [*row["not_enough"], row["act"]]:
                yield note(row["hazard"], text, Place.SAFETY if text != row["act"] else Place.STEPS, False)
    for path in sorted(ACTIVITIES.glob("lines-*.jsonl")):
        for row in map(json.loads, path.read_text("utf-8").splitlines()):
            if row["real"] and row["place"] != "instruction":  # an act is no care for itself
                yield note(row["hazard"], unmarked(row["line"])[0], _PLACES[row["place"]], False)
    for hazard, thing in _things_that_care():
        for frame in _LISTED:
            for place in (Place.LIST, Place.MATERIALS):
                yield note(hazard, frame.replace("…", thing), place, True, weight=0.2)
    for hazard, thing in _things_of_acts():  # nor is the mere name of its tool
        for frame in _LISTED:
            for place in (Place.LIST, Place.MATERIALS):
                yield note(hazard, frame.replace("…", thing), place, False, weight=10.0)


def _things_that_care() -> Iterator[tuple[str, str]]:
    """Things that are a care themselves: round-ended scissors, battery candles."""
    for line in lines_of(ACTIVITIES / "house_materials.txt"):
        hazard, thing = line.split(": ", 1)
        yield hazard, thing


def _things_of_acts() -> Iterator[tuple[str, str]]:
    """The words that often show a hazard, such as the names of its tools."""
    often: dict[str, Counter[str]] = {}
    for path in sorted(ACTIVITIES.glob("lines-*.jsonl")):
        for row in map(json.loads, path.read_text("utf-8").splitlines()):
            if row["real"]:
                text, (start, end) = unmarked(row["line"])
                words = set(re.findall(r"[a-z]{3,}", text[start:end].lower()))
                often.setdefault(row["hazard"], Counter()).update(words)
    rng = random.Random(4)
    everywhere = Counter(word for count in often.values() for word in count)
    for hazard, count in sorted(often.items()):
        names = {word for word, many in count.items() if many >= 5 and everywhere[word] <= 8}
        names |= {word.removesuffix("s") for word in names} | {f"{word.removesuffix('s')}s" for word in names}
        row = sorted(names)
        rng.shuffle(row)
        yield from ((hazard, thing) for thing in [*row, *map(", ".join, pairwise(row))])


def passages_of_topics(paths: Iterable[Path]) -> Iterator[Labelled]:
    """Passages of pupils' pages, marked with the sensitive topics that they touch."""
    for path in paths:
        for row in map(json.loads, path.read_text("utf-8").splitlines()):
            text, span = unmarked(row["line"])
            marks: Marks = [(row["topic"], *span)] if row["real"] else []
            marks += [(name, 0, len(text)) for name in row["also"]]
            labels = {name: "touches" for name, _, _ in marks}
            yield labelled(
                [(passage(text), Place.PAGE, marks)],
                frozenset({Place.PAGE}),
                id=text,
                hand=path.stem,
                kinds=(),
                labels=labels,
            )


def quiet_courses(folders: Iterable[Path]) -> Iterator[Labelled]:
    """Activities of whole courses in which nobody saw a hazard, and which have no note: what must stay quiet."""
    for text in _quiet_texts(folders):
        said: list[tuple[Passage, Place, Marks]] = [(one.passage, one.place, []) for one in text.said]
        yield labelled(said, DONE, id="", hand="course", kinds=text.kinds, labels={}, weight=2.0)


def _quiet_texts(folders: Iterable[Path]) -> Iterator[ActivityText]:
    for folder in folders:
        for path in sorted(folder.rglob("unit-*.md")):
            for text in activity_texts(read_unit(Source("level-1/unit-01.md", path.read_text("utf-8")))):
                words = " ".join(one.passage.text for one in text.said).lower()
                noted = any(one.place in (Place.SAFETY, Place.LESSON_SAFETY) for one in text.said)
                if not (text.whole_lesson or noted or re.search("scissors|cut out|bring out the food", words)):
                    yield text


def quiet_pages(folders: Iterable[Path]) -> Iterator[Labelled]:
    """What children read in whole courses, but for passages in which the list of words finds a topic."""
    for folder in folders:
        for path in sorted(folder.rglob("unit-*.md")):
            for one in read_unit(Source("level-1/unit-01.md", path.read_text("utf-8"))).passages:
                if is_for_children(one) and one.role in SENTENCE_ROLES and not listed(one.text):
                    places = frozenset({Place.PAGE})
                    yield labelled([(one, Place.PAGE, [])], places, id=path.name, hand="course", kinds=(), labels={})
