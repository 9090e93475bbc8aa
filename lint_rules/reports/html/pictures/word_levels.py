"""How many different words each unit asks for, and how many of them lie above its level."""

from markupsafe import Markup

from lint_rules.course.model import CEFR_BANDS, Level, band_rank
from lint_rules.facts import UnitFacts
from lint_rules.reports.html.pictures.figure import Cell, Figure, Panel, row
from lint_rules.reports.html.pictures.svg import Drawing, room_for
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level
from lint_rules.reports.report import Report

_KINDS = ("at the level", "one band above", "two bands above or more", "in no reference")


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
        panels.append(Panel(heading, _says(counted), (_bars(counted),)))
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
    )


def _kinds(facts: UnitFacts, level: Level) -> tuple[int, ...]:
    counts = [0, 0, 0, 0]
    for band, count in facts.words_by_band:
        above = band_rank(band) - band_rank(level.cefr) if band else 3
        counts[3 if not band else min(max(above, 0), 2)] += count
    return tuple(counts)


_COLUMN, _ROW, _BAR = 190, 24, 120  # pixels: of a kind of word, of a unit, of the longest bar
_LOOKS = ("green", "orange", "red", "edge ink")


def _bars(counted: list[tuple[str, tuple[int, ...]]]) -> Markup:
    """A row a unit, a column a kind of word: a bar and its number."""
    room = room_for(label for label, _ in counted) + 20
    most = max(max(counts) for _, counts in counted) or 1
    drawing = Drawing(room + _COLUMN * len(_KINDS), 30 + _ROW * len(counted))
    drawing.text(0, 13, "unit", "dim")
    for at, kind in enumerate(_KINDS):
        drawing.text(room + _COLUMN * at, 13, kind, "dim")
    for number, (label, counts) in enumerate(counted):
        y = 22 + _ROW * number
        drawing.line(0, y, room + _COLUMN * len(_KINDS), y)
        drawing.text(0, y + 16.5, label)
        for at, count in enumerate(counts):
            if count:
                drawing.rect(room + _COLUMN * at, y + 5, _BAR * count / most, _ROW - 10, _LOOKS[at])
            drawing.text(room + _COLUMN * at + _BAR * count / most + 6, y + 16.5, str(count))
    return drawing.svg()


def _says(counted: list[tuple[str, tuple[int, ...]]]) -> str:
    totals = [sum(counts) for _, counts in counted]
    above = sum(counts[1] + counts[2] for _, counts in counted)
    said = f"{min(totals)} to {max(totals)} different words a unit" if len(totals) > 1 else f"{totals[0]} words"
    if not above:
        return f"{said}, none of them above the level."
    label, most = max(counted, key=lambda pair: pair[1][1] + pair[1][2])
    return f"{said}; most words above the level in unit {label} ({most[1] + most[2]})."
