"""Keys told in sentences: `1 is (d), 2 is (c) and 3 is (a).`, `The answers: number 1 is page, number 2 is anchor.`"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.page.exercises.model import Answer, Label, Place
from lint_rules.page.exercises.stream import Line

_SAID = lazy_re.compile(
    r"(?<![\w.,–—-])(?P<noun>(?:numbers?|no\.|questions?|items?|gaps?|sentences?)\s+)?(?P<label>\(?(?P<first>\d{1,2})\)?)"
    r"(?:\s*[–—-]\s*(?P<last>\d{1,2}))?\s+(?P<verb>is|are)\s+(?=[^\s,;.])",
    re.I,
)
_BEFORE = lazy_re.compile(
    r"(?:[^\W\d_][\w’'. ]{0,30}[:–—]\s*)?(?:in\s+)?(?:(?:part|section)\s+[A-Z]\s*[,:]?\s*)?", re.I
)
_END = lazy_re.compile(
    r"(?:[\s,;.]|\band$|(?:[.;,]\s*(?:and\s+)?|\s+and\s+|^)(?:in\s+)?(?:part|section)\s+[A-Z]\s*[,:]?\s*$)+$", re.I
)
_LINKED = lazy_re.compile(r"(?:[,;.)]|\band|[A-Z])\s+$")
_AND = lazy_re.compile(r"\band\s+$")
_MARKS = "\"“‘'(["
_QUOTES = {'"': '"', "“": "”", "'": "'", "‘": "’"}
_FEWEST = 2
_LINK = 8  # characters before a label that say how it goes on
_PROSE = 8  # words of a line that tells of answers and lists none: common practice, no source
_ANSWER = 5  # words of what is no answer
_COMMA = lazy_re.compile(r"\s*,\s*")


def told(lines: Sequence[Line]) -> tuple[Answer, ...]:
    """The answers of a key that says in sentences which is which; none where it does not."""
    found: list[Answer] = []
    for line in lines:
        if " is " not in line.text and " are " not in line.text:
            continue
        passage = line.passage
        matches = list(_SAID.finditer(passage.text, line.start, line.end))
        if not _are_sentences(matches) or not (
            found or _BEFORE.fullmatch(line.text, 0, matches[0].start() - line.start)
        ):
            continue
        for match, end in zip(matches, [*(one.start() for one in matches[1:]), line.end], strict=True):
            found += _answers(line, match, end)
    numbers = [int(answer.label.text) for answer in found if answer.label]
    rising = all(one < other for one, other in pairwise(numbers))
    return tuple(found) if len(found) >= _FEWEST and rising and numbers[0] <= 1 else ()


def _are_sentences(matches: Sequence["re.Match[str]"]) -> bool:
    """Whether what looks like labels with their answers is said in sentences, and is no row of answers that are verbs:
    `1 is 2 are`, `1 is falling, 2 is going`."""
    if not matches or any((match["verb"] == "are") is not bool(match["last"]) for match in matches):
        return False
    text = matches[0].string
    if any(not _LINKED.search(text[max(0, match.start() - _LINK) : match.start()]) for match in matches[1:]):
        return False
    marked = all(match["noun"] or text[match.end()] in _MARKS or match["last"] for match in matches)
    return marked or (len(matches) > 1 and _AND.search(text[: matches[-1].start()]) is not None)


def _answers(line: Line, match: "re.Match[str]", end: int) -> Iterator[Answer]:
    """What is said of a label, without what leads to the next one; of each label where a range is told of."""
    passage = line.passage
    place = _unquoted(Place(passage, match.end(), match.end() + len(_without_end(passage.text[match.end() : end]))))
    first, last = int(match["first"]), int(match["last"] or match["first"])
    span = passage.span(*match.span("label"))
    for number in range(first, last + 1):
        yield Answer(place, Label(str(number), span, Place(passage, match.start(), match.end())))


def _without_end(text: str) -> str:
    bare = _END.sub("", text)
    while (shorter := _END.sub("", bare)) != bare:
        bare = shorter
    return bare


def _unquoted(place: Place) -> Place:
    text = place.text
    if len(text) > _FEWEST and _QUOTES.get(text[0]) == text[-1]:
        return Place(place.passage, place.start + 1, place.end - 1)
    return place


def tells_of_answers(line: Line) -> bool:
    """Whether a line may tell of the answers in prose."""
    return len(line.text.split()) >= _PROSE and line.text.rstrip().endswith(".")


def lists_nothing(line: Line) -> bool:
    """Whether a line that tells of the answers does not list them: one of what its commas part is long."""
    pieces = [piece.split() for piece in _COMMA.split(line.text)]
    return (
        tells_of_answers(line)
        and ";" not in line.text
        and len(pieces) > 1
        and any(len(one) >= _ANSWER for one in pieces)
    )
