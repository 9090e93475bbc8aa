"""Reads the hand-labelled sentences of course English. README.md says how they were labelled."""

from pathlib import Path
from typing import NamedTuple

from lint_rules.language.tokens import Mode

FOLDER = Path(__file__).parent
TUNED_ON = FOLDER / "course_english.txt"
HELD_BACK = FOLDER / "course_english_held_back.txt"
NEW = (FOLDER / "course_english_teacher.txt", FOLDER / "course_english_linguist.txt")


class Sentence(NamedTuple):
    """A sentence as it stands in a course, how hornbook is told to read it, and every structure it contains."""

    text: str
    mode: Mode
    structures: frozenset[str]


def sentences(path: Path) -> list[Sentence]:
    """The sentences of ``path``, in order. Raises ValueError, with the line, where the file is not well formed."""
    found: list[Sentence] = []
    mode: Mode | None = None
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if line.startswith("# mode: "):
            mode = Mode(line.removeprefix("# mode: "))
        if not line.strip() or line.startswith("#"):
            continue
        text, bar, names = line.rpartition(" |")
        listed = [name.strip() for name in names.split(",")] if names.strip() else []
        if not bar or mode is None or len(set(listed)) != len(listed) or "" in listed:
            raise ValueError(f"{path.name}, line {number}: expected `sentence | structure, structure`, got {line!r}")
        found.append(Sentence(text, mode, frozenset(listed)))
    return found
