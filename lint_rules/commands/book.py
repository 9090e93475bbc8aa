"""``hornbook book``: the editor's pass over every unit."""

import argparse
import os
import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from lint_rules import lazy_re
from lint_rules.commands.narrow import asked_for, narrowed
from lint_rules.commands.output import (
    check_folder,
    check_report,
    is_folder,
    now,
    page,
    write_folder,
    write_output,
    write_text,
)
from lint_rules.course.folder import NoCourse, courses_at
from lint_rules.exit_status import CannotRun
from lint_rules.finding import Severity
from lint_rules.reports.book_summary import book_summary
from lint_rules.reports.json_report import json_report
from lint_rules.reports.report import Report
from lint_rules.reports.terminal import print_report, summary
from lint_rules.rule import RuleModule
from lint_rules.session import book_report, status_of, tools

_HOOKS = Path(".pre-commit-config.yaml")
_UNIT_HOOK = lazy_re.compile(r"^[ \t{-]*id: *[\"']?hornbook[\"']?[ \t},]*(?:#.*)?$", re.MULTILINE)


def run(arguments: argparse.Namespace) -> int:
    """Read the book and show what was found."""
    places = _places(arguments)
    if arguments.report is not None:
        check = check_folder if is_folder(arguments.report) else check_report
        check("--report", arguments.report, places[0])
    with tools(arguments) as kit:
        reports = [book_report(place, kit, Severity.STOP) for place in places]
    gone = _write(arguments.report, reports[0], kit.rules) if arguments.report else ()
    chosen = narrowed(reports, arguments, kit.rules)
    if arguments.format == "json":
        write_text(json_report(chosen) + "\n")
    else:
        _print(chosen, kit.rules, arguments, sum(len(report.points) for report in reports), gone)
    return status_of(reports)


def _write(name: str, report: Report, rules: Sequence[RuleModule]) -> tuple[str, ...]:
    """Write the proof: into a folder an index and a page a unit, else all of it as one file.

    Gives the names of pages of an earlier proof that were taken out.
    """
    from lint_rules.reports.html.page import html_folder, html_report

    if is_folder(name):
        pages = html_folder(report, rules, now())
        made = {page_name: text.encode("utf-8", "backslashreplace") for page_name, text in pages.items()}
        return write_folder(name, made)
    write_output(name, html_report(report, rules, now()).encode("utf-8", "backslashreplace"))
    return ()


def _places(arguments: argparse.Namespace) -> list[Path]:
    """The course here, or in a hook's place, the top of a repository, those below. Raises CannotRun."""
    place = Path(arguments.dir)
    if not place.exists():
        raise CannotRun(f"There is no folder {place}.")
    try:
        places = courses_at(place)
    except NoCourse as error:
        raise CannotRun(str(error)) from error
    if len(places) > 1 and arguments.report is not None:
        raise CannotRun(f"--report shows one course, and there are {len(places)} here. Name the folder of one.")
    return places


def _print(
    reports: Sequence[Report],
    rules: Sequence[RuleModule],
    arguments: argparse.Namespace,
    points: int,
    gone: Sequence[str],
) -> None:
    asked = asked_for(arguments)
    shown = page(arguments.all)
    other_hook = _units_have_a_hook()
    below = list(summary(reports, asked, points))
    for report in reports:
        at_a_glance = [] if asked else list(book_summary(report, by_rule=shown.each_place or arguments.all))
        rows = sum(shown.rows(line) for line in (*at_a_glance, *below)) + bool(arguments.report)
        print_report(_of_the_book(report, rules) if other_hook else report, shown, rows, _HOW)
        for line in at_a_glance:
            shown.say(line)
    for line in below:
        shown.say(line)
    if other_hook:
        shown.say("What a unit shows by itself is shown by the hook `hornbook`; `hornbook book` shows all.")
    for page_name in gone:
        shown.say(f"Taken out: {page_name}, the page of a unit that is not in the book any more.")
    if arguments.report:
        shown.say(f"Written: {arguments.report}")


_HOW = (
    "`--all` shows all, `--unit level-1/2`, `--rule RULE` or `--only stops` some of them, "
    "`--report proof.html` writes the marked proof"
)


def _units_have_a_hook() -> bool:
    """Say whether this is a hook, and the other one, for the units of a commit, runs beside it."""
    if os.environ.get("PRE_COMMIT") != "1":
        return False
    try:
        return _UNIT_HOOK.search(_HOOKS.read_text("utf-8", "replace")) is not None
    except OSError:
        return False


def _of_the_book(report: Report, rules: Sequence[RuleModule]) -> Report:
    """The report with what only the whole book shows."""
    whole = {module.rule.name for module in rules if module.find_in_book is not None}
    findings = tuple(finding for finding in report.result.findings if finding.rule in whole)
    return replace(report, result=replace(report.result, findings=findings))
