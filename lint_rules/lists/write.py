"""A list written out: for a terminal, as CSV, as a workbook, as Markdown, as JSON."""

import csv
import json
import re
from collections.abc import Sequence
from io import BytesIO, StringIO
from typing import TYPE_CHECKING

from lint_rules import lazy_re
from lint_rules.lists.book import Cell, Table
from lint_rules.said import in_a_table, one_line

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet
    from rich.console import Console

# What XML 1.0 (section 2.2) has no character for, so that no workbook can hold it.
_NO_XML = lazy_re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_LONGEST = 32_767  # characters in a cell of a workbook (ECMA-376)


def print_tables(tables: Sequence[Table], console: "Console") -> None:
    """Print tables for a person."""
    from rich import box
    from rich.table import Table as Grid
    from rich.text import Text

    for table in tables:
        grid = Grid(title=Text(table.title), title_justify="left", box=box.SIMPLE_HEAD, pad_edge=False)
        for index, column in enumerate(table.columns):
            numbers = all(isinstance(row[index], int) or row[index] == "" for row in table.rows)
            grid.add_column(Text(column.head), overflow="fold", justify="right" if numbers and table.rows else "left")
        for row in table.rows:
            grid.add_row(*(Text(in_a_table(_shown(cell))) for cell in row))
        console.print(grid)
        if not table.rows:
            console.print(Text("  nothing to list\n"))
        if table.note:
            console.print(Text(f"{table.note}\n", style="dim"))


def as_csv(tables: Sequence[Table]) -> str:
    """Tables as CSV (RFC 4180), each with its head; an empty row between two."""
    out = StringIO()
    writer = csv.writer(out)
    for index, table in enumerate(tables):
        if index:
            writer.writerow([])
        writer.writerow([column.head for column in table.columns])
        writer.writerows([_no_formula(cell) for cell in row] for row in table.rows)
    return out.getvalue()


def as_json(tables: Sequence[Table]) -> str:
    """Tables as JSON."""
    data = [
        {"title": t.title, "columns": [column.head for column in t.columns], "rows": t.rows, "note": t.note}
        for t in tables
    ]
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def as_markdown(tables: Sequence[Table]) -> str:
    """Tables as pipe tables under headings, as Pandoc and GitHub read them."""
    parts = []
    for table in tables:
        lines = [f"# {_marked(table.title)}", ""]
        lines.append(_pipes([column.head for column in table.columns]))
        lines.append("|" + " --- |" * len(table.columns))
        lines += [_pipes(row) for row in table.rows]
        if table.note:
            lines += ["", _marked(table.note)]
        parts.append("\n".join(lines) + "\n")
    return "\n".join(parts)


def as_workbook(tables: Sequence[Table]) -> bytes:
    """Tables as an Office Open XML workbook (ECMA-376): a sheet each, landscape, heads frozen and on every page."""
    from openpyxl import Workbook

    book = Workbook()
    for name in book.sheetnames:
        del book[name]
    for table in tables:
        _fill(book.create_sheet(_sheet_name(table.title, book.sheetnames)), table)
    out = BytesIO()
    book.save(out)
    return out.getvalue()


def _fill(sheet: "Worksheet", table: Table) -> None:
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.properties import PageSetupProperties

    for index, column in enumerate(table.columns, start=1):
        head = sheet.cell(1, index, column.head)
        head.font = Font(bold=True)
        sheet.column_dimensions[get_column_letter(index)].width = min(column.width, 70)
    for number, row in enumerate(table.rows, start=2):
        for index, value in enumerate(row, start=1):
            cell = sheet.cell(number, index)
            cell.value = _NO_XML.sub("\ufffd", value)[:_LONGEST] if isinstance(value, str) else value
            if isinstance(value, str):
                cell.data_type = "s"  # no word of a manuscript is ever a formula, a date or a number
                cell.number_format = "@"
            cell.alignment = Alignment(vertical="top", wrap_text=True)
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = f"A1:{get_column_letter(len(table.columns))}{len(table.rows) + 1}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight = 1, 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = "1:1"


def _sheet_name(title: str, taken: Sequence[str]) -> str:
    """A sheet's name: at most 31 characters, none that spreadsheets do not allow, each once."""
    plain = re.sub(r"[\[\]:*?/\\]", " ", _NO_XML.sub(" ", title))[:31].strip("' ") or "list"
    number, name = 2, plain
    while name.casefold() in (other.casefold() for other in taken):
        name, number = f"{plain[:28]} {number}", number + 1
    return name


def _pipes(cells: Sequence[Cell]) -> str:
    return "| " + " | ".join(_marked(_shown(cell)) for cell in cells) + " |"


def _marked(text: str) -> str:
    """A text that Markdown shows as it is."""
    return re.sub(r"([\\`*_\[\]<>|#$~&])", r"\\\1", one_line(text))


def _shown(cell: Cell) -> str:
    return "".join(char if char.isprintable() else " " for char in str(cell))


def _no_formula(cell: Cell) -> Cell:
    """A cell that a spreadsheet would take for a formula gets an apostrophe before it."""
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(("=", "+", "-", "@", "\t", "\r")) else cell
