"""Names that are verbs as well, which a checker takes for verbs: I'm Ding. What hasn't Grumble got?"""

from collections.abc import Callable

from lint_rules.language.service import EnglishMatch
from lint_rules.language.vocabulary.reference import is_a
from lint_rules.manuscript.model import Passage

_NO_NAMES = frozenset({"May", "March"})  # on May: a slip


def names_somebody(passage: Passage, match: EnglishMatch, is_ours: Callable[[str], bool]) -> bool:
    """Say whether what is flagged ends in such a name inside a sentence; ``is_ours`` says whether the course has it."""
    last = passage.text[match.start : match.end].split()[-1]
    inside = passage.text[: match.end - len(last)].rstrip()[-1:] not in ("", *".!?:")
    name = last.istitle() and last not in _NO_NAMES and is_a(last.casefold(), "VERB")
    return inside and name and is_ours(last)
