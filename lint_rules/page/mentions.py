"""Words that a page speaks of and does not use: *the* stands before a noun; not *heevy*; stress *head* in 'headline'.

Authors set them in italics or in quotation marks. A word that is spoken of may be wrong, cut up, or stand where no word
of its kind could; it takes no part in the sentence around it.
"""

import re
from collections.abc import Iterator

from lint_rules.manuscript.model import Passage

_QUOTED = re.compile(
    r"“([^”\n]+)”|\"([^\"\n]+)\"|(?<!\w)‘([^’\n]+(?:’\w[^’\n]*)*)’(?!\w)|(?<!\w)'([^'\n]+(?:'\w[^'\n]*)*)'(?!\w)"
)
# What stands before something that a teacher is to hear as wrong: Watch for *didn't got*; `heavy`, not *heevy*.
_AS_WRONG = re.compile(
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


def is_shown_as_wrong(passage: Passage, start: int, end: int) -> bool:
    """Say whether a range touches something that is spoken of as what not to say."""
    return any(
        start < last and first < end and _AS_WRONG.search(passage.text[:first]) for first, last in spoken_of(passage)
    )
