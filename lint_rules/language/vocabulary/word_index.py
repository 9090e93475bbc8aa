"""All the words a course may take for granted, in one index: its own lists first, then what is built in.

The order of authority, the highest first:

1. the course's word lists (a spelling taught as another part of speech is only mentioned);
2. words that the unit presents itself (in a `words` panel, or under Words in the teacher's notes);
3. names: the course's characters and places, and proper nouns;
4. words that the course says every child knows (`known`);
5. function words, numbers, greetings;
6. the language of instructions;
7. interjections and noises;
8. the general reference, and last how common a word is (`reference.py`).

Entries of several words go before the words they are made of, whether the text writes them open (``ice cream``),
hyphened or solid. A word list that has a British or an American spelling is taken to have both.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache, lru_cache

from lint_rules import lazy_re
from lint_rules.course.model import Course, Level, WordEntry
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.tables import alternatives, entries, rows


class Origin(StrEnum):
    """Where a word's level is from, in order of authority."""

    COURSE = "course"
    UNIT = "unit"
    NAME = "name"
    KNOWN = "known"
    FUNCTION = "function word"
    NUMBER = "number"
    GREETING = "greeting"
    CLASSROOM = "classroom language"
    SOUND = "sound"
    REFERENCE = "cefrpy"
    FREQUENCY = "frequency"
    UNKNOWN = ""

    @property
    def rank(self) -> int:
        """Place in the order of authority, from 0."""
        return _RANKS[self]


_RANKS = {origin: rank for rank, origin in enumerate(Origin)}


@dataclass(frozen=True, slots=True)
class Listing:
    """One entry of the index: its words as they are compared, its part of speech ('' any), and what it says."""

    parts: tuple[str, ...]
    part_of_speech: str
    origin: Origin
    band: str = ""  # CEFR band; for a word of the course, its level's
    entry: WordEntry | None = None
    capital: bool = False  # written with a capital in the list: `May`, `English`
    instead: str = ""  # classroom language: a simpler way to say it

    @property
    def free(self) -> bool:
        """Known to every child from the first page, whatever a later word list says."""
        return self.origin in _FREE or (self.origin is Origin.FUNCTION and self.band == "Pre-A1")


_FREE = frozenset({Origin.KNOWN, Origin.NUMBER, Origin.GREETING})


@dataclass(frozen=True, slots=True)
class WordIndex:
    """Listings by their first word (the longest first, then by authority), and by all their words written solid."""

    by_first: Mapping[str, tuple[Listing, ...]]
    by_solid: Mapping[str, tuple[Listing, ...]]
    level_names: tuple[str, ...] = ()
    _kept: dict[tuple[str, ...], tuple[tuple[Listing, ...], ...]] = field(default_factory=dict)

    def starting_with(self, keys: tuple[str, ...]) -> tuple[Listing, ...]:
        """Listings of several words whose first word is one of these, each once."""
        return self._looked_up(keys)[0]

    def single(self, keys: tuple[str, ...]) -> tuple[Listing, ...]:
        """Listings of one word that is one of these, each once."""
        return self._looked_up(keys)[1]

    def meant_by(self, keys: tuple[str, ...]) -> tuple[Listing, ...]:
        """Listings of one word that is one of these, or of several written solid, the highest authority first."""
        return self._looked_up(keys)[2]

    def _looked_up(self, keys: tuple[str, ...]) -> tuple[tuple[Listing, ...], ...]:
        kept = self._kept.get(keys)
        if kept is None:
            if len(self._kept) >= _MOST:
                self._kept.clear()
            found = {id(listing): listing for key in keys for listing in self.by_first.get(key, ())}.values()
            single = tuple(listing for listing in found if len(listing.parts) == 1)
            solid = (listing for key in keys for listing in self.by_solid.get(key, ()) if len(listing.parts) > 1)
            kept = self._kept[keys] = (
                tuple(listing for listing in found if len(listing.parts) > 1),
                single,
                tuple(sorted((*single, *solid), key=lambda one: (not _is_pronoun(one, keys[0]), authority(one)))),
            )
        return kept

    def has(self, word: str) -> bool:
        """Say whether a course's own list has this word (as compared), as any part of speech."""
        return any(item.entry is not None and len(item.parts) == 1 for item in self.by_first.get(canonical(word), ()))

    def knows(self, word: str) -> bool:
        """Say whether a word (as compared) is one that a course takes for known, or a name of it."""
        items = self.by_first.get(word, ())
        return any(len(item.parts) == 1 and item.origin in (Origin.KNOWN, Origin.NAME) for item in items)


_MOST = 5_000  # words to remember what was looked up for
_STRAIGHT = str.maketrans("’‘", "''")
_PIECES = lazy_re.compile(
    r"n't\b|'(?:s|m|re|ll|ve|d)\b|[^\W_]+(?:\.[^\W_]+)*(?=n't\b)|[^\W_]+(?:'(?!(?:s|m|re|ll|ve|d)\b)[^\W_]+)*|'\B"
)
_APART = lazy_re.compile(r"[\s\-‐‑–/]+")
_SPLIT_NEGATIVES = {"can't": "ca n't", "won't": "wo n't", "shan't": "sha n't", "cannot": "can not", "gonna": "gon na"}


@cache
def _american() -> Mapping[str, str]:
    return {american: british for american, british, _ in rows("spelling_varieties.csv")}


@lru_cache(maxsize=20_000)
def canonical(word: str) -> str:
    """A word as it is compared: lower case, straight apostrophe, British spelling."""
    lowered = word.translate(_STRAIGHT).casefold()
    pairs = _american()
    if lowered in pairs:
        return pairs[lowered]
    for ending in ("s", "d", "ed", "ing", "ful", "r", "er"):
        stem = lowered.removesuffix(ending)
        if stem != lowered and stem in pairs:
            return pairs[stem] + ending
    return lowered


@lru_cache(maxsize=20_000)
def parts_of(phrase: str) -> tuple[str, ...]:
    """The words of a list's entry as the parser cuts them (``what's`` is two), ready to be compared."""
    cleaned = phrase.translate(_STRAIGHT).casefold()
    for word, pieces in _SPLIT_NEGATIVES.items():
        if word in cleaned:
            cleaned = re.sub(rf"\b{word}\b", pieces, cleaned)
    words: list[str] = []
    for chunk in _APART.split(cleaned):
        whole = chunk.strip('.,;:!?…()"“”')
        if whole in {"o'clock", "n't", "'s"}:
            words.append(whole)
        else:
            words += _PIECES.findall(whole)
    return tuple(canonical(word) for word in words)


def solid(phrase: str) -> str:
    """A word or phrase as it is compared, without spaces and hyphens: how the house tables are looked up."""
    return "".join(parts_of(phrase))


def build_index(course: Course | None) -> WordIndex:
    """The index of a course (or of what is built in alone). Built once for the same word lists and settings."""
    if course is None:
        return _index((), (), (), (), ())
    return _index(course.words, course.names, course.known, course.instruction_words, course.levels)


@lru_cache(maxsize=8)
def _index(
    words: tuple[WordEntry, ...],
    names: tuple[str, ...],
    known: tuple[str, ...],
    instruction_words: tuple[str, ...],
    levels: tuple[Level, ...],
) -> WordIndex:
    listings = [_of_entry(entry, levels) for entry in words]
    listings += [Listing(parts_of(name), "", Origin.NAME, capital=True) for name in names]
    listings += [Listing(parts_of(word), "", Origin.KNOWN) for word in known]
    listings += [Listing(parts_of(word), "", Origin.CLASSROOM, "Pre-A1") for word in instruction_words]
    return _sorted([*listings, *_built_in()], tuple(level.name for level in levels))


def index_of(words: Sequence[str], origin: Origin) -> WordIndex:
    """A small index of its own, for the words that one unit presents."""
    return _sorted([Listing(parts_of(word), "", origin) for word in words], ())


def _of_entry(entry: WordEntry, levels: tuple[Level, ...]) -> Listing:
    band = levels[entry.level].cefr if entry.level < len(levels) else ""
    capital = entry.word[:1].isupper() and not entry.word.isupper() and entry.part_of_speech != "phrase"
    return Listing(parts_of(entry.word), entry.part_of_speech, Origin.COURSE, band, entry, capital)


@cache
def _function_words() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for band, words in rows("function_words.csv"):
        for word in alternatives(words):
            found[canonical(word)] = (*found.get(canonical(word), ()), band)
    return found


def function_bands(word: str) -> tuple[str, ...]:
    """The bands from which a spelling is known as a function word (none for other words)."""
    return _function_words().get(canonical(word), ())


@cache
def _classroom_words() -> Mapping[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for word, _, band, _ in rows("classroom_language.csv"):
        found[canonical(word)] = (*found.get(canonical(word), ()), band)
    return found


def classroom_bands(word: str) -> tuple[str, ...]:
    """The bands from which a spelling is known as a word of instructions, whatever part of speech it is there."""
    return _classroom_words().get(canonical(word), ())


@cache
def _built_in() -> tuple[Listing, ...]:
    found = [
        Listing(parts_of(word), "function", Origin.FUNCTION, band)
        for band, words in rows("function_words.csv")
        for word in alternatives(words)
    ]
    found += [Listing(parts_of(word), "", Origin.NUMBER) for word in entries("numbers.txt")]
    found += [Listing(parts_of(word), "", Origin.GREETING) for word in entries("greetings.txt")]
    found += [
        Listing(parts_of(word), part, Origin.CLASSROOM, band, instead=instead)
        for word, parts, band, instead in rows("classroom_language.csv")
        for part in alternatives(parts)
    ]
    found += [Listing(parts_of(word), "", Origin.SOUND) for word in entries("sounds.txt")]
    found += [
        Listing(parts, part, Origin.REFERENCE, max(lowest(word) for word in parts))
        for _, part, words in rows("childrens_words.csv")
        for word in alternatives(words)
        if len(parts := parts_of(word)) > 1
    ]
    return tuple(found)


def _sorted(listings: Sequence[Listing], level_names: tuple[str, ...]) -> WordIndex:
    by_first: dict[str, list[Listing]] = {}
    by_solid: dict[str, list[Listing]] = {}
    for listing in listings:
        if listing.parts:
            by_first.setdefault(listing.parts[0], []).append(listing)
            by_solid.setdefault("".join(listing.parts), []).append(listing)
    order = {key: tuple(sorted(items, key=_longest_first)) for key, items in by_first.items()}
    solid = {key: tuple(sorted(items, key=_longest_first)) for key, items in by_solid.items()}
    return WordIndex(order, solid, level_names)


def authority(listing: Listing) -> tuple[int, int, int]:
    """Sort key: the higher authority first, then what is taught first."""
    entry = listing.entry
    return (listing.origin.rank, entry.level if entry else 0, entry.unit if entry else 0)


def _is_pronoun(listing: Listing, word: str) -> bool:
    """Say whether an entry is a pronoun in this very form: a list that has `me` does not mean it by `I`."""
    return listing.entry is not None and listing.part_of_speech == "pronoun" and listing.parts == (word,)


def _longest_first(listing: Listing) -> tuple[int, tuple[int, int, int]]:
    return (-len(listing.parts), authority(listing))


@cache
def childrens_words() -> frozenset[tuple[str, str]]:
    """Words that children meet early, with their part of speech, which a general reference rates too high."""
    return frozenset(
        (solid(word), part) for _, part, words in rows("childrens_words.csv") for word in alternatives(words)
    )


@cache
def picturable_nouns() -> frozenset[str]:
    """Nouns that name something that can be drawn."""
    return frozenset(canonical(word) for word in entries("picturable_nouns.txt")) | {
        word for word, part in childrens_words() if part == "noun"
    }


@cache
def first_names() -> frozenset[str]:
    """Usual first names, but for those that are easy words."""
    return frozenset(entries("first_names.txt"))


@cache
def everyday_words() -> frozenset[str]:
    """Words above A1 that are everyday English."""
    return frozenset(entries("everyday_words.txt"))


@cache
def compounds() -> frozenset[str]:
    """Two words that are one thing or one adverb (polar bear, upside down), whose first says little by itself."""
    return frozenset(entries("compounds.txt"))


@cache
def near_words() -> Mapping[tuple[str, str], tuple[str, ...]]:
    """Word and part of speech → simpler words near it in meaning."""
    return {
        (canonical(word), part): tuple(canonical(other) for other in alternatives(simpler))
        for word, part, simpler in rows("near_words.csv")
    }


@cache
def given_names() -> frozenset[str]:
    """Given names that are also words."""
    return frozenset(entries("given_names.txt"))
