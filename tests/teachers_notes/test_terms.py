"""Terms of grammar on a pupil's page: 38 lines, judged by hand."""

from pathlib import Path

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.language.service import Language
from tests.support import run_files

RULES = tuple(module for module in load_rules() if module.rule.name == "grammar-term-on-page")
FILES = {
    "course.yaml": "title: T\nlevels:\n  - {name: level-1, cefr: A1, words: words.csv}\n",
    "words.csv": "word,part_of_speech,topic,unit\n",
}
LINES = [
    tuple(line.rsplit(" |", 1))
    for line in (Path(__file__).parent / "terms.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize(("text", "wanted"), LINES)
@pytest.mark.parametrize("page", ["{}\n", "- {}\n", "::: box\n{}\n:::\n"])
def test_terms_are_found_and_everyday_words_are_not(text: str, wanted: str, page: str, language: Language) -> None:
    unit = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: T\n\n### 1 Look.\n\n" + page.format(text)
    found = run_files({**FILES, "level-1/unit-01.md": unit}, RULES, language).open
    assert [finding.text for finding in found] == [term.strip() for term in wanted.split(",") if term.strip()]
