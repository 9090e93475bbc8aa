"""How much a word weighs that no list of the course has and that a general reference puts above the level.

A reference made from adults' English rates children's words too high: it lists crayon, hippo and jellyfish at C2, its
level for whatever it has not graded. So the word itself is looked at:

- a word that children meet early (``data/childrens_words.csv``) is a note;
- a noun that can be drawn is a query, and a note where the same activity has a picture of it or it lies one band up;
- a word one band up, or one that no reference has graded, is a query;
- a spelling that the reference has within the band as another part of speech (home, to fish) is nothing one band up,
  and else a note: parser and reference may be wrong about which it is;
- a noun whose verb the course teaches by now (to flash, a flash) is nothing;
- a word that only instructions may have so early (symbol, to predict) is weighed by its lowest band, and stops nobody;
- a graded word two or more bands up (economy, nevertheless), or an ungraded one that is learned by its make
  (-tion, -ity, -ous …), is a stop.

The course may settle it for all of them (``off_list``): stop, query, note; or picture, which accepts what can be drawn
where the same activity has a drawing or photo of it.
"""

import re

from lint_rules.course.model import Level
from lint_rules.finding import Severity
from lint_rules.language.vocabulary.reference import lowest
from lint_rules.language.vocabulary.word_index import Origin, canonical
from lint_rules.language.vocabulary.word_levels import WordLevel
from lint_rules.unit_language.unit_words import bands_above

# Endings of words that English took from Latin, Greek or French for abstract things: common practice, no source.
_LEARNED = re.compile(
    r".{3,}(?:[st]ion|ity|ment|ism|logy|[ae]nce|[ae]ncy|ous|[ts]ive|ify|ize|ise|[iu]al|ship|hood|iation)(?:s|d|ly)?$"
)
_WEIGHED = frozenset({Origin.REFERENCE, Origin.FREQUENCY, Origin.CLASSROOM})


def off_list_severity(word: WordLevel, level: Level, policy: str, *, pictured: bool) -> Severity | None:
    """The weight of a word that only a reference knows, or None where it is no matter.

    ``policy`` is the course's ``off_list`` ('' for none); ``pictured`` says that the same activity shows the word.
    """
    above = bands_above(_band(word), level) if word.origin in _WEIGHED else 0
    if above <= 0 or _is_noun_to_a_taught_verb(word, level):
        return None
    if policy == "picture" and pictured and (word.picturable or word.young):
        return None
    if policy in {"stop", "query", "note"}:
        return Severity(policy)
    usual = _usual_weight(word, above, pictured=pictured)
    if word.elsewhere is None and bands_above(lowest(word.lemma), level) <= 0 and lowest(word.lemma):
        return Severity.NOTE if above >= 2 else None
    # The same spelling taught as another part of speech: the parser may be wrong about which it is.
    return min(usual, Severity.QUERY, key=lambda s: s.weight) if word.elsewhere is not None else usual


def _band(word: WordLevel) -> str:
    """The band a word is weighed by: of a word of instructions the lowest that anybody gives it."""
    low = lowest(word.lemma)
    return min(word.band, low) if word.origin is Origin.CLASSROOM and low and word.band != "Pre-A1" else word.band


def _is_noun_to_a_taught_verb(word: WordLevel, level: Level) -> bool:
    """Say whether the course teaches the verb to this noun by this level: to jump, a jump."""
    other = word.elsewhere
    if other is None or other.level > level.index or other.part_of_speech != "verb" or word.part_of_speech != "noun":
        return False
    return canonical(other.word) == canonical(word.lemma)


def _usual_weight(word: WordLevel, above: int, *, pictured: bool) -> Severity:
    if word.young:
        return Severity.NOTE
    if word.picturable:
        return Severity.NOTE if pictured or above == 1 else Severity.QUERY
    if graded(word):
        return Severity.STOP if above >= 2 else Severity.QUERY
    return Severity.STOP if above >= 2 and _LEARNED.match(canonical(word.lemma)) else Severity.QUERY


def graded(word: WordLevel) -> bool:
    """Say whether the reference has really graded a word: C2 is where it puts the ones that it has not."""
    return word.origin is Origin.REFERENCE and word.band != "C2" and bool(lowest(word.lemma))


def what_the_reference_says(word: WordLevel) -> str:
    """How a message tells what is known of a word, and no more than that."""
    if word.origin is Origin.CLASSROOM:
        return f"children can follow it from {_band(word)}"
    if word.origin is Origin.FREQUENCY:
        return f"no reference grades it (going by how rare it is in English at large, about {word.band})"
    if not lowest(word.lemma):
        return f"the reference has only the words it is made of, up to {word.band}"
    if graded(word):
        return f"the reference lists it at {word.band}"
    return f"the reference lists it at {word.band} (where it also puts what it has not graded)"
