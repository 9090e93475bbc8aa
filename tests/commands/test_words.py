"""``hornbook words``: where each target word is taught, met again and tested, and what is missing, in every form.

The course is small enough to be read here; what the map must say of it was worked out by hand.
"""

import csv
import json
import re
from io import BytesIO, StringIO
from pathlib import Path

import pytest
from openpyxl import load_workbook

from lint_rules.course.model import Course
from lint_rules.reports.words import Line, as_csv, as_spreadsheet
from tests.commands.world import Hornbook, make_course
from tests.support import course_of

COURSE = """\
title: Kites
levels:
  - {name: level-1, cefr: A1, words: words/level-1.csv, units: 2, recycle: 2}
  - {name: level-2, cefr: A1, words: words/level-2.csv, units: 1, recycle: 1}
"""
LIST = """\
word,part_of_speech,topic,unit,use
kite,noun,toys,1,
boat,noun,Travel,1,
drum,noun,toys|music,1,know
red,adjective,colours,2,
hat,noun,,2,
sun,noun,,2,
"""
LIST_2 = "word,part_of_speech,topic,unit\nworm,noun,animals,\nbee,noun,animals,1\n"
LESSON = "## Lesson {number}: Look\n\n### 1 Read.{kinds}\n\n{page}\n\n"


def unit(level: int, number: int, *pages: str) -> str:
    """A unit whose lessons have one activity each; a page that starts with `Test:` is a test."""
    lessons = "".join(
        LESSON.format(
            number=at, kinds=" {.test}" if page.startswith("Test:") else "", page=page.removeprefix("Test:").strip()
        )
        for at, page in enumerate(pages, start=1)
    )
    return f"---\nlevel: level-{level}\nunit: {number}\ntitle: Unit {number}\n---\n\n# Unit {number}\n\n{lessons}"


BOOK = {
    "course.yaml": COURSE,
    "words/level-1.csv": LIST,
    "words/level-2.csv": LIST_2,
    "level-1/unit-01.md": unit(1, 1, "A kite. A kite and a drum.", "My kite. My drum."),
    "level-1/unit-02.md": unit(
        1, 2, "The kite is red. A drum. A hat.", "Is it red? A sun.", "Test: Draw a kite. It is red. A hat."
    ),
    "level-2/unit-01.md": unit(2, 1, "A worm. A bee.", "The worm and the kite.", "Test: A worm. A bee."),
}
# Level, word, where it is taught, met again, how often, and where tested. The test is a later lesson as well.
ROWS = {
    "kite": ("level-1", "1.1", "1.2, 2.1, 2.3, level-2 1.2", 4, "2.3"),
    "boat": ("level-1", "", "", 0, ""),
    "drum": ("level-1", "1.1", "1.2, 2.1", 2, ""),
    "red": ("level-1", "2.1", "2.2, 2.3", 2, "2.3"),
    "hat": ("level-1", "2.1", "2.3", 1, "2.3"),
    "sun": ("level-1", "2.2", "", 0, ""),
    "worm": ("level-2", "1.1", "1.2, 1.3", 2, "1.3"),
    "bee": ("level-2", "1.1", "1.3", 1, "1.3"),
}


@pytest.fixture
def book(hornbook: Hornbook, tmp_path: Path) -> Path:
    return make_course(tmp_path, BOOK)


def words_of(hornbook: Hornbook, book: Path, *options: str) -> list[str]:
    said = hornbook("words", str(book), "--csv", "-", *options)
    assert said.status == 0, said.err
    return [row["word"] for row in csv.DictReader(StringIO(said.out))]


def test_every_word_has_its_places_in_every_form(hornbook, book):
    rows = list(csv.DictReader(StringIO(hornbook("words", str(book), "--csv", "-").out)))
    found = {
        row["word"]: (row["level"], row["taught"], row["met_again"], int(row["times_met"]), row["tested"])
        for row in rows
    }
    assert found == ROWS
    as_json = json.loads(hornbook("words", str(book), "--format", "json").out)
    assert [{name: str(value or "") for name, value in row.items()} for row in as_json] == [
        {name: "" if value == "0" else value for name, value in row.items()} for row in rows
    ]
    drum = next(row for row in rows if row["word"] == "drum")
    assert (drum["part_of_speech"], drum["topic"], drum["use"], drum["unit"]) == ("noun", "toys|music", "know", "1")
    assert next(row for row in rows if row["word"] == "worm")["unit"] == ""  # the list names none


def test_what_is_missing_is_said_of_the_words_that_miss_it_and_of_no_other(hornbook, book):
    rows = csv.DictReader(StringIO(hornbook("words", str(book), "--csv", "-").out))
    missing = {row["word"]: row["missing"] for row in rows}
    assert missing.pop("boat").startswith("not taught")
    assert {word: said for word, said in missing.items() if said} == {
        # the drum need only be known, so nobody asks for a test of it
        "hat": "met too seldom (1 of 2)",
        "sun": "met too seldom (0 of 2); not tested",
    }


def test_the_terminal_says_first_what_is_missing_with_numbers_and_words(hornbook, book, monkeypatch):
    monkeypatch.setenv("COLUMNS", "160")
    said = hornbook("words", str(book)).out
    first, _, table = said.partition("1.4 is unit 1, lesson 4")
    at = [
        re.search(rf"{what}: {number}\b(.*?)(?=\n  \w|\nlevel-|$)", first, re.S)
        for what, number in (("not taught", 1), ("met too seldom", 2))
    ]
    assert [("boat" in one[1], "hat" in one[1]) for one in at if one] == [(True, False), (False, True)]
    assert {"hat (1)", "sun (0)"} <= set(re.findall(r"\w+ \(\d+\)", first))  # in how many later lessons
    assert "boat (" not in first
    assert "drum (" not in first
    assert "level-1: 6 target words" in first
    assert re.search(r"level-2: 2 target words.*(?:all of them taught|nothing is missing)", first, re.S)
    assert "kite" not in first
    assert "worm" not in first
    assert "1.2" not in first
    assert not any(line.endswith(" ") for line in first.splitlines())
    assert len(re.findall(r"word +topic +unit +taught +met again +tested +missing", table)) == 2
    for word, (_, taught, met, times, tested) in ROWS.items():
        line = re.search(rf"^ {word} \((?:noun|adjective)\).*$", table, re.M)
        assert line, word
        row = next(one for one in LIST.splitlines() + LIST_2.splitlines() if one.startswith(f"{word},")).split(",")
        assert re.search(rf"\) +{re.escape(row[2])} +{row[3]} +{taught.split(',')[0]}", line[0])
        assert (f"{times}: {met.split(',')[0]}" if times else " 0 ") in line[0]
        assert tested in line[0]
    assert table.index("\nlevel-1") < table.index("drum (noun)") < table.index("\nlevel-2") < table.index("bee (noun)")


def test_gaps_are_what_is_missing_and_no_more(hornbook, book):
    assert words_of(hornbook, book, "--gaps") == ["boat", "hat", "sun"]
    said = hornbook("words", str(book), "--gaps").out
    whole = hornbook("words", str(book)).out
    assert whole.startswith(said.rstrip())
    assert "taught" not in said.replace("not taught", "")
    nothing = hornbook("words", str(book), "--gaps", "--topic", "animals").out
    assert "nothing is missing" in nothing
    assert "something missing" not in nothing
    assert len(nothing.strip().splitlines()) == 1


def test_a_book_in_which_nothing_is_missing_says_so(hornbook, book):
    said = hornbook("words", str(book), "--unit", "1", "--topic", "animals").out
    assert "bee" in said
    assert re.search("all of them taught|nothing is missing", said)
    assert not re.search("not taught|too seldom|not tested", said)


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ((), ["boat", "kite", "drum", "hat", "sun", "red", "bee", "worm"]),  # by unit, topic and word
        (("--sort", "word"), ["boat", "drum", "hat", "kite", "red", "sun", "bee", "worm"]),
        (("--sort", "topic"), ["hat", "sun", "boat", "red", "kite", "drum", "bee", "worm"]),
        (("--sort", "met"), ["boat", "sun", "hat", "drum", "red", "kite", "bee", "worm"]),
        (("--topic", "MUSIC"), ["drum"]),
        (("--topic", "travel"), ["boat"]),
        (("--unit", "1"), ["boat", "kite", "drum", "bee"]),
        (("--unit", "2", "--topic", "colours"), ["red"]),
    ],
)
def test_lines_are_chosen_and_sorted_within_their_level(hornbook, book, options, words):
    assert words_of(hornbook, book, *options) == words


def test_no_word_fits_only_where_none_does(hornbook, book):
    assert "No target word fits" in hornbook("words", str(book), "--unit", "7").out
    assert "No target word fits" not in hornbook("words", str(book)).out
    wrong = hornbook("words", str(book), "--topic", "toy")
    assert (wrong.status, wrong.out) == (2, "")
    assert "animals, colours, music, toys" in wrong.err


def test_without_word_lists_it_says_what_to_do(hornbook, tmp_path):
    course = make_course(tmp_path, BOOK | {"course.yaml": re.sub(r", words: words/level-\d.csv", "", COURSE)})
    for number in (1, 2):
        (course / f"words/level-{number}.csv").unlink()
    said = hornbook("words", str(course)).out
    assert "no word lists yet" in said
    assert "No target word fits" not in said


def test_the_workbook_has_a_sheet_a_level_with_the_same_cells(hornbook, book, tmp_path):
    file = tmp_path / "map.xlsx"
    assert hornbook("words", str(book), "--xlsx", str(file)).status == 0
    sheets = load_workbook(file)
    assert sheets.sheetnames == ["level-1", "level-2"]
    rows = list(csv.reader(StringIO(hornbook("words", str(book), "--csv", "-").out)))
    for sheet in sheets:
        cells = [
            [str(value) if value is not None else "" for value in row] for row in sheet.iter_rows(values_only=True)
        ]
        assert cells[0] == [name.replace("_", " ") for name in rows[0]]
        assert cells[1:] == [row for row in rows[1:] if row[0] == sheet.title]
        assert sheet.freeze_panes == "C2"
        assert sheet.auto_filter.ref == f"A1:K{len(cells)}"


def line(word: str, level: str = "level-1") -> Line:
    return Line(level, word, "", "", "say", 0, "", "", 0, "", "")


@pytest.mark.parametrize("word", ["=1+1", "+1", "-a", "@SUM(A1)"])
def test_no_word_of_a_list_is_a_formula(word):
    # OWASP, "CSV Injection": a cell that starts with =, +, -, @, tab or carriage return is run by spreadsheets.
    (row,) = csv.DictReader(StringIO(as_csv([line(word)])))
    assert row["word"] == f"'{word}"
    book = load_workbook(BytesIO(as_spreadsheet([line(word)], levels("level-1"))))
    assert (book["level-1"]["B2"].value, book["level-1"]["B2"].data_type) == (word, "s")


def test_a_word_that_looks_like_a_spreadsheets_fault_stays_a_word():
    book = load_workbook(BytesIO(as_spreadsheet([line("#N/A")], levels("level-1"))))
    assert (book["level-1"]["B2"].value, book["level-1"]["B2"].data_type) == ("#N/A", "s")


def levels(*names: str) -> Course:
    rows = "".join(f'  - {{name: "{name}", cefr: A1}}\n' for name in names)
    lists = {f"words/{name}.csv": "word,part_of_speech,topic,unit\n" for name in names}
    return course_of({"course.yaml": f"title: Kites\nlevels:\n{rows}", **lists})


def test_sheets_have_names_that_spreadsheets_take():
    # Microsoft, "Rename a worksheet": at most 31 characters, none of these marks, none twice.
    long = "a-very-long-name-of-a-level-for-children"
    book = load_workbook(BytesIO(as_spreadsheet([], levels(long, f"{long}-2", "plain", f"{long}-3"))))
    assert book.sheetnames == [long[:31], f"{long[:28]} 2", "plain", f"{long[:28]} 3"]
    assert [sheet.auto_filter.ref for sheet in book] == ["A1:K1"] * 4
    assert load_workbook(BytesIO(as_spreadsheet([], levels("'")))).sheetnames == ["level"]  # the level is called '


def test_many_places_stand_on_several_lines_of_their_cell():
    (sheet,) = load_workbook(BytesIO(as_spreadsheet([line("kite")], levels("level-1"))))
    wrapped = [sheet.cell(1, cell.column).value for cell in sheet[2] if cell.alignment.wrap_text]
    assert wrapped == ["met again", "tested", "missing"]


def test_nothing_is_cut_short_on_a_narrow_terminal(hornbook, book, monkeypatch):
    monkeypatch.setenv("COLUMNS", "40")
    assert "…" not in hornbook("words", str(book)).out


def test_what_is_missing_stands_out_in_the_table_and_nothing_else_does(hornbook, book, monkeypatch):
    monkeypatch.setenv("COLUMNS", "160")
    monkeypatch.setenv("FORCE_COLOR", "1")
    said = hornbook("words", str(book)).out
    table = said.partition("is unit 1, lesson 4")[2].splitlines()
    bold = {row for row in table for word in ROWS if word in row and "(" in row and "\x1b[1m" in row}
    assert {word for word in ROWS if any(re.search(rf"\b{word} \(", row) for row in bold)} == {"boat", "hat", "sun"}
    assert "\x1b[1mmet too seldom" in said
