"""Tables of keys that have a column for each activity and a row for each item: `| | Task 2 |`, `| 1 | yes |`.

A cell that has nothing in it (`| 6 |   | a |`) is an item that its activity has not.
"""

import re
from collections.abc import Iterator, Mapping, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage

_HEAD = lazy_re.compile(r"\W*(?:activity|exercise|task|ex\.?|act\.?)\s*(?P<number>[0-9]{1,3}[a-z]?)\W*", re.I)
_LABEL = lazy_re.compile(r"\W*(?:[0-9]{1,2}|[A-Za-z])\W*")

Grid = Mapping[tuple[int, int], Passage]


def by_column(keys: Sequence[Passage]) -> Iterator[tuple[str, list[Passage]]]:
    """The number of each activity of such tables, with the cells of its items: label and answer in turn."""
    tables: dict[int, dict[tuple[int, int], Passage]] = {}
    for one in keys:
        if one.cell is not None and one.text.strip():
            tables.setdefault(one.cell.table, {})[one.cell.row, one.cell.column] = one
    for grid in tables.values():
        yield from _columns(grid)


def _columns(grid: Grid) -> Iterator[tuple[str, list[Passage]]]:
    heads = {column: _HEAD.fullmatch(cell.text) for (row, column), cell in grid.items() if not row and column}
    answers = {column for row, column in grid if row and column}
    labels = {row: cell for (row, column), cell in grid.items() if row and not column}
    labelled = {row for row, column in grid if row and column} <= labels.keys()
    if not labelled or not answers or not answers <= heads.keys() or not all(map(_is_label, labels.values())):
        return
    for column, head in sorted(heads.items()):
        cells = [(label, grid[row, column]) for row, label in sorted(labels.items()) if (row, column) in grid]
        if head is None:
            return
        yield head["number"].casefold(), [one for pair in cells for one in pair]


def _is_label(cell: Passage) -> bool:
    return _LABEL.fullmatch(cell.text) is not None
