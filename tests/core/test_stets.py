"""Stets with a date: `until 2027-03-01` lapses on that day, not the day after."""

from datetime import date, timedelta

import pytest

from lint_rules.engine.suppression.stets import is_lapsed, is_valid
from lint_rules.manuscript.model import Stet
from lint_rules.source import Span

DAY = date(2027, 3, 1)


@pytest.mark.parametrize(("days", "lapsed"), [(-1, False), (0, True), (1, True)])
def test_a_stet_lapses_on_its_day(days: int, lapsed: bool) -> None:
    stet = Stet("long-text", "until the story is cut", DAY, Span(0, 9), Span(0, 40))
    today = DAY + timedelta(days)
    assert is_lapsed(stet, today) is lapsed
    assert is_valid(stet, today) is not lapsed
