"""The one of several that is out of step, where the others are not.

No answer is judged by itself: an exercise whose answers go with their script, their picture or their table one by one
has a habit, and only the one that breaks it is worth a question.
"""

from collections.abc import Iterable
from typing import TypeVar

_T = TypeVar("_T")


def the_one_out_of_step(marked: Iterable[tuple[bool, _T]], fewest: int) -> _T | None:
    """What is marked as out of step (False), where it is the only one and ``fewest`` others or more are in step."""
    in_step, out = 0, []
    for is_in_step, one in marked:
        if is_in_step:
            in_step += 1
        else:
            out.append(one)
    return out[0] if in_step >= fewest and len(out) == 1 else None
