"""Marks in a text: which words of which passages a finding points at, and a passage cut into segments by its marks."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lint_rules.finding import Severity
from lint_rules.manuscript.model import PICTURE, Passage
from lint_rules.reports.html.passages import printable
from lint_rules.source import Span


@dataclass(frozen=True, slots=True)
class Mark:
    """A range of a passage's text that a query is about; an empty one is a place between words. ``anchor`` names the
    place ('' where the query has its number in another passage)."""

    start: int
    end: int
    number: int
    severity: Severity
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Segment:
    """A piece of a text that is set alike: its style, the heaviest mark on it, its queries, the marks that end here."""

    text: str
    style: str = ""
    severity: str = ""
    numbers: tuple[int, ...] = ()
    ends: tuple[Mark, ...] = ()


class Passages:
    """The passages of a unit by where they stand in its file."""

    def __init__(self, passages: Sequence[Passage]) -> None:
        self._passages = sorted((one for one in passages if one.text), key=lambda one: one.starts[0])
        self._starts = [one.starts[0] for one in self._passages]

    def ranges(self, span: Span) -> list[tuple[Passage, int, int]]:
        """The ranges of passages that a span of the file shows, in file order."""
        found = []
        at = bisect_right(self._starts, max(span.start, span.end - 1))
        for passage in reversed(self._passages[:at]):
            if passage.ends[-1] < span.start:
                break
            start, end = bisect_right(passage.ends, span.start), bisect_left(passage.starts, span.end)
            if start < end:
                found.append((passage, start, end))
            elif span.start == span.end:
                place = min(bisect_left(passage.starts, span.start), len(passage.text))
                found.append((passage, place, place))
        return found[::-1]


def segments(passage: Passage, marks: Sequence[Mark]) -> Iterator[Segment]:
    """The text of a passage, cut where a mark, a gap, a picture or a style begins or ends."""
    text = passage.text
    gaps = passage.gaps
    cuts = {0, len(text)}
    cuts.update(at for mark in marks for at in (mark.start, mark.end))
    cuts.update(at for pair in (*gaps, *passage.strong, *passage.emphasis) for at in pair)
    for picture in passage.pictures:
        if picture.at >= 0:
            cuts.update((picture.at, picture.at + 1))
    edges = sorted(cut for cut in cuts if 0 <= cut <= len(text))
    alts = {picture.at: picture.alt or picture.target for picture in passage.pictures}
    yield from _at(0, marks)
    for start, end in pairwise(edges):
        on = [mark for mark in marks if mark.start <= start and end <= mark.end and mark.start < mark.end]
        heaviest = max(on, key=lambda mark: mark.severity.weight).severity.value if on else ""
        ends = tuple(mark for mark in marks if mark.end == end and mark.anchor)
        numbers = tuple(dict.fromkeys(mark.number for mark in on))
        if text[start:end] == PICTURE:
            yield Segment(printable(alts.get(start, "")), "picture", heaviest, numbers, ends)
        elif any(first <= start and end <= last for first, last in gaps):
            yield Segment("", "gap", heaviest, numbers, ends)
        else:
            style = _style(passage, start, end)
            yield Segment(printable(text[start:end]), style, heaviest, numbers, ends)


def _at(place: int, marks: Sequence[Mark]) -> Iterator[Segment]:
    """Marks that end before the first letter."""
    here = tuple(mark for mark in marks if mark.end == place and mark.anchor)
    if here:
        yield Segment("", ends=here)


def _style(passage: Passage, start: int, end: int) -> str:
    if any(first <= start and end <= last for first, last in passage.strong):
        return "strong"
    return "em" if any(first <= start and end <= last for first, last in passage.emphasis) else ""
