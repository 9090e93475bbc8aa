"""Where the characters of a block's content stand in the file.

markdown-it-py gives a block's lines and its content without indents, quote marks and list marks. Every line of the
content is the tail of its line in the file, a heading's text follows its ``#``, and the cells of a table row follow
each other: that ties each content offset to its offset in the file.
"""

import re
from array import array
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from markdown_it.common.utils import mdTrim
from markdown_it.token import Token

from lint_rules import lazy_re
from lint_rules.manuscript.attributes import braces_at_end
from lint_rules.source import Source

LITERAL = ("fence", "code_block", "html_block")
_SEEMS_EMPTY = lazy_re.compile(r"(?:\s|>|[-+*]|[0-9]{1,9}[.)])*")
_CELL_EDGE = lazy_re.compile(r"\\?\|")
_TRAILING_COMMENTS = lazy_re.compile(r"(?:\s*<!--(?:-?>|(?:(?!<!--|-->)[\s\S])*-->))+\s*\Z")


@dataclass(slots=True)
class SourceMap:
    """Content in pieces: each begins at ``at`` in the content, at ``source`` in the file, not before ``floor``."""

    at: "array[int]" = field(default_factory=lambda: array("l"))
    source: "array[int]" = field(default_factory=lambda: array("l"))
    floor: "array[int]" = field(default_factory=lambda: array("l"))

    def add(self, at: int, source: int, floor: int) -> None:
        """Begin a piece; ``floor`` is where its line begins (Markdown may widen a tab into more spaces than it is)."""
        self.at.append(at)
        self.source.append(source)
        self.floor.append(floor)

    def place(self, position: int) -> int:
        """Offset in the file of a content offset."""
        piece = bisect_right(self.at, position) - 1
        return max(self.source[piece] + position - self.at[piece], self.floor[piece])

    def end(self, position: int) -> int:
        """Offset in the file where the character before a content offset ends."""
        return self.place(position - 1) + 1 if position else self.place(0)

    def run(self, position: int, count: int) -> tuple[range, int]:
        """Offsets in the file of up to ``count`` characters from a content offset, as far as its piece goes."""
        piece = bisect_right(self.at, position) - 1
        if piece + 1 < len(self.at):
            count = min(count, self.at[piece + 1] - position)
        start = self.source[piece] + position - self.at[piece]
        if start < self.floor[piece]:
            return range(self.floor[piece], self.floor[piece] + 1), 1
        return range(start, start + count), count


def tie(tokens: list[Token], source: Source) -> None:
    """Give every token that has content its places, and take the attributes out of headings."""
    opening: Token | None = None
    cells: list[tuple[int, str]] = []
    table: Token | None = None
    for token in tokens:
        if token.type == "table_open":
            table = token
        elif token.type == "tr_open":
            cells = [] if "drawn" in token.meta else _row(source, _first_line(token), table)
            table = None
        elif token.type in ("heading_open", "paragraph_open", "dt_open", "th_open", "td_open"):
            opening = token
        elif token.type == "inline" and opening is not None:
            token.meta["places"] = _inline_places(token, opening, cells, source)
            if opening.type == "heading_open":
                token.meta["closes"] = take_attributes(token)
        elif token.type in LITERAL:
            first = _first_line(token) + (token.type == "fence")
            token.meta["places"] = _line_places(token.content, first, source, trimmed=False)


def _first_line(token: Token) -> int:
    assert token.map is not None  # every block that opens has its lines
    return token.map[0]


def _inline_places(token: Token, opening: Token, cells: list[tuple[int, str]], source: Source) -> SourceMap:
    line = _first_line(token)
    if "drawn" in token.meta:
        return _drawn_places(token)
    if opening.type in ("th_open", "td_open"):
        return _cell_places(line, cells, source)
    if opening.type == "heading_open" and opening.markup.startswith("#"):
        places = SourceMap()
        start, end = source.line_span(line + 1)
        behind = source.text[opening.meta["start"] + len(opening.markup) : end]
        places.add(0, end - len(mdTrim(behind + "x")) + 1, start)
        return places
    numbers = token.meta.get("lines")
    if numbers is None:
        assert token.map is not None
        missing = token.map[1] - line - token.content.count("\n") - 1  # lines of nothing but odd white space
        first = token.content.partition("\n")[0]
        while missing > 0 and _SEEMS_EMPTY.fullmatch(seen := source.line_text(line + 1)) and first not in seen:
            line, missing = line + 1, missing - 1
    return _line_places(token.content, line, source, numbers=numbers)


def _line_places(
    content: str, first_line: int, source: Source, trimmed: bool = True, numbers: Sequence[int] | None = None
) -> SourceMap:
    """Each line of the content is the tail of its line in the file; the last one without white space at its end."""
    places = SourceMap()
    at = 0
    lines = content.split("\n")
    numbers = numbers or range(first_line, min(first_line + len(lines), len(source.line_starts)))
    for number, line in zip(numbers, lines, strict=False):
        start, end = source.line_span(number + 1)
        if trimmed and number == numbers[-1]:
            end = start + len(mdTrim("x" + source.text[start:end])) - 1
        places.add(at, end - len(line), start)
        at += len(line) + 1
    if not places.at:
        places.add(0, len(source.text), 0)
    return places


def _row(source: Source, line: int, table: Token | None) -> list[tuple[int, str]]:
    """The cells of a table's row: where each begins in the file, and its text as stored.

    ``table`` is given for the first row, which may stand behind the mark of a list item.
    """
    span = source.line_span(line + 1)
    end = span.start + len(source.slice(span).rstrip(" \t"))
    if table is not None:
        begin = table.meta["start"]
    else:
        text = source.slice(span)
        begin = span.start + len(text) - len(text.lstrip(" \t>"))
    edges = [begin - 1]
    edges += [match.start() for match in _CELL_EDGE.finditer(source.text, begin, end) if match[0] == "|"]
    if len(edges) > 1 and edges[1] == begin:
        del edges[0]
    if edges[-1] != end - 1:
        edges.append(end)
    return [(left + 1, source.text[left + 1 : right]) for left, right in pairwise(edges)][::-1]


def _cell_places(line: int, cells: list[tuple[int, str]], source: Source) -> SourceMap:
    """The next cell of the row (they come last first); an escaped pipe is shown without its backslash."""
    places = SourceMap()
    if not cells:
        end = source.line_span(line + 1).end
        places.add(0, end, end)
        return places
    start, text = cells.pop()
    at = start + len(text) - len(text.lstrip())
    places.add(0, at, at)
    for shown, match in enumerate(re.finditer(r"\\\|", text[at - start :])):
        places.add(match.start() - shown, at + match.start() + 1, at)
    return places


def _drawn_places(token: Token) -> SourceMap:
    """The cell of a drawn table: each of its lines begins where its piece does."""
    places = SourceMap()
    at = 0
    for line, start in zip(token.content.split("\n"), token.meta["drawn"], strict=True):
        places.add(at, start, start)
        at += len(line) + 1
    return places


def take_attributes(token: Token, even_after_brackets: bool = False) -> int:
    """Blank the attributes at the end of a heading, so that offsets stay; comments may follow them.

    Braces directly behind a bracket may belong to a link or a span instead: they are left, and where they end is given.
    """
    content = token.content
    comments = _TRAILING_COMMENTS.search(content) if content.rstrip().endswith("-->") else None
    end = comments.start() if comments else len(content)
    found = braces_at_end(content[:end]) or braces_at_end(content[:end], as_meant=True)
    if found is None:
        return 0
    start, braces = found
    if start and content[start - 1] in ")]>`" and not even_after_brackets:
        return braces.end
    token.meta["braces"] = braces
    token.meta["braces_start"] = start
    head = content[:start].rstrip(" \t")
    if head.endswith("#") and ((bare := head.rstrip("#")) == "" or bare[-1] in " \t"):
        head = bare
    token.content = head + " " * (braces.end - len(head)) + content[braces.end :]
    return 0
