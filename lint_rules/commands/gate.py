"""What a release asks beyond what the rules find, and the files that it leaves, on every way out."""

import argparse
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from lint_rules.commands.output import STANDARD, now, write_bytes, write_output
from lint_rules.course.folder import COURSE_FILE, FolderError, find_course, git_state
from lint_rules.course.house import House, read_house
from lint_rules.course.limits import Refused, kind_of, read_bytes
from lint_rules.engine.suppression.carried import CARRIED_FILE
from lint_rules.exit_status import CANNOT_RUN, RULE_BROKE, CannotRun
from lint_rules.reports.changes import BadRecord, Earlier, changes, read_record
from lint_rules.reports.failed import NOT_ENDED, failed
from lint_rules.reports.house import house_lacks, without_short_reasons
from lint_rules.reports.junit import junit_report
from lint_rules.reports.promised import missing_units, part_of, unpromised
from lint_rules.reports.record import CheckedWith, FileRead, record_as_text, release_record
from lint_rules.reports.report import Report
from lint_rules.reports.sarif import sarif_report
from lint_rules.reports.weight import weakened
from lint_rules.rule import RuleModule
from lint_rules.source import Source

FILES = ("sarif", "junit", "record", "report")
Git = tuple[str, bool] | None


@contextmanager
def answering(wanted: Mapping[str, str]) -> Iterator[None]:
    """Leave no file from before: each says that the run has not ended, until it is written, or says why it never is."""
    _write_failed(wanted, [NOT_ENDED], CANNOT_RUN, begun=True)
    try:
        yield
    except CannotRun as error:
        _write_failed(wanted, error.lines, CANNOT_RUN)
        raise
    except BaseException as error:
        status = RULE_BROKE if isinstance(error, Exception) else CANNOT_RUN
        with suppress(CannotRun):
            _write_failed(wanted, [f"hornbook was stopped ({type(error).__name__}: {error})."], status)
        raise


def leave_word(files: Iterable[tuple[str, str]], error: CannotRun) -> None:
    """Write into each of these files (option, name) why there is no release."""
    _write_failed(dict(files), error.lines, CANNOT_RUN)


def _write_failed(wanted: Mapping[str, str], why: Sequence[str], status: int, *, begun: bool = False) -> None:
    for option, name in wanted.items():
        if name != STANDARD:
            write_output(name, failed(option, why, status))
        elif not begun:
            write_bytes(failed(option, why, status))


def git_state_of(place: str, outputs: Iterable[str]) -> Git:
    """The commit and the state of the course's repository, before anything is written."""
    try:
        return git_state(find_course(Path(place)), [name for name in outputs if name != STANDARD])
    except FolderError:
        return None


def read_policy(arguments: argparse.Namespace, rules: Sequence[RuleModule]) -> House | None:
    """The house's policy; None where none is named. Raises CannotRun, also when it lies inside the book."""
    if arguments.house is None:
        return None
    name = arguments.house
    try:
        root = find_course(Path(arguments.dir)).resolve()
    except FolderError as error:
        raise CannotRun(str(error)) from error
    if Path(name).resolve().is_relative_to(root) or Path(name).absolute().is_relative_to(root):
        raise CannotRun(f"--house {name} lies inside the book. A book does not set its own policy: keep it outside.")
    try:
        source = Source.decode(name, read_bytes(Path(name), "house policy"))
    except Refused as error:
        raise CannotRun(f"--house {name} {error}") from error
    except UnicodeDecodeError as error:
        raise CannotRun(f"--house {name} is not in UTF-8. Save it again with that encoding.") from error
    house, problems = read_house(source, [module.rule.name for module in rules])
    if problems:
        raise CannotRun(*map(str, problems))
    return house


def read_earlier(arguments: argparse.Namespace) -> Earlier | None:
    """The record of an earlier release; None where none is named. Raises CannotRun."""
    if arguments.since is None:
        return None
    try:
        return read_record(read_bytes(Path(arguments.since), "earlier record"))
    except (Refused, BadRecord) as error:
        raise CannotRun(f"--since {arguments.since} {error}") from error


def judged(report: Report, rules: Sequence[RuleModule], house: House | None, part: str, *, compared: bool) -> Report:
    """The report with what a release asks for beyond what was found, and what it says of the book's own settings."""
    if part:
        report = part_of(report, part)
    lacks, told = list(missing_units(report.course, part)), list(unpromised(report.course, part))
    held = frozenset(house.rules) if house else frozenset()
    lighter = [row for row in weakened(report.course, rules) if row.rule not in held]
    if lighter:
        rows = ", ".join(f"{row.rule} ({row.here}, usually {row.usual})" for row in lighter)
        told.append(f"rules that course.yaml weakens: {rows}")
    if house is None:
        told.append("no policy of the house was named (--house), so the book has set its own rules")
    else:
        report = without_short_reasons(report, house)
        lacks += house_lacks(report, house, compared=compared)
    return replace(report, lacks=(*report.lacks, *lacks), told=(*report.told, *told))


@dataclass(frozen=True)
class Made:
    """A release that could be checked, and the files that tell of it."""

    report: Report
    rules: Sequence[RuleModule]
    checked_with: CheckedWith
    git: Git
    before: Earlier | None

    def file(self, option: str, status: int) -> bytes:
        """What goes into the file of an option."""
        if option == "sarif":
            return sarif_report(self.report, self.rules, status).encode("utf-8", "backslashreplace")
        if option == "junit":
            return junit_report(self.report)
        if option == "record":
            record = {**self.record, "exit_status": status}
            return record_as_text(record).encode("utf-8", "backslashreplace")
        from lint_rules.reports.html.page import html_report

        return html_report(self.report, self.rules, now()).encode("utf-8", "backslashreplace")

    @cached_property
    def record(self) -> dict[str, Any]:
        """The release record as plain data."""
        files = list(_files_read(self.report))
        lighter = list(weakened(self.report.course, self.rules))
        record = release_record(self.report, files, self.checked_with, now(), self.git, lighter)
        return record if self.before is None else {**record, "since": changes(self.before, record)}

    @property
    def changes(self) -> Mapping[str, Any]:
        """What came and went since an earlier release; nothing where none was named."""
        return {} if self.before is None else self.record["since"]


def _files_read(report: Report) -> Iterator[FileRead]:
    """Every file of the course that the run has read; a unit as it was when it was checked."""
    yield _from_disk("course", report, COURSE_FILE)
    for path in sorted({level.words_path for level in report.course.levels if level.words_path}):
        yield _from_disk("word list", report, path)
    if (report.root / CARRIED_FILE).exists():
        yield _from_disk("carried findings", report, CARRIED_FILE)
    read = {facts.path for facts in report.facts}
    for path, source in report.sources.items():
        yield FileRead("unit", path, source.encode()) if path in read else _from_disk("unit", report, path)
    pictures = {path for facts in report.facts for path in facts.pictures}
    for path in sorted(pictures & report.files):
        yield _from_disk("picture", report, path)


def _from_disk(what: str, report: Report, path: str) -> FileRead:
    try:
        return FileRead(what, path, read_bytes(report.root / path, kind_of(path), report.root))
    except Refused:
        return FileRead(what, path, None)
