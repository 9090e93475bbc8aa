"""A unit without a kind of activity that every unit of the level has.

What comes back in every unit (the survey, the song, the thing to make) is what children look forward to and what a
teacher relies on. The kinds stand in course.yaml under `every_unit`; an activity's kinds are its heading's classes.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.rule import By, Example, Gather, Reading, Rule, Within

_SURVEY = "levels:\n  - every_unit: [survey]\n"

RULE = Rule(
    name="missing-recurring-activity",
    family="unit pattern",
    severity=Severity.QUERY,
    cure=(
        "Add the activity, or mark the one you have with its kind in braces. If not every unit needs it, "
        "change `every_unit` in course.yaml."
    ),
    passes=(
        Example("### 1 Ask eight friends. {.survey}\n\nDo you like kites?\n", course=_SURVEY),
        Example("### 1 Ask. Write. {.speaking .survey}\n\nDo you like kites?\n", course=_SURVEY),
        Example("### 1 Look. {.reading}\n", course="levels:\n  - every_unit: []\n", why="the course asks for none"),
    ),
    fails=(
        Example("# «Kites»\n\n## Look {.words}\n\n### 1 Look. {.reading}\n", course=_SURVEY),
        Example(
            "# «Kites»\n\n## Survey {.words}\n\n### 1 Do a survey. {.speaking}\n",
            course=_SURVEY,
            why="the class says what it is, not the words",
        ),
    ),
    gathers=(
        Gather(
            Within.COURSE,
            By.KEY,
            "{count} units have no {key} activity, and every unit of the level should. Add them, or mark those you "
            "have: {{.{key}}} after the instruction.",
        ),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report each kind that is missing, at the unit's title."""
    unit = reading.unit
    kinds = {kind for activity in unit.activities for kind in activity.kinds}
    title = unit.heading.passage.text if unit.heading else unit.front.title
    for kind in reading.level.every_unit:
        if kind not in kinds:
            message = (
                f"Every unit of {reading.level.name} has a {kind} activity, and this one has none. "
                f"Add one, or mark the one you have: {{.{kind}}} after its instruction."
            )
            yield Found(unit.title_span, title, message, key=kind)
