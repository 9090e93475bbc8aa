"""What a picture in the proof is made of: drawings with their words, and the same numbers as a table."""

from dataclasses import dataclass

from markupsafe import Markup

FULL = 1000  # pixels of a drawing as wide as the sheet


@dataclass(frozen=True, slots=True)
class Panel:
    """One drawing (of one level, say): its heading, what it shows in a sentence or two, and its parts."""

    heading: str
    says: str
    svgs: tuple[Markup, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """A cell of a table of numbers; ``show`` filters the list of findings when it is chosen (``rule=long-text``)."""

    text: str
    show: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture with its numbers. The first cell of each row heads it. ``legend`` pairs a mark's name with its text."""

    name: str
    title: str
    about: str
    panels: tuple[Panel, ...]
    head: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    legend: tuple[tuple[str, str], ...] = ()


def row(*cells: str | int | Cell) -> tuple[Cell, ...]:
    """A row of a table."""
    return tuple(cell if isinstance(cell, Cell) else Cell(str(cell)) for cell in cells)
