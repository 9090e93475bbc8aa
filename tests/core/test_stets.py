"""What a stet lets stand: findings of its rule in its block, with a reason, until its day and not on it."""

from datetime import date, timedelta

import pytest

from lint_rules.engine.suppression.stets import apply_stets, is_lapsed, is_valid, lets_stand
from lint_rules.finding import Finding, Severity, Status
from lint_rules.manuscript.model import Stet
from lint_rules.source import Position, Span

DAY = date(2027, 3, 1)


@pytest.mark.parametrize(("days", "lapsed"), [(-1, False), (0, True), (1, True)])
def test_a_stet_lapses_on_its_day(days: int, lapsed: bool) -> None:
    stet = Stet("long-text", "until the story is cut", DAY, Span(0, 9), Span(0, 40))
    today = DAY + timedelta(days)
    assert is_lapsed(stet, today) is lapsed
    assert is_valid(stet, today) is not lapsed


BLOCK = Span(10, 40)


def stet(rule="long-text", reason="a chant", covers: Span | None = BLOCK, **more) -> Stet:
    return Stet(rule, reason, None, Span(0, 9), covers, **more)


def finding(start: int, rule: str = "long-text") -> Finding:
    at = Position(1, start + 1)
    return Finding(rule, Severity.QUERY, "level-1/unit-01.md", Span(start, start + 3), at, at, "kite", "message")


@pytest.mark.parametrize(("start", "stands"), [(9, False), (10, True), (39, True), (40, True), (41, False)])
def test_a_stet_covers_what_starts_in_its_block(start, stands):
    assert lets_stand(stet(), finding(start)) is stands


def test_another_rule_and_a_stet_without_a_block_cover_nothing():
    assert not lets_stand(stet(), finding(12, "long-sentence"))
    assert not lets_stand(stet(covers=None), finding(12))


@pytest.mark.parametrize(
    "spoilt", [{"reason": ""}, {"rule": ""}, {"fault": "It covers more than one block."}, {"covers": None}]
)
def test_a_spoilt_stet_lets_nothing_stand(spoilt):
    settled, used = apply_stets([finding(12)], [stet(**spoilt)], DAY)
    assert [one.status for one in settled] == [Status.OPEN]
    assert used == frozenset()


def test_what_stands_has_the_reason_and_only_stets_that_were_needed_are_used():
    first, second, unused = stet(reason="one"), stet("long-sentence", "two"), stet("word-above-level", "three")
    found = [finding(12), finding(13, "long-sentence"), finding(50)]
    settled, used = apply_stets(found, [first, second, unused], DAY)
    assert [(one.status, one.reason) for one in settled] == [
        (Status.LET_STAND, "one"),
        (Status.LET_STAND, "two"),
        (Status.OPEN, ""),
    ]
    assert used == {first, second}
