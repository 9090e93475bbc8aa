"""What is done in an activity that can hurt someone, and whether its notes name a care for that.

Learned tables weigh the words of the whole activity (``signs``); which words weighed most is what a finding points at.
The notes are read with the activity around them (``sense``): the same note is a care for one act and none for another.
How sure is sure enough stands in ``data/sureness.csv``.
"""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import groupby

import numpy as np

from lint_rules.manuscript.model import Passage
from lint_rules.safety.activity_text import ActivityText, Place
from lint_rules.safety.hazards import hazards
from lint_rules.safety.sense import Numbers, Words, of_care
from lint_rules.safety.sense import hazard_ids as cared_for
from lint_rules.safety.signs import DONE, Weighed, Word, hazard_ids, is_large, weigh
from lint_rules.safety.word_pieces import OPENING, number_of, pieces_of
from lint_rules.tables import rows

_NOTES = frozenset({Place.SAFETY, Place.LESSON_SAFETY})
_CARE = (DONE - {Place.INSTRUCTION}) | _NOTES  # where a care can stand
_READ = frozenset(
    {"story", "reading", "song", "test", "picture-sentence", "odd-one-out", "mind-map", "sounds", "mistakes"}
)
_DONE_OR_CARED = (_CARE | DONE) - _NOTES
_WIDE = 128  # word pieces that are read at once: as many as when the tables were trained
_MOST_OF_NOTES = 80
_SENTENCE = re.compile(r"(?<=[.!?;])\s+|\n")
_ENDS = frozenset(".!?;:•\n")


@dataclass(frozen=True, slots=True)
class Sureness:
    """What an act's score must reach to be a query or a stop, and a care's to be enough."""

    query: float
    stop: float
    enough: float


@dataclass(frozen=True, slots=True)
class Act:
    """Something that is done: its hazard, its score, and the words that show it."""

    hazard: str
    score: float
    passage: Passage
    start: int
    end: int


@cache
def sureness() -> Sureness:
    """What scores must reach."""
    return Sureness(**{name: float(least) for name, least in rows("sureness.csv")})


def acts_of(text: ActivityText) -> list[Act]:
    """What is done in an activity that is sure enough to be asked about, the surest first."""
    weighed = weigh(text)
    if not weighed.signs.words:
        return []
    found = [
        _act(hazard, float(score), weighed)
        for hazard, score in zip(hazard_ids(), weighed.scores, strict=True)
        if score >= sureness().query and hazard in hazards()
    ]
    if text.kinds and _READ.issuperset(text.kinds):  # a page that is only read, heard or sung tells nobody to do it
        page = [one.passage for one in text.said if one.place in (Place.PAGE, Place.LIST)]
        found = [act for act in found if not any(act.passage is passage for passage in page)]
    return sorted(found, key=lambda act: -act.score)


def _act(hazard: str, score: float, weighed: Weighed) -> Act:
    """Point at the run of words of one sentence that adds most to a score."""
    words = weighed.signs.words
    # A small word may stand between others; alone it shows nobody anything.
    shares = [
        share if is_large(word) else min(share, 0.0)
        for word, share in zip(words, weighed.words_for(hazard), strict=True)
    ]
    usual = sum(abs(share) for share in shares) / len(shares)  # a word that adds less than most ends a run
    best, low, high = -math.inf, 0, 1
    for sentence in _sentences(words):
        for start, end, total in _runs([shares[at] - usual for at in sentence]):
            if total > best:
                best, low, high = total, sentence[start], sentence[end - 1] + 1
    while low + 1 < high and not _is_word(words[low]):
        low += 1
    while low + 1 < high and not _is_word(words[high - 1]):
        high -= 1
    return Act(hazard, score, words[low].passage, words[low].start, words[high - 1].end)


def _is_word(word: Word) -> bool:
    return word.passage.text[word.start].isalnum()


def _runs(shares: Sequence[float]) -> Iterator[tuple[int, int, float]]:
    """The runs that could be the heaviest: each word as an end, with the start that makes most of it."""
    start, total = 0, 0.0
    for end, share in enumerate(shares, start=1):
        if total <= 0:
            start, total = end - 1, 0.0
        total += share
        yield start, end, total


def _sentences(words: Sequence[Word]) -> Iterator[list[int]]:
    """The words of each sentence, as indices, without the marks at its end."""

    def key(at: int) -> tuple[int, int]:
        return id(words[at].passage), ends[at]

    ends, count = [], 0
    for word in words:
        mark = word.passage.text[word.start] in _ENDS
        count += mark
        ends.append(-1 if mark else count)
    for (_, end), group in groupby(range(len(words)), key):
        if end >= 0:
            yield list(group)


def care_for(text: ActivityText, wanted: Sequence[str]) -> dict[str, float]:
    """How far an activity's notes, steps, materials and page name a care for each of these hazards."""
    windows = list(_windows(text))
    columns = {hazard: number for number, hazard in enumerate(cared_for())}
    best = dict.fromkeys(wanted, -math.inf)
    for (_, counted), scores in zip(windows, of_care([read for read, _ in windows]), strict=True):
        for hazard in wanted:
            best[hazard] = max(best[hazard], _added(scores[counted, columns[hazard]]))
    return best


def _windows(text: ActivityText) -> Iterator[tuple[Words, list[int]]]:
    """The activity and its notes as numbers, with the rows where a care can stand; a long one in pieces.

    Each sentence of the notes is read by itself too: what else a note speaks of takes nothing from a care it names.
    """
    head = [(number_of(OPENING), 0, False)]
    head += [(piece.number, 0, False) for kind in text.kinds for piece in pieces_of(kind)]
    body = [row for one in text.said if one.place in _DONE_OR_CARED for row in _rows(one.passage.text, one.place)]
    said = [one.passage.text for one in text.said if one.place in _NOTES]
    sentences = [part for note in said for part in _SENTENCE.split(note) if part.strip()]
    for note in dict.fromkeys([" ".join(said), *sentences]):
        notes = _rows(note, Place.SAFETY)[:_MOST_OF_NOTES]
        room = max(1, _WIDE - len(head) - len(notes))
        for start in range(0, max(1, len(body)), room):
            part = [*head, *body[start : start + room], *notes][:_WIDE]
            counted = [row for row, (_, _, counts) in enumerate(part) if counts]
            if counted:
                yield Words(tuple(number for number, _, _ in part), tuple(place for _, place, _ in part)), counted


def _rows(text: str, place: Place) -> list[tuple[int, int, bool]]:
    return [(piece.number, int(place) + 1, place in _CARE) for piece in pieces_of(text)]


def _added(scores: Numbers) -> float:
    """The scores of words added up as chances are: ten weak hints make one strong one."""
    top = float(scores.max())
    return round(top + math.log(float(np.exp(scores - top).sum())), 2)
