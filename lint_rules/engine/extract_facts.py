"""Draws the small facts of one unit that the book's rules work on."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS, Course, WordEntry, band_rank
from lint_rules.facts import TEACHING, Instruction, LessonTime, Spot, UnitFacts, Where, WordMet
from lint_rules.language.demands import weighed_band
from lint_rules.language.vocabulary.word_index import Origin, canonical
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.manuscript.counting import count_words, is_title, read_by_children
from lint_rules.manuscript.model import Audience, DivKind, Lesson, Passage, Role, Unit
from lint_rules.page.activity_numbers import numbered_through, numbers_of
from lint_rules.page.audio import is_own_track, scripts_of, tracks_played
from lint_rules.page.cross_references import references_in
from lint_rules.page.exercises.shared_keys import lesson_of_key
from lint_rules.page.pictures import files_named_in
from lint_rules.page.time_plans import lesson_minutes, total_of
from lint_rules.rule import Reading
from lint_rules.unit_language.tests_of import TEST, is_test
from lint_rules.unit_language.word_meetings import rows_by_form, spelt_as_words, spelt_in, words_of_picture


def facts_of(reading: Reading) -> UnitFacts:
    """Draw the facts of one unit."""
    unit = reading.unit
    title = unit.heading.passage.text if unit.heading else unit.front.title
    read = tuple(_read(reading))
    words = tuple(_words_met(reading, read))
    return UnitFacts(
        unit.path,
        reading.level.index,
        unit.front.unit,
        Spot(*unit.title_span, title),
        lessons=tuple(_lesson_time(lesson) for lesson in unit.lessons),
        words=words,
        words_by_band=_words_by_band(reading, read),
        structures=tuple(sorted(_structures(reading))),
        structures_tested=tuple(sorted(_structures_tested(reading))),
        scripts=tuple(_scripts(unit)),
        tracks_elsewhere=tuple(_tracks_elsewhere(unit)),
        track_references=tuple(_track_references(unit)),
        activities=tuple(sorted(numbered_through(unit))),
        last_lesson=max(len(unit.lessons), *(_number(lesson.heading.number) for lesson in unit.lessons), 0),
        lesson_activities=tuple(
            (number, tuple(sorted(numbers_of(one)))) for one in unit.lessons if (number := _number(one.heading.number))
        ),
        lesson_references=tuple(_lesson_references(unit)),
        activity_references=tuple(_activity_references(unit)),
        instructions=tuple(_instructions(unit)),
        pictures=tuple(sorted(files_named_in(unit))),
        front_title=unit.front.title,
        words_written=sum(count_words(passage.text) for passage in unit.passages),
        in_passing=tuple(_in_passing(reading, frozenset(word.entry for word in words if word.where in TEACHING))),
    )


_COMMENT = lazy_re.compile(r"<!--.*?-->", re.S)


def _in_passing(reading: Reading, taught: Set[int]) -> Iterator[int]:
    """The rows of the unit's target words that it teaches nowhere, and that stand somewhere in it all the same: in the
    notes (Teach *swim* with your arms), in a brief, in the label of a box, with a comma (ding, dong)."""
    written = _COMMENT.sub(" ", reading.unit.source.text.partition("\n---")[2]).casefold()
    for row, entry in enumerate(reading.course.words):
        if (entry.level, entry.unit) == (reading.level.index, reading.unit.front.unit) and row not in taught:
            first, *rest = entry.word.casefold().split()
            spelt = r"[\W_]+".join(map(re.escape, (first, *rest)))
            if first in written and re.search(rf"\b{spelt}(?:e?s|ing)?\b", written):
                yield row


def _instructions(unit: Unit) -> Iterator[Instruction]:
    for activity in unit.activities:
        passage = activity.heading.passage
        yield Instruction(Spot(*passage.span(), passage.text), activity.kinds)


@dataclass(frozen=True, slots=True)
class _Read:
    """A passage that counts for target words: its lesson (index), what kind of place it is, and its words."""

    lesson: int
    passage: Passage
    where: Where
    words: tuple[WordLevel, ...]
    in_test: bool = False


def _read(reading: Reading) -> Iterator[_Read]:
    scripts: dict[str, list[tuple[int, Passage]]] = {}
    for lesson, passage, in_test in _lesson_passages(reading.read):
        where = _where(passage, reading.unit, in_test=in_test)
        if where is not None:
            yield _Read(lesson, passage, where, reading.words.of(passage))
        if passage.audience is Audience.LISTENER and passage.div is not None:
            track = reading.unit.divs[passage.div].attributes.values.get("track", "").strip()
            scripts.setdefault(track, []).append((lesson, passage))
    for number, one in enumerate(reading.read.lessons):
        for track in (track for activity in one.activities for track in tracks_played(activity)):
            for home, passage in scripts.get(track, ()):
                if home != number:  # played again in another lesson
                    yield _Read(number, passage, Where.SCRIPT, reading.words.of(passage))


def _words_met(reading: Reading, read: Sequence[_Read]) -> Iterator[WordMet]:
    """Target words by lesson and kind of place: texts first, then headings, then pictures.

    A spelling that the list has as another part of speech counts: parser and list may be of two minds (Yesterday, I …),
    and a word that children see is not called missing for that.
    """
    first: dict[tuple[int, int, Where], Spot] = {}
    times: Counter[tuple[int, int, Where]] = Counter()
    for key, spot in (*_in_texts(reading, read), *_in_texts(reading, _headings(reading)), *_in_pictures(reading)):
        times[key] += 1
        first.setdefault(key, spot)
    for key, spot in first.items():
        yield WordMet(*key, spot, times[key])


def _in_texts(reading: Reading, read: Iterable[_Read]) -> Iterator[tuple[tuple[int, int, Where], Spot]]:
    lists = reading.words.lists
    for one in read:
        found = [(lists.row(e), word.start, word.end) for word in one.words if (e := word.entry or word.elsewhere)]
        spelt = spelt_in(reading.analyse(one.passage), one.words, reading.course.words)
        found += [(word.row, word.start, word.end) for word in spelt]
        found += _as_spelt(reading, one.passage, in_panel=one.where is Where.PANEL)
        found += [(other, a, b) for row, a, b in found for other in _alike(row, reading.course.words)]
        for row, start, end in dict.fromkeys(found):
            where = one.where
            if where is Where.RUBRIC and not lists.is_of_instructions(reading.course.words[row].word):
                where = Where.HEADING
            spot = Spot(*one.passage.span(start, end), one.passage.text[start:end])
            yield (row, one.lesson, where), spot
            if one.in_test and where is not Where.TEST:
                yield (row, one.lesson, Where.TEST), spot


def _alike(row: int, words: tuple[WordEntry, ...]) -> Iterator[int]:
    """The other rows of a word that a list has as several parts of speech: who meets one meets its spelling."""
    key = canonical(words[row].word)
    level = words[row].level
    for other in rows_by_form(words).get(key, ()):
        if other != row and canonical(words[other].word) == key and words[other].level == level:
            yield other


def _as_spelt(reading: Reading, passage: Passage, *, in_panel: bool) -> Iterator[tuple[int, int, int]]:
    """The target words that a panel spells, as whatever part of speech the list has them: to interview, and a warning
    that a parser takes for a form of to warn. Words that children need only know are met so anywhere, in a listed
    phrase too: the school of go to school."""
    words = reading.course.words
    rows = rows_by_form(words)
    for token in reading.analyse(passage).tokens:
        spelt = canonical(token.text)
        for row in rows.get(spelt, ()):
            if (in_panel or words[row].use == "know") and canonical(words[row].word) == spelt:
                yield row, token.start, token.end


def _headings(reading: Reading) -> Iterator[_Read]:
    """The titles of lessons and the instructions: children read them too."""
    for number, lesson in enumerate(reading.unit.lessons):
        title = lesson.heading.passage
        yield _Read(number, title, Where.HEADING, reading.words.of(title))
        for activity in lesson.activities:
            rubric = activity.heading.passage
            in_test = is_test(activity, lesson.classes)
            yield _Read(number, rubric, Where.RUBRIC, reading.words.of(rubric), in_test)


def _in_pictures(reading: Reading) -> Iterator[tuple[tuple[int, int, Where], Spot]]:
    """The words that pictures stand for; in a test also what its art shows, for children speak and write of it."""
    words = reading.course.words
    for number, lesson in enumerate(reading.unit.lessons):
        for activity in lesson.activities:
            in_test = is_test(activity, lesson.classes)
            where = Where.TEST if in_test else Where.PICTURE
            for picture in activity.part.pictures:
                rows = spelt_as_words(picture.alt, words) if in_test else words_of_picture(picture, activity, words)
                for row in rows:
                    yield (row, number, where), Spot(*picture.alt_span, picture.alt)
            for passage in activity.part.passages if in_test else ():
                if passage.role is Role.BRIEF:
                    for row in spelt_as_words(passage.text, words):
                        yield (row, number, where), Spot(*passage.span(), passage.text)


def _words_by_band(reading: Reading, read: Sequence[_Read]) -> tuple[tuple[str, int], ...]:
    """Different words that children read or hear, names left out, by the lowest band that each has there."""
    bands: dict[str, str] = {}
    for word in (word for one in read if one.where not in (Where.KEY, Where.ANSWER) for word in one.words):
        if word.origin is not Origin.NAME and not word.text.isdigit():
            lemma, band = canonical(word.lemma), _band(word, reading.course)
            bands[lemma] = min(band, bands.get(lemma, band), key=_order_of_band)
    return tuple(sorted(Counter(bands.values()).items(), key=lambda pair: _order_of_band(pair[0])))


def _band(word: WordLevel, course: Course) -> str:
    if word.entry is not None:
        return course.levels[word.entry.level].cefr
    return "" if word.origin is Origin.UNKNOWN else weighed_band(word)


def _order_of_band(band: str) -> int:
    return band_rank(band) if band else len(CEFR_BANDS)


def _lesson_passages(unit: Unit) -> Iterator[tuple[int, Passage, bool]]:
    """Every passage but headings, with the index of its lesson and whether it is in a test."""
    for passage in unit.opening.passages:
        yield -1, passage, False
    for activity in unit.opening_activities:
        for passage in activity.part.passages:
            yield -1, passage, is_test(activity, ())
    for number, lesson in enumerate(unit.lessons):
        for passage in lesson.part.passages:
            yield from _at_home(passage, lesson, number, unit, in_test=TEST in lesson.classes)
        for activity in lesson.activities:
            for passage in activity.part.passages:
                yield from _at_home(passage, lesson, number, unit, in_test=is_test(activity, lesson.classes))


def _at_home(
    passage: Passage, lesson: Lesson, number: int, unit: Unit, *, in_test: bool
) -> Iterator[tuple[int, Passage, bool]]:
    """A passage with its lesson: for a key at a unit's end the one that it answers, for a script there those that play
    its track. A section of answers is none."""
    home = lesson_of_key(passage, unit) if passage.audience is Audience.KEY else None
    heard = _played_in(passage, lesson, unit) if passage.audience is Audience.LISTENER else ()
    for other in (home,) if home is not None else heard:
        yield unit.lessons.index(other), passage, TEST in other.classes
    if home is not None or heard:
        return
    if passage.audience is not Audience.KEY or lesson.activities:
        yield number, passage, in_test


def _played_in(passage: Passage, lesson: Lesson, unit: Unit) -> list[Lesson]:
    """The lesson that first plays the track of a script which stands in no activity; none where its own does."""
    if passage not in lesson.part.passages or passage.div is None:
        return []
    track = unit.divs[passage.div].attributes.values.get("track", "").strip()
    players = [one for one in unit.lessons if any(track in tracks_played(activity) for activity in one.activities)]
    return [] if not track or lesson in players else players[:1]  # those that play it again are found by the track


def _where(passage: Passage, unit: Unit, *, in_test: bool) -> Where | None:
    """What kind of place a passage is for a target word, or None where a word does not count."""
    if passage.audience is Audience.KEY:
        return Where.KEY if in_test else Where.ANSWER
    if not read_by_children(passage):
        return None
    if in_test:
        return Where.TEST
    if passage.audience is Audience.LISTENER:
        return Where.SCRIPT
    return Where.PANEL if DivKind.WORDS in unit.div_kinds(passage) else Where.PAGE


def _structures(reading: Reading) -> set[str]:
    return {
        structure.name
        for passage in reading.read.passages
        if read_by_children(passage) and not is_title(passage)
        for structure in reading.analyse(passage).structures
    }


def _structures_tested(reading: Reading) -> set[str]:
    return {use.structure.name for place in reading.grammar if place.is_test for use in place.uses}


def _lesson_time(lesson: Lesson) -> LessonTime:
    heading = Spot(*lesson.heading.passage.span(), lesson.heading.passage.text)
    minutes = lesson_minutes(lesson)
    if minutes is None:
        return LessonTime(heading, -1, -1)
    stated = total_of(lesson)
    each = stated.each if stated else None
    parts = max(1, round(minutes.high / each.high)) if each and each.high else 1
    return LessonTime(heading, minutes.low, minutes.high, parts)


def _scripts(unit: Unit) -> Iterator[tuple[str, Spot]]:
    for script in scripts_of(unit):
        if script.track:
            opening = script.div.opening
            yield script.track, Spot(*opening, unit.source.slice(opening))


def _tracks_elsewhere(unit: Unit) -> Iterator[tuple[str, Spot]]:
    for activity in unit.activities:
        heading = activity.heading.passage
        for track in tracks_played(activity):
            if not is_own_track(track, unit.front.unit):
                yield track, Spot(*heading.span(), heading.text)


def _activity_references(unit: Unit) -> Iterator[tuple[Spot, int, int, int]]:
    """The activities of other units of the level that a unit speaks of, with their unit and lesson (0: not named)."""
    for passage in unit.passages:
        if passage.audience is not Audience.ARTIST:
            for one in references_in(passage.text):
                own = one.unit in {0, unit.front.unit}
                if one.kind == "activity" and one.whole and not (own or one.elsewhere):
                    spot = Spot(*passage.span(one.start, one.end), passage.text[one.start : one.end])
                    yield spot, one.unit, one.lesson, one.whole


def _lesson_references(unit: Unit) -> Iterator[tuple[Spot, int, int]]:
    """The lessons of other units of the level that a unit speaks of: the song of unit 1, lesson 7."""
    for passage in unit.passages:
        for one in references_in(passage.text) if passage.audience is not Audience.ARTIST else ():
            number = _number(one.number) if one.kind == "lesson" else one.lesson
            if number and one.unit not in {0, unit.front.unit} and not one.elsewhere:
                words = passage.text[one.start : one.end]
                yield Spot(*passage.span(one.start, one.end), words), one.unit, number


def _number(text: str) -> int:
    digits = re.search(r"\d+", text)
    return int(digits[0]) if digits is not None else 0


def _track_references(unit: Unit) -> Iterator[tuple[Spot, str]]:
    for passage in unit.passages:
        if passage.audience is not Audience.ARTIST:
            for found in references_in(passage.text):
                if found.kind == "track" and not found.elsewhere and not is_own_track(found.number, unit.front.unit):
                    words = passage.text[found.start : found.end]
                    yield Spot(*passage.span(found.start, found.end), words), found.number
