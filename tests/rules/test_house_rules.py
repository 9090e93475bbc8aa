"""A house's own rule: installed as a package it is a rule like any other, and its author can run its examples."""

import json
import os
import subprocess
import sys
import venv
from pathlib import Path
from types import ModuleType

import pytest

from lint_rules.house_rules import check_examples

REPOSITORY = Path(__file__).parents[2]
RULE = '''\
"""A word in capitals on a pupil's page.

Children of this age read words by their shape, and capitals have none (this house's own style).
"""

import re

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Audience
from lint_rules.rule import Example, Rule

RULE = Rule(
    name="no-shouting",
    family="house style",
    severity=Severity.QUERY,
    passes=(Example("The kite is red.\\n"), Example("::: teacher\\n**Steps:** Say it LOUD.\\n:::\\n")),
    fails=(Example("The kite is «RED».\\n"),),
)


def find(reading):
    """Report words in capitals."""
    for passage in reading.unit.passages:
        if passage.audience is Audience.PUPIL:
            for match in re.finditer(r"\\b[A-Z]{3,}\\b", passage.text):
                span = passage.span(*match.span())
                yield Found(span, match[0], f"“{match[0]}” is in capitals. Write it small: “{match[0].lower()}”.")
'''
ITS_TESTS = """\
import our_rules.no_shouting
from lint_rules.house_rules import check_examples


def test_its_examples():
    check_examples(our_rules.no_shouting)
"""
COURSE = "title: Kites\nlevels:\n  - {name: level-1, cefr: A1, unit_pattern: [], every_unit: [], hours: 1, units: 1}\n"
FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Kites\n---\n\n"
UNIT = f"{FRONT}# Kites\n\n## Lesson 1: Look\n\n### 1 Look.\n\nThe kite is RED.\n"


def house_rule(text: str = RULE) -> ModuleType:
    module = ModuleType("our_rules.no_shouting")
    exec(compile(text, "no_shouting.py", "exec"), module.__dict__)
    return module


def test_examples_that_hold(language):
    check_examples(house_rule(), language)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("The kite is «RED».", "The «kite» is «RED».", "fails, example 1: not found: 'kite' in level-1/unit-01.md"),
        ("The kite is «RED».", "The kite is RED.", "fails, example 1: its words to be found must stand in « »"),
        ("The kite is «RED».", "BIG «RED».", "fails, example 1: found, though it should not be: 'BIG'"),
        ('Example("The kite is red.', 'Example("«The» kite is red.', "passes, example 1: nothing may stand in « »"),
        ('Example("The kite is red.', 'Example("The KITE is red.', "passes, example 1: found, though it should not be"),
        ("    passes=(Example", "    passes=() and (Example", "it has no example that passes"),
        ("        if passage", "        1 / 0\n        if passage", "no-shouting broke: ZeroDivisionError"),
        (
            "yield Found(span, match[0], f",
            "yield Found(span, '', severity=Severity.NOTE, message=f",
            "weighs note, not query",
        ),
    ],
)
def test_examples_that_do_not_hold(language, old, new, said):
    assert RULE.count(old) == 1
    with pytest.raises(AssertionError) as caught:
        check_examples(house_rule(RULE.replace(old, new)), language)
    assert said in str(caught.value)


def test_what_is_no_rule_is_said_to_be_none(language):
    with pytest.raises(TypeError, match="must hold a docstring, a RULE"):
        check_examples(ModuleType("nothing"), language)


@pytest.fixture(scope="module")
def house(tmp_path_factory) -> Path:
    """A fresh environment with a house's package in it; hornbook and what it needs are those that run this test."""
    folder = tmp_path_factory.mktemp("house")
    venv.create(folder / "venv", symlinks=True)
    site = next((folder / "venv").glob("[Ll]ib/**/site-packages"))
    beside = [str(REPOSITORY), *(path for path in sys.path if path.endswith("site-packages"))]
    (site / "beside.pth").write_text("\n".join(beside), encoding="utf-8")
    files = {
        "our_rules/__init__.py": "",
        "our_rules/no_shouting.py": RULE,
        "our_rules-2.3.dist-info/METADATA": "Metadata-Version: 2.1\nName: our-rules\nVersion: 2.3\n",
        "our_rules-2.3.dist-info/RECORD": "",
        "our_rules-2.3.dist-info/INSTALLER": "test\n",
        "our_rules-2.3.dist-info/top_level.txt": "our_rules\n",
        "our_rules-2.3.dist-info/entry_points.txt": "[hornbook.rules]\nno-shouting = our_rules.no_shouting\n",
    }
    for name, text in files.items():
        (site / name).parent.mkdir(exist_ok=True)
        (site / name).write_text(text, encoding="utf-8")
    course = folder / "course"
    (course / "level-1").mkdir(parents=True)
    (course / "course.yaml").write_text(COURSE, encoding="utf-8")
    (course / "level-1/unit-01.md").write_text(UNIT, encoding="utf-8")
    (course / "test_our_rules.py").write_text(ITS_TESTS, encoding="utf-8")
    return folder


def call(house: Path, *words: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    python = next(path for path in (house / "venv").glob("*/python*") if path.stem == "python")
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("HORNBOOK", "PYTHON", "PYTEST"))}
    return subprocess.run(
        [str(python), "-m", *words],
        cwd=cwd or house / "course",
        env={**kept, "HORNBOOK_CACHE": str(house / "cache"), "PYTHONIOENCODING": "utf-8"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=280,
        check=False,
    )


@pytest.mark.slow
def test_an_installed_rule_is_a_rule_like_any_other(house):
    assert "no-shouting" in call(house, "lint_rules", "rules").stdout
    said = json.loads(call(house, "lint_rules", "proof", "--format", "json").stdout)["findings"]
    assert [(f["text"], f["severity"], f["line"]) for f in said if f["rule"] == "no-shouting"] == [("RED", "query", 13)]
    call(house, "lint_rules", "release", "--record", "record.json")
    record = json.loads((house / "course/record.json").read_text(encoding="utf-8"))
    assert record["checked_with"]["added_rules"] == ["our-rules 2.3"]


@pytest.mark.slow
def test_its_author_runs_its_examples(house):
    done = call(house, "pytest", "-q", "-p", "no:cacheprovider", "test_our_rules.py")
    assert "1 passed" in done.stdout, done.stdout + done.stderr


@pytest.mark.slow
def test_an_installed_rule_turns_no_test_of_hornbook_red(house):
    tests = ("tests/rules/test_names.py", "tests/rules/test_examples.py", "-k", "promised or every_rule")
    done = call(house, "pytest", "-q", "-p", "no:cacheprovider", *tests, cwd=REPOSITORY)
    assert done.returncode == 0, done.stdout + done.stderr
