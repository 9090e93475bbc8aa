"""A real commit: real git, real pre-commit, the hook as `.pre-commit-hooks.yaml` declares it.

The hook's environment is this one (``language: unsupported``, pre-commit's word for 'what is installed'), so that the
tests need no second installation; everything else is the manifest's.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from ruamel.yaml import YAML

ROOT = Path(__file__).parents[2]
KNOWN_KEYS = {
    "id", "name", "description", "entry", "language", "types", "types_or", "files", "exclude", "pass_filenames",
    "always_run", "require_serial", "stages", "minimum_pre_commit_version", "verbose",
}  # fmt: skip


def manifest():
    return YAML(typ="safe").load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))


def environment(tmp_path: Path) -> dict[str, str]:
    clean = {name: value for name, value in os.environ.items() if not name.startswith(("GIT_", "PRE_COMMIT"))}
    return clean | {
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_NOSYSTEM": "1",
        "PRE_COMMIT_HOME": str(tmp_path / "pre-commit-home"),
        "HORNBOOK_CACHE": str(tmp_path.parent / "kept-for-hooks"),  # as a writer's: from one commit to the next
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
    }


class Repository:
    """A repository of a writer, with the hooks installed."""

    def __init__(self, tmp_path: Path, hook_ids: list[str]) -> None:
        self.folder = tmp_path / "book"
        self.folder.mkdir()
        self.environment = environment(tmp_path)
        hooks = [{**hook, "language": "unsupported"} for hook in manifest() if hook["id"] in hook_ids]
        config = {"repos": [{"repo": "local", "hooks": hooks}]}
        self.git("init", "-q", "-b", "main")
        with (self.folder / ".pre-commit-config.yaml").open("w", encoding="utf-8") as file:
            YAML(typ="safe").dump(config, file)
        self.run(sys.executable, "-m", "pre_commit", "install")
        self.write(
            "course.yaml",
            "title: Kites\nlevels:\n  - name: level-1\n    cefr: A1\n    unit_pattern: []\n    every_unit: []\n",
        )

    def run(self, *command: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command, cwd=self.folder, env=self.environment, capture_output=True, text=True, timeout=120
        )

    def git(self, *words: str) -> subprocess.CompletedProcess[str]:
        return self.run("git", "-c", "user.name=Ida", "-c", "user.email=ida@example.org", *words)

    def write(self, path: str, text: str) -> None:
        file = self.folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")

    def commit(self, *paths: str) -> subprocess.CompletedProcess[str]:
        self.git("add", "--", *(paths or (".",)))
        return self.git("commit", "-m", "Work")


def unit(number: int, line: str = "The kite is red.", instruction: str = "Look and read.") -> str:
    return f"""\
---
level: level-1
unit: {number}
title: Kites
---

# Kites

## Lesson 1: Kites {{.words}}

::: teacher
**Aim:** talk about kites
**Time:** 40 minutes
:::

### 1 {instruction} {{.reading}}

{line}

::: teacher
**Time:** 40 minutes
**Steps:** Show the page.
:::
"""


@pytest.fixture
def repository(tmp_path):
    return Repository(tmp_path, ["hornbook"])


@pytest.fixture
def book_repository(tmp_path):
    return Repository(tmp_path, ["hornbook-book"])


def test_the_manifest_is_one_that_precommit_takes(tmp_path):
    command = [sys.executable, "-m", "pre_commit", "validate-manifest", str(ROOT / ".pre-commit-hooks.yaml")]
    done = subprocess.run(command, capture_output=True, text=True, env=environment(tmp_path))
    assert done.returncode == 0, done.stdout
    for hook in manifest():  # pre-commit takes unknown keys without a word
        assert set(hook) <= KNOWN_KEYS


def test_a_bad_unit_blocks_the_commit_with_a_message_that_can_be_read(repository):
    repository.write("level-1/unit-01.md", unit(1).replace(":::\n\n###", "\n###"))
    done = repository.commit()
    assert done.returncode != 0
    assert "level-1/unit-01.md:11:1: stop: " in done.stdout + done.stderr
    assert "[unreadable-manuscript]" in done.stdout + done.stderr
    assert repository.git("log").returncode != 0, "nothing was committed"


def test_the_mended_unit_passes(repository):
    repository.write("level-1/unit-01.md", unit(1).replace(":::\n\n###", "\n###"))
    assert repository.commit().returncode != 0
    repository.write("level-1/unit-01.md", unit(1))
    done = repository.commit()
    assert done.returncode == 0, done.stdout + done.stderr


def test_other_markdown_does_not_block(repository):
    repository.write("README.md", "# Our book\n\nNothing for children here.\n")
    done = repository.commit("README.md", "course.yaml")
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_unit_hook_judges_what_is_staged(repository):
    repository.write("level-1/unit-01.md", unit(1))
    repository.git("add", ".")
    repository.write("level-1/unit-01.md", "not a unit at all")
    done = repository.git("commit", "-m", "Work")
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_book_hook_leaves_untracked_drafts_alone(book_repository):
    book_repository.write("level-1/unit-01.md", unit(1))
    book_repository.git("add", ".")
    book_repository.write("level-1/unit-02.md", "a draft\n")
    done = book_repository.git("commit", "-m", "Work")
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_book_hook_runs_also_when_a_commit_only_deletes(book_repository):
    book_repository.write("level-1/unit-01.md", unit(1))
    book_repository.write("level-1/unit-02.md", unit(2))
    assert book_repository.commit().returncode == 0
    book_repository.git("rm", "-q", "level-1/unit-01.md", "level-1/unit-02.md")
    done = book_repository.git("commit", "-m", "Remove all")
    assert done.returncode != 0
    assert "no units" in done.stdout + done.stderr


def test_a_hook_shows_what_it_found_also_when_it_passes(repository):
    repository.write(
        "level-1/unit-01.md", unit(1, "The kite is enormous, and the wind is blowing it away from me now.")
    )
    done = repository.commit()
    assert done.returncode == 0, done.stdout + done.stderr
    assert "unit-01.md:" in done.stdout + done.stderr


@pytest.mark.parametrize("changed", ["course.yaml", "words/level-1.csv"])
def test_a_change_of_what_units_are_judged_by_reads_them_all(repository, changed):
    words = "word,part_of_speech,topic,unit\nkite,noun,toys,1\n"
    course = (repository.folder / "course.yaml").read_text().replace("A1\n", "A1\n    words: words/level-1.csv\n")
    repository.write("course.yaml", course)
    repository.write("words/level-1.csv", words)
    repository.write("level-1/unit-01.md", unit(1))
    repository.git("add", ".")
    repository.git("commit", "-qm", "All", "--no-verify")
    repository.write("words/level-1.csv", words + "red,adjective,colours,1\n")
    repository.write("course.yaml", course.replace("title: Kites", "title: Red kites"))
    done = repository.commit(changed)
    assert "1 unit read" in done.stdout + done.stderr


def test_a_course_that_is_not_at_the_top_needs_no_settings(book_repository):
    (book_repository.folder / "books").mkdir()
    (book_repository.folder / "course.yaml").rename(book_repository.folder / "books" / "course.yaml")
    book_repository.write("books/level-1/unit-01.md", unit(1))
    done = book_repository.commit()
    assert "1 unit read" in done.stdout + done.stderr
    assert done.returncode == 0, done.stdout + done.stderr


def test_with_both_hooks_a_finding_is_shown_once(tmp_path):
    repository = Repository(tmp_path, ["hornbook", "hornbook-book"])
    repository.write("level-1/unit-01.md", unit(1, "See the enormous kite."))
    done = repository.commit()
    said = done.stdout + done.stderr
    assert said.count("“enormous”") == 1, said
    assert said.count("1 unit read") == 2
