"""The plug-in for VS Code: its plain modules under node's own test runner, and that what it says of itself is so."""

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from lint_rules import __version__

PLUGIN = Path(__file__).parents[2] / "lint_rules/editor/vscode"
SOURCE = (PLUGIN / "src/extension.js").read_text(encoding="utf-8")
SAID = json.loads((PLUGIN / "package.json").read_text(encoding="utf-8"))


def test_its_modules():
    node = shutil.which("node")
    if node is None:
        pytest.skip("node is not on this computer")
    call = subprocess.run([node, "--test", "test/"], cwd=PLUGIN, capture_output=True, timeout=120, check=False)
    assert call.returncode == 0, call.stdout.decode()[-3000:]


def test_every_command_and_setting_that_is_offered_is_there_and_no_other():
    commands = {one["command"] for one in SAID["contributes"]["commands"]}
    assert commands == set(re.findall(r'command\("(hornbook\.\w+)"', SOURCE))
    settings = {name.removeprefix("hornbook.") for name in SAID["contributes"]["configuration"]["properties"]}
    assert settings == set(re.findall(r'setting\("(\w+)"\)', SOURCE))
    linked = set(re.findall(r"\(command:([\w.]+)\)", json.dumps(SAID)))
    assert linked
    assert linked <= commands


def test_the_files_that_it_names_are_there():
    steps = SAID["contributes"]["walkthroughs"][0]["steps"]
    for name in (SAID["icon"], *(step["media"]["markdown"] for step in steps)):
        assert (PLUGIN / name).is_file(), name


def test_it_is_of_hornbooks_version():
    lock = json.loads((PLUGIN / "package-lock.json").read_text(encoding="utf-8"))
    assert SAID["version"] == lock["version"] == __version__


def test_no_folder_can_name_where_texts_are_sent():
    assert SAID["contributes"]["configuration"]["properties"]["hornbook.english"]["scope"] == "machine"
    assert SAID["capabilities"]["untrustedWorkspaces"]["supported"] is False


def test_the_lock_names_no_registry():
    lock = (PLUGIN / "package-lock.json").read_text(encoding="utf-8")
    assert '"resolved"' not in lock
