"""Slips that any reader sees and the English checker lets pass: a few patterns, each so narrow that it is sure.

Pure: a text in, ranges and messages out. Patterns and messages are ours, from memory of what beginners and hurried
authors write; they are held against clean pages in tests/english.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from operator import itemgetter

from lint_rules import lazy_re
from lint_rules.language.inflection.irregular import irregular_verbs
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.language.vocabulary.misspellings import past_meant, plural_meant
from lint_rules.language.vocabulary.reference import is_a, lowest
from lint_rules.manuscript.model import Passage
from lint_rules.tables import alternatives, rows, words


@dataclass(frozen=True, slots=True)
class Slip:
    """A range of the text, what is wrong with it, and what would be right ('' where the author must say); ``parsed``:
    found by how the sentence was read, so that a checker may know better."""

    start: int
    end: int
    message: str
    better: str = ""
    parsed: bool = False


_FEW = 2  # words in italics that are named, not said
_CAN_NOT = lazy_re.compile(r"\bcan not\b(?!\s+only\b)", re.I)
_NEGATIVE = r"\b(?:\w+n['’]t|never)\b"
_LINKS = r"(?:and|but|or|because|so|that|if|when|say|says|said|saying|take|takes|took)"
_NOT_TWICE = lazy_re.compile(
    rf"{_NEGATIVE}(?:\s+(?!{_LINKS}\b)[\w’'-]+){{0,4}}?\s+(no more|nothing|nobody|no one|nowhere|no(?= [a-z]))\b"
)
_POSITIVE = {
    "no more": "any more",
    "nothing": "anything",
    "nobody": "anybody",
    "no one": "anyone",
    "nowhere": "anywhere",
    "no": "any",
}
# Who runs *in* a bin? Only these verbs and things: one can jump in a box, and run in a park.
_WITHIN = lazy_re.compile(
    r"\b(?:runs?|ran|walks?|walked|crawls?|crawled|hops?|hopped|creeps?|crept)\s+(in)\s+"
    r"(?:the|a|an|his|her|its|my|your|their|our)\s+(?:[a-z]+\s+)?"
    r"(?:bin|box|bag|basket|bucket|pot|jar|bottle|drawer|cupboard|hat|boot|shoe|pocket|suitcase|nest)\b(?=\s*(?:[.,!?;:]|$|(?:and|to|with|but)\b))",
    re.I,
)
_IT_WERE = lazy_re.compile(r"(?:^|[.!?]\s+[\"“‘']?|\band\s+)(?:He|She|It|he|she|it)\s+(were)\b(?!\s+(?:to|not to)\b)")
_ED = lazy_re.compile(r"\b[a-z]+ed\b", re.I)
_BEFORE_A_THING = frozenset({"in", "on", "with", "of", "under", "behind", "over", "from", "round", "to", "at", "by"})
_OF_SENSE = frozenset({"see", "feel", "look", "hear", "smell", "find", "watch", "notice", "show"})
# Riko and Thembi is washing the plates: two people that are named, and what they do. A title of two words is no subject
# here (Fish and Chips is a café), nor what stands behind another noun (the song of Tom and Ana is playing).
_TITLED = r"(?:(?:Mr|Mrs|Ms|Miss|Aunt|Auntie|Uncle|Captain|Granny|Grandma|Grandpa|Doctor|Dr|King|Queen)\.? )?"
_TWO = lazy_re.compile(
    r"(?:^|[.!?:]\s+|[\"“‘]|\b(?:and|but|so|now|today),?\s+)"
    rf"{_TITLED}[A-Z][a-z]+ and {_TITLED}[A-Z][a-z]+ "
    r"(?:(?P<be>is|was)(?P<not>n['’]t)? (?:not |very |so |too )?(?:[a-z]+ing\b|(?P<how>[a-z]+)\b(?=\W*[.!?]))"
    r"|(?P<have>has)(?P<no>n['’]t)? got\b|(?P<do>doesn['’]t)\b)"
)
# Clap you hands; it is heavier as a bag.
_YOU_HANDS = lazy_re.compile(
    r"\b(?:clap|wash|brush|raise|open|close|shut|shake|touch|wave|stamp|nod|tap)\s+"
    r"(you)\s+(?:hands?|feet|foot|heads?|eyes?|arms?|legs?|knees?|fingers?|nose|ears?|teeth|hair|books?|bags?|pens?|pencils?|"
    r"names?|friends?|hats?|shoulders?)\b",
    re.I,
)
_ER_AS = lazy_re.compile(
    r"\b(?:is|are|was|were|looks?|feels?|['’]s|['’]re)\s+(?:much |a lot |a bit |even )?([a-z]{3,}er) (as)\s+"
    r"(?:an?|the|my|your|his|her|our|their|this|that)\s+((?:[a-z]+\s+){0,2})[a-z]+(?=\s*[.,;:!?]|\s*$|\s+of\b)",
    re.I,
)
# Orla and I is going; my friend and I has.
_AND_I = lazy_re.compile(
    r"(?:^|[.!?:]\s+|[\"“‘]|\b(?:but|so|now|today|then),?\s+)"
    r"(?P<who>[A-Z][a-z]+|[Mm]y [a-z]+) and I (?P<does>is|am|was|has|does)\b"
)
# I'm here since three days; I have six years; he didn't believed it.
_SINCE = lazy_re.compile(
    r"\b(since)\s+(?:two|three|four|five|six|seven|eight|nine|ten|\d{1,2}|many|several|a few|some)\s+"
    r"(?:minutes|hours|days|weeks|months|years)\b(?!\s+ago\b)",
    re.I,
)
_HAVE_YEARS = lazy_re.compile(
    r"\bI\s+(have)\s+(?:five|six|seven|eight|nine|ten|eleven|\d{1,2})\s+years\b(?!\s+of\b)", re.I
)
_DID = lazy_re.compile(r"\b(?:did|does|do)(?:n['’]t|\s+not)\s+([a-z]{3,}ed)\b", re.I)
_DID_IRREGULAR = lazy_re.compile(
    r"\b(?:did(?:n['’]t|\s+not|\s+(?:you|he|she|it|we|they))|(?:does|do)(?:n['’]t|\s+not))\s+([a-z]{3,})\b"
    r"(?!\s+(?:\w+\s+){0,2}(?:wood|logs?|planks?|boards?|branch(?:es)?|trees?)\b)",  # she didn't saw the wood
    re.I,
)
# Does Tilla sleeps in the box?
_DOES_S = lazy_re.compile(
    r"(?:(?:^|[.!?:“\"]\s*)(?:Does|Did)|\b(?:[Ww]hat|[Ww]here|[Ww]hen|[Ww]hy|[Hh]ow) (?:\w+ ){0,2}(?:does|did))"
    r" (?:[A-Z][a-z]+|he|she|it) ([a-z]{2,}s)\b(?=[^.!?\n]*\?)"
)
# Verbs themselves, but hardly ever in a book for children: to saw, to fell, to felt, to found.
_PASTS_RATHER = {"saw": "see", "fell": "fall", "felt": "feel", "found": "find"}
# I have got a new boots; everybody were quiet.
_NOT_SEVERAL = ("ss", "us", "is", "as", "ways", "ones")
_A_PLURAL = lazy_re.compile(
    r"(?<=[a-z] )(a)\s+([a-z]+)\s+([a-z]{3,}s)\b(?=\s*(?:[.,!?;:]|$)|\s+(?:and|in|on|for|with)\b)", re.I
)
_EVERYBODY = lazy_re.compile(
    r"(?:^|[.!?,]\s+[\"“‘']?|\b(?:and|but|so|then|when|because)\s+)"
    r"(?:everybody|everyone|nobody|no one|somebody|someone|everything)\s+(are|were)\b",
    re.I,
)
# Listen the song again; she explained me the words; there was many people.
_LISTEN = lazy_re.compile(
    r"\b(?:the|a|this|each|every|first|second|third|next|last|one|two|three)\s+listening\b"  # on the first listening
    r"|\b(listen(?:s|ed|ing)?)\s+(?!(?:the|this)\s+(?:\w+\s+)?(?:time|way|whole|day)\b|the\s+whole\b)"
    r"(?:the|this|these|your|my)\s+[a-z]",
    re.I,
)
_EXPLAIN = lazy_re.compile(
    r"\bexplain(?:s|ed|ing)?\s+(me|him|us|them|(?:the|your|my|his|her|our|their)\s+"
    r"(?:children|class|pupils?|students?|learners|friends?|partners?|teacher|boys|girls|family))\s+"
    r"(?:the|a|an|how|what|why|where|my|your|his|her|our|their|this|it|everything)\b",
    re.I,
)
# Ask to your friends; Be quite!
_ASK_TO = lazy_re.compile(
    r"\bask(?:s|ed|ing)?\s+(to)\s+(?:your|my|his|her|our|their|the|a|two|three|four|five|six)\s+(?:\w+\s+)?"
    r"(?:friends?|partners?|teachers?|classmates?|class|mum|dad|mother|father|grandma|grandpa)\b",
    re.I,
)
_BE_QUITE = lazy_re.compile(
    r"(?:^|[.!?:]\s+|\bplease,?\s+|\b(?:must|should|can)\s+)be\s+(quite)(?=\s*[.!,;]|\s*$"
    r"|\s+(?:and|behind|in|at|when|while|please|now|here|until)\b)",
    re.I,
)
# Say your partner about it: one tells somebody.
_SAY = lazy_re.compile(
    r"(?<![\w”\"’'] )(?<![”\"’'])\b(say(?:s|ing)?)\s+(?:your|my|his|her|our|their|a)\s+"
    r"(?:partner|friend|teacher|class|group|neighbour|mum|dad)\s+(?:about|what|how|why)\b",
    re.I,
)
_TELL = {"say": "tell", "says": "tells", "saying": "telling"}
# Plurals in -s are the checker's.
_THERE_IS_MANY = lazy_re.compile(
    r"\bthere\s+(is|was)\s+(?:many|several|a few|two|three|four|five|six|seven|eight|nine|ten)\s+"
    r"(?:people|children|men|women|mice|feet)\b",
    re.I,
)
# He has fell; they hadn't went. Alone behind had stands the next verb too: the hat that he had fell off.
_HAVE = lazy_re.compile(
    r"\b(?:(?:has|have)(?:n['’]t)?|had(?:n['’]t|(?=\s+(?:never|just|already)\b)))\s+"
    r"(?:(?:never|just|already|also|always|ever)\s+)?([a-z]{2,})\b",
    re.I,
)
_OF_TWO_AND_ME = {"is": "are", "am": "are", "was": "were", "has": "have", "does": "do"}
_OF_ONE = {"are": "is", "were": "was"}
_OF_TWO = {"be": {"is": "are", "was": "were"}, "have": {"has": "have"}}
_LET_TO = lazy_re.compile(
    r"\b[Ll]et (?:(?:the|your|each|every|one) (?:children|child|pupils?|class|groups?|others)|them|him|her|us)"
    r" (to) ([a-z]+)\b"
)
_TO_AFTER_MODAL = lazy_re.compile(r"\b(?:can|must|should|will|may)\s+(?:I|you|he|she|it|we|they)\s+(to)\s+[a-z]+", re.I)

# I put to much salt; not: it comes to many, due to much rain.
_TO_MUCH = lazy_re.compile(
    r"\b(?:put|puts|eats?|ate|drinks?|drank|is|are|was|were|['’]s|had?|has|have|got|way|far|makes?|made|uses?|used|not)\s+"
    r"(to)\s+(?:much|many)\b",
    re.I,
)


def slips_in(text: str) -> Iterator[Slip]:
    """The slips of a text, in the order of the patterns."""
    for match in _CAN_NOT.finditer(text):
        yield Slip(*match.span(), "This is one word.", "Cannot" if match[0][0] == "C" else "cannot")
    for match in _NOT_TWICE.finditer(text):
        yield Slip(*match.span(1), "The sentence says no twice.", _POSITIVE[match[1].casefold()])
    for match in _WITHIN.finditer(text):
        yield Slip(*match.span(1), "Does it go in? Then the word is “into”.")
    for match in _IT_WERE.finditer(text):
        yield Slip(*match.span(1), "One person or thing takes “was”.", "was")
    for match in _ED.finditer(text):
        if past := past_meant(match[0].casefold()):
            yield Slip(*match.span(), "This verb has a past form of its own.", past)
    for match in _counted().finditer(text):
        if plural := plural_meant(match[1].casefold()):
            yield Slip(*match.span(1), "This noun has a plural of its own.", plural)
    for match in _TO_AFTER_MODAL.finditer(text):
        yield Slip(*match.span(1), "No “to” comes after this verb.")
    for match in _LET_TO.finditer(text):
        if match[2].casefold() in bases():  # let the children to taste; not: let the ball go to the wall
            yield Slip(*match.span(1), "No “to” comes after this verb.")
    for match in _SINCE.finditer(text):
        yield Slip(*match.span(1), "For how long? The word is “for”.", "for")
    for match in _TO_MUCH.finditer(text):
        yield Slip(*match.span(1), "More than is good? Then the word is “too”.", "too")
    for match in _HAVE_YEARS.finditer(text):
        yield Slip(*match.span(1), "How old we are is told with “be”.")
    for match in _DID.finditer(text):
        if (base := _base_meant(match[1].casefold())) is not None:
            yield Slip(*match.span(1), "After “did” or “do” comes the plain verb.", base)
    for match in _DID_IRREGULAR.finditer(text):
        if base := _bases_meant().get(match[1].casefold()):
            yield Slip(*match.span(1), "After “did” or “do” comes the plain verb.", base)
    for match in _DOES_S.finditer(text):
        if base := _base_of_third(match[1]):
            yield Slip(*match.span(1), "After “did” or “do” comes the plain verb.", base)
    for match in _A_PLURAL.finditer(text):
        if _is_one_of_several(match[2].casefold(), match[3].casefold()):
            yield Slip(*match.span(), "One thing or several?")
    for match in _EVERYBODY.finditer(text):
        yield Slip(*match.span(1), "This word takes the verb of one person.", _OF_ONE[match[1].casefold()])
    for match in _YOU_HANDS.finditer(text):
        yield Slip(*match.span(1), "Whose is it?", "your")
    for match in _ER_AS.finditer(text):
        described = all(is_a(word.casefold(), "ADJ") for word in match[3].split())  # not: as the boat comes near
        if described and _is_comparative(match[1].casefold()):
            yield Slip(*match.span(2), "Things are compared with “than”.", "than")
    for match in _AND_I.finditer(text):
        if not is_a(match["who"].casefold(), "VERB"):  # Clap and I am a bird
            yield Slip(*match.span("does"), "Two people take another verb.", _OF_TWO_AND_ME[match["does"]])
    for match in filter(itemgetter(1), _LISTEN.finditer(text)):
        yield Slip(*match.span(1), "We listen to something.", f"{match[1]} to")
    for match in _EXPLAIN.finditer(text):
        yield Slip(*match.span(1), "We explain something to somebody.")
    for match in _ASK_TO.finditer(text):
        yield Slip(*match.span(1), "We ask somebody, without “to”.")
    for match in _BE_QUITE.finditer(text):
        yield Slip(*match.span(1), "Is “quiet” meant?", "quiet")
    for match in _SAY.finditer(text):
        yield Slip(*match.span(1), "We tell somebody something.", _TELL[match[1].casefold()])
    for match in _THERE_IS_MANY.finditer(text):
        yield Slip(*match.span(1), "Several things take another verb.", _OF_TWO["be"][match[1].casefold()])
    for match in _HAVE.finditer(text):
        if better := _participle_meant(match[1].casefold()):
            yield Slip(*match.span(1), "Behind have stands another form of this verb.", better)
    for match in _TWO.finditer(text):
        if not match["how"] or is_a(match["how"].casefold(), "ADJ"):
            yield Slip(*_verb_of_two(match))
    for match in _own_part().finditer(text):
        if _takes_a_thing(match[1].casefold()):
            yield Slip(*match.span(2), "What belongs to it is written without an apostrophe.", "its")


def _base_meant(past: str) -> str | None:
    """The verb that a past in -ed is of: believed → believe; None for need and feed, which are verbs themselves."""
    if past in bases():
        return None
    return next((one for one in (past[:-2], past[:-1], past[:-3], f"{past[:-3]}y") if one in bases()), None)


def _base_of_third(verb: str) -> str:
    """The verb that a form in -s is of: sleeps → sleep; '' for what is a verb itself (cross)."""
    if verb in bases():
        return ""
    return next((one for one in (verb[:-1], verb[:-2], f"{verb[:-3]}y") if one in bases()), "")


def _is_comparative(word: str) -> bool:
    """Say whether a word in -er compares: heavier, bigger, larger; not: teacher."""
    stems = (word[:-2], word[:-1], word[:-3], f"{word[:-3]}y" if word.endswith("ier") else "")
    return not is_a(word, "NOUN") and any(is_a(stem, "ADJ") for stem in stems if stem)


@cache
def _bases_meant() -> dict[str, str]:
    """Irregular pasts that are no verbs themselves, or rather the pasts of others, with these: went → go, saw → see."""
    return _PASTS_RATHER | {
        past: verb.base
        for verb in irregular_verbs()
        for past in verb.pasts
        if past not in bases() and not past.endswith("ed") and past not in ("was", "were")
        if past not in words("pasts_that_are_nouns")
    }


def _is_one_of_several(adjective: str, things: str) -> bool:
    """Say whether a word in -s can only be the plural of a thing: boots; not: bus, glass, news."""
    if adjective not in words("plain_adjectives") | words("colours") or things.endswith(_NOT_SEVERAL):
        return False
    thing = things[:-2] if things.endswith(("ches", "shes", "xes", "sses")) else things[:-1]
    return is_a(thing, "NOUN") and lowest(thing) in {"A1", "A2", "B1"} and lowest(things) in {"", lowest(thing)}


@cache
def _participles_meant() -> dict[str, str]:
    """Pasts that are no participles, with what stands behind have: fell → fallen. A past that may be a noun is none of
    them (he had rose petals)."""
    return {
        past: verb.participles[0]
        for verb in irregular_verbs()
        for past in verb.pasts
        if past not in (*verb.participles, "was", "were") and not past.endswith("ed")
        if past not in words("pasts_that_are_nouns")
    }


def _participle_meant(past: str) -> str:
    return _participles_meant().get(past, "")


def _verb_of_two(match: re.Match[str]) -> tuple[int, int, str, str]:
    """The verb behind two names, and what it should be: is → are, hasn't → haven't."""
    kind = next(name for name in ("be", "have", "do") if match[name])
    denied = match["not"] or match["no"] or ""
    better = "don't" if kind == "do" else _OF_TWO[kind][match[kind]] + denied
    start, end = match.span(kind)
    return start, end + len(denied), "Two people or things take another verb.", better


def _takes_a_thing(word: str) -> bool:
    """Say whether a word is a preposition or a verb for something that is done to a thing: in, wags; not: I think."""
    if word in _BEFORE_A_THING:
        return True
    return any(one in words("actable_verbs") and one not in _OF_SENSE for one in (word, word[:-1], word[:-2]))


@cache
def _counted() -> "re.Pattern[str]":
    """`how many leafs`, `two brown leafs`: a word in -s that can only be a noun, behind a number or what owns it."""
    numbers = "|".join(sorted(words("numbers") - {"one"}))
    colours = "|".join(sorted(words("colours")))
    return re.compile(
        rf"\b(?:{numbers}|\d+|many|some|these|those|more|any|of|my|your|his|her|our|their|its|all)\s+"
        rf"(?:(?:{colours}|big|small|little|long|old|new|good|happy|bad|wild|fallen)\s+)?([a-z]+s)\b",
        re.I,
    )


@cache
def _own_part() -> "re.Pattern[str]":
    """`wag it's tail`: a verb or a preposition before, a part of the body after."""
    parts = {one for topic, _, words in rows("childrens_words.csv") if topic == "body" for one in alternatives(words)}
    parts |= {"head", "eye", "ear", "nose", "mouth", "leg", "foot", "hand", "arm", "back", "tooth", "hair", "neck"}
    several = {f"{one}s" for one in parts} | {"feet", "teeth"}
    return re.compile(rf"\b([a-z]+) (it['’]s)\s+(?:[a-z]+\s+)?(?:{'|'.join(sorted(parts | several))})\b")


def is_cited(passage: Passage, slip: Slip) -> bool:
    """Say whether words that do not go together are in part cited: after *did* and *didn't* the verb goes back."""
    cited = [(start, end) for start, end in passage.emphasis if len(passage.text[start:end].split()) <= _FEW]
    if slip.parsed and any(start <= slip.start and slip.end <= end for start, end in cited):
        return True  # Mime *guess*: tap your head
    touched = (one for one in (*passage.emphasis, *passage.strong) if slip.start < one[1] and one[0] < slip.end)
    return slip.parsed and any(not (start <= slip.start and slip.end <= end) for start, end in touched)
