"""The spaCy model, asked no more than it has to be: words in, plain rows out.

A model's attribute ruler and lemmatizer take a third of its time, and look at one word at a time: what they make of a
word depends on its spelling, tag and dependency alone, but for a few patterns of several words. So they are asked once
for each such triple; a text in which one of those patterns fits is given to them whole. ``tests/language`` holds the
rows against those of the whole pipeline. A model that is built in another way is asked for everything.
"""

import importlib
import os
import sys
from collections.abc import Iterable, Iterator, Sequence
from contextlib import nullcontext
from itertools import islice
from types import ModuleType
from typing import Any, NamedTuple

_BATCH = 128
_HALF = 1 << 63  # spaCy gives the way to a word's head as an unsigned number of 64 bits
_SLOW = ["attribute_ruler", "lemmatizer"]
_ALONE = frozenset({"ORTH", "TEXT", "LOWER", "NORM", "SHAPE", "TAG", "DEP", "IS_SPACE", "IS_PUNCT", "IS_ALPHA"})
_MOST = 8_000  # words to remember
_BETWEEN = "\u0416"
_LONGEST_SUFFIX = 64  # characters, with what must stand before it
_THREADS = (
    "OPENBLAS_NUM_THREADS",
    "OMP_NUM_THREADS",
    "MKL_NUM_THREADS",
    "VECLIB_MAXIMUM_THREADS",
)
_Key = tuple[int, int, int]  # spelling, tag, dependency


def load_model(name: str) -> Any:
    """A spaCy model that is installed as a package. Raises ImportError, OSError, AttributeError or ValueError."""
    if "numpy" not in sys.modules:
        import_numpy()
    if "spacy" not in sys.modules:
        _import_spacy()
    from thinc.api import NumpyOps, get_current_ops, use_ops

    # numpy multiplies matrices nearly twice as fast as the library that spaCy comes with: a third of the parser's time.
    plain = type(get_current_ops()) is NumpyOps  # else somebody has chosen another way
    with use_ops("numpy", use_blis=False) if plain else nullcontext():
        return importlib.import_module(name).load(exclude=["ner", "senter"])


def import_numpy() -> None:
    """Import numpy so that it multiplies on one core: a text's matrices are too small to be worth sharing out."""
    named = {name: os.environ[name] for name in _THREADS if name in os.environ}
    os.environ.update(dict.fromkeys(_THREADS, "1") | named)
    try:
        importlib.import_module("numpy")
    finally:
        for name in set(_THREADS) - set(named):
            del os.environ[name]


def _import_spacy() -> None:
    """Import spaCy without its command line, for which it loads web clients and project tools: a third of the wait.

    Nothing of it is used in loading a model; who asks for ``spacy.cli`` later gets the real one.
    """
    substitutions = {"spacy.cli": ModuleType("spacy.cli"), "spacy.cli.info": ModuleType("spacy.cli.info")}
    substitutions["spacy.cli"].__path__ = []
    vars(substitutions["spacy.cli.info"])["info"] = _info
    sys.modules |= substitutions
    try:
        importlib.import_module("spacy")
    except (ImportError, AttributeError):
        pass  # a spaCy that is put together in another way is imported whole, by its model
    finally:
        for name in substitutions:
            sys.modules.pop(name, None)


def _info(*arguments: Any, **named: Any) -> Any:
    return importlib.import_module("spacy.cli.info").info(*arguments, **named)


def _look_at_ends_only(tokenizer: Any) -> None:
    """Let the tokenizer look for a suffix at the end of a word alone.

    It asks for one after another of a run such as `!!!!!` and reads the whole run each time, so that a page of them
    would take the square of its length. No suffix is nearly as long as what is left.
    """
    search = tokenizer.suffix_search
    if search is not None and not getattr(search, "at_the_end", False):

        def at_the_end(word: str) -> Any:
            return search(word[-_LONGEST_SUFFIX:])

        at_the_end.at_the_end = True  # type: ignore[attr-defined]
        tokenizer.suffix_search = at_the_end


class Row(NamedTuple):
    """What the model says of one word: ``head`` is the way to its head, in words."""

    lower: str
    lemma: str
    pos: str
    tag: str
    dep: str
    head: int


class _Several(NamedTuple):
    """The ruler's patterns of several words, and words and dependencies one of which each text that fits one has."""

    matcher: Any
    signs: frozenset[str]
    all_signed: bool

    def fits(self, doc: Any, rows: Sequence[Row]) -> bool:
        """Say whether a pattern fits a text. Few texts have a sign of one, and the matcher is slow."""
        signed = not self.all_signed or any(row.lower in self.signs or row.dep in self.signs for row in rows)
        return signed and bool(self.matcher(doc))


class Parser:
    """Parses texts that are cut into words already."""

    def __init__(self, nlp: Any) -> None:
        """``nlp`` is a loaded model."""
        self._nlp = nlp
        _look_at_ends_only(nlp.tokenizer)
        self._known: dict[_Key, tuple[str, str, str, str, str]] = {}
        self._several = _patterns_of_several(nlp)
        self._skipped = [] if self._several is None else _SLOW

    def tokenize(self, text: str) -> list[tuple[str, int]]:
        """The words of a text and where they start."""
        return [(token.text, token.idx) for token in self._nlp.tokenizer(text)]

    def parse(self, texts: Iterable[tuple[Sequence[str], Sequence[bool], Sequence[bool]]]) -> Iterator[list[Row]]:
        """The rows of each text, given as words, whether a space follows, and whether a sentence starts."""
        from spacy.tokens import Doc

        docs = (
            Doc(self._nlp.vocab, words=list(words), spaces=list(spaces), sent_starts=list(starts))
            for words, spaces, starts in texts
        )
        parsed = self._nlp.pipe(docs, batch_size=_BATCH, disable=self._skipped)
        while some := list(islice(parsed, _BATCH)):
            yield from self._rows(some)

    def _rows(self, docs: Sequence[Any]) -> Iterator[list[Row]]:
        several = self._several
        if several is None:
            yield from map(_read, docs)
            return
        tables = [doc.to_array(["ORTH", "TAG", "DEP", "HEAD"]).tolist() for doc in docs]
        self._learn(dict.fromkeys((orth, tag, dep) for table in tables for orth, tag, dep, _ in table), several)
        for doc, table in zip(docs, tables, strict=True):
            rows = [Row(*self._known[orth, tag, dep], _signed(step)) for orth, tag, dep, step in table]
            yield _read(self._finished(doc)) if several.fits(doc, rows) else rows

    def _learn(self, keys: Iterable[_Key], several: _Several) -> None:
        """Ask ruler and lemmatizer for words that are new, all at once."""
        if len(self._known) > _MOST:
            self._known.clear()
        new = [key for key in keys if key not in self._known]
        new.reverse()  # `there is` fits a pattern, `is there` none
        if not new:
            return
        doc = self._in_a_row(new, ())
        if several.matcher(doc):  # some fit one as they stand here
            doc = self._in_a_row(new, (_BETWEEN,))
        rows = _read(self._finished(doc))[:: len(doc) // len(new)]
        self._known |= {key: row[:5] for key, row in zip(new, rows, strict=True)}

    def _in_a_row(self, keys: Sequence[_Key], between: Sequence[str]) -> Any:
        """Words with their tags and dependencies, and behind each what stands between."""
        from numpy import zeros
        from spacy.tokens import Doc

        strings, step = self._nlp.vocab.strings, 1 + len(between)
        doc = Doc(self._nlp.vocab, words=[word for orth, _, _ in keys for word in (strings[orth], *between)])
        columns: Any = zeros((len(doc), 3), dtype="uint64")
        columns[::step, :2] = [key[1:] for key in keys]
        if between:
            columns[1::step, 0] = strings["NN"]
        doc.from_array(["TAG", "DEP", "HEAD"], columns)
        return doc

    def _finished(self, doc: Any) -> Any:
        for name in _SLOW:
            doc = self._nlp.get_pipe(name)(doc)
        return doc


def _read(doc: Any) -> list[Row]:
    name = doc.vocab.strings.__getitem__
    table = doc.to_array(["LOWER", "LEMMA", "POS", "TAG", "DEP", "HEAD"]).tolist()
    return [Row._make([*map(name, line[:5]), _signed(line[5])]) for line in table]


def _signed(step: int) -> int:
    return step if step < _HALF else step - 2 * _HALF


def _patterns_of_several(nlp: Any) -> _Several | None:
    """The ruler's patterns of several words; None for a model that is not built as described above."""
    if nlp.pipe_names[-2:] != _SLOW or getattr(nlp.get_pipe("lemmatizer"), "mode", "") != "rule":
        return None
    from spacy.matcher import Matcher

    matcher = Matcher(nlp.vocab)
    signs: list[str | None] = []
    for number, item in enumerate(nlp.get_pipe("attribute_ruler").patterns):
        for pattern in item["patterns"]:
            if len(pattern) > 1 or "OP" in pattern[0]:
                matcher.add(str(number), [pattern])
                signs.append(_sign(pattern))
            elif not _ALONE.issuperset(pattern[0]):
                return None
    return _Several(matcher, frozenset(sign for sign in signs if sign is not None), None not in signs)


def _sign(pattern: Sequence[dict[str, Any]]) -> str | None:
    """The spelling or dependency of a word that a pattern names outright and cannot do without."""
    named = (word.get(what) for word in pattern if "OP" not in word for what in ("LOWER", "DEP"))
    return next((one for one in named if isinstance(one, str)), None)
