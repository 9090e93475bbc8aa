"""The score pairs judged findings with today's one to one: a finding that is gone takes no other's place."""

from typing import Any

from tests.judged.score import Row, match


def judged(line: int, text: str, message: str = "", verdict: str = "WRONG") -> Row:
    return Row("a-rule", "query", "level-1/unit-01.md", line, text, verdict, "", message)


def found(line: int, text: str, message: str = "") -> dict[str, Any]:
    return {"rule": "a-rule", "path": "level-1/unit-01.md", "line": line, "text": text, "message": message}


def paired(rows: list[Row], findings: list[dict[str, Any]]) -> list[int | None]:
    match(rows, findings)
    return [row.now for row in rows]


def test_a_finding_that_has_moved_a_few_lines_is_the_same() -> None:
    assert paired([judged(10, "kite")], [found(14, "kite")]) == [0]


def test_a_finding_far_away_is_another() -> None:
    assert paired([judged(10, "kite")], [found(90, "kite")]) == [None]


def test_the_nearest_is_taken_once() -> None:
    assert paired([judged(10, "kite"), judged(20, "kite")], [found(20, "kite")]) == [None, 0]


def test_other_words_in_another_line_are_another_finding() -> None:
    assert paired([judged(10, "kite")], [found(11, "hat")]) == [None]


def test_a_longer_span_at_the_same_line_is_the_same() -> None:
    assert paired([judged(10, "kite")], [found(10, "a kite")]) == [0]


def test_several_at_one_place_are_told_apart_by_what_they_quote() -> None:
    rows = [judged(9, "Title", "“ask” is not taught"), judged(9, "Title", "“sell” is not taught", "RIGHT")]
    assert paired(rows, [found(9, "Title", "“sell” is nowhere")]) == [None, 0]


def test_a_changed_message_at_a_place_of_its_own_is_the_same_finding() -> None:
    assert paired([judged(9, "Title", "“ask” is not taught")], [found(9, "Title", "Teach it.")]) == [0]


def test_two_of_one_place_and_one_rule_are_told_apart_by_their_weight() -> None:
    rows = [judged(9, "lights a candle"), judged(9, "lights a candle", verdict="RIGHT")]
    rows[1].severity = "stop"
    assert paired(rows, [{**found(9, "lights a candle"), "severity": "stop"}]) == [None, 0]
