"""From a block's plain text to passages: what a paragraph, a heading or a cell is on the page, by where it stands."""

import re
from bisect import bisect_left
from dataclasses import replace

from markdown_it.token import Token

from lint_rules.manuscript import cut
from lint_rules.manuscript.attributes import broken_braces
from lint_rules.manuscript.contents import InnerComment, Setting, cut_passage, empty_passage
from lint_rules.manuscript.model import PICTURE, Audience, DivKind, Heading, Item, Problem, Role
from lint_rules.manuscript.plain import Plain, placed_braces
from lint_rules.manuscript.scene import SONGS, Scene
from lint_rules.source import Span

_NUMBER_WORDS = "(?i:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_LESSON_NUMBER = re.compile(
    rf"(?i:lesson)\s+(?:[0-9]+[a-z]?|[A-Z]|[ivx]+|{_NUMBER_WORDS})\s*(?:[:.)]|[-–—](?=\s)|(?=\s*$))\s*"
)
_ACTIVITY_NUMBER = re.compile(r"(?:(?i:activity|exercise|task)\s+)?[0-9]{1,3}[a-z]?(?:[.):](?=\s|$)|(?=\s|$))\s*")
_UNIT_NUMBER = re.compile(rf"(?i:unit)\s+(?:[0-9]+|{_NUMBER_WORDS})\s*(?:[:.)]|[-–—](?=\s))\s*")
_NUMBER = {1: _UNIT_NUMBER, 2: _LESSON_NUMBER, 3: _ACTIVITY_NUMBER}
_HEADING_ROLE = {1: Role.UNIT_TITLE, 2: Role.LESSON_TITLE, 3: Role.INSTRUCTION}
_BROKEN_BRACES = (
    "These braces cannot be read, so they would be printed as text."
    " Write {.class key=value}: a point before each class, quotation marks around a value with spaces."
)
_TABLE_CAPTION = re.compile(r"(?:[Tt]able)?:\s+(?=\S)")


def read_heading(scene: Scene, opening: Token, token: Token, plain: Plain) -> None:
    """A heading of the unit, a lesson or an activity; anywhere else, or further down, a title."""
    level = int(opening.tag[1])
    places = token.meta["places"]
    span = scene.note_block("heading", opening, opening.meta["start"])
    scene.note_comments(plain, span)
    if level > 3 or scene.lists or scene.quotes or scene.kind is not DivKind.PAGE:
        scene.add(cut_passage(plain, 0, plain.length, Role.TITLE, scene.setting(span)))
        return
    braces = token.meta.get("braces")
    attributes = placed_braces(braces, token.meta.get("braces_start", len(token.content)), places)
    start, end = cut.trimmed(plain.text, 0, plain.length)
    number, number_span = "", Span(span.start, span.start)
    if level in _NUMBER and (match := _NUMBER[level].match(plain.text, start, end)):
        number = match[0].strip()
        number_span = Span(plain.starts[start], plain.ends[start + len(number) - 1])
        start = match.end() if match.end() < end else start  # a number alone is all the title there is
    setting = scene.setting(span)
    role = _HEADING_ROLE[level]
    passage = cut_passage(plain, start, end, role, setting) or empty_passage(role, setting)
    scene.contents.headings.append(Heading(level, passage, span, attributes, number, number_span))
    sung = bool(SONGS.intersection(attributes.classes))
    if level < 3:
        scene.lesson_song = sung and level == 2
    scene.song = scene.lesson_song or sung
    at = broken_braces(plain.text) if braces is None else None
    if at is not None:
        braces_span = Span(plain.starts[at], plain.ends[cut.trimmed(plain.text, at, plain.length)[1] - 1])
        scene.contents.problems.append(Problem(braces_span, _BROKEN_BRACES, blocks=False))


def read_cell(scene: Scene, token: Token, plain: Plain) -> None:
    """A table's cell; in a words panel, entries; a line of its own that begins with a colon is the caption."""
    assert scene.table is not None
    block = scene.lines_span(token)
    scene.note_comments(plain, block)
    setting = scene.setting(block)
    if scene.table.head:
        scene.add(cut_passage(plain, 0, plain.length, Role.HEAD, setting))
        return
    caption = _TABLE_CAPTION.match(plain.text) if scene.table.column == 0 else None
    if caption and "|" not in scene.source.slice(block):
        scene.add(cut_passage(plain, caption.end(), plain.length, Role.CAPTION, replace(setting, cell=None)))
    elif scene.kind is DivKind.WORDS:
        read_entries(scene, plain, setting)
    else:
        scene.add(cut_passage(plain, 0, plain.length, Role.CELL, setting))


def read_paragraph(scene: Scene, token: Token, plain: Plain) -> None:
    """A paragraph, by the div it stands in and what it looks like."""
    span = scene.note_block("paragraph", token, token.meta["places"].place(0))
    setting = scene.setting(span)
    before, scene.last = scene.last, ""
    noted = len(scene.contents.comments)
    scene.note_comments(plain, span)
    if _read_picture(scene, plain, setting):
        return
    kind = scene.kind
    if kind is DivKind.TEACHER:
        read_notes(scene, plain, setting)
    elif kind is DivKind.ART:
        scene.add(cut_passage(plain, 0, plain.length, Role.BRIEF, setting))
    elif kind is DivKind.WORDS:
        read_entries(scene, plain, setting)
    elif before == "picture" and _emphasised(plain, 0):
        scene.add(cut_passage(plain, 0, plain.length, Role.CAPTION, setting))
    elif before == "table" and (match := _TABLE_CAPTION.match(plain.text)):
        scene.add(cut_passage(plain, match.end(), plain.length, Role.CAPTION, setting))
    elif not _read_turns(scene, plain, setting):
        pieces = cut.options(plain)
        if pieces is not None:
            _read_options(scene, plain, pieces, setting, noted)
        elif scene.sung and setting.item is None and kind is not DivKind.ANSWERS:
            for start, end in cut.lines(plain):
                scene.add(cut_passage(plain, start, end, Role.LINE, setting))
        else:
            scene.add(cut_passage(plain, 0, plain.length, _plain_role(setting), setting))


def _plain_role(setting: Setting) -> Role:
    return Role.TEXT if setting.item is None else Role.ITEM


def read_entries(scene: Scene, plain: Plain, setting: Setting) -> None:
    """A words panel: every entry is a passage."""
    for start, end in cut.entries(plain):
        scene.add(cut_passage(plain, start, end, Role.PANEL, setting))


def _read_picture(scene: Scene, plain: Plain, setting: Setting) -> bool:
    """An image alone in its paragraph is a picture of its own; a caption may stand on the line under it."""
    if len(plain.pictures) != 1 or setting.item is not None:
        return False
    picture, alt = plain.pictures[0], plain.alts[0]
    after = picture.at + 1
    if plain.text.replace(PICTURE, "", 1).strip():
        if after not in plain.breaks or plain.text[: picture.at].strip() or not _emphasised(plain, after):
            return False
    else:
        scene.last = "picture"
    scene.contents.pictures.append(replace(picture, at=-1))
    described = cut_passage(alt, 0, alt.length, Role.ALT, replace(setting, audience=Audience.ARTIST))
    if described is not None:
        scene.contents.passages.append(replace(described, pictures=()))
    scene.add(cut_passage(plain, after, plain.length, Role.CAPTION, setting))
    return True


def _emphasised(plain: Plain, start: int) -> bool:
    """Whether all the text from ``start`` is set in emphasis, and there is some."""
    at, any_text = start, False
    for left, right in plain.emphasis:
        if right <= start:
            continue
        if plain.text[at:left].strip():
            return False
        at, any_text = right, True
    return any_text and not plain.text[at:].strip()


def _read_turns(scene: Scene, plain: Plain, setting: Setting) -> bool:
    """A paragraph with speakers: every line that begins with one begins a turn."""
    turns: list[cut.Piece] = []
    for start, end in cut.lines(plain):
        piece = cut.bold_label(plain, start, end)
        if piece is not None and not cut.is_name(piece.label):
            piece = None
        if piece is None and scene.kind is DivKind.AUDIO:
            piece = cut.plain_speaker(plain, start, end)
        if piece is not None:
            turns.append(piece)
    if not turns:
        return False
    scene.add(cut_passage(plain, 0, turns[0].label_start, _plain_role(setting), setting))
    ends = [turn.label_start for turn in turns[1:]] + [plain.length]
    for turn, end in zip(turns, ends, strict=True):
        scene.add(cut_passage(plain, turn.start, end, Role.TURN, setting, turn.label))
    return True


def _label_span(plain: Plain, piece: cut.Piece) -> Span:
    return Span(plain.starts[piece.label_start], plain.ends[piece.label_end - 1])


def _read_options(scene: Scene, plain: Plain, pieces: list[cut.Piece], setting: Setting, noted: int) -> None:
    """Lettered lines: a list of their own, inside the item they stand in; a comment on one of them stands in that."""
    outer = setting.item
    number = scene.next_list()
    parent = (outer.list, outer.index) if outer else None
    depth = outer.depth + 1 if outer else 0
    spans: list[Span] = []
    for piece in pieces:
        if not piece.label:
            scene.add(cut_passage(plain, piece.start, piece.end, _plain_role(setting), setting))
            continue
        item = Item(number, len(spans), piece.label, depth, parent, _label_span(plain, piece))
        end = cut.trimmed(plain.text, piece.start, piece.end)[1]
        spans.append(Span(item.label_span.start, plain.ends[end - 1]))
        if len(spans) > 1:  # before the first one, a stet covers them all
            scene.note_option(spans[-1])
        scene.add(cut_passage(plain, piece.start, piece.end, Role.ITEM, replace(setting, item=item)))
    for index, comment in enumerate(scene.contents.comments[noted:], noted):
        at = bisect_left(spans, comment.span) - 1
        if at >= 0:
            span = Span(spans[at].start, max(spans[at].end, comment.span.end))
            scene.contents.comments[index] = InnerComment(comment.span, comment.text, span)


def read_notes(scene: Scene, plain: Plain, setting: Setting) -> None:
    """Teacher's notes: a line that begins in bold with a colon begins a field."""
    start = 0
    for first, last in cut.lines(plain):
        label = cut.bold_label(plain, first, last)
        if label is None:
            continue
        scene.add(cut_passage(plain, start, label.label_start, Role.NOTE, setting))
        scene.begin_field(label.label, _label_span(plain, label), plain.ends[label.start - 1])
        start = label.start
    scene.add(cut_passage(plain, start, plain.length, Role.NOTE, setting))
