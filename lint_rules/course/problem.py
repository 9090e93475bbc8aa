"""A fault of course.yaml or of a word list, with its place, and the name that was probably meant."""

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches

from lint_rules import lazy_re
from lint_rules.source import Source

_ENDING = lazy_re.compile(
    r"(?<=\w\w)(?:ing|es?|s)$"
)  # `making` and `make`, `songs` and `song`: closer than any spelling


@dataclass(frozen=True, slots=True, order=True)
class CourseProblem:
    """What is wrong, where, and what would be right.

    ``line`` and ``column`` count from 1, columns in code points; line 0 is said of a file that cannot be opened at all.
    ``stops``: the course cannot be trusted as read. Without it only a row of a word list was left out.
    """

    path: str
    line: int
    column: int
    message: str
    stops: bool = True
    harmless: bool = False  # nothing was left out; worth a word

    def __str__(self) -> str:
        return f"{self.path}:{self.line}:{self.column}: {self.message}"


def problem_at(source: Source, offset: int, message: str, *, stops: bool = True) -> CourseProblem:
    """A problem at an offset of a file; what the message quotes from the file is kept to printable text in one line."""
    printable = "".join(char if char.isprintable() else " " for char in message)
    return CourseProblem(source.path, *source.position(offset), " ".join(printable.split()), stops)


def nearest(written: str, names: Iterable[str]) -> str | None:
    """The name that was probably meant by what is written, or None when nothing is near."""
    by_plain = {_plain(name): name for name in names}
    for plain, name in by_plain.items():
        if _ENDING.sub("", plain) == _ENDING.sub("", _plain(written)):
            return name
    close = get_close_matches(_plain(written), by_plain, n=1, cutoff=0.65)
    return by_plain[close[0]] if close else None


def did_you_mean(written: str, names: Iterable[str]) -> str:
    """` Did you mean X?` for a near miss, else nothing."""
    name = nearest(written, names)
    return f" Did you mean '{name}'?" if name is not None else ""


def _plain(name: str) -> str:
    """A name without what people vary: case, and spaces, hyphens or underscores between its words."""
    return name.strip().casefold().replace("_", "-").replace(" ", "-")
