"""Turn a passage into what the parser reads best, keeping for every word the place it came from.

Characters are replaced one for one, so that offsets hold; words are replaced or put in word by word, each with the
range of the passage that it stands for (None for a word that stands for nothing, such as the ``please`` that helps the
parser to see a rubric for the order it is).
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from lint_rules.language import tables
from lint_rules.language.tokens import Mode

PICTURE = "\ufffc"
_PICTURE_STAND_IN = "\u0416"  # one letter that no English text holds, so that the tokenizer sees a word
_GAP_STAND_IN = "\u0414"
# Typographic marks and the plain ones the model was trained on (one for one).
_PLAIN = str.maketrans(
    {
        "\u2018": "'",
        "\u2019": "'",
        "\u201a": "'",
        "\u02bc": "'",
        "\u201c": '"',
        "\u201d": '"',
        "\u201e": '"',
        "\u00ab": '"',
        "\u00bb": '"',
        "\u2013": "-",
        "\u2014": "-",
        "\u2010": "-",
        "\u2011": "-",
        "\u00a0": " ",
        "\u2009": " ",
        "\u202f": " ",
        "\u3000": " ",
        "\u200b": " ",
        "\n": " ",
        "\r": " ",
        "\t": " ",
        PICTURE: _PICTURE_STAND_IN,
    }
)
_GAP = re.compile(r"_{2,}(?:\s+_{2,})*|\.{4,}|…{2,}")
_CAPITALS = re.compile(r"\b[A-Z]{2,}(?:'[A-Z]{1,2})?\b")
_SENTENCE_END = frozenset({".", "!", "?", "...", "…", "?!", "!!", "!!!", "??"})
_CLOSERS = frozenset({'"', "'", ")", "]", "''", "”"})
_NAMES = ("Anna", "Tom", "Mary", "Peter", "Kate", "Sam", "Lucy", "Ben")


@dataclass(slots=True)
class Prepared:
    """The words the parser is to read. ``places[i]`` is the passage's range of word i, or None for one put in."""

    words: list[str] = field(default_factory=list)
    spaces: list[bool] = field(default_factory=list)
    places: list[tuple[int, int] | None] = field(default_factory=list)
    starts: list[bool] = field(default_factory=list)
    gaps: set[int] = field(default_factory=set)
    names: set[int] = field(default_factory=set)
    pictures: set[int] = field(default_factory=set)

    def add(self, word: str, space: bool, place: tuple[int, int] | None, start: bool) -> int:
        """Add a word at the end and give its index."""
        self.words.append(word)
        self.spaces.append(space)
        self.places.append(place)
        self.starts.append(start)
        return len(self.words) - 1


Tokenize = Callable[[str], Sequence[tuple[str, int]]]


def plain(text: str) -> str:
    """The text with plain quotes, dashes and spaces, capitals lowered, gaps and pictures as letters; same length."""
    text = text.translate(_PLAIN)
    if "_" in text or "...." in text or "……" in text:
        text = _GAP.sub(lambda match: _GAP_STAND_IN * len(match[0]), text)
    return _CAPITALS.sub(_lowered, text)


def _lowered(match: "re.Match[str]") -> str:
    """A word in capitals as an ordinary one; it keeps its capital at the start of a sentence."""
    word = match[0]
    if word in tables.words("initials"):
        return word
    before = match.string[: match.start()].rstrip()
    return word.capitalize() if not before or before[-1] in '.!?"' else word.lower()


def prepare(text: str, mode: Mode, names: Sequence[str], tokenize: Tokenize) -> Prepared:
    """Prepare one passage for the parser."""
    result = Prepared()
    pieces = [(word, at) for word, at in tokenize(plain(text)) if not word.isspace()]
    starts = _sentence_starts(pieces, text)
    known = _names_at(pieces, names) if names else {}
    for index, (word, at) in enumerate(pieces):
        end = at + len(word)
        space = index + 1 < len(pieces) and pieces[index + 1][1] > end
        start = starts[index]
        if start and _wants_please(pieces, index, mode):
            result.add("Please", True, None, True)
            word, start = word[:1].lower() + word[1:], False
        if _GAP_STAND_IN in word:
            result.gaps.add(result.add(_gap_word(pieces, index), space, (at, end), start))
        elif word == _PICTURE_STAND_IN:
            result.pictures.add(result.add("thing", space, (at, end), start))
        elif index in known:
            result.names.add(result.add(known[index], space, (at, end), start))
        else:
            result.add(word, space, (at, end), start)
    return result


def _sentence_starts(pieces: Sequence[tuple[str, int]], text: str) -> list[bool]:
    """Say of each word whether a sentence starts there: after a full stop, question or exclamation mark or line."""
    starts = [index == 0 for index in range(len(pieces))]
    for index in range(1, len(pieces)):
        word, at = pieces[index]
        previous, previous_at = pieces[index - 1]
        gap = text[previous_at + len(previous) : at]
        if "\n" in gap and (word[:1].isupper() or word[:1].isdigit()):
            starts[index] = True
        elif gap:
            last = index - 1
            while last and pieces[last][0] in _CLOSERS:
                last -= 1
            mark = pieces[last][0]
            if mark not in _SENTENCE_END or word[:1].islower() or word in _CLOSERS - {'"', "'"}:
                continue
            if last and starts[last - 1] and pieces[last - 1][0].isdigit():
                continue  # `1. Look.`: the number belongs to what follows
            if last != index - 1 and _speech_tag(pieces, index):
                continue
            starts[index] = True
    return starts


def _speech_tag(pieces: Sequence[tuple[str, int]], index: int) -> bool:
    """Say whether `Tom said`, `said the cat` follows a closing quotation mark."""
    verbs = tables.words("speech_verbs")
    return any(word.lower() in verbs for word, _ in pieces[index : index + 3])


def _wants_please(pieces: Sequence[tuple[str, int]], index: int, mode: Mode) -> bool:
    """Say whether a sentence of a rubric starts with an order that the parser could take for a noun."""
    return mode is Mode.INSTRUCTION and pieces[index][0].lower() in tables.words("orders")


def _names_at(pieces: Sequence[tuple[str, int]], names: Sequence[str]) -> dict[int, str]:
    """Where the course's names stand, and the well-known name that stands in for each."""
    found: dict[int, str] = {}
    lowered = [word.lower() for word, _ in pieces]
    for number, name in enumerate(names):
        parts = name.lower().replace("-", " - ").split()
        for index in range(len(lowered) - len(parts) + 1):
            if lowered[index : index + len(parts)] == parts and pieces[index][0][:1].isupper():
                found[index + len(parts) - 1] = _NAMES[number % len(_NAMES)]
    return found


_THIRD = frozenset({"he", "she", "it", "this", "that", "who", "what"})
_OTHERS = frozenset({"i", "you", "we", "they"})
_DETERMINERS = frozenset({"a", "an", "the", "my", "your", "his", "her", "its", "our", "their", "this", "these", "some"})


def _gap_word(pieces: Sequence[tuple[str, int]], index: int) -> str:
    """A neutral word that can stand in a gap, judged by its neighbours."""
    before = pieces[index - 1][0].lower() if index else ""
    after = pieces[index + 1][0].lower() if index + 1 < len(pieces) else ""
    ends = not after or not after[0].isalpha()
    if before in _DETERMINERS:
        return "thing" if ends or after not in tables.words("common_nouns") else "big"
    if before in ("is", "are", "was", "were", "am", "'s", "'re", "'m") and not ends and after in _DETERMINERS:
        return "making"
    if before == "there":
        return "are" if after.endswith("s") or after in ("two", "three", "four", "five", "some", "many") else "is"
    if before in _THIRD or before in _OTHERS or (not before and after in _OTHERS):
        third = before in _THIRD
        if after.endswith("ing") or after == "going":
            return "is" if third else "are"
        if not before:
            return "Do"
        return "it" if ends else "likes" if third else "like"
    if not before and (after in _THIRD or after in ("are", "is", "do", "does")):
        return "Does" if after in _THIRD else "What"
    if before in ("can", "can't", "will", "must", "should", "to", "n't", "not", "let", "don't"):
        return "make" if not ends else "go"
    return "it" if ends else "make" if after in _DETERMINERS else "thing"
