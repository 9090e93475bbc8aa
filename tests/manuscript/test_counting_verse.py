"""What is a verse, and what a row of words: as many texts that are neither."""

import pytest

from lint_rules.manuscript.counting import is_row_of_words, is_verse


@pytest.mark.parametrize(
    "text",
    [
        "The moon is a lamp,\nthe stars are its friends,\nthe owl says “Who?”\nwhere the garden ends.",
        "The mouse goes pitter, / the fox goes pad, / and I am awake.",
        "A cat, a cat, a cat\nIs sitting on the mat\nBehind my hat",
    ],
)
def test_lines_of_a_verse(text: str) -> None:
    assert is_verse(text)


@pytest.mark.parametrize(
    "text",
    [
        "Open the box.\nTake out the pen.\nDraw a cat.",
        "The old woman who lived in the red house by the river was a very good cook,\nand she had a cat,\nand a dog.",
        "He is / isn't here.",
        "One line, and no more",
        "",
    ],
)
def test_what_is_no_verse(text: str) -> None:
    assert not is_verse(text)


@pytest.mark.parametrize(
    "text", ["washed, chopped, looked.", "eat – ate, find – found, go – went", "say → said → said", "Red. Blue. Green."]
)
def test_rows_of_words(text: str) -> None:
    assert is_row_of_words(text)


@pytest.mark.parametrize(
    "text", ["Look, it is a cat!", "Yes, I can, thanks", "Stop!", "", "He ran, fell over, and cried a lot."]
)
def test_what_is_no_row_of_words(text: str) -> None:
    assert not is_row_of_words(text)
