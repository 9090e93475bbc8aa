"""Units made of lines of text, for the tests of this folder."""

from collections.abc import Iterable
from pathlib import Path

from lint_rules.course.model import Course
from lint_rules.engine.example import unmark
from lint_rules.english.text import matches_of
from lint_rules.language.service import English
from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.rule import Reading
from lint_rules.rules.correct_english import english_error
from lint_rules.source import Source
from tests.support import course_of, no_analysis

HERE = Path(__file__).parent
_HEAD = (
    "---\nlevel: level-1\nunit: 1\ntitle: A page\n---\n\n# A page\n\n## Lesson 1 {.words}\n\n### 1 Look. {.reading}\n\n"
)
_COURSE = (
    "title: The page\nvariety: VARIETY\ncharacters: [Mina, Rafi, Milo, Dot]\n"
    "levels:\n  - name: level-1\n    cefr: A1\n    words: words/level-1.csv\n"
)


def lines_of(name: str) -> list[str]:
    lines = (HERE / name).read_text(encoding="utf-8").splitlines()
    return [line for line in lines if line.strip() and not line.startswith("#")]


def unit_of(lines: Iterable[str], *, notes: bool = False) -> Unit:
    """A unit whose one activity has a paragraph a line, on the pupil's page or in the teacher's notes."""
    body = "\n\n".join(lines)
    text = _HEAD + (f"::: teacher\n{body}\n:::\n" if notes else f"{body}\n")
    unit = read_unit(Source("level-1/unit-01.md", text))
    assert not [one for one in unit.problems if one.blocks], unit.problems
    return unit


def course(variety: str = "en-GB") -> Course:
    words = "word,part_of_speech,topic,unit\n"
    return course_of({"course.yaml": _COURSE.replace("VARIETY", variety), "words/level-1.csv": words})


def slips(unit: Unit, english: English, variety: str = "en-GB", of: Course | None = None) -> list[tuple[str, str]]:
    """What english-error finds in a unit: the words, and the message."""
    matches = matches_of(english, [done := readings_of(unit)], variety)
    house = of or course(variety)
    reading = Reading(unit, house, house.levels[0], no_analysis, lambda passage: matches.get(passage, ()), done=done)
    return [(found.text, found.message) for found in english_error.find(reading)]


def marked(text: str) -> tuple[str, list[str]]:
    """A line without its « », and the words that stood between them."""
    plain, spans = unmark(text)
    return plain, [plain[span.start : span.end] for span in spans]
