"""A line of a unit as HTML: every text escaped, marked words in `mark`, and after them the numbers of their queries."""

from collections.abc import Iterator

from markupsafe import Markup, escape

from lint_rules.reports.html.passages import printable
from lint_rules.reports.html.proof.layout import Line
from lint_rules.reports.html.proof.marks import Mark, Segment
from lint_rules.reports.html.proof.queries import UnitProof

_GAP = Markup('<span class="gap" role="img" aria-label="gap"></span>')
_PICTURE = Markup('<span class="pic"><span class="what">picture</span> {}</span>')
_NUMBER = Markup('<a class="no {0}" id="{1}" href="#q-{2}">{2}</a>')
_MARK = Markup('<mark class="{}" data-n="{}">{}</mark>')
_STYLES = {"strong": Markup("<b>{}</b>"), "em": Markup("<i>{}</i>")}


def set_line(unit: UnitProof, line: Line) -> Markup:
    """The text of a line, or the picture that it is."""
    if line.passage is None:
        target = line.picture.alt or line.picture.target if line.picture else ""
        return Markup("").join([escape(printable(target))])
    return Markup("").join(part for segment in unit.segments(line) for part in _set(segment))


def _set(segment: Segment) -> Iterator[Markup]:
    text = _text(segment)
    if segment.numbers:
        text = _MARK.format(segment.severity, " ".join(map(str, segment.numbers)), text)
    yield text
    yield from map(_number, segment.ends)


def _text(segment: Segment) -> Markup:
    if segment.style == "gap":
        return _GAP
    if segment.style == "picture":
        return _PICTURE.format(segment.text)
    return _STYLES.get(segment.style, Markup("{}")).format(segment.text)


def _number(mark: Mark) -> Markup:
    return _NUMBER.format(mark.severity.value, mark.anchor, mark.number)
