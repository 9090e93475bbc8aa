"""``hornbook carry``: takes an existing book's findings into carried.yaml; afterwards, drops those that are gone."""

import argparse
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from lint_rules.commands.output import page, write_output, write_text
from lint_rules.engine.suppression.carried import (
    CARRIED_FILE,
    Entry,
    apply_carried,
    carry_over,
    is_safety_stop,
    write_carried,
)
from lint_rules.exit_status import CANNOT_RUN, CLEAN, RULE_BROKE
from lint_rules.finding import Severity, Status
from lint_rules.reports.json_report import json_report
from lint_rules.reports.report import Report
from lint_rules.reports.terminal import print_report
from lint_rules.reports.weight import by_weight, in_words
from lint_rules.session import book_report, carried_entries, shown_path, tools

_SHOWN = 20  # dropped entries that are listed one by one


def run(arguments: argparse.Namespace) -> int:
    """Write carried.yaml: everything that is open when there is none yet, else what is left of it."""
    shown = page()
    with tools(arguments) as kit:
        report = book_report(Path(arguments.dir), kit, Severity.STOP)
    if report.broken or report.spoilt:
        print_report(replace(report, result=replace(report.result, findings=())), shown)
        shown.say("Not every check could run on the whole course, so nothing was carried over or dropped.")
        return RULE_BROKE if report.broken else CANNOT_RUN
    file = report.root / CARRIED_FILE
    if file.exists():
        lines = list(_drop(report))
    else:
        entries = carry_over(report.findings, {plan.path: plan.title for plan in report.course.plans})
        if entries:
            write_output(str(file), write_carried(entries).encode("utf-8"))
        settled = apply_carried(report.result.findings, entries)
        report = replace(report, result=replace(report.result, findings=settled.findings))
        lines = list(_first_time(report, entries))
    if arguments.format == "json":
        write_text(json_report([report]) + "\n")
    else:
        for line in lines:
            shown.say(line)
    return CLEAN


def _first_time(report: Report, entries: Sequence[Entry]) -> Iterator[str]:
    total = sum(entry.count for entry in entries)
    if total:
        weights = in_words(by_weight(report.with_status(Status.CARRIED)))
        yield f"{_shown(report)}: {_many(total, 'finding')} carried over ({weights}). From now on only new ones count."
    else:
        yield f"Nothing to carry over, so {_shown(report)} was not written."
    yield from _must_be_mended(report, len(report.findings))


def _drop(report: Report) -> Iterator[str]:
    """Write what is left of carried.yaml, where that is less than it says or the names of files have changed."""
    kept, gone = report.carried_kept, report.carried_gone
    if not kept:
        (report.root / CARRIED_FILE).unlink()
    elif kept != carried_entries(report.root):
        write_output(str(report.root / CARRIED_FILE), write_carried(kept).encode("utf-8"))
    for entry in gone[:_SHOWN]:
        times = f" ({entry.count} times)" if entry.count > 1 else ""
        where = f", {entry.place}" if entry.place else ""
        yield f"gone: {shown_path(report.root, entry.path)}{where}: {entry.rule} “{entry.words}”{times}"
    if len(gone) > _SHOWN:
        yield f"… and {len(gone) - _SHOWN} more"
    dropped = sum(entry.count for entry in gone)
    left = sum(entry.count for entry in kept)
    weights = in_words(by_weight(report.with_status(Status.CARRIED)))
    still = f"{left} still carried ({weights})" if left else "none is left, so the file was removed"
    yield f"{_shown(report)}: {_many(dropped, 'finding')} gone and dropped, {still}."
    new = sum(entry.count for entry in carry_over(report.findings))
    if new:
        yield (
            f"{_many(new, 'new finding')} still open. "
            f"To carry them over too, remove {_shown(report)} and run this again."
        )
    yield from _must_be_mended(report, len(report.findings) - new)


def _must_be_mended(report: Report, count: int) -> Iterator[str]:
    safety = [finding for finding in report.findings if is_safety_stop(finding)]
    if count > len(safety):
        yield (
            f"{_many(count - len(safety), 'finding')} cannot be carried over and must be mended: what cannot be read, "
            "and stets that do nothing. `hornbook book` shows them."
        )
    if safety:
        yield f"{_many(len(safety), 'missing safety note')} cannot be carried over and must be mended:"
    for finding in safety:
        yield f"  {shown_path(report.root, finding.path)}:{finding.start.line}: {finding.message}"


def _shown(report: Report) -> str:
    return shown_path(report.root, CARRIED_FILE)


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"
