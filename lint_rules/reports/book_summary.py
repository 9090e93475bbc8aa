"""What an editor wants to see at a glance when the book has been read."""

from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules.course.model import Level
from lint_rules.facts import UnitFacts
from lint_rules.finding import Severity
from lint_rules.page.times import as_hours
from lint_rules.reports.report import Report
from lint_rules.vocabulary_map import WordRow, vocabulary_map


def book_summary(report: Report, by_rule: bool = True) -> Iterator[str]:
    """Units, lessons, hours and target words by level, then the points by rule and severity."""
    for name, units, words in levels_at_a_glance(report):
        yield f"{name}: {units}"
        if words:
            yield f"  {words}"
    if report.points and by_rule:
        yield "Points by rule:"
        yield from _by_rule(report)


def levels_at_a_glance(report: Report) -> Iterator[tuple[str, str, str]]:
    """Each level: its name, its units with their hours, and its target words ('' when it has none)."""
    rows = vocabulary_map(report.course, report.facts)
    for level in report.course.levels:
        units = [unit for unit in report.facts if unit.level == level.index]
        of_level = [row for row in rows if row.entry.level == level.index]
        yield f"{level.name} ({level.cefr})", _units(level, units), _words(of_level, level) if of_level else ""


def _units(level: Level, units: Sequence[UnitFacts]) -> str:
    of = f" of {level.units}" if level.units else ""
    lessons = [lesson for unit in units for lesson in unit.lessons]
    known = [lesson for lesson in lessons if lesson.low >= 0]
    low, high = (round(sum(lesson.low for lesson in known)), round(sum(lesson.high for lesson in known)))
    hours = as_hours(low) if low == high else f"{as_hours(low)} to {as_hours(high)}"
    untimed = f" ({len(lessons) - len(known)} lessons without a time)" if len(known) < len(lessons) else ""
    many = "lesson" if len(lessons) == 1 else "lessons"
    said = "promised" if level.hours_of_course else "expected"
    promised = f" of the {level.hours:g} hours {said}" if level.hours else ""
    noun = "unit" if len(units) == 1 and not of else "units"
    return f"{len(units)}{of} {noun}, {len(lessons)} {many}, {hours}{promised}{untimed}"


def _words(rows: Sequence[WordRow], level: Level) -> str:
    taught = sum(row.taught is not None for row in rows)
    recycled = sum(row.taught is not None and row.meetings >= level.limits.recycle for row in rows)
    tested = sum(bool(row.tested) for row in rows)
    return (
        f"{len(rows)} target words: {taught} taught, {recycled} met again {level.limits.recycle} times or more, "
        f"{tested} tested"
    )


def _by_rule(report: Report) -> Iterator[str]:
    counts = Counter((point.rule, point.severity) for point in report.points)
    names = sorted({rule for rule, _ in counts})
    width = max(map(len, names))
    yield f"  {'':{width}}  " + "".join(f"{severity.value:>7}" for severity in Severity)
    for name in names:
        cells = "".join(f"{counts[name, severity] or '':>7}" for severity in Severity)
        yield f"  {name:{width}}  {cells}".rstrip()
