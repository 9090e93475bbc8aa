"""Courses of many authors: whatever a check asks the language room for was asked before it runs."""

from pathlib import Path

import pytest

from lint_rules.engine.check import passages_to_analyse
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.readings import readings_of
from lint_rules.source import Source

# Every ninth: all are read by the score, and reading takes time.
UNITS = sorted(Path(__file__).parent.glob("*/course/*/unit-*.md"))[::9]


@pytest.mark.parametrize("path", UNITS, ids=lambda path: f"{path.parts[-4]}-{path.parent.name}-{path.stem}")
def test_every_answer_of_a_key_is_analysed(path: Path) -> None:
    readings = readings_of(read_unit(Source(path.name, path.read_text("utf-8"))))
    asked = set(map(id, passages_to_analyse(readings)))
    items = [item for read in readings.exercises for exercise in read.exercises for item in exercise.items]
    assert [item.answer.text for item in items if item.answer and id(item.answer.place.passage) not in asked] == []
