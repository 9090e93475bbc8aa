"""What a picture in the report is made of, and how it is drawn: a Vega-Lite specification, rendered to SVG offline."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from lint_rules.said import printable

# A proof sheet's colours; the style sheet has the same. Text has 4.5:1 or more against the paper, marks 3:1 (WCAG 2.2).
PAPER = "#fffefb"
INK = "#23211e"
GREY = "#5f5a52"
RULE = "#d9d3c7"
RED = "#a8261c"
BLUE = "#1d5391"
GREEN = "#2c6a4b"
ORANGE = "#b8762f"
TINT = "#ebe6da"
SANS = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif"

Spec = dict[str, Any]

FULL = 920  # pixels of a drawing as wide as the sheet, without its axes
BESIDE_TEXT = 700  # pixels that a drawing may have beside its text
_LETTER = 6.3  # pixels of a letter in an axis, on the generous side: readers' fonts differ from ours
_WIDTH = re.compile(r' width="(\d+)"')


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

    @property
    def wide(self) -> bool:
        """Say whether a part of it needs the whole width of the sheet."""
        widths = [int(found.group(1)) for p in self.panels for svg in p.svgs if (found := _WIDTH.search(svg))]
        return max(widths, default=0) > BESIDE_TEXT


def row(*cells: str | int | Cell) -> tuple[Cell, ...]:
    """A row of a table."""
    return tuple(cell if isinstance(cell, Cell) else Cell(str(cell)) for cell in cells)


def room_for(labels: Iterable[str]) -> float:
    """Pixels that the labels of a vertical axis need."""
    return min(240.0, 10 + _LETTER * max(map(len, labels), default=0))


def draw(layers: Sequence[Spec], width: int, height: int) -> Markup:
    """Draw layers over one another, ``width`` × ``height`` pixels without the axes.

    The drawing is hidden from screen readers by its marks and described as a whole (see the template).
    """
    try:
        import vl_convert  # an extra: a hook draws nothing, and the library takes 84 MB
    except ImportError:
        return _NOT_DRAWN

    spec = {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "width": width,
        "height": height,
        "padding": 4,
        "layer": list(layers),
        "config": _CONFIG,
    }
    svg: str = vl_convert.vegalite_to_svg(_without_controls(spec), allowed_base_urls=[])
    return Markup(_bare(svg))


_NOT_DRAWN = Markup(
    "<p>This chart is not drawn: the library that draws is not installed (<code>pip install 'hornbook[charts]'</code>)."
    " Its figures stand in the table.</p>"
)


def _without_controls(part: Any) -> Any:
    """A specification without control characters and half characters: the library would end the whole program."""
    if isinstance(part, str):
        return printable(part)
    if isinstance(part, Mapping):
        return {
            printable(key) if isinstance(key, str) else key: _without_controls(value) for key, value in part.items()
        }
    if isinstance(part, list | tuple):
        return [_without_controls(value) for value in part]
    return part


def _bare(svg: str) -> str:
    """The drawing as a part of a page: a picture without a tab stop, sized by the style sheet."""
    return svg.replace("<svg ", '<svg focusable="false" aria-hidden="true" ', 1)


_TEXT = {"labelFont": SANS, "titleFont": SANS, "labelColor": INK, "titleColor": GREY}
_CONFIG: Spec = {
    "font": SANS,
    "aria": False,
    "background": None,
    "view": {"stroke": None},
    "axis": {
        **_TEXT,
        "labelFontSize": 11,
        "titleFontSize": 11,
        "titleFontWeight": "normal",
        "titlePadding": 8,
        "gridColor": RULE,
        "domainColor": GREY,
        "tickColor": GREY,
        "labelLimit": 240,
    },
    "axisX": {"labelAngle": 0, "grid": False, "labelOverlap": True},
}
