"""Turn a passage into what the parser reads best, keeping for every word the place it came from.

Characters are replaced one for one, so that offsets hold; words are replaced or put in word by word, each with the
range of the passage that it stands for (None for a word that stands for nothing, such as the *please* that helps the
parser to see a rubric for the order it is).
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from lint_rules import lazy_re, tables
from lint_rules.language.inflection.verb_forms import bases
from lint_rules.language.parsing.choices import second_choices
from lint_rules.language.parsing.substitutions import Piece, gap_word, names_at, substitutions
from lint_rules.language.tokens import Mode
from lint_rules.manuscript.model import PICTURE

_PICTURE_STAND_IN = "\u0416"  # a letter that no English text holds, so that the tokenizer sees a word
_GAP_STAND_IN = "\u0414"
# Typographic marks and the plain ones the model was trained on (one for one).
_PLAIN = str.maketrans(
    "\u2018\u2019\u201a\u02bc\u201c\u201d\u201e\u00ab\u00bb\u2013\u2014\u2010\u2011\u00a0\u2009\u202f\u3000\u200b\n\r\t"
    + PICTURE,
    '\'\'\'\'"""""----        ' + _PICTURE_STAND_IN,
)
_GAP = lazy_re.compile(r"_{2,}(?:\s+_{2,})*|\.{4,}|…{2,}")
_CAPITALS = lazy_re.compile(r"\b[A-Z]{2,}(?:'[A-Z]{1,2})?\b")
_CLOSERS = frozenset({'"', "'", ")", "]", "''"})
_OPENERS = frozenset({'"', "'", "(", "["})


@dataclass(slots=True)
class Prepared:
    """The words the parser is to read. ``places[i]`` is the passage's range of word i, or None for one put in."""

    words: list[str] = field(default_factory=list)
    spaces: list[bool] = field(default_factory=list)
    places: list[tuple[int, int] | None] = field(default_factory=list)
    starts: list[bool] = field(default_factory=list)
    gaps: set[int] = field(default_factory=set)
    names: set[int] = field(default_factory=set)
    replaced: set[int] = field(default_factory=set)  # read as another word, so that the parser's lemma is not theirs
    aside: list[tuple[int, str, tuple[int, int]]] = field(default_factory=list)  # word before, word, place: not parsed

    def add(self, word: str, space: bool, place: tuple[int, int] | None, start: bool) -> int:
        """Add a word at the end and give its index."""
        self.words.append(word)
        self.spaces.append(space)
        self.places.append(place)
        self.starts.append(start)
        return len(self.words) - 1


Tokenize = Callable[[str], Sequence[Piece]]

_RAISED = lazy_re.compile(r"\^\d{1,2}\^")  # the raised number of a gap or a note: has^2^ got


def plain(text: str) -> str:
    """The text with plain quotes, dashes and spaces, capitals lowered, gaps and pictures as letters, and without raised
    numbers; same length."""
    text = text.translate(_PLAIN)
    if "^" in text:
        text = _RAISED.sub(lambda match: " " * len(match[0]), text)
    if "__" in text or "...." in text or "……" in text:
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
    pieces = [piece for word, at in tokenize(plain(text)) if not word.isspace() for piece in _split(word, at)]
    pieces = _restore(_letters_at_ends(pieces))
    starts = _sentence_starts(pieces, text)
    instead = substitutions(pieces)
    known = names_at(pieces, names, text) if names else {}
    aside = second_choices(pieces)
    last = len(pieces) - 1
    for index, (word, at) in enumerate(pieces):
        place = (at, at + len(word))
        if index in aside:
            result.aside.append((len(result.words) - 1, word.lower(), place))
            continue
        space = index < last and pieces[index + 1][1] > place[1]
        start = starts[index]
        if start and mode is Mode.INSTRUCTION and index not in known and _is_order(pieces, index):
            result.add("Please", True, None, True)
            word, start = word[:1].lower() + word[1:], False
        if _GAP_STAND_IN in word:
            result.gaps.add(result.add(gap_word(pieces, index), space, place, start))
        elif _PICTURE_STAND_IN in word:
            result.replaced.add(result.add("thing", space, place, start))
        elif index in known:
            result.names.add(result.add(known[index], space, place, start))
        elif index in instead and word[0].isalpha() and len(word) > 2:
            result.replaced.add(result.add(instead[index], space, place, start))
        else:
            result.add(instead.get(index, word), space, place, start)
    return result


_RUN_TOGETHER = frozenset({"its", "your", "lets"})
_AFTER_YOUR = frozenset(["a", "an", "the", "not", "going", "welcome", "so", "in"])


def _restore(pieces: list[Piece]) -> list[Piece]:
    """Split *its* and *your* where only *it's* and *you're* make sense, as careless writers spell them."""
    restored: list[Piece] = []
    for index, (word, at) in enumerate(pieces):
        low = word.lower()
        after = pieces[index + 1][0].lower() if low in _RUN_TOGETHER and index + 1 < len(pieces) else ""
        if (
            (low == "lets" and not index and after in bases())
            or (low == "its" and after in tables.group("after_its"))
            or (low == "your" and after in _AFTER_YOUR)
        ):
            restored += [(word[:-1], at), (word[-1], at + len(word) - 1)]
        else:
            restored.append((word, at))
    return restored


_UNITS = frozenset({"g", "kg", "mg", "m", "cm", "mm", "km", "l", "ml", "min"})  # symbols that have no stop of their own


def _letters_at_ends(pieces: list[Piece]) -> list[Piece]:
    """Part a letter from the full stop behind it, where it names a thing and a new sentence begins (`We put it on ice
    cube A. Now it melts.`; not in `Mr A. Tunn`, `A. B. Tunn`), and an order that is cut short to nothing: `Wash.`"""
    found: list[Piece] = []
    for index, (word, at) in enumerate(pieces):
        if not word.endswith("."):
            found.append((word, at))
            continue
        before = pieces[index - 1][0] if index else ""
        after = pieces[index + 1][0] if index + 1 < len(pieces) else ""
        named = len(word) == 2 and word[0].isupper() and len(before) > 1 and before.islower()
        named = named or (word[:-1] in _UNITS and before[-1:].isdigit())  # It weighs 700 g. It is red.
        whole = len(word) > 3 and word[:-1].isalpha() and word[:-1].lower() in bases()
        if whole or (named and after[:1].isupper() and not after.endswith(".")):
            found += [(word[:-1], at), (".", at + len(word) - 1)]
        else:
            found.append((word, at))
    return found


def _split(word: str, at: int) -> tuple[Piece, ...]:
    """Pieces of a word that the tokenizer leaves whole: a gap or a picture with letters at it."""
    for mark in (_GAP_STAND_IN, _PICTURE_STAND_IN):
        if mark in word and len(set(word)) > 1:
            return tuple((match[0], at + match.start()) for match in re.finditer(f"{mark}+|[^{mark}]+", word))
    return ((word, at),)


_LONGEST_NAME = 3


_COLUMN = 3  # spaces: what is set in columns is no sentence


def _sentence_starts(pieces: Sequence[Piece], text: str) -> list[bool]:
    """Say of each word whether a sentence starts there: after a full stop, question or exclamation mark or line."""
    ends = tables.words("sentence_ends")
    starts = [index == 0 for index in range(len(pieces))]
    for index in range(1, len(pieces)):
        word, at = pieces[index]
        previous, previous_at = pieces[index - 1]
        between = text[previous_at + len(previous) : at]
        begins_line = "\n" in between and (previous in ends or not word[:1].islower())
        begins_line = begins_line or len(between) >= _COLUMN
        if begins_line or (previous == ":" and word[:1].isupper() and _is_speaker(pieces, starts, index - 1)):
            starts[index] = True
        elif between:
            last = index - 1
            while last and pieces[last][0] in _CLOSERS and pieces[last - 1][0] not in _OPENERS:
                last -= 1
            if pieces[last][0] not in ends or (word[:1].islower() and not _is_sung_sound(pieces, index)):
                continue
            if last and starts[last - 1] and pieces[last - 1][0].isdigit():
                continue  # `1. Look.`: the number belongs to what follows
            if last != index - 1 and _speech_tag(pieces, index):
                continue
            starts[index] = True
    return starts


def _is_sung_sound(pieces: Sequence[Piece], index: int) -> bool:
    """Say whether a line begins with a sound, which has no capital: Pin, Pin, Pin. i, i, i, sit in a tin!"""
    return len(pieces[index][0]) == 1 and [word for word, _ in pieces[index + 1 : index + 3]] == [",", pieces[index][0]]


def _is_speaker(pieces: Sequence[Piece], starts: Sequence[bool], colon: int) -> bool:
    """Say whether what stands before a colon is who speaks: a name of three words at most, at the start of a line."""
    begin = max(at for at in range(colon + 1) if starts[at])
    name = [word for word, _ in pieces[begin:colon]]
    return 0 < len(name) <= _LONGEST_NAME and all(word[:1].isupper() or word == "." for word in name)


def _speech_tag(pieces: Sequence[Piece], index: int) -> bool:
    """Say whether `Tom said`, `said the cat` follows a closing quotation mark."""
    verbs = tables.words("speech_verbs")
    return any(word.lower() in verbs for word, _ in pieces[index : index + 3])


def _is_order(pieces: Sequence[Piece], index: int) -> bool:
    """Say whether a sentence of a rubric starts with an order that the parser could take for a noun.

    A short line without a full stop whose second word is a bare noun can be a title (`Number game`, `Time to play`).
    """
    if pieces[index][0].lower() not in tables.words("orders"):
        return False
    after = pieces[index + 1][0].lower() if index + 1 < len(pieces) else ""
    stopped = pieces[-1][0] in tables.words("sentence_ends")
    return stopped or not (
        after in ("to", "of", "for") or (len(pieces) <= 3 and after.isalpha() and after not in tables.group("objects"))
    )
