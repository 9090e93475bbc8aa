"""Finds the cues of hazards in what children are told to do.

The table (``data/hazards.yaml``) says in ``meta.how_cues_are_read`` what is done here and why. No parser is used: the
word before a verb tells well enough whether children are told to do it, and the rule works without a language model.
"""

from collections.abc import Iterator, Sequence

from lint_rules.language.inflection.irregular import plural_only
from lint_rules.safety.cue_index import Cue, CueIndex, cue_index, is_head_of_picture, negated, overlaps
from lint_rules.safety.cue_words import (
    Hit,
    Sentence,
    longest,
    plain_words,
    sentences_of,
    verb_pattern,
)
from lint_rules.safety.hazards import CueGroup, Hazard

_REACH = 8  # words between a verb and its noun (meta.how_cues_are_read.groups)
_BE = frozenset({"is", "are", "was", "were", "be", "been", "being", "am"})


def cues_in_actions(text: str, *, pictures: bool = False) -> list[Cue]:
    """Cues in a text that says what children do: the first of each hazard, in the order of the table.

    ``pictures`` says that the activity works with flashcards or pictures.
    """
    index = cue_index()
    found: dict[str, Cue] = {}
    for sentence in sentences_of(text):
        if not sentence.question:
            for cue in _SentenceReader(sentence, index, pictures).cues():
                before = found.get(cue.hazard.id)
                if before is None or (cue.raised and not before.raised):
                    found[cue.hazard.id] = cue
    return [found[hazard.id] for hazard in index.hazards if hazard.id in found]


class _SentenceReader:
    """Reads one sentence: where its nouns, verbs, frames and clauses are, then which groups fire."""

    def __init__(self, sentence: Sentence, index: CueIndex, pictures: bool) -> None:
        self.sentence = sentence
        self.forms = sentence.forms
        self.index = index
        self.pictures = pictures
        self.nouns = longest(index.nouns.find(self.forms))
        self.verbs = list(index.verbs.find(self.forms))
        self.phrases = list(index.phrases.find(self.forms))

    def cues(self) -> Iterator[Cue]:
        if not self.nouns and not self.phrases:
            return
        self.idioms = list(self.index.idioms.find(self.forms))
        self.frames = list(self.index.frames.find(self.forms))
        self.clauses = self._clause_starts()
        shown = {noun for noun, _ in self.nouns}
        hinted = {of_hazard for (of_hazard, _), _ in self.phrases}
        for hazard in self.index.hazards:
            if hazard.id not in hinted and shown.isdisjoint(self.index.nouns_of[hazard.id]):
                continue
            hit = self._first_hit(hazard)
            if hit is not None:
                raised = any(True for _ in self.index.raising[hazard.id].find(self.forms))
                words = self.sentence.words
                yield Cue(hazard, words[hit.start].start, words[hit.end - 1].end, raised)

    def _first_hit(self, hazard: Hazard) -> Hit | None:
        hits = (hit for group in hazard.cues.any_of for hit in self._group_hits(hazard, group))
        return min(hits, default=None)

    def _group_hits(self, hazard: Hazard, group: CueGroup) -> Iterator[Hit]:
        """Where a group fires: its phrases, its nouns alone, or a verb with a noun."""
        for (of_hazard, _), hit in self.phrases:
            if of_hazard == hazard.id and group.phrases and self._phrase_counts(hazard, hit):
                yield hit
        nouns = [hit for noun, hit in self.nouns if noun in group.nouns]
        if not group.verbs:
            for noun in nouns:
                if self._counts(hazard, [noun], noun.start, noun):
                    yield noun
            return
        for name, verb in self.verbs if nouns else ():
            if name not in group.verbs or not self._is_told(verb):
                continue
            if name in hazard.decoys.page_verbs and (self.pictures or self._is_on_page(verb)):
                continue
            for noun in nouns:
                if self._belongs(verb, noun, group) and self._counts(hazard, [verb, noun], verb.start, noun):
                    yield Hit(verb.start, self._end_of_nouns(noun, nouns))
        yield from self._parted_hits(hazard, group, nouns)

    def _parted_hits(self, hazard: Hazard, group: CueGroup, nouns: Sequence[Hit]) -> Iterator[Hit]:
        """Where a verb's particle stands after its noun: `hand the scissors out`."""
        for verb_word in group.verbs if nouns and not group.preps else ():
            first, *particle = plain_words(verb_word)
            if len(particle) != 1 or particle[0] not in self.index.particles:
                continue
            for start, form in enumerate(self.forms):
                verb = Hit(start, start + 1)
                if form not in verb_pattern(first)[0] or not self._is_told(verb):
                    continue
                for noun in nouns:
                    parted = particle[0] in self.forms[noun.end : noun.end + 1]
                    if parted and self._belongs(verb, noun, group) and self._counts(hazard, [verb, noun], start, noun):
                        yield Hit(start, noun.end + 1)

    def _phrase_counts(self, hazard: Hazard, hit: Hit) -> bool:
        if self.forms[hit.start] in self.index.verb_forms and not self._is_told(hit):
            return False
        return self._counts(hazard, [hit], hit.start, hit)

    def _counts(self, hazard: Hazard, parts: list[Hit], at: int, noun: Hit) -> bool:
        """Say whether a hit is an act of the class: not quoted, not negated, no idiom, no talk, no drawing."""
        if any(index in self.sentence.quoted for part in parts for index in range(part.start, part.end)):
            return False
        if any(word.capital_i for word in self.sentence.words[:at]):
            return False
        if negated(self.sentence, at, self.index, self.clauses) or overlaps(hazard, self.idioms, parts):
            return False
        verb = parts[0] if len(parts) > 1 else None
        return not self._framed(hazard, verb, noun)

    def _framed(self, hazard: Hazard, verb: Hit | None, noun: Hit) -> bool:
        """Say whether talk, drawing or pretence surrounds the noun (meta.how_cues_are_read.frames)."""
        frames = hazard.decoys.frames
        if frames == "none":
            return False
        if frames != "default":
            own = self.index.own_frames[hazard.id]
            return any(hit.start < noun.start for _, hit in own.find(self.forms))
        if is_head_of_picture(noun, self.sentence, self.index):
            return True
        return any(self._frame_holds(kind, hit, verb, noun) for kind, hit in self.frames)

    def _frame_holds(self, kind: str, frame: Hit, verb: Hit | None, noun: Hit) -> bool:
        if kind == "place":
            return True
        if frame.start >= noun.start:
            return False
        between = self.forms[frame.end : noun.start]
        if kind == "pretend":
            shown = self.forms[frame.start] == "how" and not self.index.shown.isdisjoint(
                self.forms[max(0, frame.start - 5) : frame.start]
            )
            return not shown
        if kind == "adjacent":
            return self._is_made_of(between, noun)
        if kind == "between":
            return (verb is None or frame.start >= verb.end) and self._one_clause(frame.end, noun.start)
        single = frame.end - frame.start == 1
        if single and frame.start and self.forms[frame.start - 1] in self.index.determiners:
            return False  # 'in a circle', 'the label'
        if any(word.after_colon for word in self.sentence.words[frame.end : noun.start]):
            return True  # 'Order the steps: mix the flour, bake the cake'
        anew = any(frame.end <= clause <= noun.start for clause in self.clauses)
        return not anew and self.index.real_prepositions.isdisjoint(between)

    def _is_made_of(self, between: Sequence[str], noun: Hit) -> bool:
        """Say whether `paper` or `toy` before these words goes with the noun: `paper fruit`, `paper fruit and nuts`."""
        if len(between) < 2:
            small_words = self.index.breaks | self.index.prepositions | self.index.determiners
            return small_words.isdisjoint(between)
        first = noun.start - len(between)
        things = {at for _, hit in self.nouns for at in range(hit.start, hit.end)}
        return all(at in things or self.forms[at] in ("and", "or") for at in range(first, noun.start))

    def _belongs(self, verb: Hit, noun: Hit, group: CueGroup) -> bool:
        """Say whether a noun is within a verb's reach, in its clause, after a preposition where the group has one."""
        if noun.start < verb.end or noun.start - verb.end >= _REACH or not self._one_clause(verb.end, noun.start):
            return False
        if any(word.after_colon for word in self.sentence.words[verb.end : noun.start + 1]):
            return False
        if not group.preps:
            return True
        between = self.forms[verb.end : noun.start]
        last = max((i for i, form in enumerate(between) if form in group.preps), default=None)
        if last is None or len(between) - last > 4:
            return False
        return self.index.prepositions.union(self.index.breaks, {"to", "up", "off"}).isdisjoint(between[last + 1 :])

    def _end_of_nouns(self, noun: Hit, nouns: Sequence[Hit]) -> int:
        """Where a noun ends, with the cue nouns that follow it at once (`fruit salad`)."""
        following = next((hit for hit in nouns if hit.start == noun.end), None)
        return noun.end if following is None else self._end_of_nouns(following, nouns)

    def _one_clause(self, start: int, end: int) -> bool:
        """Say whether no other verb takes over between two words; verbs in a row share their noun (`cut and glue`)."""
        for clause in self.clauses:
            if start <= clause <= end:
                if not self.index.breaks.union(self.index.particles).issuperset(self.forms[start:clause]):
                    return False
                start = clause + 1
        return True

    def _clause_starts(self) -> tuple[int, ...]:
        """Words where a clause begins: a base verb after `and`, `then`, a comma …"""
        starts = []
        for index, word in enumerate(self.sentence.words[1:], start=1):
            if word.form not in self.index.base_verbs or not (
                word.after_mark or self.forms[index - 1] in self.index.breaks
            ):
                continue
            if not self._is_listed(index):
                starts.append(index)
        return tuple(starts)

    def _is_told(self, verb: Hit) -> bool:
        """Say whether a verb's form tells the class to do something: by what stands before it."""
        words, at = self.sentence.words, verb.start
        word = words[at]
        if word.joined:
            return False
        is_ing = word.form.endswith("ing") and word.form not in self.index.base_verbs
        before = self.forms[:at]
        if self._is_listed(at) or (before and before[-1] in _BE):
            return False
        if is_ing and any(form in _BE or form.endswith(("'s", "'re", "'m")) for form in before[-3:]):
            return False
        if not before or word.after_mark:
            return True
        last = before[-1]
        talk = self.index.talk_verbs
        if (is_ing and last in talk) or (last == "to" and len(before) > 1 and before[-2] in talk):
            return False
        if last in self.index.determiners or (not is_ing and last in self.index.prepositions):
            return False
        return is_ing or not (self._ends_noun_phrase(before) or self._is_other_subject(before))

    def _is_listed(self, at: int) -> bool:
        """Say whether a word is a thing in a row of things: `scissors, glue and paper`."""
        word = self.sentence.words[at]
        if word.form not in self.index.also_nouns or at == 0:
            return False
        if not (word.after_mark or self.forms[at - 1] in self.index.breaks):
            return False
        following = self.sentence.words[at + 1] if at + 1 < len(self.forms) else None
        return following is None or following.after_mark or following.form in self.index.after_a_noun

    def _ends_noun_phrase(self, before: Sequence[str]) -> bool:
        """Say whether a verb's form after these words is a noun: `the red paint`."""
        last = before[-1]
        open_to_verbs = (
            self.index.children | self.index.breaks | self.index.prepositions | {"to", "not", "now", "then", "please"}
        )
        return (
            len(before) > 1
            and before[-2] in self.index.determiners
            and last not in open_to_verbs
            and not last.endswith("ly")
        )

    def _is_other_subject(self, before: Sequence[str]) -> bool:
        """Say whether others than the class do it: a plural such as `firefighters` or `people`."""
        last = before[-1]
        if last == "people":
            return True
        if not last.endswith("s") or last.endswith("ss") or len(last) < 4:
            return False
        return not (
            last in self.index.children
            or last in self.index.verb_s_forms
            or last in plural_only()
            or last in {"always", "afterwards", "perhaps", "this", "sometimes", "towards"}
            or any(form in self.index.prepositions for form in before[-4:-1])
        )

    def _is_on_page(self, verb: Hit) -> bool:
        """Say whether a sentence is about a page: `Listen and touch the dog`, `Find the bee and circle it`."""
        opened = not self.index.page_openers.isdisjoint(self.forms[: verb.start])
        return opened or not self.index.page_marks.isdisjoint(self.forms[verb.end :])
