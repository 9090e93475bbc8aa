"""What a general reference says of a word: its CEFR level, and which reference says so.

The course's own list is the authority (see ``words.py``); this is what is asked where the list is silent.

- ``cefrpy``: the open data of the package cefrpy (1.0.3, MIT licence): 172,782 words, a level for each of their parts
  of speech. It files common nouns as proper nouns (NNP) as often as not, so all noun tags are looked at. Where it has
  no grade of its own for a word it says C2: a C2 from there means 'not in the graded lists', not 'hard'.
- ``frequency``: the last resort, for words that cefrpy has not: how common the word is in English at large (package
  wordfreq 3.1.1), turned into a band. It says little about a single word, and the messages say so.

The tables are read once a process, when first asked for; importing this module reads nothing.
"""

import struct
import unicodedata
from bisect import bisect_left
from collections.abc import Mapping
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from lint_rules.language.tokens import Reference

LEVELS = ("A1", "A2", "B1", "B2", "C1", "C2")
UNKNOWN = Reference("", "")

# The order of the tags in cefrpy's data file (cefrpy/POSTag.py, version 1.0.3).
TAGS = (
    *("CC", "CD", "DT", "IN", "JJ", "JJR", "JJS", "MD", "NN", "NNS", "NNP", "NNPS", "PRP", "RB", "RBR", "RBS", "RP"),
    *("TO", "UH", "VB", "VBD", "VBG", "VBN", "VBP", "VBZ", "WDT", "WP", "WRB"),
)

# Universal Dependencies part of speech → the reference's tags, the likeliest first.
TAGS_OF = {
    "NOUN": ("NN", "NNS", "NNP", "NNPS"),
    "PROPN": ("NNP", "NNPS", "NN", "NNS"),
    "VERB": ("VB", "VBP", "VBZ", "VBD", "VBG", "VBN"),
    "AUX": ("MD", "VB", "VBP", "VBZ", "VBD"),
    "ADJ": ("JJ", "JJR", "JJS"),
    "ADV": ("RB", "RBR", "RBS", "WRB", "RP"),
    "PRON": ("PRP", "WP", "DT", "WDT"),
    "DET": ("DT", "WDT", "PRP", "CD"),
    "ADP": ("IN", "RP", "TO"),
    "SCONJ": ("IN", "WRB"),
    "CCONJ": ("CC",),
    "PART": ("RP", "TO", "RB"),
    "NUM": ("CD",),
    "INTJ": ("UH",),
}

# Least Zipf frequency (wordfreq: log10 of uses in a thousand million words) for each band. House figures, half a
# power of ten apart; that words of a higher level are rarer is checked against cefrpy's own grades in tests/words.
BANDS_BY_FREQUENCY = ((5.0, "A1"), (4.5, "A2"), (4.0, "B1"), (3.5, "B2"), (3.0, "C1"), (0.01, "C2"))

COMMON = 4.0  # Zipf frequency, told to two places, of a word that is common in English at large


class _Table:
    """cefrpy's data file: blocks of word, tag, level, sorted, one stretch for each length of word."""

    def __init__(self, data: bytes) -> None:
        count = data[0]
        self._starts = struct.unpack(f"<{count}I", data[1 : 1 + 4 * count])
        self._blocks = data[1 + 4 * count :]

    def levels(self, word: str) -> dict[str, float]:
        """Tag → level (1.0 is A1, 6.0 is C2) of a word in lower-case letters a–z; empty when it is not there."""
        key, size = word.encode("ascii", "replace"), len(word)
        if not 0 < size < len(self._starts):
            return {}
        start, end, width, blocks = self._starts[size - 1], self._starts[size], size + 2, self._blocks
        count = (end - start) // width
        at = bisect_left(range(count), key, key=lambda i: blocks[start + i * width : start + i * width + size])
        found: dict[str, float] = {}
        for place in range(start + at * width, end, width):
            if blocks[place : place + size] != key:
                break
            found[TAGS[blocks[place + size]]] = blocks[place + size + 1] / 50 + 1
        return found


@lru_cache(maxsize=1)
def _table() -> _Table:
    # Importing cefrpy checks every one of its blocks in Python (0.15 s); the data file alone is read in 2 ms.
    spec = find_spec("cefrpy")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError("the package cefrpy is not installed; install hornbook again with its dependencies")
    return _Table(Path(spec.origin).with_name("data.bin").read_bytes())


def plain(word: str) -> str:
    """A word in lower case without its accents (``Café`` → ``cafe``), as the reference spells it."""
    lowered = word.casefold()
    if lowered.isascii():
        return lowered
    return "".join(char for char in unicodedata.normalize("NFKD", lowered) if not unicodedata.combining(char))


@lru_cache(maxsize=8_000)
def _levels(word: str) -> Mapping[str, float]:
    return _table().levels(plain(word))


@lru_cache(maxsize=20_000)
def graded(word: str, pos: str) -> str:
    """The level cefrpy gives a word as that part of speech ('' when it has not the word at all).

    Where it has the word only as other parts of speech, the lowest of their levels counts.
    """
    levels = _levels(word)
    if not levels:
        return ""
    tag = next((tag for tag in TAGS_OF.get(pos, ()) if tag in levels), None)
    return LEVELS[round(levels[tag] if tag else min(levels.values())) - 1]


def is_only_adjective(word: str) -> bool:
    """Say whether cefrpy knows a spelling as an adjective and as nothing else."""
    return _levels(word).keys() == {"JJ"}


@lru_cache(maxsize=20_000)
def is_a(word: str, pos: str) -> bool:
    """Say whether cefrpy knows a spelling as a part of speech."""
    return not _levels(word).keys().isdisjoint(TAGS_OF.get(pos, ()))


@lru_cache(maxsize=20_000)
def lowest(word: str) -> str:
    """The lowest level that cefrpy gives a spelling, whatever its part of speech ('' when it has not the word)."""
    levels = _levels(word)
    return LEVELS[round(min(levels.values())) - 1] if levels else ""


@lru_cache(maxsize=1)
def common_words() -> frozenset[str]:
    """The words that are common in English at large."""
    from wordfreq import get_frequency_dict, zipf_to_freq

    least = zipf_to_freq(COMMON - 0.005)
    return frozenset(word for word, frequency in get_frequency_dict("en").items() if frequency >= least)


@lru_cache(maxsize=20_000)
def common(word: str) -> float:
    """How common a word is in English at large: its Zipf frequency (0.0: never seen, 7.7: ``the``)."""
    from wordfreq import zipf_frequency  # slow to load, and many a unit has no word that cefrpy lacks

    return float(zipf_frequency(word.replace("-", " "), "en"))


@lru_cache(maxsize=20_000)
def _reference(lemma: str, pos: str) -> Reference:
    level = graded(lemma, pos)
    if level:
        return Reference(level, "cefrpy")
    if not any(char.isalpha() for char in lemma):
        return UNKNOWN
    zipf = common(lemma)
    level = next((band for least, band in BANDS_BY_FREQUENCY if zipf >= least), "")
    return Reference(level, "frequency") if level else UNKNOWN


def reference(lemma: str, pos: str, text: str = "") -> Reference:
    """The reference level of a word by its lemma and Universal Dependencies part of speech.

    ``text`` is the word as it stands, asked about only where nothing is known of the lemma. The same for every course.
    Punctuation, symbols and numerals have no level.
    """
    if pos in {"PUNCT", "SYM", "SPACE", "X"} and not lemma.isalpha():
        return UNKNOWN
    found = _reference(lemma.casefold(), pos)
    if found.level or not text or text.casefold() == lemma.casefold():
        return found
    return _reference(text.casefold(), pos)
