"""A stet whose day has come: from that day on it lets nothing stand.

A stet with a date is a promise ('until the new art is in'). When the day comes the editor has to look again, before the
page reaches a child.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.manuscript.stets import is_lapsed
from lint_rules.rule import Example, Rule, StetReview

RULE = Rule(
    name="stet-lapsed",
    family="housekeeping",
    severity=Severity.QUERY,
    cure="Mend what the stet covers, or give it a new day and a reason that still holds.",
    passes=(
        Example("<!-- stet long-text until 2999-03-01: until the story is cut -->\n\nThe kite is in the tree.\n"),
        Example(
            "<!-- stet long-text: the story is read aloud -->\n\nThe kite is in the tree.\n",
            why="a stet without a date",
        ),
    ),
    fails=(
        Example("«<!-- stet long-text until 2020-03-01: until the story is cut -->»\n\nThe kite is in the tree.\n"),
    ),
)


def find_in_stets(review: StetReview) -> Iterator[Found]:
    """Report the stets that have lapsed."""
    for stet in review.stets:
        if is_lapsed(stet, review.today):
            message = (
                f"This stet for {stet.rule} lapsed on {stet.until} and lets nothing stand any more. "
                "Mend what it covers, or give it a new date and a reason."
            )
            yield Found(stet.span, "stet", message)
