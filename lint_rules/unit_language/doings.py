"""What somebody does, where somebody goes or is, what somebody eats: sentences in which nothing decides between two.

Whole frames of a sentence are matched, never a pair alone. Pure text: the options and what stands around.
"""

import re

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import plain
from lint_rules.tables import words
from lint_rules.unit_language.frames import ENDS, FEELS, GOER, KIN, NOUN, OWNER, SOMEBODY, VERY, rows, things

_DOES = lazy_re.compile(
    rf"{SOMEBODY}(?:\s+can)?\s+(?:walk|run|eat|talk|speak|sing|read|write|work|move|laugh|swim)s?{VERY}", re.I
)
_IS_SOMEWHERE = lazy_re.compile(
    rf"(?:(?:the|{OWNER})\s+(?:\w+\s+)?([\w-]+)\s+"
    r"(?:(?:is|was|are|were)(?:\s+(?:sitting|sleeping|hiding|lying|playing|always|often))?"
    r"|(?:(?:always|often|usually|sometimes)\s+)?(?:sits?|sleeps?|hides?|lies?|plays?|sat|slept|hid|lay|played))"
    r"|there(?:['’]s|\s+is)\s+an?\s+(?:\w+\s+)?([\w-]+))",
    re.I,
)
_PLACE = lazy_re.compile(rf"(?:the|{OWNER})\s+([\w-]+)\s*[.!]?", re.I)
_GIVER = lazy_re.compile(
    rf"(?:{OWNER}\s+)?(?:mum|mam|dad|gran|granny|grandad|grandma|grandpa|aunt|uncle|{KIN}|he|she|they|we|I)", re.I
)
_GIVEN = lazy_re.compile(
    r"(?:me|you|him|her|us|them)\s+(?:(?:a|an|some|the|two|three)\s+)?(?:(?:nice|hot|big|lovely)\s+)?([\w-]+)"
    r"(?:\s+(?:for\s+(?:breakfast|lunch|dinner|tea|supper)|yesterday|today|last\s+night|on\s+\w+days?))?\s*[.!]?",
    re.I,
)
_NAMES_SOMETHING = lazy_re.compile(r"(?!to\b)[\w’'-]+(?:\s+[\w’'-]+){0,3}\s*[.!]?", re.I)
_SOMEWHERE = lazy_re.compile(
    r"(?:home|to\s+(?:school|work|town|the\s+(?:shop|park|station|library|pool)))"
    r"(?:\s+(?:every\s+day|together|on\s+\w+days?|in\s+the\s+\w+|yesterday))?\s*[.!]?",
    re.I,
)
_MEALS = frozenset({"breakfast", "lunch", "dinner", "tea", "supper"})
_HAVING = lazy_re.compile(
    rf"(?:{SOMEBODY}|he|she|they|{OWNER}\s+(?:mum|dad|gran|grandad|aunt|uncle))\s+(?:(?:always|usually|often|sometimes)\s+)?(\w+)(?:\s+some)?",
    re.I,
)
_AT_MEAL = lazy_re.compile(
    r"(?:(?:for|at)\s+(?:breakfast|lunch|dinner|tea|supper))?(?:\s*(?:every\s+day|on\s+\w+days?|in\s+the\s+\w+))?\s*[.!]?",
    re.I,
)
_WHEN = lazy_re.compile(
    r"(?:with\s+\w+\s+\w+|(?:every|on|at|in|after|last|next)\s+(?:the\s+)?\w+|today|tomorrow|yesterday|together|well)?\s*[.!]?",
    re.I,
)
_PLACES = {
    "go": lazy_re.compile(
        rf"(?:let['’]s|{GOER})(?:\s+(?:is|am|are)|['’](?:m|re|s))?\s+(?:\w+\s+)?(?:go|goes|going|went)\s+to\s+(?:the|a)",
        re.I,
    ),
    "work": lazy_re.compile(rf"{GOER}\s+works?\s+(?:in|at|for)\s+(?:the|a)", re.I),
    "play": lazy_re.compile(rf"{GOER}(?:\s+can)?\s+(?:(?:always|often|sometimes|usually)\s+)?play(?:s|ed)?", re.I),
    "music": lazy_re.compile(
        rf"{GOER}(?:\s+can)?\s+(?:(?:always|often|sometimes|usually)\s+)?play(?:s|ed)?\s+the", re.I
    ),
}
_MEAL = lazy_re.compile(
    r"(?:breakfast|lunch|dinner|supper)(?:\s+(?:at|in|with|together|every|on)\b[\w\s’']*)?\s*[.!]?", re.I
)
_FILM = lazy_re.compile(
    r"(?:an?|the|that)\s+(?:\w+\s+)?(?:film|match|play|show)(?:\s+(?:yesterday|last\s+\w+|on\s+\w+days?))?\s*[.!]?",
    re.I,
)
_IS_DOING = lazy_re.compile(rf"{GOER}(?:(?:\s+(?:is|am|are)|['’](?:m|re|s))|\s+(?:like|love|hate|enjoy)s?)", re.I)
_MORE_DONE = frozenset({"sleep", "eat", "work", "play", "walk", "shop", "talk", "laugh", "drink", "study"})
_BY = frozenset({"bus", "car", "train", "bike", "tram", "taxi"})
_GOES_BY = lazy_re.compile(
    rf"(?:{SOMEBODY}|he|she|they|{OWNER}\s+(?:mum|dad))\s+(?:\w+\s+)?(?:go|goes|went|come|comes|travel|travels)\s+"
    r"(?:(?:to\s+(?:school|work|town)|home)\s+)?by",
    re.I,
)
_BEFORE_MANNER = lazy_re.compile(r"(?:very|so|really|too|quite)$", re.I)
_NO_MANNER = frozenset({"is", "are", "am", "was", "were", "be", "look", "looks", "feel", "feels", "a", "an", "the"})
_SAME_MANNER = (frozenset({"quickly", "fast"}), frozenset({"loudly", "noisily"}), frozenset({"quietly", "silently"}))


def doing(pair: frozenset[str], left: str, right: str) -> bool:
    """`Mum is (cooking / reading).`, `My friend likes (swimming / dancing).`"""
    done = {verb for one in pair if one.endswith("ing") for verb in _bases_of(one)}
    known = len(done) >= len(pair) and done <= words("what_people_can_do") | _MORE_DONE
    return known and ENDS.fullmatch(right) is not None and _IS_DOING.fullmatch(left) is not None


def _bases_of(doing: str) -> frozenset[str]:
    """The verb of an -ing form, where it is spelt right."""
    stem = doing.removesuffix("ing")
    double = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnpt]", stem[:-1]) is not None and stem[-1:] == stem[-2:-1]
    bare = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnpt]", stem) is not None  # swiming
    verbs = {stem[:-1]} if double else set() if bare else {stem, f"{stem}e"}
    return frozenset(verb for verb in verbs if verb in words("what_people_can_do") | _MORE_DONE)


def places(pair: frozenset[str], left: str, right: str) -> bool:
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
    return any(pair <= several and plain(place[1]) in nouns for several, nouns in rows("places_for_any"))


def alike(pair: frozenset[str], left: str, right: str) -> bool:
    """`I (like / love) cats.`, `Gran (gave / brought) us biscuits.`, `We (walk / cycle) to school.`"""
    kinds = {kind for verbs, several in rows("said_alike") if pair <= verbs for kind in several}
    if "feeling" in kinds and FEELS.fullmatch(left) and _NAMES_SOMETHING.fullmatch(right):
        return True
    if "going" in kinds and FEELS.fullmatch(left) and _SOMEWHERE.fullmatch(right):
        return True
    if "meal" in kinds and FEELS.fullmatch(left) and _MEAL.fullmatch(right):
        return True
    if "film" in kinds and FEELS.fullmatch(left) and _FILM.fullmatch(right):
        return True
    own = NOUN.fullmatch(re.sub(r"^an? ", "", right)) if "own" in kinds and FEELS.fullmatch(left) else None
    if own is not None and plain(own[1]) in things() | words("may_be_anywhere"):
        return True
    given = _GIVEN.fullmatch(right)
    if given is None or not _GIVER.fullmatch(left):
        return False
    what = plain(given[1])
    eaten = what in _MEALS or any(what in meals for _, meals in rows("eaten_and_drunk"))
    return ("food" in kinds and eaten) or ("thing" in kinds and what in words("belongings"))


def going_and_playing(pair: frozenset[str], left: str, right: str) -> bool:
    """`We are going to the (park / beach) on Sunday.`, `She plays (chess / golf).`"""
    frames = {kind: frame for kind, frame in _PLACES.items() if frame.fullmatch(left)}
    return _WHEN.fullmatch(right) is not None and any(
        pair <= places for several, places in rows("places_to_go") if several & frames.keys()
    )


def meals(pair: frozenset[str], left: str, right: str) -> bool:
    """`We usually have (porridge / toast) for breakfast.`"""
    verb = _HAVING.fullmatch(left)
    if "breakfast" in right and not pair <= words("breakfast_foods"):
        return False
    return (
        verb is not None
        and _AT_MEAL.fullmatch(right) is not None
        and any(plain(verb[1]) in verbs and pair <= meals for verbs, meals in rows("eaten_and_drunk"))
    )


def ways_to_go(pair: frozenset[str], left: str, right: str) -> bool:
    """`I go to school by (bus / train).`"""
    return pair <= _BY and _GOES_BY.fullmatch(left) is not None and ENDS.fullmatch(right) is not None


def manner(pair: frozenset[str], left: str, right: str) -> bool:
    """`Dogs can run very (quickly / fast).`, `My brother walks (slowly / quietly)`: behind a verb, nothing behind."""
    if _DOES.fullmatch(left) and ENDS.fullmatch(right) and pair <= words("manners"):
        return True
    verb = _BEFORE_MANNER.sub("", left).split()[-1:]
    return pair in _SAME_MANNER and bool(verb) and plain(verb[0]) not in _NO_MANNER and bool(ENDS.fullmatch(right))
