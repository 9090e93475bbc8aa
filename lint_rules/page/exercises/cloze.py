"""Numbers within a running text: before a blank or a choice (`There (2) ____ lots of sheep`), or behind a blank."""

import re
from collections.abc import Sequence

from lint_rules.page.exercises.marks import WEAK, Kind, Mark, chains
from lint_rules.page.exercises.stream import Line

_GAP_NEXT = re.compile(r"\s*(?:_{2,}|…|[☐□▢◯○◻⬜❏❑])")
_GAP_JUST_BEFORE = re.compile(r"(?:_{2,}|…)[.,;:!?]?\s*$")
_CHOICE_NEXT = re.compile(r"\s*[*(\[]?[\w’'-]+(?:\s[\w’'-]+){0,3}\s*/\s*[\w’'-]+")
_LETTER = re.compile(r"[^\W\d_]")


def cloze_chains(lines: Sequence[Line], marks: Sequence[Mark]) -> list[list[Mark]]:
    """Numbers that stand right before a blank or a choice within running text: `There (2) ____ lots of sheep`."""
    before_gap = {mark for mark in marks if not mark.own and _opens_gap(mark, lines)}
    passages = {id(lines[mark.line].passage) for mark in before_gap}
    bare = [mark for mark in marks if _lost_its_gap(mark, lines) and id(lines[mark.line].passage) in passages]
    with_bare = [mark for mark in marks if mark in before_gap or mark in bare]
    found = []
    for chain in chains(with_bare, Kind.NUMBER, WEAK):
        told = [mark for mark in chain if mark in before_gap]
        lost = len(chain) - len(told)
        if len(told) > 1 and lost <= 1 and any(_within_text(mark, lines) for mark in told):
            found.append(chain)
    if found or not bare:
        return found
    return [
        chain
        for chain in chains([mark for mark in marks if mark in before_gap], Kind.NUMBER, WEAK)
        if len(chain) > 1 and any(_within_text(mark, lines) for mark in chain)
    ]


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
    return [chain for chain in chains(after_gap, Kind.NUMBER, WEAK) if len(chain) > 1]


def _opens_gap(mark: Mark, lines: Sequence[Line]) -> bool:
    line = lines[mark.line]
    if not mark.label.isdigit():
        return False
    text = line.passage.text
    return bool(
        _GAP_NEXT.match(text, mark.last - 1, line.end)
        or _GAP_NEXT.match(text, mark.last, line.end)
        or (mark.dressed and _CHOICE_NEXT.match(text, mark.last, line.end))
    )


def _within_text(mark: Mark, lines: Sequence[Line]) -> bool:
    line = lines[mark.line]
    before = line.passage.text[line.start : mark.first].rstrip()
    if not _LETTER.search(before):
        return False
    apart = line.passage.text[line.start : mark.first]
    wide = len(apart) - len(before) > 1 or "\u00a0" in apart[len(before) :]
    return mark.dressed or (not wide and (before[-1:].isalpha() or before[-1:] == ","))
