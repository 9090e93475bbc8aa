"""Blanks for words and for letters: which signs are one blank, which letters belong to its word, and its hint."""

import pytest

from lint_rules.page.exercises.gaps import cut_up_word, fits, gaps_in, shown_letters
from lint_rules.page.exercises.model import Gap, Place
from tests.exercises.pieces.places import as_it_stands, place_of


def words_of(found: list[Gap]) -> list[str]:
    """Each blank, in brackets where it is for a whole word."""
    return [gap.word.text if gap.word is not None else f"[{gap.place.text}]" for gap in found]


@pytest.mark.parametrize(
    ("text", "gaps", "hints"),
    [
        ("The hen is ____.", ["[____]"], [None]),
        ("The hen is red.", [], []),
        ("The hen is _ .", ["[_]"], [None]),
        ("(____)", ["[____]"], [None]),
        ("____ ____ hens", ["[____ ____]"], [None]),  # one of two words
        ("____ hens ____", ["[____]", "[____]"], [None, None]),
        ("The hen is ____ (red) and ____ (old).", ["[____]", "[____]"], ["(red)", "(old)"]),
        ("(red) The hen is ____ .", ["[____]"], ["(red) "]),
        ("(red) The hen ____ is ____ (old).", ["[____]", "[____]"], ["(red) ", "(old)"]),
        ("The (red) hen is ____ .", ["[____]"], [None]),  # neither behind nor at the start
        ("____ is (red)", ["[____]"], [None]),
        ("gr__n (red)", ["gr__n"], ["(red)"]),
        ("The h_n is a c__ and a_.", ["h_n", "c__", "a_"], [None, None, None]),
        ("____ing _irl c__t", ["____ing", "_irl", "c__t"], [None, None, None]),
        ("The h _ n is red.", ["h _ n"], [None]),
        ("A ch_ _se and a _ _ _", ["ch_ _se", "a _ _ _"], [None, None]),
        ("_ _ _ _ (red)", ["_ _ _ _"], ["(red)"]),
        ("a_b ____ s_ng", ["a_b", "[____]", "s_ng"], [None, None, None]),
    ],
)
def test_the_blanks_of_a_text(text, gaps, hints):
    found = list(gaps_in(as_it_stands(text)))
    assert words_of(found) == gaps
    assert [gap.hint.text if gap.hint else None for gap in found] == hints


def test_only_a_range_is_looked_at():
    whole = as_it_stands("A ____ and a h_n (red) and ____.")
    part = Place(whole.passage, 11, 16)
    assert words_of(list(gaps_in(part))) == ["h_n"]
    assert [gap.hint for gap in gaps_in(part)] == [None]


@pytest.mark.parametrize(
    ("text", "gaps"),
    [
        ("She … a hen.", ["[…]"]),
        ("She ... a hen.", ["[...]"]),
        ("She … a … hen.", ["[…]"]),
        ("She ____ a … hen.", ["[____]"]),
        ("Wait… she sings.", []),
        ("Wait…… she", ["[……]"]),
    ],
)
def test_dots_are_a_blank_only_beside_options(text, gaps):
    assert words_of(list(gaps_in(as_it_stands(text), dots=True))) == gaps
    assert words_of(list(gaps_in(as_it_stands(text)))) == [gap for gap in gaps if "_" in gap]


# Letters in groups around single lines; what the key says; the blanks.
GROUPED = [
    ("The sun is br _ ght.", "bright", ["br _ ght"]),
    ("The sun is br _ ght.", "brown", ["br _"]),
    ("It is a br _ ght sun.", "bright", ["br _ ght"]),
    ("my d_ _ ghter is", "daughter", ["d_ _ ghter"]),
    ("T _ _ sday", "Tuesday", ["T _ _ sday"]),
    ("an _ wl", "owl", ["_ wl"]),
    # An article, or the first letter.
    ("a _ _ _ _ _", "mouse", ["_ _ _ _ _"]),
    ("a _ _ _ _", "apple", ["a _ _ _ _"]),
    ("a _ _ _ _", "", ["a _ _ _ _"]),
    ("I have a _ _ _ _", "", ["a _ _ _ _"]),
    ("I have a _ _ _ _", "frog", ["_ _ _ _"]),
    ("I have a _ _ _ _", "cow", ["_ _ _ _"]),
    ("What is it? a _ _ _ _", "cow", ["a _ _ _ _"]),
    ("What is it? a _ _ _ _", "frog", ["_ _ _ _"]),
    ("It is my pet – a _ _ _ _", "cow", ["a _ _ _ _"]),
    ("a _", "cow", ["_"]),
    # Nothing but pieces of a word.
    ("sp _ _ n", "", ["sp _ _ n"]),
    ("sp _ _", "", ["sp _ _"]),
    ("my _ _ _", "cat", ["_ _ _"]),
    ("my _ _ _", "", ["_ _ _"]),
    ("my _ _ _", "myths", ["my _ _ _"]),
    ("green _ _", "", ["_ _"]),
    ("see 2 _ _", "", ["_ _"]),
]


@pytest.mark.parametrize(("text", "said", "gaps"), GROUPED)
def test_letters_around_single_lines_are_one_word_where_one_fits(text, said, gaps):
    assert [gap.place.text for gap in gaps_in(as_it_stands(text), said=said)] == gaps


# A blank with spaces; what the key says; whether the letters around it are one word with it, alone and in company.
CUT_UP = [
    ("t ____ n", "", True, True),  # t is no word
    ("a ____ n", "", True, True),
    ("a ____ I", "", False, False),
    ("si ____", "", False, True),
    ("si ____", "six", False, True),  # a word and its other form would look alike
    ("st ____", "stamp", True, True),
    ("st ____", "hen", False, True),
    ("____ en", "hen", True, True),
    ("____ icken", "chicken", True, True),  # an ending that is no word, and the key's one word ends so
    ("____ icken", "the chicken", False, False),
    ("____ en", "stamp", False, True),
    ("next ____", "to", False, False),  # a word of its own, though others of the list are cut up
    ("stop ____", "stopped", False, True),
    ("stop ____ ed", "stopped", True, True),
    ("sing ____ ings", "stopped", False, True),
    ("ap ____ le", "p", True, True),
    ("ap ____ le", "ppp", True, True),
    ("ap ____ le", "pppp", False, True),
    ("app ____ le", "pp", False, True),
    ("an ____", "", False, False),
    ("to ____ so", "toadso", False, False),
    ("hotel ____ night", "hotelnight", False, False),
    ("____", "", False, False),
    ("1 ____ en", "hen", False, False),
    ("The si ____ is", "", False, False),
]


@pytest.mark.parametrize(("text", "said", "alone", "company"), CUT_UP)
def test_a_word_that_a_blank_with_spaces_cuts_up(text, said, alone, company):
    place = as_it_stands(text)
    for in_company, is_word in ((False, alone), (True, company)):
        word = cut_up_word(place, said, in_company=in_company)
        assert (word.text if word is not None else None) == (text if is_word else None)
        if is_word:
            assert words_of(list(gaps_in(place, said=said, in_company=in_company))) == [text]


@pytest.mark.parametrize(
    ("alt", "word"), [("a ten", "t ____ n"), ("a hen", "t ____ n"), ("six", "si ____"), ("ten", None)]
)
def test_a_picture_shows_the_word(alt, word):
    page = f"1. {word or 'si ____'} ![{alt}](art/p.svg){{.drawing}}"
    found = cut_up_word(place_of(page))
    assert (found.text if found is not None else None) == word


@pytest.mark.parametrize(
    ("word", "answer", "one_each", "fit"),
    [
        ("h_n", "hen", True, True),
        ("h_n", "HEN", True, True),
        ("h_n", "heen", True, False),
        ("h_n", "heen", False, True),
        ("h__n", "hen", True, False),
        ("h__n", "hen", False, True),
        ("h _ n", "hen", True, True),
        ("h-_-n", "h-e-n", True, True),
        ("h_n", "hens", False, False),
        ("a.b_", "axbc", False, False),
    ],
)
def test_letters_fit_an_answer(word, answer, one_each, fit):
    assert fits(word, answer, one_each=one_each) is fit


def test_the_letters_that_a_word_shows():
    assert shown_letters("c__t 2 - é") == "cté"
