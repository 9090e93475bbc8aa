"""The edit that puts a field into the teacher's notes of a lesson or an activity."""

from lint_rules import lazy_re
from lint_rules.finding import Edit
from lint_rules.manuscript.model import DivKind, Part, Unit
from lint_rules.source import Span

_CLOSING_FENCE = lazy_re.compile(r":{3,}[ \t]*\Z")
_FIELD_LINE = lazy_re.compile(r"\*\*[^*\r\n]+:\*\*")
_LINE_END = lazy_re.compile(r"\r\n|\n|\r")


def field_edit(unit: Unit, part: Part, name: str, text: str) -> Edit | None:
    """Add ``**name:** text`` after what the teacher's notes of a part hold, or ``text`` to the end of such a field.

    The file's own line ends are kept. None where the field says this already, and where the notes have no closed div at
    the edge of the page to put it in.
    """
    field = next((f for f in reversed(part.fields) if f.name.casefold() == name.casefold() and f.passages), None)
    if field is not None:
        if text in " ".join(field.text.split()):
            return None
        end = field.passages[-1].span().end
        return Edit(Span(end, end), f" {text}")
    for index in part.divs:
        div = unit.divs[index]
        if div.kind is DivKind.TEACHER and div.parent is None:
            return _into_div(unit.source.text, div.opening, div.span, f"**{name}:** {text}")
    return None


def _into_div(text: str, opening: Span, div: Span, line: str) -> Edit | None:
    fence = _CLOSING_FENCE.search(text, opening.end, div.end)
    line_end = _LINE_END.search(text, opening.end, div.end)
    at_edge = opening.start == 0 or text[opening.start - 1] in "\r\n"
    if fence is None or line_end is None or not at_edge or text[fence.start() - 1] not in "\r\n":
        return None
    content = text[opening.end : fence.start()].rstrip()
    if not content:
        return Edit(Span(fence.start(), fence.start()), line + line_end.group())
    lines = _LINE_END.split(content)
    end = opening.end + len(content)
    # A field on the line right below another is a field of its own; below a list it would be part of the list.
    close = bool(_FIELD_LINE.match(lines[-1])) and (len(lines) < 3 or bool(lines[-2].strip()))
    return Edit(Span(end, end), line_end.group() * (1 if close else 2) + line)
