"""A small course on disk, and runs over it: in this process, or as a writer starts them."""

import json
import os
import shutil
from collections.abc import Mapping
from pathlib import Path

REPOSITORY = Path(__file__).parents[2]
EXAMPLE = REPOSITORY / "example_manuscript"
DRAFT = EXAMPLE / "first_draft"


def copy_of(course: Path, folder: Path) -> Path:
    """A copy of a course that a test may change."""
    return Path(shutil.copytree(course, folder / course.name, ignore=shutil.ignore_patterns("first_draft")))


def environment(cache: Path | str, **settings: str) -> Mapping[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("HORNBOOK", "PRE_COMMIT"))}
    return {
        **kept,
        "PYTHONPATH": str(REPOSITORY),
        "PYTHONIOENCODING": "utf-8",
        "HORNBOOK_CACHE": str(cache),
        **settings,
    }


def findings(output: str) -> list[dict[str, object]]:
    """The findings of a report in JSON."""
    found: list[dict[str, object]] = json.loads(output)["findings"]
    return found


def replace_in(file: Path, old: str, new: str) -> None:
    """Change a file in one place."""
    text = file.read_text(encoding="utf-8")
    assert text.count(old) == 1, (file, old, text.count(old))
    file.write_text(text.replace(old, new), encoding="utf-8")


def append_to(file: Path, text: str) -> None:
    """Add to the end of a file."""
    with file.open("a", encoding="utf-8") as opened:
        opened.write(text)
