"""A language room and an English checker that remember their answers."""

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from functools import cache

import msgspec

from lint_rules.engine.cache.key_value_store import KeyValueStore, key_of
from lint_rules.language.service import English, EnglishMatch, Language, Request
from lint_rules.language.tokens import Analysis

_ANALYSES = msgspec.msgpack.Decoder(Analysis)
_MATCHES = msgspec.msgpack.Decoder(tuple[EnglishMatch, ...])
_PACK = msgspec.msgpack.Encoder()


class RememberingLanguage:
    """Asks a language room only for what is not in the store."""

    def __init__(self, inner: Language, kept: KeyValueStore) -> None:
        self._inner = inner
        self._kept = kept
        self._coming: dict[Request, Callable[[], dict[Request, Analysis]]] = {}  # begun, and not fetched yet

    @property
    def version(self) -> str:
        """The version of the room that is asked."""
        return self._inner.version

    def expect(self) -> bool:
        """Hear that something will be asked soon."""
        return self._inner.expect()

    def begin(self, requests: Sequence[Request]) -> Callable[[], list[Analysis]]:
        """Begin to analyse what is neither in the store nor begun already."""
        keys = {request: key_of("analysis", self.version, _PACK.encode(request)) for request in requests}
        values = self._kept.get(key for request, key in keys.items() if request not in self._coming)
        known: dict[Request, Analysis] = {}
        for request, key in keys.items():
            if key in values:
                with suppress(msgspec.MsgspecError):
                    known[request] = _ANALYSES.decode(values[key])
        missing = {r: key for r, key in keys.items() if r not in known and r not in self._coming}
        if missing:
            self._coming |= dict.fromkeys(missing, self._batch(missing))
        coming = {request: self._coming[request] for request in keys if request not in known}
        return lambda: [known[request] if request in known else coming[request]()[request] for request in requests]

    def rest(self) -> None:
        """Hear that nothing more is wanted for now."""
        self._inner.rest()

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable when something is not in the store."""
        return self.begin(requests)()

    def _batch(self, missing: Mapping[Request, bytes]) -> Callable[[], dict[Request, Analysis]]:
        """Begin to analyse these (request → key); whoever needs the answers first puts them in the store."""
        waiting = self._inner.begin(list(missing))

        @cache
        def answers() -> dict[Request, Analysis]:
            for request in missing:
                self._coming.pop(request, None)
            fresh = dict(zip(missing, waiting(), strict=True))
            self._kept.put({missing[request]: _PACK.encode(answer) for request, answer in fresh.items()})
            return fresh

        return answers


class RememberingEnglish:
    """Asks an English checker only for what is not in the store."""

    def __init__(self, inner: English, kept: KeyValueStore) -> None:
        self._inner = inner
        self._kept = kept

    @property
    def version(self) -> str:
        """The version of the checker that is asked."""
        return self._inner.version

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One tuple of matches a text, in order. Raises EnglishUnavailable."""
        keys = {text: key_of("english", self.version, variety, text) for text in texts}
        values = self._kept.get(keys.values())
        answers: dict[str, tuple[EnglishMatch, ...]] = {}
        for text, key in keys.items():
            if key in values:
                try:
                    answers[text] = _MATCHES.decode(values[key])
                except msgspec.MsgspecError:
                    continue
        missing = [text for text in keys if text not in answers]
        if missing:
            fresh = dict(zip(missing, self._inner.check(missing, variety), strict=True))
            self._kept.put({keys[text]: _PACK.encode(answer) for text, answer in fresh.items()})
            answers |= fresh
        return [answers[text] for text in texts]
