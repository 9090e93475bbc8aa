"""Shares of a key that stand under the whole number of their activity: `**1.2** 1 a, 2 c`, in a unit whose activities
are numbered so, by lesson and place or by unit and place.

Such a number is that of one activity wherever it stands, so the key may be the lesson's or the unit's.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Lesson, Passage, Unit
from lint_rules.page.exercises.key_places import keys_in, part_of

_HEAD = lazy_re.compile(
    r"(?:^|(?<=\n))[^\w\n]*(?:(?:activity|exercise|ex\.|task)\s+)?([0-9]{1,2}\.[0-9]{1,3})(?![\w.]*[0-9])[.:)]?(?:\s+|$)",
    re.I,
)
_FEWEST = 2  # activities so numbered


def headed_by_decimals(unit: Unit) -> Iterator[tuple[Lesson, Activity, Passage, Passage | None]]:
    """The passages of keys under such a number, each with its lesson, its activity, and what answers in it (None where
    it is the number alone)."""
    homes: dict[str, tuple[Lesson, Activity]] = {}
    several = 0
    for lesson in unit.lessons:
        for activity in lesson.activities:
            number = activity.heading.two_parts
            if number:
                several += 1
                homes[number] = (lesson, activity)
    if len(homes) < _FEWEST or len(homes) < several:
        return
    for lesson in unit.lessons:
        for part in (lesson.part, *(activity.part for activity in lesson.activities)):
            at: tuple[Lesson, Activity] | None = None
            div = None
            for passage in keys_in(part.passages):
                if passage.div != div:
                    at, div = None, passage.div  # another key
                heads = [head for head in _HEAD.finditer(passage.text) if head[1] in homes]
                edges = [(at, 0), *((homes[head[1]], head.end()) for head in heads)]
                ends = [*(head.start() for head in heads), len(passage.text)]
                for (home, start), end in zip(edges, ends, strict=True):
                    at = home
                    if home is not None:
                        yield *home, passage, part_of(passage, start, end) if passage.text[start:end].strip() else None
