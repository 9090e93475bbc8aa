"""Cut the plain text of one paragraph into what it holds: turns, fields, lettered lines, entries, song lines.

Every function takes the text and gives half-open ranges of it; nothing here knows about files.
"""

import re
from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key, is_usual
from lint_rules.manuscript.inline_text import InlineText

GAP = lazy_re.compile(r"_{2,}")
_LETTERED = lazy_re.compile(r"\(?([A-Za-z])\)[ \t\u00a0]+(?=\S)")
_LETTERED_INSIDE = lazy_re.compile(r"(?<=\s)\(?([A-Za-z])\)[ \t\u00a0]+(?=\S)")
_BARE_LETTER = lazy_re.compile(r"([A-Za-z])[ \t\u00a0]+(?=\S)")
_NUMBERED = lazy_re.compile(r"([0-9]{1,2})[ \t\u00a0]+(?=\S)")
_NAME_WORD = r"(?:[^\W\d_][\w.'’-]*|[0-9]{1,2})"
_NAME = lazy_re.compile(rf"({_NAME_WORD}(?: (?:&|\+|{_NAME_WORD})){{0,3}}) ?:(?=\s|$)")
_NAME_DASHED = lazy_re.compile(rf"({_NAME_WORD}(?: {_NAME_WORD}){{0,2}}) ?[–—-] +(?=\S)")
_COUNTED_NAME = lazy_re.compile(r"\d{1,2} [A-Z]{2,}(?: [A-Z]+)*")
_STAMP = lazy_re.compile(r"[\[(]\d{1,2}[:.]\d{2}(?:[:.]\d{2})?[\])]\s*")
_TASK = lazy_re.compile(
    r"(?:question|answer|sentence|item|number|task|clue|riddle|activity|exercise|part|ex\.|act\.)\s+[0-9]{1,2}", re.I
)
_COLON = lazy_re.compile(r"\s?:")
_FIELD = r"([^\W\d_][\w'’& ]{0,38}?(?:\s\([^()]{1,20}\))?)"  # Steps, You need, H&S, Time (minutes)
_PARTING = ("·", "•", "|")  # **Time** 7 min · **Steps** Play it.
_LEAD = lazy_re.compile(rf"\s*{_FIELD}\s*([.:]?)\s*")
_SET_OFF = lazy_re.compile(rf"\s*{_FIELD}\s*(?:\.?(:)\s*|([–—|-])(?:\s+|$)|[.]?$)")
_BARE = lazy_re.compile(r"(?:(?<=[.!?)'’|·;]\s)|(?<=^\[))([A-Z][\w'’& ]{0,24}?)\.?:\s+(?=\S)")
_CAPITALS_DASH = lazy_re.compile(r"([A-Z][A-Z0-9&/'’ -]{2,30}?)\s+[–—]\s+(?=\S)")
_TIME = lazy_re.compile(r"(?:about )?[\w–-]+(?:\s[\w–-]+)?\s(?:minutes?|mins?|hours?)[.:]?", re.I)
_CAPITALS = lazy_re.compile(
    r"(?:^|(?<=[.!?…)'’”]\s))([A-Z][A-Z&]{2,}(?: [A-Z][A-Z&]+){0,2})\s+(?=[^A-Z\s:–—]|[A-Z](?![A-Z]))"
)
_BOLD_HEAD = lazy_re.compile(r"\s*([^\W\d_][\w'’&/-]*(?: [\w'’&/-]+){0,3})\s*")
_BOLD_DASH = lazy_re.compile(r"([^\W\d_][^–—]{0,38}?)\s*[–—]\s*")
_HEAD_OF_ROW = lazy_re.compile(r"\s*([^·•|]*[^·•|\s])\s*(?=[·•|][^·•|]+(?:[·•|]|$))")
_FIGURE = lazy_re.compile(r"\s*[0-9]")
_SENTENCE_END = lazy_re.compile(r"(?:^|[.!?…:;][\"'”’)\]]*\s|\n)\s*$")
_LINKS = ("and", "the", "of", "&", "+")
_CAPITAL = lazy_re.compile(r"[\s\"'“‘(*–—-]*[^\W\d_a-z]")
_VERSE_LIMIT = 60  # characters of a line of verse: common practice, no source
_LABEL_LIMIT = 40  # a longer bold stretch is emphasis, not the name of a field or a speaker


@dataclass(frozen=True, slots=True)
class Piece:
    """A range of a paragraph's text; ``label`` (with its range) is what was taken off its front; ``bare``: that is set
    off by its place alone, not by bold or italics."""

    start: int
    end: int
    label: str = ""
    label_start: int = 0
    label_end: int = 0
    bare: bool = False


def lines(plain: InlineText) -> list[tuple[int, int]]:
    """The lines of the file that a paragraph stands on, as ranges of its text."""
    edges = [-1, *plain.breaks, plain.length]
    return [(left + 1, right) for left, right in pairwise(edges)]


def trimmed(text: str, start: int, end: int) -> tuple[int, int]:
    """A range without white space at its ends."""
    part = text[start:end]
    start += len(part) - len(part.lstrip())
    return start, max(start, start + len(part.strip()))


def bold_label(plain: InlineText, start: int, end: int) -> Piece | None:
    """A label in bold with a colon at the start of a line: `**Aim:**` or `**Aim**:`; the piece is what follows it."""
    text = plain.text
    first, _ = trimmed(text, start, end)
    at = bisect_left(plain.strong, (first, 0))
    if at == len(plain.strong) or plain.strong[at][0] != first or plain.strong[at][1] > end:
        return None
    after = plain.strong[at][1]
    name = text[first:after].rstrip()
    if name.endswith(":"):
        name = name[:-1].rstrip()
    elif match := _COLON.match(text, after, end):
        after = match.end()
    else:
        return None
    if not name or len(name) > _LABEL_LIMIT:
        return None
    return Piece(after, end, name, first, first + len(name))


def usual_field(text: str) -> str:
    """The usual field that a cell of a table names (`Aim`, `Materials:`), as written; '' where it names none."""
    name = text.strip().removesuffix(":").rstrip()
    if name.casefold() == "how":
        return ""  # | What | How |: the heads of a table of fields
    return name if len(name) <= _LABEL_LIMIT and is_usual(name) else ""


def field_leads(plain: InlineText, *, listed: bool = False) -> list[Piece]:
    """The fields of a paragraph of notes, in order: `**Aim:**` at the start of a line, or a usual field anywhere.

    A usual name may also be set off at the start of a line in other ways (`_set_off`), and run on inside it
    (`_run_on`). ``listed``: the paragraph is an item of a list.
    """
    found: dict[int, Piece] = {}
    for start, end in lines(plain):
        label = bold_label(plain, start, end) or _set_off(plain, start, end, listed=listed)
        if label is None and not listed:  # in a list: 1. WATCH – the children watch
            label = _dashed(plain, start, end)
        if label is not None:
            found[label.label_start] = label
    for label in _run_on(plain, listed=listed):
        found.setdefault(label.label_start, label)
    return [found[start] for start in sorted(found)]


def _run_on(plain: InlineText, *, listed: bool) -> Iterator[Piece]:
    """Usual fields, in bold before a colon wherever they stand (`**Time:** 8 min **Steps:** Play it.`), else wherever a
    line of the file or a sentence begins: in bold or italics with a full stop or a colon (`**Time.** 8 minutes.
    **Steps.** Play it.`), several so without one (`*Time* 8 minutes. *You need* a ball.`; one at the start of an entry
    of a list: `- **Need** a ball`), and plain before a colon (`45'. Aim: name toys. Mats: paper.`), or in capitals
    (`AIM Name toys. TIME 8 minutes.`)."""
    text, unmarked = plain.text, []
    for start, end in sorted((*plain.strong, *plain.emphasis)):
        lead = _LEAD.fullmatch(text, start, end)
        begins = start - 1 in plain.breaks or _SENTENCE_END.search(text[:start]) is not None
        begins = begins or text[:start].rstrip().endswith(_PARTING)
        if lead is not None and (start, end) in plain.strong and ":" in (lead[2], text[end : end + 1]):
            begins = True  # **Time:** 10 min **Steps:** Play it.
        if lead is None or not is_usual(lead[1]) or not begins:
            continue
        stopped = lead[2] or text[end : end + 1] in (".", ":")
        after = end if lead[2] or not stopped else end + 1
        piece = Piece(after, plain.length, lead[1], lead.start(1), lead.end(1))
        opens = listed and (start, end) in plain.strong and not text[:start].strip() and text[end : end + 1].isspace()
        if stopped or opens:
            yield piece
        elif text[end : end + 1].isspace():
            unmarked.append(piece)
    timed = any(field_key(one.label) == "time" and _FIGURE.match(text, one.start) for one in unmarked)
    if timed or len({field_key(one.label) for one in unmarked}) > 1:
        yield from unmarked
    for match in _BARE.finditer(text):
        if is_usual(match[1]):
            yield Piece(match.end(), plain.length, match[1], *match.span(1), bare=True)
    for match in _CAPITALS.finditer(text):
        if is_usual(match[1]):
            yield Piece(match.end(), plain.length, match[1], *match.span(1))


def _set_off(plain: InlineText, start: int, end: int, *, listed: bool) -> Piece | None:
    """A usual field at the start of a line: before a colon (`Aim: …`), in bold, italics or a list before a dash
    (`*Aim* – …`), or alone in a line, in bold or italics or all that the paragraph has (**Steps**, a list under it)."""
    match = _SET_OFF.match(plain.text, start, end)
    if match is None or not is_usual(match[1]) or (match[3] and match.end() == end < plain.length):
        return None  # **Steps** – and a list under it; but where the line goes on, what stands there is its text
    at, until = match.span(1)
    marked = any(left <= at and until <= right for left, right in (*plain.strong, *plain.emphasis))
    marked = marked or (match[1].isupper() and until - at > 1)
    alone = match.end() == end and (marked or end - start == plain.length)
    if not (match[2] or alone or (match[3] and (marked or listed))):
        return None
    return Piece(match.end(), end, match[1], at, until, bare=not marked)


def _dashed(plain: InlineText, start: int, end: int) -> Piece | None:
    """A label that ends with a dash at the start of a line of notes, in bold or capitals: `**Task –** Listen.`"""
    first, _ = trimmed(plain.text, start, end)
    after = next((right for left, right in plain.strong if left == first and right <= end), 0)
    match = _BOLD_DASH.fullmatch(plain.text, first, after) if after else _CAPITALS_DASH.match(plain.text, first, end)
    return Piece(match.end(), end, match[1], *match.span(1)) if match is not None else None


def opens_with_time(plain: InlineText) -> bool:
    """Whether a paragraph of notes opens with a time set in italics or bold: `*Ten minutes.* Sing it twice.`"""
    ranges = (one for one in (*plain.strong, *plain.emphasis) if not plain.text[: one[0]].strip())
    return any(_TIME.fullmatch(plain.text, *one) for one in ranges)


def bold_head(plain: InlineText) -> Piece | None:
    """A paragraph that is all in bold, a few words without a full stop: the head of what follows."""
    match = _BOLD_HEAD.fullmatch(plain.text)
    if match is None or plain.breaks:
        return None
    if not any(left <= match.start(1) and match.end(1) <= right for left, right in plain.strong):
        return None
    return Piece(plain.length, plain.length, match[1], *match.span(1))


def is_name(label: str) -> bool:
    """Whether a label can be a speaker: one to four words that begin with capitals or are numbers; behind its number
    a name in capitals (1 MISI)."""
    words = label.split()
    return (
        0 < len(words) <= 4
        and all(word in _LINKS or word[0].isupper() or word.isdigit() for word in words)
        and (not words[0].isdigit() or _COUNTED_NAME.fullmatch(label) is not None)
    )


def is_task(label: str) -> bool:
    """Whether a label numbers a task, and is nobody who speaks: `Question 1`."""
    return _TASK.fullmatch(label) is not None


def script_speaker(plain: InlineText, start: int, end: int) -> Piece | None:
    """`MINA:` at the start of a line of an audio script, or behind its time ([00:05] MINA:); before a dash in capitals,
    bold or italics (`*Mina* — `)."""
    begin, _ = trimmed(plain.text, start, end)
    stamp = _STAMP.match(plain.text, begin, end)
    first = begin if stamp is None else stamp.end()
    match = _NAME.match(plain.text, first, end)
    if match is None and (match := _NAME_DASHED.match(plain.text, first, end)) is not None:
        at, until = match.span(1)
        marked = any(left <= at and until <= right for left, right in (*plain.strong, *plain.emphasis))
        match = match if marked or (match[1].isupper() and until - at > 1) else None
    if match is None or not is_name(match[1]):
        return None
    return Piece(match.end(), end, match[1], match.start(1) if stamp is None else begin, match.end(1))


def is_told_line_by_line(plain: InlineText) -> bool:
    """Whether each of several lines ends a sentence: I have got a map. / He has got a map."""
    ends = [plain.text[start:end].rstrip()[-1:] for start, end in lines(plain)]
    return len(ends) > 1 and all(end and end in ".!?…" for end in ends)


def is_verse(plain: InlineText) -> bool:
    """Whether the lines of a paragraph are lines of verse: several short ones that all begin with a capital. A text
    that was wrapped goes on in lower case."""
    text, ranges = plain.text, lines(plain)
    return len(ranges) > 1 and all(
        end - start <= _VERSE_LIMIT and _CAPITAL.match(text, start, end) is not None for start, end in ranges
    )


def options(plain: InlineText) -> list[Piece] | None:
    """Lettered or numbered lines: `a) blue`, and `a blue` where the letters go on from line to line. What stands before
    the first one comes as a piece without a label."""
    text = plain.text
    found: list[re.Match[str]] = []
    numbers: list[re.Match[str]] = []
    letters: list[re.Match[str]] = []
    for start, end in lines(plain):
        first, last = trimmed(text, start, end)
        if match := _LETTERED.match(text, first, last):
            found.append(match)
            found += _options_inside(text, match, last)
        elif match := _NUMBERED.match(text, first, last):
            numbers.append(match)
        elif match := _BARE_LETTER.match(text, first, last):
            letters.append(match)
    if not found and len(numbers) > 1:
        found = numbers if _in_order([int(match[1]) for match in numbers]) else []
    if not found and not numbers and len(letters) > 1:
        found = letters if letters[0][1] in "aA" and _in_order([ord(match[1]) for match in letters]) else []
    if not found:
        return None
    pieces = [Piece(0, found[0].start())] if text[: found[0].start()].strip() else []
    for match, end in zip(found, [*(match.start() for match in found[1:]), len(text)], strict=True):
        pieces.append(Piece(match.end(), end, match[1], match.start(1), match.end(1)))
    return pieces


def _in_order(values: list[int]) -> bool:
    return values == list(range(values[0], values[0] + len(values)))


def _options_inside(text: str, first: re.Match[str], end: int) -> list[re.Match[str]]:
    """Further options on the same line: `a) blue  b) red`, in the order of the letters."""
    found: list[re.Match[str]] = []
    wanted = chr(ord(first[1]) + 1)
    for match in _LETTERED_INSIDE.finditer(text, first.end(), end):
        if match[1] == wanted:
            found.append(match)
            wanted = chr(ord(wanted) + 1)
    return found


def entries(plain: InlineText) -> list[tuple[int, int]]:
    """Entries of a words panel: by lines and by commas."""
    text = plain.text
    pieces: list[tuple[int, int]] = []
    for start, end in lines(plain):
        edges = [start - 1, *(start + match.start() for match in re.finditer("[,;]", text[start:end])), end]
        pieces += [(left + 1, right) for left, right in pairwise(edges)]
    return pieces


def head_of_row(plain: InlineText, start: int, end: int) -> int:
    """Where the head of a row of words ends (bold before a middle dot, plain words behind it), else where the row
    begins."""
    match = _HEAD_OF_ROW.match(plain.text, start, end)
    if match is None or len(plain.strong) != 1:
        return start
    left, right = plain.strong[0]
    return match.end(1) if left <= match.start(1) and match.end(1) <= right < end else start


def gaps(text: str) -> tuple[tuple[int, int], ...]:
    """Blanks to fill in: `____`."""
    return tuple(match.span() for match in GAP.finditer(text))
