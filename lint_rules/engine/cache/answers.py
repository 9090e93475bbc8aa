"""A language room and an English checker that remember their answers."""

from collections.abc import Sequence
from contextlib import suppress

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

    @property
    def version(self) -> str:
        """The version of the room that is asked."""
        return self._inner.version

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable when something is not in the store."""
        version = self.version
        keys = {request: key_of("analysis", version, _PACK.encode(request)) for request in requests}
        values = self._kept.get(keys.values())
        answers: dict[Request, Analysis] = {}
        for request, key in keys.items():
            if key in values:
                with suppress(msgspec.MsgspecError):
                    answers[request] = _ANALYSES.decode(values[key])
        missing = [request for request in keys if request not in answers]
        if missing:
            fresh = dict(zip(missing, self._inner.analyse(missing), strict=True))
            self._kept.put({keys[request]: _PACK.encode(answer) for request, answer in fresh.items()})
            answers |= fresh
        return [answers[request] for request in requests]


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
