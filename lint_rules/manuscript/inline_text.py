"""The plain text of a block: what a reader sees, and where in the file each character of it stands."""

from array import array
from bisect import bisect_left, bisect_right
from collections.abc import Sequence, Set
from dataclasses import dataclass, field, replace

from markdown_it.token import Token

from lint_rules.manuscript.attributes import Braces
from lint_rules.manuscript.comments import OPENING, UNCLOSED_COMMENT
from lint_rules.manuscript.model import PICTURE, Attributes, Picture
from lint_rules.manuscript.source_map import SourceMap
from lint_rules.source import Span

_BREAKS = ("<br>", "<br/>", "<br />")


@dataclass(slots=True)
class InlineText:
    """Plain text with its places, and what stands in it: bold ranges, pictures, comments, line ends of the file."""

    parts: list[str] = field(default_factory=list)
    length: int = 0
    starts: "array[int]" = field(default_factory=lambda: array("l"))
    ends: "array[int]" = field(default_factory=lambda: array("l"))
    strong: list[tuple[int, int]] = field(default_factory=list)
    emphasis: list[tuple[int, int]] = field(default_factory=list)
    foreign: list[tuple[int, int]] = field(default_factory=list)
    struck: list[tuple[int, int]] = field(default_factory=list)
    pictures: list[Picture] = field(default_factory=list)
    alts: "list[InlineText]" = field(default_factory=list)  # the alternative texts of the pictures
    comments: list[tuple[Span, str]] = field(default_factory=list)
    unclosed: list[Span] = field(default_factory=list)
    html: list[tuple[Span, str]] = field(default_factory=list)  # tags and the like
    breaks: list[int] = field(default_factory=list)  # indices of the characters that stand for a line end
    _text: str | None = None

    @property
    def text(self) -> str:
        """What a reader sees."""
        if self._text is None:
            self._text = "".join(self.parts)
        return self._text

    def keep_lines(self) -> None:
        """Let the line ends of the file stand as they are: they mean something here."""
        letters = list(self.text)
        for at in self.breaks:
            letters[at] = "\n"
        self._text = "".join(letters)

    def take_off_bars(self) -> None:
        """Read Pandoc's line blocks: where every line begins with a bar, the bars go and the line ends stand.

        Lines that all end with one too are a table that lacks its second line.
        """
        if not self.text.startswith("|"):
            return
        begins = [0, *(at + 1 for at in self.breaks)]
        ends = [*self.breaks, self.length]
        lines = [self.text[begin:end] for begin, end in zip(begins, ends, strict=True)]
        if not all(line.startswith("| ") or line.rstrip() == "|" for line in lines):
            return
        if all(line.rstrip().endswith("|") and len(line) > 1 for line in lines):
            return
        self.keep_lines()
        gone = {
            at
            for begin, line in zip(begins, lines, strict=True)
            for at in range(begin, begin + len(line) - len(line[1:].lstrip(" ")))
        }
        self._leave_out(gone)

    def _leave_out(self, gone: Set[int]) -> None:
        """Take characters out, and move all that stands behind them."""
        kept = [at for at in range(self.length) if at not in gone]
        now = {at: number for number, at in enumerate(kept)}
        place = [bisect_left(kept, at) for at in range(self.length + 1)]
        self._text = "".join(self.text[at] for at in kept)
        self.parts = [self._text]
        self.starts = array("l", (self.starts[at] for at in kept))
        self.ends = array("l", (self.ends[at] for at in kept))
        self.length = len(kept)
        for ranges in (self.strong, self.emphasis, self.foreign, self.struck):
            ranges[:] = [(place[start], place[end]) for start, end in ranges if place[start] < place[end]]
        self.pictures = [replace(picture, at=place[picture.at]) for picture in self.pictures]
        self.breaks = [now[at] for at in self.breaks]

    def put(self, text: str, position: int, places: SourceMap) -> None:
        """Add text that is stored character for character from a content position."""
        done = 0
        while done < len(text):
            piece, count = places.run(position + done, len(text) - done)
            self.starts.extend(piece)
            self.ends.extend(range(piece.start + 1, piece.stop + 1))
            done += count
        self.parts.append(text)
        self.length += len(text)

    def drop_spaces(self, sign: str = " ") -> None:
        """Take off the spaces (or other signs) at the end."""
        while self.parts and self.parts[-1].endswith(sign):
            part = self.parts[-1].rstrip(sign)
            gone = len(self.parts[-1]) - len(part)
            self.parts[-1:] = [part] if part else []
            self.length -= gone
            del self.starts[self.length :]
            del self.ends[self.length :]

    def put_as(self, text: str, start: int, end: int) -> None:
        """Add text that a whole stretch of the file stands for."""
        self.starts.extend([start] * len(text))
        self.ends.extend([end] * len(text))
        self.parts.append(text)
        self.length += len(text)


def read_plain(token: Token) -> InlineText:
    """Read an inline token whose content has been placed (``meta["places"]``)."""
    plain = InlineText()
    _read(token.children or [], token.meta["places"], 0, plain, token.content)
    if token.content.endswith("\\") and not token.content.endswith("\\\\"):
        plain.drop_spaces("\\")  # a line break with nothing behind it: a blank to write on is a paragraph of its own
    plain.strong = _merged(plain.strong)
    plain.emphasis = _merged(plain.emphasis)
    plain.struck = _merged(plain.struck)
    return plain


def _merged(ranges: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The same ranges in order, those that lie in each other as one."""
    if len(ranges) < 2:
        return ranges
    merged: list[tuple[int, int]] = []
    for start, end in sorted(ranges):
        if merged and start < merged[-1][1]:
            merged[-1] = merged[-1][0], max(end, merged[-1][1])
        else:
            merged.append((start, end))
    return merged


def within(ranges: Sequence[tuple[int, int]], start: int, end: int) -> tuple[tuple[int, int], ...]:
    """The parts of sorted ranges that lie in ``start:end``, counted from ``start``."""
    if not ranges:
        return ()
    first = bisect_right(ranges, start, key=lambda item: item[1])
    last = bisect_left(ranges, end, key=lambda item: item[0])
    return tuple((max(left, start) - start, min(right, end) - start) for left, right in ranges[first:last])


def _read(tokens: list[Token], places: SourceMap, shift: int, plain: InlineText, content: str) -> None:
    strong: list[int] = []
    emphasis: list[int] = []
    struck: list[int] = []
    spans: list[tuple[int, bool]] = []
    for index, token in enumerate(tokens):
        kind = token.type
        if kind == "text":
            if token.content:
                hides = (
                    index and tokens[index - 1].type == "html_inline" and tokens[index - 1].content.startswith(OPENING)
                )
                if hides and token.content.startswith(" "):
                    plain.drop_spaces()  # the spaces around a comment are one
                plain.put(token.content, shift + token.meta["pos"], places)
        elif kind == "text_special":
            at = shift + token.meta["pos"]
            if token.content == token.markup:
                plain.put(token.content, at, places)
            else:
                plain.put_as(token.content, places.place(at), places.end(at + len(token.markup)))
        elif kind in ("softbreak", "hardbreak"):
            _put_break(tokens, index, places, shift, plain, content)
        elif kind == "strong_open":
            strong.append(plain.length)
        elif kind == "strong_close" and strong:
            _range(plain.strong, strong.pop(), plain.length)
        elif kind == "em_open":
            emphasis.append(plain.length)
        elif kind == "em_close" and emphasis:
            _range(plain.emphasis, emphasis.pop(), plain.length)
        elif kind == "s_open":
            struck.append(plain.length)
        elif kind == "s_close" and struck:
            _range(plain.struck, struck.pop(), plain.length)
        elif kind == "span_open":
            lang = token.meta["lang"].casefold()
            spans.append((plain.length, bool(lang) and lang.partition("-")[0] != "en"))
        elif kind == "span_close" and spans:
            start, foreign = spans.pop()
            _range(plain.foreign, start if foreign else plain.length, plain.length)
        elif kind == "code_inline":
            _put_code(token, places, shift, plain)
        elif kind == "image":
            _put_picture(token, places, shift, plain)
        elif kind == "html_inline":
            _put_html(token, places, shift, plain)
        elif kind == UNCLOSED_COMMENT:
            at = shift + token.meta["pos"]
            plain.unclosed.append(Span(places.place(at), places.end(at + len(token.content))))


def _range(ranges: list[tuple[int, int]], start: int, end: int) -> None:
    if end > start:
        ranges.append((start, end))


def _put_break(tokens: list[Token], index: int, places: SourceMap, shift: int, plain: InlineText, content: str) -> None:
    """A line end: with the spaces before it, up to where the next line's text begins."""
    at = tokens[index].meta["pos"]
    after = tokens[index + 1].meta["pos"] if index + 1 < len(tokens) else at + 1
    while at and content[at - 1] == " ":
        at -= 1
    plain.drop_spaces()  # before a comment at the end of the line
    start = max(places.end(shift + at), plain.ends[-1] if plain.ends else 0)
    end = max(start, places.place(shift + min(after, len(content))))
    plain.breaks.append(plain.length)
    plain.put_as("\n" if tokens[index].type == "hardbreak" else " ", start, end)


def _put_code(token: Token, places: SourceMap, shift: int, plain: InlineText) -> None:
    at = shift + token.meta["pos"] + len(token.markup)
    inner = token.meta["braces_start"] - token.meta["pos"] - 2 * len(token.markup)
    if inner > len(token.content):
        at += 1  # one space on each side was taken off
    plain.put(token.content, at, places)


def _put_picture(token: Token, places: SourceMap, shift: int, plain: InlineText) -> None:
    start = shift + token.meta["pos"]
    label = start + 2
    alt = InlineText()
    _read(token.children or [], places, label, alt, token.content)
    begin = places.place(label)
    alt_span = Span(begin, places.end(label + len(token.content)) if token.content else begin)
    plain.alts.append(alt)
    end = shift + token.meta["end"]
    picture = Picture(
        span=Span(places.place(start), places.end(end)),
        target=str(token.attrs.get("src", "")),
        alt=alt.text.strip(),
        alt_span=alt_span,
        attributes=placed_braces(token.meta["braces"], shift + token.meta["braces_start"], places, shift),
        at=plain.length,
    )
    plain.pictures.append(picture)
    plain.comments += alt.comments
    plain.html += alt.html
    plain.put_as(PICTURE, picture.span.start, picture.span.end)


def placed_braces(braces: Braces | None, start: int, places: SourceMap, shift: int = 0) -> Attributes:
    """Attributes with their span in the file; without any, an empty span where they would stand."""
    if braces is None:
        at = places.end(start)
        return Attributes(Span(at, at))
    return braces.placed(Span(places.place(start), places.end(shift + braces.end)))


def _put_html(token: Token, places: SourceMap, shift: int, plain: InlineText) -> None:
    at = shift + token.meta["pos"]
    span = Span(places.place(at), places.end(at + len(token.content)))
    if token.content.startswith(OPENING):
        plain.comments.append((span, token.content))
    elif token.content.casefold() in _BREAKS:
        plain.put_as("\n", span.start, span.end)
    else:
        plain.html.append((span, token.content))
