"""Whatever looks like manuscript and is not read is named: a release must not be clean because nobody looked."""

import os
from pathlib import Path

import pytest

from lint_rules.course.folder import read_course_folder

SETTINGS = "title: Kites\nlevels:\n  - name: level-1\n    cefr: A1\n"


def unit(number: int, level: str = "level-1") -> str:
    return f"---\nlevel: {level}\nunit: {number}\ntitle: Kites {number}\n---\n\n# Kites {number}\n"


@pytest.fixture
def root(tmp_path: Path) -> Path:
    course = tmp_path / "book"
    (course / "level-1").mkdir(parents=True)
    (course / "course.yaml").write_text(SETTINGS)
    (course / "level-1" / "unit-01.md").write_text(unit(1))
    return course


def named(root: Path) -> dict[str, str]:
    return {problem.path: problem.message for problem in read_course_folder(root, [], []).strays}


@pytest.mark.parametrize(
    "path",
    [
        "level-1/unit-02.markdown",
        "level-1/unit-02.txt",
        "level-1/unit-02.md.",
        "level-1/unit-02.md~",
        "level-1/unit-02",
        "level-1/.unit-02.md",
        "level-1/more/unit-02.md",
        ".hidden/unit-02.md",
        ".github/deep/er/chapter.md",
        "chapter",
        "extra/notes.txt",
    ],
)
def test_a_unit_under_another_name_or_in_another_place_is_named(root, path):
    (root / path).parent.mkdir(parents=True, exist_ok=True)
    (root / path).write_text(unit(2))
    assert list(named(root)) == [path]
    assert "was not read" in named(root)[path]


@pytest.mark.parametrize("path", ["level-1/unit-02.docx", "level-1/Unit 2.rtf", "level-1/unit-02.markdown"])
def test_a_file_that_is_named_as_a_unit_is_named_whatever_it_holds(root, path):
    (root / path).write_bytes(b"{\\rtf1 \xff\xfe")
    assert list(named(root)) == [path]


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("README.md", "# How we work\n"),
        ("style.md", "---\ntitle: Style\n---\n\n# Style\n"),
        ("level-1/art/unit-02.svg", "<svg/>"),
        ("level-1/unit-02.mp3", "ID3"),
        ("level-1/notes.txt", "Ask the artist for unit 2.\n"),
        ("words/level-1.csv", "word,part_of_speech,topic,unit\n"),
        (".git/unit-02.md", unit(2)),
        (".venv/pyvenv.cfg", "home = /usr\n"),
        ("node_modules/kit/unit-02.md", unit(2)),
    ],
)
def test_what_only_lies_beside_a_book_is_left_alone(root, path, text):
    (root / path).parent.mkdir(parents=True, exist_ok=True)
    (root / path).write_text(text)
    assert named(root) == {}


def test_a_linked_level_is_named(root, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    os.rename(root / "level-1", tmp_path / "elsewhere" / "level-1")
    (root / "level-1").symlink_to(tmp_path / "elsewhere" / "level-1")
    assert list(named(root)) == ["level-1"]
    assert "link" in named(root)["level-1"]


def test_a_linked_folder_counts_only_when_it_hides_units(root, tmp_path):
    (tmp_path / "pictures").mkdir()
    (tmp_path / "pictures" / "kite.svg").write_text("<svg/>")
    (tmp_path / "more" / "deep").mkdir(parents=True)
    (tmp_path / "more" / "deep" / "unit-02.md").write_text(unit(2))
    (root / "art").symlink_to(tmp_path / "pictures")
    (root / "more").symlink_to(tmp_path / "more")
    (root / "loop").symlink_to(root)
    assert list(named(root)) == ["more"]


def test_a_course_inside_the_course_hides_what_the_outer_one_lacks(root):
    inner = root / "draft"
    (inner / "level-1").mkdir(parents=True)
    (inner / "course.yaml").write_text(SETTINGS)
    (inner / "level-1" / "unit-01.md").write_text(unit(1))
    assert named(root) == {}, "a copy of what is read hides nothing"
    (inner / "level-1" / "unit-02.md").write_text(unit(2))
    assert list(named(root)) == ["draft/level-1/unit-02.md"]


def test_a_course_begun_inside_a_level_is_named(root):
    (root / "level-1" / "course.yaml").write_text(SETTINGS)
    assert list(named(root)) == ["level-1/course.yaml"]


def test_a_pipe_and_a_device_are_not_waited_for(root):
    os.mkfifo(root / "level-1" / "chapter")
    os.mkfifo(root / "level-1" / "unit-02.txt")
    (root / "level-1" / "zero").symlink_to("/dev/zero")
    assert list(named(root)) == ["level-1/unit-02.txt"]
