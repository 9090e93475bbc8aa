"""Things that a frame's picture has in another colour than the frame's own words: *8: a green dress and a
blue shirt on the line*, and frame 8 has *The dress is yellow*.

A story may change a thing from frame to frame; within one frame it does not, unless a word says so. So a frame of the
art is held against the frame of the same number alone, where both have the thing in one colour only.
`python -m tests.judged.drawn` prints what is found.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import zip_longest

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Passage, Role, Unit
from lint_rules.unit_language.shown_things import Shown, coloured_in, only_ones

_STORY = "story"
_FEWEST = 3  # frames that are counted
_MARK = lazy_re.compile(
    r"(?:(?:^|[.;:,!?”\"]\s+|\n)\W*|\b(?P<word>frame|picture|panel|scene)\s+)(?P<number>\d{1,2})(?:[.:)]|\s+[–—-])?\s+(?=\S)",
    re.I,
)
_HEADS = lazy_re.compile(r"\W*(?:(?:frame|picture|panel|scene)\s+)?(?P<number>\d{1,2})(?:[.:)\s]\W*|\W*$)", re.I)
_CHANGES = lazy_re.compile(
    r"n['’]t\b|\b(?:no|not|another|other|wants?|need\w*|look(?:s|ed|ing)? for|where|chang\w*|turns?|turned|becom\w*"
    r"|became|paint\w*|colou?rs|dream\w*|like)\b",
    re.I,
)
_ASKED = lazy_re.compile(r"[^.!?;:\n]*\?")  # Where is my red ball?

Range = tuple[Passage, int, int]  # a passage, and a range of its text


def drawn_in_frames(unit: Unit) -> Iterator[tuple[Shown, Shown]]:
    """What a frame's picture has otherwise than its words, and how these have it."""
    for activity in unit.activities:
        if _STORY not in activity.kinds:
            continue
        art = [one for one in activity.part.passages if one.audience is Audience.ARTIST]
        drawn, told = _frames_of_art(art), _frames_of_text(activity)
        for number in sorted(drawn.keys() & told.keys()):
            yield from _differing(drawn[number], told[number])


def _frames_of_text(activity: Activity) -> dict[int, list[Range]]:
    """The words of a story's frames, by the numbers that they begin with."""
    found: dict[int, list[Range]] = {}
    number = 0
    for one in activity.part.passages:
        if one.audience is not Audience.PUPIL or one.role in (Role.ALT, Role.INSTRUCTION):
            continue
        head = _HEADS.match(one.text)
        label = one.item.label if one.item is not None else ""
        begun = label if label.isdigit() else head["number"] if head is not None else ""
        if begun and int(begun) != number + 1:
            continue
        number += bool(begun)
        if number:
            found.setdefault(number, []).append((one, 0, len(one.text)))
    return found if number >= _FEWEST else {}


def _frames_of_art(art: Sequence[Passage]) -> dict[int, list[Range]]:
    """What briefs say of each frame: behind its number, where they count from 1 or say *Frame 5*; or in items."""
    found: dict[int, list[Range]] = {}
    for one in art:
        label = one.item.label if one.item is not None else ""
        if label.isdigit():
            found.setdefault(int(label), []).append((one, 0, len(one.text)))
            continue
        marks: list[re.Match[str]] = []
        for mark in _MARK.finditer(one.text):
            last = int(marks[-1]["number"]) if marks else 0
            if int(mark["number"]) == last + 1 or (mark["word"] and int(mark["number"]) > last):
                marks.append(mark)
        for mark, then in zip_longest(marks, marks[1:]):
            end = then.start() if then is not None else len(one.text)
            found.setdefault(int(mark["number"]), []).append((one, mark.end(), end))
    return found if len(found) >= _FEWEST else {}


def _coloured(ranges: Sequence[Range]) -> Iterator[Shown]:
    return (one for passage, start, end in ranges for one in coloured_in(passage, start, end, stated=True))


def _differing(drawn: Sequence[Range], told: Sequence[Range]) -> Iterator[tuple[Shown, Shown]]:
    of_art, of_text = (only_ones(_coloured(ranges), of_any_number=True) for ranges in (drawn, told))
    for thing in sorted(of_art.keys() & of_text.keys()):
        one, other = of_art[thing], of_text[thing]
        asked = _ASKED.match(other.passage.text, other.end) is not None
        of_others = bool(one.names and other.names and not one.names & other.names)  # Nell's bag, and Pim's
        if one.value != other.value and not (_CHANGES.search(other.sentence) or asked or of_others):
            yield one, other
