"""Builds a book of any size from the example manuscript, for measuring.

    python tests/benchmarks/make_book.py FOLDER UNITS

Each unit is one of the example's units with its target words exchanged for common words drawn from cefrpy's list, with
the unit's number as seed, and with its names drawn from a list. So vocabulary, sentences and word lists differ from
unit to unit as they do in a real course, and a cache by content cannot answer for one unit from another. What stays
alike stays alike in real books too: usual instructions, fields of the notes, short answers. The texts make little
sense; it is the work that counts.
"""

import csv
import random
import re
import sys
from functools import cache
from pathlib import Path

import cefrpy
from wordfreq import zipf_frequency

EXAMPLE = Path(__file__).parents[2] / "example_manuscript"
LEVELS = 5
NAMES = ("Mina", "Rafi", "Lou", "Dot")
OTHER_NAMES = ("Ada", "Bo", "Cleo", "Dario", "Elif", "Fenna", "Goro", "Hedda", "Ines", "Jory", "Kofi", "Lumi", "Maro")
KEPT = re.compile(r"\{[^}]*\}|\]\([^)]*\)|<!--.*?-->|^:::.*$|^\*\*[A-Za-z ]+:\*\*|\d+ minutes", re.MULTILINE)
WORD = re.compile(r"[A-Za-z]+")
_ORDINARY = re.compile(r"[a-z]{4,9}")


@cache
def pool(tag: str) -> list[str]:
    """Words of a Penn Treebank tag that cefrpy grades A1 to B1."""
    known = cefrpy.CEFRAnalyzer()
    graded = known.yield_word_pos_level(pos_tag_as_string=True, word_level_as_float=True)
    words = {word for word, pos, level in graded if pos == tag and level < 3.5}
    return sorted(
        word
        for word in words
        if _ORDINARY.fullmatch(word) and not word.endswith(("s", "ed", "ing", "er")) and zipf_frequency(word, "en") > 3
    )


@cache
def template_words() -> dict[str, str]:
    """Words of the example's lists that are exchanged, with their tag."""
    tags = {"noun": "NN", "adjective": "JJ", "verb": "VB"}
    found = {}
    for path in sorted((EXAMPLE / "words").glob("*.csv")):
        with path.open(encoding="utf-8-sig", newline="") as file:
            for row in csv.DictReader(file):
                if row["part_of_speech"] in tags and row["word"].isalpha():
                    found[row["word"]] = tags[row["part_of_speech"]]
    return found


def exchange(number: int) -> dict[str, str]:
    """The words that one unit has instead of the example's."""
    chance = random.Random(number)
    words = template_words()
    new = {tag: iter(chance.sample(pool(tag), sum(t == tag for t in words.values()))) for tag in ("NN", "JJ", "VB")}
    pairs = {word: next(new[tag]) for word, tag in words.items()}
    pairs |= {f"{word}s": f"{other}s" for word, other in pairs.items() if words[word] != "JJ"}
    return pairs | dict(zip(NAMES, chance.sample(OTHER_NAMES, len(NAMES)), strict=True))


def rewrite(text: str, pairs: dict[str, str]) -> str:
    """A unit's text with words exchanged; attributes, targets of links and fences stay."""

    def change(match: re.Match[str]) -> str:
        word = match.group()
        other = pairs.get(word) or pairs.get(word.lower()) or pairs.get(word.capitalize())
        if other is None:
            return word
        return other.upper() if word.isupper() and len(word) > 1 else other.capitalize() if word[0].isupper() else other

    parts, at = [], 0
    for kept in KEPT.finditer(text):
        parts += [WORD.sub(change, text[at : kept.start()]), kept.group()]
        at = kept.end()
    return "".join([*parts, WORD.sub(change, text[at:])])


def one_unit(number: int, level: int, place: int) -> tuple[str, list[dict[str, str]]]:
    """Text of a unit and the rows of its target words. ``number`` counts in the book, ``place`` in its level."""
    templates = sorted(EXAMPLE.glob("level-*/unit-*.md"))
    path = templates[(number - 1) % len(templates)]
    pairs = exchange(number)
    text = path.read_text(encoding="utf-8")
    _, front, body = text.split("---\n", 2)
    old_unit = re.search(r"^unit: (\d+)$", front, re.MULTILINE).group(1)
    front = re.sub(r"^level: .*$", f"level: level-{level}", front, flags=re.MULTILINE)
    front = re.sub(r"^unit: .*$", f"unit: {place}", front, flags=re.MULTILINE)
    body = re.sub(rf"((?:audio|track)=){old_unit}\.", rf"\g<1>{place}.", body)
    rows = []
    with (EXAMPLE / "words" / f"{path.parent.name}.csv").open(encoding="utf-8-sig", newline="") as file:
        for row in csv.DictReader(file):
            if row["unit"] == old_unit:
                rows.append({**row, "word": pairs.get(row["word"], row["word"]), "unit": str(place)})
    return f"---\n{rewrite(front, {})}---\n{rewrite(body, pairs)}", rows


def make_book(folder: Path, units: int) -> None:
    """Write a course of so many units."""
    levels = min(LEVELS, units)
    each = -(-units // levels)
    bands = ("Pre-A1", "A1", "A1", "A2", "A2")
    course = ["title: A book to measure by", "variety: en-GB", "ages: 6-10"]
    course += [f"characters: [{', '.join((*NAMES, *OTHER_NAMES))}]", "known: [ferry, captain]", "levels:"]
    number = 0
    for level in range(1, levels + 1):
        count = min(each, units - number)
        course += [f"  - name: level-{level}", f"    cefr: {bands[level - 1]}", f"    words: words/level-{level}.csv"]
        course += [f"    units: {count}", "    unit_pattern: [words, grammar, story, sounds, review, test]"]
        (folder / f"level-{level}").mkdir(parents=True, exist_ok=True)
        rows: list[dict[str, str]] = []
        for place in range(1, count + 1):
            number += 1
            text, more = one_unit(number, level, place)
            rows += more
            (folder / f"level-{level}" / f"unit-{place:03}.md").write_text(text, encoding="utf-8")
        (folder / "words").mkdir(exist_ok=True)
        with (folder / "words" / f"level-{level}.csv").open("w", encoding="utf-8", newline="") as file:
            table = csv.DictWriter(file, ["word", "part_of_speech", "topic", "unit", "use", "note"])
            table.writeheader()
            table.writerows(rows)
    (folder / "course.yaml").write_text("\n".join(course) + "\n", encoding="utf-8")
    (folder / "art").mkdir(exist_ok=True)
    for picture in (EXAMPLE / "art").glob("*.svg"):
        (folder / "art" / picture.name).write_bytes(picture.read_bytes())


if __name__ == "__main__":
    make_book(Path(sys.argv[1]), int(sys.argv[2]))
