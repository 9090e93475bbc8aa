"""The small course to begin from."""

import os
from pathlib import Path

import pytest

from lint_rules.course import start
from lint_rules.course.folder import read_course_folder
from lint_rules.course.start import CannotStart, start_course, template_files
from lint_rules.course.versions import CURRENT
from lint_rules.manuscript.reading import read_unit


def everything(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_a_course_is_written_and_reads_without_a_problem(tmp_path):
    written = start_course(tmp_path / "new" / "course")
    root = tmp_path / "new" / "course"
    assert [path.relative_to(root).as_posix() for path in written] == list(template_files())
    assert set(everything(root)) == {"course.yaml", "words/level-1.csv", "level-1/unit-01.md"}
    folder = read_course_folder(root, [], [])
    assert folder.problems == folder.unreadable == ()
    assert [source.path for source in folder.units] == ["level-1/unit-01.md"]
    assert [plan.grammar for plan in folder.course.plans] == [("present simple be",)]
    assert read_unit(folder.units[0]).problems == ()
    assert folder.course.adopted == CURRENT  # who begins today begins with all of today's rules


def test_its_lessons_keep_to_its_own_limits(tmp_path):
    start_course(tmp_path)
    folder = read_course_folder(tmp_path, [], [])
    unit, limits = read_unit(folder.units[0]), folder.course.levels[0].limits
    for lesson in unit.lessons:
        minutes = [int(field.text.split()[0]) for a in lesson.activities if (field := a.part.field("Time"))]
        total = lesson.part.field("Time")
        assert total is not None
        assert sum(minutes) == int(total.text.split()[0])
        assert limits.lesson_minutes[0] <= sum(minutes) <= limits.lesson_minutes[1]
        assert len(minutes) == len(lesson.activities)
    for activity in unit.activities:
        assert len(activity.heading.passage.text.split()) <= limits.instruction_words
        assert activity.part.field("Steps") is not None


def test_a_folder_with_other_things_in_it_keeps_them(tmp_path):
    (tmp_path / ".git").mkdir()
    (tmp_path / "README.md").write_text("mine")
    start_course(tmp_path)
    assert (tmp_path / "README.md").read_text() == "mine"
    assert (tmp_path / "course.yaml").exists()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".start")] == []


@pytest.mark.parametrize("taken", ["course.yaml", "words", "level-1"])
def test_nothing_is_written_over(tmp_path, taken):
    (tmp_path / taken).write_text("mine")
    with pytest.raises(CannotStart, match="nothing was written"):
        start_course(tmp_path)
    assert everything(tmp_path) == {taken: b"mine"}


def test_a_second_start_is_refused(tmp_path):
    start_course(tmp_path)
    before = everything(tmp_path)
    with pytest.raises(CannotStart, match="a course already"):
        start_course(tmp_path)
    assert everything(tmp_path) == before


def test_a_file_is_no_place_for_a_course(tmp_path):
    (tmp_path / "x").write_text("mine")
    for place in (tmp_path / "x", tmp_path / "x" / "y"):
        with pytest.raises(CannotStart):
            start_course(place)
    assert everything(tmp_path) == {"x": b"mine"}


@pytest.mark.parametrize("fails_at", [1, 2, 3])
def test_a_disk_that_fails_in_the_middle_leaves_nothing(tmp_path, monkeypatch, fails_at):
    calls, rename = [], os.rename

    def failing(old, new):
        calls.append(new)
        if len(calls) == fails_at:
            raise OSError(28, "No space left on device")
        rename(old, new)

    monkeypatch.setattr(start.os, "rename", failing)
    with pytest.raises(CannotStart, match="No space left"):
        start_course(tmp_path / "a" / "b")
    assert len(calls) == fails_at
    assert list(tmp_path.iterdir()) == []
