"""Where a long sentence is to be cut: before a clause that can stand alone, or nowhere (common practice, no source)."""

import pytest

from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from lint_rules.unit_language.sentence_cuts import place_to_cut


@pytest.mark.parametrize(
    ("text", "cut"),
    [
        ("There are hats and masks in the cupboard, but there isn't a crown.", "but there isn't"),
        ("My bed is under the deck, and I can see fish from my window.", "and I can"),
        ("Flump is in his new house and he is very happy today.", "and he is"),
        ("One is going up, one is coming down and one is in my hand.", ""),
        ("They go up, they turn over and they come down on a plate!", ""),
        ("Auntie Peza puts the pot, the drum and the chair on the roof.", ""),
        ("When it is dark, the cat sleeps and the mouse goes out.", "and the mouse"),
    ],
)
def test_an_editor_cuts_before_a_clause_of_its_own(text: str, cut: str, language: SpacyLanguage) -> None:
    (analysis,) = language.analyse([Request(text, Mode.TEXT, ())])
    assert place_to_cut(analysis, analysis.sentences[0], text) == cut
