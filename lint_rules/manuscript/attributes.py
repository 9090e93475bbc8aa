"""Pandoc's attributes: ``{#identifier .class key=value key="v w"}`` behind a heading, a picture, a link, a div fence.

Source: Pandoc User's Guide, 'Heading identifiers' and 'Divs and Spans'; held against Pandoc itself in the tests.
"""

from dataclasses import dataclass, field
from html import unescape

from lint_rules import lazy_re
from lint_rules.manuscript.model import Attributes
from lint_rules.source import Span

_SPACE = lazy_re.compile(r"[ \t]*\n?[ \t]*")
_IDENTIFIER = lazy_re.compile(r"#([\w\-:.]+)")
_NAME = r"[^\W\d_][\w\-:.]*"
_CLASS = lazy_re.compile(rf"\.({_NAME})")
_BARE = lazy_re.compile(r"[a-z][a-z\-]{2,}(?=[ \t}])")
_KEY = lazy_re.compile(rf"({_NAME})=")
_QUOTED = {
    '"': lazy_re.compile(r'"((?:\\.|[^"\\\n]|\n(?!\s*\n))*)"'),
    "'": lazy_re.compile(r"'((?:\\.|[^'\\\n]|\n(?!\s*\n))*)'"),
}
_UNQUOTED = lazy_re.compile(r"(?:\\[^\w\n]|[^\s}\\]|\\(?=\w))*")
_ESCAPE = lazy_re.compile(r"\\([^\w\n])")
_MEANT = lazy_re.compile(r"\{\s*(?:[.#][^\W\d_]|[^\W\d_][\w\-]*\s*=)[^{}]*\}?\s*$")


@dataclass(slots=True)
class Braces:
    """Attributes as read from a text: where they end there, and what they say."""

    end: int
    identifier: str = ""
    classes: list[str] = field(default_factory=list)
    values: dict[str, str] = field(default_factory=dict)
    bare: list[tuple[int, str]] = field(default_factory=list)  # classes that lack their point: {.game speaking}

    def placed(self, span: Span) -> Attributes:
        """The same as plain data, with the span of the braces in the file."""
        return Attributes(span, self.identifier, tuple(self.classes), self.values)


def read_braces(text: str, start: int, *, as_meant: bool = False) -> Braces | None:
    """Read the attributes whose ``{`` stands at ``start``, or None when they are none.

    ``as_meant``: behind a proper one a class may lack its point, which Pandoc does not allow.
    """
    if not text.startswith("{", start):
        return None
    braces = Braces(start)
    at = _skip(text, start + 1)
    while at < len(text):
        if text[at] == "}":
            braces.end = at + 1
            return braces
        after = _read_one(text, at, braces)
        if after is None and as_meant and (braces.classes or braces.values) and (match := _BARE.match(text, at)):
            braces.classes.append(match[0])
            braces.bare.append((at, match[0]))
            after = match.end()
        if after is None:
            return None
        at = _skip(text, after)
    return None


def braces_at_end(text: str, *, as_meant: bool = False) -> tuple[int, Braces] | None:
    """Find the attributes that end a heading's text: where they start, and what they say."""
    tail = text.rstrip()
    if not tail.endswith("}"):
        return None
    start = tail.find("{")
    while start >= 0:
        if not (start and tail[start - 1] == "\\"):
            braces = read_braces(tail, start, as_meant=as_meant)
            if braces is not None and braces.end == len(tail):
                return start, braces
        start = tail.find("{", start + 1)
    return None


def broken_braces(text: str) -> int | None:
    """Where a heading's text ends in braces that were clearly meant as attributes but cannot be read, or None."""
    found = _MEANT.search(text)
    return found.start() if found else None


def _skip(text: str, at: int) -> int:
    match = _SPACE.match(text, at)
    return match.end() if match else at


def _read_one(text: str, at: int, braces: Braces) -> int | None:
    if text[at] == "-":  # Pandoc: a bare hyphen is short for .unnumbered
        braces.classes.append("unnumbered")
        return at + 1
    if match := _IDENTIFIER.match(text, at):
        braces.identifier = match[1]
        return match.end()
    if match := _CLASS.match(text, at):
        braces.classes.append(match[1])
        return match.end()
    if match := _KEY.match(text, at):
        value, end = _value(text, match.end())
        if match[1] == "id":
            braces.identifier = value
        elif match[1] == "class":
            braces.classes.extend(value.split())
        else:
            braces.values.setdefault(match[1], value)
        return end
    return None


def _value(text: str, at: int) -> tuple[str, int]:
    quoted = _QUOTED.get(text[at : at + 1])
    if quoted and (match := quoted.match(text, at)):
        return unescape(_ESCAPE.sub(r"\1", match[1])), match.end()
    match = _UNQUOTED.match(text, at)
    assert match is not None  # the pattern matches nothing, too
    return _ESCAPE.sub(r"\1", match[0]), match.end()
