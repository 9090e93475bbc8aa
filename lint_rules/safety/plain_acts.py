"""Acts that need no weighing: *cut* where scissors are on the list, *hot water* that is poured.

The learned tables (``acts``) weigh every sentence of an activity by what many activities taught them; a short step on
the children's page (*Cut off the top of the bottle.*) may weigh too little. Here an act is seen by its verb, in a step
of the teacher's or an order on a page of making, and by its thing, in the same sentence or under Materials. The table
is ``data/plain_acts.csv``.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import islice

from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.manuscript.model import Passage
from lint_rules.safety.activity_text import ActivityText, Place
from lint_rules.tables import alternatives, rows, words

_PAGE = frozenset({Place.PAGE, Place.LIST})
_MAKING = "make"  # the class of activities whose page says what to do
_MATERIALS = frozenset({Place.MATERIALS, Place.LESSON_MATERIALS})
_SENTENCE = re.compile(r"[^.!?;:\n]+[.!?;:]*")
# Nobody does it, or only in play; or the teacher does, out of reach.
_NOT_DONE = re.compile(
    r"\b(?:not|never|no|nobody|without|don['’]t|pretend|mime|imagine|picture|toy|song|air|battery|you|teacher|adult)\b",
    re.I,
)
# Where an order begins: 1 Cut …; Wash and cut …; then cut …
_ORDERED = re.compile(r"(?:^|[.!;:,\n]|\b(?:and|then|now|first|next))\s*(?:\d{1,2}[.)]?\s*)?$", re.I)
_OPEN = re.compile(r"_{2,}|…|·")
_SHOWN = 5  # words that show an act whose thing stands elsewhere


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the table: the verbs of a hazard, those of them that do with a thing on the list, and the things."""

    hazard: str
    verbs: "re.Pattern[str]"
    by_list: "re.Pattern[str] | None"
    things: "re.Pattern[str]"


@dataclass(frozen=True, slots=True)
class PlainAct:
    """An act: its hazard, and the words that show it."""

    hazard: str
    passage: Passage
    start: int
    end: int


def plain_acts(text: ActivityText) -> Iterator[PlainAct]:
    """The acts of an activity that are said in so many words, each hazard once."""
    listed = "\n".join(one.passage.text for one in text.said if one.place in _MATERIALS)
    followed = [
        (one.passage, one.place in _PAGE)
        for one in text.said
        if one.place is Place.STEPS or (one.place in _PAGE and _MAKING in text.kinds)
    ]
    for row in _table():
        on_list = row.things.search(listed) is not None
        shown = (
            PlainAct(row.hazard, passage, start, end)
            for passage, on_page in followed
            for start, end in _in_passage(passage.text, row, on_list=on_list, ordered=on_page)
        )
        yield from islice(shown, 1)


def _in_passage(text: str, row: _Row, *, on_list: bool, ordered: bool) -> Iterator[tuple[int, int]]:
    for sentence in _SENTENCE.finditer(text):
        verb = row.verbs.search(text, sentence.start(), sentence.end())
        if verb is None or "?" in sentence[0] or _NOT_DONE.search(sentence[0]) or _OPEN.search(sentence[0]):
            continue
        before = text[sentence.start() : verb.start()]
        by_children = not ordered and any(word.casefold() in _class() for word in re.findall(r"[\w'’]+", before))
        if not by_children and not _ORDERED.search(before):
            continue
        thing = row.things.search(text, verb.end(), sentence.end())
        if thing is not None:
            yield verb.start(), thing.end()
        elif on_list and row.by_list is not None and row.by_list.fullmatch(verb[0]):
            run = list(re.finditer(r"[\w'’-]+", text[verb.start() : sentence.end()]))[:_SHOWN]
            yield verb.start(), verb.start() + run[-1].end()


@cache
def _class() -> frozenset[str]:
    """Who is in a class: children, a group, each pair."""
    return frozenset(form for word in words("class_people") for form in {word, *noun_forms(word)})


@cache
def _table() -> tuple[_Row, ...]:
    return tuple(
        _Row(hazard, _verbs(verbs), _verbs(by_list) if by_list else None, _things(things))
        for hazard, verbs, by_list, things in rows("plain_acts.csv")
    )


def _verbs(cell: str) -> "re.Pattern[str]":
    return _any_of(form for verb in alternatives(cell) for form in every_form(verb))


def _things(cell: str) -> "re.Pattern[str]":
    return _any_of(form for thing in alternatives(cell) for form in _forms(thing))


def _forms(thing: str) -> Iterator[str]:
    before, _, last = thing.rpartition(" ")
    yield from (f"{before} {form}".strip() for form in {last, *noun_forms(last)})


def _any_of(forms: Iterable[str]) -> "re.Pattern[str]":
    longest_first = sorted(set(forms), key=lambda form: (-len(form), form))
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, longest_first))})\b", re.I)
