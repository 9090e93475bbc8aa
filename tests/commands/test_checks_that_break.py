"""A check that cannot run is said to be so, the others say what they find, and nothing of it passes for clean."""

import json
from dataclasses import replace

import pytest

from lint_rules import session as desk
from lint_rules.language.pipeline import SpacyLanguage
from tests.commands.world import ONE, TWO, make_course, unit

LONG = "The kite is red and the kite is red and the kite is red and the kite is red."


@pytest.fixture
def course(tmp_path, monkeypatch):
    """A course with a fault that the language model finds, and one that needs none; the tests read it afresh."""
    monkeypatch.chdir(make_course(tmp_path, {ONE: unit(1, LONG).replace("**Aim:** talk about kites\n", "")}))
    return tmp_path


class Breaks:
    """A language room with a bug."""

    version = "broken"

    def analyse(self, requests):
        raise KeyError("a bug")


def rules_of(said):
    return {one["rule"] for one in said.findings}


@pytest.mark.parametrize("model", ["no_such_model", "json"])
def test_without_its_model_the_rest_is_checked(hornbook, course, monkeypatch, model):
    monkeypatch.setattr("lint_rules.session.language_room", lambda: SpacyLanguage(model))
    for command in ("book", "proof", "release"):
        said = hornbook(command, "--format", "json")
        assert said.status == 3, command
        assert "missing-note-field" in rules_of(said)
        assert "long-sentence" not in rules_of(said)
        assert "pip install" in said.json["skipped"][0]["why"]
        assert "could not run" in hornbook(command).out
    assert "pip install" in hornbook("level", ONE).err
    for command in ("mend", "carry"):
        assert hornbook(command).status == 3
    assert not (course / "carried.yaml").exists()


def test_a_bug_of_a_tool_stops_only_what_needs_it_and_is_not_kept(hornbook, course, monkeypatch):
    with monkeypatch.context() as here:
        here.setattr("lint_rules.session.language_room", lambda: Breaks())
        said = hornbook("book", "--format", "json")
        assert said.status == 3
        assert "missing-note-field" in rules_of(said)
        assert "the check long-sentence could not run: KeyError: 'a bug'" in {
            row["why"] for row in said.json["skipped"] if row["path"] == ONE
        }
    after = hornbook("book", "--format", "json")
    assert after.status == 0
    assert "long-sentence" in rules_of(after)


def test_a_rule_with_a_bug_stops_only_itself(hornbook, course, monkeypatch):
    def bug(reading):
        raise ZeroDivisionError("a bug")
        yield

    real = desk.load_rules()
    spoilt = tuple(replace(m, find=bug) if m.rule.name == "long-sentence" else m for m in real)
    monkeypatch.setattr(desk, "load_rules", lambda: spoilt)
    said = hornbook("proof", "--no-cache", "--format", "json")
    assert said.status == 3
    assert {"missing-note-field", "word-above-level"} <= rules_of(said)
    assert [row["path"] for row in said.json["skipped"]] == [ONE, TWO]
    shown = hornbook("proof", "--no-cache")
    assert f"2 files, first {ONE}: the check long-sentence could not run: ZeroDivisionError: a bug" in shown.out
    assert "this is not the whole picture" in shown.out


def test_an_english_checker_that_does_not_answer_is_named_once(hornbook, course):
    said = hornbook("book", "--english", "http://127.0.0.1:9")
    assert said.status == 3
    assert said.out.count("could not run: ") == 1
    assert "http://127.0.0.1:9" in said.out
    assert json.loads(hornbook("book", "--english", "http://127.0.0.1:9", "--format", "json").out)["findings"]


def test_an_address_that_is_none_is_an_error(hornbook, course):
    said = hornbook("book", "--english", "ftp://example.org")
    assert said.status == 2
    assert "ftp://example.org" in said.err
