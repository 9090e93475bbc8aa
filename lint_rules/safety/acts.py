"""What is done in an activity that can hurt someone, and whether its notes name a care for that.

Learned tables weigh each sentence, with the heading and the sentences around it beside it (``learned``); an activity
shows what its surest sentence shows, and the words that weighed most there are what a finding points at. What is said
in so many words (``plain_acts``) needs no weighing. A second table weighs each sentence of the notes, the steps, the
materials and the page for whether it names a care, hazard by hazard: the same note is a care for one act and none for
another. How sure is sure enough stands in ``data/sureness.csv``.
"""

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage, Role
from lint_rules.plain_words import WORD
from lint_rules.safety.act_guards import (
    asks,
    does_it_herself,
    has_food,
    is_a_model,
    is_another_needle,
    is_at_the_door,
    is_called_out,
    is_done_for_them,
    is_imitated,
    is_mimed,
    is_of_animals,
    is_on_a_map,
    is_on_cards,
    is_only_named,
    is_only_shut,
    is_part_of_play,
    is_ruled_out,
    is_spoken,
    is_the_way,
    lacks_evidence,
)
from lint_rules.safety.activity_text import DONE, ActivityText, Place, Said
from lint_rules.safety.foods import foods
from lint_rules.safety.hazards import hazards
from lint_rules.safety.learned import ANY, Numbers, Table, competing, scores_of_texts, shares, shown, table, weigh
from lint_rules.safety.plain_acts import PlainAct, plain_acts
from lint_rules.safety.signs import Sentence, heaviest, sentences_of
from lint_rules.tables import rows

# Where a care can stand.
CARES = (DONE - {Place.INSTRUCTION}) | {Place.SAFETY, Place.LESSON_SAFETY, Place.LESSON_MATERIALS}
_READ = frozenset(
    {"story", "reading", "song", "test", "picture-sentence", "odd-one-out", "mind-map", "sounds", "mistakes"}
)


_SORTED = frozenset({"odd-one-out", "mind-map", "mistakes", "picture-sentence"})
_OF_FOOD = frozenset({"food-tasting-allergy", "food-choking"})
_SCISSORS, _KNIVES, _SHARP = "scissors-cutting", "knives-and-blades", "sharp-points-and-edges"
_BLADES = frozenset({_SCISSORS, _KNIVES, _SHARP})
_A_KNIFE = lazy_re.compile(r"\bkni(?:fe|ves)\b", re.I)
_A_BLADE = lazy_re.compile(r"\b(?:kni(?:fe|ves)|blades?|cutters?|saws?|peelers?|graters?|razors?)\b", re.I)
_CUTS = lazy_re.compile(r"cuts?\s+(?!out\b)((?:[\w'’-]+\s*){1,4})", re.I)
_PAPER_WORK = lazy_re.compile(
    r"\b(?:glue|fold|scissors|felt|crayons?|(?:paper|card)(?! (?:plates?|cups?|towels?|napkins?)))\b", re.I
)
_CUT_OF_PAPER = frozenset(["strip", "strips", "snail", "snails"])  # foods too, by the dictionary
_NO_FOOD = frozenset({"paper", "card", "picture", "pictures", "scissors", "word", "words", "shape", "shapes", "felt"})
# What is done with a thing in hand, and not where it is mimed.
_WITH_THINGS = frozenset(
    {_SCISSORS, _KNIVES, *_OF_FOOD, "hot-water-cooking", "candles-fire-fireworks", "sharp-points-and-edges"}
    | {"hot-glue-and-irons", "strong-chemicals-slime", "raw-egg-flour-beans"}
)
# What hurts nobody else where the teacher does it with her own hands: boiling water does.
_BY_TEACHER = _BLADES | {"hot-glue-and-irons"}
_BLINDFOLD = "blindfold-games"
_SEATED = lazy_re.compile(r"\b(?:sits?|sitting|seated)\b[^.!?\n]*\b(?:scarf|blindfold|eyes)\b", re.I)
_PLANTS = "plants-soil-insects"
_OUTDOORS = "outdoor-trips-roads"
_WATER = "ponds-water"
_CHANTED = lazy_re.compile(
    r"\W*(?:(?:listen|read) and )?"
    r"(?:chant|sing|recite"
    r"|(?:say|learn) (?:the|a|this|our) (?:\w+ )?(?:rhyme|poem|verse|song|chant|tongue[- ]twister))\b",
    re.I,
)


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
    plain: bool = False  # said in so many words


@cache
def sureness() -> Sureness:
    """What scores must reach."""
    return Sureness(**{name: float(least) for name, least in rows("sureness.csv")})


def act_hazards() -> tuple[str, ...]:
    """The hazards whose acts the tables know, in the order of the scores."""
    return tuple(name for name in table("acts").names if name != ANY)


def care_hazards() -> tuple[str, ...]:
    """The hazards whose care the tables know."""
    return table("care").names


def act_scores(acts: Table, sentences: Sequence[Sentence], kinds: Sequence[str]) -> Numbers:
    """How far each sentence shows each hazard: a row a sentence, a column a hazard."""
    return competing(weigh(acts, shown([(sentences, kinds)], reads_near=acts.reads_near)))


def care_scores(care: Table, sentences: Sequence[Sentence]) -> Numbers:
    """How far any of these sentences names a care for each hazard."""
    if not sentences:
        return np.full(len(care.names), -99.0, dtype=np.float32)
    scores = weigh(care, shown([(sentences, ())], reads_near=care.reads_near))
    return np.asarray(np.round(scores.max(axis=0), 2), dtype=np.float32)


def acts_of(texts: Sequence[ActivityText], names: frozenset[str] = frozenset()) -> Iterator[list[Act]]:
    """What is done in each of some activities that is sure enough to be asked about, the surest first; ``names``
    are those of a course: they do nothing, but for the parts that children play.

    Many activities at once are read much faster.
    """
    said = [[one for one in text.said if one.place in DONE] for text in texts]
    sentences = [_sentences(one, names) for one in said]
    acts = table("acts")
    scores = scores_of_texts(acts, [(one, text.kinds) for one, text in zip(sentences, texts, strict=True)])
    for text, done, own, own_scores in zip(texts, said, sentences, scores, strict=True):
        plain = {act.hazard: act for act in plain_acts(text, names)}
        yield _acts(text, done, own, own_scores, plain)


def _acts(
    text: ActivityText,
    said: Sequence[Said],
    sentences: Sequence[Sentence],
    scores: Numbers,
    plain: dict[str, PlainAct],
) -> list[Act]:
    only_read = bool(text.kinds) and (_READ.issuperset(text.kinds) or not _SORTED.isdisjoint(text.kinds))
    # A page that is only read, heard or sung, or whose words are sorted, tells nobody to do it; nor does a chant, nor
    # what two friends say to each other.
    on_page = [said[one.of].place in (Place.PAGE, Place.LIST) for one in sentences]
    chant = any(one.place is Place.INSTRUCTION and _CHANTED.match(one.passage.text) for one in said)
    chanted = [
        chant or said[one.of].passage.role is Role.LINE or is_spoken(said[one.of].passage) or asks(said[one.of], one)
        for one in sentences
    ]
    scores[[page and (only_read or line) for page, line in zip(on_page, chanted, strict=True)]] = -math.inf
    scores[[is_a_model(said[one.of], one) for one in sentences]] = -math.inf
    found: list[Act] = []
    for column in np.nonzero((scores >= sureness().query).any(axis=0))[0].tolist():
        hazard = act_hazards()[column]
        if hazard in hazards():
            at = int(scores[:, column].argmax())
            sentence = sentences[at]
            if lacks_evidence(hazard, text) or (hazard in _WITH_THINGS and is_mimed(text)):
                continue
            start, end = heaviest(sentence, shares(table("acts"), sentence, column))
            passage = said[sentence.of].passage
            if hazard in _OF_FOOD and (
                is_imitated(passage.text, sentence)
                or is_of_animals(passage.text, start, end)
                or not has_food(text, passage.text[sentence.words[0].start : sentence.words[-1].end])
                or (on_page[at] and is_only_named(passage, sentence.words[0].start, text))
            ):
                continue
            if is_ruled_out(passage.text, start, end) or is_on_cards(passage.text, start):
                continue
            if hazard == _PLANTS and is_part_of_play(passage.text, start, end):
                continue
            if is_called_out(text, said[sentence.of], start):
                continue
            if hazard == _SHARP and is_another_needle(passage.text):
                continue
            if hazard in _BY_TEACHER and said[sentence.of].place is Place.STEPS and does_it_herself(passage, sentence):
                continue
            if hazard == _BLINDFOLD and (is_only_shut(text) or _SEATED.search(passage.text)):
                continue
            if hazard in (_OUTDOORS, _WATER) and is_the_way(said[sentence.of], text):
                continue
            if hazard == _OUTDOORS and (is_on_a_map(text) or is_at_the_door(passage.text, start)):
                continue
            hazard = _hazard_of(hazard, passage.text, start, text)
            if any(act.hazard == hazard or _is_same_act(act, hazard, passage, start, end) for act in found):
                continue
            shown = plain.pop(hazard, None)
            if shown is not None and not (shown.passage is passage and shown.start < end and start < shown.end):
                passage, start, end = shown.passage, shown.start, shown.end  # said in so many words
            found.append(Act(hazard, float(scores[at, column]), passage, start, end, shown is not None))
    for act in plain.values():
        own = next((one for one in said if one.passage is act.passage), None)
        if own is not None and is_called_out(text, own, act.start):
            continue
        if act.hazard in _BY_TEACHER and is_done_for_them(act.passage.text, act.start):
            continue
        if act.hazard == _BLINDFOLD and _SEATED.search(act.passage.text):
            continue
        if act.hazard in _OF_FOOD and is_of_animals(act.passage.text, act.start, act.end):
            continue
        hazard = _hazard_of(act.hazard, act.passage.text, act.start, text)
        mimed = hazard in _WITH_THINGS and is_mimed(text)
        if not mimed and not any(one.hazard == hazard for one in found):
            # What is said in so many words is surer than what was weighed at the same words.
            found = [one for one in found if not _is_same_act(one, hazard, act.passage, act.start, act.end)]
            found.append(Act(hazard, sureness().query, act.passage, act.start, act.end, plain=True))
    return sorted(found, key=lambda act: -act.score)


def _is_same_act(act: Act, hazard: str, passage: Passage, start: int, end: int) -> bool:
    """Say whether an act of a blade or a point is one that was found already, as the other: scissors pushed through."""
    near = act.passage is passage and act.start < end and start < act.end
    return near and {act.hazard, hazard} <= _BLADES


def _hazard_of(hazard: str, said: str, start: int, text: ActivityText) -> str:
    """The hazard of an act by what it is done to: Cut a lemon is no work with scissors; Cut out the lemon is, and Cut
    the paper lemon. Where knives are named and no scissors, knives cut."""
    if hazard == _SCISSORS:
        every = [one.passage.text for one in text.said]
        if any(_A_KNIFE.search(one) for one in every) and not any("scissors" in one.casefold() for one in every):
            return _KNIVES
    match = _CUTS.match(said, start)
    cut = frozenset(WORD.findall(match[1].casefold())) if match is not None else frozenset()
    of_food = cut.isdisjoint(_NO_FOOD) and not foods().isdisjoint(cut - _CUT_OF_PAPER)
    if hazard == _SCISSORS and of_food:
        return _KNIVES
    done = [one.passage.text for one in text.said if one.place in DONE]
    of_paper = any(map(_PAPER_WORK.search, done)) and not any(map(_A_BLADE.search, done))
    return _SCISSORS if hazard == _KNIVES and match is not None and of_paper and not of_food else hazard


def _sentences(said: Sequence[Said], names: frozenset[str] = frozenset()) -> list[Sentence]:
    # The tables were taught one kind of materials.
    places = [Place.MATERIALS if one.place is Place.LESSON_MATERIALS else one.place for one in said]
    texts = [(one.passage.text, int(place)) for one, place in zip(said, places, strict=True)]
    return sentences_of(texts, int(Place.INSTRUCTION), names)


def care_for(text: ActivityText, wanted: Sequence[str]) -> dict[str, float]:
    """How far an activity's notes, steps, materials and page name a care for each of these hazards."""
    scores = care_scores(table("care"), _sentences([one for one in text.said if one.place in CARES]))
    return {hazard: float(scores[care_hazards().index(hazard)]) for hazard in wanted}
