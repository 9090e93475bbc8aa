"""The reference against the outside data it is drawn from: cefrpy's own reader, and wordfreq."""

from collections import defaultdict
from statistics import fmean, median

import cefrpy
import pytest
from wordfreq import get_frequency_list, zipf_frequency

from lint_rules.language.vocabulary.reference import LEVELS, TAGS_OF, common, graded, lowest, reference

# Which Universal Dependencies part of speech has which of cefrpy's tags.
UNIVERSAL = {
    "NN": "NOUN",
    "NNS": "NOUN",
    "NNP": "NOUN",
    "NNPS": "NOUN",
    "VB": "VERB",
    "VBP": "VERB",
    "VBZ": "VERB",
    "VBD": "VERB",
    "VBG": "VERB",
    "VBN": "VERB",
    "JJ": "ADJ",
    "JJR": "ADJ",
    "JJS": "ADJ",
    "RB": "ADV",
    "RBR": "ADV",
    "RBS": "ADV",
    "WRB": "ADV",
    "PRP": "PRON",
    "WP": "PRON",
    "DT": "DET",
    "WDT": "DET",
    "IN": "ADP",
    "CC": "CCONJ",
    "CD": "NUM",
    "UH": "INTJ",
    "MD": "AUX",
    "TO": "PART",
    "RP": "PART",
}


@pytest.fixture(scope="module")
def listed() -> dict[tuple[str, str], dict[str, str]]:
    """What cefrpy's own reader lists: (word, universal part of speech) → its tags' levels."""
    found: dict[tuple[str, str], dict[str, str]] = defaultdict(dict)
    for word, tag, level in cefrpy.CEFRAnalyzer().yield_word_pos_level():
        found[word, UNIVERSAL[str(tag)]][str(tag)] = str(level)
    return found


def test_every_headword_and_part_of_speech_from_a1_to_b2_comes_back_at_its_level(listed):
    wrong, checked = [], 0
    for (word, pos), levels in listed.items():
        first = next(tag for tag in TAGS_OF[pos] if tag in levels)
        if levels[first] in {"A1", "A2", "B1", "B2"}:
            checked += 1
            if reference(word, pos, word) != reference(word, pos) or reference(word, pos).level != levels[first]:
                wrong.append((word, pos, levels, reference(word, pos)))
    assert checked > 60_000
    assert wrong == []


def test_every_level_comes_from_the_package_and_says_so(listed):
    assert {reference(word, pos).source for word, pos in listed} == {"cefrpy"}


@pytest.mark.parametrize(
    ("word", "level"),
    [("kite", "A1"), ("sandwich", "A1"), ("scissors", "A2"), ("giraffe", "B1"), ("robot", "B1"), ("pyjamas", "B2")],
)
def test_nouns_filed_as_proper_nouns_are_found(word, level):
    assert reference(word, "NOUN") == reference(word, "NOUN", word)
    assert (reference(word, "NOUN").level, reference(word, "NOUN").source) == (level, "cefrpy")


@pytest.mark.parametrize("word", ["jellyfish", "crayon", "hippo"])
def test_childrens_words_that_the_package_has_not_graded_come_back_at_c2(word):
    assert reference(word, "NOUN").level == "C2"


def test_a_word_listed_only_as_another_part_of_speech_takes_the_lowest_level():
    assert graded("giraffe", "ADV") == lowest("giraffe") == "B1"


def test_accents_and_capitals_do_not_matter():
    assert reference("Café", "NOUN") == reference("cafe", "NOUN")
    assert reference("KITE", "NOUN") == reference("kite", "NOUN")


def test_frequency_is_the_last_resort_and_named():
    assert reference("lunchbox", "NOUN").source == "frequency"
    assert reference("hello", "INTJ").source == "frequency"
    assert LEVELS.index(reference("hello", "INTJ").level) < LEVELS.index(reference("lunchbox", "NOUN").level)


@pytest.mark.parametrize("word", ["xqzvvk", "", "...", "42", "\ufffc", "____"])
def test_what_nobody_knows_has_no_level(word):
    assert reference(word, "NOUN").level == ""


def test_words_get_rarer_as_levels_rise():
    """wordfreq, made from other texts than cefrpy's lists, agrees on the order of the levels."""
    by_level: dict[str, list[float]] = defaultdict(list)
    for word in cefrpy.CEFRAnalyzer().yield_words():
        zipf = zipf_frequency(word, "en")
        if zipf >= 2.5:  # cefrpy also lists derived forms that nobody uses
            by_level[lowest(word)].append(zipf)
    medians = [median(by_level[level]) for level in LEVELS]
    assert medians == sorted(medians, reverse=True)
    assert len(set(medians)) == len(medians)
    means = [fmean(by_level[level]) for level in LEVELS]
    assert means == sorted(means, reverse=True)


def test_the_frequency_of_a_word_is_wordfreqs_own():
    words = (
        "cat",
        "The",
        "zzxqv",
        "a",
        "I",
        "can't",
        "ice-cream",
        "two words",
        "café",
        "r2d2",
        "2026",
        "naïve",
        "",
        "—",
    )
    listed = [word for bucket in get_frequency_list("en") for word in bucket[:40]]
    for word in (*words, *listed):
        assert common(word) == zipf_frequency(word.replace("-", " "), "en"), word
    assert len(listed) > 10_000
