"""A pool of processes that reads a book's units, one at a time each.

They read as this one would (``read_units``), and what they found comes back as plain data. A process needs memory for
the model and for one unit, however long the book is.

A pool that breaks (no process can be started, one is killed) gives fewer outcomes than it was asked for: the run then
reads the rest in this process, so nothing is left out. No process outlives the run: they end with the pool, and where
the run itself is killed each of them notices and ends.
"""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

import msgspec

from lint_rules.course.model import Course
from lint_rules.engine.check import Outcome
from lint_rules.engine.pool_start import context, no_interrupt, processes_for
from lint_rules.rule import RuleModule
from lint_rules.source import Source

_OUTCOMES = msgspec.msgpack.Decoder(Outcome)


@dataclass(frozen=True)
class UnitPool:
    """What the processes need to read the units of a course; ``store`` is the folder of what is kept."""

    course: Course
    rules: Sequence[RuleModule]
    files: frozenset[str]
    store: Path | None

    def read(self, sources: Sequence[Source]) -> Iterator[Outcome]:
        """What reading the units gave, in order: of all, of none where it would not pay, of the first if it breaks."""
        processes = processes_for(len(sources))
        if processes < 2:
            return
        from concurrent.futures import ProcessPoolExecutor
        from concurrent.futures.process import BrokenProcessPool
        from multiprocessing import active_children

        fresh = context()
        # OSError: no more processes; the last two: a system without semaphores.
        with suppress(BrokenProcessPool, OSError, NotImplementedError, ImportError):
            executor = ProcessPoolExecutor(processes, mp_context=fresh, initializer=_begin, initargs=(self,))
            try:
                with no_interrupt():  # a process that is only half started would complain
                    outcomes = executor.map(_read, sources)
                yield from map(_OUTCOMES.decode, outcomes)
            except KeyboardInterrupt:
                for process in active_children():  # one that is only half started would be waited for without end
                    process.terminate()
                raise
            finally:
                executor.shutdown(cancel_futures=True)


def _begin(pool: UnitPool) -> None:
    from lint_rules.engine import pool_worker

    pool_worker.begin(pool.course, pool.rules, pool.files, pool.store)


def _read(source: Source) -> bytes:
    from lint_rules.engine import pool_worker

    return pool_worker.read(source)
