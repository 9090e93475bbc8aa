"""Where an editor starts: the units and the rules of a book by what is open, and the one with the most to do."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from urllib.parse import urlencode

from lint_rules.engine.gather import Point
from lint_rules.finding import Severity
from lint_rules.reports.html.proof.queries import UnitProof
from lint_rules.reports.verdict import many

_MOST = 8  # rules that are seen at once


@dataclass(frozen=True, slots=True)
class Row:
    """A unit or a rule, where it leads, what it shows of the proof, and its open points by weight."""

    name: str
    href: str
    show: str
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Start:
    """A table of units or rules; ``rest`` are those that stand folded away."""

    title: str
    of: str
    rows: tuple[Row, ...]
    rest: tuple[Row, ...] = ()


@dataclass(frozen=True, slots=True)
class First:
    """The unit to start with, and why."""

    what: str
    name: str
    href: str
    show: str
    count: str


def by_unit(units: Sequence[UnitProof], names: Mapping[str, str]) -> Start:
    """The units in teaching order. ``names`` are their files, where each has its own."""
    return Start("By unit", "Unit", tuple(_row(unit, names) for unit in units))


def by_rule(points: Iterable[Point]) -> Start:
    """The rules, those with the gravest points first."""
    counts: dict[str, Counter[Severity]] = {}
    for point in points:
        counts.setdefault(point.rule, Counter())[point.severity] += 1
    rows = [Row(rule, "#proof", f"rule={rule}", _by_weight(count)) for rule, count in counts.items()]
    rows.sort(key=lambda row: ([-count for count in row.counts], row.name))
    seen = len(rows) if len(rows) <= _MOST + 2 else _MOST
    return Start("By rule", "Rule", tuple(rows[:seen]), tuple(rows[seen:]))


def first(units: Sequence[UnitProof], names: Mapping[str, str]) -> First | None:
    """The unit with the most stops, or without any with the most queries; nothing where nothing must be done."""
    weights = {
        Severity.STOP: ("the unit that has the most to mend", "stop", "stops"),
        Severity.QUERY: ("the unit that has the most to answer", "query", "queries"),
    }
    for weight, (what, one, several) in weights.items():
        unit = max(units, key=lambda unit: unit.counts[weight], default=None)
        if unit is not None and unit.counts[weight]:
            row = _row(unit, names)
            return First(what, row.name, row.href, row.show, many(unit.counts[weight], one, several))
    return None


def _row(unit: UnitProof, names: Mapping[str, str]) -> Row:
    page = names.get(unit.path, "")
    show = "" if page else urlencode({"unit": unit.path})
    return Row(unit.where.name, page or f"#{unit.id}", show, _by_weight(unit.counts))


def _by_weight(counts: Mapping[Severity, int]) -> tuple[int, ...]:
    return tuple(counts[severity] for severity in Severity)
