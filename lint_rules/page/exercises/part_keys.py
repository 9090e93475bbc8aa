"""The key of a page in parts, a paragraph or a line for each: `A 1 c 2 a`, under it `B 1 true 2 false`.

Each part's key is read for the items of that part alone: the numbers begin anew in each.
"""

import re
from collections.abc import Sequence
from string import ascii_uppercase

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.manuscript.paragraph_split import trimmed
from lint_rules.page.exercises.drafts import DraftExercise
from lint_rules.page.exercises.key_places import part_of
from lint_rules.page.exercises.marks import Kind
from lint_rules.page.exercises.model import Place

_HEAD = lazy_re.compile(r"(?:part\s+)?(?P<letter>[A-H])(?:[.):]|\s+[–—-])?\s+(?=\S)", re.I)
_FIRST = lazy_re.compile(r"[(\[]?(?:1|a)(?:[.):\]]|(?=\s))", re.I)
_FEWEST = 2


def parts_of_key(passages: Sequence[Passage]) -> list[list[Passage]]:
    """The passages of each part of a key, without the letters that head them; none where it has no such parts."""
    parts: list[list[Passage]] = []
    numbered = 0
    for passage in passages:
        for start, end in _lines(passage):
            letter, at = _headed(passage, start, end)
            if letter == ascii_uppercase[len(parts) : len(parts) + 1]:
                parts.append([])
                numbered += _FIRST.match(passage.text, at) is not None
                start = at
            elif not parts:
                return []
            parts[-1].append(part_of(passage, *trimmed(passage.text, start, end)))
    return parts if len(parts) >= _FEWEST and numbered * 2 >= len(parts) else []


def _headed(passage: Passage, start: int, end: int) -> tuple[str, int]:
    """The letter that heads a line, and where the line goes on."""
    item = passage.item
    if item is not None and start == 0 and len(item.label) == 1 and item.label.isupper():
        return item.label, 0
    match = _HEAD.match(passage.text, start, end)
    return (match["letter"], match.end()) if match is not None else ("", start)


def _lines(passage: Passage) -> list[tuple[int, int]]:
    """The lines of a key's paragraph, as ranges; those that begin no part belong to the one before."""
    found: list[tuple[int, int]] = []
    at = 0
    for line in passage.text.split("\n"):
        found.append((at, at + len(line)))
        at += len(line) + 1
    return [one for one in found if passage.text[slice(*one)].strip()]


def drafts_of_parts(drafts: Sequence[DraftExercise], heads: Sequence[Place], count: int) -> list[list[int]]:
    """Which exercises (by index) belong to each of so many parts: by the letters that head those of the page, or one
    each, in order. None where that is not to be told."""
    if any(one.kind is Kind.UPPER for one in drafts):
        return []
    starts = [head.span.start for head in heads]
    if len(starts) == count:
        groups: list[list[int]] = [[] for _ in starts]
        for at, one in enumerate(drafts):
            before = sum(start <= one.drafts[0].label.span.start for start in starts)
            if before:  # what stands before the first part is no task of a part
                groups[before - 1].append(at)
        return groups
    return [[at] for at in range(count)] if not starts and len(drafts) == count else []
