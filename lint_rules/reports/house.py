"""A report held against the policy of the house: what a book may not grant itself."""

from collections.abc import Iterator
from dataclasses import replace

from lint_rules.course.house import House
from lint_rules.finding import Finding, Status
from lint_rules.reports.report import Lack, Report


def without_short_reasons(report: Report, house: House) -> Report:
    """The report in which stets with fewer words of reason than the house wants let nothing stand."""

    def judged(finding: Finding) -> Finding:
        short = finding.status is Status.LET_STAND and len(finding.reason.split()) < house.reason_words
        return replace(finding, status=Status.OPEN, reason="") if short else finding

    return replace(report, result=replace(report.result, findings=tuple(map(judged, report.result.findings))))


def house_lacks(report: Report, house: House, *, compared: bool) -> Iterator[Lack]:
    """What the house asks for and the book does not have."""
    stood = len(report.with_status(Status.LET_STAND))
    carried = sum(entry.count for entry in report.carried_kept)
    if house.stets is not None and stood > house.stets:
        yield Lack(f"{stood} findings are let stand", f"the house's policy allows {house.stets}")
    if house.carried is not None and carried > house.carried:
        yield Lack(f"{carried} findings are carried over", f"the house's policy allows {house.carried}")
    if house.since and not compared:
        yield Lack("nothing to compare with", "the house's policy asks for --since, the record of an earlier release")
