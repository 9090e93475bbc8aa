"""A unit that lies where no level looks for it is named, so that a book is never clean by accident."""

import json

from lint_rules.cli import main


def test_the_book_names_a_unit_in_no_levels_folder(tmp_path, capsys):
    assert main(["start", str(tmp_path)]) == 0
    (tmp_path / "Level 1").mkdir()
    (tmp_path / "Level 1" / "unit-02.md").write_text("---\nlevel: level-1\nunit: 2\ntitle: T\n---\n\n# T\n")
    capsys.readouterr()
    status = main(["book", str(tmp_path), "--format", "json", "--no-cache"])
    said = json.loads(capsys.readouterr().out)
    assert status == 0
    assert said["units"] == 1
    assert [row["path"].endswith("Level 1/unit-02.md") for row in said["skipped"]] == [True]
    assert "Did you mean 'level-1'?" in said["skipped"][0]["why"]
