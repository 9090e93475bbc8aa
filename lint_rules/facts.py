"""Small facts of one unit, all that the rules for the whole book get to see. Plain data, cacheable by content."""

import msgspec


class Spot(msgspec.Struct, frozen=True, array_like=True):
    """A place in a unit's file: offsets, and what a reader sees there."""

    start: int
    end: int
    text: str


class LessonTime(msgspec.Struct, frozen=True, array_like=True):
    """How long a lesson takes, in minutes: ``low`` to ``high``, both -1 where the manuscript does not say."""

    heading: Spot
    low: float
    high: float


class UnitFacts(msgspec.Struct, frozen=True):
    """What the book needs to know of one unit."""

    path: str
    level: int
    unit: int
    title: Spot
    lessons: tuple[LessonTime, ...] = ()
