"""Activities that a page cannot explain alone: what a teacher does decides how they go.

Children read `Match the words.` and match. But who starts a game, how often a track is played and what happens between,
who asks whom: the page does not say. At Pre-A1 children cannot read the steps of a craft either; later the page is
enough where it has them (common practice, no source).
"""

import re

from lint_rules import lazy_re
from lint_rules.course.model import CEFR_BANDS
from lint_rules.manuscript.counting import is_for_children
from lint_rules.manuscript.model import Activity, Role
from lint_rules.page.classmates import asked_in

_TOGETHER = frozenset({"game", "song", "survey"})
_IN_GROUPS = lazy_re.compile(r"\b(?:in|into|of) (?:\w+ )?(?:groups?|teams?)\b", re.I)
_STEPS_OF_A_CRAFT = 2


def is_teacher_led(activity: Activity, cefr: str) -> bool:
    """Say whether an activity at a band needs a teacher's steps, however clear its page is."""
    kinds, rubric = frozenset(activity.kinds), activity.heading.passage.text
    if kinds & _TOGETHER or asked_in(rubric) is not None or _IN_GROUPS.search(rubric):
        return True
    if "listening" in kinds:
        return "sounds" not in kinds
    return "make" in kinds and (cefr == CEFR_BANDS[0] or _steps_on_page(activity) < _STEPS_OF_A_CRAFT)


def _steps_on_page(activity: Activity) -> int:
    """How many lines or items a page has that may tell children what to do."""
    return sum(
        len([line for line in passage.text.split("\n") if line.strip()])
        for passage in activity.part.passages
        if is_for_children(passage) and passage.role in (Role.ITEM, Role.TEXT)
    )
