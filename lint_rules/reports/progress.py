"""How far a long run has come, on standard error, for somebody who sits at a terminal; nothing for anybody else.

Nothing shows in the first second: a bar that only flashes disturbs. The library that draws is loaded only then.
"""

import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from threading import Lock, Timer
from typing import Any

from lint_rules.language.service import English, EnglishMatch

_AFTER = 1.0  # seconds
_TEXTS_AT_ONCE = 200  # between two signs of life from the English checker
_UNITS = "Units read"
_ENGLISH = "Texts checked for English"


class Progress:
    """Counts what is done. Until it is shown, and when it never is, counting is all it does."""

    def __init__(self) -> None:
        self._lock = Lock()  # a clock of its own begins to draw
        self._counts: dict[str, list[int]] = {}  # what → how many are done, and of how many
        self._shown: Any = None
        self._lines: dict[str, Any] = {}

    def expect_units(self, total: int) -> None:
        """Say that so many units more are to be read."""
        self._add(_UNITS, 0, total)

    def units_done(self, done: int) -> None:
        """Say that so many units more have been read."""
        self._add(_UNITS, done, 0)

    def watch(self, english: English) -> "WatchedEnglish":
        """An English checker that counts the texts it has checked."""
        return WatchedEnglish(english, lambda done, total: self._add(_ENGLISH, done, total))

    def show(self) -> None:
        """Begin to draw."""
        from rich.console import Console
        from rich.progress import BarColumn, MofNCompleteColumn, SpinnerColumn, TextColumn
        from rich.progress import Progress as Bars

        columns = (SpinnerColumn(), TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
        with self._lock:
            self._shown = Bars(*columns, console=Console(stderr=True), transient=True)
            self._shown.start()
            for what in self._counts:
                self._draw(what)

    def stop(self) -> None:
        """Leave no trace."""
        if self._shown is not None:
            self._shown.stop()

    def _add(self, what: str, done: int, total: int) -> None:
        with self._lock:
            counts = self._counts.setdefault(what, [0, 0])
            counts[0] += done
            counts[1] += total
            if self._shown is not None:
                self._draw(what)

    def _draw(self, what: str) -> None:
        done, total = self._counts[what]
        if what not in self._lines:
            self._lines[what] = self._shown.add_task(what, total=total)
        self._shown.update(self._lines[what], completed=done, total=total)


class WatchedEnglish:
    """Asks an English checker a few texts at a time, and says how many are done."""

    def __init__(self, inner: English, tell: Callable[[int, int], None]) -> None:
        self._inner = inner
        self._tell = tell

    @property
    def version(self) -> str:
        """The version of the checker that is asked."""
        return self._inner.version

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One tuple of matches a text, in order. Raises EnglishUnavailable."""
        self._tell(0, len(texts))
        found: list[tuple[EnglishMatch, ...]] = []
        for start in range(0, len(texts), _TEXTS_AT_ONCE):
            some = texts[start : start + _TEXTS_AT_ONCE]
            found += self._inner.check(some, variety)
            self._tell(len(some), 0)
        return found


@contextmanager
def progress() -> Iterator[Progress]:
    """A count for the length of a run, shown on a terminal once the run has taken more than a second."""
    counts = Progress()
    if not sys.stderr.isatty():
        yield counts
        return
    timer = Timer(_AFTER, counts.show)
    timer.daemon = True
    timer.start()
    try:
        yield counts
    finally:
        timer.cancel()
        timer.join()
        counts.stop()
