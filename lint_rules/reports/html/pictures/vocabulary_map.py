"""Where the target words are taught, met again and tested: a line a word, at any size of list, a column a unit."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from markupsafe import Markup

from lint_rules.course.model import Level
from lint_rules.facts import UnitFacts
from lint_rules.reports.html.pictures.figure import FULL, Figure, Panel, row
from lint_rules.reports.html.pictures.svg import Mark, room_for, table_of_marks
from lint_rules.reports.html.pictures.units import unit_labels, units_by_level
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import many
from lint_rules.reports.words import lines_of
from lint_rules.vocabulary_map import WordRow, vocabulary_map

_MOST = 40  # words of a drawing: it must fit on a page
_ROW = 19
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
        "Each line is a target word, under the unit that teaches it. In the table, 1.4 is unit 1, lesson 4.",
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
        (
            ("square ink", "taught"),
            ("dot blue", "met again"),
            ("diamond edge red", "tested"),
        ),
    )


def _panel(heading: str, level: Level, units: list[UnitFacts], rows: list[WordRow], report: Report) -> Panel:
    labels = unit_labels(report)
    at = {index: labels[facts.path] for index, facts in enumerate(report.facts) if facts.level == level.index}
    columns = [labels[facts.path] for facts in units]
    if any(sight.unit not in at for r in rows for sight in (*r.met, *r.tested)):
        columns.append(_LATER)
    return Panel(heading, _says(rows, level), tuple(_parts(rows, at, columns)))


def _parts(rows: Sequence[WordRow], at: Mapping[int, str], columns: list[str]) -> Iterator[Markup]:
    """A drawing for the words of each unit, several where they are many, all with columns of one width."""
    room = room_for(r.entry.word for r in rows)
    step = max(9.0, min(46.0, (FULL / 2 - 40 - room) / len(columns)))
    for unit, some in groupby(_in_order(rows), key=lambda r: r.taught.unit if r.taught else -1):
        words = list(some)
        title = f"taught in unit {at[unit]}" if unit in at else "taught in another level" if unit >= 0 else "not taught"
        for first in range(0, len(words), _MOST):
            part = words[first : first + _MOST]
            marks = [mark for number, word in enumerate(part) for mark in _marks(word, number, at, columns)]
            said = title if not first else f"{title}, more"
            names = [r.entry.word for r in part]
            yield table_of_marks(names, columns, marks, step=step, height=_ROW, heading=said, room=room)


def _in_order(rows: Sequence[WordRow]) -> list[WordRow]:
    never = (1_000_000, 0)
    return sorted(rows, key=lambda r: (r.taught.unit, r.taught.lesson) if r.taught else never)


def _marks(word: WordRow, number: int, at: Mapping[int, str], columns: list[str]) -> Iterator[Mark]:
    """Met again at the left of a unit's column, taught in its middle, tested at its right."""
    if word.taught and word.taught.unit in at:
        yield Mark(number, columns.index(at[word.taught.unit]), "square", "ink", 4.5)
    for name in dict.fromkeys(at.get(sight.unit, _LATER) for sight in word.met):
        yield Mark(number, columns.index(name), "dot", "blue", 3.6, aside=-0.3)
    for name in dict.fromkeys(at.get(sight.unit, _LATER) for sight in word.tested):
        yield Mark(number, columns.index(name), "diamond", "edge red", 4.2, aside=0.3)


def _says(rows: list[WordRow], level: Level) -> str:
    often = level.limits.recycle
    taught = sum(r.taught is not None for r in rows)
    again = sum(r.taught is not None and r.meetings >= often for r in rows)
    tested = sum(bool(r.tested) for r in rows)
    return (
        f"{many(len(rows), 'target word')}: {taught} taught, {again} met again {often} times or more, {tested} tested."
    )
