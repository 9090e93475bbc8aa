"""What each word of a text asks of a child: its level, and who says so (in the order that ``word_index.py`` states)."""

from collections.abc import Iterator
from functools import cached_property

import msgspec

from lint_rules.course.model import WordEntry, band_rank
from lint_rules.language.tokens import Analysis, Token
from lint_rules.language.vocabulary.names import name_from, names_in
from lint_rules.language.vocabulary.noises import DRAWN_OUT, noises
from lint_rules.language.vocabulary.reference import graded, lowest, reference
from lint_rules.language.vocabulary.word_index import (
    Listing,
    Origin,
    WordIndex,
    authority,
    canonical,
    function_bands,
    given_names,
)
from lint_rules.language.vocabulary.word_level import WordLevel
from lint_rules.language.vocabulary.word_shapes import (
    HYPHEN,
    PART_OF_SPEECH,
    READ_AS,
    abbreviates,
    base_of_degree,
    ends_a_gap,
    graded_by_parts,
    hyphened,
    in_title_case,
    is_bare,
    is_number,
    is_ordinary_noun,
    is_word,
    keys_of,
    stands_for,
    verb_of,
)
from lint_rules.tables import words as word_table

_VERBS_THAT_HOLD = frozenset({"be", "have", "do", "get", "let", "can", "go", "use", "ought"})
# What stands before a name.
_HONORIFICS = frozenset({"mr", "mrs", "miss", "ms", "dr", "uncle", "aunt", "auntie", "captain", "king", "queen", "st"})
# Words for colours are noun and adjective in one: I like red. (The eleven basic colour terms of Berlin and Kay, 1969.)
_COLOURS = frozenset(["black", "white", "red", "green", "yellow", "blue", "brown", "purple", "pink", "orange", "grey"])
# Where a noun stands as an adjective does: a light bag, the bag is light.
_ADJECTIVE_PLACES = frozenset({"compound", "amod", "acomp", "attr", "oprd"})
# Adjective and adverb of one spelling are one word to a child: an early bird, get up early.
_SWAPS = frozenset({("noun", "ADJ"), ("adjective", "PROPN"), ("adverb", "ADJ"), ("adjective", "ADV")})
_HYPHENS = frozenset("-‐‑–")
_PARTICLE_REACH = 5  # words between a verb and its particle: put your new hat on


def look_up(
    analysis: Analysis,
    text: str,
    index: WordIndex,
    unit_words: WordIndex | None = None,
    names: frozenset[str] = frozenset(),
) -> tuple[WordLevel, ...]:
    """Every word of a text with its level, in order. Marks, gaps and pieces of notation are left out.

    ``unit_words`` is the index of the words that the unit presents itself, ``names`` those that ``names_in`` found in
    the texts around this one.
    """
    return tuple(_Reader(analysis, text, index, unit_words, names).words())


class _Reader:
    """One text being read from left to right."""

    def __init__(
        self,
        analysis: Analysis,
        text: str,
        index: WordIndex,
        unit_words: WordIndex | None,
        names: frozenset[str],
    ) -> None:
        self.analysis = analysis
        self.tokens = analysis.tokens
        self.text = text
        self.index = index
        self.unit_words = unit_words
        self.starts = {sentence.first for sentence in analysis.sentences}
        self.names = names | names_in(analysis)
        self.places = [at for at, token in enumerate(self.tokens) if is_word(token)]
        ranges = [(self.tokens[at].start, self.tokens[at].end) for at in self.places]
        self.noises = frozenset(self.places[one] for one in noises(ranges, text))
        self.taken: set[int] = set()  # particles that belong to a verb before them

    @cached_property
    def title_case(self) -> bool:
        return in_title_case(self.tokens)

    @cached_property
    def bare(self) -> bool:
        return is_bare(self.tokens)

    @cached_property
    def alone(self) -> frozenset[int]:
        """The words that are all their sentence has, once or more: their parts of speech are guesses (Stir, stir!)."""
        found: set[int] = set()
        for sentence in self.analysis.sentences:
            places = [at for at in self.places if sentence.first <= at < sentence.last]
            if len({self.tokens[at].text.casefold() for at in places}) == 1:
                found.update(places)
        return frozenset(found)

    def words(self) -> Iterator[WordLevel]:
        after = 0
        for at in self.places:
            if at < after or at in self.taken or ends_a_gap(self.tokens, at):
                continue
            found, after = self._entry(at) or self._name(at) or self._compound(at) or (self._single(at), at + 1)
            if found is not None:
                yield msgspec.structs.replace(found, noise=True) if at in self.noises else found

    def _entry(self, at: int) -> tuple[WordLevel, int] | None:
        """A listed entry of several words that starts here."""
        keys = (*keys_of(self.tokens[at]), *hyphened(self.tokens[at])[:1])
        best: tuple[int, int, Listing] | None = None
        listings = self.index.starting_with(keys)
        if self.unit_words is not None:
            listings += self.unit_words.starting_with(keys)
        for listing in listings:
            after = self._match(listing, at)
            if after and (best is None or (after, -listing.origin.rank) > best[:2]):
                best = (after, -listing.origin.rank, listing)
        if best is None:
            return self._split_verb(at, keys)
        after, _, listing = best
        return self._found(listing, at, after), after

    def _name(self, at: int) -> tuple[WordLevel, int] | None:
        """A name of several words that the text, or one around it, uses: the Little Plum."""
        after = name_from(self.tokens, at, self.names)
        return (self._made(at, after, Origin.NAME, free=True), after) if after else None

    def _match(self, listing: Listing, at: int) -> int:
        """One past the last word of an entry that starts here, or 0. A hyphen may stand between its words."""
        place, left = at, listing.parts
        while left:
            if place > at and place < len(self.tokens) and self.tokens[place].text in _HYPHENS:
                place += 1
            if place >= len(self.tokens) or (place > at and place in self.starts):
                return 0
            token = self.tokens[place]
            pieces = 1 if stands_for(left[0], token) else len(hyphened(token))
            if (pieces > 1 and left[:pieces] != hyphened(token)) or not pieces:
                return 0
            left = left[pieces:]
            place += 1
        return place

    def _split_verb(self, at: int, keys: tuple[str, ...]) -> tuple[WordLevel, int] | None:
        """A verb of the course whose particle stands behind its object: put your hat on."""
        if self.tokens[at].pos != "VERB":
            return None
        reach = self.tokens[at + 2 : at + 2 + _PARTICLE_REACH]
        particles = {
            canonical(token.text): place for place, token in enumerate(reach, at + 2) if self._is_particle(place, at)
        }
        if not particles:
            return None
        for listing in self.index.starting_with(keys):
            if listing.entry is not None and len(listing.parts) == 2 and listing.parts[1] in particles:
                self.taken.add(particles[listing.parts[1]])
                return self._found(listing, at, at + 1), at + 1
        return None

    def _is_particle(self, place: int, verb: int) -> bool:
        token = self.tokens[place]
        if token.pos not in {"ADP", "ADV", "PART"} or token.head != verb:
            return False
        if self.tokens[place - 1].text.casefold() == "upside":
            return False  # turn it upside down
        following = self.tokens[place + 1].pos if place + 1 < len(self.tokens) else "PUNCT"
        return token.dep in {"prt", "compound:prt"} or following in {"PUNCT", "CCONJ"}

    def _compound(self, at: int) -> tuple[WordLevel, int] | None:
        """A word written with hyphens, or one that the list writes solid and the text does not."""
        first = self.tokens[at]
        after = self._end_of_hyphened(at)
        if after == at + 1 and not HYPHEN.search(first.text):
            return self._solid_in_list(at)
        last = self.tokens[after - 1]
        parts = [part for token in self.tokens[at:after] for part in HYPHEN.split(canonical(token.text)) if part]
        if len(parts) < 2:
            return self._solid_in_list(at)
        ends = dict.fromkeys((parts[-1], HYPHEN.split(canonical(last.lemma))[-1]))
        for key in ("".join((*parts[:-1], end)) for end in ends):
            listings = self.index.by_solid.get(key, ())
            if not listings and self.unit_words is not None:
                listings = self.unit_words.by_solid.get(key, ())
            if listings:
                return self._found(listings[0], at, after), after
        if all(is_number(part) for part in parts):
            return self._made(at, after, Origin.NUMBER, free=True), after
        if len(set(parts)) == 1 or any(item.origin is Origin.SOUND for item in self.index.by_first.get(parts[0], ())):
            return self._made(at, after, Origin.SOUND), after
        if len(first.text) < 3 or len(parts[0]) < 3:  # T-shirt, e-mail: the first part says nothing
            level = graded("".join(parts), last.pos)
            level = graded(parts[-1], last.pos) if level in {"", "C2"} else level
            return self._made(at, after, Origin.REFERENCE if level else Origin.UNKNOWN, level), after
        return None

    def _end_of_hyphened(self, at: int) -> int:
        after = at + 1
        while (
            after + 1 < len(self.tokens)
            and self.tokens[after].text in _HYPHENS
            and self.tokens[after].start == self.tokens[after - 1].end
            and self.tokens[after + 1].start == self.tokens[after].end
            and is_word(self.tokens[after + 1])
        ):
            after += 2
        return after

    def _solid_in_list(self, at: int) -> tuple[WordLevel, int] | None:
        """Two nouns that the course's list writes as one word: foot ball."""
        if at + 1 >= len(self.tokens) or {self.tokens[at].pos, self.tokens[at + 1].pos} - {"NOUN", "PROPN"}:
            return None
        first, second = self.tokens[at], self.tokens[at + 1]
        for last in (second.text, second.lemma):
            for listing in self.index.by_solid.get(canonical(first.text) + canonical(last), ()):
                if listing.entry is not None and len(listing.parts) == 1:
                    return self._found(listing, at, at + 2), at + 2
        return None

    def _single(self, at: int) -> WordLevel | None:
        token = self.tokens[at]
        keys = keys_of(token)
        candidates = self.index.meant_by(keys)
        if self.unit_words is not None and (own := self.unit_words.single(keys)):
            candidates = tuple(sorted((*candidates, *own), key=authority))
        noise = DRAWN_OUT.search(token.text) or (
            at in self.starts and any(c.origin is Origin.SOUND for c in candidates)
        )
        name = not noise and self._is_name(token, at)
        fitting = [item for item in candidates if self._fits(item, token, at, name=name)]
        elsewhere = next((item.entry for item in candidates if item.entry is not None), None)
        swapped = next((item for item in candidates if self._swaps(item, token, at)), None) if not name else None
        if swapped is not None and not any(item.entry is not None for item in fitting):
            return self._found(swapped, at, at + 1, free=any(item.free for item in fitting), elsewhere=swapped.entry)
        for listing in fitting:
            if name and listing.origin not in {Origin.COURSE, Origin.UNIT}:
                break
            free = any(item.free for item in fitting) and not (name and listing.origin is Origin.NAME)
            return self._found(listing, at, at + 1, free=free)
        if name or (any(item.origin is Origin.NAME for item in candidates) and lowest(token.lemma) in {"", "C2"}):
            return self._made(at, at + 1, Origin.NAME, free=True)  # a name in lower case: p is for pom
        listed = next((item for item in candidates if item.entry is not None), None)
        if listed is not None and not name and token.reference.level in {"", "C2"} and lowest(token.text) in {"", "C2"}:
            return self._found(listed, at, at + 1)  # the other llamas ____ her: no word but the listed one is spelt so
        return self._unlisted(token, at, elsewhere)

    def _swaps(self, listing: Listing, token: Token, at: int) -> bool:
        """Say whether a listed noun stands here as an adjective, or the other way round: an orange hat; Red!

        A listed adjective is another word than the noun of its spelling (a light bag; the light went out), but for
        colours, and where the noun stands in an adjective's place.
        """
        if listing.entry is None or listing.capital:
            return False
        if listing.parts not in {(canonical(token.text),), (canonical(token.lemma),)}:
            return False
        if (listing.part_of_speech, token.pos) == ("adjective", "NOUN"):
            there = token.dep in _ADJECTIVE_PLACES and not (token.dep == "attr" and self.tokens[at - 1].pos == "DET")
            return self.bare or there or canonical(token.lemma) in _COLOURS
        if token.pos == "ADV" and function_bands(canonical(token.text)):
            return False  # round: it goes round; a round lamp
        return (listing.part_of_speech, token.pos) in _SWAPS

    def _unlisted(self, token: Token, at: int, elsewhere: WordEntry | None) -> WordLevel:
        word = token.text
        if is_number(word):
            return self._made(at, at + 1, Origin.NUMBER, free=True)
        if abbreviates(word, self.text):
            return self._made(at, at + 1, Origin.FUNCTION, free=True)
        if len(word) == 1:
            return self._made(at, at + 1, Origin.FUNCTION, free=True)
        if word[:1].isupper() and canonical(word) in word_table("kin_words"):
            return self._made(at, at + 1, Origin.NAME, free=True)  # Mama, Gran: what they are called
        if token.pos == "INTJ" or at in self.noises or DRAWN_OUT.search(word):
            return self._made(at, at + 1, Origin.SOUND)
        said = token.reference
        base, verb = base_of_degree(token), verb_of(token)
        if base and graded(base, "ADJ") not in {"", "C2"}:
            said = reference(base, "ADJ")
        elif verb and (low := graded(verb, "VERB")) and (not said.level or band_rank(low) < band_rank(said.level)):
            said = reference(verb, "VERB")  # boiling water: who knows boil reads it
        origin = Origin(said.source) if said.level else Origin.UNKNOWN
        if origin is not Origin.REFERENCE:
            by_parts = graded_by_parts(token, self.index.knows)
            if by_parts:
                return self._made(at, at + 1, Origin.REFERENCE, by_parts, elsewhere)
        return self._made(at, at + 1, origin, said.level, elsewhere)

    def _fits(self, listing: Listing, token: Token, at: int, *, name: bool) -> bool:
        """Say whether a listing means this word, and not a word of the same spelling."""
        if listing.capital and not token.text[:1].isupper():
            return False
        if listing.entry is not None and not listing.capital and name:
            return False
        if len(listing.parts) > 1 or not listing.part_of_speech or self.bare or at in self.alone:
            return True
        if listing.part_of_speech in {"adjective", "adverb"} and base_of_degree(token) in listing.parts:
            return True
        if listing.part_of_speech in {"phrase", "interjection"} or token.pos in {"X", "INTJ", "GAP"}:
            return True
        if token.pos in READ_AS.get(listing.part_of_speech, frozenset()):
            return True
        if listing.part_of_speech == "function":
            return token.pos == "VERB" and canonical(token.lemma) in _VERBS_THAT_HOLD
        if token.tag == "VBN" and listing.part_of_speech == "adjective" and listing.parts == (canonical(token.text),):
            return True  # I am lost
        # Forms in -ing and -ed are verb, adjective and noun in one: the list's spelling decides.
        ending = canonical(token.text).endswith(("ing", "ed", "en"))
        as_spelt = listing.part_of_speech in {"noun", "adjective"} and listing.parts == (canonical(token.text),)
        return ending and token.pos in {"VERB", "ADJ", "NOUN"} and (as_spelt or listing.part_of_speech == "verb")

    def _is_name(self, token: Token, at: int) -> bool:
        """A proper noun: the parser says so, and its capital is not owed to its place."""
        word = token.text
        lowered = canonical(word)
        if token.pos == "VERB" and word[:1].isupper() and lowered in self.names and not self.index.has(lowered):
            return True  # Flop the rabbit
        if token.pos not in {"PROPN", "NOUN", "ADJ"} or not word[:1].isupper():
            return False
        if any(item.origin is Origin.NAME for item in self.index.by_first.get(lowered, ())):
            return True
        if lowered in word_table("kin_words"):
            return False
        if lowered in self.names and not self.index.has(lowered):
            return True
        if token.pos != "PROPN":
            return False
        if at and canonical(self.tokens[at - 1].text).rstrip(".") in _HONORIFICS:
            return True
        shouted = word.isupper() and len(word) > 3
        if at not in self.starts and not self.title_case and not shouted:
            return True
        if lowered in given_names():
            return True
        common_noun = self.index.has(lowered) or self.index.has(token.lemma) or is_ordinary_noun(lowered)
        return not common_noun

    def _found(
        self,
        listing: Listing,
        at: int,
        after: int,
        *,
        free: bool = False,
        elsewhere: WordEntry | None = None,
    ) -> WordLevel:
        first, last = self.tokens[at], self.tokens[after - 1]
        several = len(listing.parts) > 1
        entry = listing.entry
        level = listing.band
        if entry is not None and entry.level < len(self.index.level_names):
            level = self.index.level_names[entry.level]
        return WordLevel(
            first.start,
            last.end,
            self.text[first.start : last.end],
            entry.word if entry is not None else " ".join(listing.parts) if several else first.lemma,
            listing.part_of_speech
            if listing.part_of_speech not in {"", "function"}
            else PART_OF_SPEECH.get(first.pos, "phrase" if several else ""),
            listing.origin,
            listing.band,
            level,
            entry,
            elsewhere,
            free or listing.free,
            listing.instead,
        )

    def _made(
        self,
        at: int,
        after: int,
        origin: Origin,
        band: str = "",
        elsewhere: WordEntry | None = None,
        *,
        free: bool = False,
    ) -> WordLevel:
        first, last = self.tokens[at], self.tokens[after - 1]
        text = self.text[first.start : last.end]
        lemma = first.lemma if after == at + 1 else text.casefold()
        part = PART_OF_SPEECH.get(last.pos, "")
        if HYPHEN.search(text) and part == "verb":  # round-ended, well-known: no verb has such a form
            lemma, part = text.casefold(), "adjective"
        return WordLevel(first.start, last.end, text, lemma, part, origin, band, band, elsewhere=elsewhere, free=free)
