"""What an editor reads of the first draft, line by line: tests/golden/first_draft.txt.

When a message changes on purpose, write the file anew and read what has changed in it:

    hornbook book example_manuscript/first_draft > tests/golden/first_draft.txt
"""

from tests.commands.test_precommit import ROOT

DRAFT = "example_manuscript/first_draft"
GOLDEN = ROOT / "tests" / "golden" / "first_draft.txt"


def test_an_editor_reads_this_of_the_first_draft(hornbook, monkeypatch):
    monkeypatch.chdir(ROOT)
    said = hornbook("book", DRAFT)
    assert said.status == 1
    assert said.out.splitlines() == GOLDEN.read_text(encoding="utf-8").splitlines()
