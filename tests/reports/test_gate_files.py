"""The files of a release on every way out, and what they must not be written over."""

import html
import json
import os
import subprocess
from pathlib import Path

import pytest

from tests.reports.releases import hornbook, release, unit, write_course

FILES = ["out.sarif", "out.xml", "record.json", "report.html"]


@pytest.fixture
def course(tmp_path: Path) -> Path:
    (tmp_path / "out").mkdir()
    return write_course(tmp_path / "book", {"level-1/unit-01.md": unit("This is a kite.")})


def asked(folder: Path, *but: str) -> list[str]:
    options = dict(zip(("--sarif", "--junit", "--record", "--report"), FILES, strict=True))
    return [word for option, name in options.items() if option not in but for word in (option, str(folder / name))]


def spoil_course(course: Path) -> None:
    (course / "course.yaml").write_text("title: [\n")


def spoil_carried(course: Path) -> None:
    (course / "carried.yaml").write_text("{")


def remove_units(course: Path) -> None:
    (course / "level-1" / "unit-01.md").unlink()


@pytest.mark.parametrize("spoil", [spoil_course, spoil_carried, remove_units])
def test_a_run_that_cannot_be_done_leaves_files_that_say_so_and_none_from_before(course, tmp_path, spoil):
    out = tmp_path / "out"
    assert hornbook("release", str(course), *asked(out))[0] == 0
    assert json.loads((out / "record.json").read_text())["verdict"]["can_go"] is True
    spoil(course)
    status, said, complained = hornbook("release", str(course), *asked(out))
    assert (status, said) == (2, "")
    why = complained.strip().splitlines()[0].removeprefix("hornbook: ")
    record = json.loads((out / "record.json").read_text())
    assert record["verdict"]["can_go"] is False
    assert why in record["verdict"]["in_the_way"]
    assert "can_go" not in (out / "report.html").read_text()
    for name in FILES:
        assert why.split(": ")[-1][:40] in html.unescape((out / name).read_text()), name


def test_hornbook_that_breaks_leaves_no_pass(course, tmp_path, monkeypatch):
    def breaks(*_args, **_more):
        raise RuntimeError("a bug of ours")

    monkeypatch.setattr("lint_rules.commands.release.book_report", breaks)
    status, _, complained = hornbook("release", str(course), *asked(tmp_path / "out"))
    assert status == 3
    assert "itself broke" in complained
    record = json.loads((tmp_path / "out" / "record.json").read_text())
    assert (record["finished"], record["exit_status"]) == (False, 3)


def test_while_it_runs_the_files_say_that_it_has_not_ended(course, tmp_path, monkeypatch):
    seen = []

    def looks(*_args, **_more):
        seen.append((tmp_path / "out" / "record.json").read_text())
        raise KeyboardInterrupt

    monkeypatch.setattr("lint_rules.commands.release.book_report", looks)
    (tmp_path / "out" / "record.json").write_text('{"hornbook": "0.1", "verdict": {"can_go": true}}')
    hornbook("release", str(course), *asked(tmp_path / "out"))
    assert "has not ended" in seen[0]
    assert json.loads((tmp_path / "out" / "record.json").read_text())["verdict"]["can_go"] is False


@pytest.mark.parametrize("option", ["--sarif", "--junit", "--record", "--report"])
def test_no_output_is_written_through_a_link(course, tmp_path, option):
    victim = tmp_path / "victim"
    victim.write_text("mine")
    (tmp_path / "out" / "link").symlink_to(victim)
    others = asked(tmp_path / "out", option)
    status, _, complained = hornbook("release", str(course), *others, option, str(tmp_path / "out" / "link"))
    assert status == 2
    assert "link" in complained
    assert victim.read_text() == "mine"
    assert all("link" in (tmp_path / "out" / name).read_text() for name in map(os.path.basename, others[1::2]))


def test_no_output_is_written_below_a_linked_folder_of_the_book(course, tmp_path):
    (tmp_path / "victim").mkdir()
    (course / "reports").symlink_to(tmp_path / "victim")
    status, _, complained = hornbook("release", str(course), "--record", str(course / "reports" / "record.json"))
    assert status == 2
    assert "link" in complained
    assert list((tmp_path / "victim").iterdir()) == []


@pytest.mark.parametrize(
    "path", ["course.yaml", "words/level-1.csv", "level-1/unit-01.md", "art/kite.svg", "notes.txt", "level-1/.draft.md"]
)
@pytest.mark.parametrize("command", ["release --record", "release --sarif", "book --report", "words --csv"])
def test_an_output_never_overwrites_a_file_of_the_manuscript(course, path, command):
    file = course / path
    file.parent.mkdir(exist_ok=True)
    if not file.exists():
        file.write_text("mine, about hornbook")
    before = file.read_bytes()
    name, option = command.split()
    status, _, complained = hornbook(name, str(course), option, str(file))
    assert status == 2
    assert "would write over" in complained
    assert file.read_bytes() == before


def test_an_earlier_output_inside_the_book_is_written_anew(course):
    for _ in range(2):
        assert hornbook("release", str(course), *asked(course))[0] == 0
        assert (
            hornbook("words", str(course), "--csv", str(course / "map.csv"), "--xlsx", str(course / "map.xlsx"))[0] == 0
        )


def test_carried_findings_are_not_written_through_a_link(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("This is a color. This is a colour.")})
    (course / "carried.yaml").symlink_to(tmp_path / "victim")
    status, _, complained = hornbook("carry", str(course))
    assert status == 2
    assert "link" in complained
    assert not (tmp_path / "victim").exists()


def test_a_linked_unit_is_not_mended(tmp_path):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("This is a color. This is a colour.")})
    (course / "level-1" / "unit-01.md").rename(course / "real.txt")
    (course / "level-1" / "unit-01.md").symlink_to("../real.txt")
    before = (course / "real.txt").read_bytes()
    status, said, _ = hornbook("mend", str(course / "level-1" / "unit-01.md"))
    assert status == 2
    assert "link" in said
    assert (course / "real.txt").read_bytes() == before


@pytest.mark.parametrize("option", ["--sarif", "--junit"])
def test_an_output_can_go_to_standard_output_alone(course, option):
    status, said, complained = hornbook("release", str(course), option, "-")
    assert status == 0
    assert said.startswith(("{", "<?xml"))
    assert "This book can go" in complained
    assert not (Path.cwd() / "-").exists()


@pytest.mark.parametrize(
    "more", [["--sarif", "-", "--junit", "-"], ["--sarif", "-", "--format", "json"], ["--record", "-"]]
)
def test_two_things_on_standard_output_are_refused(course, more):
    assert hornbook("release", str(course), *more)[0] == 2


def test_the_record_names_the_commit_and_whether_the_tree_was_clean(course, tmp_path):
    def git(*words: str) -> str:
        around = {"HOME": str(tmp_path), "PATH": os.environ["PATH"], "GIT_CONFIG_GLOBAL": os.devnull}
        named = ["-c", "user.name=T", "-c", "user.email=t@example.org"]
        done = subprocess.run(["git", *named, *words], cwd=tmp_path, check=True, capture_output=True, env=around)
        return done.stdout.decode().strip()

    git("init", "-q")
    git("add", "book")
    git("commit", "-qm", "one")
    run = release(str(course), course)  # its own files do not make the tree unclean
    assert run.record["git"] == {"commit": git("rev-parse", "HEAD"), "clean": True}
    (course / "level-1" / "unit-01.md").write_text(unit("This is a red kite."))
    assert release(str(course), tmp_path / "out").record["git"]["clean"] is False


def test_without_a_repository_the_record_says_so(course, tmp_path):
    assert release(str(course), tmp_path / "out").record["git"] is None
