"""Letters that head shares of a key in a lesson with lettered activities: `**B** 1 c, 2 a`, under it `**C, D** own`.

A letter alone may be an article or an answer. It heads a share where it begins a line, and is in bold, stands behind
*Activity*, has a colon, or is followed by the answer to number 1; and where the letters of a passage go up.
"""

from collections.abc import Collection
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Audience, Passage

_HEAD = lazy_re.compile(
    r"(?:^|(?<=\n))(?P<named>(?:[Aa]ctivit(?:y|ies)|[Ee]xercises?|[Tt]asks?)\s+)?"
    r"(?P<letters>[A-Z](?:(?:,|\s+and|\s*[&+])\s*[A-Z](?![\w'’]))*)(?P<set>:)?(?:(?<!:)[.)]|(?<=:)|(?=\s|$))\s*"
    r"(?P<first>1[.):]?\s)?"
)
_LETTER = lazy_re.compile(r"[A-Z](?=\W|$)")


def letter_heads(passage: Passage, letters: Collection[str]) -> list[tuple[str, int, int]]:
    """The letters that head a passage or its lines, with their ranges; several that share one stand together, `b,c`."""
    if passage.item is not None and passage.item.label in letters:
        return [(passage.item.label.casefold(), 0, 0)]
    found: list[tuple[str, int, int]] = []
    for match in _HEAD.finditer(passage.text):
        start, end = match.span("letters")
        bold = any(first <= start and end <= last for first, last in passage.strong)
        if bold or match["named"] or match["set"] or match["first"]:
            own = _LETTER.findall(match["letters"])
            found.append(
                (",".join(own).casefold(), match.start(), match.start("first") if match["first"] else match.end())
            )
    named = [letter for several, _, _ in found for letter in several.split(",")]
    known = {one.casefold() for one in letters}
    return found if known.issuperset(named) and all(one < other for one, other in pairwise(named)) else []


def has_letters(passages: Collection[Passage], letters: Collection[str]) -> bool:
    """Whether the page of an activity is itself in lettered parts, whose letters its key means; A: and B: only talk."""
    heads = ((one, head) for one in passages if one.audience is Audience.PUPIL for head in letter_heads(one, letters))
    return any(":" not in one.text[start:end] for one, (_, start, end) in heads)
