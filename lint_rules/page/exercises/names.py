"""Where a key that goes by names of the page, `Winter: boots, scarf`, does not fit it: a name that the page has not, a
word that goes into no column, or into two.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import alike, plain
from lint_rules.page.exercises.boxes import entries_of
from lint_rules.page.exercises.model import Answer, Exercise, Exercises, Item, Place, Slip

_NAME = 2  # letters of the shortest: one is a label


def other_name(extra: Sequence[Answer], without: Sequence[Item], exercise: Exercise) -> Slip | None:
    """The one name of a key that the page has not, where one name of the page has no answer."""
    if len(extra) != 1 or len(without) != 1 or len(exercise.key.answers) != len(exercise.items):
        return None
    mark, name = extra[0].label.mark if extra[0].label is not None else None, without[0].label.text
    if mark is None or not all(_is_name(text) for text in (mark.text, *(item.label.text for item in exercise.items))):
        return None
    if alike(plain(mark.text), plain(name)):
        return None  # the same in another form
    return Slip(mark, f"The page has no “{mark.text}”; the key says nothing for “{name}”. Give both the same name.")


def _is_name(text: str) -> bool:
    return len(text) >= _NAME and not text.isdigit()


_EXAMPLE = lazy_re.compile(
    r"\W*(?:open\W+)?(?:(?:possible|sample|model) answers?|for example|example|e\.g|model|sample)\W*", re.I
)


def is_remark(answer: Answer, exercise: Exercise) -> bool:
    """Whether a key only says something more: `For example:`, or behind the columns that it has sorted words into
    `Extra: say when.`"""
    if answer.label is not None and _EXAMPLE.fullmatch(answer.label.text):
        return True
    if not exercise.sorting or exercise.box is None or answer.label is None:
        return False
    named = answer.label.key in {item.label.key for item in exercise.items}
    words = {plain(word.text) for word in exercise.box.words}
    return not named and not any(plain(word.text) in words for word in _words(answer))


def _words(answer: Answer) -> Sequence[Place]:
    return entries_of(answer.place) or (answer.place,)


def sorted_wrongly(exercise: Exercise) -> Iterator[Slip]:
    """Each word that is to be sorted goes into a column, once."""
    if not exercise.sorting or exercise.box is None:
        return
    answers = [answer for answer in exercise.key.answers if not is_remark(answer, exercise)]
    given = [word for answer in answers for word in _words(answer)]
    box = {plain(word.text): word for word in exercise.box.words}
    known = [word for word in given if plain(word.text) in box]
    if len(known) * 3 < len(given) * 2 or len(known) * 3 < len(box) * 2:
        return
    for word in given:
        if plain(word.text) not in box:
            yield Slip(word, f"“{word.text}” is not among the words to sort. Put it there, or take it out of the key.")
    # A word that names a column stands in it: like snow, like owl.
    heads = {word for answer in answers if answer.label for word in plain(answer.label.text).split()}
    missing = [word for key, word in box.items() if key not in {plain(one.text) for one in given} and key not in heads]
    seen: set[str] = set()
    for word in known:
        if plain(word.text) in seen and missing:
            yield Slip(word, f"The key sorts “{word.text}” twice, and “{missing[0].text}” not at all.")
            return
        seen.add(plain(word.text))
    for word in missing:
        yield Slip(word, f"The key sorts “{word.text}” into no column. Give it one.")


def heads_a_row(name: str, read: Exercises) -> bool:
    """Say whether a name of the key is all that a cell of the page says: of a row that has more than a blank."""
    cells = (one for one in read.activity.part.passages if one.cell is not None)
    return len(name) > 1 and not name.isdigit() and any(plain(one.text) == name for one in cells)
