"""A numbered item to complete that has no gap, where the others of its exercise have one.

The child reads "The ladder is the wall", looks for the place to write, and thinks it has missed something. An example
item, an item with options and a jumble need none.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.model import Exercise, Item, Place
from lint_rules.rule import Example, Reading, Rule
from lint_rules.source import Source

_KEY = "\n::: answers\n1 on 2 under 3 in\n:::\n"

RULE = Rule(
    name="missing-gap",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Put a gap (____) where the answer goes.",
    passes=(
        Example("1. The owl is ____ the box.\n2. The cat is ____ the cart.\n3. The dog is ____ the bed.\n" + _KEY),
        Example("0. Fire is hot.\n1. Ice is ____.\n2. Tea is ____.\n\n::: answers\n1 cold 2 hot\n:::\n", why="example"),
        Example("1. Is it red?\n2. What is it? ____\n3. Is it big?\n", why="most need none"),
        Example("1. Sing.\n2. Write: ____\n3. Draw ____\n", why="nothing to be answered there"),
        Example(
            "1. Ice is ____.\n2. Tea is ____.\n3. Fog is ____.\n4. Jam is ____.\n5. What is wet?\n6. What is hot?\n\n"
            "::: answers\n1 cold 2 hot 3 grey 4 sweet 5 rain 6 fire\n:::\n",
            why="a part of questions",
        ),
    ),
    fails=(
        Example(
            "1. My name is ____.\n2. I am ____.\n3. «I live in.»\n\n::: answers\nChildren's own answers.\n:::\n",
            why="it breaks off",
        ),
        Example("1. The owl is ____ the box.\n2. The cat is ____ the cart.\n3. «The dog is the bed.»\n" + _KEY),
        Example(
            "He (1) ____ a dog. It (2) ____ red. We «(3)» it. They (4) ____ here.\n\n"
            "::: answers\n(1) has (2) is (3) like (4) are\n:::\n",
            why="in a text",
        ),
        Example(
            "He (1) ____ a dog. It (2) ____ red. «We it.» They (4) ____ here.\n\n"
            "::: answers\n(1) has (2) is (3) like (4) are\n:::\n",
            why="the number is lost too",
        ),
        Example("1. I ____ (get) up.\n2. «We (see) it.»\n3. It ____ (run).\n\n::: answers\n1 got 2 saw 3 ran\n:::\n"),
    ),
)  # fmt: skip


_WORD = lazy_re.compile(r"[\w’'-]+")
_ASKS = lazy_re.compile(r"\?\W*$")
_BREAKS_OFF = lazy_re.compile(r"\b(?:is|are|am|was|a|an|the|in|at|my|your|his|her|got)\s*\.\s*$", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report items without the gap that the others have."""
    for read in reading.readings.exercises:
        for exercise in read.exercises:
            if exercise.cloze:
                yield from _in_text(exercise, reading.unit.source)
            elif not exercise.column:
                yield from _without(exercise)


def _without(exercise: Exercise) -> Iterator[Found]:
    items = [item for item in exercise.items if not item.example]
    having = [item for item in items if item.gaps and not item.choices and not _is_jumbled(item)]
    missing = [item for item in items if _needs_gap(item, own=exercise.key.own)]
    if len(having) < 2 or len(having) + len(missing) < len(items) or len(missing) * 2 > len(having):
        return
    if len(missing) > 1 and missing == items[-len(missing) :] and all(_ASKS.search(item.text) for item in missing):
        return  # a last part of questions to answer
    for item in missing:
        first = _where(item, having)
        answer = f"the key has “{item.answer.text}” for it" if item.answer is not None else "the others have one"
        which = f"Item {item.label.text}" if item.label.text else "This"
        message = f"{which} has no gap to write in; {answer}. Put ____ where it goes."
        yield Found(first.span, first.text, message)


def _where(item: Item, having: Sequence[Item]) -> Place:
    """Where an item should have its gap: in the column of the others'; on the one line that has the key's words; on
    the line on which most others have theirs."""
    columns = {gap.place.passage.cell.column for other in having for gap in other.gaps if gap.place.passage.cell}
    cells = [place for place in item.prompt if place.passage.cell and place.passage.cell.column in columns]
    if cells or len(item.prompt) == 1:
        return (cells or item.prompt)[0]
    said = [f" {plain(one)} " for one in alternatives(item.answer.text)] if item.answer is not None else []
    shown = [f" {' '.join(_WORD.findall(plain(place.text)))} " for place in item.prompt]
    telling = [place for place, words in zip(item.prompt, shown, strict=True) if any(one in words for one in said)]
    if len(telling) == 1:
        return telling[0]
    lines = Counter(
        at for other in having for at, place in enumerate(other.prompt) if any(place.holds(g.place) for g in other.gaps)
    )
    usual = lines.most_common(1)[0][0] if lines else 0
    return item.prompt[usual] if usual < len(item.prompt) else item.prompt[0]


def _in_text(exercise: Exercise, source: Source) -> Iterator[Found]:
    """The one number of a text that has neither blank nor choice, or is not there itself."""
    items = [item for item in exercise.items if not item.example and item.label.text]
    missing = [item for item in items if not item.gaps and not item.choices and item.answer is not None]
    if len(missing) == 1 and len(items) > 2:
        label = missing[0].label
        mark = label.mark
        if mark is None and not missing[0].prompt:
            message = (
                f"The text has no gap {label.text}, and the key has an answer for it. Put ({label.text}) ____ here."
            )
            yield Found(label.span, source.slice(label.span), message)
            return
        shown = mark.text.strip() if mark is not None else label.text
        span = mark.passage.span(mark.start, mark.start + len(mark.text.rstrip())) if mark is not None else label.span
        yield Found(span, shown, f"Number {label.text} of the text has no gap to write in. Put ____ behind it.")


def _is_jumbled(item: Item) -> bool:
    """Whether an item is something to put in order; letters in brackets behind a sentence are its hint."""
    return item.jumble is not None and not item.jumble.text.startswith("(")


def _needs_gap(item: Item, *, own: bool) -> bool:
    if not item.prompt or item.gaps or item.choices or item.jumble is not None:
        return False
    return item.answer is not None or (own and _BREAKS_OFF.search(item.text) is not None)
