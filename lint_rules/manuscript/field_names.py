"""What the fields of teacher's notes are called: the usual names, and what other houses call the same fields."""

from functools import cache, lru_cache

from lint_rules import lazy_re
from lint_rules.tables import rows

NOTE_FIELDS = (
    "Aim",
    "Grammar",
    "Words",
    "Materials",
    "Time",
    "Steps",
    "Safety",
    "Answers",
    "Support",
    "Extra",
)  # of the teacher's notes; a course may have others (`note_fields`)
_STEP = lazy_re.compile(r"(?:steps?|cue|stage|phase)\s+(?:[0-9]{1,2}|one|two|three|four|five|six|seven|eight|nine|ten)")
_ANSWERS_OF = lazy_re.compile(  # the key of one activity: Answers 2, Key to Activity 3
    r"(?:answers?|keys?|solutions?)\s+(?:(?:to|for|of)\s+)?(?:(?:activity|act\.?|exercise|ex\.?|task)\s*)?"
    r"(?P<number>[0-9]{1,3}[a-z]?)"
)
_WITH_MORE = frozenset({"time", "material"})  # Time and grouping; Materials and preparation
_BRACKETED = lazy_re.compile(r"\s*\([^()]*\)$")  # Time (minutes)


@lru_cache(maxsize=2_000)  # the same few names in every unit
def field_key(name: str) -> str:
    """A field's name as it is compared: Aim, aim, Aims and Goal are one, Materials, Material and You need too."""
    plain = " ".join(_BRACKETED.sub("", name).replace("’", "'").casefold().split()).rstrip(".:")
    if _STEP.fullmatch(plain):
        return "step"
    if _ANSWERS_OF.fullmatch(plain):
        return "answer"
    for spelt in (plain, plain.removesuffix("s")):  # Keys, Answer keys
        if spelt in _keys():
            return _keys()[spelt]
    first = plain.partition(" and ")[0]
    key = _keys().get(first, _own_key(first))
    return key if key in _WITH_MORE else _own_key(plain)


def activity_of(name: str) -> str:
    """The number of the activity whose key a field's name announces: `2` for Answers 2; '' for any other name."""
    match = _ANSWERS_OF.fullmatch(" ".join(name.casefold().split()).rstrip(".:"))
    return match["number"] if match is not None else ""


@lru_cache(maxsize=2_000)
def is_usual(name: str) -> bool:
    """Whether a name is one that notes usually have, or another house's word for it."""
    return field_key(name) in _usual()


@cache
def _usual() -> frozenset[str]:
    return frozenset(_own_key(name) for name in NOTE_FIELDS)


@cache
def _keys() -> dict[str, str]:
    return {other: _own_key(name) for name, others in rows("field_names.csv") for other in others.split("|")}


def _own_key(name: str) -> str:
    return name.casefold().removesuffix("s")
