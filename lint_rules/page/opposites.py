"""Words that exclude each other: big, small; long, short."""

from functools import cache

from lint_rules.tables import entries


@cache
def _excluded() -> dict[str, frozenset[str]]:
    """Each word of the table, with those that exclude it; big and huge mean the same."""
    found: dict[str, frozenset[str]] = {}
    for row in entries("opposites.txt"):
        sides = [frozenset(one.strip() for one in part.split("|")) for part in row.split(",")]
        for side in sides:
            others = frozenset[str]().union(*(other for other in sides if other is not side))
            for word in side:
                found[word] = found.get(word, frozenset()) | others
    return found


def opposites_of(word: str) -> frozenset[str]:
    """The words of which none is true of a thing of which this one is; empty for a word that the table has not."""
    return _excluded().get(word, frozenset())


def with_opposites() -> frozenset[str]:
    """All words that the table has."""
    return frozenset(_excluded())
