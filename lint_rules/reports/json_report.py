"""Findings for machines: one JSON object, as fixed in the design."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from lint_rules import __version__
from lint_rules.engine.gather import Point
from lint_rules.finding import Finding, Mend
from lint_rules.reports.report import Report
from lint_rules.source import Source

_ORDER = ("path", "line", "column", "rule", "end_line", "end_column", "message")


def json_report(reports: Sequence[Report]) -> str:
    """The reports of one run as one JSON object."""
    found = [
        (finding_as_dict(finding, report.path(finding.path), report.sources[finding.path]), id(finding))
        for report in reports
        for finding in report.findings
    ]
    found.sort(key=lambda one: [one[0][name] for name in _ORDER])
    findings = [as_dict for as_dict, _ in found]
    index = {own: at for at, (_, own) in enumerate(found)}
    gathered = [point for report in reports for point in report.points]
    points = [_point_as_dict(point, index) for point in sorted(gathered, key=lambda point: index[id(point.lead)])]
    skipped = [{"path": s.path, "why": s.why} for report in reports for s in report.skipped]
    skipped += [
        {"path": report.path(note.path), "why": f"the check {note.rule} could not run: {note.why}"}
        for report in reports
        for note in report.broken
    ]
    units = sum(len(report.sources) for report in reports)
    whole = {"hornbook": __version__, "findings": findings, "points": points, "units": units, "skipped": skipped}
    return json.dumps(whole, ensure_ascii=False, indent=1)


def _point_as_dict(point: Point, index: Mapping[int, int]) -> dict[str, Any]:
    """A point as plain data; ``index`` gives the number of each finding in the list of findings."""
    return {
        "rule": point.rule,
        "severity": point.severity.value,
        "message": point.message,
        "findings": sorted(index[id(finding)] for finding in point.findings),
    }


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
