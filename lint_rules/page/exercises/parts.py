"""Letters that head the parts of a page: `**B** Write.`, `Part B: Write.`, `B – Write.`; in headings `#### B Write.`"""

from collections.abc import Iterable, Sequence
from string import ascii_uppercase, digits

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.page.exercises.marks import Mark
from lint_rules.page.exercises.model import Place
from lint_rules.page.exercises.stream import Line

_HEAD = lazy_re.compile(r"(?:Part\s+)?([A-Z])(?=[\s.):]|$)")
_NUMBERED = lazy_re.compile(r"Part\s+([1-9])(?=[\s.):]|$)")
_SET_OFF = lazy_re.compile(r"Part\s+[A-Z1-9]")
_HEADS = (_HEAD, _NUMBERED)
_DASH = lazy_re.compile(r"\s+[–—-]\s+(?=[A-Z])")
_BEHIND = lazy_re.compile(r"[.):]?\s+(?:[–—-]\s+)?(?=[^\W\d_])")
_ROLES = frozenset({Role.TITLE, Role.TEXT, Role.ITEM})
_FEWEST = 2


def part_heads(lines: Sequence[Line], first: Mark) -> Sequence[int]:
    """The lines that head the parts of a page with a letter, `**B** Write.`, `Part B: Write.`, `B – Write.`, or with a
    number, `**Part 2** Write.`: one before the first item, and the next ones in order. No item runs over them."""
    found: list[tuple[int, str]] = []
    for at, line in enumerate(lines):
        item = line.passage.item
        match = None
        if item is None or not item.label:
            match = next(filter(None, (one.match(line.passage.text, line.start, line.end) for one in _HEADS)), None)
        if match is not None and (_SET_OFF.match(line.passage.text, *match.span()) or _is_marked(line, match.end())):
            found.append((at, match[1]))
    counted = "".join(letter for _, letter in found) in (ascii_uppercase[: len(found)], digits[1 : len(found) + 1])
    return [at for at, _ in found] if counted and found and found[0][0] < first.line else ()


def _is_marked(line: Line, end: int) -> bool:
    """Whether a head is set in bold, or followed by a dash: `B – Write.`"""
    bold = any(start <= line.start and end <= stop for start, stop in line.passage.strong)
    return bold or _DASH.match(line.passage.text, end, line.end) is not None


def letters_of_parts(passages: Iterable[Passage]) -> tuple[Place, ...]:
    """The letters that head parts, with what sets them off: no words of the sentences behind them. One letter alone may
    be an article (`A Day by the Sea`)."""
    found: list[tuple[str, Place]] = []
    for passage in passages:
        if passage.role not in _ROLES or passage.audience is not Audience.PUPIL:
            continue
        match = _HEAD.match(passage.text) if passage.item is None or not passage.item.label else None
        behind = _BEHIND.match(passage.text, match.end()) if match is not None else None
        if match is None or behind is None or match[0] != match[1]:
            continue
        if passage.role is Role.TITLE or _is_marked(Line(passage, 0, len(passage.text), True), match.end()):
            found.append((match[1], Place(passage, 0, behind.end())))
    counted = "".join(letter for letter, _ in found) == ascii_uppercase[: len(found)]
    return tuple(place for _, place in found) if counted and len(found) >= _FEWEST else ()
