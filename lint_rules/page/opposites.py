"""Words that exclude each other: big, small; long, short."""

from functools import cache

from lint_rules.tables import entries


@cache
def opposites() -> tuple[frozenset[str], ...]:
    """The groups of words of which a thing is one alone."""
    return tuple(frozenset(part.strip() for part in row.split(",")) for row in entries("opposites.txt"))
