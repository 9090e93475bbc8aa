"""The pattern sentences of a lesson: what stands in `pattern` divs, and what tables spell out across their cells."""

from array import array
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby, pairwise

from lint_rules.manuscript.model import Audience, DivKind, Passage, Role, Unit

_ENDS = (".", "!", "?", "…")


def pattern_passages(unit: Unit, passages: Iterable[Passage]) -> tuple[Passage, ...]:
    """Those of some passages that stand in a pattern div, for the pupil."""
    return tuple(
        passage
        for passage in passages
        if passage.audience is Audience.PUPIL
        and passage.role not in (Role.ALT, Role.CODE)
        and DivKind.PATTERN in unit.div_kinds(passage)
    )


def pattern_sentences(unit: Unit, passages: Iterable[Passage]) -> tuple[Passage, ...]:
    """The pattern sentences among some passages: each as it stands, and the cells of a row read as one sentence.

    A table may put a sentence in each cell (`| I can swim. | I can't fly. |`) or one in a row (`| I | can | swim |`);
    a row is cut after each cell that ends a sentence.
    """
    inside = pattern_passages(unit, passages)
    return (*inside, *rows_of(inside))


def rows_of(passages: Sequence[Passage]) -> Iterator[Passage]:
    """The sentences that rows of a table spell out over several cells, each as one passage."""
    cells = (passage for passage in passages if passage.cell is not None)
    for _, row in groupby(cells, key=lambda cell: (cell.cell.table, cell.cell.row) if cell.cell else None):
        sentence: list[Passage] = []
        for cell in row:
            sentence.append(cell)
            if cell.text.endswith(_ENDS):
                yield from _joined(sentence)
                sentence = []
        yield from _joined(sentence)


def _joined(cells: Sequence[Passage]) -> Iterator[Passage]:
    if len(cells) < 2:
        return
    starts, ends = array("l", cells[0].starts), array("l", cells[0].ends)
    for before, cell in pairwise(cells):
        starts.append(before.ends[-1])
        ends.append(cell.starts[0])
        starts.extend(cell.starts)
        ends.extend(cell.ends)
    text = " ".join(cell.text for cell in cells)
    yield cells[0].bare(text, starts, ends)
