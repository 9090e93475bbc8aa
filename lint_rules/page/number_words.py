"""Numbers as books for children and teacher's notes write them: in figures, and in words below a million."""

import re
from collections.abc import Iterator, Mapping
from functools import cache, lru_cache
from types import MappingProxyType

from lint_rules import lazy_re
from lint_rules.page.exercises.small_words import small_words
from lint_rules.tables import words

# fmt: off
_WORDS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
# fmt: on
NUMBER_WORDS: Mapping[str, int] = MappingProxyType({word: number for number, word in enumerate(_WORDS)})
_ALL = (
    dict(NUMBER_WORDS)
    | {word: 10 * (at + 2) for at, word in enumerate(_TENS)}
    | {
        f"{tens}{between}{one}": 10 * (at + 2) + number
        for between in ("-", " ")
        for at, tens in enumerate(_TENS)
        for number, one in enumerate(_WORDS[1:10], 1)
    }
)
_BELOW_HUNDRED = "|".join(sorted(_ALL, key=len, reverse=True))
_HUNDREDS = rf"(?:a|{'|'.join(_WORDS[1:10])}) hundred(?: and (?:{_BELOW_HUNDRED}))?"
_THOUSANDS = (
    rf"(?:\d{{1,3}}|{_HUNDREDS}|a|{_BELOW_HUNDRED}) thousand\b(?:,? (?:{_HUNDREDS})| and (?:{_BELOW_HUNDRED})\b)?"
)
_NUMBER = lazy_re.compile(
    rf"(?<![\w.,:/-])(?:\d{{1,3}}(?:,\d{{3}}){{1,3}}|{_THOUSANDS}|\d{{1,4}}|{_HUNDREDS}|{_BELOW_HUNDRED})(?![\w/-]|[.,:]\d|:\S)",
    re.IGNORECASE | re.ASCII,
)
_NAMES_A_PART = lazy_re.compile(
    r"\b(?:activity|activities|lesson|unit|page|part|track|exercise|picture|question|number|level|item|room|bus|house"
    r"|row|gate|group)s?\s+(?:\d+\s*(?:and|,|–|-)\s*)?$",
    re.I,
)
# There are four: a hat, …
_GOES_ON = lazy_re.compile(r"\b(?:are|is|was|were|have|has|had|got|see|saw)[ \u00a0]$", re.I)
_BEFORE = 20  # characters
_FIRST_TWENTY = (
    "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth thirteenth fourteenth fifteenth "
    "sixteenth seventeenth eighteenth nineteenth twentieth"
)
_ORDINALS = {word: at for at, word in enumerate(_FIRST_TWENTY.split(), 1)}
_ORDINALS |= {f"twenty-{word}": 20 + at for word, at in [*_ORDINALS.items()][:9]} | {
    "thirtieth": 30,
    "thirty-first": 31,
}
_ORDINAL = lazy_re.compile(
    rf"\b({'|'.join(sorted(_ORDINALS, key=len, reverse=True))}|\d{{1,2}}(?:st|nd|rd|th))\b(\s+(?:of\s+)?"
    r"(?:january|february|march|april|may|june|july|august|september|october|november|december)\b)?",
    re.I,
)
_ENDINGS = {1: "st", 2: "nd", 3: "rd", 21: "st", 22: "nd", 23: "rd", 31: "st"}
_COUNTING = lazy_re.compile(r"[\s,.!…–-]*(?:and\s+)?")


@cache
def _thing() -> "re.Pattern[str]":
    """What a number counts: the noun behind it, with two words at most that say how it is (four little green ducks)."""
    plain = words("plain_adjectives") | words("colours") | {"more", "round", "square", "little", "tiny", "young"}
    return re.compile(rf"\s+(?:(?:{'|'.join(sorted(plain))})\s+){{0,2}}([^\W\d_]{{3,}})")


def in_words(number: int) -> str:
    """A number as a children's book writes it: in words up to twenty, else in figures."""
    return _WORDS[number] if 0 <= number < len(_WORDS) else str(number)


def spellings_of_figure(text: str) -> tuple[str, ...]:
    """How a number in figures is said, in the ways that a word list may have it: 40, forty; 100, a hundred, hundred."""
    if not (text.isascii() and text.isdigit()) or len(text) > len("1000"):
        return ()
    number = int(text)
    round_ = {100: "hundred", 1000: "thousand"}.get(number)
    if round_ is not None:
        return round_, f"a {round_}", f"one {round_}"
    return tuple(word for word, value in _ALL.items() if value == number)


def numbers_in(text: str, *, parts: bool = False) -> Iterator[tuple[int, int, int, str]]:
    """The numbers of a text: the number, its range, and the word behind it, which may be what it counts ('' at an
    end); those that name a part (page 12, bus 9) only with ``parts``."""
    return iter(_numbers_in(text, parts))


@lru_cache(maxsize=10_000)  # each check of a key asks for those of the same texts again
def _numbers_in(text: str, parts: bool) -> tuple[tuple[int, int, int, str], ...]:
    return tuple(_found_in(text, parts=parts))


def _found_in(text: str, *, parts: bool) -> Iterator[tuple[int, int, int, str]]:
    for match in _NUMBER.finditer(text):
        if not parts and _NAMES_A_PART.search(text, max(0, match.start() - _BEFORE), match.start()):
            continue  # Look back at Activity 34
        if text.startswith(":", match.end()) and not _GOES_ON.search(text, 0, match.start()):
            continue  # One: a hat. Two: a bag.
        thing = _thing().match(text, match.end())
        if thing is not None and thing[1].casefold() in small_words():
            thing = None
        yield _value(match), match.start(), match.end(), thing[1] if thing else ""


def ordinals_in(text: str) -> frozenset[str]:
    """The ordinals of a text in figures (the third: 3rd), and without their endings where they name the day of a month
    (the thirtieth of June: 30 as well)."""
    found: set[str] = set()
    for match in _ORDINAL.finditer(text):
        written = match[1].casefold()
        number = _ORDINALS[written] if written in _ORDINALS else int(written[:-2])
        found.add(f"{number}{_ENDINGS.get(number, 'th')}")
        if match[2]:
            found.add(str(number))
    return frozenset(found)


def without_counting(text: str) -> str:
    """A text without the numbers that are counted up from one, but for the last: One, two, three. Three balls."""
    run: list[tuple[int, int, int]] = []
    cut: list[tuple[int, int]] = []
    for number, start, end, _ in [*numbers_in(text, parts=True), (0, len(text), len(text), "")]:
        goes_on = bool(run) and number == run[-1][0] + 1 and _COUNTING.fullmatch(text, run[-1][2], start) is not None
        if not goes_on:
            cut += [one[1:] for one in run[:-1]] if len(run) > 1 else []
            run = []
        if goes_on or number == 1:
            run.append((number, start, end))
    for start, end in reversed(cut):
        text = text[:start] + " " * (end - start) + text[end:]
    return text


def _value(match: re.Match[str]) -> int:
    """The number that is written: 12, twelve, a hundred and twelve, two thousand six hundred."""
    words = match[0].casefold().replace(",", "")
    if words.isdecimal():
        return int(words)
    thousands, _, rest = words.rpartition(" thousand") if " thousand" in words else ("", "", words)
    return 1000 * _below_thousand(thousands) + _below_thousand(rest.strip())


def _below_thousand(words: str) -> int:
    if words.isdecimal():
        return int(words)
    hundreds, hundred, rest = words.rpartition(" hundred") if " hundred" in words else ("", "", words)
    below = _ALL.get(rest.removeprefix(" and ").removeprefix("and ").strip(), 1 if rest.strip() == "a" else 0)
    return below + (100 * _ALL.get(hundreds, 1) if hundred else 0)


_MINUTES = {"half": 30, "quarter": 15, "a quarter": 15, "five": 5, "ten": 10, "twenty": 20, "twenty-five": 25}
_SPOKEN_MINUTES = (
    "|".join(
        sorted(
            (f"{tens}{sep}five" for tens in ("twenty", "thirty", "forty", "fifty") for sep in "- "),
            key=len,
            reverse=True,
        )
    )
    + "|ten|fifteen|twenty|thirty|forty|fifty"
)
# Two fifty pounds; ten fifteen twenty: what is paid or counted is no time.
_PAID = lazy_re.compile(rf"[\s,]*(?:euros?|dollars?|pounds?|pesos?|cents?|pence|coins?|{'|'.join(_WORDS)})\b", re.I)
_COUNTED_ON = lazy_re.compile(rf"\b(?:{'|'.join((*_WORDS, *_TENS))})[\s,-]*$", re.I)
_CLOCK = lazy_re.compile(
    r"\b(?P<minutes>half|(?:a )?quarter|five|ten|twenty[- ]five|twenty)(?: minutes)? (?P<side>past|to) "
    rf"(?P<hour>\d{{1,2}}|{'|'.join(_WORDS[1:13])})\b"
    rf"|\b(?P<spoken>{'|'.join(_WORDS[1:13])}) (?P<past>{_SPOKEN_MINUTES})(?![\w-])"
    r"|(?<![\w.:,£€$])(?P<figures>\d{1,2})[.:](?P<rest>[0-5]\d)(?![\w:]|[.,]\d)",
    re.I,
)


def clock_times_in(text: str) -> frozenset[str]:
    """The times of day of a text that are no full hours, in one form: `twenty to eight` and `7.40` are 7:40."""
    return frozenset(time for match in _CLOCK.finditer(text) if (time := _time(match)) is not None)


def _is_counted(match: re.Match[str]) -> bool:
    before = match.string[max(0, match.start() - _BEFORE) : match.start()]
    return _PAID.match(match.string, match.end()) is not None or _COUNTED_ON.search(before) is not None


def _time(match: re.Match[str]) -> str | None:
    if match["spoken"] is not None:  # seven fifteen
        if _is_counted(match):
            return None
        hour, minutes = NUMBER_WORDS[match["spoken"].casefold()], _ALL[match["past"].casefold()]
    elif match["figures"] is not None:
        hour, minutes = int(match["figures"]), int(match["rest"])
    else:
        said = match["hour"].casefold()
        hour = int(said) if said.isdigit() else NUMBER_WORDS[said]
        minutes = _MINUTES[match["minutes"].casefold().replace("twenty five", "twenty-five")]
        if match["side"].casefold() == "to":
            hour, minutes = hour - 1, 60 - minutes
    return f"{(hour - 1) % 12 + 1}:{minutes:02}" if minutes and hour <= 24 else None
