"""Keys laid out as tables: labels in a row with the answers in the row below, or in a column with the answers beside
them (`| No. | Answer | Reason |`)."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Role
from lint_rules.page.exercises.answers import uncircled
from lint_rules.page.exercises.model import Answer, Label, Place

_LABEL = lazy_re.compile(
    r"\s*(?:(?:Q|No\.?|#)\s?(?=\d))?[(\[]?(?P<label>\d{1,2}(?=st|nd|rd|th|\b)|[A-Za-z]|[ivx]{1,4})(?:[)\]]?[.:)]?|st|nd|rd|th)\s*"
)
_RANGE = lazy_re.compile(r"\s*Q?(?P<first>\d{1,2})\s*[–—-]\s*Q?(?P<last>\d{1,2})\s*")
_ANSWERS = lazy_re.compile(
    r"\s*(?:(?:the\s+)?(?:correct\s+)?answers?|ans\.?|key|solutions?|word|t\s*/\s*f|letter)\s*", re.I
)
_ACTIVITY = lazy_re.compile(r"\s*(?:act(?:ivity)?|ex(?:ercise)?|task)s?\.?\s*", re.I)
_NUMBERED = lazy_re.compile(r"\s*[(\[]?(?P<label>\d{1,2})[)\]]?[.:)]?\s+(?=[^\W\d_])")
_SIGN = lazy_re.compile(r"\s*[(\[]?(?:[A-Za-z]|✓|✗|✔|✘|true|false|yes|no)[)\]]?\.?\s*", re.I)
_PAIR = 2
_ROMAN = ("i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x")
_MOST_LABELS = 40

Grid = Mapping[tuple[int, int], Passage]


@dataclass(frozen=True, slots=True)
class _Labelled:
    """A cell that is a label and nothing else: what it counts with, and the first and last that it stands for."""

    cell: Passage
    kind: str
    first: int
    last: int
    text: str

    @property
    def labels(self) -> Iterator[Label]:
        """Its label; several where it stands for a range: `8–10`."""
        for value in range(self.first, self.last + 1):
            yield Label(self.text if self.first == self.last else str(value), self.cell.span(), _whole(self.cell))


def tabled(passages: Sequence[Passage]) -> tuple[tuple[tuple[Answer, ...], ...], tuple[Passage, ...]]:
    """The rows of answers that tables of a key hold, and the passages that are to be read in other ways."""
    tables: dict[int, dict[tuple[int, int], Passage]] = {}
    passages = _without_heads(passages)
    for one in passages:
        if one.cell is not None:
            tables.setdefault(one.cell.table, {})[one.cell.row, one.cell.column] = one
    rows: list[tuple[Answer, ...]] = []
    read: set[int] = set()
    for table in tables.values():
        answers = tuple(_across(table)) or tuple(_down(table)) or tuple(_repeated(table)) or tuple(_scattered(table))
        if answers:
            rows += _begun_anew(answers)
            read.update(map(id, table.values()))
        else:
            read.update(map(id, _number_of_activity(table)))
    return tuple(rows), tuple(one for one in passages if id(one) not in read)


def _without_heads(passages: Sequence[Passage]) -> Sequence[Passage]:
    """A key's passages without the head of a table of two rows or more whose first column has no labels: `| Tray |
    Answer |`."""
    heads = [one for one in passages if one.cell is not None and one.role is Role.HEAD]
    named = {one.cell.table for one in heads if one.cell is not None and _ANSWERS.fullmatch(one.text)}
    labelled = {
        one.cell.table
        for one in passages
        if one.cell is not None and one.cell.column == 0 and (_label(one) is not None or _NUMBERED.match(one.text))
    }
    long = {one.cell.table for one in passages if one.cell is not None and one.cell.row >= 2}
    dropped = {id(one) for one in heads if one.cell is not None and one.cell.table in (named & long) - labelled}
    return [one for one in passages if id(one) not in dropped]


def _across(grid: Grid) -> Iterator[Answer]:
    """`| 1 | 2 | 3 |` and below it `| d | c | a |`; and so on. A first cell may say what they are."""
    rows = sorted({row for row, _ in grid})
    if len(rows) < 2 or len(rows) % 2:
        return
    found: list[Answer] = []
    last: _Labelled | None = None
    for above, below in zip(rows[::2], rows[1::2], strict=True):
        columns = sorted(column for row, column in grid if row == above)
        cells = [(column, _label(grid[above, column])) for column in columns]
        if cells and cells[0][1] is None:
            cells = cells[1:]
        labels = [label for _, label in cells if label is not None]
        if len(labels) < len(cells) or len(labels) < 2 or not _rise([*([last] if last else []), *labels]):
            return
        last = labels[-1]
        for column, label in cells:
            cell = grid.get((below, column))
            if label is not None and cell is not None:
                found += (Answer(_whole(cell), one) for one in label.labels)
    yield from found


def _down(grid: Grid) -> Iterator[Answer]:
    """`| No. | Answer | Reason |`: a column of labels, and beside it the answers; several such pairs go on counting."""
    columns = sorted({column for _, column in grid})
    first, *others = sorted({row for row, _ in grid})
    heads = {column: grid[first, column] for column in columns if (first, column) in grid}
    found: list[Answer] = []
    last: _Labelled | None = None
    for at, column in enumerate(columns):
        labels = _column(grid, column, first, others, last)
        if not labels:
            continue
        beside = [one for one in columns[at + 1 :] if last is None or one == column + 1]
        named = [one for one in beside if one in heads and _ANSWERS.fullmatch(heads[one].text)]
        counting = [*labels.values()][-1]
        said = (named or [one for one in beside if not _column(grid, one, first, others, counting)])[:1]
        for row, label in labels.items() if said else ():
            cell = grid.get((row, said[0]))
            if cell is not None:
                found += (Answer(_whole(cell), one) for one in label.labels)
        last = counting
    yield from found


def _repeated(grid: Grid) -> Iterator[Answer]:
    """`| 1 kettle | C |`: the items again, and beside each a letter or a sign."""
    columns = {column for _, column in grid}
    rows = sorted({row for row, _ in grid})
    if len(columns) != _PAIR:
        return
    pairs = [(grid.get((row, min(columns))), grid.get((row, max(columns)))) for row in rows]
    if pairs[0][0] is not None and pairs[0][0].role is Role.HEAD and not _NUMBERED.match(pairs[0][0].text):
        pairs = pairs[1:]
    found = []
    for item, said in pairs:
        match = _NUMBERED.match(item.text) if item is not None else None
        if item is None or said is None or match is None or not _SIGN.fullmatch(said.text):
            return
        found.append(Answer(_whole(said), Label(match["label"], item.span(*match.span("label")), _whole(item))))
    numbers = [int(answer.label.text) for answer in found if answer.label is not None]
    if len(found) > 1 and all(one < other for one, other in pairwise(numbers)):
        yield from found


def _scattered(grid: Grid) -> Iterator[Answer]:
    """Answers sorted under heads, each behind its number, in any order: `| ea | ee |`, `| 1 sea | 3 tree |`."""
    cells = [cell for (row, _), cell in sorted(grid.items()) if cell.text.strip() and row]
    numbered = [(match, cell) for cell in cells if (match := _NUMBERED.match(cell.text))]
    numbers = [int(match["label"]) for match, _ in numbered]
    in_order = numbers == sorted(numbers)  # read as other keys are
    if in_order or len(numbered) < len(cells) or sorted(numbers) != list(range(1, len(cells) + 1)):
        return
    for match, cell in sorted(numbered, key=lambda one: int(one[0]["label"])):
        mark = Place(cell, *match.span("label"))
        yield Answer(Place(cell, match.end(), len(cell.text.rstrip())), Label(match["label"], mark.span, mark))


def _column(
    grid: Grid, column: int, first: int, others: Sequence[int], last: _Labelled | None = None
) -> dict[int, _Labelled]:
    """The labels of a column, by rows, where each row has one, and they go on from the last; none where they do not."""
    labels = {row: label for row in (first, *others) if (cell := grid.get((row, column))) and (label := _label(cell))}
    told = set(others) if last is None else {row for row in others if (row, column) in grid}
    whole = told <= labels.keys() and (first in labels or _is_head(grid, first))
    fewest = 1 if last is None else 0  # the last block of a table may be a short one
    rising = len(labels) > fewest and _rise([*([last] if last else []), *labels.values()])
    return labels if whole and rising else {}


def _is_head(grid: Grid, row: int) -> bool:
    return all(cell.role is Role.HEAD or not cell.text.strip() for (at, _), cell in grid.items() if at == row)


def _label(cell: Passage) -> _Labelled | None:
    text = uncircled(cell.text)
    spread = _RANGE.fullmatch(text)
    if spread is not None:
        first, last = int(spread["first"]), int(spread["last"])
        return _Labelled(cell, "1", first, last, text) if first < last < first + _MOST_LABELS else None
    match = _LABEL.fullmatch(text)
    if match is None:
        return None
    label = match["label"]
    if label.isdigit():
        return _Labelled(cell, "1", int(label), int(label), label)
    if label in _ROMAN and label not in ("i", "v", "x"):
        return _Labelled(cell, "i", _ROMAN.index(label), _ROMAN.index(label), label)
    if len(label) == 1:
        value = ord(label.casefold())
        return _Labelled(cell, "a", value, value, label)
    return None


def _rise(labels: Sequence[_Labelled]) -> bool:
    """Whether labels count with one kind, and each comes behind the one before it, or begins a part anew."""
    first = labels[0].first
    return len({one.kind for one in labels}) == 1 and all(
        one.last < other.first or (other.first == first < one.first) for one, other in pairwise(labels)
    )


def _begun_anew(answers: Sequence[Answer]) -> Iterator[tuple[Answer, ...]]:
    """The answers of each part, where parts number anew."""
    texts = [answer.label.key if answer.label is not None else "" for answer in answers]
    starts = [at for at, text in enumerate(texts) if text == texts[0]]
    for start, end in pairwise([*starts, len(answers)]):
        yield tuple(answers[start:end])


def _whole(cell: Passage) -> Place:
    text = cell.text
    start = len(text) - len(text.lstrip())
    return Place(cell, start, max(start, len(text.rstrip())))


def _number_of_activity(grid: Grid) -> Iterator[Passage]:
    """The heads and the number of a table that has the answers of one activity: `| Act. | Ans. |`, `| 11 | … |`."""
    heads = [cell for (row, _), cell in grid.items() if row == 0]
    rows = {row for row, _ in grid} - {0}
    number = grid.get((1, 0))
    alone = number is not None and len(rows) == 1 and number.text.strip().isdigit()
    if number is not None and alone and heads and _ACTIVITY.fullmatch(heads[0].text):
        yield from (*heads, number)
