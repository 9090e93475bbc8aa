"""Slips that a key makes are found at the words it puts there; right sentences, whole stories of them, are left alone.

In `key_slips.txt` a row that begins with a star has a slip, at the words in brackets; the others have none.
"""

from pathlib import Path

import pytest

from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from lint_rules.unit_language.key_slips import key_slips
from lint_rules.unit_language.page_slips import page_slips

HERE = Path(__file__).parent
PAGE_ROWS = [row for row in (HERE / "page_slips.txt").read_text(encoding="utf-8").splitlines() if row and row[0] != "#"]
ROWS = [row for row in (HERE / "key_slips.txt").read_text(encoding="utf-8").splitlines() if row and row[0] != "#"]
SENTENCES = [
    row.split(" | ")[0].strip()
    for row in (HERE.parent / "language" / "course_english.txt").read_text(encoding="utf-8").splitlines()
    if row.strip() and not row.startswith("#")
]


@pytest.mark.parametrize("row", ROWS)
def test_a_slip_is_found_and_right_words_are_left_alone(row: str, language: SpacyLanguage) -> None:
    text = row.removeprefix("*")
    start, end = text.index("["), text.index("]") - 1
    plain = text.replace("[", "").replace("]", "")
    (analysis,) = language.analyse([Request(plain, Mode.TEXT, ())])
    found = [slip for slip in key_slips(analysis, start, end, "en-GB") if slip.start < end and start < slip.end]
    assert bool(found) == row.startswith("*"), found


@pytest.mark.parametrize("row", PAGE_ROWS)
def test_a_slip_in_running_text_is_found_and_right_text_is_left_alone(row: str, language: SpacyLanguage) -> None:
    text = row.removeprefix("*")
    plain = text.replace("[", "").replace("]", "")
    (analysis,) = language.analyse([Request(plain, Mode.TEXT, ())])
    found = list(page_slips(analysis, "en-GB"))
    if not row.startswith("*"):
        assert found == []
        return
    start, end = text.index("["), text.index("]") - 1
    assert any(slip.start < end and start < slip.end for slip in found), found


def test_no_right_sentence_is_called_wrong(language: SpacyLanguage) -> None:
    analyses = language.analyse([Request(text, Mode.TEXT, ()) for text in SENTENCES])
    wrong = [
        (text, text[slip.start : slip.end])
        for text, analysis in zip(SENTENCES, analyses, strict=True)
        for slip in (*key_slips(analysis, 0, len(text), "en-GB"), *page_slips(analysis, "en-GB"))
    ]
    assert wrong == []
