"""Answers in square brackets behind the items themselves, `3. There ____ a cinema. [isn't]`, for the teacher alone.

A hint may stand there too (`She ____ home. [go]`). An answer is what the children choose: one of the options of its
item, a word of the box or of the instruction, a verdict. All items of an exercise, but for an example, must have one.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, DivKind, Unit
from lint_rules.page.exercises.answers import plain, yes_or_no
from lint_rules.page.exercises.drafts import Draft, DraftExercise
from lint_rules.page.exercises.model import Answer, Label, Place

_BEHIND = lazy_re.compile(r"\s*\[([^\[\]\n_|]{1,40})\]\s*$")
_FEWEST = 3
_BETWEEN = lazy_re.compile(r"\s+/\s+")


def take_bracketed(drafts: Sequence[DraftExercise], activity: Activity, unit: Unit) -> dict[int, tuple[Answer, ...]]:
    """The answers of each exercise (by index) that has them behind its items; they are cut from the drafts."""
    offered = [activity.heading.passage.text]
    offered += [one.text for one in activity.part.passages if DivKind.WORDS in unit.div_kinds(one)]
    given = plain(" , ".join(offered))
    found: dict[int, tuple[Answer, ...]] = {}
    for at, one in enumerate(drafts):
        answers = list(_answers(one.drafts, given))
        if len(answers) >= _FEWEST and len(answers) >= len(one.drafts) - 1:
            for draft, place, _ in answers:
                last = draft.places[-1]
                draft.places[-1] = Place(last.passage, last.start, place.start)
            found[at] = tuple(answer for *_, answer in answers)
    return found


def _answers(drafts: Sequence[Draft], given: str) -> Iterator[tuple[Draft, Place, Answer]]:
    """The items that have an answer behind them: each with what is cut, and the answer."""
    for draft in drafts:
        last = draft.places[-1] if draft.places else None
        match = _BEHIND.search(last.passage.text, last.start, last.end) if last is not None else None
        if last is None or match is None:
            continue
        before = last.passage.text[last.start : match.start()]
        chosen = _BETWEEN.search(before) is not None and _has(plain(before), match[1])
        if chosen or yes_or_no(match[1]) is not None or _has(given, match[1]):
            label = Label(draft.label.text, draft.label.span)
            yield draft, Place(last.passage, *match.span()), Answer(Place(last.passage, *match.span(1)), label)


def _has(given: str, answer: str) -> bool:
    """Whether an answer stands among the words that are given, as whole words."""
    return re.search(rf"(?<!\w){re.escape(plain(answer))}(?!\w)", given) is not None
