"""Where the points are: rule by unit, each with its number."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from markupsafe import Markup

from lint_rules.finding import Severity
from lint_rules.reports.html.pictures.figure import Cell, Figure, Panel, row
from lint_rules.reports.html.pictures.svg import Mark, table_of_marks
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many

_LOOKS = {
    Severity.STOP: ("square", "red"),
    Severity.QUERY: ("dot", "blue"),
    Severity.NOTE: ("diamond", "grey"),
}
MOST_COLUMNS = 24


@dataclass(frozen=True, slots=True)
class _Tally:
    """The points by rule and unit, their heaviest severities; the rules, gravest first; how many each rule has."""

    counts: Counter[tuple[str, str]]
    heaviest: Mapping[tuple[str, str], Severity]
    rules: Mapping[str, Severity]
    totals: Counter[str]


def figure(report: Report) -> Figure | None:
    """The picture, or None when there are no points."""
    if not report.points:
        return None
    tally = _tally(report)
    labels = unit_labels(report)
    found = {path for _, path in tally.counts}
    columns = dict(_columns(report, labels))
    return Figure(
        "rules",
        "Points, by unit and rule",
        "How many points of each rule there are in each unit; the gravest rules first.",
        tuple(_panels(report, tally, labels)),
        ("Rule", "Weighs", "Together", *(name for path, name in columns.items() if path in found)),
        tuple(
            row(
                Cell(rule, urlencode({"rule": rule})),
                weight.value,
                tally.totals[rule],
                *(_cell(tally, rule, path) for path in columns if path in found),
            )
            for rule, weight in tally.rules.items()
        ),
        (("square red", "holds a stop"), ("dot blue", "queries"), ("diamond grey", "notes")),
    )


def _tally(report: Report) -> _Tally:
    heaviest: dict[tuple[str, str], Severity] = {}
    rules: dict[str, Severity] = {}
    for point in report.points:
        for path in point.paths:
            heaviest[point.rule, path] = _heavier(point.severity, heaviest.get((point.rule, path)))
        rules[point.rule] = _heavier(point.severity, rules.get(point.rule))
    counts = Counter((point.rule, path) for point in report.points for path in point.paths)
    totals = Counter(point.rule for point in report.points)
    order = sorted(rules, key=lambda rule: (-rules[rule].weight, -totals[rule], rule))
    return _Tally(counts, heaviest, {rule: rules[rule] for rule in order}, totals)


def _heavier(one: Severity, other: Severity | None) -> Severity:
    return one if other is None else max(one, other, key=lambda severity: severity.weight)


def _cell(tally: _Tally, rule: str, path: str) -> Cell:
    count = tally.counts[rule, path]
    return Cell(str(count), urlencode({"rule": rule, "unit": path})) if count else Cell("")


def _columns(report: Report, labels: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """A name for each unit file that no other one has."""
    for path, label in labels.items():
        level = report.course.level_of(path)
        several = level is not None and len(report.course.levels) > 1
        yield path, f"{level.name}, {label}" if several and level else label


def _units(report: Report) -> Iterator[tuple[str, str]]:
    """Every unit file with the heading of its level; those that could not be read come last."""
    for heading, units in units_by_level(report):
        for facts in units:
            yield heading, facts.path
    read = {facts.path for facts in report.facts}
    for path in sorted(report.sources):
        if path not in read:
            yield "Not read", path


def _panels(report: Report, tally: _Tally, labels: Mapping[str, str]) -> Iterator[Panel]:
    """A panel a level, or several where a level has very many units."""
    by_heading: dict[str, list[str]] = {}
    for heading, path in _units(report):
        by_heading.setdefault(heading, []).append(path)
    for heading, paths in by_heading.items():
        for first in range(0, len(paths), MOST_COLUMNS):
            some = paths[first : first + MOST_COLUMNS]
            rules = [rule for rule in tally.rules if any(tally.counts[rule, path] for path in some)]
            if rules:
                part = f", unit {labels[some[0]]} to {labels[some[-1]]}" if len(paths) > MOST_COLUMNS else ""
                columns = {path: labels[path] for path in some}
                svg = _drawn(tally, rules, columns)
                yield Panel(heading + part, _says(tally, rules, some), (svg,))


def _drawn(tally: _Tally, rules: Sequence[str], columns: Mapping[str, str]) -> Markup:
    """A row a rule, a column a unit, the number of points where they cross, in the shape of the heaviest."""
    marks = [
        Mark(at, column, *_LOOKS[tally.heaviest[rule, path]], size=10, text=str(count))
        for at, rule in enumerate(rules)
        for column, path in enumerate(columns)
        if (count := tally.counts[rule, path])
    ]
    return table_of_marks(rules, list(columns.values()), marks, step=30, height=24)


def _says(tally: _Tally, rules: Sequence[str], paths: Sequence[str]) -> str:
    by_rule = {rule: sum(tally.counts[rule, path] for path in paths) for rule in rules}
    most = sorted(by_rule, key=lambda rule: (-by_rule[rule], rule))[:3]
    said = ", ".join(f"{rule} ({by_rule[rule]})" for rule in most)
    return f"{many(sum(by_rule.values()), 'point')} of {many(len(rules), 'rule')}; most often {said}."
