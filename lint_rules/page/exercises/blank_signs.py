"""Blanks and boxes that an author writes with other signs: dots, dashes, squares, brackets with nothing in them.

A page is read with one sign for each: what is a blank becomes underscores, `[ ]` a box to tick. Every character still
stands where it stood in the file. Signs inside a word (`c-t`, `b..k`) are blanks only where a word of the key fits
them, and more than one of them does.
"""

import re
from array import array
from collections.abc import Iterable, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.manuscript.model import Passage
from lint_rules.manuscript.paragraph_split import gaps

_RUN = lazy_re.compile(
    r"\.{5,}|(?<=[\s(])\.{4}(?=\s|[.,;?!)]|$)|…{2,}|(?:(?<=[\s(])|^)(?:[.…][ \u00a0]){3,}[.…](?=\s|$)"
    r"|-{3,}|[–—]{2,}|(?:(?<=\s)|^)(?:[-–—][ \u00a0]){2,}[-–—](?=\s|$)"
    r"|(?<=[^\W\d_])[☐□▢◻⬜]+(?=[^\W\d_]|[☐□▢◻⬜\s.,;?!]|$)|[☐□▢◻⬜]+(?=[a-z])|[□▢◻⬜☐]{3,}"
    r"|(?<=\()[ \u00a0]{2,}(?=\))"
)
_CHECKBOX = lazy_re.compile(r"(?<![^\s(|])\[[ \u00a0]{0,3}\](?!\S)")
_NUMBERED_DOTS = lazy_re.compile(r"(?<=\(\d\) )(?:…|\.{3})(?!\w)|(?<=\(\d\d\) )(?:…|\.{3})(?!\w)")
_RAISED = lazy_re.compile(r"(_+)\^\(?(\d{1,2})\)?\^")
_IN_WORD = lazy_re.compile(r"(?<![\w.–-])[^\W\d_]*(?:[-–.*][^\W\d_]*)+(?<![.])(?![\w-])")
_SPACED_WORD = lazy_re.compile(r"(?<!\S)(?:[^\W\d_]|[.*□▢◻⬜☐–-])(?: (?:[^\W\d_]|[.*□▢◻⬜☐–-])){2,}(?!\S)")
_ASKED = lazy_re.compile(r"(?<![\w?])[^\W\d_]+(?:\?+[^\W\d_]+)+(?![\w?])")  # `t?ger`
_SHOWN = lazy_re.compile(r"[^\W\d_]")
_FEWEST = 2


def with_signs(passages: Sequence[Passage], said: str) -> dict[int, Passage]:
    """The passages that have such signs, as they are read, by the identity of what they are read for; ``said`` is
    what the key says."""
    words = {word.casefold() for word in re.findall(r"[^\W\d_]{3,}", said)}
    inside: dict[int, list[tuple[int, int]]] = {}
    for pattern in (_IN_WORD, _SPACED_WORD, _ASKED):
        spaced = pattern is _SPACED_WORD
        found = {id(one): several for one in passages if (several := list(_in_words(one, words, pattern)))}
        texts = [one.text[slice(*span)] for one in passages for span in found.get(id(one), ())]
        sure = (
            spaced or pattern is _ASKED or all("*" in text for text in texts)
        )  # no sentence has such: of which some fit, all are words
        if sum(len(several) for several in found.values()) < _FEWEST:
            continue
        for one in passages:
            spans = list(_in_words(one, None, pattern)) if sure else found.get(id(one), [])
            if spans:
                inside.setdefault(id(one), []).extend(spans)
    made = {}
    for passage in passages:
        whole = _read(passage, inside.get(id(passage), ()))
        if whole is not passage:
            made[id(passage)] = whole
    return made


def _in_words(passage: Passage, words: set[str] | None, pattern: "re.Pattern[str]") -> Iterable[tuple[int, int]]:
    """Where signs stand in a word: one of some words, or whatever word (None)."""
    for match in pattern.finditer(passage.text):
        bare = match[0].replace(" ", "")
        if not _SHOWN.search(bare) or len(bare) < 3 or bare.isalpha():
            continue
        fitting = re.compile("".join(r"\w" if not char.isalpha() else re.escape(char.casefold()) for char in bare))
        if words is None or any(fitting.fullmatch(word) for word in words):
            yield match.span()


def _read(passage: Passage, inside: Iterable[tuple[int, int]]) -> Passage:
    text = passage.text
    changes = [(match.start(), match.end(), "_" * len(match[0])) for match in _RUN.finditer(text)]
    changes += [(match.start(), match.end(), "____") for match in _NUMBERED_DOTS.finditer(text)]
    changes += [(match.start(), match.end(), "☐") for match in _CHECKBOX.finditer(text)]
    changes += [
        (at, at + 1, "_")
        for start, end in inside
        for at in range(start, end)
        if not (text[at].isalpha() or text[at] == " ")
    ]
    seen: set[str] = set()
    for match in _RAISED.finditer(text):  # a number set high behind its blank is read before it, once
        changes.append((match.end(1), match.end(), ""))
        if match[2] not in seen:
            changes.append((match.start(), match.start(), f"({match[2]}) "))
        seen.add(match[2])
    return _changed(passage, sorted(set(changes))) if changes else passage


def _changed(passage: Passage, changes: Sequence[tuple[int, int, str]]) -> Passage:
    """A passage with some ranges written in other signs; each sign stands where the range stood."""
    text = passage.text
    chars: list[str] = []
    starts, ends = array("l"), array("l")
    moved = [0] * (len(text) + 1)  # where each index of the old text stands in the new one
    at = 0
    for start, end, sign in changes:
        if start < at:
            continue
        for index in range(at, end):
            moved[index] = len(chars) + min(index, start) - at
        chars += [*text[at:start], *sign]
        starts.extend(passage.starts[at:start])
        ends.extend(passage.ends[at:start])
        same = len(sign) == end - start
        last = max(start, end - 1)
        starts.extend(passage.starts[start:end] if same else [passage.starts[start]] * len(sign))
        ends.extend(passage.ends[start:end] if same else [passage.ends[last]] * len(sign))
        at = end
    for index in range(at, len(text) + 1):
        moved[index] = len(chars) + index - at
    chars += text[at:]
    starts.extend(passage.starts[at:])
    ends.extend(passage.ends[at:])
    whole = "".join(chars)

    def kept(ranges: Sequence[tuple[int, int]]) -> tuple[tuple[int, int], ...]:
        return tuple((moved[a], moved[b]) for a, b in ranges if moved[a] < moved[b])

    return replace(
        passage,
        text=whole,
        starts=starts,
        ends=ends,
        strong=kept(passage.strong),
        emphasis=kept(passage.emphasis),
        foreign=kept(passage.foreign),
        struck=kept(passage.struck),
        gaps=gaps(whole),
        pictures=tuple(replace(one, at=moved[one.at]) for one in passage.pictures),
    )
