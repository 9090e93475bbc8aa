"""Texts that come from a manuscript, made fit for a terminal and a log: a line is one line, and nothing obeys it.

A file name, a title, a word list may hold line breaks, escape sequences and characters that change the direction of
text; a line of a log may be a command to the build server that reads it.
"""

from lint_rules import lazy_re

# Commands to build servers: GitHub's begin a line, the older form and those of others may stand anywhere in it.
_COMMAND = lazy_re.compile(r"\A\s*::|##(?=\[|vso\[|teamcity\[)")


def printable(text: str) -> str:
    """A text with the characters made visible that could play with a terminal."""
    return text if text.isprintable() else "".join(char if char.isprintable() else "\ufffd" for char in text)


def one_line(text: str) -> str:
    """A text on one line, printable."""
    return printable(" ".join(text.split()))


def in_a_table(text: str) -> str:
    """A cell's text, which may be broken anywhere: no part of it is a command at the start of a line."""
    return harmless(one_line(text)).replace("::", ": :")


def harmless(line: str) -> str:
    """A whole line of a log, printable, that no build server takes for a command."""
    return _COMMAND.sub(lambda found: " ".join(found[0].strip()), printable(line))
