"""``hornbook lists NAME``: what a house compiles by hand from a manuscript."""

import argparse
import re
import subprocess
import sys
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path

from lint_rules.commands.output import check_output, page, spare_the_manuscript, write_output, write_text
from lint_rules.course.model import Course, Level
from lint_rules.engine.read_units import level_of
from lint_rules.exit_status import CANNOT_RUN, RULE_BROKE, CannotRun
from lint_rules.finding import Severity
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.lists.art import art
from lint_rules.lists.book import BookOfUnits, Table, UnitOfBook
from lint_rules.lists.brief import brief
from lint_rules.lists.changes import changes
from lint_rules.lists.contents import contents
from lint_rules.lists.grammar import grammar
from lint_rules.lists.keys import keys
from lint_rules.lists.materials import materials
from lint_rules.lists.safety import safety
from lint_rules.lists.script import script
from lint_rules.lists.stets import stets
from lint_rules.lists.wordlist import wordlist
from lint_rules.lists.write import as_csv, as_json, as_markdown, as_workbook, print_tables
from lint_rules.manuscript.reading import read_unit
from lint_rules.reports.report import Report
from lint_rules.session import Tools, book_report, status_of, tools
from lint_rules.vocabulary_map import vocabulary_map

LISTS: Mapping[str, Callable[[BookOfUnits], Iterator[Table]]] = {
    "contents": contents,
    "grammar": grammar,
    "wordlist": wordlist,
    "script": script,
    "art": art,
    "materials": materials,
    "safety": safety,
    "keys": keys,
    "stets": stets,
}


def run(arguments: argparse.Namespace) -> int:
    """Print or write a list. The exit status does not judge the book; `hornbook book` does."""
    _check(arguments)
    with tools(arguments) as kit:
        reports = [book_report(place, kit, Severity.STOP) for place in _places(arguments)]
        tables = _tables(arguments, reports, kit)
    _write(arguments, tables, reports)
    for report in reports:
        for problem in (*report.broken[:1],):
            print(f"hornbook: the list may be incomplete: {problem.rule} could not run: {problem.why}", file=sys.stderr)
    status = max(status_of(reports), 0)
    return status if status in (CANNOT_RUN, RULE_BROKE) else 0


def _check(arguments: argparse.Namespace) -> None:
    """Refuse what cannot be done before the book is read. Raises CannotRun."""
    wanted = 2 if arguments.name == "changes" else 1
    if arguments.name == "changes" and len(arguments.dir) != wanted:
        raise CannotRun("`hornbook lists changes` compares two versions: hornbook lists changes OLD NEW, two folders.")
    if len(arguments.dir) > wanted:
        raise CannotRun(f"`hornbook lists {arguments.name}` reads one course; {len(arguments.dir)} were named.")
    if (arguments.name == "brief") != (arguments.unit is not None):
        raise CannotRun("`hornbook lists brief` wants --unit LEVEL/NUMBER (level-1/4), and no other list takes it.")
    for option, name in _files(arguments).items():
        check_output(option, name, _places(arguments)[0])


def _places(arguments: argparse.Namespace) -> list[Path]:
    return [Path(name) for name in arguments.dir] or [Path(".")]


def _files(arguments: argparse.Namespace) -> dict[str, str]:
    """The files to write, by option."""
    named = {"--csv": arguments.csv, "--xlsx": arguments.xlsx, "--markdown": arguments.markdown}
    return {option: name for option, name in named.items() if name is not None and name != "-"}


def _tables(arguments: argparse.Namespace, reports: list[Report], kit: Tools) -> list[Table]:
    books = [_book(report) for report in reports]
    if arguments.name == "changes":
        return list(changes(books[0], books[1]))
    if arguments.name == "brief":
        return list(brief(books[0], *_unit(arguments.unit, books[0].course)))
    return list(LISTS[arguments.name](books[0]))


def _unit(named: str, course: Course) -> tuple[Level, int]:
    level_name, _, number = named.rpartition("/")
    level = course.level_named(level_name)
    digits = re.search(r"\d+", number)
    if level is None or digits is None:
        levels = ", ".join(f"{one.name}/1" for one in course.levels)
        raise CannotRun(f"--unit {named}: there is no such unit. Name level and number, such as {levels}.")
    return level, int(digits[0])


def _book(report: Report) -> BookOfUnits:
    """The units that the run read, in teaching order."""
    units = [read_unit(report.sources[facts.path]) for facts in report.facts]
    return BookOfUnits(
        report.course,
        tuple(UnitOfBook(level_of(unit, report.course), unit) for unit in units),
        report.facts,
        vocabulary_map(report.course, report.facts),
        report.result.findings,
        report.files,
        lambda label: tuple(structures_of_label(label)),
        lambda path, line: _writers(report.root, path).get(line, ""),
    )


@cache
def _writers(root: Path, path: str) -> Mapping[int, str]:
    """Who wrote each line of a file, and when, as git tells; nothing where git has nothing to tell."""
    command = ["git", "-C", str(root), "blame", "--line-porcelain", "--", path]
    try:
        done = subprocess.run(command, capture_output=True, check=True, timeout=20)
    except (OSError, subprocess.SubprocessError):
        return {}
    found: dict[int, str] = {}
    line, name = 0, ""
    for text in done.stdout.decode("utf-8", "replace").splitlines():
        head = re.match(r"[0-9a-f]{40,64} \d+ (\d+)", text)
        if head:
            line = int(head[1])
        elif text.startswith("author "):
            name = text.removeprefix("author ").strip()
            found[line] = "" if name == "Not Committed Yet" else name
    return found


def _write(arguments: argparse.Namespace, tables: list[Table], reports: list[Report]) -> None:
    for option, name in _files(arguments).items():
        for report in reports:
            spare_the_manuscript(option, name, report)
    if arguments.csv is not None:
        text = as_csv(tables)
        _put(arguments.csv, text, ("\ufeff" + text).encode("utf-8", "replace"))  # spreadsheets want the mark
    if arguments.markdown is not None:
        text = as_markdown(tables)
        _put(arguments.markdown, text, text.encode("utf-8", "replace"))
    if arguments.xlsx is not None:
        write_output(arguments.xlsx, as_workbook(tables))
    if arguments.format == "json":
        write_text(as_json(tables))
    elif _files(arguments):
        for name in _files(arguments).values() if "-" not in (arguments.csv, arguments.markdown) else ():
            page().say(f"Written: {name}")
    elif "-" not in (arguments.csv, arguments.markdown):
        _print(tables)


def _put(name: str, text: str, data: bytes) -> None:
    if name == "-":
        write_text(text)
    else:
        write_output(name, data)


def _print(tables: list[Table]) -> None:
    from lint_rules.commands.output import forget_output
    from lint_rules.reports.terminal_page import console

    shown = console(forget_output)
    if not shown.is_terminal:
        shown.width = 200  # a pipe has no edge; lines stay whole where they can
    print_tables(tables, shown)
