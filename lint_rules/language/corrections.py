"""Correct tags, parts of speech, lemmas and dependencies where the model goes wrong on a course's English."""

from lint_rules.language import tables
from lint_rules.language.words import Text


def correct(text: Text) -> None:
    """Apply every correction, in order."""
    for step in STEPS:
        step(text)


def orders(text: Text) -> None:
    """`Point to the cat.`: a sentence of a rubric that opens with a verb of the table is an order."""
    if not text.instruction:
        return
    known = tables.words("orders")
    for start, end in text.sentences:
        word = text.words[start]
        if word.lower in known and word.tag not in ("VB",) and end - start > 1:
            word.retag("VB", "VERB", word.lower)


STEPS = (orders,)
