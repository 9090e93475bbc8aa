"""What a text asks of a child: its words by level, its structures, its sentences, and one figure that grows with them.

``cefr`` is the band a reader needs for nearly all of it. Words: the lowest band at which 95 of 100 running words are at
home (Laufer and Ravenhorst-Kalovski 2010: 95 % is the least with which a text is understood with some help).
Structures: the highest band that more than one sentence in twenty asks for. The higher of the two counts.

``load`` runs from 0 to 100 and is a house figure: it orders texts, it measures nothing. Words make up 45 of it (half
the average, half the hardest quarter of the words that carry the meaning), structures 35, sentence length 20.

A general reference rates children's words too high and puts at C2 what it has not graded. Here such a word counts as
A1 when children meet it early, as A2 at most when it can be drawn, and else by how common it is.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from statistics import fmean

from lint_rules.course.model import CEFR_BANDS, band_rank
from lint_rules.language.grammar.structures import structure
from lint_rules.language.tokens import Analysis
from lint_rules.language.vocabulary.names import names_in
from lint_rules.language.vocabulary.reference import BANDS_BY_FREQUENCY, common, lowest
from lint_rules.language.vocabulary.word_index import Origin, WordIndex, canonical
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_levels import look_up
from lint_rules.manuscript.counting import count_words

COVERAGE = 0.95  # Laufer and Ravenhorst-Kalovski (2010), Reading in a Foreign Language 22(1): the lower threshold
_WORDS, _STRUCTURES, _LENGTH = 45.0, 35.0, 20.0  # shares of the load: house figures
_HARDEST_WORD = 7.5  # points of a C2 word that is rare as well
_HARDEST_STRUCTURE = 4.0  # rank of B2
_LONG = 30  # a sentence of so many words is as long as the figure goes: house figure
_CONTENT = frozenset({"noun", "verb", "adjective", "adverb"})


@dataclass(frozen=True, slots=True)
class Shown:
    """A structure found in a text: its name, its band, its place, and the words that show it."""

    name: str
    band: str
    start: int
    end: int
    text: str


@dataclass(frozen=True, slots=True)
class Sentences:
    """Sentence length in words: how many sentences, the average, the longest and its text."""

    count: int
    average: float
    longest: int
    longest_text: str


@dataclass(frozen=True, slots=True)
class TextLoad:
    """What a text asks of a child. ``drivers`` say in a few words what makes it so, the heaviest first."""

    cefr: str
    load: float
    words: tuple[WordLevel, ...]
    structures: tuple[Shown, ...]
    sentences: Sentences
    drivers: tuple[str, ...]


def weigh(texts: Sequence[tuple[str, Analysis]], index: WordIndex) -> TextLoad:
    """Weigh a text that comes in one or several passages, each with its analysis."""
    names = frozenset(name for _, analysis in texts for name in names_in(analysis))
    words = tuple(word for text, analysis in texts for word in look_up(analysis, text, index, names=names))
    shown = tuple(item for text, analysis in texts for item in _shown(text, analysis))
    lengths = [
        (count_words(said), said)
        for text, analysis in texts
        for sentence in analysis.sentences
        if (said := " ".join(text[sentence.start : sentence.end].split()))
    ]
    lengths = [pair for pair in lengths if pair[0]]
    longest = max(lengths, default=(0, ""))
    average = fmean(count for count, _ in lengths) if lengths else 0.0
    sentences = Sentences(len(lengths), round(average, 1), *longest)
    by_sentence = [band for text, analysis in texts for band in _bands_of_sentences(analysis)]
    load = _WORDS * _share_of_words(words) + _STRUCTURES * _share_of_structures(by_sentence)
    load += _LENGTH * min(1.0, math.sqrt(average / _LONG)) if average > 1 else 0.0
    cefr = max(_band_of_words(words), _band_of_structures(by_sentence))
    return TextLoad(CEFR_BANDS[cefr], round(load, 1), words, shown, sentences, tuple(_drivers(words, shown, sentences)))


def weighed_band(word: WordLevel) -> str:
    """The band a word counts as in the load: its own, but for words that no reference has really graded."""
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


def points(word: WordLevel) -> float:
    """What a word weighs: the rank of its band (0 for Pre-A1, 6 for C2), and up to 1.5 for being rare."""
    rank = band_rank(weighed_band(word))
    if rank == 0:
        return 0.0
    return rank + min(1.5, max(0.0, (5.0 - common(canonical(word.lemma))) / 2))


def _share_of_words(words: Iterable[WordLevel]) -> float:
    weights = sorted((points(word) for word in words if word.part_of_speech in _CONTENT), reverse=True)
    if not weights:
        return 0.0
    hardest = weights[: math.ceil(len(weights) / 4)]
    return min(1.0, (fmean(weights) + fmean(hardest)) / 2 / _HARDEST_WORD)


def _share_of_structures(bands: Sequence[int]) -> float:
    if not bands:
        return 0.0
    return min(1.0, (fmean(bands) + max(bands)) / 2 / _HARDEST_STRUCTURE)


def _band_of_words(words: Sequence[WordLevel]) -> int:
    ranks = sorted(band_rank(weighed_band(word)) for word in words)
    if not ranks:
        return 0
    return ranks[max(0, math.ceil(COVERAGE * len(ranks)) - 1)]


def _band_of_structures(bands: Sequence[int]) -> int:
    """The highest band that more than one sentence in twenty asks for; in a shorter text, that any asks for."""
    ranks = sorted(bands)
    return ranks[max(0, math.ceil(COVERAGE * len(ranks)) - 1)] if ranks else 0


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


def _drivers(words: Sequence[WordLevel], shown: Sequence[Shown], sentences: Sentences) -> Iterable[str]:
    hard = sorted(
        {canonical(word.lemma): word for word in words if band_rank(weighed_band(word)) > 1}.values(),
        key=lambda word: (-points(word), word.lemma),
    )
    if hard:
        yield "words: " + ", ".join(f"{word.lemma} ({weighed_band(word)})" for word in hard[:5])
    names = {item.name: item.band for item in shown if band_rank(item.band) > 1}
    if names:
        ordered = sorted(names.items(), key=lambda pair: (-band_rank(pair[1]), pair[0]))
        yield "structures: " + ", ".join(f"{name.replace('-', ' ')} ({band})" for name, band in ordered[:5])
    if sentences.longest > 10:
        yield f"sentences: {sentences.average:g} words on average, the longest {sentences.longest}"
