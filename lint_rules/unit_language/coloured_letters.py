"""Letters of a key whose picture or option has another colour than what is heard there: *4 c*, where c is a green kite
and number four of the script says *It's purple*.

Only the one letter of which that is so, where at least two others have the colour that is heard.
"""

import re
from functools import cache

from lint_rules import lazy_re
from lint_rules.manuscript.model import Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Exercises, Item
from lint_rules.page.heard_numbers import heard_numbers
from lint_rules.plain_words import DENIED, SENTENCE
from lint_rules.tables import words
from lint_rules.unit_language.lettered_pictures import letters_of_items, shown_by_letters
from lint_rules.unit_language.option_support import content_words

_FEWEST = 2
_CLAUSE = lazy_re.compile(r"[,;:–—]|\b(?:and|but)\b", re.I)


def another_colour_heard(read: Exercises, unit: Unit) -> tuple[Item, str] | None:
    """The one item whose letter has another colour than its number in the script, and that colour."""
    parts = {str(one.number): _told(one.behind) for one in heard_numbers(heard_in(read.activity, unit))}
    for exercise in read.exercises if parts else ():
        shown = shown_by_letters(read, exercise)
        marked: list[tuple[bool, tuple[Item, str]]] = []
        for item, number, letter in letters_of_items(exercise):
            drawn = _colours(shown.get(letter, frozenset()))
            heard = parts.get(number, frozenset())
            if len(drawn) == 1 and heard and (drawn <= heard or len(heard) == 1):
                marked.append((drawn <= heard, (item, min(heard))))
        found = the_one_out_of_step(marked, _FEWEST)
        if found is not None:
            return found
    return None


def _told(part: str) -> frozenset[str]:
    """The colours that are said of it, not asked for or denied, and not of another thing: Is it red? No, it isn't red;
    it's purple. My brother has a yellow bike."""
    clauses = (
        clause for one in SENTENCE.findall(part) if not one.rstrip().endswith("?") for clause in _CLAUSE.split(one)
    )
    said = (_of_a_thing().sub(" ", one) for one in clauses if not DENIED.search(one))
    return frozenset[str]().union(*(_colours(content_words(one)) for one in said))


@cache
def _of_a_thing() -> "re.Pattern[str]":
    colours = "|".join(sorted(words("colours")))
    return re.compile(rf"\b(?:{colours})\s+(?!(?:and|or|too|now|today|again|with|in|on|at)\b)[a-z]{{3,}}", re.I)


def _colours(said: frozenset[str]) -> frozenset[str]:
    return said & words("colours")
