"""Acts that need no weighing: *cut* where scissors are on the list, *hot water* that is poured.

The learned tables (``acts``) weigh every sentence of an activity by what many activities taught them; a short step on
the children's page (*Cut off the top of the bottle.*) may weigh too little. Here an act is seen by its verb, in a step
of the teacher's or an order on a page of making, and by its thing, in the same sentence or under Materials. The table
is ``data/plain_acts.csv``.
"""

import re
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import chain, islice

from lint_rules import lazy_re
from lint_rules.language.inflection.forms import every_form, noun_forms
from lint_rules.manuscript.model import Passage
from lint_rules.safety.activity_text import ActivityText, Place
from lint_rules.safety.foods import has_real_food
from lint_rules.safety.materials import PREPARED
from lint_rules.tables import alternatives, rows, words

_PAGE = frozenset({Place.INSTRUCTION, Place.PAGE, Place.LIST})
_CLIMBING = "climbing-standing-on-furniture"
_SCISSORS, _KNIVES = "scissors-cutting", "knives-and-blades"
_TASTING = "food-tasting-allergy"
_SUN = "bright-light-lasers-sun"
_DRAWN = lazy_re.compile(r"\b(?:pictures?|cards?|posters?|page|drawings?|board|map|screen|video|story|frame)\b", re.I)
_NEED = lazy_re.compile(r"\W*(?:you need|we need|things you need|what you need)\W+", re.I)
_EAT = lazy_re.compile(r"\b(?:eats?|tastes?)\b", re.I)
_MAKING = "make"  # the class of activities whose page says what to do; that of a game mostly does
_MATERIALS = frozenset({Place.MATERIALS, Place.LESSON_MATERIALS})
_SENTENCE = lazy_re.compile(r"[^.!?;:\n]+[.!?;:]*")
# Nobody does it, or only in play, or not in class.
_NOT_DONE = lazy_re.compile(
    r"\b(?:not|never|no|nobody|without|don['’]t|pretend|mime|imagine|toy|battery|in the air|time is short)\b",
    re.I,
)
# Grown-ups do it: an adult cuts; show how you peel.
_BY_ADULT = lazy_re.compile(r"\b(?:you|teacher|adults?|grown-ups?|helpers?|parents?)\s+(?:\w+\s+)?$", re.I)
_WITH = lazy_re.compile(r"\b(?:with|using)(?:\s+[\w'’-]+){0,2}(?:\s+and(?:\s+[\w'’-]+){0,2})?\s*$", re.I)
# Frogs of paper jump, somebody in a story stands there.
_NOT_THEMSELVES = lazy_re.compile(
    r"\b(?:makes?|lets?|watch|see|pictures?|story|stories|photos?|film|book|puppets?|toys?|figures?|animals?)\b", re.I
)
_HELD = lazy_re.compile(r"\b[Ww]ith\s+(?:an?|the|their|your|his|her)\s+(?:[\w-]+\s+){0,2}$")  # a vegetable peeler
_DOER = lazy_re.compile(r",?\s+(?:the|each|every|one|all)?\s*([a-z]+)\s+[a-z]+")
_BETWEEN = 3  # words between a verb and its thing: push the long pin
_OTHER_THING = lazy_re.compile(r"\s*(?:cards?|words?|pictures?|sounds?)\b", re.I)  # the oven card
_OTHER_NEEDLE = lazy_re.compile(r"\b(?:pine|fir|compass|knitting)\s+$", re.I)
_OWN_NAIL = lazy_re.compile(r"\b(?:(?:finger|toe)\s?|(?:their|your|his|her)\s)(?=nail)", re.I)
# Squares of a board, riddles and mimes: nobody does what they say.
_NO_ORDERS = lazy_re.compile(
    r"\b(?:miss a turn|go (?:on|back)\b[^.]*\d|squares?|dice|counters?|guess|mimes?|who am i|what am i)\b", re.I
)
# What is cut in class and is no paper: the story, step 3, the game; and cut in, cut short.
_OTHER_SENSE = lazy_re.compile(
    r"\s*(?:in|short|down|it short"
    r"|(?:the\s+|your\s+|a\s+)?(?:story|steps?|game|time|activity|lesson|text|odd|words?))\b",
    re.I,
)
# Where an order begins, after Say "Stop!" and too: 1 Cut …; Wash and cut …; then cut …
_ORDERED = lazy_re.compile(
    r"(?:^|[.!;:,\n]|\b(?:and|then|now|first|next|means))\s*(?:\d{1,2}[.)]?\s*)?(?:☐\s*)?(?:we\s+)?$", re.I
)
_OPEN = lazy_re.compile(r"_{2,}|…|·")
_SOME_WORDS = r"(?:[\w-]+ ){0,2}"  # make ~ hole: make a small hole
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


def plain_acts(text: ActivityText, names: Collection[str] = ()) -> Iterator[PlainAct]:
    """The acts of an activity that are said in so many words, one for each row of the table at most; ``names`` are the
    parts that children play: the King and Nilu stand on the desks."""
    listed = "\n".join(one.passage.text for one in text.said if one.place in _MATERIALS)
    told = " ".join(one.passage.text for one in text.said)
    from_page = _MAKING in text.kinds or ("game" in text.kinds and _NO_ORDERS.search(told) is None)
    followed = [
        (one.passage, one.place in _PAGE)
        for one in text.said
        if one.place is Place.STEPS or (one.place in _PAGE and from_page)
    ]
    for row in _table():
        on_list = _MAKING in text.kinds and row.things.search(listed) is not None
        if row.hazard == _SCISSORS and any(one.hazard == _KNIVES and one.things.search(listed) for one in _table()):
            on_list = False  # which of them cuts?
        shown = (
            PlainAct(row.hazard, passage, start, end)
            for passage, on_page in followed
            for start, end in _in_passage(
                passage.text if on_page else without_speech(passage),
                row,
                on_list=on_list,
                ordered=on_page,
                played=names if row.hazard == _CLIMBING else (),
            )
            if not any(left < end and start < right for left, right in passage.emphasis)  # the word *cut*
        )
        held = (
            PlainAct(row.hazard, passage, start, end)
            for passage, on_page in (followed if row.hazard == _KNIVES else ())
            for start, end in (() if on_page else _with_tool(passage.text, row))
        )
        yield from islice(chain(shown, held), 1)
    if _MAKING in text.kinds and any(has_real_food(one) for one in (listed, *_needed(text))):
        eaten = (
            PlainAct(_TASTING, passage, start, end)
            for passage, on_page in followed
            for start, end in _eaten(passage.text, ordered=on_page)
        )
        yield from islice(eaten, 1)


def without_speech(passage: Passage) -> str:
    """A note with spaces for what children say in it: turns round once and says *I don't like …*."""
    text = passage.text
    for start, end in passage.emphasis:
        if end - start < len(text):
            text = text[:start] + " " * (end - start) + text[end:]
    return text


def _needed(text: ActivityText) -> Iterator[str]:
    """What a page says that children need: You need: bread, a tomato, a plate."""
    for one in text.said:
        match = _NEED.match(one.passage.text) if one.place in _PAGE else None
        if match is not None:
            yield one.passage.text[match.end() :]


def _eaten(text: str, *, ordered: bool) -> Iterator[tuple[int, int]]:
    """Where children are told to eat what they have made: Eat your lunch!"""
    for sentence in _SENTENCE.finditer(text):
        for verb in _EAT.finditer(text, sentence.start(), sentence.end()):
            before = text[sentence.start() : verb.start()]
            by_children = not ordered and any(word.casefold() in _class() for word in re.findall(r"[\w'’]+", before))
            if "?" in sentence[0] or _NOT_DONE.search(sentence[0]) or not (by_children or _ORDERED.search(before)):
                continue
            run = list(re.finditer(r"[\w'’-]+", text[verb.start() : sentence.end()]))[:_SHOWN]
            yield verb.start(), verb.start() + run[-1].end()
            return


def _in_passage(
    text: str, row: _Row, *, on_list: bool, ordered: bool, played: Collection[str]
) -> Iterator[tuple[int, int]]:
    if row.verbs.search(text) is None:  # most texts by most rows
        return
    who = _who(text)
    for sentence in _SENTENCE.finditer(text):
        verb = row.verbs.search(text, sentence.start(), sentence.end())
        if verb is None or "?" in sentence[0] or _NOT_DONE.search(sentence[0]) or _OPEN.search(sentence[0]):
            continue
        if PREPARED.search(sentence[0]) or (" " not in verb[0] and _OTHER_SENSE.match(text, verb.end())):
            continue
        before = text[sentence.start() : verb.start()]
        if row.hazard == _CLIMBING and _NOT_THEMSELVES.search(before):
            continue
        if row.hazard == _SUN and _DRAWN.search(text):
            continue
        subject = re.findall(r"[\w'’]+", before)
        by_children = not ordered and any(word.casefold() in who or word in played for word in subject)
        if _BY_ADULT.search(before) or not (by_children or _ORDERED.search(before)):
            continue
        thing = row.things.search(text, verb.end(), sentence.end())
        if (
            thing is not None
            and _is_of_verb(text[verb.end() : thing.start()])
            and not _OTHER_THING.match(text, thing.end())
            and not _OTHER_NEEDLE.search(text, 0, thing.start())
            and not _OWN_NAIL.search(text, verb.end(), thing.end())
        ):
            yield verb.start(), thing.end()
        elif on_list and row.by_list is not None and row.by_list.fullmatch(verb[0]):
            run = list(re.finditer(r"[\w'’-]+", text[verb.start() : sentence.end()]))[:_SHOWN]
            yield verb.start(), verb.start() + run[-1].end()


def _with_tool(text: str, row: _Row) -> Iterator[tuple[int, int]]:
    """Where children do something with a tool, whatever it is called: With a peeler the child takes the bark off."""
    for sentence in _SENTENCE.finditer(text):
        tool = row.things.search(text, sentence.start(), sentence.end())
        if tool is None or "?" in sentence[0] or _NOT_DONE.search(sentence[0]) or _OPEN.search(sentence[0]):
            continue
        held = _HELD.search(text, sentence.start(), tool.start())
        doer = _DOER.match(text, tool.end(), sentence.end())
        if held is not None and doer is not None and doer[1].casefold() in _class():
            yield held.start(), doer.end()


def _is_of_verb(between: str) -> bool:
    """Say whether the words between a verb and a thing let the verb be about it: a few words (an amount aside), or
    with it."""
    of_amount = between.rpartition(" of ")[2]
    return "," not in between and (len(of_amount.split()) <= _BETWEEN or _WITH.search(between) is not None)


def _who(text: str) -> frozenset[str]:
    """Who does something in a text: the class, and they where it speaks of the class."""
    spoken_of = any(word.casefold() in _class() for word in re.findall(r"[\w'’]+", text))
    return _class() | {"they"} if spoken_of else _class()


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
    return _any_of(form for verb in alternatives(cell) for form in _forms_of_verb(verb))


def _forms_of_verb(verb: str) -> Iterator[str]:
    """The forms of a verb, with what it has behind it: make ~ hole, makes ~ hole, make ~ holes."""
    first, _, rest = verb.partition(" ")
    ends = {rest, *noun_forms(rest.split()[-1])} if rest else {""}
    behind = sorted({f"{rest.rpartition(' ')[0]} {end.rpartition(' ')[2]}".strip() for end in ends})
    yield from (f"{form} {end}".strip() for form in every_form(first) for end in behind)


def _things(cell: str) -> "re.Pattern[str]":
    return _any_of(form for thing in alternatives(cell) for form in _forms(thing))


def _forms(thing: str) -> Iterator[str]:
    before, _, last = thing.rpartition(" ")
    yield from (f"{before} {form}".strip() for form in {last, *noun_forms(last)})


def _any_of(forms: Iterable[str]) -> "re.Pattern[str]":
    longest_first = sorted(set(forms), key=lambda form: (-len(form), form))
    patterns = (re.escape(form).replace(r"\~\ ", _SOME_WORDS) for form in longest_first)
    return re.compile(rf"\b(?:{'|'.join(patterns)})\b", re.I)
