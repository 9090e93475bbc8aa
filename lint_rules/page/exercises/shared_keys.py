"""One key for several activities: at the end of a lesson or in its notes, each activity under its number.

`Activity 2: 1 c, 2 a` names the activity; a bare number in bold (`**2** 1 c, 2 a`) does where labels of answers follow.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.manuscript.counting import is_title
from lint_rules.manuscript.field_names import activity_of
from lint_rules.manuscript.model import Activity, Audience, Lesson, Passage, Role, Unit
from lint_rules.page.exercises.key_columns import by_column
from lint_rules.page.exercises.key_places import keys_in, part_of, told_answers
from lint_rules.page.exercises.letter_heads import has_letters, letter_heads
from lint_rules.page.exercises.unit_keys import unit_keys_of

_NAMED = lazy_re.compile(
    r"(?:^|(?<=[.;!?]\s)|(?<=\n)|(?<=\s)(?=(?:activity|exercise|task|ex\.|act\.)\s*[0-9]{1,2}\s*:\s))\s*"
    r"(?:activity|activities|exercises?|ex\.|act\.|tasks?|(?:key|part|round|section|mission)(?=\s[0-9]{1,2}\s*:))\s*"
    r"(?P<number>[0-9]{1,3}[a-z]?)(?:(?:(?:,\s|\s(?:and|to|&)\s|[–-])[0-9]{1,3}[a-z]?)+(?=:))?"  # Activities 4 and 5:
    r"(?:\s*(?P<set>[:.)–—-])\s*|(?=\s|$))",
    re.I,
)
_ACTIVITY = lazy_re.compile(r"\W*(?:act(?:ivity)?|ex(?:ercise)?|task)s?\W*", re.I)
# 2: 1 c, 2 a. 3: 1 hat, 2 bag. 4: children's own answers.
_BARE = lazy_re.compile(
    r"(?:^|(?<=[.;]\s))(?P<number>[0-9]{1,3}[a-z]?)\s*:\s+(?P<labelled>1[.):]?\s|[^.;]*\b(?:own|free|open)\b)?", re.I
)
_KEY = lazy_re.compile(r"\W*(?:(?:the\s+)?(?:correct\s+)?answers?|keys?|solutions?)\W*", re.I)
# 1B 1 d 2 f: an activity with a letter, whose answers begin at 1, or are the children's own.
_WITH_LETTER = lazy_re.compile(
    r"(?:^|(?<=\n))(?P<number>[0-9]{1,2}[A-Z])[.):]?\s+(?=1[.):]?\s|[^\n.;]*\b(?:own|free|open|oral|answers vary)\b)"
)
_OF_LESSON = lazy_re.compile(
    r"\W*(?:keys?|answers?|answer key|solutions?)\s+(?:to|for|of)\s+lesson\s+(\d{1,2})\W*", re.I
)
_HEAD_OF_LESSON = lazy_re.compile(r"\W*lesson\s+(\d{1,2})\W*(?:[:.–—-]\s*[^\n.]{1,60}\.?)?", re.I)
_LINE_OF_LESSON = lazy_re.compile(
    r"\W*lesson\s+(\d{1,2})\W+(?=(?:(?:activity|exercise|task|ex\.|act\.)\s*)?\d{1,2}\s*:\s)", re.I
)
_LESSON = lazy_re.compile(r"\W*lesson\s+\d{1,2}\W*", re.I)
_SAID_ALOUD = lazy_re.compile(r"\b(?:says?|sings?|chants?|counts?|repeats?|shouts?|whispers?)\b[^.!?\n]{0,20}$", re.I)
_MENTIONED = lazy_re.compile(r"\b(?:activity|exercise|ex\.)\s+(?P<number>[0-9]{1,3}[a-z]?)\b", re.I)
_PART = lazy_re.compile(r"\W*(?:part|round|section|mission)\s+[0-9]{1,2}\b", re.I)
_FIGURE = lazy_re.compile(r"[0-9]{1,3}")
_NUMBER = lazy_re.compile(r"\s*(?P<number>[0-9]{1,3}[A-Za-z]?)[.):]?\s*")
_LETTERED = lazy_re.compile(r"(?P<number>[0-9]{1,2}[A-Z])[.):]?\s+(?=[A-Z])")  # ### 5D Complete the map.
_ONE_AND_TWO = lazy_re.compile(r"1[.):]?\s+\S[^\n]*?[,;.]\s*2[.):]?\s+\S")
_FROM_ONE = lazy_re.compile(
    r"\s*(?:1[.):]?\s+\S.*?\s*[,;.·|/]\s+2[.):]?\s+\S|a[.):]?\s+\S.*?\s*[,;.·|/]\s+b[.):]?\s+\S)"
)
_FEWEST = 2  # items of such a list
_LABEL_FOLLOWS = lazy_re.compile(r"\s*[(\[]?(?:[0-9]{1,2}|[a-z])[.):\]]?\s")


def keys_of(activity: Activity, unit: Unit) -> tuple[Passage, ...]:
    """The passages of an activity's key: its own, and its share of a key for the whole lesson."""
    moved, _ = _by_lesson(unit)
    named = unit_keys_of(unit)
    if id(activity) in named.given:
        beside = (one for one in keys_in(activity.part.passages) if id(one) not in moved | named.passages)
        return (*beside, *named.given[id(activity)])
    own = tuple(one for one in keys_in(activity.part.passages) if id(one) not in moved | named.passages)
    lesson = next((one for one in unit.lessons if any(other is activity for other in one.activities)), None)
    if lesson is None:
        return own
    shared, given = _shares(lesson, unit)
    of_unit, of_others, _ = _of_unit(unit)
    own = tuple(passage for passage in own if id(passage) not in shared | of_unit)
    keys = _once((*own, *given.get(id(activity), ()), *of_others.get(id(activity), ())))
    return keys or tuple(_told_in_steps(activity)) or _told_in_lesson(lesson, activity)


def _once(keys: Sequence[Passage]) -> tuple[Passage, ...]:
    """Passages that may have been given in two ways, each once: a row of a table, and the column headed Key in it."""
    return tuple({(one.span().start, one.span().end): one for one in keys}.values())


@lru_cache(maxsize=8)  # asked for by each activity of a unit
def _by_lesson(unit: Unit) -> tuple[frozenset[int], dict[int, tuple[Passage, ...]]]:
    """The passages of keys (by identity) that stand under the name of another lesson (`Key to Lesson 2`, at the end of
    a unit), and what each lesson (by identity) gets of them. That of a lesson which is not there answers nothing."""
    lessons = {match[0]: one for one in unit.lessons if (match := _FIGURE.search(one.heading.number)) is not None}
    moved: set[int] = set()
    given: dict[int, list[Passage]] = {}
    for home in unit.lessons:
        number = ""
        for part in (home.part, *(activity.part for activity in home.activities)):
            for passage in keys_in(part.passages):
                match = _OF_LESSON.fullmatch(passage.text) or _head_of_lesson(passage)
                in_line = _in_line(passage) if match is None else None
                head = match or in_line
                number = head[1] if head is not None else number
                if not number or (lessons.get(number) is home and in_line is None):
                    continue
                moved.add(id(passage))
                if match is None and number in lessons:
                    rest = part_of(passage, in_line.end(), len(passage.text)) if in_line is not None else passage
                    given.setdefault(id(lessons[number]), []).append(rest)
    return frozenset(moved), {lesson: tuple(passages) for lesson, passages in given.items()}


def _head_of_lesson(passage: Passage) -> re.Match[str] | None:
    """A title within a key that names a lesson, all in bold: **Lesson 1**, **Lesson 2: Which boat is better?**"""
    match = _HEAD_OF_LESSON.fullmatch(passage.text)
    bold = passage.strong == ((0, len(passage.text)),)
    return match if match is not None and (bold or is_title(passage)) else None


def _in_line(passage: Passage) -> re.Match[str] | None:
    """A lesson's name in bold that begins a line of a key: **Lesson 3** 1: 1 was, 2 were; 2: 1 c, 2 a."""
    match = _LINE_OF_LESSON.match(passage.text)
    return match if match is not None and any(start == 0 for start, _ in passage.strong) else None


def lesson_of_key(passage: Passage, unit: Unit) -> Lesson | None:
    """The lesson that a passage of a key answers, where it stands under the name of one elsewhere in the unit, or under
    the number of an activity."""
    _, given = _by_lesson(unit)
    named = next((one for one in unit.lessons if any(own is passage for own in given.get(id(one), ()))), None)
    return named or unit_keys_of(unit).lessons.get(id(passage)) or _of_unit(unit)[2].get(id(passage))


@lru_cache(maxsize=8)
def _of_unit(unit: Unit) -> tuple[frozenset[int], dict[int, tuple[Passage, ...]], dict[int, Lesson]]:
    """The passages (by identity) of a key that names activities of several lessons (`Activity 6: 1 bell`, at the end
    of the unit), what each activity gets of it, and the lesson that a passage begins with; where no two activities of
    the unit have one number."""
    every = [activity for lesson in unit.lessons for activity in lesson.activities]
    numbers = {_number(activity, at): activity for at, activity in enumerate(every, 1)}
    shared: set[int] = set()
    given: dict[int, list[Passage]] = {}
    if len(numbers) < len(every):
        return frozenset(), {}, {}
    homes = {id(activity): lesson for lesson in unit.lessons for activity in lesson.activities}
    lessons: dict[int, Lesson] = {}
    for lesson in unit.lessons:
        own = {number for number, activity in numbers.items() if activity in lesson.activities}
        for part in (lesson.part, *(activity.part for activity in lesson.activities)):
            keys = keys_in(part.passages)
            listed = _numbered_lists(keys)
            heads = list(_heads_of(keys, listed))
            named = {number for several in heads for number, _, _ in several}
            if len(named) <= 1 or named <= own or not named <= numbers.keys():
                continue
            shared.update(id(passage) for passage, several in zip(keys, heads, strict=True) if several)
            for number, passage, whole in _cut(keys, heads, listed):
                shared.add(id(whole))
                if number and _LESSON.fullmatch(passage.text) is None:
                    given.setdefault(id(numbers[number]), []).append(passage)
                    lessons.setdefault(id(whole), homes[id(numbers[number])])
    return frozenset(shared), {activity: tuple(passages) for activity, passages in given.items()}, lessons


def _told_in_steps(activity: Activity) -> Iterator[Passage]:
    """The answers that the notes of an activity without a key tell on the way: Compare in pairs. Check (1 milk, 2 eggs,
    3 butter). On the board you want *1 milk, 2 eggs, 3 butter*."""
    for passage in activity.part.passages:
        if passage.audience is Audience.TEACHER and passage.role is not Role.TITLE:
            said = list(told_answers(passage.text))
            for first, last in sorted({*passage.emphasis, *passage.strong}):
                spoken = _SAID_ALOUD.search(passage.text, 0, first) is not None
                if not spoken and not any(start < last and first < end for start, end in said):
                    said += [
                        (first + start - 1, first + end - 1)
                        for start, end in told_answers(f"({passage.text[first:last]})")
                    ]
            yield from (replace(part_of(passage, start, end), item=None) for start, end in said)  # no step 3


def _told_in_lesson(lesson: Lesson, activity: Activity) -> tuple[Passage, ...]:
    """The answers that the lesson's own notes tell behind the activity's number: Activity 2, about five minutes.
    Answers: 1 behind, 2 on, 3 in."""
    wanted = next(_number(one, at) for at, one in enumerate(lesson.activities, 1) if one is activity)
    found: list[Passage] = []
    before = ""
    keys = {id(passage) for passage in keys_in(lesson.part.passages)}
    for passage in lesson.part.passages:
        if passage.audience not in (Audience.TEACHER, Audience.KEY) or passage.role is Role.TITLE:
            continue
        for start, end in told_answers(f"Answers: {passage.text}" if id(passage) in keys else passage.text):
            lead = len("Answers: ") if id(passage) in keys else 0
            named = list(_MENTIONED.finditer(passage.text, 0, start - lead)) or list(_MENTIONED.finditer(before))
            if named and named[-1]["number"] == wanted:
                found.append(part_of(passage, start - lead, end - lead))
        before = passage.text
    return tuple(found) if len(found) == 1 else ()


@lru_cache(maxsize=64)  # asked for by each activity of a lesson
def _shares(lesson: Lesson, unit: Unit) -> tuple[frozenset[int], dict[int, tuple[Passage, ...]]]:
    """The passages (by identity) that are shared out, and what each activity (by identity) gets of them."""
    numbers = {_number(activity, at): activity for at, activity in enumerate(lesson.activities, 1)}
    letters = [one.heading.number for one in lesson.activities if _is_letter(one.heading.number)]
    keyed = {number for number, activity in numbers.items() if any(keys_in(activity.part.passages))}
    before: set[str] = set()
    shared: set[int] = set()
    given: dict[int, list[Passage]] = {}
    moved, elsewhere = _by_lesson(unit)
    places = [
        ("", keys_in(lesson.part.passages)),
        *((number, keys_in(activity.part.passages)) for number, activity in numbers.items()),
        ("", elsewhere.get(id(lesson), ())),
    ]
    for at, (own, every) in enumerate(places):
        before.add(own)
        keys = every if at == len(places) - 1 else [passage for passage in every if id(passage) not in moved]
        beside = _beside_the_key(keys)
        keys = [passage for passage in keys if id(passage) not in beside]
        for number, answers in by_column(keys):
            if number in numbers:
                given.setdefault(id(numbers[number]), []).extend(answers)
                shared.update(map(id, answers))
        keys = [passage for passage in keys if id(passage) not in shared]
        by_letter = letters and not (own and has_letters(numbers[own].part.passages, letters))
        of_own = _labels_of(numbers[own]) if own else set()
        listed = _numbered_lists(keys, numbers.keys() - of_own, 1 if own and not of_own else _FEWEST)
        if by_letter:
            listed = {id(one): one.item.label for one in keys if one.item is not None and one.item.label in letters}
        heads = [letter_heads(one, letters) for one in keys] if by_letter else list(_heads_of(keys, listed))
        named = [number for several in heads for numbers_, _, _ in several for number in numbers_.split(",")]
        alone = len(named) == 1 and (not own or (bool(by_letter) and named != [own]))
        if not named or not (alone or len(set(named)) > 1) or not set(named) <= numbers.keys():
            continue
        if own and _has_parts(numbers[own]) and any(_PART.match(passage.text) for passage in keys):
            continue  # the parts of its own page
        if own and not set(named) - {own} <= before - keyed:
            continue  # its own items: a shared key stands behind what it is for, and nobody there has another
        shared.update(beside)
        shared.update(id(passage) for passage, several in zip(keys, heads, strict=True) if several)
        labels = _labels_over(keys)
        for number, passage, whole in _cut(keys, heads, listed):
            shared.add(id(whole))
            for one in filter(None, number.split(",")):
                label = labels.get((passage.cell.table, passage.cell.column)) if passage.cell is not None else None
                given.setdefault(id(numbers[one]), []).extend([passage] if label is None else [label, passage])
    return frozenset(shared), {activity: tuple(passages) for activity, passages in given.items()}


def _labels_over(keys: Sequence[Passage]) -> dict[tuple[int, int], Passage]:
    """The heads of tables that have a row for each activity and a column for each item, by table and column:
    | Activity | 1 | 2 | 3 |, | 4 | six | two | five |."""
    heads: dict[int, list[Passage]] = {}
    for one in keys:
        if one.cell is not None and one.role is Role.HEAD:
            heads.setdefault(one.cell.table, []).append(one)
    return {
        (table, one.cell.column): one
        for table, (first, *rest) in heads.items()
        if rest
        and _ACTIVITY.fullmatch(first.text)
        and [one.text for one in rest] == [str(at) for at in range(1, len(rest) + 1)]
        for one in rest
        if one.cell is not None
    }


def _is_letter(number: str) -> bool:
    return len(number) == 1 and number.isalpha()


def _has_parts(activity: Activity) -> bool:
    """Whether the page of an activity is in parts: **Part 1** Write the words."""
    page = (passage for passage in activity.part.passages if passage.audience is Audience.PUPIL)
    return any(_PART.match(passage.text) for passage in page)


def _number(activity: Activity, place: int) -> str:
    if _is_letter(activity.heading.number):
        return activity.heading.number.casefold()
    lettered = _LETTERED.match(activity.heading.passage.text)
    return activity.heading.figure or (lettered["number"].casefold() if lettered is not None else str(place))


def _beside_the_key(keys: Sequence[Passage]) -> frozenset[int]:
    """The cells (by identity) of a table of keys that are neither activity nor key: | Task | Key | Marks |."""
    heads = {(one.cell.table, one.cell.column): one.text for one in keys if one.cell and one.role is Role.HEAD}
    keyed = {table for (table, column), text in heads.items() if column and _KEY.fullmatch(text)}
    by_row = {table for (table, column), text in heads.items() if not column and _ACTIVITY.fullmatch(text)}
    return frozenset(
        id(one)
        for one in keys
        if one.cell is not None
        and one.cell.table in keyed & by_row
        and one.cell.column
        and not _KEY.fullmatch(heads.get((one.cell.table, one.cell.column), ""))
    )


def _labels_of(activity: Activity) -> set[str]:
    """The labels of the lists on an activity's page."""
    page = (one for one in activity.part.passages if one.audience is Audience.PUPIL and one.item is not None)
    return {one.item.label for one in page if one.item is not None}


def _heads_of(keys: Sequence[Passage], listed: Mapping[int, str]) -> Iterator[list[tuple[str, int, int]]]:
    """For each passage the numbers of activities that head it or its sentences, with their ranges. A table of two
    columns is headed by its rows: | Activity | Answers |, | 2 | 1 c; 2 a |."""
    tables: dict[int, list[Passage]] = {}
    for passage in keys:
        if passage.cell is not None and passage.role is Role.HEAD:
            tables.setdefault(passage.cell.table, []).append(passage)
    by_row = {table for table, (first, *rest) in tables.items() if rest and _ACTIVITY.fullmatch(first.text)}
    for passage in keys:
        cell = passage.cell
        number = _NUMBER.fullmatch(passage.text.strip()) if cell is not None and cell.table in by_row else None
        named = activity_of(passage.field)
        if number is not None and cell is not None and cell.column == 0:
            yield [(number["number"], 0, len(passage.text))]
        elif named or id(passage) in listed:
            yield [(named or listed[id(passage)], 0, 0)]
        else:
            yield _heads(passage)


def _numbered_lists(keys: Sequence[Passage], known: Collection[str] = (), fewest: int = _FEWEST) -> dict[int, str]:
    """The items of a list (by identity) that has an item for each activity, with their numbers: `2 1 b, 2 d` over
    `3 1 ticket, 2 bridge`; where they do not count from 1 on, and are those of ``known`` activities, one with answers
    of its own is enough (`10 park, car`, under it `11 a 30, b 14`); else ``fewest`` must have answers from 1 on."""
    items = [one for one in keys if one.item is not None and one.item.label.isdigit()]
    labels = [one.item.label for one in items if one.item is not None]
    from_one = sum(_FROM_ONE.match(one.text) is not None for one in items)
    rising = [int(one) for one in labels] == sorted({int(one) for one in labels})
    of_activities = rising and set(labels) <= {*known} and labels != [str(at) for at in range(1, len(labels) + 1)]
    from_one_to_two = sum(_ONE_AND_TWO.match(one.text) is not None for one in items)
    counted = len(items) > 1 and rising and set(labels) <= {*known} and from_one_to_two >= fewest
    if (from_one and of_activities and len(items) > 1) or counted:
        return dict(zip(map(id, items), labels, strict=True))
    if from_one < _FEWEST or from_one * 2 <= len(items):
        return {}
    return dict(zip(map(id, items), labels, strict=True))


def _heads(passage: Passage) -> list[tuple[str, int, int]]:
    """The numbers of activities that head a passage or its sentences, with their ranges."""
    lettered = list(_WITH_LETTER.finditer(passage.text)) if passage.cell is None else []
    if lettered and not lettered[0].start() and not (passage.strong and not passage.strong[0][0]):
        return [(match["number"].casefold(), *match.span()) for match in lettered]
    bare = list(_BARE.finditer(passage.text)) if passage.cell is None else []
    if bare and bare[0].start() == 0 and sum(match["labelled"] is not None for match in bare) * 2 > len(bare):
        return [(match["number"], match.start(), match.end("number") + 1) for match in bare]
    found = [(match["number"], *match.span()) for match in _NAMED.finditer(passage.text) if _is_set_off(match, passage)]
    if found or not passage.strong or (passage.strong[0][0] and not _is_led(passage)):
        return found
    bold = [(_NUMBER.fullmatch(passage.text, start, end), start, end) for start, end in passage.strong]
    first, _, end = bold[0]
    if first is None or not (_LABEL_FOLLOWS.match(passage.text, end) or len(passage.text[end:].split()) > 1):
        return []
    # A line for each: **12** 1 are, 2 is. In the order of their numbers, else a number is an answer.
    numbers = [(match["number"].casefold(), start, end) for match, start, end in bold if match is not None]
    figures = [(int(re.sub(r"\D", "", number)), number) for number, _, _ in numbers]
    ends = [*(start for _, start, _ in numbers[1:]), len(passage.text)]
    in_lines = all(start == 0 or passage.text[start - 1] == "\n" for _, start, _ in numbers)  # **3** eight
    fewest = 1 if in_lines else 2
    full = all(len(passage.text[at:to].split()) >= fewest for (_, _, at), to in zip(numbers, ends, strict=True))
    return numbers if full and figures == sorted(set(figures)) else numbers[:1]


def _is_led(passage: Passage) -> bool:
    """Whether a house's saying leads to the first number: *Turn the page on its head!* **1** 1 c · 2 a."""
    start, end = passage.emphasis[0] if passage.emphasis else (1, 1)
    return (
        not start
        and passage.text[:end].rstrip()[-1:] in (".", "!", ":")
        and not passage.text[end : passage.strong[0][0]].strip()
    )


def _is_set_off(match: re.Match[str], passage: Passage) -> bool:
    """Whether a number names the activity whose answers follow, and is not spoken of: Activity 2 is for pairs."""
    return (
        match["set"] is not None
        or match.end() >= len(passage.text.rstrip())
        or any(start <= match.start("number") < end for start, end in passage.strong)
    )


def _cut(
    keys: Sequence[Passage], heads: Sequence[Sequence[tuple[str, int, int]]], listed: Collection[int]
) -> Iterator[tuple[str, Passage, Passage]]:
    """Each share of a key with the number of its activity ('' before the first) and the passage it comes from."""
    number = ""
    for passage, several in zip(keys, heads, strict=True):
        edges = [(number, 0, 0), *several]
        for (of, _, start), end in zip(edges, [*(start for _, start, _ in several), len(passage.text)], strict=True):
            if passage.text[start:end].strip():
                part = part_of(passage, start, end)
                yield of, replace(part, item=None) if id(passage) in listed else part, passage
            number = of
