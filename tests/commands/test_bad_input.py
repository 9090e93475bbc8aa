"""What goes wrong with files, as a user meets it: a clear word with place and cure, and the rest is still read."""

import os
import shutil

import pytest

from tests.commands.world import COURSE, ONE, TWO, WORDS, make_course, unit

LESSON = "## Lesson 1: Kites {.words}"


def broken_link(root, path, target):
    (root / path).unlink()
    (root / path).symlink_to(target)


# (what stands in the first unit's file, where it is found, what is said of it)
FILES = {
    "Latin-1": (unit().replace("red.", "réd.").encode("latin-1"), (18, 14), "UTF-8"),
    "UTF-16": (unit().encode("utf-16"), (1, 1), "UTF-16"),
    "UTF-16 without its mark": (unit().encode("utf-16-le"), (1, 1), "UTF-16"),
    "binary": (bytes(range(256)) * 40, (3, 115), "UTF-8"),
    "empty": (b"", (1, 1), "empty"),
    "white space": (b" \n\n\t\n", (1, 1), "empty"),
    "only a byte order mark": (b"\xef\xbb\xbf", (1, 1), "empty"),
    "five megabytes": (unit() + "\n\nThe kite is red." * 300_000, (1, 1), "larger than hornbook reads"),
    "a paragraph without end": (unit() + "\nThe kite is red. " * 10_000, (25, 1), "20,000 characters"),
    "no lessons": (unit().replace(LESSON, ""), (7, 1), "no lessons"),
    "no front matter": (unit().partition("---\n\n")[2], (1, 1), "front matter"),
    "front matter that is no YAML": (unit().replace("unit: 1", "unit: [1"), (3, 7), "YAML"),
    "front matter that is a list": (unit().replace("level: level-1\nunit: 1\ntitle: Kites 1", "- a"), (2, 1), "key"),
    "front matter never closed": (unit().replace("1\n---\n", "1\n"), (1, 1), "Write a line ---"),
    "front matter of 900 brackets": (unit().replace("unit: 1", "topics: " + "[" * 900), (2, 1), "YAML"),
    "an unknown level": (unit().replace("level: level-1", "level: level-9"), (2, 8), "Did you mean level-1?"),
    "another level's folder": (unit().replace("unit: 1", "unit: 2"), (3, 7), "unit-02.md is unit 2"),
    "an unclosed div": (unit().removesuffix(":::\n"), (20, 1), "never closed"),
    "a surplus fence": (unit() + "\n:::\n", (25, 1), "closes nothing"),
    "an unclosed comment": (unit() + "\n<!-- to do\n", (25, 1), "-->"),
    "a character nobody can see": (unit().replace("red", "r\0d"), (18, 14), "NUL"),
    "quotes in quotes": (unit() + "\n" + ">" * 100_000 + " deep\n", (25, 1), "too deeply"),
}


@pytest.mark.parametrize("what", FILES)
def test_a_file_that_is_no_unit_is_a_finding_and_the_rest_is_read(hornbook, tmp_path, monkeypatch, what):
    content, place, words = FILES[what]
    monkeypatch.chdir(make_course(tmp_path, {ONE: content}))
    said = hornbook("book", "--format", "json")
    assert said.status == 1
    assert said.json["units"] == 2
    (found,) = [one for one in said.findings if one["rule"] == "unreadable-manuscript" and one["path"] == ONE]
    assert (found["line"], found["column"], found["severity"]) == (*place, "stop")
    assert words in found["message"]
    assert [one["text"] for one in said.findings if one["rule"] == "word-above-level"][-1:] == ["enormous"]

    alone = hornbook("proof", ONE)
    assert alone.status == 1
    assert f"{ONE}:{place[0]}:{place[1]}: stop: " in alone.out


def as_folder(path):
    def change(root):
        (root / path).unlink(missing_ok=True)
        (root / path).mkdir()

    return change


# (what is done to the course, what is said of the first unit)
ODD_FILES = {
    "a folder": (as_folder(ONE), "is a folder"),
    "a link to itself": (lambda root: broken_link(root, ONE, "unit-01.md"), "cannot be read"),
    "a link to nothing": (lambda root: broken_link(root, ONE, "gone.md"), "There is no file"),
    "a link out of the course": (lambda root: broken_link(root, ONE, "/etc/hostname"), "leaves the course's folder"),
    "a pipe": (lambda root: ((root / ONE).unlink(), os.mkfifo(root / ONE)), "not an ordinary file"),
}


@pytest.mark.skipif(os.name == "nt", reason="POSIX files")
@pytest.mark.parametrize("what", ODD_FILES)
def test_what_is_no_file_is_a_finding_and_the_rest_is_read(hornbook, tmp_path, monkeypatch, what):
    change, words = ODD_FILES[what]
    monkeypatch.chdir(make_course(tmp_path))
    change(tmp_path)
    said = hornbook("book", "--format", "json")
    assert said.status == 1
    (found,) = [one for one in said.findings if one["rule"] == "unreadable-manuscript"]
    assert (found["path"], found["line"]) == (ONE, 1)
    assert words in found["message"]
    assert "enormous" in {one["text"] for one in said.findings}


# (what is done to the course, what is said, and of which place)
COURSES = {
    "course.yaml is no YAML": ({"course.yaml": COURSE.replace("level-1\n", "[level-1\n", 1)}, "course.yaml:3:11: "),
    "course.yaml is empty": ({"course.yaml": ""}, "course.yaml:1:1: "),
    "course.yaml is not UTF-8": ({"course.yaml": COURSE.replace("K", "\xd6").encode("latin-1")}, "course.yaml:1:8: "),
    "course.yaml is UTF-16": ({"course.yaml": COURSE.encode("utf-16")}, "UTF-16"),
    "course.yaml is deep": ({"course.yaml": COURSE + "known: " + "[" * 900}, "course.yaml:"),
    "an unknown key": ({"course.yaml": COURSE.replace("hours", "horus")}, "'hours'"),
    "a list with a quotation mark never closed": ({"words/level-1.csv": WORDS + '"blue,,,1\n'}, "level-1.csv:4:1: "),
    "a list that is not UTF-8": ({"words/level-1.csv": (WORDS + "bl\xfc,,,\n").encode("latin-1")}, "level-1.csv:4:3: "),
    "a list without words": ({"words/level-1.csv": "a,b\n1,2\n"}, "level-1.csv:1:1: "),
    "carried.yaml is no YAML": ({"carried.yaml": "- {file: a"}, "carried.yaml:1: "),
    "carried.yaml holds a merge": ({"carried.yaml": "- file: a\n<<<<<<< HEAD\n"}, "carried.yaml:2: git has left"),
    "carried.yaml is not UTF-8": ({"carried.yaml": b"\xff\xfe\x00"}, "carried.yaml:1:1: "),
}


@pytest.mark.parametrize("what", COURSES)
def test_a_course_that_cannot_be_read_stops_the_run_with_place_and_cure(hornbook, tmp_path, monkeypatch, what):
    files, words = COURSES[what]
    monkeypatch.chdir(make_course(tmp_path, files))
    for command in (["book"], ["proof", ONE], ["release"], ["carry"], ["mend"], ["words"]):
        said = hornbook(*command)
        assert said.status == 2, command
        assert words in said.err, command


@pytest.mark.parametrize("path", ["course.yaml", "words/level-1.csv", "carried.yaml"])
def test_a_folder_in_the_place_of_a_file_of_the_course_is_named(hornbook, tmp_path, monkeypatch, path):
    monkeypatch.chdir(make_course(tmp_path))
    as_folder(path)(tmp_path)
    said = hornbook("book")
    assert said.status == 2
    assert ("under no course" if path == "course.yaml" else f"{path} is a folder") in said.err


def test_what_is_wrong_in_a_course_is_named_from_where_the_reader_stands(hornbook, tmp_path, monkeypatch):
    make_course(tmp_path / "book")
    (tmp_path / "book" / "carried.yaml").mkdir()
    monkeypatch.chdir(tmp_path)
    assert "book/carried.yaml: " in hornbook("book", "book").err
    (tmp_path / "book" / "words" / "level-1.csv").unlink()
    assert "book/course.yaml:5:12: There is no file words/level-1.csv" in hornbook("book", "book").err


def test_all_problems_of_a_course_are_named_at_once(hornbook, tmp_path, monkeypatch):
    files = {
        "course.yaml": COURSE.replace("A1", "A7") + "rules: {long-sentense: note}\n",
        "words/level-1.csv": "word\n",
    }
    monkeypatch.chdir(make_course(tmp_path, files))
    said = hornbook("book")
    assert said.status == 2
    assert "course.yaml:4:11: " in said.err
    assert "long-sentence" in said.err


def test_a_broken_row_of_a_word_list_is_named_and_the_rest_is_read(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {"words/level-1.csv": WORDS + "blue,colour,colours,1\n,noun,toys,1\n"}))
    said = hornbook("book", "--format", "json")
    assert said.status == 2, "the run was not whole"
    assert [row["path"] for row in said.json["skipped"]] == ["words/level-1.csv:4:6", "words/level-1.csv:5:1"]
    assert "enormous" in {one["text"] for one in said.findings}


def test_a_course_without_units_is_never_clean(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    shutil.rmtree(tmp_path / "level-1")
    for command in ("proof", "book", "release", "words", "mend", "carry"):
        said = hornbook(command)
        assert said.status == 2, command
        assert "no units yet" in said.err, command
        assert "level-1/unit-01.md" in said.err, command


def test_a_file_under_no_course_is_an_error_that_says_how_to_start_one(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "loose.md").write_text(unit())
    for command in (["proof", "loose.md"], ["proof"], ["book"], ["mend", "loose.md"]):
        said = hornbook(*command)
        assert said.status == 2
        assert "hornbook start" in said.err


def test_what_cannot_be_read_does_not_keep_the_rest_from_being_read(hornbook, tmp_path, monkeypatch):
    make_course(tmp_path / "good")
    make_course(tmp_path / "bad", {"course.yaml": "title: ["})
    (tmp_path / "loose.md").write_text(unit())
    monkeypatch.chdir(tmp_path)
    files = [f"good/{TWO}", f"bad/{ONE}", "loose.md", "gone.md", "good"]
    said = hornbook("proof", *files, "--format", "json")
    assert said.status == 2
    assert {one["path"] for one in said.findings if one["text"] == "enormous"} == {f"good/{TWO}"}
    assert [row["path"] for row in said.json["skipped"]] == ["loose.md", "gone.md", "good", "bad/course.yaml"]
    shown = hornbook("proof", *files)
    assert shown.status == 2
    assert "gone.md: not checked: There is no file gone.md." in shown.out


def test_other_markdown_of_the_course_is_no_unit(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path, {"notes/plan.md": "# Plan\n"}))
    said = hornbook("proof", "notes/plan.md", ONE, "--format", "json")
    assert (said.status, said.json["units"]) == (0, 1)
    assert [row["path"] for row in said.json["skipped"]] == ["notes/plan.md"]
    assert hornbook("proof", "notes/plan.md").status == 2, "nothing was checked"


NAMES = [
    "unit 03.md",
    "ünit-03.md",
    "e\u0301t\u00e9.md",
    "[bold]3.md",
    "'3'.md",
    "UNIT-03.MD",
    "3" * 240 + ".md",
    "a:3.md",
]


@pytest.mark.skipif(os.name == "nt", reason="names that Windows forbids")
@pytest.mark.parametrize("name", [*NAMES, "a\n3.md", 'a"3\\.md', "a\x1b[31m3.md", "-3.md"])
def test_a_file_may_have_any_name(hornbook, tmp_path, monkeypatch, name):
    path = f"level-1/{name}"
    monkeypatch.chdir(make_course(tmp_path, {path: unit(3, "The kite is gigantic.")}))
    said = hornbook("proof", "--format", "json", "--", path)
    assert {one["path"] for one in said.findings} == {path}
    book = hornbook("book")
    lines = [line for line in book.out.splitlines() if "gigantic" in line]
    assert len(lines) == 1, "one line a finding, whatever the name"
    if name in NAMES:
        assert lines[0].startswith(f"{path}:18:")
    assert "\x1b" not in book.out
    monkeypatch.chdir(tmp_path / "level-1")
    assert hornbook("proof", "--", name).status == 0


@pytest.mark.skipif(os.name != "posix" or not hasattr(os, "fsencode"), reason="names are bytes")
def test_a_name_that_is_not_utf_8_is_a_finding(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    try:
        (tmp_path / "level-1" / os.fsdecode(b"bad\xff.md")).write_text(unit(3))
        (tmp_path / os.fsdecode(b"art\xff.svg")).write_text("")
    except OSError:
        pytest.skip("this file system takes no such name")
    said = hornbook("book", "--format", "json")
    (found,) = [one for one in said.findings if one["rule"] == "unreadable-manuscript"]
    assert found["path"] == "level-1/bad\\udcff.md"
    assert "Give it another name" in found["message"]
    assert hornbook("proof", os.fsdecode(b"level-1/bad\xff.md")).status == 1
    assert hornbook("release", "--sarif", "out.sarif", "--junit", "out.xml", "--record", "out.json").status == 1


def test_line_ends_of_old_machines_are_line_ends(hornbook, tmp_path, monkeypatch):
    old = {
        path: text.replace("\n", "\r")
        for path, text in {"course.yaml": COURSE, TWO: unit(2, "An enormous kite.")}.items()
    }
    monkeypatch.chdir(make_course(tmp_path, old))
    found = [one for one in hornbook("book", "--format", "json").findings if one["text"] == "enormous"]
    assert [(one["line"], one["column"]) for one in found] == [(18, 4)]


def test_two_hundred_copies_of_a_unit_are_named_once_each(hornbook, tmp_path, monkeypatch):
    copies = {f"level-1/copy-{number:03}.md": unit(1) for number in range(200)}
    monkeypatch.chdir(make_course(tmp_path, copies))
    said = hornbook("book", "--format", "json")
    twins = [one for one in said.findings if one["rule"] == "unreadable-manuscript"]
    assert len(twins) == 201
    assert "(and 199 more)" in twins[0]["message"]


@pytest.mark.slow
def test_four_thousand_findings_are_shown_and_carried(hornbook, tmp_path, monkeypatch):
    line = "The parliament, economy, catastrophe, hypothesis, committee, legislation, inflation and bureaucracy."
    many = "".join(f"\n### {number} Look and read.\n\n{line}\n" for number in range(2, 600))
    monkeypatch.chdir(make_course(tmp_path, {ONE: unit() + many}))
    said = hornbook("book", "--format", "json")
    assert len(said.findings) > 4_000
    assert hornbook("carry").status == 0
    after = hornbook("book", "--format", "json")
    assert (after.status, after.findings) == (0, [])
    assert hornbook("proof", ONE).status == 0


@pytest.mark.parametrize(
    "written", ["::: audio track=1.1", "::: {audio track=1.1}", "::: {.audio track = '1.1'}", '::: .audio track="1.1"']
)
def test_a_slip_in_a_script_s_first_line_is_one_finding_with_its_cure(hornbook, tmp_path, monkeypatch, written):
    plain = (
        unit()
        .replace("{.reading}", "{.listening audio=1.1}")
        .replace("The kite is red.", "::: {.audio track=1.1}\nThe kite is red.\n:::")
    )
    monkeypatch.chdir(make_course(tmp_path, {ONE: plain}))
    before = hornbook("proof", ONE, "--format", "json").findings
    (tmp_path / ONE).write_text(plain.replace("::: {.audio track=1.1}", written))
    found, *after = hornbook("proof", ONE, "--format", "json").findings
    assert [one["rule"] for one in after] == [one["rule"] for one in before]
    assert found["text"] == written
    assert "`::: {.audio track=1.1}`" in found["message"]


def test_half_characters_of_yaml_escapes_stop_nothing(hornbook, tmp_path, monkeypatch):
    """YAML 1.2.2, 5.7 lets an escape name any code point; RFC 3629 has no way to write half a character."""
    content = unit().replace("title: Kites 1", 'title: "A \\ud83d\\ude00 \\ud83d"')
    course = COURSE.replace("title: Kites", 'title: "\\ud83d"\ncharacters: ["\\ud83d\\ude00"]')
    monkeypatch.chdir(make_course(tmp_path, {ONE: content, "course.yaml": course}))
    for _ in range(2):
        for command in ("proof", "book", "release", "words", "carry"):
            assert hornbook(command).status in (0, 1), command
