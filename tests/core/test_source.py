"""Positions: offsets, lines and columns, and an editor's UTF-16 columns agree, whatever the file holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.source import EditorPosition, Position, Source, Span, whole_characters

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


@pytest.mark.parametrize(
    ("span", "covered"),
    [((2, 6), True), ((3, 5), True), ((2, 3), True), ((5, 6), True), ((1, 6), False), ((2, 7), False), ((7, 9), False)],
)
def test_a_span_covers_what_lies_wholly_inside_it(span, covered):
    assert Span(2, 6).covers(Span(*span)) is covered


def test_places_outside_a_file_are_its_nearest_ones():
    source = Source("unit.md", "one\ntwo")
    assert [source.position(offset) for offset in (-3, 99)] == [Position(1, 1), Position(2, 4)]
    places = (Position(0, 1), Position(1, 99), Position(9, 9), Position(2, 0))
    assert [source.offset(place) for place in places] == [0, 3, 7, 4]
    assert source.editor_offset(EditorPosition(9, 1)) == 5
    assert source.editor_offset(EditorPosition(0, 99)) == 3


@pytest.mark.parametrize(("encoding", "units"), [("utf-8", 4), ("utf-16", 2), ("utf-32", 1)])
def test_a_place_inside_a_character_is_its_start(encoding, units):
    source = Source("unit.md", "a\U00010000b")  # the first character that UTF-16 writes with two units
    assert source.editor_position(2, encoding) == EditorPosition(0, 1 + units)
    assert [source.editor_offset(EditorPosition(0, 1 + at), encoding) for at in range(units)] == [1] * units
    assert source.editor_position(1, encoding) == EditorPosition(0, 1)
    assert Source("unit.md", "\uffffb").editor_position(1).character == 1  # and the last that it writes with one


def test_a_byte_order_mark_is_only_written_back_where_one_was():
    assert Source.decode("unit.md", b"# Kites").encode() == b"# Kites"
    assert Source("unit.md", "a").bom is False


def test_half_characters_and_controls_become_whole_ones():
    # Unicode 16.0, 3.9 (surrogate pairs) and its recommendation of U+FFFD for what cannot be read.
    assert whole_characters("kite") == "kite"
    assert whole_characters("a\ud83d\ude00b") == "a😀b"
    assert whole_characters("a\ud83d b\x00c\x85\td\n") == "a\ufffd b\ufffdc\ufffd\td\n"
