"""What `hornbook outline` prints: how each activity was read, a few lines each. A unit in, text out."""

import json
from collections.abc import Iterator
from typing import Any

from lint_rules.manuscript.model import PICTURE, Activity, Lesson, Unit
from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Answer, Exercise, Exercises, Item, Place, WordBox
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.page.time_plans import lesson_minutes, times_of
from lint_rules.page.times import StatedTime, stated_time

_WIDTH = 100
_NOTHING = "no exercise: read as text"


def outline_page(unit: Unit, *, as_json: bool) -> str:
    """How a unit was read, for an author or (JSON) for another program."""
    if as_json:
        return json.dumps(_as_dict(unit), ensure_ascii=False, indent=1) + "\n"
    return "".join(f"{line}\n" for line in _lines(unit))


def _lines(unit: Unit) -> Iterator[str]:
    yield unit.heading.passage.text if unit.heading is not None else unit.path
    for activity in unit.opening_activities:
        yield from _activity(activity, unit, stated_time(activity.part))
    for lesson in unit.lessons:
        yield ""
        minutes = lesson_minutes(lesson)
        yield f"{_titled(lesson)}{f'  ({minutes})' if minutes is not None else '  (no time)'}"
        for activity, time in zip(lesson.activities, times_of(lesson), strict=True):
            yield from _activity(activity, unit, time)


def _titled(lesson: Lesson) -> str:
    return " ".join(part for part in (lesson.heading.number, lesson.heading.passage.text) if part)


def _activity(activity: Activity, unit: Unit, time: StatedTime | None) -> Iterator[str]:
    line = unit.source.position(activity.heading.span.start).line
    words = " ".join(part for part in (activity.heading.number, activity.heading.passage.text) if part)
    stated = f"  ({time.minutes})" if time is not None and time.minutes is not None else ""
    yield f"  {_cut(words, 2)}  [line {line}]{stated}"
    read = exercises_in(activity, unit)
    if not read.exercises and not read.boxes and not read.keys:
        yield f"      {_NOTHING}"
    for exercise in read.exercises:
        yield from (f"      {_cut(text, 6)}" for text in _exercise(exercise))
    for box in read.boxes:
        yield f"      {_cut(_box(box), 6)}"
    if read.own:
        yield "      key: the children's own answers"
    elif read.loose:
        yield f"      {_cut('key, given to no item: ' + '; '.join(_plain(one.text) for one in read.loose), 6)}"
    elif not read.keys and not any(item.answer for one in read.exercises for item in one.items) and read.exercises:
        yield "      no key"


def _exercise(exercise: Exercise) -> Iterator[str]:
    for item in exercise.items:
        yield f"{item.label.text or '–':>3}  {_item(item, exercise)}"
    if exercise.column:
        yield "to match: " + " · ".join(
            f"{option.label.text if option.label else ''} {_plain(option.text)}".strip() for option in exercise.column
        )
    if exercise.key.order:
        yield "key: " + ", ".join(answer.text for answer in exercise.key.order)
    known = {item.label.key for item in exercise.items}
    extra = [answer for answer in exercise.key.answers if answer.label and answer.label.key not in known]
    if extra:
        yield "key, for no item: " + ", ".join(f"{_label(one)} {_plain(one.text)}" for one in extra)


def _item(item: Item, exercise: Exercise) -> str:
    parts = [_plain(item.text) or ("(to sort into)" if exercise.sorting else "(nothing to read)")]
    parts += ["(" + " / ".join(_plain(option.text) for option in choice.options) + ")" for choice in item.choices]
    if item.jumble is not None:
        parts.append("(to put in order)")
    if item.example:
        parts.append("(example)")
    if item.answer is not None:
        done = completed(item, exercise)
        named = [option.text for option in (*done.chosen, done.matched) if option is not None]
        answer = _plain(item.answer.text)
        other = [_plain(text) for text in named if _plain(text).casefold() != answer.casefold()]
        parts.append(f"→ {answer}" + (f" = {other[0]}" if other else ""))
    elif exercise.key.answers and not item.example:
        parts.append("→ (no answer)")
    return "  ".join(parts)


def _box(box: WordBox) -> str:
    what = "to choose from" if box.instead else "word box"
    return f"{what}: " + " · ".join(_plain(word.text) for word in box.words)


def _label(answer: Answer) -> str:
    return answer.label.text if answer.label is not None else ""


def _plain(text: str) -> str:
    return " ".join(text.replace(PICTURE, "(picture)").split())


def _cut(text: str, indent: int) -> str:
    room = _WIDTH - indent
    return text if len(text) <= room else f"{text[: room - 2].rstrip()} …"


def _as_dict(unit: Unit) -> dict[str, Any]:
    return {
        "path": unit.path,
        "activities": [_activity_dict(activity, unit) for activity in unit.activities],
    }


def _activity_dict(activity: Activity, unit: Unit) -> dict[str, Any]:
    read = exercises_in(activity, unit)
    time = stated_time(activity.part)
    return {
        "number": activity.heading.number,
        "instruction": activity.heading.passage.text,
        "line": unit.source.position(activity.heading.span.start).line,
        "minutes": [time.minutes.low, time.minutes.high] if time is not None and time.minutes is not None else None,
        "exercises": [_exercise_dict(exercise, unit) for exercise in read.exercises],
        "word_boxes": [[_place(word, unit) for word in box.words] for box in read.boxes],
        "key": _key_dict(read),
    }


def _key_dict(read: Exercises) -> dict[str, Any]:
    return {"there": bool(read.keys), "own_answers": read.own, "given_to_no_item": [one.text for one in read.loose]}


def _exercise_dict(exercise: Exercise, unit: Unit) -> dict[str, Any]:
    return {
        "items": [
            {
                "label": item.label.text,
                "prompt": [_place(place, unit) for place in item.prompt],
                "gaps": [_place(gap.place, unit) for gap in item.gaps],
                "options": [[_place(option.place, unit) for option in choice.options] for choice in item.choices],
                "answer": _place(item.answer.place, unit) if item.answer is not None else None,
                "example": item.example,
            }
            for item in exercise.items
        ],
        "to_match": [
            {"label": option.label.text if option.label else "", **_place(option.place, unit)}
            for option in exercise.column
        ],
        "order": [answer.text for answer in exercise.key.order],
    }


def _place(place: Place, unit: Unit) -> dict[str, Any]:
    start = unit.source.position(place.span.start)
    return {"text": place.text, "line": start.line, "column": start.column}
