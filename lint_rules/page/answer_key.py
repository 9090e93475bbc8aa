"""An activity's numbered items and its answers, read side by side. Pure.

Answers are written as a list, a line each, or in a row (`1 c 2 a`, `1c, 2a`, `1 – c`), in an `answers` div or in the
field Answers of the notes. A key that says `children's own answers` answers whatever it does not number.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lint_rules.manuscript.model import Activity, Audience, Passage, Role, field_key
from lint_rules.source import Span

_OWN = re.compile(
    r"\b(?:own|open|various|different|free|possible)\s+(?:\w+\s+)?answers?\b|\banswers?\s+(?:will\s+)?vary\b", re.I
)
_IN_A_ROW = re.compile(
    r"(?<![\w.])(?P<label>\d{1,2}|[a-z](?=[.)]))"
    r"(?:[.):]?\s+(?=[^\W_]|[^\w\s–—=→-])|[.):]?\s*[–—=→:-]\s*(?=[^\W\d_])|(?=[A-Za-z](?:[\s,;.)]|$)))"
)
_LETTER = re.compile(r"[a-z]", re.IGNORECASE)
_LETTER_FIRST = re.compile(r"([a-z])[.)](?:\s|$)", re.IGNORECASE)
_INLINE_OPTION = re.compile(r"(?<!\w)([a-z])[.)]\s+\S")


@dataclass(frozen=True, slots=True)
class ItemLabel:
    """A numbered item of an activity: its label, where the label stands, and the letters of its options (none: '')."""

    label: str
    span: Span
    text: str
    options: str


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer of the key: the item it answers, what it says, and where label and answer stand."""

    label: str
    text: str
    label_span: Span
    span: Span


@dataclass(frozen=True, slots=True)
class Key:
    """The answers of an activity. ``open_ended``: it leaves answers to the children."""

    answers: tuple[Answer, ...]
    open_ended: bool


def items_of(activity: Activity) -> tuple[ItemLabel, ...]:
    """The numbered items of an activity's page (lettered ones where none is numbered), in order.

    Items of a second numbered list of the same activity go on the first one's numbers only where they go on counting.
    """
    passages = [p for p in activity.part.passages if p.audience is Audience.PUPIL and p.item is not None]
    outer = [p for p in passages if p.item is not None and p.item.depth == 0 and p.item.label]
    numbered = [p for p in outer if p.item is not None and p.item.label.isdigit()]
    letters = _loose_letters(outer) if numbered else ""
    return tuple(
        ItemLabel(p.item.label, p.item.label_span, p.text, _options(p, passages) or letters)
        for p in _first_of_each(numbered or outer)
        if p.item is not None
    )


def key_of_activity(activity: Activity) -> Key | None:
    """The answers of an activity, or None where it has no key."""
    passages = [p for p in activity.part.passages if _is_key(p) and p.text.strip()]
    if not passages:
        return None
    answers = [answer for passage in passages for answer in _answers(passage, alone=len(passages) == 1)]
    return Key(tuple(answers), any(_OWN.search(passage.text) for passage in passages))


def _is_key(passage: Passage) -> bool:
    """Say whether a passage is of an `answers` div or of the field Answers in the teacher's notes."""
    in_notes = passage.audience is Audience.TEACHER and field_key(passage.field) in ("answer", "answer key", "key")
    return passage.audience is Audience.KEY or in_notes


def letters_of(answer: str) -> tuple[str, ...]:
    """The letters that an answer gives, in lower case: `b`, `b) a hat`, `a, c`. Empty when it gives something else."""
    if match := _LETTER_FIRST.match(answer):
        return (match[1].lower(),)
    parts = [part for part in re.split(r"\s*(?:,|&|/|\band\b)\s*", answer.strip()) if part]
    return tuple(part.lower() for part in parts) if all(_LETTER.fullmatch(part) for part in parts) else ()


def _first_of_each(passages: Sequence[Passage]) -> Iterator[Passage]:
    """One passage an item (an item may hold several paragraphs)."""
    seen: set[tuple[int, int]] = set()
    for passage in passages:
        if passage.item is not None and (passage.item.list, passage.item.index) not in seen:
            seen.add((passage.item.list, passage.item.index))
            yield passage


def _loose_letters(outer: Sequence[Passage]) -> str:
    """The letters of a lettered list beside the numbered one (match 1 with c)."""
    labels = [p.item.label for p in outer if p.item is not None and not p.item.label.isdigit()]
    return "".join(dict.fromkeys(label.lower() for label in labels if len(label) == 1))


def _options(passage: Passage, passages: Sequence[Passage]) -> str:
    """The letters of an item's options: nested under it, or in its own text (`a) here b) there`)."""
    item = passage.item
    assert item is not None
    nested = [p.item.label for p in passages if p.item is not None and p.item.parent == (item.list, item.index)]
    letters = [label.lower() for label in nested if len(label) == 1 and label.isalpha()]
    inline = [match[1] for match in _INLINE_OPTION.finditer(passage.text)]
    return "".join(dict.fromkeys(letters or (inline if len(inline) > 1 else [])))


def _answers(passage: Passage, *, alone: bool) -> Iterator[Answer]:
    """The answers of a passage. A row that begins with `1.` is a list of one item to Markdown: ``alone`` says that the
    key has no other passage, so that the numbers inside it may go on.
    """
    item = passage.item
    if passage.role is Role.ITEM and item is not None and item.label:
        marks = list(_rising(_IN_A_ROW.finditer(passage.text), item.label)) if alone else []
        end = marks[0].start() if marks else len(passage.text)
        if item.depth == 0:
            text = passage.text[:end].rstrip(" ,;\n")
            yield Answer(item.label, text, item.label_span, passage.span(0, len(text)))
            yield from _in_a_row(passage, marks)
        return
    marks = list(_rising(_IN_A_ROW.finditer(passage.text)))
    if marks and not passage.text[: marks[0].start()].strip():
        yield from _in_a_row(passage, marks)


def _in_a_row(passage: Passage, marks: Sequence[re.Match[str]]) -> Iterator[Answer]:
    for at, mark in enumerate(marks):
        end = marks[at + 1].start() if at + 1 < len(marks) else len(passage.text)
        text = passage.text[mark.end() : end].strip(" ,;\n")
        span = passage.span(mark.end(), mark.end() + len(text))
        yield Answer(mark["label"], text, passage.span(mark.start("label"), mark.end("label")), span)


def _rising(marks: Iterator[re.Match[str]], last: str = "") -> Iterator[re.Match[str]]:
    """The marks that number answers: each greater than the one before, so that `1 two 2 I have 3 cats` has two.

    ``last`` is a label before them all ('' for none).
    """
    for mark in marks:
        label = mark["label"]
        if not last or (label.isdigit() == last.isdigit() and _next(last, label)):
            last = label
            yield mark


def _next(before: str, label: str) -> bool:
    if label.isdigit():
        return 0 <= int(label) - int(before) <= 2
    return 0 <= ord(label) - ord(before) <= 2
