"""Names that a checker takes for other words: I'm Ding. What hasn't Grumble got? Stilts was there. A apples, B cake."""

from collections.abc import Callable

from lint_rules import lazy_re
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Passage

_NAME = lazy_re.compile(r"[A-Z][a-z]+")
# What stands before somebody's name, and before no other noun with a capital (in School, a Polish apple).
_BEFORE = lazy_re.compile(r"\b(?:I['’]m|[a-z]+n['’]t)\s+$")
_SUBJECT = lazy_re.compile(r"(?:^|[.!?…:;,“”\"'‘’(]\s*|\b(?:and|but|so|then|now|when)\s+)([A-Z][a-z]+)\s+$")
_VERBS = frozenset({"is", "was", "has", "does", "isn't", "wasn't", "hasn't", "doesn't"})
_NEXT_LETTER = lazy_re.compile(r"(?:^|[\s·|;,(])B[.):]?\s")


def names_somebody(passage: Passage, match: EnglishMatch, is_ours: Callable[[str], bool]) -> bool:
    """Say whether what is flagged is or ends in such a name, or is the letter of a picture; ``is_ours`` says whether
    the course has the word."""
    flagged = passage.text[match.start : match.end]
    if flagged == "A" and _NEXT_LETTER.search(passage.text, match.end) is not None:
        return True
    one = _SUBJECT.search(passage.text, 0, match.start) if flagged.replace("’", "'") in _VERBS else None
    if one is not None and one[1].endswith("s") and is_ours(one[1]):
        return True  # Stilts is one heron
    last = (passage.text[match.start : match.end].split() or [""])[-1]
    before = _BEFORE.search(passage.text, 0, match.end - len(last))
    return before is not None and _NAME.fullmatch(last) is not None and is_ours(last)
