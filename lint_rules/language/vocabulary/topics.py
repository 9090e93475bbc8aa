"""The topics of a course's words, and what a set of words has in common by them.

A word has the topics of its rows in the word lists. A topic that is itself a listed word has that word's topics too
(`pet` is listed under animals, so the words of `pets` are animals), and so has a topic that names its kind in its last
word (`farm animals` are animals).
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.course.memo import memo
from lint_rules.course.model import Course, WordEntry
from lint_rules.language.inflection.forms import every_form
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.vocabulary.word_index import canonical

_LEAD = lazy_re.compile(r"(?:(?:an?|the|some|any|my|your|our|to)\s+)+", re.I)
_JOINED = frozenset(["and", "or", "&", "of", "in", "on", "at", "the", "with", "to", "for", "from"])
_EDGES = " \t\n.,;:!?…*\"“”‘’'()[]"


@lru_cache(maxsize=8_000)
def plain_word(text: str) -> str:
    """A listed word as it is compared: no article, no marks around it, lower case, British spelling, one space."""
    bare = _LEAD.sub("", " ".join(text.strip(_EDGES).split()).replace("’", "'"), count=1)
    return " ".join(canonical(word) for word in bare.split(" "))


@lru_cache(maxsize=8_000)
def topic_key(topic: str) -> str:
    """A topic as it is compared: ``Animals``, ``the animal`` and ``animals`` are one."""
    first, space, last = plain_word(topic).rpartition(" ")
    return first + space + lemma(last, "NNS", "NOUN", last)


@dataclass(frozen=True, slots=True)
class TopicList:
    """The words of a course by spelling, its topics by key, the kinds that several topics name in their last word (farm
    animals, wild animals), and which wider topics each topic belongs to."""

    exact: Mapping[str, tuple[WordEntry, ...]]
    forms: Mapping[str, tuple[WordEntry, ...]]
    names: Mapping[str, str]
    kinds: Mapping[str, str]
    wider: Mapping[str, frozenset[str]]

    def entries(self, word: str) -> tuple[WordEntry, ...]:
        """The rows of the word lists that a word is of, in any of its forms."""
        plain = plain_word(word)
        return self.exact.get(plain) or self.forms.get(plain) or ()

    def stated(self, word: str) -> frozenset[str]:
        """The topics of a word as the lists give them, as keys; empty for a word without one or not listed."""
        return frozenset(topic_key(topic) for entry in self.entries(word) for topic in entry.topics)

    def of(self, word: str) -> frozenset[str]:
        """The topics of a word and those these belong to."""
        return self.with_wider(self.stated(word))

    def with_wider(self, topics: Iterable[str]) -> frozenset[str]:
        """Topics and the wider ones they belong to."""
        found = frozenset(topics)
        return found.union(*(self.wider.get(topic, frozenset()) for topic in found))

    def named(self, text: str) -> frozenset[str]:
        """The topics that a heading names: ``Animals``, ``food and drinks`` (both must be topics of the course)."""
        key = topic_key(text)
        if key in self.names or key in self.kinds:
            return frozenset({key})
        parts = [topic_key(part) for part in re.split(r"\s*(?:,|&|/|\band\b|\bor\b)\s*", text) if part.strip()]
        return frozenset(parts) if parts and all(part in self.names for part in parts) else frozenset()

    def name(self, key: str) -> str:
        """A topic as the course writes it."""
        return self.names.get(key) or self.kinds.get(key) or key


def topics_of(course: Course) -> TopicList:
    """The topics of a course's words. Built once for the same word lists."""
    return _topics(course.words)


@memo
def _topics(words: tuple[WordEntry, ...]) -> TopicList:
    exact: dict[str, list[WordEntry]] = {}
    forms: dict[str, list[WordEntry]] = {}
    names: dict[str, str] = {}
    for entry in words:
        plain = plain_word(entry.word)
        exact.setdefault(plain, []).append(entry)
        first, space, last = plain.rpartition(" ")
        for form in every_form(last):
            forms.setdefault(first + space + form, []).append(entry)
        for topic in entry.topics:
            names.setdefault(topic_key(topic), topic)
    listed = {key: tuple(entries) for key, entries in exact.items()}
    wider = {topic: _wider(topic, listed, names) for topic in names}
    kinds: dict[str, list[str]] = {}
    for key, topic in names.items():
        if kind := _kind(key):
            kinds.setdefault(kind, []).append(topic.split()[-1])
    several = {kind: written[0] for kind, written in kinds.items() if len(written) > 1}
    return TopicList(listed, {key: tuple(entries) for key, entries in forms.items()}, names, several, wider)


def _kind(topic: str) -> str:
    """What a topic of several words is a kind of, by its last word; '' when it is not built so."""
    words = topic.split(" ")
    return words[-1] if len(words) > 1 and not _JOINED.intersection(words) else ""


def _wider(topic: str, listed: Mapping[str, Sequence[WordEntry]], names: Mapping[str, str]) -> frozenset[str]:
    found: set[str] = set()
    waiting = [topic]
    while waiting:
        key = waiting.pop()
        above = {
            topic_key(t)
            for name in {key, plain_word(names.get(key, key))}
            for e in listed.get(name, ())
            for t in e.topics
        }
        if kind := _kind(key):
            above.add(kind)
        waiting += above - found - {topic}
        found |= above
    return frozenset(found - {topic})


@dataclass(frozen=True, slots=True)
class OddOnes:
    """What a set of words allows as its odd one out: each possible word (its index) with the topic all others share."""

    answers: tuple[tuple[int, str], ...]
    certain: bool  # False where words that no list knows could change the answer


def odd_ones(words: Sequence[str], topics: TopicList) -> OddOnes:
    """The words of a set that differ in topic while all the others share one.

    A word that is in no list, or has no topic, might have any topic: ``certain`` says whether that could matter.
    """
    known = [topics.of(word) for word in words]
    answers = []
    for index, own in enumerate(known):
        others = [other for at, other in enumerate(known) if at != index and other]
        shared = frozenset.intersection(*others) - own if others else frozenset()
        if shared and (own or len(others) == len(words) - 1):
            answers.append((index, min(shared)))
    unknown = [index for index, own in enumerate(known) if not own]
    if unknown:
        enough = len(words) - len(unknown) >= 4 and len(unknown) == 1 and not answers
        return OddOnes(tuple(answers), enough)
    return OddOnes(tuple(answers) or _by_one_more_topic(words, topics), True)


def _by_one_more_topic(words: Sequence[str], topics: TopicList) -> tuple[tuple[int, str], ...]:
    """Milk among apple, bread and cake: all are food, and milk is a drink besides."""
    stated = [topics.stated(word) for word in words]
    for index, own in enumerate(stated):
        others = {other for at, other in enumerate(stated) if at != index}
        if len(others) == 1 and own != (same := next(iter(others))):
            return ((index, min(same)),)
    return ()
