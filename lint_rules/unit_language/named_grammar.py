"""The grammar that a lesson practises, by its pattern sentences, and the grammar that its teacher's notes name."""

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache

from lint_rules import lazy_re
from lint_rules.language.grammar.labels import grammar_terms, is_prose, structures_of_label
from lint_rules.language.tokens import Analysis
from lint_rules.manuscript.field_names import field_key
from lint_rules.manuscript.model import Audience, Passage, Unit
from lint_rules.manuscript.pattern_table import pattern_sentences
from lint_rules.tables import rows
from lint_rules.unit_language.grammar_uses import SHORT_ANSWER

# Structures that come along with others: a question with its verb, an order in an example.
_COMES_ALONG = frozenset({"wh-question", "yes-no-question", "imperative"})
# `present simple` names the present of be too, and have got, and so on: a teacher who writes so is not wrong.
_WIDER = {
    "present-simple": frozenset({"present-simple-be", "have-got", "there-is"}),
    "past-simple": frozenset({"past-simple-be"}),
}
_MARKED = lazy_re.compile(r"[“\"‘']([^“”\"‘'’]{2,30}(?:['’][a-z]{1,2}[^“”\"‘'’]{0,20})?)[”\"’']")


@dataclass(frozen=True, slots=True)
class NamedLabel:
    """A label in a Grammar field: its range of the passage's text, and the structures it names."""

    start: int
    end: int
    structures: tuple[str, ...]


_OF_SOUNDS = lazy_re.compile(r"/[^\s/]{1,6}/|(?:^|\s)[-+–]\s?[a-z]{1,3}\b|(?:^|\s)[b-hj-z] (?:goes|is|comes)\b")


def practised(unit: Unit, passages: Iterable[Passage], analyse: Callable[[Passage], Analysis]) -> tuple[str, ...]:
    """The structures that the pattern sentences among some passages show, the most frequent first."""
    counts: dict[str, int] = {}
    for passage in pattern_sentences(unit, passages):
        analysis = analyse(passage)
        short = [
            (sentence.start, sentence.end)
            for sentence in analysis.sentences
            if SHORT_ANSWER.fullmatch(passage.text[sentence.start : sentence.end].strip())
        ]
        short += [  # how something is said or spelt: We say /ɪd/; e goes, + ing
            (sentence.start, sentence.end)
            for sentence in analysis.sentences
            if _OF_SOUNDS.search(passage.text[sentence.start : sentence.end])
        ]
        for one in analysis.structures:
            if not any(start <= one.start < end for start, end in short):
                counts[one.name] = counts.get(one.name, 0) + 1
    return tuple(sorted(counts, key=lambda name: -counts[name]))


def main_structures(shown: Iterable[str]) -> tuple[str, ...]:
    """The structures that a pattern is there for, without those that come along with others."""
    names = [name for name in shown if name not in _COMES_ALONG]
    if "there-is" in names and "present-simple-be" in names:
        names.remove("present-simple-be")
    return tuple(names) or tuple(shown)


def is_shown(label: NamedLabel, shown: Iterable[str]) -> bool:
    """Say whether any of the structures that a label names is among those that a pattern shows."""
    there = frozenset(shown)
    return any(name in there or not there.isdisjoint(_WIDER.get(name, ())) for name in label.structures)


_WAYS = frozenset({"over", "under", "into", "out of", "along", "through", "across", "round", "around", "up", "down"})


_QUESTION_WORDS = frozenset({"who", "what", "where", "why", "which", "how", "whose"})


def labels_in(text: str) -> Iterator[NamedLabel]:
    """The labels that a Grammar field lists, with commas, semicolons, `and` or `+` between them.

    `Countable and uncountable`, `present simple and continuous`, `past simple and when` are one label: `and` cuts only
    between labels that mean the same alone as together.
    """
    listed = list(_cut(text, 0, len(text), re.compile(r"[,;\n]|\.(?=\s|$)")))
    ways = any(text[start:end].casefold() in _WAYS for start, end in listed)
    asking = sum(text[start:end].casefold().split()[-1] in _QUESTION_WORDS for start, end in listed) > 1
    for start, end in listed:
        if ways and text[start:end].casefold() == "past":
            continue  # over, under, past: a way to go
        if asking and text[start:end].casefold() == "when":
            continue  # Question words: who, what, when
        parts = [
            NamedLabel(first, last, structures_of_label(text[first:last]))
            for first, last in _cut(text, start, end, re.compile(r"\s(?:and|or|&|\+|vs\.?|versus)\s"))
        ]
        if is_prose(text[start:end]):
            continue
        structures = structures_of_label(text[start:end])
        apart = {name for part in parts for name in part.structures}
        if all(part.structures for part in parts) and apart == {*structures}:
            yield from parts
        elif structures:
            yield NamedLabel(start, end, structures)


def _cut(text: str, start: int, end: int, mark: "re.Pattern[str]") -> Iterator[tuple[int, int]]:
    """The pieces of a range between marks, without white space at their edges; brackets are not cut open."""
    cuts = [match.span() for match in mark.finditer(text, start, end) if _depth(text[start : match.start()]) == 0]
    at = start
    for left, right in (*cuts, (end, end)):
        piece = text[at:left]
        if piece.strip():
            yield at + len(piece) - len(piece.lstrip()), left - (len(piece) - len(piece.rstrip()))
        at = right


def _depth(text: str) -> int:
    return text.count("(") - text.count(")")


def names_grammar(passages: Iterable[Passage], shown: Iterable[str]) -> bool:
    """Say whether teacher's notes name one of some structures (or, where none is known, any grammar at all).

    A Grammar field that is not empty does; elsewhere a term of grammar does (`practise the present continuous`), a
    label of several words (`have got`), and any label that is set off (`use *can*`).
    """
    wanted = frozenset(shown)
    for passage in passages:
        if passage.audience is not Audience.TEACHER or not passage.text.strip():
            continue
        if field_key(passage.field) == "grammar":
            return True
        for label in _mentioned(passage):
            if not wanted or is_shown(NamedLabel(0, 0, structures_of_label(label)), wanted):
                return True
    return False


def _mentioned(passage: Passage) -> Iterator[str]:
    """What may name grammar in running notes."""
    text = passage.text
    yield from (match[0] for match in terms().finditer(text))
    if field_key(passage.field) != "step":
        yield from (match[0] for match in wordings().finditer(text))
        yield from (match[1] for match in _MARKED.finditer(text))
        yield from (text[start:end] for start, end in (*passage.strong, *passage.emphasis))


@cache
def terms() -> "re.Pattern[str]":
    """Terms that are grammar wherever they stand: those that are for the teacher alone, and the names of structures."""
    found = {form for term in grammar_terms() for form in (term.term, term.plural) if form}
    found |= {label for label, structures, alone, source in _labels() if structures and not alone and source}
    return _any_of(found)


@cache
def wordings() -> "re.Pattern[str]":
    """Other labels of two words and more."""
    return _any_of({label for label, structures, alone, _ in _labels() if structures and not alone and " " in label})


def _labels() -> Iterator[tuple[str, str, bool, bool]]:
    for label, structures, alone, source in rows("grammar_labels.csv"):
        yield label, structures, alone == "yes", source == "GRAMMAR"


def _any_of(phrases: Iterable[str]) -> "re.Pattern[str]":
    longest_first = sorted(phrases, key=lambda phrase: (-len(phrase), phrase))
    flexible = (r"[\s-]+".join(map(re.escape, phrase.replace("'", "’").split())) for phrase in longest_first)
    return re.compile(r"(?<![\w-])(?:" + "|".join(flexible).replace("’", "['’]") + r")(?:e?s)?(?![\w-])", re.I)
