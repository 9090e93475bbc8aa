"""The language analysis as plain data: what rules see, what the cache stores. No library's objects in here.

All offsets are half-open ranges into the plain text of one passage.
"""

from enum import StrEnum

import msgspec


class Mode(StrEnum):
    """How a passage is read: an instruction is parsed as the rubric it is, all else as running text."""

    TEXT = "text"
    INSTRUCTION = "instruction"


class Reference(msgspec.Struct, frozen=True, array_like=True):
    """What a general reference says of a word: its CEFR level (A1 … C2) and which reference says so."""

    level: str  # 'A1' … 'C2', or '' when no reference has it
    source: str  # 'cefrpy', 'frequency' or ''


class Token(msgspec.Struct, frozen=True, array_like=True):
    """A word or a mark.

    ``lemma`` is lower case but for names; ``pos`` is the Universal Dependencies part of speech (``NOUN`` …), ``tag``
    the Penn Treebank tag, ``dep`` and ``head`` (index of the head token) the parse, all after hornbook's corrections.
    """

    start: int
    end: int
    text: str
    lemma: str
    pos: str
    tag: str
    dep: str
    head: int
    reference: Reference


class Sentence(msgspec.Struct, frozen=True, array_like=True):
    """A sentence: its range of the passage's text and of its tokens."""

    start: int
    end: int
    first: int  # index of its first token
    last: int  # one past its last token


class Structure(msgspec.Struct, frozen=True, array_like=True):
    """A grammatical structure: its name (design: kebab-case) and the range of the words that show it."""

    name: str
    start: int
    end: int


class Analysis(msgspec.Struct, frozen=True, array_like=True):
    """Everything the language room says of one passage."""

    tokens: tuple[Token, ...]
    sentences: tuple[Sentence, ...]
    structures: tuple[Structure, ...]
