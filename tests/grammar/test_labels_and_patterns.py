"""Labels in teacher's notes against pattern sentences: 54 pairs, judged by hand."""

from pathlib import Path

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.language.service import Language
from tests.support import run_files

RULES = load_rules()
COURSE = "title: T\nlevels:\n  - {name: level-1, cefr: B1, words: words.csv}\n"
LINES = [
    [part.strip() for part in line.split(" | ")]
    for line in (Path(__file__).parent / "labels.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


def pattern_of(text: str) -> str:
    if " / " not in text:
        return text
    cells = [cell.strip() for cell in text.split(" / ")]
    rows = [cells[at : at + 3] for at in range(0, len(cells), 3)]
    head, *body = (f"| {' | '.join(row)} |" for row in rows)
    return "\n".join([head, "|---|---|---|", *body])


@pytest.mark.parametrize("line", LINES, ids=lambda line: f"{line[0]}: {line[1]}")
def test_a_label_is_held_to_its_pattern_sentences(line: list[str], language: Language) -> None:
    verdict, label, pattern, *words = line
    unit = (
        "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: T {.grammar}\n\n::: teacher\n"
        f"**Grammar:** {label}\n:::\n\n### 1 Say. {{.speaking}}\n\n::: pattern\n{pattern_of(pattern)}\n:::\n"
    )
    files = {"course.yaml": COURSE, "words.csv": "word,part_of_speech,topic,unit\n", "level-1/unit-01.md": unit}
    found = run_files(files, RULES, language).open
    amiss = [finding.text for finding in found if finding.rule == "grammar-label-mismatch"]
    assert amiss == words
    assert bool(amiss) == (verdict == "amiss")
    assert not any(finding.rule == "missing-grammar-label" for finding in found)
