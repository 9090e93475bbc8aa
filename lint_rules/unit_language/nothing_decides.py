"""Options that are both right of whom or what nobody knows: `My cousin is (older / younger) than me`.

No sense of the world is asked. A sentence about a particular person or thing of somebody's own (`my sister`, `our bag`)
says as well the one as its opposite; who the sister is no child can know. Where the world may decide (a grandad is
older, an elephant is bigger, milk is in its cup) there is no pattern. Pure text: the options and what stands around.
"""

import re
from collections.abc import Callable
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.page.exercises.answers import plain
from lint_rules.tables import entries, words
from lint_rules.unit_language.doings import alike, doing, going_and_playing, manner, meals, places, ways_to_go
from lint_rules.unit_language.frames import ENDS, FEELS, GOER, KIN, NOUN, OWNER, SOMEBODY, VERY, listed, things
from lint_rules.unit_language.right_together import tells_who

_BE = r"(?:\s+(?:is|are|am|was|were)|['’](?:s|m|re))"
_PERSON = lazy_re.compile(rf"(?:{SOMEBODY}|{OWNER}\s+teacher){_BE}{VERY}", re.I)
_NAMED = lazy_re.compile(rf"([A-Z][a-z]+){_BE}{VERY}")
_TEACHER = lazy_re.compile(rf"{OWNER}\s+teacher", re.I)
_OF_PEOPLE = frozenset({"taller", "shorter", "older", "younger"})
_THING = lazy_re.compile(rf"{OWNER}\s+(?:(?:new|old|school)\s+)?([\w-]+){_BE}{VERY}", re.I)
_THAN_PERSON = lazy_re.compile(rf"than\s+(?:me|you|him|her|us|them|{OWNER}\s+{KIN}|(?-i:[A-Z][a-z]+))\s*[.!]?", re.I)
_THAN_THING = lazy_re.compile(r"than\s+(?:mine|yours|his|hers|ours|theirs)\s*[.!]?", re.I)
_HAS = lazy_re.compile(rf"{SOMEBODY}(?:['’](?:ve|s)|\s+ha(?:ve|s))(?:\s+got)?", re.I)
_AGE = lazy_re.compile(rf"{SOMEBODY}(?:\s+(?:is|am|are)|['’](?:s|m|re))", re.I)
_YEARS = lazy_re.compile(r"(?:years\s+old)?\s*[.!]?", re.I)
_AT = lazy_re.compile(rf"(?:{SOMEBODY}|he|she|they|school)\s+(?:\w+\s+){{1,5}}at", re.I)
_CLOCK = lazy_re.compile(r"o['’]clock(?:\s+(?:every\s+day|on\s+\w+days?|in\s+the\s+\w+))?\s*[.!]?", re.I)
_COUNT = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBERS = {word: number for number, word in enumerate(_COUNT, start=1)}
_NEAR = 2
_YOUNGEST = 5
_SHORT = 5  # words
_POSSESSIVES = frozenset({"my", "your", "our", "his", "her", "their"})
_POINTS = lazy_re.compile(
    r"(?:\b(?:this|that|these|those|there|it)(?:\s+(?:is|are)|['’]s)|\b(?:is|are)\s+(?:this|that|these|those))$", re.I
)
_WE = lazy_re.compile(r"(?:I|we)", re.I)
_PLANNED = lazy_re.compile(r"(?:\w+\s+){1,5}(?:now|soon|today|tomorrow|tonight|later)\s*[.!]?", re.I)
_IS_OWN = lazy_re.compile(rf"(?:is|are)\s+{OWNER}\s+([\w-]+)\s*[.!]?", re.I)
_HIS_OR_HERS = lazy_re.compile(r"\b(?:beard|moustache|dress|skirt|husband|wife|bald|baby|married)\b", re.I)
_OWNER_LAST = lazy_re.compile(rf"(?:[\w’']+\s+){{0,5}}(?:{OWNER}|an?|the|two|three)", re.I)
_IS_A = lazy_re.compile(
    rf"{OWNER}\s+(?:mum|mam|mother|dad|father|aunt|uncle|gran|grandad|{KIN}|parents)\s+(?:is|was|wants\s+to\s+be)\s+an?",
    re.I,
)
_WANTS_TO_BE = lazy_re.compile(rf"(?:{SOMEBODY}|he|she|they)\s+wants?\s+to\s+be\s+an?", re.I)
_GROWN_UP = lazy_re.compile(r"^(?:when|one\s+day)\b[\w\s]*", re.I)
_HAS_A = lazy_re.compile(rf"{GOER}(?:['’](?:ve|s)|\s+ha(?:ve|s))(?:\s+got)?\s+an?", re.I)
_FAVOURITE = lazy_re.compile(rf"(?:{OWNER}\s+(?:{KIN}['’]s\s+)?)favou?rite\s+\w+(?:\s+(?:is|are)|['’]s)", re.I)
_HAS_ON = lazy_re.compile(
    rf"(?:{SOMEBODY}|he|she|they)(?:['’](?:s|m|re|ve)|\s+(?:is|am|are|have|has))?"
    rf"\s*(?:wearing|wears?|got|buying|bought|carrying|packing|painted|painting)?\s*(?:an?|{OWNER}|the|some)?",
    re.I,
)
_GOT = lazy_re.compile(r"got\s+(?:an?|any|some)\s+([\w-]+)\s*[.!]?", re.I)


def nothing_decides(one: str, other: str, before: str, behind: str) -> bool:
    """Whether two options are both right between what stands before and behind them in a sentence of its own."""
    pair, left, right = frozenset((plain(one), plain(other))), before.strip(), behind.strip()
    return len(pair) == 2 and any(finder(pair, left, right) for finder in _FINDERS)


def should_or_must(one: str, other: str, before: str, behind: str) -> bool:
    """Whether a sentence says as well that we must as that we should, that you mustn't as that you can't."""
    pair = {plain(one), plain(other)}
    if pair == {"mustn't", "can't"}:
        return re.fullmatch("you|we", before.strip(), re.I) is not None and len(behind.split()) > 1
    if pair == {"shall", "should"}:
        return not before.strip() and re.match(r"(?:I|we)\s.*\?$", behind.strip(), re.S) is not None
    verb = pair <= {"must", "should", "have to"} and "should" in pair
    return verb and _WE.fullmatch(before.strip()) is not None and _PLANNED.fullmatch(behind.strip()) is not None


def _adjectives(pair: frozenset[str], left: str, right: str) -> bool:
    """`My cousin is (older / younger) than me`, `Our teacher is (nice / funny)`, `Our bag is (heavy / light)`."""
    person, thing, named = _PERSON.fullmatch(left), _THING.fullmatch(left), _NAMED.fullmatch(left)
    own = thing is not None and plain(thing[1]) in words("things_of_any_colour")
    if ENDS.fullmatch(right):
        return (person is not None and pair <= words("said_of_anybody")) or (
            own and pair <= words("said_of_own_things")
        )
    compared = _THAN_PERSON.fullmatch(right) is not None
    if compared and named is not None and not lowest(named[1].casefold()) and pair <= _OF_PEOPLE:
        return True  # a city is bigger, no city is taller
    own_kind = compared and person is not None and not _TEACHER.match(left)
    if own_kind and (pair == {"more", "less"} or pair <= _comparatives("said_of_anybody")):
        return True
    return own and _THAN_THING.fullmatch(right) is not None and pair <= _comparatives("said_of_own_things")


@cache
def _described(pair: frozenset[str], left: str, right: str) -> bool:
    """`I've got a (big / small) bag.`"""
    noun, article = NOUN.fullmatch(right), _HAS_A.fullmatch(left)
    return (
        article is not None
        and noun is not None
        and plain(noun[1]) in things() | words("may_be_anywhere")
        and pair <= words("said_of_own_things")
        and len({one[0] in "aeiou" for one in pair}) == 1
    )


@cache
def _comparatives(table: str) -> frozenset[str]:
    return frozenset(_regular(word) for word in words(table))


def _regular(word: str) -> str:
    if len(word) > 6 or word in ("tired", "scared", "careful", "polite", "closed", "untidy"):
        return f"more {word}"
    if word.endswith("y") and word[-2] not in "aeiou":
        return f"{word[:-1]}ier"
    double = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnt]", word) is not None
    return f"{word}r" if word.endswith("e") else f"{word}{word[-1] if double else ''}er"


def _numbers(pair: frozenset[str], left: str, right: str) -> bool:
    """`My sister is (seven / eight).`, `I've got (two / three) cousins.`, `We get up at (six / seven) o'clock.`"""
    numbers = [_NUMBERS[one] for one in pair if one in _NUMBERS]
    if len(numbers) < len(pair) or max(numbers) - min(numbers) > _NEAR:
        return False
    if _AGE.fullmatch(left) and _YEARS.fullmatch(right):
        return min(numbers) >= _YOUNGEST
    if _AT.fullmatch(left) and _CLOCK.fullmatch(right):
        return max(numbers) - min(numbers) == 1
    noun = NOUN.fullmatch(right) if min(numbers) > 1 else None
    return noun is not None and _HAS.fullmatch(left) is not None and plain(noun[1]) in words("counted_freely")


def _owners(pair: frozenset[str], left: str, right: str) -> bool:
    """`Don't forget (your / the) ticket!`"""
    noun = NOUN.fullmatch(right)
    owned = noun is not None and plain(noun[1]) in things()
    return "the" in pair and bool(pair & _POSSESSIVES) and owned and bool(left) and not _POINTS.search(left)


def _of_a_family(pair: frozenset[str], left: str, right: str) -> bool:
    """He and she are not told apart: `This is my (brother / sister).`"""
    told = tells_who(f"{left} {right}") or _HIS_OR_HERS.search(right)
    return (
        any(pair == listed(row) for row in entries("kinsfolk.txt"))
        and _OWNER_LAST.fullmatch(left) is not None
        and len(right.split()) <= _SHORT
        and not told
    )


def _jobs_and_favourites(pair: frozenset[str], left: str, right: str) -> bool:
    """`My aunt is a (vet / nurse).`, `My favourite day is (Monday / Friday).`"""
    if not ENDS.fullmatch(_GROWN_UP.sub("", right)):
        return False
    if (_IS_A.fullmatch(left) or _WANTS_TO_BE.fullmatch(left)) and len({one[0] in "aeiou" for one in pair}) == 1:
        return pair <= words("jobs")
    sorts = [listed(row) for row in entries("same_table.txt")] + [words("colours")]
    return _FAVOURITE.fullmatch(left) is not None and any(pair <= sort for sort in sorts)


def _colours(pair: frozenset[str], left: str, right: str) -> bool:
    """`She's wearing a (red / blue) jumper.`"""
    noun = NOUN.fullmatch(right)
    article = plain(left.split()[-1]) if left else ""
    told = article in ("a", "an") and len({one[:1] in "aeiou" for one in pair}) > 1
    return (
        pair <= words("colours")
        and noun is not None
        and plain(noun[1]) in words("things_of_any_colour")
        and _HAS_ON.fullmatch(left) is not None
        and not told
    )


def _denied(pair: frozenset[str], left: str, right: str) -> bool:
    """`I (can / can't) swim.`, `My sister (has / hasn't) got a bike.`"""
    if not FEELS.fullmatch(left) or len(right.split()) > _SHORT:
        return False
    if pair in ({"can", "can't"}, {"can", "cannot"}):
        return plain(right) in words("what_people_can_do")
    got = _GOT.fullmatch(right)
    own = got is not None and plain(got[1]) in words("things_of_any_colour") | words("belongings") | {"dog", "cat"}
    return pair in ({"has", "hasn't"}, {"have", "haven't"}) and own


def _this_and_that(pair: frozenset[str], left: str, right: str) -> bool:
    """Nothing shows how far away it is: `(This / That) is my bag.`"""
    owned = _IS_OWN.fullmatch(right)
    return not left and owned is not None and pair in ({"this", "that"}, {"these", "those"}) and (
        plain(owned[1]) in things()
    )  # fmt: skip


_FINDERS: tuple[Callable[[frozenset[str], str, str], bool], ...] = (
    _adjectives,
    _described,
    doing,
    _numbers,
    _owners,
    places,
    alike,
    meals,
    going_and_playing,
    _of_a_family,
    _jobs_and_favourites,
    _colours,
    _denied,
    ways_to_go,
    manner,
    _this_and_that,
)


def is_about(text: str) -> frozenset[str]:
    """Of whom and of what of somebody's own a text tells: a sister, a bag, Ida."""
    known = things() | words("may_be_anywhere")
    found = re.findall(r"[^\W\d_]{3,}", text)
    return frozenset(
        word.casefold()
        for word in found
        if re.fullmatch(KIN, word, re.I)
        or word.casefold() in known
        or (word[0].isupper() and not lowest(word.casefold()))
    )
