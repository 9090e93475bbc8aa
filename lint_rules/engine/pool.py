"""A pool of processes that reads a book's units, one at a time each.

They read as this one would (``read_units``), and what they found comes back as plain data. A process needs memory for
the model and for one unit, however long the book is.

A pool that breaks (no process can be started, one is killed) gives fewer outcomes than it was asked for: the run then
reads the rest in this process, so nothing is left out. No process outlives the run: they end with the pool, and where
the run itself is killed each of them notices and ends.
"""

import os
import signal
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from lint_rules.course.model import Course
from lint_rules.engine.check import Outcome
from lint_rules.rule import RuleModule
from lint_rules.source import Source

if TYPE_CHECKING:
    from multiprocessing.context import BaseContext

UNITS_EACH = 5  # a pool takes as long to get ready as this process to read some ten units
MOST = 8  # processes
_OUTCOMES = msgspec.msgpack.Decoder(Outcome)
_WORKER = "lint_rules.engine.pool_worker"


@dataclass(frozen=True)
class UnitPool:
    """What the processes need to read the units of a course; ``store`` is the folder of what is kept."""

    course: Course
    rules: Sequence[RuleModule]
    files: frozenset[str]
    store: Path | None

    def read(self, sources: Sequence[Source]) -> Iterator[Outcome]:
        """What reading the units gave, in order: of all, of none where it would not pay, of the first if it breaks."""
        processes = _processes(len(sources))
        if processes < 2:
            return
        from concurrent.futures import ProcessPoolExecutor
        from concurrent.futures.process import BrokenProcessPool

        fresh = _context()
        # OSError: no more processes; the last two: a system without semaphores.
        with suppress(BrokenProcessPool, OSError, NotImplementedError, ImportError):
            executor = ProcessPoolExecutor(processes, mp_context=fresh, initializer=_begin, initargs=(self,))
            try:
                with _no_interrupt():  # a process that is only half started would complain
                    outcomes = executor.map(_read, sources)
                yield from map(_OUTCOMES.decode, outcomes)
            finally:
                executor.shutdown(cancel_futures=True)


def make_ready(units: int) -> None:
    """Let the process that loads the model begin, where a book of so many units will be read anew: the course can be
    read meanwhile."""
    if _processes(units) > 1 and _context().get_start_method() == "forkserver":
        from multiprocessing import forkserver

        with suppress(OSError, ValueError), _no_interrupt():
            forkserver.ensure_running()


def _processes(units: int) -> int:
    return min(cores(), MOST, units // UNITS_EACH)


def _context() -> "BaseContext":
    """How processes are begun: not forked from this one, which may have threads and has the store open."""
    import multiprocessing  # slow to load, and most runs need none

    ways = multiprocessing.get_all_start_methods()
    fresh = multiprocessing.get_context("forkserver" if "forkserver" in ways else "spawn")
    fresh.set_forkserver_preload([_WORKER])
    return fresh


@contextmanager
def _no_interrupt() -> Iterator[None]:
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


def _begin(pool: UnitPool) -> None:
    from lint_rules.engine import pool_worker

    pool_worker.begin(pool.course, pool.rules, pool.files, pool.store)


def _read(source: Source) -> bytes:
    from lint_rules.engine import pool_worker

    return pool_worker.read(source)
