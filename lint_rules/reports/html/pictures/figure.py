"""What a picture in the report is made of, and how it is drawn: a Vega-Lite specification, rendered to SVG offline."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

# A proof sheet's colours; the style sheet has the same. All of them have 4.5:1 or more against the paper (WCAG 2.2).
PAPER = "#fffefb"
INK = "#23211e"
GREY = "#5f5a52"
RULE = "#d9d3c7"
RED = "#a8261c"
BLUE = "#1d5391"
GREEN = "#2c6a4b"
TINT = "#ebe6da"
SANS = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Helvetica Neue', Arial, sans-serif"

Spec = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Panel:
    """One drawing (of one level, say): its heading, what it shows in a sentence or two, and the drawing."""

    heading: str
    says: str
    svg: Markup


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


def draw(layers: Sequence[Spec], width: int, height: int) -> Markup:
    """Draw layers over one another, ``width`` × ``height`` pixels without the axes.

    The drawing is hidden from screen readers by its marks and described as a whole (see the template).
    """
    import vl_convert  # only a report needs it: half a second

    spec = {
        "$schema": "https://vega.github.io/schema/vega-lite/v6.json",
        "width": width,
        "height": height,
        "padding": 4,
        "layer": list(layers),
        "config": _CONFIG,
    }
    svg: str = vl_convert.vegalite_to_svg(spec, allowed_base_urls=[])
    return Markup(_bare(svg))


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
