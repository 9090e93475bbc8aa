"""The branches of a mind map: a nested list, a list under a bold or plain topic, `topic: word, word` in one line, or a
table with a topic at the head of each column."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from lint_rules.manuscript.model import Activity, Audience, Item, Passage, Role
from lint_rules.page.word_sets import Listed, listed_words
from lint_rules.source import Source

_TOPICS = frozenset({Role.TEXT, Role.TITLE, Role.CAPTION})
_MOST_TOPIC_WORDS = 5


@dataclass(frozen=True, slots=True)
class Branch:
    """A word on a mind map, and the topics above it, the nearest first."""

    word: Listed
    topics: tuple[str, ...]


@dataclass(slots=True)
class _Map:
    """What has been read of an activity's maps so far: the topics that hold for what comes next."""

    source: Source
    heading: tuple[str, ...] = ()
    items: dict[tuple[int, int], tuple[str, ...]] = field(default_factory=dict)
    columns: dict[tuple[int, int], str] = field(default_factory=dict)

    def branches(self, passage: Passage, *, has_branches: bool) -> Iterator[Branch]:
        topics = self._topics(passage)
        topic, words = self._split(passage)
        inner = (topic, *topics) if topic else topics
        if passage.item is not None and has_branches:
            self.items[passage.item.list, passage.item.index] = (passage.text, *inner)
            words = ()  # a branch, no word that hangs on one
        elif passage.item is not None and passage.text.rstrip().endswith((".", "!", "?")):
            words = ()  # what is said about the topic: It's red. It's blue.
        elif passage.item is None and passage.cell is None:
            if not topic or not words:
                self.heading = _heading(passage, self.heading)
                words = ()
        elif passage.role is Role.HEAD and passage.cell is not None:
            self.columns[passage.cell.table, passage.cell.column] = passage.text
            words = ()
        if inner:
            yield from (Branch(word, inner) for word in words)

    def _topics(self, passage: Passage) -> tuple[str, ...]:
        item, cell = passage.item, passage.cell
        if cell is not None:
            column = self.columns.get((cell.table, cell.column))
            return (column,) if column else ()
        if item is not None:
            return self.items.get(item.parent, ()) if item.parent is not None else self.heading
        return ()

    def _split(self, passage: Passage) -> tuple[str, tuple[Listed, ...]]:
        """`food: bread, cheese` is a topic and its words; else there are only words."""
        topic, colon, _ = passage.text.partition(":")
        words = listed_words(passage, self.source)
        if not colon:
            return "", words
        after = []
        for word in words:
            skipped = len(topic) + 1 - word.start
            if skipped > 0:  # the first word stands behind the colon, in one piece with the topic
                lead = passage.text[word.start + skipped : word.end]
                skipped += len(lead) - len(lead.lstrip())
                start = word.start + skipped
                word = Listed(passage, start, word.end, passage.text[start : word.end])
            if word.start < word.end:
                after.append(word)
        return topic.strip(), tuple(after)


def branches_of(activity: Activity, source: Source) -> Iterator[Branch]:
    """The branches of an activity's mind maps, in file order."""
    passages = [passage for passage in activity.part.passages if passage.audience is Audience.PUPIL]
    parents = {passage.item.parent for passage in passages if passage.item is not None}
    read = _Map(source)
    for passage in passages:
        yield from read.branches(passage, has_branches=_key(passage.item) in parents)


def _key(item: Item | None) -> tuple[int, int]:
    return (item.list, item.index) if item is not None else (-1, -1)


def _heading(passage: Passage, before: tuple[str, ...]) -> tuple[str, ...]:
    """A short line that is not a sentence is the topic of the lists that follow it."""
    if passage.role not in _TOPICS:
        return before
    text = passage.text.strip()
    if len(text.split()) > _MOST_TOPIC_WORDS or text.endswith((".", "?")):
        return ()
    return (text,)
