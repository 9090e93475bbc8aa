"""The look-up of words: who has the last word on each, and what is left out."""

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lint_rules.course.model import CEFR_BANDS
from lint_rules.language.tokens import Analysis, Reference, Sentence, Token
from lint_rules.language.vocabulary.word_index import (
    build_index,
    childrens_words,
    near_words,
    parts_of,
    picturable_nouns,
)
from lint_rules.language.vocabulary.word_levels import look_up
from lint_rules.tables import alternatives, rows
from tests.words.course import course, words_of

PARTS = {
    "noun",
    "verb",
    "adjective",
    "adverb",
    "pronoun",
    "determiner",
    "preposition",
    "conjunction",
    "number",
    "phrase",
}


def cases() -> list[tuple[str, ...]]:
    text = (Path(__file__).parent / "lookups.txt").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    return [tuple(cell.strip() for cell in line.split("|")) for line in lines]


@pytest.mark.parametrize(("marked", "source", "lemma", "level"), cases())
def test_look_up(marked, source, lemma, level, language):
    text = marked.replace("«", "").replace("»", "")
    start = marked.index("«")
    end = marked.index("»") - 1
    found = {(word.start, word.end): word for word in words_of(text, language, presented=("gazebo",))}
    assert (start, end) in found, [word.text for word in found.values()]
    word = found[start, end]
    assert (word.origin.value, word.lemma.casefold(), word.level) == (source, lemma.casefold(), level)


@pytest.mark.parametrize(
    "text",
    ["", "____", "... – !", "Say /kæt/.", "She ____ a ____.", "www.example.org", "\ufffc \ufffc"],
)
def test_marks_gaps_and_notation_are_no_words(text, language):
    assert {word.text for word in words_of(text, language)} <= {"Say", "She", "a"}


def test_words_known_from_the_first_page_are_free_even_when_a_later_list_teaches_them(language):
    free = {word.text for word in words_of("Hello! They've got nine dogs, Mina.", language) if word.free}
    assert {"Hello", "nine", "Mina"} <= free


def test_a_spelling_taught_as_another_part_of_speech_is_mentioned(language):
    (cloud,) = (word for word in words_of("They will cloud the water.", language) if word.text == "cloud")
    assert cloud.entry is None
    assert cloud.elsewhere is not None
    assert cloud.elsewhere.part_of_speech == "noun"


def test_words_in_a_row_are_read_as_the_list_has_them(language):
    assert {word.level for word in words_of("cloud, paint, water", language)} == {"level-1"}


def test_an_index_is_built_once_for_the_same_course():
    assert build_index(course()) is build_index(course())


def test_without_a_course_there_is_a_look_up_too():
    token = Token(0, 4, "kite", "kite", "NOUN", "NN", "ROOT", 0, Reference("A1", "cefrpy"))
    analysis = Analysis((token,), (Sentence(0, 4, 0, 1),), ())
    assert [(word.lemma, word.level) for word in look_up(analysis, "kite", build_index(None))] == [("kite", "A1")]


@settings(max_examples=60, deadline=None)
@example(text="ca")
@given(text=st.text(alphabet="abcdeiznot '-’!?.,A_9/é \n", max_size=40))
def test_no_text_crashes_and_words_stand_in_order(text, language):
    found = words_of(text, language)
    assert all(one.end <= other.start for one, other in pairwise(found))


def test_the_house_tables_can_be_trusted():
    bands = {word: band for word, _, band, _ in rows("classroom_language.csv")}
    for word, parts, band, instead in rows("classroom_language.csv"):
        assert set(alternatives(parts)) <= PARTS, word
        assert band in CEFR_BANDS, word
        if instead in bands:
            assert CEFR_BANDS.index(bands[instead]) < CEFR_BANDS.index(band), word
    assert all(band in CEFR_BANDS for band, _ in rows("function_words.csv"))
    assert {part for _, part in childrens_words()} <= PARTS
    assert {part for _, part in near_words()} <= PARTS
    assert {"kite", "hippo", "moustache"} <= picturable_nouns()
    assert not {"economy", "idea", "love"} & picturable_nouns()


@pytest.mark.parametrize(
    ("phrase", "parts"),
    [
        ("ice-cream", ("ice", "cream")),
        ("What's your name?", ("what", "'s", "your", "name")),
        ("I don’t know", ("i", "do", "n't", "know")),
        ("can't", ("ca", "n't")),
        ("o'clock", ("o'clock",)),
        ("color", ("colour",)),
        ("", ()),
    ],
)
def test_entries_are_cut_as_the_parser_cuts_text(phrase, parts):
    assert parts_of(phrase) == parts
