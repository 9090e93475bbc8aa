"""``hornbook mend``: applies the safe mends, or shows them as a unified diff."""

import argparse
import difflib
import re
from collections.abc import Sequence
from dataclasses import replace

from rich.console import Console

from lint_rules.desk import Tools, proof_reports, tools
from lint_rules.exits import CANNOT_RUN, CLEAN, RULE_BROKE, CannotRun
from lint_rules.finding import Finding, Severity
from lint_rules.letstand.mends import apply_mends
from lint_rules.reports.report import Report
from lint_rules.source import Source
from lint_rules.store import write_whole

_LINES = re.compile(r"[^\n]*\n|[^\n]+")  # as git counts lines: a form feed ends none
_ROUNDS = 10  # a mend may make room for another one; more than a few rounds would be a mistake of ours


def run(arguments: argparse.Namespace) -> int:
    """Mend the units that are named."""
    console = Console(highlight=False, soft_wrap=True)
    with tools(arguments) as kit:
        reports = proof_reports(arguments.files, kit, Severity.STOP)
        changed = [change for report in reports for change in _changes(report, kit)]
    for report, before, after, titles in changed:
        path = report.path(before.path)
        if arguments.show:
            console.print(_diff(path, before.text, after.text), end="", markup=False)
            continue
        try:
            write_whole(report.root / before.path, after.encode())
        except OSError as error:
            raise CannotRun(f"{path} could not be written ({error.strerror}); it is as it was.") from error
        for title in titles:
            console.print(f"{path}: {title}", markup=False)
    if not changed:
        console.print("Nothing to mend here that is safe to mend without you.")
    if any(report.broken for report in reports):
        return RULE_BROKE
    return CANNOT_RUN if any(report.spoilt for report in reports) else CLEAN


def _changes(report: Report, kit: Tools) -> list[tuple[Report, Source, Source, list[str]]]:
    changes = []
    for path, source in report.sources.items():
        mended, titles = _mended(source, [f for f in report.findings if f.path == path], report, kit)
        if mended.text != source.text:
            changes.append((report, source, mended, titles))
    return changes


def _mended(source: Source, findings: Sequence[Finding], report: Report, kit: Tools) -> tuple[Source, list[str]]:
    """Mend until nothing is left to mend, so that a second run changes nothing."""
    titles: list[str] = []
    for _ in range(_ROUNDS):
        text, applied = apply_mends(source.text, [f.mend for f in findings if f.mend is not None])
        if not applied or text == source.text:
            break
        titles += [mend.title for mend in applied]
        source = replace(source, text=text)
        findings = kit.findings_again(report, source)
    return source, titles


def _diff(path: str, before: str, after: str) -> str:
    lines = []
    for line in difflib.unified_diff(_LINES.findall(before), _LINES.findall(after), f"a/{path}", f"b/{path}"):
        lines.append(line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n")
    return "".join(lines)
