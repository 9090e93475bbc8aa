"""The vocabulary map as rows: for the terminal, as CSV, and as a spreadsheet with one sheet a level."""

import csv
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO, StringIO

from rich import box
from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from lint_rules.course.model import Course
from lint_rules.facts import UnitFacts
from lint_rules.said import in_a_table, printable
from lint_rules.vocabulary_map import Gap, Sight, WordRow, gaps

HEAD = (
    "level",
    "word",
    "part_of_speech",
    "topic",
    "use",
    "unit",
    "taught",
    "met_again",
    "times_met",
    "tested",
    "missing",
)
_WIDTHS = (12, 20, 15, 20, 7, 6, 16, 44, 10, 24, 36)


@dataclass(frozen=True, slots=True)
class Line:
    """One target word as an editor reads it."""

    level: str
    word: str
    part_of_speech: str
    topic: str
    use: str
    unit: int
    taught: str
    met_again: str
    times_met: int
    tested: str
    missing: str

    @property
    def cells(self) -> tuple[str | int, ...]:
        """The cells in the order of HEAD; a word without a unit has an empty cell."""
        unit = self.unit or ""
        return (
            self.level, self.word, self.part_of_speech, self.topic, self.use, unit,
            self.taught, self.met_again, self.times_met, self.tested, self.missing,
        )  # fmt: skip


SORTS: dict[str, Callable[[Line], object]] = {
    "unit": lambda line: (line.unit or 10_000, line.topic, line.word.casefold()),
    "word": lambda line: line.word.casefold(),
    "topic": lambda line: (line.topic, line.word.casefold()),
    "met": lambda line: (line.times_met, line.word.casefold()),
}


def lines_of(rows: Sequence[WordRow], course: Course, units: Sequence[UnitFacts]) -> list[Line]:
    """The map's rows for people, in the order of the word lists."""
    return [_line(row, course, units) for row in rows]


def chosen(lines: Sequence[Line], course: Course, topic: str | None, unit: int | None, sort: str) -> list[Line]:
    """The lines of a topic or of units of a number, sorted within each level."""
    order = {level.name: level.index for level in course.levels}
    wanted = [
        line
        for line in lines
        if (topic is None or topic.casefold() in (part.casefold() for part in line.topic.split("|")))
        and (unit is None or line.unit == unit)
    ]
    key = SORTS[sort]
    return sorted(sorted(wanted, key=key), key=lambda line: order[line.level])  # type: ignore[arg-type]


def missing_summary(lines: Sequence[Line]) -> Iterator[str]:
    """What an editor wants to know first: what is missing, level by level and kind by kind, the words unit by unit."""
    for level in dict.fromkeys(line.level for line in lines):
        of_level = [line for line in lines if line.level == level]
        lacking = [line for line in of_level if line.missing]
        if not lacking:
            yield f"{level}: {len(of_level)} target words, and nothing is missing"
            continue
        yield f"{level}: {len(of_level)} target words, {len(lacking)} with something missing"
        for gap in Gap:
            words = [line for line in of_level if gap.value in line.missing]
            if words:
                told = " (in brackets: in how many later lessons)" if gap is Gap.MET else ""
                yield f"  {gap.value}: {len(words)}{told}"
                yield from (f"    {where}: {', '.join(named)}" for where, named in _by_unit(words, gap))


def _by_unit(lines: Sequence[Line], gap: Gap) -> Iterator[tuple[str, list[str]]]:
    for unit in sorted({line.unit for line in lines}):
        mine = [line for line in lines if line.unit == unit]
        named = [f"{line.word} ({line.times_met})" if gap is Gap.MET else line.word for line in mine]
        yield f"unit {unit}" if unit else "any unit", named


def print_lines(lines: Sequence[Line], console: Console, *, only_gaps: bool = False) -> None:
    """The map on a terminal: what is missing first, then (unless only that is wanted) a table a level."""
    for text in missing_summary(lines):
        set_in = len(text) - len(text.lstrip())
        console.print(Padding(Text(text.lstrip()), (0, 0, 0, set_in), expand=False))
    if only_gaps:
        return
    console.print(Text("\n1.4 is unit 1, lesson 4; 1.0 is what stands before the first lesson of unit 1."))
    for level in dict.fromkeys(line.level for line in lines):
        table = Table(title=Text(level), title_justify="left", box=box.SIMPLE_HEAD, pad_edge=False)
        for name in ("word", "topic", "unit", "taught", "met again", "tested", "missing"):
            table.add_column(name, justify="right" if name == "unit" else "left", overflow="fold")
        for line in lines:
            if line.level == level:
                part = f" ({line.part_of_speech})" if line.part_of_speech else ""
                met = f"{line.times_met}: {line.met_again}" if line.times_met else "0"
                cells = (f"{line.word}{part}", line.topic, str(line.unit or ""), line.taught, met, line.tested)
                table.add_row(
                    *(Text(in_a_table(cell)) for cell in cells),
                    Text(line.missing, style="bold" if line.missing else ""),
                )
        console.print(table)


def as_csv(lines: Sequence[Line]) -> str:
    """The map as CSV (RFC 4180), with a head."""
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(HEAD)
    writer.writerows([_no_formula(cell) for cell in line.cells] for line in lines)
    return out.getvalue()


def as_spreadsheet(lines: Sequence[Line], course: Course) -> bytes:
    """The map as an Office Open XML workbook: one sheet a level, the head frozen and with filters."""
    from openpyxl import Workbook
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    book = Workbook()
    for name in book.sheetnames:
        del book[name]
    for level in course.levels:
        sheet = book.create_sheet(_sheet_name(level.name, book.sheetnames))
        for column, name in enumerate(HEAD, start=1):
            cell = sheet.cell(1, column, name.replace("_", " "))
            cell.font = Font(bold=True)
            sheet.column_dimensions[get_column_letter(column)].width = _WIDTHS[column - 1]
        number = 1
        for number, line in enumerate((line for line in lines if line.level == level.name), start=2):
            for column, value in enumerate(line.cells, start=1):
                cell = sheet.cell(number, column)
                cell.value = printable(value) if isinstance(value, str) else value
                if isinstance(value, str):
                    cell.data_type = "s"  # a word of the list is never a formula, nor a fault such as #N/A
                cell.alignment = Alignment(vertical="top", wrap_text=column in (8, 10, 11))
        sheet.freeze_panes = "C2"
        sheet.auto_filter.ref = f"A1:{get_column_letter(len(HEAD))}{number}"
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def _line(row: WordRow, course: Course, units: Sequence[UnitFacts]) -> Line:
    entry = row.entry
    level = course.levels[entry.level]
    missing = "; ".join(
        f"{gap} ({row.meetings} of {level.limits.recycle})" if gap is Gap.MET else gap.value
        for gap in gaps(row, course, units)
    )
    return Line(
        level.name,
        entry.word,
        entry.part_of_speech,
        "|".join(entry.topics),
        entry.use,
        entry.unit,
        _places([row.taught] if row.taught else [], entry.level, course, units),
        _places(row.met, entry.level, course, units),
        row.meetings,
        _places(row.tested, entry.level, course, units),
        missing,
    )


def _places(sights: Sequence[Sight], level: int, course: Course, units: Sequence[UnitFacts]) -> str:
    """Lessons by unit: `1.2 1.4 2.1` (unit and lesson), with the level where it is another one."""
    parts = []
    for sight in sights:
        unit = units[sight.unit]
        other = "" if unit.level == level else f"{course.levels[unit.level].name} "
        parts.append(f"{other}{unit.unit}.{sight.lesson + 1}")
    return ", ".join(parts)


def _no_formula(cell: str | int) -> str | int:
    """A cell that a spreadsheet would take for a formula gets an apostrophe before it."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell


def _sheet_name(level: str, taken: Sequence[str]) -> str:
    """A sheet's name: at most 31 characters, without those that spreadsheets do not allow, each once."""
    plain = "".join(" " if char in "[]:*?/\\" else char for char in level)[:31].strip("'") or "level"
    number, name = 2, plain
    while name.casefold() in (other.casefold() for other in taken):
        name, number = f"{plain[:28]} {number}", number + 1
    return name
