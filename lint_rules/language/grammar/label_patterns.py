"""Grammar labels written as patterns: `I've got …`, `Can I have …?`, `What's your name?`, `Where is …?`.

A pattern says by its words which structures it shows, and it is as narrow as it is written: who teaches `Can I have …?`
has not said anything about *I can swim*. It is read by its small words alone, so that settings need no language model.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from lint_rules import lazy_re

_GAP = lazy_re.compile(r"…|\.{2,}|_{2,}")
_SLOT = lazy_re.compile(r"\s*\+\s*[\w-]+(?:\s*/\s*[\w-]+)*")  # I'm + name, She's + -ing, I like + noun
_WORD = lazy_re.compile(r"[a-z]+n't|[a-z]+|'[a-z]+|…")
_PARTS = lazy_re.compile(r"\s+/\s+|[;,\n]|(?<=[?!])\s+|(?<=\w)\.\s+|…\s*\.(?=\s|$)")
_EXPLAINED = lazy_re.compile(r":|\(|–|—|\s-\s|\+")  # `can: Can I swim?` has a name, and an example of it

_QUESTION_WORDS = frozenset(["what", "where", "who", "whose", "when", "why", "how", "which"])
_SUBJECTS = frozenset(["i", "you", "he", "she", "it", "we", "they", "this", "that", "these", "those", "there"])
_PERSONS = frozenset(["i", "you", "he", "she", "it", "we", "they"])
_OF_AUXILIARY = {
    "present-simple-be": "am is are 'm 's 're isn't aren't",
    "past-simple-be": "was were wasn't weren't",
    "present-simple": "do does don't doesn't",
    "past-simple": "did didn't",
    "can": "can can't cannot",
    "could": "could couldn't",
    "must": "must mustn't",
    "should": "should shouldn't",
    "future-will": "will 'll won't",
    "would": "would 'd wouldn't",
    "may-might": "may might",
    "have": "have has 've haven't hasn't",
}
_OF_PARTICIPLE = ("passive", "participle-clause")  # The box is made of wood. A box made of wood.
_PARTICIPLE = lazy_re.compile(r"made|\w{2,}(?:ed|en)")
_AFTER_PARTICIPLE = frozenset(["of", "for", "by", "from", "with", "in"])
_AUXILIARIES = {word: name for name, words in _OF_AUXILIARY.items() for word in words.split()}
_CONTRACTED = {"'m": "am", "'re": "are", "'s": "is|has|us", "'ve": "have", "'ll": "will", "'d": "would|had"}
_MEASURED = frozenset(
    ["many", "much", "long", "high", "old", "often", "far", "tall", "big", "heavy", "deep", "wide", "fast"]
)
_HOW = lazy_re.compile(
    rf"(?:questions?\s+(?:with|using)\s+)?how\s+(?P<words>(?:{'|'.join(sorted(_MEASURED))})"
    rf"(?:\s*(?:,|/|&|\band\b|\bor\b)\s*(?:how\s+)?(?:{'|'.join(sorted(_MEASURED))}))*)(?:\s+questions?)?\??"
)
_EITHER = lazy_re.compile(
    rf"(?P<before>(?:{'|'.join(sorted(_QUESTION_WORDS))}) (?:[a-z]+ ){{0,2}})(?P<one>[a-z']+) ?/ ?(?P<other>[a-z']+)"
    r"(?P<behind>(?: …| [a-z]+)*\??)$"
)
_IN_A_GAP = 4  # words that a gap inside a pattern may stand for


@dataclass(frozen=True, slots=True)
class LabelPattern:
    """A pattern: the structures that it shows, and what finds it in a text."""

    structures: tuple[str, ...]
    words: "re.Pattern[str]"


@lru_cache(maxsize=4096)
def patterns_in(label: str) -> tuple[tuple[LabelPattern, ...], str]:
    """The patterns that a label is written as, in whole or in part, and what is left of it: a name (`present simple`)
    with an example behind a colon is a name."""
    plain = _plain(label)
    if _EXPLAINED.search(plain):
        return (), label
    how = tuple(_asks_how(plain))
    if how:
        return how, ""
    found, left = [], []
    for part in _PARTS.split(_in_full(plain)):
        one = _pattern(part)
        if one is None:
            left.append(part)
        else:
            found.append(one)
    return (tuple(found), ", ".join(left)) if found else ((), label)


def _in_full(plain: str) -> str:
    """A question with two auxiliaries to choose from as two: how much is / are, how much is … / how much are …"""
    match = _EITHER.match(plain)
    if match is None or not {match["one"], match["other"]} <= _AUXILIARIES.keys():
        return plain
    behind = match["behind"] if match["behind"].endswith(("…", "?")) else f"{match['behind']} …"
    return " / ".join(f"{match['before']}{match[name]}{behind}" for name in ("one", "other"))


def _asks_how(plain: str) -> Iterator[LabelPattern]:
    """`questions with how long and how high`: these questions, and no others."""
    match = _HOW.fullmatch(plain.strip(" ."))
    for word in _WORD.findall(match["words"]) if match is not None else ():
        if word in _MEASURED:
            yield LabelPattern(("wh-question",), _finder(["how", word]))


def _pattern(part: str) -> LabelPattern | None:
    words = _WORD.findall(part)
    spoken = [word for word in words if word != "…"]
    if len(spoken) < 2:
        return None
    if len(spoken) == 2 and _PARTICIPLE.fullmatch(spoken[0]) and spoken[1] in _AFTER_PARTICIPLE:
        return LabelPattern(_OF_PARTICIPLE, _finder(words))  # made of, used for …
    turned = spoken[0] in _AUXILIARIES and spoken[1] in _SUBJECTS
    asked = turned or part.rstrip(" …").endswith("?")
    if not (asked or "…" in words or spoken[0] in _PERSONS):
        return None
    if not (turned or spoken[0] in _SUBJECTS | _QUESTION_WORDS | {"let"} or (asked and spoken[0] in _AUXILIARIES)):
        return None  # `want to …`, `going to …`: the name of a structure, or a phrase
    shown = tuple(dict.fromkeys(_shown(spoken, asked=asked)))
    return LabelPattern(shown, _finder(words)) if shown else None


def stands_in(patterns: Iterable[LabelPattern], text: str, start: int, end: int) -> bool:
    """Say whether one of some patterns stands in a text where a structure does."""
    straight = text.translate(_STRAIGHT)
    return any(
        match.start() < end and start < match.end() for one in patterns for match in one.words.finditer(straight)
    )


def has_gap(label: str) -> bool:
    """Say whether a label is a phrase with a gap, or a question: read or not, it is meant as a pattern."""
    return bool(_GAP.search(label)) or label.rstrip().endswith("?")


_STRAIGHT = str.maketrans("‘’ʼ", "'''")


def _plain(label: str) -> str:
    return _GAP.sub("…", _SLOT.sub(" …", label).casefold().translate(_STRAIGHT).replace("*", ""))


def _shown(words: Sequence[str], *, asked: bool) -> Iterator[str]:
    """The structures that the words of a pattern show."""
    first = words[0]
    if first == "let" and words[1] == "'s":
        yield "lets"
        return
    auxiliary = next((word for word in words[:3] if word in _AUXILIARIES), "")
    if first in _QUESTION_WORDS and (asked or auxiliary):
        yield "wh-question"
    elif asked and first in _AUXILIARIES:
        yield "yes-no-question"
    if "got" in words and _AUXILIARIES.get(auxiliary) in ("have", "present-simple-be"):
        yield "have-got"
    elif "there" in words[:2] and _AUXILIARIES.get(auxiliary) == "present-simple-be":
        yield "there-is"
    elif auxiliary:
        yield from _of_auxiliary(auxiliary, words)
    elif first in _SUBJECTS:
        yield "present-simple"


def _of_auxiliary(auxiliary: str, words: Sequence[str]) -> Iterator[str]:
    name = _AUXILIARIES[auxiliary]
    doing = any(word == "ing" or (word.endswith("ing") and len(word) > 4) for word in words)
    if name == "have":
        perfect = "been" in words or "ever" in words or "never" in words
        yield "have-to" if "to" in words else "present-perfect" if perfect else "present-simple"
    elif name in ("present-simple-be", "past-simple-be") and "going" in words and "to" in words:
        yield "going-to-future"
    elif name == "present-simple-be" and doing:
        yield "present-continuous"
    elif name == "past-simple-be" and doing:
        yield "past-continuous"
    else:
        yield name


def _finder(words: Sequence[str]) -> "re.Pattern[str]":
    """Finds a pattern in a text: its words in order, contracted or not, and a few words where it has a gap inside."""
    inner = list(words)
    while inner and inner[0] == "…":
        inner.pop(0)
    while inner and inner[-1] == "…":
        inner.pop()
    pieces: list[str] = []
    for at, word in enumerate(inner):
        if word == "…":
            pieces.append(rf"(?:\W+[\w']+){{0,{_IN_A_GAP}}}?")
        elif word == "ing":  # She's …ing
            pieces.append(r"\W+[\w']+ing\b")
        elif word in _CONTRACTED:
            pieces.append(rf"(?:{re.escape(word)}|\W+(?:{_CONTRACTED[word]}))\b")
        else:
            short = [mark for mark, long in _CONTRACTED.items() if word in long.split("|")]
            contracted = "|".join(map(re.escape, short))
            joined = rf"(?:\W+{re.escape(word)}|{contracted})\b" if short else rf"\W+{re.escape(word)}\b"
            pieces.append(joined if at else rf"\b{re.escape(word)}\b")
    return re.compile("".join(pieces), re.I)
