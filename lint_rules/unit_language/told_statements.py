"""Statements that the key calls true or false, held against what the texts of the lesson tell of the same thing.

*Fenna can jump* is called true, and the story has *she can't jump*; *The flower is yellow* is called false, and there
is *a big yellow flower*; *Tocko's bag is small*, and he has a big one. Nothing is understood: a clause tells what a
statement says where it has its words in their order, and the contrary where it denies them, or has another colour,
number or opposite in the place of one, or somebody else who does it; so does a thing that the texts give one other
colour or size alone. On the 711 statements of judged courses of which that can be said 51 keys differ (`python -m
tests.judged.statements`). Of the first 26 of these 23 are wrong, two are one misread key, and one is right; of those
that came since all are wrong of which the authors' lists tell. So only the one answer of an exercise that differs is
told; where a sentence says only he or she, another answer must go with the texts.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, takewhile

from lint_rules import lazy_re
from lint_rules.language.inflection.verb_forms import pasts
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.page.exercises.answers import face, yes_or_no
from lint_rules.page.exercises.completed import completed_sentence
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.page.opposites import opposites_of
from lint_rules.plain_words import DENIED
from lint_rules.tables import words
from lint_rules.unit_language.places import places_in
from lint_rules.unit_language.told_clauses import (
    FIRST_WORD,
    OWNING,
    POINTING,
    UNSURE,
    Told,
    is_quality,
    names_in,
    sentences_of,
    told_clauses,
    words_of,
)

_FEWEST = 3  # statements of an exercise
_LEAST = 2  # words of a statement that mean something
_EXTRA = 2  # words of a clause that a statement of more may leave out
_LABEL = lazy_re.compile(r"([A-Z][a-z]+): ")  # Goat: I like bees.
_SIZES = frozenset(["big", "small", "little", "large"])
_SEVERAL = lazy_re.compile(r"\b(?:another|other|others|more|second|some|two|three|four|five|six)\b", re.I)
_AT_LENGTH = lazy_re.compile(r"\s[(–—-]\s*(?:[\w’']+\W+){2}[\w’']+")
_NOT_TOLD = lazy_re.compile(r"\W*(?:NG|N/?M|DS|not given|doesn['’]t say|not mentioned)\b", re.I)
_SHORT = lazy_re.compile(r"\W*(yes|no), (?:[a-z]+ ){1,3}[a-z'’]+\W*$", re.I)  # Yes, she can.
_CAN = lazy_re.compile(r"\b(?:can|could|had)(?:n?['’]t)?\b", re.I)
_IS_SO = lazy_re.compile(
    r"(?:can|could|is|are|am|was|were|has|have|does|do|did|must)(?:n?['’]t| not|not)?(?: (?:got|like))?|likes?", re.I
)
_ASKED = lazy_re.compile(r"\W*(?:is|are|was|were|can|could|has|have|does|do|did)(?:n['’]t)?\s+", re.I)


@dataclass(frozen=True, slots=True)
class Contrary:
    """A statement whose answer does not go with the texts, and the sentence that tells the contrary."""

    item: Item
    sentence: str
    drawn: bool = False  # a picture's brief has it


def told_otherwise(exercise: Exercise, texts: Sequence[Passage]) -> Contrary | None:
    """The one statement of an exercise whose answer does not go with the texts; None where there is none."""
    marked = held_against(exercise, texts)
    contrary, points = the_one_out_of_step(marked, 0) or (None, False)
    # She may be somebody else (That isn't Lou! It's a goat in a coat): then another answer must go with the texts.
    return None if points and len(marked) == 1 else contrary


def held_against(exercise: Exercise, texts: Sequence[Passage]) -> list[tuple[bool, tuple[Contrary, bool]]]:
    """The statements of an exercise of which the texts tell something: whether the key goes with that, and the
    sentence that tells it, with whether it says only he or she."""
    statements = list(_statements(exercise.items))
    if not statements:  # what somebody can do, no picture shows
        statements, texts = list(_completed(exercise)), [one for one in texts if one.audience is not Audience.ARTIST]
    if len(statements) < _FEWEST:
        return []
    told = _Texts.of([text for _, text, _ in statements], texts)
    marked = []
    for item, statement, called in statements:
        found = told.tell(statement)
        if found is not None:
            is_so, one = found
            marked.append((is_so is called, (Contrary(item, one.sentence, one.drawn), one.points)))
    return marked


def _statements(items: Sequence[Item]) -> Iterator[tuple[Item, str, bool]]:
    """The statements of an exercise whose answers all say yes or no: `f` among `a` and `b` is no false."""
    answered = [
        (item, item.answer)
        for item in items
        if item.answer is not None and not item.example and not _NOT_TOLD.match(item.answer.text)
    ]
    called = [_is_yes(answer.text) for _, answer in answered]
    for (item, answer), is_so in zip(answered, called, strict=True):
        statement = bare_statement(item.text).partition("☐")[0].strip()
        # What is only a name states nothing: who is for it, and who against?
        stated = any(word[:1].islower() for word in statement.split())
        # What is explained is no slip of the pen: F (It was an echo.).
        if is_so is not None and None not in called and stated and not _AT_LENGTH.search(answer.text):
            yield item, statement, is_so


def _completed(exercise: Exercise) -> Iterator[tuple[Item, str, bool]]:
    """The sentences of an exercise whose blanks only say whether something is so, as the key completes them: *Mrs Plum
    ____ sing*, by *can* or *can't*."""
    answered = [item for item in exercise.items if item.answer is not None and not item.example]
    if all(item.answer is not None and _IS_SO.fullmatch(item.answer.text.strip()) for item in answered):
        for item in answered:
            sentence = completed_sentence(item, exercise)
            if sentence:
                yield item, sentence, True


def _is_yes(answer: str) -> bool | None:
    """Whether an answer is a yes or a no, perhaps a whole one: Yes, she can."""
    glad = face(answer)
    said = yes_or_no(answer) if glad is None else glad
    short = _SHORT.match(answer) if said is None else None
    return said if short is None else short[1].casefold() == "yes"


@dataclass(frozen=True)
class _Texts:
    """What texts tell, clause by clause and sentence by sentence, and the names in them."""

    told: Sequence[Told]
    sentences: Sequence[frozenset[str]]
    names: frozenset[str]

    @classmethod
    def of(cls, statements: Sequence[str], texts: Sequence[Passage]) -> "_Texts":
        """What some texts tell."""
        asked = frozenset(word for one in statements for word in words_of(one))
        speakers = {part for passage in texts for part in passage.speaker.casefold().split()}
        names = names_in([*statements, *(passage.text for passage in texts)]) | (speakers & asked)
        told = [one for passage in texts for one in told_clauses(passage, names, asked)]
        sentences = [frozenset(words_of(one)) for passage in texts for one in sentences_of(passage)]
        return cls(told, sentences, names)

    def tell(self, statement: str) -> tuple[bool, Told] | None:
        """Whether the texts tell what a statement says (True) or the contrary (False), and the clause that does; None
        where neither or both."""
        asked = _ASKED.match(statement)
        first = FIRST_WORD.match(statement, asked.end() if asked is not None else 0)
        points = first is not None and first[1].replace("’", "'").casefold() in POINTING
        wanted, denied = words_of(statement), DENIED.search(statement) is not None
        open_question = statement.rstrip().endswith("?") and asked is None
        if len(wanted) < _LEAST or UNSURE.search(statement) or points or open_question:
            return None
        ways = list(_ways(wanted))
        said = {
            one.denied is denied: one
            for one in self.told
            if any(_has(one.words, way) for way in ways) and _same_place(statement, one.sentence)
        }
        together = {word.removesuffix(OWNING) for word in wanted} - self.names
        around = [sentence for sentence in self.sentences if together <= sentence]
        if not said and not denied and len(around) <= 1:
            affirmed = [one for one in self.told if not one.denied]
            once = _is_done_once(statement)
            other = [
                one
                for one in affirmed
                for way in ways
                if (self._is_of_another(one, way, once=once) if around else _replaces(one, way))
            ]
            other = other or list(self._of_another_quality(wanted, affirmed))
            said = {False: other[0]} if other else {}
        return said.popitem() if len(said) == 1 else None

    def _of_another_quality(self, wanted: tuple[str, ...], affirmed: Sequence[Told]) -> Iterator[Told]:
        """What gives a thing a quality that excludes the one of a statement, where the texts give it no other of that
        kind: *The train is big*, and there is a small blue train; *He falls into the green paint*, which is pink."""
        stated = (wanted[0], wanted[-1]) if len(wanted) == _LEAST and _is_lasting(wanted[-1]) else None
        coloured = ((thing, word) for word, thing in pairwise(wanted) if word in words("colours"))
        thing, own = stated or next(coloured, ("", ""))
        if not own or is_quality(thing) or thing in self.names or any(word.endswith(OWNING) for word in wanted):
            return
        several = re.compile(rf"{_SEVERAL.pattern}(?:\s+[\w-]+){{0,2}}\s+{re.escape(thing)}\w*", re.I)
        if any(thing in one.words and several.search(one.sentence) for one in self.told):
            return  # another train is in the box
        of_thing = [(quality, one) for one in affirmed for quality in _qualities(one.words, thing)]
        against = [(quality, one) for quality, one in of_thing if _exclude_each_other(own, quality)]
        if len({quality for quality, _ in against}) == 1 and own not in {quality for quality, _ in of_thing}:
            who = self.names.intersection(wanted)
            yield from (one for _, one in against if not self.names.intersection(one.words) - who)

    def _is_of_another(self, one: Told, wanted: tuple[str, ...], *, once: bool) -> bool:
        """Whether somebody else does the very thing: Teo pushed the green button. What one likes, others may; what is
        done ``once`` is one's in few words, too: Pia washed the trays."""
        who, told = wanted[0], one.words[0]
        return (
            "like" not in wanted
            and len(wanted) > _LEAST + (not once)
            and {who, told} <= self.names
            and who != told
            and one.words[1:] == wanted[1:]
        )


def _is_done_once(statement: str) -> bool:
    """Say whether a statement tells what was done, and no habit or skill: Pia washed the trays, she was carrying it."""
    words_said = re.findall(r"[a-z]+", statement)
    was = re.search(r"\b(?:was|were) \w+ing\b", statement) is not None
    done = was or any(
        (word.endswith("ed") or word in pasts()) and word not in ("was", "were", "got") for word in words_said
    )
    return done and _CAN.search(statement) is None


def _same_place(statement: str, sentence: str) -> bool:
    """Say whether a sentence may tell of the place of a statement: not on the box, where that has in the box."""
    own, there = (set(places_in(text)) for text in (statement, sentence))
    return not own or not there or bool(own & there)


def _replaces(one: Told, wanted: tuple[str, ...]) -> bool:
    """Whether all words of a statement but one are told, and in the place of that one another of its kind, or its thing
    with another for each of the others (*small and white*, of a big black cat); not where the text goes on to tell of
    it as well."""
    missing = [at for at, word in enumerate(wanted) if word not in one.words]
    if len(missing) == len(wanted) - 1 >= _LEAST and wanted[0] in one.words:
        alone = all(word == wanted[0] or is_quality(word) for word in one.words)  # not: the dog chased a big cat
        return alone and all(any(_exclude_each_other(wanted[at], other) for other in one.words) for at in missing)
    if len(wanted) <= _LEAST or len(missing) != 1 or wanted[missing[0]] in one.after:
        return False
    (at,) = missing
    others = (other for other in one.words if other not in wanted and _exclude_each_other(wanted[at], other))
    return any(_has(one.words, (*wanted[:at], other, *wanted[at + 1 :])) for other in others)


def _is_lasting(quality: str) -> bool:
    """Whether a thing keeps a quality through a story: its colour, its size; a full bag may be empty later."""
    return quality in words("colours") or quality in _SIZES


def _qualities(told: tuple[str, ...], thing: str) -> Iterator[str]:
    """The qualities that stand before a thing, or behind it and end the clause."""
    for at, word in enumerate(told):
        if word == thing:
            yield from takewhile(is_quality, reversed(told[:at]))
            if all(map(is_quality, told[at + 1 :])):
                yield from told[at + 1 :]


def _exclude_each_other(one: str, other: str) -> bool:
    if one.isdigit() and other.isdigit():
        return True
    return other in opposites_of(one) or (one in words("colours") and other in words("colours"))


def _ways(wanted: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """The words of a statement in their order; what a thing is like before the thing as well (the yellow flower), and
    what is somebody's as a thing that he has."""
    for way in (wanted, (*wanted[:-2], wanted[-1], wanted[-2])) if is_quality(wanted[-1]) else (wanted,):
        yield way
        yield tuple(word.removesuffix(OWNING) for word in way)


def _has(told: tuple[str, ...], wanted: tuple[str, ...]) -> bool:
    """Whether words are told in their order, with hardly any others between them, and of nothing else: the bag of the
    old woman is heavy, and not she."""
    at, first = -1, -1
    for word in wanted:
        if word not in told[at + 1 :]:
            return False
        at = told.index(word, at + 1)
        first = at if first < 0 else first
    of_it = all(is_quality(word) or word.isdigit() for word in told[:first])
    return of_it and at - first + 1 - len(wanted) <= (_EXTRA if len(wanted) > _LEAST else 0)
