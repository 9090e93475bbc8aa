"""Which findings a file's stets let stand (proofreader's *stet*: let it stand)."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from lint_rules.finding import Finding, Status
from lint_rules.manuscript.model import Stet
from lint_rules.manuscript.stets import is_lapsed


def is_valid(stet: Stet, today: date) -> bool:
    """Say whether a stet can let anything stand: it has a rule, a reason, and has not lapsed."""
    return bool(stet.rule and stet.reason and not stet.fault) and not is_lapsed(stet, today)


def lets_stand(stet: Stet, finding: Finding) -> bool:
    """Say whether a stet's rule and block are those of a finding."""
    covers = stet.covers
    return stet.rule == finding.rule and covers is not None and covers.start <= finding.span.start <= covers.end


def apply_stets(
    findings: Iterable[Finding], stets: Sequence[Stet], today: date
) -> tuple[list[Finding], frozenset[Stet]]:
    """Mark the findings of one file that its stets let stand; give back the stets that let something stand."""
    valid = [stet for stet in stets if is_valid(stet, today)]
    used: set[Stet] = set()
    settled = []
    for finding in findings:
        stet = next((stet for stet in valid if lets_stand(stet, finding)), None)
        if stet is not None:
            used.add(stet)
            finding = replace(finding, status=Status.LET_STAND, reason=stet.reason)
        settled.append(finding)
    return settled, frozenset(used)
