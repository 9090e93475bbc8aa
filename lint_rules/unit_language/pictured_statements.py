"""Statements beside pictures of things (`![a bird] It's a letter.`), and the one answer that is out of step with them.

Nothing is known of a picture but its alternative text. Only where all other statements of an exercise are called true
when they name what their picture shows, and false when not, is one that is called otherwise worth a question.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.page.exercises.in_step import the_one_out_of_step
from lint_rules.page.exercises.model import Item
from lint_rules.unit_language.option_support import content_words

# Ten tins in two rows are ten tins.
_IN_ROWS = lazy_re.compile(r"\s+in (?:an?|two|three|four) (?:rows?|lines?|piles?|circles?|groups?)\W*$", re.I)
_FEWEST = 3  # statements that go with their pictures, before one that does not is a slip


def against_its_picture(items: Sequence[Item], called_true: Sequence[bool | None]) -> Item | None:
    """The one item whose answer does not go with its picture, where those of all the others do; None otherwise."""
    marked: list[tuple[bool, Item]] = []
    for item, called in zip(items, called_true, strict=True):
        shown = list(_shown(item))
        if called is None or len(shown) != 1 or not shown[0]:
            return None
        marked.append(((shown[0] <= content_words(item.text)) is called, item))
    return the_one_out_of_step(marked, _FEWEST)


def _shown(item: Item) -> Iterator[frozenset[str]]:
    """What the pictures of an item show, in words as they are compared."""
    for place in item.prompt:
        for picture in place.passage.pictures:
            if place.start <= picture.at < place.end:
                yield content_words(_IN_ROWS.sub("", picture.alt))
