"""Every finding has a place where it can be let stand: shown on the first draft, which has a fault of every rule.

A stet goes where a writer would put it: on a line above a heading, a paragraph or a div; at the end of the line of a
heading, an item or a row. It lets stand what its rule finds in that block, nothing else changes, and it is of use.
"""

import re
from collections import Counter
from collections.abc import Callable

import pytest

from lint_rules.engine.check import Outcome, Result
from lint_rules.engine.registry import load_rules
from lint_rules.finding import Finding, Status
from lint_rules.language.service import Language
from lint_rules.source import Source
from tests.support import run_files
from tests.test_example_manuscript import DRAFT, HeardOneSlip

RULES = load_rules()
NAMES = sorted(module.rule.name for module in RULES)
FILES = {
    path.relative_to(DRAFT).as_posix(): path.read_text(encoding="utf-8")
    for path in (DRAFT / "course.yaml", *DRAFT.glob("words/*.csv"), *sorted(DRAFT.glob("level-*/*.md")))
}
ART = frozenset(path.relative_to(DRAFT).as_posix() for path in DRAFT.glob("art/*"))
_HEADING = re.compile(r"#{1,6} ")
_PART = re.compile(r"[ \t]*(?:[-*+]|\d+[.)]|\(?[a-z]\)) |\|")  # an item or a row

Known = tuple[str, str, str, str]


class Units:
    """What was read of a unit as it stood: a stet changes one of them."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, str], Outcome] = {}

    def recall(self, source: Source) -> Outcome | None:
        return self._known.get((source.path, source.text))

    def keep(self, source: Source, outcome: Outcome) -> None:
        self._known[source.path, source.text] = outcome


@pytest.fixture(scope="module")
def read(language: Language) -> Callable[[dict[str, str]], Result]:
    units = Units()
    return lambda files: run_files(files, RULES, language, english=HeardOneSlip(), art=ART, memory=units)


@pytest.fixture(scope="module")
def usual(read: Callable[[dict[str, str]], Result]) -> Result:
    return read(FILES)


def known(finding: Finding) -> Known:
    return finding.rule, finding.path, finding.text, finding.message


def above(lines: list[str], line: int, stet: str) -> list[str]:
    """The text with a stet on a line of its own, above the block that a line is in."""
    first = line
    while not _HEADING.match(lines[first]) and lines[first - 1].strip():
        first -= 1
    return [*lines[:first], stet, "", *lines[first:]]


def behind(lines: list[str], line: int, stet: str) -> list[str]:
    """The text with a stet at the end of a line."""
    return [*lines[:line], f"{lines[line]} {stet}", *lines[line + 1 :]]


def places(text: str) -> list[Callable[[list[str], int, str], list[str]]]:
    """Where a writer may put the stet for a finding in a line."""
    if _PART.match(text):
        return [behind]
    return [above, behind] if _HEADING.match(text) else [above]


@pytest.mark.parametrize("rule", NAMES)
def test_a_stet_lets_stand_what_its_rule_finds_in_its_place_and_nothing_else(
    rule: str, usual: Result, read: Callable[[dict[str, str]], Result]
) -> None:
    findings = [finding for finding in usual.open if finding.rule == rule]
    assert findings
    for finding in findings:
        lines = FILES[finding.path].split("\n")
        line = finding.start.line - 1
        for put in places(lines[line]):
            stet = f"<!-- stet {rule}: it may stand here -->"
            result = read({**FILES, finding.path: "\n".join(put(lines, line, stet))})
            after = Counter(known(one) for one in result.open)
            silenced = Counter(known(one) for one in usual.open) - after
            assert after - Counter(known(one) for one in usual.open) == Counter(), "nothing new, no stet without use"
            assert known(finding) in silenced
            assert {name for name, *_ in silenced} == {rule}
            stood = [one for one in result.findings if one.reason == "it may stand here"]
            assert all(one.status is Status.LET_STAND for one in stood)
            assert len(stood) == silenced.total()
            assert len({one.start.line for one in stood}) == 1 or not _HEADING.match(lines[line])
