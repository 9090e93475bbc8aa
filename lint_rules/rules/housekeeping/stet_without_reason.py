"""A stet that gives no reason, or that cannot be read: it lets nothing stand.

An editor who meets a stet years later must see why the words were let stand; without a reason nobody dares to remove
it, and nobody can answer the translator who asks. So a stet needs a rule and, after a colon, a reason; one that
leaves out a safety note needs a reason of at least four words.
"""

from collections.abc import Iterator

from lint_rules.finding import Found, Severity
from lint_rules.rule import Example, Rule, StetReview

RULE = Rule(
    name="stet-without-reason",
    family="housekeeping",
    severity=Severity.QUERY,
    cure="Write the rule, a colon and the reason: a reader a year from now must see why the words stand.",
    passes=(
        Example("<!-- stet long-sentence: the chant needs its long line -->\n\nThe kite is in the tree.\n"),
        Example("<!-- stet missing-safety-note: the candles are battery lights -->\n\nThe kite is in the tree.\n"),
        Example("<!-- the designer should see this -->\n\nThe kite is in the tree.\n", why="a comment of another kind"),
    ),
    fails=(
        Example("«<!-- stet long-sentence -->»\n\nThe kite is in the tree.\n"),
        Example("«<!-- stet long-sentence: -->»\n\nThe kite is in the tree.\n"),
        Example(
            "«<!-- stet missing-safety-note: fine -->»\n\nThe kite is in the tree.\n",
            why="a safety note is left out for a reason of four words or more",
        ),
    ),
)


def find_in_stets(review: StetReview) -> Iterator[Found]:
    """Report the stets that have no reason or that are not written as a stet."""
    for stet in review.stets:
        if stet.fault or not stet.rule or not stet.reason:
            wrong = stet.fault or "This stet gives no reason, so it lets nothing stand."
            rule = stet.rule or "RULE"
            form = "" if stet.reason and stet.fault else f" Write it as <!-- stet {rule}: why it should stand -->."
            yield Found(stet.span, "stet", f"{wrong}{form}")
