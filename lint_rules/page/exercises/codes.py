"""Letters that an instruction gives to write: `F (farm) or S (seaside)`, `W = winter`, `Write A, B or C`."""

import re

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import letters_of
from lint_rules.page.exercises.model import Answer, Exercise

_EXPLAINED = lazy_re.compile(
    r"(?<![\w’'])(?P<letter>[A-Za-z])(?:\s*[(\[=:]\s*|\s+[–—-]\s+|\s+(?:for|means)\s+)(?=[^\W\d_]{2}|an?\s)"
)
_LISTED = lazy_re.compile(
    r"\b[Ww]rite\s+(?:the\s+letters?\s+)?(?P<letters>[A-Z](?:\s*(?:,|/|\bor\b)\s*(?:or\s+)?[A-Z]\b)+)"
)
_FEWEST = 3


def letters_told(instruction: str) -> tuple[str, ...]:
    """The letters of a code that an instruction explains or lists, as it has them; none where it has no code."""
    told = [match["letter"] for match in _EXPLAINED.finditer(instruction)]
    if len(set(told)) < 2:
        listed = _LISTED.search(instruction)
        told = re.findall(r"\b[A-Z]\b", listed["letters"]) if listed is not None else []
    one_case = len({letter.isupper() for letter in told}) == 1
    return tuple(dict.fromkeys(told)) if one_case and len(set(told)) > 1 else ()


def outside_code(exercise: Exercise, instruction: str) -> Answer | None:
    """The one answer that is a letter which the code of the instruction has not, where all the others are of it."""
    code = {letter.casefold() for letter in letters_told(instruction)}
    if not code or exercise.column or exercise.key.order or any(item.choices for item in exercise.items):
        return None
    given = [(item.answer, letters_of(item.answer.text)) for item in exercise.items if item.answer is not None]
    lettered = [(answer, letters) for answer, letters in given if letters]
    outside = [answer for answer, letters in lettered if not set(letters) <= code]
    known = len(lettered) - len(outside)
    return outside[0] if len(outside) == 1 and known >= _FEWEST and known * 3 >= len(given) * 2 else None
