"""Parts of speech that a capital or a short line hides from the model: common nouns, numbers, interjections."""

from functools import cache

from lint_rules import tables
from lint_rules.language.inflection import verb_forms
from lint_rules.language.inflection.irregular import irregular_noun_forms
from lint_rules.language.parsing.words import NOUN, Text, Word
from lint_rules.language.vocabulary.reference import graded, is_only_adjective

_PROPER = {"NNP": "NN", "NNPS": "NNS"}


@cache
def _common_nouns() -> frozenset[str]:
    """Nouns that can be drawn and some that cannot, but for those that are also somebody's name."""
    return (tables.words("picturable_nouns") | tables.words("common_nouns")) - tables.words("given_names")


def _is_common(word: str) -> bool:
    known = _common_nouns()
    return word in known or word.removesuffix("s") in known or word.removesuffix("es") in known


def common_nouns(text: Text) -> None:
    """`DOGS bark.`, `orange juice`: a common noun at the start of a sentence, or in small letters, is no name."""
    starts = {start for start, _ in text.sentences}
    for word in text.words:
        if word.tag not in _PROPER or word.name or word.gap:
            continue
        if word.capital and not (word.index in starts and _is_common(word.lower)):
            continue
        plural = word.tag == "NNPS" or (word.lower.endswith("s") and not word.lower.endswith(("ss", "us", "is")))
        word.retag("NNS" if plural else "NN", "NOUN", word.lemma.lower())


def plurals(text: Text) -> None:
    """`three GEESE`: an irregular plural is a noun."""
    known = irregular_noun_forms()
    for word in text.words:
        if word.lower in known and word.tag in ("JJ", "RB", "NN", "NNP") and known[word.lower] != word.lower:
            word.retag("NNS", "NOUN", known[word.lower])


def numbers_and_calls(text: Text) -> None:
    """`Twelve cats`, `Yuck!`, `Oops!`: words of closed classes, whatever their capital makes of them."""
    numbers, calls = tables.words("numbers"), tables.words("interjections")
    for word in text.words:
        if word.tag in NOUN or word.tag in ("RB", "JJ", "FW"):
            if word.lower in numbers and word.tag != "NNS":
                word.retag("CD", "NUM", word.lower)
            elif word.lower in calls:
                word.retag("UH", "INTJ", word.lower)


def _is_determined(text: Text, word: Word) -> bool:
    return any(text.words[index].dep in ("det", "poss", "nummod", "amod") for index in word.children)


def third_person_in_a_row(text: Text) -> None:
    """`She sings and DANCES.`: what is coordinated with a third person is one, if it can be and has no determiner."""
    for word in text.words:
        if word.tag == "NNS" and word.dep == "conj" and not _is_determined(text, word):
            head = text.words[word.head]
            base = verb_forms.s_base(word.lower)
            beside = bool(base) and head.tag == "NN" and _rather_verb(base) and _after_third_person(text, word)
            if base and (head.tag == "VBZ" or beside):
                word.retag("VBZ", "VERB", base)


def _rather_verb(base: str) -> bool:
    """Say whether a word is met as a verb long before it is met as a noun: wait, not garden."""
    return graded(base, "VERB") in ("A1", "A2") and graded(base, "NOUN") in ("", "B2", "C1", "C2")


def _after_third_person(text: Text, word: Word) -> bool:
    """`He sits in the van and WAITS.`"""
    start = next(start for start, end in text.sentences if start <= word.index < end)
    return any(other.tag == "VBZ" for other in text.words[start : word.index])


def adjectives(text: Text) -> None:
    """`____ you HUNGRY?`: what can only be an adjective is none of the verbs that a gap makes the model look for."""
    for word in text.words:
        if word.tag in ("VB", "VBP") and not word.gap and is_only_adjective(word.lower):
            word.retag("JJ", "ADJ", word.lower)


STEPS = (common_nouns, plurals, numbers_and_calls, third_person_in_a_row, adjectives)
