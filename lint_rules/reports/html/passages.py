"""The passage around a finding: its lines as they stand in the file, with the words marked."""

from collections.abc import Iterator
from dataclasses import dataclass

from lint_rules.finding import Finding
from lint_rules.source import Source

_LINES = 4  # of a finding that runs over many lines
_AROUND = 140  # characters of a long line before and after the words
_WORDS = 320  # characters of the words themselves
# Unicode's joiners: printable to no one, but emoji and some scripts fall apart without them.
_JOINERS = "\u200c\u200d"


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a passage: its number, what stands before the words, the words, what stands after them."""

    number: int
    before: str
    words: str
    after: str


def passage_of(finding: Finding, source: Source) -> tuple[list[Line], int]:
    """The lines of a passage, and how many more there are."""
    lines = list(_lines(finding, source))
    return lines, finding.end.line - finding.start.line + 1 - len(lines)


def _lines(finding: Finding, source: Source) -> Iterator[Line]:
    if not source.text:
        return
    last = min(finding.end.line, finding.start.line + _LINES - 1)
    for number in range(finding.start.line, last + 1):
        text = source.line_text(number)
        start = finding.start.column - 1 if number == finding.start.line else 0
        end = finding.end.column - 1 if number == finding.end.line else len(text)
        yield Line(number, _tail(text[:start]), _middle(text[start:end]), _head(text[end:]))


def _tail(text: str) -> str:
    return printable(text if len(text) <= _AROUND else f"…{text[-_AROUND:]}")


def _head(text: str) -> str:
    return printable(text if len(text) <= _AROUND else f"{text[:_AROUND]}…")


def _middle(text: str) -> str:
    return printable(text if len(text) <= _WORDS else f"{text[: _WORDS // 2]} … {text[-_WORDS // 2 :]}")


def printable(text: str) -> str:
    """A text with signs that could turn or hide other text made visible."""
    return "".join(char if char.isprintable() or char in _JOINERS else _sign(char) for char in text)


def _sign(char: str) -> str:
    return " " if char in "\t\n\u00a0\u3000" or char.isspace() else "\ufffd"
