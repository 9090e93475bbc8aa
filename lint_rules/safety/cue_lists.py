"""Reads what is not told but listed or noted: materials lists, and whether a note addresses a hazard."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from lint_rules.safety.cue_index import Cue, cue_index, negated, overlaps
from lint_rules.safety.cue_words import (
    Hit,
    Sentence,
    longest,
    sentences_of,
    words_of,
)
from lint_rules.safety.hazards import Hazard, Matching, Topic

_HARMLESS_REACH = 4  # words between a harmless verb and its noun: `roll the soft red ball`
_LONGEST_ITEM = 40  # words; a list without a comma is read in pieces


def cues_in_materials(text: str, acts: Sequence[str] = ()) -> list[Cue]:
    """Cues in a materials list: the first of each hazard, in the order of the table.

    ``acts`` are the texts that say what children do with the things.
    """
    index = cue_index()
    found: dict[str, Cue] = {}
    for words, shown in _materials(text):
        forms = words.forms
        nouns = longest(index.nouns.find(forms))
        idioms = list(index.idioms.find(forms))
        for noun, hit in nouns:
            for hazard in index.by_material.get(noun, ()):
                if hazard.id in found or shown or _is_shown(hit, forms, hazard, index.matching):
                    continue
                if negated(words, hit.start, index) or overlaps(hazard, idioms, [hit]):
                    continue
                raised = any(True for _ in index.raising[hazard.id].find(forms))
                if not raised and _is_harmless(noun, hazard, acts):
                    continue
                start, end = words.words[hit.start].start, words.words[hit.end - 1].end
                found[hazard.id] = Cue(hazard, start, end, raised, listed=True)
    return [found[hazard.id] for hazard in index.hazards if hazard.id in found]


def missing_topics(hazard: Hazard, safety: Sequence[str], notes: Sequence[str]) -> tuple[Topic, ...]:
    """What the notes do not address of what the hazard asks for (nothing when they suffice).

    ``safety`` are the texts of Safety fields, ``notes`` the other texts of the teacher's notes, where a word counts
    only in a sentence that speaks of caution, or when it can mean nothing else.
    """
    index = cue_index()
    demand = hazard.note_must_address
    topics = index.topics[hazard.id]
    said: set[str] = set()
    for text in safety:
        said.update(key for key, _ in topics.find([word.form for word in words_of(text)]))
    for text in notes:
        for sentence in sentences_of(text):
            cautions = any(True for _ in index.cautions.find(sentence.forms))
            sure = {hit for _, hit in index.sure_words.find(sentence.forms)}
            said.update(key for key, hit in topics.find(sentence.forms) if cautions or hit in sure)
    missing = tuple(topic for topic in demand.topics if topic.key not in said)
    if demand.require == "any" and len(missing) < len(demand.topics):
        return ()
    return missing


def _is_harmless(noun: str, hazard: Hazard, acts: Sequence[str]) -> bool:
    """Say whether the acts do something harmless with a thing that is only listed: `roll the ball`."""
    index = cue_index()
    verbs = index.harmless_of.get(hazard.id)
    if not verbs:
        return False
    for text in acts:
        for sentence in sentences_of(text):
            for found, hit in index.nouns.find(sentence.forms):
                before = sentence.forms[max(0, hit.start - _HARMLESS_REACH) : hit.start]
                if found == noun and not verbs.isdisjoint(before):
                    return True
    return False


@lru_cache(maxsize=1000)
def works_with_pictures(text: str) -> bool:
    """Say whether teacher's notes speak of flashcards or pictures that stand for things."""
    return any(True for _ in cue_index().page_things.find([word.form for word in words_of(text)]))


def _is_shown(noun: Hit, forms: Sequence[str], hazard: Hazard, matching: Matching) -> bool:
    """Say whether an item of a materials list is a picture or a toy of the thing."""
    before = forms[: noun.start]
    real = any(form in matching.real_object_prepositions for form in before)
    if hazard.decoys.frames != "none" and before and before[-1] in matching.frames_adjacent:
        return True
    if not real and not cue_index().picture_words.isdisjoint(before):
        return True
    return any(form in cue_index().picture_heads for form in forms[noun.end : noun.end + 2])


def _materials(text: str) -> Iterator[tuple[Sentence, bool]]:
    """The items of a materials list; the bool says that a list of pictures began before (`flashcards: milk, egg`)."""
    words = words_of(text)
    shown = False
    first = 0
    for at in range(1, len(words) + 1):
        if at < len(words):
            between = text[words[at - 1].end : words[at].start]
            ends_item = any(mark in between for mark in ",;:()[]/+&\n•.–—") or words[at].form in ("and", "or", "plus")
        else:
            between, ends_item = "", True
        ends_item = ends_item or at - first >= _LONGEST_ITEM
        if not ends_item:
            continue
        item = words[first:at]
        yield Sentence(item, question=False, quoted=frozenset()), shown
        if any(mark in between for mark in ":([") and not cue_index().picture_words.isdisjoint(
            word.form for word in item
        ):
            shown = True
        elif any(mark in between for mark in ")];.\n•"):
            shown = False
        first = at
