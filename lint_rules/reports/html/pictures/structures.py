"""Which structures of grammar each unit uses, which it teaches, and which come before their turn."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from lint_rules.course.model import band_rank
from lint_rules.facts import UnitFacts
from lint_rules.language.grammar.grammar_levels import names
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.language.grammar.structures import STRUCTURE_NAMES, structure
from lint_rules.reports.html.pictures.figure import FULL, Figure, Panel, row
from lint_rules.reports.html.pictures.svg import Mark, table_of_marks
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many

_EARLY = ("grammar-above-level", "grammar-before-taught")  # their findings have the structure as their key


@dataclass(frozen=True, slots=True)
class _Dot:
    """A structure in a unit: does the unit use it, does it teach it, and was it found to come before its turn."""

    name: str
    unit: str
    used: bool
    taught: bool
    early: bool


def figure(report: Report) -> Figure | None:
    """The picture, or None when no unit has structures."""
    if not any(facts.structures for facts in report.facts):
        return None
    labels = unit_labels(report)
    panels, rows = [], []
    for heading, units in units_by_level(report):
        level = report.course.levels[units[0].level]
        dots = [dot for facts in units for dot in _dots(facts, labels[facts.path], report)]
        if not dots:
            continue
        order = sorted({dot.name for dot in dots}, key=lambda name: (band_rank(_band(name, report)), called(name)))
        columns = [labels[facts.path] for facts in units]
        panels.append(Panel(heading, _says(dots), (_drawn(dots, order, columns),)))
        for name in order:
            mine = [dot for dot in dots if dot.name == name]
            rows.append(
                row(
                    f"{called(name)} ({level.name})",
                    _band(name, report),
                    _units(dot.unit for dot in mine if dot.taught),
                    _units(dot.unit for dot in mine if dot.used),
                    _units(dot.unit for dot in mine if dot.early),
                )
            )
    return Figure(
        "structures",
        "Grammar map",
        "Structures on children's pages and in scripts, easiest first. Instructions and titles are left out.",
        tuple(panels),
        ("Structure", "Free from", "Taught in unit", "Used in unit", "Before its turn in unit"),
        tuple(rows),
        (
            ("square green", "taught by this unit and used"),
            ("dot ink", "used"),
            ("up red", "used before its turn or above the level"),
            ("square edge ink", "taught, but not found"),
        ),
    )


def called(name: str) -> str:
    """What a teacher calls a structure."""
    return names()[name].called if name in names() else name.replace("-", " ")


def _dots(facts: UnitFacts, label: str, report: Report) -> list[_Dot]:
    plan = next((plan for plan in report.course.plans if plan.path == facts.path), None)
    taught = {name for words in (plan.grammar if plan else ()) for name in structures_of_label(words)}
    early = {f.key for f in report.result.findings if f.rule in _EARLY and f.path == facts.path}
    used = {*facts.structures, *early}
    return [
        _Dot(name, label, name in used, name in taught, name in early)
        for name in sorted({*used, *taught})
        if name in STRUCTURE_NAMES
    ]


def _band(name: str, report: Report) -> str:
    return report.course.structures.get(name) or structure(name).level


def _drawn(dots: list[_Dot], order: list[str], columns: list[str]) -> Markup:
    """A row a structure, a column a unit."""
    marks = []
    for dot in dots:
        shape, look = (
            ("up", "red")
            if dot.early
            else ("square", "green")
            if dot.taught and dot.used
            else ("square", "edge ink")
            if dot.taught
            else ("dot", "ink")
        )
        marks.append(Mark(order.index(dot.name), columns.index(dot.unit), shape, look, 5.5 if shape == "dot" else 6.5))
    step = max(9.0, min(44.0, (FULL - 300) / len(columns)))
    return table_of_marks([called(name) for name in order], columns, marks, step=step, height=22)


def _says(dots: list[_Dot]) -> str:
    used = {dot.name for dot in dots if dot.used}
    early = _where(dot for dot in dots if dot.early)
    unfound = _where(dot for dot in dots if dot.taught and not dot.used)
    said = [f"{many(len(used), 'structure')} in use"]
    said += [f"before their turn: {early}"] if early else []
    said += [f"taught but not found: {unfound}"] if unfound else []
    return "; ".join(said) + "." if len(said) > 1 else f"{said[0]}, each in its turn."


def _where(dots: Iterable[_Dot]) -> str:
    units: dict[str, list[str]] = {}
    for dot in dots:
        units.setdefault(called(dot.name), []).append(dot.unit)
    return ", ".join(
        f"{name} in {'unit' if len(some) == 1 else 'units'} {', '.join(some)}" for name, some in units.items()
    )


def _units(labels: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(labels)) or "–"
