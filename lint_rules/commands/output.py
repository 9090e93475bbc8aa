"""What commands say and write: to a person on a page, to a program as UTF-8 in exact bytes, to files whole."""

import os
import re
import sys
from collections.abc import Mapping
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path

from lint_rules.atomic_write import NotWritten, check_place, write_whole
from lint_rules.course.folder import COURSE_FILE, FolderError, find_course
from lint_rules.course.limits import HEAD, NotThere, Refused, read_bytes
from lint_rules.engine.suppression.carried import CARRIED_FILE
from lint_rules.exit_status import CannotRun
from lint_rules.reports.page import Page, PlainPage
from lint_rules.reports.report import Report


def page(whole: bool = True) -> Page:
    """Where lines are shown to a person. At a terminal they are broken between words; in a pipe they stay whole.

    Unless the ``whole`` is wanted, a terminal has an end: what the reader sees at once.
    """
    if not (sys.stdout.isatty() or os.environ.get("FORCE_COLOR")):
        return PlainPage(forget_output)
    from lint_rules.reports.terminal_page import TerminalPage, console

    shown = console(forget_output)
    return TerminalPage(shown, None if whole or not sys.stdout.isatty() else shown.height - 1)


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


def write_bytes(data: bytes) -> None:
    """Write for a program, byte for byte."""
    write_text(data.decode("utf-8"))


def forget_output() -> None:
    """Send what is still to be said nowhere."""
    with suppress(OSError, ValueError):  # an output that is no file, or is closed
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


STANDARD = "-"  # standard output, in the place of a file's name


def check_output(option: str, name: str, place: Path) -> None:
    """Say before the book in ``place`` is read that a file cannot, or must not, be written. Raises CannotRun."""
    if not name:
        raise CannotRun(f"{option} wants the name of a file.")
    if Path(name).is_dir():
        raise CannotRun(f"{option} wants a file, and {name} is a folder.")
    if not Path(name).absolute().parent.is_dir():
        raise CannotRun(f"{option} {name}: there is no folder {Path(name).parent} to write into.")
    try:
        check_place(Path(name), _root_of(place))
    except NotWritten as error:
        raise CannotRun(f"{option} {name} is not written: {error.strerror}.") from error


def check_report(option: str, name: str, place: Path) -> None:
    """As ``check_output``, for a file that is written whatever comes: nothing of the book is in its place.

    Raises CannotRun.
    """
    check_output(option, name, place)
    root = _root_of(place)
    if root is not None and Path(os.path.realpath(name)).is_relative_to(root.resolve()) and not _is_ours(Path(name)):
        raise CannotRun(_OVER.format(option, name))


def is_folder(name: str) -> bool:
    """Say whether a name is meant for a folder: it is one, or it ends as one does."""
    return name.endswith(("/", os.sep)) or (bool(name) and Path(name).is_dir())


def check_folder(option: str, name: str, place: Path) -> None:
    """Say before the book in ``place`` is read that pages cannot, or must not, be written into a folder.

    It is made where it is not there; one that is there is empty or holds what hornbook has made. Raises CannotRun.
    """
    folder = Path(name)
    if not folder.exists():
        check_output(option, str(folder), place)
    elif not folder.is_dir():
        raise CannotRun(f"{option} {name}: this is a file and no folder.")
    elif any(folder.iterdir()) and not ((folder / FIRST_PAGE).exists() and _is_ours(folder / FIRST_PAGE)):
        raise CannotRun(f"{option} {name}: other files are in this folder. Name an empty or a new one.")


FIRST_PAGE = "index.html"


def write_folder(name: str, pages: Mapping[str, bytes]) -> tuple[str, ...]:
    """Write pages into a folder, each whole or not at all; gives the names of the pages that were taken out for it.

    Taken out is what the folder's first page linked as a page of a unit, what is a page of hornbook's still, and what
    is not among the new pages: the unit has another name now, or is gone. Raises CannotRun.
    """
    folder = Path(name)
    before = _linked(folder / FIRST_PAGE)
    try:
        folder.mkdir(exist_ok=True)
    except OSError as error:
        raise CannotRun(f"{name} could not be made ({error.strerror or error}).") from error
    for page_name, data in pages.items():
        if not _is_ours(folder / page_name):
            raise CannotRun(f"{folder / page_name} is not a page of hornbook's, so it is not written over.")
        write_output(str(folder / page_name), data)
    gone = []
    for page_name in before:
        if page_name not in pages and _is_page(folder / page_name):
            with suppress(OSError):  # one that cannot be taken out does no harm: no page links it any more
                (folder / page_name).unlink()
                gone.append(page_name)
    return tuple(gone)


_LINK = re.compile(rb'<li><a href="([a-z0-9-]+\.html)">')
_MADE = b'<meta name="generator" content="hornbook">'


def _linked(first_page: Path) -> list[str]:
    """The pages that the first page of an earlier proof names."""
    if not _is_page(first_page):
        return []
    with suppress(OSError):
        _, _, pages = first_page.read_bytes().partition(b'<ul class="pages">')
        return [link.decode("ascii") for link in _LINK.findall(pages.partition(b"</ul>")[0])]
    return []


def _is_page(file: Path) -> bool:
    """Say whether a file is a page of hornbook's, and no link to one."""
    try:
        return not file.is_symlink() and _MADE in read_bytes(file, "picture", head=HEAD)
    except Refused:
        return False


def spare_the_manuscript(option: str, name: str, report: Report) -> None:
    """Never write a table over what was read, or what looks like manuscript or art. Raises CannotRun."""
    lists = (level.words_path for level in report.course.levels if level.words_path)
    strays = (row.inside for row in report.skipped if row.inside)
    own = {
        os.path.realpath(report.root / path) for path in (*report.sources, *lists, *strays, COURSE_FILE, CARRIED_FILE)
    }
    real = Path(os.path.realpath(name))
    inside = real.exists() and real.is_relative_to(report.root.resolve())
    if str(real) in own or (inside and real.suffix != _SUFFIX[option]):
        raise CannotRun(_OVER.format(option, name))


_OVER = "{} {} would write over a file of the course. Give it a name of its own."
_SUFFIX = {"--csv": ".csv", "--xlsx": ".xlsx", "--markdown": ".md"}  # of a table from before


def _root_of(place: Path) -> Path | None:
    try:
        return find_course(place)
    except FolderError:
        return None


def _is_ours(file: Path) -> bool:
    """Say whether a report may be written over a file: there is none, or hornbook has made it."""
    try:
        head = read_bytes(file, "picture", head=HEAD)
    except NotThere:
        return True
    except Refused:
        return False
    start = head.removeprefix(b"\xef\xbb\xbf").lstrip()[:15].lower()
    if start.startswith((b"{", b"<?xml", b"<!doctype html")):
        return b"hornbook" in head
    return False


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
