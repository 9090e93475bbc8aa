"""A spelling that no reference has, and a word that children know one slip of the pen away from it."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from string import ascii_lowercase

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import regular_past
from lint_rules.language.inflection.irregular import irregular_verbs, plurals_of
from lint_rules.language.vocabulary.reference import COMMON, common, lowest
from lint_rules.language.vocabulary.word_index import WordIndex, canonical
from lint_rules.language.vocabulary.word_level import childrens_spellings

_SHORTEST = 5  # letters: short words are too near each other (common practice, no source)
_IN_USE = 3.0  # Zipf frequency: what is used so often is a word (common practice, no source)
_HARDLY_IN_USE = 2.2
_RARER = 1.0  # Zipf frequency: leaves is 1.2 more usual than leafs, scarves .8 than scarfs
_OTHER_PLURALS = ("ves", "men", "children", "feet", "teeth", "geese", "mice")
_PLAIN = lazy_re.compile(r"[a-z]+")
# Activities in which letters are out of order on purpose.
_OF_LETTERS = lazy_re.compile(
    r"\b(?:letters?|spell\w*|spelt|anagrams?|jumbled?|unjumble|(?:un)?scrambled?|mistakes?)\b", re.I
)


def meant_by(spelling: str, index: WordIndex) -> str:
    """The word that a spelling may be a slip for, '' where there is none: a letter too many, too few, other than it
    should be, or two that have changed places. The first letter is taken to be right.

    Words of the course and of every child come first, then common ones that the reference has in A1 or A2.
    """
    word = canonical(spelling)
    if past := past_meant(word):
        return past
    if len(word) < _SHORTEST or not _PLAIN.fullmatch(word):
        return ""
    near = set(one_slip_away(word)) - {word} - _made_from(word)
    known = childrens_spellings()
    listed = [one for one in near if one in known or any(len(item.parts) == 1 for item in index.by_first.get(one, ()))]
    if listed:
        return min(listed)
    early = [one for one in sorted(near) if lowest(one) in {"A1", "A2"}]
    return max((one for one in early if common(one) >= COMMON), key=common, default="")


def past_meant(spelling: str) -> str:
    """The past of an irregular verb for a regular one that it has not (runned → ran), '' for any other spelling.

    What is in use all the same (lighted) is no slip. How common a word is takes long to look up the first time: only
    what looks like such a past is asked about.
    """
    for pasts in _regular_pasts().get(spelling, ()):
        # A list gives `teached` the level of teach: where hardly anybody writes it, it is no word all the same.
        easy = lowest(spelling) in ("A1", "A2") and common(spelling) < _HARDLY_IN_USE
        if spelling not in pasts and (easy or (not lowest(spelling) and common(spelling) < _IN_USE)):
            return pasts[0]
    return ""


def plural_meant(spelling: str) -> str:
    """The plural of an irregular noun for a regular one that it has not (leafs → leaves), '' for any other spelling
    and where both are written (scarfs). The word may be a verb: it wolfs its dinner."""
    meant = _regular_plurals().get(spelling, "")
    return meant if meant and common(meant) - common(spelling) >= _RARER else ""


@cache
def _regular_plurals() -> Mapping[str, str]:
    """What nouns with a plural in -ves or of another vowel would be if they were regular → the plural."""
    return {
        f"{singular}s": plurals[0] for singular, plurals in plurals_of().items() if plurals[0].endswith(_OTHER_PLURALS)
    }


@cache
def _regular_pasts() -> Mapping[str, tuple[tuple[str, ...], ...]]:
    """What irregular verbs would be in the past if they were regular → the pasts that they have."""
    found: dict[str, tuple[tuple[str, ...], ...]] = {}
    for verb in irregular_verbs():
        made = regular_past(verb.base)
        found[made] = (verb.pasts, *found.get(made, ()))
    return found


def one_slip_away(word: str) -> Iterator[str]:
    """Every spelling that a slip after the first letter can make of a word, the word itself among them."""
    for at in range(1, len(word) + 1):
        before, after = word[:at], word[at:]
        yield before + after[1:]
        yield before + after[1:2] + after[:1] + after[2:]
        for letter in ascii_lowercase:
            yield before + letter + after
            yield before + letter + after[1:]


def _made_from(word: str) -> set[str]:
    """Words that a word in -y may be made from: splish, splishy."""
    return {word[:-1], f"{word[:-1]}e"} if word.endswith("y") else set()


def plays_with_letters(instruction: str) -> bool:
    """Say whether an instruction has children put letters in order or look for mistakes."""
    return _OF_LETTERS.search(instruction) is not None
