"""Edits of a passage, and the passages that they make of it. Every character still knows where in the file it is from:
what stands in a blank is found at the blank.
"""

import re
from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Role
from lint_rules.page.exercises.model import Place

_A_TEXT = 12  # words: so long an option is a text of its own, a letter or a headline's article
_LETTER = lazy_re.compile(r"[^\W_]")
_BEFORE_MARK = lazy_re.compile(r"\s+(?=[.,;:!?])|(?<=\w) +(?=['’](?:ve|re|ll|s|m|d)\b(?!['’]))")  # I 've got
_STARTS_SENTENCE = lazy_re.compile(r"(?:^|[.!?…:\"“”]\s*)$")
_GOES_ON = lazy_re.compile(r"\s*[^\s.!?]")


@dataclass(frozen=True, slots=True)
class Fill:
    """What stands in place of ``start:end``: a text found at ``place``, or (``shown``) another range as it is."""

    start: int
    end: int
    text: str = ""
    place: tuple[int, int] = (0, 0)
    shown: tuple[int, int] | None = None
    as_is: bool = False  # no capital, even where a sentence begins: a word of its own


@dataclass(slots=True)
class Edits:
    """The edits of one passage: where it is cut (what is cut out belongs to no sentence), and what is filled in."""

    passage: Passage
    cuts: list[tuple[int, int]] = field(default_factory=list)
    fills: list[Fill] = field(default_factory=list)
    apart: list[Place] = field(default_factory=list)  # ranges that are read on their own: options, words of a box
    items: list[int] = field(default_factory=list)  # where an item begins
    only_apart: bool = False  # nothing else of the passage is read
    unchecked: bool = False  # what it says is not known well enough to be held against grammar

    def drop(self, start: int, end: int) -> None:
        """Take a range out of its sentence."""
        self.fills.append(Fill(start, end))

    def passages(self) -> Iterator[Passage]:
        """The passages that these edits make, in the order of the page."""
        found: list[tuple[int, Passage]] = []
        if not self.only_apart:
            for start, end in self._segments():
                made = self._made(start, end)
                if made is not None:
                    found.append((start, made))
        for place in self.apart:
            made = self._piece(place)
            if made is not None:
                found.append((place.start, made))
        yield from (made for _, made in sorted(found, key=lambda pair: pair[0]))

    def _segments(self) -> Iterator[tuple[int, int]]:
        at = 0
        for start, end in sorted(self.cuts):
            if start > at:
                yield at, start
            at = max(at, end)
        if at < len(self.passage.text):
            yield at, len(self.passage.text)

    def _piece(self, place: Place) -> Passage | None:
        words = len(place.text.split())
        role = Role.OPTION
        if words > 1 and (place.text.rstrip()[-1:] in (".", "!", "?") or words >= _A_TEXT):
            role = Role.ITEM
        made = _composed(self.passage, [Fill(place.start, place.end, shown=(place.start, place.end))], role)
        return made if made is not None and (_LETTER.search(made.text) or made.pictures) else None

    def _made(self, start: int, end: int) -> Passage | None:
        pieces: list[Fill] = []
        at = start
        for fill in sorted(self.fills, key=lambda fill: (fill.start, fill.end)):
            if fill.start < at or fill.end > end:
                continue
            if fill.start > at:
                pieces.append(Fill(at, fill.start, shown=(at, fill.start)))
            pieces.append(fill)
            at = fill.end
        if at < end:
            pieces.append(Fill(at, end, shown=(at, end)))
        role = self.passage.role
        if role is Role.TEXT and any(begin <= start for begin in self.items):
            role = Role.ITEM
        made = _composed(self.passage, pieces, role)
        return made if made is not None and (_LETTER.search(made.text) or made.pictures or made.gaps) else None


def filled_ranges(passage: Passage) -> tuple[tuple[int, int], ...]:
    """The ranges of a passage's text that stand in its blanks: all their characters are found at the blank."""
    found: list[tuple[int, int]] = []
    at = 0
    for _, together in groupby(zip(passage.starts, passage.ends, strict=True)):
        last = at + len(list(together))
        if last - at > 1:
            found.append((at, last))
        at = last
    return tuple(found)


def _composed(passage: Passage, pieces: Sequence[Fill], role: Role) -> Passage | None:
    """One passage of some pieces, with spaces as between words."""
    chars: list[str] = []
    starts: list[int] = []
    ends: list[int] = []
    origin: list[int] = []  # the index that a character had, -1 for what was filled in
    for index, piece in enumerate(pieces):
        if piece.shown is not None:
            shown = slice(*piece.shown)
            chars += passage.text[shown]
            starts += passage.starts[shown]
            ends += passage.ends[shown]
            origin += range(*piece.shown)
        elif piece.text:
            after = pieces[index + 1] if index + 1 < len(pieces) else None
            behind = passage.text[slice(*after.shown)] if after is not None and after.shown is not None else ""
            text = " ".join(piece.text.split()) if piece.as_is else _fitted(piece.text, "".join(chars), behind)
            span = passage.span(*piece.place)
            chars += text
            starts += [span.start] * len(text)
            ends += [span.end] * len(text)
            origin += [-1] * len(text)
    keep = _kept("".join(chars))
    if not keep:
        return None
    now = {origin[at]: new for new, at in enumerate(keep) if origin[at] >= 0}
    return replace(
        passage,
        text="".join(chars[at] for at in keep),
        starts=array("l", (starts[at] for at in keep)),
        ends=array("l", (ends[at] for at in keep)),
        role=role,
        strong=_moved(passage.strong, now),
        emphasis=_moved(passage.emphasis, now),
        foreign=_moved(passage.foreign, now),
        struck=_moved(passage.struck, now),
        gaps=_moved(passage.gaps, now),
        pictures=tuple(replace(one, at=now[one.at]) for one in passage.pictures if one.at in now),
    )


def _fitted(text: str, before: str, behind: str) -> str:
    """An answer as it stands in its sentence: a capital where one begins, no full stop in the middle, spaces around."""
    text = " ".join(text.split())
    if text[-1:] in ".!?" and (behind.lstrip()[:1] in (".", "!", "?") or _GOES_ON.match(behind)):
        text = text[:-1] if not (behind.lstrip()[:1].isupper()) else text
    alone = not _LETTER.search(before + behind) and len(text.split()) < 3
    if _STARTS_SENTENCE.search(before) and text[:1].islower() and not alone:
        text = text[0].upper() + text[1:]
    if before and (before[-1].isalnum() or before[-1] in ",;:.!?") and text[:1].isalnum():
        text = f" {text}"
    return text


def _kept(text: str) -> list[int]:
    """The characters that stay: no spaces at the ends, before a mark or doubled (a line's own end stays)."""
    drop: set[int] = set()
    for match in _BEFORE_MARK.finditer(text):
        drop.update(range(*match.span()))
    for match in re.finditer(r"[ \u00a0]{2,}", text):
        drop.update(range(match.start() + 1, match.end()))
    left, right = len(text) - len(text.lstrip()), len(text.rstrip())
    return [at for at in range(left, right) if at not in drop]


def _moved(ranges: Sequence[tuple[int, int]], now: dict[int, int]) -> tuple[tuple[int, int], ...]:
    """Ranges of the old text that are whole in the new one."""
    found = []
    for start, end in ranges:
        if all(at in now for at in range(start, end)) and now[end - 1] - now[start] == end - 1 - start:
            found.append((now[start], now[end - 1] + 1))
    return tuple(found)
