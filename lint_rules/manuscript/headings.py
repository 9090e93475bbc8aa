"""Sort what a file holds into lessons and activities, by its headings."""

import re
from bisect import bisect_left
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import TypeVar

from lint_rules import lazy_re
from lint_rules.manuscript.contents import Contents
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.lettered_headings import take_letters
from lint_rules.manuscript.model import Activity, Audience, DivKind, Heading, Lesson, Part, Problem, Role
from lint_rules.source import Source, Span

_T = TypeVar("_T")
_A_LESSON = 2  # activities: the notes of the only one are its own
_OF_ONE = lazy_re.compile(  # 15 minutes: no lesson is so short
    r"\W*(?:about |ca\.? )?[12]?[0-9]\s*(?:[-–]\s*[12]?[0-9]\s*)?(?:m|['′’])", re.I
)
_OF_EACH = lazy_re.compile(r"(?<!\w)([0-9]{1,2})\s*[–—:=-]\s*[0-9]{1,2}\s*(?:m|['′’])", re.I)  # 2 – 8 min
_KEY = lazy_re.compile(
    r"(?:the )?(?:answer key|keys?|answers?|solutions?)"
    r"(?: (?:to|for|of|[–—-]) (?:the )?(?:lesson|unit|activit|exercise|all)[^.!?]*)?\W*",
    re.I,
)
_SCRIPTS = lazy_re.compile(
    r"(?:the )?(?:(?:audio|listening|recording|track)[ -]?scripts?|tape-?scripts?|(?:audio )?transcripts?|scripts?)"
    r"(?: (?:to|for|of|[–—-]) [^.!?]*)?\W*",
    re.I,
)


@dataclass(frozen=True, slots=True)
class Outline:
    """The unit's heading and what stands under it."""

    heading: Heading | None
    opening: Part
    opening_activities: tuple[Activity, ...]
    lessons: tuple[Lesson, ...]


@dataclass(slots=True)
class _OpenLesson:
    heading: Heading
    part: Part
    end: int
    activities: list[Activity] = field(default_factory=list)

    def closed(self) -> Lesson:
        return Lesson(self.heading, self.part, tuple(self.activities), Span(self.heading.span.start, self.end))


def build_outline(source: Source, contents: Contents) -> tuple[Outline, list[Problem]]:
    """Sort the contents; says what is missing."""
    problems: list[Problem] = []
    take_letters(contents)
    titles = [heading for heading in contents.headings if heading.level == 1]
    unit = titles[0] if titles else None
    for extra in titles[1:]:
        problems.append(Problem(extra.span, _SECOND_TITLE, blocks=True))
        _keep_as_title(contents, extra)
    marks = [heading for heading in contents.headings if heading.level > 1]
    edges = [heading.span.start for heading in marks] + [len(source.text)]
    early: list[Activity] = []
    lessons: list[_OpenLesson] = []
    parts = [_part(contents, start, end) for start, end in pairwise(edges)]
    of_keys = _sections_of_keys(marks, parts)
    for index, heading in enumerate(marks):
        part = _titled(heading, parts[index]) if index in of_keys else parts[index]
        end = max(len(source.text[edges[index] : edges[index + 1]].rstrip()) + edges[index], heading.span.end)
        if index in of_keys or _heads_no_lesson(heading, part):
            if lessons:  # the last one's, or the whole unit's
                lessons[-1].part = _with(lessons[-1].part, part)
                lessons[-1].end = end
        elif heading.level == 2:
            lessons.append(_OpenLesson(heading, part, end))
        elif lessons:
            lessons[-1].activities.append(Activity(heading, part, Span(heading.span.start, end)))
            lessons[-1].end = end
        else:
            early.append(Activity(heading, part, Span(heading.span.start, end)))
    if unit is None and source.text.strip():
        at = marks[0].span if marks else source.line_span(1)
        problems.append(Problem(at, "The unit has no title. Write it as a heading of its own: `# A windy day`."))
    if not lessons and source.text.strip():
        at = unit.span if unit else (marks[0].span if marks else source.line_span(1))
        message = "The unit has no lessons. Each begins with a heading like `## Lesson 1: What's the weather like?`."
        problems.append(Problem(at, message))
    for lesson in lessons:
        _take_notes_behind(contents, lesson)
    opening = _part(contents, 0, edges[0])
    return Outline(unit, opening, tuple(early), tuple(lesson.closed() for lesson in lessons)), problems


def _heads_no_lesson(heading: Heading, part: Part) -> bool:
    """Whether a heading only heads a key or scripts, and no lesson or activity: `### Key to Lesson 1`, `## Answers
    {.notes}`, `## Audio script`."""
    if heading.level > 2 and heading.attributes.classes:
        return False  # of a kind: a game called Answers
    audiences = {passage.audience for passage in part.passages if passage is not heading.passage}
    for name, audience in ((_KEY, Audience.KEY), (_SCRIPTS, Audience.LISTENER)):
        if name.fullmatch(heading.passage.text):
            return audience in audiences and audiences <= {audience, Audience.TEACHER}
    return False


def _sections_of_keys(marks: Sequence[Heading], parts: Sequence[Part]) -> frozenset[int]:
    """The headings (by place) of sections that hold nothing but keys under smaller headings: `## Answers`, and in it
    `### Lesson 1`."""
    found: set[int] = set()
    for at, heading in enumerate(marks):
        behind = next((one for one in range(at + 1, len(marks)) if marks[one].level <= heading.level), len(marks))
        inside = range(at + 1, behind)
        named = heading.level == 2 and _KEY.fullmatch(heading.passage.text) is not None
        if named and inside and all(_is_of_key(marks[one], parts[one]) for one in inside):
            found.update((at, *inside))
    return frozenset(found)


def _is_of_key(heading: Heading, part: Part) -> bool:
    audiences = {passage.audience for passage in part.passages if passage is not heading.passage}
    return Audience.KEY in audiences and audiences <= {Audience.KEY, Audience.TEACHER}


def _titled(heading: Heading, part: Part) -> Part:
    """A part of a key with its heading as a title of the key: Lesson 1."""
    title = replace(heading.passage, role=Role.TITLE, audience=Audience.KEY)
    return replace(part, passages=(title, *(one for one in part.passages if one is not heading.passage)))


def _with(part: Part, other: Part) -> Part:
    return Part(
        passages=(*part.passages, *other.passages),
        fields=(*part.fields, *other.fields),
        divs=(*part.divs, *other.divs),
        pictures=(*part.pictures, *other.pictures),
    )


def _take_notes_behind(contents: Contents, lesson: _OpenLesson) -> None:
    """Notes for the whole lesson that stand behind its last activity: they have an Aim, where the lesson has no notes
    before, or a time for each of its activities, and only notes and keys follow. They are the lesson's where no
    activity before has any."""
    if len(lesson.activities) < _A_LESSON:
        return
    *before, last = lesson.activities
    if any(_has_notes(contents, activity.part) for activity in before):
        return
    usual = "time" if _has_notes(contents, lesson.part) else "aim"
    places = [field.span.start for field in last.part.fields if field_key(field.name) == usual]
    notes = [contents.divs[index].span for index in last.part.divs if contents.divs[index].kind is DivKind.TEACHER]
    cut = next((span.start for span in notes for place in places if span.start <= place < span.end), None)
    if cut is None or (usual == "time" and not _times_each(last.part, len(lesson.activities))):
        return
    behind = _part(contents, cut, last.span.end + 1)
    if usual == "aim" and any(_OF_ONE.match(p.text) for p in behind.passages if field_key(p.field) == "time"):
        return  # its own
    if all(passage.audience in (Audience.TEACHER, Audience.KEY) for passage in behind.passages):
        own = _part(contents, last.heading.span.start, cut)
        lesson.activities[-1] = Activity(last.heading, own, Span(last.span.start, max(last.heading.span.end, cut)))
        lesson.part = _with(lesson.part, behind)


def _times_each(part: Part, count: int) -> bool:
    """Whether a field of notes has a time for each of some activities: 1 – 8 min; 2 – 8 min; 3 – 6 min."""
    times = (one.text for one in part.passages if one.audience is Audience.TEACHER and field_key(one.field) == "time")
    wanted = [str(at) for at in range(1, count + 1)]
    return any([match[1] for match in _OF_EACH.finditer(text)] == wanted for text in times)


def _has_notes(contents: Contents, part: Part) -> bool:
    return any(contents.divs[index].kind is DivKind.TEACHER for index in part.divs)


_SECOND_TITLE = (
    "This is a second heading with a single #. A unit has one title;"
    " write a lesson's heading with ##, an activity's with ###."
)


def _keep_as_title(contents: Contents, heading: Heading) -> None:
    """A second title is still read: it stays on the page as a title."""
    passage = replace(heading.passage, role=Role.TITLE)
    at = bisect_left(contents.passages, heading.span.start, key=lambda other: other.block.start)
    contents.passages.insert(at, passage)


def _between(items: Sequence[_T], start: int, end: int, key: Callable[[_T], int]) -> tuple[_T, ...]:
    return tuple(items[bisect_left(items, start, key=key) : bisect_left(items, end, key=key)])


def _part(contents: Contents, start: int, end: int) -> Part:
    divs = _between(contents.divs, start, end, lambda div: div.span.start)
    first = bisect_left(contents.divs, start, key=lambda div: div.span.start)
    return Part(
        passages=_between(contents.passages, start, end, lambda passage: passage.block.start),
        fields=_between(contents.fields, start, end, lambda field: field.span.start),
        divs=tuple(range(first, first + len(divs))),
        pictures=_between(contents.pictures, start, end, lambda picture: picture.span.start),
    )
