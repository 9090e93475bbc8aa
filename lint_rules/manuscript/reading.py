"""Read a unit from its file. Pure, and never raises: whatever is wrong becomes a Problem with its place and its cure."""

from lint_rules.manuscript.divs import DIV_OPEN
from lint_rules.manuscript.front_matter import front_matter_lines, read_front_matter
from lint_rules.manuscript.markdown import Document, parse
from lint_rules.manuscript.model import Problem, Unit
from lint_rules.manuscript.outline import build_outline
from lint_rules.manuscript.passages import Reader
from lint_rules.manuscript.stets import read_stets
from lint_rules.source import Source, Span

__all__ = ["read_front_matter", "read_unit"]


def read_unit(source: Source) -> Unit:
    """Read a unit file: its front matter, its lessons and activities, every passage with its place."""
    front, problems = read_front_matter(source)
    lines, _ = front_matter_lines(source)
    document = parse(source, lines)
    contents = Reader(source).read(document)
    outline, missing = build_outline(source, contents)
    found = [*problems, *missing, *contents.problems, *_faults(source, document)]
    return Unit(
        source=source,
        front=front,
        heading=outline.heading,
        opening=outline.opening,
        lessons=outline.lessons,
        divs=tuple(contents.divs),
        stets=read_stets(source, contents, document.comments),
        problems=tuple(sorted(found, key=lambda problem: problem.span)),
        opening_activities=outline.opening_activities,
    )


def _faults(source: Source, document: Document) -> list[Problem]:
    """What is wrong with comments and divs."""
    found = [
        Problem(span, "This comment is not closed: everything after it would vanish. End it with -->.")
        for span in document.unclosed_comments
    ]
    for token in document.unclosed_divs:
        found.append(
            Problem(
                _line(source, token.map),
                "This div is not closed. Write a line ::: where it ends.",
            )
        )
    for token in document.surplus_fences:
        found.append(
            Problem(
                _line(source, token.map),
                "This ::: closes nothing: no div is open here. Take it out, or open the div it belongs to.",
            )
        )
    for token in document.tokens:
        if token.type != DIV_OPEN:
            continue
        if not token.meta["clear"]:
            message = (
                "This div's opening cannot be read. Write one word, `::: teacher`, or braces, `::: {.audio track=4.1}`."
            )
            found.append(Problem(_line(source, token.map), message))
        elif token.meta["after_text"]:
            message = "Leave an empty line before this :::, or Pandoc takes it for a part of the text above."
            found.append(Problem(_line(source, token.map), message, blocks=False))
    return found


def _line(source: Source, lines: list[int] | None) -> Span:
    return source.line_span(lines[0] + 1) if lines else Span(0, 0)
