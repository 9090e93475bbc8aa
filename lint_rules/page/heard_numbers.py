"""Numbers that a script speaks before what belongs to them: *Number one. It's a frog.* · *Two.* · *3. A red boat.*"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.number_words import NUMBER_WORDS, numbers_in

_WRITTEN = rf"\d{{1,2}}|{'|'.join(NUMBER_WORDS)}"
_NUMBER = lazy_re.compile(
    rf"\b(?:number|question|picture)\s+({_WRITTEN})\b"
    rf"|^[^\w\n]*({_WRITTEN})(?:[.!:](?=\s|$)|\s*(?:…|\.{{3}})|[^\w\n]*$)"  # Three. Look! · 3 … Look!
    r"|^[^\w\n]*(\d{1,2})\s+(?:[–—-]\s+)?(?=[“‘\"']?(?-i:[A-Z]))"  # 3 She made a knot. 3 – It's red.
    r"|(?<=[.!?]\s)(\d{1,2})\.(?=\s+[“‘\"']?(?-i:[A-Z]))",  # 1. Apple. 2. Egg.
    re.I | re.M,
)
# One, rain. Two, dad. Three, train.
_ROW = lazy_re.compile(rf"(?:^|(?<=[.!?]\s))({_WRITTEN})[.,:]\s+(?=\w)", re.I)
_ONE_WORD = lazy_re.compile(rf"(?:{_WRITTEN}),\s+\w+[.!?]*", re.I)
_ROW_OPENS = lazy_re.compile(r"\W*(?:one|1)[.,:]\s[^.!?]+[.!?]\s+(?:two|2)[.,:]\s", re.I)
_LETTER = lazy_re.compile(r"^[^\w\n]*([a-h])[.):]\s", re.I | re.M)
_AT_FRONT = lazy_re.compile(r"\W*")
_ENDED = lazy_re.compile(r"[.!?…][\"”’')]*\s+$")
_FROM_ONE = lazy_re.compile(rf"\W*(?:(?:1|one)[.,:]|(?:{_WRITTEN}):)\s", re.I)  # Seven: laughed. Eight: waved.
_BEFORE_NAME = lazy_re.compile(r"(\d{1,2})\s+\w")
_FIRST_WORD = lazy_re.compile(r"\W*\w+")
_FEWEST = 4  # numbers that make a series


@dataclass(frozen=True, slots=True)
class HeardNumber:
    """A number that is spoken, where, and the words behind it up to the next."""

    number: int
    passage: Passage
    start: int
    end: int
    behind: str
    spoken: bool = True  # not only the number of an entry, which may count turns


def heard_numbers(passages: Sequence[Passage], *, rows: bool = False) -> list[HeardNumber]:
    """The numbers that a script speaks before its parts, in their order; with ``rows`` those of a turn that counts
    words off as well: One, rain. Two, dad."""
    # NILO: One, street. TALA: Two, tree.
    in_turns = rows and len(passages) >= _FEWEST and all(_ONE_WORD.fullmatch(one.text.strip()) for one in passages)
    in_rows = in_turns or (rows and any(_ROW_OPENS.match(passage.text) for passage in passages))
    pattern = _ROW if in_rows else _NUMBER
    marks = [(passage, mark) for passage in passages for mark in pattern.finditer(passage.text)]
    if not marks:
        return _of_list(passages)
    found = []
    for at, (passage, mark) in enumerate(marks):
        to, behind = marks[at + 1] if at + 1 < len(marks) else (None, None)
        if to is passage and behind is not None:
            rest = passage.text[mark.end() : behind.start()]
        else:
            between = passages[passages.index(passage) + 1 : passages.index(to) if to is not None else None]
            head = to.text[: behind.start()] if to is not None and behind is not None else ""
            rest = "\n".join([passage.text[mark.end() :], *(f"{one.speaker} {one.text}" for one in between), head])
        group = mark.lastindex or 1
        written = mark[group].casefold()
        number = NUMBER_WORDS[written] if written in NUMBER_WORDS else int(written) if written.isdecimal() else 0
        found.append(
            HeardNumber(number, passage, mark.start() if group == 1 else mark.start(group), mark.end(group), rest)
        )
    return found


def _of_list(passages: Sequence[Passage]) -> list[HeardNumber]:
    """The numbers of a script that is a numbered list: `1. LOU: It's a frog.`, `1 LOU: It's a frog.`"""
    marks = [at for at, one in enumerate(passages) if _listed(one)]
    if len(marks) < _FEWEST:
        return []
    found = []
    for at, to in zip(marks, [*marks[1:], len(passages)], strict=True):
        passage = passages[at]
        first = _FIRST_WORD.match(passage.text)
        rest = "\n".join([passage.text, *(f"{one.speaker} {one.text}" for one in passages[at + 1 : to])])
        found.append(
            HeardNumber(int(_listed(passage)), passage, 0, first.end() if first is not None else 0, rest, False)
        )
    return found


def _listed(passage: Passage) -> str:
    """The number of an entry of a list, or before who speaks; '' for none."""
    before = _BEFORE_NAME.match(passage.speaker)
    label = passage.item.label if passage.item is not None else before[1] if before is not None else ""
    return label if label.isdecimal() else ""


def number_left_out(passages: Sequence[Passage]) -> tuple[int, HeardNumber] | None:
    """The one number that a script, which goes up from one, does not speak, and the number that comes in its place."""
    spoken = heard_numbers(passages, rows=True)
    heard = [one for one in spoken if _opens(one)]
    numbers = [one.number for one in heard]
    if len(heard) < _FEWEST or numbers[0] != 1 or not all(re.search(r"\w", one.behind) for one in heard):
        return None
    left_out = sorted(set(range(1, numbers[-1] + 1)) - set(numbers))
    if len(left_out) != 1 or numbers != [one for one in range(1, numbers[-1] + 1) if one != left_out[0]]:
        return None
    if any(one.number == left_out[0] for one in spoken):
        return None  # Hello, Tilla! Number 2. This is my basket.
    before = next(one for one in heard if one.number == left_out[0] - 1)
    if any(number == left_out[0] and not thing for number, _, _, thing in numbers_in(before.behind, parts=True)):
        return None  # OK, four. A hen.
    return left_out[0], next(one for one in heard if one.number == left_out[0] + 1)


def letter_left_out(passages: Sequence[Passage]) -> tuple[str, Passage, int, int] | None:
    """The one letter that a script, whose turns are lettered from a on, leaves out, and where the next one stands."""
    marks = [(passage, mark) for passage in passages for mark in _LETTER.finditer(passage.text)]
    letters = [mark[1].casefold() for _, mark in marks]
    if len(letters) < _FEWEST or letters[0] != "a":
        return None
    whole = [chr(at) for at in range(ord("a"), ord(letters[-1]) + 1)]
    left_out = [letter for letter in whole if letter not in letters]
    if len(left_out) != 1 or letters != [letter for letter in whole if letter != left_out[0]]:
        return None
    passage, mark = next((one for one, at in zip(marks, letters, strict=True) if at > left_out[0]))
    return left_out[0], passage, *mark.span(1)


def _opens(heard: HeardNumber) -> bool:
    """Say whether a number opens a turn, a line or, called so and with a stop behind it, what is said next in a line
    (It's wet. Number five. Oh no!): nobody speaks of picture two."""
    text = heard.passage.text
    before = text[: heard.start].rpartition("\n")[2]
    called = text[heard.start : heard.start + 1] == "N" and text[heard.end : heard.end + 1] in (".", ":", "!")
    in_row = _FROM_ONE.match(before) is not None and text[heard.end : heard.end + 1] in (".", ",", ":")
    return _AT_FRONT.fullmatch(before) is not None or ((called or in_row) and _ENDED.search(before) is not None)
