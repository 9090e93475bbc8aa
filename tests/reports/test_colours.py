"""Text and marks of the proof can be read, light and dark: WCAG 2.2, 1.4.3 (text 4.5:1) and 1.4.11 (marks 3:1)."""

import re
from importlib.resources import files

import pytest

STYLE = files("lint_rules.reports.html").joinpath("page.css").read_text("utf-8")
LIGHT, DARK = (
    dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6})", block)) for block in re.findall(r":root \{([^}]*)\}", STYLE)
)


def light(colour: str) -> float:
    """Relative luminance (WCAG 2.2)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((light(one), light(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_scale_of_contrast_is_right():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # the usual example of just too little


def test_dark_has_every_colour_that_light_has():
    assert set(LIGHT) == set(DARK)
    assert len(LIGHT) > 10


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "tint", "on-red", "on-blue", "on-grey"])
def test_text(colours, ground):
    assert contrast(colours["ink"], colours[ground]) >= 7


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("ground", ["paper", "tint"])
@pytest.mark.parametrize("colour", ["grey", "red", "blue", "green"])
def test_words_in_colour(colours, ground, colour):
    assert contrast(colours[colour], colours[ground]) >= 4.5


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("colour", ["red", "blue", "grey"])
def test_numbers_on_their_mark(colours, colour):
    assert contrast(colours["on-weight"], colours[colour]) >= 4.5


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("colour", ["ink", "red", "blue", "green", "orange", "grey"])
def test_marks_of_the_charts(colours, colour):
    assert contrast(colours[colour], colours["paper"]) >= 3
