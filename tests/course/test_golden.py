"""Bad course files and the problems that are said of them, in files that anyone can read: golden/*.txt."""

import re
from pathlib import Path

import pytest

from lint_rules.source import Source
from tests.course.support import is_inside, read

CASES = sorted((Path(__file__).parent / "golden").glob("*.txt"))


def parts(case: Path) -> dict[str, str]:
    """The files of a case by path, and what should be said of them under 'problems'."""
    pieces = re.split(r"^=== (.+)\n", case.read_text(encoding="utf-8"), flags=re.MULTILINE)
    return {name: text.removesuffix("\n") for name, text in zip(pieces[1::2], pieces[2::2], strict=True)}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_problems_are_said_as_written_down(case):
    files = parts(case)
    wanted = files.pop("problems")
    _, problems = read(files)
    assert "\n".join(map(str, problems)) == wanted
    assert all(is_inside(problem, Source(problem.path, files[problem.path])) for problem in problems)
