"""What the form of a word says of how hard it is, where a reference's grade says too little.

A word made of an easy one with a usual ending is understood by whoever knows that one (a baker bakes and works in a
bakery; a ferryman has a ferry), whatever grade it has. And a word that nobody has graded is hard where it is rare and
long and made of no easier one (dilapidated, perfunctory): children's words that no reference has are short, or name
what can be drawn or done, or are made of another (wobbly, snowflake).
"""

from collections.abc import Iterator
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS
from lint_rules.language.vocabulary.reference import common, is_a, is_only_adjective, lowest
from lint_rules.language.vocabulary.word_index import canonical, childrens_words, picturable_nouns
from lint_rules.language.vocabulary.word_level import WordLevel

# Endings for who or what does something, or where it is done, and what the word before the ending is.
_DOERS = (("er", "VERB"), ("or", "VERB"), ("ery", "VERB"), ("man", "NOUN"), ("woman", "NOUN"))
# Further endings and beginnings that leave a word to be known by its base.
_ENDINGS = (
    "ingly",
    "ily",
    "ly",
    "y",
    "ed",
    "ing",
    "ish",
    "ful",
    "fully",
    "less",
    "some",
    "able",
    "like",
    "er",
    "est",
    "ous",
    "al",
)
_BEGINNINGS = ("un", "re", "over", "under", "out", "mis", "multi", "super", "half", "non", "dis")
_FORMS = ("ing", "ed")
_SYLLABLES = lazy_re.compile(r"[aeiouy]+")

# House figures: a word of this length and so many syllables, less common than this (Zipf, wordfreq). On twelve judged
# courses they part the words planted as too hard from all others that no reference has.
_LONG, _MANY, _RARE = 8, 3, 3.5
_LEAST = 3  # letters of a base
_EASY = frozenset({"A1", "A2", "B1", "B2"})


def doers_bases(word: str) -> Iterator[str]:
    """The words that a doer, or a place where something is done, may be made of: baker → bake, ferryman → ferry."""
    plain = canonical(word)
    for ending, part in _DOERS:
        if plain.endswith(ending):
            yield from (base for base in _before(plain, ending) if is_a(base, part))


@lru_cache(maxsize=8_000)
def is_long_and_rare(word: str) -> bool:
    """Say whether a word is long, seldom used, and made of no word that a reference or a child knows."""
    plain = canonical(word)
    for ending in _FORMS:
        plain = plain.removesuffix(ending)  # shimmering is as hard as to shimmer
    if len(plain) < _LONG or not plain.isalpha() or len(_SYLLABLES.findall(plain.removesuffix("e"))) < _MANY:
        return False
    return 0 < common(canonical(word)) < _RARE and not any(map(_is_known, (plain, *_parts(canonical(word)))))


def is_hard(word: WordLevel) -> bool:
    """Say whether a word that nobody has graded is hard all the same. Nouns are left alone: a child can be shown what
    most of them mean."""
    part = word.part_of_speech in {"adjective", "adverb"} or (word.part_of_speech == "verb" and not word.actable)
    part = part or is_only_adjective(word.lemma)  # whatever the parser takes it for
    return part and word.text[:1].islower() and not word.noise and is_long_and_rare(word.lemma)


def _is_known(word: str) -> bool:
    return lowest(word) in _EASY or word in picturable_nouns() or any(word == one for one, _ in childrens_words())


def _parts(word: str) -> Iterator[str]:
    for beginning in _BEGINNINGS:
        if word.startswith(beginning):
            yield word.removeprefix(beginning)
    for ending in _ENDINGS:
        if word.endswith(ending):
            yield from _before(word, ending)


def _before(word: str, ending: str) -> Iterator[str]:
    """The words that an ending may have been put to: stop-p-er, bak(e)-er, cr(y)-i-er."""
    stem = word.removesuffix(ending)
    if len(stem) < _LEAST:
        return
    yield stem
    yield stem + "e"
    if stem[-1] == stem[-2]:
        yield stem[:-1]
    if stem.endswith("i"):
        yield stem[:-1] + "y"


def is_clear_compound(word: str, band: str) -> bool:
    """Whether a word is made of two that children of a band know, and so is clear by itself: newsletter, daytime."""
    known = CEFR_BANDS[: CEFR_BANDS.index(band) + 1] if band in CEFR_BANDS else ()
    return word.isalpha() and any(
        lowest(word[:at]) in known and lowest(word[at:]) in known for at in range(_LEAST, len(word) - _LEAST + 1)
    )
