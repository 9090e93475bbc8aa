"""A course's word lists, indexed once for a whole run: a course of a thousand units has tens of thousands of rows."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import cached_property
from heapq import merge
from itertools import islice

from lint_rules.course.model import Course, Level, WordEntry
from lint_rules.language.vocabulary.names import names_of_title
from lint_rules.language.vocabulary.word_index import Origin, WordIndex, build_index, canonical, near_words
from lint_rules.language.vocabulary.word_level import WordLevel

_AT_MOST = 3  # words that a message offers


class CourseWords:
    """What the rules about words ask of a course's lists."""

    def __init__(self, course: Course) -> None:
        self._words = course.words
        self.names = names_of_title(course.title)
        self.index: WordIndex = build_index(course)

    def row(self, entry: WordEntry) -> int:
        """The index of an entry in ``Course.words``."""
        return self._rows[entry.path, entry.row]

    def is_of_instructions(self, word: str) -> bool:
        """Say whether a word belongs to the language of instructions: listen, tick, circle."""
        listings = self.index.by_first.get(canonical(word), ())
        return any(item.origin is Origin.CLASSROOM and len(item.parts) == 1 for item in listings)

    def simpler(self, word: WordLevel, level: Level, unit: int) -> tuple[str, ...]:
        """Words that could serve instead: near in meaning, of the same part of speech, taught by now. At most three."""
        near = near_words().get((canonical(word.lemma), word.part_of_speech), ())
        listed = (self._of_part(item, word.part_of_speech) for item in near)
        return tuple(entry.word for entry in listed if entry is not None and taught_by(entry, level, unit))[:_AT_MOST]

    def of_topic(self, word: WordLevel, level: Level, unit: int) -> tuple[str, ...]:
        """Words of the same topic and part of speech that are taught by now. At most three."""
        if word.entry is None or word.entry.part_of_speech != "noun":
            return ()  # `jump` is no stand-in for `whisper`, but `hill` may be one for `volcano`
        return tuple(islice(self._nouns_beside(word.entry, level, unit), _AT_MOST))

    def _nouns_beside(self, entry: WordEntry, level: Level, unit: int) -> Iterator[str]:
        last = -1
        for at in merge(*(self._nouns_by_topic.get(topic, ()) for topic in set(entry.topics))):
            other = self._words[at]
            if at != last and other.word != entry.word and taught_by(other, level, unit):
                yield other.word
            last = at

    def _of_part(self, word: str, part: str) -> WordEntry | None:
        return next((one for one in self._by_word.get(word, ()) if one.part_of_speech in {"", part}), None)

    @cached_property
    def _rows(self) -> Mapping[tuple[str, int], int]:
        return {(entry.path, entry.row): at for at, entry in enumerate(self._words)}

    @cached_property
    def _by_word(self) -> Mapping[str, list[WordEntry]]:
        found: defaultdict[str, list[WordEntry]] = defaultdict(list)
        for entry in self._words:
            found[canonical(entry.word)].append(entry)
        return found

    @cached_property
    def _nouns_by_topic(self) -> Mapping[str, list[int]]:
        """Topic → indices of the nouns of it in ``Course.words``, in order."""
        found: defaultdict[str, list[int]] = defaultdict(list)
        for at, entry in enumerate(self._words):
            if entry.part_of_speech == "noun":
                for topic in dict.fromkeys(entry.topics):
                    found[topic].append(at)
        return found


def taught_by(entry: WordEntry, level: Level, unit: int) -> bool:
    """Say whether a word of the course's list is taught by a unit of a level (a word without a unit is)."""
    return entry.level < level.index or (entry.level == level.index and entry.unit <= unit)
