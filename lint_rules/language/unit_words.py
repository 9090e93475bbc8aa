"""The words of a unit's passages with their levels, place by place: what the rules about words have in common."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from lint_rules.course.model import Course, Level, WordEntry, band_rank
from lint_rules.language.tokens import Analysis
from lint_rules.language.word_index import Origin, WordIndex, build_index, canonical, index_of, near_words, parts_of
from lint_rules.language.word_levels import WordLevel, look_up, names_in
from lint_rules.manuscript.model import Activity, Audience, DivKind, Part, Passage, Role, Unit

_READ_BY_CHILDREN = frozenset({Audience.PUPIL, Audience.LISTENER})
_NOT_RUNNING = frozenset({Role.INSTRUCTION, Role.ALT, Role.CODE, Role.BRIEF})
_TITLES = frozenset({Role.UNIT_TITLE, Role.LESSON_TITLE})


@dataclass(frozen=True, slots=True)
class Place:
    """An activity, or what a lesson or a unit has outside its activities: one word is reported once in each."""

    passages: tuple[Passage, ...]
    activity: Activity | None = None


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
        yield Place((lesson.heading.passage, *lesson.part.passages))
        yield from (_of_activity(activity) for activity in lesson.activities)


def _of_activity(activity: Activity) -> Place:
    return Place((activity.heading.passage, *activity.part.passages), activity)


def read_by_children(passage: Passage) -> bool:
    """Say whether children read or hear a passage as a text: no instruction, alternative text, note or answer."""
    return passage.audience in _READ_BY_CHILDREN and passage.role not in _NOT_RUNNING


def is_title(passage: Passage) -> bool:
    """Say whether a passage is the title of a unit or a lesson."""
    return passage.role in _TITLES


def unit_words(unit: Unit) -> WordIndex:
    """The words that a unit presents itself: its `words` panels and the Words field of its notes."""
    words: list[str] = []
    for passage in unit.passages:
        if passage.role is Role.PANEL or DivKind.WORDS in unit.div_kinds(passage):
            words.append(passage.text)
        elif passage.role is Role.FIELD and passage.field.casefold() == "words":
            words += [word for line in passage.text.splitlines() for word in line.replace(";", ",").split(",")]
    return index_of([word.strip() for word in words if word.strip()], Origin.UNIT)


def words_met(
    unit: Unit,
    course: Course,
    analyse: Callable[[Passage], Analysis],
    wanted: Callable[[Passage], bool] = read_by_children,
    presented: WordIndex | None = None,
) -> Iterator[Met]:
    """Each distinct word of each place, where it first stands, in file order; only passages that are ``wanted``."""
    index = build_index(course)
    names = _names_of(unit, analyse)
    for place in places_of(unit):
        first: dict[tuple[str, str], tuple[Passage, WordLevel]] = {}
        counts: Counter[tuple[str, str]] = Counter()
        for passage in place.passages:
            if wanted(passage):
                for word in look_up(analyse(passage), passage.text, index, presented, names):
                    key = (canonical(word.lemma), word.part_of_speech)
                    counts[key] += 1
                    first.setdefault(key, (passage, word))
        for key, (passage, word) in first.items():
            yield Met(place, passage, word, counts[key])


def _names_of(unit: Unit, analyse: Callable[[Passage], Analysis]) -> frozenset[str]:
    found: frozenset[str] = frozenset()
    for passage in unit.passages:
        if passage.audience in _READ_BY_CHILDREN and passage.role not in {Role.ALT, Role.CODE}:
            found |= names_in(analyse(passage))
    return found


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


def _named(text: str) -> set[str]:
    words = parts_of(text.replace("_", " "))
    found = {*words, " ".join(words), *(word[:-1] for word in words if word.endswith("s"))}
    return found | {word[:-2] for word in words if word.endswith("es")} | {"".join(words)}


def taught_by(entry: WordEntry, level: Level, unit: int) -> bool:
    """Say whether a word of the course's list is taught by a unit of a level (a word without a unit is)."""
    return entry.level < level.index or (entry.level == level.index and entry.unit <= unit)


def simpler_words(word: WordLevel, course: Course, level: Level, unit: int) -> tuple[str, ...]:
    """Words that could serve instead: near in meaning, of the same part of speech, taught by now. At most three."""
    near = near_words().get((canonical(word.lemma), word.part_of_speech), ())
    by_word = {canonical(entry.word): entry for entry in reversed(course.words) if _same_part(entry, word)}
    return tuple(by_word[item].word for item in near if item in by_word and taught_by(by_word[item], level, unit))[:3]


def words_of_topic(word: WordLevel, course: Course, level: Level, unit: int) -> tuple[str, ...]:
    """Words of the same topic and part of speech that are taught by now. At most three."""
    if word.entry is None or word.entry.part_of_speech != "noun":
        return ()  # `jump` is no stand-in for `whisper`, but `hill` may be one for `volcano`
    topics = set(word.entry.topics)
    return tuple(
        entry.word
        for entry in course.words
        if topics & set(entry.topics)
        and entry.word != word.entry.word
        and entry.part_of_speech == word.entry.part_of_speech
        and taught_by(entry, level, unit)
    )[:3]


def _same_part(entry: WordEntry, word: WordLevel) -> bool:
    return entry.part_of_speech in {"", word.part_of_speech}


def bands_above(band: str, level: Level) -> int:
    """How many bands a word lies above a level. General references begin at A1: what they say of Pre-A1 is nothing."""
    return band_rank(band) - max(band_rank(level.cefr), 1) if band else 0


def listed(words: Sequence[str]) -> str:
    """Words in quotation marks: “hill”, “sea” or “lake”."""
    quoted = [f"“{word}”" for word in words]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} or {quoted[-1]}"
