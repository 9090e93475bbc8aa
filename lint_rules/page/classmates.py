"""How many classmates a text asks a child to ask: `Ask eight friends`, `5 classmates`, `four boys and four girls`."""

import re
from dataclasses import dataclass

from lint_rules import lazy_re
from lint_rules.page.number_words import NUMBER_WORDS
from lint_rules.plain_words import SENTENCE

_NUMBERS = {word: number for word, number in NUMBER_WORDS.items() if number} | {"a dozen": 12}
_NUMBER = rf"(?:\d{{1,3}}|{'|'.join(sorted(_NUMBERS, key=len, reverse=True))})"
_PEOPLE = (
    r"(?:friends?|classmates?|people|persons?|children|child|kids?|students?|pupils?|learners?|partners?|boys?|girls?|puppets?|"
    r"others|mates|schoolmates|neighbours?|neighbors?)"
)
_BETWEEN = (
    r"(?:(?:or more|different|other|more|new|good|best|old|older|younger|nearby|of|your|my|our|the|these|those)\s+)*"
)
_COUNT = lazy_re.compile(
    rf"\b(?P<words>(?P<low>{_NUMBER})(?:\s*(?:[-–—]|to|or)\s*(?P<high>{_NUMBER}))?)\+?\s+{_BETWEEN}{_PEOPLE}\b", re.I
)
_ONE = lazy_re.compile(
    r"\b(?:a|an|your|another|one)\s+(?:(?:new|good|different)\s+)?(?:friend|classmate|partner|pupil|student|neighbour|neighbor)\b",
    re.I,
)
_EVERYBODY = lazy_re.compile(
    r"\b(?:everybody|everyone|every\s+(?:child|classmate|friend|pupil|student)|each\s+(?:child|classmate|friend)|"
    r"all\s+(?:of\s+)?(?:(?:your|the|my)\s+)?(?:other\s+)?"
    r"(?:friends|classmates|class|children|pupils|students|boys and girls)|"
    r"(?<!in )(?<!from )(?<!of )(?:the|your|our)\s+(?:whole\s+|entire\s+)?class\b(?!\w)|as many\s+\w+\s+as|"
    r"(?:from|in|at)\s+(?:each|every)\s+(?:table|group|row|team)|"
    r"find\s+(?:someone|somebody|a\s+(?:friend|classmate|child|person)|friends|classmates|children)\s+who)",
    re.I,
)
_WHOLE = lazy_re.compile(r"\b(?:whole|entire)\s+class\b|\bclass survey\b", re.I)
_EACH = lazy_re.compile("from|in|at|find", re.I)
_ASKING = lazy_re.compile(
    r"\b(?:ask|asks|asking|interview|interviews|survey|question|questions|poll|talk|talks|speak|speaks|find|finds|get|"
    r"collect|choose|visit|meet|walk|go|greet|with|from)\b",
    re.I,
)
_ASKS = lazy_re.compile(r"\s+(?:asks?|reads?|says?|holds?|keeps?|writes?|counts?)\b", re.I)  # one child asks the others
_ASKING_ONE = lazy_re.compile(r"\b(?:asks?|asking|interviews?|questions?|talks?|speaks?|greet|find|finds)\b", re.I)


@dataclass(frozen=True, slots=True)
class Asked:
    """How many classmates a text asks for, and the range of the words that say so. ``plain``: a number is given (not
    only `a friend`)."""

    number: int
    start: int
    end: int
    plain: bool = True


EVERYBODY = 1000  # stands for the whole class


def asked_in(text: str) -> Asked | None:
    """The greatest number of classmates that a text asks a child to ask, or None where it says none."""
    found: list[Asked] = []
    for sentence in SENTENCE.finditer(text):
        if not _ASKING.search(sentence[0]):
            continue
        start = sentence.start()
        counts = [one for one in _COUNT.finditer(text, start, sentence.end()) if not _ASKS.match(text, one.end())]
        for at, match in enumerate(counts):
            number = _number(match["high"] or match["low"])
            begin = match.start("words")
            if at and re.fullmatch(r"\s+and\s+", text[counts[at - 1].end() : match.start()]):
                number += found[-1].number
                begin = found[-1].start
            found.append(Asked(number, begin, match.end("words")))
        everybody = _EVERYBODY.search(text, start, sentence.end()) or _WHOLE.search(text, start, sentence.end())
        if everybody and (not counts or _EACH.match(everybody[0])):
            found.append(Asked(EVERYBODY, everybody.start(), everybody.end()))
        if counts or everybody or not _ASKING_ONE.search(sentence[0]):
            continue  # walk with a friend
        if one := _ONE.search(text, start, sentence.end()):
            found.append(Asked(1, one.start(), one.end(), plain=False))
    return max(found, key=lambda asked: asked.number, default=None)


def _number(text: str) -> int:
    return int(text) if text.isdigit() else _NUMBERS[text.casefold()]
