"""Prepositions that are wrong behind their verb or adjective: *arrive to the school*, *wait me*, *good in maths*.

Pure: a text in, slips out. The table is ``data/wrong_prepositions.csv``; its rows are held against clean pages in
tests/english.
"""

import re
from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from lint_rules.english.slips import Slip
from lint_rules.language.inflection.forms import every_form
from lint_rules.tables import alternatives, rows
from lint_rules.tables import words as word_table

_SPACE = r"[^\S\n]+"
_ENDS = r"(?=\s*(?:[.,;:!?”\"’)]|$))"
_BEHIND = {
    "THE": r"(?:the|my|your|his|her|our|their)\s+[a-z]",
    "THING": r"(?:the|an?|my|your|his|her|our|their|this|that|these|those)\s+[a-z]",
    "WHOSE": r"(?:my|your|his|her|our|their)\s+(?!turns?\b|chances?\b|moments?\b|whole\b)[a-z]",
    "SOMEBODY": r"(?:me|you|him|her|us|them)\b",
    "NAME": r"(?-i:[A-Z][a-z]+)\b(?!['’]s)",
    "-ing": r"[a-z]+ing\b",
    "-s": r"[a-z]+s\b",
}


class _Row(NamedTuple):
    """A row of the table: where the slip stands, and what is right."""

    pattern: "re.Pattern[str]"
    right: str


def wrong_prepositions(text: str) -> Iterator[Slip]:
    """The prepositions of a text that are wrong, and those that are missing."""
    for row in _table():
        for match in row.pattern.finditer(text):
            if wrong := match["wrong"]:
                words = alternatives(row.right)
                said = " or ".join(f"“{word}”" for word in words)
                message = f"The word here is {said}." if row.right else f"No “{wrong}” comes here."
                yield Slip(*match.span("wrong"), message, row.right if len(words) == 1 else "")
            else:
                better = f"{match['before']} {row.right}"
                yield Slip(*match.span("before"), f"“{better}” is what we say.", better)


@cache
def _table() -> tuple[_Row, ...]:
    return tuple(_row(*cells) for cells in rows("wrong_prepositions.csv"))


def _row(before: str, wrong: str, right: str, behind: str) -> _Row:
    first = "|".join(form for one in alternatives(before) for form in _forms(one))
    words = "|".join(re.escape(one) for one in alternatives(wrong))
    then = "|".join(_pattern(one) for one in alternatives(behind))
    between = rf"(?P<wrong>{words}){_SPACE}" if words else "(?P<wrong>)"
    return _Row(re.compile(rf"\b(?P<before>{first}){_SPACE}{between}(?:{then})", re.I), right)


def _forms(words: str) -> Iterator[str]:
    """The words as they stand, or where * marks a verb in all its forms: take* care, took care."""
    verb, star, rest = words.partition("*")
    yield from (re.escape(f"{form}{rest}") for form in (every_form(verb) if star else (verb,)))


def _pattern(behind: str) -> str:
    word, _, end = behind.rpartition(" ")
    if end == "END":
        return rf"(?-i:{re.escape(word)}){_ENDS}"
    if behind == "PLACE":  # not: to a warm welcome
        return rf"an?\s+(?:[a-z]+\s+){{0,2}}?(?:{'|'.join(sorted(word_table('places_to_reach')))})\b"
    return _BEHIND.get(behind, rf"{re.escape(behind)}\b")
