"""What is said of a word that comes back too seldom says what the author can still do about it."""

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files

UNIT = "## Lesson 1: Kites {.words}\n\n### 1 Look.\n\nA kite!\n\n## Lesson 2: Hats\n\n## Lesson 3: Cats\n"


def message(language, units):
    example = Example(UNIT, words="kite,noun,toys,1\n", course=f"levels:\n  - recycle: 5\n    units: {units}\n")
    result = run_files(assemble(example).files, load_rules(), language)
    (found,) = [finding for finding in result.open if finding.rule == "word-not-recycled"]
    return found.message


def test_units_still_to_come_are_not_said_to_be_missing(language):
    assert "still to come" in message(language, 2)


def test_the_last_unit_is_told_that_only_its_own_lessons_are_left(language):
    assert "no later unit" in message(language, 1)


def test_no_more_is_asked_for_than_lessons_are_left(language):
    example = Example("## Lesson 1: Kites {.words}\n\n### 1 Look.\n\nA kite!\n", words="kite,noun,toys,1\n")
    result = run_files(assemble(example).files, load_rules(), language)
    assert "word-not-recycled" not in {finding.rule for finding in result.open}
