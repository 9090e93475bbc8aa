"""Releases that several tests look at: the example, its first draft, and small courses written for one question."""

import contextlib
import io
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element, fromstring

from lxml import html

from lint_rules.cli import main

REPOSITORY = Path(__file__).parents[2]
EXAMPLE = "example_manuscript"
DRAFT = "example_manuscript/first_draft"

COURSE = """\
title: The Kite Shop
variety: en-GB
ages: 6-8
levels:
  - name: level-1
    cefr: A1
    words: words/level-1.csv
rules:
"""
# Needs one rule only, so that a test of the gate says what it is about.
QUIET = (
    "audio-script",
    "course-hours",
    "missing-recurring-activity",
    "unit-pattern",
    "word-not-recycled",
    "word-not-tested",
    "test-skills",
    "missing-time",
    "missing-note-field",
    "missing-grammar-label",
    "grammar-before-taught",
    "lesson-length",
    "answers-mismatch",
    "target-word-not-taught",
    "activity-numbering",
    "unconfirmed-draft",
)


@dataclass(frozen=True)
class Release:
    """One run of ``hornbook release``: exit status, what it said, and the files it wrote."""

    status: int
    said: str
    complained: str
    folder: Path

    def text(self, name: str) -> str:
        return (self.folder / name).read_text("utf-8")

    @property
    def sarif(self) -> dict[str, Any]:
        return dict(json.loads(self.text("out.sarif")))

    @property
    def run(self) -> dict[str, Any]:
        return dict(self.sarif["runs"][0])

    @property
    def junit(self) -> Element:
        return fromstring((self.folder / "out.xml").read_bytes())

    @property
    def record(self) -> dict[str, Any]:
        return dict(json.loads(self.text("record.json")))


def hornbook(*arguments: str, cwd: Path = REPOSITORY) -> tuple[int, str, str]:
    """Exit status, standard output and standard error of a command."""
    out, err = io.StringIO(), io.StringIO()
    with contextlib.chdir(cwd), contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = main(arguments)
        except SystemExit as stop:
            status = int(str(stop.code))
    return status, out.getvalue(), err.getvalue()


def release(course: str, folder: Path, *more: str, cwd: Path = REPOSITORY, html: bool = False) -> Release:
    """Release a course with every file written into a folder."""
    files = ["--sarif", "out.sarif", "--junit", "out.xml", "--record", "record.json"]
    files += ["--report", "report.html"] if html else []
    named = [str(folder / word) if at % 2 else word for at, word in enumerate(files)]
    status, said, complained = hornbook("release", course, *named, *more, cwd=cwd)
    return Release(status, said, complained, folder)


def write_course(root: Path, units: dict[str, str], settings: Sequence[str] = (), words: str = "") -> Path:
    """A course on disk: units by path, lines of `rules:`, rows of the word list."""
    rules = [f"  {name}: off" for name in QUIET if not any(line.startswith(f"{name}:") for line in settings)]
    course = COURSE + "\n".join([*rules, *(f"  {line}" for line in settings)]) + "\n"
    files = {"course.yaml": course, "words/level-1.csv": f"word,part_of_speech,topic,unit\n{words}", **units}
    for path, text in files.items():
        (root / path).parent.mkdir(parents=True, exist_ok=True)
        (root / path).write_bytes(text.encode("utf-8"))
    return root


def unit(body: str, number: int = 1, title: str = "The red kite") -> str:
    """A unit of one lesson and one activity with a body."""
    return (
        f"---\nlevel: level-1\nunit: {number}\ntitle: {title}\n---\n\n# {title}\n\n## Lesson 1: Kites\n\n"
        f"### 1 Read.\n\n{body}\n"
    )


def without_date(record: bytes) -> bytes:
    return b"\n".join(line for line in record.splitlines() if not line.startswith(b' "date"'))


def page_of(released: Release) -> html.HtmlElement:
    return html.document_fromstring((released.folder / "report.html").read_bytes())
