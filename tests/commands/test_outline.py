"""``hornbook outline``: an author sees how each activity was read."""

import json

from tests.commands.test_precommit import ROOT

UNIT = "example_manuscript/level-2/unit-01.md"


def test_an_author_sees_items_answers_and_boxes(hornbook, monkeypatch):
    monkeypatch.chdir(ROOT)
    said = hornbook("outline", UNIT)
    assert said.status == 0
    assert "1  The farmer ____ up at six.  → gets" in said.out
    assert "word box: get up · wash" in said.out
    assert "(yes / no)  → no" in said.out


def test_a_program_gets_places(hornbook, monkeypatch):
    monkeypatch.chdir(ROOT)
    read = json.loads(hornbook("outline", UNIT, "--format", "json").out)
    (activity,) = [one for one in read["activities"] if one["line"] == 132]
    item = activity["exercises"][0]["items"][0]
    assert item["gaps"] == [{"text": "____", "line": 134, "column": 15}]
    assert item["answer"]["text"] == "gets"


def test_a_file_without_activities_is_said_to_have_none(hornbook, tmp_path):
    (tmp_path / "notes.md").write_text("# Notes\n\nNothing here.\n", encoding="utf-8")
    said = hornbook("outline", str(tmp_path / "notes.md"))
    assert said.status == 2
    assert "holds no activity" in said.err


def test_a_file_that_is_not_there_is_said_to_be_missing(hornbook, tmp_path):
    said = hornbook("outline", str(tmp_path / "no.md"))
    assert said.status == 2
    assert "cannot be read" in said.err
