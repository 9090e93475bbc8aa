"""Every safety note of the book, every draft that waits for a person, and every activity that lacks a note."""

from collections.abc import Iterator

from lint_rules.finding import Finding, Status
from lint_rules.lists.book import PLACE, BookOfUnits, Cell, Column, Spot, Table, one_line, spots
from lint_rules.manuscript.field_names import field_key

_COLUMNS = (*PLACE, Column("line", 6), Column("activity says", 40), Column("note", 64), Column("state", 12))
_DRAFT = "[check]"


def safety(book: BookOfUnits) -> Iterator[Table]:
    """One table in file order."""
    rows = [row for spot in spots(book) for row in _notes(spot)]
    rows += [_missing(book, finding) for finding in book.findings if _is_open(finding)]
    order = {of.unit.path: index for index, of in enumerate(book.units)}
    by_name = {(of.level.name, of.unit.front.unit): order[of.unit.path] for of in book.units}

    def place(row: tuple[Cell, ...]) -> tuple[int, int]:
        return by_name.get((str(row[0]), int(row[1] or 0)), 0), int(row[4])

    yield Table(
        "Safety notes",
        _COLUMNS,
        tuple(sorted(rows, key=place)),
        "A prompt for the usual caution, no risk assessment: your school's policy, local rules and licensed practice "
        "decide.",
    )


def _notes(spot: Spot) -> Iterator[tuple[Cell, ...]]:
    instruction = one_line(spot.activity.heading.passage.text) if spot.activity else ""
    for field in spot.part.fields:
        if field_key(field.name) == "safety":
            text = one_line(field.text)
            line = spot.of.unit.source.position(field.span.start).line
            state = "draft" if _DRAFT in text.casefold() else "note" if text else "empty"
            yield (*spot.cells, line, instruction, text, state)


def _missing(book: BookOfUnits, finding: Finding) -> tuple[Cell, ...]:
    spot = next((one for one in spots(book) if _holds(one, finding)), None)
    cells = spot.cells if spot else ("", 0, "", "")
    instruction = one_line(spot.activity.heading.passage.text) if spot and spot.activity else one_line(finding.text)
    return (*cells, finding.start.line, instruction, "", "missing")


def _holds(spot: Spot, finding: Finding) -> bool:
    span = spot.activity.span if spot.activity else None
    return (
        spot.of.unit.path == finding.path and span is not None and span.start <= finding.span.start < max(span.end, 1)
    )


def _is_open(finding: Finding) -> bool:
    return finding.rule == "missing-safety-note" and finding.status is not Status.LET_STAND
