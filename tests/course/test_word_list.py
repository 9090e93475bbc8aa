"""Word lists as people and spreadsheets write them."""

import csv
import io

import openpyxl
import pytest

from lint_rules.course.folder import decode
from lint_rules.course.problem import CourseProblem
from lint_rules.course.word_list import parted, read_word_list
from lint_rules.source import Source
from tests.course.support import read, read_list

ROWS = [
    ["word", "part_of_speech", "topic", "unit", "use", "note"],
    ["kite", "noun", "toys|weather", "1", "say", ""],
    ["ice cream", "noun", "food", "2", "know", 'cold, sweet; "yum"'],
    ["next to", "preposition", "", "3", "", "two\nlines"],
    ["o’clock", "", "time", "", "", ""],
]


def written(**options) -> str:
    out = io.StringIO()
    csv.writer(out, **options).writerows(ROWS)
    return out.getvalue()


def words_of(text: str) -> list[tuple[str, str, tuple[str, ...], int, str, str]]:
    course, problems = read_list(text)
    assert problems == ()
    return [(e.word, e.part_of_speech, e.topics, e.unit, e.use, e.note) for e in course.words]


WANTED = [
    ("kite", "noun", ("toys", "weather"), 1, "say", ""),
    ("ice cream", "noun", ("food",), 2, "know", 'cold, sweet; "yum"'),
    ("next to", "preposition", (), 3, "say", "two lines"),
    ("o’clock", "", ("time",), 0, "say", ""),
]


@pytest.mark.parametrize(
    "options",
    [
        {"dialect": "excel"},
        {"dialect": "unix"},
        {"delimiter": ";"},
        {"delimiter": ";", "lineterminator": "\n", "quoting": csv.QUOTE_ALL},
        {"delimiter": "\t"},
    ],
    ids=["comma", "all quoted", "semicolon", "semicolon all quoted", "tab"],
)
def test_every_way_of_writing_csv(options):
    assert words_of(written(**options)) == WANTED


def test_the_line_that_tells_a_spreadsheet_its_separator():
    assert words_of("sep=;\r\n" + written(delimiter=";")) == WANTED


def test_a_byte_order_mark_is_no_part_of_the_first_column():
    source = decode("words/level-1.csv", b"\xef\xbb\xbf" + written().encode())
    assert isinstance(source, Source)
    assert words_of(source.text) == WANTED


def test_rows_of_a_spreadsheet_with_empty_cells_and_numbers():
    """A sheet that openpyxl saved, read and written as CSV: None is an empty cell, a number may be 4.0."""
    book = openpyxl.Workbook()
    sheet = book.active
    for row in (
        ["word", "part_of_speech", "topic", "unit", "use", "note"],
        ["kite", "noun", "toys", 1, None, None],
        [None] * 6,
        ["ball", "noun", None, 4.0, None, None],
    ):
        sheet.append(row)
    saved = io.BytesIO()
    book.save(saved)
    saved.seek(0)
    out = io.StringIO()
    csv.writer(out).writerows(openpyxl.load_workbook(saved).active.values)
    assert [row[:4] for row in words_of(out.getvalue())] == [("kite", "noun", ("toys",), 1), ("ball", "noun", (), 4)]
    assert words_of("word,part_of_speech,topic,unit\nball,noun,,4.0\n")[0][3] == 4


def test_columns_in_any_order_and_as_headings_are_typed():
    text = "Unit, Topic ,Part of speech,WORD\n2,toys,Noun,kite\n"
    assert words_of(text) == [("kite", "noun", ("toys",), 2, "say", "")]


def test_blank_rows_and_empty_columns_at_the_end_do_not_count():
    text = "word;part_of_speech;topic;unit;;\r\n;;;;;\r\n\r\nkite;noun;toys;1;;\r\n   \r\n"
    assert [row[0] for row in words_of(text)] == ["kite"]


def test_a_row_may_stop_early():
    assert words_of("word,part_of_speech,topic,unit\nkite\nball,noun\n")[1][:2] == ("ball", "noun")


def test_a_spelling_may_stand_twice_as_different_words():
    rows = ["fish,noun,animals,1", "fish,verb,,1", "fish,noun,food,2", "Turkey,noun,,", "turkey,noun,,"]
    assert len(words_of("\n".join(["word,part_of_speech,topic,unit", *rows]))) == 5


def test_the_line_of_a_row_counts_lines_inside_cells():
    course, _ = read_list('word,part_of_speech,topic,unit,note\nkite,noun,,1,"a\nb\n\nc"\n\nball,noun,,1,\n')
    assert [(entry.word, entry.row) for entry in course.words] == [("kite", 2), ("ball", 7)]


def test_a_broken_row_leaves_the_rest_of_the_list():
    course, problems = read_list('word,part_of_speech,topic,unit\nkite,nuon,,1\nslide,"noun"s,,1\nball,noun,,x\n')
    assert [(e.word, e.part_of_speech, e.unit) for e in course.words] == [("kite", "", 1), ("ball", "noun", 0)]
    assert [(problem.line, problem.column, problem.stops) for problem in problems] == [
        (2, 6, False),
        (3, 1, False),
        (4, 12, False),
    ]


@pytest.mark.parametrize("text", ["", "\n\n", "kite,noun,toys,1\n", 'word,part_of_speech,topic,unit\nkite,"noun\n'])
def test_a_list_whose_rest_cannot_be_read_stops_the_run(text):
    _, problems = read_list(text)
    assert any(problem.stops for problem in problems)


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        ("word,part_of_speech,topic,unit\ncafé,noun,,1\n".encode("latin-1"), 2, 4),
        ("word,part_of_speech,topic,unit\nкит,noun,,1\n".encode("cp1251"), 2, 1),
        (written().encode("utf-16"), 1, 1),
    ],
    ids=["latin-1", "cp1251", "utf-16"],
)
def test_a_list_in_another_encoding_is_told_how_to_become_utf_8(data, line, column):
    problem = decode("words/level-1.csv", data)
    assert isinstance(problem, CourseProblem)
    assert (problem.line, problem.column) == (line, column)
    assert "Save it again with the encoding UTF-8" in problem.message


def test_units_are_free_until_the_course_says_how_many():
    settings = "title: T\nlevels: [{name: level-1, cefr: A1}]\n"
    course, problems = read(
        {"course.yaml": settings, "words/level-1.csv": "word,part_of_speech,topic,unit\nkite,,,60\n"}
    )
    assert problems == ()
    assert course.words[0].unit == 60


@pytest.mark.parametrize(
    ("written", "use"),
    [
        ("say", "say"),
        ("Active", "say"),
        ("productive", "say"),
        ("know", "know"),
        ("passive", "know"),
        ("receptive", "know"),
    ],
)
def test_what_the_trade_calls_a_use_is_read(written, use):
    entries, problems = read_word_list(
        Source("words/level-1.csv", f"word,part_of_speech,topic,unit,use\nkite,n.,toys,1,{written}\n"),
        level=0,
        level_name="level-1",
        units=9,
    )
    assert [(entry.use, entry.part_of_speech) for entry in entries] == [(use, "noun")]
    assert problems == ()


@pytest.mark.parametrize("written", ["known", "Revision", "review"])
def test_words_that_children_bring_along_are_no_target_words(written):
    rows = f"word,topic,unit,use,part_of_speech\ncat,pets,1,{written},\nkite,toys,1,{written},\nkite,toys,2,,\n"
    settings = (
        "title: The Lantern Road\nknown: [pizza]\nlevels:\n  - name: level-1\n    cefr: A1\n    words: words/l.csv\n"
    )
    course, problems = read({"course.yaml": settings, "words/l.csv": rows})
    assert problems == ()
    assert course.known == ("pizza", "cat")
    assert [(entry.word, entry.unit) for entry in course.words] == [("kite", 2)]


def test_words_of_unit_0_are_those_of_the_year_before():
    course, problems = read_list("word,part_of_speech,topic,unit\ncat,noun,pets,0\nkite,noun,toys,1\n")
    assert problems == ()
    assert course.known == ("cat",)
    assert [entry.word for entry in course.words] == ["kite"]


@pytest.mark.parametrize(
    ("note", "known"),
    [
        ("again from last year", True),
        ("known from the year before", True),
        ("met in the last book", True),
        ("shown in the test", False),
        ("from the story", False),
        ("last word of the unit", False),
        ("not taught last year", False),
        ("never met in the last book", False),
        ("different from last year's word", False),
    ],
)
def test_a_note_may_say_that_children_bring_a_word_along(note, known):
    rows = f"word,part_of_speech,topic,unit,use,note\ncat,noun,animals,1,active,{note}\n"
    entries, problems = read_word_list(Source("words/l.csv", rows), level=0, level_name="level-1", units=3)
    assert not problems
    assert (parted(entries)[1] == ("cat",)) == known


def test_a_habit_of_the_house_is_said_once_and_loses_no_row():
    rows = "".join(f"w{number},thing,toys,1,ready\n" for number in range(30))
    entries, problems = read_word_list(
        Source("words/level-1.csv", "word,part_of_speech,topic,unit,use\n" + rows),
        level=0,
        level_name="level-1",
        units=9,
    )
    assert len(entries) == 30
    assert [problem.line for problem in problems] == [2, 2]


def _said(text: str) -> tuple[int, list[tuple[str, bool]]]:
    entries, problems = read_word_list(Source("words/l.csv", text), level=0, level_name="level-1", units=3)
    return len(entries), [(problem.message, problem.harmless) for problem in problems]


@pytest.mark.parametrize("more", ["translation,page,picture", "page", ",", "tradução,ページ", "comment"])
def test_columns_of_the_house_are_its_own(more):
    cells = ",".join("x" for _ in more.split(","))
    assert _said(f"word,part_of_speech,topic,unit,{more}\nkite,noun,toys,1,{cells}\n") == (1, [])


def test_a_column_that_is_nearly_an_optional_one_is_a_word_to_the_editor():
    found, ((message, harmless),) = _said("word,part_of_speech,topic,unit,notes\nkite,noun,toys,1,x\n")
    assert (found, harmless) == (1, True)
    assert "Did you mean 'note'?" in message


def test_a_column_that_is_nearly_one_that_is_missing_is_a_fault():
    _, problems = _said("word,part_of_speech,topics,unit\nkite,noun,toys,1\n")
    assert problems == [("'topics' is not a column of a word list. Did you mean 'topic'?", False)]


@pytest.mark.parametrize("char", ["\x1b", "\u200b", "\x00", "\u202e", "\ufeff"])
def test_a_character_that_nobody_can_see_is_said_and_is_not_in_the_word(char):
    source = Source("words/l.csv", f"word,part_of_speech,topic,unit\nki{char}te,noun,toys,1\n")
    (entry,), (problem,) = read_word_list(source, level=0, level_name="level-1", units=3)
    assert entry.word == "kite"
    assert "nobody can see" in problem.message


@pytest.mark.parametrize(
    ("written", "part"),
    [("modal verb", "verb"), ("plural noun", "noun"), ("question word", "pronoun"), ("Adj.", "adjective")],
)
def test_what_lists_call_a_part_of_speech_is_read(written, part):
    assert words_of(f"word,part_of_speech,topic,unit\ncan,{written},,1\n")[0][1] == part
