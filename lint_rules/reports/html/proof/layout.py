"""From a unit to what stands on its pages: lessons and activities, and in them blocks of lines, in file order."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from lint_rules.manuscript.model import Activity, DivKind, Heading, Part, Passage, Picture, Role, Unit
from lint_rules.reports.whereabouts import activity_number, lesson_name


class Kind(StrEnum):
    """How a block is set."""

    HEADING = "heading"
    TEXT = "text"
    TITLE = "title"
    ITEMS = "items"
    TABLE = "table"
    TURNS = "turns"
    SONG = "song"
    FIELDS = "fields"
    PANEL = "panel"
    PICTURE = "picture"
    CAPTION = "caption"
    CODE = "code"


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A line of a block: a passage, or a picture without a word; what stands before it; how far it is set in."""

    passage: Passage | None
    label: str = ""
    depth: int = 0
    picture: Picture | None = None


@dataclass(frozen=True, slots=True)
class Frame:
    """What sets a block apart from the children's page: its class, the label that says so, the div it comes from."""

    name: str = ""
    label: str = ""
    div: int = -1


@dataclass(frozen=True, slots=True, eq=False)
class Block:
    """Lines that are set as one. ``start`` is where they begin in the file; ``opens`` says that a frame begins."""

    kind: Kind
    lines: tuple[Line, ...]
    start: int
    frame: Frame = Frame()
    opens: bool = False

    @property
    def rows(self) -> list[list[list[Line]]]:
        """A table's rows of cells of lines."""
        cells: dict[tuple[int, int], list[Line]] = {}
        for line in self.lines:
            if line.passage is not None and line.passage.cell is not None:
                cells.setdefault((line.passage.cell.row, line.passage.cell.column), []).append(line)
        columns = range(max((column for _, column in cells), default=-1) + 1)
        return [[cells.get((row, column), []) for column in columns] for row in sorted({row for row, _ in cells})]

    @property
    def has_head(self) -> bool:
        """Whether a table's first row is its head."""
        return any(line.passage is not None and line.passage.role is Role.HEAD for line in self.lines)


@dataclass(frozen=True, slots=True, eq=False)
class Place:
    """A unit's opening, a lesson or an activity: its name, its blocks (its heading first), its activities."""

    name: str
    blocks: tuple[Block, ...]
    activities: "tuple[Place, ...]" = ()
    kinds: tuple[str, ...] = ()
    number: int = 0  # of a lesson; 0 before the first

    @property
    def all_blocks(self) -> Iterator[Block]:
        """Its blocks and those of its activities, in file order."""
        yield from self.blocks
        for activity in self.activities:
            yield from activity.blocks


def places_of(unit: Unit) -> tuple[Place, ...]:
    """The opening of a unit and its lessons. The opening has a block even where nothing stands in it."""
    title = _heading_block(unit.heading) if unit.heading else Block(Kind.HEADING, (), 0)
    opening = (title, *_blocks(unit, unit.opening))
    places = [Place("", opening, tuple(_activities(unit, unit.opening_activities)))]
    for number, lesson in enumerate(unit.lessons, start=1):
        blocks = (_heading_block(lesson.heading), *_blocks(unit, lesson.part))
        activities = tuple(_activities(unit, lesson.activities))
        places.append(Place(lesson_name(number), blocks, activities, lesson.classes, number))
    return tuple(places)


def _activities(unit: Unit, activities: Sequence[Activity]) -> Iterator[Place]:
    for at, activity in enumerate(activities, start=1):
        blocks = (_heading_block(activity.heading), *_blocks(unit, activity.part))
        yield Place(activity_number(activity, at), blocks, (), activity.kinds)


def _heading_block(heading: Heading) -> Block:
    return Block(Kind.HEADING, (Line(heading.passage, heading.number),), heading.span.start)


def _blocks(unit: Unit, part: Part) -> Iterator[Block]:
    """A part's passages and wordless pictures, gathered into blocks."""
    first_of_field = {id(field.passages[0]): field.name for field in part.fields if field.passages}
    lines = list(_lines(part, first_of_field))
    before = Frame()
    for _, group in groupby(enumerate(lines), key=lambda one: _key(unit, one[0], one[1][1])):
        members = [line for _, (_, line) in group]
        start = lines[next(at for at, (_, line) in enumerate(lines) if line is members[0])][0]
        frame = _frame(unit, members[0])
        yield Block(_kind(members[0]), tuple(members), start, frame, frame.div != before.div and bool(frame.name))
        before = frame


def _lines(part: Part, first_of_field: dict[int, str]) -> list[tuple[int, Line]]:
    """The lines of a part with their starts, in file order."""
    described = {passage.starts[0] for passage in part.passages if passage.role is Role.ALT and passage.text}
    lines = [(_start(passage), _line(passage, first_of_field)) for passage in part.passages]
    lines += [
        (picture.span.start, Line(None, picture=picture))
        for picture in part.pictures
        if picture.at < 0 and not any(picture.span.start <= start < picture.span.end for start in described)
    ]
    return sorted(lines, key=lambda one: one[0])


def _start(passage: Passage) -> int:
    return passage.starts[0] if passage.text else passage.block.start


def _line(passage: Passage, first_of_field: dict[int, str]) -> Line:
    if passage.role in (Role.ITEM, Role.OPTION) and passage.item is not None:
        label = passage.item.label
        return Line(passage, f"{label}." if label.isalnum() else label or "•", min(passage.item.depth, 4))
    label = passage.speaker or first_of_field.get(id(passage), "")
    return Line(passage, f"{label}:" if label else "")


_KINDS = {
    Role.TITLE: Kind.TITLE,
    Role.OPTION: Kind.ITEMS,
    Role.ITEM: Kind.ITEMS,
    Role.CELL: Kind.TABLE,
    Role.HEAD: Kind.TABLE,
    Role.TURN: Kind.TURNS,
    Role.LINE: Kind.SONG,
    Role.CAPTION: Kind.CAPTION,
    Role.FIELD: Kind.FIELDS,
    Role.PANEL: Kind.PANEL,
    Role.ALT: Kind.PICTURE,
    Role.CODE: Kind.CODE,
}


def _kind(line: Line) -> Kind:
    return Kind.PICTURE if line.passage is None else _KINDS.get(line.passage.role, Kind.TEXT)


def _key(unit: Unit, at: int, line: Line) -> tuple[object, ...]:
    """What the lines of a block have in common; paragraphs of text are blocks of their own."""
    kind = _kind(line)
    passage = line.passage
    own = at if kind in (Kind.TEXT, Kind.TITLE, Kind.CODE) else 0
    table = passage.cell.table if passage is not None and passage.cell is not None else 0
    return (kind, _frame(unit, line).div, table, own)


_LABELS = {
    DivKind.TEACHER: "Teacher's notes",
    DivKind.AUDIO: "Audio script",
    DivKind.ANSWERS: "Answers",
    DivKind.ART: "For the artist",
    DivKind.WORDS: "Words",
    DivKind.PATTERN: "Pattern",
}


def _frame(unit: Unit, line: Line) -> Frame:
    """The outermost div around a line that says who it is for; else the outermost box on the children's page."""
    around = list(_around(unit, line.passage))
    if not around:
        return Frame()
    div = next((at for at in reversed(around) if unit.divs[at].kind is not DivKind.PAGE), around[-1])
    kind, attributes = unit.divs[div].kind, unit.divs[div].attributes
    if kind is DivKind.PAGE:
        return Frame("box", (attributes.classes or ("Box",))[0].replace("-", " "), div)
    track = attributes.values.get("track", "")
    return Frame(kind.value, f"{_LABELS[kind]}, track {track}" if track else _LABELS[kind], div)


def _around(unit: Unit, passage: Passage | None) -> Iterable[int]:
    at = passage.div if passage is not None else None
    while at is not None:
        yield at
        at = unit.divs[at].parent
