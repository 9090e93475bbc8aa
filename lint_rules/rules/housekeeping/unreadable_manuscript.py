"""A unit's file that cannot be read as a unit, wholly or in part.

The front matter does not parse, a div or a comment is never closed, there is no title or no lesson: what hornbook
cannot read it cannot check, and what a typesetter's program cannot read it drops from the child's page without a word.
So this is said first, with the line and the cure, and nothing that could not be read ever counts as clean.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.rule import Example, Reading, Rule

RULE = Rule(
    name="unreadable-manuscript",
    family="housekeeping",
    severity=Severity.STOP,
    passes=(
        Example("::: teacher\n**Time:** 10 minutes\n:::\n", why="a div that is opened and closed"),
        Example("The wind is blowing.\n\nThree dots :::: in a line are only dots.\n"),
    ),
    fails=(
        Example("«::: teacher»\n**Time:** 10 minutes\n", why="the div is never closed"),
        Example("Look at the kite.\n\n«:::»\n", why="a fence that closes nothing"),
    ),
)


def find(reading: Reading) -> Iterator[Found]:
    """Report what the reader of the manuscript stumbled over."""
    unit = reading.unit
    for problem in unit.problems:
        severity = None if problem.blocks else Severity.QUERY
        yield Found(problem.span, unit.source.slice(problem.span), problem.message, severity)
