"""A language room that remembers, in memory alone, what it was asked of late: what is typed is kept nowhere else."""

from collections import OrderedDict
from collections.abc import Sequence
from threading import Lock

from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Analysis

_MOST = 30_000  # passages; a book of sixty units has some 12,000


class RecentLanguage:
    """Asks another room for what it does not remember."""

    def __init__(self, inner: Language) -> None:
        self._inner = inner
        self._known: OrderedDict[Request, Analysis] = OrderedDict()
        self._one_at_a_time = Lock()  # a check, the whole book and a hover ask from three threads; spaCy wants one

    @property
    def version(self) -> str:
        """The version of the room that is asked."""
        return self._inner.version

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable when the model cannot be had."""
        with self._one_at_a_time:
            return self._analyse(requests)

    def _analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        missing = [request for request in dict.fromkeys(requests) if request not in self._known]
        if missing:
            self._known.update(zip(missing, self._inner.analyse(missing), strict=True))
        found = []
        for request in requests:
            self._known.move_to_end(request)
            found.append(self._known[request])
        while len(self._known) > max(_MOST, len(requests)):
            self._known.popitem(last=False)
        return found
