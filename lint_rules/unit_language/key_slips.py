"""Slips of grammar that a key makes: what is wrong at the words that stand in a gap or were chosen.

Each pattern is narrow: forms that no context allows (`an eagle is big than`, `the bus go`, `more big`, `a old hat`,
`didn't went`, `three mouses`). Pure: a sentence as the language room reads it in, ranges and better words out.
"""

import re
from collections.abc import Callable, Iterator
from functools import cache

from lint_rules.language.inflection.irregular import irregular_degrees, irregular_plurals, plurals_of
from lint_rules.language.sounds.pronunciation import pronunciations
from lint_rules.language.tokens import Analysis
from lint_rules.tables import mapping, words
from lint_rules.unit_language.key_sentence import MANY, KeySentence, KeySlip, either_number
from lint_rules.unit_language.key_slips_of_verbs import agreement, conditions, times, verb_forms
from lint_rules.unit_language.key_slips_of_words import slips_of_words

_VOWELS = frozenset("aeiouæɑɒɔəɜɪʊʌ")


_COUNTED = frozenset({"few", "dozen", "hundred", "thousand", "million", "couple", "lot"})


def key_slips(analysis: Analysis, start: int, end: int, variety: str) -> Iterator[KeySlip]:
    """What is wrong at ``start:end`` of a sentence, which the key has put there."""
    tokens = analysis.tokens
    filled = frozenset(at for at, token in enumerate(tokens) if token.start < end and start < token.end)
    if not filled:
        return
    sentence = KeySentence(tokens, filled, variety)
    seen: set[tuple[int, int]] = set()
    for find in _PATTERNS:
        for slip in find(sentence):
            if (slip.start, slip.end) not in seen:
                seen.add((slip.start, slip.end))
                yield slip


def _articles(sentence: KeySentence) -> Iterator[KeySlip]:
    for at, token in enumerate(sentence.tokens[:-1]):
        low = sentence.low(at)
        word = sentence.low(at + 1)
        if low not in ("a", "an") or not sentence.touches(at, at + 1) or not word.isalpha() or len(word) < 2:
            continue
        if token.text.isupper() and at and token.text == "A":
            continue  # a label, a mark
        if token.text == "A" and sentence.tokens[at + 1].pos == "AUX":
            continue  # A is the coldest: cup A
        begins = {said[0][0] in _VOWELS for said in pronunciations(word, sentence.variety) if said}
        if begins == {low == "a"}:
            better = "an" if low == "a" else "a"
            yield sentence.slip(at, at + 1, f"{better} {sentence.tokens[at + 1].text}")


def degrees(sentence: KeySentence) -> Iterator[KeySlip]:
    """Comparison that is wrong: more big, biger, hungry than."""
    for at in range(len(sentence.tokens)):
        low, after = sentence.low(at), sentence.low(at + 1)
        if low in ("more", "most") and sentence.touches(at, at + 1):
            compared = sentence.low(at + 2) == "than" or (low == "most" and sentence.low(at - 1) == "the")
            many = low == "most" and at + 2 < len(sentence.tokens) and sentence.tokens[at + 2].tag == "NNS"
            if after in words("short_adjectives") and compared and not many:  # the most rainy days: most of them
                yield sentence.slip(at, at + 1)
            elif after in _comparatives() and low == "more":
                yield sentence.slip(at, at + 1, after)
        if (
            after == "than"
            and low in words("short_adjectives")
            and sentence.touches(at)
            and sentence.low(at - 1) not in ("more", "less")
        ):
            yield sentence.slip(at, at + 1)
        if low == "as" and after in _comparatives() and sentence.touches(at + 1):
            yield sentence.slip(at, at + 1)
        if after == "than" and low in _superlatives() and sentence.touches(at):
            yield sentence.slip(at, at + 1)
        if low in _false_degrees() and sentence.touches(at):
            yield sentence.slip(at, at, _false_degrees()[low])
        if low == "the" and after in _comparatives() and sentence.touches(at + 1) and sentence.low(at + 2) != "of":
            behind = [sentence.low(index) for index in range(at + 2, min(at + 6, len(sentence.tokens)))]
            if "in" in behind and "world" in behind:
                yield sentence.slip(at, at + 1)


@cache
def _comparatives() -> frozenset[str]:
    regular = {_made(word, "er") for word in words("short_adjectives") - {"good", "bad", "little", "far"}}
    return frozenset(regular | {"better", "worse"})


@cache
def _superlatives() -> frozenset[str]:
    regular = {_made(word, "est") for word in words("short_adjectives") - {"good", "bad", "little", "far"}}
    return frozenset(regular | {"best", "worst"})


def _made(word: str, ending: str) -> str:
    if word.endswith("y") and len(word) > 3:
        return word[:-1] + "i" + ending
    if word.endswith("e"):
        return word + ending[1:]
    double = re.fullmatch(r"[^aeiou]*[aeiou][bdgmnt]", word) is not None
    return word + (word[-1] if double else "") + ending


@cache
def _false_degrees() -> dict[str, str]:
    found: dict[str, str] = {}
    for word in words("short_adjectives") - {"good", "bad", "far", "little"}:
        for ending in ("er", "est"):
            right = _made(word, ending)
            found |= {wrong: right for wrong in (word + ending, word + word[-1] + ending) if wrong != right}
    for one in irregular_degrees():
        if one.base in ("good", "bad"):
            for ending, right in (("er", one.comparatives[0]), ("est", one.superlatives[0])):
                found |= {_made(one.base, ending): right, one.base + ending: right}
    return found


def _numbers(sentence: KeySentence) -> Iterator[KeySlip]:
    tokens = sentence.tokens
    for at in range(len(tokens) - 1):
        low, after = sentence.low(at), sentence.low(at + 1)
        if not sentence.touches(at, at + 1):
            continue
        noun_goes_on = (
            at + 2 < len(tokens)
            and tokens[at + 2].pos in ("NOUN", "PROPN", "ADJ", "PUNCT")
            and sentence.low(at + 2) not in (".", "!", "?", ",")
        )
        single = (
            tokens[at + 1].tag == "NN" and after.isalpha() and after not in either_number() and not after.endswith("s")
        )
        if low in MANY and single and not noun_goes_on and tokens[at + 1].pos == "NOUN" and at + 1 in sentence.filled:
            yield sentence.slip(at, at + 1)
        plural = tokens[at + 1].tag == "NNS" and (after in irregular_plurals() or after.endswith("s"))
        plural = plural and after not in either_number() and sentence.low(at + 2) not in ("'", "'s")
        if low in ("a", "an", "every", "each") and plural and not noun_goes_on:
            yield sentence.slip(at, at + 1)
        adjective = tokens[at + 1].pos == "ADJ" and at + 2 < len(tokens) and tokens[at + 2].tag == "NNS"
        closed = sentence.low(at + 3) in (".", "!", "?", ",") and sentence.low(at + 2) not in either_number()
        counted = sentence.low(at + 1) in _COUNTED  # a few coins, a hundred trees
        if low in ("a", "an") and adjective and not counted and sentence.low(at + 2).endswith("s") and closed:
            yield sentence.slip(at, at + 2)
        denied = {"n't", "not", "never"} & {sentence.low(index) for index in range(max(0, at - 3), at)}
        if low == "some" and at in sentence.filled and denied and tokens[-1].text != "?" and after != "of":
            yield sentence.slip(at, at, "any")
        if low == "much" and tokens[at + 1].tag == "NNS" and after not in either_number():
            yield sentence.slip(at, at + 1)
        if low == "many" and after in words("not_counted"):
            yield sentence.slip(at, at + 1)
        pointing = low in ("these", "those") and at in sentence.filled and tokens[at + 1].pos == "NOUN"
        if pointing and single and not noun_goes_on and after not in words("not_counted"):
            yield sentence.slip(at, at + 1)
        if low in ("this", "that") and plural:
            yield sentence.slip(at, at + 1)
    for at in sentence.filled:
        low = sentence.low(at)
        if low in _false_plurals():
            yield sentence.slip(at, at, _false_plurals()[low])
        elif at and sentence.tokens[at].text[:1].isupper() and sentence.tokens[at - 1].text not in ".!?":
            continue  # a name: Cerys
        elif re.fullmatch(r"[a-z]+(?:[^aeiou]ys|(?:x|ch|sh|ss)s)", low) and not sentence.tokens[at].text[:1].isupper():
            yield sentence.slip(at, at)


@cache
def _false_plurals() -> dict[str, str]:
    found = {"sheeps": "sheep", "deers": "deer"}
    for one, plurals in plurals_of().items():
        for made in (f"{one}s", f"{one}es", f"{plurals[0]}s"):
            if made not in plurals and one not in ("fish", "person", "penny", "cactus", "dwarf"):
                found[made] = plurals[0]
    return found


def _adverbs(sentence: KeySentence) -> Iterator[KeySlip]:
    tokens = sentence.tokens
    for at in sentence.filled:
        low = sentence.low(at)
        ends = at + 1 == len(tokens) or sentence.low(at + 1) in (".", "!", "?")
        if low not in mapping("adverbs_of_manner") or not ends:
            continue
        back = at - 1
        while back > 0 and sentence.low(back) in ("very", "so", "really", "too", "quite"):
            back -= 1
        if back == at - 1 and low not in ("good", "bad", "careful", "quiet", "beautiful"):
            continue
        verbs = [index for index in range(back, -1, -1) if tokens[index].pos in ("VERB", "AUX")]
        if (
            verbs
            and tokens[verbs[0]].pos == "VERB"
            and tokens[verbs[0]].lemma not in words("linking_verbs")
            and back == verbs[0]
        ):
            yield sentence.slip(at, at, mapping("adverbs_of_manner")[low])


def _pronouns(sentence: KeySentence) -> Iterator[KeySlip]:
    for at in sentence.filled:
        low, after, before = sentence.low(at), sentence.low(at + 1), sentence.low(at - 1)
        if low in ("me", "him", "us", "them") and (at == 0 or before in (".", "!", "?", "and")) and after in (
            "is", "am", "are", "has", "have", "can", "was", "were", "likes", "like"
        ):  # fmt: skip
            yield sentence.slip(at, at + 1)
        if low in ("he", "she", "they", "we", "i") and sentence.tokens[at].dep == "compound":
            yield sentence.slip(at, at + 1)
        ends = not after or after in (".", "!", "?", ",")
        if (
            ends
            and low in ("he", "she", "they", "i", "we")
            and before in ("with", "for", "to", "at", "from", "of", "about")
        ):
            yield sentence.slip(at - 1, at)


_PATTERNS: tuple[Callable[[KeySentence], Iterator[KeySlip]], ...] = (
    _articles,
    degrees,
    agreement,
    verb_forms,
    _numbers,
    _adverbs,
    _pronouns,
    times,
    conditions,
    slips_of_words,
)
