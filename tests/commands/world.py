"""A small course on disk, and hornbook as a user calls it, for the tests of the commands."""

import json
import os
import subprocess
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from lint_rules.cli import main

COURSE = """\
title: Kites
levels:
  - name: level-1
    cefr: A1
    words: words/level-1.csv
    hours: 1
    unit_pattern: []
    every_unit: []
"""
WORDS = "word,part_of_speech,topic,unit\nkite,noun,toys,1\nred,adjective,colours,1\n"
UNIT = """\
---
level: level-1
unit: {number}
title: Kites {number}
---

# Kites {number}

## Lesson 1: Kites {{.words}}

::: teacher
**Aim:** talk about kites
**Time:** 40 minutes
:::

### 1 Look and read. {{.reading}}

{line}

::: teacher
**Time:** 40 minutes
**Steps:** Show the page.
:::
"""
ONE, TWO = "level-1/unit-01.md", "level-1/unit-02.md"


def unit(number: int = 1, line: str = "The kite is red.") -> str:
    """A unit without faults but for what its one line brings."""
    return UNIT.format(number=number, line=line)


def make_course(root: Path, files: Mapping[str, str | bytes] | None = None) -> Path:
    """A course of two units: the first is clean, the second has the word `enormous`, which is above its level.

    ``files`` are written over those, or beside them.
    """
    usual = {
        "course.yaml": COURSE,
        "words/level-1.csv": WORDS,
        ONE: unit(1),
        TWO: unit(2, "The kite is enormous."),
    }
    for path, content in (usual | dict(files or {})).items():
        file = root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
    return root


@dataclass(frozen=True)
class Said:
    """What a call printed and how it ended."""

    status: int
    out: str
    err: str

    @property
    def json(self) -> dict[str, Any]:
        """The one JSON object on standard output."""
        said = json.loads(self.out)
        assert set(said) == {"hornbook", "findings", "points", "units", "skipped"}
        return said

    @property
    def findings(self) -> list[dict[str, Any]]:
        """The findings of a JSON report."""
        return list(self.json["findings"])

    @property
    def all(self) -> str:
        """Everything that a user sees."""
        return self.out + self.err


class Hornbook:
    """The command line in this process; the language model is loaded once for all tests."""

    def __init__(self, capsys) -> None:
        self._capsys = capsys

    def __call__(self, *words: object) -> Said:
        self._capsys.readouterr()
        try:
            status = main([str(word) for word in words])
        except SystemExit as end:  # argparse
            status = int(end.code or 0)
        printed = self._capsys.readouterr()
        assert "Traceback" not in printed.out + printed.err
        assert "itself broke" not in printed.err
        return Said(status, printed.out, printed.err)


def process(
    *words: object, cwd: Path, env: Mapping[str, str | None] | None = None, given: bytes | None = None, **more: Any
) -> subprocess.CompletedProcess[bytes]:
    """The command line in a process of its own."""
    around = {name: value for name, value in (os.environ | dict(env or {})).items() if value is not None}
    return subprocess.run(
        [sys.executable, "-m", "lint_rules", *map(str, words)],
        cwd=cwd,
        env=around,
        input=given,
        timeout=120,
        check=False,
        **({"capture_output": True} | more),
    )
