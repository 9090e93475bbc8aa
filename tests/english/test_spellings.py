"""Spellings that are right in a course: of the other variety, and where a variety has both."""

import pytest

from lint_rules.english.spellings import spellings_for
from tests.english.pages import course


@pytest.mark.parametrize(
    ("variety", "word", "right"),
    [
        ("en-CA", "pyjamas", True),  # Canada spells either way (the table of varieties, after SCOWL)
        ("en-CA", "pajamas", True),
        ("en-CA", "colour", True),
        ("en-CA", "pijamas", False),
        ("en-GB", "pijamas", False),
        ("en-GB", "pajamas", True),  # spelling-variety says so
        ("en-US", "pyjamas", True),
    ],
)
def test_a_spelling_of_a_variety_is_no_misspelling(variety: str, word: str, right: bool) -> None:
    assert spellings_for(course(variety), ()).vouch_for(word) is right
