"""Reading the small tables that stand in a ``data`` folder of their room: teachers and linguists may correct them.

A table is asked for by its file name, which no other room's table has.

A ``.csv`` table has comment lines (``#``) at its top with source and licence, then a row of column names, then its
rows; a ``.txt`` table has comment lines and one entry a line.
"""

import csv
from functools import cache
from pathlib import Path

_HERE = Path(__file__).parent
_ROOMS = (
    "language/inflection",
    "language/vocabulary",
    "language/parsing",
    "language/grammar",
    "language/sounds",
    "language",
    "manuscript",
    "page",
    "unit_language",
    "safety",
    "english",
)


def table_path(name: str) -> Path:
    """Where a table stands. Raises FileNotFoundError when no room has it."""
    for room in _ROOMS:
        path = _HERE / room / "data" / name
        if path.exists():
            return path
    raise FileNotFoundError(name)


def _lines(name: str) -> list[str]:
    text = table_path(name).read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line.strip() and not line.startswith("#")]


@cache
def entries(name: str) -> tuple[str, ...]:
    """The entries of ``data/<name>``, one a line."""
    return tuple(line.strip() for line in _lines(name))


@cache
def rows(name: str) -> tuple[tuple[str, ...], ...]:
    """The rows of ``data/<name>`` without the row of column names; every row has as many cells as that one.

    Raises ValueError, with the table and the row, when one has not.
    """
    head, *body = csv.reader(_lines(name))
    for row in body:
        if len(row) != len(head):
            raise ValueError(f"{name}: {row} should have {len(head)} cells: {', '.join(head)}")
    return tuple(tuple(cell.strip() for cell in row) for row in body)


def alternatives(cell: str) -> tuple[str, ...]:
    """The parts of a cell that holds several, with ``|`` between them (none in an empty cell)."""
    return tuple(part.strip() for part in cell.split("|") if part.strip())


@cache
def words(name: str) -> frozenset[str]:
    """The words of ``data/<name>.txt``, where a line may hold several with spaces between; ``#`` starts a comment."""
    return frozenset(word for line in _lines(f"{name}.txt") for word in line.partition("#")[0].split())


@cache
def mapping(name: str) -> dict[str, str]:
    """The pairs of ``data/<name>.txt``, one ``left = right`` a line."""
    pairs = (line.partition("#")[0].partition("=") for line in _lines(f"{name}.txt"))
    return {left.strip(): right.strip() for left, _, right in pairs}


@cache
def _groups() -> dict[str, frozenset[str]]:
    lines = (line.partition(":") for line in _lines("word_groups.txt"))
    return {name.strip(): frozenset(words.split()) for name, _, words in lines}


def group(name: str) -> frozenset[str]:
    """A closed class of words from ``data/word_groups.txt``. Raises KeyError when there is none of that name."""
    return _groups()[name]
