"""Letters and words to put in order: `k i t h c e n`, `got / has / Wren / a / drum`, `(egdirb)`, a word snake."""

import re
from collections import Counter

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.model import Place
from lint_rules.page.exercises.separators import ANY
from lint_rules.plain_words import WORD

_SPACED = lazy_re.compile(rf"(?<![^\s(])[^\W\d_](?:(?:[ \u00a0,.–-]|{ANY})+[^\W\d_]){{2,}}(?!(?!{ANY})[^\s.,;)→=?!])")
_BETWEEN = lazy_re.compile(rf"\s*(?:{ANY}+|,|\+|;|<>|\s[–—-]\s|\u00a0{{2,}}|[ \t]{{2,}}|\][ \t]*\[|\)[ \t]*\()\s*")
_PARTS = lazy_re.compile(
    rf"\s*[(\[]?(?P<parts>[^\W\d_]{{1,7}}(?:\s*(?:{ANY}|[+–—-])+\s*[^\W\d_]{{1,7}})+)[)\]]?\s*(?=[→=_]|$)"
)
_ARROW = lazy_re.compile(r"\s*(?:→|=>|->|=|_{2,}).*$", re.S)
_SENTENCES = lazy_re.compile(
    r"\b(?:in order|order the|make (?:a |the )?(?:sentence|question)|jumbled|mixed|right order)", re.I
)
_SPEAKER = lazy_re.compile(r"\s*([^\W\d_][\w.’'-]*(?:\s[^\W\d_][\w.’'-]*){0,2}):\s+")
_FEWEST = 3
_CARD = " \t\n\u00a0[]()"


def letters_in(place: Place) -> Place | None:
    """The letters of a range that stand one by one: `k i t h c e n n`."""
    match = _SPACED.search(place.passage.text, place.start, place.end)
    return Place(place.passage, *match.span()) if match else None


def parts_in(place: Place) -> Place | None:
    """The parts of one word, with signs between: `co · broc`, `ter + win`."""
    match = _PARTS.match(place.passage.text, place.start, place.end)
    return Place(place.passage, *match.span("parts")) if match is not None else None


def letters_of(text: str) -> Counter[str]:
    """How often each letter occurs, whatever stands between."""
    return Counter(char for char in text.casefold() if char.isalpha())


def words_in(place: Place, said: str = "") -> tuple[Place, ...]:
    """The pieces of a range that lists words to put in order; none where it is no list. Whoever speaks the line
    (`MINA: you · old · how · are ?`) is no piece, unless the key says that name (``said``)."""
    speaker = _SPEAKER.match(place.passage.text, place.start, place.end)
    if speaker is not None and plain(speaker[1]) not in plain(said):
        place = Place(place.passage, speaker.end(), place.end)
    text = place.passage.text[place.start : place.end]
    end = place.start + len(_ARROW.sub("", text))
    pieces: list[Place] = []
    at = place.start
    for match in (*_BETWEEN.finditer(place.passage.text, place.start, end), None):
        last = match.start() if match else end
        piece = place.passage.text[at:last]
        left = at + len(piece) - len(piece.lstrip(_CARD))
        if piece.strip(_CARD):
            pieces.append(Place(place.passage, left, left + len(piece.strip(_CARD))))
        at = match.end() if match else end
    longest = max((len(piece.text.split()) for piece in pieces), default=0)
    return tuple(pieces) if len(pieces) >= _FEWEST and longest <= 4 else ()


def words_of(text: str) -> Counter[str]:
    """How often each word occurs, as words are compared."""
    return Counter(map(plain, WORD.findall(text)))


def asks_for_order(instruction: str) -> bool:
    """Whether an instruction asks to put words in order."""
    return _SENTENCES.search(instruction) is not None
