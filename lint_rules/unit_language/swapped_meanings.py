"""Two words of a matching whose meanings the key has exchanged: *lantern* with a dark shape, *shadow* with a lamp.

Nothing of the page can tell this; that a lamp goes with a lantern has to be known. A learned table knows it roughly
(``language.vocabulary.meanings``), so it is asked for no single pair, but for exercises whose other pairs it finds as
the key has them: there two words that both go far better with the meaning of the other have changed places. In the
211 such matchings of the courses in tests/judged, from none of which it has learned, this tells thirteen keys, all of
them wrong; of all exchanges of two words it would tell two in three (`python -m tests.meanings.measure`).
"""

import re
from collections.abc import Iterator, Sequence
from itertools import combinations
from statistics import fmean
from typing import NamedTuple

from lint_rules import lazy_re
from lint_rules.language.vocabulary.meanings import fits, is_known
from lint_rules.manuscript.model import PICTURE
from lint_rules.page.exercises.answers import letters_of
from lint_rules.page.exercises.model import Exercise, Exercises, Item
from lint_rules.unit_language.option_support import content_in_order

_FEWEST, _KNOWN = 3, 0.7  # pairs of an exercise that the table knows, and their share of all
_MOST_WORDS, _LEAST_MEANT = 2, 3  # words of a word, and of most meanings
_FAR, _BOTH = 5.5, 0.5  # how much better the exchanged pairs go together, and each of them at least
_UNDERSTOOD = 2.0  # how much better the other pairs go together than each word with the meanings of the others
_NEVER = -10.0  # a meaning that names another word of the exercise is not of that word
_ARTICLE = lazy_re.compile(r"(?:the|an?|to|some|your|my)\s+", re.I)
_BLANK = lazy_re.compile(r"_{2,}|[☐\[\]]")
_QUOTED = lazy_re.compile(r"\W*[\"“‘']")
# What tells where somebody or something is in a picture, or how a sentence goes on, is no meaning.
_NO_MEANING = lazy_re.compile(
    r"\W*(?:in|on|under|behind|next to|at|near|between|opposite|from|to (?:the|an?)|for|with|is|are|was|were|ha[sd] to"
    r"|have to|can|because|and|when|so|\d)\b",
    re.I,
)


class Pair(NamedTuple):
    """What the key puts together: an item, the word and its meaning, and both in dictionary forms."""

    item: Item
    word: str
    meaning: str
    words: tuple[str, ...]
    told: tuple[str, ...]

    @property
    def known(self) -> bool:
        """Whether the table knows both."""
        return is_known(self.words, self.told)


class Exchanged(NamedTuple):
    """Two items whose answers have changed places, and the word that the key gives to each."""

    one: Item
    word: str
    other: Item
    other_word: str


def exchanged(read: Exercises) -> Exchanged | None:
    """The two words of a page whose meanings have changed places; None where there are none, or more."""
    found = [one for exercise in read.exercises for one in exchanged_among(list(pairs_in(exercise)))]
    return found[0] if len(found) == 1 else None


def exchanged_among(pairs: Sequence[Pair]) -> Iterator[Exchanged]:
    """The pairs of an exercise that have exchanged their meanings."""
    known = [pair for pair in pairs if pair.known]
    if not are_held(pairs):
        return
    table = _held_together(known)
    for one, other in combinations(range(len(known)), 2):
        rest = [at for at in range(len(known)) if at not in (one, other)]
        better = (table[one][other] - table[one][one], table[other][one] - table[other][other])
        if sum(better) > _FAR and min(better) > _BOTH and _are_understood(table, rest):
            yield Exchanged(known[one].item, known[one].word, known[other].item, known[other].word)


def are_held(pairs: Sequence[Pair]) -> bool:
    """Whether the pairs of an exercise are words and meanings, and most of them known."""
    within = sum(not {*pair.words}.isdisjoint(pair.told) for pair in pairs)  # a part of it, and no meaning
    known = sum(pair.known for pair in pairs)
    return (
        known >= max(_FEWEST, _KNOWN * len(pairs)) and within <= 1 and _are_meanings([pair.meaning for pair in pairs])
    )


def _held_together(pairs: Sequence[Pair]) -> list[list[float]]:
    table = fits([pair.words for pair in pairs], [pair.told for pair in pairs])
    for row, pair in enumerate(pairs):
        for column, other in enumerate(pairs):
            if row != column and not {*pair.words}.isdisjoint(other.told):
                table[row][column] = min(table[row][column], _NEVER)
    return table


def _are_understood(table: Sequence[Sequence[float]], rest: Sequence[int]) -> bool:
    """Whether pairs go together as the key has them, on the whole."""
    every = range(len(table))
    margins = [table[at][at] - fmean(table[at][other] for other in every if other != at) for at in rest]
    return bool(margins) and fmean(margins) > _UNDERSTOOD


def _are_meanings(texts: Sequence[str]) -> bool:
    long = sorted(len(text.split()) for text in texts)[len(texts) // 2] >= _LEAST_MEANT
    quoted = sum(_QUOTED.match(text) is not None for text in texts)
    other = sum(_NO_MEANING.match(text) is not None for text in texts)
    return long and quoted <= 1 and other * 5 < len(texts) * 2 and len({*texts}) == len(texts)


def pairs_in(exercise: Exercise) -> Iterator[Pair]:
    """What the key puts together, the words first, where one side is words of which no two are the same."""
    pairs = [(item, *both) for item in exercise.items if not item.example and (both := _both(item, exercise))]
    for first in (0, 1):
        sides = [(item, both[first], both[1 - first]) for item, *both in pairs]
        words = [_ARTICLE.sub("", word) for _, word, _ in sides]
        if len({*words}) == len(words) and all(0 < len(word.split()) <= _MOST_WORDS for word in words):
            for item, word, meaning in sides:
                bare = _ARTICLE.sub("", word.strip(" .!?"), count=1)
                yield Pair(item, word.strip(" .!?"), meaning, content_in_order(bare), content_in_order(meaning))
            return


def _both(item: Item, exercise: Exercise) -> tuple[str, str] | None:
    """What an item says and what the key puts to it, of the column beside it; None where either is a question, a
    picture, or several things."""
    if item.answer is None or item.choices or item.jumble is not None or len(item.gaps) > 1:
        return None
    letters = letters_of(item.answer.text)
    said = next((one.text for one in exercise.column if one.label is not None and (one.label.key,) == letters), "")
    sides = (_BLANK.sub(" ", item.text).strip(), _BLANK.sub(" ", said).strip())
    fair = all(side and PICTURE not in side and not side.endswith("?") for side in sides)
    return sides if fair and "," not in min(sides, key=len) else None
