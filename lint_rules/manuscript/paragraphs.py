"""From a block's plain text to passages: what a paragraph, a heading or a cell is on the page, by where it stands."""

from bisect import bisect_left
from dataclasses import replace

from markdown_it.token import Token

from lint_rules import lazy_re
from lint_rules.manuscript import paragraph_split
from lint_rules.manuscript.attributes import broken_braces
from lint_rules.manuscript.contents import InnerComment, Setting, cut_passage, empty_passage
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.inline_text import InlineText, placed_braces
from lint_rules.manuscript.model import PICTURE, POINT, Audience, DivKind, Heading, Item, Problem, Role
from lint_rules.manuscript.reader_state import SONGS, OpenTable, ReaderState
from lint_rules.manuscript.turns import plain_role, read_spoken_cell, read_turns
from lint_rules.source import Span

_NUMBER_WORDS = "(?i:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_SHORT_LESSON = (
    r"(?:L ?[0-9]{1,2}(?:[:.)]|\s+[-–—])|[0-9]{1,2}(?:[:.)]|\s+[-–—])?(?=\s+[A-Z]))\s+"  # L3: …, 3 Have you …
)
_LESSON_NUMBER = lazy_re.compile(
    rf"{_SHORT_LESSON}|(?i:lesson)\s+(?:[0-9]+[a-z]?|[A-Z]|[ivx]+|{_NUMBER_WORDS})\s*(?:[:.)]|[-–—](?=\s)|(?=\s*$))\s*"
)
_BEHIND_NUMBER = r"[0-9]{1,3}[a-z]?(?:[.):](?=\s|$)|(?=\s|$))(?:\s*[-–—](?=\s))?\s*"
_ACTIVITY_NUMBER = lazy_re.compile(rf"(?:(?i:activity|exercise|task)\s+)?{_BEHIND_NUMBER}")
# Where several activities are numbered so: 1.2 Match the halves; alone it is a time, an amount (2.5 kilos of apples).
_OF_TWO_PARTS = lazy_re.compile(rf"(?:(?i:activity|exercise|task)\s+)?(?:[0-9]{{1,2}}\.)?{_BEHIND_NUMBER}")
_UNIT_NUMBER = lazy_re.compile(rf"(?i:unit)\s+(?:[0-9]+|{_NUMBER_WORDS})\s*(?:[:.)]|[-–—](?=\s))\s*")
_ACTIVITY = 3  # the level of its heading
_NUMBER = {1: _UNIT_NUMBER, 2: _LESSON_NUMBER, 3: _ACTIVITY_NUMBER}
_HEADING_ROLE = {1: Role.UNIT_TITLE, 2: Role.LESSON_TITLE, 3: Role.INSTRUCTION}
_BROKEN_BRACES = (
    "These braces cannot be read, so they would be printed as text."
    " Write {.class key=value}: a point before each class, quotation marks around a value with spaces."
)
_NO_POINT = "Put a point before “{0}”, as before every kind: `.{0}`. Without it these braces are printed as text."
_FEW_WORDS = 5  # of the name of a field that a house has for itself
_GOES_ON = lazy_re.compile(
    r"[.;!?]\s+(?=[A-Z])[^\n]*\b(?i:activity|activities|children|pupils|students|track|minutes?|class)\b"
)
_TIME_ALONE = lazy_re.compile(
    r"\s*(?:about |some |ca\.? )?[\w–-]{1,8}\s*(?:minutes?|mins?\.?|['′’])(?: in all)?\.?\s+"
    r"(?=[A-Z][\w’']*(?: [\w’',-]+){3})(?!(?:[^.]* )?(?:minutes?\b|[0-9]+\s*[,;.]))"
)
_TABLE_CAPTION = lazy_re.compile(r"(?:[Tt]able)?:\s+(?=\S)")


def read_heading(state: ReaderState, opening: Token, token: Token, plain: InlineText) -> None:
    """A heading of the unit, a lesson or an activity; anywhere else, or further down, a title."""
    level = int(opening.tag[1])
    places = token.meta["places"]
    span = state.note_block("heading", opening, opening.meta["start"])
    state.note_comments(plain, span)
    if state.kind is DivKind.TEACHER and (name := paragraph_split.usual_field(plain.text)):
        state.begin_field(name, Span(plain.starts[0], plain.ends[-1]), plain.ends[-1])
        return
    if level > 3 or state.lists or state.quotes or state.kind is not DivKind.PAGE:
        state.add(cut_passage(plain, 0, plain.length, Role.TITLE, state.setting(span)))
        return
    braces = token.meta.get("braces")
    attributes = placed_braces(braces, token.meta.get("braces_start", len(token.content)), places)
    start, end = paragraph_split.trimmed(plain.text, 0, plain.length)
    number, number_span = "", Span(span.start, span.start)
    pattern = _OF_TWO_PARTS if level == _ACTIVITY and state.decimals else _NUMBER.get(level)
    if pattern is not None and (match := pattern.match(plain.text, start, end)):
        number = match[0].strip()
        number_span = Span(plain.starts[start], plain.ends[start + len(number) - 1])
        start = match.end() if match.end() < end else start  # a number alone is all the title there is
    setting = state.setting(span)
    role = _HEADING_ROLE[level]
    passage = cut_passage(plain, start, end, role, setting) or empty_passage(role, setting)
    state.contents.headings.append(Heading(level, passage, span, attributes, number, number_span))
    for at, name in braces.bare if braces is not None else ():
        first = places.place(at)
        message = _NO_POINT.format(name)
        state.contents.problems.append(Problem(Span(first, first + len(name)), message, blocks=False, habit=POINT))
    sung = bool(SONGS.intersection(attributes.classes))
    if level < 3:
        state.lesson_song = sung and level == 2
    state.song = state.lesson_song or sung
    at = broken_braces(plain.text) if braces is None else None
    if at is not None:
        braces_span = Span(plain.starts[at], plain.ends[paragraph_split.trimmed(plain.text, at, plain.length)[1] - 1])
        state.contents.problems.append(Problem(braces_span, _BROKEN_BRACES, blocks=False))


_SHORT = frozenset({"aim", "grammar"})  # fields that are a line or two, never a table


def read_cell(state: ReaderState, token: Token, plain: InlineText) -> None:
    """A table's cell; in a words panel, entries; a line of its own that begins with a colon is the caption."""
    assert state.table is not None
    block = state.lines_span(token)
    state.note_comments(plain, block)
    setting = state.setting(block)
    opened = state.notes[-1].field if setting.audience is Audience.TEACHER else None
    if state.table.head and state.table.column == 0 and opened is not None and field_key(opened.name) in _SHORT:
        state.end_field()  # a plan below the aim and the grammar is neither
    if setting.audience is Audience.TEACHER and _names_field(state, state.table, plain):
        return
    if state.kind is DivKind.AUDIO and read_spoken_cell(state, state.table, plain, setting):
        return
    if state.table.head:
        state.add(cut_passage(plain, 0, plain.length, Role.HEAD, setting))
        return
    caption = _TABLE_CAPTION.match(plain.text) if state.table.column == 0 else None
    if caption and "|" not in state.source.slice(block):
        state.add(cut_passage(plain, caption.end(), plain.length, Role.CAPTION, replace(setting, cell=None)))
    elif state.kind is DivKind.WORDS:
        read_entries(state, plain, setting)
    else:
        state.add(cut_passage(plain, 0, plain.length, Role.CELL, setting))


def _names_field(state: ReaderState, table: OpenTable, plain: InlineText) -> bool:
    """Read a cell of notes that are laid out as a table: a usual name at the start of a row begins a field (`| Aim |
    …`), and with one such row all have their names there (`| Points | …`); so does each cell under a head of such
    names (`| Aim | Materials |`). In a plan of stages (`| Stage | Minutes | Needs |`) each cell is one of its column's
    field, but for the minutes, which are told by the row."""
    name = paragraph_split.usual_field(plain.text)
    span = Span(plain.starts[0], plain.ends[-1]) if plain.length else Span(0, 0)
    if table.head:
        if name:
            table.fields[table.column] = name, span
        elif table.column == 1 and list(table.fields) == [0]:  # no head of columns: the first row of fields
            first, begun = table.fields.pop(0)
            if field_key(first) != "time" or any(char.isdigit() for char in plain.text):
                state.begin_field(first, begun, begun.end)
        planned = table.column > 0 and field_key(name) == "time" and _is_staged(table)
        return bool(name) and not planned  # the head of a plan's minutes stays to be read
    if not plain.text.strip():
        return False
    if table.fields:
        staged = _is_staged(table)
        column, begun = table.fields.get(table.column, ("", span))
        if staged and (table.column == 0 or field_key(column) in ("", "time")):
            state.end_field()
        elif column:
            state.begin_field(column, begun, begun.end)
        return False
    if table.column == 0 and (name or (table.rows_named and len(plain.text.split()) <= _FEW_WORDS)):
        table.rows_named = True
        state.begin_field(name or plain.text.strip(), span, span.end)
        return True
    return False


def _is_staged(table: OpenTable) -> bool:
    """Whether the rows of a table of notes are stages of a lesson: its first column is of steps or times."""
    return 0 not in table.fields or field_key(table.fields[0][0]) in ("step", "time")


def read_term(state: ReaderState, token: Token, plain: InlineText) -> None:
    """The term of a definition list: in notes a field (`Aim`, and under it `:   …`), in a panel a word."""
    span = state.note_block("paragraph", token, token.meta["places"].place(0))
    setting = state.setting(span)
    state.note_comments(plain, span)
    name = plain.text.strip().removesuffix(":").rstrip()
    if state.kind is DivKind.TEACHER and 0 < len(name.split()) <= _FEW_WORDS:
        state.begin_field(name, Span(plain.starts[0], plain.ends[-1]), plain.ends[-1])
    elif state.kind is DivKind.AUDIO and paragraph_split.is_name(name):
        state.speaker = name
    elif state.kind is DivKind.WORDS:
        read_entries(state, plain, setting)
    else:
        state.add(cut_passage(plain, 0, plain.length, plain_role(setting), setting))


_GRID = lazy_re.compile(r"\+(?:[-=:]+\+)+\s")  # Pandoc's grid tables (Pandoc User's Guide, 'Tables')
_GRID_TABLE = (
    "The strokes of this table do not stand under one another, so it is not read. "
    "Write it as `| a | b |`, then `|---|---|`."
)


def read_paragraph(state: ReaderState, token: Token, plain: InlineText) -> None:
    """A paragraph, by the div it stands in and what it looks like."""
    span = state.note_block("paragraph", token, token.meta["places"].place(0))
    setting = state.setting(span)
    before, state.last = state.last, ""
    noted = len(state.contents.comments)
    state.note_comments(plain, span)
    plain.take_off_bars()
    if _GRID.match(plain.text):
        first = state.source.line_span(state.source.position(span.start).line)
        state.contents.problems.append(Problem(first, _GRID_TABLE, blocks=False))
        state.add(cut_passage(plain, 0, plain.length, Role.CODE, setting))
        return
    if _read_picture(state, plain, setting):
        return
    kind = state.kind
    if kind is DivKind.TEACHER:
        read_notes(state, plain, setting)
    elif kind is DivKind.ART:
        state.add(cut_passage(plain, 0, plain.length, Role.BRIEF, setting))
    elif kind is DivKind.WORDS and not state.defining:
        read_entries(state, plain, setting)
    elif before == "picture" and _emphasised(plain, 0):
        state.add(cut_passage(plain, 0, plain.length, Role.CAPTION, setting))
    elif before == "table" and (match := _TABLE_CAPTION.match(plain.text)):
        state.add(cut_passage(plain, match.end(), plain.length, Role.CAPTION, setting))
    elif kind is DivKind.PATTERN and paragraph_split.is_told_line_by_line(plain):
        for start, end in paragraph_split.lines(plain):
            state.add(cut_passage(plain, start, end, plain_role(setting), setting))
    elif state.defining and state.speaker:
        state.add(cut_passage(plain, 0, plain.length, Role.TURN, setting, state.speaker))
    elif not read_turns(state, plain, setting):
        pieces = paragraph_split.options(plain)
        if pieces is not None:
            _read_options(state, plain, pieces, setting, noted)
        elif state.sung and setting.item is None and kind is not DivKind.ANSWERS:
            for start, end in paragraph_split.lines(plain):
                state.add(cut_passage(plain, start, end, Role.LINE, setting))
        else:
            if setting.item is None and paragraph_split.is_verse(plain):
                plain.keep_lines()
            state.add(cut_passage(plain, 0, plain.length, plain_role(setting), setting))


def read_entries(state: ReaderState, plain: InlineText, setting: Setting) -> None:
    """A words panel: every entry is a passage; what heads a row of words in bold (**Food** · jam · milk) is none."""
    for start, end in paragraph_split.entries(plain):
        head = paragraph_split.head_of_row(plain, start, end)
        state.add(cut_passage(plain, start, head, Role.CAPTION, setting))
        state.add(cut_passage(plain, head + (head > start), end, Role.PANEL, setting))


def _read_picture(state: ReaderState, plain: InlineText, setting: Setting) -> bool:
    """An image alone in its paragraph is a picture of its own; a caption may stand on the line under it."""
    if len(plain.pictures) != 1 or setting.item is not None:
        return False
    picture, alt = plain.pictures[0], plain.alts[0]
    after = picture.at + 1
    if plain.text.replace(PICTURE, "", 1).strip():
        if after not in plain.breaks or plain.text[: picture.at].strip() or not _emphasised(plain, after):
            return False
    else:
        state.last = "picture"
    state.contents.pictures.append(replace(picture, at=-1))
    described = cut_passage(alt, 0, alt.length, Role.ALT, replace(setting, audience=Audience.ARTIST))
    if described is not None:
        state.contents.passages.append(replace(described, pictures=()))
    state.add(cut_passage(plain, after, plain.length, Role.CAPTION, setting))
    return True


def _emphasised(plain: InlineText, start: int) -> bool:
    """Whether all the text from ``start`` is set in emphasis, and there is some."""
    at, any_text = start, False
    for left, right in plain.emphasis:
        if right <= start:
            continue
        if plain.text[at:left].strip():
            return False
        at, any_text = right, True
    return any_text and not plain.text[at:].strip()


def _label_span(plain: InlineText, piece: paragraph_split.Piece) -> Span:
    return Span(plain.starts[piece.label_start], plain.ends[piece.label_end - 1])


def _read_options(
    state: ReaderState, plain: InlineText, pieces: list[paragraph_split.Piece], setting: Setting, noted: int
) -> None:
    """Lettered lines: a list of their own, inside the item they stand in; a comment on one of them stands in that."""
    outer = setting.item
    number = state.next_list()
    parent = (outer.list, outer.index) if outer else None
    depth = outer.depth + 1 if outer else 0
    spans: list[Span] = []
    for piece in pieces:
        if not piece.label:
            state.add(cut_passage(plain, piece.start, piece.end, plain_role(setting), setting))
            continue
        item = Item(number, len(spans), piece.label, depth, parent, _label_span(plain, piece))
        end = paragraph_split.trimmed(plain.text, piece.start, piece.end)[1]
        spans.append(Span(item.label_span.start, plain.ends[end - 1]))
        if len(spans) > 1:  # before the first one, a stet covers them all
            state.note_option(spans[-1])
        state.add(cut_passage(plain, piece.start, piece.end, Role.ITEM, replace(setting, item=item)))
    for index, comment in enumerate(state.contents.comments[noted:], noted):
        at = bisect_left(spans, comment.span) - 1
        if at >= 0:
            span = Span(spans[at].start, max(spans[at].end, comment.span.end))
            state.contents.comments[index] = InnerComment(comment.span, comment.text, span)


def read_notes(state: ReaderState, plain: InlineText, setting: Setting) -> None:
    """Teacher's notes: a line that begins in bold with a colon begins a field, and a usual name in bold anywhere."""
    start = 0
    notes = state.notes[-1]
    item = setting.item
    counted = item is not None and bool(item.label)
    if item is None and paragraph_split.opens_with_time(plain):
        state.end_field()  # *Ten minutes.* Sing it twice.
    if item is None and notes.field is not None and notes.bare and any(left == 0 for left, _ in plain.strong):
        state.end_field()  # Answers: 1 wet, at the end of a paragraph; **After.** Say the poem
    head = paragraph_split.bold_head(plain) if item is None else None
    leads = paragraph_split.field_leads(plain, listed=item is not None)
    if head is not None and not leads and notes.headed:
        leads = [head]  # among fields headed in bold (**RESOURCES**) each such head begins one (**LEAD-IN**)
    notes.headed = notes.headed or head is not None
    for label in leads:
        # Among names in bold a bare one is a word of the text (Answers: in pairs), and so it is in numbered steps.
        if label.bare and (counted or (notes.field is not None and not notes.bare)):
            continue
        inside = label.bare and plain.text[: label.label_start].rstrip(" ")[-1:] not in ("", "\n")
        if inside and field_key(label.label) == "answer" and _GOES_ON.search(plain.text, label.start):
            continue  # Answers: 1 yes, 2 no. Play the track for Activity 2: told on the way
        notes.bare = label.bare
        state.add(cut_passage(plain, start, label.label_start, Role.NOTE, setting))
        state.begin_field(label.label, _label_span(plain, label), plain.ends[label.start - 1])
        start = label.start
        behind = _TIME_ALONE.match(plain.text, start) if field_key(label.label) == "time" else None
        if behind is not None:  # Time 9 minutes. Read the panel aloud: what follows is no time
            state.add(cut_passage(plain, start, behind.end(), Role.NOTE, setting))
            state.end_field()
            start = behind.end()
    state.add(cut_passage(plain, start, plain.length, Role.NOTE, setting))
