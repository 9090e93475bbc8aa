"""Who speaks: turns of dialogues and audio scripts, however the speaker is set off.

`**Mina:** Hello!` stands on a page; in a script `MINA: Hello!`, `*Mina* — Hello!`, a table with a column of speakers
and a definition list (`MINA` over `:   Hello!`) are read as well.
"""

from lint_rules.manuscript import paragraph_split
from lint_rules.manuscript.contents import Setting, cut_passage
from lint_rules.manuscript.inline_text import InlineText
from lint_rules.manuscript.model import DivKind, Role
from lint_rules.manuscript.reader_state import OpenTable, ReaderState

_HEADS = frozenset({"speaker", "speakers", "who", "who?", "voice", "voices", "name", "role", "character"})


def plain_role(setting: Setting) -> Role:
    """The role of an ordinary text: an item in a list, else text."""
    return Role.TEXT if setting.item is None else Role.ITEM


def read_turns(state: ReaderState, plain: InlineText, setting: Setting) -> bool:
    """A paragraph with speakers: every line that begins with one begins a turn."""
    turns: list[paragraph_split.Piece] = []
    for start, end in paragraph_split.lines(plain):
        piece = paragraph_split.bold_label(plain, start, end)
        if piece is not None and not paragraph_split.is_name(piece.label):
            piece = None
        if piece is not None and state.kind is not DivKind.AUDIO and paragraph_split.is_task(piece.label):
            piece = None
        if piece is None and state.kind is DivKind.AUDIO:
            piece = paragraph_split.script_speaker(plain, start, end)
        if piece is not None:
            turns.append(piece)
    if not turns:
        return False
    state.add(cut_passage(plain, 0, turns[0].label_start, plain_role(setting), setting))
    ends = [turn.label_start for turn in turns[1:]] + [plain.length]
    for turn, end in zip(turns, ends, strict=True):
        state.add(cut_passage(plain, turn.start, end, Role.TURN, setting, turn.label))
    return True


def read_spoken_cell(state: ReaderState, table: OpenTable, plain: InlineText, setting: Setting) -> bool:
    """A cell of a script set as a table: the first of a row names who speaks the others; the row of heads says so."""
    name = plain.text.strip().removesuffix(":").rstrip()
    if table.column == 0:
        table.headed = table.headed or (table.head and name.casefold() in _HEADS)
        table.speaker = name if paragraph_split.is_name(name) else ""
        return bool(table.speaker)
    if table.speaker and not (table.head and table.headed):
        state.add(cut_passage(plain, 0, plain.length, Role.TURN, setting, table.speaker))
    return bool(table.speaker)
