"""A course's word lists, indexed once for a whole run: a course of a thousand units has tens of thousands of rows."""

from collections import OrderedDict, defaultdict
from collections.abc import Mapping
from functools import cached_property, lru_cache

from lint_rules.course.memo import memo
from lint_rules.course.model import Course, Level, WordEntry
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.names import names_of_title
from lint_rules.language.vocabulary.word_families import doers_bases
from lint_rules.language.vocabulary.word_index import Origin, WordIndex, build_index, canonical, index_of, near_words
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_levels import look_up

_AT_MOST = 3  # words that a message offers
_REMEMBERED = 3_000  # texts; a unit has some hundreds
_Asked = tuple[str, tuple[str, ...], frozenset[str]]


@memo
def course_words(course: Course) -> "CourseWords":
    """The lists of a course, indexed: once, as long as it is asked for the same course."""
    return CourseWords(course)


@lru_cache(maxsize=8)
def presented_index(words: tuple[str, ...]) -> WordIndex:
    """The words that a unit presents itself, as an index."""
    return index_of(list(words), Origin.UNIT)


class CourseWords:
    """What the rules about words ask of a course's lists."""

    def __init__(self, course: Course) -> None:
        self._words = course.words
        self.names = names_of_title(course.title)
        self.index: WordIndex = build_index(course)
        self._seen: OrderedDict[_Asked, tuple[Analysis, tuple[WordLevel, ...]]] = OrderedDict()

    def look_up(
        self, analysis: Analysis, text: str, presented: tuple[str, ...], names: frozenset[str]
    ) -> tuple[WordLevel, ...]:
        """The words of a text with their levels; ``presented`` are those that its unit presents, ``names`` as in
        ``word_levels.look_up``. What was asked of late is remembered: an editor asks for a whole unit at every key."""
        asked = (text, presented, names)
        analysed, found = self._seen.get(asked, (None, ()))
        if analysed is not analysis:
            own = presented_index(presented) if presented else None
            found = look_up(analysis, text, self.index, own, names)
            self._remember(asked, analysis, found)
            if presented and not any(word.origin is Origin.UNIT for word in found):  # then they changed nothing
                self._remember((text, (), names), analysis, found)
        return found

    def _remember(self, asked: _Asked, analysis: Analysis, found: tuple[WordLevel, ...]) -> None:
        self._seen[asked] = (analysis, found)
        if len(self._seen) > _REMEMBERED:
            self._seen.popitem(last=False)

    def row(self, entry: WordEntry) -> int:
        """The index of an entry in ``Course.words``."""
        return self._rows[entry.path, entry.row]

    def is_of_instructions(self, word: str) -> bool:
        """Say whether a word belongs to the language of instructions: listen, tick, circle."""
        listings = self.index.by_first.get(canonical(word), ())
        return any(item.origin is Origin.CLASSROOM and len(item.parts) == 1 for item in listings)

    def has_family(self, word: str) -> bool:
        """Say whether a list has what a doer is made of, or another word made of it: baker, where bakery is taught."""
        bases = set(doers_bases(word))
        return bool(bases) and not bases.isdisjoint(self._families)

    def heads_a_compound(self, word: str) -> bool:
        """Say whether a word is what a listed one of several words is: gauge, where rain gauge is listed."""
        return canonical(word) in self._heads

    def is_taught_otherwise(self, word: WordLevel, level: Level, unit: int) -> bool:
        """Say whether a unit's children know a spelling by now in another way: as another part of speech (to stick, a
        stick), or as the thing itself in a listed name of it (the jar, where rain jar is taught)."""
        spelt, base = canonical(word.text), canonical(word.lemma)
        return any(
            taught_by(entry, level, unit)
            for entry in (*self._by_word.get(spelt, ()), *self._by_head.get(spelt, ()), *self._by_head.get(base, ()))
            if entry.unit or entry.level < level.index
        )

    @cached_property
    def _by_head(self) -> Mapping[str, list[WordEntry]]:
        found: dict[str, list[WordEntry]] = {}
        for entry in self._words:
            *before, last = canonical(entry.word).split() or [""]
            if before and entry.part_of_speech == "noun":
                found.setdefault(last, []).append(entry)
        return found

    @cached_property
    def _heads(self) -> frozenset[str]:
        nouns = (canonical(entry.word).split() for entry in self._words if entry.part_of_speech == "noun")
        return frozenset(parts[-1] for parts in nouns if len(parts) > 1)

    @cached_property
    def _families(self) -> frozenset[str]:
        listed = frozenset(canonical(entry.word) for entry in self._words)
        return listed | frozenset(base for word in listed for base in doers_bases(word))

    def simpler(self, word: WordLevel, level: Level, unit: int) -> tuple[str, ...]:
        """Words that could serve instead: near in meaning, of the same part of speech, taught by now. At most three."""
        near = near_words().get((canonical(word.lemma), word.part_of_speech), ())
        listed = (self._of_part(item, word.part_of_speech) for item in near)
        return tuple(entry.word for entry in listed if entry is not None and taught_by(entry, level, unit))[:_AT_MOST]

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


def taught_by(entry: WordEntry, level: Level, unit: int) -> bool:
    """Say whether a word of the course's list is taught by a unit of a level (a word without a unit is)."""
    return entry.level < level.index or (entry.level == level.index and entry.unit <= unit)
