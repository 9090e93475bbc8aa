"""Numbers and labels in the pictures can be read: WCAG 2.2, 1.4.3 (4.5:1) and 1.4.11 (marks 3:1)."""

import pytest

from lint_rules.reports.html.pictures import figure, word_levels
from lint_rules.reports.html.pictures.vocabulary_map import DEEPEST, PALEST


def light(colour: str) -> float:
    """Relative luminance (WCAG 2.2)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((light(one), light(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def between(pale: str, dark: str, share: float) -> str:
    parts = (round(int(pale[at : at + 2], 16) * (1 - share) + int(dark[at : at + 2], 16) * share) for at in (1, 3, 5))
    return "#" + "".join(f"{part:02x}" for part in parts)


def test_the_scale_of_contrast_is_right():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # the usual example of just too little


@pytest.mark.parametrize("colour", [figure.INK, figure.GREY, figure.RED, figure.BLUE, figure.GREEN])
def test_text_and_numbers(colour):
    assert contrast(colour, figure.PAPER) >= 4.5


@pytest.mark.parametrize("colour", [colour for colour in word_levels._COLOURS if colour != figure.PAPER])
def test_marks(colour):
    assert contrast(colour, figure.PAPER) >= 3


@pytest.mark.parametrize("share", [at / 20 for at in range(21)])
def test_numbers_in_the_squares_of_the_vocabulary_map(share):
    assert contrast(between(PALEST, DEEPEST, share), figure.INK) >= 4.5
