"""Findings for machines: one JSON object, as fixed in the design."""

import json
from collections.abc import Sequence
from typing import Any

from lint_rules import __version__
from lint_rules.finding import Finding, Mend
from lint_rules.reports.report import Report
from lint_rules.source import Source


def json_report(reports: Sequence[Report]) -> str:
    """The reports of one run as one JSON object."""
    findings = [
        finding_as_dict(finding, report.path(finding.path), report.sources[finding.path])
        for report in reports
        for finding in report.findings
    ]
    findings.sort(key=lambda f: (f["path"], f["line"], f["column"], f["rule"], f["end_line"], f["end_column"]))
    skipped = [{"path": s.path, "why": s.why} for report in reports for s in report.skipped]
    skipped += [
        {"path": report.path(note.path), "why": f"the check {note.rule} could not run: {note.why}"}
        for report in reports
        for note in report.broken
    ]
    units = sum(len(report.sources) for report in reports)
    whole = {"hornbook": __version__, "findings": findings, "units": units, "skipped": skipped}
    return json.dumps(whole, ensure_ascii=False, indent=1)


def finding_as_dict(finding: Finding, path: str, source: Source) -> dict[str, Any]:
    """One finding as plain data; ``path`` is how the reader calls its file."""
    return {
        "rule": finding.rule,
        "severity": finding.severity.value,
        "path": path,
        "line": finding.start.line,
        "column": finding.start.column,
        "end_line": finding.end.line,
        "end_column": finding.end.column,
        "text": finding.text,
        "message": finding.message,
        "mend": mend_as_dict(finding.mend, source),
    }


def mend_as_dict(mend: Mend | None, source: Source) -> dict[str, Any] | None:
    """A mend as plain data: what it does, and its edits with their places."""
    if mend is None:
        return None
    edits = []
    for edit in mend.edits:
        start, end = source.position(edit.span.start), source.position(edit.span.end)
        edits.append(
            {
                "line": start.line,
                "column": start.column,
                "end_line": end.line,
                "end_column": end.column,
                "text": edit.text,
            }
        )
    return {"title": mend.title, "edits": edits}
