"""Slips of number in running text: one and several, in the noun that a number counts and in the verb of a subject.

*two big ear*, *one of the oldest boat*, *Odi and Nella looks in the bag*, *The box of photos were old*, *Where is your
gloves?* Pure; how sure they must be is said in ``page_slips``.
"""

from collections.abc import Iterator

from lint_rules.language.inflection.forms import every_form
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.language.vocabulary.reference import common, lowest
from lint_rules.tables import words
from lint_rules.unit_language.key_sentence import MANY, KeySentence, KeySlip, either_number

_SHORTEST = 3
_RARER = 1.0  # Zipf frequency, by what was seen: liras are 1.2 rarer than lira, sisters .4 than sister
_BE_OF = {"is": "one", "was": "one", "are": "many", "were": "many"}
_OWN = frozenset({"my", "your", "his", "her", "its", "our", "their", "the"})
_ENDS = frozenset(".!?")
_THE = frozenset({"the", "my", "your", "his", "her", "its", "our", "their", "these", "those"})


def may_be_many(word: str) -> bool:
    """Say whether a word goes with either number: family, sheep, jellyfish."""
    return word in either_number() or any(len(one) > _SHORTEST and word.endswith(one) for one in either_number())


def is_one_in_s(word: str) -> bool:
    """Say whether a word in -s is one thing, with no word left without it: atlas, walrus; not: knives."""
    return word.endswith("s") and not word.endswith(("ves", "ies")) and not lowest(word.removesuffix("s"))


def numbers(sentence: KeySentence) -> Iterator[KeySlip]:
    """`three sister`, `ten minute`, `each others`: a number and the noun that it counts."""
    tokens = sentence.tokens
    for at in range(len(tokens) - 1):
        low = sentence.low(at)
        noun = at + 2 if tokens[at + 1].tag == "JJ" and at + 2 < len(tokens) else at + 1  # two big ear
        if low not in MANY or low in ("few", "these", "those"):
            continue
        if tokens[noun].tag != "NN" or tokens[noun].pos != "NOUN":
            continue
        after = tokens[noun + 1] if noun + 1 < len(tokens) else None
        goes_on = after is not None and after.pos in ("NOUN", "PROPN", "ADJ", "NUM", "DET", "ADV")
        verbal = after is not None and after.tag in ("VB", "VBP", "VBZ", "VBG")
        goes_on = goes_on or (verbal and sentence.low(noun + 1) not in ("are", "were"))  # Three worm are in the mud.
        marked = after is not None and after.text[:1] in "'’-"
        counts = tokens[at].head == noun and tokens[at].dep in ("nummod", "amod")
        if counts and not goes_on and not marked and _can_be_counted(sentence.low(noun)):
            yield sentence.slip(at, noun)


def one_of(sentence: KeySentence) -> Iterator[KeySlip]:
    """`one of the oldest boat`: one of several."""
    tokens = sentence.tokens
    for at in range(len(tokens) - 3):
        if (sentence.low(at), sentence.low(at + 1)) != ("one", "of") or sentence.low(at + 2) not in _THE:
            continue
        if sentence.low(at - 1) in ("another", "this", "that", "the", "which", "next", "last", "first", "new"):
            continue  # another one of the teacher
        noun = at + 3
        while noun < len(tokens) - 1 and tokens[noun].pos == "ADJ":
            noun += 1
        if tokens[noun].tag != "NN" or tokens[noun].pos != "NOUN":
            continue
        after = tokens[noun + 1] if noun + 1 < len(tokens) else None
        alone = after is not None and after.pos in ("PUNCT", "ADP") and after.text[:1] not in "'’-"
        if alone and sentence.low(noun) not in words("groups_of_several") and _can_be_counted(sentence.low(noun)):
            yield sentence.slip(noun, noun)


def _can_be_counted(word: str) -> bool:
    """Say whether a word is a noun that has a usual plural, and no verb (four kneel below; two rand; three dozen)."""
    if len(word) < _SHORTEST or not word.isalpha() or word in either_number() or word in bases():
        return False
    forms = every_form(word) - {word}
    plural = max((common(form) for form in forms if form[-1] == "s"), default=0.0)
    doing = max((common(form) for form in forms if form.endswith("ing")), default=0.0)
    return plural > common(word) - _RARER and plural > doing


def asked(sentence: KeySentence) -> Iterator[KeySlip]:
    """`Where are my hat?`, `How many people is there?`: a question whose verb stands before who or what it is about."""
    tokens = sentence.tokens
    for at in range(1, len(tokens) - 2):
        low, before = sentence.low(at), sentence.low(at - 1)
        if low not in _BE_OF:
            continue
        many = [index for index in range(max(0, at - 4), at - 1) if sentence.low(index) == "many"]
        there = sentence.low(at + 1) == "there" and (tokens[at + 2].pos == "ADP" or sentence.low(at + 2) in _ENDS)
        if there and _BE_OF[low] == "one" and many and tokens[at - 1].tag == "NNS":
            yield sentence.slip(at, at + 1)  # How many people is there?
            continue
        noun = at + 2
        while noun < len(tokens) - 1 and tokens[noun].tag == "JJ":
            noun += 1
        alone = noun + 1 < len(tokens) and sentence.low(noun + 1) in (*_ENDS, ",")  # Where is your gloves, Toma?
        if before not in ("where", "here") or sentence.low(at + 1) not in _OWN or not alone:
            continue
        word = sentence.low(noun)
        if tokens[noun].pos != "NOUN" or may_be_many(word) or not word.isalpha():
            continue
        several = tokens[noun].tag == "NNS" and word.endswith("s")
        if several != (_BE_OF[low] == "many") and (several or (tokens[noun].tag == "NN" and not word.endswith("s"))):
            yield sentence.slip(at, noun)


def pairs(sentence: KeySentence) -> Iterator[KeySlip]:
    """`Odi and Nella looks in the bag`: two who do something, by names that open the sentence."""
    tokens = sentence.tokens
    if len(tokens) < 6 or sentence.low(1) != "and" or sentence.low(len(tokens) - 1) not in _ENDS:
        return
    named = all(len(tokens[at].text) > 2 and tokens[at].text.istitle() and tokens[at].text.isalpha() for at in (0, 2))
    low = sentence.low(3)
    does = tokens[3].tag == "VBZ" and low.isalpha() and low not in ("is", "was", "means", "has") and low[-1:] == "s"
    if named and does and tokens[4].pos in ("DET", "ADP", "PRON", "ADV", "SCONJ", "PROPN"):
        yield sentence.slip(0, 3)


def several(sentence: KeySentence) -> Iterator[KeySlip]:
    """`The cow and the hen is here.` `The numbers in the book was wet.`: two, or several, that open a sentence."""
    tokens = sentence.tokens
    if len(tokens) < 7 or sentence.low(0) not in _OWN or sentence.low(3) not in _OWN | {"a", "an"}:
        return
    low, behind = sentence.low(1), sentence.low(2)
    told = sentence.low(len(tokens) - 1) in (".", "!") and sentence.low(5) in ("is", "was", "has")
    two = tokens[1].tag == "NN" and behind == "and" and low != sentence.low(4)
    many = tokens[1].tag == "NNS" and low.endswith("s") and behind in ("in", "on", "under", "behind", "at", "near")
    many = many and not may_be_many(low) and not is_one_in_s(low) and low.removesuffix("s") not in words("measures")
    if told and tokens[4].tag == "NN" and (two or many):
        yield sentence.slip(0, 5)


def contained(sentence: KeySentence) -> Iterator[KeySlip]:
    """`The box of old photos were under the bed`: one box, whatever is in it, that opens a sentence."""
    tokens = sentence.tokens
    if len(tokens) < 7 or sentence.low(0) not in _OWN or sentence.low(2) != "of" or tokens[1].tag != "NN":
        return
    things = 4 if tokens[3].tag == "JJ" else 3
    verb = things + 1
    if verb >= len(tokens) - 1 or sentence.low(len(tokens) - 1) not in (".", "!"):
        return
    if tokens[things].tag == "NNS" and sentence.low(verb) in ("are", "were") and sentence.low(1) in words("containers"):
        yield sentence.slip(0, verb)
