"""Labels on a page: the numbers and letters that begin an item, an option or an answer.

A figure or a letter is a label by company, not by looks: it is one of a chain that rises by one (`1 … 2 … 3`,
`a) … b) … c)`), and each link stands where a label can stand: at the start of a line or cell, after a full stop or
several spaces, in brackets or in bold.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import CIRCLED, uncircled
from lint_rules.page.exercises.model import Label, Place
from lint_rules.page.exercises.stream import Line, is_bold, is_led

LINE, DRESSED, APART, WEAK = 4, 3, 2, 1  # how surely a mark stands where a label stands

_TICKS = "☐□▢◯○◻⬜❏❑"
_MARK = lazy_re.compile(
    r"(?<![^\s(|•=→/;,☐□▢◯○◻⬜❏❑–—-])(?P<open>\(|\[)?"
    r"(?P<named>(?:Q|(?<![0-9]\s)(?<![0-9][.):]\s)No\.?|#)\s?(?=[0-9]))?"  # No 3; not 2 No 3 Yes
    rf"(?P<label>[{CIRCLED}]|[0-9]{{1,2}}|x{{0,1}}(?:ix|iv|v?i{{1,3}})|[A-Za-z])"
    r"(?P<close>[)\]]\.?|[.:](?!\S)|(?=[)\s]|$|\u00a0))"
)
_BEFORE = lazy_re.compile(rf"^(?:[{_TICKS}•·*–—-]\s*|_{{2,}}\s*|…\s*)+$")
_LEAD_IN = lazy_re.compile(r"(?:^|[.;!?]\s+)[^\W\d_][\w’'/-]*(?:\s(?:/\s)?[\w’'/-]+){0,4}\.?:\s+$")
_NAMED = lazy_re.compile(
    r"^(?:picture|photo|text|sentence|box|card|speaker|person|frame|line|step|sign|notice|scene|verse|message|speech)\s+$",
    re.I,
)
_LETTER = lazy_re.compile(r"[^\W\d_]")
_ENDS_BRACKET = lazy_re.compile(r"\([^()]*[^\W\d_]{2}[^()]*$")
_NUMBERED = lazy_re.compile(r"^(?:question|sentence|item|number|task|clue|riddle)\s+$", re.I)
_PART = lazy_re.compile(r"(?:part\s+)?[A-Z]\s+$", re.I)
_ITS_FIRST = lazy_re.compile(r"[.):]?\s+[^\W\dA-Z_]\w")
_CHOICE_INSIDE = lazy_re.compile(r"(?P<gap>[.:]?\s+)[\w’'-]+(?:\s[\w’'-]+){0,3}\s*[/|]\s*[^()/|]+(?:[/|][^()/|]+)*\)")
_SECOND = lazy_re.compile(r"\s2[.):]?\s")
_AFTER = lazy_re.compile(r"\s*[•–—:-]\s+|\s+")
_NO_LABEL = lazy_re.compile(r"(?:,\s*\d{1,2})*\s+or\s+\d|\s+(?:points|marks)\b")
_STRONG_ENDS = ".?!…_|•=→;✓✗" + _TICKS
_ROMAN = {"i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10}


class Kind(StrEnum):
    """What a chain of labels counts with."""

    NUMBER = "number"
    LOWER = "lower"
    UPPER = "upper"
    ROMAN = "roman"


@dataclass(frozen=True, slots=True)
class Mark:
    """A possible label: its line (index), its range with all that dresses it, and how surely it is one."""

    line: int
    label: str
    start: int  # of the label itself, in its passage
    end: int
    first: int  # of all that marks it
    last: int
    strength: int
    own: bool = False  # the list's own label, which is no part of the text
    dressed: bool = False
    list: int = -1  # the list whose own label it is

    def value(self, kind: Kind) -> int | None:
        """Its place in the row of a kind, or None where it is of another kind."""
        if kind is Kind.NUMBER:
            return int(self.label) if self.label.isdigit() else None
        if self.label.isdigit():
            return None
        if kind is Kind.ROMAN:
            return _ROMAN.get(self.label)
        if len(self.label) > 1 or self.label.islower() != (kind is Kind.LOWER):
            return None
        return ord(self.label.casefold()) - ord("a") + 1

    @property
    def order(self) -> tuple[int, int]:
        """Where it stands in the stream."""
        return (self.line, -1 if self.own else self.start)


def marks_in(lines: Sequence[Line]) -> list[Mark]:
    """Everything that looks like a label, in the order of the stream."""
    found: list[Mark] = []
    headless = _headless(lines)
    for index, line in enumerate(lines):
        item = line.passage.item
        own = line.first and item is not None and bool(item.label)
        if item is not None and line.first and id(line.passage) in headless:
            label, outer = headless[id(line.passage)], item.parent[0] if item.parent is not None else -1
            at = line.start
            found.append(Mark(index, label, at, at, at, at, LINE, own=True, dressed=True, list=outer))
        if own and item is not None and not (found and _same_item(lines[found[-1].line], line)):
            at = line.start
            found.append(Mark(index, item.label, at, at, at, at, LINE, own=True, dressed=True, list=item.list))
        found += _in_line(index, line, own=own)
    return _without_counts(found, lines)


def _headless(lines: Sequence[Line]) -> dict[int, str]:
    """Numbers of list items that begin with a list of their own, by the passage (its identity) that stands there:
    `3. (a) Did you see (b) Saw you the sea?` below `2. We (a) was (b) were cold.`"""
    items = [(line.passage, line.passage.item) for line in lines if line.passage.item is not None]
    base = {item.list: int(item.label) - item.index for _, item in items if item.label.isdigit()}
    known = {(item.list, item.index) for _, item in items}
    found: dict[int, str] = {}
    for passage, item in items:
        outer = item.parent
        if outer is not None and outer not in known and outer[0] in base and item.label.isalpha() and not item.index:
            known.add(outer)
            found[id(passage)] = str(base[outer[0]] + outer[1])
    return found


def _without_counts(found: list[Mark], lines: Sequence[Line]) -> list[Mark]:
    """The marks but for numbers in brackets that count letters, an entry of a list each: `It isn't heavy. (5) ____`."""
    inside = [mark for mark in found if mark.dressed and not mark.own and _counts_letters(mark, lines[mark.line])]
    several = len(inside) > 1 and len({mark.label for mark in inside}) < len(inside)
    return [mark for mark in found if not several or mark not in inside]


def _counts_letters(mark: Mark, line: Line) -> bool:
    item, text = line.passage.item, line.passage.text
    alone = not text[mark.last : line.end].strip("_ \u00a0.")
    return (
        item is not None
        and bool(item.label)
        and mark.label.isdigit()
        and text[mark.start - 1 : mark.start] == "("
        and alone
    )


def _same_item(one: Line, other: Line) -> bool:
    """Whether two passages are paragraphs of one list item: its label counts once."""
    a, b = one.passage.item, other.passage.item
    return one.passage is not other.passage and a is not None and b is not None and a == b


def _in_line(index: int, line: Line, *, own: bool) -> Iterator[Mark]:
    text = line.passage.text
    for match in _MARK.finditer(text, line.start, line.end):
        opened, closed = match["open"] or "", match["close"]
        label = uncircled(match["label"])
        circled = label != match["label"]
        if _NO_LABEL.match(text, match.end("label"), line.end):
            continue  # | 6 or 8 | Silver! |; One point each: 5 points.
        start, end = match.span("label")
        if opened and not closed:  # `(1 go / went)`: within the brackets of its choice
            inside = _CHOICE_INSIDE.match(text, end, line.end)
            if inside is not None and label.isdigit():
                yield Mark(index, label, start, end, match.start(), inside.end("gap"), DRESSED, dressed=True)
            continue
        if (opened == "(") != closed.startswith(")") and opened:
            continue
        answered = own and (match["named"] or "").startswith("No")  # behind the list's own number: 1. No 2. Yes
        begin = start if answered else match.start()
        before = text[line.start : begin]
        if not opened and closed.startswith(")") and _ENDS_BRACKET.search(before):
            continue  # `jacket (picture 1)`: it ends what the brackets say
        after = _AFTER.match(text, match.end(), line.end)
        last = after.end() if after else match.end()
        counts = opened and before.strip() and last >= line.end and label.isdigit()
        if counts and not before.rstrip().endswith(("_", "…")):
            continue  # `It rhymes with red. (3)`: how many letters, points or lines
        bold = circled or is_bold(line.passage, start, end)
        led = is_led(line.passage, line.start, match.start()) or (
            label == "1" and _PART.fullmatch(before) and _ITS_FIRST.match(text, end)
        )
        named = (_NAMED if label.isalpha() else _NUMBERED).match(before) is not None  # Picture A:, Question 1:
        bare = not closed and label.isalpha()
        strength = LINE if led or (named and closed) else _strength(before, opened, closed, bold, bare_letter=bare)
        if own and not before and not (opened or closed) and not _opens_row(line, match):
            strength = WEAK if label.isdigit() else APART  # behind the list's own number
        first = line.start if strength == LINE and (named or _BEFORE.match(before)) else begin
        if opened and closed.endswith(".") and before.rstrip().endswith("_"):
            last = match.end() - 1  # `cold and ____ (4).`: the full stop is the sentence's
            first = line.start + len(before.rstrip())
        yield Mark(index, label, start, end, first, last, strength, dressed=bool(opened or closed or bold))


def _opens_row(line: Line, match: "re.Match[str]") -> bool:
    """Whether a list's own letter heads a row of numbers: `A 1 am reading 2 is washing`."""
    item = line.passage.item
    lettered = item is not None and item.label.isalpha() and match["label"] == "1"
    text = line.passage.text
    return bool(lettered and _ITS_FIRST.match(text, match.end("label")) and _SECOND.search(text, match.end()))


def _strength(before: str, opened: str, closed: str, bold: bool, *, bare_letter: bool) -> int:
    if not before or _BEFORE.match(before) or _LEAD_IN.search(before):
        return LINE
    if opened or bold or closed[:1] in (")", "]"):
        return DRESSED
    stripped = before.rstrip()
    wide = len(before) - len(stripped) > 1 or before[-1:] in "\u00a0\t"
    if bare_letter and not wide and stripped[-1:] in ".?!…":
        return WEAK  # `He has a cat. A dog …`
    if stripped[-1:] in _STRONG_ENDS or wide:
        return DRESSED if closed else APART
    return APART if closed and stripped[-1:] in ",)" else WEAK


_MOST_OPEN = 50  # first labels that wait for a second one


def chains(marks: Iterable[Mark], kind: Kind, weakest: int = APART) -> list[list[Mark]]:
    """The chains of a kind: each begins with 1 or a (0 too) and rises by one, but for a list's own; at least two links.

    A first label may stand anywhere (`1 a baker`): several are kept open until a second follows, and the surest wins.
    """
    found: list[list[Mark]] = []
    open_: list[list[tuple[int, Mark]]] = []
    lists: set[int] = set()  # of which a label has been seen
    for mark in marks:
        value = mark.value(kind)
        if value is None or mark.strength < weakest:
            continue
        if value <= 1 and not any(one[-1][0] == value - 1 == 0 for one in open_):
            open_.append([(value, mark)])
            if len(open_) > _MOST_OPEN and len(open_[0]) == 1:
                del open_[0]  # a page of nothing but first labels must not take the square of its length
            if mark.own:
                open_ = [one for one in open_ if len(one) > 1 or one[0][1].own]
            continue
        fitting = [one for one in open_ if value == one[-1][0] + 1]
        if not fitting and mark.strength == LINE:
            fitting = [one for one in open_ if value == one[-1][0] + 2 and one[-1][1].strength == LINE]
        if not fitting and mark.own:  # a list counts as it likes: the clues of a crossword
            fitting = [one for one in open_ if value > one[-1][0] and one[-1][1].list == mark.list]
            if not fitting and kind is Kind.NUMBER and mark.list not in lists:
                for one in open_:
                    _keep(one, found)
                open_ = [[(value, mark)]]
        if mark.own:
            lists.add(mark.list)
        if fitting:
            best = max(range(len(fitting)), key=lambda at: (_surety(fitting[at]), at))
            fitting[best].append((value, mark))
            open_ = [one for one in open_ if len(one) > 1 and (one is fitting[best] or one not in fitting)]
            open_ = _closed(open_, fitting[best], found)
    for one in open_:
        _keep(one, found)
    return sorted(found, key=lambda chain: chain[0].order)


def _surety(chain: Sequence[tuple[int, Mark]]) -> tuple[bool, int]:
    return len(chain) > 1, chain[-1][1].strength


def _closed(
    open_: list[list[tuple[int, Mark]]], now: list[tuple[int, Mark]], found: list[list[Mark]]
) -> list[list[tuple[int, Mark]]]:
    """Chains that began before the one that goes on now are over."""
    for one in open_:
        if one is not now:
            _keep(one, found)
    return [now]


def _keep(now: Sequence[tuple[int, Mark]], found: list[list[Mark]]) -> None:
    marks = [mark for _, mark in now]
    if len(marks) > 1 or (marks and marks[0].own):
        found.append(marks)


def label_of(mark: Mark, lines: Sequence[Line]) -> Label:
    """A mark as a label."""
    passage = lines[mark.line].passage
    if mark.own:
        assert passage.item is not None
        return Label(mark.label, passage.item.label_span)
    return Label(mark.label, passage.span(mark.start, mark.end), Place(passage, mark.first, mark.last))


def end_lines(chain: Sequence[Mark], lines: Sequence[Line]) -> bool:
    """Whether labels in brackets stand at the ends of lines of their own, each behind what it labels."""
    rows = [lines[mark.line] for mark in chain]
    ends = all(mark.dressed and not mark.own and mark.last >= row.end for mark, row in zip(chain, rows, strict=True))
    said = all(_LETTER.search(row.passage.text, row.start, mark.first) for mark, row in zip(chain, rows, strict=True))
    return ends and said and len({mark.line for mark in chain}) == len(chain)
