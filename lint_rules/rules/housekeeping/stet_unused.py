"""A stet that lets nothing stand: the rule it names finds nothing in the block it covers.

Left in the file it would one day hide a new fault in the same block, and every reader wonders what it is for. It is
also how a misspelt rule name shows.
"""

from collections.abc import Iterator

from lint_rules.course.problem import nearest
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Stet
from lint_rules.manuscript.stets import is_lapsed
from lint_rules.rule import Example, Rule, StetReview

RULE = Rule(
    name="stet-unused",
    family="housekeeping",
    severity=Severity.QUERY,
    cure="Take the stet out, or move it to the line before the block that it is meant for.",
    passes=(
        Example(
            """\
<!-- stet stet-unused: kept for the next edition -->
<!-- stet stet-lapsed: not needed now -->

The kite is red.
""",
            why="a stet for an unused stet",
        ),
        Example("<!-- a note to the designer -->\n\nThe kite is in the tree.\n"),
    ),
    fails=(
        Example(
            "«<!-- stet long-sentense: the chant needs its long line -->»\n\nThe kite is red.\n",
            why="no rule is called so",
        ),
        Example("The kite is in the tree.\n\n«<!-- stet no-such-rule: nothing follows -->»\n"),
    ),
)


def find_in_stets(review: StetReview) -> Iterator[Found]:
    """Report the stets that let nothing stand, other than those that other rules report."""
    for stet in review.unused:
        if stet.fault or not stet.rule or not stet.reason or is_lapsed(stet, review.today):
            continue
        yield Found(stet.span, "stet", _message(stet, review))


def _message(stet: Stet, review: StetReview) -> str:
    if stet.rule in review.rule_names:
        where = "nothing follows it" if stet.covers is None else f"{stet.rule} finds nothing in the block it covers"
        return f"This stet lets nothing stand: {where}. Remove it, or move it to the block it is meant for."
    near = nearest(stet.rule, review.rule_names)
    meant = f" Did you mean {near}?" if near else " `hornbook rules` lists the names."
    return f"This stet lets nothing stand: no rule is called {stet.rule}.{meant}"
