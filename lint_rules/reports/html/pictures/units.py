"""How units are called in the pictures: by their number, and by their file where a number is missing or given twice."""

from collections import Counter
from collections.abc import Mapping
from posixpath import basename

from lint_rules.facts import UnitFacts
from lint_rules.reports.report import Report


def unit_labels(report: Report) -> Mapping[str, str]:
    """A short name for each unit, by path, in teaching order; one of its own within its level."""
    numbers = Counter((facts.level, facts.unit) for facts in report.facts)
    labels = {
        facts.path: str(facts.unit) if facts.unit and numbers[facts.level, facts.unit] == 1 else _stem(facts.path)
        for facts in report.facts
    }
    return labels | {path: _stem(path) for path in sorted(report.sources) if path not in labels}


def units_by_level(report: Report) -> list[tuple[str, list[UnitFacts]]]:
    """The levels that have units, with these, in teaching order."""
    levels = [(level, [f for f in report.facts if f.level == level.index]) for level in report.course.levels]
    return [(f"{level.name} ({level.cefr})", units) for level, units in levels if units]


def _stem(path: str) -> str:
    return basename(path).rpartition(".")[0] or basename(path)
