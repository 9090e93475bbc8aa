"""CommonMark by markdown-it-py, with tables, definition lists, Pandoc's attributes and divs; every token has its place.

markdown-it-py knows lines only. Here the inline parser notes where each token began (``meta["pos"]``, an offset into
the block's content), the block parser where each block did (``meta["start"]``), and ``places`` ties content to file.
"""

import re
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from markdown_it import MarkdownIt
from markdown_it.parser_block import ParserBlock
from markdown_it.parser_inline import ParserInline
from markdown_it.rules_block import StateBlock, code
from markdown_it.rules_block.html_block import html_block
from markdown_it.rules_inline import StateInline, autolink, backtick, image, link
from markdown_it.rules_inline.state_inline import Scanned
from markdown_it.token import Token
from markdown_it.utils import EnvType
from mdit_py_plugins.deflist import deflist_plugin

from lint_rules import lazy_re
from lint_rules.manuscript.attributes import read_braces
from lint_rules.manuscript.comments import HTML_COMMENT, OPENING, UNCLOSED_COMMENT, comment_block, unclosed_comment
from lint_rules.manuscript.divs import close_divs, div_fence
from lint_rules.manuscript.drawn_tables import drawn_table
from lint_rules.manuscript.source_map import take_attributes, tie
from lint_rules.source import Source, Span

MAX_NESTING = 60  # of lists, quotes and links: deeper than any manuscript, shallower than Python's own limit
LONGEST = 20_000  # characters of a block: more than a unit has; some readings of a block take the square of its length
_MAX_IMAGE_NESTING = 8
_NEWLINES = lazy_re.compile(r"\r\n?")
_GAP = lazy_re.compile(r"_{4,}")
_OPTION = lazy_re.compile(r"[ \t>]*\(?[A-Za-z]\)[ \t]")
_CUT_BY_COMMENTS = ("bullet_list_close", "ordered_list_close", "table_close", "blockquote_close", "list_item_open")
_IN_BRACKETS = lazy_re.compile(r"\((?:\d{1,3}|[A-Za-z]|[ivx]{2,4})\)\s")  # Pandoc User's Guide, 'fancy_lists'
_INDENT = 4
_PARAGRAPH = 3  # tokens: it opens, what it says, it closes
_SILENT_HTML = lazy_re.compile(r"<(?:script|style|textarea|!|\?)", re.IGNORECASE)

Nesting = Literal[-1, 0, 1]
InlineRule = Callable[[StateInline, bool], bool]


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment that has its lines to itself: where it stands, and its lines (0-based, half-open)."""

    span: Span
    text: str
    lines: tuple[int, int]


@dataclass(slots=True)
class Document:
    """The tokens of a file, its comments on lines of their own, and what was wrong with divs and comments."""

    tokens: list[Token]
    comments: list[Comment]
    unclosed_comments: list[Span]
    unclosed_divs: list[Token]
    surplus_fences: list[Token]
    too_deep: list[Span]  # where nesting was so deep that the rest was not read
    too_long: list[Span]  # lines where blocks begin that were cut at ``LONGEST`` characters


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

    def scanDelims(self, start: int, canSplitWord: bool) -> Scanned:
        """Inside a word asterisks begin and end bold at a mark as well (I**'m**, play**-ing**); so in Pandoc."""
        scanned = super().scanDelims(start, canSplitWord)
        before, behind = self.src[start - 1 : start], self.src[start + scanned.length : start + scanned.length + 1]
        if not canSplitWord or not before.strip() or not behind.strip() or before.isalnum() == behind.isalnum():
            return scanned
        return Scanned(scanned.can_open or before.isalnum(), scanned.can_close or behind.isalnum(), scanned.length)

    def push(self, ttype: str, tag: str, nesting: Nesting) -> Token:
        token = super().push(ttype, tag, nesting)
        position = self.pos
        if ttype == "text":
            before = self.tokens[-2] if len(self.tokens) > 1 else None
            if self.src[position] == "<":  # the text of an autolink stands behind its bracket
                position += 1
            elif before is not None and before.type == "text" and before.meta["pos"] >= position:
                position = before.meta["pos"] + 1  # a run of * or _ is pushed mark by mark from one position
        token.meta = {"pos": position}
        return token


class _ParserInline(ParserInline):
    def parse(self, src: str, md: MarkdownIt, env: EnvType, tokens: list[Token]) -> list[Token]:
        state = _Inline(src, md, env, tokens)
        depth = env.get("depth", 0)
        if depth > _MAX_IMAGE_NESTING:  # pictures in the texts of pictures: enough
            token = Token("text", "", 0, content=src)
            token.meta = {"pos": 0}
            tokens.append(token)
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
        self.numbers = [line for line in range(self.lineMax) if line not in skip]
        if skip:
            for marks in (self.bMarks, self.eMarks, self.tShift, self.sCount, self.bsCount):
                marks[:] = [*(marks[line] for line in self.numbers), marks[-1]]
            self.lineMax = len(self.numbers)

    def push(self, ttype: str, tag: str, nesting: Nesting) -> Token:
        token = super().push(ttype, tag, nesting)
        if ttype in ("list_item_open", "table_open"):
            token.meta = {"start": self.bMarks[self.line] + self.tShift[self.line]}
        elif ttype == "heading_open":
            token.meta = {"start": self.bMarks[self.line - 1] + self.tShift[self.line - 1]}
        return token


class _ParserBlock(ParserBlock):
    def tokenize(self, state: StateBlock, startLine: int, endLine: int) -> None:
        first = state.skipEmptyLines(startLine)
        if state.level >= MAX_NESTING and first < endLine:
            state.env["too_deep"].append(first)
        super().tokenize(state, startLine, endLine)

    def parse(self, src: str, md: MarkdownIt, env: EnvType, outTokens: list[Token]) -> list[Token] | None:
        env["too_deep"] = []
        if not src:
            return None
        state = _Block(src, md, env, outTokens)
        self.tokenize(state, state.line, state.lineMax)
        numbers = state.numbers
        for token in outTokens:
            if token.type in ("dt_open", "inline") and token.map is not None and token.map[0] == token.map[1]:
                token.map[1] += 1  # the plug-in gives a term no line
            if token.map is not None and token.map[1] > token.map[0]:
                first, last = token.map[0], token.map[1] - 1
                token.map = [numbers[first], numbers[last] + 1]
                if token.type == "inline" and numbers[last] - numbers[first] > last - first:
                    token.meta["lines"] = numbers[first : last + 1]
        env["too_deep"] = [numbers[line] for line in env["too_deep"] if line < len(numbers)]
        return state.tokens


def _html_block(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """HTML other than comments, which have a rule of their own."""
    start = state.bMarks[line] + state.tShift[line]
    return not state.src.startswith(OPENING, start) and html_block(state, line, end_line, silent)


def _code_block(state: StateBlock, line: int, end_line: int, silent: bool) -> bool:
    """Four spaces begin computer code; below an item `(1)` they set in what belongs to it, as in Pandoc's lists."""
    return not _belongs_to_item(state, line) and code(state, line, end_line, silent)


def _belongs_to_item(state: StateBlock, line: int) -> bool:
    indent = state.sCount[line] - state.blkIndent
    if (
        not _INDENT <= indent < 2 * _INDENT
        or len(state.tokens) < _PARAGRAPH
        or state.tokens[-1].type != "paragraph_close"
    ):
        return False
    before = state.tokens[-2]
    if before.map is None or before.level != state.level + 1:
        return False
    return _IN_BRACKETS.match(before.content) is not None or state.sCount[before.map[0]] - state.blkIndent >= _INDENT


def _with_attributes(rule: InlineRule) -> InlineRule:
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
    if state.src[start] != "[" or state.src.find("]{", start, maximum) < 0:
        return False
    label_end = state.md.helpers.parseLinkLabel(state, start)
    if label_end < 0 or not state.src.startswith("{", label_end + 1):
        return False
    braces = read_braces(state.src, label_end + 1)
    if braces is None or braces.end > maximum:
        return False
    if not silent:
        state.pos, state.posMax = start + 1, label_end
        state.push("span_open", "span", 1).meta["lang"] = braces.values.get("lang", "")
        state.md.inline.tokenize(state)
        state.push("span_close", "span", -1).meta["end"] = braces.end
    state.pos, state.posMax = braces.end, maximum
    return True


def _gap(state: StateInline, silent: bool) -> bool:
    """Four or more underscores are a gap to fill in and never emphasis, whatever stands around them; so in Pandoc."""
    match = _GAP.match(state.src, state.pos, state.posMax)
    if match is None:
        return False
    if not silent:
        state.append_pending(match[0])
    state.pos = match.end()
    return True


def _bracketed(rule: InlineRule) -> InlineRule:
    """No bracket closes here any more: say so at once (the rule would read to the end of the paragraph each time)."""

    def wrapped(state: StateInline, silent: bool) -> bool:
        if state.src[state.pos] not in "![" or state.src.find("]", state.pos, state.posMax) < 0:
            return False
        return rule(state, silent)

    return wrapped


@cache
def _parser() -> MarkdownIt:
    md = MarkdownIt("commonmark")
    md.inline, md.block = _ParserInline(), _ParserBlock()
    md.configure("commonmark", {"maxNesting": MAX_NESTING})
    md.enable(["table", "strikethrough"])
    md.use(deflist_plugin)
    md.inline.ruler2.disable("fragments_join")  # would merge text tokens and lose where they began
    md.normalizeLinkText = lambda link: link  # type: ignore[method-assign]
    md.block.ruler.at("code", _code_block)
    md.block.ruler.at("html_block", _html_block, {"alt": ["paragraph", "reference", "blockquote"]})
    md.block.ruler.before("html_block", "comment", comment_block, {"alt": ["paragraph", "reference", "blockquote"]})
    md.block.ruler.before("table", "drawn_table", drawn_table)
    md.block.ruler.before("table", "div", div_fence, {"alt": ["paragraph", "reference", "blockquote", "list"]})
    md.inline.ruler.before("emphasis", "gap", _gap)
    md.inline.ruler.at("backticks", _with_attributes(backtick))
    md.inline.ruler.at("autolink", _with_attributes(autolink))
    md.inline.ruler.at("link", _bracketed(_with_attributes(link)))
    md.inline.ruler.at("image", _bracketed(_with_attributes(image)))
    md.inline.ruler.after("link", "span", _span)
    md.inline.ruler.after("html_inline", "unclosed_comment", unclosed_comment)
    return md


def parse(source: Source, front_lines: int = 0) -> Document:
    """Read a file's blocks and inlines; its first ``front_lines`` lines are front matter."""
    text = _NEWLINES.sub("\n", source.text).replace("\0", "\ufffd")
    shift = _Shift(source, text)
    md = _parser()
    skip = set(range(front_lines))
    comments: list[Comment] = []
    unclosed: list[Span] = []
    env: dict[str, Any] = {"skip": skip}
    tokens: list[Token] = []
    md.block.parse(text, md, env, tokens)
    if OPENING in text:
        text, cut_up = _take_out(tokens, text, shift, skip, comments, unclosed)
        if cut_up:
            env, tokens = {"skip": skip}, []
            md.block.parse(text, md, env, tokens)
            _take_out(tokens, text, shift, set(), comments, unclosed)  # taking some out may have laid others bare
    tokens, open_divs, surplus = close_divs(tokens)
    for token in tokens:
        if "start" in token.meta:
            token.meta["start"] = shift(token.meta["start"])
        if token.type == "inline" and "drawn" in token.meta:
            token.meta["drawn"] = [shift(offset) for offset in token.meta["drawn"]]
    tie(tokens, source)
    too_long = []
    for token in tokens:
        if len(token.content) > LONGEST and token.map is not None:
            token.content = token.content[:LONGEST]
            too_long.append(source.line_span(token.map[0] + 1))
        if token.type == "inline" or (token.type == "html_block" and not _SILENT_HTML.match(token.content.lstrip())):
            token.children = md.inline.parse(token.content, md, env, [])
            closes = token.meta.get("closes")
            if closes and all(child.meta.get("end") != closes for child in token.children):
                take_attributes(token, even_after_brackets=True)  # no link or span took them
                token.children = md.inline.parse(token.content, md, env, [])
    too_deep = [source.line_span(line + 1) for line in env["too_deep"]]
    return Document(tokens, comments, unclosed, open_divs, surplus, too_deep, too_long)


class _Shift:
    """From offsets into the text with plain line feeds to offsets into the file, and to lines (0-based)."""

    def __init__(self, source: Source, text: str) -> None:
        self.same = len(source.text) == len(text)
        self.starts = source.line_starts
        self.plain = self.starts if self.same else (0, *(match.end() for match in re.finditer("\n", text)))

    def __call__(self, offset: int) -> int:
        if self.same:
            return offset
        line = self.line(offset)
        return self.starts[line] + offset - self.plain[line]

    def line(self, offset: int) -> int:
        return bisect_right(self.plain, offset) - 1

    def line_text(self, text: str, line: int) -> str:
        """A line of the text with plain line feeds."""
        if line >= len(self.plain):
            return ""
        return text[self.plain[line] : self.plain[line + 1] if line + 1 < len(self.plain) else len(text)]


def _take_out(
    tokens: list[Token], text: str, shift: _Shift, skip: set[int], comments: list[Comment], unclosed: list[Span]
) -> tuple[str, bool]:
    """Blank the comments that have their lines to themselves; take out their lines altogether inside a table.

    Between lettered lines, too: they are one list. Says whether the blocks must be read again, because a comment may
    have cut one in two.
    """
    pieces: list[str] = []
    cut_up = False
    done = 0
    rows = -1  # a table goes on from this line, as long as lines hold pipes
    for index, token in enumerate(tokens):
        if token.type not in (HTML_COMMENT, UNCLOSED_COMMENT):
            continue
        start, end = token.meta["start"], token.meta["end"]
        pieces += [text[done:start], re.sub(r"[^\n]", " ", text[start:end])]
        done = end
        span = Span(shift(start), shift(end))
        if token.type == UNCLOSED_COMMENT:
            unclosed.append(span)
            cut_up = True
            continue
        lines = (shift.line(start), shift.line(end) + 1)
        comments.append(Comment(span, text[start:end], lines))
        above = tokens[index - 1] if index else None
        cut_up = cut_up or (above is not None and above.type in _CUT_BY_COMMENTS)
        if above is not None and above.type == "table_close" and shift.line_text(text, lines[0] - 1).strip(" \t\n>"):
            rows = lines[0]
        if _OPTION.match(shift.line_text(text, lines[0] - 1)) and _OPTION.match(shift.line_text(text, lines[1])):
            skip.update(range(*lines))
            cut_up = True
        if rows >= 0 and all("|" in shift.line_text(text, line) for line in range(rows, lines[0])):
            after = shift.line_text(text, lines[1]).lstrip(" \t>")
            if "|" in after or after.startswith(OPENING):
                skip.update(range(*lines))
                rows = lines[1]
                continue
        rows = -1
    return "".join([*pieces, text[done:]]), cut_up
