"""One unit, laid out as other authors would: whatever is said of one layout is said of all.

Each folder holds a short unit (``base/``, with its course) and the same unit, word for word, in the ways of four or
five other authors, set by hands that never saw the program (``a.md`` …). Notes stand there as tables, letters, lists
and definitions, under other names; keys as rows, sentences, at the lesson's end; scripts and items in every shape.
What is said of a layout and not of the base is a way of writing that was not read.
"""

import re
from collections import Counter
from pathlib import Path

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.finding import Severity
from tests.support import run_files

HERE = Path(__file__).parent
LAYOUTS = sorted(path for path in HERE.glob("*/*.md"))
# Rules whose findings have no words of their own, or stand at other words in another layout.
_ELSEWHERE = frozenset(
    {
        "lesson-time-mismatch", "test-skills", "audio-script", "long-text", "broken-reference", "answers-mismatch",
        "target-word-not-taught", "missing-safety-note",
    }
)  # fmt: skip
_LETTERS = 14
# What a layout is silent about and the base says: times and numbers told in a way that is not read to the end.
_TIME, _CARE = ("lesson-time-mismatch", ""), ("missing-safety-note", "")
LOST = {
    "frog-a": [_TIME],
    "frog-b": [_TIME],
    "frog-c": [_CARE],
    "frog-e": [_TIME],
    "library-d": [("broken-reference", ""), _CARE],
    "observatory-a": [_TIME],
    "observatory-d": [_TIME],
    "rucksack-b": [_TIME],
    "rucksack-c": [_TIME],
    "rucksack-d": [("long-sentence", "putwooloncupon")],
    "stage-d": [_TIME],
}
# What a layout alone is accused of: a frog that is pressed and let go, taken for something that is shot.
GAINED = {"frog-b": [_CARE]}


def said_of(base: Path, unit: str, language) -> Counter[tuple[str, str]]:
    """The stops and queries of a unit in its course, by rule and the first letters of their words."""
    files = {path.relative_to(base).as_posix(): path.read_text("utf-8") for path in base.rglob("*") if path.is_file()}
    (name,) = (path for path in files if path.endswith(".md"))
    result = run_files(files | {name: unit}, load_rules(), language)
    found: Counter[tuple[str, str]] = Counter()
    for point in result.points:
        if point.severity is not Severity.NOTE:
            first = point.findings[0]
            words = "" if first.rule in _ELSEWHERE else re.sub(r"[^a-z]", "", first.text.lower())[:_LETTERS]
            found[first.rule, words] += 1
    return found


@pytest.mark.parametrize("layout", LAYOUTS, ids=[f"{path.parent.name}-{path.stem}" for path in LAYOUTS])
def test_a_layout_is_accused_of_nothing_that_the_base_is_not(layout: Path, language) -> None:
    base = layout.parent / "base"
    (unit,) = base.glob("*/unit-*.md")
    of_base = said_of(base, unit.read_text("utf-8"), language)
    of_layout = said_of(base, layout.read_text("utf-8"), language)
    assert of_layout - of_base == Counter(GAINED.get(f"{layout.parent.name}-{layout.stem}", ()))
    assert of_base - of_layout == Counter(LOST.get(f"{layout.parent.name}-{layout.stem}", ()))
