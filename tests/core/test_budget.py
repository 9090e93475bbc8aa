"""A unit that takes too long is said, with its name; the other units and the rules before it are not lost."""

import time
from dataclasses import replace

import pytest

from lint_rules.engine import budget
from lint_rules.engine.registry import load_rules
from tests.support import run_files

COURSE = "title: K\nlevels:\n  - name: level-1\n    cefr: A1\n"
UNIT = "---\nlevel: level-1\nunit: {0}\ntitle: T\n---\n\n# T\n\n## Lesson 1: L\n\n### 1 Read.\n\nText {0}.\n"
FILES = {
    "course.yaml": COURSE,
    "words/level-1.csv": "word,part_of_speech,topic,unit\n",
    "level-1/unit-01.md": UNIT.format(1),
    "level-1/unit-02.md": UNIT.format(2),
}


@pytest.mark.parametrize("slow", ["sleeps", "counts"])
def test_a_rule_without_end_is_stopped_and_named_with_its_unit(language, monkeypatch, slow):
    monkeypatch.setattr(budget, "UNIT_SECONDS", 0.3)

    def find(reading):
        if reading.unit.path.endswith("unit-01.md"):
            ends = time.monotonic() + 20
            while time.monotonic() < ends:
                if slow == "sleeps":
                    time.sleep(20)
        yield from ()

    rules = load_rules()
    first = next(index for index, module in enumerate(rules) if module.find is not None)
    slowed = [*rules[:first], replace(rules[first], find=find), *rules[first + 1 :]]
    began = time.monotonic()
    result = run_files(FILES, slowed, language)
    assert time.monotonic() - began < 15
    stuck = {(note.rule, note.path) for note in result.broken}
    assert (rules[first].rule.name, "level-1/unit-01.md") in stuck
    assert {path for _, path in stuck} <= {"level-1/unit-01.md"}
    assert all("was spent" in note.why for note in result.broken)
    assert len(result.facts) == 2


def test_a_usual_unit_is_nowhere_near_its_time(language):
    assert run_files(FILES, load_rules(), language).broken == ()
