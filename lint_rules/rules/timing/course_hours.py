"""A level's lessons add up to fewer hours of classwork than the level promises.

Schools choose a course by its hours: a level that is sold as forty hours and fills thirty leaves a teacher with weeks
and no pages. Once all units that course.yaml names under `units` are there, the sum is held against `hours`; until then
it is a forecast at the pace so far, and only a note; so is a sum held against hours that the course never promised
itself. A lesson counts with its stated total, else with the sum of its activities; an hour is sixty minutes.
"""

from collections.abc import Iterator, Sequence

from lint_rules.course.model import Level
from lint_rules.facts import UnitFacts
from lint_rules.finding import Found, Severity
from lint_rules.page.times import Minutes, add_up, as_hours
from lint_rules.rule import Book, Example, Limit, Rule
from lint_rules.source import Span


def _unit(number: int, title: str, *minutes: str) -> str:
    lessons = "".join(
        f"## Lesson {index}: Kites\n\n::: teacher\n**Time:** {time}\n:::\n\n" for index, time in enumerate(minutes, 1)
    )
    return f"---\nlevel: level-1\nunit: {number}\ntitle: Kites\n---\n\n# {title}\n\n{lessons}"


_TWO_HOURS_TWO_UNITS = "levels:\n  - hours: 2\n    units: 2\n"

RULE = Rule(
    name="course-hours",
    family="timing",
    severity=Severity.QUERY,
    cure=(
        "Add lessons, or promise fewer hours in course.yaml. While units are still to come, say how many "
        "there will be (`units`)."
    ),
    passes=(
        Example(
            _unit(1, "Kites", "40 minutes", "40 minutes"),
            others=(_unit(2, "Boats", "40 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
        ),
        Example(_unit(1, "Kites", "60 minutes"), course=_TWO_HOURS_TWO_UNITS, why="half the units, half the hours"),
        Example(
            _unit(1, "Kites", "1 hour"),
            others=(_unit(2, "Boats", "55–60 minutes", "5–10 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
        ),
        Example(
            _unit(1, "Kites", "55 minutes"),
            others=(_unit(2, "Boats", "55 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
            why="nearly two hours",
        ),
    ),
    fails=(
        Example(
            _unit(1, "«Kites»", "40 minutes"),
            others=(_unit(2, "Boats", "40 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
        ),
        Example(
            _unit(1, "«Kites»", "40 minutes", "one lesson"),
            others=(_unit(2, "Boats", "40 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
            why="the lesson without a time that can be read may hold the rest: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "«Kites»", "40 minutes"),
            course=_TWO_HOURS_TWO_UNITS,
            why="a forecast: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "«Kites»", "50–60 minutes"),
            others=(_unit(2, "Boats", "60 minutes"),),
            course=_TWO_HOURS_TWO_UNITS,
            why="enough only if the longest times are taken: a note",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "«Kites»", "40 minutes"),
            course="levels:\n  - hours: 2\n",
            why="how many units there will be?",
            weight=Severity.NOTE,
        ),
        Example(
            _unit(1, "«Kites»", "40 minutes"),
            course="levels:\n  - units: 1\n",
            why="forty hours are what we expect, and nobody's promise: a note",
            weight=Severity.NOTE,
        ),
    ),
    limits=(
        Limit("up to a tenth short: nothing", "all eleven authors of judged courses who were told shrugged"),
        Limit("40 hours a level, unless the course says otherwise", "common practice, no source"),
    ),
)


_NEARLY = 0.9  # of the promised hours: an hour in ten is lost or found in any class, and none thanked for less


def find_in_book(book: Book) -> Iterator[Found]:
    """Report levels that fall short, at the title of their first unit."""
    for level in book.course.levels:
        units = [unit for unit in book.units if unit.level == level.index]
        verdict = _verdict(level, units) if units and level.hours else None
        if verdict is not None:
            severity, message = verdict
            title = units[0].title
            yield Found(Span(title.start, title.end), title.text, message, severity, path=units[0].path, key=level.name)


def _verdict(level: Level, units: Sequence[UnitFacts]) -> tuple[Severity | None, str] | None:
    """Severity (None: the rule's own) and message for a level that falls short; None for one that does not."""
    promised = level.hours * 60
    total = add_up(_minutes(unit) for unit in units)
    promise = f"{level.name} promises {as_hours(promised)} of classwork"
    if not level.hours_of_course:
        promise = f"{level.name} is expected to have {as_hours(promised)} of classwork (`hours` in course.yaml)"
    if not level.units:
        if total.high >= promised:
            return None
        return Severity.NOTE, (
            f"{promise} and has {_sum(units, total)} so far. "
            "Say in course.yaml how many `units` it will have, and this becomes a forecast."
        )
    if len(units) < level.units:
        pace = level.units / len(units)
        forecast = Minutes(total.low * pace, total.high * pace)
        if forecast.high >= promised:
            return None
        return Severity.NOTE, (
            f"{promise}, and at the pace so far ({_sum(units, total)}) its {level.units} units come to about "
            f"{_hours(forecast)}. Plan more lessons, or set fewer hours."
        )
    if total.low >= promised:
        return None
    if total.high >= promised:
        message = f"{promise} and has them only at the longest times: {_sum(units, total)}. Add lessons to be sure."
        return Severity.NOTE, message
    if total.high >= promised * _NEARLY:
        return None
    missing = as_hours(promised - total.high)
    could_be = total.high + _untimed(units) * level.limits.lesson_minutes[1]
    weight = Severity.NOTE if could_be >= promised or not level.hours_of_course else None
    cure = "Add lessons, or promise fewer hours." if level.hours_of_course else "Add lessons, or say its hours there."
    return weight, f"{promise} and is {missing} short, with {_sum(units, total)}. {cure}"


def _minutes(unit: UnitFacts) -> Minutes:
    return add_up(Minutes(lesson.low, lesson.high) for lesson in unit.lessons if lesson.low >= 0)


def _sum(units: Sequence[UnitFacts], total: Minutes) -> str:
    """The sum, and how it comes about: `7 hours 20 minutes in 2 units, 3 lessons without a time`."""
    untimed = _untimed(units)
    left_out = f", {untimed} {'lessons' if untimed > 1 else 'lesson'} without a time" if untimed else ""
    return f"{_hours(total)} in {len(units)} {'unit' if len(units) == 1 else 'units'}{left_out}"


def _untimed(units: Sequence[UnitFacts]) -> int:
    """Lessons whose time nobody has said, or that could not be read."""
    return sum(lesson.low < 0 for unit in units for lesson in unit.lessons)


def _hours(minutes: Minutes) -> str:
    if round(minutes.low) == round(minutes.high):
        return as_hours(minutes.high)
    return f"{as_hours(minutes.low)} to {as_hours(minutes.high)}"
