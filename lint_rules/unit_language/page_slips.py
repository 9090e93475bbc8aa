"""Slips of grammar in running text: the patterns of the slips that keys make, held to what is sure anywhere.

A key's words are under suspicion, and so its patterns may guess; a whole page is not. Here a subject must be one that
nobody takes for an order (`Stretch cling film`), a title or a list (`Road, toad, load: circle …`), and a number must
count the noun right behind it. Which patterns hold, and the conditions, were drawn from the lines and the sentences
with one slip each of tests/english (`python -m tests.english.checks URL` counts both). Pure.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import msgspec

from lint_rules.language.inflection.irregular import irregular_verbs
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.language.tokens import Analysis, Sentence, Token
from lint_rules.tables import words
from lint_rules.unit_language.key_sentence import MODALS, PLURAL, SINGULAR, KeySentence, KeySlip
from lint_rules.unit_language.key_slips import degrees
from lint_rules.unit_language.key_slips_of_verbs import agreement, is_rarer_base, verb_forms
from lint_rules.unit_language.key_slips_of_words import slips_of_words
from lint_rules.unit_language.number_slips import (
    asked,
    contained,
    is_one_in_s,
    may_be_many,
    numbers,
    one_of,
    pairs,
    several,
)

_PARTS = frozenset(",;:–—-/()\"“”'‘’")
_BEFORE_A_NOUN = frozenset(
    {"the", "this", "that", "these", "those", "my", "your", "his", "her", "its", "our", "their", "every", "each", "'s"}
    | {"some", "all", "both", "two", "three", "four", "five", "six", "most", "many"}
)
_ENDS = frozenset(".!?")
_ASKING = frozenset({"how", "which", "what", "whose", "who", "whoever", "whatever", "that"})
_BEHIND_NUMBER = 4  # tokens before the noun of an entry: number, three, a comma, the
_GOING = frozenset({"go", "come", "live", "sit", "stand", "be", "get", "arrive", "stay", "wait", "meet", "see", "say"})
_OTHER_NUMBER = {"is": "are", "are": "is", "was": "were", "were": "was", "has": "have", "have": "has"}
_HELPING = frozenset({"have", "has", "do", "does", "is", "are", "was", "were"})
_THE = frozenset({"the", "my", "your", "his", "her", "its", "our", "their", "these", "those"})
_OWN = frozenset({"my", "your", "his", "her", "its", "our", "their", "the"})
_DATING = ("last", "next")  # doing there last time
_NEW_CLAUSE = frozenset({"and", "but", "or", "when", "while", "if", "that", "until", "because", "so", "before", ","})
_OF_A_SENSE = frozenset(
    {"make", "makes", "made", "let", "lets", "help", "helps", "helped", "see", "saw", "hear", "watch"}
)


@dataclass(frozen=True, slots=True, order=True)
class PageSlip:
    """A range of a text that is wrong, what would be right ('' where there are several ways), and what is wrong;
    ``of_subject``: it is a verb that does not go with who does it."""

    start: int
    end: int
    better: str
    message: str
    of_subject: bool = False


_NEVER_ORDERED = frozenset({"have", "want", "need", "like", "love", "know", "hate", "prefer"})


def page_slips(analysis: Analysis, variety: str) -> list[PageSlip]:
    """What is surely wrong in a text, from left to right."""
    return [slip for one in analysis.sentences for slip in _in_sentence(_alone(analysis, one), variety)]


def _alone(analysis: Analysis, one: Sentence) -> list[Token]:
    """The words of one sentence, with heads counted from its start."""
    words = analysis.tokens[one.first : one.last]
    many = len(words)
    heads = (token.head - one.first for token in words)
    return [
        msgspec.structs.replace(token, head=head if 0 <= head < many else at)
        for at, (token, head) in enumerate(zip(words, heads, strict=True))
    ]


def _in_sentence(tokens: Sequence[Token], variety: str) -> list[PageSlip]:
    sentence = KeySentence(tokens, frozenset(range(len(tokens))), variety)
    found = {
        PageSlip(slip.start, slip.end, slip.better, message) for find, message in _PATTERNS for slip in find(sentence)
    }
    cried = [
        (token.start, token.start + len(token.text)) for token in tokens if token.text.isupper() and len(token.text) > 2
    ]
    # Where is sign A? A letter behind a word names a thing, and the word before it is no verb.
    named = [
        (before.start, before.start + len(before.text))
        for before, token in pairwise(tokens)
        if len(token.text) == 1 and token.text.isupper() and token.text != "I" and before.text.islower()
    ]
    said = found | set(_agreement(sentence))
    return sorted(
        slip for slip in said if not any(slip.start < end and start < slip.end for start, end in (*cried, *named))
    )


def _agreement(sentence: KeySentence) -> Iterator[PageSlip]:
    tokens = sentence.tokens
    for slip in agreement(sentence):
        at = [index for index, token in enumerate(tokens) if slip.start <= token.start < slip.end]
        if not at or any(sentence.low(index) in _PARTS for index in at):
            continue
        if sentence.low(0) == "number" and sentence.low(2) == "," and at[0] <= _BEHIND_NUMBER:
            continue  # Number three, the rope pull.
        if _is_ordered(sentence, at[0]) or _is_asked(sentence, at[0]) or not _is_told(sentence, at):
            continue
        first, last = tokens[at[0]].text, tokens[at[-1]].text
        if tokens[at[0]].dep in ("nsubj", "nsubjpass") and _is_subject(sentence, at[0]):
            start = tokens[at[-2] if last in ("n't", "n’t") else at[-1]].start
            better = _OTHER_NUMBER.get(sentence.low(at[-1]), "")
            yield PageSlip(start, slip.end, better, f"Does the verb go with “{first}”?", of_subject=True)
        elif sentence.low(at[0]) in ("is", "was", "are", "were") and sentence.low(at[0] - 1) == "there":
            yield PageSlip(slip.start, tokens[at[0]].end, "", f"Does the verb go with “{last}”?", of_subject=True)


def _first(sentence: KeySentence, at: int) -> int:
    """Where the sentence of a word begins."""
    return next((index + 1 for index in range(at - 1, -1, -1) if sentence.low(index) in (".", "!", "?", ";", ":")), 0)


def _is_ordered(sentence: KeySentence, at: int) -> bool:
    """Say whether a word stands behind an order, as what it is done to: lick the birch drip."""
    first = _first(sentence, at)
    between = {sentence.low(index) for index in range(first, at)}
    return sentence.tokens[first].tag == "VB" and first < at and between.isdisjoint(_NEW_CLAUSE)


def _is_asked(sentence: KeySentence, at: int) -> bool:
    """Say whether a verb may be one that a question has further up: what did the knight's horse have?"""
    before = {sentence.low(index) for index in range(_first(sentence, at), at)}
    return not before.isdisjoint({"do", "does", "did", *MODALS})


def _is_told(sentence: KeySentence, at: Sequence[int]) -> bool:
    """Say whether a subject and its verb are told in a whole sentence: no title (The egg drop), no cry (Everybody
    dive!), no order behind a phrase (every metre shout a word)."""
    tokens = sentence.tokens
    subject, verb = tokens[at[0]], tokens[tokens[at[0]].head]
    end = next((sentence.low(index) for index in range(at[-1], len(tokens)) if sentence.low(index) in _ENDS), "")
    low = verb.text.casefold()
    bare = low in bases() or is_rarer_base(verb)
    if not end or not subject.tag.startswith(("NN", "PRP")) or len(subject.text) < 2:  # K is a letter, a pupil
        return sentence.low(at[0] - 1) == "there" and bool(end)
    if any(sentence.low(index) in ("need", "dare") for index in at):
        return False  # nobody need go
    everybody = subject.text.casefold() in ("everybody", "everyone")
    if bare and everybody and verb.lemma not in ("be", "have", "do") and not _is_dated(sentence, at[0]):
        return False  # Everybody hold the rope.
    cried = end == "!" and subject.text.casefold() not in ("he", "she", "it")  # nobody cries: He live!
    if bare and (cried or low in same_pasts() or not (everybody or _opens(sentence, at[0]))):
        return False
    helps = any(sentence.low(index) in _HELPING for index in at)
    regular = low.removesuffix("s") in bases() or low.removesuffix("es") in bases()
    return bare or regular or helps or verb.lemma in ("be", "have")


def _is_dated(sentence: KeySentence, at: int) -> bool:
    """Say whether a sentence tells when before its subject: On Sunday everybody sleep late."""
    first = _first(sentence, at)
    return at - first > 1 and sentence.low(first) in ("on", "every", "at", "in")


@cache
def same_pasts() -> frozenset[str]:
    """Verbs whose past is what they are: cut, burst, read."""
    return frozenset(verb.base for verb in irregular_verbs() if verb.base in verb.pasts)


def _opens(sentence: KeySentence, at: int) -> bool:
    """Say whether no preposition and no `every` stands before a subject: with every touch say a word."""
    words = [sentence.low(index) for index in range(max(0, at - 3), at)]
    tags = {sentence.tokens[index].pos for index in range(max(0, at - 3), at)}
    return "ADP" not in tags and not {"every", "each", "after", "until", "till"} & set(words)


def _is_subject(sentence: KeySentence, at: int) -> bool:
    """Say whether a word can only be what does something: he, nobody, the twins, Kofi; in winter the bears."""
    low, before = sentence.low(at), sentence.low(at - 1)
    verb = sentence.tokens[sentence.tokens[at].head]
    if low == "it" and at == _first(sentence, at) and not before:
        return True
    if low in ("that", "this", "these", "those", "it", "you", "i") or may_be_many(low):
        return False
    if is_one_in_s(low) and sentence.tokens[at].tag == "NNS":
        return False  # the parser takes an atlas for several
    if any(sentence.low(index) in _OF_A_SENSE for index in range(max(0, at - 4), at)):
        return False  # it makes the cat go; let the twins see
    if low in SINGULAR or low in PLURAL:
        return True
    before_all = range(_first(sentence, at), at)
    if any(sentence.tokens[index].tag == "VBG" for index in before_all):
        return False  # eating sweets makes me happy
    if verb.lemma == "mean" or (low.removesuffix("s") in words("measures") and verb.lemma == "be"):
        return False  # wrists tired means stop; five minutes is enough
    before_it = {sentence.low(index) for index in range(_first(sentence, at), at)}
    if before_it & _ASKING:
        return False  # how many legs has a spider; whoever has more cards starts
    if sentence.tokens[at].text[:1].isupper() and low.endswith("s"):
        return False  # my dog Pickles eats
    if before in _BEFORE_A_NOUN or sentence.low(at - 2) in _BEFORE_A_NOUN:
        return True
    first = _first(sentence, at) == at
    if sentence.tokens[at].tag == "NNP" and first and not low.endswith("s"):
        denied = sentence.low(at + 1) == "do" and sentence.low(at + 2) in ("n't", "n’t", "not")
        # Nyako have got a basket, Nyako don't like it, Nyako want it: nobody orders that
        return denied or sentence.low(at + 1) in _NEVER_ORDERED
    if sentence.tokens[at].tag == "NNP":
        return verb.text.casefold() in bases() and not first
    # Headphones is a compound word; Bubbles is a goldfish; Musical chairs is a game
    named = verb.lemma == "be" and at - _first(sentence, at) < 2
    return sentence.tokens[at].tag == "NNS" and low.endswith("s") and low not in bases() and not named


def _verb_forms(sentence: KeySentence) -> Iterator[KeySlip]:
    """`didn't knew`, `was go`: not behind a question word, `as` or an order (how many has paste; as hard as you can to
    wake him; keep it hidden), nor where a mark stands between."""
    for slip in verb_forms(sentence):
        at = [index for index, token in enumerate(sentence.tokens) if slip.start <= token.start < slip.end]
        before = {sentence.low(index) for index in range(at[-1])}
        parted = any(sentence.low(index) in _PARTS or sentence.low(index) == "'s" for index in at)
        ordered = at[0] > 0 and sentence.tokens[at[0] - 1].tag == "VB"
        named = at[-1] > 0 and sentence.tokens[at[-1]].text[:1].isupper()  # to Rose Town
        if named or _is_play_food(sentence, at) or _is_labelled(sentence, at[-1]):
            continue
        if not (parted or ordered or before & {*_ASKING, "as"}):
            yield slip


def _is_labelled(sentence: KeySentence, at: int) -> bool:
    """Say whether a letter names what a seeming verb is: Was test D better?"""
    after = sentence.tokens[at + 1].text if at + 1 < len(sentence.tokens) else ""
    return len(after) == 1 and after.isupper() and after not in ("I", "A")


def _is_play_food(sentence: KeySentence, at: Sequence[int]) -> bool:
    """Say whether a seeming verb stands before a noun, after this or that is: This is play food."""
    after = sentence.tokens[at[-1] + 1 : at[-1] + 2]
    shown = at[0] > 0 and sentence.low(at[0] - 1) in ("this", "that", "it", "these", "those", "here", "there")
    return shown and any(token.pos == "NOUN" for token in after)


def _words(sentence: KeySentence) -> Iterator[KeySlip]:
    tokens = sentence.tokens
    for slip in slips_of_words(sentence):
        at = [index for index, token in enumerate(tokens) if slip.start <= token.start < slip.end]
        first, last = sentence.low(at[0]), sentence.low(at[-1])
        rhymes = last == "that" and tokens[at[0]].tag not in ("JJR", "RBR")  # two more words that rhyme
        particle = first in ("in", "on") and at[0] > 0 and tokens[at[0] - 1].pos == "VERB"  # fill in Monday
        # Ask How is it? Ask What did you do first?
        cited = at[0] > 1 and tokens[at[0] - 1].text[:1].isupper() and tokens[at[0] - 1].pos != "PROPN"
        denied = last in ("nothing", "no", "nobody", "nowhere", "none")
        filled = first == "full" and any(token.lemma == "fill" for token in tokens)  # fill it half full with water
        said_so = last in same_pasts() or (first[:6] == "listen" and last == "at")  # has been cut
        if not any((cited, denied, filled, rhymes, particle, said_so)):
            yield slip


def _alike(sentence: KeySentence) -> Iterator[KeySlip]:
    """Words that sound alike: brush there teeth, lets hide in the barn; and in Britain, children practise."""
    tokens = sentence.tokens
    for at in range(len(tokens) - 1):
        low, after = sentence.low(at), tokens[at + 1]
        before = tokens[at - 1] if at else None
        if low == "let" and after.text == "s" and at + 2 < len(tokens) and tokens[at + 2].tag in ("VB", "VBP"):
            yield sentence.slip(at, at + 1, "Let's")
        if low == "lets" and tokens[at - 1 if at else 0].pos in ("PUNCT", "VERB") and after.tag in ("VB", "VBP"):
            yield sentence.slip(at, at, "Let's")
        if low == "there" and before is not None and after.pos in ("NOUN", "ADJ") and after.lemma not in _DATING:
            owned = before.pos == "ADP" or (before.pos == "VERB" and before.lemma not in _GOING)
            thing = after.tag == "NNS" or (after.pos == "ADJ" and at + 2 < len(tokens) and tokens[at + 2].pos == "NOUN")
            thing = thing or (before.pos == "ADP" and after.pos == "NOUN")
            if owned and thing and before.text.casefold() not in ("in", "over", "up", "out", "down", "from", "that"):
                yield sentence.slip(at, at, "their")
        told = before is not None and (before.tag in ("NNS", "TO", "MD") or before.text.casefold() in PLURAL | {"i"})
        if low == "practice" and sentence.variety == "en-GB" and told and after.pos in ("DET", "PRON", "NOUN", "ADP"):
            yield sentence.slip(at, at, "practise")


_PATTERNS: tuple[tuple[Callable[[KeySentence], Iterator[KeySlip]], str], ...] = (
    (numbers, "Is it more than one?"),
    (one_of, "One of several: here the plural is meant."),
    (_verb_forms, "These forms of verbs do not go together."),
    (degrees, "Things are compared in another form."),
    (_words, "This word does not go here."),
    (pairs, "These are two, and the verb is for one."),
    (several, "These are several, and the verb is for one."),
    (contained, "This is one, and the verb is for several."),
    (asked, "Does the verb go with what it asks about?"),
    (_alike, "Another word that sounds like this one is meant."),
)
