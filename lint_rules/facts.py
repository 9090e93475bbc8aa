"""Small facts of one unit, all that the rules for the whole book get to see. Plain data, cacheable by content."""

from enum import StrEnum

import msgspec


class Spot(msgspec.Struct, frozen=True, array_like=True):
    """A place in a unit's file: offsets, and what a reader sees there."""

    start: int
    end: int
    text: str


class LessonTime(msgspec.Struct, frozen=True, array_like=True):
    """How long a lesson takes, in minutes: ``low`` to ``high``, both -1 where the manuscript does not say.

    ``parts`` is how many lessons it stands for (`2 x 40 minutes` is two).
    """

    heading: Spot
    low: float
    high: float
    parts: int = 1


class Where(StrEnum):
    """Where in a lesson a target word is met."""

    PANEL = "panel"  # a `words` panel
    PAGE = "page"
    SCRIPT = "script"
    RUBRIC = "rubric"  # a word of instructions in an instruction: `Listen and point.` teaches *listen*
    HEADING = "heading"  # any other word of a heading
    PICTURE = "picture"  # a picture that stands for the word
    TEST = "test"  # a test's page, script or picture
    KEY = "key"  # a test's answers: what the child has to write
    ANSWER = "answer"  # any other answers: a word that the child writes is met, and neither taught nor tested


TEACHING = frozenset({Where.PANEL, Where.PAGE, Where.SCRIPT, Where.RUBRIC})


class WordMet(msgspec.Struct, frozen=True, array_like=True):
    """A target word met in a lesson: its row (index in ``Course.words``), the lesson (index; -1: before the first one),
    where in it, the first place, and how often."""

    entry: int
    lesson: int
    where: Where
    spot: Spot
    times: int


class Instruction(msgspec.Struct, frozen=True, array_like=True):
    """An instruction: its place and words, and the kinds of its activity."""

    spot: Spot
    kinds: tuple[str, ...]


class UnitFacts(msgspec.Struct, frozen=True):
    """What the book needs to know of one unit."""

    path: str
    level: int
    unit: int
    title: Spot
    lessons: tuple[LessonTime, ...] = ()
    words: tuple[WordMet, ...] = ()
    structures: tuple[str, ...] = ()  # on pupil pages and in scripts, sorted
    structures_tested: tuple[str, ...] = ()  # those in tests, sorted
    words_by_band: tuple[tuple[str, int], ...] = ()  # different words there by CEFR band ('' where nobody gives one)
    instructions: tuple[Instruction, ...] = ()
    scripts: tuple[tuple[str, Spot], ...] = ()  # audio scripts: track and the div's first line
    tracks_elsewhere: tuple[tuple[str, Spot], ...] = ()  # tracks played here that are another unit's by their number
    track_references: tuple[tuple[Spot, str], ...] = ()  # `track 2.1` in a text, where it is another unit's
    activities: tuple[int, ...] = ()  # the numbers of its activities, where they run straight through it
    last_lesson: int = 0  # the highest number that a lesson has, by place or as written
    lesson_references: tuple[tuple[Spot, int, int], ...] = ()  # `unit 1, lesson 3`: where, unit and lesson
    # `unit 1, lesson 2, activity 3`: where, unit, lesson (0: not named) and activity
    activity_references: tuple[tuple[Spot, int, int, int], ...] = ()
    lesson_activities: tuple[tuple[int, tuple[int, ...]], ...] = ()  # the numbers of each numbered lesson's activities
    pictures: tuple[str, ...] = ()  # paths inside the course of the picture files that it names, sorted
    front_title: str = ""  # as its front matter has it
    words_written: int = 0  # in all that is written, for whomever
    in_passing: tuple[int, ...] = ()  # rows of its own target words that stand in it, and not where words are taught
