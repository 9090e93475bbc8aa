"""Mends change what they say and nothing else; files are written whole or not at all."""

import os
import signal
import subprocess
import sys
import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.atomic_write import NotWritten, write_whole
from lint_rules.engine.registry import load_rules
from lint_rules.engine.suppression.mends import apply_mends
from lint_rules.finding import Edit, Mend
from lint_rules.source import Span
from tests.support import run_files


def mend(*edits):
    return Mend("mend", tuple(Edit(Span(start, end), text) for start, end, text in edits))


def test_mends_that_do_not_touch_are_all_applied():
    text, applied = apply_mends("abcdef", [mend((0, 1, "A")), mend((4, 6, "E"))])
    assert (text, len(applied)) == ("AbcdE", 2)


def test_the_second_of_two_that_clash_waits():
    text, applied = apply_mends("abcdef", [mend((0, 3, "X")), mend((2, 4, "Y"))])
    assert (text, len(applied)) == ("Xdef", 1)


def test_the_second_of_two_insertions_at_one_place_waits_since_the_first_may_answer_it():
    text, applied = apply_mends("ab", [mend((1, 1, "1")), mend((1, 1, "2"))])
    assert (text, len(applied)) == ("a1b", 1)


@pytest.mark.parametrize(
    ("first", "second", "text"),
    [
        ((0, 2, "X"), (2, 4, "Y"), "XYef"),  # they touch, and share no character
        ((2, 4, "Y"), (0, 2, "X"), "XYef"),
        ((0, 2, "X"), (1, 2, "Y"), "Xcdef"),
        ((0, 2, "X"), (2, 2, "Y"), "Xcdef"),  # what is put in beside a change may depend on it
        ((2, 2, "Y"), (0, 2, "X"), "abYcdef"),
        ((2, 2, "Y"), (2, 4, "X"), "abYcdef"),
        ((0, 2, "X"), (1, 1, "Y"), "Xcdef"),
        ((0, 2, "X"), (3, 3, "Y"), "XcYdef"),
        ((3, 3, "Y"), (0, 2, "X"), "XcYdef"),
        ((1, 1, "Y"), (2, 4, "X"), "aYbXef"),
        ((4, 4, "Y"), (5, 5, "X"), "abcdYeXf"),
    ],
)
def test_two_mends_side_by_side(first, second, text):
    assert apply_mends("abcdef", [mend(first), mend(second)])[0] == text


def test_a_mend_of_several_edits_is_applied_whole_or_waits_whole():
    text, applied = apply_mends("abcdef", [mend((0, 1, "A")), mend((0, 1, "X"), (4, 5, "Y"))])
    assert (text, len(applied)) == ("Abcdef", 1)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_file_that_may_not_be_written_is_not_replaced(tmp_path):
    file = tmp_path / "unit.md"
    file.write_bytes(b"old")
    file.chmod(0o444)
    with pytest.raises(PermissionError):
        write_whole(file, b"new")
    assert file.read_bytes() == b"old"


@given(
    st.text(max_size=20), st.lists(st.tuples(st.integers(0, 20), st.integers(0, 20), st.text(max_size=3)), max_size=4)
)
def test_no_mends_crash_and_none_changes_nothing(text, raw):
    mends = [mend((min(a, b, len(text)), min(max(a, b), len(text)), new)) for a, b, new in raw]
    new_text, applied = apply_mends(text, mends)
    assert applied or new_text == text
    assert len(new_text) == len(text) + sum(len(e.text) - (e.span.end - e.span.start) for m in applied for e in m.edits)


def test_a_file_keeps_its_permissions(tmp_path):
    file = tmp_path / "unit.md"
    file.write_bytes(b"old")
    file.chmod(0o640)
    write_whole(file, b"new")
    assert file.read_bytes() == b"new"
    assert file.stat().st_mode & 0o777 == 0o640
    assert [p.name for p in tmp_path.iterdir()] == ["unit.md"]


def test_nothing_is_written_through_a_link(tmp_path):
    (tmp_path / "real.md").write_bytes(b"old")
    (tmp_path / "link.md").symlink_to("real.md")
    (tmp_path / "nowhere.md").symlink_to("not-there.md")
    for name in ("link.md", "nowhere.md"):
        with pytest.raises(NotWritten, match="link"):
            write_whole(tmp_path / name, b"new")
    assert (tmp_path / "real.md").read_bytes() == b"old"
    assert sorted(path.name for path in tmp_path.iterdir()) == ["link.md", "nowhere.md", "real.md"]


def test_nothing_is_written_below_a_linked_folder_of_the_course(tmp_path):
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "book").mkdir()
    (tmp_path / "book" / "out").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NotWritten, match="link"):
        write_whole(tmp_path / "book" / "out" / "x.json", b"new", tmp_path / "book")
    assert list((tmp_path / "elsewhere").iterdir()) == []


@pytest.mark.skipif(os.name == "nt", reason="POSIX signals")
def test_a_kill_in_the_middle_leaves_the_old_file_or_the_new_one(tmp_path):
    file = tmp_path / "unit.md"
    old, new = b"a" * 200_000, b"b" * 200_000
    file.write_bytes(old)
    code = f"""
from pathlib import Path
from lint_rules.atomic_write import NotWritten, write_whole
from tests.support import run_files
while True:
    for letter in (b"b", b"a"):
        write_whole(Path({str(file)!r}), letter * 200_000)
"""
    for wait in (0.25, 0.31, 0.4):
        writer = subprocess.Popen([sys.executable, "-c", code])
        time.sleep(wait)
        writer.send_signal(signal.SIGKILL)
        writer.wait()
        assert file.read_bytes() in (old, new)


NUMBERED = (
    "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n# T\n\n## Lesson 1: L\n\n### 1 Look.\n\n### 3 Read.\n\nA kite.\n"
)


@pytest.mark.parametrize(("more", "mended"), [("", True), ("\n::: teacher\nDo activity 3 again.\n:::\n", False)])
def test_no_activity_is_renumbered_where_others_may_speak_of_its_number(language, more, mended):
    module = next(module for module in load_rules() if module.rule.name == "activity-numbering")
    course = "title: T\nlevels:\n  - {name: level-1, cefr: A1}\n"
    files = {"course.yaml": course, "words/level-1.csv": "word,part_of_speech,topic,unit\n"}
    (finding,) = run_files(files | {"level-1/unit-01.md": NUMBERED + more}, [module], language).findings
    assert finding.text == "3"
    assert (finding.mend is not None) is mended
