"""``hornbook level``: what a text asks of a child."""

import argparse
import sys
from pathlib import Path

from lint_rules.commands.output import write_text
from lint_rules.course.folder import NoCourse, decode, find_course, path_in_course
from lint_rules.course.model import Course, Level
from lint_rules.exit_status import CannotRun
from lint_rules.language.service import LanguageUnavailable
from lint_rules.manuscript.counting import read_by_children
from lint_rules.manuscript.markdown import LONGEST
from lint_rules.manuscript.reading import read_unit
from lint_rules.reports.level_page import run_level
from lint_rules.session import Tools, open_course, tools
from lint_rules.source import Source


def run(arguments: argparse.Namespace) -> int:
    """Read a text file, what children read of a unit file, or standard input. Raises CannotRun."""
    source = _read(arguments.file)
    with tools(arguments) as kit:
        course, level = _course(arguments.file, kit)
        text = source.text if arguments.lines else _for_children(source)
        try:
            page = run_level(
                text,
                kit.language,
                lines=arguments.lines,
                as_json=arguments.format == "json",
                course=course,
                level=level,
            )
        except LanguageUnavailable as error:
            raise CannotRun(str(error)) from error
    write_text(page)
    return 0


def _read(name: str) -> Source:
    if name == "-" and sys.stdin is None:
        raise CannotRun("There is no standard input to read. Name a file.")
    try:
        data = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
    except OSError as error:
        raise CannotRun(f"{name} cannot be read: {error.strerror or error}.") from error
    read = decode("standard input" if name == "-" else name, data)
    if not isinstance(read, Source):
        raise CannotRun(f"{read.path}:{read.line}:{read.column}: {read.message}")
    for number, line in enumerate(read.text.split("\n"), start=1):
        if len(line) > LONGEST:
            most = f"more than {LONGEST:,} characters are too many to read in one go"
            raise CannotRun(f"{read.path}:{number}: {most}. Begin a new line with each paragraph.")
    return read


def _course(name: str, kit: Tools) -> tuple[Course | None, Level | None]:
    """The course a file lies in, or where the command was given, and the level it is a unit of, where there are any."""
    try:
        place = find_course(Path.cwd() if name == "-" else Path(name))
    except NoCourse:
        return None, None
    course = open_course(place, kit.rules).course
    level = course.level_of(path_in_course(place, Path(name))) if course and name != "-" else None
    return course, level


def _for_children(source: Source) -> str:
    """The text itself; of a Markdown unit only what children read and hear, a passage a line."""
    if not source.path.endswith(".md"):
        return source.text
    passages = [passage.text for passage in read_unit(source).passages if read_by_children(passage)]
    return "".join(f"{' '.join(text.split())}\n" for text in passages)
