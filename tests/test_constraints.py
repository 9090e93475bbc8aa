"""What CI and a release run with is pinned, and the pins are versions that the project asks for."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

REPOSITORY = Path(__file__).parents[1]
PROJECT = tomllib.loads((REPOSITORY / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LINES = (REPOSITORY / ".ci" / "constraints.txt").read_text(encoding="utf-8").splitlines()
PINS = {canonicalize_name(line.partition("==")[0]): line.partition("==")[2] for line in LINES if "==" in line}


def test_every_library_is_pinned_to_a_version_that_is_asked_for():
    optional = PROJECT["optional-dependencies"].values()
    wanted = [Requirement(text) for some in (PROJECT["dependencies"], *optional) for text in some]
    assert len(wanted) > 20
    for one in wanted:
        assert one.specifier.contains(PINS[canonicalize_name(one.name)]), one


def test_the_file_holds_pins_alone():
    assert [line for line in LINES if line and not line.startswith("#") and line.count("==") != 1] == []


@pytest.mark.parametrize("name", [".ci/run", "README.md"])
def test_who_installs_this_project_installs_by_it(name):
    lines = (REPOSITORY / name).read_text(encoding="utf-8").splitlines()
    ours = [line for line in lines if re.search(r'pip"? install', line) and "`" not in line]
    assert ours
    assert [line for line in ours if "constraints.txt" not in line] == []
