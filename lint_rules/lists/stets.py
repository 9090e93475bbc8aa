"""What was let stand: rule, words, reason, until when, and by whom if git says so."""

from collections.abc import Iterator

from lint_rules.finding import Finding, Status
from lint_rules.lists.book import BookOfUnits, Cell, Column, Table, UnitOfBook, one_line
from lint_rules.manuscript.model import Stet

_COLUMNS = (
    Column("level", 10),
    Column("unit", 5),
    Column("line", 6),
    Column("rule", 26),
    Column("lets stand", 44),
    Column("reason", 52),
    Column("until", 11),
    Column("by", 28),
)


def stets(book: BookOfUnits) -> Iterator[Table]:
    """One table in file order, stets that let nothing stand too."""
    yield Table("Let stand", _COLUMNS, tuple(_row(book, of, stet) for of in book.units for stet in of.unit.stets))


def _row(book: BookOfUnits, of: UnitOfBook, stet: Stet) -> tuple[Cell, ...]:
    line = of.unit.source.position(stet.span.start).line
    covered = [one_line(f.text) for f in book.findings if f.path == of.unit.path and _covers(stet, f)]
    return (
        of.level.name,
        of.unit.front.unit,
        line,
        stet.rule,
        "; ".join(dict.fromkeys(covered)) or "nothing",
        stet.reason,
        stet.until.isoformat() if stet.until else "",
        book.written_by(of.unit.path, line),
    )


def _covers(stet: Stet, finding: Finding) -> bool:
    covers = stet.covers
    return (
        finding.status is Status.LET_STAND
        and finding.rule == stet.rule
        and covers is not None
        and covers.start <= finding.span.start <= covers.end
    )
