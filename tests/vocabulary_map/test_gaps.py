"""The words that `hornbook words --gaps` lists are those that the rules report, kind by kind."""

from pathlib import Path

import pytest

from lint_rules.cli import main

EXAMPLES = Path(__file__).parents[2] / "example_manuscript"
RULES = {
    "not taught": "target-word-not-taught",
    "met too seldom": "word-not-recycled",
    "not tested": "word-not-tested",
}

SAMPLED = "not tested"  # a test samples: where it asks for more than half of a unit's words, the rule keeps silent


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> list[str]:
    main([*arguments, "--no-cache"])
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize("name", [".", "first_draft"])
def test_gaps_are_those_of_the_findings(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    root = str(EXAMPLES / name)
    found = said(capsys, "book", root)
    listed = said(capsys, "words", root, "--gaps")
    for gap, rule in RULES.items():
        count = sum(line.endswith(f"[{rule}]") for line in found)
        counted = sum(int(line.split(":")[1].split()[0]) for line in listed if line.startswith(f"  {gap}:"))
        assert counted == count or (gap == SAMPLED and counted > count), gap
    assert (name == ".") == all("nothing is missing" in line for line in listed)


def test_the_map_begins_with_the_gaps(capsys: pytest.CaptureFixture[str]) -> None:
    root = str(EXAMPLES / "first_draft")
    gaps = said(capsys, "words", root, "--gaps")
    assert said(capsys, "words", root)[: len(gaps)] == gaps
    rows = said(capsys, "words", root, "--gaps", "--csv", "-")
    assert len(rows) > 1
    assert all(not row.endswith(",") for row in rows[1:])  # each says what is missing
