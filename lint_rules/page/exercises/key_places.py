"""Where an activity's key stands: in `answers` divs, in a field of the notes, in a paragraph of them that says so."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import lru_cache
from string import ascii_lowercase

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.inline_text import within
from lint_rules.manuscript.model import Audience, Passage, Role

_LEAD = lazy_re.compile(
    r"(?:and\s+)?(?P<sure>(?:the|correct)\s+answers?|answer\s+key|solutions?|(?:ans\.?|key)(?=\s*[:–—-]))"
    r"|(?P<check>check)|(?:answers?|key)",
    re.I,
)
_CHECK_IT = lazy_re.compile(r"(check(?: it| them| together)?[.:]?)\s+(?=1[.):]?\s+\S.*?[,;.]\s+2[.):]?\s)", re.I)
_SET_OFF = lazy_re.compile(r"\s*(?:(?:are|is)\s*)?[:–—-]\s*(?=\S)")
_LABEL = lazy_re.compile(r"(?:number\s+|in\s+part\s+|part\s+)?[(\[]?(?:\d{1,2}|[a-z])(?![\w'’])", re.I)
_TOLD = lazy_re.compile(
    r"\((?:[A-Za-z ]{0,30}[:–—]\s*)?(?P<bracketed>(?:1|a)\b[^()]*)\)"
    r"|\b(?:answers?|key|solutions?|check|(?:they|pupils|children|pairs|groups)\s+(?:write|say|tick|choose|circle|put))\b"
    r"[^.:;()\n]{0,70}[:–—]\s*"
    r"(?P<open>(?:1|a)\b(?:(?!\b(?:answers?|key|solutions?)\b)(?:[^()\n]|\([^()\n]*\)))*)"
    r"|(?:^|(?<=\s))[→⇒►▶]\s*(?P<arrowed>(?:1|a)\b[^()\n]*)",  # They colour it. → 1 red · 2 blue · 3 green
    re.I,
)
_CHECKS = frozenset({"check", "check it", "check them", "check together"})
_NEXT = lazy_re.compile(r"(?<!\s)\s*[,;|·]\s*(?=\d|[a-z]\b)|\.\s+(?=\d|[a-z]\b)")
_LABELLED = lazy_re.compile(
    r"(?P<label>\d{1,2}|[a-z]\b)(?:[.):]?\s+(?:[=–—-]\s*)?|\s*[=–—-]\s*|(?=[a-z]\b))"
    r"(?:(?=[^\s\d])|(?<=[a-z0-9] )(?=\d))",
    re.I,
)
_ENDS = lazy_re.compile(r"[.;](?=\s+[A-Z“‘\"'])")  # 6 yes. Play the track twice.
_ONE_TWO = lazy_re.compile(r"\s*1[.):]?\s+\S[^\n]*?[,;·|.]\s*2[.):]?\s+\S")  # 1 c, 2 d
_ORDERED = lazy_re.compile(r"\s*[a-z]\s+\d\b[^\n]*?[,;·|]\s*[a-z]\s+\d\b")  # d 1 · b 2
_NUMBERS = tuple(map(str, range(1, 100)))
_BRACKETS = {"(": ")", "[": "]"}
_LEAST = 8  # characters: `(c)` is an answer
_FEWEST = 3  # numbered answers in a row are a key; two may be anything


@lru_cache(maxsize=128)  # asked of every part of a unit by each of its activities
def keys_in(passages: tuple[Passage, ...]) -> tuple[Passage, ...]:
    """The passages of keys, in file order."""
    return tuple(_keys_in(passages))


def _keys_in(passages: Iterable[Passage]) -> Iterator[Passage]:
    passages = tuple(passages)
    of_plan = {
        (one.cell.table, one.cell.row)
        for one in passages
        if one.cell is not None and one.cell.column == 0 and one.audience is Audience.TEACHER and _names_key(one.text)
    }
    headed = False  # under a heading of the notes that says so: `#### Solution`
    for passage in passages:
        if passage.role is Role.TITLE and passage.audience is Audience.TEACHER:
            headed = _names_key(passage.text)
            continue
        headed = headed and passage.audience is Audience.TEACHER and not passage.field
        in_row = passage.cell is not None and (passage.cell.table, passage.cell.row) in of_plan
        told = in_row and passage.cell is not None and passage.cell.column > 0 and len(passage.text) > 2
        if passage.text.strip() and (headed or told or _is_key(passage)):  # | Key | – | 1 d; 2 a; 3 c |
            yield passage


def _is_key(passage: Passage) -> bool:
    if passage.role in (Role.ALT, Role.CODE):
        return False
    if passage.audience is Audience.TEACHER:
        return _names_key(passage.field) or _is_checked(passage) or _says_so(passage)
    return passage.audience is Audience.KEY


def _is_checked(passage: Passage) -> bool:
    """Whether a step has the key that the class checks by: **Check**: 1 T · 2 F (beside the gate) · 3 T."""
    labelled = _ONE_TWO.match(passage.text) or _ORDERED.match(passage.text)
    return passage.field.casefold() in _CHECKS and labelled is not None


def _names_key(name: str) -> bool:
    return field_key(name) == "answer"


def behind_lead(text: str) -> int:
    """Where a key goes on behind the name that it may begin with: `Key – 1 …`, `Ans.: 1 …`."""
    lead = _LEAD.match(text)
    headed = _CHECK_IT.match(text)
    behind = _SET_OFF.match(text, lead.end()) if lead is not None else None
    return behind.end() if behind is not None else headed.end() if headed is not None else 0


def out_of_steps(passage: Passage) -> Passage:
    """A key that is the last of some numbered steps, without the number of its step: 3. Key: 1 drum, 2 hat."""
    is_key = behind_lead(passage.text) > 0 or _is_checked(passage)
    is_key = is_key or (_names_key(passage.field) and _ONE_TWO.match(passage.text) is not None)
    in_notes = passage.audience is Audience.TEACHER or passage.role is Role.FIELD
    of_step = passage.item is not None and in_notes and is_key
    return replace(passage, item=None) if of_step else passage


def _says_so(passage: Passage) -> bool:
    """Whether a paragraph of notes begins as a key does: `The answers: 1 …`, `*Solutions:* …`, `Key – 1 …`. What a
    name alone may begin as well (`Answers: in pairs`) must go on with a label."""
    text = passage.text
    lead = _LEAD.match(text)
    if lead is None:
        return False
    behind = _SET_OFF.match(text, lead.end())
    headed = _CHECK_IT.match(text) if lead["check"] is not None else None
    if headed is not None and (0, headed.end(1)) in passage.strong:  # **Check it** 1 c, 2 a
        return True
    if lead["check"] is not None:  # Check: **i c, ii d**, and nothing more
        rest = (behind.end(), len(text.rstrip())) if behind is not None else None
        return not text.rstrip().endswith("?") and any(
            (start, end) == rest for start, end in (*passage.emphasis, *passage.strong)
        )
    marked = any(start == 0 and lead.end() <= end for start, end in (*passage.emphasis, *passage.strong))
    if behind is None and not marked:
        return False
    return lead["sure"] is not None or _LABEL.match(text, behind.end() if behind else lead.end() + 1) is not None


def told_answers(text: str) -> Iterator[tuple[int, int]]:
    """The ranges of a text of the notes that hold labelled answers, from 1 or a on: Check (1 milk, 2 eggs, 3 salt)."""
    for match in _TOLD.finditer(text):
        start, end = match.span(match.lastgroup or "open")
        run = ascii_lowercase if text[start] == "a" else _NUMBERS
        labels = [0]
        for piece_start, piece_end in _pieces(text, start, end):
            labelled = _LABELLED.match(text, piece_start, piece_end)
            if labelled is None or labelled["label"] not in run or run.index(labelled["label"]) != len(labels) - 1:
                break
            ends = None if match["bracketed"] else _ENDS.search(text, labelled.end(), piece_end)
            labels.append(ends.start() if ends is not None else piece_end)
            if ends is not None:
                break
        whole = match["bracketed"] is None or labels[-1] == end
        if len(labels) > _FEWEST and whole:
            yield start, start + len(text[start : labels[-1]].rstrip(" .;"))


def _pieces(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """The pieces of a row of answers; what stands in brackets is one: 1 breeze (a wind; 2 others are parts)."""
    depth, seen = 0, start
    for cut in _NEXT.finditer(text, start, end):
        depth += text.count("(", seen, cut.start()) - text.count(")", seen, cut.start())
        seen = cut.start()
        if depth == 0:
            yield start, cut.start()
            start = cut.end()
    yield start, end


def unbracketed(passage: Passage) -> Passage:
    """A key that stands in brackets as a whole, without them: (Key: 1 red. 2 four. 3 on the hay.)"""
    text = passage.text.rstrip()
    if len(text) < _LEAST or _BRACKETS.get(text[0]) != text[-1]:
        return passage
    depth = 0
    for at, char in enumerate(text):
        depth += (char == text[0]) - (char == text[-1])
        if depth == 0 and at < len(text) - 1:
            return passage  # (1) red (2) four
    return part_of(passage, 1, len(text) - 1)


def part_of(passage: Passage, start: int, end: int) -> Passage:
    """A range of a passage as a passage of its own."""
    text = passage.text
    while start < end and text[start].isspace():
        start += 1
    if (start, end) == (0, len(text)):
        return passage
    part = passage.bare(text[start:end], passage.starts[start:end], passage.ends[start:end])
    return part.marked(within(passage.strong, start, end), within(passage.emphasis, start, end))
