"""The charts of an activity (pipe tables), row by row with empty cells, and how many classmates they have room for.

A passage is text, so an empty cell has none: the rows that a child fills in are read from the file's lines here.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, DivKind, Unit
from lint_rules.source import Span

_DELIMITER = lazy_re.compile(r"[ >]*\|?[ \t]*:?-+:?[ \t]*(?:\|[ \t]*:?-+:?[ \t]*)*\|?[ \t]*")
_EDGE = lazy_re.compile(r"(?<!\\)\|")
_BLANK = lazy_re.compile(r"[\s_.…\\]*")
_NUMBERED = lazy_re.compile(
    r"(?:(?:no|number|nr|friend|classmate|child|person|pupil|student|name)\b\.?\s*)?#?\d*\s*[.):]?[\s_.…\\]*", re.I
)
_WHO = lazy_re.compile(
    r"(?:(?:my|your|the|our)\s+)?(?:first\s+)?"
    r"(?:names?|friends?|friend'?s names?|classmates?|child|children|people|persons?|pupils?|students?|who)"
    r"(?:'s name)?\s*[?:…]?",
    re.I,
)
_COUNTED = lazy_re.compile(r"(?:no|nr|number)\.?|#", re.I)
_OFF_THE_PAGE = frozenset({DivKind.TEACHER, DivKind.AUDIO, DivKind.ANSWERS, DivKind.ART, DivKind.PATTERN})


@dataclass(frozen=True, slots=True)
class Chart:
    """A pipe table on a pupil's page: its head, its body rows, and its span. Cells without emphasis marks."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    span: Span

    @property
    def who(self) -> int | None:
        """The column in which classmates are named or numbered, if the rows go by classmates."""
        named = [column for column, text in enumerate(self.head) if _WHO.fullmatch(text)]
        if named:
            names = [column for column in named if re.search("name|who", self.head[column], re.I)]
            return (names or named)[0]
        return 0 if not self.head or not self.head[0] or _COUNTED.fullmatch(self.head[0]) else None

    @property
    def columns(self) -> tuple[int, ...]:
        """The columns that are for a classmate each: `Friend 1`, `Friend 2`, or numbers after a first one."""
        found = [column for column, text in enumerate(self.head) if text and _NUMBERED.fullmatch(text)]
        one_each = [c for c in found if re.search(r"\d", self.head[c])] if len(found) > 1 else []
        blank = all(not text or _NUMBERED.fullmatch(text) for text in self.head[1:])
        return tuple(one_each) or (tuple(range(1, len(self.head))) if blank and len(self.head) > 2 else ())

    @property
    def room(self) -> int:
        """How many classmates there is room for, by rows or columns; 0 when the chart does not go by classmates."""
        column = self.who
        rows = 0 if column is None else sum(_for_a_child(row, column) for row in self.rows)
        if self.columns and (column is None or not rows or re.search(r"\d", self.head[self.columns[0]])):
            return len(self.columns)
        return rows


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
    """A row for one classmate: its name is empty, a gap, or a number, and no question stands before it; not `No`."""
    answered = row[column].casefold() == "no" if column < len(row) else False
    return not answered and all(_BLANK.fullmatch(cell) or _NUMBERED.fullmatch(cell) for cell in row[: column + 1])
