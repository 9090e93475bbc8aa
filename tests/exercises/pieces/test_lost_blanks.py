"""Blanks that Markdown takes for emphasis, for a line across the page or for a bullet; and emphasis that is meant."""

import pytest

from tests.exercises.pieces.test_blank_signs import read


@pytest.mark.parametrize(
    ("page", "text"),
    [
        ("1 br_ _d  2 sch_ _l", "1 br_ _d 2 sch_ _l"),
        ("br__ __d and sch__ __l", "br__ __d and sch__ __l"),
        ("l_m_n and _r_ng_", "l_m_n and _r_ng_"),
        ("an _r_ng_ hen", "an _r_ng_ hen"),
        ("a _ _ b_c_d", "a _ _ b_c_d"),
        ("h__e__n", "h__e__n"),
        ("s_x_ _y", "s_x_ _y"),
        ("____ ____ ____", "____ ____ ____"),
    ],
)
def test_underscores_that_are_blanks_are_read(page, text):
    unit, (one,) = read(page)
    assert " ".join(one.text.split()) == text
    assert {unit.source.slice(one.span(at, at + 1)) for at, char in enumerate(one.text) if char == "_"} == {"_"}
    assert one.emphasis == ()


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("The _big_ hen is old.", ["big"]),
        ("The _big_ hen h_n_ is", ["big"]),
        ("_a_ and _b_", ["a", "b"]),
        ("The *big* hen is ____.", ["big"]),
        ("The _big_ hen is ____.", ["big"]),
    ],
)
def test_underscores_that_are_emphasis_stay_so(page, words):
    _, (one,) = read(page)
    assert [one.text[start:end] for start, end in one.emphasis] == words


def test_what_stands_beside_stays_where_it_is():
    unit, (one,) = read("(1) l_m_n (2) _r_ng_ ____ ![a hen](art/h.svg) and **all**")
    assert [one.text[start:end] for start, end in one.gaps] == ["____"]
    assert [one.text[picture.at] for picture in one.pictures] == ["\ufffc"]
    assert unit.source.slice(one.span(one.text.index("and"))) == "and **all"


@pytest.mark.parametrize(
    ("page", "entries"),
    [
        ("1. * g g\n2. h * n", [("1", "* g g"), ("2", "h * n")]),
        ("1. c o * t\n2. * * g\n3. p - g", [("1", "c o * t"), ("2", "* * g"), ("3", "p - g")]),
        ("2. + - g", [("2", "+ - g")]),
        ("- * g g", [("", "g g")]),
        ("1. * a hen", [("", "a hen")]),  # a list in a list
        ("1. * g g\n   * h h", [("", "g g"), ("", "h h")]),
    ],
)
def test_a_star_for_the_first_letter_is_no_bullet(page, entries):
    unit, found = read(page)
    assert [(one.item.label if one.item else "", one.text) for one in found] == entries
    for one in found:
        for at, char in enumerate(one.text):
            assert unit.source.slice(one.span(at, at + 1)) == char
