"""Words of the lists that stand for something else where they are met, as any reader sees from the words beside them.

*Write the letter of the rule* is about no letter that is posted, *Choose the right word* about no side, *we got lost*
about no game.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lint_rules import lazy_re
from lint_rules.course.model import WordEntry

_OF_ALPHABET = lazy_re.compile(
    r"(?i:\b(?:write|circle|find|match|put|choose|say|trace|tick|colour)\b[^.!?]*$"
    r"|\b(?:first|last|missing|capital|small|big|silent|right|correct|same)\s$)"
)
_NAMED_LETTER = lazy_re.compile(r"\s+[A-Za-z]\b(?!['’])")
_GOT = lazy_re.compile(r"(?i:\b(?:get|gets|got|getting|is|are|was|were|am|be|['’](?:s|re|m))\s+$)")
_CORRECT = lazy_re.compile(r"(?i:\b(?:the|a|one)\s+$)")
_TO_CHOOSE = lazy_re.compile(
    r"(?i:\s+(?:words?|answers?|pictures?|box(?:es)?|letters?|sentences?|order|forms?|places?|names?|numbers?|ones?|"
    r"colours?|questions?|verbs?|titles?)\b)"
)


def _letter(before: str, after: str, text: str) -> bool:
    return _OF_ALPHABET.search(before) is not None or _NAMED_LETTER.match(after) is not None


def _lose(before: str, after: str, text: str) -> bool:
    return text == "lost" and _GOT.search(before) is not None


def _right(before: str, after: str, text: str) -> bool:
    return _CORRECT.search(before) is not None and _TO_CHOOSE.match(after) is not None


_SENSES: Mapping[str, Callable[[str, str, str], bool]] = MappingProxyType(
    {"letter": _letter, "lose": _lose, "right": _right}
)


def is_another_sense(text: str, start: int, end: int, entry: WordEntry) -> bool:
    """Say whether the word at ``start`` to ``end`` of a text has another sense than the list's ``entry``."""
    sense = _SENSES.get(entry.word.casefold())
    return sense is not None and sense(text[:start], text[end:], text[start:end].casefold())
