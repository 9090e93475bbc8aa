"""Statements that the key calls true, with a number that their script never has of that thing.

*It is nine euros* is called true, and the script has *It's eight euros, please*. Nothing is understood: the thing is
the word behind the number, and only where the script has it behind other numbers, and never behind this one, is the
answer worth a question. What is reckoned (in all, more than) is let alone; so are texts that are read, where authors
ask for sums (ten pots here and ten pots there are twenty).
"""

import re
from collections.abc import Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.page.number_words import numbers_in
from lint_rules.plain_words import DENIED
from lint_rules.unit_language.option_support import content_in_order

_RECKONED = lazy_re.compile(
    r"\b(?:than|more|less|fewer|altogether|in all|together|twice|half|left|each|every|about|nearly|almost|only|all|both"
    r"|other|another|over|under|last|first|after|before|later|ago|plus|minus)\b",
    re.I,
)
_HOUR = lazy_re.compile(r"\b([a-z]+|\d{1,2}) o['’]clock\b", re.I)
_WHY = lazy_re.compile(r"(?<=\S)\s+\(.*\)\W*$")  # F (one goat)
_O_CLOCK = "o'clock"
_SHARED = lazy_re.compile(r"\s+for\b", re.I)
_LARGE = 100  # a number that is reckoned with, and counts nothing that children see
_FEWEST = 3  # statements, so that the answers are verdicts


def miscounted(exercise: Exercise, script: Sequence[Passage], page: Sequence[Passage]) -> tuple[Item, str] | None:
    """The one statement of an exercise that has a number too many or too few, and what the script has; not what a text
    on the same ``page`` has."""
    items = [item for item in exercise.items if item.answer is not None and not item.example]
    called = [yes_or_no(_WHY.sub("", item.answer.text)) if item.answer is not None else None for item in items]
    if None in called or len(items) < _FEWEST:
        return None
    own_passages = {id(place.passage) for item in items for place in item.prompt}
    read = {one[:2] for passage in page if id(passage) not in own_passages for one in _counts(passage.text)}
    heard = [one for passage in script for one in _counts(passage.text)]
    said = [
        (number, thing, _SHARED.match(one.text, end) is not None)
        for one in script
        for number, _, end, thing in numbers_in(one.text, parts=True)
    ]
    large = {number for number, _, _ in said if number >= _LARGE}
    alone = {number for number, thing, _ in said if not thing}
    shared = {number for number, _, is_shared in said if is_shared}
    apart = {abs(one - other) for one in large for other in large}  # from 1452 to 1460
    found = []
    for item, is_so in zip(items, called, strict=True):
        statement = bare_statement(item.text)
        own = _counts(statement)
        if is_so and len(own) == 1 and not DENIED.search(statement) and not _RECKONED.search(statement):
            number, thing, _ = own[0]
            told = {other: words for other, of, words in heard if of == thing}
            if number in shared or (thing == _O_CLOCK and number in alone):
                continue  # six for the rice, and four for the salt; at four
            found += (
                [(item, told.popitem()[1])]
                if told and not {number} & {*told, *apart} and (number, thing) not in read
                else []
            )
    return found[0] if len(found) == 1 else None


def _counts(text: str) -> list[tuple[int, str, str]]:
    """The numbers of a text that count something, or tell the hour: the number, the thing in its dictionary form, and
    both in words."""
    hours = [(number, _O_CLOCK, match[0]) for match in _HOUR.finditer(text) for number, *_ in numbers_in(match[1])]
    return hours + [
        (number, content_in_order(thing)[0], f"{text[start:end]} {thing}")
        for number, start, end, thing in numbers_in(text, parts=True)
        if number > 1 and content_in_order(thing)
    ]
