"""Sets of words on the page: what an item or a line lists, by commas or slashes, with the place of each word."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from lint_rules.manuscript.model import PICTURE, Activity, Audience, Passage, Role

_SEPARATOR = re.compile(r"\s*[,;/|•]\s*|\s+[–—-]\s+|\n")
_AND = re.compile(r"(?:and|or)\s+", re.I)
_MARKS = ' \t.!?…:()[]"“”'
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
    return "".join(
        alts.get(at, "") if char == PICTURE else char for at, char in enumerate(passage.text[start:end], start)
    )


def listed_words(passage: Passage) -> tuple[Listed, ...]:
    """The words a passage lists; none where it is a sentence, or where an entry is longer than a few words."""
    found: list[Listed] = []
    for start, end in _pieces(passage):
        text = passage.text[start:end]
        lead = len(text) - len(text.lstrip(_MARKS))
        text = text.strip(_MARKS)
        joined = _AND.match(text)
        skip = joined.end() if joined and found else 0
        if not text[skip:]:
            continue
        at = start + lead + skip
        word = " ".join(shown(passage, at, start + lead + len(text)).split())
        if len(word.split()) > _MOST_WORDS + word.count("a ") and PICTURE not in text:
            return ()
        found.append(Listed(passage, at, start + lead + len(text), word))
    return tuple(found)


def _pieces(passage: Passage) -> Iterator[tuple[int, int]]:
    """Ranges between the marks that divide a list; gaps to write in divide nothing and are left out."""
    text = passage.text
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


def sets_of(activity: Activity) -> Iterator[tuple[Listed, ...]]:
    """The sets of an activity, in file order: an item or a line each, a row of a table, or a list of single words."""
    passages = [p for p in activity.part.passages if p.audience is Audience.PUPIL and p.role in _LISTS]
    for _, group in groupby(passages, key=_place):
        together = list(group)
        if together[0].cell is None and any(len(listed_words(passage)) > 1 for passage in together):
            for passage in together:
                yield from _lines(passage)
        else:
            yield tuple(word for passage in together for word in listed_words(passage))


def _place(passage: Passage) -> tuple[int, int, int]:
    """What passages of one set have in common: their list, or the row of their table, or that they are themselves."""
    if passage.item is not None:
        return (1, passage.item.list, 0)
    if passage.cell is not None:
        return (2, passage.cell.table, passage.cell.row)
    return (3, passage.block.start, 0)


def _lines(passage: Passage) -> Iterator[tuple[Listed, ...]]:
    """A passage of several lines holds a set in each."""
    words: Sequence[Listed] = listed_words(passage)
    for _, line in groupby(words, key=lambda word: passage.text.count("\n", 0, word.start)):
        yield tuple(line)
