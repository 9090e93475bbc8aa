"""A sentence with a mistake as the key corrects it: by a sentence of its own, or by the words for the wrong ones."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.page.exercises.edits import Fill
from lint_rules.page.exercises.model import Item, Place

_WORDS = r"[\"“‘']?(\w[\w'’ -]{0,30}?)[\"”’']?"
_PAIR = lazy_re.compile(rf"{_WORDS}\s*(?::|→|⟶|->|=>)\s*{_WORDS}\.?")  # were: was; were → was
_REMARK = lazy_re.compile(r"(?<=[.!?])\s*\([^()]*\)\s*$")  # for the teacher: You must knock. (no to)
_SENTENCE = 3  # words of the shortest answer that can be a sentence of its own


def corrected(item: Item) -> Iterator[tuple[Place, Fill]]:
    """What is read in place of an item's words: nothing at all where the key gives a correction in another way."""
    said = _REMARK.sub("", item.answer.text) if item.answer is not None else ""
    pair = _PAIR.fullmatch(said)
    if pair is not None and len(item.prompt) == 1:
        place = item.prompt[0]
        wrong = list(re.finditer(rf"(?<!\w){re.escape(pair[1])}(?!\w)", place.text))
        if len(wrong) == 1:
            start, end = (place.start + at for at in wrong[0].span())
            yield place, Fill(start, end, pair[2], (start, end))
            return
    for index, place in enumerate(item.prompt):
        whole = index == 0 and len(said.split()) >= _SENTENCE and said.rstrip()[-1:] in (".", "!", "?")
        yield place, Fill(place.start, place.end, said if whole else "", (place.start, place.end))
