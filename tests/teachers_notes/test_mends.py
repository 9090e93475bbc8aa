"""What the rules on teacher's notes offer to write: drafts stay marked, line ends stay as they are."""

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.engine.suppression.mends import apply_mends
from lint_rules.language.service import Language
from tests.support import run_files

RULES = load_rules()
COURSE = "title: T\nlevels:\n  - {name: level-1, cefr: A1, words: words.csv}\n"
UNIT = """\
---
level: level-1
unit: 1
title: Kites
grammar: [present continuous]
---

# Kites

## Lesson 1: It's windy {.grammar}

::: teacher
**Materials:** paper

**Time:** 40 minutes
:::

### 1 Listen and say. {.listening}

::: pattern
The wind is blowing.
:::

::: teacher
**Time:** 10 minutes
:::

### 2 Make a kite. {.make}

::: teacher
**Time:** 30 minutes

**Setps:** Children cut out a kite.

**Safety:** Round-ended scissors, children stay seated. Follow your school's rules.
:::
"""


def mended(language: Language, text: str, rule: str) -> str:
    files = {"course.yaml": COURSE, "words.csv": "word,part_of_speech,topic,unit\n", "level-1/unit-01.md": text}
    result = run_files(files, RULES, language)
    mends = [finding.mend for finding in result.open if finding.rule == rule and finding.mend]
    assert mends
    return apply_mends(text, mends)[0]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_a_missing_label_is_written_as_the_unit_names_it(language, line_end):
    text = UNIT.replace("\n", line_end)
    after = mended(language, text, "missing-grammar-label")
    assert "**Grammar:** present continuous" in after.splitlines()
    assert after.count("\n") - text.count("\n") == after.count(line_end) - text.count(line_end) > 0
    assert "\n\n::: \n" not in after


def test_missing_fields_are_drafted_with_a_mark_and_a_misspelt_one_is_renamed(language):
    after = mended(language, UNIT, "missing-note-field")
    assert "**Aim:** [check] say and ask something new" in after
    assert "**Steps:** [check] Play the audio twice." in after
    assert "**Steps:** Children cut out a kite." in after
    assert "Setps" not in after


def test_what_the_steps_use_is_added_to_the_list(language):
    text = UNIT.replace("**Setps:** Children cut out", "**Steps:** Children use scissors for")
    after = mended(language, text, "material-not-listed")
    assert "**Materials:** paper, scissors\n" in after


def test_a_second_run_has_nothing_to_mend(language):
    after = mended(language, UNIT, "missing-note-field")
    files = {"course.yaml": COURSE, "words.csv": "word,part_of_speech,topic,unit\n", "level-1/unit-01.md": after}
    assert [f for f in run_files(files, RULES, language).open if f.rule == "missing-note-field"] == []
