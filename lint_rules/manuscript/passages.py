"""From Markdown's tokens to passages: who each text is for and what it is on the page."""

import re
from array import array
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from markdown_it.token import Token

from lint_rules.manuscript import cut
from lint_rules.manuscript.contents import (
    Block,
    Contents,
    OpenDiv,
    OpenField,
    Setting,
    cut_passage,
    empty_passage,
)
from lint_rules.manuscript.markdown import Document
from lint_rules.manuscript.model import (
    PICTURE,
    Attributes,
    Audience,
    Cell,
    Div,
    DivKind,
    Heading,
    Item,
    Passage,
    Picture,
    Role,
)
from lint_rules.manuscript.plain import Plain, placed_braces, read_plain
from lint_rules.source import Source, Span

_AUDIENCE = {
    DivKind.TEACHER: Audience.TEACHER,
    DivKind.AUDIO: Audience.LISTENER,
    DivKind.ANSWERS: Audience.KEY,
    DivKind.ART: Audience.ARTIST,
}
_DIV_KINDS = frozenset(kind.value for kind in DivKind)
_SONGS = {"song", "chant"}
_LESSON_NUMBER = re.compile(r"(?i)(?:lesson|unit)\s+(?:[0-9]+[a-z]?|[ivx]+|[a-z])\s*(?:[:.)]|[-–—](?=\s)|$)\s*")
_ACTIVITY_NUMBER = re.compile(r"(?:(?i:activity|exercise|task)\s+)?[0-9]{1,3}[a-z]?(?:[.):](?=\s|$)|(?=\s|$))\s*")
_TABLE_CAPTION = re.compile(r"(?:Table)?:\s+(?=\S)")


@dataclass(slots=True)
class _List:
    number: int
    depth: int
    ordered: bool
    next: int = 0
    parent: tuple[int, int] | None = None
    item: Item | None = None


@dataclass(slots=True)
class _Table:
    number: int
    row: int = -1
    column: int = 0
    head: bool = True


@dataclass(slots=True)
class Reader:
    """Walks over the tokens of one file and fills its Contents."""

    source: Source
    contents: Contents = field(default_factory=Contents)
    divs: list[OpenDiv] = field(default_factory=list)
    lists: list[_List] = field(default_factory=list)
    table: _Table | None = None
    quotes: int = 0
    lists_made: int = 0
    tables_made: int = 0
    song: bool = False
    lesson_song: bool = False
    last: str = ""  # kind of the block just read: 'picture', 'table', …
    heading: Token | None = None

    def read(self, document: Document) -> Contents:
        """Walk over all tokens."""
        for token in document.tokens:
            handle = _HANDLERS.get(token.type)
            if handle is not None:
                handle(self, token)
        self.contents.fields = [
            entry.closed() if isinstance(entry, OpenField) else entry for entry in self.contents.fields
        ]
        return self.contents

    # --- where we are

    @property
    def kind(self) -> DivKind:
        """Kind of the innermost div that is not just a box on the page."""
        return next((div.kind for div in reversed(self.divs) if div.kind is not DivKind.PAGE), DivKind.PAGE)

    def audience(self) -> Audience:
        """Who reads what stands here."""
        return next((_AUDIENCE[div.kind] for div in reversed(self.divs) if div.kind in _AUDIENCE), Audience.PUPIL)

    def setting(self, block: Span) -> Setting:
        """What the surroundings tell of a text."""
        item = self.lists[-1].item if self.lists else None
        cell = Cell(self.table.number, self.table.row, self.table.column) if self.table else None
        return Setting(self.audience(), block, self.divs[-1].index if self.divs else None, item, cell)

    def lines_span(self, token: Token, start: int | None = None) -> Span:
        """Span of a block's lines, without empty ones at its end."""
        assert token.map is not None
        first, last = token.map[0], max(token.map[1] - 1, token.map[0])
        while last > first and not self.source.line_text(last + 1).strip(" \t>"):
            last -= 1
        begin = self.source.line_starts[first] if start is None else start
        return Span(begin, max(begin, self.source.line_span(last + 1).end))

    def block(self, kind: str, token: Token, start: int | None = None) -> Span:
        """Note a block, for the stets."""
        assert token.map is not None
        span = self.lines_span(token, start)
        self.contents.blocks.append(Block(kind, span, token.map[0]))
        return span

    def add(self, passage: Passage | None) -> None:
        """Take a passage in; in teacher's notes it goes to the field that is open."""
        if passage is None:
            return
        if passage.audience is Audience.TEACHER:
            opened = self.open_field()
            if opened is not None and passage.role is not Role.TITLE:
                passage = replace(passage, role=Role.FIELD, field=opened.name, field_span=opened.name_span)
                opened.passages.append(passage)
                opened.end = max(opened.end, passage.span().end)
            elif passage.role is not Role.TITLE:
                passage = replace(passage, role=Role.NOTE)
        elif passage.audience is Audience.ARTIST and passage.role is not Role.ALT:
            passage = replace(passage, role=Role.BRIEF)
        self.contents.passages.append(passage)
        self.contents.pictures += passage.pictures

    def open_field(self) -> OpenField | None:
        """The field of the teacher's notes that is open here."""
        return next((div.field for div in reversed(self.divs) if div.kind is DivKind.TEACHER), None)

    # --- blocks

    def open_div(self, token: Token) -> None:
        braces = token.meta["braces"]
        opening = self.lines_span(token, token.meta["start"])
        kind = next((DivKind(name) for name in braces.classes if name in _DIV_KINDS), DivKind.PAGE)
        brace = self.source.text.find("{", opening.start, opening.end)
        where = Span(brace, self.source.text.rfind("}", brace, opening.end) + 1) if brace >= 0 else opening
        parent = self.divs[-1].index if self.divs else None
        attributes = braces.placed(where)
        self.contents.divs.append(Div(kind, attributes, opening, opening, parent))
        self.divs.append(OpenDiv(len(self.contents.divs) - 1, kind, attributes, opening, parent))
        assert token.map is not None
        self.contents.blocks.append(Block("div", opening, token.map[0]))
        self.divs[-1].block = len(self.contents.blocks) - 1
        self.last = ""

    def close_div(self, token: Token) -> None:
        opened = self.divs.pop()
        end = self.lines_span(token).end if token.map is not None else self.end_of_text(opened)
        span = Span(opened.opening.start, max(end, opened.opening.end))
        self.contents.divs[opened.index] = replace(self.contents.divs[opened.index], span=span)
        before = self.contents.blocks[opened.block]
        self.contents.blocks[opened.block] = Block("div", span, before.line)
        self.last = ""

    def end_of_text(self, opened: OpenDiv) -> int:
        """Where an unclosed div ends: with the last thing that stands in it."""
        inside = [block.span.end for block in self.contents.blocks[opened.block :]]
        return max(inside)

    def open_list(self, token: Token) -> None:
        self.block("list", token)
        outer = self.lists[-1].item if self.lists else None
        self.lists_made += 1
        self.lists.append(
            _List(
                self.lists_made,
                len(self.lists),
                token.type == "ordered_list_open",
                parent=(outer.list, outer.index) if outer else None,
            )
        )
        self.last = ""

    def close_list(self, token: Token) -> None:
        self.lists.pop()
        self.last = "list"

    def open_item(self, token: Token) -> None:
        now = self.lists[-1]
        start = token.meta["start"]
        self.block("item", token, start)
        label = token.info if now.ordered else ""
        now.item = Item(now.number, now.next, label, now.depth, now.parent, Span(start, start + len(label)))
        now.next += 1

    def open_quote(self, token: Token) -> None:
        self.block("quote", token)
        self.quotes += 1

    def close_quote(self, token: Token) -> None:
        self.quotes -= 1

    def open_table(self, token: Token) -> None:
        self.block("table", token)
        self.tables_made += 1
        self.table = _Table(self.tables_made)

    def close_table(self, token: Token) -> None:
        self.table = None
        self.last = "table"

    def open_row(self, token: Token) -> None:
        assert self.table is not None
        self.table.row += 1
        self.table.column = -1

    def open_cell(self, token: Token) -> None:
        assert self.table is not None
        self.table.column += 1
        self.table.head = token.type == "th_open"

    def open_heading(self, token: Token) -> None:
        self.heading = token

    def inline(self, token: Token) -> None:
        plain = read_plain(token)
        if self.heading is not None:
            heading, self.heading = self.heading, None
            self.read_heading(heading, token, plain)
        elif self.table is not None:
            self.read_cell(token, plain)
        else:
            self.read_paragraph(token, plain)

    def note_comments(self, plain: Plain, block: Span) -> None:
        for span, text in plain.comments:
            self.contents.comments.append((span, text, block))

    # --- headings

    def read_heading(self, opening: Token, token: Token, plain: Plain) -> None:
        level = int(opening.tag[1])
        span = self.block("heading", opening, opening.meta.get("start"))
        self.note_comments(plain, span)
        places = token.meta["places"]
        if token.meta.get("braces") is not None:
            attributes = placed_braces(token.meta["braces"], token.meta["braces_start"], places)
        else:
            at = places.end(len(token.content))
            attributes = Attributes(Span(at, at))
        structural = level <= 3 and not self.lists and not self.quotes and self.kind is DivKind.PAGE
        if not structural:
            self.add(cut_passage(plain, 0, plain.length, Role.TITLE, self.setting(span)))
            self.last = ""
            return
        roles = {1: Role.UNIT_TITLE, 2: Role.LESSON_TITLE, 3: Role.INSTRUCTION}
        pattern = {2: _LESSON_NUMBER, 3: _ACTIVITY_NUMBER}.get(level)
        start, last = cut.trimmed(plain.text, 0, plain.length)
        number, number_span = "", Span(span.start, span.start)
        if pattern and (match := pattern.match(plain.text, start, last)) and match[0].strip():
            number = match[0].strip()
            number_span = Span(plain.starts[start], plain.ends[start + len(number) - 1])
            start = match.end() if match.end() < last else start
        passage = cut_passage(plain, start, last, roles[level], self.setting(span)) or empty_passage(
            roles[level], self.setting(span)
        )
        self.contents.headings.append(Heading(level, passage, span, attributes, number, number_span))
        if level == 2:
            self.lesson_song = bool(_SONGS.intersection(attributes.classes))
        self.song = self.lesson_song or bool(_SONGS.intersection(attributes.classes))
        self.last = ""

    # --- tables

    def read_cell(self, token: Token, plain: Plain) -> None:
        assert self.table is not None
        block = self.lines_span(token)
        setting = self.setting(block)
        for span, text in plain.comments:
            table = next(entry for entry in reversed(self.contents.blocks) if entry.kind == "table")
            self.contents.comments.append((span, text, table.span))
        role = Role.HEAD if self.table.head else Role.CELL
        if self.kind is DivKind.WORDS and role is Role.CELL:
            role = Role.PANEL
        if self.table.column == 0 and role is Role.CELL and (match := _TABLE_CAPTION.match(plain.text)):
            if "|" not in self.source.slice(block):  # Pandoc's caption, directly under the table
                role, setting = Role.CAPTION, replace(setting, cell=None)
                self.add(cut_passage(plain, match.end(), plain.length, role, setting))
                return
        self.add(cut_passage(plain, 0, plain.length, role, setting))

    # --- paragraphs

    def read_paragraph(self, token: Token, plain: Plain) -> None:
        span = self.block("paragraph", token, token.meta["places"].place(0))
        self.note_comments(plain, span)
        setting = self.setting(span)
        before, self.last = self.last, "paragraph"
        if self.read_pictures(plain, setting):
            return
        kind = self.kind
        if kind is DivKind.TEACHER:
            self.read_notes(plain, setting)
        elif kind is DivKind.ART:
            self.add(cut_passage(plain, 0, plain.length, Role.BRIEF, setting))
        elif kind is DivKind.WORDS:
            for piece in cut.entries(plain):
                self.add(cut_passage(plain, piece.start, piece.end, Role.PANEL, setting))
        elif before == "picture" and _all_in(plain, plain.emphasis):
            self.add(cut_passage(plain, 0, plain.length, Role.CAPTION, setting))
        elif before == "table" and (match := _TABLE_CAPTION.match(plain.text)):
            self.add(cut_passage(plain, match.end(), plain.length, Role.CAPTION, setting))
        else:
            self.read_text(plain, setting, kind)

    def read_pictures(self, plain: Plain, setting: Setting) -> bool:
        """An image alone in its paragraph is a picture of its own; a caption may stand under it."""
        if len(plain.pictures) != 1 or setting.item is not None:
            return False
        picture = plain.pictures[0]
        rest = plain.text.replace(PICTURE, "", 1).strip()
        caption = (
            picture.at + 1 in plain.breaks
            and not plain.text[: picture.at].strip()
            and _all_in(plain, [*plain.emphasis, (picture.at, picture.at + 1)])
        )
        if rest and not caption:
            return False
        self.contents.pictures.append(replace(picture, at=-1))
        if picture.alt:
            self.contents.passages.append(_alt(picture, replace(setting, audience=Audience.ARTIST)))
        if rest:
            self.add(cut_passage(plain, picture.at + 1, plain.length, Role.CAPTION, setting))
        self.last = "picture" if not rest else "paragraph"
        return True

    def read_text(self, plain: Plain, setting: Setting, kind: DivKind) -> None:
        """Running text: turns, lettered lines, song lines, or just a paragraph."""
        if self.read_turns(plain, setting, kind):
            return
        role = Role.TEXT if setting.item is None else Role.ITEM
        pieces = cut.options(plain)
        if pieces is not None:
            self.read_options(plain, pieces, setting, role)
        elif setting.item is None and kind is not DivKind.ANSWERS and self.in_song():
            for start, end in cut.lines(plain):
                self.add(cut_passage(plain, start, end, Role.LINE, setting))
        else:
            self.add(cut_passage(plain, 0, plain.length, role, setting))

    def in_song(self) -> bool:
        """Whether lines are sung here."""
        return self.song or any(_SONGS.intersection(div.attributes.classes) for div in self.divs)

    def read_turns(self, plain: Plain, setting: Setting, kind: DivKind) -> bool:
        """A paragraph that begins with a speaker; every line that does begins a turn."""
        turns: list[cut.Piece] = []
        for start, end in cut.lines(plain):
            piece = cut.bold_label(plain, start, end)
            if piece is not None and not cut.is_name(piece.label):
                piece = None
            if piece is None and kind is DivKind.AUDIO:
                piece = cut.plain_speaker(plain, start, end)
            if piece is not None:
                turns.append(piece)
        if not turns:
            return False
        role = Role.TEXT if setting.item is None else Role.ITEM
        self.add(cut_passage(plain, 0, turns[0].label_start, role, setting))
        for turn, following in zip(turns, [*turns[1:], None], strict=True):
            end = following.label_start if following else plain.length
            speaker = (turn.label, Span(plain.starts[turn.label_start], plain.ends[turn.label_end - 1]))
            self.add(cut_passage(plain, turn.start, end, Role.TURN, setting, speaker))
        return True

    def read_options(self, plain: Plain, pieces: list[cut.Piece], setting: Setting, role: Role) -> None:
        """Lettered lines: a list of their own, inside the item they stand in."""
        outer = setting.item
        self.lists_made += 1
        index = 0
        for piece in pieces:
            if not piece.label:
                self.add(cut_passage(plain, piece.start, piece.end, role, setting))
                continue
            item = Item(
                list=self.lists_made,
                index=index,
                label=piece.label,
                depth=outer.depth + 1 if outer else 0,
                parent=(outer.list, outer.index) if outer else None,
                label_span=Span(plain.starts[piece.label_start], plain.ends[piece.label_end - 1]),
            )
            index += 1
            self.add(cut_passage(plain, piece.start, piece.end, Role.ITEM, replace(setting, item=item)))

    def read_notes(self, plain: Plain, setting: Setting) -> None:
        """Teacher's notes: a line that begins in bold with a colon begins a field."""
        start = 0
        for first, last in cut.lines(plain):
            label = cut.bold_label(plain, first, last)
            if label is None:
                continue
            self.add(cut_passage(plain, start, label.label_start, Role.NOTE, setting))
            name_span = Span(plain.starts[label.label_start], plain.ends[label.label_end - 1])
            opened = OpenField(label.label, name_span, plain.ends[label.start - 1])
            self.contents.fields.append(opened)
            for div in reversed(self.divs):
                if div.kind is DivKind.TEACHER:
                    div.field = opened
                    break
            start = label.start
        self.add(cut_passage(plain, start, plain.length, Role.NOTE, setting))

    # --- code and HTML

    def code(self, token: Token) -> None:
        span = self.block("code", token)
        plain = Plain()
        text = token.content.removesuffix("\n")
        plain.put(text, 0, token.meta["places"])
        self.add(cut_passage(plain, 0, plain.length, Role.CODE, self.setting(span)))
        self.last = ""

    def rule(self, token: Token) -> None:
        self.block("rule", token)
        self.last = ""


def _all_in(plain: Plain, ranges: list[tuple[int, int]]) -> bool:
    """Whether all of a text (white space apart) lies in these ranges, and there is some."""
    left = list(plain.text)
    for start, end in ranges:
        left[start:end] = " " * (end - start)
    return bool(plain.emphasis) and not "".join(left).strip()


def _alt(picture: Picture, setting: Setting) -> Passage:
    """The alternative text of a picture as a passage."""
    start = picture.alt_span.start
    return Passage(
        picture.alt,
        array("l", range(start, start + len(picture.alt))),
        array("l", range(start + 1, start + len(picture.alt) + 1)),
        setting.audience,
        Role.ALT,
        setting.block,
        div=setting.div,
    )


_HANDLERS: dict[str, Callable[[Reader, Token], None]] = {
    "div_open": Reader.open_div,
    "div_close": Reader.close_div,
    "bullet_list_open": Reader.open_list,
    "ordered_list_open": Reader.open_list,
    "bullet_list_close": Reader.close_list,
    "ordered_list_close": Reader.close_list,
    "list_item_open": Reader.open_item,
    "blockquote_open": Reader.open_quote,
    "blockquote_close": Reader.close_quote,
    "table_open": Reader.open_table,
    "table_close": Reader.close_table,
    "tr_open": Reader.open_row,
    "th_open": Reader.open_cell,
    "td_open": Reader.open_cell,
    "heading_open": Reader.open_heading,
    "inline": Reader.inline,
    "fence": Reader.code,
    "code_block": Reader.code,
    "hr": Reader.rule,
}
