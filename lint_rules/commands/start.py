"""``hornbook start DIR``: writes a small course to begin from, and says what to do next."""

import argparse
from pathlib import Path

from lint_rules.commands.output import page
from lint_rules.course.start import CannotStart, start_course
from lint_rules.exits import CLEAN, CannotRun


def run(arguments: argparse.Namespace) -> int:
    """Write the course. Raises CannotRun when it would write over something or cannot write."""
    folder = Path(arguments.dir)
    try:
        written = start_course(folder)
    except CannotStart as error:
        raise CannotRun(str(error)) from error
    shown = page()
    shown.say(f"A small course to begin from is in {folder}:")
    for path in written:
        shown.say(f"  {path}")
    shown.say(f"Change what you like, then read it with: hornbook book {folder}")
    return CLEAN
