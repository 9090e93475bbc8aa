"""Signs that part the entries of a row, whatever an author takes for it: strokes, dots, waves, small shapes, arrows.

A class of characters, not a list of books: what no sentence needs as its own mark parts entries where it stands
between them. Boxes to tick, ticks, faces and numbers in circles mean something by themselves and part nothing.
"""

STROKES = "/|\u00a6\u2016\u2044\u2215"  # / | ¦ ‖ ⁄ ∕
DOTS = "\u00b7\u2022\u2219\u22c5\u25e6\u2023\u2043"  # · • ∙ ⋅ ◦ ‣ ⁃
# ☀ ☁ ☂ ☃ ☄, ♩ to ♯, ~, ◀ ◁ ▶ ▷ and their kin, ◆ ◇ ◈ ■ ▪ ▲ ▼ ★ ☆ ♦ ♥ ♣ ♠ ✦ … ❖
SHAPES = (
    "\u2600-\u2604\u2669-\u266f~\u25a0\u25aa\u25ac\u25b2-\u25c9\u25cc\u2605\u2606\u2660-\u2667\u2726-\u274b\u2756\u27e1"
)
QUOTES = "\u00ab\u00bb\u2039\u203a"  # « » ‹ ›
ARROWS = "\u2190-\u21ff\u279c-\u27be"
OPENERS = "\u25c0-\u25c5"  # what points to the left begins a row: ◂ cold ▸ hot

BETWEEN_OPTIONS = f"[{STROKES}{DOTS}{SHAPES}]"
ANY = f"[{STROKES}{DOTS}{SHAPES}{QUOTES}]"  # of what is to be put in order
