"""`hornbook level` as it is called: from a file, from standard input, from a unit of a course."""

import io
import json
import sys

import pytest

from lint_rules.cli import main


@pytest.fixture
def call(tmp_path, monkeypatch, capsys):
    """Run the command in an empty folder with some standard input: exit status, what it printed, what it complained."""
    monkeypatch.chdir(tmp_path)

    def run(*arguments: str, given: bytes = b"") -> tuple[int, str, str]:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given), encoding="utf-8"))
        status = main(["level", "--no-cache", *arguments])
        printed = capsys.readouterr()
        return status, printed.out, printed.err

    return run


def test_standard_input_line_by_line(call):
    status, out, _ = call("--lines", "--format", "json", "-", given=b"A kite.\n\nNevertheless!\n")
    rows = [json.loads(line) for line in out.splitlines()]
    assert status == 0
    assert [[word["text"] for word in row["words"]] for row in rows] == [["A", "kite"], [], ["Nevertheless"]]


def test_a_text_file(call, tmp_path):
    (tmp_path / "story.txt").write_text("The economy had grown.\n", encoding="utf-8")
    status, out, _ = call("story.txt")
    assert status == 0
    assert "“economy”, a word of B1" in out


def test_of_a_unit_only_what_children_read_is_read(call, tmp_path):
    (tmp_path / "course.yaml").write_text(
        "title: A course\nlevels:\n  - {name: level-1, cefr: A1, words: words/level-1.csv}\n", encoding="utf-8"
    )
    (tmp_path / "words").mkdir()
    (tmp_path / "words" / "level-1.csv").write_text("word,part_of_speech,topic,unit\nkite,noun,,1\n", encoding="utf-8")
    (tmp_path / "level-1").mkdir()
    unit = (
        "---\nlevel: level-1\nunit: 1\ntitle: Kites\n---\n\n# Kites\n\n## Lesson 1: Look {.words}\n\n"
        "### 1 Look. {.reading}\n\nMy k**it**e is red.\n\n::: teacher\n**Steps:** Elicit the vocabulary.\n:::\n"
    )
    (tmp_path / "level-1" / "unit-01.md").write_text(unit, encoding="utf-8")
    status, out, _ = call("--format", "json", "level-1/unit-01.md")
    words = {word["text"]: word["level"] for word in json.loads(out)["words"]}
    assert status == 0
    assert words["kite"] == "level-1"
    assert not {"Elicit", "vocabulary", "title"} & set(words)


@pytest.mark.parametrize("given", [b"", b"\n\n", b"____\n"])
def test_no_text_is_said_plainly(call, given):
    status, out, _ = call("-", given=given)
    assert (status, out) == (0, "There is no text to read.\n")


def test_what_cannot_be_read_is_a_plain_sentence(call, tmp_path):
    status, out, err = call("nothing.txt")
    assert (status, out) == (2, "")
    assert err.startswith("hornbook: nothing.txt cannot be read")
    status, _, err = call("-", given=b"caf\xe9")
    assert status == 2
    assert "not in UTF-8" in err
    status, _, err = call(str(tmp_path))
    assert status == 2
    assert "Traceback" not in err
