"""``hornbook start DIR``: writes a small course to begin from, and says what to do next."""

import argparse
from pathlib import Path

from lint_rules.commands.output import console
from lint_rules.course.start import CannotStart, start_course
from lint_rules.exits import CLEAN, CannotRun


def run(arguments: argparse.Namespace) -> int:
    """Write the course. Raises CannotRun when it would write over something or cannot write."""
    folder = Path(arguments.dir)
    try:
        written = start_course(folder)
    except CannotStart as error:
        raise CannotRun(str(error)) from error
    page = console()
    page.print(f"A small course to begin from is in {folder}:")
    for path in written:
        page.print(f"  {path}")
    page.print(f"Change what you like, then read it with: hornbook book {folder}")
    return CLEAN
