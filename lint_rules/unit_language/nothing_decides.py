"""Options that are both right of whom or what nobody knows: `My cousin is (older / younger) than me`.

No sense of the world is asked. A sentence about a particular person or thing of somebody's own (`my sister`, `our bag`)
says as well the one as its opposite; who the sister is no child can know. Where the world may decide (a grandad is
older, an elephant is bigger, milk is in its cup) there is no pattern. Pure text: the options and what stands around.
"""

import re
from collections.abc import Callable
from functools import cache

from lint_rules.language.inflection.irregular import irregular_degrees
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.page.exercises.answers import plain
from lint_rules.tables import entries, words

_OWNER = r"(?:my|our|his|her|their|your)"
_KIN = r"(?:(?:best|new|big|little)\s+)?(?:sister|brother|friend|cousin|neighbour|teacher|twin|classmate|partner)"
_SOMEBODY = rf"(?:I|we|you|{_OWNER}\s+{_KIN}s?(?:['’]s\s+{_KIN})?)"
_BE = r"(?:\s+(?:is|are|am|was|were)|['’](?:s|m|re))"
_VERY = r"(?:\s+(?:very|so|really|quite|too|much|always|often|usually|a\s+(?:bit|little)))?"
_PERSON = re.compile(rf"{_SOMEBODY}{_BE}{_VERY}", re.I)
_NAMED = re.compile(rf"([A-Z][a-z]+){_BE}{_VERY}")
_THING = re.compile(rf"{_OWNER}\s+(?:(?:new|old|school)\s+)?([\w-]+){_BE}{_VERY}", re.I)
_DOES = re.compile(
    rf"{_SOMEBODY}(?:\s+can)?\s+(?:walk|run|eat|talk|speak|sing|read|write|work|move|laugh|swim)s?{_VERY}", re.I
)
_ENDS = re.compile(r"[.!]?")
_THAN_PERSON = re.compile(rf"than\s+(?:me|you|him|her|us|them|{_OWNER}\s+{_KIN}|[A-Z][a-z]+)\s*[.!]?", re.I)
_THAN_THING = re.compile(r"than\s+(?:mine|yours|his|hers|ours|theirs)\s*[.!]?", re.I)
_HAS = re.compile(rf"{_SOMEBODY}(?:['’](?:ve|s)|\s+ha(?:ve|s))(?:\s+got)?", re.I)
_AGE = re.compile(rf"{_SOMEBODY}(?:\s+(?:is|am|are)|['’](?:s|m|re))", re.I)
_YEARS = re.compile(r"(?:years\s+old)?\s*[.!]?", re.I)
_AGES = frozenset({"five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"})
_NUMBERS = frozenset({"two", "three", "four"}) | _AGES
_NOUN = re.compile(r"([\w-]+)\s*(?:,?\s*please)?\s*[.!?]?", re.I)
_POSSESSIVES = frozenset({"my", "your", "our", "his", "her", "their"})
_POINTS = re.compile(r"\b(?:this|that|these|those|there|it)(?:\s+(?:is|are)|['’]s)$", re.I)
_IS_SOMEWHERE = re.compile(
    rf"(?:(?:the|{_OWNER})\s+(?:\w+\s+)?([\w-]+)\s+(?:is|was)(?:\s+(?:sitting|sleeping|hiding|lying|playing))?"
    r"|there(?:['’]s|\s+is)\s+an?\s+(?:\w+\s+)?([\w-]+))",
    re.I,
)
_PLACE = re.compile(rf"(?:the|{_OWNER})\s+([\w-]+)\s*[.!]?", re.I)
_WE = re.compile(r"(?:I|we)", re.I)
_RULE = re.compile(r"\b(?:rules?|law|advice|idea|always|never|school|uniform|red|traffic)\b", re.I)
_GIVER = re.compile(
    rf"(?:{_OWNER}\s+)?(?:mum|mam|dad|gran|granny|grandad|grandma|grandpa|aunt|uncle|{_KIN}|he|she|they|we|I)", re.I
)
_GIVEN = re.compile(
    r"(?:me|you|him|her|us|them)\s+(?:(?:a|an|some|the|two|three)\s+)?(?:(?:nice|hot|big|lovely)\s+)?([\w-]+)"
    r"(?:\s+(?:for\s+(?:breakfast|lunch|dinner|tea|supper)|yesterday|today|last\s+night|on\s+\w+days?))?\s*[.!]?",
    re.I,
)
_FEELS = re.compile(rf"(?:{_SOMEBODY}|they|he|she|{_OWNER}\s+(?:mum|dad|gran|granny|grandad|parents))", re.I)
_BEFORE_MANNER = re.compile(r"(?:very|so|really|too|quite)$", re.I)
_NO_MANNER = frozenset({"is", "are", "am", "was", "were", "be", "look", "looks", "feel", "feels", "a", "an", "the"})
_SAME_MANNER = (frozenset({"quickly", "fast"}), frozenset({"loudly", "noisily"}), frozenset({"quietly", "silently"}))


def nothing_decides(one: str, other: str, before: str, behind: str) -> bool:
    """Whether two options are both right between what stands before and behind them in a sentence of its own."""
    pair, left, right = frozenset((plain(one), plain(other))), before.strip(), behind.strip()
    return len(pair) == 2 and any(finder(pair, left, right) for finder in _FINDERS)


def should_or_must(one: str, other: str, before: str, behind: str) -> bool:
    """Whether a sentence of what we do says as well that we must as that we should."""
    pair = {plain(one), plain(other)}
    verb = pair <= {"must", "should", "have to"} and "should" in pair
    return verb and _WE.fullmatch(before.strip()) is not None and not _RULE.search(behind)


def _opposites(pair: frozenset[str], left: str, right: str) -> bool:
    """`My cousin is (older / younger) than me`, `Our bag is (heavy / light)`, `My brother walks (quickly / slowly)`."""
    for several, compared, kinds in _opposite_pairs():
        if pair != several:
            continue
        named = _NAMED.fullmatch(left)
        person = _PERSON.fullmatch(left) or (compared and named is not None and not lowest(named[1].casefold()))
        thing = _THING.fullmatch(left)
        own = thing is not None and plain(thing[1]) in words("things_of_any_colour")
        if compared:
            if (person and "person" in kinds and _THAN_PERSON.fullmatch(right)) or (
                own and "thing" in kinds and _THAN_THING.fullmatch(right)
            ):
                return True
        elif _ENDS.fullmatch(right):
            if (person and "person" in kinds) or (own and "thing" in kinds):
                return True
            if "manner" in kinds and _DOES.fullmatch(left):
                return True
    return False


@cache
def _opposite_pairs() -> tuple[tuple[frozenset[str], bool, frozenset[str]], ...]:
    """Each pair, and its comparatives: whether it compares, and of what it is said."""
    found = [(frozenset({"more", "less"}), True, frozenset({"person"}))]
    for row in entries("opposites.txt"):
        two, _, kinds = row.partition(" = ")
        these, of = [word.strip() for word in two.split(",")], frozenset(kinds.split())
        found.append((frozenset(these), False, of))
        one, other = (_comparatives(word, of) for word in these)
        found += [(frozenset((left, right)), True, of) for left in one for right in other]
    return tuple(found)


def _comparatives(word: str, of: frozenset[str]) -> frozenset[str]:
    irregular = {form for one in irregular_degrees() if one.base == word for form in one.comparatives}
    return frozenset(irregular | {_regular(word, of)})


def _regular(word: str, of: frozenset[str]) -> str:
    if len(word) > 6 or (word.endswith("ly") and "manner" in of):
        return f"more {word}"
    if word.endswith("y") and word[-2] not in "aeiou":
        return f"{word[:-1]}ier"
    double = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnt]", word) is not None
    return f"{word}r" if word.endswith("e") else f"{word}{word[-1] if double else ''}er"


def _numbers(pair: frozenset[str], left: str, right: str) -> bool:
    """`My sister is (seven / eight).`, `I've got (two / three) cousins.`"""
    if pair <= _AGES and _AGE.fullmatch(left) and _YEARS.fullmatch(right):
        return True
    noun = _NOUN.fullmatch(right)
    return pair <= _NUMBERS and noun is not None and _HAS.fullmatch(left) is not None and (
        plain(noun[1]) in words("counted_freely")
    )  # fmt: skip


def _owners(pair: frozenset[str], left: str, right: str) -> bool:
    """`Don't forget (your / the) ticket!`"""
    noun = _NOUN.fullmatch(right)
    owned = noun is not None and plain(noun[1]) in words("belongings") | words("things_of_any_colour")
    return "the" in pair and bool(pair & _POSSESSIVES) and owned and bool(left) and not _POINTS.search(left)


def _places(pair: frozenset[str], left: str, right: str) -> bool:
    """`The cat is (on / in) the box.`"""
    what, place = _IS_SOMEWHERE.fullmatch(left), _PLACE.fullmatch(right)
    if what is None or place is None or plain(what[1] or what[2]) not in words("may_be_anywhere"):
        return False
    rows = (row.partition(" = ") for row in entries("places_for_any.txt"))
    return any(
        pair <= {one.strip() for one in several.split(",")} and plain(place[1]) in [n.strip() for n in nouns.split(",")]
        for several, _, nouns in rows
    )


def _alike(pair: frozenset[str], left: str, right: str) -> bool:
    """`I (like / love) cats.`, `Gran (gave / brought) us biscuits.`"""
    for row in entries("said_alike.txt"):
        verbs, _, kind = row.partition(" = ")
        if not pair <= {verb.strip() for verb in verbs.split(",")}:
            continue
        if kind == "feeling":
            return _FEELS.fullmatch(left) is not None and not re.match(r"to\b", right) and right not in ("", ".")
        given = _GIVEN.fullmatch(right)
        things = words("foods_for_somebody" if kind == "food" else "belongings")
        if given is not None and _GIVER.fullmatch(left) and plain(given[1]) in things:
            return True
    return False


def _manner(pair: frozenset[str], left: str, right: str) -> bool:
    """`Dogs can run very (quickly / fast).`: behind a verb, where nothing follows."""
    verb = _BEFORE_MANNER.sub("", left).split()[-1:]
    return pair in _SAME_MANNER and bool(verb) and plain(verb[0]) not in _NO_MANNER and bool(_ENDS.fullmatch(right))


def _this_and_that(pair: frozenset[str], left: str, right: str) -> bool:
    """Nothing shows how far away it is: `(This / That) is my bag.`"""
    said = right.split()
    near = re.search(r"\b(?:here|there|far|away|near|look|see)\b", f"{left} {right}", re.I)
    return (
        (pair == {"this", "that"} and said[:1] == ["is"]) or (pair == {"these", "those"} and said[:1] == ["are"])
    ) and not (left or near)


_FINDERS: tuple[Callable[[frozenset[str], str, str], bool], ...] = (
    _opposites,
    _numbers,
    _owners,
    _places,
    _alike,
    _manner,
    _this_and_that,
)
