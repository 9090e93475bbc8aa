"""Walk over Markdown's tokens and sort out who each text is for and where it stands."""

import re
from collections.abc import Callable

from markdown_it.token import Token

from lint_rules import lazy_re
from lint_rules.manuscript.contents import Contents, cut_passage
from lint_rules.manuscript.inline_text import InlineText, read_plain
from lint_rules.manuscript.markdown import Document
from lint_rules.manuscript.model import Item, Problem, Role
from lint_rules.manuscript.paragraphs import read_cell, read_heading, read_paragraph, read_term
from lint_rules.manuscript.reader_state import OpenList, OpenTable, ReaderState
from lint_rules.manuscript.source_map import SourceMap
from lint_rules.source import Source, Span

_WRITING_LINE = lazy_re.compile(r"(?<![^\s>])_{3,}(?=\s*\Z)")
_INDENTED = (
    "This text begins with four spaces, so it is printed as computer code and no rule reads it. Take the spaces out."
)
_FENCED = (
    "This is printed as computer code, and no rule reads it. Write it as ordinary text, "
    "or let it stand if it is no text (a grid of letters, say)."
)
_NOT_READ = "What stands in “{}” is not read, whatever it puts on the page. Write it as ordinary text."
_HTML = (
    "hornbook does not read what HTML does on the page: “{}” may hide or change what was checked. "
    "Write it in Markdown, or let it stand with a reason."
)
# Tags that neither hide nor change what is read, where they have no attributes.
_PLAIN_TAG = lazy_re.compile(
    r"(?i)</?(?:br|wbr|hr|b|i|em|strong|u|s|del|ins|sub|sup|small|mark|kbd|p|div|span|center)\s*/?>"
)
_STROKES = lazy_re.compile(r"[\s|+/\\_=<>^-]+|[\s\u2500-\u257f]+")
_PROSE = lazy_re.compile(r"(?<![^\W\d_])[^\W\d_]+[,;:]? [^\W\d_]+[,;:]? [^\W\d_]+")  # three words in a row
_WORD = lazy_re.compile(r"[^\W\d_]{2}")
_DECIMAL = lazy_re.compile(r"^### +(?:(?:activity|exercise|task) +)?\d{1,2}\.\d{1,3}[.:)]?\s", re.I | re.M)
_SEVERAL = 2  # headings that make a habit
UNCLOSED_COMMENT = "This comment is not closed: what follows it would vanish. End it with -->."


def read_contents(source: Source, document: Document) -> Contents:
    """Everything a file holds, in file order."""
    hidden = frozenset(line for comment in document.comments for line in range(*comment.lines))
    state = ReaderState(source, hidden, decimals=len(_DECIMAL.findall(source.text)) >= _SEVERAL)
    opening: Token | None = None
    for token in document.tokens:
        if token.type == "heading_open":
            opening = token
        elif token.type == "inline":
            _inline(state, opening, token)
            opening = None
        elif (handle := _HANDLERS.get(token.type)) is not None:
            handle(state, token)
    contents = state.contents
    contents.fields = [opened.closed() for opened in state.fields]
    return contents


def _inline(state: ReaderState, heading: Token | None, token: Token) -> None:
    plain = read_plain(token)
    for span in plain.unclosed:
        state.contents.problems.append(Problem(span, UNCLOSED_COMMENT))
    _note_html(state, plain)
    if heading is not None:
        read_heading(state, heading, token, plain)
        state.last = ""
    elif state.table is not None:
        read_cell(state, token, plain)
    elif state.term:
        read_term(state, token, plain)
    else:
        read_paragraph(state, token, plain)


def _open_div(state: ReaderState, token: Token) -> None:
    opening = state.lines_span(token, token.meta["start"])
    line = state.source.slice(opening)
    brace = line.find("{")
    start = opening.start + (brace if brace >= 0 else len(line) - len(line.lstrip(": \t")))
    end = opening.start + (line.rfind("}") + 1 or len(line.rstrip(": \t")))
    assert token.map is not None
    state.open_div(token.meta["braces"].placed(Span(start, max(start, end))), opening, token.map[0])
    state.last = ""


def _close_div(state: ReaderState, token: Token) -> None:
    state.close_div(state.lines_span(token).end if token.map is not None else None)
    state.last = ""


def _open_list(state: ReaderState, token: Token) -> None:
    state.note_block("list", token)
    outer = state.item
    parent = (outer.list, outer.index) if outer else None
    ordered = token.type == "ordered_list_open"
    state.lists.append(OpenList(state.next_list(), outer.depth + 1 if outer else 0, ordered, parent))
    state.last = ""


def _close_list(state: ReaderState, token: Token) -> None:
    state.lists.pop()
    state.last = ""


def _open_item(state: ReaderState, token: Token) -> None:
    now = state.lists[-1]
    start = token.meta["start"]
    now.item_span = state.note_block("item", token, start)
    label = token.info if now.ordered else ""
    now.item = Item(now.number, now.items, label, now.depth, now.parent, Span(start, start + len(label)))
    now.items += 1
    state.last = ""


def _open_quote(state: ReaderState, token: Token) -> None:
    state.note_block("quote", token)
    state.quotes += 1
    state.last = ""


def _close_quote(state: ReaderState, token: Token) -> None:
    state.quotes -= 1


def _term(state: ReaderState, token: Token) -> None:
    state.term = token.nesting > 0
    state.speaker = "" if state.term else state.speaker


def _definition(state: ReaderState, token: Token) -> None:
    state.defining += token.nesting
    state.last = ""


def _open_table(state: ReaderState, token: Token) -> None:
    span = state.note_block("table", token)
    state.contents.tables.append(span)
    state.table = OpenTable(len(state.contents.tables), span)


def _close_table(state: ReaderState, token: Token) -> None:
    state.table = None
    state.last = "table"


def _open_row(state: ReaderState, token: Token) -> None:
    if state.table is not None:
        state.table.row += 1
        state.table.column = -1


def _open_cell(state: ReaderState, token: Token) -> None:
    if state.table is not None:
        state.table.column += 1
        state.table.head = token.type == "th_open"


def _code(state: ReaderState, token: Token) -> None:
    span = state.note_block("code", token)
    if _WORD.search(token.content) and not _is_drawn(token.content):
        fenced = token.type == "fence"
        said = _FENCED if fenced else _INDENTED
        state.contents.problems.append(Problem(_first_line(state, token), said, blocks=not fenced))
    plain = InlineText()
    plain.put(token.content.removesuffix("\n"), 0, token.meta["places"])
    state.add(cut_passage(plain, 0, plain.length, Role.CODE, state.setting(span)))
    state.last = ""


def _is_drawn(text: str) -> bool:
    """Whether a block is a drawing (a family tree, a plan): lines of strokes, names between them, and no sentence."""
    strokes = [line for line in text.splitlines() if line.strip() and _STROKES.fullmatch(line)]
    return len(strokes) > 1 and not _PROSE.search(text)


def _html(state: ReaderState, token: Token) -> None:
    if token.children is not None:  # the text between tags is read by people, too
        plain = read_plain(token)
        _note_html(state, plain)
        read_paragraph(state, token, plain)
    else:
        span = _first_line(state, token)
        said = _NOT_READ.format(_short(state.source.slice(span)))
        state.contents.problems.append(Problem(span, said))


def _note_html(state: ReaderState, plain: InlineText) -> None:
    """Raw HTML other than comments and a few plain tags."""
    for span, tag in plain.html:
        if tag.startswith(("<!", "<?")):
            state.contents.problems.append(Problem(span, _NOT_READ.format(_short(tag))))
        elif not tag.startswith("</") and not _PLAIN_TAG.fullmatch(tag):
            state.contents.problems.append(Problem(span, _HTML.format(_short(tag)), blocks=False))


def _first_line(state: ReaderState, token: Token) -> Span:
    assert token.map is not None
    return state.source.line_span(token.map[0] + 1)


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= 30 else f"{text[:29]}…"


def _rule(state: ReaderState, token: Token) -> None:
    """A line across the page; one of underscores is a line to write on: a gap on its own."""
    span = state.note_block("rule", token)
    state.last = ""
    underscores = _WRITING_LINE.search(state.source.slice(span))
    if underscores is not None:
        plain, places = InlineText(), SourceMap()
        places.add(0, span.start + underscores.start(), span.start)
        plain.put(underscores[0], 0, places)
        role = Role.TEXT if state.item is None else Role.ITEM
        state.add(cut_passage(plain, 0, plain.length, role, state.setting(span)))


_HANDLERS: dict[str, Callable[[ReaderState, Token], None]] = {
    "div_open": _open_div,
    "div_close": _close_div,
    "bullet_list_open": _open_list,
    "ordered_list_open": _open_list,
    "bullet_list_close": _close_list,
    "ordered_list_close": _close_list,
    "list_item_open": _open_item,
    "blockquote_open": _open_quote,
    "blockquote_close": _close_quote,
    "dt_open": _term,
    "dt_close": _term,
    "dd_open": _definition,
    "dd_close": _definition,
    "table_open": _open_table,
    "table_close": _close_table,
    "tr_open": _open_row,
    "th_open": _open_cell,
    "td_open": _open_cell,
    "fence": _code,
    "code_block": _code,
    "html_block": _html,
    "hr": _rule,
}
