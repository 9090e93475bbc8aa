"""Whole files and what is read in them, as files that a person can check line by line.

HORNBOOK_WRITE_GOLDEN=1 writes the expected files anew (where something has changed the test still fails once); read the
difference before you keep it.
"""

import os
from pathlib import Path

import pytest

from lint_rules.manuscript.model import Attributes, Passage, Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source, Span

GOLDEN = Path(__file__).parent / "golden"


def hold(path: Path, text: str) -> None:
    """Compare with a golden file."""
    written = path.read_text(encoding="utf-8") if path.exists() else ""
    if os.environ.get("HORNBOOK_WRITE_GOLDEN"):
        path.write_text(text, encoding="utf-8", newline="\n")
    assert text == written


def unit_of(name: str) -> Unit:
    return read_unit(Source.decode(f"level-1/{name}.md", (GOLDEN / f"{name}.md").read_bytes()))


def faults_of(unit: Unit) -> list[str]:
    """What is wrong with a unit, but for its blocks of code, which no rule reads."""
    return [problem.message for problem in unit.problems if "printed as computer code" not in problem.message]


def place(source: Source, offset: int) -> str:
    line, column = source.position(offset)
    return f"{line}:{column}"


def braces(attributes: Attributes) -> str:
    parts = [f"#{attributes.identifier}"] if attributes.identifier else []
    parts += [f".{name}" for name in attributes.classes]
    parts += [f"{key}={value}" for key, value in attributes.values.items()]
    return f"  {{{' '.join(parts)}}}" if parts else ""


def line_of(unit: Unit, passage: Passage) -> str:
    """One passage on one line: where, for whom, what, and the text."""
    what: list[str] = [str(passage.role)]
    if passage.speaker:
        what.append(f"of {passage.speaker}")
    if passage.field:
        what.append(f"({passage.field})")
    if passage.item:
        inside = f" in {passage.item.parent[0]}.{passage.item.parent[1]}" if passage.item.parent else ""
        what.append(f"{passage.item.list}.{passage.item.index}{inside} [{passage.item.label}]")
    if passage.cell:
        what.append(f"{passage.cell.table}, row {passage.cell.row}, column {passage.cell.column}")
    kinds = unit.div_kinds(passage)
    where = f" <{' in '.join(kinds)}>" if kinds else ""
    text = passage.text.replace("\n", "⏎").replace("\ufffc", "▣")
    extra = "".join(f"  gap {passage.text[start:end]}" for start, end in passage.gaps)
    extra += "".join(f"  bold '{passage.text[start:end]}'" for start, end in passage.strong)
    extra += "".join(f"  picture {picture.target}" for picture in passage.pictures)
    start = place(unit.source, passage.span().start)
    return f"{start:>7}  {passage.audience:8} {' '.join(what)}{where}: {text}{extra}"


def outline_of(unit: Unit) -> str:
    lines = []
    for passage in unit.passages:
        lines.append(line_of(unit, passage))
        for heading, span in headings(unit):
            if heading.passage is passage:
                number = f"number {heading.number!r}" if heading.number else "no number"
                end = place(unit.source, span.end)
                lines.append(f"         {'#' * heading.level} {number}{braces(heading.attributes)}  to {end}")
    for lesson in unit.lessons:
        pictures = [picture.alt for activity in lesson.activities for picture in activity.part.pictures]
        lines.append(f"pictures of {lesson.heading.passage.text}: {', '.join(pictures) or 'none'}")
    return "\n".join(lines) + "\n"


def headings(unit: Unit):  # type: ignore[no-untyped-def]
    if unit.heading:
        yield unit.heading, unit.heading.span
    for lesson in unit.lessons:
        yield lesson.heading, lesson.span
    for activity in unit.activities:
        yield activity.heading, activity.span


def test_every_passage_of_a_unit() -> None:
    unit = unit_of("kite_day")
    assert faults_of(unit) == []
    hold(GOLDEN / "kite_day.txt", outline_of(unit))


def test_what_each_stet_covers() -> None:
    unit = unit_of("stets")
    assert faults_of(unit) == []
    lines = []
    for stet in unit.stets:
        until = f" until {stet.until}" if stet.until else ""
        says = f"{stet.rule or '(no rule)'}{until}: {stet.reason or '(no reason)'}"
        lines.append(f"{place(unit.source, stet.span.start):>7}  {says}")
        lines.append(f"         covers {shown(unit.source, stet.covers)}")
        if stet.fault:
            lines.append(f"         fault: {stet.fault}")
    hold(GOLDEN / "stets.txt", "\n".join(lines) + "\n")


def shown(source: Source, span: Span | None) -> str:
    if span is None:
        return "nothing"
    text = " ".join(source.slice(span).split())
    return f"{place(source, span.start)} to {place(source, span.end)}, … {text[-32:]}"


def cases() -> list[tuple[str, str]]:
    """The cases of faults.md: each begins with a line `=== what it is`."""
    text = (GOLDEN / "faults.md").read_text(encoding="utf-8")
    parts = text.split("=== ")[1:]
    return [(part.split("\n", 1)[0], part.split("\n", 1)[1]) for part in parts]


def test_every_fault_has_its_place_and_its_cure() -> None:
    lines = []
    for name, text in cases():
        source = Source("level-1/unit-01.md", text)
        unit = read_unit(source)
        lines.append(f"=== {name}")
        for problem in unit.problems:
            weight = "" if problem.blocks else "(not blocking) "
            lines.append(
                f"{place(source, problem.span.start)}-{place(source, problem.span.end)}  {weight}{problem.message}"
            )
        lines.append(f"read: {' | '.join(passage.text for passage in unit.passages)}")
        lines.append("")
    hold(GOLDEN / "faults.txt", "\n".join(lines))


@pytest.mark.parametrize("line_end", ["\r\n", "\r"])
def test_line_ends_and_a_byte_order_mark_change_nothing(line_end: str) -> None:
    text = (GOLDEN / "kite_day.md").read_text(encoding="utf-8")
    data = b"\xef\xbb\xbf" + text.replace("\n", line_end).encode()
    unit = read_unit(Source.decode("level-1/kite_day.md", data))
    assert outline_of(unit) == (GOLDEN / "kite_day.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["kite_day", "stets"])
def test_a_unit_without_faults_stays_without_problems(name: str) -> None:
    assert faults_of(unit_of(name)) == []
