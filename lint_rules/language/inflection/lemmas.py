"""The dictionary form of a word as it stands in a text: what a word list would list it under.

The parser's lemma is right where its tag is; the tables here are right for the words children meet, whatever the parser
thinks. Adjectives in -ing and -ed stay adjectives (``tired``, ``interesting``); plural-only nouns stay plural.
"""

from collections.abc import Mapping
from functools import cache

from lint_rules.language.inflection.irregular import (
    irregular_degrees,
    irregular_noun_forms,
    irregular_verb_forms,
    plural_only,
)
from lint_rules.tables import rows

_PAST = frozenset({"VBD", "VBN"})
_STEMMED = frozenset({"VBG", "VBD", "VBN"})
_STRAIGHT = str.maketrans("’‘", "''")
_BE = dict.fromkeys(("am", "is", "are", "was", "were", "been", "being", "be", "'m", "'re"), "be")
_AUXILIARIES = {
    **_BE,
    **dict.fromkeys(("has", "had", "having", "have"), "have"),
    **dict.fromkeys(("does", "did", "done", "doing", "do"), "do"),
}
# Plurals that are also another word, or a verb's form: only a noun tag makes them plurals.
_NOUN_TAGS = frozenset({"NN", "NNS"})
_VOWELS = "aeiou"
# Third persons that look like others in -oes and -zzes (goes, buzzes).
_THIRD_PERSON = {"canoes": "canoe", "tiptoes": "tiptoe", "quizzes": "quiz"}


@cache
def _degrees() -> Mapping[tuple[str, str], str]:
    found: dict[tuple[str, str], str] = {}
    for one in irregular_degrees():
        for form in (*one.comparatives, *one.superlatives):
            found[form, "ADJ" if one.is_adjective else "ADV"] = one.base
    return found


@cache
def _contractions() -> Mapping[tuple[str, str], str]:
    return {(piece, tag): lemma for piece, tag, lemma in rows("contractions.csv")}


def lemma(text: str, tag: str, pos: str, parser_lemma: str) -> str:
    """The dictionary form of a word.

    ``text`` is the word as it stands (a piece of a contraction counts as a word: ``n't`` → ``not``), ``tag`` its Penn
    Treebank tag, ``pos`` its Universal Dependencies part of speech, ``parser_lemma`` what the parser makes of it. Lower
    case, but for names and ``I``.
    """
    word = text.translate(_STRAIGHT).casefold()
    piece = _contractions().get((word, tag)) or _contractions().get((word, ""))
    if piece is not None:
        return piece
    if pos == "PROPN":
        return text
    if word == "i":
        return "I"
    found = _BY_POS.get(pos, _as_parsed)(word, tag, parser_lemma.translate(_STRAIGHT).casefold())
    return "I" if found == "i" else found


def _as_parsed(word: str, tag: str, parsed: str) -> str:
    return parsed or word


def _verb(word: str, tag: str, parsed: str) -> str:
    if word in _AUXILIARIES:
        return _AUXILIARIES[word]
    if tag in _PAST and word in irregular_verb_forms():
        return irregular_verb_forms()[word]
    if tag in {"VB", "VBP", "MD"}:
        return word
    if word == "'s":
        return parsed if parsed in {"be", "have", "do"} else "be"
    if tag == "VBZ":  # by the spelling rule: the parser makes `rid` of rides
        return _THIRD_PERSON.get(word) or (_without_s(word) if word.endswith("s") else parsed or word)
    if parsed and parsed != word:
        return parsed + "e" if tag in _STEMMED and _lost_its_e(parsed, word) else parsed
    return {"VBG": _without_ing, "VBD": _without_ed, "VBN": _without_ed}.get(tag, str)(word)


def _noun(word: str, tag: str, parsed: str) -> str:
    if word in plural_only():
        return word
    if tag in _NOUN_TAGS and word in irregular_noun_forms():
        return irregular_noun_forms()[word]
    if tag != "NNS":
        return word
    return parsed if parsed and parsed != word else _without_s(word)


def _adjective(word: str, tag: str, parsed: str) -> str:
    if tag not in {"JJR", "JJS"}:
        return word[:-4] + "y" if word.endswith("iest") else word  # no adjective ends in -iest of itself
    return _degrees().get((word, "ADJ")) or (parsed if parsed and parsed != word else _without_degree(word, tag))


def _adverb(word: str, tag: str, parsed: str) -> str:
    if tag not in {"RBR", "RBS"}:
        return word
    return _degrees().get((word, "ADV")) or (parsed if parsed and parsed != word else _without_degree(word, tag))


def _other(word: str, tag: str, parsed: str) -> str:
    return word


_BY_POS = {
    "VERB": _verb,
    "AUX": _verb,
    "NOUN": _noun,
    "ADJ": _adjective,
    "ADV": _adverb,
    "ADP": _other,
    "CCONJ": _other,
    "SCONJ": _other,
    "INTJ": _other,
    "NUM": _other,
    "DET": _other,
}


# What the spelling rules of English give where parser and tables are silent.


def _without_s(word: str) -> str:
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes", "zzes", "oes", "cuses")) and not word.endswith("aches"):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def _without_ing(word: str) -> str:
    if word.endswith("ying") and len(word) == 5 and word[0] in "ldtv":  # lying, dying, tying, vying
        return word[0] + "ie"
    return _stem(word[:-3]) if word.endswith("ing") and len(word) > 5 else word


def _without_ed(word: str) -> str:
    if word.endswith("ied") and len(word) > 4:
        return word[:-3] + "y"
    return _stem(word[:-2]) if word.endswith("ed") and len(word) > 4 else word


def _without_degree(word: str, tag: str) -> str:
    ending = "er" if tag in {"JJR", "RBR"} else "est"
    if not word.endswith(ending) or len(word) <= len(ending) + 2 or word in {"more", "most", "less", "least"}:
        return word
    stem = word[: -len(ending)]
    return stem[:-1] + "y" if stem.endswith("i") else _stem(stem)


def _stem(stem: str) -> str:
    """Undo what an ending does to its stem: the doubled consonant (stopp-), the dropped e (mak-)."""
    if len(stem) > 3 and stem[-1] == stem[-2] and stem[-1] not in "aeiouslfz":
        return stem[:-1]
    dropped = stem.endswith(("c", "v", "z", "dg", "bl", "tl", "dl", "gl", "pl", "chang", "rang")) or _closed(stem)
    return stem + "e" if dropped else stem


def _closed(stem: str) -> bool:
    """One short vowel between consonants (hop-): its last letter would be doubled if no e had been dropped."""
    vowels = sum(char in _VOWELS for char in stem)
    return len(stem) > 2 and vowels == 1 and stem[-2] in _VOWELS and stem[-1] not in "aeiouwxy"


def _lost_its_e(parsed: str, word: str) -> bool:
    return _closed(parsed) and word in {parsed + "ing", parsed + "ed"}
