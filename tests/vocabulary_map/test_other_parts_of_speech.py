"""A target word that children see counts, whatever part of speech the parser or the list has it down for."""

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files

UNIT = (
    "## Lesson 1: Days {{.words}}\n\n### 1 Read.\n\n{first}\n\n"
    "## Lesson 2: Again {{.story}}\n\n### 1 Read.\n\n{later}\n"
)
COURSE = "levels:\n  - recycle: 1\n    units: 1\n"


@pytest.mark.parametrize(
    ("words", "first", "later", "met"),
    [
        ("yesterday,adverb,,1\n", "We sang yesterday.", "Yesterday was a good day.", True),
        ("brush,verb,,1\n", "I brush my dog.", "1 brush 2 comb", True),
        ("brush,verb,,1\n", "I brush my dog.", "1 bush 2 comb", False),
    ],
)
def test_a_word_is_met_again_as_any_part_of_speech(language, words, first, later, met):
    example = Example(UNIT.format(first=first, later=later), words=words, course=COURSE)
    result = run_files(assemble(example).files, load_rules(), language)
    assert ("word-not-recycled" not in {finding.rule for finding in result.open}) == met
