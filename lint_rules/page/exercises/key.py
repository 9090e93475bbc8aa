"""The key of an activity, in every usual form: a list, a line each, a row, labels behind, a row of labels alone.

Pure and guessing nothing: what cannot be told apart is given as one loose answer, which accuses nobody.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, zip_longest

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.exercises.answers import OWN
from lint_rules.page.exercises.key_places import behind_lead, out_of_steps, unbracketed
from lint_rules.page.exercises.key_rows import (
    LEAD,
    answers_before,
    label_row,
    numbered_letters,
    numbered_numbers,
)
from lint_rules.page.exercises.key_sentences import lists_nothing, tells_of_answers, told
from lint_rules.page.exercises.key_tables import tabled
from lint_rules.page.exercises.marks import APART, LINE, WEAK, Kind, Mark, label_of, marks_in
from lint_rules.page.exercises.model import Answer, Place
from lint_rules.page.exercises.said_around import in_brackets, without_is, without_reason, without_sentence
from lint_rules.page.exercises.stream import Line, is_led, lines_of
from lint_rules.page.exercises.tables import same_row
from lint_rules.source import Source

_ATTACHED = lazy_re.compile(
    r"(?<![\w.–-])(?:Q\s?)?(?P<label>\d{1,2})(?=[–=-]?[A-Za-z](?:[\s,;.)]|$)|[–=-][A-Za-z][A-Za-z'’]"
    r"|\s?[–-]\s?\d{1,2}[.):]?\s)"
)
_FROM_TO = lazy_re.compile(  # 1–3 own answers; a) to c) own answers
    r"(?P<from>[0-9]{1,2}|[a-j])(?:(?<=[0-9])\s*[–-]\s*(?P<number>[0-9]{1,2})[.):]?"
    r"|[.)]?\s+to\s+(?P<to>[0-9]{1,2}|[a-j])[.):])\s+(?=\S)"
)
_EDGE = " \t\n,;–—|·•-→="
_ENTRY = lazy_re.compile(r"\s*[;\n]\s*")
_BETWEEN_ENTRIES = tuple(
    lazy_re.compile(pattern)
    for pattern in (r"\s*,\s*", r"\s*;\s*", r"\s+[–—-]\s+", r"\s*[/|·•→]\s*", r"\s{2,}|\u00a0+", r"[,;]?\s+(?:and\s+)?")
)
_PART = lazy_re.compile(r"\s*(?:(?:Part|Section|Exercise)\s+)?[A-Z][.):]?\s*")
_PARTED = lazy_re.compile(r"(?:^|[.:;]\s)\s*A\s+1\b")
_LEAD_LENGTH = 60
_TOLD = 5  # words of a sentence
_ROW = 3  # labels that stand alike
_STROKE = lazy_re.compile(r"\s+[/|]\s*$")
_PART_NEXT = lazy_re.compile(rf"{_STROKE.pattern}|[;.]\s*[B-H]\s*$")
_WORD = lazy_re.compile(r"[^\W\d_]")
_REMARK = lazy_re.compile(r"\([^()]*\)")  # `1 F (She has a cat.) 2 T`
_MARKS_LAST = lazy_re.compile(
    r"(?<=\S)\s*[(\[]\s*\d{1,3}\s*(?:marks?|points?)\s*[)\]]\s*\.?\s*$", re.I
)  # 4 c (4 marks)
_TIME_LAST = lazy_re.compile(  # 5 b 6 a [7 min]
    r"\s*[\[(](?:about\s+)?\d{1,2}(?:\s*[–-]\s*\d{1,2})?\s*(?:min(?:ute)?s?\b\.?|['’])[\])]\.?\s*$", re.I
)
_COMMA = lazy_re.compile(r"\s*,\s*")
_HEADED = lazy_re.compile(r"(?:[A-Z][\w’'-]*(?:\s[\w’'-]+){0,4}:\s|[A-Z][a-z]+(?:\s\w+)?$)")
_HEAD_WORDS = lazy_re.compile(r"[A-Z][\w’'-]*(?:\s[A-Za-z][\w’'-]*){0,4}(?=[\s:]*\d)")


@dataclass(frozen=True, slots=True)
class ReadKey:
    """A key as read: rows of labelled answers in file order, a row of bare labels, entries without labels."""

    rows: tuple[tuple[Answer, ...], ...]
    order: tuple[Answer, ...]
    entries: tuple[Answer, ...]
    own: bool
    passages: tuple[Passage, ...]
    crossed_out: bool
    lines: tuple[Line, ...]

    def entries_for(self, count: int) -> tuple[Answer, ...]:
        """The entries without labels, cut so that there are as many as wanted, where one way gives so many; in a key
        that is told in prose what is set off in it: He asks what she is *doing*, and she *isn't* helping."""
        set_off = tuple(answer for line in self.lines for answer in _set_off(line)) if self.entries else ()
        if len(set_off) == count > 1 and any(map(tells_of_answers, self.lines)) and len(self.lines) != count:
            return set_off
        if len(self.entries) > 1 and len(self.lines) == 1 and lists_nothing(self.lines[0]):
            line = self.lines[0]
            whole = Answer(_trimmed(Place(line.passage, line.start, line.end)))
            return self.entries if len(self.entries) != count else (whole,)
        told = [line for line in self.lines if len(line.text.split()) >= _TOLD and line.text.rstrip().endswith(".")]
        if len(self.entries) == count or not self.entries or len(told) > 1:
            return self.entries  # sentences, which no comma cuts into answers
        for between in _BETWEEN_ENTRIES:
            found = tuple(answer for line in self.lines for answer in _cut(line, between))
            if len(found) == count:
                return found
        return self.entries


def read_key(
    passages: Sequence[Passage], kinds: Sequence[Kind], source: Source, page: Sequence[Sequence[str]] = ()
) -> ReadKey:
    """Read a key; ``kinds`` are those that the page's items count with, the likeliest first, and ``page`` are their
    labels, exercise by exercise: in a crossword they go up by more than one."""
    passages = [unbracketed(one) for one in passages]
    passages = [out_of_steps(passage) for passage in passages] if len(passages) == 1 else passages
    in_tables, left = tabled(passages)
    lines = [_without_lead(line) for line in lines_of(left, source)]
    own = any(OWN.search(passage.text) for passage in passages)
    crossed = any(re.search(r"\bcross(?:ed)?\s+out\b", passage.text, re.I) for passage in passages)
    said = told(lines)
    if said:
        return ReadKey((*in_tables, said), (), (), own, tuple(passages), crossed, tuple(lines))
    order = () if in_tables else tuple(label_row(lines))
    marks = [] if order else [*marks_in(lines), *_attached(lines)]
    marks.sort(key=lambda mark: mark.order)
    behind = tuple(answers_before(lines)) if Kind.NUMBER in kinds else tuple(numbered_letters(lines)) if kinds else ()
    behind = behind or (tuple(numbered_numbers(lines)) if Kind.NUMBER in kinds else ())
    rows = (behind,) if behind else _rows(marks, kinds, lines, _steps(page))
    rows = (*in_tables, *map(in_brackets, map(without_reason, without_sentence(without_is(rows, source)))))
    entries = () if rows or order or own else tuple(_entries(lines))
    return ReadKey(rows, order, entries, own, tuple(passages), crossed, tuple(lines))


def _rows(
    marks: Sequence[Mark], kinds: Sequence[Kind], lines: Sequence[Line], steps: Mapping[int, int]
) -> tuple[tuple[Answer, ...], ...]:
    """The answers behind labels of the first kind that gives some, but for labels behind which nothing stands."""
    for kind in (*kinds, *(kind for kind in Kind if kind not in kinds)):
        chains = list(_key_chains(marks, kind, lines, steps))
        read = [tuple(_row(one, lines, then[0] if then else None)) for one, then in zip_longest(chains, chains[1:])]
        rows = tuple(row for row in read if any(answer.text for answer in row))
        if rows and (len(rows[0]) > 1 or kind in kinds):
            return rows
    return ()


def _without_lead(line: Line) -> Line:
    at = behind_lead(line.text) if line.start == 0 else 0
    return replace(line, start=at) if at else line


def _attached(lines: Sequence[Line]) -> Iterator[Mark]:
    """`1a 2b`: a number with its letter at it."""
    for index, line in enumerate(lines):
        own = line.first and line.passage.item is not None and bool(line.passage.item.label)
        for match in _ATTACHED.finditer(line.passage.text, line.start, line.end) if not own else ():
            start, end = match.span("label")
            strength = LINE if start == line.start else APART
            yield Mark(index, match["label"], start, end, start, end, strength)


def _steps(page: Sequence[Sequence[str]]) -> dict[int, int]:
    """Which number comes behind which on the page, where it is not the next one."""
    numbers = [[int(label) for label in labels if label.isdigit()] for labels in page]
    follows = {pair for row in numbers for pair in pairwise(row)}
    return {a: b for a, b in follows if b > a + 1 and (a, a + 1) not in follows}


def _key_chains(
    marks: Sequence[Mark], kind: Kind, lines: Sequence[Line], steps: Mapping[int, int]
) -> Iterator[list[Mark]]:
    """Chains of labels in a key: of several that could be the next one the surest."""
    usable = [(mark, value) for mark in marks if (value := mark.value(kind)) is not None]
    at = 0
    while at < len(usable):
        mark, value = usable[at]
        led = mark.strength == LINE and (not at or _is_led(mark, lines))
        if (value > 1 and not led) or mark.strength < APART:
            at += 1
            continue
        chain, last = [mark], at
        while (following := _next(usable, last, value, chain, lines, steps)) is not None:
            last, value = following
            chain.append(usable[last][0])
        if len(chain) > 1 or mark.strength == LINE:
            yield chain
        at = last + 1


def _is_led(mark: Mark, lines: Sequence[Line]) -> bool:
    """Whether a head stands before a mark: `**Across** 2 hat`, `Student B: 3 Friday`."""
    line = lines[mark.line]
    return not mark.own and _WORD.search(line.passage.text[line.start : mark.first]) is not None


def _next(
    usable: Sequence[tuple[Mark, int]],
    last: int,
    value: int,
    chain: Sequence[Mark],
    lines: Sequence[Line],
    steps: Mapping[int, int],
) -> tuple[int, int] | None:
    by_lines = len(chain) > 1 and all(mark.strength == LINE for mark in chain)
    skipping = WEAK if _in_short_row(chain, lines) else APART
    told = [(steps[value], WEAK)] if value in steps else []
    for wanted, weakest in (*told, (value + 1, APART if by_lines else WEAK), (value, LINE), (value + 2, skipping)):
        best: int | None = None
        for at in range(last + 1, len(usable)):
            mark, other = usable[at]
            if other == wanted == value + 1 and best is None and _goes_on(chain, mark):
                best = at
                break
            if other in (0, 1) and wanted > 1 and mark.strength == LINE:
                break  # a new row begins
            if other > wanted and mark.strength == LINE:
                break
            if wanted == value <= 1 and _is_led(mark, lines):
                break  # `Down: 1 star`
            if _says_nothing(usable[last][0], mark, lines):
                continue  # `1 2 coins`: no answer is a label
            surer = best is None or mark.strength > usable[best][0].strength
            if other == wanted and mark.strength >= weakest and surer:
                best = at
        if best is not None:
            return best, wanted
    return None


def _goes_on(chain: Sequence[Mark], mark: Mark) -> bool:
    """Whether a label stands on the line of those before it, and as they do: 1 ash, 2 lid, 3 sun; what stands further
    on is another row's, or no label (5 to 7 points: good)."""
    if len(chain) < _ROW or mark.strength >= LINE or any(one.line != mark.line for one in chain):
        return False
    return all(one.strength == mark.strength for one in chain[1:])


def _in_short_row(chain: Sequence[Mark], lines: Sequence[Line]) -> bool:
    """Whether the answers so far are one word or letter each, on one line: `1 c, 2 a`, so that `4 d` may come next."""
    line = lines[chain[-1].line]
    if chain[0].own or chain[0].line != chain[-1].line:
        return False
    stops = [*(mark.first for mark in chain[1:]), line.end]
    said = [line.passage.text[mark.last : stop] for mark, stop in zip(chain, stops, strict=True)]
    last = _WORD.search(said[-1])
    bare = (_REMARK.sub("", one).strip(_EDGE) for one in said[:-1])
    return last is not None and all(len(one.split()) == 1 for one in bare)


def _says_nothing(one: Mark, other: Mark, lines: Sequence[Line]) -> bool:
    """Whether nothing stands between two marks of a line, so that the second cannot be the next label."""
    passage = lines[one.line].passage
    if one.line != other.line or other.strength == LINE:
        return False
    return not passage.text[one.last : other.first].strip(_EDGE)


def _row(chain: Sequence[Mark], lines: Sequence[Line], then: Mark | None) -> Iterator[Answer]:
    """The answers of a chain: what stands between its labels, or before them where nothing stands behind the last.

    ``then`` is the first label of the next chain, whose head is no answer.
    """
    places = [_between(mark, following, lines) for mark, following in zip(chain, [*chain[1:], then], strict=True)]
    if then is not None and lines[then.line].passage is places[-1].passage:
        places[-1] = _without_head(places[-1], then, lines)
    alone = not any(place.text.strip(_EDGE + ".") for place in places)
    for at, (mark, following) in enumerate(zip(chain, [*chain[1:], then], strict=True)):
        beside = any(same_row(lines[mark.line], other) for other in lines[mark.line + 1 : mark.line + 2])
        if alone or (beside and not places[at].text.strip(_EDGE)):
            places[at] = _below(mark, following, lines)
    if chain and not places[-1].text.strip(_EDGE + ".") and not chain[0].own:
        before = _before(chain, lines)
        if before is not None:
            places = before
    reach = -1
    for at, (mark, place) in enumerate(zip(chain, places, strict=True)):
        if not mark.own and mark.first < reach:
            continue  # the end of `1 to 3`
        label = label_of(mark, lines)
        until, labels = _spread(mark, place)
        if labels:
            reach = place.start + until
            inside = [
                other for other, one in zip(places[at:], chain[at:], strict=True) if one is mark or one.first < reach
            ]
            place = Place(place.passage, reach, max(reach, inside[-1].end))
        for one in labels or [label.text]:
            yield Answer(_trimmed(place), replace(label, text=one))


def _spread(mark: Mark, place: Place) -> tuple[int, list[str]]:
    """The labels from one to another (1 to 3, a to c), and how far into an answer's range they go; none where it is
    for one label."""
    start = place.start if mark.own else mark.start
    text = (f"{mark.label}) " if mark.own else "") + place.passage.text[start:]
    match = _FROM_TO.match(text)
    first, last = (match["from"], match["number"] or match["to"]) if match is not None else ("", "")
    if match is None or first.isdigit() != last.isdigit():
        return 0, []
    until = match.end() - (len(text) - len(place.passage.text) + place.start)
    if first.isdigit():
        return until, [str(number) for number in range(int(first), int(last) + 1)]
    return until, [chr(code) for code in range(ord(first), ord(last) + 1)]


def _between(mark: Mark, following: Mark | None, lines: Sequence[Line]) -> Place:
    passage = lines[mark.line].passage
    end = len(passage.text)
    if following is not None and lines[following.line].passage is passage and not following.own:
        end = _without_link(passage.text, mark.last, following.first)
    for index in range(mark.line, len(lines)):
        line = lines[index]
        if line.passage is not passage or line.start >= end:
            break
        lead = LEAD.search(line.text, max(0, mark.last - line.start))
        if index > mark.line:
            lead = _HEADED.match(line.text) or _bold_head(line) or lead
        at = line.start + lead.start() if lead else end
        if lead and mark.last < at < end and (index > mark.line or passage.text[mark.last : at].strip()):
            end = at  # `Down: 1 box`: what comes next is told anew
    return Place(passage, min(mark.last, end), end)


def _below(mark: Mark, following: Mark | None, lines: Sequence[Line]) -> Place:
    """The line below a label that stands alone, as the term of a definition list does."""
    at = mark.line + 1
    if at < (following.line if following is not None else len(lines)):
        return Place(lines[at].passage, lines[at].start, lines[at].end)
    return Place(lines[mark.line].passage, mark.last, mark.last)


def _without_link(text: str, start: int, end: int) -> int:
    """Where an answer ends before what only links it to the next one: `1 red / 2 blue; B 3 green`."""
    parted = _PARTED.search(text, 0, _LEAD_LENGTH) is not None
    link = (_PART_NEXT if parted else _STROKE).search(text, start, end)
    return link.start() if link is not None else end


def _without_head(place: Place, then: Mark, lines: Sequence[Line]) -> Place:
    """The last answer of a part without the head of the next, before its first label or on the line above that:
    `5 wings | B | 1 am`, `2 is | has / have: 1 has`.
    """
    first = then.line
    if first and _PART.fullmatch(lines[first - 1].text):
        first -= 1
    start = lines[first].start if lines[first].passage is place.passage else place.end
    return Place(place.passage, place.start, start) if place.start < start < place.end else place


def _bold_head(line: Line) -> "re.Match[str] | None":
    """A head in bold at the start of a line: `**Down** 1 box`."""
    match = _HEAD_WORDS.match(line.text)
    bold = match is not None and is_led(line.passage, line.start, line.start + match.end())
    return match if bold else None


def _before(chain: Sequence[Mark], lines: Sequence[Line]) -> list[Place] | None:
    """`c 1, a 2`: each answer stands before its number; None where it does not."""
    found: list[Place] = []
    for at, mark in enumerate(chain):
        line = lines[mark.line]
        start = line.start
        if at and lines[chain[at - 1].line].passage is line.passage:
            start = max(start, chain[at - 1].end)
        place = _trimmed(Place(line.passage, start, mark.first))
        if not place.text:
            return None
        found.append(place)
    return found


def _trimmed(place: Place) -> Place:
    text = place.text
    for last in (_TIME_LAST, _MARKS_LAST):
        behind = last.search(text)
        if behind is not None:
            place = Place(place.passage, place.start, place.start + behind.start())
            text = place.text
    start = place.start + len(text) - len(text.lstrip(_EDGE))
    end = place.end - (len(text) - len(text.rstrip(_EDGE)))
    return Place(place.passage, start, max(start, end))


def _entries(lines: Sequence[Line]) -> Iterator[Answer]:
    """Answers without labels, in order: a line each, or by semicolons, or by commas."""
    if len(lines) > 1:
        for line in lines:
            yield Answer(_trimmed(Place(line.passage, line.start, line.end)))
        return
    for line in lines:
        yield from _cut(line, _ENTRY if ";" in line.text else _COMMA)


def _set_off(line: Line) -> Iterator[Answer]:
    """What stands in italics or bold in a line."""
    passage = line.passage
    for start, end in sorted({*passage.emphasis, *passage.strong}):
        if line.start <= start and end <= line.end:
            yield Answer(_trimmed(Place(passage, start, end)))


def _cut(line: Line, between: "re.Pattern[str]") -> Iterator[Answer]:
    """What a line lists, by what stands between."""
    lead = LEAD.match(line.text)
    text, at = line.text, lead.end() if lead else 0
    for match in (*between.finditer(text, at), None):
        end = match.start() if match else len(text)
        place = _trimmed(Place(line.passage, line.start + at, line.start + end))
        if place.text:
            yield Answer(place)
        at = match.end() if match else end
