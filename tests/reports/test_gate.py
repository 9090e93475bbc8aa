"""What `hornbook release` lets through and what it does not: stops, queries, lapsed stets, unread units, checks."""

from pathlib import Path

import pytest

from tests.english.conftest import stand_in
from tests.english.test_client import reply, says
from tests.reports.releases import DRAFT, Release, hornbook, release, unit, write_course

CLEAN = unit("This is a kite.")
QUERY = unit("This is a colour. This is a color.")  # spelling-variety is a query
LAPSED = "<!-- stet long-text until 2020-03-01: until the story is cut -->"


def made(tmp_path: Path, body: str, *settings: str, more: tuple[str, ...] = ()) -> Release:
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": body}, settings)
    (tmp_path / "out").mkdir(exist_ok=True)
    return release(str(course), tmp_path / "out", *more)


def test_a_clean_book_can_go_and_says_what_nobody_checked(tmp_path):
    run = made(tmp_path, CLEAN)
    assert run.status == 0, run.said
    assert run.said.rstrip().endswith("This book can go.")
    assert "Not checked: english-error (no English checker was named; see --english)." in run.said
    assert [row["what"] for row in run.record["not_checked"] if row["why"].startswith("no English")] == [
        "english-error"
    ]


def test_a_query_blocks_a_release_and_not_a_book(tmp_path):
    run = made(tmp_path, QUERY)
    assert run.status == 1
    assert "This book cannot go yet. Still to do:\n  1 query to answer" in run.said
    assert hornbook("book", str(tmp_path / "book"))[0] == 0


def test_a_note_does_not_block(tmp_path):
    run = made(tmp_path, QUERY, "spelling-variety: note")
    assert run.status == 0
    assert "1 note for information." in run.said


def test_a_finding_let_stand_does_not_block_and_is_counted(tmp_path):
    run = made(tmp_path, unit("<!-- stet spelling-variety: a sign in a shop abroad -->\n\nThe sign says color."))
    assert run.status == 0, run.said
    assert "1 finding let stand, with its reason (1 query)." in run.said
    assert [(row["rule"], row["reason"], row["lets_stand"]) for row in run.record["stets"]] == [
        ("spelling-variety", "a sign in a shop abroad", ["color"])
    ]


@pytest.mark.parametrize("setting", ["stet-lapsed: query", "stet-lapsed: note", "stet-lapsed: off"])
def test_no_setting_lets_a_lapsed_stet_through(tmp_path, setting):
    run = made(tmp_path, unit(f"{LAPSED}\n\nThis is a kite."), setting, "stet-unused: off")
    assert run.status == 1
    assert "1 stet that has lapsed" in run.said


def test_no_stet_lets_a_lapsed_stet_through(tmp_path):
    body = f"<!-- stet stet-lapsed: we know -->\n\n{LAPSED}\n\nThis is a kite."
    run = made(tmp_path, unit(body), "stet-unused: off")
    assert run.status == 1
    assert "1 stet that has lapsed" in run.said


def test_a_stet_whose_day_is_to_come_lets_stand(tmp_path):
    body = "<!-- stet spelling-variety until 2999-03-01: until the art is in -->\n\nThe sign says color."
    run = made(tmp_path, unit(body))
    assert run.status == 0, run.said
    assert run.record["stets"][0]["until"] == "2999-03-01"


def test_a_unit_that_is_not_text_blocks_whatever_the_settings(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": CLEAN}, ["unreadable-manuscript: off"])
    (course / "level-1" / "unit-02.md").write_bytes(b"---\nunit: 2\n---\n\n# Caf\xe9\n")
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 1
    assert "1 unit that could not be read in full" in run.said
    assert [file["what"] for file in run.record["files"]] == ["course", "unit", "unit", "word list"]
    assert {row["where"] for row in run.record["not_checked"]} >= {"level-1/unit-02.md"}


def test_a_unit_that_cannot_be_read_as_one_blocks_whatever_the_settings(tmp_path):
    run = made(tmp_path, "---\nlevel: [\n---\n\n# Kites\n", "unreadable-manuscript: off")
    assert run.status == 1
    assert "1 unit that could not be read in full" in run.said


def test_a_unit_in_no_levels_folder_blocks(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": CLEAN, "level1/unit-02.md": unit("Hi.", 2)})
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 1
    assert "1 file or row left out" in run.said
    assert {row["where"] for row in run.record["not_checked"]} >= {"level1/unit-02.md"}


def test_required_english_without_a_checker_is_a_check_that_did_not_run(tmp_path):
    run = made(tmp_path, CLEAN, more=("--require", "english"))
    assert run.status == 3
    assert "1 check that could not run (english-error)" in run.said
    assert run.run["invocations"][0]["executionSuccessful"] is False
    assert run.junit.find(".//testcase/error") is not None


def test_required_english_that_does_not_answer_is_a_check_that_did_not_run(tmp_path):
    run = made(tmp_path, CLEAN, more=("--require", "english", "--english", "http://127.0.0.1:9"))
    assert run.status == 3
    assert run.record["checked_with"]["english"] == "does not answer"


def test_english_that_was_named_must_answer_even_if_not_required(tmp_path):
    assert made(tmp_path, CLEAN, more=("--english", "http://127.0.0.1:9")).status == 3


def test_required_english_that_the_course_switches_off_is_a_check_that_did_not_run(tmp_path):
    run = made(tmp_path, CLEAN, "english-error: off", more=("--require", "english", "--english", "http://127.0.0.1:9"))
    assert run.status == 3
    assert "course.yaml switches it off" in run.said


def test_required_english_that_answers_lets_a_clean_book_go(tmp_path):
    with stand_in(says(200, reply([]))) as (address, bodies):
        run = made(tmp_path, CLEAN, more=("--require", "english", "--english", address))
    assert run.status == 0, run.said
    assert any("This+is+a+kite." in body for body in bodies)
    assert run.record["checked_with"]["english"].startswith("LanguageTool 6.8")
    assert "english-error" not in {row["what"] for row in run.record["not_checked"]}


def test_required_english_that_gives_up_half_way_is_a_check_that_did_not_run(tmp_path):
    with stand_in(says(200, reply([], incomplete=True))) as (address, _):
        run = made(tmp_path, unit("This is a long kite."), more=("--require", "english", "--english", address))
    assert run.status == 3
    assert "1 check that could not run (english-error)" in run.said


def test_carried_findings_are_shown_and_do_not_block(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": QUERY})
    assert hornbook("carry", str(course))[0] == 0
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 0, run.said
    assert "1 finding carried over from before" in run.said
    assert run.record["carried"] == 1
    assert {file["what"] for file in run.record["files"]} == {"course", "word list", "unit", "carried findings"}


def test_a_bad_row_of_a_word_list_is_a_run_that_could_not_be_done(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": CLEAN}, words="kite,banana,toys,1\n")
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 2
    assert "This book cannot go yet." in run.said


def test_a_course_without_units_is_a_run_that_could_not_be_done(tmp_path):
    course = write_course(tmp_path / "book", {})
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 2
    assert run.record["verdict"] == {"can_go": False, "in_the_way": [run.complained.strip().removeprefix("hornbook: ")]}
    assert run.run["invocations"][0]["executionSuccessful"] is False
    assert run.junit.find(".//testcase/error") is not None


def test_all_files_are_written_although_the_release_is_blocked(draft):
    assert draft.status == 1
    assert sorted(file.name for file in draft.folder.iterdir()) == [
        "out.sarif",
        "out.xml",
        "record.json",
        "report.html",
    ]


@pytest.mark.parametrize("second", ["same.out", "./same.out", "../here/same.out"])
def test_two_options_that_name_one_file_are_an_error_before_anything_is_written(tmp_path, second):
    (tmp_path / "here").mkdir()
    course = str(write_course(tmp_path / "book", {"level-1/unit-01.md": CLEAN}))
    status, said, complained = hornbook(
        "release", course, "--sarif", "same.out", "--junit", second, cwd=tmp_path / "here"
    )
    assert (status, said) == (2, "")
    assert "--sarif and --junit name the same file" in complained
    assert list((tmp_path / "here").iterdir()) == []


def test_a_file_of_the_course_is_never_written_over(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": CLEAN})
    before = (course / "course.yaml").read_bytes()
    status, _, complained = hornbook(
        "release", str(course), "--junit", str(tmp_path / "out.xml"), "--record", f"{course}/course.yaml"
    )
    assert status == 2
    assert "would write over a file of the course" in complained
    assert (course / "course.yaml").read_bytes() == before
    assert b"would write over" in (tmp_path / "out.xml").read_bytes()


def test_a_folder_that_is_not_there_is_an_error_before_the_book_is_read(tmp_path):
    status, said, complained = hornbook("release", DRAFT, "--record", str(tmp_path / "no" / "record.json"))
    assert (status, said) == (2, "")
    assert "there is no folder" in complained
