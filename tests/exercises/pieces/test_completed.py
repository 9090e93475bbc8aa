"""An item once its key has done it: what is chosen, what stands in each blank, and what nobody can know."""

import pytest

from lint_rules.page.exercises.completed import completed, is_option, key_texts, word_with
from tests.exercises.pieces.places import key
from tests.exercises.test_layouts import ACTIVITY, read

TWO = "1. It is ____.\n2. He is ____.\n"
BOTH = "1. ____ is ____.\n2. ____ and ____.\n"
COLUMN = "1. It is ____\n2. He is ____\n\na) red.  b) old.  c) big.\n"
LETTERED = "1. It is ____.  a) red  b) old\n2. He is ____ and ____.  a) six and ten  b) two\n"
INLINE = "1. It is *red / old*.\n2. He is *six / ten / two*.\n"


@pytest.mark.parametrize(
    ("page", "said", "filled"),
    [
        (TWO, "1 red 2 The hen is old.", [("red",), ("The hen is old.",)]),
        (TWO, "1 It is red. 2 he is old", [("red",), ("old",)]),
        (
            "1. Hear it: ____, ____\n2. It is ____, ____\n",
            "1 hear it: thunder, wind 2 wet, dry",
            [("thunder", "wind"), ("wet", "dry")],
        ),
        (TWO, "1 It’s red. 2 He is OLD!", [("It’s red.",), ("OLD",)]),
        ("1. It's ____.\n2. It’s ____.\n", "1 It’s red. 2 It's old.", [("red",), ("old",)]),
        (
            "1. He is ____(old) today.\n2. It is ____(big) now.\n",
            "1 older today 2 It is bigger now.",
            [("older",), ("bigger",)],
        ),
        ("1. He is ____ today.\n2. I go ____.\n", "1 very old today 2 go back home", [("very old",), ("back home",)]),
        (TWO, "1 red / blue 2 old (or new)", [("red",), ("old",)]),
        (TWO, "1 T – red 2 false: old", [("red",), ("old",)]),
        (TWO, "1 T 2 ✗", [("",), ("",)]),
        (TWO, "1 B 2 AB", [("",), ("",)]),
        (TWO, "1 A 2 I", [("A",), ("I",)]),
        (TWO, "1 ABC 2 Bo", [("ABC",), ("Bo",)]),
        (TWO, "1 children's own answer 2 any colour", [(None,), (None,)]),
        (TWO, "1 the pupil's own ideas 2 own words", [(None,), (None,)]),
        (TWO, "1 any more 2 his own hen", [("any more",), ("his own hen",)]),
        (TWO, "1 red", [("red",), (None,)]),
        (BOTH, "1 it, red 2 a hen and a cow", [("it", "red"), ("a hen", "a cow")]),
        (BOTH, "1 it / red 2 a hen … a cow", [(None, None), ("a hen", "a cow")]),
        (BOTH, "1 It is red. 2 a hen", [("It", "red"), (None, None)]),
        (BOTH, "1 it; red; old 2 T, F", [(None, None), ("", "")]),
        ("1. I play with ____ today.\n2. I ____ (1).\n", "1 with her today 2 play", [("her",), ("play",)]),
        ("1. I play with ____.\n2. I go ____ home.\n", "1 play with her 2 go back home", [("her",), ("back",)]),
        ("1. I play (1) ____ now.\n2. I go.\n", "1 play in now", [("in",), ()]),
        ("1. He is ____ (old).\n2. (big) It is ____.\n", "1 is older 2 It is bigger.", [("older",), ("bigger",)]),
        ("1. He is ____ (old) today.\n2. It is ____.\n", "1 He is older today. 2 is big", [("older",), ("big",)]),
        ("1. quick + ____ = ____\n2. slow + ____ = ____\n", "1 quickly 2 slowly", [("", "quickly"), ("", "slowly")]),
        ("1. c__t\n2. h_n\n", "1 cat 2 e", [("cat",), ("hen",)]),
        ("a. It is ____.\nb. He is ____.\nc. We ____.\n", "a. b\nb. a\nc. a hen", [("",), ("a",), ("a hen",)]),
        (LETTERED, "1 b 2 a", [("old",), ("six", "ten")]),
        (LETTERED, "1 old 2 b", [("old",), (None, None)]),
        (LETTERED, "1 big 2 b", [(None,), (None, None)]),
        (COLUMN, "1 b 2 a", [("old.",), ("red.",)]),
        (COLUMN, "1 b or c 2 red", [("",), ("red",)]),
        ("1. ____ it ____\n2. Is he ____?\n\na) Can; fly?  b) old\n", "1 a 2 b", [("Can", "fly?"), ("old",)]),
    ],
)
def test_what_stands_in_each_blank(page, said, filled):
    (exercise,) = read(ACTIVITY + page + key(said)).exercises
    done = [completed(item, exercise) for item in exercise.items]
    assert [one.filled for one in done] == filled
    assert [one.known for one in done] == [
        None not in one and None not in two.chosen for one, two in zip(filled, done, strict=True)
    ]


@pytest.mark.parametrize(
    ("page", "said", "chosen"),
    [
        (INLINE, "1 red 2 two", ["red", "two"]),
        (INLINE, "1 Red. 2 six / ten", ["red", "six"]),
        (INLINE, "1 big", [None, None]),
        (INLINE, "1 children's own answers 2 ten", [None, "ten"]),
        (INLINE, "Cross out: 1 red 2 ten", ["old", None]),
        (LETTERED, "1 b 2 a", ["old", "six and ten"]),
        (LETTERED, "1 b old 2 (a)", ["old", "six and ten"]),
        (LETTERED, "1 a, b 2 c", [None, None]),
    ],
)
def test_which_option_is_chosen(page, said, chosen):
    (exercise,) = read(ACTIVITY + page + key(said)).exercises
    done = [completed(item, exercise) for item in exercise.items]
    assert [option.text if option else None for one in done for option in one.chosen] == chosen
    assert [one.known for one in done if not one.filled] == [one is not None for one in chosen if page is INLINE]


def test_a_thing_of_the_column_is_matched_by_its_letter():
    (exercise,) = read(ACTIVITY + "1. a hen\n2. a cow\n\na) red  b) old\n" + key("1 b 2 a, b")).exercises
    done = [completed(item, exercise) for item in exercise.items]
    assert [one.matched.text if one.matched else None for one in done] == ["old", None]
    assert all(one.known for one in done)


@pytest.mark.parametrize(
    ("page", "said", "texts"),
    [
        (TWO, "1 red 2 It is old.", [("red",), ("It is old.",)]),
        (TWO, "1 It is red. 2 is old", [("red",), ("old",)]),
        (TWO, "1 red / blue", [("red / blue",), ("",)]),
        (BOTH, "1 it, red 2 a hen", [("it", "red"), ("a", "hen")]),
        (BOTH, "1 It is red. 2 one big hen", [("It", "red"), ()]),
        ("1. c__t\n2. h_n ran\n", "1 a 2 hen ran", [("a",), ("hen ran",)]),
    ],
)
def test_what_the_key_has_for_each_blank(page, said, texts):
    (exercise,) = read(ACTIVITY + page + key(said)).exercises
    assert [key_texts(item) for item in exercise.items] == texts


@pytest.mark.parametrize(
    ("word", "said", "whole"),
    [
        ("h_n", "hen", "hen"),
        ("h_n", "e", "hen"),
        ("h_n", "e-", "hen"),
        ("h_n", "hens", "hens"),
        ("h_n", "a / hen", "hen"),
        ("h__n", "heen", "heen"),
        ("h__n", "hen", "hen"),
        ("ch__se", "ee", "cheese"),
        ("k_t_h_n", "ice", "kitchen"),
        ("k_t_h_n", "ic", None),
        ("h_n", "elephant", "elephant"),  # another word
        ("c_t", "abc", "cabct"),
        ("c_t", "abcd", "abcd"),
        ("chick_n", "eggs", "chickeggsn"),
        ("c _ t", "a", "cat"),
        ("c _ t", "oa", None),
        ("t ____ n", "ee", "teen"),
        ("c _ t _ n", "ot", "cottn"),
        ("c _ t _ n", "o", None),
        ("h_n", "2", None),
        ("h_n", "two hens", None),
        ("k_t_h_n", "1 2 3", None),
        ("k_t_h_n", "123", None),
        ("h_n", "", None),
        ("h\u00a0_ n", "e", "hen"),
        ("We____", "'re", "We're"),
        ("Do____", "n’t", "Don’t"),
        ("We____", "s", "Wes"),
    ],
)
def test_a_word_once_its_answer_is_in_it(word, said, whole):
    assert word_with(word, said) == whole


@pytest.mark.parametrize(
    ("page", "said", "fits"),
    [
        ("It is *red / old*.", "red", True),
        ("It is *red / old*.", "It is red.", True),
        ("It is *red / old*.", "big", False),
        ("It is *red / old*.", "reddish", False),
        ("It is *red / old*.", "very big", False),
        ("It is *red / old*.", "quite another answer", None),
        ("It is *red / old*.", "", None),
        ("It is ____.  a) red  b) old", "b", True),
        ("It is ____.  a) red  b) old", "a, c", False),
        ("It is ____.  a) red  b) old", "d", False),
        ("It is ____.  a) red  b) old", "b old", True),
        ("h_n *e / i*", "hen", True),  # pieces of words
        ("h_n *e / i*", "hun", False),
        ("It is ____.", "red", None),
        ("*Is / Are* they *red / old*?", "red", None),
        ("Example: It is *red / old*.", "big", None),
    ],
)
def test_whether_an_answer_is_an_option(page, said, fits):
    (exercise,) = read(f"{ACTIVITY}1. {page}\n2. {page}\n" + key(f"1. {said}\n2. {said}")).exercises
    assert {is_option(item) for item in exercise.items} == {fits}


def test_an_item_without_a_blank_has_no_texts_for_one():
    page = ACTIVITY + "1. It is red.\n2. He is old.\n" + key("1 It is red. 2 He is old.")
    assert [key_texts(item) for exercise in read(page).exercises for item in exercise.items] == [(), ()]
