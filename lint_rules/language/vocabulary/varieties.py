"""Which spellings belong to the other variety of English, by the table of American and British spellings."""

from collections.abc import Mapping
from functools import cache

from lint_rules.tables import rows

TABLE = "spelling_varieties.csv"
BY_PART_OF_SPEECH = "spelling_by_part_of_speech.csv"
AMERICAN, BRITISH = "american", "british"
# Canada spells partly the one, partly the other way: the table has nothing to say of it.
_SPELT_AS = {"en-US": AMERICAN, "en-CA": ""}


def spelt_as(variety: str) -> str:
    """How a variety spells the words of the table: ``american``, ``british``, or '' where the table cannot say.

    Australia, Ireland, New Zealand, South Africa and the rest go with Britain (common practice, no source).
    """
    return _SPELT_AS.get(variety, BRITISH if variety.startswith("en") else "")


@cache
def out_of_place(variety: str) -> Mapping[str, str]:
    """Spelling that is not at home in a variety → how that variety spells it (lower case)."""
    home = spelt_as(variety)
    found: dict[str, str] = {}
    for american, british, everywhere in rows(TABLE):
        if home == BRITISH and everywhere != AMERICAN:
            found[american] = british
        elif home == AMERICAN and everywhere != BRITISH:
            found[british] = american
    return found


@cache
def spelt_either_way(variety: str) -> frozenset[str]:
    """The spellings of the table, where a variety may have either; none for one that has its own."""
    pairs = rows(TABLE) if not spelt_as(variety) else ()
    return frozenset(spelling for american, british, _ in pairs for spelling in (american, british))


@cache
def wrong_as(variety: str) -> Mapping[tuple[str, str], str]:
    """Spelling and part of speech that do not go together in a variety → the right spelling (lower case)."""
    if spelt_as(variety) != BRITISH:
        return {}
    return {(written, part): right for written, part, right in rows(BY_PART_OF_SPEECH)}


@cache
def doubtful(variety: str) -> frozenset[str]:
    """The spellings whose part of speech says whether they are right in a variety."""
    return frozenset(written for written, _ in wrong_as(variety))
