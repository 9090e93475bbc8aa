"""A release misses the units that the course promises, and can be of one level."""

from pathlib import Path

import pytest

from tests.reports.releases import Release, hornbook, release, unit, write_course

CLEAN = "This is a kite."


def made(tmp_path: Path, numbers: list[int], promised: int | None, *more: str) -> Release:
    units = {f"level-1/unit-{number:02}.md": unit(CLEAN, number, f"Kite {number}") for number in numbers}
    course = write_course(tmp_path / "book", units)
    if promised is not None:
        text = (course / "course.yaml").read_text()
        (course / "course.yaml").write_text(text.replace("    cefr: A1\n", f"    cefr: A1\n    units: {promised}\n"))
    (tmp_path / "out").mkdir()
    return release(str(course), tmp_path / "out", *more)


@pytest.mark.parametrize(
    ("numbers", "promised", "said"),
    [
        ([1], 3, "level-1: units 2 and 3 of 3 are not there"),
        ([1, 3], 3, "level-1: unit 2 of 3 is not there"),
        ([1, 3], None, "level-1: unit 2 of 3 is not there"),
        ([2], None, "level-1: unit 1 of 2 is not there"),
    ],
)
def test_a_promised_unit_that_is_not_there_keeps_the_book_from_going(tmp_path, numbers, promised, said):
    run = made(tmp_path, numbers, promised)
    assert run.status == 1
    assert said in run.said
    assert "This book can go" not in run.said
    assert run.record["verdict"]["can_go"] is False
    assert any(said in line for line in run.record["verdict"]["in_the_way"])
    assert run.junit.findall(".//failure"), "a build server shows it"
    assert any(said in result["message"]["text"] for result in run.run["results"])


def test_all_that_is_promised_lets_a_book_go(tmp_path):
    run = made(tmp_path, [1, 2, 3], 3)
    assert run.status == 0, run.said
    assert "so none can be missed" not in run.said


def test_a_release_says_when_nothing_is_promised(tmp_path):
    run = made(tmp_path, [1], None)
    assert run.status == 0, run.said
    assert "does not say how many units level-1 will have" in run.said


@pytest.fixture
def two_levels(tmp_path) -> Path:
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit(CLEAN)})
    text = (course / "course.yaml").read_text()
    more = "  - name: level-2\n    cefr: A1\n    units: 2\nrules:\n"
    (course / "course.yaml").write_text(text.replace("rules:\n", more))
    (course / "level-2").mkdir()
    faulty = unit("This is a color.", 1, "Shops").replace("level-1", "level-2")
    (course / "level-2" / "unit-01.md").write_text(faulty)
    (tmp_path / "out").mkdir()
    return course


def test_one_level_can_go_while_another_is_being_written(two_levels, tmp_path):
    run = release(str(two_levels), tmp_path / "out", "--part", "level-1")
    assert run.status == 0, run.said
    assert "level-1 can go" in run.said
    assert [row["path"] for row in run.record["files"] if row["what"] == "unit"] == ["level-1/unit-01.md"]
    assert run.record["part"] == "level-1"


def test_a_part_is_held_to_what_it_promises_and_to_its_findings(two_levels, tmp_path):
    run = release(str(two_levels), tmp_path / "out", "--part", "level-2")
    assert run.status == 1
    assert "level-2: unit 2 of 2 is not there" in run.said
    assert "1 query to answer" in run.said


def test_a_part_that_is_no_level_is_an_error(two_levels):
    status, _, complained = hornbook("release", str(two_levels), "--part", "level-3")
    assert status == 2
    assert "It has level-1, level-2" in complained


def test_a_unit_that_hides_behind_its_name_keeps_the_book_from_going(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit(CLEAN), "level-1/unit-02.txt": unit("Hi.", 2)})
    (tmp_path / "out").mkdir()
    run = release(str(course), tmp_path / "out")
    assert run.status == 1
    assert "level-1/unit-02.txt" in run.said
    assert any("unit-02.txt" in result["message"]["text"] for result in run.run["results"])
