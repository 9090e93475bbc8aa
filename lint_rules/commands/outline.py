"""``hornbook outline``: how each activity of a unit was read, so that an author sees a misreading."""

import argparse
from pathlib import Path

from lint_rules.commands.output import write_text
from lint_rules.course.folder import decode
from lint_rules.exit_status import CLEAN, CannotRun
from lint_rules.manuscript.reading import read_unit
from lint_rules.reports.outline_page import outline_page
from lint_rules.source import Source


def run(arguments: argparse.Namespace) -> int:
    """Print how a unit file was read. Raises CannotRun."""
    try:
        data = Path(arguments.file).read_bytes()
    except OSError as error:
        raise CannotRun(f"{arguments.file} cannot be read: {error.strerror or error}.") from error
    read = decode(arguments.file, data)
    if not isinstance(read, Source):
        raise CannotRun(f"{read.path}:{read.line}:{read.column}: {read.message}")
    unit = read_unit(read)
    write_text(outline_page(unit, as_json=arguments.format == "json"))
    if not any(True for _ in unit.activities):
        raise CannotRun(
            f"{arguments.file} holds no activity: an activity begins with a heading like `### 1 Look and read.`"
        )
    return CLEAN
