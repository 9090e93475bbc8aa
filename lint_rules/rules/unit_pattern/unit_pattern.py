"""A unit whose lessons are not those of the course's pattern, or not in its order.

Teachers plan by the pattern: they know that the story is the third lesson and that the test comes last. A unit without
its review or with its grammar after the test surprises a class, and a designer who flows units into one layout. The
pattern stands in course.yaml under `unit_pattern`; a lesson's place is the class of its heading. Several lessons may
share a place. A course without a pattern is left alone.
"""

from collections.abc import Iterator, Sequence

from lint_rules.course.problem import nearest
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Lesson
from lint_rules.page.unit_pattern import fit
from lint_rules.rule import By, Example, Gather, Reading, Rule, Within

_PATTERN = "levels:\n  - unit_pattern: [words, grammar, story, test]\n"


def _lessons(*headings: str) -> str:
    return "".join(f"## {heading}\n\n### 1 Look.\n\n" for heading in headings)


RULE = Rule(
    name="unit-pattern",
    family="unit pattern",
    severity=Severity.QUERY,
    cure=(
        "Add or move the lesson, or mark it with its kind in braces. If your units are built otherwise, "
        "change `unit_pattern` in course.yaml."
    ),
    passes=(
        Example(_lessons("One {.words}", "Two {.grammar}", "Three {.story}", "Four {.test}"), course=_PATTERN),
        Example(
            _lessons("One {.words}", "More {.words}", "Two {.grammar}", "Three {.story}", "Four {.test}"),
            course=_PATTERN,
            why="two lessons for the words",
        ),
        Example(_lessons("One {.test}", "Two {.words}"), course="levels:\n  - unit_pattern: []\n", why="no pattern"),
        Example(
            _lessons("One {.words .grammar}", "Three {.story}", "Four {.test}"),
            course=_PATTERN,
            why="one lesson for words and grammar",
        ),
    ),
    fails=(
        Example("# «Kites»\n\n" + _lessons("One {.words}", "Two {.grammar}", "Four {.test}"), course=_PATTERN),
        Example(
            _lessons("One {.words}", "«Three» {.story}", "Two {.grammar}", "Four {.test}"),
            course=_PATTERN,
            why="the story comes before the grammar",
        ),
        Example(
            _lessons("One {.words}", "Two {.grammar}", "«Songs» {.songs}", "Three {.story}", "Four {.test}"),
            course=_PATTERN,
        ),
        Example(
            _lessons("One {.words}", "Two {.grammar}", "«Look» ", "Three {.story}", "Four {.test}"),
            course=_PATTERN,
            why="no class says what the lesson is",
        ),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.KEY,
            "{count} units have no {key} lesson, which their level asks for. Add them, or change the pattern.",
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report missing sections at the unit's title, lessons out of order or out of the pattern at their headings."""
    pattern, unit = reading.level.unit_pattern, reading.unit
    if not pattern or not unit.taught:
        return
    fitted = fit([lesson.classes for lesson in unit.taught], pattern)
    present = {name for lesson in unit.taught for name in lesson.classes}
    missing = [pattern[at] for at in fitted.missing if pattern[at] not in present]
    title = unit.heading.passage.text if unit.heading else unit.front.title
    for name in missing:
        message = f"This unit has no {name} lesson; the pattern of {reading.level.name} is {_shown(pattern)}."
        yield Found(unit.title_span, title, message, key=name)
    for lesson, place in zip(unit.taught, fitted.places, strict=True):
        if place is None:
            yield Found(lesson.heading.passage.span(), lesson.heading.passage.text, _message(lesson, pattern))


def _message(lesson: Lesson, pattern: Sequence[str]) -> str:
    shown = _shown(pattern)
    known = [name for name in lesson.classes if name in pattern]
    if known:
        return f"This {known[0]} lesson is out of order: the pattern is {shown}. Move it, or change the pattern."
    if not lesson.classes:
        return (
            f"This lesson does not say which part of the unit it is. Write its kind after the heading, one of {shown}."
        )
    near = nearest(lesson.classes[0], pattern)
    meant = f"Did you mean {near}?" if near else f"The pattern is {shown}."
    return f"A {lesson.classes[0]} lesson is not in the course's pattern. {meant}"


def _shown(pattern: Sequence[str]) -> str:
    return ", ".join(pattern)
