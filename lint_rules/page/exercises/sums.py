"""Words as sums and codes: `quick + ly = ____`, `rain + ____ = ________`, `4 - 15 - 7 ____`.

What is added up are pieces of a word, and what is decoded are numbers: nobody reads them as a sentence.
"""

import re

from lint_rules import lazy_re
from lint_rules.page.exercises.model import Place

_PIECE = r"(?:[^\W\d_]+|_+)"
_SUM = lazy_re.compile(rf"\s*{_PIECE}(?:\s*\+\s*{_PIECE})+\s*(?=[=→])")
_CODE = lazy_re.compile(r"[\s\d.,·•–—/+|-]*(?=_)")


def sum_in(place: Place) -> Place | None:
    """What a range adds up, where it is a sum of pieces of words: all before its sign of equality."""
    match = _SUM.match(place.passage.text, place.start, place.end)
    return Place(place.passage, *match.span()) if match is not None else None


def code_in(place: Place) -> Place | None:
    """The numbers that stand for letters before a blank."""
    match = _CODE.match(place.passage.text, place.start, place.end)
    if match is None or len(re.findall(r"\d+", match[0])) < 2:
        return None
    return Place(place.passage, *match.span())
