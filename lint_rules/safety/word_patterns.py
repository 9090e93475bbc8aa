"""Words, sentences and patterns of words: plain text in, ranges of words out."""

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Generic, NamedTuple, TypeVar

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import noun_forms
from lint_rules.plain_words import PART

Pattern = tuple[frozenset[str], ...]
Key = TypeVar("Key")

_SENTENCE_END = lazy_re.compile(r"[.!?…]+[\"'”’)\]]*(?=\s|$)|\n|;|•")
_ABBREVIATION = lazy_re.compile(r"\b(?:e\.g|i\.e|etc|approx|min|mins|vs|no|p|pp)\.$", re.I)
# Bounded, so that a mark that is never closed costs no more than a long sentence.
_QUOTED = lazy_re.compile(r"“[^”\n]{0,400}”|\"[^\"\n]{0,400}\"|(?<!\w)[‘'](?=\w)[^\n]{0,400}?[\w.!?,][’'](?!\w)")
_LONGEST = 120  # words; what runs on longer is read in pieces


class Word(NamedTuple):
    """A word: lower case, its range of the text, and what stands before it."""

    form: str
    start: int
    end: int
    joined: bool  # by a hyphen to the word before
    after_mark: bool  # a comma, a bracket … stands between it and the word before
    after_colon: bool
    capital_i: bool  # it is the word I


class Hit(NamedTuple):
    """Words ``start:end`` of a sentence match a pattern."""

    start: int
    end: int


@dataclass(frozen=True)
class Sentence:
    """A sentence: its words, whether it asks, and which of its words stand in quotation marks."""

    words: tuple[Word, ...]
    question: bool
    quoted: frozenset[int]

    @cached_property
    def forms(self) -> tuple[str, ...]:
        """The words without their places."""
        return tuple(word.form for word in self.words)


@lru_cache(maxsize=1000)  # several rules ask for the words of the same notes
def words_of(text: str) -> tuple[Word, ...]:
    """The words of a text; a hyphened word is several, joined."""
    words: list[Word] = []
    last = 0
    for match in PART.finditer(text):
        between = text[last : match.start()]
        joined = bool(words) and between in ("-", "‐", "‑")
        mark = bool(between.strip()) and not joined
        form = _form(match.group())
        words.append(Word(form, match.start(), match.end(), joined, mark, ":" in between, match.group() == "I"))
        last = match.end()
    return tuple(words)


def _form(word: str) -> str:
    return word.casefold().replace("’", "'")


@lru_cache(maxsize=1000)
def sentences_of(text: str) -> tuple[Sentence, ...]:
    """The sentences of a text; a line, a bullet or a semicolon ends one too."""
    return tuple(_sentences(text))


def _sentences(text: str) -> Iterator[Sentence]:
    quoted = [match.span() for match in _QUOTED.finditer(text)]
    openings = [start for start, _ in quoted]
    words = words_of(text)
    at = first = 0
    ends = [
        (match.start(), match.group())
        for match in _SENTENCE_END.finditer(text)
        if not _abbreviates(text, match.start())
    ]
    for end, mark in [*ends, (len(text), "")]:
        while at < len(words) and words[at].end <= end:
            at += 1
        for start in range(first, at, _LONGEST):
            part = words[start : min(start + _LONGEST, at)]
            inside = (i for i, word in enumerate(part) if _is_inside(word.start, quoted, openings))
            yield Sentence(part, "?" in mark, frozenset(inside))
        first = at


def _is_inside(offset: int, ranges: Sequence[tuple[int, int]], starts: Sequence[int]) -> bool:
    """Say whether an offset lies in one of these ranges, which follow one another."""
    index = bisect_right(starts, offset) - 1
    return index >= 0 and offset < ranges[index][1]


def plain_words(entry: str) -> list[str]:
    """The words of a table's entry, hyphens taken as spaces."""
    return [word.form for word in words_of(entry)]


def noun_pattern(entry: str) -> Pattern:
    """A noun of one or several words, in singular and plural."""
    *before, last = plain_words(entry)
    forms = noun_forms(last)
    return (*(frozenset({word}) for word in before), forms | {form + "'s" for form in forms})


def exact_pattern(entry: str) -> Pattern:
    """Exactly these words."""
    return tuple(frozenset({word}) for word in plain_words(entry))


class Finder(Generic[Key]):
    """Finds many patterns in one pass over a sentence's words."""

    def __init__(self, patterns: Sequence[tuple[Pattern, Key]]) -> None:
        self._by_first: dict[str, list[tuple[Pattern, Key]]] = {}
        for pattern, key in patterns:
            for form in pattern[0]:
                self._by_first.setdefault(form, []).append((pattern, key))

    def may_find(self, text: str) -> bool:
        """Say whether a text has a word that one of the patterns begins with, as it stands or as an owner ('s)."""
        found = (_form(word) for word in PART.findall(text))
        return any(form in self._by_first or form.removesuffix("'s") in self._by_first for form in found)

    def find(self, forms: Sequence[str]) -> Iterator[tuple[Key, Hit]]:
        """Every occurrence, from left to right."""
        for start, form in enumerate(forms):
            for pattern, key in self._by_first.get(form, ()):
                end = start + len(pattern)
                if end <= len(forms) and all(forms[start + i] in allowed for i, allowed in enumerate(pattern)):
                    yield key, Hit(start, end)


def longest(found: Iterator[tuple[Key, Hit]]) -> list[tuple[Key, Hit]]:
    """The hits that are not part of a longer one (`egg` in `egg box`)."""
    hits = list(found)
    return [
        (key, hit)
        for key, hit in hits
        if not any(o.start <= hit.start and hit.end <= o.end and o.end - o.start > hit.end - hit.start for _, o in hits)
    ]


def _abbreviates(text: str, at: int) -> bool:
    return text.startswith(".", at) and _ABBREVIATION.search(text[max(0, at - 8) : at + 1]) is not None
