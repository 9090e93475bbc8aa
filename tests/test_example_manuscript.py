"""The course that ships is clean, and the first draft beside it shows every rule.

The faults of the draft stand in golden/first_draft_faults.csv: the rule, the file, the line of the manuscript, the
words that are to be pointed at, and the fault as an editor would put it.
"""

import csv
import re
from collections.abc import Sequence
from pathlib import Path
from xml.etree.ElementTree import parse

import pytest

from lint_rules.course.folder import read_course_folder
from lint_rules.course.versions import CURRENT
from lint_rules.engine.check import Result
from lint_rules.engine.registry import load_rules
from lint_rules.finding import Finding, Status
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.service import EnglishMatch, Language
from tests.support import run_files

REPOSITORY = Path(__file__).parents[1]
EXAMPLE = REPOSITORY / "example_manuscript"
DRAFT = EXAMPLE / "first_draft"
FAULTS = list(
    csv.DictReader((REPOSITORY / "tests/golden/first_draft_faults.csv").read_text(encoding="utf-8").splitlines())
)
UNITS = sorted(EXAMPLE.glob("level-*/unit-*.md"))


class HeardOneSlip:
    """Stands in for the English checker, which tests/english asks in earnest: knows one slip of the draft."""

    version = "one slip"

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        return [
            (EnglishMatch(text.index("is"), text.index("is") + 2, "AGREEMENT", "GRAMMAR", "“hens are”"),)
            if text.startswith("The hens is")
            else ()
            for text in texts
        ]


def read(folder: Path, language: Language) -> Result:
    """Run every rule over a course on disk, without the courses inside it."""
    paths = [folder / "course.yaml", *folder.glob("words/*.csv"), *sorted(folder.glob("level-*/*.md"))]
    files = {path.relative_to(folder).as_posix(): path.read_text(encoding="utf-8") for path in paths}
    art = frozenset(path.relative_to(folder).as_posix() for path in folder.glob("art/*"))
    return run_files(files, load_rules(), language, english=HeardOneSlip(), art=art)


@pytest.fixture(scope="module")
def draft(language: Language) -> Result:
    return read(DRAFT, language)


def line_of(finding: Finding) -> str:
    return (DRAFT / finding.path).read_text(encoding="utf-8").split("\n")[finding.start.line - 1]


@pytest.mark.parametrize("folder", [EXAMPLE, DRAFT])
def test_the_example_has_adopted_every_rule_there_is(folder: Path) -> None:
    read = read_course_folder(folder, [module.rule.name for module in load_rules()], STRUCTURE_NAMES)
    assert read.course is not None
    assert read.course.adopted == CURRENT


def test_the_example_has_no_open_finding(language: Language) -> None:
    result = read(EXAMPLE, language)
    assert result.broken == ()
    assert [f"{one.path}:{one.start.line} {one.text} [{one.rule}]" for one in result.open] == []


def test_the_example_lets_one_finding_stand_with_its_reason(language: Language) -> None:
    stood = [one for one in read(EXAMPLE, language).findings if one.status is Status.LET_STAND]
    assert [(one.rule, one.reason) for one in stood] == [("long-sentence", "one line of the chant, said on four beats")]


def test_the_draft_has_a_fault_of_every_rule() -> None:
    assert {row["rule"] for row in FAULTS} == {module.rule.name for module in load_rules()}


@pytest.mark.parametrize("row", FAULTS, ids=lambda row: f"{row['rule']}-{row['words'][:20]}")
def test_a_fault_of_the_draft_is_found_at_its_words(row: dict[str, str], draft: Result) -> None:
    found = [one for one in draft.findings if one.rule == row["rule"] and one.path == row["file"]]
    assert (row["line"], row["words"]) in [(line_of(one), one.text) for one in found]


def test_the_draft_is_not_scolded_for_more_than_an_editor_would(draft: Result) -> None:
    """Stops and queries that no row of the list foresees: each was read and found fair."""
    foreseen = {(row["rule"], row["line"]) for row in FAULTS}
    open_ones = [one for one in draft.open if one.severity != "note" and (one.rule, line_of(one)) not in foreseen]
    assert sorted((one.rule, one.text) for one in open_ones) == [
        ("long-sentence", "Here is a glass of wine for you, Captain Lou, and here is the cake!"),
        ("word-before-taught", "sea"),
    ]


@pytest.mark.parametrize("path", UNITS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_a_unit_has_the_length_that_publishers_give_one(path: Path) -> None:
    """600 to 1,200 words with notes, scripts and answers (common practice, no source)."""
    text = re.sub(r"\A---\n.*?\n---\n", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
    text = re.sub(r"\]\([^)]*\)|\{[^}]*\}|^:::.*$|<!--.*?-->", "", text, flags=re.MULTILINE)
    assert 600 <= len(re.findall(r"[^\W\d_][\w'-]*", text)) <= 1200


def test_every_picture_is_a_small_drawing_with_a_title() -> None:
    drawings = sorted(EXAMPLE.glob("art/*.svg"))
    assert drawings
    for drawing in drawings:
        assert drawing.stat().st_size < 1000
        title = parse(drawing).getroot().find("{http://www.w3.org/2000/svg}title")
        assert title is not None
        assert title.text
