"""Numbers in words, as books for children and teacher's notes write them: zero to twenty."""

from collections.abc import Mapping
from types import MappingProxyType

# fmt: off
_WORDS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)
# fmt: on
NUMBER_WORDS: Mapping[str, int] = MappingProxyType({word: number for number, word in enumerate(_WORDS)})


def in_words(number: int) -> str:
    """A number as a children's book writes it: in words up to twenty, else in figures."""
    return _WORDS[number] if 0 <= number < len(_WORDS) else str(number)
