"""`hornbook start DIR`, as a writer meets it."""

import pytest

from lint_rules.cli import main


def test_it_names_what_it_wrote_and_what_to_do_next(tmp_path, capsys):
    assert main(["start", str(tmp_path / "new")]) == 0
    said = capsys.readouterr().out
    assert "course.yaml" in said
    assert "unit-01.md" in said
    assert f"hornbook book {tmp_path / 'new'}" in said


def test_it_refuses_to_write_over_a_course(tmp_path, capsys):
    (tmp_path / "course.yaml").write_text("title: mine\n")
    assert main(["start", str(tmp_path)]) == 2
    assert "holds a course already" in capsys.readouterr().err
    assert (tmp_path / "course.yaml").read_text() == "title: mine\n"


def test_it_says_when_a_course_lies_around_it(tmp_path, capsys):
    assert main(["start", str(tmp_path / "one")]) == 0
    assert "inside the course" not in capsys.readouterr().out
    assert main(["start", str(tmp_path / "one" / "two")]) == 0
    assert f"It lies inside the course in {tmp_path / 'one'}" in capsys.readouterr().out


@pytest.mark.parametrize("command", [["book"], ["proof"]])
def test_the_course_it_writes_is_clean(tmp_path, capsys, monkeypatch, command):
    assert main(["start", str(tmp_path / "new")]) == 0
    capsys.readouterr()
    monkeypatch.chdir(tmp_path / "new")
    assert main(command) == 0
    assert "nothing to mend" in capsys.readouterr().out
