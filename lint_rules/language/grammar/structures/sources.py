"""Where the levels of the structures come from.

``profile`` quotes the CEFR-J Grammar Profile, version 20180315 (Tono Laboratory, Tokyo University of Foreign Studies,
http://www.cefr-j.org/download.html; free to use when cited): the number of the item, its own level (how early textbooks
use it), and where it differs the first level of its column EGP (how early learners write it). The earlier of the two is
the structure's ``level``, the later one its ``higher``. Both start at A1: that the commonest structures are free at
Pre-A1 is a house default, common practice in first courses for children, for which there is no source.
"""

HOUSE = "house default; common practice, no source"


def profile(items: str) -> str:
    """The source of a level: what the CEFR-J Grammar Profile says of some items."""
    return f"CEFR-J Grammar Profile 20180315: {items}"


def pre_a1(items: str) -> str:
    """The source of a structure that the profile puts at the start of A1 and the house frees at Pre-A1."""
    return f"{profile(items)}; free at Pre-A1 by house default (common practice, no source)"
