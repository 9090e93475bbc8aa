"""Words that a page speaks of and does not use: *the* stands before a noun; not *heevy*; stress *head* in 'headline'.

Authors set them in italics or in quotation marks. A word that is spoken of may be wrong, cut up, or stand where no word
of its kind could; it takes no part in the sentence around it.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage, Unit
from lint_rules.plain_words import WORD

_QUOTED = lazy_re.compile(
    r"“([^”\n]+)”|\"([^\"\n]+)\"|(?<!\w)‘([^’\n]+(?:’\w[^’\n]*)*)’(?!\w)|(?<!\w)'([^'\n]+(?:'\w[^'\n]*)*)'(?!\w)"
)
_BEFORE = 60  # characters before something that may say how it is meant
_MADE_UP = lazy_re.compile(
    r"\b(?:silly|new|made-up|invented|nonsense|funny|magic|pretend)\s+(?:\w+\s+)?(?:words?|names?)\b", re.I
)
# What stands before something that a teacher is to hear as wrong: Watch for *didn't got*; `heavy`, not *heevy*.
_PUT_RIGHT = lazy_re.compile(r"(?:\s+[\w'’]+){0,2}\s*(?:→|⟶|->|=>)")
_AS_WRONG = lazy_re.compile(
    r"(?:\b(?:not|never|avoid|rather than|instead of|(?:watch|listen|look)(?: out)? for|mistakes?|errors?|wrong|wrongly"
    r"|(?:may|might|often|tend to|will|some|many|who|or) (?:children )?(?:say|write|read|hear)s?|correct)\b|✗|✘|≠)"
    r"[\s:,(]*(?:the |like |such as |as |e\.g\. |for example )*[\"“‘'(]*$",
    re.I,
)


def spoken_of(passage: Passage) -> Iterator[tuple[int, int]]:
    """What a passage sets in italics or puts in quotation marks, as ranges of its text."""
    yield from passage.emphasis
    for match in _QUOTED.finditer(passage.text):
        yield match.span(match.lastindex or 0)


def is_made_up(passage: Passage, start: int, end: int) -> bool:
    """Say whether a range stands in something spoken of where words are made up: a silly new word (a *rainfoot*)."""
    made_up = _MADE_UP.search(passage.text) is not None
    return made_up and any(first <= start and end <= last for first, last in spoken_of(passage))


def foreign_words(unit: Unit) -> frozenset[str]:
    """The words of other languages that a unit marks as such, somewhere (`[sopa]{lang=es}`), in lower case."""
    texts = (passage.text[start:end] for passage in unit.passages for start, end in passage.foreign)
    return frozenset(word for text in texts for word in WORD.findall(text.casefold()))


def is_shown_as_wrong(passage: Passage, start: int, end: int) -> bool:
    """Say whether a range touches something that is spoken of as what not to say, or that a key puts right behind an
    arrow: goed → went."""
    if any(first < end and start < last for first, last in passage.struck):
        return True
    if passage.audience is Audience.KEY and _PUT_RIGHT.match(passage.text, end):
        return True
    touched = (first for first, last in spoken_of(passage) if start < last and first < end)
    return any(_AS_WRONG.search(passage.text[max(0, first - _BEFORE) : first]) for first in touched)
