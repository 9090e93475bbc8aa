"""Answers in square brackets behind the items themselves, `3. There ____ a cinema. [isn't]`, for the teacher alone.

A hint may stand there too (`She ____ home. [go]`). An answer is what the children choose: one of the options of its
item or its letter, a word of the box or of the instruction, a verdict; and where a unit has such answers in one
activity, what stands behind the blanks and the questions of its other activities is an answer as well. All items of an
exercise, but for an example, must have one.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, DivKind, Passage, Unit
from lint_rules.page.exercises.answers import plain, yes_or_no
from lint_rules.page.exercises.drafts import Draft, DraftExercise
from lint_rules.page.exercises.model import Answer, Label, Place

# A page that is read has round ones for those behind a blank: in the file they are square.
_BEHIND = lazy_re.compile(r"(?<!\s)\s*[(\[]([^()\[\]\n_|]{1,40})[)\]]\s*$")
_FEWEST = 3
_WORDS = r"[\w'’]+(?: [\w'’]+)*"
_ROW = lazy_re.compile(rf"{_WORDS}(?:\s*[·•|]\s*{_WORDS}|\s[–—/]\s{_WORDS}){{2,}}")  # buy · cook · hungry
_HINTS = lazy_re.compile(r"\b(?:brackets?|past|verbs?|forms?|tense|plurals?|correct)\b", re.I)
_BETWEEN = lazy_re.compile(r"\s+/\s+")
_OPTION = lazy_re.compile(r"(?<!\w)([a-h])[.)]? \S")  # a. Friday b. Saturday


def take_bracketed(drafts: Sequence[DraftExercise], activity: Activity, unit: Unit) -> dict[int, tuple[Answer, ...]]:
    """The answers of each exercise (by index) that has them behind its items; they are cut from the drafts."""
    given = _given(activity, unit)
    found: dict[int, tuple[Answer, ...]] = {}
    habit: bool | None = None
    for at, one in enumerate(drafts):
        answers = list(_answers(one.drafts, given, unit))
        if len(answers) < len(one.drafts) - 1 and len(in_blanks := list(_answers(one.drafts, None, unit))) >= _FEWEST:
            habit = _is_habit(activity, unit) if habit is None else habit
            answers = in_blanks if habit else answers
        if len(answers) >= _FEWEST and len(answers) >= len(one.drafts) - 1:
            for draft, place, _ in answers:
                _cut(draft, place)
            found[at] = tuple(answer for *_, answer in answers)
    return found


def _given(activity: Activity, unit: Unit) -> str:
    """The words that an activity gives to choose from, and those of its instruction."""
    offered = [activity.heading.passage.text]
    offered += [
        one.text
        for one in activity.part.passages
        if DivKind.WORDS in unit.div_kinds(one) or _ROW.fullmatch(one.text.strip())
    ]
    return plain(" , ".join(offered))


def _is_habit(activity: Activity, unit: Unit) -> bool:
    """Say whether another activity of a unit has its answers behind its items, and this one calls them no hints."""
    if _HINTS.search(activity.heading.passage.text):
        return False
    for other in unit.activities:
        behind = [(one.text, match) for one in other.part.passages if (match := _in_square(one, unit)) is not None]
        if other is activity or len(behind) < _FEWEST:
            continue
        given = _given(other, unit)
        words = any(yes_or_no(match[1]) is None for _, match in behind)  # [yes], [no] say nothing of [go]
        if words and all(_is_answer(text[: match.start()], match[1], given) for text, match in behind):
            return True
    return False


def _is_answer(before: str, answer: str, given: str) -> bool:
    """Whether words in brackets are what children choose: an option before them or its letter, a verdict, a word that
    is given."""
    lettered = [match[1] for match in _OPTION.finditer(before)]
    chosen = (len(lettered) > 1 and answer in lettered) or (_BETWEEN.search(before) and _has(plain(before), answer))
    return bool(chosen) or yes_or_no(answer) is not None or _has(given, answer)


def _answers(drafts: Sequence[Draft], given: str | None, unit: Unit) -> Iterator[tuple[Draft, Place, Answer]]:
    """The items that have an answer behind them: each with what is cut, and the answer. Without ``given`` whatever
    stands behind a blank is one, unless it is the same everywhere: [1], a mark each."""
    every = [match[1] for one in drafts if one.places and (match := _behind(one, unit)) is not None]
    said = set(every)
    in_order = [str(at) for at in range(1, len(drafts) + 1)]
    ordered = sorted(every) == sorted(in_order) and every != in_order  # b) Then he ran. [1]: not the marks that it has
    for draft in drafts:
        match = _behind(draft, unit) if draft.places else None
        if match is None:
            continue
        last = _last(draft)
        before = last.passage.text[last.start : match.start()]
        asks = before.rstrip().endswith("?") or any("__" in place.text for place in draft.places)
        blank = len(said) > 1 and asks
        lettered = any(option.label is not None and match[1] == option.label.text for option in draft.options)
        if ordered or lettered or (blank if given is None else _is_answer(before, match[1], given)):
            label = Label(draft.label.text, draft.label.span)
            yield draft, Place(last.passage, *match.span()), Answer(Place(last.passage, *match.span(1)), label)


def _behind(draft: Draft, unit: Unit) -> "re.Match[str] | None":
    last = _last(draft)
    return _in_square(last.passage, unit, last.start, last.end)


def _last(draft: Draft) -> Place:
    """Where an item ends: with its last option, if it has any below or behind it."""
    return draft.options[-1].place if draft.options else draft.places[-1]


def _cut(draft: Draft, answer: Place) -> None:
    """Takes an answer away from the end of an item."""
    last = _last(draft)
    rest = Place(last.passage, last.start, answer.start)
    if draft.options:
        draft.options[-1] = replace(draft.options[-1], place=rest)
    else:
        draft.places[-1] = rest


def _in_square(passage: Passage, unit: Unit, start: int = 0, end: int | None = None) -> "re.Match[str] | None":
    """What stands in square brackets at the end of a range, as the file has it."""
    match = _BEHIND.search(passage.text, start, len(passage.text) if end is None else end)
    opening = passage.starts[match.start(1) - 1] if match is not None else 0
    return match if unit.source.text[opening : opening + 1] == "[" else None


def _has(given: str, answer: str) -> bool:
    """Whether an answer stands among the words that are given, as whole words."""
    return re.search(rf"(?<!\w){re.escape(plain(answer))}(?!\w)", given) is not None
