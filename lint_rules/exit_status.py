"""Exit statuses, fixed in the design, and the error that ends a run that cannot be done."""

from collections.abc import Sequence

CLEAN = 0
BLOCKED = 1
CANNOT_RUN = 2
RULE_BROKE = 3


class CannotRun(Exception):
    """The run cannot be done: what is wrong and what cures it, a line each."""

    def __init__(self, *lines: str) -> None:
        super().__init__("\n".join(lines))
        self.lines: Sequence[str] = lines
