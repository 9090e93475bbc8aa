"""The unit check says the same of a unit whichever files it is given with, and the book says it too.

pre-commit hands a hook its files in batches, in any order: what is said of a unit may depend on nothing else in the
batch, on no cache and on no place where the command is given.
"""

import os
import random
from itertools import chain, combinations
from pathlib import Path

import pytest

from lint_rules.engine.registry import load_rules
from tests.commands.world import ONE, TWO, make_course

EXAMPLES = Path(__file__).parents[2] / "example_manuscript"
# What needs the whole book is not `proof`'s business; nor are stets of such rules, which `proof` cannot judge.
BOOK_ONLY = {module.rule.name for module in load_rules() if module.find is None and module.find_in_stets is None}


def said_of(said, root: Path, path: str) -> list[tuple[object, ...]]:
    """The findings of one file, without how the file is called."""
    shown = Path(os.path.relpath(root / path)).as_posix()
    return [tuple(one[key] for key in one if key != "path") for one in plain(said.findings) if one["path"] == shown]


def plain(findings):
    return [one | {"mend": repr(one["mend"])} for one in findings]


@pytest.mark.parametrize("name", ["first_draft", "."])
def test_every_subset_of_files_in_any_order_says_what_the_book_says(hornbook, monkeypatch, name):
    root = EXAMPLES / name
    monkeypatch.chdir(root)
    book = hornbook("book", "--format", "json")
    units = sorted({one["path"] for one in book.findings} | {str(p) for p in sorted(Path().glob("level-*/*.md"))})
    of_unit_rules = {
        path: [found for found in said_of(book, root, path) if found[0] not in BOOK_ONLY] for path in units
    }
    both = {module.rule.name for module in load_rules() if module.find is not None and module.find_in_book is not None}
    subsets = list(chain.from_iterable(combinations(units, size) for size in range(1, len(units) + 1)))
    rng = random.Random(1)
    for subset in subsets if len(subsets) < 20 else [*subsets[:6], *rng.sample(subsets[6:], 10), subsets[-1]]:
        said = hornbook("proof", *rng.sample(subset, len(subset)), "--format", "json")
        assert said.json["units"] == len(subset)
        for path in subset:
            found = said_of(said, root, path)
            missing = [one for one in of_unit_rules[path] if one not in found and one[0] not in both | {"stet-unused"}]
            assert missing == [], path
            assert [one for one in found if one not in of_unit_rules[path]] == [], path


@pytest.mark.parametrize("command", [["proof"], ["book"]])
@pytest.mark.parametrize("name", ["first_draft", "."])
def test_what_is_kept_from_an_earlier_run_changes_nothing(hornbook, monkeypatch, name, command):
    monkeypatch.chdir(EXAMPLES / name)
    fresh = hornbook(*command, "--no-cache")
    assert hornbook(*command) == fresh
    assert hornbook(*command) == fresh


def test_paths_are_those_of_the_place_where_the_command_is_given(hornbook, tmp_path, monkeypatch):
    make_course(tmp_path / "book")
    for place, shown in [
        (tmp_path, f"book/{TWO}"),
        (tmp_path / "book", TWO),
        (tmp_path / "book" / "level-1", "unit-02.md"),
        (tmp_path / "book" / "words", f"../{TWO}"),
    ]:
        monkeypatch.chdir(place)
        for name in (shown, str(tmp_path / "book" / TWO)):
            (found,) = [
                one for one in hornbook("proof", name, "--format", "json").findings if one["text"] == "enormous"
            ]
            assert found["path"] == shown
        assert f"\n{shown}:18:13: query: “enormous”" in "\n" + hornbook("proof", shown).out
    monkeypatch.chdir(tmp_path / "book" / "level-1")
    assert hornbook("proof").out == hornbook("proof", "unit-01.md", "unit-02.md").out


def test_several_courses_in_one_call_are_each_judged_by_their_own_course(hornbook, tmp_path, monkeypatch):
    make_course(tmp_path / "a")
    make_course(tmp_path / "b", {"course.yaml": "title: B\nlevels:\n  - {name: level-1, cefr: B1, unit_pattern: []}\n"})
    make_course(tmp_path / "b" / "inner")
    monkeypatch.chdir(tmp_path)
    files = [f"{course}/{path}" for course in ("b/inner", "b", "a") for path in (TWO, ONE)]
    said = hornbook("proof", *files, "--format", "json")
    assert said.json["units"] == 6
    assert [one["path"] for one in said.findings if one["text"] == "enormous"] == [f"a/{TWO}", f"b/inner/{TWO}"]
    assert said.findings == sorted(
        said.findings, key=lambda one: (one["path"], one["line"], one["column"], one["rule"])
    )
    assert "6 units read" in hornbook("proof", *files).out


def test_a_file_named_twice_is_read_once(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    said = hornbook("proof", TWO, f"./{TWO}", str(tmp_path / TWO), "--format", "json")
    assert said.json["units"] == 1
    assert len([one for one in said.findings if one["text"] == "enormous"]) == 1
