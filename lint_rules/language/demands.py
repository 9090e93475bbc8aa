"""What a text asks of a child: sentence by sentence its length, its structures and its words by level. No score: on
graded stories, a score of words, structures and length together ordered them no better than the length alone.

``cefr`` is the band a reader needs for nearly all of it. Words: the lowest band at which 95 of 100 running words are at
home (Laufer and Ravenhorst-Kalovski 2010: 95 % is the least with which a text is understood with some help).
Structures: the highest band that more than one sentence in twenty asks for. The higher of the two counts.

A general reference rates children's words too high and puts at C2 what it has not graded. Here such a word counts as
A1 when children meet it early, as A2 at most when it can be drawn, and else by how common it is.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from statistics import fmean

from lint_rules.course.model import CEFR_BANDS, band_rank
from lint_rules.language.grammar.structures import structure
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.names import names_in
from lint_rules.language.vocabulary.reference import BANDS_BY_FREQUENCY, common, lowest
from lint_rules.language.vocabulary.word_index import Origin, WordIndex
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_levels import look_up
from lint_rules.manuscript.counting import count_words

COVERAGE = 0.95  # Laufer and Ravenhorst-Kalovski (2010), Reading in a Foreign Language 22(1): the lower threshold


@dataclass(frozen=True, slots=True)
class Shown:
    """A structure found in a text: its name, its band, its place, and the words that show it."""

    name: str
    band: str
    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence as it stands in the text, its length in words, and where in it what starts."""

    text: str
    length: int
    structures: tuple[Shown, ...]  # places are those in ``text``
    words: tuple[WordLevel, ...]  # as in the passage; see ``start``
    start: int  # of the sentence, in its passage
    passage: int


@dataclass(frozen=True, slots=True)
class Demands:
    """What a text asks of a child; ``structures`` and ``words`` with places in their passage."""

    cefr: str
    words: tuple[WordLevel, ...]
    structures: tuple[Shown, ...]
    sentences: tuple[Sentence, ...]

    @property
    def average(self) -> float:
        """Words a sentence, on average."""
        return fmean(sentence.length for sentence in self.sentences) if self.sentences else 0.0


def demands(texts: Sequence[tuple[str, Analysis]], index: WordIndex) -> Demands:
    """Read a text that comes in one or several passages, each with its analysis."""
    names = frozenset(name for _, analysis in texts for name in names_in(analysis))
    words = [look_up(analysis, text, index, names=names) for text, analysis in texts]
    shown = [tuple(_shown(text, analysis)) for text, analysis in texts]
    sentences = tuple(
        sentence
        for number, (text, analysis) in enumerate(texts)
        for sentence in _sentences(number, text, analysis, words[number], shown[number])
    )
    all_words = tuple(word for some in words for word in some)
    by_sentence = [band for _, analysis in texts for band in _bands_of_sentences(analysis)]
    cefr = max(_covering([band_rank(weighed_band(word)) for word in all_words]), _covering(by_sentence))
    return Demands(CEFR_BANDS[cefr], all_words, tuple(item for some in shown for item in some), sentences)


def weighed_band(word: WordLevel) -> str:
    """The band a word counts as: its own, but for words that no reference has really graded."""
    if word.free or word.origin in {Origin.NAME, Origin.KNOWN, Origin.NUMBER, Origin.GREETING, Origin.SOUND}:
        return CEFR_BANDS[0]
    if word.young and word.origin in {Origin.REFERENCE, Origin.FREQUENCY}:
        return min(word.band, "A1", key=band_rank)
    ungraded = word.origin is Origin.FREQUENCY or (word.origin is Origin.REFERENCE and word.band == "C2")
    if ungraded:
        by_frequency = next((band for least, band in BANDS_BY_FREQUENCY if common(word.lemma) >= least), "C2")
        return min(by_frequency, "A2", key=band_rank) if word.picturable else by_frequency
    if word.origin is Origin.REFERENCE and lowest(word.lemma):
        # Parser and reference may differ in the part of speech: a spelling that is easy as another one is half known.
        ranks = band_rank(word.band), band_rank(lowest(word.lemma))
        return CEFR_BANDS[(sum(ranks) + 1) // 2]
    return word.band or CEFR_BANDS[0]


def _sentences(
    number: int, text: str, analysis: Analysis, words: Sequence[WordLevel], shown: Sequence[Shown]
) -> Iterator[Sentence]:
    for sentence in analysis.sentences:
        start, end = sentence.start, sentence.end
        length = count_words(text[start:end])
        if length:
            yield Sentence(
                text[start:end],
                length,
                tuple(
                    Shown(item.name, item.band, item.start - start, min(item.end, end) - start, item.text)
                    for item in shown
                    if start <= item.start < end
                ),
                tuple(word for word in words if start <= word.start < end),
                start,
                number,
            )


def _covering(ranks: Sequence[int]) -> int:
    """The rank that covers nearly all; where there are few, all."""
    ordered = sorted(ranks)
    return ordered[max(0, math.ceil(COVERAGE * len(ordered)) - 1)] if ordered else 0


def _bands_of_sentences(analysis: Analysis) -> list[int]:
    """For each sentence, the rank of its hardest structure (0 where it has none)."""
    found = [0] * len(analysis.sentences)
    for item in analysis.structures:
        rank = band_rank(structure(item.name).level)
        for number, sentence in enumerate(analysis.sentences):
            if sentence.start <= item.start < max(sentence.end, sentence.start + 1):
                found[number] = max(found[number], rank)
    return found


def _shown(text: str, analysis: Analysis) -> Iterable[Shown]:
    for item in analysis.structures:
        yield Shown(item.name, structure(item.name).level, item.start, item.end, text[item.start : item.end])
