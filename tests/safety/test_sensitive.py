"""The house list of sensitive topics: words, where they are harmless, and markets."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.language.sensitive import asked_topics, market_names, topics, touches
from lint_rules.language.tables import rows

LINES = [
    line
    for line in (Path(__file__).parent / "sensitive.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize("line", LINES)
def test_words_that_touch_a_topic_and_words_that_do_not(line: str) -> None:
    text = line.replace("«", "").replace("»", "")
    assert [text[touch.start : touch.end] for touch in touches(text)] == re.findall("«(.*?)»", line)


def test_topics_by_market() -> None:
    everywhere = asked_topics((), ())
    assert {"alcohol", "weapons", "gambling", "smoking"} <= everywhere
    assert not {"pigs", "religion", "romance"} & everywhere
    assert {"pork", "pigs", "alcohol"} <= asked_topics(("Middle East",), ())
    assert "pigs" not in asked_topics(("europe",), ())
    assert asked_topics(("worldwide",), ()) == {topic.name for topic in topics()}
    assert asked_topics(("midle-east",), ()) == {topic.name for topic in topics()}, "a market nobody knows asks all"
    assert "alcohol" not in asked_topics(("worldwide",), ("Alcohol",))
    assert "body-image" not in asked_topics(("worldwide",), ("body image",))


def test_the_tables_fit_each_other() -> None:
    names = {topic.name for topic in topics()}
    assert {topic for topic, *_ in rows("sensitive_words.csv")} == names
    assert {how for _, _, how, _ in rows("sensitive_words.csv")} == {"noun", "verb", "exact"}
    assert "worldwide" in market_names()


@given(st.text(max_size=200))
def test_no_text_crashes(text: str) -> None:
    for touch in touches(text):
        assert 0 <= touch.start < touch.end <= len(text)
