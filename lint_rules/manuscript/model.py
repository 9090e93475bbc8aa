"""The manuscript: Unit → Lesson → Activity → Passage, as plain frozen data.

A passage is a run of text with one audience and one role. Its ``text`` is what a reader sees; ``starts`` and ``ends``
give, for each character of it, the span of the file that shows it. ``Passage.span`` turns a range of the plain text
into a span of the file: rules use nothing else to point at something.
"""

from array import array
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.source import Source, Span

PICTURE = "\ufffc"  # stands in a passage's text for an inline picture (Unicode: OBJECT REPLACEMENT CHARACTER)
_TWO_PARTS = lazy_re.compile(r"[0-9]{1,2}\.[0-9]{1,3}")
_FIGURE = lazy_re.compile(r"(?:[0-9]{1,2}\.)?([0-9]{1,3}[A-Za-z]?)")


class Audience(StrEnum):
    """Who reads or hears a passage."""

    PUPIL = "pupil"
    TEACHER = "teacher"
    LISTENER = "listener"
    KEY = "key"
    ARTIST = "artist"


class Role(StrEnum):
    """What a passage is on the page."""

    UNIT_TITLE = "unit title"
    LESSON_TITLE = "lesson title"
    INSTRUCTION = "instruction"  # an activity's heading, without its number
    TITLE = "title"  # a heading below an activity's, e.g. the title of a story
    TEXT = "running text"  # a paragraph; block quotes too
    OPTION = "option"  # one of the things to choose from, on its own (only in what a child ends up reading)
    ITEM = "list item"  # an item of a list, or a lettered or numbered line (`a) blue`)
    CELL = "table cell"
    HEAD = "table head"
    TURN = "turn"  # what one speaker says; ``speaker`` names who, ``text`` is without the name
    LINE = "song line"  # a line of a song or chant (activity or div of class song)
    CAPTION = "caption"  # the text of a paragraph that stands directly under a picture, in emphasis; or a table's
    FIELD = "field"  # the value of a field of the teacher's notes; ``field`` names it
    NOTE = "note"  # teacher's notes outside any field
    PANEL = "panel entry"  # an entry of a `words` panel
    BRIEF = "art brief"
    ALT = "alternative text"
    CODE = "code"


class DivKind(StrEnum):
    """The divs that change who a text is for; every other div stays on the pupil's page (kind PAGE)."""

    TEACHER = "teacher"
    AUDIO = "audio"
    ANSWERS = "answers"
    ART = "art"
    WORDS = "words"
    PATTERN = "pattern"
    PAGE = "page"


@dataclass(frozen=True, slots=True)
class Attributes:
    """Pandoc's attributes: ``{#identifier .class key=value}``; ``span`` covers the braces (empty: there are none)."""

    span: Span
    identifier: str = ""
    classes: tuple[str, ...] = ()
    values: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Picture:
    """An image. ``at`` is the index of its PICTURE character in its passage, or -1 in a block of its own."""

    span: Span
    target: str
    alt: str
    alt_span: Span
    attributes: Attributes
    at: int = -1


@dataclass(frozen=True, slots=True)
class Item:
    """Where a list item stands: its list (number within the unit), its index, its label (`1`, `a`; '' for bullets),
    its depth (0 is outermost), and the item it is nested in (None: in none)."""

    list: int
    index: int
    label: str
    depth: int = 0
    parent: tuple[int, int] | None = None  # (list, index) of the item that holds this list
    label_span: Span = Span(0, 0)


@dataclass(frozen=True, slots=True)
class Cell:
    """Where a table cell stands: its table (number within the unit), row (0 is the head, body rows from 1), column."""

    table: int
    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Div:
    """A fenced div. ``span`` runs from its opening fence to the end of its closing fence; ``opening`` is the first
    fence's line; ``parent`` is the index in ``Unit.divs`` of the div around it, or None."""

    kind: DivKind
    attributes: Attributes
    span: Span
    opening: Span
    parent: int | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Passage:
    """A run of text with one audience and one role. See the module's docstring for ``text``, ``starts``, ``ends``.

    ``block`` is the span of the Markdown block it stands in. ``strong`` lists the ranges of ``text`` set in bold,
    ``emphasis`` those set in italics, ``struck`` those struck out (`~~apple~~`), ``foreign`` those marked
    as another language (`[sopa]{lang=es}`). ``div`` is the index in ``Unit.divs`` of the innermost div around it.
    ``gaps`` are the ranges of ``text`` that are a blank to fill in (`____`). Passages stand in file order everywhere.
    """

    text: str
    starts: "array[int]"
    ends: "array[int]"
    audience: Audience
    role: Role
    block: Span
    speaker: str = ""
    field: str = ""
    item: Item | None = None
    cell: Cell | None = None
    div: int | None = None
    strong: tuple[tuple[int, int], ...] = ()
    emphasis: tuple[tuple[int, int], ...] = ()
    foreign: tuple[tuple[int, int], ...] = ()
    struck: tuple[tuple[int, int], ...] = ()
    gaps: tuple[tuple[int, int], ...] = ()
    pictures: tuple[Picture, ...] = ()

    def bare(self, text: str, starts: "array[int]", ends: "array[int]") -> "Passage":
        """The same passage with another text, in which nothing is marked."""
        none: tuple[tuple[int, int], ...] = ()
        return replace(
            self,
            text=text,
            starts=starts,
            ends=ends,
            strong=none,
            emphasis=none,
            foreign=none,
            struck=none,
            gaps=none,
            pictures=(),
        )

    def marked(self, strong: tuple[tuple[int, int], ...], emphasis: tuple[tuple[int, int], ...]) -> "Passage":
        """The same passage with these ranges in bold and in italics."""
        return replace(self, strong=strong, emphasis=emphasis)

    def span(self, start: int = 0, end: int | None = None) -> Span:
        """Span of the file that shows ``text[start:end]`` (an empty range gives an empty span)."""
        end = len(self.text) if end is None else end
        if not self.text:
            return Span(self.block.start, self.block.start)
        if start >= end:
            at = self.starts[start] if start < len(self.text) else self.ends[-1]
            return Span(at, at)
        return Span(self.starts[start], self.ends[end - 1])


@dataclass(frozen=True, slots=True, eq=False)
class Heading:
    """A heading: its level, its text (``passage``, without number and attributes), its line, its attributes.

    ``number`` is what stands before the text of an activity (`1`), a lesson (`Lesson 2:`) or a unit (`Unit 3:`), as
    written.
    """

    level: int
    passage: Passage
    span: Span
    attributes: Attributes
    number: str = ""
    number_span: Span = Span(0, 0)

    @property
    def two_parts(self) -> str:
        """The number of an activity with that of its lesson or unit before it (1.2); '' where it has none."""
        found = _TWO_PARTS.search(self.number)
        return found[0] if found is not None else ""

    @property
    def figure(self) -> str:
        """The number of an activity in its lesson or unit, without that of the lesson or unit before it (2 of 1.2) and
        with a letter behind it (2a); '' for none."""
        found = _FIGURE.search(self.number)
        return found[1].casefold() if found is not None else ""


@dataclass(frozen=True, slots=True, eq=False)
class Field:
    """A field of the teacher's notes: its name as written, where the name stands, and its text, passage by passage."""

    name: str
    name_span: Span
    passages: tuple[Passage, ...]
    span: Span

    @property
    def text(self) -> str:
        """The field's text, one passage a line."""
        return "\n".join(passage.text for passage in self.passages)


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """What lessons and activities have in common: passages in file order, notes, divs (indices), pictures."""

    passages: tuple[Passage, ...] = ()
    fields: tuple[Field, ...] = ()
    divs: tuple[int, ...] = ()
    pictures: tuple[Picture, ...] = ()

    def field(self, name: str) -> Field | None:
        """The first field of that name (any case, singular or plural), or None."""
        return next((field for field in self.fields if field_key(field.name) == field_key(name)), None)


@dataclass(frozen=True, slots=True, eq=False)
class Activity:
    """An activity: heading (number and instruction), kinds (the heading's classes), and what stands in it."""

    heading: Heading
    part: Part
    span: Span

    @property
    def kinds(self) -> tuple[str, ...]:
        """The classes of the heading, e.g. ``('test', 'listening')``."""
        return self.heading.attributes.classes


@dataclass(frozen=True, slots=True, eq=False)
class Lesson:
    """A lesson: heading, what stands before its first activity (``part``), and its activities."""

    heading: Heading
    part: Part
    activities: tuple[Activity, ...]
    span: Span

    @property
    def classes(self) -> tuple[str, ...]:
        """The classes of the heading: the lesson's place in the unit pattern."""
        return self.heading.attributes.classes

    @property
    def passages(self) -> Iterator[Passage]:
        """Every passage of the lesson in file order, headings included."""
        yield self.heading.passage
        yield from self.part.passages
        for activity in self.activities:
            yield activity.heading.passage
            yield from activity.part.passages


@dataclass(frozen=True, slots=True)
class Stet:
    """A comment that lets findings stand.

    ``rule`` and ``reason`` as written ('' when missing), ``until`` when it lapses, ``span`` the comment, ``covers`` the
    block it lets stand (from the comment's own start), or None where nothing follows. ``fault`` says what is wrong with
    its form ('' when nothing is).
    """

    rule: str
    reason: str
    until: date | None
    span: Span
    covers: Span | None
    fault: str = ""


POINT = "point"  # the habit of leaving out a class's point: {.game speaking}


@dataclass(frozen=True, slots=True)
class Problem:
    """Something that keeps a file from being read as a unit: where, what, and its cure, in one message."""

    span: Span
    message: str
    blocks: bool = True  # False: the rest of the file can still be trusted; reported as a query
    habit: str = ""  # what one decision answers, at however many places


@dataclass(frozen=True, slots=True)
class FrontMatter:
    """The YAML at the top of a unit, with the span of each value (of the whole block where a key is missing).

    ``others`` are the keys that hornbook does not read, with their places.
    """

    level: str = ""
    unit: int = 0
    title: str = ""
    topics: tuple[str, ...] = ()
    grammar: tuple[str, ...] = ()
    spans: Mapping[str, Span] = field(default_factory=dict)
    grammar_spans: tuple[Span, ...] = ()
    others: tuple[tuple[str, Span], ...] = ()
    span: Span = Span(0, 0)


@dataclass(frozen=True, slots=True, eq=False)
class Unit:
    """One unit read from its file. ``opening`` holds what stands before the first lesson, ``problems`` its faults."""

    source: Source
    front: FrontMatter
    heading: Heading | None
    opening: Part
    lessons: tuple[Lesson, ...]
    divs: tuple[Div, ...] = ()
    stets: tuple[Stet, ...] = ()
    problems: tuple[Problem, ...] = ()
    opening_activities: tuple[Activity, ...] = ()  # activities before the first lesson

    @property
    def path(self) -> str:
        """Path of the file inside the course."""
        return self.source.path

    @property
    def title_span(self) -> Span:
        """Where a thing that the whole unit lacks is found: its title's text, else the front matter, else the start."""
        if self.heading is not None:
            return self.heading.passage.span()
        return self.front.span

    @property
    def activities(self) -> Iterator[Activity]:
        """Every activity of the unit in file order."""
        yield from self.opening_activities
        for lesson in self.lessons:
            yield from lesson.activities

    @property
    def taught(self) -> tuple[Lesson, ...]:
        """The lessons but for pages among them: where lessons are numbered, one without number, activities and notes is
        a page of the book (`## Cut-out page: the van`)."""
        if not any(lesson.heading.number for lesson in self.lessons):
            return self.lessons
        return tuple(
            lesson
            for lesson in self.lessons
            if lesson.heading.number
            or lesson.activities
            or any(passage.audience is Audience.TEACHER for passage in lesson.part.passages)
        )

    @property
    def passages(self) -> Iterator[Passage]:
        """Every passage of the unit in file order, headings included."""
        if self.heading is not None:
            yield self.heading.passage
        yield from self.opening.passages
        for activity in self.opening_activities:
            yield activity.heading.passage
            yield from activity.part.passages
        for lesson in self.lessons:
            yield from lesson.passages

    def div_kinds(self, passage: Passage) -> tuple[DivKind, ...]:
        """Kinds of the divs around a passage, innermost first."""
        kinds, index = [], passage.div
        while index is not None:
            kinds.append(self.divs[index].kind)
            index = self.divs[index].parent
        return tuple(kinds)
