"""What runs in the processes of a pool (``pool``), and what they have in common: the language model.

Importing this module loads the model. Where the system can copy a process, one server process imports it once and the
others are copies of it, which share the model's memory; elsewhere each process loads it for itself.
"""

import gc
import os
import signal
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from multiprocessing import parent_process
from pathlib import Path

import msgspec

from lint_rules.course.model import Course
from lint_rules.engine.cache.answers import RememberingLanguage
from lint_rules.engine.cache.key_value_store import KeyValueStore
from lint_rules.engine.check import Outcome
from lint_rules.engine.read_units import UnitReader
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import LanguageUnavailable
from lint_rules.rule import RuleModule
from lint_rules.source import Source

gc.set_threshold(100_000, 50, 100)  # as the command itself: we make much and drop it whole
_PACK = msgspec.msgpack.Encoder()
_LANGUAGE = SpacyLanguage()
with suppress(LanguageUnavailable):  # said of every unit that is read
    _LANGUAGE.load()
gc.freeze()  # what is there now stays: looking through it for garbage would copy its memory into every process

# A pool of the standard library leaves no other place for what each of its processes holds.
_reading: list[Callable[[Source], Outcome]] = []


def begin(course: Course, rules: Sequence[RuleModule], files: frozenset[str], store: Path | None) -> None:
    """Get ready to read units of a course; ``store`` is the folder of what is kept between runs."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C reaches the run, which ends its pool
    threading.Thread(target=_end_with_the_run, daemon=True).start()
    kept = KeyValueStore(store)
    reader = UnitReader(course, rules, RememberingLanguage(_LANGUAGE, kept), files=files)

    def read(source: Source) -> Outcome:
        outcome = reader.read([source])[source.path]
        kept.write()
        return outcome

    _reading.append(read)


def read(source: Source) -> bytes:
    """What reading a unit gave, packed."""
    return _PACK.encode(_reading[0](source))


def _end_with_the_run() -> None:
    run = parent_process()
    if run is not None:
        run.join()
        os._exit(1)
