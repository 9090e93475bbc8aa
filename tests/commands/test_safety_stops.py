"""A missing safety note cannot slip past: not into carried.yaml, not by a word in a stet, and never unseen."""

import json

import pytest

from tests.commands.world import ONE, make_course, unit

CANDLE = "### 2 Make a lantern. {.make}\n\n%sLight the candle with a match and carry it round the class.\n"


def with_candle(stet: str = "") -> str:
    return f"{unit(1)}\n{CANDLE % stet}"


@pytest.fixture
def book(tmp_path, monkeypatch):
    """A course whose first unit lets children light a candle, without a note."""
    return monkeypatch.chdir(make_course(tmp_path, {ONE: with_candle()})) or tmp_path


def safety(hornbook, command: str = "proof") -> list[str]:
    said = hornbook(command, *([ONE] if command == "proof" else []), "--format", "json")
    return [one["severity"] for one in said.findings if one["rule"] == "missing-safety-note"]


def test_an_old_book_does_not_carry_its_safety_stops_over(hornbook, book):
    assert safety(hornbook) == ["stop"]
    said = hornbook("carry")
    assert "1 missing safety note cannot be carried over and must be mended:" in said.out
    assert f"  {ONE}:" in said.out.partition("must be mended:")[2], "and it is listed with its place"
    assert safety(hornbook) == safety(hornbook, "book") == ["stop"]
    assert hornbook("proof", ONE).status == 1, "the commit is still held"


@pytest.mark.parametrize("reason", ["fine", "we know it", "an old friend's"])
def test_three_words_are_no_reason_to_leave_a_safety_note_out(hornbook, book, reason):
    (book / ONE).write_text(with_candle(f"<!-- stet missing-safety-note: {reason} -->\n\n"), encoding="utf-8")
    assert safety(hornbook) == ["stop"]
    assert "stet-without-reason" in hornbook("proof", ONE).out


def test_a_reason_lets_it_stand_and_is_shown_wherever_the_book_is_summed_up(hornbook, book):
    reason = "the teacher alone lights it"
    (book / ONE).write_text(with_candle(f"<!-- stet missing-safety-note: {reason} -->\n\n"), encoding="utf-8")
    assert safety(hornbook) == []
    for command in (["proof", ONE], ["book"]):
        shown = hornbook(*command).out
        assert f"No safety note at {ONE}:" in shown
        assert reason in shown
        assert "The school's policy, local rules and licensed practice decide." in shown
    hornbook("release", "--record", "record.json")
    record = json.loads((book / "record.json").read_text(encoding="utf-8"))
    assert reason in json.dumps(record)
