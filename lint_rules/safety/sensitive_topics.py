"""The house list of sensitive topics, and where a text touches one of them."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.safety.signs import Sentence, heaviest
from lint_rules.safety.signs import sentences_of as signed_sentences
from lint_rules.safety.word_patterns import Finder, Hit, Pattern, exact_pattern, noun_pattern, plain_words, sentences_of
from lint_rules.tables import alternatives, rows

if TYPE_CHECKING:
    from lint_rules.safety.learned import Numbers

_TIED = lazy_re.compile(r"(?<!\w)\w+(?:[-‐‑]\w+){2,}")
WORLDWIDE = "worldwide"
_SURE_WORDS = 8  # and marks: what is shorter (Who took him?) may mean anything
_WHOLE = 5  # words and marks: a shorter piece means too little without a word of the list


@dataclass(frozen=True, slots=True)
class Topic:
    """A topic: its name, the markets that ask about it (none: every course is asked), and what it is about; ``mild``:
    most books touch it, and only a course with markets of its own asks."""

    name: str
    markets: tuple[str, ...]
    about: str
    mild: bool = False


@dataclass(frozen=True, slots=True)
class Touch:
    """The range ``start:end`` of a text touches a topic; ``sure`` is not what only its sentence seems to mean."""

    topic: Topic
    start: int
    end: int
    sure: bool = True


@cache
def topics() -> tuple[Topic, ...]:
    """The house list, in its own order."""
    return tuple(
        Topic(name, alternatives(markets), about, mild == "yes")
        for name, markets, mild, about in rows("sensitive_topics.csv")
    )


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


def touches(texts: Sequence[str]) -> list[list[Touch]]:
    """Where each text touches a topic, from left to right: by a word of the list, or by what its sentences mean.

    A learned table weighs each sentence with those around it (``topics.npz``). What it is sure of counts without a word
    of the list, and a word of the list does not count where the table is sure that it means something else.
    """
    by_list = [_by_list(text) for text in texts]
    sentences = [signed_sentences([(text, 0)], heading=-1) for text in texts]
    found = [list(listed) for listed, _ in by_list]
    weighed = [
        at for at, own in enumerate(sentences) if own and (found[at] or any(_means_something(one) for one in own))
    ]
    if weighed:
        from lint_rules.safety.learned import scores_of_texts, table  # numpy: not for a remembered run

        scores = scores_of_texts(table("topics"), [(sentences[at], ()) for at in weighed])
        for at, own in zip(weighed, scores, strict=True):
            found[at] = _weighed(*by_list[at], sentences[at], own)
    return found


def _means_something(sentence: Sentence) -> bool:
    return len({word.start for word in sentence.words}) >= _WHOLE


def _weighed(
    by_list: Sequence[Touch], harmless: Sequence[Touch], sentences: Sequence[Sentence], scores: "Numbers"
) -> list[Touch]:
    """What is found in a text by the list or by the scores of its sentences, a column a topic."""
    from lint_rules.safety.learned import shares, table

    weights = table("topics")

    def score(touch: Touch) -> float:
        ends = [(one.words[0].start, one.words[-1].end) for one in sentences]
        at = [number for number, (start, end) in enumerate(ends) if start < touch.end and end > touch.start]
        return float(scores[at, weights.names.index(touch.topic.name)].max()) if at else math.inf

    found = [touch for touch in by_list if score(touch) >= _limits()["listed"]]
    known = {touch.topic.name for touch in (*found, *harmless)}
    for column, most in enumerate(scores.max(axis=0).tolist()):
        topic = _by_name().get(weights.names[column]) if most >= _limits()["meant"] else None
        if topic is None or topic.name in known:
            continue
        whole = [at for at, one in enumerate(sentences) if _means_something(one)]
        at = max(whole, key=lambda at: scores[at, column], default=None)
        if at is not None and scores[at, column] >= _limits()["meant"]:
            start, end = heaviest(sentences[at], shares(weights, sentences[at], column))
            sure = scores[at, column] >= _limits()["sure"] and len(sentences[at].words) > _SURE_WORDS
            found.append(Touch(topic, start, end, sure=bool(sure)))
    return sorted(found, key=lambda touch: (touch.start, touch.end, touch.topic.name))


@cache
def _limits() -> Mapping[str, float]:
    return {name: float(least) for name, least in rows("topic_limits.csv")}


def listed(text: str) -> list[Touch]:
    """Where a text has a word of the list in a sense that touches its topic; the longest words count."""
    return _by_list(text)[0]


def _by_list(text: str) -> tuple[list[Touch], list[Touch]]:
    """What the list finds in a text, and words of it that stand there in a sense that the list knows as harmless."""
    found: list[Touch] = []
    let_alone: list[Touch] = []
    if not _words().may_find(text):
        return found, let_alone
    by_name = _by_name()
    for sentence in sentences_of(text):
        forms = [form.removesuffix("'s") for form in sentence.forms]
        hits = list(_words().find(forms))
        harmless = list(_harmless().find(forms)) if hits else []
        near = {word for word, _ in _harmless_near().find(forms)} if hits else set()
        for (name, word), hit in hits:
            touch = Touch(by_name[name], sentence.words[hit.start].start, sentence.words[hit.end - 1].end)
            if word in near or any(of == word and _overlap(hit, other) for of, other in harmless):
                let_alone.append(touch)
            elif any(_overlap(hit, other) and other.end - other.start > hit.end - hit.start for _, other in hits):
                continue
            elif not _is_piece(text, touch.start, touch.end):
                found.append(touch)
    return found, let_alone


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
