# ruff: noqa: E501 - each row is one exercise
"""Numbers in a running text, items that nothing numbers, and what an item says once its key has done it."""

import pytest

from lint_rules.page.exercises.completed import completed, key_texts, word_with
from lint_rules.page.exercises.model import Exercise
from tests.exercises.test_layouts import ACTIVITY, read
from tests.exercises.test_readings import key


def exercise(page: str) -> Exercise:
    (one,) = read(ACTIVITY + page).exercises
    return one


def filled(page: str) -> list[tuple[str | None, ...]]:
    one = exercise(page)
    return [completed(item, one).filled for item in one.items]


def chosen(page: str) -> list[list[str | None]]:
    one = exercise(page)
    return [[option.text if option else None for option in completed(item, one).chosen] for item in one.items]


@pytest.mark.parametrize(
    ("page", "cloze", "gaps"),
    [
        ("The hen (1) ____ red. It (2) ____ old.\n" + key("1 is 2 is"), True, [1, 1]),
        ("The hen (1) ____ red. It (2) big and (3) ____ old.\n" + key("1 is 2 is 3 is"), True, [1, 0, 1]),
        ("The hen 1 ____ red. It 2 ____ old.\n" + key("1 is 2 is"), True, [1, 1]),
        ("The hen (1) is / are red. It (2) is / are old.\n" + key("1 is 2 is"), True, [0, 0]),
        ("1 ____ is red.\n\n2 ____ is old.\n" + key("1 It 2 He"), False, [1, 1]),
        ("Animals: 1 ____ 2 ____\n" + key("1 hen 2 cow"), False, [1, 1]),
        ("1. My hen is ____.\n2. My cow is ____.\n" + key("1 red 2 old"), False, [1, 1]),
        ("It's ____ (1) and we're in the ____ (2).\n" + key("1 hot 2 sea"), True, [1, 1]),
    ],
)
def test_numbers_within_a_text_are_no_list(page, cloze, gaps):
    one = exercise(page)
    assert (one.cloze, [len(item.gaps) for item in one.items]) == (cloze, gaps)


def test_only_a_number_in_brackets_may_have_lost_its_blank():
    one = exercise("The hen (1) ____ in 2 boxes. It (2) ____ old.\n" + key("1 is 2 is"))
    assert [(item.label.text, len(item.gaps)) for item in one.items] == [("1", 1), ("2", 1)]
    one = exercise("It (1) ____ red. I see (2) 2) cows. We (3) ____ old.\n" + key("1 is 2 two 3 are"))
    assert [item.label.text for item in one.items] == ["1", "2", "3"]


@pytest.mark.parametrize(
    ("page", "texts"),
    [
        ("1. It is ____.\n2. He is ____.\n" + key("1 red 2 old"), [("red",), ("old",)]),
        ("1. ____ you ____ tea?\n2. ____ he ____ tea?\n" + key("1 Do … like 2 Does … like"), [("Do", "like"), ("Does", "like")]),
        ("1. ____ you ____ tea?\n2. ____ he ____ tea?\n" + key("1 Do 2 Does"), [(None, None), (None, None)]),
        ("1. It is ____.\n2. He is ____.\n" + key("1 children's own answers 2 any colour"), [(None,), (None,)]),
        ("1. It is red. ____\n2. It is old. ____\n" + key("1 T 2 F – it is new"), [("",), ("it is new",)]),
        ("1. It is red. ____\n2. It is old. ____\n" + key("1 ✓ 2 ✗"), [("",), ("",)]),
        ("1. It is ____ .  a) red  b) old\n2. He is ____ .  a) six  b) ten\n" + key("1 b 2 a"), [("old",), ("six",)]),
        ("1. He ____ not ____ .  a) does, go  b) is, go\n2. I ____ not ____ .  a) do, go  b) am, go\n" + key("1 a 2 b"), [("does", "go"), ("am", "go")]),
        ("1. It is ____.\n2. He is ____.\n\na) red  b) old\n" + key("1 a 2 b"), [("red",), ("old",)]),
        ("1. I like ____ .\n2. I see ____ .\n" + key("1 I like tea. 2 I see a hen."), [("tea",), ("a hen",)]),
        ("1. I play with ____ .\n2. I sit by ____ .\n" + key("1 with her 2 by him"), [("her",), ("him",)]),
        ("1. I like ____ .\n2. I am ____ .\n" + key("1 tea / milk 2 old (or ten)"), [("tea",), ("old",)]),
    ],
)  # fmt: skip
def test_what_stands_in_the_blanks(page, texts):
    assert filled(page) == texts


@pytest.mark.parametrize(
    ("page", "options"),
    [
        ("1. It (is / are) red.\n2. We (is / are) old.\n" + key("1 is 2 are"), [["is"], ["are"]]),
        ("1. It (is / are) red.\n2. We (is / are) old.\n" + key("Crossed out: 1 are 2 is"), [["is"], ["are"]]),
        ("1. It (is / are / am) red.\n2. We (is / are / am) old.\n" + key("Cross out: 1 are 2 is"), [[None], [None]]),
        ("1. It (is / are) red.\n2. We (is / are) old.\n" + key("1 is 2 own answer"), [["is"], [None]]),
        ("1. It is  a) red  b) old\n2. He is  a) six  b) ten\n" + key("1 b 2 six"), [["old"], ["six"]]),
        ("1. It is  a) red  b) old\n2. He is  a) six  b) ten\n" + key("1 a, b 2 c"), [[None], [None]]),
    ],
)
def test_which_option_is_chosen(page, options):
    assert chosen(page) == options


@pytest.mark.parametrize(
    ("word", "said", "whole"),
    [
        ("ch__se", "cheese", "cheese"),
        ("ch___se", "ee", None),
        ("ch__se", "ee", "cheese"),
        ("_irl", "girl", "girl"),
        ("_irl", "g", "girl"),
        ("____ing", "playing", "playing"),
        ("h _ t", "a", "hat"),
        ("h _ t", "hat", "hat"),
        ("t ____ n", "ow", "town"),
        ("k_tch_n", "i, e", None),
        ("k_tch_n", "ie", "kitchen"),
        ("bo__", "boat", "boat"),
        ("bo____", "at / ok", "boat"),
    ],
)
def test_a_word_with_its_letters(word, said, whole):
    if whole is None:
        assert word_with(word, said) != said
    else:
        assert word_with(word, said) == whole


def test_the_key_has_a_part_for_each_blank():
    one = exercise(
        "1. ____ you ____ tea?\n2. He ____ old and ____.\n3. I am ____.\n"
        + key("1 Do, like 2 He is old and tired. 3 six")
    )
    assert [key_texts(item) for item in one.items] == [("Do", "like"), ("is", "tired"), ("six",)]


@pytest.mark.parametrize(
    ("page", "answers"),
    [
        pytest.param("- It is ____.\n- He is ____.\n" + key("red, old"), ["red", "old"], id="bullets"),
        pytest.param("It is ____. He is ____.\n" + key("red, old"), ["red", "old"], id="a text"),
        pytest.param("It is ____.\n\nHe is ____.\n" + key("1 red 2 old"), ["red", "old"], id="numbered in the key alone"),
        pytest.param("____ you ____ tea?\n\n____ it rain?\n" + key("Do … like, Does"), ["Do", "like", "Does"], id="one answer for two blanks"),
        pytest.param("It *is / are* red. We *is / are* old.\n" + key("is, are"), ["is", "are"], id="choices in a text"),
        pytest.param("| Ida | Bo |\n|---|---|\n| It is ____. | |\n| He is ____. | |\n" + key("red, old"), ["red", "old"], id="rows of a table"),
        pytest.param("____ ____\n" + key("red, old"), ["red", "old"], id="two blanks in a row"),
        pytest.param("____ ____ ____\n" + key("red, old, new"), ["red", "old", "new"], id="blanks in a row"),
        pytest.param("- a hen\n- a cow\n" + key("egg; milk"), ["egg", "milk"], id="a list without blanks"),
    ],
)  # fmt: skip
def test_what_nothing_numbers_is_counted_by_its_key(page, answers):
    assert [item.answer.text if item.answer else "" for item in exercise(page).items] == answers


def test_a_remark_of_the_key_goes_into_no_blank():
    page = "Each line ____ five ticks.\n\nThe hen ____ red.\n"
    one = exercise(page + key("Give a tick for every bird.\n\nGive a cross for the rest."))
    assert [item.answer for item in one.items] == [None, None]


def test_lines_to_write_on_are_no_blanks_of_a_text():
    found = read(ACTIVITY + "Write about it.\n\n________\n\n________\n")
    assert (found.exercises, len(found.lines)) == ((), 2)


def test_the_only_blank_of_a_row_takes_up_the_row():
    page = "| Name | Pet |\n|---|---|\n| Ida has | a ____ . |\n| Bo has | two ____ . |\n"
    assert [item.text for item in exercise(page + key("hen, cows")).items] == ["Ida has a ____ .", "Bo has two ____ ."]


def test_two_blanks_side_by_side_are_one_and_apart_they_are_two():
    one = exercise("1. I ____ ____ it.\n2. I ____ it ____.\n" + key("1 like 2 do, now"))
    assert [[gap.place.text for gap in item.gaps] for item in one.items] == [["____ ____"], ["____", "____"]]


def test_a_cloze_needs_two_numbers_before_blanks():
    one = exercise("1. The hen (1) ____ red.\n2. The cow is (2) old.\n" + key("1 is 2 very"))
    assert not one.cloze
