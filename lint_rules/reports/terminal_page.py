"""A terminal: colours, lines broken between words, and the words of a finding in their line, marked."""

from collections.abc import Callable, Iterator

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from lint_rules.finding import Finding
from lint_rules.reports.page import Part
from lint_rules.reports.terminal import STYLES
from lint_rules.said import printable
from lint_rules.source import Source, Span

_MARGIN = 24  # characters of a long line that stay visible before the words


class _Console(Console):
    lost: Callable[[], None]

    def on_broken_pipe(self) -> None:
        """The reader has seen enough: the run goes on, so that its exit status is true."""
        self.lost()


def console(lost: Callable[[], None], *, markup: bool = False) -> Console:
    """A console on standard output, in which brackets are brackets unless they are asked to be markup."""
    made = _Console(highlight=False, markup=markup)
    made.lost = lost
    return made


class TerminalPage:
    """A page on a console. ``screen`` is how many rows its reader sees at once; None where all is to be shown."""

    each_place = False

    def __init__(self, console: Console, screen: int | None = None) -> None:
        self._console = console
        self._screen = screen
        self._shown = 0  # rows
        self._last: tuple[int, Span] | None = None  # the words shown last: several findings may be of the same

    def say(self, *parts: Part) -> None:
        """Print a line, broken between words; what is set in stays set in."""
        if not self._console.is_terminal:
            self._console.print(_text(parts), soft_wrap=True)
            return
        for line in self._broken(parts):
            self._shown += 1
            self._console.print(line, soft_wrap=True)

    def show_words(self, source: Source, finding: Finding) -> None:
        """Print the finding's line with a marker under its words, unless that has just been done."""
        before, self._last = self._last, (id(source), finding.span)
        if self._console.is_terminal and self._last != before:
            for line in _excerpt(source, finding, self._console.width):
                self._shown += 1
                self._console.print(line, soft_wrap=True)

    def rows(self, *parts: Part) -> int:
        """How many rows a line takes when it is broken between words."""
        return len(self._broken(parts))

    def _broken(self, parts: tuple[Part, ...]) -> list[Text]:
        text = _text(parts)
        set_in = min(len(text.plain) - len(text.plain.lstrip(" ")), self._console.width // 2)
        lines = list(text[set_in:].wrap(self._console, self._console.width - set_in))
        return [Text(" " * set_in) + line for line in lines] or [Text()]

    def has_room(self, rows: int) -> bool:
        """Say whether so many more rows fit on the screen."""
        return self._screen is None or self._shown + rows <= self._screen


def _text(parts: tuple[Part, ...]) -> Text:
    said = [printable(part) if isinstance(part, str) else (printable(part[0]), part[1]) for part in parts]
    return Text.assemble(*said)


def _excerpt(source: Source, finding: Finding, width: int) -> Iterator[Text]:
    """The finding's first source line, cut to the width, and the marker under its words."""
    stored = source.line_text(finding.start.line)
    first = finding.start.column - 1
    last = finding.end.column - 1 if finding.end.line == finding.start.line else len(stored)
    shown = "".join(char if char.isprintable() else " " for char in stored)
    from_left = max(0, first - _MARGIN) if cell_len(shown[:last]) > width - 10 else 0
    lead = "      … " if from_left else "        "
    before, words = shown[from_left:first], shown[first:last]
    rest = shown[last:]
    line = Text.assemble(lead, before, (words, STYLES[finding.severity]), rest)
    line.truncate(max(width - 1, 20), overflow="ellipsis")
    yield line
    marks = max(1, min(cell_len(words), width - cell_len(lead + before) - 1))
    yield Text(" " * cell_len(lead + before) + "^" + "~" * (marks - 1), STYLES[finding.severity])
