"""CommonMark by markdown-it-py, with tables, Pandoc's attributes and divs, and a place in the file for every character.

markdown-it-py knows lines only. Here the inline parser notes where each token began (``meta["pos"]``, an offset into
the block's content), and every block's content is tied to the file line by line (``meta["places"]``).
"""

import re
from array import array
from bisect import bisect_right
from dataclasses import dataclass, field
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.common.utils import mdTrim
from markdown_it.parser_block import ParserBlock
from markdown_it.parser_inline import ParserInline
from markdown_it.rules_block import StateBlock
from markdown_it.rules_block.html_block import html_block
from markdown_it.rules_inline import StateInline, autolink, backtick, image, link
from markdown_it.token import Token
from markdown_it.utils import EnvType

from lint_rules.manuscript.attributes import braces_at_end, read_braces
from lint_rules.manuscript.comments import (
    COMMENT,
    HTML_COMMENT,
    OPENING,
    UNCLOSED_COMMENT,
    comment_block,
    unclosed_comment,
)
from lint_rules.manuscript.divs import close_divs, div_fence
from lint_rules.source import Source, Span

MAX_NESTING = 60  # of lists, quotes and links: deeper than any manuscript, shallower than Python's own limit
_MAX_IMAGE_NESTING = 8
_NEWLINES = re.compile(r"\r\n?")
_CELL_EDGE = re.compile(r"\\?\|")


@dataclass(slots=True)
class Places:
    """Where the characters of a block's content stand in the file: pieces that begin at ``at`` and stand at ``source``."""

    at: "array[int]" = field(default_factory=lambda: array("l"))
    source: "array[int]" = field(default_factory=lambda: array("l"))
    floor: "array[int]" = field(default_factory=lambda: array("l"))

    def add(self, at: int, source: int, floor: int) -> None:
        """Begin a piece at content offset ``at``; nothing of it stands before ``floor`` (tabs may be widened)."""
        self.at.append(at)
        self.source.append(source)
        self.floor.append(floor)

    def place(self, position: int) -> int:
        """Offset in the file of a content offset."""
        piece = bisect_right(self.at, position) - 1
        return max(self.source[piece] + position - self.at[piece], self.floor[piece])

    def run(self, position: int, count: int) -> tuple[range, int]:
        """Offsets in the file of up to ``count`` characters from a content offset, as far as its piece goes."""
        piece = bisect_right(self.at, position) - 1
        if piece + 1 < len(self.at):
            count = min(count, self.at[piece + 1] - position)
        start = self.source[piece] + position - self.at[piece]
        if start < self.floor[piece]:
            return range(self.floor[piece], self.floor[piece] + 1), 1
        return range(start, start + count), count

    def end(self, position: int) -> int:
        """Offset in the file where the character before a content offset ends."""
        return self.place(position - 1) + 1 if position else self.place(0)


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment: where it stands, and its lines (0-based, half-open) when they are its own, else None."""

    span: Span
    text: str
    lines: tuple[int, int] | None = None


@dataclass(slots=True)
class Document:
    """The tokens of a file, its comments on lines of their own, and what was wrong with divs and comments."""

    tokens: list[Token]
    comments: list[Comment]
    unclosed_comments: list[Span]
    unclosed_divs: list[Token]
    surplus_fences: list[Token]
    too_deep: list[int]


class _Inline(StateInline):
    """Notes in each token where it began."""

    pending_start = 0

    def append_pending(self, text: str) -> None:
        if not self._pending and not self._pending_buffer:
            self.pending_start = self.pos
        super().append_pending(text)

    def pushPending(self) -> Token:
        token = super().pushPending()
        token.meta = {"pos": self.pending_start}
        return token

    def push(self, ttype: str, tag: str, nesting: int) -> Token:  # type: ignore[override]
        token = super().push(ttype, tag, nesting)  # type: ignore[arg-type]
        token.meta = {"pos": self.pos}
        if ttype == "text":
            if self.src[self.pos] == "<":  # the text of an autolink stands behind its bracket
                token.meta["pos"] += 1
            elif len(self.tokens) > 1 and (before := self.tokens[-2]).type == "text":
                # the marks of one run of * or _ are pushed one by one from the same position
                if before.meta["pos"] >= self.pos:
                    token.meta["pos"] = before.meta["pos"] + 1
        return token


class _ParserInline(ParserInline):
    depth = 0

    def parse(self, src: str, md: MarkdownIt, env: EnvType, tokens: list[Token]) -> list[Token]:
        state = _Inline(src, md, env, tokens)
        depth = env.get("depth", 0)
        if depth > _MAX_IMAGE_NESTING:
            token = state.push("text", "", 0) if src else None
            if token:
                token.content, token.meta = src, {"pos": 0}
            return tokens
        env["depth"] = depth + 1
        self.tokenize(state)
        for rule in self.ruler2.getRules(""):
            rule(state)
        env["depth"] = depth
        return state.tokens


class _Block(StateBlock):
    """Reads the lines that are left once those of ``env["skip"]`` are taken out; notes where blocks begin."""

    def __init__(self, src: str, md: MarkdownIt, env: EnvType, tokens: list[Token]) -> None:
        super().__init__(src, md, env, tokens)
        skip: set[int] = env["skip"]
        count = self.lineMax
        self.numbers = [line for line in range(count) if line not in skip] if skip else list(range(count))
        if skip:
            for marks in (self.bMarks, self.eMarks, self.tShift, self.sCount, self.bsCount):
                last = marks[-1]
                marks[:] = [marks[line] for line in self.numbers]
                marks.append(last)
            self.lineMax = len(self.numbers)

    def push(self, ttype: str, tag: str, nesting: int) -> Token:  # type: ignore[override]
        token = super().push(ttype, tag, nesting)  # type: ignore[arg-type]
        if ttype in ("list_item_open", "table_open"):
            token.meta = {"start": self.bMarks[self.line] + self.tShift[self.line]}
        elif ttype == "heading_open":
            line = self.line - 1
            token.meta = {"start": self.bMarks[line] + self.tShift[line]}
        return token


class _ParserBlock(ParserBlock):
    def parse(self, src: str, md: MarkdownIt, env: EnvType, outTokens: list[Token]) -> list[Token] | None:
        if not src:
            return None
        state = _Block(src, md, env, outTokens)
        self.tokenize(state, state.line, state.lineMax)
        for token in outTokens:
            if token.map is not None and token.map[1] > token.map[0]:
                token.map = [state.numbers[token.map[0]], state.numbers[token.map[1] - 1] + 1]
        return state.tokens


def _html_block(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """HTML other than comments, which have a rule of their own."""
    start = state.bMarks[line] + state.tShift[line]
    return not state.src.startswith(OPENING, start) and html_block(state, line, end_line, silent)


def _with_attributes(rule):  # type: ignore[no-untyped-def]
    """A picture, link or code span takes the attributes that follow it; they are no text."""

    def wrapped(state: StateInline, silent: bool) -> bool:
        start = state.pos
        if not rule(state, silent):
            return False
        end = state.pos
        if rule is backtick and not state.src[start:end].strip("`"):
            return True  # a run of backticks that opens nothing is text
        braces = read_braces(state.src, end) if state.src.startswith("{", end) else None
        if braces is not None and braces.end > state.posMax:
            braces = None
        if braces is not None:
            state.pos = braces.end
        if not silent:
            state.tokens[-1].meta.update(start=start, end=state.pos, braces=braces, braces_start=end)
        return True

    return wrapped


def _span(state: StateInline, silent: bool) -> bool:
    """Pandoc's bracketed span: ``[text]{.class}``."""
    start, maximum = state.pos, state.posMax
    if state.src[start] != "[":
        return False
    label_end = state.md.helpers.parseLinkLabel(state, start)
    if label_end < 0 or not state.src.startswith("{", label_end + 1):
        return False
    braces = read_braces(state.src, label_end + 1)
    if braces is None or braces.end > maximum:
        return False
    if not silent:
        state.pos, state.posMax = start + 1, label_end
        state.push("span_open", "span", 1)
        state.md.inline.tokenize(state)
        state.push("span_close", "span", -1)
    state.pos, state.posMax = braces.end, maximum
    return True


@cache
def _parser() -> MarkdownIt:
    md = MarkdownIt("commonmark", {"maxNesting": MAX_NESTING})
    md.inline, md.block = _ParserInline(), _ParserBlock()
    md.configure("commonmark", {"maxNesting": MAX_NESTING})
    md.enable("table")
    md.core.ruler.disable("text_join")  # both would merge text tokens and lose where they began
    md.inline.ruler2.disable("fragments_join")
    md.normalizeLinkText = lambda url: url  # type: ignore[method-assign]
    alternatives = {"alt": ["paragraph", "reference", "blockquote"]}
    md.block.ruler.at("html_block", _html_block, alternatives)
    md.block.ruler.before("html_block", "comment", comment_block, alternatives)
    md.block.ruler.before("table", "div", div_fence, {"alt": ["paragraph", "reference", "blockquote", "list"]})
    for name, rule in (("backticks", backtick), ("link", link), ("image", image), ("autolink", autolink)):
        md.inline.ruler.at(name, _with_attributes(rule))
    md.inline.ruler.after("link", "span", _span)
    md.inline.ruler.after("html_inline", "unclosed_comment", unclosed_comment)
    return md


def parse(source: Source, front_lines: int = 0) -> Document:
    """Read a file's blocks and inlines; its first ``front_lines`` lines are front matter."""
    text = _NEWLINES.sub("\n", source.text).replace("\0", "\ufffd")
    shift = _Shift(source, text)
    md, env = _parser(), {"skip": set(range(front_lines))}
    comments: list[Comment] = []
    unclosed: list[Span] = []
    if OPENING in text:
        first: list[Token] = []
        md.block.parse(text, md, env, first)
        text = _take_out(first, text, shift, env["skip"], comments, unclosed)
        env = {"skip": env["skip"]}
    tokens: list[Token] = []
    md.block.parse(text, md, env, tokens)
    tokens, open_divs, surplus = close_divs(tokens)
    _place(tokens, source, text, shift)
    for token in tokens:
        if token.type == "inline":
            token.children = []
            md.inline.parse(token.content, md, env, token.children)
    return Document(tokens, comments, unclosed, open_divs, surplus, [])


class _Shift:
    """From offsets into the text with plain line feeds to offsets into the file."""

    def __init__(self, source: Source, text: str) -> None:
        self.same = len(source.text) == len(text)
        self.starts = source.line_starts
        self.plain = self.starts if self.same else (0, *(match.end() for match in re.finditer("\n", text)))

    def __call__(self, offset: int) -> int:
        if self.same:
            return offset
        line = bisect_right(self.plain, offset) - 1
        return self.starts[line] + offset - self.plain[line]

    def line(self, offset: int) -> int:
        return bisect_right(self.plain, offset) - 1


def _take_out(
    tokens: list[Token], text: str, shift: _Shift, skip: set[int], comments: list[Comment], unclosed: list[Span]
) -> str:
    """Blank the comments that have their lines to themselves; take out their lines altogether inside a table."""
    pieces: list[str] = []
    done = 0
    for index, token in enumerate(tokens):
        if token.type not in (HTML_COMMENT, UNCLOSED_COMMENT):
            continue
        start, end = token.meta["start"], token.meta["end"]
        pieces += [text[done:start], re.sub(r"[^\n]", " ", text[start:end])]
        done = end
        span = Span(shift(start), shift(end))
        if token.type == UNCLOSED_COMMENT:
            unclosed.append(span)
            continue
        lines = (shift.line(start), shift.line(end) + 1)
        comments.append(Comment(span, text[start:end], lines))
        if _inside_table(tokens, index, lines, text, shift):
            skip.update(range(*lines))
    return "".join([*pieces, text[done:]])


def _inside_table(tokens: list[Token], index: int, lines: tuple[int, int], text: str, shift: _Shift) -> bool:
    """Whether a comment stands between two rows of a table."""
    before = index - 1
    while before >= 0 and tokens[before].type == HTML_COMMENT:
        before -= 1
    if before < 0 or tokens[before].type != "table_close" or lines[1] >= len(shift.plain):
        return False
    end = text.find("\n", shift.plain[lines[1]])
    after = text[shift.plain[lines[1]] : end if end >= 0 else len(text)].lstrip(" \t>")
    return "|" in after or after.startswith(OPENING)


def _place(tokens: list[Token], source: Source, text: str, shift: _Shift) -> None:
    """Tie the content of every block to the file, and take the attributes out of headings."""
    opening: Token | None = None
    cells: list[tuple[int, str]] = []
    for token in tokens:
        if (
            token.type in ("heading_open", "table_open", "list_item_open", "div_open", "div_close")
            and "start" in token.meta
        ):
            token.meta["start"] = shift(token.meta["start"])
        if token.type == "tr_open":
            assert token.map is not None
            at = opening.meta["start"] if opening is not None and opening.type == "table_open" else None
            cells = _row(source, token.map[0], at)
        if token.type.endswith("_open") and token.type not in ("thead_open", "tbody_open"):
            opening = token
        if token.type == "inline":
            assert token.map is not None and opening is not None
            if opening.type in ("th_open", "td_open"):
                places = _cell_places(token, cells, source)
            elif opening.type == "heading_open" and opening.markup.startswith("#"):
                places = Places()
                line = source.line_span(token.map[0] + 1)
                at = source.text.find(token.content, opening.meta["start"] + len(opening.markup), line.end)
                places.add(0, max(at, line.start), line.start)
            else:
                places = _line_places(token.content, token.map[0], source)
            token.meta["places"] = places
            if opening.type == "heading_open":
                _take_attributes(token)
        elif token.type in ("fence", "code_block", "html_block"):
            assert token.map is not None
            first = token.map[0] + (token.type == "fence")
            token.meta["places"] = _line_places(token.content, first, source, trimmed=False)


def _line_places(content: str, first_line: int, source: Source, trimmed: bool = True) -> Places:
    """Each line of a block's content is the tail of its line in the file."""
    places = Places()
    at = 0
    lines = content.split("\n")
    for number, line in enumerate(lines):
        if first_line + number >= len(source.line_starts):
            break
        start, end = source.line_span(first_line + number + 1)
        if trimmed and number == len(lines) - 1:
            end = start + len(mdTrim("x" + source.text[start:end])) - 1
        places.add(at, end - len(line), start)
        at += len(line) + 1
    if not places.at:
        places.add(0, len(source.text), 0)
    return places


def _row(source: Source, line: int, start: int | None) -> list[tuple[int, str]]:
    """The cells of a table's row: where each begins in the file, and its text as stored."""
    span = source.line_span(line + 1)
    begin = start if start is not None and span.start <= start <= span.end else span.start
    text = source.text[begin : span.end]
    if begin == span.start:
        begin += len(text) - len(text.lstrip(" \t>"))
    end = span.start + len(source.text[span.start : span.end].rstrip(" \t"))
    edges = [begin - 1]
    for match in _CELL_EDGE.finditer(source.text, begin, end):
        if match[0] == "|":
            edges.append(match.start())
    if len(edges) > 1 and edges[1] == begin:
        del edges[0]
    if edges[-1] != end - 1:
        edges.append(end)
    return [(left + 1, source.text[left + 1 : right]) for left, right in zip(edges, edges[1:])]


def _cell_places(token: Token, cells: list[tuple[int, str]], source: Source) -> Places:
    places = Places()
    if not cells:
        assert token.map is not None
        end = source.line_span(token.map[0] + 1).end
        places.add(0, end, end)
        return places
    start, text = cells.pop(0)
    at = start + len(text) - len(text.lstrip())
    places.add(0, at, at)
    shown = 0
    for match in re.finditer(r"\\\|", text[at - start :]):
        places.add(match.start() - shown, at + match.start() + 1, at)
        shown += 1
    return places


def _take_attributes(token: Token) -> None:
    """Blank the attributes at the end of a heading (comments may follow them)."""
    content = token.content
    end = len(content)
    while content[:end].rstrip().endswith("-->"):
        opening = content.rfind(OPENING, 0, end)
        if opening < 0 or not COMMENT.fullmatch(content[opening:end].rstrip()):
            break
        end = opening
    found = braces_at_end(content[:end])
    if found is None:
        return
    start, braces = found
    token.meta["braces"] = braces
    token.meta["braces_start"] = start
    head = content[:start].rstrip(" \t")
    if head.endswith("#") and (bare := head.rstrip("#")) != head and (not bare or bare[-1] in " \t"):
        head = bare
    token.content = head + " " * (braces.end - len(head)) + content[braces.end :]
