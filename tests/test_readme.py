"""The README says what is so: the output that it shows is what the commands print today."""

import re
import shlex
from pathlib import Path

import pytest

from lint_rules.cli import build_parser, main
from lint_rules.course.model import ACTIVITY_KINDS
from lint_rules.engine.registry import load_rules
from lint_rules.manuscript.model import DivKind

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
SHOWN = re.findall(r"^```\n\$ hornbook (.+?)\n(.*?)^```", README, re.MULTILINE | re.DOTALL)


def test_the_readme_shows_output():
    assert len(SHOWN) >= 3


@pytest.mark.parametrize(("command", "shown"), SHOWN, ids=[command for command, _ in SHOWN])
def test_shown_output_is_what_the_command_prints(command, shown, monkeypatch, capsys):
    monkeypatch.chdir(ROOT)
    main(shlex.split(command))
    printed = capsys.readouterr().out.splitlines()
    for line in shown.splitlines():
        if line != "…":
            assert line in printed


def test_every_command_that_the_readme_names_exists():
    named = set(re.findall(r"hornbook ([a-z]+)\b", "\n".join(re.findall(r"`[^`]+`|```.*?```", README, re.DOTALL))))
    actions = next(action for action in build_parser()._actions if action.dest == "command")
    assert named
    assert named <= set(actions.choices) | {"reads"}


def test_every_rule_that_the_readme_names_exists():
    named = set(re.findall(r"stet ([a-z-]+-[a-z-]+)", README))
    assert named
    assert named <= {module.rule.name for module in load_rules()}


def test_every_kind_and_panel_is_in_the_readme():
    table = README[README.index("| written | what |") :].split("\n\n")[0]
    for kind in ACTIVITY_KINDS:
        assert f"`{kind}`" in table
    for panel in {kind.value for kind in DivKind} - {DivKind.PAGE.value}:
        assert re.search(rf"`::: (?:\{{\.)?{panel}\b", table)


def test_the_top_level_holds_no_packages() -> None:
    assert list(ROOT.glob("*.whl")) == []
