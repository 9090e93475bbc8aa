"""What a script tells and a picture shows, in words as they are compared: things, numbers, times, places. Pure."""

from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.page.number_words import clock_times_in, numbers_in, ordinals_in
from lint_rules.unit_language.option_support import content_words
from lint_rules.unit_language.places import PLACES

SENTENCE = lazy_re.compile(r"[^.!?;\n]+")
CLAUSE = lazy_re.compile(r"[.,!?;:\n]|\b(?:and|but|while|which|who)\b")
PLACE_WORDS = frozenset(place.split()[0] for place in PLACES)
_CLOCK = lazy_re.compile(r"\d[.:]\d\d")
_WORD = lazy_re.compile(r"[a-z]+")
# Verbs that a brief leaves out: Two actors in white gloves for The actors are wearing gloves.
_UNDRAWN = frozenset(["wear", "have", "get", "see", "hold", "look", "picture", "drawing", "1"])


@lru_cache(maxsize=10_000)  # the same scripts and briefs are asked for each exercise
def told_words(text: str) -> frozenset[str]:
    """The words of a text that mean something by themselves, its numbers in figures, and its times (7:40)."""
    rest, numbers = text, list(numbers_in(text, parts=True))
    for _, start, end, _ in reversed(numbers):
        rest = f"{rest[:start]} {rest[end:]}"
    rest = _CLOCK.sub(" ", rest)
    return content_words(rest) | {str(number) for number, *_ in numbers} | clock_times_in(text) | ordinals_in(text)


def drawn_words(text: str) -> frozenset[str]:
    """What a brief or a statement has to draw: things, numbers, and where they are."""
    told = {"go" if word == "going" else word for word in told_words(text)}  # no thing here
    return (frozenset(told) - _UNDRAWN) | PLACE_WORDS.intersection(_WORD.findall(text.casefold()))
