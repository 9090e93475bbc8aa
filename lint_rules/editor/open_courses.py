"""The courses of the open files, kept in memory: settings, word lists, and what each unit sets out to teach.

They are read again when something on disk has changed, or something that an editor holds open: course.yaml, a word
list, the front matter of a unit. What is written further down in a unit changes nothing here.
"""

import os
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from lint_rules import lazy_re
from lint_rules.course.folder import COURSE_FILE, CourseOnDisk, read_course_folder, read_file
from lint_rules.course.problem import CourseProblem
from lint_rules.editor.positions import source_of
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.rule import RuleModule
from lint_rules.source import Source

_FRONT = lazy_re.compile(r"\ufeff?---[ \t]*\r?\n[\s\S]*?^---[ \t]*$", re.M)
_Stamp = tuple[tuple[str, int, int], ...]


@dataclass(slots=True)
class _Kept:
    disk: _Stamp
    buffers: Mapping[str, str]
    folder: CourseOnDisk


class OpenCourses:
    """Gives the course of a folder, read no more often than it has to be."""

    def __init__(self, rules: tuple[RuleModule, ...]) -> None:
        self._names = [module.rule.name for module in rules]
        self._kept: dict[Path, _Kept] = {}

    def folder(self, root: Path, buffers: Mapping[str, str]) -> CourseOnDisk:
        """The course in a folder. ``buffers`` are the open texts by their paths in the course.

        Raises FolderError when course.yaml cannot be opened.
        """
        disk = tuple(_stamps(root))
        deciding = {path: _deciding(path, text) for path, text in buffers.items()}
        kept = self._kept.get(root)
        if kept is None or kept.disk != disk or kept.buffers != deciding:
            folder = self._read(root, buffers)
            kept = self._kept[root] = _Kept(disk, deciding, folder)
        return kept.folder

    def _read(self, root: Path, buffers: Mapping[str, str]) -> CourseOnDisk:
        def read(root: Path, path: str) -> Source | CourseProblem:
            return source_of(path, buffers[path]) if path in buffers else read_file(root, path)

        return read_course_folder(root, self._names, STRUCTURE_NAMES, structures_of_label, read=read)


def _deciding(path: str, text: str) -> str:
    """The part of an open text that other units depend on: a unit's front matter, all of any other file."""
    if path != COURSE_FILE and path.lower().endswith(".md"):
        match = _FRONT.match(text)
        return match[0] if match else ""
    return text


def _stamps(root: Path) -> Iterator[tuple[str, int, int]]:
    """Path, time and size of every file of a course that is not hidden."""
    for folder, subfolders, names in os.walk(root):
        subfolders[:] = sorted(name for name in subfolders if not name.startswith("."))
        for name in sorted(names):
            if not name.startswith("."):
                path = os.path.join(folder, name)
                try:
                    found = os.stat(path)
                except OSError:
                    continue
                yield path, found.st_mtime_ns, found.st_size
