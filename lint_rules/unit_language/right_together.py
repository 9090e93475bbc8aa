"""Options that are right together: words that say the same, and words of which each fits wherever the other does.

Pure text: the two options, and the words of the sentence around them.
"""

import re
from functools import cache

from lint_rules.page.exercises.answers import plain
from lint_rules.tables import entries, words

# Somebody whom nothing on the page shows: he or she, his or her.
_OF_SOMEBODY = (frozenset({"he", "she"}), frozenset({"his", "her"}), frozenset({"him", "her"}))
_TELLS_WHO = re.compile(
    r"\b(?:mother|father|mum|dad|sister|brother|aunt|uncle|son|daughter|boy|girl|man|woman|men|women|lady|gentleman|king|queen"
    r"|prince|princess|husband|wife|mr|mrs|miss|ms|madam|sir|grand\w+|granny|nephew|niece|he|she|his|her|him|hers|himself"
    r"|herself|witch|wizard|waitress|actress|hero|heroine)\b",
    re.I,
)
_NAME = re.compile(r"\b(?!I\b)[A-Z]\w*")
_WEEK = frozenset({"monday", "tuesday", "wednesday", "thursday", "friday"})
_DATES = (
    _WEEK,
    *(frozenset(pair.split()) for pair in ("june july", "july august", "october november", "january february")),
)
_OWN = re.compile(r"\b(?:I|we|my|our)\b", re.I)
_GOING_TO = re.compile(r"(?:am|is|are|['’]m|['’]re|['’]s)\s+going\s+to")
_LATER = re.compile(
    r"\b(?:tomorrow|tonight|next\s+(?:week|month|year|summer|winter|spring|autumn|weekend|\w+day))\b", re.I
)


def right_together(one: str, other: str, outside: str, *, told_who: bool) -> bool:
    """Whether two options are right together in a sentence of which ``outside`` is the rest: `always` and `often`;
    `will` and `are going to` of a plan; `behind` and `in front of` a house; `he` and `she` where nobody is named, in
    the sentence or (``told_who``) beside it."""
    pair = {plain(one), plain(other)}
    if any(pair <= several for several in _go_together()):
        return True
    if any(pair <= several for several in _OF_SOMEBODY):
        named = any(match.start() for match in _NAME.finditer(outside.strip()))
        return not told_who and not named and _TELLS_WHO.search(outside) is None
    if any(pair <= several for several in _DATES):
        return _OWN.search(outside) is not None
    if pair <= {"can", "may", "could"}:
        return re.search(r"\bI\b", outside) is not None and outside.rstrip().endswith("?")
    planned = "will" in pair and any(_GOING_TO.fullmatch(one) for one in pair)
    return planned and _LATER.search(outside) is not None and "?" not in outside


def tells_who(text: str) -> bool:
    """Whether a sentence names somebody, or says that it is a he or a she."""
    named = [match[0] for match in _NAME.finditer(text) if match.start() or len(match[0]) > 1]
    return _TELLS_WHO.search(text) is not None or any(name.casefold() not in words("first_words") for name in named)


@cache
def _go_together() -> tuple[frozenset[str], ...]:
    return tuple(frozenset(part.strip() for part in line.split(",")) for line in entries("go_together.txt"))


def says_the_same(one: str, other: str) -> bool:
    """Whether two options say the same: words, or sentences that differ in one word: `Close / Shut the window.`"""
    these, others = plain(one).split(), plain(other).split()
    if _is_pair(plain(one), plain(other)):
        return True
    differing = [pair for pair in zip(these, others, strict=False) if pair[0] != pair[1]]
    several = len(these) == len(others) > 2 and len(differing) == 1
    return several and _is_pair(*(word.strip(",.!?") for word in differing[0]))


def _is_pair(one: str, other: str) -> bool:
    return one != other and any({one, other} <= several for several in _same_meaning())


@cache
def _same_meaning() -> frozenset[frozenset[str]]:
    return frozenset(frozenset(part.strip() for part in line.split("=")) for line in entries("same_meaning.txt"))
