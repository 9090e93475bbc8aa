"""Draws the small facts of one unit that the book's rules work on."""

from lint_rules.facts import Spot, UnitFacts
from lint_rules.rule import Reading


def facts_of(reading: Reading) -> UnitFacts:
    """Draw the facts of one unit."""
    unit = reading.unit
    title = unit.heading.passage.text if unit.heading else unit.front.title
    return UnitFacts(unit.path, reading.level.index, unit.front.unit, Spot(*unit.title_span, title))
