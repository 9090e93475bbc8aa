"""`hornbook carry`: a book that exists already takes up hornbook, and from then on only new findings count."""

import os
import shutil
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from tests.commands.world import COURSE, ONE, TWO, make_course, unit

DRAFT = Path(__file__).parents[2] / "example_manuscript" / "first_draft"
ENORMOUS = "The kite is enormous."
LONG = "The kite is red and the kite is red and the kite is red and the kite is red."


@pytest.fixture
def book(tmp_path, monkeypatch):
    """A course of two units with old faults in the second one, and us in it."""
    lines = f"{ENORMOUS}\n\n{LONG}\n\n### 2 Read the rest. {{.reading}}\n\nThe kite is gigantic."
    return monkeypatch.chdir(make_course(tmp_path, {TWO: unit(2, lines)})) or tmp_path


def edit(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def opened(hornbook, *files: str) -> list[tuple[str, str]]:
    """The open findings, of the whole book or of some files: rule and words. Both must agree on a file."""
    said = hornbook("proof", *files, "--format", "json") if files else hornbook("book", "--format", "json")
    return [(one["rule"], one["text"]) for one in said.findings]


def carried(root: Path) -> list[str]:
    files = YAML(typ="safe").load((root / "carried.yaml").read_text(encoding="utf-8"))
    return [row["words"] for file in files for row in file["findings"] for _ in range(row.get("count", 1))]


def test_only_new_findings_count_afterwards(hornbook, book):
    before = len(opened(hornbook))
    assert before > 3
    said = hornbook("carry")
    assert said.status == 0
    assert said.out.startswith(f"carried.yaml: {before} findings carried over (")
    assert said.out.endswith("). From now on only new ones count.\n")
    assert (opened(hornbook), opened(hornbook, ONE), opened(hornbook, TWO)) == ([], [], [])
    assert f"Carried over from before (carried.yaml): {before}." in hornbook("book").out
    assert hornbook("release").status == 0

    edit(book / ONE, "The kite is red.", "The kite is massive.")
    assert opened(hornbook, ONE) == [("word-above-level", "massive")]
    assert ("word-above-level", "massive") in opened(hornbook)


def test_the_first_draft_is_carried_but_for_what_must_be_mended(hornbook, tmp_path, monkeypatch):
    shutil.copytree(DRAFT, tmp_path / "draft")
    monkeypatch.chdir(tmp_path / "draft")
    said = hornbook("carry")
    assert said.status == 0
    left = {"unreadable-manuscript", "stet-without-reason", "stet-unused", "stet-lapsed"}
    assert {rule for rule, _ in opened(hornbook)} == left
    assert {rule for rule, _ in opened(hornbook, ONE)} == left
    assert opened(hornbook, TWO) == []
    assert "4 findings cannot be carried over and must be mended" in said.out
    assert hornbook("book").status == 1, "what cannot be read still blocks"
    again = hornbook("carry").out
    assert "4 findings cannot be carried over and must be mended" in again
    assert "still open" not in again, "beginning anew would not take them up either"


def test_a_paragraph_may_move_and_its_activity_get_another_instruction(hornbook, book):
    hornbook("carry")
    edit(book / TWO, f"{ENORMOUS}\n\n", "")
    edit(book / TWO, "The kite is gigantic.", f"The kite is gigantic.\n\n{ENORMOUS}")
    edit(book / TWO, "### 2 Read the rest.", "### 2 Read.")
    assert opened(hornbook, TWO) == []
    assert ("word-above-level", "enormous") not in opened(hornbook)


def test_a_second_copy_of_an_old_fault_is_new(hornbook, book):
    hornbook("carry")
    (book / TWO).write_text((book / TWO).read_text() + f"\n### 3 Read it. {{.reading}}\n\n{LONG}\n")
    new = [found for found in opened(hornbook, TWO) if found[0] == "long-sentence"]
    assert new == [("long-sentence", LONG)]
    assert [found for found in opened(hornbook) if found[0] == "long-sentence"] == new
    line = (book / TWO).read_text().split("\n").index(LONG, 25) + 1
    assert f"{TWO}:{line}:1: query: " in hornbook("proof", TWO).out, "the new copy is shown, not the old one"


def test_the_same_fault_in_another_unit_is_new(hornbook, book):
    hornbook("carry")
    edit(book / ONE, "The kite is red.", ENORMOUS)
    assert opened(hornbook, ONE) == [("word-above-level", "enormous")]


def test_what_is_gone_is_told_and_drops_out_on_the_next_carry(hornbook, book):
    hornbook("carry")
    before = carried(book)
    edit(book / TWO, ENORMOUS, "The kite is red.")
    assert "Carried findings that are gone: 1." in hornbook("book").out
    assert carried(book) == before, "nothing but carry writes it"
    said = hornbook("carry")
    assert f"gone: {TWO}, Kites / Look and read.: word-above-level “enormous”" in said.out
    assert f"1 finding gone and dropped, {len(before) - 1} still carried (" in said.out
    assert carried(book) == [words for words in before if words != "enormous"]
    edit(book / TWO, "The kite is red.", ENORMOUS)
    assert ("word-above-level", "enormous") in opened(hornbook, TWO), "who brings it back brings it in anew"


def test_it_never_grows_by_itself(hornbook, book):
    hornbook("carry")
    before = (book / "carried.yaml").read_bytes()
    edit(book / ONE, "The kite is red.", "The kite is red.\n\nThe kite is massive.")
    for command in (["book"], ["proof"], ["release"], ["mend"], ["carry"]):
        hornbook(*command)
    assert (book / "carried.yaml").read_bytes() == before
    assert "1 new finding still open" in hornbook("carry").out
    assert opened(hornbook, ONE) == [("word-above-level", "massive")]


def test_a_file_that_is_renamed_keeps_what_it_carries(hornbook, book):
    hornbook("carry")
    (book / TWO).rename(book / "level-1/windy.md")
    assert opened(hornbook, "level-1/windy.md") == []
    assert ("word-above-level", "enormous") not in opened(hornbook)
    assert "0 findings gone and dropped" in hornbook("carry").out
    assert "file: level-1/windy.md" in (book / "carried.yaml").read_text()
    (book / "level-1/windy.md").unlink()
    assert hornbook("carry").status == 0
    assert "enormous" not in carried(book), "a unit that is gone takes its findings with it"


def test_a_unit_that_cannot_be_read_today_keeps_what_it_carries(hornbook, book):
    hornbook("carry")
    before = carried(book)
    for spoilt in (unit(2) + "\n<!-- to do\n", "\xe9".encode("latin-1")):
        (book / TWO).write_bytes(spoilt if isinstance(spoilt, bytes) else spoilt.encode())
        assert "gone" not in hornbook("book").out
        assert "0 findings gone and dropped" in hornbook("carry").out
        assert carried(book) == before


def test_what_a_rule_that_is_off_today_found_stays_carried(hornbook, book):
    hornbook("carry")
    before = carried(book)
    (book / "course.yaml").write_text(COURSE + "rules: {long-sentence: off}\n")
    assert hornbook("carry").status == 0
    assert carried(book) == before
    (book / "course.yaml").write_text(COURSE)
    assert opened(hornbook, TWO) == []


def test_a_stet_is_an_answer_and_the_entry_is_then_gone(hornbook, book):
    hornbook("carry")
    edit(book / TWO, ENORMOUS, f"<!-- stet word-above-level: it is the kite's name -->\n\n{ENORMOUS}")
    assert opened(hornbook, TWO) == []
    assert "1 finding gone" in hornbook("carry").out
    assert opened(hornbook, TWO) == []


def test_json_is_what_is_still_open(hornbook, book):
    said = hornbook("carry", "--format", "json")
    assert (said.status, said.findings, said.json["units"]) == (0, [], 2)
    edit(book / ONE, "The kite is red.", "The kite is massive.")
    assert [one["text"] for one in hornbook("carry", "--format", "json").findings][-1] == "massive"


def test_a_course_elsewhere_is_called_by_its_way_from_here(hornbook, book, monkeypatch):
    monkeypatch.chdir(book.parent)
    assert hornbook("carry", book.name).out.startswith(f"{book.name}/carried.yaml: ")


def test_nothing_is_carried_over_from_a_run_that_was_not_whole(hornbook, book):
    (book / "words/level-1.csv").write_text("word,part_of_speech,topic,unit\nkite,nown,toys,1\n")
    said = hornbook("carry")
    assert said.status == 2
    assert "words/level-1.csv:2:6: not checked: " in said.out
    assert not (book / "carried.yaml").exists()


@pytest.mark.skipif(os.name == "nt", reason="POSIX files")
def test_the_list_is_written_whole_or_not_at_all(hornbook, book, monkeypatch):
    def full(path, data):
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as here:
        here.setattr("lint_rules.commands.output.write_whole", full)
        said = hornbook("carry")
    assert said.status == 2
    assert "carried.yaml could not be written (No space left on device)" in said.err
    assert not (book / "carried.yaml").exists()
