"""The texts around an exercise, and what they tell: numbers of things, sentences, all words."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from lint_rules import lazy_re
from lint_rules.manuscript.counting import is_for_children
from lint_rules.manuscript.model import Activity, Audience, Passage, Role, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.briefs import briefs_of
from lint_rules.page.exercises.model import Exercises, Item, Place
from lint_rules.page.number_words import NUMBER_WORDS, numbers_in
from lint_rules.tables import words
from lint_rules.unit_language.option_support import Told, told_in
from lint_rules.unit_language.tests_of import TEST

_OF_SELF = lazy_re.compile(r"\b(?:I|my|me|we|our|us)\b", re.I)
LARGE = 13  # a number that is not counted out of a text
_YEARS = 1000
_FIGURES = 3
_OF_PICTURE = lazy_re.compile(r"\b(?:look|pictures?|drawing|map|photo)\b", re.I)
_LONG = 8  # words of a passage that tells something


@dataclass(frozen=True, slots=True)
class Numbers:
    """What texts say in numbers: those of each thing, and all of them."""

    of: dict[str, set[int]]
    numbers: set[int]


@dataclass(frozen=True)
class Around:
    """The texts around an exercise, looked through only where one of its answers has a number, or a yes or a no.

    ``answered`` are its items, ``every`` those of the whole unit: what they ask tells nothing.
    """

    of_unit: Unit
    read: Exercises
    answered: Sequence[Item]
    every: Sequence[Item]

    @cached_property
    def _lesson(self) -> Sequence[Passage]:
        span = self.read.activity.span
        holds = (one for one in self.of_unit.lessons if any(activity.span == span for activity in one.activities))
        lesson = next(holds, None)
        if lesson is not None and TEST in lesson.classes:  # each task of a test is about its own text
            return (*lesson.part.passages, *self.read.activity.part.passages)
        return tuple(lesson.passages) if lesson is not None else ()

    @cached_property
    def tiers(self) -> tuple[Numbers, Numbers]:
        """What the task tells in numbers, with its picture, and what its lesson does."""
        about = dict.fromkeys((*self.read.activity.part.passages, *briefs_of(self.read.activity, self.of_unit)))
        near = _told(_texts(about, self.answered, briefs=True))
        return near, _told(_texts(self._lesson, self.answered, briefs=False))

    @cached_property
    def unit(self) -> Numbers:
        """What the unit tells in numbers."""
        return _told(_texts(self.of_unit.passages, self.answered, briefs=True))

    @cached_property
    def sentences(self) -> Sequence[Told]:
        """The sentences of the texts that tell something, what somebody says of himself with his name."""
        return told_in(
            f"{passage.speaker} {passage.text}" if _OF_SELF.search(passage.text) else passage.text
            for passage in self.telling
        )

    @cached_property
    def has_figures(self) -> bool:
        """Whether a table of the lesson has numbers: children reckon with them."""
        return _has_figures(self._lesson)

    def shows_one_number(self, thing: str) -> bool:
        """Whether the task tells one number of a thing, in its picture or its text, and has no table to reckon with."""
        return len(self.tiers[0].of.get(single(thing), ())) == 1 and not _has_figures(self.read.activity.part.passages)

    @cached_property
    def telling(self) -> Sequence[Passage]:
        """The passages of the lesson that tell something."""
        return list(_telling(self._lesson, self.every, briefs=False))

    @cached_property
    def stating(self) -> Sequence[Passage]:
        """The passages that a statement is held against: the picture of the task, where it is about one; else the texts
        of the lesson, with the pictures of its story."""
        own = [one for one in self.read.activity.part.passages if one.audience is Audience.ARTIST]
        if own and _OF_PICTURE.search(self.read.activity.heading.passage.text):
            return own
        lesson = next((one for one in self.of_unit.lessons if self.read.activity in one.activities), None)
        stories = [one for one in lesson.activities if "story" in one.kinds] if lesson is not None else []
        drawn = [one for story in stories for one in story.part.passages if one.audience is Audience.ARTIST]
        return [*self.telling, *drawn]

    @cached_property
    def script(self) -> Sequence[str]:
        """What is heard in the task itself."""
        return [one.text for one in heard_in(self.read.activity, self.of_unit)]

    @cached_property
    def texts(self) -> Sequence[str]:
        """The texts of the lesson."""
        return [passage.text for passage in self.telling]


def _has_figures(passages: Iterable[Passage]) -> bool:
    cells = [one for one in passages if one.cell is not None and any(char.isdigit() for char in one.text)]
    return len(cells) >= _FIGURES


def around_each(unit: Unit, readings: Sequence[Exercises]) -> Iterator[Around]:
    """The texts around the exercises of each activity of a unit, with its items that have an answer to look up."""
    numbered = [(item, read.activity) for read in readings for one in read.exercises for item in one.items]
    every = [item for item, activity in numbered if item.answer is not None or not _is_part_of_story(item, activity)]
    for read in readings:
        items = (item for one in read.exercises for item in one.items)
        answered = [item for item in items if item.answer is not None and not item.example]
        yield Around(unit, read, answered, every)


def _is_part_of_story(item: Item, activity: Activity) -> bool:
    """Say whether a number only counts the parts of a story, with nothing to do in them."""
    return "story" in activity.kinds and not item.gaps and not item.choices


def _texts(passages: Iterable[Passage], items: Sequence[Item], *, briefs: bool) -> Iterator[str]:
    yield from (passage.text for passage in _telling(passages, items, briefs=briefs))


def _telling(passages: Iterable[Passage], items: Sequence[Item], *, briefs: bool) -> Iterator[Passage]:
    """What tells something: texts, captions, scripts, and for the picture of the same task its brief; no item."""
    asked = {place.passage.block for item in items for place in item.prompt}
    for passage in passages:
        told = is_for_children(passage) and passage.role not in (Role.INSTRUCTION, Role.ALT)
        if passage.block in asked or not (told or (briefs and passage.audience is Audience.ARTIST)):
            continue
        said = passage.role is Role.TURN or passage.audience is not Audience.PUPIL
        if said or len(passage.text.split()) >= _LONG:
            yield passage


def _told(texts: Iterable[str]) -> Numbers:
    of: dict[str, set[int]] = {}
    numbers: set[int] = set()
    for text in texts:
        last = ""
        for number, start, end, thing in numbers_in(text):
            numbers.add(number)
            described = _DESCRIBED.match(text, end)
            if described is not None and not {described[1], single(described[2])} & (
                words("measures") | {*NUMBER_WORDS}
            ):
                of.setdefault(single(described[2]), set()).add(number)
            if not thing and last and _CORRECTED.search(text, 0, start):
                of[last].add(number)
            if thing and single(thing) not in words("measures"):
                last = single(thing)
                of.setdefault(last, set()).add(number)
                if _AND_MORE.search(text, 0, start):
                    of[last].add(number + 1)  # Piku and two small birds are two birds, or three
    return Numbers(of, numbers)


def numbers_pictured(place: Place) -> Iterator[int]:
    """The numbers that the pictures of a range show, by their alternative texts: ten tins in two rows."""
    for picture in place.passage.pictures:
        if place.start <= picture.at < place.end:
            yield from (number for number, *_ in numbers_in(picture.alt))


# There are eleven puppets. No, wait! There are twelve!
_CORRECTED = lazy_re.compile(
    r"\b(?:no|wait|sorry|oh)\b[^.?]{0,12}[.!,…]+\s+(?:(?:there\s+are|there\s+is|it['’]s)\s+)?$", re.I
)
_DESCRIBED = lazy_re.compile(r"\s+([a-z]+)\s+([a-z]+[^s\W]s)\b")  # three loose bolts; not 1 three carrots
_AND_MORE = lazy_re.compile(r"\b[A-Z][a-z]+ and (?:the )?(?:other )?$")


def single(thing: str) -> str:
    """A thing as things are compared: bags and bag are one."""
    return thing.casefold().removesuffix("s")


def other_number(number: int, thing: str, around: Around, *, asked: bool) -> int | None:
    """The one number that the texts have of a thing, or a large one, where they have not this one."""
    if number >= _YEARS:
        return None
    if single(thing) in words("measures"):
        return None  # fifty years are of one thing, and ninety of another
    for told in around.tiers:
        of = told.of.get(single(thing), set()) if thing else set()
        if any(one and number % one == 0 for one in of):
            return None  # ten pots and ten pots are twenty
        if len(of) == 1 and number not in told.numbers and (asked or not _is_made(number, told.numbers)):
            return next(iter(of))
        if of:
            return None
    large = {one for told in around.tiers for one in told.numbers if LARGE <= one < _YEARS}
    if number >= LARGE and len(large) == 1 and not _is_made(number, around.unit.numbers):
        return next(iter(large))
    return None


def _is_made(number: int, numbers: set[int]) -> bool:
    """Say whether a number stands in the texts, or can be reckoned from two that do."""
    large = [one for one in numbers if one >= LARGE]
    return number in numbers or any(number == one + other for one in large for other in large)
