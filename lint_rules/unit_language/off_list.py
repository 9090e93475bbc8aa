"""How much a word weighs that no list of the course has and that a general reference puts above the level.

A reference made from adults' English rates children's words too high, and what it has not graded it calls C2. So it is
believed only where it has really graded a word, and the word itself is looked at:

- a word that children meet early (``data/childrens_words.csv``) is a note;
- a noun that can be drawn is a query, and a note where the same activity has a picture of it or it lies one band up;
- a verb that a teacher can act (to dip, to stir) is a query;
- another word that no reference has graded is a query, however rare it is;
- a word one band up is a query;
- a word for who does something, or where it is done, is a note where children know what is done (a swimmer, a
  ferryman), and stops nobody where that is one band up (a baker);
- a spelling that instructions use as a verb (a stick) is a note;
- a word that nobody has graded and that is long, rare and made of no easier one (perfunctory) is a stop as well;
- a participle that is an adjective (well known) is as hard as its verb;
- a spelling that children know as another part of speech (mine, to fish; a flash, where the course teaches to flash) is
  nothing: parser and reference may both be wrong about which it is;
- a word that only instructions may have so early (symbol, to predict) is weighed by its lowest band, and stops nobody;
- a graded word two or more bands up (economy, nevertheless) is a stop, but for one that the page explains or shows;
- a short word of everyday English (knot, switch, van), one or two bands up, weighs one step less than that on a page,
  and so does a longer one (asleep) that is very common and one band up.

The course may settle it for all of them (``off_list``): stop, query, note; or picture, which accepts what can be drawn
where the same activity has a drawing or photo of it.
"""

import re
from collections.abc import Callable

from lint_rules import lazy_re
from lint_rules.course.model import Level
from lint_rules.finding import Severity
from lint_rules.language.inflection.irregular import irregular_verb_forms
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.vocabulary.noises import is_sound
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_families import doers_bases, is_hard
from lint_rules.language.vocabulary.word_index import (
    Origin,
    canonical,
    classroom_bands,
    everyday_words,
    first_names,
    function_bands,
)
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.unit_language.unit_words import bands_above

_WEIGHED = frozenset({Origin.REFERENCE, Origin.FREQUENCY, Origin.CLASSROOM})


def off_list_severity(
    word: WordLevel, level: Level, policy: str, *, pictured: bool, of_known: bool = False
) -> Severity | None:
    """The weight of a word that only a reference knows, or None where it is no matter.

    ``policy`` is the course's ``off_list`` ('' for none); ``pictured`` says that the same activity shows the word, or
    says what it means; ``of_known`` that the course teaches a word of its family.
    """
    above = bands_above(_band(word), level) if word.origin in _WEIGHED else 0
    if above <= 0 or _is_known_otherwise(word, level):
        return None
    if policy == "picture" and pictured and (word.picturable or word.young):
        return None
    if policy in {"stop", "query", "note"}:
        return Severity(policy)
    if of_known or _is_made_of_known(word, level) or _is_in_instructions(word, level):
        return Severity.NOTE
    usual = _usual_weight(word, above, pictured=pictured or _is_made_of_known(word, level, spare=1))
    # The same spelling taught as another part of speech, or graded one band up at most: the parser may be wrong about
    # which it is (far, on an A1 page).
    unsure = word.elsewhere is not None or 0 < bands_above(lowest(word.lemma) or "C2", level) <= 1 < above
    return min(usual, Severity.QUERY, key=lambda s: s.weight) if unsure else usual


_SYLLABLE = lazy_re.compile(r"[^aeiouy]*[aeiouy]+[^aeiouy]*e?")


def is_everyday(word: WordLevel, level: Level) -> bool:
    """Say whether a graded word is one of everyday English, not far above the level: knot, van; asleep."""
    plain, above = canonical(word.lemma), bands_above(_band(word), level)
    short = _SYLLABLE.fullmatch(plain) is not None
    near = graded(word) and (above <= 2 if short else above == 1 and level.cefr != "Pre-A1")
    return near and not everyday_words().isdisjoint((plain, word.text.casefold()))


def is_past_of_known(word: WordLevel, level: Level, has: Callable[[str], bool]) -> bool:
    """Say whether a word is the past of a verb that the course has, or that lies within the band, whatever the parser
    takes it for: hung; found, and no town is founded."""
    base = irregular_verb_forms().get(word.text.casefold(), "")
    return bool(base) and (has(base) or bands_above(lowest(base) or "C2", level) <= 0)


def is_unheard_of(word: WordLevel) -> bool:
    """Say whether no reference has a spelling, or only as a rare one; what has a capital may be a name."""
    rare = word.origin is Origin.FREQUENCY and word.band == "C2"
    cried = word.origin is Origin.SOUND and word.noise and not is_sound(word.text.casefold())
    return (rare or cried or word.origin is Origin.UNKNOWN) and not word.text[:1].isupper()


def is_always_capital(word: WordLevel, text: str) -> bool:
    """Say whether a word stands in a text with a capital alone: Tomas, a name at the start of its sentence."""
    written, part = word.text, word.part_of_speech
    capital = written[:1].isupper() and not written.isupper() and part not in ("adverb", "adjective", "verb")
    return capital and re.search(rf"\b{re.escape(written.casefold())}\b", text) is None


def is_used_as_a_name(word: WordLevel, text: str) -> bool:
    """Say whether a text has a word with a capital and without an article each time, and it is a usual first name or
    once somebody who does or owns something: Asha has a cat, Ana's trip."""
    if not is_always_capital(word, text):
        return False
    written = re.escape(word.text)
    acts = (
        re.search(rf"\b{written}(?: (?:has|can|likes|loves|wants|lives|says|and [A-Z])|['’]s [a-z])", text) is not None
    )
    acts = acts or word.text.casefold() in first_names()
    with_article = re.search(rf"\b(?:an?|the|this|that|my|your|his|her|our|their|some|no)\s+{written}\b", text, re.I)
    return acts and with_article is None


def _band(word: WordLevel) -> str:
    """The band a word is weighed by: of a word of instructions the lowest that anybody gives it."""
    low = lowest(word.lemma)
    return min(word.band, low) if word.origin is Origin.CLASSROOM and low and word.band != "Pre-A1" else word.band


def _is_known_otherwise(word: WordLevel, level: Level) -> bool:
    """Say whether children of the level know a spelling as another part of speech: taught by now, a function word, or
    graded within the band."""
    other = word.elsewhere
    if other is not None:
        return other.level <= level.index and canonical(other.word) in {canonical(word.lemma), canonical(word.text)}
    low = min((band for text in (word.lemma, word.text) if (band := lowest(text))), default="")
    if low and bands_above(low, level) <= 0:
        return True
    if any(band and bands_above(band, level) <= 0 for band in function_bands(word.text)):
        return True
    verb = lemma(word.text.casefold(), "VBN", "VERB", "")  # well known, from to know
    of_verb = lowest(verb) if word.part_of_speech == "adjective" and verb not in {"", word.text.casefold()} else ""
    third = lemma(word.text.casefold(), "VBZ", "VERB", "") if word.text.endswith("s") else ""  # huge means very big
    of_third = lowest(third) if third not in {"", word.text.casefold()} else ""
    return any(band and bands_above(band, level) <= 0 for band in (of_verb, of_third))


def _usual_weight(word: WordLevel, above: int, *, pictured: bool) -> Severity:
    if word.young:
        return Severity.NOTE
    if word.picturable:
        return Severity.NOTE if pictured or above == 1 else Severity.QUERY
    if pictured or word.actable or word.origin is Origin.CLASSROOM or classroom_bands(word.text):
        return Severity.QUERY
    return Severity.STOP if (graded(word) and above >= 2) or _is_ungraded_and_hard(word) else Severity.QUERY


def _is_in_instructions(word: WordLevel, level: Level) -> bool:
    """Say whether children of the level follow instructions with a spelling: a carrot stick, where they read Stick."""
    bands = (*classroom_bands(word.text), *classroom_bands(word.lemma))
    return word.origin is not Origin.CLASSROOM and any(bands_above(band, level) <= 0 for band in bands)


def _is_made_of_known(word: WordLevel, level: Level, spare: int = 0) -> bool:
    """Say whether a word is a doer, or a place, of something within the band (or hardly above it, by so many bands): a
    swimmer, a seller."""
    if word.part_of_speech != "noun":
        return False
    return any((band := lowest(base)) and bands_above(band, level) <= spare for base in doers_bases(word.lemma))


def _is_ungraded_and_hard(word: WordLevel) -> bool:
    return word.origin in {Origin.REFERENCE, Origin.FREQUENCY} and not graded(word) and is_hard(word)


def graded(word: WordLevel) -> bool:
    """Say whether the reference has really graded a word: C2 is where it puts the ones that it has not."""
    return word.origin is Origin.REFERENCE and word.band != "C2" and bool(lowest(word.lemma))


def what_the_reference_says(word: WordLevel) -> str:
    """How a message tells what is known of a word, and no more than that."""
    if word.origin is Origin.CLASSROOM:
        return f"children can follow it from {_band(word)}"
    if graded(word):
        return f"a general reference puts it at {word.band}"
    return "it is rare" if _is_ungraded_and_hard(word) else "no reference grades it"
