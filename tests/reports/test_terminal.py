"""What a person sees at a terminal: the message, then the line with a mark under the words, once for the same words."""

import io

import pytest
from rich.console import Console

from lint_rules.finding import Finding, Severity
from lint_rules.reports.page import PlainPage
from lint_rules.reports.terminal_page import TerminalPage
from lint_rules.source import Source, Span

TEXT = """\
# Kites

The kite is enormous, and it is red.

Wir sehen 漢字 und danach the kite that is enormous and red and blue and green and white and black.
\tA tab, then enormous.
"""
SOURCE = Source("level-1/unit-01.md", TEXT)


def finding(words: str, after: str = "", text: str = TEXT) -> Finding:
    start = text.index(words, text.index(after))
    span = Span(start, start + len(words))
    first, last = SOURCE.position(span.start), SOURCE.position(span.end)
    return Finding("a-rule", Severity.QUERY, SOURCE.path, span, first, last, words, "Why?")


def seen(*found: Finding, terminal: bool = True, width: int = 50) -> list[str]:
    out = io.StringIO()
    page = TerminalPage(Console(file=out, force_terminal=terminal, color_system=None, width=width, highlight=False))
    for one in found:
        page.say("path:1:1: ", ("query", "bold yellow"), ": [a-rule]")
        page.show_words(SOURCE, one)
    return [line.rstrip() for line in out.getvalue().splitlines()]


def test_the_words_are_marked_in_their_line() -> None:
    assert seen(finding("enormous")) == [
        "path:1:1: query: [a-rule]",
        "        The kite is enormous, and it is red.",
        "                    ^~~~~~~~",
    ]


def test_a_long_line_is_cut_and_wide_letters_are_counted() -> None:
    lines = seen(finding("enormous", after="danach"))
    assert lines[1].startswith("      … ")
    assert lines[1].index("enormous") == lines[2].index("^")
    assert len(lines[1]) <= 50
    wide = seen(finding("und", after="漢字"), width=120)
    assert wide[2].index("^") == wide[1].index("und") + len("漢字")  # each takes the room of two


def test_words_that_several_findings_are_of_are_shown_once() -> None:
    lines = seen(finding("enormous"), finding("enormous"), finding("red"), finding("enormous"))
    shown = "".join("." if "path" in line else "^" if "^" in line else "k" for line in lines)
    assert shown == ".k^" + "." + ".k^" + ".k^"


def test_the_same_words_in_another_course_are_shown_too() -> None:
    out = io.StringIO()
    page = TerminalPage(Console(file=out, force_terminal=True, color_system=None, width=50))
    for source in (SOURCE, Source(SOURCE.path, TEXT)):
        page.show_words(source, finding("enormous"))
    assert out.getvalue().count("^") == 2


@pytest.mark.parametrize("words", ["# Kites\n\nThe", "A tab", "\n"])
def test_a_mark_stays_within_one_line(words: str) -> None:
    _, line, mark = seen(finding(words))
    assert mark.strip(" ~") == "^"
    assert "\t" not in line


def test_in_a_pipe_there_is_one_line_a_finding(capsys: pytest.CaptureFixture[str]) -> None:
    page = PlainPage(lambda: None)
    page.say("path:1:1: ", ("query", "bold yellow"), ": " + "long " * 60 + "[a-rule]")
    page.show_words(SOURCE, finding("enormous"))
    assert capsys.readouterr().out == "path:1:1: query: " + "long " * 60 + "[a-rule]\n"
    assert len(seen(finding("enormous"), terminal=False)) == 1
