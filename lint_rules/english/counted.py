"""What a number stands beside and does not count (two o'clock walk, the ten twenty-five train, Here's ten pounds),
*no* before what is compared, and the hour that is asked for."""

import re
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.language.service import EnglishMatch
from lint_rules.manuscript.model import Audience, Passage
from lint_rules.tables import words as words_in

_COUNTED = "CD_NN"
_SEVERAL = "THERE_S_MANY"
_NO_FOR_NOT = "IT_IS_NO"
_AT_AN_HOUR = "AT_TIME"
_NO_BIGGER = lazy_re.compile(r"(?:[\w’']+\s+){0,2}no\s+(?:[a-z]+er|more|less|better|worse)\b", re.I)
_SO_MUCH = lazy_re.compile(
    r"\b(?:pounds|euros|dollars|cents|pence|coins|minutes|hours|days|weeks|metres|kilometres|miles|grams|kilos|litres)$",
    re.I,
)
_OF_TIMETABLE = lazy_re.compile(
    r"(?:trains?|bus(?:es)?|ferr(?:y|ies)|boats?|planes?|flights?|trams?|coach(?:es)?)", re.I
)
_NUMBERED = lazy_re.compile(r"\b(\d{1,2})\.? [^\W\d]")  # 1 hill, 2 town, 3 lake


def is_counted_elsewhere(passage: Passage, match: EnglishMatch) -> bool:
    """Two teams answer; two o'clock walk: only a number right before a noun counts it, and none that numbers a list."""
    if match.rule != _COUNTED:
        return False
    before = passage.text[: match.start].split()
    number = before[-1].casefold() if before else ""
    if passage.text[match.start : match.end].casefold() in words_in("uncounted_money"):
        return True  # eighty lira
    hour = before[-2].casefold() if len(before) > 1 else ""
    if hour in words_in("numbers") and _OF_TIMETABLE.fullmatch(passage.text[match.start : match.end]):
        return True  # the ten twenty-five train
    if number.isdigit() and passage.audience is Audience.KEY:
        return True  # 2 milk, 3 hill
    if number.isdigit() and len(before) == 1 and not passage.text[match.end :].strip(" .!"):
        return True  # FERRYMAN: 2 river: the number of an item
    counted = [int(one[1]) for one in _NUMBERED.finditer(passage.text)]
    rising = [first for first, second in pairwise(counted) if second == first + 1]
    listed = 1 in rising or len(rising) > 1  # 1 hill, 2 town; 5 ladder. 6 staircase. 7 tunnel.
    return not (number.isdigit() or number in words_in("numbers")) or listed


def is_a_sum(passage: Passage, match: EnglishMatch) -> bool:
    """Here's twenty pounds: so much money, or time, is one thing."""
    return match.rule == _SEVERAL and _SO_MUCH.search(passage.text[match.start : match.end]) is not None


def is_no_bigger(passage: Passage, match: EnglishMatch) -> bool:
    """It is no bigger than a coin: no, and not a slip for not."""
    return match.rule == _NO_FOR_NOT and _NO_BIGGER.match(passage.text, match.start) is not None


def is_hour(passage: Passage, match: EnglishMatch) -> bool:
    """Is it twelve o'clock? It is the hour, and no slip for at."""
    before = passage.text[: match.start].split()
    return match.rule == _AT_AN_HOUR and bool(before) and before[-1].casefold() in ("is", "was", "isn't", "wasn't")
