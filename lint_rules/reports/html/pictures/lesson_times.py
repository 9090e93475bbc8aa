"""How long each lesson takes, against the time that a lesson should take."""

from markupsafe import Markup

from lint_rules.course.model import Level
from lint_rules.facts import LessonTime, UnitFacts
from lint_rules.reports.html.pictures.figure import Figure, Panel, row
from lint_rules.reports.html.pictures.svg import Drawing
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level
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
            panels.append(Panel(heading, _says(timed, level), (_drawn(timed, level),)))
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
            ("band", "target"),
            ("dot ink", _WITHIN),
            ("dot edge orange", "may be shorter or longer"),
            ("down red", "shorter"),
            ("up red", "longer"),
        ),
    )


def _numbered(facts: UnitFacts) -> list[tuple[int, LessonTime]]:
    return list(enumerate(facts.lessons, start=1))


_HEIGHT, _LEFT, _STEP, _BETWEEN = 190, 48, 15, 26  # pixels: of the scale, its labels, a lesson, two units


def _drawn(timed: list[tuple[str, int, LessonTime]], level: Level) -> Markup:
    """Minutes upwards, the lessons of each unit side by side, the target as a band."""
    low, high = level.limits.lesson_minutes
    longest = max(high, *(lesson.high / lesson.parts for _, _, lesson in timed)) * 1.08
    groups = [
        (label, [(at, one) for of, at, one in timed if of == label]) for label in dict.fromkeys(t[0] for t in timed)
    ]
    width = _LEFT + sum(_STEP * len(lessons) + _BETWEEN for _, lessons in groups)
    drawing = Drawing(width + 8, _HEIGHT + 74)

    def up(minutes: float) -> float:
        return 24 + _HEIGHT * (1 - minutes / longest)

    drawing.rect(_LEFT, up(high), width - _LEFT, up(low) - up(high), "band")
    drawing.text(0, 13, "minutes", "dim")
    for minutes in sorted({0, low, high, *range(0, int(longest) + 1, 20 if longest < 130 else 60)}):
        if minutes in (low, high) or min(abs(minutes - low), abs(minutes - high)) * _HEIGHT / longest > 12:
            drawing.text(_LEFT - 8, up(minutes) + 4.5, str(minutes), "end")
            drawing.line(_LEFT, up(minutes), width, up(minutes), "dash" if minutes in (low, high) else "rule")
    x = _LEFT + _BETWEEN / 2
    for label, lessons in groups:
        for _, lesson in lessons:
            x += _STEP
            if lesson.low >= 0:
                shape, look = _look(_judged(lesson, level))
                least, most = up(lesson.low / lesson.parts), up(lesson.high / lesson.parts)
                drawing.line(x - _STEP / 2, least, x - _STEP / 2, most, "bar")
                drawing.mark(shape, x - _STEP / 2, least, 5.5, look)
        drawing.text(x - _STEP * len(lessons) / 2, _HEIGHT + 44, label, "mid")
        x += _BETWEEN
    drawing.text(_LEFT, _HEIGHT + 66, "unit", "dim")
    return drawing.svg()


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


def _look(judged: str) -> tuple[str, str]:
    if judged == _WITHIN:
        return "dot", "ink"
    if judged.startswith("may"):
        return "dot", "edge orange"
    return ("up" if judged.endswith("long") else "down"), "red"


def _minutes(lesson: LessonTime) -> str:
    if lesson.low < 0:
        return "–"
    low, high = lesson.low / lesson.parts, lesson.high / lesson.parts
    one = f"{low:g}" if low == high else f"{low:g}–{high:g}"
    return one if lesson.parts == 1 else f"{lesson.parts} × {one}"
