"""Courses on disk and in git."""

import os
import subprocess
from pathlib import Path

import pytest

from lint_rules.course.folder import (
    CourseOnDisk,
    FolderError,
    NoCourse,
    find_course,
    path_in_course,
    read_course_folder,
    read_file,
)
from lint_rules.course.problem import CourseProblem
from lint_rules.source import Source

SETTINGS = "title: T\nlevels:\n  - name: level-1\n    cefr: A1\n    words: words/level-1.csv\n"


def unit(number: int) -> str:
    return f"---\nlevel: level-1\nunit: {number}\ntitle: T\n---\n\n# T\n"


@pytest.fixture(autouse=True)
def outside_git(monkeypatch):
    """The tests may themselves be run by a hook."""
    for name in list(os.environ):
        if name.startswith("GIT_") or name == "PRE_COMMIT":
            monkeypatch.delenv(name)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)


@pytest.fixture
def root(tmp_path) -> Path:
    course = tmp_path / "books" / "my course"
    files = {
        "course.yaml": SETTINGS,
        "words/level-1.csv": "word,part_of_speech,topic,unit\nkite,noun,toys,1\n",
        "level-1/unit-10.md": unit(10),
        "level-1/unit-2.md": unit(2),
        "level-1/unit-1.md": unit(1),
        "level-1/.draft.md": unit(3),
        "level-1/later/unit-4.md": unit(4),
        "art/kite.svg": "<svg/>",
        ".cache/x": "",
    }
    for path, text in files.items():
        (course / path).parent.mkdir(parents=True, exist_ok=True)
        (course / path).write_text(text, encoding="utf-8")
    return course


def read(root: Path, **options) -> CourseOnDisk:
    return read_course_folder(root, [], [], **options)


def paths(folder: CourseOnDisk) -> list[str]:
    return [source.path for source in folder.units]


def git(top: Path, *arguments: str) -> None:
    command = ["git", "-c", "user.name=T", "-c", "user.email=t@example.org", *arguments]
    subprocess.run(command, cwd=top, check=True, capture_output=True)


def test_a_course_is_read_with_its_units_in_order(root):
    folder = read(root)
    assert folder.problems == folder.unreadable == ()
    assert paths(folder) == ["level-1/unit-1.md", "level-1/unit-2.md", "level-1/unit-10.md"]
    assert [plan.unit for plan in folder.course.plans] == [1, 2, 10]
    assert [entry.word for entry in folder.course.words] == ["kite"]
    assert folder.files == {"course.yaml", "words/level-1.csv", "art/kite.svg", "level-1/later/unit-4.md"}


def test_a_unit_where_no_level_looks_for_it_is_named(root):
    for path in ("Level 1/unit-5.md", "draft/level-1/unit-1.md"):
        (root / path).parent.mkdir(parents=True)
        (root / path).write_text(unit(5))
    (root / "draft" / "course.yaml").write_text(SETTINGS)
    (root / "README.md").write_text("# How we work\n")
    (root / "style.md").write_text("---\ntitle: Style\n---\n\n# Style\n")
    (root / "level-1" / "unit-6.MD").write_text(unit(6))
    folder = read(root)
    assert [problem.path for problem in folder.strays] == [
        "Level 1/unit-5.md",
        "draft/level-1/unit-1.md",  # it says that it is unit 5, which this course lacks
        "level-1/.draft.md",
        "level-1/later/unit-4.md",
    ]
    assert "Did you mean 'level-1'?" in folder.strays[0].message
    assert "level-1/unit-6.MD" in paths(folder)


def test_the_course_of_a_file_is_the_nearest_one_above_it(root, monkeypatch):
    assert find_course(root / "level-1" / "unit-1.md") == root
    assert find_course(root) == root
    monkeypatch.chdir(root / "level-1")
    assert find_course(Path("unit-1.md")) == root
    assert find_course(Path("../level-1/not-written-yet.md")) == root
    assert path_in_course(root, Path("../level-1/unit-1.md")) == "level-1/unit-1.md"
    (root / "level-1" / "later" / "course.yaml").write_text(SETTINGS)
    assert find_course(Path("later/unit-4.md")) == root / "level-1" / "later"


def test_a_file_under_no_course_is_told_how_to_start_one(tmp_path):
    (tmp_path / "course.yaml").mkdir()
    with pytest.raises(NoCourse, match="hornbook start"):
        find_course(tmp_path / "unit.md")


def test_a_folder_under_no_course_is_not_called_a_dot(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(NoCourse, match=r"^This folder is under no course: there is no course\.yaml in it or"):
        find_course(Path("."))


def test_a_file_of_another_course_is_refused(root, tmp_path):
    with pytest.raises(NoCourse, match="is not in the course"):
        path_in_course(root, tmp_path / "unit.md")


def test_what_cannot_be_read_is_reported_and_the_rest_is_read(root, tmp_path):
    (tmp_path / "secret.md").write_text(unit(7))
    level = root / "level-1"
    (level / "bad.md").write_bytes(b"# caf\xe9\n")
    (level / "folder.md").mkdir()
    (level / "gone.md").symlink_to("nowhere.md")
    (level / "inside.md").symlink_to("unit-1.md")
    (level / "loop.md").symlink_to("loop.md")
    (level / "out.md").symlink_to(tmp_path / "secret.md")
    os.mkfifo(level / "pipe.md")
    folder = read(root)
    assert paths(folder) == ["level-1/inside.md", "level-1/unit-1.md", "level-1/unit-2.md", "level-1/unit-10.md"]
    said = {problem.path.split("/")[1]: problem for problem in folder.unreadable}
    assert (said["bad.md"].line, said["bad.md"].column) == (1, 6)
    assert "folder" in said["folder.md"].message
    assert "no file" in said["gone.md"].message
    assert "leaves the course" in said["out.md"].message
    assert "not an ordinary file" in said["pipe.md"].message
    assert set(said) == {"bad.md", "folder.md", "gone.md", "loop.md", "out.md", "pipe.md"}


def test_a_level_whose_folder_leads_out_of_the_course_is_not_followed(root, tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere" / "unit-1.md").write_text(unit(1))
    settings = SETTINGS + "  - name: level-2\n    cefr: A1\n"
    (root / "course.yaml").write_text(settings)
    (root / "level-2").symlink_to(tmp_path / "elsewhere")
    assert "level-2/unit-1.md" not in paths(read(root))
    refused = read_file(root, "level-2/unit-1.md")
    assert isinstance(refused, CourseProblem)
    assert "leaves the course" in refused.message


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="permissions do not bind this user")
def test_a_file_that_may_not_be_read_is_reported(root):
    (root / "level-1" / "unit-1.md").chmod(0)
    assert [problem.path for problem in read(root).unreadable] == ["level-1/unit-1.md"]


def test_a_missing_list_is_said_where_course_yaml_names_it(root):
    (root / "words" / "level-1.csv").unlink()
    problems = read(root).problems
    assert [(problem.path, problem.line, problem.column) for problem in problems] == [("course.yaml", 5, 12)]
    assert "no file words/level-1.csv" in problems[0].message


def test_a_list_in_another_encoding_is_said_at_its_own_place(root):
    (root / "words" / "level-1.csv").write_bytes("word,part_of_speech,topic,unit\ncafé,,,\n".encode("latin-1"))
    problems = read(root).problems
    assert [(problem.path, problem.line, problem.column) for problem in problems] == [("words/level-1.csv", 2, 4)]


def test_a_course_file_in_another_encoding_is_a_problem(root):
    (root / "course.yaml").write_bytes(b"title: caf\xe9\n")
    folder = read(root)
    assert folder.course is None
    assert [(problem.path, problem.line, problem.column) for problem in folder.problems] == [("course.yaml", 1, 11)]


def test_no_course_file_is_an_error(tmp_path):
    with pytest.raises(FolderError, match="no file"):
        read(tmp_path)


class TestInGit:
    """Drafts that nobody has added do not count, when a hook runs us or the caller says so."""

    @pytest.fixture
    def top(self, root) -> Path:
        top = root.parent
        git(top, "init", "-q")
        git(top, "add", ".")
        (root / "level-1" / "unit-3.md").write_text(unit(3))
        (root / "art" / "draft.svg").write_text("<svg/>")
        return top

    def test_drafts_count_unless_told_otherwise(self, root, top):
        assert "level-1/unit-3.md" in paths(read(root))
        assert "level-1/unit-3.md" not in paths(read(root, tracked_only=True))

    def test_drafts_do_not_count_in_a_hook(self, root, top, monkeypatch):
        monkeypatch.setenv("PRE_COMMIT", "1")
        folder = read(root)
        assert paths(folder) == ["level-1/unit-1.md", "level-1/unit-2.md", "level-1/unit-10.md"]
        assert "art/draft.svg" not in folder.files
        assert "art/kite.svg" in folder.files
        assert "level-1/unit-3.md" in paths(read(root, tracked_only=False))

    def test_a_unit_that_is_deleted_from_the_index_is_gone(self, root, top):
        git(top, "rm", "-q", "--cached", "my course/level-1/unit-2.md")
        assert "level-1/unit-2.md" not in paths(read(root, tracked_only=True))

    def test_a_unit_that_is_in_the_index_but_not_on_disk_is_gone(self, root, top):
        (root / "level-1" / "unit-2.md").unlink()
        folder = read(root, tracked_only=True)
        assert paths(folder) == ["level-1/unit-1.md", "level-1/unit-10.md"]
        assert folder.unreadable == ()

    def test_names_that_git_would_quote(self, root, top):
        odd = 'level-1/unité 5 "x".md'
        (root / odd).write_text(unit(5))
        git(top, "add", ".")
        assert odd in paths(read(root, tracked_only=True))

    def test_the_course_may_be_the_repository_itself(self, root, tmp_path):
        git(root, "init", "-q")
        git(root, "add", "course.yaml", "level-1/unit-1.md")
        assert paths(read(root, tracked_only=True)) == ["level-1/unit-1.md"]

    def test_a_relative_index_holds_for_a_hook_at_the_top(self, root, top, monkeypatch):
        """git runs hooks at the top, with GIT_INDEX_FILE as a path from there (of a partial commit, say)."""
        (top / ".git" / "index").rename(top / ".git" / "next-index-1.lock")
        git(top, "add", "my course/level-1/unit-3.md")
        monkeypatch.setenv("GIT_INDEX_FILE", ".git/next-index-1.lock")
        monkeypatch.chdir(top)
        assert paths(read(root, tracked_only=True)) == ["level-1/unit-1.md", "level-1/unit-2.md", "level-1/unit-10.md"]

    def test_another_repositorys_index_does_not_hold_here(self, root, top, tmp_path, monkeypatch):
        monkeypatch.setenv("GIT_INDEX_FILE", ".git/index-of-another")
        monkeypatch.setenv("GIT_DIR", str(tmp_path / "another"))
        monkeypatch.chdir(tmp_path)
        assert "level-1/unit-1.md" in paths(read(root, tracked_only=True))

    def test_a_course_outside_any_repository_is_read_from_disk(self, root, monkeypatch):
        monkeypatch.setenv("PRE_COMMIT", "1")
        assert len(paths(read(root))) == 3

    def test_git_that_fails_is_an_error_and_never_an_empty_book(self, root, top):
        (top / ".git" / "index").write_bytes(b"nothing like an index")
        with pytest.raises(FolderError, match="git could not list"):
            read(root, tracked_only=True)

    def test_git_that_is_missing_is_an_error(self, root, top, monkeypatch):
        monkeypatch.setenv("PATH", str(root))
        with pytest.raises(FolderError, match="git is needed"):
            read(root, tracked_only=True)


def test_a_file_keeps_its_bytes(root):
    data = b"\xef\xbb\xbf# T\r\n"
    (root / "level-1" / "unit-1.md").write_bytes(data)
    source = read_file(root, "level-1/unit-1.md")
    assert isinstance(source, Source)
    assert (source.bom, source.encode()) == (True, data)
