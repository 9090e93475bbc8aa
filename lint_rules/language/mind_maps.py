"""The branches of a mind map: a nested list, a list under a bold or plain topic, or `topic: word, word` in one line."""

from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.language.word_sets import Listed, listed_words
from lint_rules.manuscript.model import Activity, Audience, Passage, Role

_TOPICS = frozenset({Role.TEXT, Role.TITLE, Role.CAPTION})
_MOST_TOPIC_WORDS = 5


@dataclass(frozen=True, slots=True)
class Branch:
    """A word on a mind map, and the topics above it, the nearest first."""

    word: Listed
    topics: tuple[str, ...]


def branches_of(activity: Activity) -> Iterator[Branch]:
    """The branches of an activity's mind maps, in file order."""
    above: dict[tuple[int, int], tuple[str, ...]] = {}  # item → topics that hold for what hangs under it
    parents = {p.item.parent for p in activity.part.passages if p.item is not None and p.item.parent is not None}
    heading: tuple[str, ...] = ()
    for passage in activity.part.passages:
        if passage.audience is not Audience.PUPIL:
            continue
        item = passage.item
        if item is None:
            heading = _heading(passage, heading)
            continue
        held = above.get(item.parent, ()) if item.parent is not None else heading
        topic, words = _split(passage)
        inner = (topic, *held) if topic else held
        if (item.list, item.index) in parents:
            above.setdefault((item.list, item.index), (passage.text, *inner))
        if inner:
            yield from (Branch(word, inner) for word in words)


def _heading(passage: Passage, before: tuple[str, ...]) -> tuple[str, ...]:
    """A short line that is not a sentence is the topic of the lists that follow it."""
    if passage.role not in _TOPICS:
        return before
    text = passage.text.strip()
    if len(text.split()) > _MOST_TOPIC_WORDS or text.endswith((".", "?")):
        return ()
    return (text,)


def _split(passage: Passage) -> tuple[str, tuple[Listed, ...]]:
    """`food: bread, cheese` is a topic and its words; else there are only words."""
    topic, colon, _ = passage.text.partition(":")
    words = listed_words(passage)
    if not colon or not words:
        return "", words
    return topic.strip(), tuple(word for word in words if word.start > len(topic))
