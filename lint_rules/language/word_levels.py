"""What each word of a text asks of a child: its level, and who says so (in the order that ``word_index.py`` states)."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

from lint_rules.course.model import WordEntry
from lint_rules.language.lemmas import lemma as lemma_of
from lint_rules.language.reference import common, graded, lowest, reference
from lint_rules.language.tables import entries
from lint_rules.language.tokens import Analysis, Token
from lint_rules.language.word_index import (
    Listing,
    Origin,
    WordIndex,
    canonical,
    childrens_words,
    given_names,
    picturable_nouns,
)

# Universal Dependencies part of speech → the word lists' name.
PART_OF_SPEECH = {
    "NOUN": "noun",
    "PROPN": "noun",
    "VERB": "verb",
    "AUX": "verb",
    "ADJ": "adjective",
    "ADV": "adverb",
    "PRON": "pronoun",
    "DET": "determiner",
    "ADP": "preposition",
    "SCONJ": "conjunction",
    "CCONJ": "conjunction",
    "NUM": "number",
    "INTJ": "interjection",
    "PART": "adverb",
}
# A list's part of speech → what the parser may call such a word. Parser and lists draw the lines of the small classes
# differently; between noun, verb, adjective and adverb they agree.
_SMALL = frozenset({"PRON", "DET", "ADP", "SCONJ", "CCONJ", "PART", "ADV", "NUM", "AUX", "INTJ"})
_READ_AS = {
    "noun": frozenset({"NOUN", "PROPN"}),
    "verb": frozenset({"VERB", "AUX"}),
    "adjective": frozenset({"ADJ"}),
    "adverb": frozenset({"ADV", "ADP", "PART", "SCONJ", "INTJ", "CCONJ"}),
    "preposition": frozenset({"ADP", "ADV", "SCONJ", "PART"}),
    "conjunction": frozenset({"CCONJ", "SCONJ", "ADP", "ADV", "PRON"}),
    "pronoun": _SMALL | {"ADJ", "NOUN"},
    "determiner": _SMALL | {"ADJ"},
    "number": frozenset({"NUM", "NOUN", "ADJ", "PRON", "ADV", "DET"}),
    "function": _SMALL | {"ADJ"},
}
_VERBS_THAT_HOLD = frozenset({"be", "have", "do", "get", "let", "can", "go", "use", "ought"})
_NOISE = re.compile(r"([^\W\d_])\1\1")  # a letter three times: Woooow, Shhh
_PLACE = re.compile(r"[/@]|://|^www\.")  # /kæt/, an address
_HYPHENS = frozenset("-‐‑–")
_HYPHEN = re.compile("[-‐‑–]")
_PARTICLE_REACH = 5  # words between a verb and its particle: put your new hat on


@dataclass(frozen=True, slots=True)
class WordLevel:
    """A word of a text (or an entry of several words) and its level.

    ``start``, ``end`` are offsets into the text; ``part_of_speech`` is a word list's name for it; ``band`` the CEFR
    band ('' where nobody gives one) and ``level`` what to print (for a word of the course, its level's name); ``entry``
    the row of the course's list; ``elsewhere`` a row that has the spelling as another part of speech; ``free`` says
    that every child knows the word from the first page.
    """

    start: int
    end: int
    text: str
    lemma: str
    part_of_speech: str
    origin: Origin
    band: str = ""
    level: str = ""
    entry: WordEntry | None = None
    elsewhere: WordEntry | None = None
    free: bool = False
    instead: str = ""

    @property
    def young(self) -> bool:
        """A word that children meet early and that the general reference rates too high or does not grade.

        Its part of speech is not asked: the parser is least sure of it in such words (a jellyfish stings).
        """
        return not _childrens_spellings().isdisjoint((canonical(self.lemma), canonical(self.text)))

    @property
    def picturable(self) -> bool:
        """A noun (or what may be one before another) that names something that can be drawn."""
        return self.part_of_speech in {"noun", "adjective"} and canonical(self.lemma) in picturable_nouns()


@cache
def _childrens_spellings() -> frozenset[str]:
    return frozenset(word for word, _ in childrens_words())


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


def names_in(analysis: Analysis) -> frozenset[str]:
    """Words that a text uses as names: proper nouns with a capital inside a sentence. As they are compared."""
    if _in_title_case(analysis.tokens):
        return frozenset()
    starts = {sentence.first for sentence in analysis.sentences}
    return frozenset(
        canonical(token.text)
        for at, token in enumerate(analysis.tokens)
        if token.pos == "PROPN" and at not in starts and token.text[:1].isupper() and not token.text.isupper()
    )


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
        self.tokens = analysis.tokens
        self.text = text
        self.index = index
        self.indexes = (index,) if unit_words is None else (index, unit_words)
        self.starts = {sentence.first for sentence in analysis.sentences}
        self.title_case = _in_title_case(self.tokens)
        self.names = names | names_in(analysis)
        self.bare = _is_bare(self.tokens)
        self.taken: set[int] = set()  # particles that belong to a verb before them

    def words(self) -> Iterator[WordLevel]:
        at = 0
        while at < len(self.tokens):
            if at in self.taken or not _is_word(self.tokens[at]):
                at += 1
                continue
            found, after = self._entry(at) or self._compound(at) or (self._single(at), at + 1)
            if found is not None:
                yield found
            at = after

    def _entry(self, at: int) -> tuple[WordLevel, int] | None:
        """A listed entry of several words that starts here."""
        keys = _keys(self.tokens[at])
        best: tuple[int, int, Listing] | None = None
        for listing in (item for index in self.indexes for item in index.starting_with(keys)):
            after = self._match(listing, at) if len(listing.parts) > 1 else 0
            if after and (best is None or (after, -listing.origin.rank) > best[:2]):
                best = (after, -listing.origin.rank, listing)
        if best is None:
            return self._split_verb(at, keys)
        after, _, listing = best
        return self._found(listing, at, after), after

    def _match(self, listing: Listing, at: int) -> int:
        """One past the last word of an entry that starts here, or 0. A hyphen may stand between its words."""
        place = at
        for number, part in enumerate(listing.parts):
            if number and place < len(self.tokens) and self.tokens[place].text in _HYPHENS:
                place += 1
            if place >= len(self.tokens) or part not in _keys(self.tokens[place]) or (number and place in self.starts):
                return 0
            place += 1
        return place

    def _split_verb(self, at: int, keys: frozenset[str]) -> tuple[WordLevel, int] | None:
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
        following = self.tokens[place + 1].pos if place + 1 < len(self.tokens) else "PUNCT"
        return token.dep in {"prt", "compound:prt"} or following in {"PUNCT", "CCONJ"}

    def _compound(self, at: int) -> tuple[WordLevel, int] | None:
        """A word written with hyphens, or one that the list writes solid and the text does not."""
        after = self._end_of_hyphened(at)
        first, last = self.tokens[at], self.tokens[after - 1]
        parts = [part for token in self.tokens[at:after] for part in _HYPHEN.split(canonical(token.text)) if part]
        if len(parts) < 2:
            return self._solid_in_list(at)
        ends = {parts[-1], _HYPHEN.split(canonical(last.lemma))[-1]}
        for key in ("".join((*parts[:-1], end)) for end in ends):
            for index in self.indexes:
                if key in index.by_solid:
                    return self._found(index.by_solid[key][0], at, after), after
        if all(_is_number(part) for part in parts):
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
            and _is_word(self.tokens[after + 1])
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
        keys = _keys(token)
        candidates = [item for index in self.indexes for item in index.starting_with(keys) if len(item.parts) == 1]
        candidates += [item for key in keys for item in self.index.by_solid.get(key, ()) if len(item.parts) > 1]
        candidates.sort(key=_authority)
        noise = _NOISE.search(token.text) or (at in self.starts and any(c.origin is Origin.SOUND for c in candidates))
        name = not noise and self._is_name(token, at)
        fitting = [item for item in candidates if self._fits(item, token, name=name)]
        elsewhere = next((item.entry for item in candidates if item.entry is not None), None)
        for listing in fitting:
            if name and listing.origin not in {Origin.COURSE, Origin.UNIT}:
                break
            free = any(item.free for item in fitting) and not (name and listing.origin is Origin.NAME)
            return self._found(listing, at, at + 1, free=free)
        if name:
            return self._made(at, at + 1, Origin.NAME, free=True)
        return self._unlisted(token, at, elsewhere)

    def _unlisted(self, token: Token, at: int, elsewhere: WordEntry | None) -> WordLevel:
        word = token.text
        if _is_number(word):
            return self._made(at, at + 1, Origin.NUMBER, free=True)
        if len(word) == 1:
            return self._made(at, at + 1, Origin.FUNCTION, free=True)
        if token.pos == "INTJ" or _NOISE.search(word):
            return self._made(at, at + 1, Origin.SOUND)
        said = token.reference if token.reference.level else reference(token.lemma, token.pos, word)
        origin = Origin(said.source) if said.level else Origin.UNKNOWN
        if origin is not Origin.REFERENCE:
            by_parts = _graded_by_parts(token)
            if by_parts:
                return self._made(at, at + 1, Origin.REFERENCE, by_parts, elsewhere)
        return self._made(at, at + 1, origin, said.level, elsewhere)

    def _fits(self, listing: Listing, token: Token, *, name: bool) -> bool:
        """Say whether a listing means this word, and not a word of the same spelling."""
        if listing.capital and not token.text[:1].isupper():
            return False
        if listing.entry is not None and not listing.capital and name:
            return False
        if len(listing.parts) > 1 or not listing.part_of_speech or self.bare:
            return True
        if listing.part_of_speech in {"phrase", "interjection"} or token.pos in {"X", "INTJ", "GAP"}:
            return True
        if token.pos in _READ_AS.get(listing.part_of_speech, frozenset()):
            return True
        if listing.part_of_speech == "function":
            return token.pos == "VERB" and canonical(token.lemma) in _VERBS_THAT_HOLD
        # Forms in -ing and -ed are verb, adjective and noun in one: the list's spelling decides.
        ending = canonical(token.text).endswith(("ing", "ed", "en"))
        return (
            ending and token.pos in {"VERB", "ADJ", "NOUN"} and listing.part_of_speech in {"noun", "adjective", "verb"}
        )

    def _is_name(self, token: Token, at: int) -> bool:
        """A proper noun: the parser says so, and its capital is not owed to its place."""
        word = token.text
        if token.pos not in {"PROPN", "NOUN", "ADJ"} or not word[:1].isupper():
            return False
        lowered = canonical(word)
        if any(item.origin is Origin.NAME for item in self.index.by_first.get(lowered, ())):
            return True
        if lowered in self.names and not self.index.has(lowered):
            return True
        if token.pos != "PROPN":
            return False
        shouted = word.isupper() and len(word) > 3
        if at not in self.starts and not self.title_case and not shouted:
            return True
        if lowered in given_names():
            return True
        common_noun = self.index.has(lowered) or self.index.has(token.lemma) or _ordinary(lowered)
        return not common_noun

    def _found(self, listing: Listing, at: int, after: int, *, free: bool = False) -> WordLevel:
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
            None,
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
        if _HYPHEN.search(text) and part == "verb":  # round-ended, well-known: no verb has such a form
            lemma, part = text.casefold(), "adjective"
        return WordLevel(first.start, last.end, text, lemma, part, origin, band, band, elsewhere=elsewhere, free=free)


def _authority(listing: Listing) -> tuple[int, int, int]:
    """The higher authority first, then what is taught first."""
    entry = listing.entry
    return (listing.origin.rank, entry.level if entry else 0, entry.unit if entry else 0)


def _is_word(token: Token) -> bool:
    return (
        token.tag not in {"GAP", "POS"}
        and token.pos not in {"PUNCT", "SYM", "SPACE"}
        and any(char.isalnum() for char in token.text)
        and "_" not in token.text
        and not _PLACE.search(token.text)
    )


def _keys(token: Token) -> frozenset[str]:
    """What a word may be listed under: as it stands, its lemma, and for forms in -ing and -ed their verb."""
    word = canonical(token.text)
    keys = {word, canonical(token.lemma)}
    if token.pos in {"NOUN", "ADJ"} and word.endswith(("ing", "ed")):
        keys.add(canonical(lemma_of(token.text, "VBG" if word.endswith("ing") else "VBD", "VERB", "")))
    elif token.pos in {"NOUN", "PROPN", "VERB"} and word.endswith("s") and not word.endswith("ss"):
        keys.add(canonical(lemma_of(token.text, "NNS", "NOUN", "")))
        keys.add(word[:-1])
    return frozenset(keys | {_HYPHEN.sub("", key) for key in keys})


def _ordinary(word: str) -> bool:
    """Say whether a word with a capital is an ordinary noun all the same, as far as the references know."""
    if (word, "noun") in childrens_words() or word in picturable_nouns():
        return True
    level = graded(word, "NOUN")
    return bool(level) and level != "C2"


def _in_title_case(tokens: Sequence[Token]) -> bool:
    """Say whether a text is set as titles are, with a capital on every word of any length."""
    long = [token.text for token in tokens if token.text.isalpha() and len(token.text) > 3]
    return len(long) > 1 and all(word[0].isupper() for word in long)


def _is_number(word: str) -> bool:
    return any(char.isdigit() for char in word) or word in entries("numbers.txt")


def _is_bare(tokens: Sequence[Token]) -> bool:
    """Say whether a text is a word by itself, or words in a row: its parts of speech are guesses."""
    words = [token for token in tokens if _is_word(token)]
    return len(words) == 1 or all(after.start - before.end > 1 for before, after in pairwise(words))


def _graded_by_parts(token: Token) -> str:
    """The level of a word that the reference has not, by the words it is made of: lunch + box, round-ended."""
    word = canonical(token.text if "-" in token.text else token.lemma)
    if "-" in word:
        levels = [lowest(part) for part in word.split("-") if part]
        return max(levels) if all(levels) else ""
    if token.pos not in {"NOUN", "PROPN"}:
        return ""
    for cut in range(3, len(word) - 2):
        pair = (word[:cut], word[cut:])
        if all(graded(part, "NOUN") in {"A1", "A2"} and common(part) >= 4.0 for part in pair):
            return max(graded(part, "NOUN") for part in pair)
    return ""
