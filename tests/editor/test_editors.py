"""Writers' own editors, headless, set up by the very lines that the README gives for them."""

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.commands.world import TWO, make_course, unit

HERE, TOP = Path(__file__).parent, Path(__file__).parents[2]
REQUIRED = os.environ.get("HORNBOOK_TEST_EDITORS_REQUIRED") == "1"
DRAFT = unit(2, "😀 The kite is enormous.\n\nThe color is red.")


def editor(name: str) -> str:
    """Its program; the test is skipped where it is missing, and fails where it must be there."""
    program = shutil.which(name)
    if program is None:
        assert not REQUIRED, f"{name} is missing"
        pytest.skip(f"{name} is not on this computer")
    return program


def readme(language: str) -> str:
    """The lines that the README gives an editor."""
    (lines,) = re.findall(rf"```{language}\n(.*?)```", (TOP / "README.md").read_text(encoding="utf-8"), re.S)
    assert len(lines.splitlines()) <= 5
    return lines


@pytest.fixture
def desk(tmp_path, monkeypatch):
    """A course, and an environment in which `hornbook` is the one under test and the writer's own settings are none."""
    course = make_course(tmp_path / "course", {TWO: DRAFT})
    programs = tmp_path / "bin"
    programs.mkdir()
    (programs / "hornbook").write_text(f'#!/bin/sh\nexec "{sys.executable}" -m lint_rules "$@"\n', encoding="utf-8")
    (programs / "hornbook").chmod(0o755)
    monkeypatch.setenv("PATH", f"{programs}{os.pathsep}{os.environ['PATH']}")
    monkeypatch.setenv("PYTHONPATH", str(TOP))
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / "home"))
    (tmp_path / "home").mkdir()
    monkeypatch.setenv("UNIT", str(course / TWO))
    monkeypatch.setenv("WRITTEN", str(tmp_path / "seen.json"))
    return tmp_path


def run(desk: Path, *words: str) -> None:
    """Run an editor to its end; hold what it saw against what a writer is promised."""
    call = subprocess.run(words, cwd=desk / "course", capture_output=True, timeout=200, check=False)
    said = (call.stdout + call.stderr).decode("utf-8", "replace")[-3000:]
    assert (desk / "seen.json").exists(), said
    seen = json.loads((desk / "seen.json").read_text(encoding="utf-8"))
    assert "fault" not in seen, (seen, said)
    assert seen["words"] == "enormous"
    text = "\n".join(seen["text"])
    wanted = DRAFT.replace("color", "colour").replace(
        "The kite is enormous.", "The kite is enormous. <!-- stet word-above-level: the story needs it -->"
    )
    assert text.rstrip() == wanted.rstrip()


@pytest.mark.slow
def test_neovim(desk):
    program = editor("nvim")
    (desk / "init.lua").write_text(readme("lua"), encoding="utf-8")
    writer = f"luafile {HERE / 'neovim.lua'}"
    run(desk, program, "--headless", "--cmd", writer, "-u", str(desk / "init.lua"), str(desk / "course" / TWO))


@pytest.mark.slow
def test_emacs(desk):
    program = editor("emacs")
    (desk / "init.el").write_text(readme("elisp"), encoding="utf-8")
    packages = "(progn (require 'package) (package-initialize))"
    run(desk, program, "--batch", "--eval", packages, "-l", str(desk / "init.el"), "-l", str(HERE / "emacs.el"))
