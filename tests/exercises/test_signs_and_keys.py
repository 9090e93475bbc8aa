"""Blanks in any sign, keys that go by names or leave numbers out, items that nothing numbers."""

import pytest

from lint_rules.page.exercises.completed import completed
from tests.exercises.test_layouts import ACTIVITY, read, texts

KEY = "\n::: answers\n{}\n:::\n"


def gaps(page: str) -> list[str]:
    return [gap.place.text for one in read(ACTIVITY + page).exercises for item in one.items for gap in item.gaps]


@pytest.mark.parametrize(
    "sign", ["____", "......", "………", ". . . . .", "------", "– – – –", "———", "□□□□"], ids=lambda sign: repr(sign)
)
def test_a_blank_may_be_any_sign(sign):
    page = f"1. I have {sign} hats.\n2. You have {sign} too.\n" + KEY.format("1 two 2 one")
    assert len(gaps(page)) == 2
    assert texts(read(ACTIVITY + page)) == [[("1", "two"), ("2", "one")]]


@pytest.mark.parametrize(
    "text", ["Wait … and see.", "It is red - or blue - or green.", "Stop... Go!", "A well-known T-shirt."]
)
def test_dots_and_dashes_of_a_sentence_are_no_blanks(text):
    assert gaps(f"1. {text}\n2. {text}\n") == []


def test_signs_in_a_word_are_letters_where_the_key_fits_more_than_one():
    page = "1. c-t\n2. d.g\n3. T-shirt\n" + KEY.format("1 cat 2 dog 3 T-shirt")
    assert gaps(page) == ["c_t", "d_g"]
    assert gaps("1. c-t\n2. a hen\n" + KEY.format("1 cat 2 hen")) == []


def test_numbers_set_high_behind_their_blanks_are_their_numbers():
    page = "I ____^1^ (be) six. ____^2^ you ____^2^ (like) it?\n" + KEY.format("1 am, 2 Do … like")
    (exercise,) = read(ACTIVITY + page).exercises
    assert [(item.label.text, len(item.gaps)) for item in exercise.items] == [("1", 1), ("2", 2)]


@pytest.mark.parametrize(
    ("key", "answers"),
    [
        ("1 c, 2 a, 4 b", [("1", "c"), ("2", "a"), ("3", ""), ("4", "b")]),
        ("1 c; 2 a; 4 b", [("1", "c"), ("2", "a"), ("3", ""), ("4", "b")]),
        ("1 c\n2 a\n4 b", [("1", "c"), ("2", "a"), ("3", ""), ("4", "b")]),
    ],
)
def test_a_key_may_leave_a_number_out(key, answers):
    page = "1. one\n2. two\n3. three\n4. four\n\na) red  b) blue  c) green  d) grey\n" + KEY.format(key)
    assert texts(read(ACTIVITY + page)) == [answers]


def test_the_clues_of_a_crossword_are_numbered_by_its_squares():
    page = "**Across**\n\n1. It is wet.\n4. It is hot.\n\n**Down**\n\n2. It is cold.\n3. It is red.\n"
    for key in ("Across: 1 rain 4 fire; Down: 2 ice 3 rose", "**Across** 1 rain 4 fire\n**Down** 2 ice 3 rose"):
        assert texts(read(ACTIVITY + page + KEY.format(key))) == [
            [("1", "rain"), ("4", "fire")],
            [("2", "ice"), ("3", "rose")],
        ]


@pytest.mark.parametrize(
    ("page", "key", "answers"),
    [
        ("- We **go / goes** home.\n- He **go / goes** home.\n", "go, goes", ["go", "goes"]),
        ("- We **go / goes** home.\n- He **go / goes** home.\n", "1 go 2 goes", ["go", "goes"]),
        ("We ( go / goes ) home and he ( play / plays ).\n", "go, plays", ["go", "plays"]),
        ("Ed: I ____ six. ____ you six?\n", "am / Are", ["am", "Are"]),
        ("| a cat | two ____ |\n|---|---|\n| a man | two ____ |\n", "cats, men", ["cats", "men"]),
        ("- Who has a hat?\n- Who has a cat?\n", "Ed\nMo", ["Ed", "Mo"]),
    ],
)  # fmt: skip
def test_what_nothing_numbers_takes_the_answers_in_order(page, key, answers):
    (exercise,) = read(ACTIVITY + page + KEY.format(key)).exercises
    assert [item.answer.text if item.answer else "" for item in exercise.items] == answers


@pytest.mark.parametrize(
    ("page", "key"),
    [
        ("Ask: do you like ____ best?\n", "Each line has five ticks."),
        ("We ( go / goes ) home and he ( play / plays ).\n", "go, plays, sings"),
    ],
)
def test_a_remark_and_another_number_of_answers_are_given_to_nothing(page, key):
    found = read(ACTIVITY + page + KEY.format(key))
    assert all(item.answer is None for one in found.exercises for item in one.items)
    assert found.loose


def test_words_are_sorted_under_the_names_that_the_key_has():
    page = "Words: hen, rose, cow\n\n| Animals | Flowers |\n|---|---|\n| ____ | ____ |\n"
    (exercise,) = read(ACTIVITY + page + KEY.format("Animals: hen, cow. Flowers: rose.")).exercises
    assert exercise.sorting
    assert texts(read(ACTIVITY + page + KEY.format("Animals: hen, cow. Flowers: rose."))) == [
        [("Animals", "hen, cow"), ("Flowers", "rose")]
    ]


def test_a_form_goes_by_the_names_of_its_fields():
    page = "Name: ____\n\nAge: ____\n\nDay of the club: ____\n" + KEY.format("Name: Mo. Age: six. Day: Monday.")
    assert texts(read(ACTIVITY + page)) == [[("Name", "Mo"), ("Age", "six"), ("Day of the club", "Monday")]]


def test_people_who_take_turns_are_no_options():
    page = "1. A: I ____ up.\n2. B: I sing.\n3. A: You ____ home.\n4. B: We ____ too.\n" + KEY.format("1 get 3 go 4 go")
    (exercise,) = read(ACTIVITY + page).exercises
    assert not exercise.column
    assert len(exercise.items) == 4


def test_the_words_for_a_blank_are_those_that_a_whole_sentence_has_in_bold():
    page = "I went (1) ____ the office and (2) ____ a bell.\n" + KEY.format(
        "1. I went **to** the office.\n2. I **rang** (or **heard**) a bell."
    )
    assert texts(read(ACTIVITY + page)) == [[("1", "to"), ("2", "rang")]]


def test_a_whole_sentence_of_the_key_is_not_put_into_the_blank_of_its_sentence():
    page = "They told us (1) ____ come in and (2) ____ to touch it.\n" + KEY.format(
        "1. They told us to come in.\n2. and not to touch it."
    )
    (exercise,) = read(ACTIVITY + page).exercises
    assert [completed(item, exercise).filled for item in exercise.items] == [("to",), ("not",)]


def test_steps_may_have_their_letters_behind_them():
    page = "a. The boat came.\nb. A rope broke.\nc. It rained.\n" + KEY.format(
        "1. First it rained (c).\n2. Then a rope broke (b).\n3. At last the boat came (a)."
    )
    (exercise,) = read(ACTIVITY + page).exercises
    assert [answer.label.text for answer in exercise.key.order if answer.label] == ["c", "b", "a"]


def test_options_of_several_words_go_on_with_the_numbers_of_a_text():
    page = "I (1) **laugh / laughed**. We (2) **didn't swim / didn't swam**. So we (3) **buyed / bought** it.\n"
    (exercise,) = read(ACTIVITY + page + KEY.format("1 laughed, 2 didn't swim, 3 bought")).exercises
    assert [len(item.choices) for item in exercise.items] == [1, 1, 1]


def test_a_childs_own_sentence_is_no_word_for_a_blank():
    page = "1. There ____\n2. It's a ____.\n" + KEY.format("1 Children's own sentence: one mark for *is*.\n\n2 hat")
    (exercise,) = read(ACTIVITY + page).exercises
    assert completed(exercise.items[0], exercise).filled == (None,)
