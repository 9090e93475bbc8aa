"""A small course to begin from: copies the files under ``template/`` into a folder, all of them or none."""

import os
import shutil
import tempfile
from pathlib import Path

from lint_rules.course.folder import COURSE_FILE

_TEMPLATE = Path(__file__).parent / "template"
_SUFFIXES = {".yaml", ".csv", ".md"}


class CannotStart(Exception):
    """The course was not started, and nothing was written; the message says why and what to do."""


def template_files() -> tuple[str, ...]:
    """Paths of the small course's files, course.yaml first."""
    paths = [path.relative_to(_TEMPLATE).as_posix() for path in _TEMPLATE.rglob("*") if path.suffix in _SUFFIXES]
    return tuple(sorted(paths, key=lambda path: (path != COURSE_FILE, path)))


def start_course(folder: Path) -> tuple[Path, ...]:
    """Write a small course into a folder, which is made when it is not there; gives the paths of the files written.

    The folder may hold other things (a repository, notes), but nothing that the course would write over. Raises
    CannotStart.
    """
    if folder.exists() and not folder.is_dir():
        raise CannotStart(f"{folder} is a file. Name a folder for the course.")
    made = [place for place in (folder, *folder.parents) if not place.exists()]
    tops = sorted({path.split("/")[0] for path in template_files()}, key=lambda top: (top == COURSE_FILE, top))
    taken = [top for top in tops if os.path.lexists(folder / top)]
    if taken:
        there = "a course already" if COURSE_FILE in taken else f"{' and '.join(taken)} already"
        raise CannotStart(f"{folder} holds {there}; nothing was written. Choose an empty folder.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _copy(folder, tops)
    except OSError as error:
        for place in made:  # innermost first; only what we made, and only while it is empty
            if place.is_dir() and not any(place.iterdir()):
                place.rmdir()
        raise CannotStart(f"Nothing was written to {folder}: {error.strerror or error}.") from error
    return tuple(folder / path for path in template_files())


def _copy(folder: Path, tops: list[str]) -> None:
    """Copy into a hidden folder beside the place, then move: course.yaml last, so that half a course is none."""
    moved: list[Path] = []
    with tempfile.TemporaryDirectory(prefix=".start-", dir=folder) as staged:
        for path in template_files():
            copy = Path(staged) / path
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(_TEMPLATE / path, copy)
        try:
            for top in tops:
                os.rename(Path(staged) / top, folder / top)
                moved.append(folder / top)
        except BaseException:
            for path_moved in moved:
                shutil.rmtree(path_moved) if path_moved.is_dir() else path_moved.unlink()
            raise
