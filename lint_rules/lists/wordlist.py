"""The words at the back of the book: by unit, then from A to Z, with part of speech and an example sentence."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.facts import Spot, Where
from lint_rules.lists.book import BookOfUnits, Cell, Column, Table, one_line
from lint_rules.manuscript.model import Audience, Passage, Role, Unit
from lint_rules.vocabulary_map import Sight, WordRow

_COLUMNS = (
    Column("level", 10),
    Column("unit", 5),
    Column("word", 20),
    Column("part of speech", 15),
    Column("topic", 18),
    Column("example", 60),
)
_TOLD = frozenset({Role.TEXT, Role.TURN, Role.LINE, Role.CAPTION, Role.ITEM, Role.CELL})
_SENTENCE = lazy_re.compile(r"[^.!?]+(?:[.!?]+[\"'”’]*|$)")
_SHORTEST = 3  # words: less is no example


def wordlist(book: BookOfUnits) -> Iterator[Table]:
    """Two tables of the same words. A word whose unit the list leaves open stands where it is first taught."""
    rows = [_row(book, row) for row in book.vocabulary]
    order = {level.name: level.index for level in book.course.levels}
    yield Table("Words by unit", _COLUMNS, tuple(sorted(rows, key=lambda row: (order[str(row[0])], row[1] or 10_000))))
    yield Table("Words from A to Z", _COLUMNS, tuple(sorted(rows, key=lambda row: (str(row[2]).casefold(), row[0]))))


def _row(book: BookOfUnits, row: WordRow) -> tuple[Cell, ...]:
    entry = row.entry
    unit = entry.unit or (book.facts[row.taught.unit].unit if row.taught else 0)
    level = book.course.levels[entry.level].name
    return (level, unit or "", entry.word, entry.part_of_speech, ", ".join(entry.topics), _example(book, row))


def _example(book: BookOfUnits, row: WordRow) -> str:
    """The first whole sentence that children read or hear with the word, in its own lesson or a later one."""
    sights = ([row.taught] if row.taught else []) + list(row.met)
    found = (_sentence(book, sight) for sight in sights if sight.wheres - {Where.KEY})
    return next((sentence for sentence in found if sentence), "")


def _sentence(book: BookOfUnits, sight: Sight) -> str:
    of = next((one for one in book.units if one.unit.path == book.facts[sight.unit].path), None)
    passages = _lesson_passages(of.unit, sight.lesson) if of else ()
    word = re.compile(rf"\b{re.escape(sight.spot.text)}\b", re.I)
    for passage in sorted(passages, key=lambda passage: not _holds(passage, sight.spot)):
        for match in _SENTENCE.finditer(passage.text):
            sentence = match[0].strip()
            if word.search(sentence) and _is_whole(sentence) and not _has_gap(passage, match):
                return one_line(sentence)
    return ""


def _is_whole(sentence: str) -> bool:
    """Say whether a text is a sentence to show: a capital, a full stop, words enough, and no row of words."""
    begins, ends = sentence.lstrip("\"'“‘")[:1], sentence.rstrip("\"'”’")[-1:]
    words = sentence.split()
    row = sum(word.endswith((",", "/")) for word in words) * 2 >= len(words)
    return begins.isupper() and ends in ".!?" and len(words) >= _SHORTEST and not row


def _lesson_passages(unit: Unit, lesson: int) -> list[Passage]:
    passages = unit.passages if lesson < 0 else unit.lessons[lesson].passages
    told = (Audience.PUPIL, Audience.LISTENER)
    return [p for p in passages if p.audience in told and p.role in _TOLD and "\ufffc" not in p.text]


def _holds(passage: Passage, spot: Spot) -> bool:
    return passage.span().start <= spot.start < passage.span().end


def _has_gap(passage: Passage, match: "re.Match[str]") -> bool:
    return any(start < match.end() and match.start() < end for start, end in passage.gaps)
