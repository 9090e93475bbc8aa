"""Pandoc's tables that are drawn: grid tables (`+----+`) and simple tables (dashes under the heads of columns).

Both become the tokens of a table with strokes. Columns are where the lines draw them; what does not keep to them is no
table. (Pandoc User's Guide, 'Tables': grid_tables, simple_tables; not its multiline tables, nor cells over several
columns.)
"""

import re
from collections.abc import Sequence
from itertools import pairwise

from markdown_it.rules_block import StateBlock

from lint_rules import lazy_re

Piece = tuple[int, int]  # a range of the text, on one line
_EDGE = lazy_re.compile(r"\+(?:[-:=]+\+)+\s*")
_FENCE = ":::"
_RULER = lazy_re.compile(r"-{2,}(?: +-{2,})+\s*")


def drawn_table(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """The block rule for both kinds."""
    if state.blkIndent or line + 2 > end_line:
        return False
    begins = state.src[state.bMarks[line] + state.tShift[line] :][:1]
    read = _grid(state, line, end_line) if begins == "+" else _simple(state, line, end_line)
    if read is None:
        return False
    if not silent:
        _push(state, line, *read)
    return True


def _line(state: StateBlock, line: int) -> tuple[int, str]:
    return state.bMarks[line], state.src[state.bMarks[line] : state.eMarks[line]]


def _grid(state: StateBlock, line: int, end_line: int) -> tuple[list[list[list[Piece]]], int, int] | None:
    """The rows of a grid table (cells, each of its pieces), how many of them are heads, and the line behind it."""
    _, drawn = _line(state, line)
    if not _EDGE.fullmatch(drawn.strip()):
        return None
    edges = [at for at, char in enumerate(drawn) if char == "+"]
    rows: list[list[list[Piece]]] = []
    heads, at = 0, line + 1
    cells: list[list[Piece]] = [[] for _ in edges[1:]]
    while at < end_line:
        begin, text = _line(state, at)
        if text.startswith(_FENCE):
            break
        if _EDGE.fullmatch(text.strip()):
            if [place for place, char in enumerate(text) if char == "+"] != edges or not any(cells):
                return None
            rows.append(cells)
            cells = [[] for _ in edges[1:]]
            heads = len(rows) if "=" in text and not heads else heads
        elif text.strip():
            if any(text[edge : edge + 1] != "|" for edge in edges):
                return None
            for cell, (left, right) in zip(cells, pairwise(edges), strict=True):
                cell.append((begin + left + 1, begin + right))
        else:
            break
        at += 1
    return (rows, heads, at) if rows and not any(cells) else None


def _simple(state: StateBlock, line: int, end_line: int) -> tuple[list[list[list[Piece]]], int, int] | None:
    """The rows of a simple table: a line of heads over the dashes, then a row a line up to an empty one."""
    _, ruler = _line(state, line + 1)
    if not _RULER.fullmatch(ruler.strip()):
        return None
    starts = [match.start() for match in re.finditer("-+", ruler)]
    rows: list[list[list[Piece]]] = []
    at = line
    while at < end_line and not state.isEmpty(at):
        begin, text = _line(state, at)
        if text.startswith(_FENCE):
            break  # the div ends, and with it the table
        if at != line + 1 and not (at > line + 1 and _RULER.fullmatch(text.strip())):
            if any(text[start - 1 : start].strip() for start in starts[1:]) or text[: starts[0]].strip():
                return None
            cuts = [min(start, len(text)) for start in (*starts, len(text))]
            rows.append([[(begin + left, begin + right)] for left, right in pairwise(cuts)])
        at += 1
    return (rows, 1, at) if len(rows) > 1 else None


def _push(state: StateBlock, line: int, rows: Sequence[Sequence[Sequence[Piece]]], heads: int, end: int) -> None:
    state.push("table_open", "table", 1).map = [line, end]
    if not heads:  # the row of heads is there, and empty
        _open_row(state, line)
        state.push("tr_close", "tr", -1)
    for number, cells in enumerate(rows):
        kind = "th" if number < heads else "td"
        _open_row(state, line)
        for cell in cells:
            state.push(f"{kind}_open", kind, 1)
            pieces = [trimmed for piece in cell if (trimmed := _trimmed(state.src, piece))]
            inline = state.push("inline", "", 0)
            inline.map, inline.children = [line, end], []
            inline.content = "\n".join(state.src[start:stop] for start, stop in pieces)
            inline.meta["drawn"] = [start for start, _ in pieces] or [cell[0][0] if cell else state.bMarks[line]]
            state.push(f"{kind}_close", kind, -1)
        state.push("tr_close", "tr", -1)
    state.push("table_close", "table", -1)
    state.line = end


def _open_row(state: StateBlock, line: int) -> None:
    row = state.push("tr_open", "tr", 1)
    row.map = [line, line + 1]
    row.meta["drawn"] = True


def _trimmed(text: str, piece: Piece) -> Piece | None:
    start, end = piece
    inside = text[start:end]
    start += len(inside) - len(inside.lstrip())
    end = start + len(inside.strip())
    return (start, end) if end > start else None
