"""What can be said of a word by its form and by what the parser calls it, before any list is asked."""

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS, band_rank
from lint_rules.language.inflection.forms import noun_forms
from lint_rules.language.inflection.lemmas import lemma as lemma_of
from lint_rules.language.tokens import Token
from lint_rules.language.vocabulary.reference import COMMON, common, graded, is_a, lowest
from lint_rules.language.vocabulary.word_index import canonical, childrens_words, picturable_nouns
from lint_rules.tables import entries

# Universal Dependencies part of speech → the word lists' name.
PART_OF_SPEECH = {
    "NOUN": "noun",
    "PROPN": "noun",
    "VERB": "verb",
    "AUX": "verb",
    "ADJ": "adjective",
    "ADV": "adverb",
    "PRON": "pronoun",
    "DET": "determiner",
    "ADP": "preposition",
    "SCONJ": "conjunction",
    "CCONJ": "conjunction",
    "NUM": "number",
    "INTJ": "interjection",
    "PART": "adverb",
}
# A list's part of speech → what the parser may call such a word. Parser and lists draw the lines of the small classes
# differently; between noun, verb, adjective and adverb they agree.
_SMALL = frozenset({"PRON", "DET", "ADP", "SCONJ", "CCONJ", "PART", "ADV", "NUM", "AUX", "INTJ"})
READ_AS = {
    "noun": frozenset({"NOUN", "PROPN"}),
    "verb": frozenset({"VERB", "AUX"}),
    "adjective": frozenset({"ADJ"}),
    "adverb": frozenset({"ADV", "ADP", "PART", "SCONJ", "INTJ", "CCONJ"}),
    "preposition": frozenset({"ADP", "ADV", "SCONJ", "PART"}),
    "conjunction": frozenset({"CCONJ", "SCONJ", "ADP", "ADV", "PRON"}),
    "pronoun": _SMALL | {"ADJ", "NOUN"},
    "determiner": _SMALL | {"ADJ"},
    "number": frozenset({"NUM", "NOUN", "ADJ", "PRON", "ADV", "DET"}),
    "function": _SMALL | {"ADJ"},
}
HYPHEN = lazy_re.compile("[-‐‑–]")
_ENDINGS = frozenset({"s", "es", "d", "ed", "ing", "er", "est", "ly"})
# Unicode CLDR 44, English: days and months cut short; the last ones are common besides.
_DAYS_AND_MONTHS = frozenset(
    (
        "Mon",
        "Tue",
        "Wed",
        "Thu",
        "Fri",
        "Sat",
        "Sun",
        "Jan",
        "Feb",
        "Mar",
        "Apr",
        "Jun",
        "Jul",
        "Aug",
        "Sep",
        "Oct",
        "Nov",
        "Dec",
        "Sept",
        "Tues",
        "Weds",
        "Thur",
        "Thurs",
    )
)
_MEASURES = frozenset({"min", "mins", "hr", "hrs", "sec", "secs", "tsp", "tbsp", "oz", "lb", "lbs", "ft", "etc", "vs"})
_POSSESSIVES = frozenset({"my", "your", "his", "her", "its", "our", "their"})
_HALF_DAY = lazy_re.compile(r"[ap]\.m\.?$|pm$")
_NOTATION = lazy_re.compile(r"[/@]|://|^www\.")  # /kæt/, an address


def is_word(token: Token) -> bool:
    """Say whether a token is a word: no mark, gap, possessive ending, address or piece of notation."""
    return token.tag not in {"GAP", "POS"} and token.pos not in {"PUNCT", "SYM", "SPACE"} and _is_spelt(token.text)


@lru_cache(maxsize=8_000)
def _is_spelt(word: str) -> bool:
    return any(char.isalnum() for char in word) and "_" not in word and not _NOTATION.search(word)


def keys_of(token: Token) -> tuple[str, ...]:
    """What a word may be listed under: as it stands, its lemma, and for forms in -ing and -ed their verb."""
    return _keys(token.text, token.lemma, token.pos)


@lru_cache(maxsize=8_000)
def _keys(text: str, lemma: str, pos: str) -> tuple[str, ...]:
    word = canonical(text)
    keys = [word, canonical(lemma)]
    if pos in {"NOUN", "ADJ"} and word.endswith(("ing", "ed")):
        keys.append(_verb(text))
    elif pos in {"NOUN", "PROPN", "VERB", "ADJ", "X"} and word.endswith("s") and not word.endswith("ss"):
        keys += [canonical(lemma_of(text, "NNS", "NOUN", "")), word[:-1]]
    if pos == "NOUN" and word == canonical(lemma):
        keys += sorted(noun_forms(word) - {word})  # a list may have the plural: boots
    if base := positive(word):
        keys.append(base)
    return tuple(dict.fromkeys([*keys, *(HYPHEN.sub("", key) for key in keys)]))


def verb_of(token: Token) -> str:
    """The verb that an adjective or a noun in -ing or -ed is made from ('' for other words): boiling → boil."""
    word = canonical(token.text)
    if token.pos not in {"ADJ", "NOUN"} or not word.endswith(("ing", "ed")):
        return ""
    verb = _verb(token.text)
    return verb if verb != word and is_a(verb, "VERB") else ""


def _verb(text: str) -> str:
    return canonical(lemma_of(text, "VBG" if canonical(text).endswith("ing") else "VBD", "VERB", ""))


def base_of_degree(token: Token) -> str:
    """The adjective that a superlative, or what the parser calls a comparative, is made from ('' for other words):
    saltiest → salty, whatever the parser takes it for."""
    word = canonical(token.text)
    if word.endswith("est") or token.tag in {"JJR", "RBR"}:
        return positive(word)
    return ""


@lru_cache(maxsize=8_000)
def positive(word: str) -> str:
    """The adjective whose superlative or comparative a word may be ('' where it is none): proudest → proud."""
    for tag, ending in (("JJS", "est"), ("JJR", "er")):
        if word.endswith(ending) and len(word) > len(ending) + 2:
            base = canonical(lemma_of(word, tag, "ADJ", ""))
            return base if base != word and (ending == "est" or is_a(base, "ADJ")) else ""
    return ""


def ends_a_gap(tokens: Sequence[Token], at: int) -> bool:
    """Say whether what stands here ends the word in the gap before it: ____ing."""
    if not at or tokens[at - 1].tag != "GAP":
        return False
    return tokens[at - 1].end == tokens[at].start or tokens[at].text.casefold() in _ENDINGS


def abbreviates(word: str, text: str) -> bool:
    """Say whether a word is a day, a month or a measure cut short (Wed, Sept, min), or initials (DS)."""
    plain = word.rstrip(".")
    if plain in _DAYS_AND_MONTHS or plain.casefold() in _MEASURES:
        return True
    return 1 < len(plain) < 4 and plain.isupper() and not text.isupper() and lowest(plain) in {"", "C2"}


def stands_for(part: str, token: Token) -> bool:
    """Say whether a word of an entry is this word; `my` of a list is anybody's: brush my teeth, brush your teeth."""
    return part in keys_of(token) or (part in _POSSESSIVES and canonical(token.text) in _POSSESSIVES)


def is_ordinary_noun(word: str) -> bool:
    """Say whether a word with a capital is an ordinary noun all the same, as far as the references know."""
    if (word, "noun") in childrens_words() or word in picturable_nouns():
        return True
    level = graded(word, "NOUN")
    return bool(level) and level != "C2"


def in_title_case(tokens: Sequence[Token]) -> bool:
    """Say whether a text is set as titles are, with a capital on every word of any length."""
    long = [token.text for token in tokens if token.text.isalpha() and len(token.text) > 3]
    return len(long) > 1 and tokens[-1].text != "." and all(word[0].isupper() for word in long)


def is_number(word: str) -> bool:
    """Say whether a word is a figure or a number word."""
    return any(char.isdigit() for char in word) or word in entries("numbers.txt") or bool(_HALF_DAY.match(word))


def is_bare(tokens: Sequence[Token]) -> bool:
    """Say whether a text is a word by itself, or words in a row: its parts of speech are guesses."""
    words = [token for token in tokens if is_word(token)]
    return len(words) == 1 or all(after.start - before.end > 1 for before, after in pairwise(words))


def hyphened(token: Token) -> tuple[str, ...]:
    """The words of which a word is made with hyphens, as they are compared: first, aid; nothing for any other."""
    return tuple(canonical(token.text).split("-")) if "-" in token.text else ()


def graded_by_parts(token: Token, listed: Callable[[str], bool]) -> str:
    """The level of a word that the reference has not, by the words it is made of: lunch + box, round-ended; those that
    are ``listed`` (lost-luggage, where a course knows luggage) are easy."""
    word = canonical(token.text if "-" in token.text else token.lemma)
    if "-" in word:
        levels = [CEFR_BANDS[0] if listed(part) else lowest(part) for part in word.split("-") if part]
        return max(levels, key=band_rank) if all(levels) else ""
    if token.pos not in {"NOUN", "PROPN"}:
        return ""
    for cut in range(3, len(word) - 2):
        pair = (word[:cut], word[cut:])
        easy = all(graded(part, "NOUN") in {"A1", "A2"} for part in pair)
        if easy and all(common(part) >= COMMON for part in pair):
            return max(graded(part, "NOUN") for part in pair)
    return ""
