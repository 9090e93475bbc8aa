"""What commands say and write: to a person on a page, to a program as UTF-8 in exact bytes, to files whole."""

import os
import sys
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from lint_rules.atomic_write import write_whole
from lint_rules.course.folder import COURSE_FILE
from lint_rules.engine.suppression.carried import CARRIED_FILE
from lint_rules.exit_status import CannotRun
from lint_rules.reports.page import Page, PlainPage
from lint_rules.reports.report import Report


def page() -> Page:
    """Where lines are shown to a person. At a terminal they are broken between words; in a pipe they stay whole."""
    if not (sys.stdout.isatty() or os.environ.get("FORCE_COLOR")):
        return PlainPage(forget_output)
    from lint_rules.reports.terminal_page import TerminalPage, console

    return TerminalPage(console(forget_output))


def write_text(text: str) -> None:
    """Write for a program: UTF-8 with the line ends as they are, whatever the terminal's encoding."""
    buffer = getattr(sys.stdout, "buffer", None)
    try:
        sys.stdout.flush()
        if buffer is None:
            sys.stdout.write(text)
        else:
            buffer.write(text.encode("utf-8", "backslashreplace"))
            buffer.flush()
    except BrokenPipeError:
        forget_output()


def forget_output() -> None:
    """Send what is still to be said nowhere."""
    with suppress(OSError, ValueError):  # an output that is no file, or is closed
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def check_output(option: str, name: str) -> None:
    """Say before the book is read that a file cannot be written. Raises CannotRun."""
    if not name:
        raise CannotRun(f"{option} wants the name of a file.")
    if Path(name).is_dir():
        raise CannotRun(f"{option} wants a file, and {name} is a folder.")
    if not Path(name).absolute().parent.is_dir():
        raise CannotRun(f"{option} {name}: there is no folder {Path(name).parent} to write into.")


def spare_the_manuscript(option: str, name: str, report: Report) -> None:
    """Never write over what was read. Raises CannotRun."""
    lists = (level.words_path for level in report.course.levels if level.words_path)
    own = (*report.sources, *lists, COURSE_FILE, CARRIED_FILE)
    if os.path.realpath(name) in {os.path.realpath(report.root / path) for path in own}:
        raise CannotRun(f"{option} {name} would write over a file of the course. Give it a name of its own.")


def write_output(name: str, data: bytes) -> None:
    """Write a file that the user asked for, whole or not at all. Raises CannotRun."""
    try:
        write_whole(Path(name), data)
    except OSError as error:
        raise CannotRun(f"{name} could not be written ({error.strerror or error}).") from error


def now() -> datetime:
    """The time, or the one that a reproducible build names (reproducible-builds.org, SOURCE_DATE_EPOCH)."""
    named = os.environ.get("SOURCE_DATE_EPOCH", "")
    try:
        return datetime.fromtimestamp(int(named), UTC) if named else datetime.now(UTC)
    except (ValueError, OverflowError, OSError) as error:
        raise CannotRun(f"SOURCE_DATE_EPOCH should be a number of seconds since 1970, not {named}.") from error
