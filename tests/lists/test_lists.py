"""The lists that a house compiles: each on the example book against a file that a person can read, and on odd books.

When a list changes on purpose, write its file anew and read what has changed in it:

    HORNBOOK_NEW_GOLDEN=1 python -m pytest -q tests/lists
"""

import csv
import json
import os
import zipfile
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from lint_rules.cli import LIST_NAMES, build_parser
from lint_rules.commands.lists import LISTS
from tests.commands.world import ONE, TWO, make_course, unit

ROOT = Path(__file__).parents[2]
GOLDEN = Path(__file__).parent / "golden"
EXAMPLE, DRAFT = "example_manuscript", "example_manuscript/first_draft"


@pytest.fixture(autouse=True)
def _no_history(monkeypatch):
    """Who wrote a line differs from clone to clone."""
    monkeypatch.setattr("lint_rules.commands.lists._writers", lambda root, path: {})


def test_every_list_has_its_function_and_its_golden_file():
    assert set(LIST_NAMES) == {*LISTS, "brief", "changes"}
    assert {path.stem for path in GOLDEN.glob("*.md")} == set(LIST_NAMES)


@pytest.mark.parametrize("name", LIST_NAMES)
def test_an_editor_reads_this_of_the_example_book(name, hornbook, monkeypatch):
    monkeypatch.chdir(ROOT)
    places = [DRAFT, EXAMPLE] if name == "changes" else [EXAMPLE]
    unit_named = ["--unit", "level-2/2"] if name == "brief" else []
    said = hornbook("lists", name, *unit_named, *places, "--markdown", "-")
    assert said.status == 0
    golden = GOLDEN / f"{name}.md"
    if os.environ.get("HORNBOOK_NEW_GOLDEN"):
        golden.write_text(said.out, encoding="utf-8", newline="\n")
    assert said.out == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", sorted(LISTS))
@pytest.mark.parametrize(
    "text",
    [
        "",
        "no front matter at all",
        unit(1, "::: audio\n"),
        unit(1, "![](art/x.svg)\n\n::: art\n:::\n\n::: {.audio track=1.1}\n:::\n\n::: answers\n:::\n"),
        unit(1, "<!-- stet -->\n\nA | b\n"),
    ],
    ids=["empty", "no unit", "open div", "empty parts", "stet without a rule"],
)
def test_a_broken_unit_stops_no_list(name, text, hornbook, tmp_path):
    root = make_course(tmp_path, {ONE: text})
    said = hornbook("lists", name, str(root), "--format", "json")
    assert said.status == 0, said.err
    for table in json.loads(said.out):
        assert all(len(row) == len(table["columns"]) for row in table["rows"])


def test_a_course_without_units_has_no_lists(hornbook, tmp_path):
    root = make_course(tmp_path)
    (root / ONE).unlink()
    (root / TWO).unlink()
    said = hornbook("lists", "contents", str(root))
    assert said.status == 2
    assert "no units yet" in said.err


def test_a_large_book_is_listed_whole(hornbook, tmp_path):
    root = make_course(tmp_path, {f"level-1/unit-{n:02}.md": unit(n, "The kite is red.\n" * n) for n in range(1, 61)})
    said = hornbook("lists", "contents", str(root), "--format", "json")
    assert [row[1] for row in json.loads(said.out)[0]["rows"]] == list(range(1, 61))


def test_text_stays_text_in_a_workbook(hornbook, tmp_path):
    """ECMA-376, 18.18.11: a cell of type s holds a string, f a formula. A fraction or a code must not become a date."""
    answers = "::: answers\n1 =SUM(A1)\n\n2 1/2\n:::\n"
    root = make_course(tmp_path, {ONE: unit(1, f"1. Read.\n2. Count.\n\n{answers}")})
    target = tmp_path / "keys.xlsx"
    assert hornbook("lists", "keys", str(root), "--xlsx", str(target)).status == 0
    data = target.read_bytes()
    assert "<f>" not in zipfile.ZipFile(BytesIO(data)).read("xl/worksheets/sheet1.xml").decode()
    sheet = load_workbook(BytesIO(data)).active
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.freeze_panes == "A2"
    assert any("=SUM(A1)" in str(cell.value) and cell.data_type == "s" for row in sheet.iter_rows() for cell in row)


def test_no_cell_of_a_csv_is_a_formula(hornbook, tmp_path):
    root = make_course(tmp_path, {ONE: unit(1, "::: answers\n=1+1\n:::\n")})
    said = hornbook("lists", "keys", str(root), "--csv", "-")
    cells = [cell for row in csv.reader(StringIO(said.out)) for cell in row]
    assert "'=1+1" in cells
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)


def test_no_list_is_written_over_a_unit(hornbook, tmp_path):
    root = make_course(tmp_path)
    before = (root / ONE).read_bytes()
    said = hornbook("lists", "keys", str(root), "--csv", str(root / ONE))
    assert said.status == 2
    assert (root / ONE).read_bytes() == before


@pytest.mark.parametrize(
    ("words", "cure"),
    [
        (["changes", "a"], "OLD NEW"),
        (["contents", "a", "b"], "one course"),
        (["brief"], "--unit LEVEL/NUMBER"),
        (["keys", "--unit", "level-1/1"], "no other list takes it"),
    ],
)
def test_what_is_missing_is_said(words, cure, hornbook):
    said = hornbook("lists", *words)
    assert said.status == 2
    assert cure in said.err


def test_a_unit_that_is_no_unit_is_said(hornbook, tmp_path):
    said = hornbook("lists", "brief", "--unit", "level-7/1", str(make_course(tmp_path)))
    assert said.status == 2
    assert "level-1/1" in said.err


def test_folders_may_stand_behind_options():
    with pytest.raises(SystemExit):
        build_parser().parse_args(["lists", "keys", "--nonsense"])


def test_the_studio_hears_sounds_and_voices(hornbook, tmp_path):
    audio = "::: {.audio track=1.1}\nZOFI: [wind] My hat is flying!\n\nBRAM: Run! (laughs)\n:::\n"
    root = make_course(tmp_path, {ONE: unit(1, audio)})
    tracks, lines = json.loads(hornbook("lists", "script", str(root), "--format", "json").out)
    (row,) = tracks["rows"]
    cells = dict(zip(tracks["columns"], row, strict=True))
    assert cells["voices (words)"] == "ZOFI (4), BRAM (1)"
    assert cells["sounds to make"] == "wind, laughs"
    assert cells["about"] == "0:06"  # 5 words at 100 a minute, and two pauses of 1.5 seconds
    assert [line[2:] for line in lines["rows"]] == [["ZOFI", "[wind] My hat is flying!"], ["BRAM", "Run! (laughs)"]]


@pytest.mark.parametrize(
    ("written", "rows"),
    [
        ("6 paper plates, glue", [["6", "paper plates"], ["", "glue"]]),
        ("beads (one bag for each pair), string", [["one bag for each pair", "beads"], ["", "string"]]),
        ("two dice for each group", [["two for each group", "dice"]]),
        ("a bell", [["", "a bell"]]),
        ("crisps and plums (check for allergies, please)", [["", "crisps and plums (check for allergies, please)"]]),
    ],
)
def test_quantities_are_taken_from_the_notes(written, rows, hornbook, tmp_path):
    text = unit(1).replace("**Aim:** talk about kites\n", f"**Aim:** talk about kites\n**Materials:** {written}\n")
    root = make_course(tmp_path, {ONE: text})
    (table,) = json.loads(hornbook("lists", "materials", str(root), "--format", "json").out)
    assert [row[4:] for row in table["rows"]] == rows


def test_an_activity_without_its_note_stands_in_the_safety_list(hornbook, tmp_path):
    text = unit(1).replace("### 1 Look and read. {.reading}", "### 1 Cut out a kite with scissors. {.make}")
    root = make_course(tmp_path, {ONE: text})
    (table,) = json.loads(hornbook("lists", "safety", str(root), "--format", "json").out)
    assert [row[-1] for row in table["rows"]] == ["missing"]
