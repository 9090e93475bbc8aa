"""How often the structures are found rightly in course English labelled by hand: the figures in DEVELOPERS.md."""

import pytest

from lint_rules.language.grammar.structures import structures
from tests.language.course_english import HELD_BACK, TUNED_ON, Sentence, sentences
from tests.language.measure import Score, find, scores


def measured(items: list[Sentence]) -> dict[str, Score]:
    return scores([item.structures for item in items], find(items))


@pytest.fixture(scope="module")
def all_of_it() -> dict[str, Score]:
    return measured(sentences(TUNED_ON) + sentences(HELD_BACK))


def test_the_sentences_we_tune_on() -> None:
    assert measured(sentences(TUNED_ON))["all"].f1 >= 0.96


def test_the_sentences_held_back() -> None:
    assert measured(sentences(HELD_BACK))["all"].f1 >= 0.96


@pytest.mark.parametrize("name", [one.name for one in structures() if one.sure])
def test_what_may_stop_a_commit_is_right_in_85_of_100(all_of_it: dict[str, Score], name: str) -> None:
    assert all_of_it[name].found > 4
    assert all_of_it[name].precision >= 0.85
