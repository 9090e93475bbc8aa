"""Answers held against a table of the same task, where each is the cell beside the thing that its item names.

*How much are the tomatoes?* – the price list has *a bag of tomatoes | 2 euros 20*, and the key the price of the eggs.
A price of another row is worth a question only where the key goes by the table in at least two other items, a time
that a statement gives where it does in one; what stands in the very row and column of a question, and who has the most
of all, the table says alone.
"""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.page.exercises.answers import plain, yes_or_no
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercises, Item
from lint_rules.page.number_words import clock_times_in, numbers_in

_FEWEST = 2  # answers that are the cell of their own row
_WORD = lazy_re.compile(r"[^\W\d_]{3,}")
_RECKONED = lazy_re.compile(r"\b(?:more|less|fewer|than|altogether|together|all|left|total)\b", re.I)
_BESIDE = lazy_re.compile(r"\b(?:after|before|later|earlier|next|not|between|from)\b|n['’]t\b", re.I)
_MOST = lazy_re.compile(r"\bthe (?:highest|strongest|biggest|largest|longest|most|tallest|heaviest)\b", re.I)
_LEAST = lazy_re.compile(r"\bthe (?:lowest|smallest|shortest|fewest|least|lightest)\b", re.I)
_FIGURE = lazy_re.compile(r"\d+(?:[.,]\d+)?")
_BAR = lazy_re.compile(r"\b([A-Z][a-z]+(?: [a-z]+){0,2}):? (\d{1,3})(?=\s*[.;,\n]|$)")  # Ice hockey 9.
_LEAD = lazy_re.compile(r"^\W*(?:at|on|in|it is|it['’]s)\s+", re.I)
_BRACKETED = lazy_re.compile(r"\([^()]*\)")


def from_another_row(read: Exercises) -> tuple[Item, str] | None:
    """The one item whose answer is the cell of another row, and what stands in its own; None otherwise."""
    rows = dict(_rows(read))
    return the_one_out_of_step(_by_row(read, rows), _FEWEST) if len(rows) > _FEWEST else None


def _by_row(read: Exercises, rows: Mapping[str, tuple[str, ...]]) -> Iterator[tuple[bool, tuple[Item, str]]]:
    """Items about one row, with a cell of it, and whether their answers are one; not those whose answer is none."""
    for item in (item for exercise in read.exercises for item in exercise.items):
        answer = plain(item.answer.text) if item.answer is not None and not item.example else ""
        named = [label for label in rows if _head(label) in {_single(word) for word in _WORD.findall(item.text)}]
        if not answer or len(named) != 1:
            continue
        own = rows[named[0]]
        others = (cells for label, cells in rows.items() if label != named[0])
        if answer in map(plain, own):
            yield True, (item, answer)
        elif len(own) == 1 and any(answer in map(plain, cells) for cells in others):
            yield False, (item, own[0])


def from_another_cell(read: Exercises) -> tuple[Item, str] | None:
    """The item whose answer stands in the column that it names, and not in its row, and what stands there: *What time
    is low tide on Thursday?* 5.50, which is Friday's."""
    cells = {
        (one.cell.row, one.cell.column): one.text.strip() for one in _cells(read.activity.part.passages) if one.cell
    }
    rows = {row: cells[row, 0] for row, column in cells if column == 0 and row and cells[row, 0]}
    columns = {column: cells[0, column] for row, column in cells if row == 0 and column and cells[0, column]}
    found = list(_crossed(read, cells, rows, columns))
    return found[0] if len(found) == 1 else None


def timed_otherwise(read: Exercises) -> tuple[Item, str] | None:
    """The one statement about a time of the page's table that is called true and is not, or the other way round (*Make
    a Ticket finishes at half past one*, and it starts then), and the time that stands there; None otherwise."""
    cells = _cells(read.activity.part.passages)
    return the_one_out_of_step(_by_time(read, cells), 1) if cells else None


def _by_time(read: Exercises, cells: Sequence[Passage]) -> Iterator[tuple[bool, tuple[Item, str]]]:
    grid = {(one.cell.row, one.cell.column): one.text.strip() for one in cells if one.cell}
    for item in (item for exercise in read.exercises for item in exercise.items):
        called = yes_or_no(item.answer.text) if item.answer is not None and not item.example else None
        times, asked = clock_times_in(item.text), {_single(word) for word in _WORD.findall(item.text)}
        rows = [row for (row, column), text in grid.items() if row and not column and _has_all(asked, text)]
        columns = [column for (row, column), text in grid.items() if column and not row and _has_all(asked, text)]
        if called is None or len(rows) != 1 or len(columns) != 1 or len(times) != 1 or _BESIDE.search(item.text):
            continue
        own = grid.get((rows[0], columns[0]), "")
        there = clock_times_in(own)
        if len(there) == 1:
            yield (there == times) is called, (item, own)


def not_the_most(read: Exercises) -> tuple[Item, str] | None:
    """The item whose answer names another one than the table has as the most of all or the least, in the one row or
    column that it speaks of, and that one: *Which day had the strongest wind?*"""
    grid = {(one.cell.row, one.cell.column): one.text for one in _cells(read.activity.part.passages) if one.cell}
    turned = {(column, row): text for (row, column), text in grid.items()}
    found = [one for table in (grid, turned) for one in _by_most(read, table)]
    return found[0] if len(found) == 1 else None


def _by_most(read: Exercises, grid: Mapping[tuple[int, int], str]) -> Iterator[tuple[Item, str]]:
    for item in (item for exercise in read.exercises for item in exercise.items):
        if item.answer is None or item.example:
            continue
        said = f"{item.text} {item.answer.text}"
        most, least = _MOST.search(said), _LEAST.search(said)
        asked = {_single(word) for word in _WORD.findall(said)}
        columns = [at for (row, at), head in grid.items() if not row and at and _heads_it(asked, head)]
        if (most is None) == (least is None) or len(columns) != 1 or _BESIDE.search(said):
            continue
        figures = [
            (float(match[0].replace(",", ".")), grid.get((row, 0), "").strip())
            for (row, column), text in grid.items()
            if row and column == columns[0] and (match := _FIGURE.search(text)) is not None
        ]
        (best, name), *_ = sorted(figures, reverse=most is not None) or [(0.0, "")]
        named = [label for _, label in figures if label and re.search(rf"\b{re.escape(label)}\b", item.answer.text)]
        alone = sum(figure == best for figure, _ in figures) == 1
        if len(figures) > _FEWEST and alone and name and len(named) == 1 and named[0] != name:
            yield item, name


def _heads_it(asked: Collection[str], head: str) -> bool:
    """Whether an item speaks of what a column has, by its first or last word: wind, of Wind (km/h)."""
    words = [_single(word) for word in _WORD.findall(_BRACKETED.sub("", head))]
    return bool(words) and words[-1] in asked


def _crossed(
    read: Exercises, cells: Mapping[tuple[int, int], str], rows: Mapping[int, str], columns: Mapping[int, str]
) -> Iterator[tuple[Item, str]]:
    for item in (item for exercise in read.exercises for item in exercise.items):
        answer = _BRACKETED.sub("", item.answer.text) if item.answer is not None and not item.example else ""
        asked = {_single(word) for word in _WORD.findall(item.text)}
        row, column = ([at for at, label in heads.items() if _has_all(asked, label)] for heads in (rows, columns))
        if not answer or len(row) != 1 or len(column) != 1 or _RECKONED.search(item.text) or _BESIDE.search(item.text):
            continue
        own = cells.get((row[0], column[0]), "")
        near = [cells.get((other, column[0]), "") for other in rows if other != row[0]]
        near += [cells.get((row[0], other), "") for other in columns if other != column[0]]
        if own and not _is(answer, own) and any(_is(answer, other) for other in near) and "_" not in own:
            yield item, own


def _is(answer: str, cell: str) -> bool:
    """Say whether an answer is what stands in a cell, perhaps with a small word before it: At 11.30 pm."""
    return plain(_LEAD.sub("", answer)) == plain(_LEAD.sub("", cell))


def _has_all(asked: Collection[str], label: str) -> bool:
    words = [_single(word) for word in _WORD.findall(_BRACKETED.sub("", label))]
    return bool(words) and all(word in asked for word in words)


def against_the_chart(read: Exercises) -> tuple[Item, str] | None:
    """The one item whose number is not that of its bar in the chart of the brief (Skating 6. Skiing 4.), and that; None
    where no other goes by it."""
    brief = "\n".join(one.text for one in read.activity.part.passages if one.audience is Audience.ARTIST)
    bars = [(_head(bar[1]), int(bar[2])) for bar in _BAR.finditer(brief)]
    if len(bars) <= _FEWEST or len(dict(bars)) != len(bars):
        return None
    return the_one_out_of_step(_by_bar(read, bars), 1)


def _by_bar(read: Exercises, bars: Sequence[tuple[str, int]]) -> Iterator[tuple[bool, tuple[Item, str]]]:
    """Items whose answer is a number and that name one bar, with its number, and whether they are the same."""
    for item in (item for exercise in read.exercises for item in exercise.items):
        told = [number for number, *_ in numbers_in(item.answer.text)] if item.answer and not item.example else []
        asked = {_single(word) for word in _WORD.findall(item.text)}
        named = [number for label, number in bars if label in asked]
        if len(told) == 1 and len(named) == 1 and not _RECKONED.search(item.text):
            yield told == named, (item, str(named[0]))


def _rows(read: Exercises) -> Iterator[tuple[str, tuple[str, ...]]]:
    """The rows of the one table of a page: what stands first, and the rest."""
    cells = _cells(read.activity.part.passages)
    table: dict[int, list[Passage]] = {}
    for one in cells:
        if one.cell is not None and one.role is not Role.HEAD:
            table.setdefault(one.cell.row, []).append(one)
    yield from _labelled(table)


def _cells(passages: Sequence[Passage]) -> list[Passage]:
    """The cells of the one table of a page, a panel's aside; none where it has several."""
    cells = [one for one in passages if one.cell is not None and one.audience is Audience.PUPIL]
    cells = [one for one in cells if one.div is None] or cells
    return cells if len({one.cell.table for one in cells if one.cell}) == 1 else []


def _labelled(table: Mapping[int, list[Passage]]) -> Iterator[tuple[str, tuple[str, ...]]]:
    for first, *rest in table.values():
        if rest and _head(first.text) and not any(one.gaps or not one.text.strip() for one in rest):
            yield first.text, tuple(one.text for one in rest)


def _head(label: str) -> str:
    """The last word of a row's label, as things are compared: a bag of tomatoes → tomato."""
    words = _WORD.findall(_BRACKETED.sub("", label))
    return _single(words[-1]) if words else ""


def _single(word: str) -> str:
    low = word.casefold()
    return low.removesuffix("es") if low.endswith("oes") else low.removesuffix("s")
