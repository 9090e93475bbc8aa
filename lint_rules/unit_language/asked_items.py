"""What items of an exercise ask for: are they one row, does one ask anything, what form may an answer take."""

from collections.abc import Sequence

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS
from lint_rules.language.inflection.forms import every_form
from lint_rules.language.vocabulary.word_index import classroom_bands
from lint_rules.page.exercises.answers import alike
from lint_rules.page.exercises.model import Exercises, Item

_SHORT = 12  # words of a statement that is judged; more are a paragraph: common practice, no source
_ENDINGS = lazy_re.compile("(?:e?s|e?d|ing|e?rs?|e?st|ly|e?n|y|th|'s|ful|less|ness)?")


def is_one_row(items: Sequence[Item], read: Exercises) -> bool:
    """Whether an activity has one row of items: no steps (Cut, stick, look), paragraphs of a text, or parts A and B."""
    return len(read.exercises) == 1 and all(map(_may_be_answered, items))


def _may_be_answered(item: Item) -> bool:
    words = item.text.split()
    order = CEFR_BANDS[0] in classroom_bands(words[0].strip(".,!:")) if words else False
    return bool(item.gaps or item.choices or item.jumble or "?" in item.text) or (len(words) <= _SHORT and not order)


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
