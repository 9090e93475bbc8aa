"""How long the rules may take on one unit: a unit that is made to be slow must not hold up a build for hours.

Where the system has an alarm and this is the main thread, a rule is stopped in its midst; elsewhere, before the next.
"""

import signal
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType

UNIT_SECONDS = 60.0  # a unit of 1,200 words takes a tenth of a second (common practice, no source)


class BudgetSpent(Exception):
    """The time for a unit is over."""

    def __init__(self) -> None:
        super().__init__(f"the time for one unit, {UNIT_SECONDS:g} seconds, was spent before it was done")


class Budget:
    """What is left of the time for one unit."""

    def __init__(self, seconds: float) -> None:
        self._ends = time.monotonic() + seconds

    @property
    def spent(self) -> bool:
        """Say whether the time is over."""
        return time.monotonic() >= self._ends


@contextmanager
def budget_for_a_unit(seconds: float | None = None) -> Iterator[Budget]:
    """Time for one unit; when it is over, BudgetSpent is raised where that can be done."""
    seconds = UNIT_SECONDS if seconds is None else seconds
    budget = Budget(seconds)
    can_ring = hasattr(signal, "setitimer") and threading.current_thread() is threading.main_thread()
    others = signal.getitimer(signal.ITIMER_REAL)[0] if can_ring else 0.0  # until somebody else's alarm
    if not can_ring or 0.0 < others <= seconds:
        yield budget
        return
    before = signal.signal(signal.SIGALRM, _ring)
    began = time.monotonic()
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield budget
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)
        if others:
            signal.setitimer(signal.ITIMER_REAL, max(others - (time.monotonic() - began), 0.001))


def _ring(number: int, frame: FrameType | None) -> None:
    raise BudgetSpent
