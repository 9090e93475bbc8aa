"""Things that the art of a story has in another colour or number than its text: a green jacket, and a yellow one.

Only what one brief or another has in one way alone, and the whole story in one other way alone: a story in which the
five eggs become four, or that has two hats, tells nothing. Of a text to read that is no story only its own art is held
against it. `python -m tests.judged.drawn` prints them with those of frames: 28 such things on 347 courses, as far as
the authors' lists tell all slips.
"""

import re
from collections.abc import Collection, Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, Lesson, Passage, Role, Unit
from lint_rules.page.number_words import numbers_in, ordinals_in
from lint_rules.plain_words import SENTENCE
from lint_rules.unit_language.drawn_in_frames import drawn_in_frames
from lint_rules.unit_language.shown_things import Shown, coloured_in, names_in, only_ones
from lint_rules.unit_language.texts_around import single

_STORY, _READING = "story", "reading"
_A_TEXT = 12  # words: a statement to call right or wrong has fewer
_TO_DO = lazy_re.compile(r"_{3,}|\(\d\)| / ")
_CHANGES = lazy_re.compile(
    r"n['’]t\b|\b(?:no|not|need\w*|wants?|more|another)\b", re.I
)  # what is not there, or not yet
_TURNS = lazy_re.compile(r"\b(?:paints?|painted|turns?|turned|becom\w*|became|chang\w*|colou?r(?:s|ed))\b", re.I)
_PARTS = lazy_re.compile(r"\b1\b.*\b2\b", re.S)


def drawn_otherwise(unit: Unit) -> Iterator[tuple[Shown, Shown]]:
    """What a unit's art has otherwise than the story of its lesson, and how the story has it, each thing once."""
    found = {
        drawn.passage.span(drawn.start): (drawn, told) for drawn, told in (*_in_stories(unit), *drawn_in_frames(unit))
    }
    yield from found.values()


def _in_stories(unit: Unit) -> Iterator[tuple[Shown, Shown]]:
    for lesson in unit.lessons:
        story = list(_story(lesson))
        own = {id(one) for activity in lesson.activities if _STORY in activity.kinds for one in activity.part.passages}
        art = [
            one for activity in lesson.activities for one in activity.part.passages if one.audience is Audience.ARTIST
        ]
        if story and art:
            yield from _differing(art, story, own)
        for activity in lesson.activities if not story else ():
            yield from _in_one(activity)


def _in_one(activity: Activity) -> Iterator[tuple[Shown, Shown]]:
    """What an activity to read has in its own art otherwise than in its text."""
    page = [one for one in activity.part.passages if one.audience is Audience.PUPIL and one.role is Role.TEXT]
    art = [one for one in activity.part.passages if one.audience is Audience.ARTIST]
    text = [one for one in page if len(one.text.split()) >= _A_TEXT and not _TO_DO.search(one.text)]
    of_parts = any(map(_PARTS.search, (one.text for one in art)))  # what is in each part may be some of them
    if _READING in activity.kinds and text and art and not of_parts:
        for drawn, told in _differing(art, text, {id(one) for one in art}):
            of_it = [
                one
                for passage in page
                for one in SENTENCE.findall(passage.text)
                if single(told.thing) in one.casefold()
            ]
            if not any(_CHANGES.search(one) for one in of_it) and not any(_TURNS.search(one.text) for one in page):
                yield drawn, told


def _differing(art: Sequence[Passage], text: Sequence[Passage], own: Collection[int]) -> Iterator[tuple[Shown, Shown]]:
    for read in (_coloured, _counted):
        drawn, told = read(art), read(text)
        for thing in sorted(drawn.keys() & told.keys()):
            one, other = drawn[thing], told[thing]
            later = read is _counted and any(_comes_up_to(one.value, passage.text) for passage in text)
            if one.value != other.value and not later and _may_be_one(one, other, sure=id(one.passage) in own):
                yield one, other  # not: three chicks, and then a fourth


def _comes_up_to(number: str, text: str) -> bool:
    """Say whether a text counts up to a number by its ordinal: the fourth chick."""
    return any(ordinal.rstrip("stndrh") == number for ordinal in ordinals_in(text))


def _story(lesson: Lesson) -> Iterator[Passage]:
    for activity in lesson.activities:
        if _STORY in activity.kinds:
            for one in activity.part.passages:
                if one.audience in (Audience.PUPIL, Audience.LISTENER) and one.role not in (Role.ALT, Role.INSTRUCTION):
                    yield one


def _may_be_one(drawn: Shown, told: Shown, *, sure: bool) -> bool:
    """Say whether two words may be of one thing: not of Tam's hat the one, and of Nell's the other. The names of their
    sentences say so, or those of their frames; the art of another activity (not ``sure``) must have one of theirs."""
    own, other = drawn.names, told.names
    around = (names_in(f"{one.passage.speaker} {one.passage.text}") for one in (drawn, told))
    unnamed = sure and (not own or not other)
    return unnamed or bool(own & other) or bool(frozenset.intersection(*around))


def _coloured(passages: Sequence[Passage]) -> dict[str, Shown]:
    return only_ones(one for passage in passages for one in coloured_in(passage, 0, len(passage.text)))


def _counted(passages: Sequence[Passage]) -> dict[str, Shown]:
    found = (
        (passage, number, start, thing, passage.text.index(thing, end) + len(thing))
        for passage in passages
        for number, start, end, thing in numbers_in(passage.text)
        if number > 1 and thing.endswith("s") and passage.text[end:].split()[:1] != ["more"]  # six more snails
    )
    return only_ones(Shown(thing.casefold(), str(number), one, start, end) for one, number, start, thing, end in found)
