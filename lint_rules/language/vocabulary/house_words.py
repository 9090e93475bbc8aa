"""The spellings that a course vouches for: its names, its known words and its target words, in all their forms."""

from lint_rules.course.memo import memo
from lint_rules.course.model import Course
from lint_rules.language.inflection.forms import every_form
from lint_rules.plain_words import WORD

_STRAIGHT = str.maketrans("’", "'")


def spelling_of(word: str) -> str:
    """A word as it is looked up: lower case, straight apostrophe, without a possessive ending."""
    plain = word.translate(_STRAIGHT).casefold()
    return plain.removesuffix("'s").removesuffix("'")


@memo
def house_spellings(course: Course) -> frozenset[str]:
    """Every spelling that is right in this course whatever a dictionary says, as ``spelling_of`` gives it."""
    listed = (*course.names, *course.known, *(entry.word for entry in course.words))
    words = {spelling_of(word) for text in listed for word in WORD.findall(text)}
    return frozenset(form for word in words for form in every_form(word))
