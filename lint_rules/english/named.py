"""Names that a checker takes for verbs: I'm Ding. What hasn't Grumble got?"""

from collections.abc import Callable

from lint_rules import lazy_re
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Passage

_NAME = lazy_re.compile(r"[A-Z][a-z]+")
# What stands before somebody's name, and before no other noun with a capital (in School, a Polish apple).
_BEFORE = lazy_re.compile(r"\b(?:I['’]m|[a-z]+n['’]t)\s+$")


def names_somebody(passage: Passage, match: EnglishMatch, is_ours: Callable[[str], bool]) -> bool:
    """Say whether what is flagged ends in such a name; ``is_ours`` says whether the course has the word."""
    last = (passage.text[match.start : match.end].split() or [""])[-1]
    before = _BEFORE.search(passage.text, 0, match.end - len(last))
    return before is not None and _NAME.fullmatch(last) is not None and is_ours(last)
