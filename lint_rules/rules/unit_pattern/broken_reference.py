"""A reference to a lesson, an activity or a track that is not there; or to a page, which a manuscript has not.

"Look at activity 5 again" in a lesson of four activities costs a class minutes and a teacher her standing. Numbers go
wrong whenever a lesson is cut or moved, so they are checked in pupil pages, notes and answers alike. An activity is
looked for in its own lesson unless the words name another one, and in the whole unit where activities are numbered
straight through it. Pages exist only once the book is laid out; a note asks
to name the lesson and activity, which stay right when pages move.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Audience, Lesson, Passage, Role, Unit
from lint_rules.page.activity_numbers import numbered_through, numbers_of
from lint_rules.page.audio import is_own_track, scripted_tracks
from lint_rules.page.cross_references import CrossReference, references_in
from lint_rules.page.exercises.shared_keys import lesson_of_key
from lint_rules.rule import Book, By, Example, Gather, Reading, Rule, Within
from lint_rules.source import Span

_TWO = "## Lesson 1: One {.words}\n\n### 1 Look.\n\n## Lesson 2: Two {.words}\n\n### 1 Look.\n\n### 2 Read.\n\n"
_TRACK = "::: {.audio track=1.1}\nMILO: A kite!\n:::\n\n"

RULE = Rule(
    name="broken-reference",
    family="unit pattern",
    severity=Severity.QUERY,
    cure=(
        "Name a lesson, an activity or a track that is there. Where pages would be named, name the lesson and "
        "the activity."
    ),
    passes=(
        Example(_TWO + "Look at activity 1 again.\n"),
        Example(_TWO + "Look at the picture in lesson 1, activity 1.\n"),
        Example("### 1 Listen. {.listening audio=1.1}\n\n" + _TRACK + "Listen to track 1.1 again.\n"),
        Example("She opened the old book at page 9. Then he looked on page 10.\n", why="a page of a story"),
        Example(
            "::: teacher\n**Steps:** Show page 3 of the atlas. See page 4 in your diary.\n:::\n", why="another book"
        ),
        Example(
            "## Lesson 1: A\n\n### 1 Sing. {.song}\n\n### 2 Read. {.reading}\n\n"
            "## Lesson 2: B\n\n### 3 Play. {.game}\n\nLook at activity 2 again.\n",
            why="activities numbered straight through the unit",
        ),
        Example(_TWO + "::: answers\n**Activity 9**\n\nA kite.\n:::\n", why="the head of a key, no reference"),
        Example(_TWO + "Do Task 5 of the test. Look at Lesson 2, Task 2.\n", why="a part of a page"),
        Example("### 2.1 Look. {.game}\n\n### 2.2 See activity 2.1 again. {.game}\n"),
        Example("Page 3 of my book is blue. I have two lessons and 5 activities.\n", why="a story, not a reference"),
        Example(
            _TWO + "Do activity 4 of lesson 7 in unit 2.\n", why="unit 2 is to come", course="levels:\n  - units: 3\n"
        ),
    ),
    fails=(
        Example("### 2A Look. {.game}\n\n### 2B Read «activity 2F» again. {.game}\n"),
        Example(_TWO + "Look at «activity 5» again.\n"),
        Example(_TWO + "::: teacher\n**Steps:** Sing the song of «lesson 4».\n:::\n"),
        Example(_TWO + "Look at «lesson 1, activity 3».\n"),
        Example(_TWO + "::: teacher\n**Steps:** Use the cards from «Lesson 1, Task 7».\n:::\n"),
        Example(_TRACK + "::: teacher\n**Steps:** Play «track 1.4».\n:::\n"),
        Example(
            _TRACK.replace("1.1", "1²") + "::: teacher\n**Steps:** Play «track 1.4».\n:::\n",
            why="odd numbers break nothing",
        ),
        Example(_TRACK + "::: teacher\n**Steps:** Play «track 2.4».\n:::\n", why="no unit of the level has it"),
        Example("::: teacher\n**Steps:** See «page 12».\n:::\n", why="a note: no pages yet", weight=Severity.NOTE),
        Example(
            "::: teacher\n**Steps:** Sing the song of «unit 2, lesson 7» and of unit 2, lesson 1.\n:::\n",
            others=("---\nlevel: level-1\nunit: 2\n---\n\n# B\n\n## Lesson 1: Boats\n\n### 1 Sing. {.song}\n",),
            why="a lesson of another unit",
        ),
        Example(
            "::: teacher\n**Steps:** Sing «Unit 2, Lesson 1, activity 6» or Unit 2, Lesson 1, activity 1.\n:::\n",
            others=("---\nlevel: level-1\nunit: 2\n---\n\n# B\n\n## Lesson 1: Boats\n\n### 1 Sing. {.song}\n",),
            why="an activity of a lesson of another unit",
        ),
        Example(
            "### A Look.\n\n### B Read.\n\n### C Write.\n\n::: teacher\n**Steps:** As in «Activity F», and in "
            "Activity B. Is activity A good?\n:::\n",
            why="activities with letters",
        ),
        Example(
            "### 2.1 Look.\n\n### 2.2 Write.\n\n::: teacher\n**Steps:** Use the cards from «2.9» and 2.1. It goes "
            "on from 2.30 to 2.40, in 2.5 minutes.\n:::\n",
            why="the activities are numbered so",
        ),
        Example("Look at the song in «unit 9».\n", course="levels:\n  - units: 3\n"),
    ),
    gathers=(Gather(Within.UNIT, By.WORDS),),
)


_OF_A_BOOK = lazy_re.compile(r"\s+(?:of|in)\s+(?:a|the|my|his|her|their|your|our|\w+['’]s)\b", re.I)
_ORDER = lazy_re.compile(
    r"(?:(?:^|[.!?:]\s+)(?:now\s+|then\s+)?(?:look|see|turn|go|read|find|open|use|do|check)\b[^.!?]*|\(\s*(?:see\s+)?)$",
    re.I,
)


def _counted(track: str) -> tuple[tuple[int, str], ...]:
    """Tracks in the order that people count: 1.9 before 1.10, shorter numbers first."""
    return tuple((len(part), part) for part in re.split(r"(\d+)", track))


def find(reading: Reading) -> Iterator[Found]:
    """Report references of a unit that can be judged by the unit and the course's plan."""
    unit = reading.unit
    for lesson, passage in _passages(unit):
        if passage.role in (Role.ALT, Role.CODE) or passage.audience is Audience.ARTIST:
            continue
        if passage.audience is Audience.KEY:
            lesson = lesson_of_key(passage, unit) or lesson
        for reference in references_in(passage.text):
            if reference.kind == "page" and not _is_sent(passage, reference):
                continue
            if passage.text[reference.start : reference.end] == passage.text.strip(" .:"):
                continue  # a heading: it names what stands under it
            judged = _judge(reference, lesson, reading)
            if judged is not None:
                severity, message = judged
                words = passage.text[reference.start : reference.end]
                yield Found(passage.span(reference.start, reference.end), words, message, severity)
        yield from _bare(passage, unit)


def find_in_book(book: Book) -> Iterator[Found]:
    """Report references to tracks and activities of other units that are not there (find judges those of the unit)."""
    for unit in book.units:
        for place, of_unit, in_lesson, activity in unit.activity_references:
            other = next((one for one in book.units if (one.level, one.unit) == (unit.level, of_unit)), None)
            if other is None or activity in other.activities:
                continue
            there = dict(other.lesson_activities).get(in_lesson, ()) if in_lesson else other.activities
            if there and activity not in there:
                which = f"Lesson {in_lesson} of unit {of_unit}" if in_lesson else f"Unit {of_unit}"
                has = f"activities {min(there)} to {max(there)}" if len(there) > 1 else "one activity"
                message = f"{which} has no activity {activity}: it has {has}."
                yield Found(Span(place.start, place.end), place.text, message, path=unit.path)
        for place, of_unit, lesson in unit.lesson_references:
            other = next((one for one in book.units if (one.level, one.unit) == (unit.level, of_unit)), None)
            if other is not None and lesson > other.last_lesson:
                message = f"Unit {of_unit} has no lesson {lesson}: it has {other.last_lesson}."
                yield Found(Span(place.start, place.end), place.text, message, path=unit.path)
        level = {track for other in book.units if other.level == unit.level for track, _ in other.scripts}
        for spot, number in unit.track_references:
            if number not in level:
                message = f"No unit of {book.course.levels[unit.level].name} has a script for track {number}."
                yield Found(Span(spot.start, spot.end), spot.text, message, path=unit.path)


_TWO_PARTS = lazy_re.compile(r"\d+(?:\.\d+|[A-H])")
# The picture in 2.7, the cards from 2.7 and 2.8; not: from 2.30 to 3.15, in 2.5 minutes, see 2.8 in the Workbook.
_BARE = lazy_re.compile(
    r"\b(?:in|from|of|see|to|with|as in)\s+(\d{1,2}\.\d{1,2})(?=\s*(?:[.,;:)!?](?!\d)|$|\b(?:and|or|again)\b))"
    r"(?!\W*\b(?:in|of) (?:the|your|their) \w*[Bb]ooks?\b)",
    re.I,
)
_NEAR = 8  # numbers beyond the last: later ones are times and prices
_WHOLE = lazy_re.compile(r"\d+")
_SEVERAL = 2  # activities so numbered


def _passages(unit: Unit) -> Iterator[tuple[Lesson | None, Passage]]:
    in_lessons: set[int] = set()
    for lesson in unit.lessons:
        for passage in lesson.passages:
            in_lessons.add(id(passage))
            yield lesson, passage
    for passage in unit.passages:
        if id(passage) not in in_lessons:
            yield None, passage


def _is_sent(passage: Passage, reference: CrossReference) -> bool:
    """Say whether a page's number sends somebody there; a story may have pages of its own (she opened it at page 9)."""
    before, after = passage.text[: reference.start], passage.text[reference.end :]
    return not _OF_A_BOOK.match(after) and (passage.audience is Audience.TEACHER or bool(_ORDER.search(before)))


def _judge(reference: CrossReference, lesson: Lesson | None, reading: Reading) -> tuple[Severity | None, str] | None:
    """What is wrong with a reference; None where nothing is, or where this unit cannot tell."""
    if reference.elsewhere:
        return None
    if reference.kind == "page":
        return Severity.NOTE, (
            "A manuscript has no pages yet, so this cannot be checked and goes wrong when pages move. "
            "Name the lesson and activity instead."
        )
    if reference.kind == "activity" and reference.number.isalpha():
        return None if reference.unit else _lettered(reference, lesson, reading.unit)
    if reference.kind == "activity" and not reference.number.isdigit():
        return _part_number(reference, reading.unit) if not reference.unit else None
    number = reference.whole
    if reference.kind == "unit" or (reference.unit and reference.unit != reading.unit.front.unit):
        return _unit(reference.unit or number, reading)
    if reference.kind == "track":
        scripted = scripted_tracks(reading.unit)
        if reference.number in scripted or not is_own_track(reference.number, reading.unit.front.unit):
            return None
        has = f"This unit has {', '.join(sorted(scripted, key=_counted))}." if scripted else "This unit has no scripts."
        return None, f"There is no script for track {reference.number}. {has}"
    if reference.kind == "lesson":
        return _lesson(number, reading.unit)
    return _activity(number, reference.lesson, lesson, reading.unit)


def _unit(number: int, reading: Reading) -> tuple[Severity | None, str] | None:
    level = reading.level
    known = {plan.unit for plan in reading.course.plans if plan.level == level.index}
    if number in known or number <= level.units or not level.units:
        return None
    return None, f"{level.name} has no unit {number}: it has {level.units} units."


def _lesson(number: int, unit: Unit) -> tuple[Severity | None, str] | None:
    if _find_lesson(number, unit) is not None or not unit.lessons:
        return None
    return None, f"This unit has no lesson {number}: it has {len(unit.lessons)}."


def _activity(number: int, in_lesson: int, here: Lesson | None, unit: Unit) -> tuple[Severity | None, str] | None:
    lesson = _find_lesson(in_lesson, unit) if in_lesson else here
    if in_lesson and lesson is None:
        return _lesson(in_lesson, unit)
    if lesson is None:
        return None
    numbers = numbers_of(lesson)
    if number in numbers or (not in_lesson and number in numbered_through(unit)):
        return None
    if not in_lesson and (all_of := numbered_through(unit)):
        return None, f"This unit has no activity {number}: it has activities {min(all_of)} to {max(all_of)}."
    which = f"Lesson {in_lesson}" if in_lesson else "This lesson"
    count = f"activities {min(numbers)} to {max(numbers)}" if len(numbers) > 1 else "one activity"
    return None, f"{which} has no activity {number}: it has {count if numbers else 'no activities'}."


def _lettered(reference: CrossReference, here: Lesson | None, unit: Unit) -> tuple[Severity | None, str] | None:
    """What is wrong with a letter, where the activities of a lesson have letters."""
    lesson = _find_lesson(reference.lesson, unit) if reference.lesson else here
    letters = [one.heading.number for one in lesson.activities] if lesson is not None else []
    if not all(len(letter) == 1 and letter.isalpha() for letter in letters) or len(letters) < _SEVERAL:
        return None
    headings = (f"{one.heading.number} {one.heading.passage.text}".lstrip() for one in unit.activities)
    if reference.number in letters or any(heading.startswith(f"{reference.number} ") for heading in headings):
        return None  # here, or in a lesson that goes on lettering
    which = f"Lesson {reference.lesson}" if reference.lesson else "This lesson"
    return None, f"{which} has no activity {reference.number}: it has activities {letters[0]} to {letters[-1]}."


def _bare(passage: Passage, unit: Unit) -> Iterator[Found]:
    """Numbers of two parts that only a preposition makes a reference, where activities are numbered so: from 2.34."""
    if passage.audience is not Audience.TEACHER and passage.role is not Role.INSTRUCTION:
        return
    matches = list(_BARE.finditer(passage.text))
    every = _in_two_parts(unit) if matches else frozenset()
    for match in matches:
        whole, part = map(int, match[1].split("."))
        own = [int(one.partition(".")[2]) for one in every if one.startswith(f"{whole}.")]
        if match[1] in every or match[1] in scripted_tracks(unit) or len(own) < _SEVERAL or part > max(own) + _NEAR:
            continue
        message = f"This unit has no activity {match[1]}: it has {whole}.{min(own)} to {whole}.{max(own)} there."
        yield Found(passage.span(*match.span(1)), match[1], message)


def _in_two_parts(unit: Unit) -> frozenset[str]:
    """The numbers of activities that are numbered 2.7; none where one is numbered otherwise."""
    numbers = [one.heading.two_parts for one in unit.activities]
    return frozenset(numbers) if all(numbers) else frozenset()


def _part_number(reference: CrossReference, unit: Unit) -> tuple[Severity | None, str] | None:
    """What is wrong with a number of two parts (activity 2.7, activity 2F), where activities have such ones."""
    headings = (f"{one.heading.number} {one.heading.passage.text}".strip() for one in unit.activities)
    every = {found[0] for heading in headings if (found := _TWO_PARTS.match(heading)) is not None}
    own = str(reference.whole)
    beside = sorted((one for one in every if _WHOLE.findall(one)[0] == own), key=lambda one: (len(one), one))
    if reference.number in every or len(beside) < _SEVERAL:
        return None
    return None, f"This unit has no activity {reference.number}: it has {beside[0]} to {beside[-1]} there."


def _find_lesson(number: int, unit: Unit) -> Lesson | None:
    """The lesson of a number: by its heading (`Lesson 2:`), else by its place."""
    for lesson in unit.lessons:
        written = re.search(r"\d+", lesson.heading.number)
        if written is not None and int(written[0]) == number:
            return lesson
    unnumbered = not any(lesson.heading.number for lesson in unit.lessons)
    return unit.lessons[number - 1] if unnumbered and 0 < number <= len(unit.lessons) else None
