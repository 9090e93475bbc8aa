"""`hornbook mend`, as a writer meets it: it changes what it says and nothing else, once, whole or not at all."""

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lint_rules.commands import mend
from tests.commands.world import COURSE, ONE, TWO, make_course, process, unit

DRAFT = Path(__file__).parents[2] / "example_manuscript" / "first_draft"
MARK = b"\xef\xbb\xbf"


@pytest.fixture
def draft(tmp_path, monkeypatch):
    """A copy of the first draft, with us in it."""
    shutil.copytree(DRAFT, tmp_path / "draft")
    monkeypatch.chdir(tmp_path / "draft")
    return tmp_path / "draft"


def texts(folder: Path) -> dict[str, bytes]:
    return {file.relative_to(folder).as_posix(): file.read_bytes() for file in folder.rglob("*") if file.is_file()}


def test_the_first_draft_is_mended_in_a_few_lines_and_a_second_time_in_none(hornbook, draft):
    before = texts(draft)
    said = hornbook("mend")
    assert said.status == 0
    after = texts(draft)
    assert [path for path in after if after[path] != before.get(path)] == [ONE]
    old, new = before[ONE].splitlines(keepends=True), after[ONE].splitlines(keepends=True)
    taken, put = [line for line in old if line not in new], [line for line in new if line not in old]
    assert {line[:7] for line in taken} == {b"### 4 L", b"What's "}
    assert b"### 3 Look at the pictures and then write one word for each animal. {.writing}\n" in put
    assert b"What's your favourite colour?\n" in put
    assert b"**Grammar:** present simple be\n" in put
    assert len([line for line in put if line.startswith(b"**Safety:** [check] ")]) == 1
    assert f"{ONE}: write “colour”" in said.out

    again = hornbook("mend")
    assert (again.status, again.out) == (0, "Nothing to mend here that is safe to mend without you.\n")
    assert texts(draft) == after


def test_a_draft_stays_open_until_a_person_has_taken_its_mark_out(hornbook, draft):
    def drafts():
        found = hornbook("proof", ONE, "--format", "json").findings
        return len([one for one in found if one["rule"] == "unconfirmed-draft"])

    before = drafts()
    said = hornbook("mend")
    written = (draft / ONE).read_text().count("[check]") - (DRAFT / ONE).read_text().count("[check]")
    assert written > 0
    assert f"marked [check]: {written}." in said.out
    assert drafts() == before + written
    (draft / ONE).write_text((draft / ONE).read_text().replace("[check] ", ""))
    assert drafts() == 0


@pytest.mark.skipif(shutil.which("patch") is None, reason="no patch")
def test_what_it_shows_is_a_diff_that_patch_and_git_apply_to_the_same_end(hornbook, draft, tmp_path):
    for change in (lambda data: data, lambda data: MARK + data.replace(b"\n", b"\r\n"), lambda data: data.rstrip()):
        (draft / ONE).write_bytes(change((DRAFT / ONE).read_bytes()))
        before = texts(draft)
        shown = hornbook("mend", "--show")
        assert shown.status == 0
        assert texts(draft) == before, "nothing is written"
        for command in (["git", "apply", "-p1"], ["patch", "-p1", "--binary", "-s"]):
            other = tmp_path / command[0]
            shutil.copytree(draft, other)
            done = subprocess.run(command, cwd=other, input=shown.out.encode(), capture_output=True, check=False)
            assert done.returncode == 0, done.stderr
            patched = texts(other)
            shutil.rmtree(other)
            assert [path for path in patched if patched[path] != before[path]] == [ONE]
        assert hornbook("mend").status == 0
        assert texts(draft) == patched


def test_a_diff_of_nothing_is_empty(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    said = hornbook("mend", "--show")
    assert (said.status, said.out) == (0, "")
    assert "Nothing to mend" in said.err


COLOR = "My favorite color is red."


@pytest.mark.parametrize("name", ["unit 01.md", "ünit.md", "[bold]1.md", 'a"1\\.md', "a\n1.md", "-1.md"])
def test_a_file_of_any_name_is_shown_so_that_git_finds_it(hornbook, tmp_path, monkeypatch, name):
    if os.name == "nt":
        pytest.skip("names that Windows forbids")
    monkeypatch.chdir(make_course(tmp_path, {f"level-1/{name}": unit(3, COLOR)}))
    shown = hornbook("mend", "--show")
    done = subprocess.run(["git", "apply", "-p1"], input=shown.out.encode(), capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "My favourite colour is red." in (tmp_path / "level-1" / name).read_text()


def test_a_change_near_the_mark_at_the_start_of_a_file_is_shown_with_it(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {ONE: MARK + b"# Kites\r\n\r\nMy color.\r\n"}))
    shown = hornbook("mend", "--show")
    done = subprocess.run(["git", "apply", "-p1"], input=shown.out.encode(), capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / ONE).read_bytes() == MARK + b"# Kites\r\n\r\nMy colour.\r\n"


def test_a_unit_outside_this_folder_is_called_as_in_its_course(hornbook, tmp_path, monkeypatch):
    make_course(tmp_path, {ONE: unit(1, COLOR)})
    monkeypatch.chdir(tmp_path / "words")
    assert hornbook("mend", "--show", f"../{ONE}").out.startswith(f"--- a/{ONE}\n+++ b/{ONE}\n")
    assert hornbook("mend", f"../{ONE}").out.startswith(f"../{ONE}: write “favourite”\n")


ENDS = [b"\n", b"\r\n", b"\r"]


@pytest.mark.parametrize("mark", [b"", MARK], ids=["plain", "marked"])
@pytest.mark.parametrize("end", ENDS, ids=["LF", "CRLF", "CR"])
def test_line_ends_and_the_mark_at_the_start_stay_as_they_are(hornbook, draft, mark, end):
    assert hornbook("mend").status == 0
    usual = (draft / ONE).read_bytes()
    (draft / ONE).write_bytes(mark + (DRAFT / ONE).read_bytes().replace(b"\n", end))
    assert hornbook("mend").status == 0
    assert (draft / ONE).read_bytes() == mark + usual.replace(b"\n", end)


def test_a_finding_that_is_let_stand_or_carried_is_not_mended(hornbook, tmp_path, monkeypatch):
    stood = unit(1, f"<!-- stet spelling-variety: a letter from the States -->\n\n{COLOR}")
    monkeypatch.chdir(make_course(tmp_path, {ONE: stood, TWO: unit(2, COLOR).replace("### 1", "### 2")}))
    assert hornbook("carry").status == 0
    (tmp_path / TWO).write_text((tmp_path / TWO).read_text() + "\n### 3 Read. {.reading}\n\nThe color is red.\n")
    assert hornbook("mend").status == 0
    assert (tmp_path / ONE).read_text() == stood
    after = (tmp_path / TWO).read_text()
    assert COLOR in after
    assert "### 2 Look" in after
    assert "### 2 Read." in after, "the new one is mended"
    assert "The colour is red." in after


HAZARDS = """\

### 2 Cut out the kite. Blow up the balloon. Taste the honey. {.make}

::: teacher
**Time:** 20 minutes

**Steps:** Children cut out a kite with scissors and blow up a balloon. They taste the honey.
:::
"""


def test_several_hazards_of_an_activity_end_up_in_one_field(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {ONE: unit() + HAZARDS}))
    hazards = [
        one for one in hornbook("proof", ONE, "--format", "json").findings if one["rule"] == "missing-safety-note"
    ]
    assert len(hazards) > 1
    assert hornbook("mend", ONE).status == 0
    after = (tmp_path / ONE).read_text()
    assert after.count("**Safety:**") == 1
    assert "balloon" in after.partition("**Safety:**")[2]
    left = hornbook("proof", ONE, "--format", "json").findings
    assert [one for one in left if one["rule"] == "missing-safety-note"] == []


def test_json_says_what_is_still_open(hornbook, draft):
    before = hornbook("proof", "--format", "json").json
    shown = hornbook("mend", "--show", "--format", "json").json
    assert shown == before, "nothing is mended yet, and each mend says its edits"
    after = hornbook("mend", "--format", "json").json
    assert after == hornbook("proof", "--format", "json").json
    assert [one for one in after["findings"] if one["mend"]] == []


def test_a_file_that_somebody_else_saves_meanwhile_is_left_to_them(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {ONE: unit(1, COLOR), TWO: unit(2, COLOR)}))
    real = mend.apply_mends

    def slow(text, mends):
        (tmp_path / ONE).write_text("A new version.\n")
        return real(text, mends)

    monkeypatch.setattr(mend, "apply_mends", slow)
    said = hornbook("mend")
    assert said.status == 2
    assert f"{ONE}: somebody has changed it" in said.out
    assert (tmp_path / ONE).read_text() == "A new version.\n"
    assert "favourite" in (tmp_path / TWO).read_text(), "the rest is mended"


def test_a_file_that_cannot_be_written_is_named_and_the_rest_is_mended(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {ONE: unit(1, COLOR), TWO: unit(2, COLOR)}))
    real = mend.write_whole

    def write(path, data, *inside):
        if path == tmp_path / ONE:
            raise PermissionError(13, "Permission denied")
        real(path, data, *inside)

    monkeypatch.setattr(mend, "write_whole", write)
    said = hornbook("mend")
    assert said.status == 2
    assert f"{ONE}: it could not be written (Permission denied); it is as it was." in said.out
    assert (tmp_path / ONE).read_text() == unit(1, COLOR)
    assert "favourite" in (tmp_path / TWO).read_text()


@pytest.mark.skipif(os.name == "nt", reason="POSIX signals")
def test_a_kill_in_the_middle_leaves_each_file_old_or_new(tmp_path):
    old = {f"level-1/unit-{number:02}.md": unit(number, COLOR) for number in range(1, 41)}
    root = make_course(tmp_path / "book", old)
    environment = {"HORNBOOK_CACHE": str(tmp_path / "cache")}
    assert process("mend", cwd=root, env=environment).returncode == 0
    new = {path: (root / path).read_text() for path in old}
    assert all("favourite colour" in text for text in new.values())
    for wait in (0.2, 0.4, 0.6, 0.8, 1.0):
        make_course(root, old)
        command = [sys.executable, "-m", "lint_rules", "mend"]
        running = subprocess.Popen(command, cwd=root, env=os.environ | environment, stdout=subprocess.PIPE)
        time.sleep(wait)
        running.send_signal(signal.SIGKILL)
        running.communicate()
        for path in old:
            assert (root / path).read_text() in (old[path], new[path])
    assert process("mend", cwd=root, env=environment).returncode == 0
    assert {path: (root / path).read_text() for path in old} == new


FIELDS = st.sampled_from(
    [
        "**Time:** 10 minutes",
        "**Materials:** paper",
        "**Steps:**\n\n- Begin.\n- Children cut out a kite.",
        "**Steps:** Play the audio.",
        "**Setps:** Children blow up a balloon.",
        "**Aim:** play",
        "**Safety:** Children sit down.",
        "Begin.",
        "> Quoted.",
    ]
)


@st.composite
def notes(draw):
    body = draw(st.sampled_from(["\n", "\n\n"])).join(draw(st.lists(FIELDS, max_size=4, unique=True)))
    fence = draw(st.sampled_from([":::", "::::"]))
    opening = draw(st.sampled_from([" teacher", " {.teacher}", "teacher :::"]))
    tail = draw(st.sampled_from(["\n", "\n\n", ""])) if body else "\n"
    return f"{fence}{opening}\n{body}{tail or chr(10)}{fence}\n"


@st.composite
def units(draw):
    """Units with what mends are offered for: numbers, notes, spelling, hazards, materials, a grammar lesson."""
    parts = ["---\nlevel: level-1\nunit: 1\ntitle: Kites\ngrammar: [present continuous]\n---\n\n# Kites\n"]
    for lesson in range(1, draw(st.integers(2, 3))):
        parts.append(f"## Lesson {lesson}: Kites {{.grammar}}\n")
        parts += draw(st.lists(notes(), max_size=1))
        for _ in range(draw(st.integers(1, 3))):
            number = draw(st.sampled_from(["", "1 ", "2 ", "7 ", "1. "]))
            parts.append(
                f"### {number}{draw(st.sampled_from(['Look.', 'Cut out a kite.', 'Glue the color card.']))} {{.make}}\n"
            )
            parts.append(
                draw(
                    st.sampled_from(["My *favorite* kite.\n", "- a gray c**o**lor\n- red\n", "The wind is blowing.\n"])
                )
            )
            parts += draw(st.lists(notes(), max_size=2))
    text = "\n".join(parts)
    return draw(st.sampled_from([text, text.rstrip("\n"), text + "\n\n"]))


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(units(), st.sampled_from(ENDS), st.sampled_from([b"", MARK]))
def test_a_second_time_changes_nothing_whatever_the_unit(hornbook, tmp_path_factory, monkeypatch, text, end, mark):
    course = COURSE.replace("    unit_pattern: []\n    every_unit: []\n", "")
    data = mark + text.encode().replace(b"\n", end)
    root = make_course(tmp_path_factory.mktemp("unit"), {"course.yaml": course, ONE: data, TWO: ""})
    with monkeypatch.context() as here:
        here.chdir(root)
        first = hornbook("mend", ONE)
        once = (root / ONE).read_bytes()
        assert hornbook("mend", ONE).out == "Nothing to mend here that is safe to mend without you.\n"
    assert (root / ONE).read_bytes() == once
    assert once.startswith(MARK) == bool(mark)
    others = {b"\n": rb"\r", b"\r\n": rb"(?<!\r)\n|\r(?!\n)", b"\r": rb"\n"}[end]
    assert not re.search(others, once)
    assert ("Nothing to mend" in first.out) == (once == data)
    kept = [
        line for line in data.split(end) if line.strip() and not re.search(rb"color|favorite|gray|### |Setps", line)
    ]
    left = iter(once.split(end))
    assert all(any(new.startswith(line) for new in left) for line in kept), "every other line stays, in its order"
