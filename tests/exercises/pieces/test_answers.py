"""What an answer of a key says: its letters, what it allows, whether it is left to the children."""

import re

import pytest

from lint_rules.page.exercises.answers import (
    CIRCLED,
    alike,
    alternatives,
    first_text,
    is_among,
    is_verdict,
    left_open,
    letters_of,
    plain,
    range_of,
    uncircled,
    yes_or_no,
)


@pytest.mark.parametrize(
    ("answer", "letters"),
    [
        ("b", ("b",)),
        ("(B)", ("b",)),
        ("b) a hat", ("b",)),
        ("b. a hat", ("b",)),
        ("b – she says so.", ("b",)),
        ("d (part 1)", ("d",)),
        ("a (long) coat", ()),
        ("e – mail", ()),
        ("C – “we have none”.", ("c",)),
        ("a, c", ("a", "c")),
        ("a and c.", ("a", "c")),
        ("a / c or d", ("a", "c", "d")),
        ("ⓑ", ("b",)),
        ("Ⓐ", ("a",)),
        ("iv", ("iv",)),
        ("b)", ("b",)),
        ("a hat", ()),
        ("hat", ()),
        ("a, hat", ()),
        ("b.hat", ()),
        ("", ()),
        (",", ()),
    ],
)
def test_the_letters_that_an_answer_gives(answer, letters):
    assert letters_of(answer) == letters


@pytest.mark.parametrize(
    ("answer", "texts"),
    [
        ("red", ("red",)),
        ("red / blue", ("red", "blue")),
        ("red or blue", ("red", "blue")),
        ("climb, jump or run", ("climb", "jump", "run")),
        ("red, blue", ("red, blue",)),  # for two blanks
        ("red / red", ("red",)),
        ("Monday(s)", ("Monday", "Mondays", "Monday(s)")),
        ("red – it is no fruit", ("red – it is no fruit", "red")),
        ("red (a colour)", ("red", "red a colour", "red (a colour)")),
        ("red → blue", ("red → blue", "red")),
        ("red,", ("red",)),
        ("", ()),
        (" / ", ()),
    ],
)
def test_the_texts_that_an_answer_allows(answer, texts):
    assert alternatives(answer) == texts
    assert first_text(answer) == (texts[0] if texts else "")


@pytest.mark.parametrize(
    ("answer", "is_open"),
    [
        ("Children's own answer", True),
        ("own answers", True),
        ("The children's own answers", True),
        ("Answers will vary.", True),
        ("Accept any colour.", True),
        ("red, or the children's own answers", False),
        ("red and own answers", False),
        ("3: own answers", True),
        ("red", False),
        ("I own a hat.", False),
        ("", False),
    ],
)
def test_an_answer_is_left_to_the_children_where_it_begins_so(answer, is_open):
    assert left_open(answer) is is_open


@pytest.mark.parametrize("text", ["T", "✗", "no", "True.", "doesn’t say", "3", "☐", ""])
def test_a_verdict_is_no_word_of_a_sentence(text):
    assert is_verdict(text)


@pytest.mark.parametrize("text", ["a", "not", "trues", "yes, he is", "hen 3"])
def test_a_word_is_no_verdict(text):
    assert not is_verdict(text)


@pytest.mark.parametrize(
    ("labels", "shown"),
    [
        (["1", "2", "3"], "1 to 3"),
        (["1"], "1"),
        (["1", "1"], "1"),
        (["xvii", "xviii"], "xvii to xviii"),
        (["Monday", "Friday"], "“Monday”, “Friday”"),
        (["Monday"], "Monday"),
    ],
)
def test_labels_as_a_message_names_them(labels, shown):
    assert range_of(labels) == shown


@pytest.mark.parametrize(
    ("answer", "words", "among"),
    [
        ("Red.", {"red"}, True),
        ("red / blue", {"blue"}, True),
        ("red, blue", {"blue"}, True),
        ("red", {"blue"}, False),
        ("reddish", {"red"}, False),
    ],
)
def test_an_answer_is_among_some_words(answer, words, among):
    assert is_among(answer, words) is among


def test_words_are_compared_without_marks_and_capitals():
    assert plain(" “It’s\n  RED!” ") == "it's red"
    assert plain("red\ufffchat") == "red hat"


def test_what_stands_in_a_circle_is_read_without_it():
    assert uncircled("① ⑨ ⑳ ❶ ❿ Ⓐ Ⓩ ⓐ ⓩ") == "1 9 20 1 10 A Z a z"
    assert uncircled("⓪ ㉑ ⓫ ⓿ 1 a") == "⓪ ㉑ ⓫ ⓿ 1 a"
    assert all(re.fullmatch(f"[{CIRCLED}]", sign) for sign in "①⑳❶❿Ⓐⓩ")
    assert not re.search(f"[{CIRCLED}]", "1 a — •")


@pytest.mark.parametrize(
    ("one", "other", "is_alike"),
    [
        ("go", "goes", True),
        ("goes", "go", True),
        ("swim", "swimming", True),
        ("make", "making", True),
        ("hen", "cow", False),
        ("cold", "hot", False),
    ],
)
def test_words_may_be_forms_of_one(one, other, is_alike):
    assert alike(one, other) is is_alike


@pytest.mark.parametrize(
    ("answer", "called"),
    [
        ("no (there is only one)", False),
        ("T – frame 2", True),
        ("Yes. There are two melons.", True),
        ("No, he isn't.", False),
        ("✗ (a ball)", False),
        ("f. I am a village.", None),  # a letter
        ("Yesterday. It rained.", None),
        ("There are no hats.", None),
        ("b – no", None),
    ],
)
def test_a_verdict_and_what_is_said_behind_it(answer: str, called: bool | None) -> None:
    assert yes_or_no(answer) is called
