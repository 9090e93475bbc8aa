"""Drawings by hand in SVG: text and plain shapes, coloured by the style sheet, so that light, dark and paper each have
their own. What a mark means is told by its shape, never by its colour alone."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from lint_rules.reports.html.passages import printable

LETTER = 7.9  # pixels of a letter of a label, on the generous side: readers' fonts differ from ours
_TEXT = Markup('<text x="{:g}" y="{:g}" class="{}">{}</text>')
_UPRIGHT = Markup('<text x="0" y="0" transform="translate({:g} {:g}) rotate(-90)" class="{}">{}</text>')
_RECT = Markup('<rect x="{:g}" y="{:g}" width="{:g}" height="{:g}" class="{}"/>')
_PATH = Markup('<path d="{}" class="{}"/>')
_WHOLE = Markup('<svg focusable="false" aria-hidden="true" width="{0}" height="{1}" viewBox="0 0 {0} {1}">{2}</svg>')


class Drawing:
    """A drawing as it is made. Shapes of one class make one path: a long book has thousands of them."""

    def __init__(self, width: float, height: float) -> None:
        self._size = round(width), round(height)
        self._grounds: list[Markup] = []
        self._words: list[Markup] = []
        self._paths: dict[str, list[str]] = defaultdict(list)

    def text(self, x: float, y: float, said: str, look: str = "", *, upright: bool = False) -> None:
        """A label; ``look`` is `end` (it ends there), `mid` (its middle is there), `dim`, `strong`."""
        self._words.append((_UPRIGHT if upright else _TEXT).format(x, y, look, escape(printable(said))))

    def rect(self, x: float, y: float, width: float, height: float, look: str) -> None:
        """A rectangle."""
        self._grounds.append(_RECT.format(x, y, width, height, look))

    def line(self, x: float, y: float, to_x: float, to_y: float, look: str = "rule") -> None:
        """A straight line."""
        self._paths[look].append(f"M{x:g} {y:g}L{to_x:g} {to_y:g}")

    def mark(self, shape: str, x: float, y: float, size: float, look: str) -> None:
        """A shape around a point: `dot`, `square`, `diamond`, `up` or `down` (triangles)."""
        self._paths[look].append(_SHAPES[shape](x, y, size))

    def svg(self) -> Markup:
        """The drawing, without a stop for the keyboard; its words are said beside it."""
        paths = [_PATH.format("".join(parts), look) for look, parts in self._paths.items()]
        return _WHOLE.format(*self._size, Markup("").join([*self._grounds, *paths, *self._words]))


def _dot(x: float, y: float, r: float) -> str:
    return f"M{x - r:g} {y:g}a{r:g} {r:g} 0 1 0 {2 * r:g} 0a{r:g} {r:g} 0 1 0 {-2 * r:g} 0"


def _square(x: float, y: float, r: float) -> str:
    return f"M{x - r:g} {y - r:g}h{2 * r:g}v{2 * r:g}h{-2 * r:g}z"


def _diamond(x: float, y: float, r: float) -> str:
    return f"M{x:g} {y - r:g}l{r:g} {r:g}l{-r:g} {r:g}l{-r:g} {-r:g}z"


def _up(x: float, y: float, r: float) -> str:
    return f"M{x:g} {y - r:g}l{r:g} {2 * r:g}h{-2 * r:g}z"


def _down(x: float, y: float, r: float) -> str:
    return f"M{x:g} {y + r:g}l{r:g} {-2 * r:g}h{-2 * r:g}z"


_SHAPES = {"dot": _dot, "square": _square, "diamond": _diamond, "up": _up, "down": _down}


@dataclass(frozen=True, slots=True)
class Mark:
    """A mark in a table of marks: its row and column (indices), shape, look; ``aside`` moves it from the middle, as a
    share of the column; ``text`` stands on it."""

    row: int
    column: int
    shape: str
    look: str
    size: float = 6
    aside: float = 0
    text: str = ""


def legend_mark(kind: str) -> Markup:
    """A mark on its own: its shape (or `band`) and its look, as in a figure's legend."""
    shape, _, look = kind.partition(" ")
    drawing = Drawing(16, 16)
    if shape == "band":
        drawing.rect(1, 3, 14, 10, "band")
    else:
        drawing.mark(shape, 8, 8, 6, look)
    return drawing.svg()


def room_for(labels: Iterable[str], most: float = 280) -> float:
    """Pixels that the labels of rows need."""
    return min(most, 12 + LETTER * max(map(len, labels), default=0))


def table_of_marks(
    rows: Sequence[str],
    columns: Sequence[str],
    marks: Iterable[Mark],
    *,
    step: float,
    height: int,
    heading: str = "",
    room: float = 0,
) -> Markup:
    """Rows with names, a column a unit with its name above it, and marks where they cross.

    ``heading`` says what the rows are; ``room`` is the room of their names, where several drawings are to be alike.
    """
    room = room or room_for(rows)
    tallest = max((LETTER * len(name) for name in columns), default=0)
    upright = tallest > step - 4 and len(columns) > 1 and step < 60
    head = (tallest if upright else 14) + (46 if heading else 26)
    width = max(room + step * len(columns), LETTER * len(heading), room + 40)
    drawing = Drawing(width + 8, head + height * len(rows) + 6)
    if heading:
        drawing.text(0, 13, heading, "strong")
    drawing.text(room, 33 if heading else 13, "unit", "dim")
    every = max(1, round(14 / step)) if upright else 1
    for at, name in enumerate(columns):
        x = room + step * (at + 0.5)
        if at % every == 0:
            drawing.text(x + (4 if upright else 0), head - 6, name, "" if upright else "mid", upright=upright)
        drawing.line(x, head, x, head + height * len(rows), "grid")
    for at, name in enumerate(rows):
        y = head + height * at
        drawing.line(0, y, room + step * len(columns), y)
        drawing.text(room - 8, y + height / 2 + 4.5, _fitting(name, room), "end")
    for mark in marks:
        x, y = room + step * (mark.column + 0.5 + mark.aside), head + height * (mark.row + 0.5)
        drawing.mark(mark.shape, x, y, min(mark.size, step / 2), mark.look)
        if mark.text:
            drawing.text(x, y + 4.5, mark.text, "mid on")
    return drawing.svg()


def _fitting(name: str, room: float) -> str:
    most = int((room - 12) / LETTER)
    return name if len(name) <= most else f"{name[: most - 1]}…"
