"""Activities that a book letters, `### A Listen and point.`, `### B Match.`: the letter is their number.

A letter alone is no number: *A* is an article as well. It is one where the activities of a lesson have the letters from
A on, one each, in their order, and none has a figure.
"""

from collections.abc import Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.manuscript.contents import Contents
from lint_rules.manuscript.inline_text import within
from lint_rules.manuscript.model import Heading, Passage
from lint_rules.source import Span

_LETTER = lazy_re.compile(r"([A-Z])[.):]?\s+(?=\S)")
_FEWEST = 3  # activities that make a habit
_LESSON, _ACTIVITY = 2, 3  # levels of headings


def take_letters(contents: Contents) -> None:
    """Makes the letters of activities their numbers, in the headings and in what stands on the page."""
    series: list[Heading] = []
    for heading in [*contents.headings, None]:
        if heading is not None and heading.level == _ACTIVITY:
            series.append(heading)
        elif heading is None or heading.level <= _LESSON:
            if _are_lettered(series):
                for one in series:
                    _take(contents, one)
            series = []


def _are_lettered(series: Sequence[Heading]) -> bool:
    letters = [match[1] for one in series if (match := _LETTER.match(one.passage.text)) is not None]
    wanted = [chr(ord("A") + place) for place in range(len(series))]
    return len(series) >= _FEWEST and letters == wanted and not any(one.number for one in series)


def _take(contents: Contents, heading: Heading) -> None:
    passage = heading.passage
    match = _LETTER.match(passage.text)
    assert match is not None
    rest = _behind(passage, match.end())
    span = Span(passage.starts[0], passage.ends[0])
    contents.headings[contents.headings.index(heading)] = replace(
        heading, passage=rest, number=match[1], number_span=span
    )
    contents.passages[:] = [rest if one is passage else one for one in contents.passages]


def _behind(passage: Passage, start: int) -> Passage:
    end = len(passage.text)
    pictures = tuple(replace(one, at=one.at - start) for one in passage.pictures if one.at >= start)
    return replace(
        passage,
        text=passage.text[start:],
        starts=passage.starts[start:],
        ends=passage.ends[start:],
        strong=within(passage.strong, start, end),
        emphasis=within(passage.emphasis, start, end),
        foreign=within(passage.foreign, start, end),
        struck=within(passage.struck, start, end),
        gaps=within(passage.gaps, start, end),
        pictures=pictures,
    )
