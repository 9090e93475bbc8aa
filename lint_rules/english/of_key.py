"""What an English checker says of words that a key has put into a blank: the key is wrong there, not the page."""

from collections.abc import Iterable, Iterator

from lint_rules.english.alarms import is_listened_to
from lint_rules.english.left_alone import SPELLER, is_left_alone
from lint_rules.english.said_twice import TWICE
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.page.exercises.edits import filled_ranges


def slips_of_key(passage: Passage, matches: Iterable[EnglishMatch]) -> Iterator[tuple[EnglishMatch, tuple[int, int]]]:
    """The matches about grammar that touch what stands in a blank, each with the range of the blank's words. A word
    that no dictionary has may be a name: those are told as such."""
    filled = filled_ranges(passage) if passage.audience is Audience.PUPIL else ()
    for match in matches if filled else ():
        if match.rule.startswith((SPELLER, TWICE)) or not is_listened_to(match):
            continue
        if is_left_alone(passage, match, lambda _: False):
            continue
        touched = next((one for one in filled if match.start < one[1] and one[0] < match.end), None)
        if touched is not None:
            yield match, touched
