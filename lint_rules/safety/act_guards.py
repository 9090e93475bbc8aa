"""Whether what looks like an act is one: not what a text asks, cites, mimes, draws, forbids, or is not about at all.

Each guard came from a judged course in which an act was seen that nobody does.
"""

import re
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.manuscript.model import Passage, Role
from lint_rules.plain_words import WORD
from lint_rules.safety.activity_text import DONE, ActivityText, Place, Said
from lint_rules.safety.foods import foods
from lint_rules.safety.plain_acts import without_speech
from lint_rules.safety.signs import Sentence
from lint_rules.tables import alternatives, rows

_MIMED = lazy_re.compile(r"\b(?:mime[sd]?|miming|pretend(?:s|ing)?|invisible)\b", re.I)
_NOTHING_REAL = lazy_re.compile(r"\b(?:no|not|without) (?:\w+ )?real (?:food|tools?|things?|objects?|knives)\b", re.I)
_EMPTY_HANDS = lazy_re.compile(
    r"\bmim(?:e|es|ed|ing)\b[^.!?]*\b(?:empty hands|nothing in (?:their|your) hands)\b", re.I
)
_ACTED = lazy_re.compile(r"\b(?:actions|mim(?:e|es|ing)|acts? (?:it |them )?out|do it with the class)\b", re.I)
_CALLED = frozenset(["game", "song", "speaking"])
_TO_END = lazy_re.compile(r"[^.!?\n]*[.!?]")
_TOOLS = lazy_re.compile(
    r"\b(?:scissors|kni(?:fe|ves)|needles?|candles?|match(?:es)?|kettles?|irons?|hammers?|nails?|skewers?|peelers?|graters?"
    r"|ovens?|pans?)\b",
    re.I,
)
_NOBODY = lazy_re.compile(r"\b(?:nobody|no one|no child)\b", re.I)
_TEACHER_DOES = lazy_re.compile(
    r"(?:then |now |first )?(?:you|the teacher|an? (?:adult|grown-up|helper))\s+(?!can\b|may\b|need\b)\w+",
    re.I,
)
_FOR_THEM = lazy_re.compile(r"([a-z]+) (?:\w+ ){1,4}for (?:them|the children|the pupils)\b", re.I)
_LETS = frozenset(["let", "have", "ask", "help", "get", "make", "watch"])
_READY_CUT = lazy_re.compile(
    r"\ban? (?:\w+ )?\w+ cut (?:from|out of) (?:\w+ )?(?:paper|card|cardboard|felt|cloth|foam|foil)\b", re.I
)
_OTHERS = lazy_re.compile(
    r"\b(?:child(?:ren)?|pupils?|students?|learners?|class|groups?|pairs?|teams?|partners?|they|them|each|every\w*)\b",
    re.I,
)
_ANIMALS = lazy_re.compile(
    r"\b(?:birds?|animals?|insects?|bees|ants|worms?|snails?|hens?|ducks?|fish|cats?|dogs?|goats?|cows?|horses?|pony|ponies"
    r"|rabbits?|hamsters?|squirrels?|hedgehogs?|mice|mouse)\s+(?:will|can|may|could|comes?|sits?|fly|flies|eats?|drinks?)\b",
    re.I,
)
_QUESTION = lazy_re.compile(
    r"(?:is|are|was|were|do|does|did|have|has|what|where|when|which|whose|why)\b[^.!?]*\?", re.I
)
_SPEAKER = lazy_re.compile(r"[A-Z]\w{0,15}: ")
_FRAGMENT = lazy_re.compile(r"\W*(?:[a-h1-9][.)]\s+)?(?:the|a|an|some|two|three|four|five|my|your)\b[^.!?]*$", re.I)
_EATS = lazy_re.compile(r"(?:eat|eats|eating|drink|drinks)\b", re.I)
_PART_OF_PLAY = lazy_re.compile(
    r"\b(?:groups?|half|row|team|class|child(?:ren)?|pupils?) (?:is|are|plays?) the "
    r"(?:worms?|snails?|bees?|ants?|birds?|insects?|flowers?|plants?|trees?|seeds?)\b",
    re.I,
)
_SHUT = lazy_re.compile(
    r"\b(?:shut|close)s? (?:(?:their|your|his|her|the|both) )+eyes\b|\beyes (?:shut|closed)\b"
    r"|\bwith (?:\w+ )?(?:closed|shut) eyes\b",
    re.I,
)
_MOVES = lazy_re.compile(
    r"\b(?:(?:walk|run|move|go|step|turn|crawl|find|catch|follow|guide|lead|jump|scarf|blindfold"
    r"|chase|race|cross|tag|dance|hop|skip|grab)\w*"
    r"|feels? (?:their|your|his|her|the) way)\b",
    re.I,
)
_AT_THE_DOOR = lazy_re.compile(r"\bwaits? (?:\w+ )?outside the (?:\w+ )?(?:door|classroom|room)\b", re.I)
_CARDS = lazy_re.compile(
    r"\b(?:on\s+(?:\w+\s+){0,3}(?:cards?|slips of paper)|cards?\s+(?:to write|say|read|tell|with these))\b[^.:]*:", re.I
)
_BOARD = lazy_re.compile(r"\b(?:dice|die|counters?|squares?)\b", re.I)
_TRIED = lazy_re.compile(r"\b(?:tast(?:es?|ing|ed)|sips?|licks?|bites?|nibbles?|samples?|swallows?)\b", re.I)
# Needles that prick nobody: a compass's, a dial's, a pine tree's.
_OTHER_NEEDLE = lazy_re.compile(r"\bcompass(?! with| points?)\b|\bdials?\b|\b(?:pine|fir) needles?\b", re.I)
_NEEDLE = lazy_re.compile(r"\bneedles?\b", re.I)
_PRICKS = lazy_re.compile(r"\b(?:thread|sew|stitch|pins?|nails?|skewers?|scissors|prick|pierce)", re.I)
_MAP = lazy_re.compile(r"\b(?:map|board game)\b", re.I)
_OF_DESKS = lazy_re.compile(
    r"\b(?:streets?|roads?|rivers?|towns?)\s+(?:is|are|of|from|made of)\s+(?:\w+ ){0,2}"
    r"(?:desks?|tables?|boxes|tape|chalk)\b"
    r"|\b(?:desks?|tables?|boxes|tape|chalk)\s+(?:for|as|are|is|make)\s+(?:the|an?|your)\s+(?:\w+ )?"
    r"(?:streets?|roads?|rivers?|towns?)\b",
    re.I,
)
_LEAVES = lazy_re.compile(
    r"\b(?:take|takes|go|goes|going|walk|walks|lead|leads)\b[^.!?]*\b(?:out|outside|outdoors)\b", re.I
)
_MOVED = lazy_re.compile(r"\bmov(?:es?|ed|ing)\b[^.!?]{0,30}\b(?:counters?|fingers?|figures?|pieces?)\b", re.I)
_OUT = lazy_re.compile(
    r"\b(?:out(?:side|doors?)?|streets?|roads?|pavements?|kerb|trips?|outings?|visit|yard|playground|grounds|park|"
    r"woods?|forest|garden|farm|zoo|museum|market|shops?|beach|river|pond|lake|walk|traffic|cross|"
    r"take the (?:class|children))\b",
    re.I,
)
_IMITATION = lazy_re.compile(r"\b(?:cards?|pictures?|photos?|toys?|plastic|cardboard|clay|dough)\b", re.I)
_EACH_TASTE = lazy_re.compile(r"\b(?:each|every|which|what) taste\b", re.I)
_EATEN = lazy_re.compile(
    r"\b(?:eat|eats|eating|taste|tastes|try|tries|bite|bites|lick|licks|drink|drinks|sip|sips|chew|real|plates?"
    r"|mouths?|tongues?|cheeks?|lips|flavours?|sucks?|swallows?|snacks?|picnics?|feasts?|lunch|breakfast|spreads?|pours?"
    r"|peels?|stirs?|mix(?:es)?|bakes?)\b",
    re.I,
)


def is_spoken(passage: Passage) -> bool:
    """Say whether a line of the page is what somebody says: A: *Tam likes pineapples.*"""
    if passage.role is Role.TURN:
        return True
    name = _SPEAKER.match(passage.text)
    return name is not None and (name.end(), len(passage.text)) in passage.emphasis


def asks(said: Said, sentence: Sentence) -> bool:
    """Say whether a sentence only asks how things are: Is there a park in your street? Can you …? is a dare."""
    text = said.passage.text[sentence.words[0].start :]
    return _QUESTION.match(text) is not None


def is_a_model(said: Said, sentence: Sentence) -> bool:
    """Say whether steps only cite a sentence, for children to say: one child acts: *You mix flour and butter.*"""
    start, end = sentence.words[0].start, sentence.words[-1].end
    whole = len(said.passage.text)
    cited = (one for one in said.passage.emphasis if one[1] - one[0] < whole)
    return said.place is Place.STEPS and any(first <= start and end <= last for first, last in cited)


def is_the_way(said: Said, text: ActivityText) -> bool:
    """Say whether a page to speak from gives the way as a model, in italics as a whole: *Cross the bridge over the
    stream.* Nobody is at a stream."""
    to_speak = "speaking" in text.kinds and "make" not in text.kinds
    return said.place is Place.PAGE and to_speak and (0, len(said.passage.text)) in said.passage.emphasis


def does_it_herself(passage: Passage, sentence: Sentence) -> bool:
    """Say whether steps tell the teacher herself to use a tool, and nobody else: You make the holes with the hole
    punch; but: You give out the knives and the children cut the bread."""
    start, end = sentence.words[0].start, sentence.words[-1].end
    told = _TEACHER_DOES.match(passage.text, start, end) is not None and not _OTHERS.search(passage.text, start, end)
    return told or is_done_for_them(passage.text, start)


def is_done_for_them(text: str, start: int) -> bool:
    """Say whether a sentence orders the teacher to do something in the children's place: Cut the thread for them; not:
    The children cut it for them."""
    before = text[:start]
    opens = not before[max(before.rfind(mark) for mark in ".!?\n") + 1 :].strip(" *_)–-0123456789")
    match = _FOR_THEM.match(text, start) if opens else None
    verb = match[1].casefold() if match is not None else ""
    return verb in bases() and verb not in _LETS


def is_ruled_out(text: str, start: int, end: int) -> bool:
    """Say whether nobody is to do what some words tell: the stair is flat; nobody climbs on chairs; a key cut from
    paper is there already."""
    clause = max(text.rfind(mark, 0, start) for mark in ".!?;:\n") + 1
    ready = any(match.start() < end and start < match.end() for match in _READY_CUT.finditer(text))
    return ready or _NOBODY.search(text, clause, end) is not None


def is_of_animals(text: str, start: int, end: int) -> bool:
    """Say whether it is animals that eat: the birds will sit here and eat from the spoon; not: feed the birds and eat
    the bread, nor what anybody tastes."""
    if _EATS.match(text, start, end) is None:
        return False
    before = text[max(text.rfind(mark, 0, start) for mark in ".!?,;:\n") + 1 : start]
    return _ANIMALS.search(before) is not None and _OTHERS.search(before) is None


def is_part_of_play(text: str, start: int, end: int) -> bool:
    """Say whether a group is only called an animal, which it plays: two groups are the worms."""
    return any(match.start() < end and start < match.end() for match in _PART_OF_PLAY.finditer(text))


def is_on_cards(text: str, start: int) -> bool:
    """Say whether words only stand on cards that are drawn: Cards to write for each group: eat an orange, drink."""
    sentence = max(text.rfind(mark, 0, start) for mark in ".!?;\n") + 1
    return _CARDS.search(text, sentence, start) is not None


def is_another_needle(text: str) -> bool:
    """Say whether the needle of a text is a compass's, and nothing else in it is sharp: Turn until it points to N."""
    return _NEEDLE.search(text) is not None and _OTHER_NEEDLE.search(text) is not None and not _PRICKS.search(text)


def is_at_the_door(text: str, start: int) -> bool:
    """Say whether who goes out only waits there: The seeker waits just outside the open door, in your sight."""
    ends = [at for mark in ".!?\n" if (at := text.find(mark, start)) >= 0]
    return _AT_THE_DOOR.search(text, start, min(ends, default=len(text))) is not None


def is_only_shut(text: ActivityText) -> bool:
    """Say whether eyes are only shut while something is hidden or felt, and nobody moves: The class shut their eyes."""
    said = [one.passage.text for one in text.said if one.place in DONE]
    return any(_SHUT.search(one) for one in said) and not any(_MOVES.search(one) for one in said)


def is_on_a_map(text: ActivityText) -> bool:
    """Say whether a walk, a bus or a van goes over a map, a board or a table, and nobody out of doors."""
    said = [one.passage.text for one in text.said if one.place in DONE]
    if any(_LEAVES.search(one) for one in said):
        return False
    if any(_OF_DESKS.search(one) for one in said):
        return True  # the street is two desks
    moved = any(_MOVED.search(one) for one in said)  # a counter goes down the street
    return any(_MAP.search(one) for one in said) and (moved or not any(_OUT.search(one) for one in said))


def has_food(text: ActivityText, shown: str) -> bool:
    """Say whether something is eaten in an activity, or is food among its materials or where it is ``shown``: not so
    where a child looks for the shell, or asks for the butter in a drawing, nor on the squares of a board."""
    done = [one for one in text.said if one.place in DONE | {Place.LESSON_MATERIALS}]
    told = [_EACH_TASTE.sub(" ", without_speech(one.passage)) for one in done]
    on_board = "game" in text.kinds and any(map(_BOARD.search, told)) and not any(map(_TRIED.search, told))
    places = {Place.MATERIALS} if on_board else {Place.MATERIALS, Place.LIST, Place.LESSON_MATERIALS}
    listed = (one.passage.text for one in done if one.place in places)
    if any(not foods().isdisjoint(WORD.findall(one.casefold())) for one in listed):
        return True
    if on_board:
        return False  # Go back two squares: the cat eats your bread
    # The Captain of the Crumb is no food.
    named = {word.casefold() for at, word in enumerate(WORD.findall(shown)) if not at or word.islower()}
    return any(map(_EATEN.search, told)) or not foods().isdisjoint(named)


def is_only_named(passage: Passage, start: int, text: ActivityText) -> bool:
    """Say whether food only stands on a page as something to match, to tick or to write: d the sandwiches."""
    if "make" in text.kinds or passage.role not in (Role.ITEM, Role.TEXT, Role.CELL, Role.OPTION):
        return False
    line = passage.text[passage.text.rfind("\n", 0, start) + 1 :].partition("\n")[0]
    told = [one.passage.text for one in text.said if one.place in DONE]
    return _FRAGMENT.match(line) is not None and not any(map(_EATEN.search, told))


def is_mimed(text: ActivityText) -> bool:
    """Say whether children only mime in an activity, by its own words, with nothing in hand: They use no real tools."""
    done = [one.passage.text for one in text.said if one.place in DONE]
    if "make" in text.kinds or any(_TOOLS.search(one) for one in done):
        return False
    return any(map(_EMPTY_HANDS.search, done)) or (
        any(map(_NOTHING_REAL.search, done)) and any(map(_MIMED.search, done))
    )


def is_called_out(text: ActivityText, said: Said, start: int) -> bool:
    """Say whether an order is called out for children to act, in a game of actions with nothing to make: Dig the soil!
    Plant a seed! Be a noisy hen!"""
    own = _TO_END.match(said.passage.text, start)
    called = said.place in (Place.PAGE, Place.LIST) and own is not None and own[0].endswith("!")
    told = (one.passage.text for one in text.said if one.place in DONE and one is not said)
    plays = not _CALLED.isdisjoint(text.kinds) and "make" not in text.kinds
    return called and plays and any(map(_ACTED.search, told))


# A pencil is the microphone: nobody is recorded.
_STANDS_FOR = lazy_re.compile(
    r"\b(?:pencil|pen|spoon|ruler|brush|banana|bottle|stick|toy|paper|card|cardboard|pretend|fist)s?\s+"
    r"(?:(?:is|are|as|for|becomes?)\s+(?:an?\s+|the\s+|your\s+|their\s+)?)?(?P<thing>microphone|phone|camera)s?\b",
    re.I,
)


@cache
def _evidence() -> dict[str, re.Pattern[str]]:
    found = {}
    for hazard, words in rows("evidence.csv"):
        begun = "|".join(rf"{one[:-1]}\b" if one.endswith("$") else one for one in alternatives(words))
        found[hazard] = re.compile(rf"\b(?:{begun})", re.I)
    return found


def lacks_evidence(hazard: str, text: ActivityText) -> bool:
    """Say whether an activity speaks of nothing that this hazard is about, but for what something else stands for."""
    pattern = _evidence().get(hazard)
    pretended = {match["thing"].casefold() for one in text.said for match in _STANDS_FOR.finditer(one.passage.text)}
    unreal = re.compile(rf"\b(?:{'|'.join(sorted(pretended)) or '(?!)'})s?\b", re.I)
    return pattern is not None and not any(
        pattern.search(unreal.sub(" ", one.passage.text))
        for one in text.said
        if one.place is not Place.LESSON_MATERIALS
    )


def is_imitated(text: str, sentence: Sentence) -> bool:
    """Say whether food is on cards, of paper or a toy, and nobody eats it: a food card each (honey, cherries)."""
    start = sentence.words[0].start
    if text[:start].rstrip().endswith(":"):  # what a list belongs to
        start = max(text.rfind(mark, 0, start) for mark in ".!?\n") + 1
    own = text[start : sentence.words[-1].end]
    return _IMITATION.search(own) is not None and _EATEN.search(own) is None
