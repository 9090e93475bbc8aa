"""Which open text is checked next, and when what was found is shown.

One check runs at a time. The text that was touched last comes first, as it stands then; a text that has changed while
it was checked comes again. Every finished check is shown, with the version that it read, so that a page that is always
being typed on is never silent. What the English checker says comes after, and a checker that hangs delays nothing.
"""

import asyncio
from collections.abc import Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import Any

_REST = 0.015  # seconds in which several changes that come at once are taken for one
Check = Callable[[str, bool], Coroutine[Any, Any, None]]  # the document, and whether English is asked


@dataclass(slots=True)
class Schedule:
    """Runs ``check`` for the documents that wait, one at a time."""

    check: Check
    has_english: bool
    workers: ThreadPoolExecutor = field(
        default_factory=lambda: ThreadPoolExecutor(max_workers=1, thread_name_prefix="proof")
    )
    english_workers: ThreadPoolExecutor = field(
        default_factory=lambda: ThreadPoolExecutor(max_workers=1, thread_name_prefix="english")
    )
    _waiting: dict[str, None] = field(default_factory=dict)
    _english: dict[str, asyncio.Task[None]] = field(default_factory=dict)
    _running: asyncio.Task[None] | None = None

    def soon(self, uri: str) -> None:
        """Check a document next."""
        self._waiting.pop(uri, None)
        self._waiting[uri] = None
        if self._running is None or self._running.done():
            self._running = asyncio.create_task(self._run())

    def forget(self, uri: str) -> None:
        """Drop what waits for a document."""
        self._waiting.pop(uri, None)
        task = self._english.pop(uri, None)
        if task is not None:
            task.cancel()

    async def _run(self) -> None:
        while self._waiting:
            await asyncio.sleep(_REST)
            if not self._waiting:
                break
            uri, _ = self._waiting.popitem()  # the last that was touched
            await self.check(uri, False)
            if self.has_english and uri not in self._waiting:
                task = self._english.pop(uri, None)
                if task is not None:
                    task.cancel()
                self._english[uri] = asyncio.create_task(self.check(uri, True))
