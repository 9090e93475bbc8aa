"""Which words of a text are noises (tac tac, whoo, hip hooray): told by how they stand, not by a list of all noises.

A noise is a word that is in the noise tables or that no reference grades, and that

- is cried by itself: the only word of its sentence, with an exclamation mark (Splash! Vwomp, vwomp!);
- is said twice running (tac tac; whoo, whoo, whoo);
- echoes its neighbour: the same consonants round another vowel (pitter patter), or a rhyme (higgledy piggledy);
- begins or ends a cry with a sound (hip hooray);
- or is a piece of a word that is said slowly (Hel … lo … Tu … li).

Words that are graded, and in no table of noises, stay words however often they are said: hop, hop, hop.
"""

import re
from collections.abc import Sequence
from functools import lru_cache
from itertools import groupby, pairwise

from lint_rules import lazy_re
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.tables import words as word_table

# A letter three times (Woooow, Shhh), or no vowel and the last letter twice (Bzz, Grr).
DRAWN_OUT = lazy_re.compile(r"([^\W\d_])\1\1|^[b-df-hj-np-tv-xz]*([b-df-hj-np-tv-xz])\2$", re.I)
_BETWEEN = lazy_re.compile(r"[\s,!–—-]*")  # what stands between the beats of one cry
_DOTS = lazy_re.compile(r"\s*(?:…|\.{3})\s*")  # between pieces of a word that is drawn out
_KNOWN = frozenset({"A1", "A2"})
_VOWELS = lazy_re.compile("[aeiouy]+")
_WITHIN = lazy_re.compile(r"[\s,–—-]*")
_BEGINS = lazy_re.compile(r"(?:^|[.!?…:\"“‘'(\n,–—])\s*[\"“‘'(]*$")  # what stands before a cry
_ENDS = lazy_re.compile(r"[\"”’')]*\s*(?:!|$)")
_CAPITALS = lazy_re.compile(r"\b[A-Z]{2,}\b")
_CODED = 2  # words in capitals that nobody has: one may be a slip
_CALLED = lazy_re.compile('[!"“‘]')
_CRIED = lazy_re.compile(r"[\"”’')]*\s*!")
_QUOTED = lazy_re.compile(r"[,.!?…]*[\"”’]")
_LONGEST_BEAT = 5  # letters of a word beside a sound (hip hooray): common practice, no source


def noises(words: Sequence[tuple[int, int]], text: str) -> frozenset[int]:
    """The indices of the words (ranges of the text, in order) that are noises here."""
    spelt = [text[start:end].casefold() for start, end in words]
    slow = _slow_pieces(words, text, spelt)
    if not any(map(may_be_noise, spelt)):
        return slow
    joined = [
        bool(at) and _BETWEEN.fullmatch(text[words[at - 1][1] : words[at][0]]) is not None for at in range(len(words))
    ]
    found = {at for at in range(len(words)) if may_be_noise(spelt[at]) and _stands_as_noise(at, spelt, joined)}
    found |= {at for run in _cries(words, text) for at in run if may_be_noise(spelt[at])}
    found |= {at for at in range(len(words)) if _is_beat(at, words, text, spelt)}
    while more := {at for at in range(len(words)) if at not in found and _goes_with(at, found, spelt, joined)}:
        found |= more
    return slow | found


def _slow_pieces(words: Sequence[tuple[int, int]], text: str, spelt: Sequence[str]) -> frozenset[int]:
    """The pieces of words that somebody draws out, with dots between them, where two of them make a word that children
    know and are none by themselves: Hel … lo."""
    if _DOTS.search(text) is None:
        return frozenset()
    found: set[int] = set()
    chain: list[int] = []
    for at in range(len(words)):
        goes_on = bool(chain) and _DOTS.fullmatch(text[words[at - 1][1] : words[at][0]]) is not None
        chain = [*chain, at] if goes_on else [at]
        pieces = [one for one in chain if lowest(spelt[one]) not in _KNOWN and len(spelt[one]) <= _LONGEST_BEAT]
        whole = any(_is_known(spelt[one] + spelt[two]) and one in pieces for one, two in pairwise(chain))
        found.update(pieces if whole or (goes_on and at - 1 in found) else ())
    return frozenset(found)


def _is_known(word: str) -> bool:
    return lowest(word) in _KNOWN or word in word_table("greetings")


def _goes_with(at: int, found: set[int], spelt: Sequence[str], joined: Sequence[bool]) -> bool:
    """Say whether a word that no reference grades stands beside a noise: tiddly om pom pom."""
    beside = (at - 1 in found and joined[at]) or (at + 1 in found and joined[at + 1])
    return beside and len(spelt[at]) > 1 and may_be_noise(spelt[at])


@lru_cache(maxsize=20_000)
def may_be_noise(word: str) -> bool:
    """Say whether a word can be a noise at all: a table has it as one, or no reference grades it."""
    return is_sound(word) or DRAWN_OUT.search(word) is not None or lowest(word) in {"", "C2"}


@lru_cache(maxsize=20_000)
def is_sound(word: str) -> bool:
    """Say whether the tables have a word for a sound."""
    return word in word_table("sounds") or word in word_table("noise_words")


def _stands_as_noise(at: int, spelt: Sequence[str], joined: Sequence[bool]) -> bool:
    """Say whether a word is said twice running, or echoes the word beside it."""
    for other in (at - 1, at + 1):
        if not 0 <= other < len(spelt) or not joined[max(at, other)]:
            continue
        if spelt[at] == spelt[other] and len(spelt[at]) > 1:
            return True
        if _echo(spelt[at], spelt[other]):
            return True
    return False


def _echo(one: str, other: str) -> bool:
    """Say whether two words differ in a vowel alone (wiggle, waggle), or are two noises that rhyme to the letter."""
    if one == other or min(len(one), len(other)) < 3:
        return False
    if _VOWELS.sub("*", one) == _VOWELS.sub("*", other):
        return True
    if not (may_be_noise(one) and may_be_noise(other)):
        return False
    rhymes = [word[match.start() :] if (match := _VOWELS.search(word)) else "" for word in (one, other)]
    return rhymes[0] == rhymes[1] and len(rhymes[0]) > 3


def _cries(words: Sequence[tuple[int, int]], text: str) -> list[range]:
    """Runs of one word, once or more, that are a cry by themselves: Splash! Tap, tap, tap!"""
    found: list[range] = []
    if _CALLED.search(text) is None:
        return found
    at = 0
    for _, group in groupby(words, key=lambda word: text[word[0] : word[1]].casefold()):
        run = range(at, at + len(list(group)))
        at = run.stop
        start, end = words[run.start][0], words[run.stop - 1][1]
        inside = (text[words[i][1] : words[i + 1][0]] for i in run[:-1])
        before = text[:start].rstrip()
        cried = _CRIED.match(text, end) and _BEGINS.search(text[:start]) and not before.endswith(",")
        quoted = before[-1:] in {'"', "“", "‘"} and _QUOTED.match(text, end)
        if (cried or quoted) and all(_BETWEEN.fullmatch(part) for part in inside):
            found.append(run)
    return found


def _is_beat(at: int, words: Sequence[tuple[int, int]], text: str, spelt: Sequence[str]) -> bool:
    """Say whether a short word stands before a sound in a cry of the two: hip hooray!"""
    if at + 1 >= len(words) or len(spelt[at]) > _LONGEST_BEAT or spelt[at + 1] not in word_table("sounds"):
        return False
    before, within, after = text[: words[at][0]], text[words[at][1] : words[at + 1][0]], text[words[at + 1][1] :]
    return bool(
        (_BEGINS.search(before) or (at and spelt[at - 1] == spelt[at]))
        and _WITHIN.fullmatch(within)
        and _ENDS.match(after)
    )


def is_coded(text: str) -> bool:
    """Whether a text has a message in a code: capitals, most of whose words nobody has (MPPL VOEFS UIF TIFMG)."""
    capitals = _CAPITALS.findall(text)
    unknown = [word for word in capitals if not lowest(word.casefold())]
    return len(unknown) >= _CODED and len(unknown) * 3 > len(capitals) * 2
