"""Positions: offsets, lines and columns, and an editor's UTF-16 columns agree, whatever the file holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.source import EditorPosition, Position, Source

TEXTS = st.text(alphabet=st.sampled_from("ab é\u0301😀\t\r\n\u2028\f"), max_size=60)


@given(TEXTS, st.data())
def test_every_offset_comes_back_from_its_line_and_column(text, data):
    source = Source("unit.md", text)
    offset = data.draw(st.integers(0, len(text)))
    position = source.position(offset)
    in_line_break = text[offset - 1 : offset + 1] == "\r\n" or text[offset : offset + 1] in ("\n", "\r")
    if not in_line_break:
        assert source.offset(position) == offset


@given(TEXTS, st.sampled_from(["utf-8", "utf-16", "utf-32"]), st.data())
def test_every_offset_comes_back_from_an_editors_place(text, encoding, data):
    source = Source("unit.md", text)
    offset = data.draw(st.integers(0, len(text)))
    if text[offset - 1 : offset + 1] != "\r\n":
        assert source.editor_offset(source.editor_position(offset, encoding), encoding) == offset


def test_an_emoji_is_two_units_to_an_editor_and_one_column_to_a_person():
    # Language Server Protocol 3.17, "Position": characters are counted in UTF-16 code units by default.
    source = Source("unit.md", "😀 cat")
    assert source.position(2) == Position(1, 3)
    assert source.editor_position(2) == EditorPosition(0, 3)
    assert source.editor_position(2, "utf-8") == EditorPosition(0, 5)


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_a_line_ends_as_commonmark_says(end):
    # CommonMark 0.31.2, section 2.1: line feed, carriage return, or both. A line separator (U+2028) ends no line.
    source = Source("unit.md", f"one{end}two\u2028three{end}four")
    assert [source.line_text(line) for line in (1, 2, 3)] == ["one", "two\u2028three", "four"]


def test_a_byte_order_mark_is_no_column_and_is_written_back():
    source = Source.decode("unit.md", "\ufeff# Kites\r\n".encode())
    assert source.position(0) == Position(1, 1)
    assert source.line_text(1) == "# Kites"
    assert source.encode() == "\ufeff# Kites\r\n".encode()
