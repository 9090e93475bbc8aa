"""Reads the times of teacher's notes: `10 minutes`, `5–10 min`, `ten minutes`, `1 hour`, `1 h 30`, `2 x 20 minutes`.

Only the text of a Time field is read here; a number in a story is no time. A time is a range of minutes, because a
teacher plans in ranges; a single figure is a range of one.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.manuscript.field_names import field_key, is_usual
from lint_rules.manuscript.model import Audience, Part, Passage
from lint_rules.page.number_words import NUMBER_WORDS

_TENS = {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "ninety": 90}
_NUMBER_WORDS = {**NUMBER_WORDS, **_TENS, "a": 1, "an": 1}
_FRACTIONS = {"½": 0.5, "¼": 0.25, "¾": 0.75}

_WORD = "|".join(sorted(_NUMBER_WORDS, key=len, reverse=True))
_ONES = "one|two|three|four|five|six|seven|eight|nine"
_NUMBER = rf"(?:\d{{1,3}}(?:[.,]\d{{1,2}})?[½¼¾]?|[½¼¾]|(?:twenty|thirty|forty|fifty)[- ](?:{_ONES})\b|\b(?:{_WORD})\b)"
_MINUTE_UNIT = r"(?:minutes?\b|mins?\b\.?|m\b|['′’](?!\w))"
_HOUR_UNIT = r"(?:hours?\b|hrs?\b\.?|h(?![a-z])\.?)"
_DASH = r"\s*(?:[-–—‑−]|\bto\b|\bor\b)\s*"
_GAP = r"[\s-]*"

_MINUTES = lazy_re.compile(
    rf"(?P<low>{_NUMBER})(?:{_GAP}{_MINUTE_UNIT})?(?:{_DASH}(?P<high>{_NUMBER}))?{_GAP}{_MINUTE_UNIT}", re.I
)
_HOURS = lazy_re.compile(
    rf"(?:(?P<half>half an hour\b)|(?P<low>{_NUMBER})(?:{_DASH}(?P<high>{_NUMBER}))?{_GAP}{_HOUR_UNIT}"
    rf"(?:(?P<and_half>\s+and\s+a\s+half\b)|\s*(?:and\s+|,\s*)?(?P<rest>\d{{1,2}})(?!\d|\s*[-–—]\s*\d)(?:{_GAP}{_MINUTE_UNIT})?)?)",
    re.I,
)
_HALF_HOURS = lazy_re.compile(rf"(?P<low>{_NUMBER})\s+and\s+a\s+half{_GAP}{_HOUR_UNIT}", re.I)
_TIMES = lazy_re.compile(rf"(?P<count>{_NUMBER})\s*[x×]\s*", re.I)
_PLUS = lazy_re.compile(r"\s*(?:\+|\bplus\b)\s*", re.I)
_START = lazy_re.compile(r"[\w½¼¾]+")
_OF_SEVERAL = lazy_re.compile(
    rf"\d|\b(?:each|every|per|after|first|last|until)\b|\b(?!an?\b)(?:{_WORD})\b", re.I
)  # 3 groups, 5 minutes: no time of the whole
_SHARED = lazy_re.compile(r"\s*(?:each|per|an?|every|for each|before|after|of the|from the|to go)\b", re.I)
_IN_MINUTES = lazy_re.compile(r"\bmin(?:ute)?s?\b", re.I)
_FIGURE = lazy_re.compile(  # Minutes: about 40–45
    r"\s*(?:(?:about|around|ca\.?|~)\s*)?(?P<all>(?P<low>[0-9]{1,3})(?:\s*[-–—]\s*(?P<high>[0-9]{1,3}))?)(?!\s*[-–—'′’½¼¾\w])",
    re.I,
)
_SENTENCE = lazy_re.compile(r"[^.!?\n]+(?:[.](?=\w)[^.!?\n]+)*")
_OF_THE_WHOLE = lazy_re.compile(  # 15'; Notes (20 minutes); but Hello song (4 minutes) is a part
    r"(?:\W|\b(?:about|ca|approx|notes?|teacher|teachers|s|for|the|time|timing|length|duration|total|whole|this|lesson|"
    r"activity|task|in|all)\b)*",
    re.I,
)
_AT_FRONT = lazy_re.compile(r"\s*\d{1,2}\s*['′’](?=\s+[A-Z“\"])")  # Teacher: 8' Play once for saying.
_LENGTH = lazy_re.compile(
    r"^\s*(?:allow|plan|reckon|you (?:will )?have)\b"
    r"|\b(?:lesson|activity|game|task|exercise|it|this|all)\s+(?:takes|lasts|needs)\b",
    re.I,
)
_IN_ALL = lazy_re.compile(r"\b(?:the|this|whole) lesson (?:takes|lasts|needs|is)\b.*", re.I)
_PLANNED = lazy_re.compile(
    r"\b(?:ex|exercise|act|activity|task)\b\.?\s*(?P<number>\d{1,3}[a-z]?)\s*[:(–—-]?\s*(?=\d)", re.I
)
_TOTAL = lazy_re.compile(r"\b(?:in )?(?:total|all)\b\s*[:=–—-]?\s*(?=\d)", re.I)
_LEAD = lazy_re.compile(
    r"\s*(?:(?:about|around|approximately|approx\.?|ca\.?|c\.|roughly|up to|at least|max\.?|maximum|~)\s*)?", re.I
)

_IN_NAME = lazy_re.compile(r"\(([^()]*\d[^()]*)\)\W*$")  # Steps (8 minutes)


@dataclass(frozen=True, slots=True)
class Minutes:
    """A span of time: ``low`` to ``high`` minutes (equal for a single figure)."""

    low: float
    high: float

    def __add__(self, other: "Minutes") -> "Minutes":
        return Minutes(self.low + other.low, self.high + other.high)

    def overlaps(self, other: "Minutes") -> bool:
        """Say whether some number of minutes lies in both ranges."""
        return self.low <= other.high and other.low <= self.high

    def __str__(self) -> str:
        if self.low == self.high:
            return f"{_plain(self.low)} minute{'' if self.low == 1 else 's'}"
        return f"{_plain(self.low)}–{_plain(self.high)} minutes"


@dataclass(frozen=True, slots=True)
class TimeText:
    """A time as it stands in a text: the minutes, the range ``start:end`` of the words that say so, and what each of
    several is (`2 x 40 minutes`)."""

    minutes: Minutes
    start: int
    end: int
    each: Minutes | None = None


@dataclass(frozen=True, slots=True)
class NumberedTime:
    """The time that a plan in one line gives an activity by its number: `Ex. 2 4'`."""

    number: str
    time: TimeText


@dataclass(frozen=True, slots=True)
class StatedTime:
    """What the Time field of a lesson or an activity says.

    ``minutes`` is None when its words cannot be read as a time; ``passage[start:end]`` are the words to point at;
    ``each`` is what one of several takes (`2 x 40 minutes`), None where there is one.
    """

    minutes: Minutes | None
    passage: Passage
    start: int
    end: int
    each: Minutes | None = None


def read_time(text: str) -> TimeText | None:
    """Read the time that a Time field begins with; what follows it (a remark in brackets) does not matter.

    Where it begins otherwise (`total 45 minutes`, `the whole lesson: 45 minutes`), read the only time that it holds.
    None when there is none, or more than one. A number without `minutes` or `hours` is none.
    """
    lead = _LEAD.match(text)
    first = _sum_at(text, lead.end() if lead else 0)
    if first is not None:
        return first
    found = list(_times_in(text))
    if len(found) != 1 or _OF_SEVERAL.search(text[: found[0].start]) or _SHARED.match(text, found[0].end):
        return None
    return found[0]


def line_plan(text: str) -> list[NumberedTime]:
    """The times of a plan in one line, activity by activity (`Ex. 1 5', Ex. 2 4'.`); none where it is no plan."""
    found: list[NumberedTime] = []
    for match in _PLANNED.finditer(text):
        time = _one_time(text, match.end())
        if time is not None:
            found.append(NumberedTime(match["number"], time))
    return found if len(found) > 1 else []


def total_of_line(text: str) -> TimeText | None:
    """The time of a plan in one line: the total that it states, else the sum of its times."""
    planned = line_plan(text)
    if not planned:
        return None
    for match in _TOTAL.finditer(text):
        total = _one_time(text, match.end())
        if total is not None:
            return total
    first, last = planned[0].time, planned[-1].time
    return TimeText(add_up(one.time.minutes for one in planned), first.start, last.end)


def stated_time(part: Part) -> StatedTime | None:
    """The Time field of a lesson's or an activity's notes, or what they say of its length without one (`15'.`, `Notes
    (20 minutes)`, `Allow ten minutes.`); None when there is none or it is empty."""
    field = part.field("Time")
    passages = [passage for passage in field.passages if passage.text.strip()] if field is not None else []
    in_minutes = field is not None and _IN_MINUTES.search(field.name) is not None
    for passage in passages:
        figure = _FIGURE.match(passage.text) if in_minutes else None
        if figure is not None:
            low, high = float(figure["low"]), float(figure["high"] or figure["low"])
            return StatedTime(Minutes(low, max(low, high)), passage, *figure.span("all"))
        found = total_of_line(passage.text) or read_time(passage.text)
        if found is not None:
            return StatedTime(found.minutes, passage, found.start, found.end, found.each)
    if field is None:
        return _unlabelled(part) or _in_a_name(part)
    if not passages:
        return None
    text = passages[0].text
    return StatedTime(None, passages[0], len(text) - len(text.lstrip()), len(text.rstrip()))


def speaks_of_time(part: Part) -> bool:
    """Whether a lesson's or an activity's notes name a time, but in their steps (`Play the audio for 5 minutes`)."""
    names = (field.name for field in part.fields)
    notes = (passage for passage in part.passages if passage.audience is Audience.TEACHER)
    texts = (passage.text for passage in notes if field_key(passage.field) != "step")
    return any(next(_times_in(text), None) is not None for text in (*names, *texts))


def minutes_told(part: Part) -> list[tuple[Passage, TimeText]]:
    """The times that a lesson's or an activity's notes name anywhere, each with its passage."""
    notes = (passage for passage in part.passages if passage.audience is Audience.TEACHER and passage.cell is None)
    return [(passage, time) for passage in notes for time in _times_in(passage.text)]


def _unlabelled(part: Part) -> StatedTime | None:
    """What notes say of their length outside a Time field: `The lesson takes forty minutes in all.`, or a time that is
    the only one they name and stands by itself (`15'.`): among several it is a stage's."""
    alone: list[StatedTime] = []
    for passage in part.passages:
        if passage.audience is not Audience.TEACHER or is_usual(passage.field) or passage.cell is not None:
            continue
        whole = _OF_THE_WHOLE.fullmatch(passage.field) is not None  # Warm-up: 5 minutes
        front = _AT_FRONT.match(passage.text) if whole else None
        found = read_time(front[0]) if front is not None else None
        if found is not None:
            alone.append(StatedTime(found.minutes, passage, found.start, found.end, found.each))
            continue
        for sentence in _SENTENCE.finditer(passage.text):
            text = sentence[0]
            found = read_time(text)
            if found is None:
                continue
            start = sentence.start()
            stated = StatedTime(found.minutes, passage, start + found.start, start + found.end, found.each)
            if (_LENGTH.search(text) and whole) or _IN_ALL.search(text):
                return stated
            if whole and _OF_THE_WHOLE.fullmatch(text[: found.start] + text[found.end :]):
                alone.append(stated)
    return alone[0] if alone and len(minutes_told(part)) == 1 else None


def _in_a_name(part: Part) -> StatedTime | None:
    """The time in the name of the one field that has one, at its first passage: Steps (8 minutes)."""
    found = [
        (field.passages[0], time)
        for field in part.fields
        if field.passages and (match := _IN_NAME.search(field.name)) and (time := read_time(match[1])) is not None
    ]
    if len(found) != 1:
        return None
    passage, time = found[0]
    return StatedTime(time.minutes, passage, 0, len(passage.text))


def add_up(times: Iterable[Minutes]) -> Minutes:
    """Add ranges: the lows and the highs."""
    return sum(times, Minutes(0, 0))


def as_hours(minutes: float) -> str:
    """Minutes as people say them: `45 minutes`, `1 hour`, `38 hours 30 minutes`."""
    hours, rest = divmod(round(minutes), 60)
    parts = [f"{hours} hour{'' if hours == 1 else 's'}"] if hours else []
    if rest or not hours:
        parts.append(f"{rest} minute{'' if rest == 1 else 's'}")
    return " ".join(parts)


def _times_in(text: str) -> Iterator[TimeText]:
    """The times that a text holds, each from where a word or number begins."""
    at = 0
    while start := _START.search(text, at):
        found = _sum_at(text, start.start())
        if found is not None:
            yield found
        at = found.end if found is not None else start.end()


def _sum_at(text: str, start: int) -> TimeText | None:
    """The time that begins at an offset, with all that is added to it by `+` or `plus`."""
    at = start
    total: Minutes | None = None
    while True:
        one = _one_time(text, at)
        if one is None:
            break
        total = one.minutes if total is None else total + one.minutes
        at = one.end
        plus = _PLUS.match(text, at)
        if plus is None:
            return TimeText(total, start, at, one.each if total is one.minutes else None)
        at = plus.end()
    return TimeText(total, start, len(text[:at].rstrip(" +"))) if total is not None else None


def _one_time(text: str, at: int) -> TimeText | None:
    """One time without `+` at an offset: an optional `2 x`, then hours or minutes."""
    times = _TIMES.match(text, at)
    count = _number(times["count"]) if times else 1
    begin = times.end() if times else at
    one = _hours(text, begin) or _minutes(text, begin)
    if one is None:
        return None
    total = Minutes(one.minutes.low * count, one.minutes.high * count)
    return TimeText(total, at, one.end, one.minutes if count > 1 else None)


def _minutes(text: str, at: int) -> TimeText | None:
    match = _MINUTES.match(text, at)
    if match is None:
        return None
    low, high = _number(match["low"]), _number(match["high"] or match["low"])
    return TimeText(Minutes(min(low, high), max(low, high)), at, match.end())


def _hours(text: str, at: int) -> TimeText | None:
    half = _HALF_HOURS.match(text, at)
    if half is not None:
        length = (_number(half["low"]) + 0.5) * 60
        return TimeText(Minutes(length, length), at, half.end())
    match = _HOURS.match(text, at)
    if match is None:
        return None
    if match["half"]:
        return TimeText(Minutes(30, 30), at, match.end())
    low, high = _number(match["low"]), _number(match["high"] or match["low"])
    rest = 30 if match["and_half"] else int(match["rest"] or 0)
    return TimeText(Minutes(min(low, high) * 60 + rest, max(low, high) * 60 + rest), at, match.end())


@lru_cache(maxsize=1000)
def _number(text: str) -> float:
    """A number in digits, with a fraction sign, or as a word."""
    word = text.casefold()
    if word in _NUMBER_WORDS:
        return _NUMBER_WORDS[word]
    if len(parts := re.split(r"[- ]", word)) > 1:  # thirty-five
        return sum(_NUMBER_WORDS[part] for part in parts)
    fraction = _FRACTIONS.get(word[-1], 0.0)
    digits = word.rstrip("½¼¾").replace(",", ".")
    return (float(digits) if digits else 0.0) + fraction


def _plain(number: float) -> str:
    return f"{number:g}"
