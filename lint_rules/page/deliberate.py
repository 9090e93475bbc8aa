"""Mistakes that are made on purpose: sentences for children to put right."""

import re

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Role

_MISTAKES = lazy_re.compile(
    r"\bmistakes?\b|\b(?:one|a) word too many\b|\berrors?\b"
    r"|\b(?:with|put in|add|use) (?:the )?"
    r"(?:capital letters?|punctuation|commas?|full stops?|apostrophes?|speech marks?)\b",
    re.I,
)
# What tells a head that orders from a story's title (Dito's big mistake).
_ORDERS = lazy_re.compile(
    r"\b(?:find|correct|circle|underline|spot|put|mend|fix|write|rewrite|mark|cross|look for|add|use|with"
    r"|each|every|too many|there (?:is|are))\b",
    re.I,
)


def is_wrong_on_purpose(activity: Activity) -> bool:
    """Say whether what stands on an activity's page is to be put right: mistakes to find, sentences to punctuate."""
    return "mistakes" in activity.kinds or _MISTAKES.search(activity.heading.passage.text) is not None


def wrong_in_part(activity: Activity) -> frozenset[int]:
    """The passages of a page (by identity) in a part whose head says that they are to be put right (**D Find the
    mistake**)."""
    wrong, found = False, set[int]()
    for passage in activity.part.passages:
        if passage.role is Role.TITLE or passage.strong == ((0, len(passage.text)),):
            wrong = _MISTAKES.search(passage.text) is not None and _ORDERS.search(passage.text) is not None
        elif wrong and passage.audience is Audience.PUPIL:
            found.add(id(passage))
    return frozenset(found)
