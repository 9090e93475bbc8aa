"""The exercises of an activity, as plain data. Everything stands somewhere: a place is a range of a passage."""

from collections.abc import Mapping
from dataclasses import dataclass

from lint_rules.manuscript.model import Activity, Passage
from lint_rules.source import Span


@dataclass(frozen=True, slots=True)
class Place:
    """A range of a passage's plain text."""

    passage: Passage
    start: int
    end: int

    @property
    def text(self) -> str:
        """What a reader sees there."""
        return self.passage.text[self.start : self.end]

    @property
    def span(self) -> Span:
        """Where in the file it stands."""
        return self.passage.span(self.start, self.end)

    def holds(self, other: "Place") -> bool:
        """Whether another place lies within this one."""
        return self.passage is other.passage and self.start <= other.start and other.end <= self.end


@dataclass(frozen=True, slots=True)
class Label:
    """The number or letter of an item, an option or an answer (`1`, `b`, `iii`), and where it stands.

    ``mark`` is all that marks it in its passage (`(1) `, `☐ a `); None where it is the list's, no part of the text.
    """

    text: str
    span: Span
    mark: Place | None = None

    @property
    def key(self) -> str:
        """The label as it is compared."""
        return self.text.casefold()


@dataclass(frozen=True, slots=True)
class Gap:
    """A blank to fill in. ``word`` is the whole word (`ch__se`, `h _ t`) where only some of its letters are missing;
    ``hint`` stands beside it in brackets: `____ (go)`."""

    place: Place
    word: Place | None = None
    hint: Place | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """One of the things to choose from; its label is None where it has none (`is / are`)."""

    place: Place
    label: Label | None = None

    @property
    def text(self) -> str:
        """What it says."""
        return self.place.text


@dataclass(frozen=True, slots=True)
class Choice:
    """Options of which one is to be chosen. ``inline`` is the range that they take up inside a sentence (`is / are`);
    None where they stand apart from it."""

    options: tuple[Option, ...]
    inline: Place | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of the key: what it says, and for which item (None: it is told by its place in the key)."""

    place: Place
    label: Label | None = None

    @property
    def text(self) -> str:
        """What it says."""
        return self.place.text


@dataclass(frozen=True, slots=True)
class Item:
    """One numbered or lettered task. ``prompt`` are the places that its words take up, without labels and options;
    ``jumble`` the place of letters or words to put in order; ``example``: it shows how it is done."""

    label: Label
    prompt: tuple[Place, ...] = ()
    gaps: tuple[Gap, ...] = ()
    choices: tuple[Choice, ...] = ()
    jumble: Place | None = None
    answer: Answer | None = None
    example: bool = False
    more: tuple[Label, ...] = ()  # the same label again, where its blanks or options stand apart

    @property
    def text(self) -> str:
        """The words of its prompt."""
        return " ".join(place.text.strip() for place in self.prompt).strip()


@dataclass(frozen=True, slots=True)
class WordBox:
    """Words to choose from for several gaps. ``place`` covers them all where they stand in one passage."""

    words: tuple[Place, ...]
    instead: bool = False  # two or three forms that each gap takes one of: `Write *is* or *are*`


@dataclass(frozen=True, slots=True)
class Key:
    """What the key says of one exercise. ``own``: it leaves answers to the children; ``order``: a row of labels that
    says in which order things come, or which of them are right; ``crossed``: it names what is to be crossed out."""

    answers: tuple[Answer, ...]
    own: bool
    order: tuple[Answer, ...] = ()
    crossed: bool = False


@dataclass(frozen=True, slots=True)
class Slip:
    """What is wrong at a place of an exercise, in words for its author."""

    place: Place
    message: str


@dataclass(frozen=True, slots=True)
class Exercise:
    """Items that belong together, with what they share: a column of options to match, a word box, their key.

    ``cloze``: they are blanks or choices within one running text; ``sorting``: they are columns that words go into.
    """

    items: tuple[Item, ...]
    key: Key
    column: tuple[Option, ...] = ()
    box: WordBox | None = None
    cloze: bool = False
    sorting: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Exercises:
    """How the page of an activity was read."""

    activity: Activity
    exercises: tuple[Exercise, ...]
    boxes: tuple[WordBox, ...]
    charts: tuple[Place, ...]  # the cells of charts and grids that are no sentences of their own
    lines: tuple[Place, ...]  # lines to write on that belong to no item
    loose: tuple[Answer, ...]  # what the key says that could not be given to an item
    own: bool
    keys: tuple[Passage, ...]
    heads: tuple[Place, ...]  # letters that head the parts of the page
    mended: Mapping[int, Passage]  # read with blanks that Markdown lost, by identity
