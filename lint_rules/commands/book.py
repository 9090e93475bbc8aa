"""``hornbook book``: the editor's pass over every unit."""

import argparse
from pathlib import Path

from rich.console import Console

from lint_rules.desk import (
    book_report,
    check_output,
    now,
    spare_the_manuscript,
    status_of,
    tools,
    write_output,
)
from lint_rules.finding import Severity
from lint_rules.reports.glance import glance
from lint_rules.reports.json_report import json_report
from lint_rules.reports.terminal import print_report, print_summary


def run(arguments: argparse.Namespace) -> int:
    """Read the book and show what was found."""
    if arguments.report:
        check_output("--report", arguments.report)
    with tools(arguments) as kit:
        report = book_report(Path(arguments.dir), kit, Severity.STOP)
    if arguments.report:
        from lint_rules.reports.html.page import html_report

        spare_the_manuscript("--report", arguments.report, report)
        write_output(arguments.report, html_report(report, kit.rules, now()).encode("utf-8", "backslashreplace"))
    if arguments.format == "json":
        print(json_report([report]))
    else:
        console = Console(highlight=False)
        print_report(report, console)
        for line in glance(report):
            console.print(line, markup=False, soft_wrap=True)
        print_summary([report], console)
    return status_of([report])
