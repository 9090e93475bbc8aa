"""What a unit's file holds, in file order, before it is sorted into lessons and activities."""

from array import array
from bisect import bisect_left
from dataclasses import dataclass, field, replace

from lint_rules.manuscript.inline_text import InlineText, within
from lint_rules.manuscript.model import (
    Audience,
    Cell,
    Div,
    Field,
    Heading,
    Item,
    Passage,
    Picture,
    Problem,
    Role,
)
from lint_rules.manuscript.paragraph_split import gaps, trimmed
from lint_rules.source import Span


@dataclass(frozen=True, slots=True)
class Block:
    """A Markdown block: what it is, where it stands, and its first line (0-based)."""

    kind: str
    span: Span
    line: int


@dataclass(slots=True)
class OpenField:
    """A field of the teacher's notes while it is being read."""

    name: str
    name_span: Span
    end: int
    passages: list[Passage] = field(default_factory=list)

    def closed(self) -> Field:
        """The field as plain data."""
        return Field(self.name, self.name_span, tuple(self.passages), Span(self.name_span.start, self.end))


@dataclass(frozen=True, slots=True)
class InnerComment:
    """A comment inside a line: where it stands, what it says, and the block it stands in."""

    span: Span
    text: str
    block: Span


@dataclass(slots=True)
class Contents:
    """Everything read from a file, in file order."""

    passages: list[Passage] = field(default_factory=list)
    headings: list[Heading] = field(default_factory=list)  # of the unit, its lessons and activities
    pictures: list[Picture] = field(default_factory=list)
    fields: list[Field] = field(default_factory=list)
    divs: list[Div] = field(default_factory=list)
    blocks: list[Block] = field(default_factory=list)
    tables: list[Span] = field(default_factory=list)
    comments: list[InnerComment] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Setting:
    """Who a text is for and where it stands, as far as its surroundings tell."""

    audience: Audience
    block: Span
    div: int | None = None
    item: Item | None = None
    cell: Cell | None = None


def cut_passage(
    plain: InlineText, start: int, end: int, role: Role, setting: Setting, speaker: str = ""
) -> Passage | None:
    """The passage that a range of a block's text makes, or None when nothing is left of it."""
    start, end = trimmed(plain.text, start, end)
    if start >= end:
        return None
    text = plain.text[start:end]
    whole = start == 0 and end == plain.length
    return Passage(
        text=text,
        starts=plain.starts if whole else plain.starts[start:end],
        ends=plain.ends if whole else plain.ends[start:end],
        audience=setting.audience,
        role=role,
        block=setting.block,
        speaker=speaker,
        item=setting.item,
        cell=setting.cell,
        div=setting.div,
        strong=within(plain.strong, start, end),
        emphasis=within(plain.emphasis, start, end),
        foreign=within(plain.foreign, start, end),
        struck=within(plain.struck, start, end),
        gaps=gaps(text) if "__" in text else (),
        pictures=_pictures(plain, start, end),
    )


def _pictures(plain: InlineText, start: int, end: int) -> tuple[Picture, ...]:
    if not plain.pictures:
        return ()
    first = bisect_left(plain.pictures, start, key=lambda picture: picture.at)
    last = bisect_left(plain.pictures, end, key=lambda picture: picture.at)
    return tuple(replace(picture, at=picture.at - start) for picture in plain.pictures[first:last])


def empty_passage(role: Role, setting: Setting) -> Passage:
    """A passage without any text (an empty heading)."""
    return Passage("", array("l"), array("l"), setting.audience, role, setting.block, div=setting.div)


def block_at(blocks: list[Block], line: int) -> Block | None:
    """The first block, outermost, that begins on or after a line (0-based)."""
    at = bisect_left(blocks, line, key=lambda block: block.line)
    return blocks[at] if at < len(blocks) else None
