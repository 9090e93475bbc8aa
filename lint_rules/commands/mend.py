"""``hornbook mend``: applies the safe mends, or shows them as a unified diff."""

import argparse
import difflib
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lint_rules import lazy_re
from lint_rules.atomic_write import write_whole
from lint_rules.commands.output import page, write_text
from lint_rules.engine.suppression.mends import apply_mends
from lint_rules.exit_status import CANNOT_RUN, CLEAN, RULE_BROKE
from lint_rules.finding import Finding, Severity
from lint_rules.reports.json_report import json_report
from lint_rules.reports.report import Report
from lint_rules.reports.terminal import print_report
from lint_rules.session import Tools, proof_reports, tools
from lint_rules.source import BYTE_ORDER_MARK, Source

_LINES = lazy_re.compile(r"[^\n]*\n|[^\n]+")  # as git counts lines: a form feed or a carriage return ends none
_PLAIN_NAME = lazy_re.compile(r"[^\x00-\x1f\x7f\"\\]+")
_ROUNDS = 100  # a mend may make room for another one; so many rounds would be a mistake of ours
_DRAFT = "[check]"


@dataclass(frozen=True)
class _Change:
    """A unit's file before and after its mends, and what they did, in the order they were done."""

    report: Report
    before: Source
    after: Source
    titles: tuple[str, ...]
    open: tuple[Finding, ...]

    @property
    def shown(self) -> str:
        return self.report.path(self.before.path)


def run(arguments: argparse.Namespace) -> int:
    """Mend the units that are named."""
    with tools(arguments) as kit:
        reports = proof_reports(arguments.files, kit, Severity.STOP)
        changes = [change for report in reports for change in _changes(report, kit)]
    if arguments.show:
        refused = dict.fromkeys((change.shown for change in changes), "")
    else:
        refused = {change.shown: _write(change) for change in changes}
    if arguments.format == "json":
        done = [] if arguments.show else [change for change in changes if not refused[change.shown]]
        write_text(json_report([_mended_report(report, done) for report in reports]) + "\n")
    elif arguments.show:
        write_text("".join(_diff(change) for change in changes))
    else:
        _print(reports, changes, refused)
    if not changes and (arguments.show or arguments.format == "json"):
        print(_NOTHING, file=sys.stderr)
    if any(report.broken for report in reports):
        return RULE_BROKE
    return CANNOT_RUN if any(report.spoilt for report in reports) or any(refused.values()) else CLEAN


_NOTHING = "Nothing to mend here that is safe to mend without you."


def _changes(report: Report, kit: Tools) -> Iterator[_Change]:
    for path, source in report.sources.items():
        change = _mended(source, [f for f in report.findings if f.path == path], report, kit)
        if change.after.text != source.text:
            yield change


def _mended(source: Source, findings: Sequence[Finding], report: Report, kit: Tools) -> _Change:
    """Mend until nothing is left to mend, so that a second run changes nothing."""
    titles: list[str] = []
    before = source
    for _ in range(_ROUNDS):
        text, applied = apply_mends(source.text, [f.mend for f in findings if f.mend is not None])
        if not applied or text == source.text:
            break
        titles += [mend.title for mend in applied]
        source = replace(source, text=text)
        findings = kit.findings_again(report, source)
    return _Change(report, before, source, tuple(titles), tuple(findings))


def _write(change: _Change) -> str:
    """Write a mended file; say why that could not be ('' when it could)."""
    file = change.report.root / change.before.path
    try:
        if file.read_bytes() != change.before.encode():
            return "somebody has changed it just now, so nothing was mended in it. Run this again."
        write_whole(file, change.after.encode(), change.report.root)
    except OSError as error:
        return f"it could not be written ({error.strerror or error}); it is as it was."
    return ""


def _mended_report(report: Report, changes: Sequence[_Change]) -> Report:
    """A report as it stands after changes."""
    own = {change.before.path: change for change in changes if change.report is report}
    findings = [finding for finding in report.result.findings if finding.path not in own]
    findings += [finding for change in own.values() for finding in change.open]
    sources = {path: own[path].after if path in own else source for path, source in report.sources.items()}
    result = replace(report.result, findings=tuple(sorted(findings, key=lambda finding: finding.order)))
    return replace(report, result=result, sources=sources)


def _print(reports: Sequence[Report], changes: Sequence[_Change], refused: dict[str, str]) -> None:
    shown = page()
    for report in reports:  # what was not read; the findings are `proof`'s
        print_report(replace(report, result=replace(report.result, findings=())), shown)
    drafts = 0
    for change in changes:
        why = refused[change.shown]
        for line in [why] if why else change.titles:
            shown.say(f"{change.shown}: {line}")
        if not why:
            drafts += change.after.text.count(_DRAFT) - change.before.text.count(_DRAFT)
    if drafts:
        shown.say(
            f"Drafts that wait for you, marked {_DRAFT}: {drafts}. Fit each to your class, then take the mark out."
        )
    if not changes:
        shown.say(_NOTHING)


def _diff(change: _Change) -> str:
    """A change as a unified diff for `patch` and `git apply`: with the mark at a file's start, and its line ends."""
    mark = BYTE_ORDER_MARK if change.before.bom else ""
    before, after = (_LINES.findall(mark + source.text) for source in (change.before, change.after))
    # A path that leads out of this folder is of no use to them: then it is the one in the course's folder.
    path = change.before.path if change.shown.startswith("../") else change.shown
    diff = difflib.unified_diff(before, after, _name(f"a/{path}"), _name(f"b/{path}"))
    return "".join(line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n" for line in diff)


def _name(path: str) -> str:
    """A file's name in a diff: in quotation marks where it holds what would end it; a tab ends one with spaces."""
    if _PLAIN_NAME.fullmatch(path):
        return f"{path}\t" if " " in path else path
    return '"' + "".join(_QUOTED.get(char, char) for char in path) + '"'


_QUOTED = {chr(code): f"\\{code:03o}" for code in (*range(32), 127)} | {'"': '\\"', "\\": "\\\\"}
