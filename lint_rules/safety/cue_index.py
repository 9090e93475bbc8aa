"""The table of hazards made ready for searching, and the questions that every search for cues asks."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from lint_rules.language.inflection.forms import noun_forms
from lint_rules.safety.cue_words import (
    Finder,
    Hit,
    Pattern,
    Sentence,
    exact_pattern,
    idiom_pattern,
    lemma_pattern,
    noun_pattern,
    phrase_pattern,
    plain_words,
    verb_pattern,
)
from lint_rules.safety.hazards import Hazard, Matching, hazard_table

_NEGATED = 4  # words between a negator and a cue
_PLAIN_NEGATORS = frozenset({"no", "not"})  # these reach no further than their own clause


@dataclass(frozen=True, slots=True)
class Cue:
    """A hazard's cue in a text: the range ``start:end`` of its words, whether the words raise it to a stop, and whether
    it is a thing under Materials (``listed``)."""

    hazard: Hazard
    start: int
    end: int
    raised: bool = False
    listed: bool = False


@dataclass(frozen=True)
class CueIndex:
    """The table made ready for searching."""

    hazards: tuple[Hazard, ...]
    matching: Matching
    nouns: Finder[str]
    verbs: Finder[str]
    phrases: Finder[tuple[str, str]]
    idioms: Finder[str]
    frames: Finder[str]
    negators: Finder[str]
    cautions: Finder[str]
    sure_words: Finder[str]
    page_things: Finder[str]
    raising: dict[str, Finder[str]]
    own_frames: dict[str, Finder[str]]
    topics: dict[str, Finder[str]]
    by_material: dict[str, tuple[Hazard, ...]]
    nouns_of: dict[str, frozenset[str]]
    harmless_of: dict[str, frozenset[str]]
    base_verbs: frozenset[str]
    verb_forms: frozenset[str]
    verb_s_forms: frozenset[str]
    also_nouns: frozenset[str]
    children: frozenset[str]
    talk_verbs: frozenset[str]
    shown: frozenset[str]
    real_prepositions: frozenset[str]
    breaks: frozenset[str]
    particles: frozenset[str]
    determiners: frozenset[str]
    prepositions: frozenset[str]
    after_a_noun: frozenset[str]
    picture_heads: frozenset[str]
    picture_words: frozenset[str]
    page_openers: frozenset[str]
    page_marks: frozenset[str]


@cache
def cue_index() -> CueIndex:
    """The index of the table, made once."""
    table = hazard_table()
    hazards, matching = table.hazards, table.matching
    groups = [group for hazard in hazards for group in hazard.cues.any_of]
    nouns = {noun for group in groups for noun in group.nouns} | {m for h in hazards for m in h.cues.materials}
    verbs = {verb for group in groups for verb in group.verbs}
    first_of_verbs = {plain_words(verb)[0] for verb in verbs}
    base_verbs = frozenset(first_of_verbs.union(plain_words(verb)[0] for verb in matching.class_verbs))
    return CueIndex(
        hazards=hazards,
        matching=matching,
        nouns=Finder([(noun_pattern(noun), noun) for noun in sorted(nouns)]),
        verbs=Finder([(verb_pattern(verb), verb) for verb in sorted(verbs)]),
        phrases=Finder(
            [
                (phrase_pattern(phrase, verb_first=plain_words(phrase)[0] in base_verbs), (hazard.id, phrase))
                for hazard in hazards
                for group in hazard.cues.any_of
                for phrase in group.phrases
            ]
        ),
        idioms=Finder([(idiom_pattern(idiom), h.id) for h in hazards for idiom in h.decoys.idioms]),
        frames=Finder(_frame_patterns(matching)),
        negators=Finder([(exact_pattern(negator), negator) for negator in matching.negators]),
        cautions=Finder([(lemma_pattern(mark), mark) for mark in matching.caution_marks]),
        sure_words=Finder([(lemma_pattern(word), word) for word in matching.sure_words]),
        page_things=Finder([(noun_pattern(thing), thing) for thing in matching.page_things]),
        raising={h.id: Finder([(noun_pattern(words), h.id) for words in h.escalate_to_stop_if]) for h in hazards},
        own_frames={
            h.id: Finder([(lemma_pattern(frame), h.id) for frame in h.decoys.frames])
            for h in hazards
            if not isinstance(h.decoys.frames, str)
        },
        topics={
            h.id: Finder([(lemma_pattern(word), t.key) for t in h.note_must_address.topics for word in t.words])
            for h in hazards
        },
        by_material={m: tuple(h for h in hazards if m in h.cues.materials) for m in sorted(nouns)},
        nouns_of={h.id: frozenset(noun for group in h.cues.any_of for noun in group.nouns) for h in hazards},
        harmless_of={
            h.id: frozenset(form for verb in h.cues.harmless for form in verb_pattern(verb)[0])
            for h in hazards
            if h.cues.harmless
        },
        base_verbs=base_verbs,
        verb_forms=frozenset(form for verb in base_verbs for form in verb_pattern(verb)[0]),
        verb_s_forms=frozenset(verb + "s" for verb in base_verbs),
        also_nouns=frozenset(plain_words(noun)[0] for noun in nouns) & base_verbs,
        children=frozenset(matching.children),
        talk_verbs=frozenset(matching.talk_verbs),
        shown=frozenset(form for verb in matching.shown_after for form in verb_pattern(verb)[0]),
        real_prepositions=frozenset(matching.real_object_prepositions),
        breaks=frozenset(matching.breaks),
        particles=frozenset(matching.particles),
        determiners=frozenset(matching.determiners),
        prepositions=frozenset(matching.prepositions),
        after_a_noun=frozenset(matching.after_a_noun),
        picture_heads=_all_forms(matching.picture_heads),
        picture_words=_all_forms(matching.picture_words),
        page_openers=frozenset(matching.page_openers),
        page_marks=frozenset(matching.page_marks),
    )


def _frame_patterns(matching: Matching) -> list[tuple[Pattern, str]]:
    before = [(idiom_pattern(frame), "before") for frame in matching.frames_before]
    pretend = [(idiom_pattern(frame), "pretend") for frame in matching.frames_pretend]
    adjacent = [(exact_pattern(frame), "adjacent") for frame in matching.frames_adjacent]
    between = [(noun_pattern(frame), "between") for frame in matching.frames_between]
    place = [(exact_pattern(frame), "place") for frame in matching.frames_place]
    return before + pretend + adjacent + between + place


def _all_forms(nouns: Sequence[str]) -> frozenset[str]:
    return frozenset(form for noun in nouns for form in noun_forms(plain_words(noun)[0]))


def overlaps(hazard: Hazard, idioms: Sequence[tuple[str, Hit]], parts: Sequence[Hit]) -> bool:
    """Say whether one of a hazard's decoy idioms covers a word of its hit."""
    return any(
        of_hazard == hazard.id and idiom.start < part.end and part.start < idiom.end
        for of_hazard, idiom in idioms
        for part in parts
    )


def negated(sentence: Sentence, at: int, index: CueIndex, clauses: Sequence[int] = ()) -> bool:
    """Say whether a negator stands close before a cue, with no comma and no new clause between."""
    words = sentence.words
    for negator, hit in index.negators.find(sentence.forms):
        if not hit.end <= at <= hit.end + _NEGATED - 1:
            continue
        if any(words[i].after_mark for i in range(hit.end, at + 1)) and "or" not in sentence.forms[at : at + 4]:
            continue
        if at in clauses and negator in _PLAIN_NEGATORS:
            continue
        return True
    return False


def is_head_of_picture(noun: Hit, sentence: Sentence, index: CueIndex) -> bool:
    """Say whether the word after a noun makes it a picture, a word or a kind: `egg cards`, `orange paper`."""
    if noun.end >= len(sentence.words) or sentence.words[noun.end].after_mark:
        return False
    following = sentence.words[noun.end].form
    if following in index.picture_heads:
        return True
    before_a_noun = noun.end - noun.start == 1 and sentence.forms[noun.start] in index.matching.before_a_noun
    return before_a_noun and following not in index.after_a_noun
