"""Keys that answer several items at once, or go by the other column (common practice, no source)."""

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.source import Source
from tests.safety.labelled import FRONT


def read(page: str, key: str) -> list[tuple[str, str, str]]:
    """Label, text and answer of each item."""
    text = f"{FRONT}### 1 Do it. {{.writing}}\n\n{page}\n\n::: answers\n{key}\n:::\n"
    unit = read_unit(Source("level-1/unit-01.md", text))
    items = [item for one in exercises_in(next(iter(unit.activities)), unit).exercises for item in one.items]
    return [(item.label.text, item.text, item.answer.text if item.answer else "") for item in items]


LETTERED = "a) ____ likes ____.\nb) ____ doesn't like ____.\nc) Does ____ like apples? ____"
NUMBERED = "1. I have a ____.\n2. I have a ____ too.\n3. My ____ is red.\n4. A ____ can fly."


@pytest.mark.parametrize(
    ("page", "key", "answers"),
    [
        (LETTERED, "a) to c) children's own answers", ["children's own answers"] * 3),
        (LETTERED, "a to c: own answers", ["own answers"] * 3),
        (NUMBERED, "1 to 3: own answers; 4 bird", ["own answers"] * 3 + ["bird"]),
        (NUMBERED, "1 cat 2 two to three 3 hat 4 bird", ["cat", "two to three", "hat", "bird"]),
    ],
)
def test_one_answer_for_a_range_of_items(page, key, answers):
    assert [answer for _, _, answer in read(page, key)] == answers


MATCHED = (
    "| | |\n|---|---|\n| a) w____k | 1 We sleep then. |\n| b) sl____p | 2 It is a number. |\n"
    "| c) thr____ | 3 Seven days. |"
)


def test_a_key_may_go_by_the_column_that_has_the_gaps():
    assert read(MATCHED, "a) week 3; b) sleep 1; c) three 2") == [
        ("a", "w____k", "week"),
        ("b", "sl____p", "sleep"),
        ("c", "thr____", "three"),
    ]


def test_a_key_that_goes_by_the_numbers_leaves_the_columns_as_they_are():
    assert [(label, answer) for label, _, answer in read(MATCHED, "1 b, 2 c, 3 a")] == [
        ("1", "b"),
        ("2", "c"),
        ("3", "a"),
    ]


def test_numbers_in_one_line_part_words_to_complete():
    page = "(1) ____ op (2) ____ eese (3) fi ____ (4) lun ____ (5) ____ oe"
    assert read(page, "(1) shop (2) cheese (3) fish (4) lunch (5) shoe") == [
        ("1", "____ op", "shop"),
        ("2", "____ eese", "cheese"),
        ("3", "fi ____", "fish"),
        ("4", "lun ____", "lunch"),
        ("5", "____ oe", "shoe"),
    ]


def test_numbers_before_blanks_in_a_text_stay_its_own():
    page = "There (1) ____ a cat and (2) ____ it is black. We (3) ____ it."
    assert [answer for _, _, answer in read(page, "(1) is (2) today (3) like")] == ["is", "today", "like"]


PARTS = (
    "#### A Match.\n\n1. a guard\n2. a ticket\n3. a wall\n\na. It is small.\nb. It is big.\nc. He is old.\n\n"
    "#### B True or false?\n\n1. He is red. ____\n2. It is wet. ____\n\n"
    "#### C Use the words in the box.\n\n**Word box:** sells, cleans\n\n"
    "1. She ____ it.\n2. He ____ tea.\n3. It ____ me."
)


@pytest.mark.parametrize(
    "key",
    [
        "A 1 c 2 a 3 b\n\nB 1 true 2 false\n\nC 1 cleans 2 sells 3 helps",
        "A: 1 c 2 a 3 b\\\nB: 1 true 2 false\\\nC: 1 cleans 2 sells 3 helps",
        "**A** 1 c, 2 a, 3 b\n\n**B** 1 true, 2 false\n\n**C** 1 cleans, 2 sells, 3 helps",
    ],
)
def test_a_key_with_a_paragraph_for_each_part_is_shared_out(key):
    assert [answer for _, _, answer in read(PARTS, key)] == ["c", "a", "b", "true", "false", "cleans", "sells", "helps"]


def test_what_stands_before_the_parts_has_no_key_of_theirs():
    steps = "1. Put ice on plate A.\n2. Wait.\n\n"
    page = f"{steps}#### A Guess!\n\nI think it is ____.\n\n#### B Write.\n\n1. It is ____.\n2. I am ____."
    assert [answer for _, _, answer in read(page, "A Own guesses.\n\nB 1 smaller 2 cold")] == [
        "",
        "",
        "smaller",
        "cold",
    ]


@pytest.mark.parametrize("key", ["1 4; 2 6; 3 3; 4 5", "1 4, 2 6, 3 3, 4 5", "1 – 4; 2 – 6; 3 – 3; 4 – 5."])
def test_numbers_may_be_the_answers_of_numbers(key):
    assert [answer for _, _, answer in read(NUMBERED, key)] == ["4", "6", "3", "5"]
