"""Cross-references, from one place of a book to another, as authors write them: `see activity 3`, `track 1.4`."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from lint_rules import lazy_re

_NUMBER = r"(?P<number>\d+(?:\.\d+|(?-i:[A-H])\b)?)"
_REFERENCE = lazy_re.compile(
    rf"\b(?:(?P<kind>page|lesson|activity|exercise|task|track|unit)\s+{_NUMBER}(?![\w.]*\w)"
    r"|(?P<lettered>activity|exercise)\s+(?P<letter>(?-i:[A-HJ-Z]))(?![\w'’.:]*\w|:))",
    re.IGNORECASE,
)
# A page number is a reference only where somebody is sent there: "page 3 of my book is blue" is a story.
_SENT = lazy_re.compile(r"(?:\b(?:see|to|at|on|from|turn to|open)\s+(?:\w+\s+){0,3}|\(\s*)$", re.IGNORECASE)
_OF_ANOTHER = lazy_re.compile(
    r"\s*(?:,|of|in|from)\s+(?:the\s+)?(?P<kind>lesson|unit|level)\s*[-\s]\s*(?P<number>\d+)", re.IGNORECASE
)
_KINDS = {"exercise": "activity", "task": "activity"}


@dataclass(frozen=True, slots=True)
class CrossReference:
    """A cross-reference in a text: what kind of thing, its number, the range of the words, and where the thing is said
    to be (`unit`, `lesson`: 0 where nothing is said)."""

    kind: str
    number: str  # a letter, where a book letters its activities
    start: int
    end: int
    lesson: int = 0
    unit: int = 0
    elsewhere: bool = False  # in another level, or another book

    @property
    def whole(self) -> int:
        """The number without what stands behind it: 2 of 2.7, and of 2F."""
        whole = self.number.partition(".")[0].rstrip("ABCDEFGH")
        return int(whole) if whole.isdigit() else 0


@lru_cache(maxsize=1_000)  # several rules ask of the same passages
def references_in(text: str) -> tuple[CrossReference, ...]:
    """The cross-references of a text, in order. `lesson 2, activity 3` and `activity 3 of lesson 2` are one each."""
    return tuple(_references(text))


def _references(text: str) -> Iterator[CrossReference]:
    matches = list(_REFERENCE.finditer(text))
    taken: set[int] = set()
    for at, match in enumerate(matches):
        if at in taken:
            continue
        kind = _kind(match)
        reference = _reference(text, _KINDS.get(kind, kind), match)
        following = matches[at + 1] if at + 1 < len(matches) else None
        if following is not None and re.fullmatch(r"\s*[,:/–-]?\s*", text[match.end() : following.start()]):
            inner = _kind(following)
            if (
                kind in ("unit", "lesson")
                and inner in ("lesson", "activity", "exercise", "task", "track", "page")
                and inner != kind
            ):
                taken.add(at + 1)
                found = _reference(text, _KINDS.get(inner, inner), following)
                unit = reference.whole if kind == "unit" else found.unit
                lesson = found.lesson if kind == "unit" else reference.whole
                reference = replace(found, start=match.start(), unit=unit, lesson=lesson)
        innermost = matches[at + 2] if at + 1 in taken and at + 2 < len(matches) else None
        if innermost is not None and _goes_on(text, matches[at + 1 : at + 3], kind):
            taken.add(at + 2)  # Unit 1, Lesson 2, activity 6
            found = _reference(text, "activity", innermost)
            lesson = _reference(text, "lesson", matches[at + 1]).whole
            reference = replace(found, start=match.start(), unit=reference.unit, lesson=lesson)
        part = kind == "task" and not reference.lesson  # Task 2 of a test, or of its own page
        if not part and (reference.kind != "page" or _SENT.search(text[: reference.start])):
            yield reference


def _kind(match: re.Match[str]) -> str:
    return (match["kind"] or match["lettered"]).casefold()


def _goes_on(text: str, two: Sequence[re.Match[str]], kind: str) -> bool:
    """Whether a lesson that stands behind a unit is followed by its activity."""
    lesson, activity = map(_kind, two)
    between = text[two[0].end() : two[1].start()]
    inside = kind == "unit" and lesson == "lesson" and activity in ("activity", "exercise", "task")
    return inside and re.fullmatch(r"\s*[,:/–-]?\s*", between) is not None


def _reference(text: str, kind: str, match: re.Match[str]) -> CrossReference:
    lesson = unit = 0
    elsewhere = False
    end = match.end()
    while of := _OF_ANOTHER.match(text, end):
        what = of["kind"].casefold()
        lesson = int(of["number"]) if what == "lesson" else lesson
        unit = int(of["number"]) if what == "unit" else unit
        elsewhere = elsewhere or what == "level"
        end = of.end()
    return CrossReference(kind, match["number"] or match["letter"], match.start(), end, lesson, unit, elsewhere)
