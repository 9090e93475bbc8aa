"""The artist's list: every picture and brief, what it must show, drawing or photo, and whether its file is there."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.lists.book import PLACE, BookOfUnits, Cell, Column, Spot, Table, joined, one_line, spots
from lint_rules.manuscript.model import Audience, DivKind, Picture, Role
from lint_rules.page.pictures import asked_photo, file_of, says_how

_COLUMNS = (
    *PLACE,
    Column("line", 6),
    Column("what it must show", 56),
    Column("how", 9),
    Column("size", 14),
    Column("file", 28),
    Column("there", 7),
)
_SIZE = lazy_re.compile(r"\b(?:full|half|quarter|double)[- ](?:page|spread)\b|\bspot (?:drawing|art)\b", re.I)


def art(book: BookOfUnits) -> Iterator[Table]:
    """One table in file order: pictures, and briefs without a picture."""
    rows = tuple(row for spot in spots(book) for row in _rows(book, spot))
    yield Table("Pictures and art briefs", _COLUMNS, rows)


def _rows(book: BookOfUnits, spot: Spot) -> Iterator[tuple[Cell, ...]]:
    found = [(picture.span.start, _of_picture(book, spot, picture)) for picture in _pictures(spot)]
    unit = spot.of.unit
    for index in spot.part.divs:
        div = unit.divs[index]
        if div.kind is DivKind.ART:
            briefs = [p for p in spot.part.passages if p.audience is Audience.ARTIST and p.role is Role.BRIEF]
            texts = [one_line(p.text) for p in briefs if div.span.start <= p.span().start < div.span.end]
            text = joined(texts, " ")
            how = _how(text, div.attributes.classes)
            line = unit.source.position(div.span.start).line
            found.append((div.span.start, (*spot.cells, line, text, how, _size(text, {}), "", "")))
    yield from (row for _, row in sorted(found, key=lambda pair: pair[0]))


def _pictures(spot: Spot) -> list[Picture]:
    heading = spot.activity.heading.passage.pictures if spot.activity else ()
    inline = (picture for passage in spot.part.passages for picture in passage.pictures)
    every = {picture.span: picture for picture in (*heading, *spot.part.pictures, *inline)}
    return list(every.values())


def _of_picture(book: BookOfUnits, spot: Spot, picture: Picture) -> tuple[Cell, ...]:
    path = file_of(picture.target, spot.of.unit.path) if picture.target else None
    there = "" if not picture.target else "elsewhere" if path is None else "yes" if path in book.files else "no"
    line = spot.of.unit.source.position(picture.span.start).line
    how = _how("", picture.attributes.classes)
    size = _size(picture.alt, dict(picture.attributes.values))
    return (*spot.cells, line, one_line(picture.alt), how, size, path or picture.target, there)


def _how(text: str, classes: tuple[str, ...]) -> str:
    if not says_how(text, classes):
        return ""
    return "photo" if asked_photo(text, classes) else "drawing"


def _size(text: str, values: dict[str, str]) -> str:
    said = [values.get(key, "") for key in ("size", "width", "height")]
    match = _SIZE.search(text)
    return joined([*said, match[0].lower() if match else ""], " × ")
