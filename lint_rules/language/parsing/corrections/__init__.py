"""Corrections of what the model says, on plain data, before any structure is looked for.

Each module corrects one kind of thing and says so; the order matters where one builds on another.
"""

from lint_rules.language.parsing.corrections import (
    auxiliaries,
    complements,
    forms,
    mentions,
    orders,
    parts_of_speech,
)
from lint_rules.language.parsing.words import Text

STEPS = (
    *mentions.STEPS,
    *forms.STEPS,
    *orders.STEPS,
    *auxiliaries.STEPS,
    *complements.STEPS,
    *parts_of_speech.STEPS,
)


def correct(text: Text) -> None:
    """Apply every correction, in order."""
    for step in STEPS:
        step(text)
