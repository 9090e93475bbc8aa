"""Manuscripts that each activity rule flags, at the words in « », or leaves alone: the files in ``cases/``.

A file begins with lines `key: value` (`rule`, and optionally `course`, `files`, and `words`, whose value is the rows
that follow). Cases begin with a line `=== why`; a case holds what an example holds: lessons, activities, or what stands
in one.
"""

from pathlib import Path

import pytest

from lint_rules.engine.example import assemble
from lint_rules.engine.registry import load_rules
from lint_rules.rule import Example
from tests.support import run_files

RULES = load_rules()
FOLDER = Path(__file__).parent / "cases"


def read_cases() -> list:
    found = []
    for path in sorted(FOLDER.glob("*.md")):
        head, *cases = path.read_text(encoding="utf-8").split("\n=== ")
        settings = dict(line.split(": ", 1) for line in head.splitlines() if ": " in line and "," not in line)
        words = head.partition("\nwords:\n")[2]
        for case in cases:
            why, _, text = case.partition("\n")
            example = Example(
                text.strip("\n") + "\n",
                course=settings.get("course", ""),
                words=words,
                files=tuple(settings.get("files", "").split()),
            )
            found.append(pytest.param(settings["rule"], example, id=f"{path.stem}: {why}"))
    return found


@pytest.mark.parametrize(("rule", "example"), read_cases())
def test_case(rule, example, language):
    assembled = assemble(example)
    module = next(module for module in RULES if module.rule.name == rule)
    result = run_files(assembled.files, [module], language, art=frozenset(example.files))
    assert not result.broken
    path = "level-1/unit-01.md"
    found = [tuple(finding.span) for finding in result.open]
    wanted = [tuple(span) for span in assembled.flagged[path]]
    assert found == wanted, [(finding.text, finding.message) for finding in result.open]


def test_as_many_are_left_alone_as_are_caught():
    for path in FOLDER.glob("*.md"):
        cases = path.read_text(encoding="utf-8").split("\n=== ")[1:]
        assert sum("«" not in case for case in cases) >= sum("«" in case for case in cases), path.name
