"""Keys without labels before their answers: labels behind them (`c 1, a 2`), or nothing but labels (`d – b – e`)."""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.page.exercises.model import Answer, Label, Place
from lint_rules.page.exercises.stream import Line

_LABEL_ROW = lazy_re.compile(
    r"\s*\(?(?:\d{1,2}|[A-Za-z]|[ivx]{1,4})\)?(?:\s*(?:,|;|–|—|-|→|>|\s)\s*\(?(?:\d{1,2}|[A-Za-z]|[ivx]{1,4})\)?)+\s*\.?\s*"
)
_ONE_LABEL = lazy_re.compile(r"\d{1,2}|[A-Za-z]+")
_BEHIND = lazy_re.compile(r"(?:\(?[A-Za-z]\)?[ –-]{0,3}\d{1,2}\s*(?:[,;.·|]|\s|$)\s*){2,}")
_ONE_BEHIND = lazy_re.compile(r"\(?(?P<answer>[A-Za-z])\)?[ –-]{0,3}(?P<label>\d{1,2})")
_WORDS_BEHIND = lazy_re.compile(r"(?P<answer>[^\W\d_][^\n()]*?)\s*\((?P<label>\d{1,2})\)(?:\s*[,;.·]\s*|\s*$)")
_PAIR = lazy_re.compile(r"\(?(?P<label>[A-Za-z])[).:]?\s*(?:[=→–-]\s*)?(?P<answer>\d{1,2})")
_PAIRS = lazy_re.compile(
    rf"(?:{_PAIR.pattern.replace('?P<label>', '?:').replace('?P<answer>', '?:')}\s*(?:[,;.·|]\s*|\s|$)){{2,}}"
)
LEAD = lazy_re.compile(r"(?:^|(?<=[.;]))\s*[^\W\d_][\w’'-]+(?:\s[\w’'-]+){0,4}\.?:[^\S\n]*")
_NUMBERS = lazy_re.compile(r"(?P<label>\d{1,2})\s+(?:[–-]\s+)?(?P<answer>\d{1,4})")
_ALL_NUMBERS = lazy_re.compile(r"\d{1,2}\s+(?:[–-]\s+)?\d{1,4}(?:\s*[,;]\s*\d{1,2}\s+(?:[–-]\s+)?\d{1,4}){2,}\s*\.?")
_FEWEST, _SERIES = 2, 3


def answers_before(lines: Sequence[Line]) -> Iterator[Answer]:
    """`c 1, a 2, d 3`, `kitten (1), calf (2)`: an answer, and behind it the number that it belongs to."""
    letters = len(lines) == 1 and _BEHIND.fullmatch(lines[0].text) is not None
    if not letters and not all(line.text.endswith((")", ").")) for line in lines):
        return
    pattern = _ONE_BEHIND if letters else _WORDS_BEHIND
    found = [(line, match) for line in lines for match in pattern.finditer(line.text)]
    numbers = {match["label"] for _, match in found}
    covered = letters or sum(len(match[0]) for _, match in found) == sum(len(line.text) for line in lines)
    if not covered or (not letters and (len(numbers) < len(found) or len(found) < _FEWEST)):
        return
    answers = [match["answer"].casefold() for _, match in found]
    if len(numbers) < len(found) and answers == [chr(ord("a") + at) for at in range(len(found))]:
        return  # `A 2, B 1, C 2`: the letters are the labels
    for line, match in found:
        passage, start = line.passage, line.start
        at = Place(passage, start + match.start("label"), start + match.end("label"))
        yield Answer(
            Place(passage, start + match.start("answer"), start + match.end("answer")),
            Label(match["label"], at.span, at),
        )


def numbered_letters(lines: Sequence[Line]) -> Iterator[Answer]:
    """`b 1, d 2, a 3`: a letter of the page, and behind it the number that it gets, in any order."""
    if len(lines) != 1 or not _PAIRS.fullmatch(lines[0].text):
        return
    passage, start = lines[0].passage, lines[0].start
    for match in _PAIR.finditer(lines[0].text):
        at = Place(passage, start + match.start("label"), start + match.end("label"))
        said = Place(passage, start + match.start("answer"), start + match.end("answer"))
        yield Answer(said, Label(match["label"], at.span, at))


def numbered_numbers(lines: Sequence[Line]) -> Iterator[Answer]:
    """`1 4; 2 6; 3 2`: the numbers from one on, each with the number that is its answer."""
    for line in lines[:1] if len(lines) == 1 else ():
        pairs = list(_NUMBERS.finditer(line.text)) if _ALL_NUMBERS.fullmatch(line.text) else []
        if [match["label"] for match in pairs] != [str(at) for at in range(1, len(pairs) + 1)]:
            return
        for match in pairs:
            at = Place(line.passage, line.start + match.start("label"), line.start + match.end("label"))
            said = Place(line.passage, line.start + match.start("answer"), line.start + match.end("answer"))
            yield Answer(said, Label(match["label"], at.span, at))


def label_row(lines: Sequence[Line]) -> Iterator[Answer]:
    """A key that is nothing but labels: `d – b – e – a`."""
    if len(lines) != 1 or lines[0].passage.item is not None:
        return
    line = lines[0]
    text = line.text
    lead = LEAD.match(text)
    at = lead.end() if lead else 0
    if not _LABEL_ROW.fullmatch(text, at):
        return
    found = list(_ONE_LABEL.finditer(text, at))
    if {match[0].isdigit() for match in found} == {True, False} or _is_pairs(text[at:]):
        return
    for match in found:
        place = Place(line.passage, line.start + match.start(), line.start + match.end())
        yield Answer(place, Label(match[0], place.span, place))


def _is_pairs(text: str) -> bool:
    """Whether letters stand in pairs of a label and its answer: `a S, b B, c S`."""
    pairs = [part.split() for part in re.split(r"\s*[,;]\s*", text.strip(" .")) if part]
    labels = [pair[0] for pair in pairs]
    lettered = labels == [chr(ord("a") + at) for at in range(len(labels))]
    numbered = len(labels) >= _SERIES and labels == [str(at) for at in range(1, len(labels) + 1)]
    return all(len(pair) == 2 for pair in pairs) and (lettered or numbered)
