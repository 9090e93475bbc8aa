"""Regular expressions that are compiled when they are first used.

The house reads its pages with some seven hundred patterns. Compiling them takes longer than everything a commit with
nothing new has to do, and such a commit matches hardly any of them; so a module declares its patterns here, and each is
compiled by the first text that it meets.
"""

import re
from typing import Any, cast


class _Deferred:
    """Stands for a compiled pattern: what is asked of it is handed on, and from then on found at once."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern = pattern
        self._flags = flags

    def __getattr__(self, name: str) -> Any:
        # Asked only for names that this object has not got: each method of the compiled one is kept at its first use.
        if name.startswith("__"):
            raise AttributeError(name)
        found = getattr(re.compile(self.pattern, self._flags), name)
        setattr(self, name, found)
        return found

    def __reduce__(self) -> tuple[Any, ...]:
        return _Deferred, (self.pattern, self._flags)


def compile(pattern: str, flags: int = 0) -> "re.Pattern[str]":
    """Returns what ``re.compile`` returns, as far as the methods and ``pattern`` go. A faulty one raises ``re.error``
    at its first use; the functions of ``re`` itself do not take it: call its methods.
    """
    return cast("re.Pattern[str]", _Deferred(pattern, flags))
