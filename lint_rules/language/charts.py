"""The charts of an activity (pipe tables), row by row with empty cells, and how many classmates they have room for.

A passage is text, so an empty cell has none: the rows that a child fills in are read from the file's lines here.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.manuscript.model import Activity, DivKind, Unit
from lint_rules.source import Span

_DELIMITER = re.compile(r"[ >]*\|?[ \t]*:?-+:?[ \t]*(?:\|[ \t]*:?-+:?[ \t]*)*\|?[ \t]*")
_EDGE = re.compile(r"(?<!\\)\|")
_BLANK = re.compile(r"[\s_.…\\]*")
_NUMBERED = re.compile(
    r"(?:(?:no|number|nr|friend|classmate|child|person|pupil|student|name)\b\.?\s*)?#?\d*\s*[.):]?[\s_.…\\]*", re.I
)
_WHO = re.compile(
    r"(?:(?:my|your|the|our)\s+)?(?:first\s+)?"
    r"(?:names?|friends?|friend'?s names?|classmates?|child|children|people|persons?|pupils?|students?|who|"
    r"no\.?|number|#)"
    r"(?:'s name)?\s*[?:…]?",
    re.I,
)
_OFF_THE_PAGE = frozenset({DivKind.TEACHER, DivKind.AUDIO, DivKind.ANSWERS, DivKind.ART, DivKind.PATTERN})


@dataclass(frozen=True, slots=True)
class Chart:
    """A pipe table on a pupil's page: its head, its body rows, and its span. Cells without emphasis marks."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    span: Span

    @property
    def who(self) -> int | None:
        """The column in which classmates are named or numbered, if the chart goes by classmates."""
        named = [column for column, text in enumerate(self.head) if text and _WHO.fullmatch(text)]
        if named:
            names = [column for column in named if re.search("name|who", self.head[column], re.I)]
            return (names or named)[0]
        return 0 if not self.head or not self.head[0] else None

    @property
    def room(self) -> int:
        """How many classmates there is room for: body rows to be filled in, or columns headed so; 0: it does not go by
        classmates."""
        column = self.who
        if column is not None and (rows := sum(_for_a_child(row, column) for row in self.rows)):
            return rows
        columns = sum(bool(_NUMBERED.fullmatch(text)) for text in self.head[1:])
        return columns if columns > 1 and all(row and row[0] for row in self.rows) else 0


def charts_of(unit: Unit, activity: Activity) -> Iterator[Chart]:
    """The charts on the pupil's page of an activity, in file order."""
    source = unit.source
    first, last = source.position(activity.span.start).line, source.position(activity.span.end).line
    lines = [source.line_text(line) for line in range(first, last + 1)]
    at = 1
    while at < len(lines):
        if "|" in lines[at] and "|" in lines[at - 1] and _DELIMITER.fullmatch(lines[at]):
            end = at + 1
            while end < len(lines) and "|" in lines[end]:
                end += 1
            span = Span(source.line_span(first + at - 1).start, source.line_span(first + end - 1).end)
            if not _hidden(unit, span):
                yield Chart(_cells(lines[at - 1]), tuple(_cells(line) for line in lines[at + 1 : end]), span)
            at = end
        at += 1


def _hidden(unit: Unit, span: Span) -> bool:
    return any(div.kind in _OFF_THE_PAGE and div.span.covers(span) for div in unit.divs)


def _cells(line: str) -> tuple[str, ...]:
    inner = line.strip(" \t>")
    inner = inner.removeprefix("|")
    if inner.endswith("|") and not inner.endswith("\\|"):
        inner = inner[:-1]
    return tuple(cell.strip().strip("*").strip() for cell in _EDGE.split(inner))


def _for_a_child(row: tuple[str, ...], column: int) -> bool:
    """A row for one classmate: its name cell is empty, a gap, or a number."""
    cell = row[column] if column < len(row) else ""
    return bool(_BLANK.fullmatch(cell) or _NUMBERED.fullmatch(cell))
