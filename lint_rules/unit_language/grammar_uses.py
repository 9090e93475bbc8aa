"""Where children meet structures in a unit: on their pages and in audio scripts, activity by activity."""

import re
from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.course.model import WordEntry
from lint_rules.language.tokens import Analysis, Sentence, Structure
from lint_rules.manuscript.counting import (
    count_words,
    ends_sentence,
    is_for_children,
    is_row_of_words,
    is_title,
    is_verse,
    options_in,
    stage_directions,
)
from lint_rules.manuscript.model import Activity, Passage, Role, Unit
from lint_rules.manuscript.reader_state import SONGS
from lint_rules.page.mentions import spoken_of
from lint_rules.tables import entries
from lint_rules.unit_language.tests_of import TEST, is_test

_NOT_READ = frozenset({Role.ALT, Role.CODE, Role.PANEL})
_ENTRIES = frozenset({Role.ITEM, Role.OPTION, Role.CELL, Role.HEAD})
_WORD_KINDS = frozenset({"odd-one-out", "mind-map", "sounds"})  # their items are words, not sentences

# `Yes, I have.` `No, she hasn't.`: a short answer has the grammar of its question, and no more.
SHORT_ANSWER = lazy_re.compile(
    r"(?:(?:yes|no|oh no|sorry)\b[\s,.!:–-]*)?(?:[\w'’]+\s+){1,2}?"
    r"(?:can['’]t|won['’]t|am|is|are|was|were|have|has|had|do|does|did|can|could|will|would|must|should|might|may)(?:n['’]t|not|\s+not)?"
    r"\s*[.!,]*",
    re.I,
)
_BE_HAVE_DO = lazy_re.compile(
    r"(?:am|is|are|was|were|have|has|had|do|does|did|['’](?:ve|s|m|re|d)|got)(?:n['’]t)?", re.I
)
_FORMS = lazy_re.compile(r"\w+\s*[–—→/]\s*\w+")  # forms side by side: have – had
_LISTS = lazy_re.compile(r"\s*(?:[,/|·]|,?\s*\b(?:and|or)\b)\s*")
_OF_ONE_WORD = frozenset({"imperative", "present-simple"})
_REPORTED = "reported-clause"
_UNREAL = frozenset({"second-or-third-conditional", "inverted-conditional"})
# Words that a child learns whole, whatever their grammar: was born, it's called; our best story, the Best Biscuits; and
# participles that say how something is, not what is done to it (covered with snow). House list, common practice.
_WHOLE = lazy_re.compile(r"\b(?:born|called|named|covered|married|dressed|crowded|surrounded|filled)$")
_CALLED = lazy_re.compile(r"(?:called|named)\s+[\"“‘']?[A-Z]")
_BEST = lazy_re.compile(r"(?:\b(?:my|your|his|her|its|our|their)|[\w]['’]s)\s+best$", re.I)
_IN_NAME = lazy_re.compile(r" [A-Z]")
_BE = lazy_re.compile(r"(?:(?:am|is|are|was|were)\b|['’](?:m|s|re)\b)", re.I)
_BY = lazy_re.compile(r"\s+by\b")
_GAP_BEFORE = lazy_re.compile(r"_{2,}(?:\d{1,2}\b)?[^\w.!?]*(?:[\w'’]+\s+){0,3}$")
_GAP_AFTER = lazy_re.compile(r"\s*(?:not\s+)?_{2,}")


@dataclass(frozen=True, slots=True)
class Use:
    """A structure in a passage; ``with_it`` are the other structures that share words with it."""

    passage: Passage
    structure: Structure
    with_it: tuple[str, ...]
    sung: bool = False  # on the page of a song or a chant, or in its script

    @property
    def text(self) -> str:
        """The words that show the structure."""
        return self.passage.text[self.structure.start : self.structure.end]

    @property
    def shown(self) -> tuple[str, int, int]:
        """The text that shows the structure, and where in it."""
        return self.passage.text, self.structure.start, self.structure.end

    @property
    def in_title(self) -> bool:
        """Whether it stands in a title."""
        return is_title(self.passage)

    @property
    def in_instruction(self) -> bool:
        """Whether it stands in an instruction."""
        return self.passage.role is Role.INSTRUCTION


@dataclass(frozen=True, slots=True)
class Place:
    """An activity, or what stands before the first one: its uses in file order, and whether it is (in) a test."""

    uses: tuple[Use, ...]
    is_test: bool


_LETTERS = lazy_re.compile(r"\b(?:letters?|sounds?|spelling|with)\s+(?:[a-z]{1,3},?\s+(?:and|or)\s+)?$", re.I)
_MOST_LETTERS = 3  # of a sound: igh
_SENTENCE_INSIDE = lazy_re.compile(r"\w\w[.!?]\s+[A-Z]\w* \w")


def grammar_uses(unit: Unit, analyse: Callable[[Passage], Analysis]) -> Iterator[Place]:
    """The structures that children meet, place by place. Nothing is read where mistakes are made on purpose."""
    opening = (*((unit.heading.passage,) if unit.heading else ()), *unit.opening.passages)
    yield Place(tuple(_uses(opening, (), analyse)), is_test=False)
    for activity in unit.opening_activities:
        yield _of_activity(activity, (), analyse)
    for lesson in unit.lessons:
        yield Place(
            tuple(_uses((lesson.heading.passage, *lesson.part.passages), lesson.classes, analyse)),
            is_test=TEST in lesson.classes,
        )
        for activity in lesson.activities:
            yield _of_activity(activity, lesson.classes, analyse)


def _of_activity(activity: Activity, classes: Sequence[str], analyse: Callable[[Passage], Analysis]) -> Place:
    passages = (activity.heading.passage, *activity.part.passages)
    return Place(tuple(_uses(passages, activity.kinds, analyse)), is_test(activity, classes))


def _uses(passages: Sequence[Passage], kinds: Sequence[str], analyse: Callable[[Passage], Analysis]) -> Iterator[Use]:
    for passage in passages:
        if not is_for_children(passage) or passage.role in _NOT_READ or not passage.text:
            continue
        if "mistakes" in kinds and passage.role is not Role.INSTRUCTION:
            continue
        if passage.role in _ENTRIES and (not _WORD_KINDS.isdisjoint(kinds) or not _may_be_sentence(passage.text)):
            continue
        if "sounds" in kinds and not ends_sentence(passage.text) and not is_verse(passage.text):
            continue  # leg hen pen bed: words for their sound
        analysis = analyse(passage)
        structures = analysis.structures
        if not structures:
            continue
        directions = [*stage_directions(passage), *_asides(passage)]
        rows, verse = _rows_of_words(passage), is_verse(passage.text)
        quoted = [start for start, _ in spoken_of(passage)]
        set_phrases = [match.span() for match in _set_phrases().finditer(passage.text)]
        sentences = [(one.start, one.end) for one in analysis.sentences]
        rows += [(start, end) for start, end in sentences if is_row_of_words(passage.text[start:end])]
        rows += [(one.start, one.end) for one in analysis.sentences if _is_of_one_word(analysis, one)]
        around = _neighbours(structures)
        answers = [(one.start, one.end) for one in analysis.sentences if _is_short_answer(passage.text, one)]
        for one in structures:
            if any(start <= one.start < end for start, end in (*directions, *rows)):
                continue
            if one.name == _REPORTED and any(one.start < start < one.end for start in quoted):
                continue  # Say *Yes, it is*: the very words
            if "**" in passage.text[max(0, one.start - 2) : one.end]:
                continue  # bold that the manuscript does not read cuts words in two: I**'m wearing
            if _joins_forms(passage, one):
                continue
            if _is_learnt_whole(passage.text, one) or _is_of_letters(passage.text, one):
                continue
            if one.name in _OF_ONE_WORD and _is_answer(passage.text, one):
                continue
            if _is_broken(passage.text, one) or any(start <= one.start < end for start, end in answers):
                continue
            if not any(start <= one.start and one.end <= end for start, end in set_phrases):
                sung = passage.role is Role.LINE or not SONGS.isdisjoint(kinds) or verse
                yield Use(passage, one, tuple(around(one)), sung)


def _asides(passage: Passage) -> Iterator[tuple[int, int]]:
    """What the actors of a play do, in brackets and italics: (*waking up*)."""
    for start, end in passage.emphasis:
        if passage.text[:start].rstrip().endswith("(") or passage.text[start:end].startswith("("):
            yield start, end


def _rows_of_words(passage: Passage) -> list[tuple[int, int]]:
    """Words set apart as words: (*used, turned, made*)."""
    return [(start, end) for start, end in spoken_of(passage) if is_row_of_words(passage.text[start:end])]


def is_carried(use: Use, known: Callable[[str], bool]) -> bool:
    """Say whether a structure comes with another that the children know, or that is the one to speak of: a yes/no
    question with its verb (`Can you …?`), the `is` of `there is`, all the parts of an unreal condition."""
    name = use.structure.name
    if name not in _UNREAL and not _UNREAL.isdisjoint(use.with_it):
        return True
    if name == "present-simple-be":
        return "there-is" in use.with_it
    return name == "yes-no-question" and any(known(other) for other in use.with_it)


def is_listed_as_state(use: Use, listed: Iterable[WordEntry]) -> bool:
    """Say whether a course lists the participle of a passive as an adjective: soaked; not broken by the boys."""
    if use.structure.name != "passive" or _BY.match(use.passage.text, use.structure.end):
        return False
    last = use.text.casefold().split()[-1]
    return any(entry.part_of_speech == "adjective" and entry.word.casefold() == last for entry in listed)


def _is_of_one_word(analysis: Analysis, sentence: Sentence) -> bool:
    """Say whether a sentence is forms of one word, and no more: need, needed."""
    tokens = [token for token in analysis.tokens[sentence.first : sentence.last] if token.text[:1].isalpha()]
    return len(tokens) > 1 and len({token.lemma.casefold() for token in tokens}) == 1


def _is_short_answer(text: str, sentence: Sentence) -> bool:
    return SHORT_ANSWER.fullmatch(text[sentence.start : sentence.end].strip()) is not None


def _is_broken(text: str, one: Structure) -> bool:
    """Say whether a gap beside a word may hold the rest of its verb: `I've ____ a kite`, `____ you got it?`"""
    words = text[one.start : one.end]
    if _FORMS.fullmatch(words):
        return True
    if words.casefold().endswith("going to"):  # It is going to ____: a plan, or the way to a place
        return _GAP_AFTER.match(text, one.end) is not None
    if " " in words:
        return False
    if _GAP_BEFORE.search(text[: one.start]):
        return True
    return _GAP_AFTER.match(text, one.end) is not None and bool(_BE_HAVE_DO.fullmatch(text[one.start : one.end]))


def _joins_forms(passage: Passage, one: Structure) -> bool:
    """Say whether words are forms to use, each set apart in print: Use **has**, **hasn't** and **has got**."""
    marked = sorted(span for span in (*passage.emphasis, *passage.strong) if span[0] < one.end and one.start < span[1])
    between = (passage.text[first[1] : second[0]] for first, second in pairwise(marked))
    return any(map(_LISTS.fullmatch, between))


def _is_learnt_whole(text: str, one: Structure) -> bool:
    """Say whether words are known before their structure: `was born`, `It's called`, `my best friend`."""
    words = text[one.start : one.end]
    if one.name == "passive":
        return _BE.match(words) is not None and _WHOLE.search(words) is not None
    if one.name == "participle-clause":
        return _CALLED.match(words) is not None  # an astronomer called Octavio
    name = words == "Best" and _IN_NAME.match(text, one.end) is not None  # the prize for the Best Biscuits
    return one.name == "superlative" and words in {"best", "Best"} and (name or bool(_BEST.search(text[: one.end])))


def _is_of_letters(text: str, one: Structure) -> bool:
    """Say whether what is taken for a verb is letters that are spoken of: the letters oa."""
    return _LETTERS.search(text[: one.start]) is not None and one.end - one.start <= _MOST_LETTERS


def _is_answer(text: str, one: Structure) -> bool:
    """Say whether a word is what a clue asks for, and no order: `A boat for people and cars: ferry`."""
    return text[: one.start].rstrip().endswith(":") and not text[one.end :].strip()


def _neighbours(structures: Sequence[Structure]) -> Callable[[Structure], Iterator[str]]:
    """For a structure, the names of the others that it shares words with; looked for near it alone."""
    ordered = sorted(structures, key=lambda one: one.start)
    starts = [one.start for one in ordered]
    longest = max((one.end - one.start for one in ordered), default=0)

    def around(one: Structure) -> Iterator[str]:
        near = ordered[bisect_left(starts, one.start - longest) : bisect_left(starts, one.end)]
        return (other.name for other in near if other is not one and _touch(one, other))

    return around


def _touch(one: Structure, other: Structure) -> bool:
    return one.start < other.end and other.start < one.end


def _may_be_sentence(text: str) -> bool:
    """Say whether an item or a cell may be a sentence, and no row of words or options."""
    if ends_sentence(text) or _SENTENCE_INSIDE.search(text):
        return True  # a letter, with who signs it
    return count_words(text) > 2 and not options_in(text) and "," not in text


@cache
def _set_phrases() -> "re.Pattern[str]":
    """Greetings and the like of two words and more: a child learns them whole, whatever their grammar."""
    phrases = (re.escape(phrase).replace("'", "['’]") for phrase in entries("greetings.txt") if " " in phrase)
    return re.compile(r"\b(?:" + "|".join(phrases) + r")\b", re.I)
