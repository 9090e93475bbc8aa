"""Blanks in other signs: what they are read as, and where in the file each character stands."""

import pytest

from lint_rules.manuscript.model import Audience, Passage, Unit
from lint_rules.page.exercises.stream import mended_passages
from tests.exercises.pieces.places import key
from tests.exercises.test_layouts import ACTIVITY, unit_of


def read(page: str) -> tuple[Unit, list[Passage]]:
    unit = unit_of(ACTIVITY + page)
    (activity,) = unit.activities
    mended = mended_passages(activity, unit)
    pupil = [one for one in activity.part.passages if one.audience is Audience.PUPIL]
    return unit, [mended.get(id(one), one) for one in pupil]


def texts(page: str) -> list[str]:
    return [one.text for one in read(page)[1]]


@pytest.mark.parametrize(
    ("page", "text"),
    [
        ("The hen is ..... red.", "The hen is _____ red."),
        ("The hen is .... red.", "The hen is ____ red."),
        ("The hen is ....", "The hen is ____"),
        ("The hen is (....) red.", "The hen is (____) red."),
        ("The hen is …… red.", "The hen is __ red."),
        ("The hen is . . . . red.", "The hen is _______ red."),
        ("The hen is --- red.", "The hen is ___ red."),
        ("The hen is –– red.", "The hen is __ red."),
        ("The hen is - - - red.", "The hen is _____ red."),
        ("The h□n is red.", "The h_n is red."),
        ("A □en, a he☐ and a □□□.", "A _en, a he_ and a ___."),
        ("The hen (  ) is red.", "The hen (__) is red."),
        ("[ ] a hen [] a cow [   ] a pig", "☐ a hen ☐ a cow ☐ a pig"),
        ("The hen (1) … red and (12) ... old.", "The hen (1) ____ red and (12) ____ old."),
    ],
)
def test_a_sign_for_a_blank(page, text):
    assert texts(page.replace("  )", "&nbsp; )").replace("[   ]", "[ ]")) == [text]


@pytest.mark.parametrize(
    "page",
    [
        "The hen is ... red.",
        "The hen....is red.",
        "The hen is … red.",
        "The hen is -- red -- and old.",
        "The hen is - red - and old.",
        "□ a hen ☐ a cow",
        "See [1] and word[ ].",
        "The hen ( ) is red.",
        "The hen (1) …and more.",
        "The hen is a well-known hen.",
    ],
)
def test_other_signs_stay(page):
    assert texts(page) == [page]


@pytest.mark.parametrize(
    ("page", "answers", "words"),
    [
        ("1. c-t\n2. d-g\n3. T-shirt", "1 cat 2 dog 3 T-shirt", ["c_t", "d_g", "T-shirt"]),
        ("1. c-t\n2. T-shirt", "1 cat 2 T-shirt", ["c-t", "T-shirt"]),  # one alone may be a word with a dash
        ("1. c-t d-g\n2. I sing.", "1 cat dog", ["c_t d_g", "I sing."]),
        ("1. c–t\n2. h.n", "1 cat 2 hen", ["c_t", "h_n"]),
        ("1. c*t\n2. h*n\n3. b*g", "1 cat 2 hen", ["c_t", "h_n", "b_g"]),  # no sentence has stars: then all are words
        ("1. c\\*t\n2. h-n\n3. b\\*g", "1 cat 2 hen", ["c_t", "h_n", "b*g"]),
        ("1. b-g\n2. c-t\n3. h-n", "2 cat 3 hen", ["b-g", "c_t", "h_n"]),
        ("1. c . t\n2. h □ n\n3. b - g", "1 cat 2 hen", ["c _ t", "h _ n", "b _ g"]),
        ("1. c . t\n2. h . n\n3. Wait . . .", "1 cat 2 hen", ["c _ t", "h _ n", "Wait . . ."]),
        ("1. c . t\n2. h e n", "1 cat 2 hen", ["c . t", "h e n"]),  # letters to read out
        ("1. c*t\n2. h*n\n3. I* see", "1 cat 2 hen", ["c_t", "h_n", "I* see"]),
        ("1. t?ger\n2. li?n\n3. be?r", "1 tiger 2 lion", ["t_ger", "li_n", "be_r"]),
        ("1. t?ger?\n2. Why?not", "1 tiger 2 why", ["t?ger?", "Why?not"]),
        ("1. C-T\n2. D-G", "1 cat 2 dog", ["C_T", "D_G"]),
        ("1. a-c\n2. b-d", "1 c 2 d", ["a-c", "b-d"]),
        ("1. x-y\n2. b-d", "1 cat 2 hen", ["x-y", "b-d"]),
        ("1. -a\n2. b-", "1 ma 2 be", ["-a", "b-"]),
    ],
)
def test_signs_in_words_are_letters_where_the_key_fits_them(page, answers, words):
    assert texts(page + key(answers)) == words


@pytest.mark.parametrize(
    ("page", "text"),
    [
        ("The hen ____^1^ (be) red.", "The hen (1) ____ (be) red."),
        ("____^(2)^ you ____^(2)^ it?", "(2) ____ you ____ it?"),
        ("I ____^1^ six. He ____^2^ ten.", "I (1) ____ six. He (2) ____ ten."),
        ("It is 5 m^2^.", "It is 5 m^2^."),
    ],
)
def test_a_number_set_high_behind_its_blank_is_read_before_it(page, text):
    assert texts(page) == [text]


def test_what_is_marked_stays_marked_and_in_its_place():
    page = (
        "1. A **big** ..... *old* [hola]{lang=es} ~~hen~~ ____^7^ ![a hen](art/h.svg) ::c-t:: sees **all**.\n2. d-g\n"
        + key("1 cat 2 dog")
    )
    unit, (one, _) = read(page)
    assert one.text.startswith("A big _____ old hola hen (7) ____ ")
    for ranges, words in (
        (one.strong, ["big", "all"]),
        (one.emphasis, ["old"]),
        (one.foreign, ["hola"]),
        (one.struck, ["hen"]),
        (one.gaps, ["_____", "____"]),
    ):
        assert [one.text[start:end] for start, end in ranges] == words
    (picture,) = one.pictures
    assert one.text[picture.at] == "\ufffc"
    assert len(one.text) == len(one.starts) == len(one.ends)
    for words, written in (("all", "all"), ("hen", "hen"), ("_____", "....."), ("(7) ", "____^7^"), ("sees", "sees")):
        at = one.text.index(words)
        assert written.startswith(unit.source.slice(one.span(at, at + len(words)))), words


def test_bold_that_is_only_a_number_set_high_is_gone_with_it():
    _, (one,) = read("I ____**^1^** (be) six.")
    assert (one.text, one.strong) == ("I (1) ____ (be) six.", ())


@pytest.mark.parametrize(
    ("page", "written"),
    [("The hen (1) ... red.", "..."), ("The hen ..... red.", "....."), ("[&nbsp; ] hen", "[&nbsp; ]")],
)
def test_a_blank_is_found_where_its_signs_stand(page, written):
    unit, (one,) = read(page)
    start = next(at for at, char in enumerate(one.text) if char in "_☐")
    end = start + len(one.text[start:].split()[0])
    assert unit.source.slice(one.span(start, end)) == written
    if len(written) == end - start:
        assert [unit.source.slice(one.span(at, at + 1)) for at in range(start, end)] == list(written)
