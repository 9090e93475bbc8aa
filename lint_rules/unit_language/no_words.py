"""What only looks like a word of the level where it is met: letters, endings, codes, names of streets, spellings."""

from lint_rules import lazy_re
from lint_rules.language.vocabulary.noises import is_coded
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import compounds
from lint_rules.page.exercises.edits import filled_ranges
from lint_rules.unit_language.unit_words import Met

_SPELT = lazy_re.compile(r"[^\W\d_](?:[-‐‑–][^\W\d_])+")
_ODD = lazy_re.compile(r"[:;()=/]")
_CUT_UP = lazy_re.compile(r"\W*(?:\d{1,2}\W+)?[^\W\d_]{0,5} ?_{2,} ?[^\W\d_]{0,5}\W*")  # bl ____ ck; 3 bru ____
_EASY = frozenset({"A1", "A2", "B1"})  # a reference of adults' English has bl and ck as well
_CONTRACTED = frozenset({"ve", "re", "ll"})
_NEXT_WORD = lazy_re.compile(r"[ -]([^\W\d_]+)")
_LETTERS = 3  # of an ending
_HOUSE = lazy_re.compile(r"(?:^|\n)\d{1,3}[a-z]? (?:[A-Z]\w* )*$")  # 14 Mill Rd


def is_no_word(met: Met) -> bool:
    """Say whether something only looks like a word: t-i-p, msg :-), the Mill of 14 Mill Rd, an ending in bold or behind
    an arrow (y → ied), a piece of a word around a blank (bl ____ ck), a message in a code."""
    text, word = met.passage.text, met.word
    if word.entry is None and lowest(word.text) not in _EASY and _CUT_UP.fullmatch(text):
        return True
    if word.text.casefold().endswith(("n't", "n’t")):
        return True  # mustn't: grammar
    if is_contracted(met):
        return True
    if _SPELT.fullmatch(word.text) or _ODD.search(word.text) or (word.text.isupper() and is_coded(text)):
        return True
    if len(word.text) <= _LETTERS:
        set_off = not word.band and (word.start, word.end) in met.passage.strong  # consonant and y: **ied**
        if set_off or text[: word.start].rstrip().endswith(("→", "+")):
            return True
    return word.entry is None and word.text[:1].isupper() and _HOUSE.search(text[: word.start]) is not None


def is_contracted(met: Met) -> bool:
    """Say whether a word is what is left of one, to be put behind a name: 've got."""
    return met.word.text in _CONTRACTED and met.passage.text[: met.word.start].endswith(("'", "’"))


def begins_a_compound(met: Met) -> bool:
    """Say whether a word and the next one are one thing, or one adverb: a polar bear, upside down."""
    behind = _NEXT_WORD.match(met.passage.text, met.word.end)
    if behind is None:
        return False
    second = behind[1].casefold()
    return any(f"{met.word.text.casefold()} {one}" in compounds() for one in (second, second.removesuffix("s")))


def is_spelling(met: Met) -> bool:
    """Say whether letters are spoken of where sounds are practised (the same sound, with ee), and no word is meant."""
    activity, word = met.place.activity, met.word
    return activity is not None and "sounds" in activity.kinds and len(word.text) < _LETTERS and word.entry is None


def is_filled_in(met: Met) -> bool:
    """Say whether a word stands in a blank, as the key fills it: that may be read otherwise than it is meant."""
    return any(start < met.word.end and met.word.start < end for start, end in filled_ranges(met.passage))
