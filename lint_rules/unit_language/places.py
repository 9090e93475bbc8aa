"""Where things are, in the words of a sentence: under the old desk."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.unit_language.option_support import content_words

PLACES = ("in front of", "next to", "behind", "under", "above", "below", "between", "near", "on", "in")
_PLACE = lazy_re.compile(rf"\b(?:{'|'.join(PLACES)})\b", re.I)
_ON_TOP = lazy_re.compile(r"\bon top of\b", re.I)
_WORD = lazy_re.compile(r"[^\W\d_]+")
_NEAR = 4  # words behind a place word: the, two more, and the spot


def places_of(spot: frozenset[str], sentence: str) -> Iterator[str]:
    """The place words that stand before a spot (its word as words are compared) in a sentence, with two words between
    at most, in lower case."""
    sentence = _ON_TOP.sub("on", sentence)
    marks = list(_PLACE.finditer(sentence))
    ends = [*(one.start() for one in marks[1:]), len(sentence)] if marks else []
    for match, end in zip(marks, ends, strict=True):
        if any(content_words(word) == spot for word in _WORD.findall(sentence[match.end() : end])[:_NEAR]):
            yield match[0].casefold()


def places_in(text: str) -> Iterator[str]:
    """The place words of a text, in lower case."""
    return (match[0].casefold() for match in _PLACE.finditer(text))


def last_word(text: str) -> frozenset[str]:
    """The last word of a text, as words are compared; empty where that means nothing by itself."""
    return content_words((_WORD.findall(text) or [""])[-1])
