"""What a verb form can be by its spelling alone: base, past tense, participle, or several of them."""

from functools import cache

from lint_rules import tables
from lint_rules.language.inflection.irregular import irregular_verbs


@cache
def _irregular() -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
    """Base forms, past tenses and participles."""
    table = irregular_verbs()
    pasts = frozenset(form for verb in table for form in verb.pasts)
    return frozenset(verb.base for verb in table), pasts, frozenset(form for verb in table for form in verb.participles)


@cache
def bases() -> frozenset[str]:
    """Base forms of verbs that a course uses: irregular ones, those of rubrics, and some more."""
    return _irregular()[0] | tables.words("orders") | tables.words("verbs")


@cache
def only_past() -> frozenset[str]:
    """Forms that are a past tense and nothing else: took, went."""
    base, past, participle = _irregular()
    return past - participle - base - {"saw", "fell", "bore", "wound", "found"}


@cache
def pasts() -> frozenset[str]:
    """Forms of irregular verbs that are a past tense, and no base form: took, bought."""
    base, past, _ = _irregular()
    return past - base


@cache
def only_participle() -> frozenset[str]:
    """Forms that are a past participle and neither a past tense nor a base form: taken, gone."""
    base, past, participle = _irregular()
    return participle - past - base


@cache
def like_base() -> frozenset[str]:
    """Base forms that are their own past tense: put, cut, read."""
    base, past, _ = _irregular()
    return (base & past) - {"lay", "found", "saw", "beat", "bet"} | {"beat"}


@cache
def _stems() -> frozenset[str]:
    """Every base form without what -ed and -ing take away from it."""
    return frozenset(base.rstrip("e") for base in bases())


def can_be_participle(word: str) -> bool:
    """Say whether a word can be a past participle by its spelling, and no base form."""
    base, past, participle = _irregular()
    if word in base or word in ("need", "feed", "bleed", "speed", "seed", "weed"):
        return word in participle and word not in base
    return word in participle or word in past or (word.endswith("ed") and len(word) > 3)


def is_its_own_participle(word: str) -> bool:
    """Say whether a base form is a past participle as well: come, run, put."""
    base, _, participle = _irregular()
    return word in base and word in participle


_LONG = 3  # letters of a form that others are made with


def can_be_past(word: str) -> bool:
    """Say whether a form may be a past tense or a past participle by its spelling: not red, and not brown."""
    _, past, participle = _irregular()
    if word in past or word in participle:
        return True
    regular = word.endswith("ed") and any(vowel in word[:-2] for vowel in "aeiouy")
    return regular or word.endswith(("en", "t")) or any(word.endswith(one) for one in _long_irregular())


@cache
def _long_irregular() -> frozenset[str]:
    """Irregular forms that others may be made with: outgrown, retold."""
    _, past, participle = _irregular()
    return frozenset(one for one in (*past, *participle) if len(one) > _LONG)


def s_base(word: str) -> str:
    """The verb of which a word is the third person (rings → ring), '' when the tables know none."""
    for ending, instead in (("ies", "y"), ("es", ""), ("s", "")):
        base = word.removesuffix(ending) + instead
        if word.endswith(ending) and base in bases():
            return base
    return ""


def ing_base(word: str) -> bool:
    """Say whether a word in -ing is made from a verb that the tables know (swimming, but not morning)."""
    if not word.endswith("ing") or word in tables.words("ing_nouns"):
        return False
    stem = word[:-3]
    if stem in _stems() or stem in bases() or word in ("lying", "dying", "tying"):
        return True
    return len(stem) > 2 and stem[-1] == stem[-2] and stem[:-1] in bases()
