"""What a book has taken on itself: rules that it weakens, and by weight what it lets stand or carries over."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from lint_rules.course.model import Course
from lint_rules.course.versions import adopts
from lint_rules.finding import Finding, Severity
from lint_rules.rule import RuleModule

_WEIGHTS = {"stop": 3, "query": 2, "note": 1, "off": 0}


class Weakened(NamedTuple):
    """A rule that weighs less in this book than it usually does."""

    rule: str
    usual: str
    here: str


def weakened(course: Course, rules: Sequence[RuleModule]) -> Iterator[Weakened]:
    """The rules that course.yaml makes lighter or switches off, and those that it has not adopted yet, by name."""
    for module in sorted(rules, key=lambda module: module.rule.name):
        usual = module.rule.severity.value
        here = course.rules.get(module.rule.name, usual if adopts(course.adopted, module.rule.since) else "note")
        if is_lighter(here, usual):
            yield Weakened(module.rule.name, usual, here)


def is_lighter(weight: str, usual: str) -> bool:
    """Say whether one weight (`stop` … `off`) is less than another."""
    return _WEIGHTS[weight] < _WEIGHTS[usual]


def by_weight(findings: Iterable[Finding]) -> dict[str, int]:
    """How many findings weigh what: `{"stop": 1, "query": 3}`, the heaviest first."""
    counts = Counter(finding.severity for finding in findings)
    return {severity.value: counts[severity] for severity in Severity if counts[severity]}


def in_words(counts: dict[str, int]) -> str:
    """`1 stop, 3 queries`."""
    plural = {"query": "queries"}
    return ", ".join(f"{n} {name if n == 1 else plural.get(name, name + 's')}" for name, n in counts.items())
