"""Walk over Markdown's tokens and sort out who each text is for and where it stands."""

import re
from collections.abc import Callable

from markdown_it.token import Token

from lint_rules.manuscript.contents import Contents, cut_passage
from lint_rules.manuscript.markdown import Document
from lint_rules.manuscript.model import Item, Problem, Role
from lint_rules.manuscript.paragraphs import read_cell, read_heading, read_paragraph
from lint_rules.manuscript.places import Places
from lint_rules.manuscript.plain import Plain, read_plain
from lint_rules.manuscript.scene import OpenList, OpenTable, Scene
from lint_rules.source import Source, Span

_WRITING_LINE = re.compile(r"(?<![^\s>])_{3,}(?=\s*\Z)")
UNCLOSED_COMMENT = "This comment is not closed: what follows it would vanish. End it with -->."


def read_contents(source: Source, document: Document) -> Contents:
    """Everything a file holds, in file order."""
    hidden = frozenset(line for comment in document.comments for line in range(*comment.lines))
    scene = Scene(source, hidden)
    opening: Token | None = None
    for token in document.tokens:
        if token.type == "heading_open":
            opening = token
        elif token.type == "inline":
            _inline(scene, opening, token)
            opening = None
        elif (handle := _HANDLERS.get(token.type)) is not None:
            handle(scene, token)
    contents = scene.contents
    contents.fields = [opened.closed() for opened in scene.fields]
    return contents


def _inline(scene: Scene, heading: Token | None, token: Token) -> None:
    plain = read_plain(token)
    for span in plain.unclosed:
        scene.contents.problems.append(Problem(span, UNCLOSED_COMMENT))
    if heading is not None:
        read_heading(scene, heading, token, plain)
        scene.last = ""
    elif scene.table is not None:
        read_cell(scene, token, plain)
    else:
        read_paragraph(scene, token, plain)


def _open_div(scene: Scene, token: Token) -> None:
    opening = scene.lines_span(token, token.meta["start"])
    line = scene.source.slice(opening)
    brace = line.find("{")
    start = opening.start + (brace if brace >= 0 else len(line) - len(line.lstrip(": \t")))
    end = opening.start + (line.rfind("}") + 1 or len(line.rstrip(": \t")))
    assert token.map is not None
    scene.open_div(token.meta["braces"].placed(Span(start, max(start, end))), opening, token.map[0])
    scene.last = ""


def _close_div(scene: Scene, token: Token) -> None:
    scene.close_div(scene.lines_span(token).end if token.map is not None else None)
    scene.last = ""


def _open_list(scene: Scene, token: Token) -> None:
    scene.note_block("list", token)
    outer = scene.item
    parent = (outer.list, outer.index) if outer else None
    ordered = token.type == "ordered_list_open"
    scene.lists.append(OpenList(scene.next_list(), outer.depth + 1 if outer else 0, ordered, parent))
    scene.last = ""


def _close_list(scene: Scene, token: Token) -> None:
    scene.lists.pop()
    scene.last = ""


def _open_item(scene: Scene, token: Token) -> None:
    now = scene.lists[-1]
    start = token.meta["start"]
    now.item_span = scene.note_block("item", token, start)
    label = token.info if now.ordered else ""
    now.item = Item(now.number, now.items, label, now.depth, now.parent, Span(start, start + len(label)))
    now.items += 1
    scene.last = ""


def _open_quote(scene: Scene, token: Token) -> None:
    scene.note_block("quote", token)
    scene.quotes += 1
    scene.last = ""


def _close_quote(scene: Scene, token: Token) -> None:
    scene.quotes -= 1


def _open_table(scene: Scene, token: Token) -> None:
    span = scene.note_block("table", token)
    scene.contents.tables.append(span)
    scene.table = OpenTable(len(scene.contents.tables), span)


def _close_table(scene: Scene, token: Token) -> None:
    scene.table = None
    scene.last = "table"


def _open_row(scene: Scene, token: Token) -> None:
    if scene.table is not None:
        scene.table.row += 1
        scene.table.column = -1


def _open_cell(scene: Scene, token: Token) -> None:
    if scene.table is not None:
        scene.table.column += 1
        scene.table.head = token.type == "th_open"


def _code(scene: Scene, token: Token) -> None:
    span = scene.note_block("code", token)
    plain = Plain()
    plain.put(token.content.removesuffix("\n"), 0, token.meta["places"])
    scene.add(cut_passage(plain, 0, plain.length, Role.CODE, scene.setting(span)))
    scene.last = ""


def _html(scene: Scene, token: Token) -> None:
    if token.children is not None:  # the text between tags is read by people, too
        read_paragraph(scene, token, read_plain(token))


def _rule(scene: Scene, token: Token) -> None:
    """A line across the page; one of underscores is a line to write on: a gap on its own."""
    span = scene.note_block("rule", token)
    scene.last = ""
    underscores = _WRITING_LINE.search(scene.source.slice(span))
    if underscores is not None:
        plain, places = Plain(), Places()
        places.add(0, span.start + underscores.start(), span.start)
        plain.put(underscores[0], 0, places)
        role = Role.TEXT if scene.item is None else Role.ITEM
        scene.add(cut_passage(plain, 0, plain.length, role, scene.setting(span)))


_HANDLERS: dict[str, Callable[[Scene, Token], None]] = {
    "div_open": _open_div,
    "div_close": _close_div,
    "bullet_list_open": _open_list,
    "ordered_list_open": _open_list,
    "bullet_list_close": _close_list,
    "ordered_list_close": _close_list,
    "list_item_open": _open_item,
    "blockquote_open": _open_quote,
    "blockquote_close": _close_quote,
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
