"""What no dictionary has, and is no slip: names, pieces of words, letters, codes."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence

from lint_rules.english.alarms import is_slip
from lint_rules.english.left_alone import SPELLER
from lint_rules.english.spellings import LETTERS
from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.house_words import spelling_of
from lint_rules.manuscript.model import Passage

_PIECE = frozenset("-_+…")  # beside letters that are a piece of a word


def is_whole_word(text: str, match: EnglishMatch) -> bool:
    """Say whether a spelling is a word that was meant: no name (Lani got up), no piece of a word (-ation), no letters
    or code (ied, MPPL)."""
    words = text[match.start : match.end]
    around = text[match.start - 1 : match.start] + text[match.end : match.end + 1]
    return len(words) > LETTERS and not words[0].isupper() and _PIECE.isdisjoint(around)


def names_among(passages: Iterable[Passage], alarms: Callable[[Passage], Sequence[EnglishMatch]]) -> frozenset[str]:
    """The words that no dictionary has, and that are names by how they stand in the unit: in mid-sentence somewhere, or
    several times and always with a capital."""
    mid_sentence: set[str] = set()
    capitals: defaultdict[str, list[bool]] = defaultdict(list)
    for passage in passages:
        for match in alarms(passage):
            if match.rule.startswith(SPELLER):
                words = passage.text[match.start : match.end]
                capital = words[:1].isupper() and words[1:].islower() and not is_slip(words, match.replacements)
                capitals[spelling_of(words)].append(capital)
                if _is_in_mid_sentence(passage.text, match):
                    mid_sentence.add(spelling_of(words))
    return frozenset(mid_sentence | {word for word, seen in capitals.items() if len(seen) > 1 and all(seen)})


def _is_in_mid_sentence(text: str, match: EnglishMatch) -> bool:
    """Say whether a word has a capital that no beginning and no title gives it: Port Wenna."""
    before = text[: match.start].rstrip(" \"“‘'(")
    word = text[match.start : match.end]
    return word[:1].isupper() and word[1:].islower() and (before[-1:].isalnum() or before[-1:] in {",", "_"})
