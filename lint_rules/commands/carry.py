"""``hornbook carry``: takes an existing book's findings into carried.yaml; afterwards, drops those that are gone."""

import argparse
from pathlib import Path

from rich.console import Console

from lint_rules.desk import book_report, carried_entries, shown_path, tools
from lint_rules.exits import CANNOT_RUN, CLEAN, RULE_BROKE
from lint_rules.finding import Severity
from lint_rules.letstand.carried import CARRIED_FILE, carry_over, write_carried
from lint_rules.store import write_whole


def run(arguments: argparse.Namespace) -> int:
    """Write carried.yaml: everything that is open when there is none yet, else what is left of it."""
    console = Console(highlight=False, soft_wrap=True)
    with tools(arguments) as kit:
        report = book_report(Path(arguments.dir), kit, Severity.STOP)
    if report.broken or report.spoilt:
        console.print("Not every check could run, so nothing was carried over. `hornbook book` shows what is wrong.")
        return RULE_BROKE if report.broken else CANNOT_RUN
    file = report.root / CARRIED_FILE
    shown = shown_path(report.root, CARRIED_FILE)
    if not file.exists():
        entries = carry_over(report.findings)
        total = sum(entry.count for entry in entries)
        write_whole(file, write_carried(entries).encode("utf-8"))
        console.print(f"{shown}: {total} findings carried over. From now on only new ones count.")
        return CLEAN
    before = sum(entry.count for entry in carried_entries(report.root))
    kept = sum(entry.count for entry in report.carried_kept)
    if kept < before:
        write_whole(file, write_carried(report.carried_kept).encode("utf-8"))
    console.print(f"{shown}: {before - kept} findings are gone and dropped, {kept} are still carried.")
    if report.findings:
        console.print(
            f"{len(report.findings)} new findings are open and stay open. To carry them too, remove {shown} first."
        )
    return CLEAN
