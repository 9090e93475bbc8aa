"""Keys without labels before their answers: labels behind them (`c 1, a 2`), or nothing but labels (`d – b – e`)."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.page.exercises.model import Answer, Label, Place
from lint_rules.page.exercises.stream import Line
from lint_rules.source import Source

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
_TIED = lazy_re.compile(r"\b\d{1,2} is [a-h]\b(?=[,.;]|$)", re.M)
_TIE = lazy_re.compile(r"is\s+(?=\S)(?!\w+ing\b)")
_FEWEST, _SERIES = 2, 3
_BRACKETED = lazy_re.compile(r"\S[^\[\]]*\[([^\[\]]+)\][.;]?")  # the goat [c]
_FEWEST_BRACKETED = 3  # answers that stand alike


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


_FEWEST_TOLD = 2
_SENTENCE = lazy_re.compile(
    r"(?:The (?:answer|odd one(?: out)?) is (?:[(“\"]?(?P<word>[a-z][\w’' -]{0,30}?)[)”\"]?)"
    r"|(?:(?:The|A|An|It|In|On|[A-Z][\w’']+) )?[^.;:]{0,40}?\b(?:is|are) \(?(?P<letter>[a-h])\)?)"
    r"(?:\s*[.;:,].*)?",
    re.S,
)


def without_is(rows: Sequence[tuple[Answer, ...]], source: Source) -> tuple[tuple[Answer, ...], ...]:
    """Answers without the verb that ties them to their numbers, in a unit whose keys are written so: 1 is c, 2 is b.
    A row stays as it is where the verb is a part of the answers: 1 is sleeping, 2 is happy, 3 are late."""
    tied = [bool(row) and all(_TIE.match(one.text) for one in row) for row in rows]
    if not any(tied) or len(_TIED.findall(source.text)) < _SERIES:
        return tuple(rows)
    return tuple(tuple(map(_untied, row)) if is_tied else row for row, is_tied in zip(rows, tied, strict=True))


def without_sentence(rows: Sequence[tuple[Answer, ...]]) -> tuple[tuple[Answer, ...], ...]:
    """Answers that a key tells in sentences without what leads to them, where it tells all of a row so: The queen is c.
    The eggs are d. · The answer is b: it is light. · The odd one out is sky; the others fly."""
    found: list[tuple[Answer, ...]] = []
    for row in rows:
        told = [_SENTENCE.fullmatch(answer.text.strip()) for answer in row]
        if len(row) >= _FEWEST_TOLD and all(told):
            row = tuple(_within(answer, match) for answer, match in zip(row, told, strict=True) if match is not None)
        found.append(row)
    return tuple(found)


def _within(answer: Answer, match: "re.Match[str]") -> Answer:
    start = answer.place.start + answer.place.text.index(answer.text.strip())
    group = "letter" if match["letter"] is not None else "word"
    return replace(answer, place=Place(answer.place.passage, start + match.start(group), start + match.end(group)))


def _untied(answer: Answer) -> Answer:
    place, tie = answer.place, _TIE.match(answer.text)
    return (
        replace(answer, place=Place(place.passage, place.start + tie.end(), place.end)) if tie is not None else answer
    )


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


def in_brackets(row: Sequence[Answer]) -> tuple[Answer, ...]:
    """What stands in square brackets behind each item, where a key says the items too: 1 the goat [c] 2 the bus [a]."""
    inside = [_BRACKETED.fullmatch(answer.text) for answer in row]
    if len(row) < _FEWEST_BRACKETED or not all(inside):
        return tuple(row)
    return tuple(
        replace(
            answer,
            place=Place(answer.place.passage, answer.place.start + match.start(1), answer.place.start + match.end(1)),
        )
        for answer, match in zip(row, inside, strict=True)
        if match is not None
    )
