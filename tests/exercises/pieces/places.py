"""A place to read, all of the last passage of a page; and what one rule says of a page."""

from array import array
from dataclasses import replace

from lint_rules.page.exercises.model import Place
from lint_rules.rule import Reading, RuleModule
from tests.exercises.test_layouts import ACTIVITY, unit_of
from tests.support import course_of, no_analysis, no_english

_COURSE = "title: A course\nlevels:\n  - name: level-1\n    cefr: A1\n    words: words/level-1.csv\n"


def key(text: str) -> str:
    """A key at the end of a page."""
    return f"\n\n::: answers\n{text}\n:::\n"


def place_of(page: str) -> Place:
    """All of what the last paragraph of a page says."""
    (activity,) = unit_of(f"{ACTIVITY}{page}\n").activities
    passage = activity.part.passages[-1]
    return Place(passage, 0, len(passage.text))


def as_it_stands(text: str) -> Place:
    """A place with all its spaces and signs, whatever Markdown would make of them."""
    starts = array("l", range(len(text)))
    ends = array("l", range(1, len(text) + 1))
    return Place(replace(place_of("x").passage, text=text, starts=starts, ends=ends), 0, len(text))


def said_of(rule: RuleModule, page: str, instruction: str = "Look and read. {.reading}") -> list[tuple[str, str]]:
    """What a rule that needs no language says of a page: at which words, and the first words of its message."""
    assert rule.find is not None
    unit = unit_of(f"### 1 {instruction}\n\n{page}\n")
    course = course_of({"course.yaml": _COURSE, "words/level-1.csv": "word,part_of_speech,topic,unit\n"})
    found = rule.find(Reading(unit, course, course.levels[0], no_analysis, no_english))
    return [(one.text, one.message) for one in found]
