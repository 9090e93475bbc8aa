"""What the core asks of the language room and of an English checker: two small protocols over plain data."""

from collections.abc import Sequence
from typing import Protocol

import msgspec

from lint_rules.language.tokens import Analysis, Mode


class Request(msgspec.Struct, frozen=True, array_like=True):
    """One text to analyse: a passage's plain text, how to read it, and which of the course's names occur in it.

    The answer depends on nothing else, so it can be cached by these three.
    """

    text: str
    mode: Mode
    names: tuple[str, ...] = ()


class Language(Protocol):
    """Analyses texts. ``version`` names model and rules, so that a cache never mixes two of them."""

    @property
    def version(self) -> str: ...

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable when the model cannot be had."""
        ...


class LanguageUnavailable(Exception):
    """The language model cannot be loaded; the message says how to cure it."""


class EnglishMatch(msgspec.Struct, frozen=True, array_like=True):
    """What the English checker says of a range ``start:end`` of a passage's text."""

    start: int
    end: int
    rule: str
    category: str
    message: str
    replacements: tuple[str, ...] = ()


class English(Protocol):
    """An English checker. ``version`` names server and rule set."""

    @property
    def version(self) -> str: ...

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One list of matches a text, in order; offsets in code points. Raises EnglishUnavailable."""
        ...


class EnglishUnavailable(Exception):
    """The English checker does not answer; the message says which one and what to do."""
