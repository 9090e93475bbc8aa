"""A course on disk: finding it from a file, listing its units, reading their bytes. The only room here that touches
disk and git.

Paths inside a course are written with ``/``, from the folder that holds course.yaml.
"""

import os
import subprocess
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from lint_rules.course.limits import NotThere, Refused, kind_of, read_bytes
from lint_rules.course.model import Course
from lint_rules.course.problem import CourseProblem
from lint_rules.course.reading import LabelReader, natural_order, plans_of, read_course
from lint_rules.course.strays import strays
from lint_rules.source import Source

COURSE_FILE = "course.yaml"
_UNIT_SUFFIX = ".md"
_FOLDERS_DEEP = 4  # how far below the top of a repository a book is looked for


class FolderError(Exception):
    """The course cannot be read from disk; the message says why and what to do."""


class NoCourse(FolderError):
    """A file or folder is under no course; the message says how to start one."""


@dataclass(frozen=True, slots=True)
class CourseOnDisk:
    """A course as it lies on disk.

    ``units`` are the unit files that could be read, level by level, ``unreadable`` those that could not (line 0: the
    file as a whole), ``files`` the paths of everything else (art, audio). ``strays`` are files and folders that look
    like manuscript and that hornbook does not read. ``course`` is None when course.yaml holds none; ``problems`` are
    what is wrong in course.yaml and the word lists.
    """

    root: Path
    course: Course | None
    problems: tuple[CourseProblem, ...]
    units: tuple[Source, ...] = ()
    unreadable: tuple[CourseProblem, ...] = ()
    files: frozenset[str] = frozenset()
    strays: tuple[CourseProblem, ...] = ()


def find_course(path: Path) -> Path:
    """The folder of the course that a file or folder belongs to: the nearest one upwards that holds course.yaml.

    Raises NoCourse.
    """
    start = Path(os.path.abspath(path))
    for folder in (start, *start.parents):
        if (folder / COURSE_FILE).is_file():
            return folder
    what, there = (f"{path} is", "its folder") if str(path) != "." else ("This folder is", "it")
    raise NoCourse(
        f"{what} under no course: there is no {COURSE_FILE} in {there} or in any folder above it."
        " `hornbook start DIR` writes a small course to begin from."
    )


def courses_at(place: Path) -> list[Path]:
    """The course that a folder is in; where it is in none, those that begin below it, a few folders deep.

    So that a hook, which runs at the top of the repository, finds the book in `books/kites`. Raises NoCourse.
    """
    try:
        return [find_course(place)]
    except NoCourse:
        top, found = Path(os.path.abspath(place)), list[Path]()
        for folder, subfolders, names in os.walk(top):
            here = Path(folder)
            deep = len(here.relative_to(top).parts) >= _FOLDERS_DEEP
            subfolders[:] = [] if deep else sorted(name for name in subfolders if not name.startswith("."))
            if COURSE_FILE in names:
                found.append(here)
                subfolders.clear()
        if not found:
            raise
        return found


def tree_of(place: Path) -> Path:
    """What came together with a file or folder: its git repository, else its course, else its own folder."""
    start = Path(os.path.abspath(place))
    folder = start if start.is_dir() else start.parent
    try:
        return repository(folder) or find_course(folder)
    except NoCourse:
        return folder


def prefix_in_repository(root: Path) -> str:
    """How a path of a course begins as seen from the top of its git repository: `books/kites/`, or nothing."""
    top = repository(root)
    inside = root.relative_to(top).as_posix() if top is not None else "."
    return "" if inside == "." else f"{inside}/"


def git_state(root: Path, without: Sequence[str] = ()) -> tuple[str, bool] | None:
    """The commit that a course's repository is at, and whether its files are as committed (but for ``without``).

    None where there is no repository, or no commit, or no git.
    """
    top = repository(root)
    if top is None:
        return None
    others = [Path(os.path.abspath(name)) for name in without]
    left_out = [f":(exclude,literal){path.relative_to(top).as_posix()}" for path in others if path.is_relative_to(top)]
    try:
        commit = _git(top, "rev-parse", "--verify", "HEAD").decode("ascii", "replace").strip()
        changed = _git(
            top, "status", "--porcelain", "-z", "--", f":(literal){root.relative_to(top).as_posix()}", *left_out
        )
    except FolderError:
        return None
    return commit, not changed


def path_in_course(root: Path, path: Path) -> str:
    """The path of a file inside its course. Raises NoCourse when it lies outside."""
    absolute = Path(os.path.abspath(path))
    if not absolute.is_relative_to(root):
        raise NoCourse(f"{path} is not in the course {root}.")
    return absolute.relative_to(root).as_posix()


def decode(path: str, data: bytes) -> Source | CourseProblem:
    """A file's text; when it is not UTF-8, a problem at the first byte that is not, with the cure."""
    line, column = 1, 1
    what = "is in UTF-16, not in UTF-8"
    if not _is_utf_16(data):
        try:
            return Source.decode(path, data)
        except UnicodeDecodeError as error:
            before = Source(path, data[: error.start].decode("utf-8", "replace"))
            line, column = before.position(len(before.text))
            what = "is not in UTF-8 from here on"
    cure = "Save it again with the encoding UTF-8"
    cure += " (a spreadsheet offers that where it saves as CSV)." if path.endswith(".csv") else "."
    return CourseProblem(path, line, column, f"{path} {what}. {cure}")


def _is_utf_16(data: bytes) -> bool:
    """Say whether every other byte is zero where a text begins (those who know no byte order mark write none)."""
    start = data[:64]
    return start[:2] in (b"\xff\xfe", b"\xfe\xff") or (len(start) > 3 and not (any(start[::2]) and any(start[1::2])))


def read_file(root: Path, path: str) -> Source | CourseProblem:
    """A file of the course. What cannot be opened, or is a link out of the course, is a problem with line 0."""

    def problem(message: str) -> CourseProblem:
        return CourseProblem(path, 0, 0, message)

    shown = path.encode("utf-8", "backslashreplace").decode()
    if shown != path:
        return CourseProblem(shown, 0, 0, f"The name of the file {shown} is not in UTF-8. Give it another name.")
    try:
        return decode(path, read_bytes(root / path, kind_of(path), root))
    except NotThere:
        return problem(f"There is no file {path} in the course's folder.")
    except Refused as error:
        return problem(f"{path} {error}")


def read_course_folder(
    root: Path,
    rule_names: Sequence[str],
    structure_names: Sequence[str],
    read_label: LabelReader = lambda label: (),
    *,
    tracked_only: bool | None = None,
    read: Callable[[Path, str], Source | CourseProblem] = read_file,
) -> CourseOnDisk:
    """Read the course in a folder: settings, word lists, unit files, and what each unit sets out to teach.

    ``tracked_only`` takes only files that git knows, so that drafts nobody has added do not count; None means: when
    pre-commit runs us (PRE_COMMIT=1). ``read`` gives a file (an editor has some of them open). Raises
    FolderError when course.yaml cannot be opened or git does not answer.
    """
    root = Path(os.path.abspath(root))
    settings = read(root, COURSE_FILE)
    if isinstance(settings, CourseProblem):
        if settings.line == 0:
            raise FolderError(settings.message)
        return CourseOnDisk(root, None, (settings,))
    course, problems = read_course(settings, lambda path: read(root, path), rule_names, structure_names, read_label)
    if course is None:
        return CourseOnDisk(root, None, problems)
    listed = tracked(root, only=os.environ.get("PRE_COMMIT") == "1" if tracked_only is None else tracked_only)
    paths = list_files(root, listed)
    unit_paths = [path for level in course.levels for path in paths if course.level_of(path) == level]
    others = frozenset(path for path in paths if _is_utf_8(path)) - frozenset(unit_paths)
    found = [read(root, path) for path in unit_paths]
    units = tuple(unit for unit in found if isinstance(unit, Source))
    course = plans_of(course, units)
    return CourseOnDisk(
        root,
        course,
        problems,
        units,
        tuple(unit for unit in found if isinstance(unit, CourseProblem)),
        others,
        tuple(strays(root, course, frozenset(unit_paths), listed)),
    )


def _is_utf_8(path: str) -> bool:
    try:
        return bool(path.encode())
    except UnicodeEncodeError:
        return False


def list_files(root: Path, known: frozenset[str] | None = None) -> list[str]:
    """Every file of the course, in natural order, hidden ones left out. Links are listed, not followed.

    A folder named as a unit file is listed too, so that it can be reported. ``known`` are the only ones that count.
    """
    return sorted((path for path in _walk(root) if known is None or path in known), key=natural_order)


def tracked(root: Path, *, only: bool) -> frozenset[str] | None:
    """The paths that git knows, where only those count; None where all do. Raises FolderError when git fails."""
    top = repository(root) if only else None
    return None if top is None else _tracked(top, root)


def _walk(root: Path) -> Iterator[str]:
    for folder, subfolders, names in os.walk(root):
        here = Path(folder)
        subfolders[:] = sorted(name for name in subfolders if not name.startswith("."))
        odd = [name for name in subfolders if name.lower().endswith(_UNIT_SUFFIX)]
        for name in (*names, *odd):
            if not name.startswith("."):
                yield (here / name).relative_to(root).as_posix()


def repository(folder: Path) -> Path | None:
    """The top of the git repository around a folder, or None."""
    return next((f for f in (folder, *folder.parents) if (f / ".git").exists()), None)


def _tracked(top: Path, root: Path) -> frozenset[str]:
    """Paths inside the course of what is in git's index."""
    pathspec = root.relative_to(top).as_posix()
    done = _git(top, "--literal-pathspecs", "ls-files", "-z", "--", pathspec)
    prefix = "" if pathspec == "." else f"{pathspec}/"
    return frozenset(os.fsdecode(name).removeprefix(prefix) for name in done.split(b"\0") if name)


def _git(top: Path, *words: str) -> bytes:
    """What git says. It starts no program that a repository's settings name, and writes nothing."""
    command = ["git", "--no-optional-locks", "-c", "core.fsmonitor=false", *words]
    try:
        done = subprocess.run(command, cwd=top, env=_git_environment(top), capture_output=True, check=True, timeout=60)
    except FileNotFoundError:
        raise FolderError("git is needed to tell the course's files from drafts, and it was not found.") from None
    except subprocess.CalledProcessError as error:
        said = error.stderr.decode("utf-8", "replace").strip().split("\n")[0]
        raise FolderError(f"git could not list the course's files: {said or 'it gave no reason'}.") from error
    except subprocess.TimeoutExpired:
        raise FolderError("git did not list the course's files within a minute.") from None
    return done.stdout


def _git_environment(top: Path) -> Mapping[str, str]:
    """What git gets to see. In a hook, git's own variables (GIT_INDEX_FILE: a path from the top of the repository, of
    a partial commit for example) hold for the repository that is committed to, and for no other."""
    if Path.cwd().resolve() == top.resolve():
        return os.environ
    return {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
