"""What looks like manuscript and is not read: it must be named, or a book is clean by accident.

A typesetter takes what lies in the folder. So whatever begins as a unit does (front matter with a level or a unit) or
is named as one (``unit-03.markdown``, ``.unit-03.md``) counts, in hidden folders, behind links and in a course inside
the course too. Of a course inside the course only units are named that the outer one lacks: the others are copies.
"""

import os
import re
from collections.abc import Iterator
from pathlib import Path

from lint_rules import lazy_re
from lint_rules.course.limits import HEAD, Refused, read_bytes
from lint_rules.course.model import Course
from lint_rules.course.problem import CourseProblem, did_you_mean
from lint_rules.course.reading import natural_order
from lint_rules.manuscript.front_matter import read_front_matter
from lint_rules.manuscript.model import FrontMatter
from lint_rules.source import Source

_NAMED_AS_UNIT = lazy_re.compile(r"(?i)\.?unit[-_ .]?\d+\b")
# Files that hold no unit: pictures, sound, tables, settings, pages made from the book (common practice, no source).
_NO_TEXT = lazy_re.compile(
    r"(?i).+\.(?:svg|png|jpe?g|gif|webp|tiff?|bmp|ico|eps|psd|ai|mp[34]|m4a|wav|ogg|flac|mid|csv|tsv|xlsx?|ods|ya?ml|json"
    r"|toml|xml|sarif|html?|css|js|py|sh|pdf|epub|idml|indd|zip|gz|ttf|otf|woff2?|sqlite)\Z"
)
_NOT_A_BOOK = frozenset({".git", ".hg", ".svn", "node_modules", "__pycache__"})
_ENVIRONMENT = "pyvenv.cfg"  # marks a folder that Python made for packages (PEP 405)
_MOST_BEHIND_A_LINK = 2_000


def strays(root: Path, course: Course, units: frozenset[str], known: frozenset[str] | None) -> Iterator[CourseProblem]:
    """Files and linked folders that look like manuscript and are no unit of the course, in natural order.

    ``known`` are the only paths that count (None: all do).
    """
    found = {path: why for path, why in _found(root, course, units) if known is None or path in known}
    for path in sorted(found, key=natural_order):
        yield CourseProblem(_printable(path), 0, 0, f"{_printable(path)} {found[path]}", stops=False)


def begins_as_a_unit(path: Path) -> bool:
    """Say whether a Markdown file starts with front matter that names a level or a unit."""
    try:
        start = read_bytes(path, "unit", head=HEAD).decode("utf-8", "replace").lstrip("\ufeff")
    except Refused:
        return True
    lines = start.splitlines()
    return bool(lines) and lines[0].rstrip() == "---" and any(line.startswith(("level:", "unit:")) for line in lines)


def _printable(path: str) -> str:
    return path.encode("utf-8", "backslashreplace").decode()


def _found(root: Path, course: Course, units: frozenset[str]) -> Iterator[tuple[str, str]]:
    names = {level.name for level in course.levels}
    there = {(course.levels[plan.level].name, plan.unit) for plan in course.plans}
    inner: list[str] = []  # folders, each with `/`, that hold a course of their own
    for folder, subfolders, files in os.walk(root):
        here = Path(folder)
        at = here.relative_to(root).as_posix()
        prefix = "" if at == "." else f"{at}/"
        if at != "." and "course.yaml" in files:
            inner.append(prefix)
            if prefix.split("/")[0] in names:
                yield f"{prefix}course.yaml", "begins a second course inside a level. Take it out."
        linked = sorted(name for name in subfolders if (here / name).is_symlink())
        subfolders[:] = sorted(
            name
            for name in subfolders
            if name not in linked and name not in _NOT_A_BOOK and not (here / name / _ENVIRONMENT).exists()
        )
        for name in linked:
            if _hides_units(root, prefix + name, names):
                yield prefix + name, "is a link to a folder, so nothing in it was read. Put the folder itself there."
        for name in sorted(files):
            path = prefix + name
            front = None if path in units else _front_of(here / name, root)
            if front is None:
                continue
            if any(map(prefix.startswith, inner)) and (front.level, front.unit) in there:
                continue
            yield path, _why(path, names, own_course=any(map(prefix.startswith, inner)))


def _front_of(file: Path, root: Path) -> FrontMatter | None:
    """The front matter of a file that looks like a unit, by what it begins with or by its name; else None."""
    named = _NAMED_AS_UNIT.match(file.name) is not None
    if _NO_TEXT.match(file.name):
        return None
    try:
        head = read_bytes(file, "unit", root, head=HEAD)
    except Refused:
        return FrontMatter() if named else None
    front, _ = read_front_matter(Source(file.name, head.decode("utf-8", "replace").removeprefix("\ufeff")))
    return front if named or front.level or front.unit else None


def _hides_units(root: Path, path: str, levels: set[str]) -> bool:
    """Say whether a linked folder stands for a level, or holds what looks like a unit."""
    if path in levels:
        return True
    target = (root / path).resolve()
    if target.is_relative_to(root.resolve()):
        return False  # inside the course: walked already
    files = (Path(folder) / name for folder, _, names in os.walk(target) for name in names)
    return any(_front_of(file, target) is not None for file, _ in zip(files, range(_MOST_BEHIND_A_LINK), strict=False))


def _why(path: str, levels: set[str], *, own_course: bool) -> str:
    folder, _, name = path.rpartition("/")
    if own_course:
        return "looks like a unit of this course, but stands in a course inside it, so it was not read."
    if folder in levels:
        return (
            f"looks like a unit, but is not named as one, so it was not read. Give it a name such as {_proper(name)}."
        )
    hint = did_you_mean(folder, levels) if folder else ""
    return f"looks like a unit, but is not in the folder of a level, so it was not read.{hint}"


def _proper(name: str) -> str:
    number = re.search(r"\d+", name)
    return f"unit-{int(number[0]):02}.md" if number and len(number[0]) < 5 else "unit-01.md"
