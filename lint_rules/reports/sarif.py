"""Findings as SARIF 2.1.0 (OASIS, Static Analysis Results Interchange Format, errata 01), for build servers.

A result is a point: its first place is its location, the others are related locations (§3.27.22), so that a viewer
lists each decision once. Columns count Unicode code points and say so. Findings that are let stand or carried over are
in the file too, one a result, as suppressed ones with their reason. Nothing in it depends on the day or on the machine,
so two runs can be compared.
"""

import hashlib
import inspect
import json
from collections.abc import Iterator, Mapping, Sequence
from itertools import count
from typing import Any
from urllib.parse import quote

from lint_rules import __version__, lazy_re
from lint_rules.course.folder import COURSE_FILE
from lint_rules.engine.gather import Point
from lint_rules.engine.suppression.carried import CARRIED_FILE
from lint_rules.finding import Finding, Mend, Severity, Status
from lint_rules.reports.fingerprints import fingerprints, fingerprints_of_points
from lint_rules.reports.report import Report
from lint_rules.reports.rule_pages import paragraphs_of
from lint_rules.rule import RuleModule
from lint_rules.source import Source, Span

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
FINGERPRINT = "rulePoint/v1"  # name of the recipe in fingerprints.py: another one needs another name
RELEASE = "release"  # what a release asks for, beyond what the rules find
_UNREAD = "unreadable-manuscript"
_BASE = "ROOT"
_LINK = lazy_re.compile(r"\[(?=[^\]]*\]\()")
_LEVELS = {Severity.STOP: "error", Severity.QUERY: "warning", Severity.NOTE: "note"}


def sarif_report(report: Report, rules: Sequence[RuleModule], status: int) -> str:
    """One run as a SARIF log. ``status`` is the exit status of the run."""
    names = _rule_names(report, rules)
    index = {name: at for at, name in enumerate(names)}
    paths = sorted(report.sources)
    artifacts = {path: at for at, path in enumerate(paths)}
    place = _Places(report, artifacts)
    results = [
        (_result(point, index[point.rule], fingerprint, report, place), point.lead)
        for point, fingerprint in zip(
            report.points, fingerprints_of_points(report.points, report.result.findings), strict=True
        )
    ]
    results += [
        (_suppressed(finding, index[finding.rule], fingerprint, report.sources[finding.path], place), finding)
        for finding, fingerprint in zip(report.result.findings, fingerprints(report.result.findings), strict=True)
        if finding.status is not Status.OPEN
    ]
    run = {
        "tool": {
            "driver": {
                "name": "hornbook",
                "version": __version__,
                "semanticVersion": __version__,
                "language": "en-GB",
                "shortDescription": {"text": "Proofs the manuscripts of English courses for children aged 6 to 10."},
                "rules": [_descriptor(name, {m.rule.name: m for m in rules}.get(name), report) for name in names],
            }
        },
        "language": "en-GB",
        "columnKind": "unicodeCodePoints",
        "newlineSequences": ["\r\n", "\n", "\r"],
        "defaultEncoding": "utf-8",
        "automationDetails": {"id": f"hornbook/{place.folder}"},
        "originalUriBaseIds": {_BASE: {"description": {"text": place.base}}},
        "invocations": [_invocation(report, index, place, status)],
        "artifacts": [_artifact(report.sources[path], place) for path in paths],
        "results": [result for result, at in sorted(results, key=lambda one: one[1].order)]
        + list(_left_out(report, index, place)),
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, ensure_ascii=False, indent=1) + "\n"


class _Places:
    """How files are called in the log: from the top of the repository, wherever the command was given."""

    def __init__(self, report: Report, artifacts: Mapping[str, int]) -> None:
        self.base = "The top of the git repository; the course's folder, where there is none."
        self.folder = quote(report.prefix, errors="surrogateescape")
        self._artifacts = artifacts

    def physical(self, path: str) -> dict[str, Any]:
        """A file as a physicalLocation."""
        return {"artifactLocation": self.location(path)}

    def location(self, path: str) -> dict[str, Any]:
        """A file as an artifactLocation: relative, percent-encoded, with ``/``."""
        found: dict[str, Any] = {"uri": self.folder + quote(path, errors="surrogateescape"), "uriBaseId": _BASE}
        if path in self._artifacts:
            found["index"] = self._artifacts[path]
        return found


def _rule_names(report: Report, rules: Sequence[RuleModule]) -> list[str]:
    known = {module.rule.name for module in rules}
    extra = {RELEASE} if report.lacks else set()
    found = {finding.rule for finding in report.result.findings} | {note.rule for note in report.broken}
    return sorted(known | found | extra | ({_UNREAD} if report.skipped else set()))


def _descriptor(name: str, module: RuleModule | None, report: Report) -> dict[str, Any]:
    if module is None:
        return {"id": name, "shortDescription": {"text": name}, "help": {"text": name}}
    setting = report.course.rules.get(name, module.rule.severity.value)
    paragraphs = paragraphs_of(module)
    level = module.rule.severity if setting == "off" else Severity(setting)
    return {
        "id": name,
        "shortDescription": {"text": _message(paragraphs[0])},
        "fullDescription": {"text": _message(" ".join(paragraphs))},
        "help": {"text": _message("\n\n".join(paragraphs)), "markdown": inspect.cleandoc(module.page)},
        "defaultConfiguration": {"level": _LEVELS[level], "enabled": setting != "off"},
        "properties": {"tags": [module.rule.family]},
    }


def _artifact(source: Source, place: _Places) -> dict[str, Any]:
    location = place.location(source.path)
    found: dict[str, Any] = {"location": location, "roles": ["analysisTarget"], "mimeType": "text/markdown"}
    if source.text:
        data = source.encode()
        found |= {"length": len(data), "encoding": "utf-8", "hashes": {"sha-256": hashlib.sha256(data).hexdigest()}}
    return found


def _result(point: Point, rule: int, fingerprint: str, report: Report, place: _Places) -> dict[str, Any]:
    lead = point.lead
    result: dict[str, Any] = {
        "ruleId": point.rule,
        "ruleIndex": rule,
        "level": _LEVELS[point.severity],
        "message": {"text": _message(point.message)},
        "locations": [_location(lead, report.sources[lead.path], place)],
        "partialFingerprints": {FINGERPRINT: fingerprint},
        "suppressions": [],  # §3.27.23: on every result or on none; an empty list says that a result is not suppressed
        "properties": {"severity": point.severity.value, "text": lead.text},
    }
    if point.others:
        result["relatedLocations"] = [
            {
                "id": number,
                "message": {"text": _message(other.message)},
                **_location(other, report.sources[other.path], place),
            }
            for number, other in enumerate(point.others, start=1)
        ]
    fixes = [
        _fix(finding.mend, report.sources[finding.path], place)
        for finding in (lead, *point.others)
        if finding.mend is not None
    ]
    if fixes:
        result["fixes"] = [fix for at, fix in enumerate(fixes) if fix not in fixes[:at]]
    return result


def _suppressed(finding: Finding, rule: int, fingerprint: str, source: Source, place: _Places) -> dict[str, Any]:
    result: dict[str, Any] = {
        "ruleId": finding.rule,
        "ruleIndex": rule,
        "level": _LEVELS[finding.severity],
        "message": {"text": _message(finding.message)},
        "locations": [_location(finding, source, place)],
        "partialFingerprints": {FINGERPRINT: fingerprint},
        "suppressions": list(_suppressions(finding, place)),
        "properties": {"severity": finding.severity.value, "text": finding.text},
    }
    if finding.mend is not None:
        result["fixes"] = [_fix(finding.mend, source, place)]
    return result


def _location(finding: Finding, source: Source, place: _Places) -> dict[str, Any]:
    location: dict[str, Any] = {"physicalLocation": _physical(finding, source, place)}
    if finding.place:
        location["logicalLocations"] = [{"fullyQualifiedName": finding.place}]
    return location


def _left_out(report: Report, index: Mapping[str, int], place: _Places) -> Iterator[dict[str, Any]]:
    """What was not read, and what a release asks for and does not find: nobody looks for it among notifications."""
    numbers = count()
    for skipped in report.skipped:
        region = {"region": {"startLine": skipped.line}} if skipped.line else {}
        where = {**place.physical(skipped.inside or COURSE_FILE), **region}
        yield _plain_result(_UNREAD, index, skipped.why, where, next(numbers))
    for lack in report.lacks:
        yield _plain_result(RELEASE, index, f"{lack.what}: {lack.cure}.", place.physical(COURSE_FILE), next(numbers))


def _plain_result(rule: str, index: Mapping[str, int], said: str, where: dict[str, Any], number: int) -> dict[str, Any]:
    print_ = hashlib.sha256(f"{rule} {said} {number}".encode("utf-8", "backslashreplace")).hexdigest()[:32]
    return {
        "ruleId": rule,
        "ruleIndex": index[rule],
        "level": "error",
        "message": {"text": _message(said)},
        "locations": [{"physicalLocation": where}],
        "partialFingerprints": {FINGERPRINT: print_},
        "suppressions": [],
    }


def _message(text: str) -> str:
    """A text as SARIF wants it (2.1.0 §3.11.5 and .6): braces doubled, and no link where a manuscript has brackets."""
    return _LINK.sub(r"\[", text.replace("{", "{{").replace("}", "}}"))


def _physical(finding: Finding, source: Source, place: _Places) -> dict[str, Any]:
    region: dict[str, Any] = {
        "startLine": finding.start.line,
        "startColumn": finding.start.column,
        "endLine": finding.end.line,
        "endColumn": finding.end.column,
    }
    if finding.span.start < finding.span.end:
        region["snippet"] = {"text": source.slice(finding.span)}
    return {"artifactLocation": place.location(finding.path), "region": region}


def _suppressions(finding: Finding, place: _Places) -> Iterator[dict[str, Any]]:
    """Why a finding does not count."""
    if finding.status is Status.LET_STAND:
        yield {"kind": "inSource", "status": "accepted", "justification": finding.reason}
    elif finding.status is Status.CARRIED:
        yield {
            "kind": "external",
            "status": "accepted",
            "justification": "It stood in the book when the course took up hornbook.",
            "location": {"physicalLocation": {"artifactLocation": place.location(CARRIED_FILE)}},
        }


def _fix(mend: Mend, source: Source, place: _Places) -> dict[str, Any]:
    replacements = [
        {"deletedRegion": _region(source, edit.span), "insertedContent": {"text": edit.text}}
        for edit in sorted(mend.edits, key=lambda edit: edit.span)
    ]
    change = {"artifactLocation": place.location(source.path), "replacements": replacements}
    return {"description": {"text": _message(mend.title)}, "artifactChanges": [change]}


def _region(source: Source, span: Span) -> dict[str, int]:
    start, end = source.position(span.start), source.position(span.end)
    return {"startLine": start.line, "startColumn": start.column, "endLine": end.line, "endColumn": end.column}


def _invocation(report: Report, index: Mapping[str, int], place: _Places, status: int) -> dict[str, Any]:
    execution = [_broken(note.rule, note.path, note.why, index, place) for note in report.broken]
    settings: list[dict[str, Any]] = [
        {"level": "warning", "message": {"text": _message(f"{skipped.path}: not checked: {skipped.why}")}}
        for skipped in report.skipped
    ]
    settings += [
        {
            "level": "note",
            "message": {"text": _message(f"Not checked: {name} ({why}).")},
            "associatedRule": {"id": name, "index": index[name]},
        }
        for name, why in sorted(report.unchecked.items())
        if name in index
    ]
    return {
        "executionSuccessful": not report.broken and not report.spoilt,
        "exitCode": status,
        "toolExecutionNotifications": execution,
        "toolConfigurationNotifications": settings,
    }


def _broken(rule: str, path: str, why: str, index: Mapping[str, int], place: _Places) -> dict[str, Any]:
    note: dict[str, Any] = {
        "level": "error",
        "message": {"text": _message(f"The check {rule} could not run: {why}")},
        "associatedRule": {"id": rule, "index": index[rule]},
    }
    if path:
        note["locations"] = [{"physicalLocation": {"artifactLocation": place.location(path)}}]
    return note
