"""The load of a text against orders that do not come from hornbook: cefrpy's levels, wordfreq, graded stories."""

import json
import random
import re
import time
from itertools import pairwise
from pathlib import Path
from statistics import fmean

import cefrpy
import pytest
from wordfreq import zipf_frequency

from lint_rules.course.model import CEFR_BANDS
from lint_rules.reports.level_page import run_level
from tests.words.course import course

HERE = Path(__file__).parent
FRAMES = (
    "The {NN} is here.",
    "I can see a {JJ} {NN}.",
    "We {VB} the {NN} in the morning.",
    "They {VB} a {NN} and the {JJ} {NN}.",
)


def loads(text: str, language, **kwargs) -> list[float]:
    rows = run_level(text, language, lines=True, as_json=True, **kwargs).splitlines()
    return [json.loads(row)["load"] for row in rows]


@pytest.fixture(scope="module")
def by_level() -> dict[str, dict[str, list[str]]]:
    """Tag → level → words that cefrpy grades so and that people use (wordfreq), by cefrpy's own reader."""
    found: dict[str, dict[str, list[str]]] = {tag: {} for tag in ("NN", "VB", "JJ")}
    analyzer = cefrpy.CEFRAnalyzer()
    for word, tag, level in analyzer.yield_word_pos_level(pos_tag_as_string=True):
        usual = zipf_frequency(word, "en") >= 3.8 and not word.endswith(("s", "ed", "ing", "er", "est", "ly"))
        if tag in found and usual and analyzer.get_average_word_level_CEFR(word) == level:
            found[tag].setdefault(str(level), []).append(word)
    return found


def filled(level: str, by_level, seed: int) -> str:
    """A text of ten sentences from the frames, with words of one level."""
    draw = random.Random(seed)
    return " ".join(
        re.sub(r"\{(\w+)\}", lambda slot: draw.choice(by_level[slot[1]][level]), draw.choice(FRAMES)) for _ in range(10)
    )


def test_texts_of_the_same_frames_weigh_more_as_the_words_levels_rise(language, by_level):
    levels = ("A1", "A2", "B1", "B2")
    texts = [filled(level, by_level, seed) for seed in range(25) for level in levels]
    weighed = loads("\n".join(texts), language)
    means = [fmean(weighed[at :: len(levels)]) for at in range(len(levels))]
    assert means == sorted(means)
    assert all(after - before > 1 for before, after in pairwise(means)), means
    easy, hard = weighed[0 :: len(levels)], weighed[2 :: len(levels)]
    assert sum(one < other for one, other in zip(easy, hard, strict=True)) >= 24, "A1 against B1, text by text"


def test_rarer_words_of_one_level_weigh_no_less(language, by_level):
    """Within a level the reference says nothing; wordfreq does."""
    nouns = sorted(by_level["NN"]["B1"], key=lambda word: -zipf_frequency(word, "en"))
    common, rare = nouns[:40], nouns[-40:]
    weighed = loads("\n".join(f"I can see the {word} here." for word in (*common, *rare)), language)
    assert fmean(weighed[:40]) < fmean(weighed[40:])


def rewritten() -> list[tuple[str, str, tuple[str, ...], tuple[str, ...]]]:
    lines = [line for line in (HERE / "rewritten.txt").read_text(encoding="utf-8").splitlines() if line[:1].isalpha()]
    cut = [re.fullmatch(r"(.*) \((.*)\)", line) for line in lines]
    assert all(cut)
    pairs = [(match[1], tuple(match[2].split(", "))) for match in cut if match]
    return [(*easy[:1], *hard[:1], easy[1], hard[1]) for easy, hard in zip(pairs[::2], pairs[1::2], strict=True)]


@pytest.mark.parametrize(("easy", "hard", "easy_words", "hard_words"), rewritten())
def test_the_same_content_rewritten_in_harder_words_weighs_more(easy, hard, easy_words, hard_words, language):
    analyzer = cefrpy.CEFRAnalyzer()
    assert all(analyzer.get_average_word_level_float(word) <= 1.5 for word in easy_words)
    assert all(analyzer.get_average_word_level_float(word) >= 2 for word in hard_words)
    light, heavy = loads(f"{easy}\n{hard}", language)
    assert light < heavy


def test_graded_stories_come_in_their_order(language):
    """Six stories written to a band each, by a hand that did not write the load."""
    bands: dict[str, list[float]] = {}
    for path in sorted((HERE / "stories").glob("*.txt")):
        band = "Pre-A1" if path.name.startswith("pre_a1") else path.name[:2].upper()
        page = json.loads(run_level(path.read_text(encoding="utf-8"), language, lines=False, as_json=True))
        bands.setdefault(band, []).append(page["load"])
        assert abs(CEFR_BANDS.index(page["cefr"]) - CEFR_BANDS.index(band)) <= 1, (path.name, page["cefr"])
    means = [fmean(bands[band]) for band in CEFR_BANDS if band in bands]
    assert len(means) == 4
    assert means == sorted(means)


@pytest.mark.parametrize(
    ("light", "heavy"),
    [
        ("I have a cat.", "I have had a cat for years."),
        ("He opened the door.", "He had opened the door."),
        (
            "The dog is big. It is brown. It has a ball.",
            "The dog is big and brown and it has a ball and a bone and a bed.",
        ),
        ("They build houses.", "Houses are being built."),
    ],
)
def test_harder_structures_and_longer_sentences_weigh_more(light, heavy, language):
    first, second = loads(f"{light}\n{heavy}", language)
    assert first < second


def test_one_object_a_line_with_the_agreed_keys(language):
    text = "The kite is flying.\n\nNevertheless, we've got two cats.\n   \n____\n"
    rows = [json.loads(row) for row in run_level(text, language, lines=True, as_json=True).splitlines()]
    assert len(rows) == 5
    for row in rows:
        assert list(row) == ["structures", "words", "cefr", "load"]
        assert row["cefr"] in CEFR_BANDS
        assert 0 <= row["load"] <= 100
        assert all(list(item) == ["name", "start", "end"] for item in row["structures"])
        assert all(list(word) == ["text", "lemma", "part_of_speech", "level", "source"] for word in row["words"])
    assert {"name": "present-continuous", "start": 9, "end": 18} in rows[0]["structures"]
    kite = {"text": "kite", "lemma": "kite", "part_of_speech": "noun", "level": "A1", "source": "cefrpy"}
    assert kite in rows[0]["words"]
    for empty in (rows[1], rows[3], rows[4]):
        assert (empty["structures"], empty["words"], empty["cefr"], empty["load"]) == ([], [], "Pre-A1", 0.0)


@pytest.mark.parametrize(
    ("text", "count"), [("", 0), ("\n", 1), ("Hello!", 1), ("Hello!\n", 1), ("a\r\nb\r\n", 2), ("a\u2028b\n", 1)]
)
def test_lines_of_the_input_are_lines_of_the_output(text, count, language):
    assert len(run_level(text, language, lines=True, as_json=True).splitlines()) == count


def test_a_course_says_which_of_its_levels_teaches_a_word(language):
    row = json.loads(run_level("A volcano!", language, lines=True, as_json=True, course=course()))
    words = {word["text"]: (word["level"], word["source"]) for word in row["words"]}
    assert words["volcano"] == ("level-2", "course")


def test_the_page_for_people(language):
    page = run_level("Nevertheless, the economy had grown.\nI like cats.\n", language, lines=False, as_json=False)
    first = page.splitlines()[0]
    assert re.fullmatch(r"Level  B\d    Load  \d+(\.\d)? of 100", first)
    assert "economy (B1)" in page
    assert "past perfect" in page
    assert "There is no text" in run_level("\n \n", language, lines=False, as_json=False)


def test_thousands_of_lines_are_weighed_in_seconds(language):
    text = "".join(f"The little dog is looking for its ball under table {number}.\n" for number in range(2000))
    start = time.perf_counter()
    assert len(loads(text, language)) == 2000
    assert time.perf_counter() - start < 60  # about 4 s on two quiet cores
