"""Between offsets and an editor's places (LSP 3.17): the only place of this room where they are converted."""

from lsprotocol import types

from lint_rules.source import BYTE_ORDER_MARK, EditorPosition, Source, Span

_MARK_UNITS = {"utf-8": 3, "utf-16": 1, "utf-32": 1}


def source_of(path: str, text: str) -> Source:
    """A text as an editor sends it: a byte order mark set apart, half characters made whole ones of the same length."""
    whole = "".join("\ufffd" if "\ud800" <= char <= "\udfff" else char for char in text)
    return Source(path, whole.removeprefix(BYTE_ORDER_MARK), whole.startswith(BYTE_ORDER_MARK))


def position_of(offset: int, source: Source, encoding: str) -> types.Position:
    """An offset as a place. An editor that shows a byte order mark as a character counts it in the first line."""
    place = source.editor_position(offset, encoding)
    mark = _MARK_UNITS[encoding] if source.bom and place.line == 0 else 0
    return types.Position(place.line, place.character + mark)


def offset_of(place: types.Position, source: Source, encoding: str) -> int:
    """A place as an offset."""
    mark = _MARK_UNITS[encoding] if source.bom and place.line == 0 else 0
    return source.editor_offset(EditorPosition(place.line, max(place.character - mark, 0)), encoding)


def range_of(span: Span, source: Source, encoding: str) -> types.Range:
    """A span as a range."""
    return types.Range(position_of(span.start, source, encoding), position_of(span.end, source, encoding))
