"""Does a sentence with pictures in place of words fit what a story says?

A sentence fits a story when its words and pictures, in order, are a part of one of the story's sentences. Words match
in any of their forms; a picture stands for the thing it shows, with the article and adjectives of its alternative text;
a gap stands for any word or two. Quotation marks and `said Rafi` do not count, on either side.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.language.tokens import Analysis, Token
from lint_rules.language.vocabulary.topics import topic_key
from lint_rules.language.vocabulary.word_index import canonical
from lint_rules.manuscript.model import PICTURE, Passage, Picture
from lint_rules.page.number_words import NUMBER_WORDS
from lint_rules.page.pictures import names_nothing
from lint_rules.plain_words import PART

_LETTERS = lazy_re.compile(r"[^\W_]")
_STOPS = frozenset(".!?…:")
_QUOTED = lazy_re.compile(r"[“\"„«][^“”\"»]*[”\"»“]|(?<!\w)[‘'](?!\w{1,2}\b)(?:[^‘’'\n]|(?<=\w)[’'](?=\w))+[’'](?!\w)")
_ARTICLES = frozenset({"a", "an", "the", "some"})
# fmt: off
_AFTER_THE_NOUN = frozenset({
    "with", "in", "on", "at", "of", "under", "behind", "next", "near", "between", "by", "for", "from", "to", "into",
    "and", "or", "who", "that", "which", "is", "are", "has", "having",
})
# fmt: on
_PICTURE_WORDS = frozenset(["picture", "drawing", "photo", "photograph", "image", "illustration"])
_LONGEST_GAP = 3
_NUMBERS = {str(number): word for word, number in NUMBER_WORDS.items()}


@dataclass(frozen=True, slots=True)
class Slot:
    """A place in a sentence: the words that may fill it, as they are compared; ``before`` are words that may stand
    before them in the same slot (adjectives of a picture), ``phrase`` is all that a picture's text says, word by word;
    ``gap``: any words may fill it."""

    keys: frozenset[str]
    start: int
    end: int
    before: frozenset[str] = frozenset()
    phrase: tuple[frozenset[str], ...] = ()
    picture: bool = False
    gap: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One sentence of a passage, as slots; ``start:end`` is its range in the passage's text."""

    passage: Passage
    slots: tuple[Slot, ...]
    start: int
    end: int


def lines_of(passage: Passage, analysis: Analysis) -> list[Line]:
    """The sentences of a passage, as they stand and, where it quotes somebody, as said without `said Rafi`."""
    found = list(_cut(passage, _slots(passage, analysis.tokens)))
    quoted = [(match.start(), match.end()) for match in _QUOTED.finditer(passage.text)]
    if quoted:
        said = (slot for slot in _slots(passage, analysis.tokens) if any(a < slot.end <= b for a, b in quoted))
        found += _cut(passage, said)
    return found


def fits(sentence: Line, story: Iterable[Line]) -> bool:
    """Say whether a sentence is a part of one of a story's sentences."""
    return any(_matches(sentence.slots, 0, line.slots, start) for line in story for start in range(len(line.slots)))


def nouns_of_picture(alt: str) -> tuple[tuple[str, ...], ...]:
    """What a picture shows, from its alternative text: for each thing its adjectives and its noun, the noun last.

    `a big red box` gives one; `a glass of milk` two (glass, milk); `a girl swimming` too (girl, swimming).
    """
    every = [word for word in _words(alt) if word not in _ARTICLES]
    if len(every) > 2 and every[0] in _PICTURE_WORDS and every[1] == "of":
        every = every[2:]
    cut = next((at for at, word in enumerate(every) if at and _ends_noun(word)), len(every))
    found = [tuple(every[:cut])] if cut else []
    rest = every[cut:]
    if rest[:1] == ["of"]:
        inner = next((at for at, word in enumerate(rest) if at > 1 and _ends_noun(word)), len(rest))
        found.append(tuple(rest[1:inner]))
    elif rest and rest[0].endswith("ing"):
        found.append((rest[0],))
    return tuple(phrase for phrase in found if phrase)


def names_of_picture(alt: str) -> tuple[frozenset[str], frozenset[str]]:
    """What a picture may be read as: its nouns, and all words that may stand before them, as they are compared."""
    keys = frozenset(key for phrase in nouns_of_picture(alt) for key in keys_of_word(phrase[-1]))
    return keys, frozenset(key for word in (*_words(alt), *_ARTICLES, "of") for key in keys_of_word(word))


def _words(alt: str) -> list[str]:
    return PART.findall(alt.casefold())


def _ends_noun(word: str) -> bool:
    return word in _AFTER_THE_NOUN or (word.endswith("ing") and len(word) > 5)


def keys_of_word(word: str) -> Iterator[str]:
    """A word as it is compared: as it stands, in the singular, a figure as a word."""
    plain = canonical(word)
    yield plain
    yield topic_key(plain) or plain
    if plain in _NUMBERS:
        yield _NUMBERS[plain]


@lru_cache(maxsize=8_000)
def _keys(text: str, lemma: str) -> frozenset[str]:
    has_or_is = {"be", "have"} if text in ("'s", "’s") else set()
    return frozenset({*keys_of_word(text), *keys_of_word(lemma), *has_or_is})


def _slots(passage: Passage, tokens: Sequence[Token]) -> Iterator[Slot]:
    """The words, pictures and gaps of a passage; a slot without keys is a mark that ends a sentence."""
    pictures = {picture.at: picture for picture in passage.pictures}
    for token in tokens:
        if any(start < token.end and token.start < end for start, end in passage.gaps):
            yield Slot(frozenset({"____"}), token.start, token.end, gap=True)
        elif PICTURE in token.text:
            yield from (_picture_slot(pictures.get(at), at) for at in range(token.start, token.end))
        elif _LETTERS.search(token.text):
            yield Slot(_keys(token.text, token.lemma), token.start, token.end)
        elif set(token.text) <= _STOPS:
            yield Slot(frozenset(), token.start, token.end)


def _picture_slot(picture: Picture | None, at: int) -> Slot:
    """A picture that says nothing of what it shows may be any word: art-brief asks about it."""
    if picture is None or names_nothing(picture.alt, picture.target):
        return Slot(frozenset({PICTURE}), at, at + 1, picture=True, gap=True)
    keys, before = names_of_picture(picture.alt)
    phrase = tuple(frozenset(keys_of_word(word)) for word in _words(picture.alt) if word not in _ARTICLES)
    return Slot(keys or frozenset({PICTURE}), at, at + 1, before, phrase, picture=True)


def _cut(passage: Passage, slots: Iterable[Slot]) -> Iterator[Line]:
    """Lines, cut where a sentence ends or a line breaks."""
    together: list[Slot] = []
    end = 0
    for slot in slots:
        if together and "\n" in passage.text[together[-1].end : slot.start]:
            yield _line(passage, together, end)
            together = []
        if slot.keys:
            together.append(slot)
            end = slot.end
            continue
        if together:
            yield _line(passage, together, slot.end)
        together = []
    if together:
        yield _line(passage, together, end)


def _line(passage: Passage, slots: Sequence[Slot], end: int) -> Line:
    """A line with the quotation mark that opens or closes it."""
    start, text = slots[0].start, passage.text
    start -= len(text[:start]) - len(text[:start].rstrip("“\"‘'«"))
    end += len(text[end:]) - len(text[end:].lstrip(".!?…”\"’'»")) if end < len(text) else 0
    return Line(passage, tuple(slots), start, end)


def _matches(wanted: Sequence[Slot], at: int, there: Sequence[Slot], start: int) -> bool:
    """Say whether the wanted slots from ``at`` on are the story's from ``start`` on."""
    if at == len(wanted):
        return True
    slot = wanted[at]
    if slot.gap and start == len(there) and not slot.picture:
        return _matches(wanted, at + 1, there, start)  # a line to write on at the end
    longest = _LONGEST_GAP if slot.gap else 1 + len(slot.before) if slot.picture else 1
    for end in range(start + 1, min(start + longest, len(there)) + 1):
        if _fills(slot, there[start:end]) and _matches(wanted, at + 1, there, end):
            return True
    return False


def _fills(slot: Slot, there: Sequence[Slot]) -> bool:
    *before, last = there
    if slot.gap or (slot.keys & last.keys and all(word.keys & slot.before for word in before)):
        return True
    words = [word for word in there if not word.keys & _ARTICLES]
    return bool(slot.phrase) and len(words) == len(slot.phrase) and all(map(_shares, words, slot.phrase))


def _shares(word: Slot, keys: frozenset[str]) -> bool:
    return bool(word.keys & keys)
