"""The text under a span is the text of the finding, always: over generated manuscripts and over anything at all."""

import re
from html import unescape

from hypothesis import example, given, settings
from hypothesis import strategies as st

from lint_rules.manuscript.front_matter import read_front_matter
from lint_rules.manuscript.model import Passage, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source
from tests.manuscript.generated import Body, bodies, manuscript

LINE_ENDS = st.sampled_from(["\n", "\r\n", "\r"])


def read(text: str) -> tuple[Source, Unit]:
    source = Source("level-1/unit-01.md", text)
    return source, read_unit(source)


def body_passages(unit: Unit) -> list[Passage]:
    (activity,) = unit.activities
    return [passage for passage in activity.part.passages if passage.role != "alternative text"]


def unmarked(stored: str) -> str:
    """What a reader sees of a stored word: everything that is markup taken off."""
    if re.fullmatch(r"!\[.*\]\(.*\)(\{.*\})?", stored):
        return "\ufffc"
    stored = re.sub(r"<!--.*?-->|</?(?:b|i|u|span)(?: [^>]*)?>", "", stored)
    stored = re.sub(r"\[([^\]]*)\](?:\([^)]*\))?(?:\{[^}]*\})?", r"\1", stored)
    stored = re.sub(r"(?<!\\)[*_`]", "", stored) if "://" not in stored else stored.strip("<>")
    stored = re.sub(r"\\([!-/:-@\[-`{-~])", lambda match: f"&#{ord(match[1])};", stored)
    return unescape(stored)


def assert_places(source: Source, passage: Passage) -> None:
    assert len(passage.text) == len(passage.starts) == len(passage.ends)
    assert all(start <= end for start, end in zip(passage.starts, passage.ends, strict=True))
    assert list(passage.starts) == sorted(passage.starts)
    assert list(passage.ends) == sorted(passage.ends)
    if passage.text:
        assert passage.starts[0] >= 0
        assert passage.ends[-1] <= len(source.text)


@settings(max_examples=120, deadline=None)
@given(bodies(), LINE_ENDS)
def test_the_text_is_found_and_every_word_stands_where_its_span_says(body: Body, line_end: str) -> None:
    source, unit = read(manuscript(body, line_end))
    passages = body_passages(unit)
    assert [passage.text for passage in passages] == [text.strip() for text in body.texts]
    assert not [one for one in unit.problems if one.blocks]
    for passage in passages:
        assert_places(source, passage)
        for word in re.finditer(r"[^ \t\n]+", passage.text):
            stored = source.slice(passage.span(*word.span()))
            assert unmarked(stored) == word[0]


@settings(max_examples=60, deadline=None)
@given(bodies(), LINE_ENDS)
def test_every_character_is_stored_where_its_span_says(body: Body, line_end: str) -> None:
    source, unit = read(manuscript(body, line_end))
    for passage in unit.passages:
        for index, char in enumerate(passage.text):
            stored = source.slice(passage.span(index, index + 1))
            if char in " \n":
                assert stored == char or re.fullmatch(r"[ \\]*(\r\n|\n|\r)[ >\t]*|\t", stored), stored
            elif len(stored) > 1 and stored[0] in "&\\!":
                assert char in unmarked(stored)
            else:
                assert stored == char


@settings(max_examples=30, deadline=None)
@given(bodies())
def test_a_byte_order_mark_and_the_kind_of_line_end_change_nothing_but_offsets(body: Body) -> None:
    plain, unit = read(manuscript(body))
    crlf = Source.decode("level-1/unit-01.md", b"\xef\xbb\xbf" + manuscript(body, "\r\n").encode())
    other = read_unit(crlf)
    for one, two in zip(unit.passages, other.passages, strict=True):
        assert (one.text, one.role, one.audience, one.item, one.cell) == (
            two.text,
            two.role,
            two.audience,
            two.item and two.item.__class__(**_moved(two.item, one.item)),
            two.cell,
        )
        assert plain.position(one.span().start) == crlf.position(two.span().start)


def _moved(item: object, like: object) -> dict[str, object]:
    names = ("list", "index", "label", "depth", "parent")
    return {**{name: getattr(item, name) for name in names}, "label_span": getattr(like, "label_span", None)}


MARKS = st.sampled_from(
    [
        *"#*_`[]()!<>&;:|{}=.\\-+~\"'/ \t\n\r\0\ufeff\u2028\x0c",
        *[
            "---",
            "```",
            "~~~",
            ":::",
            "::: teacher",
            "<!--",
            "-->",
            "<!-- stet a: b -->",
            "- ",
            "1. ",
            "> ",
            "| a | b |",
            "|---|",
        ],
        *[
            "# a",
            "## Lesson 1: b {.x}",
            "### 1 c",
            "{.x k=v}",
            "**Aim:** d",
            "MINA: e",
            "a) f",
            "____",
            "&amp;",
            "![a](b)",
            "\n\n",
        ],
        *["unit: 1", "level: x", "title: y", "    ", "😀", "e\u0301", "a", "b c", "[a]: b", "<div>", "</div>", "$$"],
    ]
)


@settings(max_examples=400, deadline=None)
@given(st.lists(st.one_of(MARKS, st.text(max_size=3)), max_size=60).map("".join), st.booleans())
@example("", False)
@example("---", False)
@example("---\n---", False)
@example("\0", True)
@example("**\n\u2028", False)
def test_no_text_crashes_the_reading_and_every_place_lies_in_the_file(text: str, fronted: bool) -> None:
    if fronted:
        text = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## L\n\n### 1 A\n\n" + text
    source, unit = read(text)
    for passage in unit.passages:
        assert_places(source, passage)
        assert 0 <= passage.block.start <= passage.block.end <= len(text)
        for index, char in enumerate(passage.text):
            stored = source.slice(passage.span(index, index + 1))
            if char in " \n\t":
                assert not stored.strip(" \t\r\n>\\") or stored.casefold().startswith("<br"), stored
            elif char not in "\ufffc\ufffd":
                assert stored == char or stored[0] in "&\\", (char, stored)
    for problem in unit.problems:
        assert 0 <= problem.span.start <= problem.span.end <= len(text)
    for stet in unit.stets:
        assert source.slice(stet.span).startswith("<!--")
        assert stet.covers is None or stet.covers.covers(stet.span)
    for div in unit.divs:
        assert source.slice(div.opening).startswith(":::")
        assert div.span.covers(div.opening)
    assert read_front_matter(source)[0] == unit.front


@settings(max_examples=150, deadline=None)
@given(st.binary(max_size=300))
def test_no_bytes_crash_the_reading(data: bytes) -> None:
    read(data.decode("utf-8", "replace"))
