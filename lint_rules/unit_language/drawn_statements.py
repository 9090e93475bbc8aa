"""Statements about a picture that the key calls true and that are not drawn, or the other way round: *There are four
lamps on the table*, and the picture has three.

Nothing is understood: the words of a statement stand together in a sentence of the brief, or they do not. Told is the
one of an exercise that is out of step, where three others at least are in step.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage, Role
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.heard import drawn_parts
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Exercises, Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.tables import group
from lint_rules.unit_language.places import PLACES, last_word, places_of
from lint_rules.unit_language.told_words import CLAUSE, PLACE_WORDS, SENTENCE, drawn_words, told_words

_FEWEST = 3  # answers that are in step, before one that is not is a slip
_A_TEXT = 15  # words of a text to read
_GAP = lazy_re.compile(r"_{2,}")
_ASKED = lazy_re.compile(r"\bany\b|(?<=^is)n['’]t\b|(?<=^are)n['’]t\b", re.I)
_DENIED = lazy_re.compile(r"n['’]t\b|\b(?:not|no|any|never)\b", re.I)
_NOT_SO = lazy_re.compile(
    r"[^.!?,;:\n]*(?:\b(?:not|nobody|nothing|never)\b|n['’]t\b)[^.!?,;:\n]*", re.I
)  # It is not raining.
_ABSENT = lazy_re.compile(r"\b(?:no|without)\s+\w+(?:(?:,|,? and|,? or)\s+no\s+\w+)*", re.I)
_PRONOUN = lazy_re.compile(r"\s*(?:he|she|it|they|his|her|its|their)\b", re.I)


def not_as_drawn(read: Exercises, briefs: Sequence[Passage]) -> Item | None:
    """The one statement about a picture that is called true and not drawn, or the other way round."""
    there = [_ABSENT.sub(" ", _NOT_SO.sub(" ", passage.text)) for passage in briefs]
    sentences = [drawn_words(one) for text in there for one in SENTENCE.findall(text)]
    clauses = [drawn_words(one) for text in there for one in (*CLAUSE.split(text), *_of_whom(text))]
    text = [one for one in read.activity.part.passages if one.audience is Audience.PUPIL and one.role is Role.TEXT]
    if any(len(one.text.split()) >= _A_TEXT and "_" not in one.text for one in text):
        return None  # they are about the text
    parts = {
        number: ([drawn_words(part)], [drawn_words(one) for one in CLAUSE.split(part)])
        for number, part in drawn_parts("\n".join(there)).items()
    }
    for exercise in read.exercises:
        numbered = parts if parts.keys() == {item.label.key for item in exercise.items} else {}
        marked = (
            (shown is called, (item, words, statement, shown))
            for item, words, statement, called in _statements(exercise)
            # The girls may be drawn by their names.
            if not ((people := words & group("persons")) and not any(people & one for one in sentences))
            if (shown := _is_shown(words, *(numbered.get(item.label.key) or (sentences, clauses)))) is not None
        )
        found = the_one_out_of_step(marked, _FEWEST)
        if found is None:
            continue
        item, words, statement, shown = found
        # All but one of its words are drawn together: three lamps on the table, and not four.
        nearly = yes_or_no(item.answer.text if item.answer is not None else "") is not None and any(
            len(words - sentence) == 1 < len(words) and not PLACE_WORDS & (words - sentence) for sentence in sentences
        )
        if shown or nearly or any(_is_placed_otherwise(statement, text) for text in there):
            return item
    return None


def _of_whom(brief: str) -> Iterator[str]:
    """The clauses that say only he or she, with whom the sentence before is about: Rags, an old dog. He has a tail."""
    sentences = SENTENCE.findall(brief)
    for before, one in pairwise(sentences):
        if _PRONOUN.match(one):
            whom = CLAUSE.split(before)[0]
            yield from (f"{whom} {clause}" for clause in CLAUSE.split(one))


def _statements(exercise: Exercise) -> Iterator[tuple[Item, frozenset[str], str, bool]]:
    """Items that the key calls true or false: what is to be drawn for each, the statement, and whether it is so."""
    for item in (one for one in exercise.items if one.answer is not None and not one.example):
        said = item.answer.text.strip(" .") if item.answer is not None else ""
        called, statement = yes_or_no(said), bare_statement(item.text).partition("☐")[0].strip()
        if called is None and said.casefold() in PLACES and len(item.gaps) == 1 and _GAP.search(item.text):
            called, statement = True, _GAP.sub(said, item.text)  # The hen is ____ the table: behind
        statement = _ASKED.sub("", statement) if "?" in item.text else statement  # Are there any books?
        words = drawn_words(_DENIED.sub(" ", statement))
        if called is not None and words:
            # Zum hasn't got a drum: false, so he has one.
            yield item, words, statement, called is not bool(_DENIED.search(statement))


def _is_shown(
    words: frozenset[str], sentences: Sequence[frozenset[str]], clauses: Sequence[frozenset[str]]
) -> bool | None:
    """Say whether words are drawn together: None where all are in one sentence, but in several of its clauses."""
    if any(words <= clause for clause in clauses):
        return True
    return None if any(words <= sentence for sentence in sentences) else False


def _is_placed_otherwise(statement: str, brief: str) -> bool:
    """Say whether a brief has the thing of a statement at its spot by another word: The soap is on the bench, and lies
    under it; not: There is ice in the bucket, and the bucket of ice is under the table."""
    spot = last_word(statement)
    own = set(places_of(spot, statement)) if spot else set()
    thing = told_words(statement) - spot
    return bool(own) and any(
        (drawn := set(places_of(spot, sentence))) and not drawn & own and thing <= told_words(sentence)
        for sentence in SENTENCE.findall(brief)
    )
