"""Read a unit from its file. Pure, and never raises: whatever is wrong becomes a Problem with place and cure."""

from markdown_it.token import Token

from lint_rules.manuscript.attributes import Braces
from lint_rules.manuscript.divs import DIV_OPEN, as_meant
from lint_rules.manuscript.front_matter import front_matter_lines, read_front_matter
from lint_rules.manuscript.headings import build_outline
from lint_rules.manuscript.markdown import LONGEST, Document, parse
from lint_rules.manuscript.model import DivKind, Problem, Unit
from lint_rules.manuscript.odd_characters import odd_characters
from lint_rules.manuscript.passages import UNCLOSED_COMMENT, read_contents
from lint_rules.manuscript.stets import read_stets
from lint_rules.source import Source, Span


def read_unit(source: Source) -> Unit:
    """Read a unit file: its front matter, its lessons and activities, every passage with its place."""
    front, problems = read_front_matter(source)
    lines, _ = front_matter_lines(source)
    document = parse(source, lines)
    contents = read_contents(source, document)
    outline, missing = build_outline(source, contents)
    passages = (*contents.passages, *(heading.passage for heading in contents.headings))
    odd = odd_characters(source, passages)
    found = [*problems, *missing, *contents.problems, *_faults(source, document), *odd]
    return Unit(
        source=source,
        front=front,
        heading=outline.heading,
        opening=outline.opening,
        lessons=outline.lessons,
        divs=tuple(contents.divs),
        stets=read_stets(contents, document.comments),
        problems=tuple(sorted(found, key=lambda problem: problem.span)),
        opening_activities=outline.opening_activities,
    )


def _unclear(braces: Braces) -> str:
    sure = _KINDS.intersection(braces.classes) and not any('"' in value for value in braces.values.values())
    cure = f"Write it so: `{as_meant(braces)}`." if sure else _EXAMPLES
    return f"This ::: line cannot be read. {cure}"


def _faults(source: Source, document: Document) -> list[Problem]:
    """What is wrong with comments, divs and nesting."""
    found = [Problem(span, UNCLOSED_COMMENT) for span in document.unclosed_comments]
    found += [Problem(_line(source, token), _UNCLOSED_DIV) for token in document.unclosed_divs]
    found += [Problem(_line(source, token), _SURPLUS_FENCE) for token in document.surplus_fences]
    found += [Problem(span, _TOO_DEEP) for span in document.too_deep]
    found += [Problem(Span(span.start, min(span.end, span.start + 60)), _TOO_LONG) for span in document.too_long]
    if (nul := source.text.find("\0")) >= 0:
        found.append(Problem(Span(nul, nul + 1), _NUL))
    for token in document.tokens:
        if token.type == DIV_OPEN and not token.meta["clear"]:
            found.append(Problem(_line(source, token), _unclear(token.meta["braces"])))
        elif token.type == DIV_OPEN and token.meta["after_text"]:
            found.append(Problem(_line(source, token), _NO_EMPTY_LINE, blocks=False))
        elif token.type == "fence" and _unclosed_code(source, token):
            found.append(Problem(_line(source, token), _UNCLOSED_CODE.format(token.markup)))
    return found


_KINDS = frozenset(kind.value for kind in DivKind if kind is not DivKind.PAGE)
_UNCLOSED_DIV = "What this line begins is never closed. Write a line with ::: alone where it ends."
_SURPLUS_FENCE = "This ::: closes nothing. Take it out, or write above it what it should close (`::: teacher`, say)."
_EXAMPLES = "Write one word, `::: teacher`, or braces, `::: {.audio track=4.1}`."
_NO_EMPTY_LINE = "Leave an empty line above this :::, or it is taken for a part of the text above."
_TOO_DEEP = "Lists or quotes stand in each other too deeply here, so this part was not read. Make them flatter."
_TOO_LONG = (
    f"This text goes on for more than {LONGEST:,} characters without a break, so only its beginning was read."
    " Leave an empty line where a new paragraph begins."
)
_NUL = (
    "Here stands a character that nobody can see (NUL): something went wrong when this file was saved."
    " Take it out, or fetch the file anew."
)
_UNCLOSED_CODE = "This block of code is not closed, so everything after it is code. Write a line {} where it ends."


def _unclosed_code(source: Source, token: Token) -> bool:
    """Whether a fenced code block runs to the end of what it stands in."""
    assert token.map is not None
    last = source.line_text(token.map[1]).strip(" \t>")
    alone = token.map[1] == token.map[0] + 1
    return alone or len(last) < len(token.markup) or bool(last.strip(token.markup[0]))


def _line(source: Source, token: Token) -> Span:
    assert token.map is not None
    return source.line_span(token.map[0] + 1)
