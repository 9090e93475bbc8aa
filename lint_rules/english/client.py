"""Asks a LanguageTool server over HTTP: texts in, matches out.

Our own small client, because the package's cannot be used here: it counts an emoji inside a match as two characters,
takes no notice when the server gave up half way, waits five minutes, and sends a request for this machine through a
proxy. It also means that a publisher's server can be used without the package, whose licence is not ours.

Texts are joined by blank lines and sent together. What a text gets must not depend on its neighbours, since answers are
cached one by one; so the checks that look across paragraphs are off (``english_switched_off.csv``), and the tests hold
joined answers against single ones.
"""

import hashlib
import http.client
import time
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, TypeVar
from urllib.error import HTTPError, URLError
from urllib.parse import urlencode
from urllib.request import HTTPRedirectHandler, OpenerDirector, ProxyHandler, Request, build_opener

import msgspec

from lint_rules.language.service import EnglishMatch, EnglishUnavailable
from lint_rules.tables import rows

SWITCHED_OFF = "english_switched_off.csv"
BATCH = 8_000  # characters a request: public servers take 20,000; small ones keep both processors of a server busy
FORGETS = 120.0  # seconds after which a server that failed is asked again, by an editor that stays open
AT_ONCE = 2  # requests at the same time: polite to a shared server, and all that a small machine can use
PATIENCE = 60.0  # seconds for an answer: a server's first one takes 4 s (measured, 2 cores), a later one less than 1 s
LARGEST = 64_000_000  # bytes of an answer
_APART = "\n\n"
_SLACK = 20  # characters at the end that a server may take for no part of a sentence
_Kind = TypeVar("_Kind")
# The varieties that the server has a dictionary for; others are read as British English.
_VARIETIES = frozenset({"en-GB", "en-US", "en-AU", "en-CA", "en-NZ", "en-ZA"})


class _Named(msgspec.Struct):
    id: str


class _RuleSaid(msgspec.Struct):
    id: str
    category: _Named


class _Replacement(msgspec.Struct):
    value: str


class _Match(msgspec.Struct):
    offset: int
    length: int
    message: str
    rule: _RuleSaid
    replacements: list[_Replacement] = []


class _Software(msgspec.Struct, rename="camel"):
    name: str
    version: str
    build_date: str = ""
    premium: bool = False


class _Warnings(msgspec.Struct, rename="camel"):
    incomplete_results: bool = False


class _Language(msgspec.Struct):
    code: str


class _Info(msgspec.Struct):
    software: _Software


class _Reply(msgspec.Struct):
    software: _Software
    language: _Language
    matches: list[_Match]
    warnings: _Warnings = msgspec.field(default_factory=_Warnings)
    sentenceRanges: list[tuple[int, int]] = []


class _NoRedirects(HTTPRedirectHandler):
    """A book goes to the address that the user gave, and nowhere else."""

    def redirect_request(self, *_: Any) -> None:
        return None


@dataclass(frozen=True, slots=True)
class _Batch:
    """Texts that travel in one request, and where each begins in it (offsets in code points)."""

    texts: tuple[str, ...]
    starts: tuple[int, ...]

    @property
    def joined(self) -> str:
        return _APART.join(self.texts)


class EnglishClient:
    """An English checker (``service.English``) behind the address of a server.

    ``direct`` asks it past any proxy that the environment names. After a failure it does not ask again for a while: a
    server that is down is said once, at once, not after a wait for every handful of units.
    """

    def __init__(self, url: str, *, direct: bool, patience: float = PATIENCE) -> None:
        self._url = url
        self._patience = patience
        self._failure: EnglishUnavailable | None = None
        self._failed_at = 0.0
        self._software: _Software | None = None
        handlers: list[Any] = [_NoRedirects()]
        if direct:
            handlers.append(ProxyHandler({}))
        self._opener: OpenerDirector = build_opener(*handlers)

    @property
    def version(self) -> str:
        """Which server and which of its checks. Asks the server once, without sending any text of the book."""
        if self._software is None:
            self._software = self._decode(self._ask("info", None), _Info).software
        software = self._software
        premium = " premium" if software.premium else ""
        return f"{software.name} {software.version}{premium} ({software.build_date}) {checks_digest()}"

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One tuple of matches a text, in order, offsets in code points. Raises EnglishUnavailable."""
        wanted = list(dict.fromkeys(text for text in texts if text.strip()))
        batches = list(batches_of(wanted))
        answers: dict[str, tuple[EnglishMatch, ...]] = {}
        with ThreadPoolExecutor(AT_ONCE) as pool:
            for batch, found in zip(batches, pool.map(lambda b: self._check_batch(b, variety), batches), strict=True):
                answers.update(zip(batch.texts, found, strict=True))
        return [answers.get(text, ()) for text in texts]

    def _check_batch(self, batch: _Batch, variety: str) -> list[tuple[EnglishMatch, ...]]:
        fields = {
            "language": variety if variety in _VARIETIES else "en-GB",
            "text": batch.joined,
            "disabledCategories": ",".join(switched_off("category")),
            "disabledRules": ",".join(switched_off("rule")),
        }
        reply = self._decode(self._ask("check", fields), _Reply)
        if reply.warnings.incomplete_results:
            raise self._fail("ran out of time and checked only a part of the text; it may be overloaded")
        if reply.language.code != fields["language"]:
            said = f"was asked for {fields['language']} and checked {reply.language.code[:20]}"
            raise self._fail(f"{said}, so its answer says nothing of this book")
        if reply.sentenceRanges and reply.sentenceRanges[-1][1] < _utf_16_length(batch.joined.rstrip()) - _SLACK:
            raise self._fail("checked only the beginning of the text that it was sent")
        try:
            return shared_out(batch, reply.matches)
        except IndexError as error:
            raise self._fail("points outside the text that it was sent") from error

    def _ask(self, what: str, fields: dict[str, str] | None) -> bytes:
        if self._failure is not None and time.monotonic() - self._failed_at < FORGETS:
            raise self._failure
        data = None if fields is None else urlencode(fields).encode("ascii")
        try:
            with self._opener.open(Request(f"{self._url}/v2/{what}", data=data), timeout=self._patience) as reply:
                body: bytes = reply.read(LARGEST + 1)
        except HTTPError as error:
            with error:
                raise self._fail(_refusal(error)) from error
        except (TimeoutError, URLError, http.client.HTTPException, OSError) as error:
            raise self._fail(self._silence(error)) from error
        if len(body) > LARGEST:
            raise self._fail("sends an answer without end")
        return body

    def _decode(self, body: bytes, kind: type[_Kind]) -> _Kind:
        try:
            return msgspec.json.decode(body, type=kind)
        except (msgspec.MsgspecError, UnicodeDecodeError) as error:
            raise self._fail("answers, but not as a LanguageTool server does; is the address right?") from error

    def _silence(self, error: Exception) -> str:
        reason = error.reason if isinstance(error, URLError) else error
        if isinstance(reason, TimeoutError):
            return f"did not answer within {self._patience:g} seconds"
        said = getattr(reason, "strerror", None) or reason or type(reason).__name__
        return f"does not answer ({said}); is it running, and is the address right?"

    def _fail(self, what: str) -> EnglishUnavailable:
        self._failed_at = time.monotonic()
        self._failure = EnglishUnavailable(f"The English checker at {self._url} {what}.".replace("?.", "?"))
        return self._failure


def _refusal(error: HTTPError) -> str:
    """What a server's refusal means, in words."""
    if error.code in {301, 302, 303, 307, 308}:
        where = error.headers.get("Location", "another address")
        return f"sends us on to {where}; if you trust that address, give it instead"
    if error.code in {401, 403, 407}:
        return f"will not let us in (HTTP {error.code})"
    if error.code == 404:
        return "is there, but has no LanguageTool at this address (HTTP 404); is the path right?"
    if error.code in {426, 429}:
        return f"says that it was asked too much (HTTP {error.code}); a server of your own has no such limit"
    said = " ".join(error.read(300).decode("utf-8", "replace").split())
    return f"refused the text (HTTP {error.code}{': ' + said if said else ''})"


def _utf_16_length(text: str) -> int:
    return len(text) + sum(char > "\uffff" for char in text)


def switched_off(kind: str) -> tuple[str, ...]:
    """Names of the categories (``category``) or single rules (``rule``) that are off, sorted."""
    return tuple(sorted(name for what, name, _ in rows(SWITCHED_OFF) if what == kind))


def checks_digest() -> str:
    """A short name for the choice of checks, so that cached answers to another choice are not taken for it."""
    chosen = "\n".join((*switched_off("category"), "", *switched_off("rule")))
    return hashlib.blake2b(chosen.encode(), digest_size=4).hexdigest()


def batches_of(texts: Sequence[str]) -> Iterator[_Batch]:
    """Texts in the fewest batches of at most ``BATCH`` characters (a longer text goes alone)."""
    waiting: list[str] = []
    length = 0
    for text in texts:
        if waiting and length + len(text) > BATCH:
            yield _batch(waiting)
            waiting, length = [], 0
        waiting.append(text)
        length += len(text) + len(_APART)
    if waiting:
        yield _batch(waiting)


def _batch(texts: Sequence[str]) -> _Batch:
    lengths = (len(text) + len(_APART) for text in texts)
    return _Batch(tuple(texts), tuple(accumulate(lengths, initial=0))[:-1])


def shared_out(batch: _Batch, matches: Sequence[_Match]) -> list[tuple[EnglishMatch, ...]]:
    """Give each text of a batch its own matches, with offsets in code points from its own start.

    Raises IndexError when a match lies outside what was sent.
    """
    units = list(accumulate((2 if ord(char) > 0xFFFF else 1 for char in batch.joined), initial=0))  # UTF-16, as Java
    shares: list[list[EnglishMatch]] = [[] for _ in batch.texts]
    for match in matches:
        if match.offset < 0 or match.length < 0 or match.offset + match.length > units[-1]:
            raise IndexError(match.offset)
        start, end = bisect_left(units, match.offset), bisect_left(units, match.offset + match.length)
        index = bisect_right(batch.starts, start) - 1
        first, text = batch.starts[index], batch.texts[index]
        if start < end <= first + len(text):
            shares[index].append(
                EnglishMatch(
                    start - first,
                    end - first,
                    match.rule.id,
                    match.rule.category.id,
                    " ".join(match.message.split()),
                    tuple(replacement.value for replacement in match.replacements),
                )
            )
    return [tuple(sorted(share, key=lambda m: (m.start, m.end, m.rule))) for share in shares]
