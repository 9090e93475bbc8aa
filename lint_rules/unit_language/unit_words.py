"""The words of a unit's passages with their levels, place by place: what the rules about words have in common."""

import re
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from lint_rules import lazy_re
from lint_rules.course.model import Level, band_rank
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.course_words import CourseWords, presented_index
from lint_rules.language.vocabulary.names import names_in
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import canonical, function_bands, parts_of
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.manuscript.counting import is_for_children, is_title, is_verse, read_by_children, stage_directions
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Activity, DivKind, Part, Passage, Role, Unit
from lint_rules.manuscript.reader_state import SONGS
from lint_rules.page.mentions import foreign_words
from lint_rules.plain_words import PART

_DASHES = frozenset("-–")
_AFFIX = 6  # letters of an ending or a beginning, with its dash
_FILLED = lazy_re.compile(r"[b-df-hj-np-tv-z]{1,3} (\w+)\.?", re.I)  # letters of a key before the rest of a word
_LEFT_OUT = lazy_re.compile(r"[_\s]+|\([^()]*\)|^\W*\d+\W")
_LABEL = lazy_re.compile(r"[A-Z][a-z]+ (?:\d{1,2}|[A-Z])[.:]?|(?:Across|Down)[.:]?")
_PART = lazy_re.compile(r"([A-Z][a-z]+(?: [a-z]+)?) (?:\d{1,2}(?:\.\d{1,2})?|[A-Z])(?=[.:]?(?:\s|$))")
_EXPLAINS = lazy_re.compile(
    r"\b(?:(?:pre-?teach|teach|explain|introduce|present|mime|draw|show|check|gloss)\w{0,3}|point out|meaning of)\b",
    re.I,
)
_MEANS = lazy_re.compile(
    r"\bmeans?\b|\bpeople\s+(?:\w+\s+)?(?:say|call)\b|\b(?:is|are)\s+called\b|\banother word for\b|\bwe call\b",
    re.I,
)
_MOST_EXPLAINED = 2  # words: a phrase is said, not explained
_NEW = lazy_re.compile(r"\bnew words?\b[^.:\n]{0,30}:\s*([^.(\n]+)", re.I)
_NUMBER_AFTER = lazy_re.compile(r" (?:\d{1,2}|[A-Z])\b(?!['’])")  # in Panel 2
# What is said of a word beside it: `a kettle (a pot for hot water)`, `kettle = a pot for hot water`.
_GLOSS = lazy_re.compile(r"[\"”’')]*\s*(?:\((?!\d)[^()]*\s[^()]*\)|=\s*\w)")


@dataclass(frozen=True, slots=True)
class Place:
    """An activity, or what a lesson or a unit has outside its activities: one word is reported once in each."""

    passages: tuple[Passage, ...]
    activity: Activity | None = None
    sung: bool = False  # a song or a chant, with its script


@dataclass(frozen=True, slots=True)
class Met:
    """A word met for the first time in a place: where, its level, and how often the place has it."""

    place: Place
    passage: Passage
    word: WordLevel
    times: int


def places_of(unit: Unit) -> Iterator[Place]:
    """The places of a unit in file order."""
    heading = (unit.heading.passage,) if unit.heading is not None else ()
    yield Place((*heading, *unit.opening.passages))
    yield from (_of_activity(activity) for activity in unit.opening_activities)
    for lesson in unit.lessons:
        yield Place((lesson.heading.passage, *lesson.part.passages), sung=not SONGS.isdisjoint(lesson.classes))
        yield from (_of_activity(activity) for activity in lesson.activities)


def _of_activity(activity: Activity) -> Place:
    passages = activity.part.passages
    sung = not SONGS.isdisjoint(activity.kinds) or any(p.role is Role.LINE or is_verse(p.text) for p in passages)
    return Place((activity.heading.passage, *activity.part.passages), activity, sung)


def _is_affix(passage: Passage, word: WordLevel) -> bool:
    """Say whether a part of a word is spoken of: -ing, wh-."""
    if word.entry is not None:
        return False
    before, after = passage.text[: word.start], passage.text[word.end :]
    if passage.gaps or _FILLED.fullmatch(passage.text):
        shown = _LEFT_OUT.sub("", passage.text)
        if word.text in (shown, _FILLED.sub(r"\1", passage.text)):
            return True  # ____ ife, kn ife
    begins = word.text[:1] in _DASHES or (before[-1:] in _DASHES and not before[-2:-1].isalnum())
    begins = begins or before[-1:] == "…"  # is …ing
    ends = word.text[-1:] in _DASHES or (after[:1] in _DASHES and not after[1:2].isalnum())
    return len(word.text) <= _AFFIX and (begins or (ends and not after[1:2].isspace()))


def is_cried(met: Met) -> bool:
    """Say whether a word is all that is said, as an interjection is: Ta! Bravo!"""
    text, word = met.passage.text, met.word
    before, after = text[: word.start].rstrip(" \"“‘'("), text[word.end :].lstrip(" ,")
    return (not before or before[-1] in ".!?\n") and after[:1] == "!"


def is_label(passage: Passage, word: WordLevel) -> bool:
    """Say whether a word only labels a part of the page: Panel 1, Across, and who or what speaks (SFX: …)."""
    set_apart = is_title(passage) or passage.emphasis == ((0, len(passage.text)),)
    if set_apart and _LABEL.fullmatch(passage.text):
        return True
    if word.text[:1].isupper() and word.start and _NUMBER_AFTER.match(passage.text, word.end):
        return True
    if passage.role in {Role.CELL, Role.HEAD} and word.text.isupper() and _is_all(passage.text, word):
        return True  # START →, on a board
    line = passage.text.rfind("\n", 0, word.start) + 1
    return word.start == line and word.text[:1].isupper() and passage.text[word.end : word.end + 1] == ":"


def _is_all(text: str, word: WordLevel) -> bool:
    return not any(char.isalnum() for char in text[: word.start] + text[word.end :])


def labels_of(unit: Unit) -> frozenset[str]:
    """The words that a unit labels its parts with (Panel 1, Panel 2), in lower case: children see what they mean."""
    found = (_PART.match(passage.text) for passage in unit.passages if is_for_children(passage) and _is_headed(passage))
    return frozenset(word for match in found if match for word in parts_of(match[1]))


def _is_headed(passage: Passage) -> bool:
    """Say whether a passage begins with words set apart: **Grammar panel 1.1** Comparing two things."""
    return any(start == 0 for start, _ in (*passage.strong, *passage.emphasis)) or is_title(passage)


def is_glossed(passage: Passage, word: WordLevel) -> bool:
    """Say whether the page explains a word right behind it, or in a sentence of its own: (A fib is a small lie.)"""
    if _GLOSS.match(passage.text, word.end) is not None:
        return True
    if f"{word.text} is " not in passage.text and f"{word.text} means " not in passage.text:
        return False
    named = (
        rf"(?:\ban?\s+|(?:^|[.!?]\s)){re.escape(word.text)}\s+(?:is|means)\s+(?:an?|the|when|what|somebody|something)\b"
    )
    return word.part_of_speech == "noun" and re.search(named, passage.text, re.I) is not None


def _explained_in(passage: Passage) -> Iterator[str]:
    """The words in italics that a teacher is to explain, in the order of a sentence: Pre-teach *mist* and *lodge*."""
    for start, end in passage.emphasis:
        sentence = re.split(r"[.!?\n]\s", passage.text[:start])[-1]
        if _EXPLAINS.search(sentence) and len(passage.text[start:end].split()) <= _MOST_EXPLAINED:
            yield passage.text[start:end]


def _told_on_page(passage: Passage) -> Iterator[str]:
    """The words that a page sets off where it says what they mean: People often say *wee* for *small*."""
    for start, end in sorted({*passage.emphasis, *passage.strong}):
        if end - start < len(passage.text) and len(passage.text[start:end].split()) <= _MOST_EXPLAINED:
            sentence = re.split(r"[.!?\n]\s", passage.text[:start])[-1] + passage.text[start:].split(". ", 1)[0]
            if _MEANS.search(sentence):
                yield passage.text[start:end]


_GLOSSED = lazy_re.compile(r"\s[–—-]\s|\s?[:=]\s")  # jackdaw – a black and grey bird


class UnitWords:
    """The words of one unit's passages: each passage is looked up once, however many rules ask."""

    def __init__(self, unit: Unit, lists: CourseWords, analyse: Callable[[Passage], Analysis]) -> None:
        self._unit = unit
        self._analyse = analyse
        self._kept: dict[tuple[Passage, bool], tuple[WordLevel, ...]] = {}
        self._whole: dict[tuple[Passage, bool], Sequence[tuple[tuple[str, str], WordLevel]]] = {}
        self.lists = lists

    @cached_property
    def presented(self) -> tuple[str, ...]:
        """The words that the unit presents itself: its `words` panels, the Words field of its notes, and the spellings
        of its sounds (Find *ee*), and words marked as another language."""
        words: list[str] = []
        for passage in self._unit.passages:
            if passage.role is Role.PANEL or DivKind.WORDS in self._unit.div_kinds(passage):
                words += [passage.text, _GLOSSED.split(passage.text)[0]]
            elif passage.role is Role.FIELD and field_key(passage.field) == "word":
                words += [word for line in passage.text.splitlines() for word in line.replace(";", ",").split(",")]
        words += [*spellings_of(self._unit), *foreign_words(self._unit)]
        return tuple(word.strip() for word in words if word.strip())

    @cached_property
    def _places(self) -> tuple[Place, ...]:
        return tuple(places_of(self._unit))

    @cached_property
    def explained(self) -> frozenset[str]:
        """The words, in lower case, that the unit makes plain without listing them: those that the Words field of its
        notes speaks of (Explain *crew* quickly) or its steps call new (New word: crew) or have explained (Pre-teach
        *mist* and *lodge*), or the page (People say *wee* for small), and those that name who speaks (NARRATOR: …)."""
        fields = [passage for passage in self._unit.passages if passage.role is Role.FIELD]
        notes = (passage.text for passage in fields if field_key(passage.field) == "word")
        new = (match[1] for passage in fields for match in _NEW.finditer(passage.text))
        spoken = (passage.speaker for passage in self._unit.passages if passage.speaker)
        page = (passage for passage in self._unit.passages if is_for_children(passage))
        told = (word for passage in page for word in _told_on_page(passage))
        texts = (*notes, *new, *spoken, *told, *(word for passage in fields for word in _explained_in(passage)))
        return frozenset(word for text in texts for word in parts_of(text))

    def in_hand(self, place: Place, word: WordLevel) -> bool:
        """Say whether a thing that a word names is on the list of Materials of a place or of its lesson: children hold
        what they read of."""
        if place.activity is None:
            return False
        holds = (one for one in self._unit.lessons if any(other is place.activity for other in one.activities))
        parts = (place.activity.part, *(lesson.part for lesson in holds))
        listed = (p.text for part in parts for p in part.passages if field_key(p.field) == "material")
        wanted = {canonical(word.lemma), canonical(word.text)}
        return any(wanted & _named(text) for text in listed)

    @cached_property
    def labels(self) -> frozenset[str]:
        """The words that the unit labels its parts with, in lower case."""
        return labels_of(self._unit)

    @cached_property
    def _names(self) -> frozenset[str]:
        found = set(self.lists.names)
        for passage in self._unit.passages:
            if is_for_children(passage) and passage.role not in {Role.ALT, Role.CODE}:
                found |= names_in(self._analyse(passage))
        return frozenset(found)

    @cached_property
    def _by_beginning(self) -> tuple[tuple[str, str], ...]:
        return tuple((name[:3].casefold(), name) for name in self._names)

    def _names_of(self, text: str) -> frozenset[str]:
        """The names that may stand in a text: a name typed elsewhere changes nothing here."""
        plain = text.casefold()
        return frozenset([name for beginning, name in self._by_beginning if beginning in plain])

    def presents(self, word: str) -> bool:
        """Say whether the unit presents a word itself, spelled with spaces, hyphens or as one."""
        return word in presented_index(self.presented).by_solid

    def of(self, passage: Passage, *, presented: bool = False) -> tuple[WordLevel, ...]:
        """The words of a passage; ``presented``: those that the unit presents are taken for known."""
        kept = self._kept.get((passage, presented))
        if kept is None:
            own = self.presented if presented else ()
            kept = self.lists.look_up(self._analyse(passage), passage.text, own, self._names_of(passage.text))
            self._kept[passage, presented] = kept
        return kept

    def _whole_words(self, passage: Passage, *, presented: bool) -> Sequence[tuple[tuple[str, str], WordLevel]]:
        """The words of a passage that are said and no affixes, each with its lemma and part of speech."""
        kept = self._whole.get((passage, presented))
        if kept is None:
            directions = stage_directions(passage)
            kept = self._whole[passage, presented] = [
                ((canonical(word.lemma), word.part_of_speech), word)
                for word in self.of(passage, presented=presented)
                if not any(start <= word.start < end for start, end in directions) and not _is_affix(passage, word)
            ]
        return kept

    def met(self, wanted: Callable[[Passage], bool] = read_by_children, *, presented: bool = False) -> Iterator[Met]:
        """Each distinct word of each place, where it first stands, in file order; only passages that are wanted."""
        for place in self._places:
            first: dict[tuple[str, str], tuple[Passage, WordLevel]] = {}
            counts: Counter[tuple[str, str]] = Counter()
            for passage in place.passages:
                if wanted(passage):
                    for key, word in self._whole_words(passage, presented=presented):
                        counts[key] += 1
                        first.setdefault(key, (passage, word))
            for key, (passage, word) in first.items():
                yield Met(place, passage, word, counts[key])


def spellings_of(unit: Unit) -> list[str]:
    """The letters that a unit teaches the sound of, where they are more than one: `ee`, from the attributes of its
    activities and the headings of what is about sounds (ow and ee)."""
    headings = [lesson.heading for lesson in unit.lessons if "sounds" in lesson.classes]
    headings += [activity.heading for activity in unit.activities if "sounds" in activity.kinds]
    said = [word for heading in headings for word in PART.findall(heading.passage.text.casefold())]
    letters = [word for word in said if 1 < len(word) < _AFFIX - 1 and _is_no_word(word)]
    return [*(part for activity in unit.activities for part in _spellings(activity)), *letters]


def _is_no_word(word: str) -> bool:
    return word.isalpha() and lowest(word) not in {"A1", "A2", "B1"} and not function_bands(word)


def _spellings(activity: Activity) -> list[str]:
    """The letters that an activity about a sound teaches, where they are more than one: `ee`."""
    written = activity.heading.attributes.values.get("spelling", "")
    return [part.strip("-_ ") for part in re.split(r"[,/|\s]+", written) if len(part.strip("-_ ")) > 1]


def has_picture(place: Place, word: WordLevel) -> bool:
    """Say whether a place has a drawing or photo of a word: by alternative text, file name or art brief."""
    if place.activity is None:
        return False
    wanted = {canonical(word.lemma), canonical(word.text)}
    return any(wanted & _named(text) for text in _pictures(place.activity.part))


def _pictures(part: Part) -> Iterator[str]:
    for picture in part.pictures:
        yield picture.alt
        yield picture.target.rpartition("/")[2].rpartition(".")[0]
    for passage in part.passages:
        if passage.role is Role.BRIEF:
            yield passage.text
        for picture in passage.pictures:
            yield picture.alt


@lru_cache(maxsize=1_000)  # asked for with each word of the pictures' activity
def _named(text: str) -> frozenset[str]:
    words = parts_of(text.replace("_", " "))
    singular = {word[: -len(ending)] for word in words for ending in ("s", "es") if word.endswith(ending)}
    return frozenset({*words, *singular, " ".join(words), "".join(words)})


def bands_above(band: str, level: Level) -> int:
    """How many bands a word lies above a level. General references begin at A1: what they say of Pre-A1 is nothing."""
    return band_rank(band) - max(band_rank(level.cefr), 1) if band else 0


def listed(words: Sequence[str]) -> str:
    """Words in quotation marks: “hill”, “sea” or “lake”."""
    quoted = [f"“{word}”" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
