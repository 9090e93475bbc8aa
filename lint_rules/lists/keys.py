"""All answers of the book, in order."""

from collections.abc import Iterator

from lint_rules.lists.book import PLACE, BookOfUnits, Cell, Column, Spot, Table, joined, one_line, spots
from lint_rules.manuscript.model import Audience, Passage

_COLUMNS = (*PLACE, Column("instruction", 40), Column("answers", 80))


def keys(book: BookOfUnits) -> Iterator[Table]:
    """A row an activity that has answers."""
    rows = tuple(row for spot in spots(book) if (row := _row(spot)) is not None)
    yield Table("Answers", _COLUMNS, rows)


def _row(spot: Spot) -> tuple[Cell, ...] | None:
    field = spot.part.field("Answers")
    key = [passage for passage in spot.part.passages if passage.audience is Audience.KEY]
    text = joined([_answer(passage) for passage in (*key, *(field.passages if field else ()))], "; ")
    if not text:
        return None
    return (*spot.cells, one_line(spot.activity.heading.passage.text) if spot.activity else "", text)


def _answer(passage: Passage) -> str:
    label = passage.item.label if passage.item else ""
    return f"{label} {one_line(passage.text)}".strip()
