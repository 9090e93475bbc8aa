"""Sets of words on the page: what an item or a line lists, by commas or slashes, with the place of each word."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE, Activity, Audience, Passage, Role
from lint_rules.source import Source

_SEPARATOR = lazy_re.compile(r"\s*[,;/|•·]\s*|\s+[–—-]\s+|\n")
_LEAD = lazy_re.compile(r"(?:and|or)\s+|\d+[.):]?\s+", re.I)
_NUMBER = lazy_re.compile(r"\d+[.):]?\s+")
_LETTER = lazy_re.compile(r"[^\W\d_]")
_MARKS = ' \t.!?…:()[]"“”'
_DETERMINED = lazy_re.compile(
    r"\b(?:an?|the|my|your|his|her|its|our|their|this|that|these|those|some|two|three|four)\s+$", re.I
)
_ARTICLE = lazy_re.compile(r"^(?:an?|the|some)\s+", re.I)
_LISTS = frozenset({Role.ITEM, Role.TEXT, Role.LINE, Role.PANEL, Role.CELL, Role.HEAD, Role.CAPTION})
_MOST_WORDS = 3  # in one entry; what is longer is no list of words


@dataclass(frozen=True, slots=True)
class Listed:
    """One word (or entry of a few words) of a set: the word to look up, and where it stands in its passage.

    ``shown`` is what a reader sees; for a picture, its alternative text.
    """

    passage: Passage
    start: int
    end: int
    word: str

    @property
    def shown(self) -> str:
        """The word as it stands on the page, a picture by its alternative text."""
        return shown(self.passage, self.start, self.end)


def shown(passage: Passage, start: int, end: int) -> str:
    """A range of a passage's text with the alternative texts of its pictures in their places."""
    alts = {picture.at: picture.alt for picture in passage.pictures}
    for at in alts:
        if _DETERMINED.search(passage.text[:at]):
            alts[at] = _ARTICLE.sub("", alts[at], count=1)  # `a ![a red kite](…)` is read as: a red kite
    return "".join(
        alts.get(at, "") if char == PICTURE else char for at, char in enumerate(passage.text[start:end], start)
    )


def listed_words(passage: Passage, source: Source) -> tuple[Listed, ...]:
    """The words a passage lists; none where it is a sentence, or where an entry is longer than a few words."""
    found: list[Listed] = []
    for start, end in _pieces(passage, source):
        piece = passage.text[start:end]
        marks = _MARKS if _LETTER.search(piece) is None else _MARKS + PICTURE
        joined = _LEAD.match(piece.lstrip(marks)) if found else _NUMBER.match(piece.lstrip(marks))
        at = start + len(piece) - len(piece.lstrip(marks)) + (joined.end() if joined else 0)
        last = start + len(piece.rstrip(marks))
        if at >= last:
            continue
        word = " ".join(shown(passage, at, last).split())
        if len(word.split()) > _MOST_WORDS + bool(_ARTICLE.match(word)) and PICTURE not in piece:
            return ()
        found.append(Listed(passage, at, last, word))
    return tuple(found)


def _pieces(passage: Passage, source: Source) -> Iterator[tuple[int, int]]:
    """Ranges between the marks that divide a list; gaps to write in divide nothing and are left out."""
    text = by_lines(passage, source)
    for start, end in passage.gaps:
        text = text[:start] + " " * (end - start) + text[end:]
    if len(passage.pictures) > 1 and not text.replace(PICTURE, "").strip(_MARKS + ",;/|"):
        yield from ((picture.at, picture.at + 1) for picture in passage.pictures)
        return
    at = 0
    for match in _SEPARATOR.finditer(text):
        yield at, match.start()
        at = match.end()
    yield at, len(text.rstrip())


def by_lines(passage: Passage, source: Source) -> str:
    """A passage's text with a line feed wherever a new line begins in the file (to a reader that is a space)."""
    return "".join(
        "\n" if char == " " and "\n" in source.text[passage.starts[at] : passage.ends[at]] else char
        for at, char in enumerate(passage.text)
    )


def sets_of(activity: Activity, source: Source) -> Iterator[tuple[Listed, ...]]:
    """The sets of an activity, in file order: an item or a line each, a row of a table, or a list of single words."""
    passages = [p for p in activity.part.passages if p.audience is Audience.PUPIL and p.role in _LISTS]
    if any(p.item is not None or p.cell is not None for p in passages):
        passages = [p for p in passages if p.role is not Role.PANEL]  # new words, beside the sets
    for _, group in groupby(passages, key=_place):
        together = [(passage, listed_words(passage, source)) for passage in group]
        if together[0][0].cell is None and any(len(words) > 1 for _, words in together):
            for passage, words in together:
                yield from _lines(passage, words, source)
        else:
            yield tuple(word for _, words in together for word in words)


def _place(passage: Passage) -> tuple[int, int, int]:
    """What passages of one set have in common: their list, or the row of their table, or that they are themselves."""
    if passage.item is not None:
        return (1, passage.item.list, 0)
    if passage.cell is not None:
        return (2, passage.cell.table, passage.cell.row)
    return (3, passage.block.start, 0)


def _lines(passage: Passage, words: Sequence[Listed], source: Source) -> Iterator[tuple[Listed, ...]]:
    """A passage of several lines holds a set in each."""
    text = by_lines(passage, source)
    for _, line in groupby(words, key=lambda word: text.count("\n", 0, word.start)):
        yield tuple(line)
