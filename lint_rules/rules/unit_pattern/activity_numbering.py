"""Activities of a lesson that are not numbered 1, 2, 3 …

"Look at activity three" must find one activity, the same in every child's book and in the answers. Numbering runs
within a lesson, or straight through the unit. A unit that numbers none of its activities is left alone: the designer
numbers them. It is a note: of eleven that judges had seen as queries none was thanked for.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.finding import Edit, Found, Mend, Severity
from lint_rules.manuscript.model import Activity, Audience, Unit
from lint_rules.page.cross_references import references_in
from lint_rules.rule import Example, Gather, Reading, Rule, Within
from lint_rules.source import Span

# How a heading counts itself: `A Listen.` · `Task B. Read.` · `Round 3: Match.`
_MARK = lazy_re.compile(r"(?:(?P<kind>[A-Z][a-z]+)\s+)?(?P<mark>[A-Z]|\d{1,2})(?=[.):\s])[.):]?\s")

RULE = Rule(
    name="activity-numbering",
    family="unit pattern",
    severity=Severity.NOTE,
    cure=(
        "Number the activities of each lesson from 1: `hornbook mend` does it where no text speaks of an "
        "activity by its number."
    ),
    passes=(
        Example("### 1 Look.\n\n### 2 Read.\n"),
        Example("## One {.words}\n\n### 1 Look.\n\n## Two {.words}\n\n### 1 Read.\n", why="each lesson begins anew"),
        Example("### Look.\n\n### Read.\n", why="none is numbered"),
        Example(
            "## One {.words}\n\n### 1 Look.\n\n## Test {.test}\n\n### Round 1 Look. {.test}\n\n"
            "### Round 2: Read. {.test}\n",
            why="the headings of the test count themselves",
        ),
        Example("### 1. Look.\n\n### 2. Read.\n"),
        Example(
            "## One {.words}\n\n### 1.1 Look.\n\n### 1.2 Say.\n\n## Two {.words}\n\n### 2.1 Read.\n",
            why="with the number of the lesson",
        ),
        Example(
            "## One {.words}\n\n### 2.1 Look.\n\n### 2.2 Say.\n\n## Two {.words}\n\n### 2.3 Read.\n\n### 2.4 Say.\n",
            why="with the number of the unit, straight through it",
        ),
        Example(
            "## One {.words}\n\n### 1a Look.\n\n### 1b Say.\n\n## Two {.words}\n\n### 2a Read.\n\n### 2b Say.\n",
            why="the number of the lesson, and letters",
        ),
        Example(
            "### 1 Look.\n\n### 2 Read.\n\n### The keys\n\n::: answers\n**Activity 2:** 1 a, 2 b\n:::\n",
            why="a heading over the keys of the lesson",
        ),
        Example(
            "## One {.words}\n\n### 1 Look.\n\n### 2 Say.\n\n## Two {.words}\n\n### 3 Read.\n\n### 4 Write.\n",
            why="straight through the unit",
        ),
        Example(
            "## One {.words}\n\n### 1 Look.\n\n## Two {.test}\n\n### A Listen.\n\n### B Read.\n",
            why="the parts of a test have letters",
        ),
    ),
    fails=(
        Example("### 1 Look.\n\n### «3» Read.\n"),
        Example("### 1.1 Look.\n\n### «1.3» Read.\n"),
        Example("### 1a Look.\n\n### «1c» Read.\n"),
        Example("### 1 Look.\n\n### «1» Read.\n\n### «2» Write.\n"),
        Example("### 1 Look.\n\n### «Read.»\n", why="this one has no number"),
        Example("### 1 Look.\n\n### «A cat is here.»\n", why="an article is no letter of a part"),
        Example("## One {.words}\n\n### 1 Look.\n\n## Two {.words}\n\n### «2» Read.\n"),
    ),
    gathers=(
        Gather(
            Within.UNIT,
            says="The numbers of {count} activities are not their places in the lesson. Number each lesson from 1.",
        ),
    ),
)

_MANY = 3  # numbers that make a habit: two lessons of two activities


def find(reading: Reading) -> Iterator[Found]:
    """Report each activity whose number is not its place, with the right number as a mend."""
    unit = reading.unit
    if not any(char.isdigit() for activity in unit.activities for char in activity.heading.number):
        return  # none is numbered, or all have letters
    numbers = [_figure(activity) for activity in unit.activities]
    if len(numbers) > _MANY and numbers == [str(place) for place in range(1, len(numbers) + 1)]:
        return  # straight through the unit
    # Other places may speak of an activity by its number: then only the author knows which number is meant.
    safe = not any(
        reference.kind == "activity" for passage in unit.passages for reference in references_in(passage.text)
    )
    for activities in _sequences(unit):
        if _are_told_apart(activities) or _are_lettered(activities):
            continue
        for place, activity in enumerate(activities, start=1):
            if _figure(activity) != str(place):
                yield _found(activity, place, safe=safe)


def _sequences(unit: Unit) -> Iterator[Sequence[Activity]]:
    for activities in (unit.opening_activities, *(lesson.activities for lesson in unit.lessons)):
        yield [one for one in activities if one.heading.number or not _holds_keys(one)]


def _holds_keys(activity: Activity) -> bool:
    """Say whether a heading stands only over the keys of a lesson: ### The keys."""
    return bool(activity.part.passages) and all(one.audience is Audience.KEY for one in activity.part.passages)


def _figure(activity: Activity) -> str:
    """The number of an activity in its lesson or unit: 2 of 1.2, and of 2a."""
    return re.sub(r"\D", "", activity.heading.figure)


def _are_lettered(activities: Sequence[Activity]) -> bool:
    """Say whether a lesson's activities have its number and letters: 3a, 3b, 3c."""
    figures = [activity.heading.figure for activity in activities]
    number = figures[0].rstrip("a") if figures else ""
    return bool(number) and figures == [f"{number}{chr(ord('a') + place)}" for place in range(len(figures))]


def _are_told_apart(activities: Sequence[Activity]) -> bool:
    """Say whether the headings of a lesson count themselves: A, B, C, or Round 1, Round 2, as parts of a test do."""
    headings = [activity.heading for activity in activities]
    letters = [heading.number if heading.number.isalpha() else "" for heading in headings]
    texts = [f"{letter} {heading.passage.text}" for letter, heading in zip(letters, headings, strict=True)]
    marks = [_MARK.match(text.strip()) for text in texts]
    counted = [(mark["kind"] or "", mark["mark"]) for mark in marks if mark is not None]
    if len(counted) < 2 or len(counted) < len(activities) or len({kind.casefold() for kind, _ in counted}) > 1:
        return False
    in_letters = [chr(ord("A") + place) for place in range(len(counted))]
    in_figures = [str(place) for place in range(1, len(counted) + 1)]
    return [mark for _, mark in counted] in (in_letters, in_figures if counted[0][0] else in_letters)


def _found(activity: Activity, place: int, *, safe: bool) -> Found:
    heading = activity.heading
    if not heading.number:
        span = heading.passage.span()
        mend = Mend(f"number the activity {place}", (Edit(Span(span.start, span.start), f"{place} "),))
        message = f"This activity has no number; in its lesson it is activity {place}."
        return Found(span, heading.passage.text, message, mend=mend if safe and heading.passage.text else None)
    number = re.sub(r"\d+(?=\D*$)", str(place), heading.number)
    mend = Mend(f"number the activity {place}", (Edit(heading.number_span, number),))
    message = f"This is activity {place} of its lesson, but its number is {heading.number.rstrip('.)')}."
    return Found(heading.number_span, heading.number, message, mend=mend if safe else None)
