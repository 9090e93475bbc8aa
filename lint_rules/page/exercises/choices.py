"""Options inside a sentence: `is / are`, `(a / an)`, `[was | were]`, `**eat** or **ate**`, `fly · swim`, tick boxes.

How far an option with a stroke reaches is told by what sets it off (brackets, bold, italics, a number before it, the
item's end), else by the key, which says one of them; else it is one word each side.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.model import Choice, Item, Label, Option, Place
from lint_rules.page.exercises.separators import BETWEEN_OPTIONS, OPENERS
from lint_rules.plain_words import TOGETHER

TICKED = lazy_re.compile(r"[☐□▢◯○◻⬜❏❑][ \u00a0]*")
_STROKE = lazy_re.compile(rf"\s*{BETWEEN_OPTIONS}+\s*|\s+or\s+")
_OR_LIST = lazy_re.compile(rf"{_STROKE.pattern}|\s*,\s*(?:or\s+)?")
_BRACKETS = lazy_re.compile(r"[(\[{]([^()\[\]{}\n]*)[)\]}]")
_BRACKET_ROW = lazy_re.compile(r"[(\[{][^()\[\]{}\n]+[)\]}](?:\s*(?:,|/|or\b)?\s*[(\[{][^()\[\]{}\n]+[)\]}])+")
_WORD_BEFORE = lazy_re.compile(f"{TOGETHER.pattern}$")
_MOST_BETWEEN = 4
_ALL = lazy_re.compile(rf"\s*{BETWEEN_OPTIONS}+\s*")
_OPENER = lazy_re.compile(rf"[{OPENERS}]\s*")
_END = lazy_re.compile(r"[.?!,;)]")
_SPACES = lazy_re.compile(r"(?:[ \t]|\u00a0){3,}|\s*\u00a0+\s*")
# What else lists options, where the key takes one of them: commas, semicolons, dashes, wide spaces.
_LISTED = (
    lazy_re.compile(r"\s*,\s*(?:or\s+)?|\s+or\s+"),
    lazy_re.compile(r"\s*;\s*(?:or\s+)?"),
    lazy_re.compile(r"\s+[–—-]\s+"),
    _SPACES,
)
_LETTER = lazy_re.compile(r"([a-hA-H])[.):]?\s+(?=\S)")
_EDGE = " \t\u00a0,;|/"
_STOPS = ".?!"
_GOES_ON = lazy_re.compile(r"(?:…|\.{3,})(?=\W*$)")
_SENTENCE_END = lazy_re.compile(rf"[.?!]\s+(?!{BETWEEN_OPTIONS})(?=\S)")
_MOST_WORDS = 6
_PREPOSITION = lazy_re.compile(r"(?:in front of|next to|close to|far from|out of)\b", re.I)
_PREPOSITION_BEFORE = lazy_re.compile(rf"\b{_PREPOSITION.pattern}$", re.I)


def choices_in(place: Place, answer: str, *, sure: bool = False) -> Iterator[Choice]:
    """The choices that stand inside a range, in order; ``answer`` is what the key says of it ('' for nothing).
    ``sure``: there is one, by its company, whatever the key says."""
    taken: list[Place] = []
    for finder in (_tick_boxes, _in_brackets, _set_off, _or_between, _bold_or, _behind, _rows, _strokes):
        for choice in finder(place, answer, sure):
            inline = choice.inline
            if inline is not None and not any(inline.start < one.end and one.start < inline.end for one in taken):
                taken.append(inline)
                yield choice


def _options(passage_place: Place, pieces: Sequence[tuple[int, int]]) -> tuple[Option, ...]:
    found = []
    text = passage_place.passage.text
    for start, end in pieces:
        part = text[start:end]
        left = start + len(part) - len(part.lstrip(_EDGE))
        right = start + len(part.rstrip(_EDGE))
        if left < right:
            found.append(Option(Place(passage_place.passage, left, right)))
    if len(found) > 1 and found[-1].text[-1:] in _STOPS and found[0].text[-1:] not in _STOPS:
        last = found[-1].place  # the sentence's own full stop
        found[-1] = Option(Place(last.passage, last.start, last.start + len(last.text.rstrip(_STOPS))))
    return _labelled(tuple(option for option in found if option.text))


def _labelled(options: tuple[Option, ...]) -> tuple[Option, ...]:
    """Options without the letters before them: (a the hall / b the yard / c the roof)."""
    labels = [_LETTER.match(option.text) for option in options]
    letters = "".join(label[1].casefold() for label in labels if label is not None)
    if len(options) < 2 or letters != "abcdefgh"[: len(options)]:
        return options
    return tuple(_behind_letter(option.place, label) for option, label in zip(options, labels, strict=True) if label)


def _behind_letter(place: Place, label: re.Match[str]) -> Option:
    mark = Place(place.passage, place.start, place.start + label.end(1))
    return Option(Place(place.passage, place.start + label.end(), place.end), Label(label[1], mark.span, mark))


def _tick_boxes(place: Place, _: str, __: bool) -> Iterator[Choice]:
    """`☐ yes  ☐ no`: each option runs from its box to the next one."""
    text = place.passage.text
    boxes = list(TICKED.finditer(text, place.start, place.end))
    if len(boxes) < 2:
        return
    ends = [*(box.start() for box in boxes[1:]), place.end]
    options = _options(place, [(box.end(), end) for box, end in zip(boxes, ends, strict=True)])
    if len(options) > 1:
        yield Choice(options, Place(place.passage, boxes[0].start(), place.end))


def _in_brackets(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """`(the barn) (the shop)`: each option in brackets of its own."""
    said = {plain(one) for one in alternatives(answer)}
    for row in _BRACKET_ROW.finditer(place.passage.text, place.start, place.end):
        inside = [match.span(1) for match in _BRACKETS.finditer(place.passage.text, row.start(), row.end())]
        options = _options(place, inside)
        if len(options) > 1 and (sure or said & {plain(option.text) for option in options}):
            yield Choice(options, Place(place.passage, *row.span()))


def _set_off(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """Options in brackets, in bold or in italics, with strokes between them."""
    passage = place.passage
    said = {plain(one) for one in alternatives(answer)} if answer else set()
    brackets = list(_BRACKETS.finditer(passage.text, place.start, place.end))
    ranges = [(*match.span(1), *match.span()) for match in brackets]
    bold = {match.span() for match in brackets}  # **[falling / falls]**
    ranges += [one * 2 for one in (*passage.emphasis, *passage.strong) if one not in bold]
    for start, end, outer, last in sorted(ranges):
        if not (place.start <= outer and last <= place.end):
            continue
        pieces = _split(passage.text, start, end, _STROKE)
        if len(pieces) > 1 and all(0 < len(passage.text[a:b].split()) <= _MOST_WORDS for a, b in pieces):
            yield Choice(_options(place, pieces), Place(passage, outer, last))
            continue
        for between in _LISTED:
            pieces = _split(passage.text, start, end, between)
            named = {plain(passage.text[a:b]) for a, b in pieces}
            if len(pieces) > 1 and "_" not in passage.text[start:end] and (sure or said & named):
                yield Choice(_options(place, pieces), Place(passage, outer, last))
                break


def _split(text: str, start: int, end: int, between: "re.Pattern[str]") -> list[tuple[int, int]]:
    pieces = []
    at = start
    for match in between.finditer(text, start, end):
        pieces.append((at, match.start()))
        at = match.end()
    pieces.append((at, end))
    return pieces


def _or_between(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """`**eat** or **ate**`: two bold (or italic) stretches with nothing but `or`, a stroke or a dot between them; a
    comma too, where the key takes one of them."""
    said = {plain(one) for one in alternatives(answer)}
    for ranges in (place.passage.strong, place.passage.emphasis):
        inside = [one for one in ranges if place.start <= one[0] and one[1] <= place.end]
        at = 0
        while at < len(inside):
            last = at
            while last + 1 < len(inside) and _OR_LIST.fullmatch(
                place.passage.text, inside[last][1], inside[last + 1][0]
            ):
                last += 1
            group = inside[at : last + 1]
            listed = any("," in place.passage.text[a[1] : b[0]] for a, b in pairwise(group))
            told = sure or not listed or said & {plain(place.passage.text[slice(*one)]) for one in group}
            if last > at and told:
                yield Choice(_options(place, group), Place(place.passage, group[0][0], group[-1][1]))
            at = last + 1


def _bold_or(place: Place, answer: str, _: bool) -> Iterator[Choice]:
    """`Am I a bee **or** an octopus **or** a spider?`: the words between, and as many before the first."""
    text = place.passage.text
    ors = sorted(
        one
        for one in {*place.passage.strong, *place.passage.emphasis}
        if place.start <= one[0] and one[1] <= place.end and text[slice(*one)].casefold() == "or"
    )
    if not ors:
        return
    last = _END.search(text, ors[-1][1], place.end)
    middle = [(left[1], right[0]) for left, right in pairwise(ors)]
    said = [one for one in alternatives(answer) if plain(one) in plain(place.text)]
    long = len(text[slice(*middle[0])].split()) if middle else len(said[0].split()) if said else 1
    words = list(TOGETHER.finditer(text[place.start : ors[0][0]]))[-long:]
    if not words or any(len(text[slice(*one)].split()) > _MOST_BETWEEN for one in middle):
        return
    pieces = [(place.start + words[0].start(), ors[0][0]), *middle, (ors[-1][1], last.start() if last else place.end)]
    options = _options(place, pieces)
    if len(options) == len(pieces):
        yield Choice(options, Place(place.passage, options[0].place.start, options[-1].place.end))


def _strokes(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """`nice / kind` inside a sentence. Entries that are all the item has are no choice, unless the key takes one."""
    text = place.passage.text
    said = {plain(one) for one in alternatives(answer)} if answer else set()
    for group in _groups(place):
        group, opened = _without_opener(group)
        first = _WORD_BEFORE.search(text[place.start : group[0].start()])
        last = TOGETHER.match(text, group[-1].end(), place.end)
        if first is None or last is None:
            continue
        pieces = _split(text, place.start, place.end, _ALL)
        if not said and _is_row([text[start:end] for start, end in pieces]):
            yield Choice(_options(place, pieces), place)
            return
        edges = [place.start + first.start(), *(at for one in group for at in one.span()), last.end()]
        pieces = _widened(place, _whole(place, list(zip(edges[::2], edges[1::2], strict=True))), answer)
        options = _options(place, pieces)
        whole = not text[place.start : pieces[0][0]].strip(" \t(") and not text[pieces[-1][1] : place.end].strip(
            " .?!)"
        )
        chosen = any(plain(option.text) in said for option in options)
        if chosen or sure or (not answer and not whole and len(options) < 5):
            start = pieces[0][0] if opened is None else opened
            while start < pieces[0][0] and text[start].isspace():
                start += 1
            yield Choice(options, Place(place.passage, start, pieces[-1][1]))


def _is_row(pieces: Sequence[str]) -> bool:
    """Whether pieces are all alike, so that an item is nothing but a row of options: `in the park / in the garden`."""
    words = [piece.split() for piece in pieces]
    short = all(0 < len(one) <= _MOST_BETWEEN for one in words)
    return short and (len(pieces) > 2 or len({one[0].casefold() for one in words}) == 1)


def _groups(place: Place) -> Iterator[list["re.Match[str]"]]:
    """Strokes or dots that follow each other with a few words between."""
    group: list[re.Match[str]] = []
    for match in _ALL.finditer(place.passage.text, place.start, place.end):
        between = place.passage.text[group[-1].end() : match.start()] if group else ""
        if group and not (0 < len(between.split()) <= _MOST_BETWEEN and not any(char in between for char in ".?!_")):
            yield group
            group = []
        group.append(match)
    if group:
        yield group


def _without_opener(group: "list[re.Match[str]]") -> "tuple[list[re.Match[str]], int | None]":
    """A row without the sign that begins it, and where that stands: `◂ cold ▸ hot`."""
    first = group[0]
    if len(group) > 1 and _OPENER.fullmatch(first[0].strip()) and not _OPENER.fullmatch(group[1][0].strip()):
        return group[1:], first.start()
    return group, None


def _whole(place: Place, pieces: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """The first and the last option with all words of a preposition: in front of / behind, next to / in."""
    text = place.passage.text
    (first, end), (start, last) = pieces[0], pieces[-1]
    before, behind = _PREPOSITION_BEFORE.search(text, place.start, end), _PREPOSITION.match(text, start, place.end)
    first = before.start() if before is not None else first
    last = behind.end() if behind is not None else last
    return [(first, end), *pieces[1:-1], (start, last)] if len(pieces) > 1 else pieces


def _widened(place: Place, pieces: list[tuple[int, int]], answer: str) -> list[tuple[int, int]]:
    """The first and the last option with as many words as the key's answer has there: `is playing / plays`."""
    text = place.passage.text
    said = {plain(one) for one in alternatives(answer)}
    if not said or any(plain(text[a:b]) in said for a, b in pieces):
        return pieces
    words = list(TOGETHER.finditer(text[place.start : place.end]))
    for match in reversed(words):
        start = place.start + match.start()
        if start < pieces[0][0] and plain(text[start : pieces[0][1]]) in said:
            return [(start, pieces[0][1]), *pieces[1:]]
    for match in words:
        end = place.start + match.end()
        if end > pieces[-1][1] and plain(text[pieces[-1][0] : end]) in said:
            return [*pieces[:-1], (pieces[-1][0], end)]
    return pieces


def _rows(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """`ship     sheep`: what an item lists with wide spaces, dots, strokes or commas, where the key takes one of it."""
    text = place.passage.text
    said = {plain(one) for one in alternatives(answer)}
    if not (said or sure):
        return
    for between in (_SPACES, _ALL, re.compile(r"\s*,\s*")):
        if between is _ALL and _OPENER.search(text, place.start, place.end):
            continue
        pieces = _split(text, place.start, place.end, between)
        options = _options(place, pieces)
        short = all(len(option.text.split()) <= _MOST_WORDS for option in options)
        if "_" in text[place.start : place.end] or _GOES_ON.search(text, place.start, place.end):
            return  # `red, blue, ____`: a row to go on with
        if short and len(options) > 1 and (sure or _takes_one(options, said)):
            yield Choice(options, Place(place.passage, options[0].place.start, options[-1].place.end))
            return


def _behind(place: Place, answer: str, sure: bool) -> Iterator[Choice]:
    """`I haven't eaten ____.   already   yet   just`, `It makes honey.   a bee   a hen`: what is listed behind a
    sentence, with wide spaces or any other sign between; `Do you like it? Yes, I do. / No, I don't.`"""
    said = {plain(one) for one in alternatives(answer)}
    text = place.passage.text
    spaced = [one[0] for one in _split(text, place.start, place.end, _SPACES)[1:2]]
    ended = [match.end() for match in _SENTENCE_END.finditer(text, place.start, place.end)][-1:]
    marks = _LISTED if _OPENER.search(text, place.start, place.end) else (_ALL, *_LISTED)
    for start, between in (*((at, _SPACES) for at in spaced), *((at, one) for at in ended for one in marks)):
        first = text[place.start : start].rstrip()
        told = "_" in first or first[-1:] in _STOPS
        options = _options(place, _split(text, start, place.end, between)) if told else ()
        short = all(len(option.text.split()) <= _MOST_BETWEEN and "_" not in option.text for option in options)
        if len(options) > 1 and short and (sure or said & {plain(option.text) for option in options}):
            yield Choice(options, Place(place.passage, options[0].place.start, options[-1].place.end))
            return


def _takes_one(options: Sequence[Option], said: set[str]) -> bool:
    """Whether a key takes one of a row; the same one twice where all of them are as long."""
    taken = [option for option in options if plain(option.text) in said]
    alike = len({len(option.text.split()) for option in options}) == 1
    return len(taken) == 1 or (alike and len({plain(option.text) for option in taken}) == 1)


def stands_behind(choice: Choice) -> bool:
    """Whether a choice stands behind a sentence: `The kite is red. yes / no`."""
    inline = choice.inline
    if inline is None:
        return False
    text = inline.passage.text
    return text[: inline.start].rstrip()[-1:] in (".", "!", "?") and not text[inline.end :].strip(" .!?")


def is_all(choice: Choice, item: Item) -> bool:
    """Whether an item is nothing but its options: a set, a row of words to tick."""
    inline = choice.inline
    outside = " ".join(
        place.text
        if inline is None or place.passage is not inline.passage
        else place.passage.text[place.start : max(place.start, inline.start)]
        + place.passage.text[min(place.end, inline.end) : place.end]
        for place in item.prompt
    )
    return not any(char.isalpha() for char in outside) or any(box in item.text for box in ("☐", "□", "◯", "○", "▢"))
