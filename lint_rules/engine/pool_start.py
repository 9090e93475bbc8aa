"""How the processes of a pool (``pool``) are begun, and that they can be begun before anything else is.

Little is imported here: while one process loads the language model, the command imports the rest and reads the course.
"""

import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from lint_rules.engine.cache.key_value_store import cache_folder, file_in

if TYPE_CHECKING:
    from multiprocessing.context import BaseContext

UNITS_EACH = 5  # a pool takes as long to get ready as this process to read some ten units
MOST = 8  # processes
_WORKER = "lint_rules.engine.pool_worker"


def make_ready(place: Path, *, remembers: bool) -> None:
    """Let the process that loads the model begin, where a book in a folder will probably be read anew by a pool.

    ``remembers``: what is kept of earlier runs will be used; where there is any, few units may be read.
    """
    folder = cache_folder() if remembers else None
    if folder is not None and file_in(folder).exists():
        return
    if processes_for(sum(1 for _ in place.glob("*/unit-*.md"))) > 1 and context().get_start_method() == "forkserver":
        from multiprocessing import forkserver

        with suppress(OSError, ValueError), no_interrupt():
            forkserver.ensure_running()


def processes_for(units: int) -> int:
    """How many processes read so many units."""
    return min(cores(), MOST, units // UNITS_EACH)


def context() -> "BaseContext":
    """How processes are begun: not forked from this one, which may have threads and has the store open."""
    import multiprocessing  # slow to load, and most runs need none

    ways = multiprocessing.get_all_start_methods()
    fresh = multiprocessing.get_context("forkserver" if "forkserver" in ways else "spawn")
    fresh.set_forkserver_preload([_WORKER])
    return fresh


@contextmanager
def no_interrupt() -> Iterator[None]:
    """Let Ctrl-C wait, where the system can hold a signal back."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def cores() -> int:
    """The cores that this process may use."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1
