"""The language room in a process of its own, so that units are read and rules run while the model is loaded and parses.

On one core this would gain nothing, and memory has room for one such process (`tests/benchmarks/FIGURES.md`): so there
is one, where there are two cores. It ends with the run, also when the run is killed. Should it end before, or never
start, the room is asked in this process: the answers are the same.
"""

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from functools import partial
from typing import IO, TYPE_CHECKING

import msgspec

from lint_rules.language.service import Language, LanguageUnavailable, Request
from lint_rules.language.tokens import Analysis

if TYPE_CHECKING:  # loaded with the process: most runs need none
    import subprocess
    from concurrent.futures import Future, ThreadPoolExecutor

_SIZE = 8  # bytes that say how long a message is
_LARGEST = 1 << 30
_PACK = msgspec.msgpack.Encoder()
_ASKED = msgspec.msgpack.Decoder(list[Request])
_ANSWERED = msgspec.msgpack.Decoder(list[Analysis] | str)


class LanguageAside:
    """Asks a language room in a process of its own; ``here`` is the same room in this process, for when that fails."""

    def __init__(self, here: Language) -> None:
        self._here = here
        self._process: subprocess.Popen[bytes] | None = None
        self._waiter: ThreadPoolExecutor | None = None
        self._failed = False

    @property
    def version(self) -> str:
        """The version of the room that is asked."""
        return self._here.version

    def expect(self) -> bool:
        """Start the process: it loads the model while its first texts are read."""
        if self._process is None and not self._failed:
            from concurrent.futures import ThreadPoolExecutor

            try:
                self._process = _start()
            except OSError:
                self._failed = True
            # One thread writes to the process and reads from it, in turn: neither side waits for the other for ever.
            self._waiter = ThreadPoolExecutor(max_workers=1, thread_name_prefix="language")
        return not self._failed

    def begin(self, requests: Sequence[Request]) -> Callable[[], list[Analysis]]:
        """Begin to analyse. Calling what this gives waits for the answers; it raises LanguageUnavailable."""
        if not self.expect() or self._process is None or self._waiter is None:
            return partial(self._here.analyse, requests)
        coming: Future[list[Analysis] | str | None] = self._waiter.submit(self._ask, self._process, requests)

        def answers() -> list[Analysis]:
            found = coming.result()
            if found is None:
                return self._here.analyse(requests)
            if isinstance(found, str):
                raise LanguageUnavailable(found)
            return found

        return answers

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable."""
        return self.begin(requests)()

    def rest(self) -> None:
        """End the process. It starts again when something is asked, unless it has failed."""
        if self._process is not None and self._waiter is not None:
            failed = self._failed
            self._process.kill()
            self._waiter.shutdown(cancel_futures=True)
            self._process.communicate()
            self._process, self._waiter, self._failed = None, None, failed

    def _ask(self, process: "subprocess.Popen[bytes]", requests: Sequence[Request]) -> list[Analysis] | str | None:
        """What the process says; None when it says nothing that can be read."""
        assert process.stdin is not None
        assert process.stdout is not None
        try:
            _send(process.stdin, _PACK.encode(requests))
            found: list[Analysis] | str = _ANSWERED.decode(_receive(process.stdout))
            if isinstance(found, str) or len(found) == len(requests):
                return found
        except (OSError, ValueError, EOFError):
            pass
        self._failed = True
        return None


@contextmanager
def language_aside(here: Language) -> Iterator[Language]:
    """A language room for the length of a run: in a process of its own where there are cores enough."""
    if _cores() < 2:
        yield here
        return
    aside = LanguageAside(here)
    try:
        yield aside
    finally:
        aside.rest()


def serve_language() -> None:
    """Answer what comes in, until nobody is there to ask. What the process runs."""
    import signal

    from lint_rules.language.pipeline import SpacyLanguage

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever stops the run ends this process too
    asked = sys.stdin.buffer
    answered = os.fdopen(os.dup(1), "wb")
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # nothing that a library prints gets among the answers
    language = SpacyLanguage()
    with suppress(LanguageUnavailable):  # told when it is asked
        language.load()
    with suppress(EOFError, BrokenPipeError):
        while True:
            _send(answered, _answer(language, _receive(asked)))


def _answer(language: Language, message: bytes) -> bytes:
    try:
        return _PACK.encode(language.analyse(_ASKED.decode(message)))
    except LanguageUnavailable as error:
        return _PACK.encode(str(error))
    except Exception as error:  # a bug must not pass for a page without structures
        return _PACK.encode(f"{type(error).__name__}: {error}")


def _start() -> "subprocess.Popen[bytes]":
    import subprocess

    code = f"import sys; sys.path[:] = {sys.path!r}; from {__name__} import serve_language; serve_language()"
    errors = None if os.environ.get("HORNBOOK_DEBUG") else subprocess.DEVNULL
    command = [sys.executable, "-c", code]
    return subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=errors)


def _cores() -> int:
    """The cores that this process may use."""
    allowed = getattr(os, "sched_getaffinity", None)
    return len(allowed(0)) if allowed else os.cpu_count() or 1


def _send(file: IO[bytes], message: bytes) -> None:
    file.write(len(message).to_bytes(_SIZE, "big") + message)
    file.flush()


def _receive(file: IO[bytes]) -> bytes:
    size = int.from_bytes(_exactly(file, _SIZE), "big")
    if size > _LARGEST:
        raise ValueError(f"no message has {size} bytes")
    return _exactly(file, size)


def _exactly(file: IO[bytes], size: int) -> bytes:
    data = file.read(size)
    if len(data) < size:
        raise EOFError
    return data
