"""What an answer of the key says: its letters, its alternatives, its words as they are compared."""

import re
from collections.abc import Sequence, Set
from functools import lru_cache

from lint_rules import lazy_re
from lint_rules.page.exercises.model import Option

_LETTER = lazy_re.compile(r"[(\[]?([a-z]|[ivx]+)[)\]]?", re.IGNORECASE)
_LETTER_FIRST = lazy_re.compile(
    r"[(\[]?([a-z])(?:[.)\]](?:\s|$)|\s+(?:[–—-]\s+\W?[a-z’']{2,}\W+\w|\([^()]*\)\W*$))", re.IGNORECASE
)
_EXPLAINED = lazy_re.compile(
    r"\s+(?:–|—|-|\()\s*(?=\S).*$|\s*→.*$|(?<=[.!?])\s+(?-i:Accept)\s+(?:any|other|all|every)\b.*$", re.S
)
_VERDICT_FIRST = lazy_re.compile(r"\W*(true|false|yes|no|right|wrong|✓|✗|✘)\s*[.,:;]\s+\S", re.I)
_IT_IS = lazy_re.compile(r"^\W*(?:it|that|this)(?: is|['’]s)\s+(?=(?:true|false|right|wrong)\b)", re.I)
_OPTIONAL = lazy_re.compile(r"\(([^()\s][^()]*)\)")
_BETWEEN = lazy_re.compile(r"\s*/\s*|\s+or\s+|\s*\|\s*")
_OR = lazy_re.compile(r"\sor\s")
_LISTED = lazy_re.compile(r"\s*/\s*|\s+or\s+|\s*\|\s*|\s*,\s*(?:or\s+)?")  # climb, jump or run
# What leaves the answer to the children: Children's own answers
OWN = lazy_re.compile(
    r"\b(?:own|open|various|different|free|possible|model|sample|suggested|spoken)\s+(?:\w+\s+)?answers?\b"
    r"|^\W*(?:the\s+)?(?:pupils?|children|students?|learners?|kids?|ss?)['’]s?\s+own\b"
    r"|^\s*open\.(?!\w)|^\s*free\s*[.:,]"
    r"|^\s*accept\s+(?:any|all|every|other)\b"
    r"|\banswers?\s+(?:will\s+|may\s+|can\s+)?vary\b"
    r"|^\s*(?:model|sample|possible|suggested|suggestions?|e\.g\.|for example)\b",
    re.I | re.M,
)
_TRUE = frozenset({"true", "t", "right", "yes", "✓", "tick", "correct"})
_FALSE = frozenset({"false", "f", "wrong", "no", "✗", "✘", "cross", "incorrect"})
# Numbers and letters in circles: ① Ⓐ ⓐ ❶
_CIRCLED = str.maketrans(
    {chr(0x2460 + at): str(at + 1) for at in range(20)}
    | {chr(0x2776 + at): str(at + 1) for at in range(10)}
    | {chr(0x24B6 + at): chr(ord("A") + at) for at in range(26)}
    | {chr(0x24D0 + at): chr(ord("a") + at) for at in range(26)}
)
CIRCLED = "\u2460-\u2473\u2776-\u277f\u24b6-\u24e9"
_FACES = {"☺": True, "😊": True, "🙂": True, "😀": True, "☹": False, "🙁": False, "😞": False, "😟": False}
_MARKS = " \t\n.,;:!?…\"'“”‘’()[]*_–—-"
_VERDICTS = frozenset(
    {"t", "f", "ds", "true", "false", "doesn't say", "doesnt say", "right", "wrong", "yes", "no", "tick", "cross"}
)


def uncircled(text: str) -> str:
    """A text with its circled numbers and letters as plain ones."""
    return text.translate(_CIRCLED)


def left_open(answer: str) -> bool:
    """Whether an answer of one item begins by leaving it to the children: `8 Children's own answer`."""
    found = OWN.search(answer)
    before = [word for word in answer[: found.start()].split() if word.casefold() != "the"] if found is not None else []
    return found is not None and len(before) <= 1


@lru_cache(maxsize=4_000)  # an answer is asked for again with each item that it may be for
def plain(text: str) -> str:
    """A text as it is compared: lower case, plain apostrophes, single spaces, no marks at its ends."""
    return " ".join(text.replace("’", "'").replace("\ufffc", " ").casefold().split()).strip(_MARKS)


def letters_of(answer: str) -> tuple[str, ...]:
    """The letters that an answer gives, in lower case: `b`, `(b)`, `b) a hat`, `b – she says so`, `d (part 1)`, `a, c`.
    Empty when it gives none."""
    text = uncircled(answer.strip())
    if match := _LETTER_FIRST.match(text):
        return (match[1].lower(),)
    parts = [part for part in re.split(r"\s*(?:,|&|/|\+|\band\b|\bor\b)\s*", text.strip(" .;")) if part]
    letters = [_LETTER.fullmatch(part) for part in parts]
    return tuple(match[1].lower() for match in letters if match) if parts and all(letters) else ()


@lru_cache(maxsize=4_000)
def alternatives(answer: str) -> tuple[str, ...]:
    """The texts that an answer allows, without explanations: `very / so`, `Thursday(s)`, `red – it is no fruit`."""
    found: list[str] = []
    between = _LISTED if _OR.search(answer) and "," in answer else _BETWEEN
    for part in between.split(answer):
        bare = part.strip()
        inside = _OPTIONAL.sub("", bare).strip()
        shorter = _EXPLAINED.sub("", bare).strip()
        for one in (inside, _OPTIONAL.sub(r"\1", bare), shorter, bare):
            one = " ".join(one.split()).strip(" ,;")
            if one and one not in found:
                found.append(one)
    return tuple(found)


def first_text(answer: str) -> str:
    """The text that stands for an answer where one is wanted: the first that it allows."""
    several = alternatives(answer)
    return several[0] if several else ""


def is_verdict(text: str) -> bool:
    """Whether an answer is a verdict or a sign, which nobody reads as a word of the sentence: `T`, `✗`, `no`."""
    bare = plain(text)
    return bare in _VERDICTS or not any(char.isalpha() for char in bare)


def range_of(labels: Sequence[str]) -> str:
    """Labels as a message names them: `1 to 4`; names one by one."""
    distinct = list(dict.fromkeys(labels))
    if len(distinct) > 1 and max(len(label) for label in distinct) > len("xviii"):
        return ", ".join(f"“{label}”" for label in distinct)
    return distinct[0] if len(distinct) == 1 else f"{distinct[0]} to {distinct[-1]}"


def is_among(answer: str, words: Set[str]) -> bool:
    """Whether an answer, or one of what it allows, is among some plain words."""
    return not words.isdisjoint({plain(one) for one in (*alternatives(answer), *answer.split(","))})


def alike(one: str, other: str) -> bool:
    """Whether two plain words may be forms of one: `go` and `goes`."""
    return one[:3] == other[:3] or one in other or other in one


def face(answer: str) -> bool | None:
    """Whether an answer is a glad face or a sad one; None where it is none."""
    return _FACES.get(answer.strip(" .\ufe0f"))


def yes_or_no(answer: str) -> bool | None:
    """Whether an answer calls a statement true or false, whatever it says behind that (`no (there is only one)`, `Yes.
    There are two.`); None where it says something else."""
    told = _IT_IS.sub("", answer)  # It is true.
    first = _VERDICT_FIRST.match(told)
    said = plain(first[1] if first is not None else _EXPLAINED.sub("", told))
    return True if said in _TRUE else False if said in _FALSE else None


def is_told_otherwise(answer: str, options: Sequence[Option]) -> bool:
    """Say whether an answer has an option's letter and most of its words: c The recording was gone, for It was gone."""
    letter, _, rest = answer.partition(" ")
    key = letter.strip("().:").casefold()
    own = next((option.text for option in options if option.label is not None and option.label.key == key), "")
    words, said = set(plain(own).split()), set(plain(rest).split())
    return bool(words) and len(words & said) * 2 > len(words)
