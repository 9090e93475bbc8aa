"""Where lines are shown to a person. A pipe gets them plain and whole; a terminal's page is in ``terminal_page``, since
the library that draws takes as long to load as a whole unit takes to be judged."""

from collections.abc import Callable
from typing import Protocol

from lint_rules.finding import Finding
from lint_rules.said import harmless
from lint_rules.source import Source

Part = str | tuple[str, str]  # a text, or a text and its style ('bold red')


class Page(Protocol):
    """Shows lines. ``each_place``: its reader wants a line for each finding, not for each point."""

    @property
    def each_place(self) -> bool:
        """Whether each finding is shown on a line of its own."""
        ...

    def say(self, *parts: Part) -> None:
        """Show a line."""
        ...

    def show_words(self, source: Source, finding: Finding) -> None:
        """Show the words of a finding in their line, where there is room for that."""
        ...

    def rows(self, *parts: Part) -> int:
        """How many rows a line takes."""
        ...

    def has_room(self, rows: int) -> bool:
        """Say whether so many more rows fit on what the reader sees at once."""
        ...


class PlainPage:
    """A pipe, or a file: one line is one line, and no marks but the text's own."""

    each_place = True

    def __init__(self, lost: Callable[[], None]) -> None:
        """``lost`` is called when the reader has gone (`hornbook book | head`): the run goes on."""
        self._lost = lost

    def say(self, *parts: Part) -> None:
        """Write a line."""
        try:
            print(harmless("".join(part if isinstance(part, str) else part[0] for part in parts)))
        except BrokenPipeError:
            self._lost()

    def show_words(self, source: Source, finding: Finding) -> None:
        """Nothing: who reads a pipe goes by line and column."""

    def rows(self, *parts: Part) -> int:
        """One: a line stays whole."""
        return 1

    def has_room(self, rows: int) -> bool:
        """A pipe has no end."""
        return True
