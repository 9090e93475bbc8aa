"""Pieces of words that are added up, and numbers that stand for letters: no words of a sentence."""

import pytest

from lint_rules.page.exercises.sums import code_in, sum_in
from tests.exercises.pieces.places import place_of


@pytest.mark.parametrize(
    ("page", "added"),
    [
        ("slow + ly = ____", "slow + ly "),
        ("sun+____ = ________", "sun+____ "),
        ("foot + ball + er → ____", "foot + ball + er "),
        ("slow = ____", None),
        ("slow + ly", None),
        ("2 + 3 = ____", None),
        ("Ada has slow + ly = ____", None),
    ],
)
def test_a_sum_is_all_before_its_sign(page, added):
    found = sum_in(place_of(page))
    assert (found.text if found else None) == added


@pytest.mark.parametrize(
    ("page", "code"),
    [
        ("4 - 15 - 7 ____", "4 - 15 - 7 "),
        ("4, 15 = ____", None),  # a sum to do
        ("4/15 ____", "4/15 "),
        ("12 ____", None),  # a number alone is one
        ("4 – 15", None),
        ("____ 4 5", None),
    ],
)
def test_a_code_is_two_numbers_or_more_before_a_blank(page, code):
    found = code_in(place_of(page))
    assert (found.text if found else None) == code
