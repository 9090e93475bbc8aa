"""The file as stored, and the one place where positions are converted.

The currency everywhere else is a half-open span of offsets into ``Source.text``: Unicode code points of the file as
stored, line ends untouched, without the byte order mark. Lines and columns (1-based, for people) and UTF-16 columns
(0-based, for editors) are derived here and nowhere else.
"""

from array import array
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from lint_rules import lazy_re

BYTE_ORDER_MARK = "\ufeff"
# CommonMark 0.31 §2.1: a line ends with a line feed, a carriage return, or both; U+2028 and form feed end no line.
_CONTROLS = lazy_re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f]")
_LINE_END = lazy_re.compile(r"\r\n|\n|\r")


class Span(NamedTuple):
    """Half-open range of offsets ``start:end`` into the text of one file."""

    start: int
    end: int

    def covers(self, other: "Span") -> bool:
        """Say whether ``other`` lies wholly inside this span."""
        return self.start <= other.start and other.end <= self.end


class Position(NamedTuple):
    """A place for people: line and column from 1, columns in Unicode code points."""

    line: int
    column: int


class EditorPosition(NamedTuple):
    """A place for editors (Language Server Protocol): line and column from 0, columns in units of an encoding."""

    line: int
    character: int


@dataclass(frozen=True, eq=False)
class Source:
    """One file as stored: its path inside the course (with ``/``), its text, and whether it began with a BOM."""

    path: str
    text: str
    bom: bool = field(default=False)

    @classmethod
    def decode(cls, path: str, data: bytes) -> "Source":
        """Make a source from the bytes of a file.

        Raises UnicodeDecodeError when they are not UTF-8.
        """
        text = data.decode("utf-8")
        bom = text.startswith(BYTE_ORDER_MARK)
        return cls(path, text[1:] if bom else text, bom)

    def encode(self) -> bytes:
        """Give back the bytes that ``decode`` was given."""
        return ((BYTE_ORDER_MARK if self.bom else "") + self.text).encode("utf-8")

    @cached_property
    def line_starts(self) -> Sequence[int]:
        """Offset of the first character of every line."""
        return array("L", [0, *(match.end() for match in _LINE_END.finditer(self.text))])

    def position(self, offset: int) -> Position:
        """Line and column of an offset (an offset past the end counts as the end)."""
        offset = min(max(offset, 0), len(self.text))
        line = bisect_right(self.line_starts, offset) - 1
        return Position(line + 1, offset - self.line_starts[line] + 1)

    def offset(self, position: Position) -> int:
        """Offset of a line and column; a column past the end of its line is its end, without the line break."""
        line = min(max(position.line, 1), len(self.line_starts))
        return min(self.line_starts[line - 1] + max(position.column, 1) - 1, self.line_span(line).end)

    def line_span(self, line: int) -> Span:
        """Span of a line (from 1) without its line break."""
        start = self.line_starts[line - 1]
        end = self.line_starts[line] if line < len(self.line_starts) else len(self.text)
        return Span(start, start + len(self.text[start:end].rstrip("\r\n")))

    def line_text(self, line: int) -> str:
        """Text of a line (from 1) without its line break."""
        return self.slice(self.line_span(line))

    def slice(self, span: Span) -> str:
        """The stored text under a span."""
        return self.text[span.start : span.end]

    def editor_position(self, offset: int, encoding: str = "utf-16") -> EditorPosition:
        """Place of an offset as an editor counts it, in units of ``utf-8``, ``utf-16`` or ``utf-32``."""
        line, column = self.position(offset)
        start = self.line_starts[line - 1]
        return EditorPosition(line - 1, sum(_units(char, encoding) for char in self.text[start : start + column - 1]))

    def editor_offset(self, position: EditorPosition, encoding: str = "utf-16") -> int:
        """Offset of an editor's place; a place inside a character is the start of it."""
        line = min(position.line, len(self.line_starts) - 1)
        start, end = self.line_span(line + 1)
        units = 0
        for offset in range(start, end):
            units += _units(self.text[offset], encoding)
            if units > position.character:
                return offset
        return end


def whole_characters(text: str) -> str:
    r"""A text without half characters, such as an escape of YAML can make: two that fit become one, others �.

    Control characters, which an escape can make too, become � as well: no terminal and no spreadsheet takes them.
    """
    if text.isprintable():
        return text
    return _CONTROLS.sub("\ufffd", text.encode("utf-16", "surrogatepass").decode("utf-16", "replace"))


def _units(char: str, encoding: str) -> int:
    """How many code units a character takes."""
    if encoding == "utf-8":
        return len(char.encode("utf-8", "surrogatepass"))
    return 2 if encoding == "utf-16" and ord(char) > 0xFFFF else 1
