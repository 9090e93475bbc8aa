"""The release record: every file that was read, what was found, and the same bytes a second time but for the date."""

import hashlib
import json
from pathlib import Path

import pytest

from lint_rules import __version__
from tests.reports.releases import DRAFT, EXAMPLE, REPOSITORY, hornbook, release, unit, without_date, write_course


def test_it_names_every_file_that_was_read_with_its_digest(example):
    root = REPOSITORY / EXAMPLE
    rows = [{**row, "path": row["path"].removeprefix(f"{EXAMPLE}/")} for row in example.record["files"]]
    assert all(row["path"].startswith(f"{EXAMPLE}/") for row in example.record["files"])
    assert [row["path"] for row in rows] == sorted(row["path"] for row in rows)
    for row in rows:
        assert row["sha256"] == hashlib.sha256((root / row["path"]).read_bytes()).hexdigest(), row
    kinds = {row["path"]: row["what"] for row in rows}
    assert kinds["course.yaml"] == "course"
    assert kinds["words/level-1.csv"] == kinds["words/level-2.csv"] == "word list"
    units = [path for path, what in kinds.items() if what == "unit"]
    assert units == sorted(path.relative_to(root).as_posix() for path in root.glob("level-*/*.md"))
    named = {path for path in (root / "art").iterdir() if f"art/{path.name}" in _text_of_units(root)}
    assert {path for path, what in kinds.items() if what == "picture"} == {f"art/{path.name}" for path in named}


def _text_of_units(root: Path) -> str:
    return "".join(path.read_text("utf-8") for path in root.glob("level-*/*.md"))


def test_it_holds_versions_verdict_counts_and_stets(draft):
    record = draft.record
    assert record["hornbook"] == __version__
    assert record["verdict"]["can_go"] is False
    assert record["checked_with"]["english"] is None
    assert record["checked_with"]["libraries"]["spacy"].startswith("3.")
    said = json.loads(hornbook("book", DRAFT, "--format", "json")[1])
    assert sum(record["counts"][name] for name in ("stop", "query", "note")) == len(said["points"])
    assert sum(sum(row.get(n, 0) for n in ("stop", "query", "note")) for row in record["rules"].values()) == len(
        said["points"]
    )
    assert sum(len(stet["lets_stand"]) for stet in record["stets"]) == record["counts"]["let_stand"] > 0


def test_a_second_run_gives_the_same_bytes_but_for_the_date(draft, tmp_path, monkeypatch):
    again = release(DRAFT, tmp_path)
    first, second = ((r.folder / "record.json").read_bytes() for r in (draft, again))
    assert without_date(first) == without_date(second)
    assert (draft.folder / "out.sarif").read_bytes() == (again.folder / "out.sarif").read_bytes()
    assert (draft.folder / "out.xml").read_bytes() == (again.folder / "out.xml").read_bytes()


def test_the_date_can_be_given_for_a_reproducible_build(tmp_path, monkeypatch):
    # reproducible-builds.org, specification of SOURCE_DATE_EPOCH: seconds since 1970-01-01T00:00:00Z
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("This is a kite.")})
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    (tmp_path / "one").mkdir()
    (tmp_path / "two").mkdir()
    one = release(str(course), tmp_path / "one").text("record.json")
    assert json.loads(one)["date"] == "2023-11-14T22:13:20Z"
    assert one == release("book", tmp_path / "two", cwd=tmp_path).text("record.json")


def test_a_date_that_is_none_is_said_and_nothing_is_written(tmp_path, monkeypatch):
    course = write_course(tmp_path / "book", {"level-1/unit-01.md": unit("This is a kite.")})
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "yesterday")
    run = release(str(course), tmp_path)
    assert run.status == 2
    assert "SOURCE_DATE_EPOCH" in run.complained
    assert b"SOURCE_DATE_EPOCH" in (tmp_path / "out.xml").read_bytes()


@pytest.mark.parametrize("name", ["example", "draft"])
def test_no_path_of_this_machine_is_in_it(name, request):
    text = request.getfixturevalue(name).text("record.json")
    assert str(REPOSITORY) not in text
    assert "example_manuscript/level-1/unit-01.md" in text or name == "draft"  # from the top of the repository
