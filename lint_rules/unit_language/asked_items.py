"""What items of an exercise ask for: are they one row, does one ask anything, what is counted, what form may an answer
take."""

import re
from collections.abc import Sequence

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS
from lint_rules.language.inflection.forms import every_form
from lint_rules.language.vocabulary.word_index import classroom_bands
from lint_rules.manuscript.model import PICTURE
from lint_rules.page.exercises.answers import alike
from lint_rules.page.exercises.model import Exercises, Item
from lint_rules.tables import words

_SHORT = 12  # words of a statement that is judged; more are a paragraph: common practice, no source
_ENDINGS = lazy_re.compile("(?:e?s|e?d|ing|e?rs?|e?st|ly|e?n|y|th|'s|ful|less|ness)?")
_HOW_MANY = lazy_re.compile(
    r"\bhow many (?:[a-z]+ )?([a-z]+)(?: of [a-z]+)?\b"
    r"(?:\s+(?:are|can|has|have|do|does|did|is|were|was)\b(?:\s+([a-z]+)\b)?|\s*\?)",
    re.I,
)
_GAP_OF_THINGS = lazy_re.compile(r"_{2,} ([a-z]{3,})\b")  # There are ____ eggs.
_THINGS_GAP = lazy_re.compile(rf"\W*([a-z]{{3,}}s)\s+_{{2,}}[\s{PICTURE}]*$")  # buttons ____
_SIZES = frozenset(["not", "big", "small"])


def how_many(text: str) -> str:
    """The thing whose number a question asks for (How many stones are there?); '' where it asks for none, or only for
    some of them (How many stones are green, and how many are not?)."""
    found = _HOW_MANY.search(text)
    some = found is not None and found[2] is not None and found[2].casefold() in words("colours") | {"gray"} | _SIZES
    return found[1] if found is not None and not some else ""


def thing_counted(text: str) -> str:
    """The thing that an item has counted: in a question, behind a gap or before it; '' for none."""
    found = _GAP_OF_THINGS.search(text) or _THINGS_GAP.match(text)
    return how_many(text) or (found[1] if found is not None else "")


def is_one_row(items: Sequence[Item], read: Exercises) -> bool:
    """Whether an activity has one row of items: no steps (Cut, stick, look), paragraphs of a text, or parts A and B."""
    return len(read.exercises) == 1 and all(map(_may_be_answered, items))


def _may_be_answered(item: Item) -> bool:
    said = item.text.split()
    order = CEFR_BANDS[0] in classroom_bands(said[0].strip(".,!:")) if said else False
    return bool(item.gaps or item.choices or item.jumble or "?" in item.text) or (len(said) <= _SHORT and not order)


def asks_nothing(item: Item, items: Sequence[Item]) -> bool:
    """Whether an item only stands among others that have something to fill in: a step, a row to trace (`b b b b`)."""
    jumbled = item.jumble is not None and len(set(item.text.casefold().split())) > 1
    return not (item.gaps or item.choices or jumbled) and sum(bool(one.gaps) for one in items) * 2 > len(items)


def is_form(one: str, other: str) -> bool:
    """Whether a word may be another's form, or made from it: goes and go, runner and run; not: shadow and shade."""
    short, long = sorted((one, other), key=len)
    if " " in one or " " in other or long in every_form(short) or short in every_form(long):
        return alike(one, other)
    stems = {short, short.removesuffix("e"), f"{short.removesuffix('y')}i", short + short[-1:]}
    return any(long.startswith(stem) and _ENDINGS.fullmatch(long[len(stem) :]) for stem in stems if stem)
