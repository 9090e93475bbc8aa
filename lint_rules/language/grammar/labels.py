"""Grammar as teachers write it: from `present progressive (questions)` to structure names, and the teacher's own terms.

The wordings stand in data/grammar_labels.csv and data/grammar_terms.csv.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache, lru_cache

from lint_rules import lazy_re
from lint_rules.language.grammar.label_patterns import LabelPattern, has_gap, patterns_in
from lint_rules.plain_words import TOGETHER
from lint_rules.tables import alternatives, rows, words

_OF_PATTERNS = ("…", "...", "?", "+", "/")  # what a label written as a pattern has
_STRANGE = 3  # words of a sentence that belong to no label: it is no label itself
_NEAR = 0.85  # a letter or two; a label of the course's own is not to be taken for a slip
_WORD_LIST = lazy_re.compile(
    rf"{TOGETHER.pattern}(?:\s*/\s*{TOGETHER.pattern})+"
)  # under / behind: words, and no structure
# Of the passive, the tenses are no structures of their own: present and past simple passive; passive (past simple).
_TENSES = r"(?:present|past|future)(?:\s+(?:simple|continuous|progressive|perfect))?"
_OF_PASSIVE = lazy_re.compile(
    rf"\b{_TENSES}(?:\s*(?:,|and|&)\s*{_TENSES})*\s+passive\b"
    rf"|\bpassive\s*[:(–]\s*{_TENSES}(?:\s*(?:,|and|&)\s*{_TENSES})*\)?(?=\s*$)"
)
# A tense by its parts: is / are + -ing.
_AND_ING = r"\s*\+\s*(?:verb\s*)?[*_]*-?ing\b[*_]*"
_OF_BE = (
    (lazy_re.compile(rf"\b(?:am|is|are)\b(?:\s*[/,]\s*(?:am|is|are)\b)*{_AND_ING}"), "be + -ing"),
    (lazy_re.compile(rf"\b(?:was|were)\b(?:\s*[/,]\s*(?:was|were)\b)*{_AND_ING}"), "past continuous"),
)
_SENTENCE = lazy_re.compile(r"\s\S+[.!?][\"'”’]*$")  # "The van is red.": the very sentence that is taught
_SMALLEST = frozenset({"a", "an", "the", "and", "or"})  # a and an
_TOKEN = lazy_re.compile(r"let's|there's|[a-z0-9]+n't|[a-z0-9]+|'[a-z]+|[():–—]")


@dataclass(frozen=True, slots=True)
class GrammarTerm:
    """A term of grammar: singular, plural ('' when there is none), and who may meet it on a page: only the ``teacher``
    in the notes, a ``child``, or a child if the author, ``asked``, says so."""

    term: str
    plural: str
    page: str

    @property
    def teacher_only(self) -> bool:
        """Whether it is for the teacher alone."""
        return self.page == "teacher"


@dataclass(frozen=True, slots=True)
class _Label:
    structures: tuple[str, ...]
    alone: bool


@dataclass(frozen=True, slots=True)
class _Match:
    start: int
    end: int
    label: _Label


@lru_cache(maxsize=4096)
def structures_of_label(label: str) -> tuple[str, ...]:
    """The structures that a grammar label names, in the order written, each once; () when it names none that we know.

    A label written as a pattern (`Can I have …?`) names what its words show (``label_patterns``).
    What follows a colon, a dash or an opening bracket may narrow a label (`past simple: was/were`) or be an example of
    it (`can: I can swim`): it counts as a label only when every word of it is known.
    """
    patterns, name = patterns_in(label)
    found = dict.fromkeys(structure for one in patterns for structure in one.structures)
    return tuple(found | dict.fromkeys(_structures_of_name(name)))


@lru_cache(maxsize=4096)
def patterns_that_teach(structure: str, label: str) -> tuple[LabelPattern, ...]:
    """The patterns of a label that show a structure; () where the label names it, with all that belongs to it."""
    patterns, name = patterns_in(label)
    return () if structure in _structures_of_name(name) else tuple(p for p in patterns if structure in p.structures)


def _structures_of_name(name: str) -> tuple[str, ...]:
    plain = _OF_PASSIVE.sub("passive", _plain(name))
    for written, label in _OF_BE:
        plain = written.sub(label, plain)
    parts = re.split(r"[;\n]", plain)
    return tuple(structure for part in parts for structure in _structures(part))


def is_label_read(label: str) -> bool:
    """Say whether a label means anything here: a name of grammar (of a structure or not), a pattern, small words."""
    if structures_of_label(label) or has_gap(label) or _WORD_LIST.fullmatch(label.strip()):
        return True
    if _SENTENCE.search(label) or set(_words(_plain(label))[0]) <= _SMALLEST:
        return True
    tokens = _words(_plain(label))[0]
    covered = {at for match in _matches(tokens) for at in range(match.start, match.end)}
    small = words("grammar_label_qualifiers") | _small_words()
    return all(at in covered or token in small for at, token in enumerate(tokens))


def is_prose(text: str) -> bool:
    """Say whether a text only happens to have the words of a label: a sentence that names no grammar by a term and is
    mostly other words (Let the children feel it with real things; there are two new structures here)."""
    if any(sign in text for sign in _OF_PATTERNS):
        return False
    tokens = _words(_plain(text))[0]
    covered = {at for match in _matches(tokens) for at in range(match.start, match.end)}
    small = words("grammar_label_qualifiers")
    strange = sum(at not in covered and token not in small for at, token in enumerate(tokens))
    return strange >= _STRANGE and strange > len(covered) and not _named_by_term(text)


def _named_by_term(text: str) -> bool:
    plain = f" {' '.join(re.findall(r'[a-z]+', text.casefold()))} "
    return any(f" {name} " in plain for term in all_grammar_terms() for name in (term.term, term.plural) if name)


@cache
def _small_words() -> frozenset[str]:
    return frozenset(
        _singular(word) for _, cell in rows("function_words.csv") for word in cell.casefold().replace("|", " ").split()
    )


def label_meant(label: str) -> str:
    """The label that was probably meant by one that is not in the table; '' when none is near."""
    if is_label_read(label) or any(_matches(_words(_plain(label))[0])):
        return ""
    written = {" ".join(_words(_plain(name))[0]): name for name, *_ in rows("grammar_labels.csv")}
    near = get_close_matches(" ".join(_words(_plain(label))[0]), written, n=1, cutoff=_NEAR)
    return written[near[0]] if near else ""


def grammar_terms() -> tuple[GrammarTerm, ...]:
    """The terms that are for the teacher alone and must not leak onto a child's page, the longest first."""
    return tuple(term for term in all_grammar_terms() if term.teacher_only)


@cache
def all_grammar_terms() -> tuple[GrammarTerm, ...]:
    """Every term of the table, the longest first."""
    table = rows("grammar_terms.csv")
    terms = [GrammarTerm(term, plural, page) for term, plural, page, _ in table]
    return tuple(sorted(terms, key=lambda term: (-len(term.term), term.term)))


def _structures(part: str) -> Iterator[str]:
    tokens, segments = _words(part)
    matches = list(_matches(tokens))
    covered = {index for match in matches for index in range(match.start, match.end)}
    qualifiers = words("grammar_label_qualifiers")
    strange = [index for index, token in enumerate(tokens) if index not in covered and token not in qualifiers]
    strange_segments = {segments[index] for index in strange}
    surer = any(match.label.structures for match in matches if not match.label.alone)
    for match in matches:
        segment = segments[match.start]
        if (segment > 0 and segment in strange_segments) or (match.label.alone and (strange or surer)):
            continue
        yield from match.label.structures


def _matches(tokens: Sequence[str]) -> Iterator[_Match]:
    """The labels of the table in a row of words: from left to right, always the longest."""
    labels, longest = _labels()
    start = 0
    while start < len(tokens):
        for end in range(min(len(tokens), start + longest), start, -1):
            if (label := labels.get(tuple(tokens[start:end]))) is not None:
                yield _Match(start, end, label)
                start = end
                break
        else:
            start += 1


@cache
def _labels() -> tuple[dict[tuple[str, ...], _Label], int]:
    """The table by the words of its labels, and how many words the longest has."""
    labels = {
        tuple(_words(_plain(label))[0]): _Label(alternatives(structures), alone == "yes")
        for label, structures, alone, _ in rows("grammar_labels.csv")
    }
    return labels, max(map(len, labels))


def _words(part: str) -> tuple[list[str], list[int]]:
    """The words of a label that count, without plural -s, and for each the segment it is in (0: the label's head)."""
    tokens: list[str] = []
    fillers = words("grammar_label_fillers")
    segments: list[int] = []
    segment = 0
    for token in _TOKEN.findall(part):
        if token in "():–—":
            segment += 1 if tokens else 0
        elif (word := _singular(token)) not in fillers:
            tokens.append(word)
            segments.append(segment)
    return tokens, segments


def _plain(label: str) -> str:
    """Lower case, with straight apostrophes, and a dash between spaces as a long one (a hyphen only joins words)."""
    straight = label.casefold().translate({0x2018: "'", 0x2019: "'", 0x02BC: "'", 0x2010: "-", 0x2011: "-"})
    return re.sub(r"\s-\s", " – ", straight)


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and word[-2] not in "s'" else word
