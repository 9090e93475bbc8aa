"""Where the reader stands while it walks over a file: in which divs, list, table, song; and where passages go."""

from dataclasses import dataclass, field, replace

from markdown_it.token import Token

from lint_rules.manuscript.contents import Block, Contents, InnerComment, OpenField, Setting
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.inline_text import InlineText
from lint_rules.manuscript.model import Attributes, Audience, Cell, Div, DivKind, Item, Passage, Role
from lint_rules.source import Source, Span

_AUDIENCE = {
    DivKind.TEACHER: Audience.TEACHER,
    DivKind.AUDIO: Audience.LISTENER,
    DivKind.ANSWERS: Audience.KEY,
    DivKind.ART: Audience.ARTIST,
}
_DIV_KINDS = frozenset(kind.value for kind in DivKind)
SONGS = frozenset({"song", "chant"})


@dataclass(slots=True)
class OpenDiv:
    """A div while it is being read; ``kind``, ``audience`` and ``song`` hold for what stands in it."""

    index: int
    block: int  # index of its Block
    kind: DivKind  # of the innermost div that is more than a box on the page
    audience: Audience
    song: bool
    field: OpenField | None = None
    bare: bool = False  # the names of its fields are set off by their place alone
    headed: bool = False  # they stand alone in their paragraphs, in bold


@dataclass(slots=True)
class OpenList:
    """A list while it is being read."""

    number: int
    depth: int
    ordered: bool
    parent: tuple[int, int] | None = None
    items: int = 0
    item: Item | None = None
    item_span: Span = Span(0, 0)


@dataclass(slots=True)
class OpenTable:
    """A table while it is being read."""

    number: int
    span: Span
    row: int = -1
    column: int = -1
    head: bool = True
    fields: dict[int, tuple[str, Span]] = field(default_factory=dict)  # names of fields that head columns of notes
    headed: bool = False  # a script whose first row heads its columns
    speaker: str = ""  # who speaks in this row of a script
    rows_named: bool = False  # rows of notes, each with the name of its field in front


@dataclass(slots=True)
class ReaderState:
    """Where the reader stands, and what it has read so far."""

    source: Source
    hidden: frozenset[int]  # lines (0-based) that hold nothing but comments
    decimals: bool = False  # several activities are numbered 1.2
    contents: Contents = field(default_factory=Contents)
    divs: list[OpenDiv] = field(default_factory=list)
    lists: list[OpenList] = field(default_factory=list)
    table: OpenTable | None = None
    quotes: int = 0
    term: bool = False  # in the term of a definition list
    defining: int = 0  # definitions that are open
    speaker: str = ""  # who speaks in the definitions of this term
    lists_made: int = 0
    lesson_song: bool = False
    song: bool = False
    last: str = ""  # what was just read, where the next block may depend on it: 'picture', 'table'
    furthest: int = 0  # where the last block read so far ends
    notes: list[OpenDiv] = field(default_factory=list)  # the teacher divs among ``divs``
    fields: list[OpenField] = field(default_factory=list)

    @property
    def kind(self) -> DivKind:
        """Kind of the innermost div that is more than a box on the page."""
        return self.divs[-1].kind if self.divs else DivKind.PAGE

    @property
    def item(self) -> Item | None:
        """The list item that is being read."""
        return self.lists[-1].item if self.lists else None

    @property
    def sung(self) -> bool:
        """Whether lines are sung here."""
        return self.song or bool(self.divs and self.divs[-1].song)

    def setting(self, block: Span) -> Setting:
        """What the surroundings tell of a text."""
        div = self.divs[-1] if self.divs else None
        cell = Cell(self.table.number, self.table.row, self.table.column) if self.table else None
        audience = div.audience if div else Audience.PUPIL
        return Setting(audience, block, div.index if div else None, self.item, cell)

    def lines_span(self, token: Token, start: int | None = None) -> Span:
        """Span of a block's lines, without empty ones and comments at its end; ``start`` is where it begins."""
        assert token.map is not None  # every block that opens has its lines
        first, last = token.map[0], max(token.map[1] - 1, token.map[0])
        while last > first and (last in self.hidden or not self.source.line_text(last + 1).strip(" \t>")):
            last -= 1
        begin = self.source.line_starts[first] if start is None else start
        return Span(begin, max(begin, self.source.line_span(last + 1).end))

    def note_block(self, kind: str, token: Token, start: int | None = None) -> Span:
        """Note a block, for the stets."""
        assert token.map is not None
        span = self.lines_span(token, start)
        self.contents.blocks.append(Block(kind, span, token.map[0]))
        self.furthest = max(self.furthest, span.end)
        return span

    def note_option(self, span: Span) -> None:
        """Note a lettered line as an item, for the stets."""
        self.contents.blocks.append(Block("item", span, self.source.position(span.start).line - 1))

    def note_comments(self, plain: InlineText, block: Span) -> None:
        """Note the comments inside a block: they stand in the item or the table around it, else in the block."""
        if self.table is not None:
            block = self.table.span
        elif self.lists and self.lists[-1].item is not None:
            block = self.lists[-1].item_span
        for span, text in plain.comments:
            self.contents.comments.append(InnerComment(span, text, block))

    def add(self, passage: Passage | None) -> None:
        """Take a passage in; in teacher's notes it goes to the field that is open, an artist gets a brief."""
        if passage is None:
            return
        if passage.audience is Audience.TEACHER and passage.role is not Role.TITLE:
            opened = self.notes[-1].field
            if opened is None:
                passage = replace(passage, role=Role.NOTE)
            else:
                audience = Audience.KEY if field_key(opened.name) == "answer" else Audience.TEACHER
                passage = replace(passage, role=Role.FIELD, field=opened.name, audience=audience)
                opened.passages.append(passage)
                opened.end = max(opened.end, passage.ends[-1])
        elif passage.audience is Audience.ARTIST and passage.role is not Role.ALT:
            passage = replace(passage, role=Role.BRIEF)
        self.contents.passages.append(passage)
        self.contents.pictures += passage.pictures

    def begin_field(self, name: str, name_span: Span, end: int) -> None:
        """Begin a field of the teacher's notes."""
        opened = OpenField(name, name_span, end)
        self.fields.append(opened)
        self.notes[-1].field = opened

    def end_field(self) -> None:
        """What follows in the teacher's notes belongs to no field."""
        self.notes[-1].field = None

    def open_div(self, attributes: Attributes, opening: Span, line: int) -> None:
        """Step into a div."""
        outer = self.divs[-1] if self.divs else None
        own = next((DivKind(name) for name in attributes.classes if name in _DIV_KINDS), DivKind.PAGE)
        kind = outer.kind if outer and own is DivKind.PAGE else own
        audience = _AUDIENCE.get(own, outer.audience if outer else Audience.PUPIL)
        song = bool(outer and outer.song) or bool(SONGS.intersection(attributes.classes))
        self.contents.divs.append(Div(own, attributes, opening, opening, outer.index if outer else None))
        self.contents.blocks.append(Block("div", opening, line))
        if self.notes and self.notes[-1].field is not None and self.notes[-1].field.passages:
            self.end_field()  # a box inside the notes begins something else
        self.divs.append(OpenDiv(len(self.contents.divs) - 1, len(self.contents.blocks) - 1, kind, audience, song))
        if own is DivKind.TEACHER:
            self.notes.append(self.divs[-1])
        self.furthest = max(self.furthest, opening.end)

    def close_div(self, end: int | None) -> None:
        """Step out of a div; without an end of its own it ends with the last thing that stands in it."""
        closed = self.divs.pop()
        if self.notes and self.notes[-1] is closed:
            self.notes.pop()
        self.furthest = max(self.furthest, end or 0)
        div = self.contents.divs[closed.index]
        span = Span(div.opening.start, self.furthest)
        self.contents.divs[closed.index] = replace(div, span=span)
        self.contents.blocks[closed.block] = replace(self.contents.blocks[closed.block], span=span)

    def next_list(self) -> int:
        """Number of a new list within the unit."""
        self.lists_made += 1
        return self.lists_made
