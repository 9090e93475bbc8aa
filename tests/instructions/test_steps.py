"""How many steps an instruction has: 72 instructions, counted by hand."""

from pathlib import Path

import pytest

from lint_rules.language.grammar.steps import steps_of
from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Mode

LINES = [
    line.split(" | ", 1)
    for line in (Path(__file__).parent / "steps.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize(("number", "text"), LINES)
def test_steps_are_counted_as_a_reader_counts_them(number: str, text: str, language: Language) -> None:
    analysis = language.analyse([Request(text, Mode.INSTRUCTION)])[0]
    steps = [text[start:end] for start, end in steps_of(text, analysis)]
    assert len(steps) == int(number), steps
