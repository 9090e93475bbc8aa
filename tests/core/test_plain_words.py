"""What a word is in plain text: as it is counted, in parts, as letters, and with what touches it."""

import pytest

from lint_rules.plain_words import LETTERS, PART, TOGETHER, WORD

CASES = {
    "Don’t run!": ("Don’t run", "Don’t run", "Don t run", "Don’t run"),
    "a T-shirt": ("a T-shirt", "a T shirt", "a T shirt", "a T-shirt"),
    "a T‐shirt": ("a T‐shirt", "a T shirt", "a T shirt", "a T shirt"),
    "at 7.30, 1,000 cats": ("at 7.30 1,000 cats", "at 7 30 1 000 cats", "at cats", "at 7 30 1 000 cats"),
    "10cm, 3rd": ("10cm 3rd", "10 cm 3 rd", "cm rd", "10cm 3rd"),
    "k_te ____ -ing": ("k te ing", "k te ing", "k te ing", "k_te ____ -ing"),
    "the boys' 'kite'": ("the boys kite", "the boys kite", "the boys kite", "the boys' 'kite'"),
    "cafe\u0301s": ("cafe\u0301s", "cafe\u0301s", "cafe s", "cafe s"),
    "… ! –": ("", "", "", ""),
}


@pytest.mark.parametrize("text", CASES)
def test_words(text):
    cut = (" ".join(pattern.findall(text)) for pattern in (WORD, PART, LETTERS, TOGETHER))
    assert tuple(cut) == CASES[text]
