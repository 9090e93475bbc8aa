"""``hornbook words``: the vocabulary map."""

import argparse
import json
import os
import sys
from dataclasses import asdict
from pathlib import Path

from lint_rules.commands.output import check_output, forget_output, page, spare_the_manuscript, write_output, write_text
from lint_rules.exit_status import CANNOT_RUN, RULE_BROKE, CannotRun
from lint_rules.finding import Severity
from lint_rules.reports.terminal_page import console
from lint_rules.reports.words import Line, as_csv, as_spreadsheet, chosen, lines_of, print_lines
from lint_rules.session import book_report, status_of, tools
from lint_rules.vocabulary_map import vocabulary_map


def run(arguments: argparse.Namespace) -> int:
    """Print or write the map. The exit status does not judge the map; `hornbook book` does."""
    files = _files(arguments)
    with tools(arguments) as kit:
        report = book_report(Path(arguments.dir), kit, Severity.STOP)
    course, facts = report.course, report.facts
    if arguments.topic is not None:
        _known_topic(arguments.topic, {topic for entry in course.words for topic in entry.topics})
    lines = lines_of(vocabulary_map(course, facts), course, facts)
    lines = chosen(lines, course, arguments.topic, arguments.unit, arguments.sort)
    everything = lines
    if arguments.gaps:
        lines = [line for line in lines if line.missing]
    for option, name in files.items():
        spare_the_manuscript(option, name, report)
    if arguments.csv == "-":
        write_text(as_csv(lines))
    elif arguments.csv:
        write_output(arguments.csv, ("\ufeff" + as_csv(lines)).encode("utf-8"))  # spreadsheets want the mark
    if arguments.xlsx:
        write_output(arguments.xlsx, as_spreadsheet(lines, course))
    if arguments.format == "json":
        write_text(json.dumps([asdict(line) for line in lines], ensure_ascii=False, indent=1) + "\n")
    elif files:
        for name in files.values() if arguments.csv != "-" else ():
            page().say(f"Written: {name}")
    elif not arguments.csv:
        _print(everything, report.course.words == (), arguments.gaps)
    status = status_of([report])
    if report.broken:
        first = report.broken[0]
        print(f"hornbook: the map may be incomplete: {first.rule} could not run: {first.why}", file=sys.stderr)
    return status if status in (CANNOT_RUN, RULE_BROKE) else 0


def _files(arguments: argparse.Namespace) -> dict[str, str]:
    """The files to write, by option. Raises CannotRun when that cannot be, before the book is read."""
    files = {"--csv": arguments.csv, "--xlsx": arguments.xlsx}
    files = {option: name for option, name in files.items() if name is not None and (option, name) != ("--csv", "-")}
    for option, name in files.items():
        check_output(option, name, Path(arguments.dir))
    if len({os.path.realpath(name) for name in files.values()}) < len(files):
        raise CannotRun(f"--csv and --xlsx name the same file, {arguments.csv}. Give each a file of its own.")
    if arguments.csv == "-" and arguments.format == "json":
        raise CannotRun("--csv - and --format json both go to standard output. Ask for one of them.")
    return files


def _print(lines: list[Line], no_list: bool, only_gaps: bool) -> None:
    shown = console(forget_output)
    if no_list:
        shown.print("This course has no word lists yet: write words/<level>.csv and name it in course.yaml.")
    elif not lines:
        shown.print("No target word fits.")
    else:
        print_lines(lines, shown, only_gaps=only_gaps)


def _known_topic(topic: str, topics: set[str]) -> None:
    if topic.casefold() not in {known.casefold() for known in topics}:
        raise CannotRun(f"No target word has the topic {topic}. There are: {', '.join(sorted(topics)) or 'none'}.")
