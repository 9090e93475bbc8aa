"""Where the target words are taught, met again and tested: word by unit, or for a long list, teaching unit by unit."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from lint_rules.course.model import Level
from lint_rules.facts import UnitFacts
from lint_rules.reports.html.pictures.figure import (
    BLUE,
    FULL,
    INK,
    PAPER,
    RED,
    RULE,
    Figure,
    Panel,
    Spec,
    draw,
    room_for,
    row,
)
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level, width_for
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many
from lint_rules.reports.words import lines_of
from lint_rules.vocabulary_map import WordRow, vocabulary_map

MOST_WORDS = 120  # a word a line can be read up to so many lines; then a teaching unit a line
WORDS_A_PART = 40
PALEST, DEEPEST = "#eef3f9", "#6f9bcc"  # a number can be read on both
_LATER = "later"


def figure(report: Report) -> Figure | None:
    """The picture, or None when the course has no target words."""
    rows = vocabulary_map(report.course, report.facts)
    if not rows:
        return None
    lines = lines_of(rows, report.course, report.facts)
    panels = []
    for heading, units in units_by_level(report):
        level = report.course.levels[units[0].level]
        of_level = [r for r in rows if r.entry.level == level.index]
        if of_level:
            panels.append(_panel(heading, level, units, of_level, report))
    return Figure(
        "map",
        "Vocabulary map",
        " ".join(_about(rows, report)),
        tuple(panels),
        ("Word", "Level", "Unit", "Taught", "Met again", "Lessons", "Tested", "Missing"),
        tuple(
            row(
                f"{line.word} ({line.part_of_speech})" if line.part_of_speech else line.word,
                line.level,
                line.unit or "",
                line.taught or "–",
                line.met_again or "–",
                line.times_met,
                line.tested or "–",
                line.missing,
            )
            for line in lines
        ),
        _LEGEND if any(_is_short(rows, level) for level in report.course.levels) else (),
    )


_LEGEND = (
    ("square ink", "taught"),
    ("dot blue", "met again (larger: in more lessons)"),
    ("diamond red", "tested"),
)


def _is_short(rows: Sequence[WordRow], level: Level) -> bool:
    """Say whether the words of a level can be shown a line each."""
    return 0 < sum(r.entry.level == level.index for r in rows) <= MOST_WORDS


def _about(rows: Sequence[WordRow], report: Report) -> Iterator[str]:
    short = [
        _is_short(rows, level) for level in report.course.levels if any(r.entry.level == level.index for r in rows)
    ]
    if any(short):
        yield "Each line is a target word, in the order of teaching."
    if not all(short):
        yield (
            f"Where a level has more than {MOST_WORDS} words, a line stands for all the words that a unit teaches: the "
            "number, and the darker the square, says how many of them each unit has."
        )
    yield "In the table, 1.4 is unit 1, lesson 4."


def _panel(heading: str, level: Level, units: list[UnitFacts], rows: list[WordRow], report: Report) -> Panel:
    labels = unit_labels(report)
    columns = [labels[facts.path] for facts in units]
    at = {index: labels[facts.path] for index, facts in enumerate(report.facts) if facts.level == level.index}
    if _is_short(rows, level):
        svgs = tuple(_word_by_word(_in_order(rows), at, columns))
    else:
        cell = max(9, min(24, 880 // len(columns)))
        svgs = (draw(_shares(rows, at, columns), cell * len(columns), cell * len(columns)),)
    return Panel(heading, _says(rows, level), svgs)


def _word_by_word(rows: list[WordRow], at: dict[int, str], columns: list[str]) -> Iterator[Markup]:
    """The words in parts that fit a page, all of one width."""
    later = any(sight.unit not in at for r in rows for sight in (*r.met, *r.tested))
    columns = [*columns, _LATER] if later else columns
    room = room_for(r.entry.word for r in rows)
    count = math.ceil(len(rows) / math.ceil(len(rows) / WORDS_A_PART))
    for first in range(0, len(rows), count):
        some = rows[first : first + count]
        values = [value for number, r in enumerate(some) for value in _marks(r, number, at)]
        names = [f"{number:03} {r.entry.word}" for number, r in enumerate(some)]
        for value in values:
            value["line"] = names[value["line"]]
        width = width_for(len(columns), 48, most=FULL - 120)
        yield draw(_layers(values, names, columns, room, width / len(columns)), width, 15 * len(some))


def _in_order(rows: Sequence[WordRow]) -> list[WordRow]:
    never = (1_000_000, 0)
    return sorted(rows, key=lambda r: (r.taught.unit, r.taught.lesson) if r.taught else never)


def _marks(word: WordRow, number: int, at: dict[int, str]) -> list[Spec]:
    taught = [{"line": number, "unit": at[word.taught.unit], "what": "taught", "times": 1}] if word.taught else []
    met = Counter(at.get(sight.unit, _LATER) for sight in word.met)
    tested = dict.fromkeys(at.get(sight.unit, _LATER) for sight in word.tested)
    return [
        *taught,
        *({"line": number, "unit": unit, "what": "met", "times": times} for unit, times in met.items()),
        *({"line": number, "unit": unit, "what": "tested", "times": 1} for unit in tested),
    ]


def _layers(values: list[Spec], names: list[str], columns: list[str], room: float, step: float) -> list[Spec]:
    x: Spec = {
        "field": "unit",
        "type": "ordinal",
        "title": "unit",
        "scale": {"domain": columns, "type": "band"},
        "axis": {"orient": "top", "ticks": False},
    }
    y: Spec = {
        "field": "line",
        "type": "ordinal",
        "title": None,
        "scale": {"domain": names},
        "axis": {
            "labelExpr": "slice(datum.label, 4)",  # the number keeps two equal words apart
            "grid": True,
            "gridColor": RULE,
            "ticks": False,
            "domain": False,
            "minExtent": room,
        },
    }
    scale = min(1.0, (step / 40) ** 2)  # of the marks' areas
    solid: Spec = {"type": "point", "filled": True, "opacity": 1}
    kinds = {what: [value for value in values if value["what"] == what] for what in ("taught", "met", "tested")}
    return [
        {
            "data": {"values": kinds["taught"]},
            "mark": {
                "type": "point",
                "shape": "square",
                "filled": True,
                "size": 92 * scale,
                "opacity": 1,
                "color": INK,
            },
            "encoding": {"x": x, "y": y, "xOffset": {"value": 0.2 * step}},
        },
        {
            "data": {"values": kinds["met"]},
            "mark": {**solid, "color": BLUE},
            "encoding": {
                "x": x,
                "y": y,
                "size": {
                    "field": "times",
                    "type": "quantitative",
                    "legend": None,
                    "scale": {"domain": [1, 5], "range": [18 * scale, 88 * scale], "clamp": True},
                },
            },
        },
        {
            "data": {"values": kinds["tested"]},
            "mark": {
                "type": "point",
                "shape": "diamond",
                "size": 60 * scale,
                "opacity": 1,
                "color": RED,
                "strokeWidth": 1.6,
            },
            "encoding": {"x": x, "y": y, "xOffset": {"value": 0.8 * step}},
        },
    ]


def _shares(rows: list[WordRow], at: dict[int, str], columns: list[str]) -> list[Spec]:
    """For each unit's words, how many of them each unit has: a square a pair of units."""
    taught: Counter[str] = Counter()
    met: Counter[tuple[str, str]] = Counter()
    for word in rows:
        if word.taught is not None:
            mine = at[word.taught.unit]
            taught[mine] += 1
            for unit in {mine, *(at[sight.unit] for sight in word.met if sight.unit in at)}:
                met[mine, unit] += 1
    values = [
        {"of": of, "unit": unit, "share": count / taught[of], "count": count} for (of, unit), count in met.items()
    ]
    place: Spec = {
        "x": {
            "field": "unit",
            "type": "ordinal",
            "title": "unit that has them",
            "scale": {"domain": columns},
            "axis": {"orient": "top"},
        },
        "y": {
            "field": "of",
            "type": "ordinal",
            "title": "words of unit",
            "scale": {"domain": columns},
            "axis": {"grid": False},
        },
    }
    few = len(columns) <= 40
    text: Spec = {
        "data": {"values": values},
        "mark": {"type": "text", "fontSize": 10, "color": INK},
        "encoding": {
            **place,
            "text": {"field": "count", "type": "quantitative"},
        },
    }
    squares: Spec = {
        "data": {"values": values},
        "mark": {"type": "rect", "stroke": PAPER, "strokeWidth": 1},
        "encoding": {
            **place,
            "color": {
                "field": "share",
                "type": "quantitative",
                "legend": None,
                "scale": {"domain": [0, 1], "range": [PALEST, DEEPEST], "interpolate": "rgb"},
            },
        },
    }
    return [squares, text] if few else [squares]


def _says(rows: list[WordRow], level: Level) -> str:
    often = level.limits.recycle
    taught = sum(r.taught is not None for r in rows)
    again = sum(r.taught is not None and r.meetings >= often for r in rows)
    tested = sum(bool(r.tested) for r in rows)
    return (
        f"{many(len(rows), 'target word')}: {taught} taught, {again} met again {often} times or more, {tested} tested."
    )
