"""``hornbook start DIR``: writes a small course to begin from, and says what to do next."""

import argparse
import os
from pathlib import Path

from lint_rules.commands.output import page
from lint_rules.course.folder import NoCourse, find_course
from lint_rules.course.start import CannotStart, start_course
from lint_rules.exit_status import CLEAN, CannotRun


def run(arguments: argparse.Namespace) -> int:
    """Write the course. Raises CannotRun when it would write over something or cannot write."""
    folder = Path(arguments.dir)
    around = _course_around(folder)
    try:
        written = start_course(folder)
    except CannotStart as error:
        raise CannotRun(str(error)) from error
    shown = page()
    shown.say(f"A small course to begin from is in {folder}:")
    for path in written:
        shown.say(f"  {path}")
    if around is not None:
        shown.say(f"It lies inside the course in {around}, and is a course of its own: each is read without the other.")
    shown.say(f"Change what you like, then read it with: hornbook book {folder}")
    return CLEAN


def _course_around(folder: Path) -> Path | None:
    """The course that a folder would lie in."""
    try:
        return find_course(Path(os.path.abspath(folder)).parent)
    except NoCourse:
        return None
