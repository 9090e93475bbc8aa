"""Word boxes: lines, divs, tables and brackets that list the words to be used."""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.manuscript.model import DivKind, Passage, Role, Unit
from lint_rules.page.exercises.instructions import is_about_words
from lint_rules.page.exercises.model import Place, WordBox
from lint_rules.page.exercises.separators import ARROWS, DOTS, QUOTES, SHAPES
from lint_rules.page.exercises.stream import Line

_LEAD = lazy_re.compile(
    r"\s*(?:(?:the\s+)?(?:word|words|phrase|phrases|verb|verbs|key)?\s*(?:box|bank|list|cloud)|words?(?:\s+to\s+use)?"
    r"|use(?:\s+these(?:\s+words)?)?|(?:choose|use\s+words)\s+from(?:\s+(?:these|the)(?:\s+words)?)?|options?)\s*:\s*"
    r"|\s*(?:here\s+are\s+the|the)\s+(?:words|verbs|phrases)(?:\s+(?:in|of)\s+(?:the|your)\s+(?:word\s+)?(?:box|bank|list))?"
    r"(?:\s+are\b\s*:?|\s*:)\s*",
    re.I,
)
_NAME = lazy_re.compile(
    r"\s*(?:(?:the\s+)?(?:word|verb|phrase)s?\s*(?:box|bank|list|cloud)|(?:key\s+)?(?:words|verbs|phrases)(?:\s+to\s+use)?)\s*:?\s*",
    re.I,
)
_BOX_CLASSES = lazy_re.compile(r"(?:word-?)?(?:box|bank|cloud|frame|list)s?|words", re.I)
_SEPARATORS = tuple(
    lazy_re.compile(pattern)
    for pattern in (
        r"\s*[\])}]\s*[,;]?\s*[\[({]\s*",
        rf"\s*[|\u00a6\u2016{DOTS}{SHAPES}{QUOTES}{ARROWS}]+\s*",
        r"\s*/\s*",
        r"\s+\+\s+",
        r"\s*;\s*",
        r"\s*,\s*(?:(?:and|or)\s+)?",
        r"\s+[–—-]\s+",
        r"(?:[ \t]|\u00a0){2,}|\u00a0+",
    )
)
_IN_BRACKETS = lazy_re.compile(r"[(\[]([^()\[\]]+)[)\]]")
_BRACES = lazy_re.compile(r"\{([^{}.#=]+)\}")
_AFTER_COLON = lazy_re.compile(r":\s*([^:.!?]+)[.!?]?\s*$")
_TITLE = lazy_re.compile(r"(?!(?:use|choose|write|words?|circle|tick|say|with)\b)[^\W\d_][\w’'-]*(?:\s[\w’'-]+)?", re.I)
_INSTEAD = lazy_re.compile(r"\s*(?:,|/|\bor\b|\band\b|,\s*or\b)\s*", re.I)
_TICK = lazy_re.compile(r"[☐□▢◯○◻⬜❏❑✓✗✔✘●]")
_NAMED = lazy_re.compile(r"[^\W\d_][\w’'-]*(?:\s[\w’'-]+){0,3}:\s+")  # `Letters: B, C, D`
_OR = lazy_re.compile(r"([\w’'-]+)\s+or\s+([\w’'-]+)")
_AND_OR = lazy_re.compile(r"([\w’'-]+)\s+(?:and|or)\s+([\w’'-]+)")
_MOST_WORDS = 4
_SEVERAL = 3
_MARKS = ' \t\u00a0.,;:()[]{}"“”'


def entries_of(place: Place) -> tuple[Place, ...]:
    """The entries that a range lists with one sort of separator; none where it is no list of short entries."""
    text = place.passage.text
    for between in _SEPARATORS:
        pieces: list[Place] = []
        at = place.start
        for match in (*between.finditer(text, place.start, place.end), None):
            end = match.start() if match else place.end
            piece = text[at:end]
            left = at + len(piece) - len(piece.lstrip(_MARKS))
            right = at + len(piece.rstrip(_MARKS))
            if left < right:
                pieces.append(Place(place.passage, left, right))
            at = match.end() if match else place.end
        if len(pieces) > 1:
            pieces[-1:] = _last_two(pieces[-1])
            short = all(len(piece.text.split()) <= _MOST_WORDS and "_" not in piece.text for piece in pieces)
            return tuple(pieces) if short else ()
    return ()


def _in_bold(place: Place) -> tuple[Place, ...]:
    """The words of a line that is nothing but words in bold, or in italics: `**cloudy** **warm** **wet**`."""
    for ranges in (place.passage.strong, place.passage.emphasis):
        inside = [Place(place.passage, *one) for one in ranges if place.start <= one[0] and one[1] <= place.end]
        said = sum(one.end - one.start for one in inside)
        words = all(len(one.text) > 1 and one.text.replace("-", "").isalpha() for one in inside)
        if len(inside) >= _SEVERAL and words and said == len("".join(place.text.split())):
            return tuple(inside)
    return ()


def _last_two(last: Place, between: "re.Pattern[str]" = _OR) -> list[Place]:
    """The last entry of a list; two where they have `or` between: `blue, red, white or yellow`."""
    match = between.fullmatch(last.text)
    if match is None:
        return [last]
    return [Place(last.passage, last.start + start, last.start + end) for start, end in (match.span(1), match.span(2))]


def names_box(text: str) -> bool:
    """Whether a heading or a line of its own only says that a box of words follows: `Word box`, `Words:`."""
    return _NAME.fullmatch(text) is not None


def box_of_lines(lines: Sequence[Line], unit: Unit, *, led: bool = False) -> WordBox | None:
    """A word box on lines of one paragraph or div: after `Word box:`, in a `box` or `words` div, or a row of words;
    ``led``: what stands before them says that they are one."""
    in_div = False
    words: list[Place] = []
    if len(lines) > 1 and names_box(lines[0].text):
        led, lines = True, lines[1:]
    for line in lines:
        place = Place(line.passage, line.start, line.end)
        lead = _LEAD.match(line.passage.text, line.start, line.end)
        if lead is not None:
            led = True
            place = Place(line.passage, lead.end(), line.end)
        in_div = in_div or _in_box(line.passage, unit)
        if in_div and is_about_words(place.text):
            continue
        entries = entries_of(place) or _in_bold(place)
        named = _NAMED.match(place.text) if not led and len(entries) >= _SEVERAL else None
        if named is not None:
            entries = entries_of(Place(line.passage, place.start + named.end(), place.end))
        if not entries and (in_div or led) and len(place.text.split()) <= _MOST_WORDS and place.text.strip(_MARKS):
            entries = (place,)
        if not entries and place.text.strip():
            return None
        words += [*entries[:-1], *(_last_two(entries[-1], _AND_OR) if led and lead and entries else entries[-1:])]
    whole = " ".join(line.text for line in lines)
    if _TICK.search(whole) or "=" in whole:
        return None
    if not led and not in_div and lines[0].passage.item is not None:
        return None  # a list of sets is no box
    if not led and not in_div and whole.rstrip().endswith((".", "?", "!", ":")):
        return None
    if not led and not in_div and "…" in whole:
        return None  # heads of columns: `Can you …?   Friend 1   Friend 2`
    if not led and re.search(f"[{ARROWS}]", whole) and all(len(word.text) == 1 for word in words):
        return None  # p → d → w: how a word changes
    return WordBox(tuple(words)) if len(words) > (1 if led or in_div else 2) else None


def _in_box(passage: Passage, unit: Unit) -> bool:
    index = passage.div
    while index is not None:
        div = unit.divs[index]
        if div.kind is DivKind.WORDS and passage.role is Role.TEXT:
            return False  # what a word means, under it in a definition list
        if div.kind is DivKind.WORDS or any(_BOX_CLASSES.fullmatch(name) for name in div.attributes.classes):
            return True
        index = div.parent
    return False


def in_words_div(passage: Passage, unit: Unit) -> bool:
    """Whether a passage stands in a box of words of its own."""
    return passage.role is Role.PANEL or _in_box(passage, unit)


def box_of_table(cells: Sequence[Passage], said: str) -> WordBox | None:
    """A table that holds nothing but short words, one a cell, in up to three rows, without labels or blanks. ``said``
    is what the key says: a first row that is set as heads is words too where the key uses them."""
    rows = {cell.cell.row for cell in cells if cell.cell is not None}
    if len(cells) == 1:  # a frame around one line of words
        entries = entries_of(Place(cells[0], 0, len(cells[0].text)))
        return WordBox(entries) if len(entries) >= _SEVERAL and not _TICK.search(cells[0].text) else None
    if len(cells) == 2 and len(rows) == 1 and (names_box(cells[0].text) or cells[0].text.casefold() == "box"):
        entries = entries_of(Place(cells[1], 0, len(cells[1].text)))  # | Box | bridge, deep, wool |
        return WordBox(entries) if len(entries) >= _SEVERAL else None
    if len(cells) < 2 or len(rows) > 3 or (len({cell.role for cell in cells}) > 1 and not _all_used(cells, said)):
        return None  # columns with heads are a chart
    if len(rows) == 1 and cells[0].role is Role.HEAD and any(_TICK.search(cell.text) for cell in cells):
        return None
    short = all(0 < len(cell.text.split()) <= _MOST_WORDS and "_" not in cell.text for cell in cells)
    if not short or any(cell.text[0].isdigit() for cell in cells) or all(len(cell.text) == 1 for cell in cells):
        return None
    return WordBox(tuple(Place(cell, 0, len(cell.text)) for cell in cells))


def _all_used(cells: Sequence[Passage], said: str) -> bool:
    """Whether most words of the heads, and most of the others, are words of the key."""
    columns = {cell.cell.column for cell in cells if cell.cell is not None}
    rows = {cell.cell.row for cell in cells if cell.cell is not None}
    if len(cells) < len(columns) * len(rows):
        return False  # a chart to fill in
    words = set(re.findall(r"\w+", said.casefold()))
    shares = []
    for heads in (True, False):
        used = [cell.text.casefold().strip() in words for cell in cells if (cell.role is Role.HEAD) is heads]
        shares.append((sum(used), len(used)))
    every = sum(count for _, count in shares)
    return all(one * 2 >= count for one, count in shares) and sum(one for one, _ in shares) * 3 >= every * 2


def boxes_in_instruction(passage: Passage) -> Iterator[WordBox]:
    """Words that the instruction gives: `(can, has, is)`, `with the words: …`, `*is* or *are*`, `{Who} {When}`."""
    text = passage.text
    braces = [Place(passage, *match.span(1)) for match in _BRACES.finditer(text)]
    if len(braces) > 1:
        yield WordBox(tuple(braces))
        return
    for pattern in (_IN_BRACKETS, _AFTER_COLON):
        for match in pattern.finditer(text):
            entries = entries_of(Place(passage, *match.span(1)))
            if pattern is _AFTER_COLON and _TITLE.fullmatch(text, 0, match.start()) and text[match.start(1)].isupper():
                continue  # `Test: Listen, read and write.`
            if len(entries) > 1 and all(_is_word(entry.text) for entry in entries):
                yield WordBox(entries)
                return
    set_off = sorted({*passage.emphasis, *passage.strong})
    group = [set_off[0]] if set_off else []
    for one in set_off[1:]:
        if _INSTEAD.fullmatch(text, group[-1][1], one[0]):
            group.append(one)
    if len(group) > 1:
        yield WordBox(tuple(Place(passage, *one) for one in group), instead=True)


def _is_word(text: str) -> bool:
    return text[0].isalpha() and len(text) > 1 and "=" not in text and "(" not in text
