"""The house list of sensitive topics: words, where they are harmless, and markets."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.engine.registry import load_rules
from lint_rules.language.service import Language
from lint_rules.safety.sensitive_topics import asked_topics, market_names, topics, touches
from lint_rules.tables import rows
from tests.commands.world import COURSE, ONE, WORDS, unit
from tests.support import run_files

LINES = [
    line
    for line in (Path(__file__).parent / "sensitive.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize("line", LINES)
def test_words_that_touch_a_topic_and_words_that_do_not(line: str) -> None:
    text = line.replace("«", "").replace("»", "")
    assert [text[touch.start : touch.end] for touch in touches([text])[0]] == re.findall("«(.*?)»", line)


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


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ("sensitive_off: [wepons]", "It has “wepons” there, which is no topic."),
        ("sensitive_off: [war, violence]", "under `sensitive_off` in course.yaml."),
        ("markets: [golf]", "under `sensitive_off` in course.yaml."),
        ("markets: [europe]", "under `sensitive_off` in course.yaml."),
    ],
)
def test_a_name_that_is_none_is_said_where_it_matters(settings: str, said: str, language: Language) -> None:
    (message,) = messages(settings, "The pirate has a sword.", language)
    assert message.endswith(said)


def test_a_market_that_is_none_is_said_where_it_matters(language: Language) -> None:
    (message,) = messages("markets: [golf]", "There is a pig on the farm.", language)
    assert "because “golf” under `markets` is none that hornbook knows (east-asia, " in message


def messages(settings: str, line: str, language: Language) -> list[str]:
    files = {"course.yaml": f"{COURSE}{settings}\n", "words/level-1.csv": WORDS, ONE: unit(1, line)}
    result = run_files(files, load_rules(), language, whole_book=False)
    return [found.message for found in result.findings if found.rule == "sensitive-topic"]


def test_the_tables_fit_each_other() -> None:
    names = {topic.name for topic in topics()}
    assert {topic for topic, *_ in rows("sensitive_words.csv")} == names
    assert {how for _, _, how, _ in rows("sensitive_words.csv")} == {"noun", "verb", "exact"}
    assert "worldwide" in market_names()


@given(st.text(max_size=200))
def test_no_text_crashes(text: str) -> None:
    for touch in touches([text])[0]:
        assert 0 <= touch.start < touch.end <= len(text)
