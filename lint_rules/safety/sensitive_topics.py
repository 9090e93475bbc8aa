"""The house list of sensitive topics, and where a text touches one of them."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.safety.word_patterns import Finder, Hit, Pattern, exact_pattern, noun_pattern, plain_words, sentences_of
from lint_rules.tables import alternatives, rows

_TIED = re.compile(r"(?<!\w)\w+(?:[-‐‑]\w+){2,}")
WORLDWIDE = "worldwide"


@dataclass(frozen=True, slots=True)
class Topic:
    """A topic: its name, the markets that ask about it (none: every course is asked), and what it is about."""

    name: str
    markets: tuple[str, ...]
    about: str


@dataclass(frozen=True, slots=True)
class Touch:
    """The range ``start:end`` of a text touches a topic."""

    topic: Topic
    start: int
    end: int


@cache
def topics() -> tuple[Topic, ...]:
    """The house list, in its own order."""
    return tuple(Topic(name, alternatives(markets), about) for name, markets, about in rows("sensitive_topics.csv"))


def market_names() -> frozenset[str]:
    """The markets that the list knows, ``worldwide`` among them."""
    return frozenset({WORLDWIDE, *(market for topic in topics() for market in topic.markets)})


def unknown_markets(markets: Sequence[str]) -> list[str]:
    """Those of these markets that the list does not know."""
    return [market for market in markets if _plain(market) not in market_names()]


def asked_topics(markets: Sequence[str], cleared: Sequence[str]) -> frozenset[str]:
    """Names of the topics to ask about in a course for these markets.

    A market that the list does not know asks about everything: better asked in vain than not asked.
    """
    wanted = {_plain(market) for market in markets}
    everything = WORLDWIDE in wanted or bool(unknown_markets(markets))
    off = {_plain(name) for name in cleared}
    return frozenset(
        topic.name
        for topic in topics()
        if topic.name not in off and (everything or not topic.markets or not wanted.isdisjoint(topic.markets))
    )


def touches(text: str) -> list[Touch]:
    """Where a text touches a topic of the list, from left to right; the longest words count."""
    by_name = _by_name()
    found: list[Touch] = []
    for sentence in sentences_of(text):
        forms = [form.removesuffix("'s") for form in sentence.forms]
        hits = list(_words().find(forms))
        harmless = list(_harmless().find(forms)) if hits else []
        near = {word for word, _ in _harmless_near().find(forms)} if hits else set()
        for (name, word), hit in hits:
            if word in near or any(of == word and _overlap(hit, other) for of, other in harmless):
                continue
            if any(_overlap(hit, other) and other.end - other.start > hit.end - hit.start for _, other in hits):
                continue
            words = sentence.words
            if _is_piece(text, words[hit.start].start, words[hit.end - 1].end):
                continue
            found.append(Touch(by_name[name], words[hit.start].start, words[hit.end - 1].end))
    return found


def _is_piece(text: str, start: int, end: int) -> bool:
    """Say whether hyphens tie a word to two others or more: the rum of rum-a-tum is none."""
    whole = next((word for word in _TIED.finditer(text) if word.start() <= start < word.end()), None)
    return whole is not None and end <= whole.end()


@cache
def _by_name() -> Mapping[str, Topic]:
    return {topic.name: topic for topic in topics()}


def _overlap(one: Hit, other: Hit) -> bool:
    return one.start < other.end and other.start < one.end


@cache
def _words() -> Finder[tuple[str, str]]:
    return Finder([(_pattern(word, as_), (topic, word)) for topic, word, as_, _ in rows("sensitive_words.csv")])


@cache
def _harmless() -> Finder[str]:
    """Word combinations in which a word is harmless."""
    return Finder([(_loose(decoy), word) for word, decoy in _decoys() if not decoy.startswith("~")])


@cache
def _harmless_near() -> Finder[str]:
    """Words that make a word harmless from anywhere in its sentence."""
    return Finder([(_loose(decoy), word) for word, decoy in _decoys() if decoy.startswith("~")])


def _decoys() -> list[tuple[str, str]]:
    return [(word, decoy) for _, word, _, decoys in rows("sensitive_words.csv") for decoy in alternatives(decoys)]


def _pattern(word: str, as_: str) -> Pattern:
    if as_ == "noun":
        return noun_pattern(word)
    if as_ == "exact":
        return exact_pattern(word)
    first, *after = plain_words(word)
    return (every_form(first), *(frozenset({part}) for part in after))


def _loose(decoy: str) -> Pattern:
    """A harmless use: its longer words in every form, so that ``good shot`` covers ``good shots``."""
    return tuple(every_form(word) if len(word) > 3 else noun_forms(word) for word in plain_words(decoy))


def _plain(name: str) -> str:
    return "-".join(name.casefold().replace("_", " ").replace("-", " ").split())
