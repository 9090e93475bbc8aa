"""What a key says around its answers, and what is left of them: *1 is c.* · *The queen is c.* · *b, because it flies* ·
*The goat [c]* · *He ____ go. (has to)*. Pure.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import letters_of, plain, yes_or_no
from lint_rules.page.exercises.drafts import Draft
from lint_rules.page.exercises.model import Answer, Place
from lint_rules.plain_words import SENTENCE
from lint_rules.source import Source

_TIED = lazy_re.compile(r"\b\d{1,2} is [a-h]\b(?=[,.;]|$)", re.M)
_TIE = lazy_re.compile(r"is\s+(?=\S)(?!\w+ing\b)")
_SERIES = 3
_BRACKETED = lazy_re.compile(r"\S[^\[\]]*\[([^\[\]]+)\][.;]?")  # the goat [c]
_FEWEST_BRACKETED = 3  # answers that stand alike
_REASON = lazy_re.compile(r"(?P<answer>[^\s,]+)(?P<comma>,)? {1,2}because\b.*", re.S | re.I)
_DASHED = lazy_re.compile(r"(?P<answer>\S.*?)\s+[–—-]\s+(?P<reason>\S.*)", re.S)
_ARROW = lazy_re.compile(r"(?P<item>\S.*?)\s*(?:→|⟶|->|=>)\s*(?P<answer>\S.*)", re.S)
_BLANK = lazy_re.compile(r"_{2,}")
_ASKS_ON = lazy_re.compile(r"\band (?:what|who|where|when|how|why)\b", re.I)
_PART = lazy_re.compile(r"[,;]")
_BEHIND = lazy_re.compile(r"(?<!\s)\s*(?:\((?P<round>[^()]+)\)|\[(?P<square>[^\[\]]+)\])\s*[.;]?\s*")
_WORD = lazy_re.compile(r"[^\W_]+")
_FEWEST_TOLD = 2
_ONE = r"(?:answer|odd one(?: out)?|(?:(?:odd|different|right|wrong|missing) )?word|(?:different|wrong) one)"
_SENTENCE = lazy_re.compile(
    rf"(?:The {_ONE} is (?:[(“\"]?(?P<word>[a-z][\w’' -]{{0,30}}?)[)”\"]?)"
    r"|(?:(?:The|A|An|It|In|On|[A-Z][\w’']+) )?[^.;:]{0,40}?\b(?:is|are) \(?(?P<letter>[a-h])\)?)"
    r"(?:\s*[.;:,].*)?",
    re.S,
)


def without_is(rows: Sequence[tuple[Answer, ...]], source: Source) -> tuple[tuple[Answer, ...], ...]:
    """Answers without the verb that ties them to their numbers, in a unit whose keys are written so: 1 is c, 2 is b.
    A row stays as it is where the verb is a part of the answers: 1 is sleeping, 2 is happy, 3 are late."""
    tied = [bool(row) and all(_TIE.match(one.text) for one in row) for row in rows]
    if not any(tied) or len(_TIED.findall(source.text)) < _SERIES:
        return tuple(rows)
    return tuple(tuple(map(_untied, row)) if is_tied else row for row, is_tied in zip(rows, tied, strict=True))


def without_sentence(rows: Sequence[tuple[Answer, ...]]) -> tuple[tuple[Answer, ...], ...]:
    """Answers that a key tells in sentences without what leads to them, where it tells all of a row so: The queen is c.
    The eggs are d. · The answer is b: it is light. · The odd one out is sky; the others fly."""
    found: list[tuple[Answer, ...]] = []
    for row in rows:
        told = [_SENTENCE.fullmatch(answer.text.strip()) for answer in row]
        if len(row) >= _FEWEST_TOLD and all(told):
            row = tuple(_within(answer, match) for answer, match in zip(row, told, strict=True) if match is not None)
        found.append(row)
    return tuple(found)


def _within(answer: Answer, match: "re.Match[str]") -> Answer:
    start = answer.place.start + answer.place.text.index(answer.text.strip())
    group = "letter" if match["letter"] is not None else "word"
    return replace(answer, place=Place(answer.place.passage, start + match.start(group), start + match.end(group)))


def _untied(answer: Answer) -> Answer:
    place, tie = answer.place, _TIE.match(answer.text)
    return (
        replace(answer, place=Place(place.passage, place.start + tie.end(), place.end)) if tie is not None else answer
    )


def in_brackets(row: Sequence[Answer]) -> tuple[Answer, ...]:
    """What stands in square brackets behind each item, where a key says the items too: 1 the goat [c] 2 the bus [a]."""
    inside = [_BRACKETED.fullmatch(answer.text) for answer in row]
    if len(row) < _FEWEST_BRACKETED or not all(inside):
        return tuple(row)
    return tuple(
        replace(
            answer,
            place=Place(answer.place.passage, answer.place.start + match.start(1), answer.place.start + match.end(1)),
        )
        for answer, match in zip(row, inside, strict=True)
        if match is not None
    )


def without_reason(row: Sequence[Answer]) -> tuple[Answer, ...]:
    """Answers without the reason that a key gives for them: *b, because it flies*. Words are left as they are unless
    all of a row have a reason: they may be what is to be written (*cold, because it snows*)."""
    given = [_REASON.fullmatch(answer.text.strip()) for answer in row]
    every = len(row) >= _FEWEST_TOLD and all(match is not None and match["comma"] for match in given)
    return tuple(
        _up_to(answer, match["answer"]) if match is not None and (every or _is_sign(match["answer"])) else answer
        for answer, match in zip(row, given, strict=True)
    )


def without_item(answer: Answer | None, draft: Draft) -> Answer | None:
    """What stands in brackets or behind an arrow after the item's own words, where a key says these too: *He ____ go.
    (has to)* · *Last Stop (5.50)* · *The bed is new. → no*."""
    shown = _ARROW.fullmatch(answer.text) if answer is not None else None
    if answer is not None and shown is not None:
        same = _words(shown["item"]) == _words(" ".join(one.text for one in draft.places))
        start, end = (answer.place.start + at for at in shown.span("answer"))
        return replace(answer, place=Place(answer.place.passage, start, end)) if same else answer
    if answer is None or not answer.text.rstrip(" .;").endswith((")", "]")):
        return answer
    place = answer.place
    behind = next((match for match in _BEHIND.finditer(answer.text) if match.end() == len(answer.text)), None)
    said = _words(answer.text[: behind.start()]) if behind is not None else []
    whole = " ".join(one.text for one in draft.places)
    if behind is None or not said or said not in ([_words(whole), *map(_words, SENTENCE.findall(whole))]):
        return answer
    inside = behind["round"] or behind["square"]
    if "_" not in whole and not _is_sign(inside) and not inside.strip()[:1].isdigit():
        return answer  # hat (a small one)
    start, end = behind.span("round" if behind["round"] is not None else "square")
    return replace(answer, place=Place(place.passage, place.start + start, place.start + end))


def without_reasons(answers: Sequence[Answer | None], drafts: Sequence[Draft]) -> list[Answer | None]:
    """Answers without what a key says behind a dash to each of them: *seventeen – not seventy*, *since – April is the
    start*. Signs keep it (*F – there are two*), and so do keys that say the item first: *the goat – under a table*."""
    given = [(answer, draft) for answer, draft in zip(answers, drafts, strict=True) if answer is not None]
    told = [(_DASHED.fullmatch(answer.text.strip()), draft) for answer, draft in given]
    cut = {id(draft): match["answer"] for match, draft in told if match is not None and _is_reason(match, draft)}
    signs = any(_is_sign(text) for text in cut.values()) or any(map(_asks_two, drafts))
    if signs or len(given) < _FEWEST_TOLD or not all(match for match, _ in told) or len(cut) <= len(told) / 2:
        return list(answers)
    said = {id(draft): match["answer"] for match, draft in told if match is not None}
    return [
        _up_to(answer, said[id(draft)]) if answer is not None else None
        for answer, draft in zip(answers, drafts, strict=True)
    ]


def _asks_two(draft: Draft) -> bool:
    """Say whether an item has two blanks, or asks two things: Who has a hat, and what is it like?"""
    item = " ".join(place.text for place in draft.places)
    return len(_BLANK.findall(item)) > 1 or _ASKS_ON.search(item) is not None


def _is_reason(match: "re.Match[str]", draft: Draft) -> bool:
    """Say whether words behind a dash are no answer: several, behind what is neither a question nor the item."""
    item = plain(" ".join(place.text for place in draft.places))
    before = match["answer"]
    several = len(_PART.split(match["reason"])[0].split()) > 1  # not: soft, smooth, heavy
    return several and not before.endswith("?") and not item.startswith(plain(before))


def _words(text: str) -> list[str]:
    return [plain(word) for word in _WORD.findall(text)]


def _is_sign(text: str) -> bool:
    return bool(letters_of(text)) or yes_or_no(text) is not None


def _up_to(answer: Answer, text: str) -> Answer:
    start = answer.place.start + answer.text.index(text)
    return replace(answer, place=Place(answer.place.passage, start, start + len(text)))
