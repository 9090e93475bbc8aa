"""Labels in tables: grids of letters, columns of figures that label nothing, options under letters."""

from collections.abc import Sequence
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Role
from lint_rules.page.exercises.drafts import DraftExercise
from lint_rules.page.exercises.marks import LINE, Mark
from lint_rules.page.exercises.model import Label, Option, Place
from lint_rules.page.exercises.stream import Line

_BLANK = lazy_re.compile(r"[_\s.…☐]+")
_ASKED = lazy_re.compile(r"\?\s*$")
_TO_FILL = lazy_re.compile(r"_{2}")
_LETTER = lazy_re.compile(r"[^\W\d_]")


def _grids(lines: Sequence[Line]) -> frozenset[int]:
    """Tables of single letters and figures (word squares, codes): nothing in them is a label."""
    texts: dict[int, list[str]] = {}
    for line in lines:
        if line.passage.cell is not None:
            texts.setdefault(line.passage.cell.table, []).append(line.text)
    return frozenset(
        table
        for table, several in texts.items()
        if len(several) > 3 and sum(len(text) <= 2 and text.isalnum() for text in several) * 5 >= 4 * len(several)
    )


def without_figures(marks: Sequence[Mark], lines: Sequence[Line]) -> list[Mark]:
    """Marks without those of word squares and codes, and without figures that stand in cells of their own beside the
    labels of a table: how many letters a word has, what it costs."""
    squares = _grids(lines)
    begun: dict[int, list[Mark]] = {}
    for mark in marks:
        if lines[mark.line].passage.cell is not None and mark.label.isdigit() and mark.strength == LINE:
            begun.setdefault(_table(lines[mark.line]), []).append(mark)
    figures = {mark for several in begun.values() for mark in _figures(several, lines)}
    return [mark for mark in marks if mark not in figures and _table(lines[mark.line]) not in squares]


def without_articles(marks: Sequence[Mark], lines: Sequence[Line]) -> list[Mark]:
    """Marks without the letters that begin a cell, where a column of their table holds nothing but letters that count
    on: `| 1 | a red kite | a | Sumi |`."""
    columns: dict[tuple[int, int], list[Mark | None]] = {}
    alone = {mark.line: mark for mark in marks if mark.label.isalpha() and _fills(mark, lines)}
    for at, line in enumerate(lines) if alone else ():
        cell = line.passage.cell
        if cell is not None and (at in alone or line.passage.role is not Role.HEAD):
            columns.setdefault((cell.table, cell.column), []).append(alone.get(at))
    labelled: dict[int, set[Mark]] = {}
    for (table, _), several in columns.items():
        letters = [mark for mark in several if mark is not None]
        if len(letters) == len(several) > 1 and _count_on([ord(mark.label[0].casefold()) for mark in letters]):
            labelled.setdefault(table, set()).update(letters)
    return [
        mark
        for mark in marks
        if not mark.label.isalpha() or (table := _table(lines[mark.line])) not in labelled or mark in labelled[table]
    ]


def _fills(mark: Mark, lines: Sequence[Line]) -> bool:
    """Whether a label is all that a cell holds."""
    line = lines[mark.line]
    return line.passage.cell is not None and mark.first <= line.start and mark.last >= line.end


def _figures(begun: Sequence[Mark], lines: Sequence[Line]) -> list[Mark]:
    """The numbers of a table, alone in their cells, that do not count on where another column counts its rows."""
    if _count_on([int(mark.label) for mark in begun]):
        return []  # row by row: | 1 | ____ | 2 | ____ |
    columns: dict[int, list[Mark]] = {}
    for mark in begun:
        cell = lines[mark.line].passage.cell
        columns.setdefault(cell.column if cell is not None else 0, []).append(mark)
    found: list[Mark] = []
    last: int | None = None
    for _, several in sorted(columns.items()):
        numbers = [int(mark.label) for mark in several]
        if len(numbers) > 1 and _count_on(numbers) and (numbers[0] <= 1 if last is None else numbers[0] == last + 1):
            last = numbers[-1]
        elif last is not None:
            found += [mark for mark in several if lines[mark.line].text == mark.label]
    return found


def _count_on(numbers: Sequence[int]) -> bool:
    return all(other == one + 1 for one, other in pairwise(numbers))


def _table(line: Line) -> int:
    return line.passage.cell.table if line.passage.cell is not None else -1


def same_row(line: Line, other: Line) -> bool:
    """Whether two lines stand in cells of one row."""
    a, b = line.passage.cell, other.passage.cell
    return a is not None and b is not None and (a.table, a.row) == (b.table, b.row)


def rows_around(chain: Sequence[Mark], lines: Sequence[Line]) -> list[list[Place]]:
    """The rows that labels stand in, where each row of a table has one behind its blank, `| ____ | 1. a kite |`, or
    before it, behind a question: `| How old is it? | 1 ____ years |`. None where the first cells hold anything else."""
    cells = [lines[mark.line].passage.cell for mark in chain]
    rows = {(cell.table, cell.row) for cell in cells if cell is not None and cell.column}
    if len(rows) < len(chain) or len({table for table, _ in rows}) > 1:
        return []
    found = []
    asked = all(_TO_FILL.search(lines[mark.line].text, mark.last - lines[mark.line].start) for mark in chain)
    asked = asked and not any("_" in line.text for mark in chain for line in _before(mark, lines))
    for mark in chain:
        before = _before(mark, lines)
        if not before or not (asked or all(_BLANK.fullmatch(line.text) for line in before)):
            return []
        before = before if not asked or _ASKED.search(" ".join(line.text for line in before)) else []
        after = [mark.line]
        while after[-1] + 1 < len(lines) and same_row(lines[after[-1] + 1], lines[mark.line]):
            after.append(after[-1] + 1)
        places = [Place(line.passage, line.start, line.end) for line in (*before, *(lines[at] for at in after))]
        own = places[len(before)]
        places[len(before)] = Place(own.passage, max(own.start, mark.last), own.end)
        found.append([place for place in places if place.text.strip()])
    return found


def _before(mark: Mark, lines: Sequence[Line]) -> Sequence[Line]:
    """The cells of a label's row that stand before it."""
    first = mark.line
    while first and same_row(lines[first - 1], lines[mark.line]):
        first -= 1
    return lines[first : mark.line]


def headed_options(found: Sequence[DraftExercise], lines: Sequence[Line]) -> None:
    """Options in a table whose columns are headed by letters: `| | A | B | C |`."""
    heads = {
        (cell.table, cell.column): line.passage
        for line in lines
        if (cell := line.passage.cell) is not None and cell.row == 0 and len(line.text) == 1 and line.text.isalpha()
    }
    for draft in (draft for one in found for draft in one.drafts if heads and not draft.options):
        own = lines[draft.mark.line].passage.cell if draft.mark is not None else None
        if own is not None and (own.table, own.column) in heads:
            continue  # heads of two lists to match: `| A | B |`, and below them `| 1. A baker | a. bakes |`
        headed = [
            (place, heads[cell.table, cell.column])
            for place in draft.places
            if (cell := place.passage.cell) is not None and (cell.table, cell.column) in heads
        ]
        texts = {place.text.casefold() for place, _ in headed if _LETTER.search(place.text)}
        if len(headed) > 1 and len(texts) > 1:
            draft.options = [Option(place, Label(head.text, head.span())) for place, head in headed]
            draft.places = [place for place in draft.places if all(place is not one for one, _ in headed)]
