"""Things as some words show them: in a colour, in a number. Pure."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.exercises.small_words import small_words
from lint_rules.tables import group, words
from lint_rules.unit_language.texts_around import single

_NAME = lazy_re.compile(r"(?<![^\W_])[A-Z][a-z]+")
_OF_ART = frozenset(["Drawing", "Drawings", "Photo", "Photos", "Picture", "Pictures", "Frame", "Frames"])
_ENDS = lazy_re.compile(r"[.!?;:\n]")
_FRUIT = frozenset([("orange", "tree"), ("orange", "trees"), ("orange", "juice")])
# What has a colour or a number without being a thing of the story.
_NO_THINGS = frozenset(
    [
        "light",
        "lights",
        "time",
        "times",
        "minutes",
        "frames",
        "pictures",
        "drawings",
        "parts",
        "pages",
        "panels",
        "boxes",
    ]
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A thing as some words have it: its colour or its number, and where the words stand in a passage."""

    thing: str  # as written: of one jacket and of two the colours may differ
    value: str
    passage: Passage
    start: int
    end: int

    @property
    def sentence(self) -> str:
        """The sentence that has them, or the frame: 1 Pim with a red hat; 2 …"""
        before, behind = self.passage.text[: self.start], self.passage.text[self.end :]
        return f"{_ENDS.split(before)[-1]}{self.text}{_ENDS.split(behind)[0]}"

    @property
    def names(self) -> frozenset[str]:
        """Who is named in its sentence."""
        return names_in(self.sentence)

    @property
    def text(self) -> str:
        """The words: green jacket."""
        return self.passage.text[self.start : self.end]


def names_in(text: str) -> frozenset[str]:
    """The names of a text, but for what briefs begin with (Drawing, Frame), and orders (Look at the kite!)."""
    others = small_words() | words("orders")
    return frozenset(name for name in _NAME.findall(text) if name.casefold() not in others) - _OF_ART


def is_of_no_story(one: Shown) -> bool:
    """Say whether words give a colour or a number to what is no thing of a story, or to people, who may be outside."""
    measured = single(one.thing) in words("measures") or (one.value, one.thing) in _FRUIT
    return measured or one.thing in _NO_THINGS or one.thing in small_words() or one.thing in group("persons")


def only_ones(every: Iterable[Shown], *, of_any_number: bool = False) -> dict[str, Shown]:
    """The first place of each thing that has one value alone; ``of_any_number``: a feather and feathers are one."""
    found: dict[str, list[Shown]] = {}
    for one in every:
        if not is_of_no_story(one):
            found.setdefault(single(one.thing) if of_any_number else one.thing, []).append(one)
    return {thing: several[0] for thing, several in found.items() if len({one.value for one in several}) == 1}


def coloured_in(passage: Passage, start: int, end: int, *, stated: bool = False) -> Iterator[Shown]:
    """The things to which a range of a passage gives a colour; ``stated``: also *The dress is yellow*, which may be so
    for some time only."""
    given, said = _ways()
    for pattern in (*given, said) if stated else given:
        for match in pattern.finditer(passage.text, start, end):
            before, behind = _rows()
            if before.search(passage.text, start, match.start()) or behind.match(passage.text, match.end("colour")):
                continue  # yellow, red and blue flowers
            colour = match["colour"].casefold().replace("gray", "grey")
            yield Shown(match["thing"].casefold(), colour, passage, *match.span())


@cache
def _rows() -> tuple["re.Pattern[str]", "re.Pattern[str]"]:
    """Colours in a row: those before the last of them, and those behind the first."""
    colours, link = "|".join(sorted(words("colours"))), r"\s*(?:,|&|\band\b|\bor\b)(?:\s*and\b)?\s*"
    return re.compile(rf"\b(?:{colours}){link}$", re.I), re.compile(rf"{link}(?:{colours})\b", re.I)


@cache
def _ways() -> tuple[tuple["re.Pattern[str]", ...], "re.Pattern[str]"]:
    """Ways to give a thing a colour: a red apple · an apple! It's red; and to state it: the apple is red."""
    colours, plain = (
        "|".join(sorted(names, key=len, reverse=True))
        for names in (words("colours") | {"gray"}, words("plain_adjectives"))
    )
    before = rf"\b(?P<colour>{colours})\s+(?:(?:{plain})\s+)?(?P<thing>[a-z]{{3,}})\b"
    behind = rf"\b(?:an?|the|my|your)\s+(?P<thing>[a-z]{{3,}})[.!]\s+It(?:['’]s| is)\s+(?P<colour>{colours})(?=[.!])"
    whose = r"(?:the|my|your|his|her|its|our|their)"
    stated = rf"\b{whose}\s+(?P<thing>[a-z]{{3,}})\s+(?:is|are|was|were)\s+(?P<colour>{colours})\b"
    return (re.compile(before, re.I), re.compile(behind, re.I)), re.compile(stated, re.I)
