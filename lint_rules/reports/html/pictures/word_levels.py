"""How many different words each unit asks for, and how many of them lie above its level."""

from lint_rules.course.model import CEFR_BANDS, Level, band_rank
from lint_rules.facts import UnitFacts
from lint_rules.reports.html.pictures.figure import (
    GREEN,
    GREY,
    ORANGE,
    PAPER,
    RED,
    Cell,
    Figure,
    Panel,
    Spec,
    draw,
    row,
)
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level, width_for
from lint_rules.reports.report import Report

_KINDS = ("at the level", "one band above", "two bands above or more", "in no reference")
_COLOURS = (GREEN, ORANGE, RED, PAPER)


def figure(report: Report) -> Figure | None:
    """The picture, or None when no unit has words."""
    if not any(facts.words_by_band for facts in report.facts):
        return None
    labels = unit_labels(report)
    panels, rows = [], []
    bands = [b for b in (*CEFR_BANDS, "") if any(b == band for f in report.facts for band, _ in f.words_by_band)]
    for heading, units in units_by_level(report):
        level = report.course.levels[units[0].level]
        counted = [(labels[facts.path], _kinds(facts, level)) for facts in units]
        panels.append(Panel(heading, _says(counted), (draw([_bars(counted)], width_for(len(units), 40), 150),)))
        for facts in units:
            counts = dict(facts.words_by_band)
            name = f"{level.name}, unit {labels[facts.path]}"
            rows.append(row(name, *(Cell(str(counts.get(b, 0))) for b in bands), sum(counts.values())))
    return Figure(
        "words",
        "Level of the words, by unit",
        "Different words that children read or hear in a unit. Target words count at the level that teaches them; "
        "names are left out.",
        tuple(panels),
        ("Unit", *(band or "in no reference" for band in bands), "Together"),
        tuple(rows),
        tuple(zip(("square green", "square orange", "square red", "square hollow"), _KINDS, strict=True)),
    )


def _kinds(facts: UnitFacts, level: Level) -> tuple[int, ...]:
    counts = [0, 0, 0, 0]
    for band, count in facts.words_by_band:
        above = band_rank(band) - band_rank(level.cefr) if band else 3
        counts[3 if not band else min(max(above, 0), 2)] += count
    return tuple(counts)


def _bars(counted: list[tuple[str, tuple[int, ...]]]) -> Spec:
    values = [
        {"unit": label, "kind": _KINDS[at], "order": at, "words": count}
        for label, counts in counted
        for at, count in enumerate(counts)
        if count
    ]
    return {
        "data": {"values": values},
        "mark": {"type": "bar", "stroke": GREY, "strokeWidth": 0.6},
        "encoding": {
            "x": {
                "field": "unit",
                "type": "ordinal",
                "title": "unit",
                "scale": {"domain": [label for label, _ in counted], "paddingInner": 0.35},
            },
            "y": {"field": "words", "type": "quantitative", "title": "different words", "axis": {"tickCount": 4}},
            "color": {
                "field": "kind",
                "type": "nominal",
                "legend": None,
                "scale": {"domain": list(_KINDS), "range": list(_COLOURS)},
            },
            "order": {"field": "order", "type": "quantitative"},
        },
    }


def _says(counted: list[tuple[str, tuple[int, ...]]]) -> str:
    totals = [sum(counts) for _, counts in counted]
    above = sum(counts[1] + counts[2] for _, counts in counted)
    said = f"{min(totals)} to {max(totals)} different words a unit" if len(totals) > 1 else f"{totals[0]} words"
    if not above:
        return f"{said}, none of them above the level."
    label, most = max(counted, key=lambda pair: pair[1][1] + pair[1][2])
    return f"{said}; most words above the level in unit {label} ({most[1] + most[2]})."
