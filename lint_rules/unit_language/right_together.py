"""Options that are right together: words that say the same, and words of which each fits wherever the other does.

Pure text: the two options, and the words of the sentence around them.
"""

import re
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import regular_past
from lint_rules.language.inflection.irregular import irregular_verbs
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.page.exercises.answers import plain
from lint_rules.tables import entries, words

# Somebody whom nothing on the page shows: he or she, his or her.
_OF_SOMEBODY = (frozenset({"he", "she"}), frozenset({"his", "her"}), frozenset({"him", "her"}))
_TELLS_WHO = lazy_re.compile(
    r"\b(?:mother|father|mum|dad|sister|brother|aunt|uncle|son|daughter|boy|girl|man|woman|men|women|lady|gentleman|king|queen"
    r"|prince|princess|husband|wife|mr|mrs|miss|ms|madam|sir|grand\w+|granny|nephew|niece|he|she|his|her|him|hers|himself"
    r"|herself|witch|wizard|waitress|actress|hero|heroine)\b",
    re.I,
)
_NOUN = lazy_re.compile(r"the\s+([^\W\d_]+(?:\s+pool)?)\s*[.!]?$", re.I)
_CAN = lazy_re.compile(
    r"(?:I|We|You|They|He|She|My\s+(?:mum|dad|sister|brother|friend|friends|gran|grandad))\s+can(?:['’]t|not)?"
)
_OWNED = lazy_re.compile(
    r"(?:My|Our|His|Her|Their|Your)\s+(?:new\s+|old\s+)?([^\W\d_][\w-]*(?:\s\w+)?)\s+(?:is|are)", re.I
)
_PERSON = lazy_re.compile(r"(?:I|We|You|They|My\s+(?:friends|parents|cousins|grandparents))")
_TIME = lazy_re.compile(
    r"\b(?:yesterday|ago|last|every|each|now|today|tonight|tomorrow|always|usually|often|sometimes|never|ever|once|then"
    r"|when|while|before|after|until|since|already|just|still|yet|soon|later|morning|afternoon|evening|night|day|week|month"
    r"|year|spring|summer|autumn|winter|holidays?|weekends?|\w+days?|first|finally|in\s+\d+|because|and|but|so|if|was|were"
    r"|had|did|o['’]clock)\b",
    re.I,
)
_DAY = lazy_re.compile(r"(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day\b(?!s)")
_ANSWER = lazy_re.compile(r"(?P<word>yes|no),?\s+(?P<rest>.+)")
_NAME = lazy_re.compile(r"\b(?!I\b)[A-Z]\w*")
_WEEK = frozenset({"monday", "tuesday", "wednesday", "thursday", "friday"})
_DATES = (
    _WEEK,
    *(frozenset(pair.split()) for pair in ("june july", "july august", "october november", "january february")),
)
_OWN = lazy_re.compile(r"\b(?:I|we|my|our)\b", re.I)
_CLAUSE = 3  # words of the shortest: `We stayed in`
_NO_CLAUSE = lazy_re.compile(r"(?:\b(?:is|are|was|were|be|only|just|it|that|this)|['’]s|,)\s*$|\bwhy\b|[_/]", re.I)
_CLAUSE_BEGINS = lazy_re.compile(
    r"(?:I|you|he|she|it|we|they|there|(?:my|your|his|her|its|our|their|the|this|that)\s+\w+|[A-Z]\w+)\s+\w+(?!\s+as\b)"
)
_GOING_TO = lazy_re.compile(r"(?:am|is|are|['’]m|['’]re|['’]s)\s+going\s+to")
_LATER = lazy_re.compile(
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
    if plain(one) == "so" and pair == {"so", "and"}:
        return "," in outside and "?" not in outside  # whatever follows from something may be told behind it
    planned = "will" in pair and any(_GOING_TO.fullmatch(one) for one in pair)
    return planned and _LATER.search(outside) is not None and "?" not in outside


def either_goes(one: str, other: str, before: str, behind: str) -> bool:
    """Whether two options go alike between what stands before and behind them: prepositions of a place (`in / at the
    park`), what people can do (`I can (swim / dance).`), the colour of what somebody has, `who` and `that`."""
    pair, left, right = {plain(one), plain(other)}, before.strip(), behind.strip()
    noun = _NOUN.match(right)
    if noun is not None and any(
        pair <= several and plain(noun[1]) in nouns for several, nouns in _either_preposition()
    ):
        return True
    if pair <= {"who", "that"} or pair <= {"which", "that"}:
        before_it = left.split()
        noun_before = len(before_it) > 1 and left[-1:].isalpha() and bool(right)
        return noun_before and before_it[-1].casefold() not in words("before_no_relative")
    if pair == {"on", "every"} and _DAY.match(right):
        return True
    if left.endswith("?") and re.search(r"\byou\b", left, re.I) and _is_yes_and_no(one, other):
        return True
    if right not in (".", "!"):
        return False
    if _CAN.fullmatch(left):
        return pair <= words("what_people_can_do")
    owned = _OWNED.fullmatch(left)
    return (
        owned is not None and plain(owned[1]).split()[-1] in words("things_of_any_colour") and pair <= words("colours")
    )


def _is_yes_and_no(one: str, other: str) -> bool:
    """`Yes, please` and `No, thank you`; `Yes, I do` and `No, I don't`: a child may answer either."""
    these = sorted((plain(one), plain(other)), key=lambda text: text.startswith("yes"))
    no, yes = _ANSWER.fullmatch(these[0]), _ANSWER.fullmatch(these[1])
    if no is None or yes is None or (no["word"], yes["word"]) != ("no", "yes"):
        return False
    if yes["rest"] == "please":
        return no["rest"] in ("thank you", "thanks")
    return no["rest"] in (f"{yes['rest']}n't", f"{yes['rest']} not", "i can't" if yes["rest"] == "i can" else "i'm not")


@cache
def _either_preposition() -> tuple[tuple[frozenset[str], frozenset[str]], ...]:
    rows = (line.partition(" = ") for line in entries("either_preposition.txt"))
    return tuple(
        (frozenset(one.strip() for one in several.split(",")), frozenset(noun.strip() for noun in nouns.split(",")))
        for several, _, nouns in rows
    )


def either_time(one: str, other: str, before: str, sentence: str) -> bool:
    """Whether a sentence is right in the present and in the past: `We (go / went) by train.` Only behind a person with
    whom both forms agree, and where no word tells a time."""
    these = {one.casefold().strip(), other.casefold().strip()}
    past = any(these == {verb, form} for verb in these & bases() for form in _pasts_of(verb) - {verb})
    return past and _PERSON.fullmatch(before.strip()) is not None and not tells_a_time(sentence)


@cache
def _pasts_of(verb: str) -> frozenset[str]:
    irregular = next((one for one in irregular_verbs() if one.base == verb), None)
    return frozenset(irregular.pasts if irregular is not None else (regular_past(verb),))


def tells_a_time(sentence: str) -> bool:
    """Whether a sentence has a word that tells when, or a second verb or clause that may."""
    return _TIME.search(sentence) is not None or any(mark in sentence for mark in ',;:?!“"')


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
    if _is_pair(plain(one), plain(other)) or (plain(one) != plain(other) and _in_full(one) == _in_full(other)):
        return True
    differing = [pair for pair in zip(these, others, strict=False) if pair[0] != pair[1]]
    several = len(these) == len(others) > 2 and len(differing) == 1
    return several and _is_pair(*(word.strip(",.!?") for word in differing[0]))


def _in_full(text: str) -> str:
    """A text without short forms: `is not` for `isn't`, `I am` for `I'm`."""
    full = re.sub(r"\b(?:can't|cannot)\b", "can not", plain(text)).replace("won't", "will not")
    for short, long in (("n't", " not"), ("'m", " am"), ("'re", " are"), ("'ll", " will"), ("'ve", " have")):
        full = re.sub(rf"{short}\b", long, full)
    return re.sub(r"\b(he|she|it|that|there|what|who|where)'s\b", r"\1 is", full)


def as_well_because(chosen: str, other: str, before: str, behind: str) -> bool:
    """Whether `as` or `since` gives a reason as well as the `because` that the key has: `We stayed in ____ it rained.`
    Before it stands a whole clause, that asks nothing and is more than `that's`; behind it another."""
    if plain(chosen) != "because" or plain(other) not in ("as", "since"):
        return False
    clause = re.split(r"[.!?]\s+", before.strip())[-1]
    return (
        len(clause.split()) >= _CLAUSE
        and not _NO_CLAUSE.search(clause)
        and "?" not in behind.split(".")[0]
        and _CLAUSE_BEGINS.match(behind.strip()) is not None
    )


def _is_pair(one: str, other: str) -> bool:
    return one != other and any({one, other} <= several for several in _same_meaning())


@cache
def _same_meaning() -> frozenset[frozenset[str]]:
    return frozenset(frozenset(part.strip() for part in line.split("=")) for line in entries("same_meaning.txt"))
