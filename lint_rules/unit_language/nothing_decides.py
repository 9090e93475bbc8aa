"""Options that are both right of whom or what nobody knows: `My cousin is (older / younger) than me`.

No sense of the world is asked. A sentence about a particular person or thing of somebody's own (`my sister`, `our bag`)
says as well the one as its opposite; who the sister is no child can know. Where the world may decide (a grandad is
older, an elephant is bigger, milk is in its cup) there is no pattern. Pure text: the options and what stands around.
"""

import re
from collections.abc import Callable
from functools import cache

from lint_rules.language.vocabulary.reference import lowest
from lint_rules.page.exercises.answers import plain
from lint_rules.tables import entries, words
from lint_rules.unit_language.right_together import tells_who

_OWNER = r"(?:my|our|his|her|their|your)"
# No big sister, no twin, no teacher: of them everybody knows how old they are.
_KIN = r"(?:(?:best|new)\s+)?(?:sister|brother|friend|cousin|neighbour|classmate|partner)"
_SOMEBODY = rf"(?:I|we|you|{_OWNER}\s+{_KIN}s?(?:['’]s\s+{_KIN})?)"
_BE = r"(?:\s+(?:is|are|am|was|were)|['’](?:s|m|re))"
_VERY = r"(?:\s+(?:very|so|really|quite|too|much|always|often|usually|a\s+(?:bit|little)))?"
_PERSON = re.compile(rf"(?:{_SOMEBODY}|{_OWNER}\s+teacher){_BE}{_VERY}", re.I)
_NAMED = re.compile(rf"([A-Z][a-z]+){_BE}{_VERY}")
_TEACHER = re.compile(rf"{_OWNER}\s+teacher", re.I)
_OF_PEOPLE = frozenset({"taller", "shorter", "older", "younger"})
_THING = re.compile(rf"{_OWNER}\s+(?:(?:new|old|school)\s+)?([\w-]+){_BE}{_VERY}", re.I)
_DOES = re.compile(
    rf"{_SOMEBODY}(?:\s+can)?\s+(?:walk|run|eat|talk|speak|sing|read|write|work|move|laugh|swim)s?{_VERY}", re.I
)
_ENDS = re.compile(r"[.!]?")
_THAN_PERSON = re.compile(rf"than\s+(?:me|you|him|her|us|them|{_OWNER}\s+{_KIN}|(?-i:[A-Z][a-z]+))\s*[.!]?", re.I)
_THAN_THING = re.compile(r"than\s+(?:mine|yours|his|hers|ours|theirs)\s*[.!]?", re.I)
_HAS = re.compile(rf"{_SOMEBODY}(?:['’](?:ve|s)|\s+ha(?:ve|s))(?:\s+got)?", re.I)
_GOER = rf"(?:{_SOMEBODY}|he|she|they|(?:{_OWNER}\s+)?(?:mum|dad|gran|grandad)|{_OWNER}\s+(?:aunt|uncle|parents|class))"
_AGE = re.compile(rf"{_SOMEBODY}(?:\s+(?:is|am|are)|['’](?:s|m|re))", re.I)
_YEARS = re.compile(r"(?:years\s+old)?\s*[.!]?", re.I)
_AT = re.compile(rf"(?:{_SOMEBODY}|he|she|they|school)\s+(?:\w+\s+){{1,5}}at", re.I)
_CLOCK = re.compile(r"o['’]clock(?:\s+(?:every\s+day|on\s+\w+days?|in\s+the\s+\w+))?\s*[.!]?", re.I)
_COUNT = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_NUMBERS = {word: number for number, word in enumerate(_COUNT, start=1)}
_NEAR = 2
_YOUNGEST = 5
_SHORT = 5  # words
_NOUN = re.compile(r"([\w-]+)\s*(?:,?\s*please)?\s*[.!?]?", re.I)
_POSSESSIVES = frozenset({"my", "your", "our", "his", "her", "their"})
_POINTS = re.compile(
    r"(?:\b(?:this|that|these|those|there|it)(?:\s+(?:is|are)|['’]s)|\b(?:is|are)\s+(?:this|that|these|those))$", re.I
)
_IS_SOMEWHERE = re.compile(
    rf"(?:(?:the|{_OWNER})\s+(?:\w+\s+)?([\w-]+)\s+"
    r"(?:(?:is|was|are|were)(?:\s+(?:sitting|sleeping|hiding|lying|playing|always|often))?"
    r"|(?:(?:always|often|usually|sometimes)\s+)?(?:sits?|sleeps?|hides?|lies?|plays?|sat|slept|hid|lay|played))"
    r"|there(?:['’]s|\s+is)\s+an?\s+(?:\w+\s+)?([\w-]+))",
    re.I,
)
_PLACE = re.compile(rf"(?:the|{_OWNER})\s+([\w-]+)\s*[.!]?", re.I)
_WE = re.compile(r"(?:I|we)", re.I)
_PLANNED = re.compile(r"(?:\w+\s+){1,5}(?:now|soon|today|tomorrow|tonight|later)\s*[.!]?", re.I)
_GIVER = re.compile(
    rf"(?:{_OWNER}\s+)?(?:mum|mam|dad|gran|granny|grandad|grandma|grandpa|aunt|uncle|{_KIN}|he|she|they|we|I)", re.I
)
_GIVEN = re.compile(
    r"(?:me|you|him|her|us|them)\s+(?:(?:a|an|some|the|two|three)\s+)?(?:(?:nice|hot|big|lovely)\s+)?([\w-]+)"
    r"(?:\s+(?:for\s+(?:breakfast|lunch|dinner|tea|supper)|yesterday|today|last\s+night|on\s+\w+days?))?\s*[.!]?",
    re.I,
)
_FEELS = re.compile(rf"(?:{_SOMEBODY}|they|he|she|{_OWNER}\s+(?:mum|dad|gran|granny|grandad|parents))", re.I)
_IS_OWN = re.compile(rf"(?:is|are)\s+{_OWNER}\s+([\w-]+)\s*[.!]?", re.I)
_NAMES_SOMETHING = re.compile(r"(?!to\b)[\w’'-]+(?:\s+[\w’'-]+){0,3}\s*[.!]?", re.I)
_SOMEWHERE = re.compile(
    r"(?:home|to\s+(?:school|work|town|the\s+(?:shop|park|station|library|pool)))"
    r"(?:\s+(?:every\s+day|together|on\s+\w+days?|in\s+the\s+\w+|yesterday))?\s*[.!]?",
    re.I,
)
_MEALS = frozenset({"breakfast", "lunch", "dinner", "tea", "supper"})
_HAVING = re.compile(
    rf"(?:{_SOMEBODY}|he|she|they|{_OWNER}\s+(?:mum|dad|gran|grandad|aunt|uncle))\s+(?:(?:always|usually|often|sometimes)\s+)?(\w+)(?:\s+some)?",
    re.I,
)
_AT_MEAL = re.compile(
    r"(?:(?:for|at)\s+(?:breakfast|lunch|dinner|tea|supper))?(?:\s*(?:every\s+day|on\s+\w+days?|in\s+the\s+\w+))?\s*[.!]?",
    re.I,
)
_HIS_OR_HERS = re.compile(r"\b(?:beard|moustache|dress|skirt|husband|wife|bald|baby|married)\b", re.I)
_OWNER_LAST = re.compile(rf"(?:[\w’']+\s+){{0,5}}(?:{_OWNER}|an?|the|two|three)", re.I)
_IS_A = re.compile(
    rf"{_OWNER}\s+(?:mum|mam|mother|dad|father|aunt|uncle|gran|grandad|{_KIN}|parents)\s+(?:is|was|wants\s+to\s+be)\s+an?",
    re.I,
)
_WANTS_TO_BE = re.compile(rf"(?:{_SOMEBODY}|he|she|they)\s+wants?\s+to\s+be\s+an?", re.I)
_GROWN_UP = re.compile(r"^(?:when|one\s+day)\b[\w\s]*", re.I)
_WHEN = re.compile(
    r"(?:with\s+\w+\s+\w+|(?:every|on|at|in|after|last|next)\s+(?:the\s+)?\w+|today|tomorrow|yesterday|together|well)?\s*[.!]?",
    re.I,
)
_PLACES = {
    "go": re.compile(
        rf"(?:let['’]s|{_GOER})(?:\s+(?:is|am|are)|['’](?:m|re|s))?\s+(?:\w+\s+)?(?:go|goes|going|went)\s+to\s+(?:the|a)",
        re.I,
    ),
    "work": re.compile(rf"{_GOER}\s+works?\s+(?:in|at|for)\s+(?:the|a)", re.I),
    "play": re.compile(rf"{_GOER}(?:\s+can)?\s+(?:(?:always|often|sometimes|usually)\s+)?play(?:s|ed)?", re.I),
    "music": re.compile(rf"{_GOER}(?:\s+can)?\s+(?:(?:always|often|sometimes|usually)\s+)?play(?:s|ed)?\s+the", re.I),
}
_MEAL = re.compile(
    r"(?:breakfast|lunch|dinner|supper)(?:\s+(?:at|in|with|together|every|on)\b[\w\s’']*)?\s*[.!]?", re.I
)
_FILM = re.compile(
    r"(?:an?|the|that)\s+(?:\w+\s+)?(?:film|match|play|show)(?:\s+(?:yesterday|last\s+\w+|on\s+\w+days?))?\s*[.!]?",
    re.I,
)
_HAS_A = re.compile(rf"{_GOER}(?:['’](?:ve|s)|\s+ha(?:ve|s))(?:\s+got)?\s+an?", re.I)
_IS_DOING = re.compile(rf"{_GOER}(?:(?:\s+(?:is|am|are)|['’](?:m|re|s))|\s+(?:like|love|hate|enjoy)s?)", re.I)
_MORE_DONE = frozenset({"sleep", "eat", "work", "play", "walk", "shop", "talk", "laugh", "drink", "study"})
_FAVOURITE = re.compile(rf"(?:{_OWNER}\s+(?:{_KIN}['’]s\s+)?)favou?rite\s+\w+(?:\s+(?:is|are)|['’]s)", re.I)
_HAS_ON = re.compile(
    rf"(?:{_SOMEBODY}|he|she|they)(?:['’](?:s|m|re|ve)|\s+(?:is|am|are|have|has))?"
    rf"\s*(?:wearing|wears?|got|buying|bought|carrying|packing|painted|painting)?\s*(?:an?|{_OWNER}|the|some)?",
    re.I,
)
_GOT = re.compile(r"got\s+(?:an?|any|some)\s+([\w-]+)\s*[.!]?", re.I)
_BY = frozenset({"bus", "car", "train", "bike", "tram", "taxi"})
_GOES_BY = re.compile(
    rf"(?:{_SOMEBODY}|he|she|they|{_OWNER}\s+(?:mum|dad))\s+(?:\w+\s+)?(?:go|goes|went|come|comes|travel|travels)\s+"
    r"(?:(?:to\s+(?:school|work|town)|home)\s+)?by",
    re.I,
)
_BEFORE_MANNER = re.compile(r"(?:very|so|really|too|quite)$", re.I)
_NO_MANNER = frozenset({"is", "are", "am", "was", "were", "be", "look", "looks", "feel", "feels", "a", "an", "the"})
_SAME_MANNER = (frozenset({"quickly", "fast"}), frozenset({"loudly", "noisily"}), frozenset({"quietly", "silently"}))


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
    if _ENDS.fullmatch(right):
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
    noun, article = _NOUN.fullmatch(right), _HAS_A.fullmatch(left)
    return (
        article is not None
        and noun is not None
        and plain(noun[1]) in _things() | words("may_be_anywhere")
        and pair <= words("said_of_own_things")
        and len({one[0] in "aeiou" for one in pair}) == 1
    )


def _doing(pair: frozenset[str], left: str, right: str) -> bool:
    """`Mum is (cooking / reading).`, `My friend likes (swimming / dancing).`"""
    done = {verb for one in pair if one.endswith("ing") for verb in _bases_of(one)}
    known = len(done) >= len(pair) and done <= words("what_people_can_do") | _MORE_DONE
    return known and _ENDS.fullmatch(right) is not None and _IS_DOING.fullmatch(left) is not None


def _bases_of(doing: str) -> frozenset[str]:
    """The verb of an -ing form, where it is spelt right."""
    stem = doing.removesuffix("ing")
    double = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnpt]", stem[:-1]) is not None and stem[-1:] == stem[-2:-1]
    bare = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnpt]", stem) is not None  # swiming
    verbs = {stem[:-1]} if double else set() if bare else {stem, f"{stem}e"}
    return frozenset(verb for verb in verbs if verb in words("what_people_can_do") | _MORE_DONE)


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
    noun = _NOUN.fullmatch(right) if min(numbers) > 1 else None
    return noun is not None and _HAS.fullmatch(left) is not None and plain(noun[1]) in words("counted_freely")


def _owners(pair: frozenset[str], left: str, right: str) -> bool:
    """`Don't forget (your / the) ticket!`"""
    noun = _NOUN.fullmatch(right)
    owned = noun is not None and plain(noun[1]) in _things()
    return "the" in pair and bool(pair & _POSSESSIVES) and owned and bool(left) and not _POINTS.search(left)


def _places(pair: frozenset[str], left: str, right: str) -> bool:
    """`The cat is (on / in) the box.`"""
    what, place = _IS_SOMEWHERE.fullmatch(left), _PLACE.fullmatch(right)
    if what is None or place is None:
        return False
    thing = plain(what[1] or what[2])
    forms = {thing, thing.removesuffix("s"), thing.removesuffix("es")}
    if "on" in pair and (re.search(r"\bhid", left) or ("in" in pair and not forms & words("may_be_anywhere"))):
        return False
    if not forms & (words("may_be_anywhere") | words("left_about")):
        return False
    return any(pair <= several and plain(place[1]) in nouns for several, nouns in _rows("places_for_any"))


def _alike(pair: frozenset[str], left: str, right: str) -> bool:
    """`I (like / love) cats.`, `Gran (gave / brought) us biscuits.`, `We (walk / cycle) to school.`"""
    kinds = {kind for verbs, several in _rows("said_alike") if pair <= verbs for kind in several}
    if "feeling" in kinds and _FEELS.fullmatch(left) and _NAMES_SOMETHING.fullmatch(right):
        return True
    if "going" in kinds and _FEELS.fullmatch(left) and _SOMEWHERE.fullmatch(right):
        return True
    if "meal" in kinds and _FEELS.fullmatch(left) and _MEAL.fullmatch(right):
        return True
    if "film" in kinds and _FEELS.fullmatch(left) and _FILM.fullmatch(right):
        return True
    own = _NOUN.fullmatch(re.sub(r"^an? ", "", right)) if "own" in kinds and _FEELS.fullmatch(left) else None
    if own is not None and plain(own[1]) in _things() | words("may_be_anywhere"):
        return True
    given = _GIVEN.fullmatch(right)
    if given is None or not _GIVER.fullmatch(left):
        return False
    what = plain(given[1])
    eaten = what in _MEALS or any(what in meals for _, meals in _rows("eaten_and_drunk"))
    return ("food" in kinds and eaten) or ("thing" in kinds and what in words("belongings"))


@cache
def _rows(table: str) -> tuple[tuple[frozenset[str], frozenset[str]], ...]:
    """The rows of a table: some words, ` = `, others, each by commas."""
    halves = (row.partition(" = ") for row in entries(f"{table}.txt"))
    return tuple((_listed(left), _listed(right)) for left, _, right in halves)


def _listed(text: str) -> frozenset[str]:
    return frozenset(part.strip() for part in text.split(","))


def _things() -> frozenset[str]:
    return words("belongings") | words("things_of_any_colour")


def _going_and_playing(pair: frozenset[str], left: str, right: str) -> bool:
    """`We are going to the (park / beach) on Sunday.`, `She plays (chess / golf).`"""
    frames = {kind: frame for kind, frame in _PLACES.items() if frame.fullmatch(left)}
    return _WHEN.fullmatch(right) is not None and any(
        pair <= places for several, places in _rows("places_to_go") if several & frames.keys()
    )


def _meals(pair: frozenset[str], left: str, right: str) -> bool:
    """`We usually have (porridge / toast) for breakfast.`"""
    verb = _HAVING.fullmatch(left)
    if "breakfast" in right and not pair <= words("breakfast_foods"):
        return False
    return (
        verb is not None
        and _AT_MEAL.fullmatch(right) is not None
        and any(plain(verb[1]) in verbs and pair <= meals for verbs, meals in _rows("eaten_and_drunk"))
    )


def _of_a_family(pair: frozenset[str], left: str, right: str) -> bool:
    """He and she are not told apart: `This is my (brother / sister).`"""
    told = tells_who(f"{left} {right}") or _HIS_OR_HERS.search(right)
    return (
        any(pair == _listed(row) for row in entries("kinsfolk.txt"))
        and _OWNER_LAST.fullmatch(left) is not None
        and len(right.split()) <= _SHORT
        and not told
    )


def _jobs_and_favourites(pair: frozenset[str], left: str, right: str) -> bool:
    """`My aunt is a (vet / nurse).`, `My favourite day is (Monday / Friday).`"""
    if not _ENDS.fullmatch(_GROWN_UP.sub("", right)):
        return False
    if (_IS_A.fullmatch(left) or _WANTS_TO_BE.fullmatch(left)) and len({one[0] in "aeiou" for one in pair}) == 1:
        return pair <= words("jobs")
    sorts = [_listed(row) for row in entries("same_table.txt")] + [words("colours")]
    return _FAVOURITE.fullmatch(left) is not None and any(pair <= sort for sort in sorts)


def _colours(pair: frozenset[str], left: str, right: str) -> bool:
    """`She's wearing a (red / blue) jumper.`"""
    noun = _NOUN.fullmatch(right)
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
    if not _FEELS.fullmatch(left) or len(right.split()) > _SHORT:
        return False
    if pair in ({"can", "can't"}, {"can", "cannot"}):
        return plain(right) in words("what_people_can_do")
    got = _GOT.fullmatch(right)
    own = got is not None and plain(got[1]) in words("things_of_any_colour") | words("belongings") | {"dog", "cat"}
    return pair in ({"has", "hasn't"}, {"have", "haven't"}) and own


def _ways(pair: frozenset[str], left: str, right: str) -> bool:
    """`I go to school by (bus / train).`"""
    return pair <= _BY and _GOES_BY.fullmatch(left) is not None and _ENDS.fullmatch(right) is not None


def _manner(pair: frozenset[str], left: str, right: str) -> bool:
    """`Dogs can run very (quickly / fast).`, `My brother walks (slowly / quietly)`: behind a verb, nothing behind."""
    if _DOES.fullmatch(left) and _ENDS.fullmatch(right) and pair <= words("manners"):
        return True
    verb = _BEFORE_MANNER.sub("", left).split()[-1:]
    return pair in _SAME_MANNER and bool(verb) and plain(verb[0]) not in _NO_MANNER and bool(_ENDS.fullmatch(right))


def _this_and_that(pair: frozenset[str], left: str, right: str) -> bool:
    """Nothing shows how far away it is: `(This / That) is my bag.`"""
    owned = _IS_OWN.fullmatch(right)
    return not left and owned is not None and pair in ({"this", "that"}, {"these", "those"}) and (
        plain(owned[1]) in _things()
    )  # fmt: skip


_FINDERS: tuple[Callable[[frozenset[str], str, str], bool], ...] = (
    _adjectives,
    _described,
    _doing,
    _numbers,
    _owners,
    _places,
    _alike,
    _meals,
    _going_and_playing,
    _of_a_family,
    _jobs_and_favourites,
    _colours,
    _denied,
    _ways,
    _manner,
    _this_and_that,
)


def is_about(text: str) -> frozenset[str]:
    """Of whom and of what of somebody's own a text tells: a sister, a bag, Ida."""
    things = _things() | words("may_be_anywhere")
    found = re.findall(r"[^\W\d_]{3,}", text)
    return frozenset(
        word.casefold()
        for word in found
        if re.fullmatch(_KIN, word, re.I)
        or word.casefold() in things
        or (word[0].isupper() and not lowest(word.casefold()))
    )
