"""Which instructions set the same task, however they are worded; see data/task_wordings.csv."""

import re
from collections.abc import Sequence
from functools import cache

from lint_rules import lazy_re
from lint_rules.manuscript.counting import word_ranges
from lint_rules.tables import rows

# Kinds of activity that are one task whatever the words: an odd one out is an odd one out.
_ONE_TASK = frozenset({"odd-one-out"})
_STEP = lazy_re.compile(r"[.!?,;:]+(?:\s+|$)|\s+(?:and|then)\s+", re.I)


def wording_of(text: str) -> str:
    """An instruction by its words alone, in lower case: `Listen, and point!` is `listen and point`."""
    return " ".join(text[start:end] for start, end in word_ranges(text)).casefold().replace("’", "'")


def task_of(text: str, kinds: Sequence[str]) -> str:
    """A key that two instructions share when they set the same task: the same steps with the same things, in order."""
    words = wording_of(text).split()
    for kind in kinds:
        if kind in _ONE_TASK:
            steps = [part for part in _STEP.split(text) if part.strip()]
            of_sounds = " of sounds" if "sounds" in kinds else ""
            return f"{kind}{of_sounds}: {len(steps)} steps"
    same, longest = _same()
    found: list[str] = []
    at = 0
    while at < len(words):
        for length in range(min(longest, len(words) - at), 0, -1):
            instead = same.get(tuple(words[at : at + length]))
            if instead is not None or length == 1:
                found.append(words[at] if instead is None else instead)
                at += length
                break
    return " ".join(word for word in found if word)


@cache
def _same() -> tuple[dict[tuple[str, ...], str], int]:
    """The table by the words, and how many words its longest entry has."""
    same = {tuple(words.split()): instead for words, instead in rows("task_wordings.csv")}
    return same, max(map(len, same))
