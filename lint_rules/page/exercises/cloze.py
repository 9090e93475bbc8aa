"""Numbers within a running text: before a blank or a choice (`There (2) ____ lots of sheep`), or behind a blank."""

from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.page.exercises.marks import LINE, WEAK, Kind, Mark, chains
from lint_rules.page.exercises.model import Label, Place
from lint_rules.page.exercises.stream import Line

_GAP_NEXT = lazy_re.compile(r"\s*(?:_{2,}|…|[☐□▢◯○◻⬜❏❑])")
_GAP_JUST_BEFORE = lazy_re.compile(r"(?:_{2,}|…)[.,;:!?]?\s*$")
_CHOICE_NEXT = lazy_re.compile(r"\s*[*(\[]?[\w’'-]+(?:\s[\w’'-]+){0,3}\s*/\s*[\w’'-]+")
_LETTER = lazy_re.compile(r"[^\W\d_]")
_STOP = lazy_re.compile(r"[.?!]+[\"”’']?(?=\s|$)|\s[–—](?=\s)")
_BEGUN = lazy_re.compile(r"(?:[^\W\d_]+:\s+)?[^\W\d_A-Z]")  # `A: are you from?`
_CUT_UP = lazy_re.compile(r"[^\W\d_]*\s*_{2,}\s*[^\W\d_]*[.,;]?")
_EDGE = " \t\n\u00a0–—-"


def cloze_chains(lines: Sequence[Line], marks: Sequence[Mark]) -> list[list[Mark]]:
    """Numbers that stand right before a blank or a choice within running text: `There (2) ____ lots of sheep`."""
    before_gap = {mark for mark in marks if not mark.own and _opens_gap(mark, lines)}
    rows = [chain for chain in chains(marks, Kind.NUMBER) if _is_row(chain, lines)]
    before_gap = {mark for mark in before_gap if not any(mark in chain for chain in rows)}
    passages = {id(lines[mark.line].passage) for mark in before_gap}
    bare = [mark for mark in marks if _lost_its_gap(mark, lines) and id(lines[mark.line].passage) in passages]
    with_bare = [mark for mark in marks if mark in before_gap or mark in bare]
    found: list[list[Mark]] = []
    for chain in chains(with_bare, Kind.NUMBER, WEAK):
        told = [mark for mark in chain if mark in before_gap]
        lost = len(chain) - len(told)
        if len(told) > 1 and lost <= 1 and any(_within_text(mark, lines) for mark in told):
            found.append(chain)
    if found or not bare:
        return [_past_lost(chain, marks, before_gap, lines) for chain in found]
    return [
        _past_lost(chain, marks, before_gap, lines)
        for chain in chains([mark for mark in marks if mark in before_gap], Kind.NUMBER, WEAK)
        if any(_within_text(mark, lines) for mark in chain)
    ]


def _is_row(chain: Sequence[Mark], lines: Sequence[Line]) -> bool:
    """Whether numbers in one line part it into items, each with its blank before its word or behind it: (1) ____ op
    (2) fi ____ (3) ____ oe. One that stands before a blank in mid-sentence is of a text."""
    if len({mark.line for mark in chain}) > 1 or not all(mark.dressed for mark in chain) or chain[0].strength != LINE:
        return False
    line = lines[chain[0].line]
    ends = [*(mark.first for mark in chain[1:]), line.end]
    items = [line.passage.text[mark.last : end].strip() for mark, end in zip(chain, ends, strict=True)]
    return all(_CUT_UP.fullmatch(item) for item in items)


def _past_lost(chain: list[Mark], marks: Sequence[Mark], opens: set[Mark], lines: Sequence[Line]) -> list[Mark]:
    """A chain with what follows behind the one number that it has lost together with its gap: (1), (2), (4), (5)."""
    found, skipped = list(chain), False
    for mark in marks:
        value, last = mark.value(Kind.NUMBER), found[-1].value(Kind.NUMBER) or 0
        if mark.order <= found[-1].order or mark not in opens or not mark.dressed:
            continue
        if value == last + 1:
            found.append(mark)
        elif value == last + 2 and not skipped and lost_number(found[-1], mark, lines) is not None:
            found.append(mark)
            skipped = True
    return found


def lost_number(mark: Mark, following: Mark | None, lines: Sequence[Line]) -> Label | None:
    """The number that a text has lost between two others, and a sentence between in which it may have stood: one that
    begins with a small letter, where there is one. None where the one follows the other, or nothing stands between."""
    value = mark.value(Kind.NUMBER)
    if following is None or value is None or following.value(Kind.NUMBER) != value + 2:
        return None
    between = list(_between(mark, following, lines))
    cut = [place for place in between if _BEGUN.match(place.text)]
    return Label(str(value + 1), (cut or between)[0].span) if between else None


def _between(mark: Mark, following: Mark, lines: Sequence[Line]) -> Iterator[Place]:
    """The whole sentences between two numbers of a text, line by line, that have no blank."""
    for at in range(mark.line, following.line + 1):
        line = lines[at]
        text = line.passage.text
        start = _end_of_sentence(text, mark.last, line.end) if at == mark.line else line.start
        end = line.end
        if at == following.line:
            end = max(start, _start_of_sentence(text, start, following.first))
        said = text[start:end]
        if _LETTER.search(said) and "_" not in said:
            start += len(said) - len(said.lstrip(_EDGE))
            yield Place(line.passage, start, end - (len(said) - len(said.rstrip(_EDGE))))


def _end_of_sentence(text: str, at: int, stop: int) -> int:
    match = _STOP.search(text, at, stop)
    return match.end() if match is not None else stop


def _start_of_sentence(text: str, start: int, at: int) -> int:
    return max([start, *(match.end() for match in _STOP.finditer(text, start, at))])


def _lost_its_gap(mark: Mark, lines: Sequence[Line]) -> bool:
    """Whether a number in brackets stands within a text, with neither blank nor choice behind it."""
    text = lines[mark.line].passage.text
    dressed = mark.dressed and not mark.own and text[mark.start - 1 : mark.start] == "("
    return dressed and mark.label.isdigit() and _within_text(mark, lines) and not _opens_gap(mark, lines)


def numbers_behind(lines: Sequence[Line], marks: Sequence[Mark]) -> list[list[Mark]]:
    """Numbers in brackets right behind a blank: `It's ____ (1) and we're in the ____ (2).`"""
    after_gap = [
        mark
        for mark in marks
        if not mark.own
        and mark.dressed
        and mark.label.isdigit()
        and _GAP_JUST_BEFORE.search(lines[mark.line].passage.text[lines[mark.line].start : mark.first])
        and not _opens_gap(mark, lines)
    ]
    return chains(after_gap, Kind.NUMBER, WEAK)


def _opens_gap(mark: Mark, lines: Sequence[Line]) -> bool:
    line = lines[mark.line]
    if not mark.label.isdigit():
        return False
    text = line.passage.text
    return bool(
        _GAP_NEXT.match(text, mark.last, line.end) or (mark.dressed and _CHOICE_NEXT.match(text, mark.last, line.end))
    )


def _within_text(mark: Mark, lines: Sequence[Line]) -> bool:
    line = lines[mark.line]
    before = line.passage.text[line.start : mark.first].rstrip()
    if not _LETTER.search(before):
        return False
    apart = line.passage.text[line.start : mark.first]
    wide = len(apart) - len(before) > 1 or "\u00a0" in apart[len(before) :]
    return mark.dressed or (not wide and (before[-1:].isalpha() or before[-1:] == ","))
