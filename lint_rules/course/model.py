"""The course as plain frozen data: settings, levels, target words, and what each unit sets out to teach."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from lint_rules.course.versions import FIRST

CEFR_BANDS = ("Pre-A1", "A1", "A2", "B1", "B2", "C1", "C2")  # Council of Europe, CEFR Companion Volume (2020)

PARTS_OF_SPEECH = (
    "noun",
    "verb",
    "adjective",
    "adverb",
    "pronoun",
    "determiner",
    "preposition",
    "conjunction",
    "number",
    "interjection",
    "phrase",
)  # of a word list; '' is any
ACTIVITY_KINDS = (
    "listening",
    "speaking",
    "reading",
    "writing",
    "survey",
    "story",
    "picture-sentence",
    "odd-one-out",
    "mind-map",
    "sounds",
    "make",
    "game",
    "song",
    "test",
    "mistakes",
)


def band_rank(band: str) -> int:
    """Order of a CEFR band: 0 for Pre-A1. Raises ValueError for anything that is no band."""
    return CEFR_BANDS.index(band)


@dataclass(frozen=True, slots=True)
class WordEntry:
    """A row of a word list: one target word.

    ``word`` as written, ``part_of_speech`` one of the design's names or '' (any), ``unit`` where it is taught (0:
    somewhere in this level), ``use`` 'say' or 'know', ``level`` the index of its level, ``row`` its line in the file.
    """

    word: str
    part_of_speech: str = ""
    topics: tuple[str, ...] = ()
    unit: int = 0
    use: str = "say"
    note: str = ""
    level: int = 0
    path: str = ""
    row: int = 0


@dataclass(frozen=True, slots=True)
class Limits:
    """The figures that a level is held to; the defaults per band stand in ``course/defaults.py`` with their sources."""

    lesson_minutes: tuple[int, int]
    instruction_words: int
    instruction_steps: int
    sentence_words: int
    text_words: int
    recycle: int


@dataclass(frozen=True, slots=True)
class Level:
    """A level of the course, in teaching order (``index`` from 0)."""

    index: int
    name: str
    cefr: str
    words_path: str
    hours: float
    units: int  # how many the level will have; 0 when the course does not say
    limits: Limits
    unit_pattern: tuple[str, ...]
    every_unit: tuple[str, ...]
    test_skills: tuple[tuple[str, ...], ...] = (("listening",), ("reading", "writing"), ("speaking",))
    hours_of_course: bool = False  # the course promises them itself


@dataclass(frozen=True, slots=True)
class RequiredNotes:
    """The fields that the teacher's notes must hold. ``activity`` None: Steps, where a page does not say it all."""

    lesson: tuple[str, ...] = ("Aim", "Time")
    activity: tuple[str, ...] | None = None
    of_course: bool = False  # the course says so itself: what is missing then is a query


@dataclass(frozen=True, slots=True)
class UnitPlan:
    """What a unit sets out to teach: from its front matter. ``grammar`` holds the labels as the author wrote them."""

    level: int
    unit: int
    title: str
    topics: tuple[str, ...]
    grammar: tuple[str, ...]
    path: str


@dataclass(frozen=True, slots=True)
class Course:
    """A course: its settings, its target words, and the plans of all its units (``plans``, in teaching order)."""

    title: str
    variety: str
    ages: tuple[int, int]
    characters: tuple[str, ...]
    known: tuple[str, ...]
    levels: tuple[Level, ...]
    words: tuple[WordEntry, ...] = ()
    plans: tuple[UnitPlan, ...] = ()
    rules: Mapping[str, str] = field(default_factory=dict)  # rule → 'stop' | 'query' | 'note' | 'off'
    places: tuple[str, ...] = ()  # names of places, schools, ships
    structures: Mapping[str, str] = field(default_factory=dict)  # structure → CEFR band, over the house defaults
    off_list: str = ""  # what an off-list word above the band weighs: stop | query | note | picture; '': by the word
    instruction_words: tuple[str, ...] = ()  # words of rubrics that this course's children know
    note_fields: tuple[str, ...] = ()  # fields of its own in the teacher's notes
    markets: tuple[str, ...] = ()  # markets whose own sensitive topics are asked about, beside those of every course
    sensitive_off: tuple[str, ...] = ()  # sensitive topics this course has cleared
    survey_classmates: int = 3
    adopted: str = FIRST  # the version of hornbook whose rules weigh what they weigh; newer ones advise
    art: str = "briefs"  # briefs: art is still to come; files: every picture must be there
    required_notes: RequiredNotes = RequiredNotes()

    @property
    def names(self) -> tuple[str, ...]:
        """The names that the course says it uses: of characters and of places."""
        return (*self.characters, *self.places)

    def level_named(self, name: str) -> Level | None:
        """The level of that name, or None."""
        return next((level for level in self.levels if level.name == name), None)

    def level_of(self, path: str) -> Level | None:
        """The level whose unit file this path inside the course is (`level-1/unit-01.md`), or None."""
        folder, _, name = path.rpartition("/")
        is_unit = name.lower().endswith(".md") and not name.startswith(".")
        return self.level_named(folder) if is_unit else None
