"""How long each lesson takes, against the time that a lesson should take."""

from lint_rules.course.model import Level
from lint_rules.facts import LessonTime, UnitFacts
from lint_rules.reports.html.pictures.figure import GREY, INK, ORANGE, RED, TINT, Figure, Panel, Spec, draw, row
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level, width_for
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many

_WITHIN, _NO_TIME = "within it", "no time given"


def figure(report: Report) -> Figure | None:
    """The picture, or None when no lesson has a time."""
    if not any(lesson.low >= 0 for facts in report.facts for lesson in facts.lessons):
        return None
    labels = unit_labels(report)
    panels, rows = [], []
    for heading, units in units_by_level(report):
        level = report.course.levels[units[0].level]
        timed = [(labels[facts.path], number, lesson) for facts in units for number, lesson in _numbered(facts)]
        if timed:
            panels.append(Panel(heading, _says(timed, level), (draw(_layers(timed, level), _width(units), 160),)))
        for label, number, lesson in timed:
            name = f"{level.name}, unit {label}, lesson {number}: {lesson.heading.text}"
            rows.append(row(name, _minutes(lesson), _judged(lesson, level)))
    return Figure(
        "times",
        "Lesson times",
        "Each mark is a lesson, a bar one whose time is a range. The tinted band is the time a lesson should take.",
        tuple(panels),
        ("Lesson", "Minutes", "Against the target"),
        tuple(rows),
        (
            ("square tint", "target"),
            ("dot ink", _WITHIN),
            ("dot orange", "may be shorter or longer"),
            ("dot red", "shorter or longer"),
        ),
    )


def _numbered(facts: UnitFacts) -> list[tuple[int, LessonTime]]:
    return list(enumerate(facts.lessons, start=1))


def _width(units: list[UnitFacts]) -> int:
    return width_for(len(units), 16 + 12 * max(len(facts.lessons) for facts in units), least=180)


def _layers(timed: list[tuple[str, int, LessonTime]], level: Level) -> list[Spec]:
    low, high = level.limits.lesson_minutes
    values = [
        {
            "unit": label,
            "lesson": number,
            "low": lesson.low / lesson.parts,
            "high": lesson.high / lesson.parts,
            "colour": _colour(_judged(lesson, level)),
        }
        for label, number, lesson in timed
        if lesson.low >= 0
    ]
    domain = list(dict.fromkeys(label for label, _, _ in timed))
    longest = max(high, *(lesson.high / lesson.parts for _, _, lesson in timed))
    place: Spec = {
        "x": {"field": "unit", "type": "ordinal", "title": "unit", "scale": {"domain": domain, "paddingInner": 0.25}},
        "xOffset": {"field": "lesson", "type": "ordinal"},
        "y": {
            "field": "low",
            "type": "quantitative",
            "title": "minutes",
            "scale": {"domain": [0, longest * 1.08], "nice": False},
            "axis": {"tickCount": 5},
        },
        "y2": {"field": "high"},
        "color": {"field": "colour", "type": "nominal", "scale": None},
    }
    return [
        {"data": {"values": [{}]}, "mark": {"type": "rect", "color": TINT}, "encoding": _datums(low, high)},
        {
            "data": {"values": [{}]},
            "mark": {"type": "rule", "color": GREY, "strokeDash": [3, 3], "strokeWidth": 0.7},
            "encoding": {"y": {"datum": low}},
        },
        {
            "data": {"values": [{}]},
            "mark": {"type": "rule", "color": GREY, "strokeDash": [3, 3], "strokeWidth": 0.7},
            "encoding": {"y": {"datum": high}},
        },
        {
            "data": {"values": values},
            "mark": {"type": "rule", "strokeWidth": 4, "strokeCap": "round"},
            "encoding": place,
        },
        {
            "data": {"values": values},
            "mark": {"type": "point", "filled": True, "size": 34, "opacity": 1},
            "encoding": {**{key: value for key, value in place.items() if key != "y2"}},
        },
    ]


def _datums(low: float, high: float) -> Spec:
    return {"y": {"datum": low, "type": "quantitative"}, "y2": {"datum": high}}


def _says(timed: list[tuple[str, int, LessonTime]], level: Level) -> str:
    judged = [_judged(lesson, level) for _, _, lesson in timed]
    low, high = level.limits.lesson_minutes
    sure = [judge for judge in judged if not judge.startswith("may")]
    counts = {
        "shorter": sum(judge.endswith("too short") for judge in sure),
        "longer": sum(judge.endswith("too long") for judge in sure),
        "that may be shorter or longer": len(judged) - len(sure),
        "without a time": judged.count(_NO_TIME),
    }
    said = f"{judged.count(_WITHIN)} of {many(len(judged), 'lesson')} within the target of {low} to {high} minutes"
    return ", ".join([said, *(f"{count} {what}" for what, count in counts.items() if count)]) + "."


def _judged(lesson: LessonTime, level: Level) -> str:
    """What an editor reads; a double lesson is judged by one of the two."""
    low, high = level.limits.lesson_minutes
    shortest, longest = lesson.low / lesson.parts, lesson.high / lesson.parts
    if lesson.low < 0:
        return _NO_TIME
    if longest < low:
        return f"{low - longest:g} too short"
    if shortest > high:
        return f"{shortest - high:g} too long"
    if shortest < low and longest > high:
        return "may be too short or too long"
    if shortest < low:
        return "may be too short"
    return "may be too long" if longest > high else _WITHIN


def _colour(judged: str) -> str:
    return INK if judged == _WITHIN else ORANGE if judged.startswith("may") else RED


def _minutes(lesson: LessonTime) -> str:
    if lesson.low < 0:
        return "–"
    low, high = lesson.low / lesson.parts, lesson.high / lesson.parts
    one = f"{low:g}" if low == high else f"{low:g}–{high:g}"
    return one if lesson.parts == 1 else f"{lesson.parts} × {one}"
