"""What the real server says: clean course English passes, known slips are found, neighbours change nothing."""

import csv
import json
import random
import re
import urllib.request
from dataclasses import replace

import pytest

from lint_rules.course.reading import plans_of, read_course
from lint_rules.engine.check import request_of
from lint_rules.english.client import batches_of, switched_off
from lint_rules.english.text import matches_of
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.varieties import out_of_place
from lint_rules.manuscript.model import Passage
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.rule import Reading
from lint_rules.rules.correct_english import english_error, spelling_variety
from lint_rules.source import Source
from lint_rules.tables import rows
from tests.english.pages import HERE, lines_of, marked, slips, unit_of

pytestmark = pytest.mark.english

EXAMPLE = HERE.parents[1] / "example_manuscript"
BOTH = pytest.mark.parametrize("variety", ["en-GB", "en-US"])
WORD = re.compile(r"[^\W\d_]+")


def spelt(text: str, variety: str) -> str:
    """A British text in the spelling of a variety."""
    right = out_of_place(variety)

    def respelt(match: re.Match[str]) -> str:
        word = right.get(match[0].casefold(), match[0])
        return word.capitalize() if match[0][0].isupper() else word

    return WORD.sub(respelt, text)


@BOTH
def test_clean_pages_raise_no_alarm(real_english, variety):
    lines = [spelt(line, variety) for line in lines_of("clean_pages.txt")]
    assert slips(unit_of(lines), real_english, variety) == []


@BOTH
def test_clean_notes_raise_no_alarm(real_english, variety):
    lines = [spelt(line, variety) for line in lines_of("clean_notes.txt")]
    assert slips(unit_of(lines, notes=True), real_english, variety) == []


@BOTH
def test_the_example_manuscript_raises_no_alarm(real_english, language, variety):
    """The book as it is, in British English; and in American spelling, by our own table, as an American course."""

    def load(path: str) -> Source:
        return Source(path, spelt((EXAMPLE / path).read_text(encoding="utf-8"), variety))

    book, problems = read_course(load("course.yaml"), load, ["english-error", "spelling-variety"], STRUCTURE_NAMES)
    assert book is not None, problems
    sources = [load(path.relative_to(EXAMPLE).as_posix()) for path in sorted(EXAMPLE.glob("level-*/*.md"))]
    book = replace(plans_of(book, sources), variety=variety)
    units = [read_unit(source) for source in sources]
    assert units
    done = [readings_of(unit) for unit in units]
    matches = matches_of(real_english, done, variety)

    def analyse(passage: Passage) -> Analysis:
        return language.analyse([request_of(passage, book)])[0]

    found = []
    for unit, read in zip(units, done, strict=True):
        reading = Reading(unit, book, book.levels[0], analyse, lambda passage: matches.get(passage, ()), done=read)
        found += [(unit.path, item.text, item.message) for item in english_error.find(reading)]
        found += [(unit.path, item.text, item.message) for item in spelling_variety.find(reading)]
    assert found == []


SLIPS = list(csv.reader(lines_of("slips.csv")))[1:]


@pytest.mark.parametrize(("rule", "text"), SLIPS, ids=[f"{rule}-{number}" for number, (rule, _) in enumerate(SLIPS)])
def test_a_slip_is_found_at_its_words_by_the_check_that_is_for_it(real_english, rule, text):
    plain, words = marked(text)
    unit = unit_of([plain])
    found = [
        (passage.text[match.start : match.end], match.rule)
        for passage, matches in matches_of(real_english, [readings_of(unit)], "en-GB").items()
        for match in matches
    ]
    assert [word for word, name in found if name.startswith(rule)] == words
    assert [word for word, _ in slips(unit, real_english)] == words


def documented(address: str, variety: str) -> list[dict[str, str]]:
    with urllib.request.build_opener(urllib.request.ProxyHandler({})).open(
        f"{address}/v2/configinfo?language={variety}"
    ) as reply:
        return json.load(reply)["rules"]


def test_every_check_that_we_name_is_one_of_the_servers_own_list(real_address):
    known = [rule for variety in ("en-GB", "en-US") for rule in documented(real_address, variety)]
    checks, categories = {rule["ruleId"] for rule in known}, {rule["categoryId"] for rule in known}
    named = {rule for rule, _ in SLIPS if rule != "MORFOLOGIK_RULE"}
    assert named <= checks
    assert set(switched_off("rule")) <= checks
    assert set(switched_off("category")) <= categories


@BOTH
def test_what_a_text_gets_does_not_depend_on_its_neighbours(real_english, variety):
    """Answers are cached text by text, so a text alone and the same text in company must get the same."""
    texts = [marked(text)[0] for _, text in SLIPS] + lines_of("clean_pages.txt") + lines_of("clean_notes.txt")
    texts += [
        "“I am here",
        "(see the page",
        "He said 'no",
        "this has no end",
        "the kite",
        "The kite. the kite",
        "A, b,",
    ]
    alone = {text: real_english.check([text], variety)[0] for text in random.Random(1).sample(texts, 40)}
    for seed in range(2):
        random.Random(seed).shuffle(texts)
        assert len(list(batches_of(texts))) < 10, "the texts must travel together for this test"
        together = dict(zip(texts, real_english.check(texts, variety), strict=True))
        assert {text: together[text] for text in alone} == alone


def test_a_gap_in_the_place_of_any_word_raises_no_alarm(real_english):
    lines = [line for line in lines_of("clean_pages.txt") if "_" not in line and "/" not in line][::4]
    gapped = [line[: m.start()] + "____" + line[m.end() :] for line in lines for m in re.finditer(r"[A-Za-z’']+", line)]
    unit = unit_of(["Look: " + line if line.startswith("_") else line for line in gapped])
    assert len(gapped) > 200
    assert slips(unit, real_english) == []


def test_a_wrong_word_beside_the_right_one_raises_no_alarm(real_english):
    """A choice between the word of a clean sentence and some other: the wrong one is there on purpose."""
    lines = [line for line in lines_of("clean_pages.txt") if "_" not in line and "/" not in line][1::2]
    others = ["is", "are", "a", "an", "has", "does", "went", "they", "big", "cats"]
    dice = random.Random(2)
    chosen = [
        line[: m.end()] + " / " + dice.choice(others) + line[m.end() :]
        for line in lines
        for m in re.finditer(r"(?<![-'’])\b[A-Za-z]+\b(?![-'’])", line)
    ]
    assert len(chosen) > 300
    assert slips(unit_of(chosen), real_english) == []


# Our table and the server's dictionaries are two sources that know nothing of each other.


def misspelt(real_english, words: list[str], variety: str) -> set[str]:
    answers = real_english.check([f"{word}." for word in words], variety)
    return {word for word, found in zip(words, answers, strict=True) if any("MORFOLOGIK" in m.rule for m in found)}


@pytest.mark.parametrize(("variety", "column"), [("en-US", 0), ("en-GB", 1)])
def test_the_spellings_that_the_table_recommends_are_in_the_servers_dictionary(real_english, variety, column):
    wanted = [row[column] for row in rows("spelling_varieties.csv")]
    # In dictionaries of British English, but not in this one.
    lacking = {"carburettor", "draught", "draughts", "draughtsman", "haemoglobin", "lasagne", "miaow", "miaowing"}
    lacking |= {"miaows", "aetiology", "manilla", "ochre", "pedlar", "saltpetre", "accouterments", "ocher", "etiology"}
    assert misspelt(real_english, wanted, variety) - lacking == set()


@pytest.mark.parametrize(("variety", "least"), [("en-GB", 0.85), ("en-US", 0.80)])
def test_the_server_agrees_that_most_words_of_the_other_variety_are_out_of_place(real_english, variety, least):
    """It knows fewer: it takes gray for British, and labelled for American English."""
    wrong = sorted(out_of_place(variety))
    assert len(misspelt(real_english, wrong, variety)) >= least * len(wrong)


def test_the_version_names_the_server(real_english):
    assert re.match(r"LanguageTool \d+\.\d+", real_english.version)
