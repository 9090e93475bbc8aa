"""``hornbook proof``: the rules that one unit can be judged by. What the commit hook runs."""

import argparse
import os

from lint_rules.commands.output import page, write_text
from lint_rules.finding import Severity
from lint_rules.reports.json_report import json_report
from lint_rules.reports.terminal import print_report, print_summary, summary
from lint_rules.session import proof_reports, status_of, tools


def run(arguments: argparse.Namespace) -> int:
    """Check the units that are named."""
    with tools(arguments) as kit:
        reports = proof_reports(arguments.files, kit, Severity.STOP)
    if arguments.format == "json":
        write_text(json_report(reports) + "\n")
    else:
        shown = page(arguments.all)
        below = sum(shown.rows(line) for line in summary(reports))
        for report in reports:
            print_report(report, shown, below)
        print_summary(reports, shown)
    # In a hook a commit may well hold Markdown that is no unit, and nothing else.
    return status_of(reports, units_needed=os.environ.get("PRE_COMMIT") != "1")
