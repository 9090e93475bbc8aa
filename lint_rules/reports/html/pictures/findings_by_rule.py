"""Where the findings are: rule by unit, each with its number."""

from collections import Counter
from collections.abc import Mapping

from lint_rules.finding import Severity
from lint_rules.reports.html.pictures.figure import (
    BLUE,
    GREY,
    PAPER,
    RED,
    Cell,
    Figure,
    Panel,
    Spec,
    draw,
    room_for,
    row,
)
from lint_rules.reports.html.pictures.units import unit_labels, width_for
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many

_COLOURS = {Severity.STOP: RED, Severity.QUERY: BLUE, Severity.NOTE: GREY}
MOST_COLUMNS = 30


def figure(report: Report) -> Figure | None:
    """The picture, or None when there are no findings."""
    if not report.findings:
        return None
    labels = unit_labels(report)
    paths = [path for path in labels if path in report.sources]
    counts = Counter((finding.rule, finding.path) for finding in report.findings)
    rules = Counter(finding.rule for finding in report.findings)
    order = sorted(rules, key=lambda rule: (-_weight(rule, report).weight, -rules[rule], rule))
    panels = []
    for first in range(0, len(paths), MOST_COLUMNS):
        some = paths[first : first + MOST_COLUMNS]
        mine = [rule for rule in order if any(counts[rule, path] for path in some)]
        if mine:
            heading = _heading(some, report) if len(paths) > MOST_COLUMNS else "All units"
            columns = [_column(path, labels, report) for path in some]
            svg = draw(_layers(report, counts, mine, dict(zip(some, columns, strict=True))), *_size(columns, mine))
            panels.append(Panel(heading, _says(counts, mine, some), (svg,)))
    per_unit = Counter(finding.path for finding in report.findings)
    named = [path for path in paths if per_unit[path]]
    return Figure(
        "rules",
        "Findings, by unit and rule",
        "The number of open findings of each rule in each unit; the gravest rules first.",
        tuple(panels),
        ("Rule", "Weighs", "Together", *(_column(path, labels, report) for path in named)),
        tuple(
            row(
                Cell(rule, f"rule={rule}"),
                _weight(rule, report).value,
                rules[rule],
                *(
                    Cell(str(counts[rule, path]), f"rule={rule}&unit={path}") if counts[rule, path] else Cell("")
                    for path in named
                ),
            )
            for rule in order
        ),
        (("square red", "holds a stop"), ("square blue", "queries"), ("square grey", "notes")),
    )


def _weight(rule: str, report: Report) -> Severity:
    return max((f.severity for f in report.findings if f.rule == rule), key=lambda severity: severity.weight)


def _column(path: str, labels: Mapping[str, str], report: Report) -> str:
    name = labels[path]
    level = report.course.level_of(path)
    return f"{level.name} {name}" if level is not None and len(report.course.levels) > 1 else name


def _heading(paths: list[str], report: Report) -> str:
    return f"{report.path(paths[0])} to {report.path(paths[-1])}"


def _size(columns: list[str], rules: list[str]) -> tuple[int, int]:
    longest = max(map(len, columns))
    return width_for(len(columns), max(26, 8 + 7 * longest if len(columns) < 12 else 26)), 20 * len(rules)


def _layers(report: Report, counts: Counter[tuple[str, str]], rules: list[str], columns: dict[str, str]) -> list[Spec]:
    heaviest: dict[tuple[str, str], Severity] = {}
    for finding in report.findings:
        key = (finding.rule, finding.path)
        heaviest[key] = max(finding.severity, heaviest.get(key, finding.severity), key=lambda s: s.weight)
    values = [
        {
            "rule": rule,
            "unit": column,
            "count": counts[rule, path],
            "colour": _COLOURS[heaviest[rule, path]],
        }
        for rule in rules
        for path, column in columns.items()
        if counts[rule, path]
    ]
    place: Spec = {
        "x": {
            "field": "unit",
            "type": "ordinal",
            "title": "unit",
            "scale": {"domain": list(columns.values())},
            "axis": {"orient": "top", "labelAngle": 0 if len(columns) < 12 else -90, "labelOverlap": False},
        },
        "y": {
            "field": "rule",
            "type": "ordinal",
            "title": None,
            "scale": {"domain": rules},
            "axis": {"grid": False, "ticks": False, "domain": False, "minExtent": room_for(rules)},
        },
    }
    return [
        {
            "data": {"values": values},
            "mark": {"type": "rect", "stroke": PAPER, "strokeWidth": 1.5},
            "encoding": {**place, "color": {"field": "colour", "type": "nominal", "scale": None}},
        },
        {
            "data": {"values": values},
            "mark": {"type": "text", "fontSize": 11, "color": PAPER, "fontWeight": "bold"},
            "encoding": {**place, "text": {"field": "count", "type": "quantitative"}},
        },
    ]


def _says(counts: Counter[tuple[str, str]], rules: list[str], paths: list[str]) -> str:
    by_rule = {rule: sum(counts[rule, path] for path in paths) for rule in rules}
    most = sorted(by_rule, key=lambda rule: (-by_rule[rule], rule))[:3]
    total = sum(by_rule.values())
    said = ", ".join(f"{rule} ({by_rule[rule]})" for rule in most)
    return f"{many(total, 'finding')} of {many(len(rules), 'rule')}; most often {said}."
