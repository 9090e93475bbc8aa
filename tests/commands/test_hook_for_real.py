"""The hook as a house gets it: this repository named in `.pre-commit-config.yaml`, its environment built by pre-commit.

That takes a quarter of a minute and, where pip has kept nothing, some hundred megabytes of downloads; so this runs only
where HORNBOOK_TEST_HOOK=1 asks for it, as `.ci/run` does. What else the hook does is tested in test_precommit.py.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from lint_rules.cli import main
from tests.commands.test_precommit import ROOT, environment

PARTS = ["pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml", "lint_rules"]

pytestmark = [
    pytest.mark.slow,
    pytest.mark.timeout(900),
    pytest.mark.skipif(os.environ.get("HORNBOOK_TEST_HOOK") != "1", reason="HORNBOOK_TEST_HOOK is not 1"),
]


class Repository:
    """A git repository that commits as Ida."""

    def __init__(self, folder: Path, around: dict[str, str]) -> None:
        self.folder = folder
        self.around = around
        folder.mkdir(exist_ok=True)
        self.git("init", "-q", "-b", "main")

    def run(self, *command: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command, cwd=self.folder, env=self.around, capture_output=True, text=True, timeout=800, check=False
        )

    def git(self, *words: str) -> subprocess.CompletedProcess[str]:
        return self.run("git", "-c", "user.name=Ida", "-c", "user.email=ida@example.org", *words)

    def commit(self) -> subprocess.CompletedProcess[str]:
        self.git("add", ".")
        return self.git("commit", "-m", "Work")


def hook_repository(folder: Path, around: dict[str, str]) -> tuple[Repository, str]:
    """This repository, as it stands in the working tree, at a commit of its own."""
    repository = Repository(folder, around)
    for name in PARTS:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, folder / name)
    assert repository.commit().returncode == 0
    return repository, repository.git("rev-parse", "HEAD").stdout.strip()


def test_a_commit_is_blocked_at_the_right_words_and_passes_once_they_are_mended(tmp_path):
    around = environment(tmp_path)
    hook, commit = hook_repository(tmp_path / "hook", around)
    assert main(["start", str(tmp_path / "book")]) == 0
    book = Repository(tmp_path / "book", around)
    (book.folder / ".pre-commit-config.yaml").write_text(
        f"repos:\n  - repo: {hook.folder}\n    rev: {commit}\n    hooks: [{{id: hornbook}}, {{id: hornbook-book}}]\n"
    )
    assert book.run(sys.executable, "-m", "pre_commit", "install").returncode == 0
    first = book.commit()
    assert first.returncode == 0, first.stdout + first.stderr

    unit = book.folder / "level-1" / "unit-01.md"
    good = unit.read_text(encoding="utf-8")
    heading = next(line for line in good.splitlines() if line.startswith("### "))
    line = good.splitlines().index(heading) + 1
    unit.write_text(good.replace(heading, "### 1 Cut the apple with a knife. {.make}"), encoding="utf-8")
    blocked = book.commit()
    said = blocked.stdout + blocked.stderr
    assert blocked.returncode != 0
    assert f"level-1/unit-01.md:{line}:7: stop: " in said
    assert "[missing-safety-note]" in said

    unit.write_text(good.replace(heading, heading.replace(". {", "! {")), encoding="utf-8")
    mended = book.commit()
    assert mended.returncode == 0, mended.stdout + mended.stderr
    assert book.git("log", "--format=%s").stdout.count("Work") == 2
