"""Forms to choose from, with a stroke between them: `She is / isn't happy`. The parser reads the first; the others are
put back beside it afterwards, as words that show no structure."""

from collections.abc import Sequence

from lint_rules.language.inflection.verb_forms import s_base
from lint_rules.language.parsing.substitutions import Piece

# Forms that show the same structure, so that the first can speak for all of them.
_ALIKE = (
    frozenset({"am", "is", "are"}),
    frozenset({"was", "were"}),
    frozenset({"do", "does"}),
    frozenset({"have", "has"}),
    frozenset({"can", "ca"}),
    frozenset({"will", "wo"}),
    frozenset({"must"}),
    frozenset({"should"}),
    frozenset({"could"}),
    frozenset({"a", "an", "the", "any", "some"}),
    frozenset({"he", "she", "it"}),
    frozenset({"i", "you", "we", "they"}),
)
_NOT = frozenset({"n't", "not"})


def second_choices(pieces: Sequence[Piece]) -> set[int]:
    """Indices of strokes and of the forms after them, where the form before one stands in a sentence."""
    words = [word.lower() for word, _ in pieces]
    if "/" not in words:
        return set()
    found: set[int] = set()
    for index in range(1, len(words) - 1):
        if words[index] != "/":
            continue
        first = index - 2 if words[index - 1] in _NOT and index > 1 else index - 1
        while first in found:
            first -= 1
        length = _alike(words, first, index + 1)
        if length:
            found.update(range(index, index + 1 + length))
    others = [word for index, word in enumerate(words) if index not in found and word.isalpha()]
    return found if len(others) > 1 else set()


def _alike(words: list[str], first: int, second: int) -> int:
    """How many words the second choice has, if it shows the same as the first; else 0."""
    one, other = words[first], words[second]
    negative = second + 1 < len(words) and words[second + 1] in _NOT
    if any(one in alike and other in alike for alike in _ALIKE):
        return 2 if negative else 1
    if negative and other in ("do", "does") and second + 2 < len(words):
        verb = words[second + 2]
        return 3 if one == verb or s_base(one) == verb else 0
    return 1 if s_base(one) == other or s_base(other) == one else 0
