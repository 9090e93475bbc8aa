"""``hornbook book``: the editor's pass over every unit."""

import argparse
from pathlib import Path

from lint_rules.commands.output import check_report, now, page, write_output, write_text
from lint_rules.finding import Severity
from lint_rules.reports.book_summary import book_summary
from lint_rules.reports.json_report import json_report
from lint_rules.reports.terminal import print_report, print_summary
from lint_rules.session import book_report, status_of, tools


def run(arguments: argparse.Namespace) -> int:
    """Read the book and show what was found."""
    if arguments.report is not None:
        check_report("--report", arguments.report, Path(arguments.dir))
    with tools(arguments) as kit:
        report = book_report(Path(arguments.dir), kit, Severity.STOP)
    if arguments.report:
        from lint_rules.reports.html.page import html_report

        write_output(arguments.report, html_report(report, kit.rules, now()).encode("utf-8", "backslashreplace"))
    if arguments.format == "json":
        write_text(json_report([report]) + "\n")
    else:
        shown = page()
        print_report(report, shown)
        for line in book_summary(report):
            shown.say(line)
        print_summary([report], shown)
        if arguments.report:
            shown.say(f"Written: {arguments.report}")
    return status_of([report])
