"""Exercises that nothing numbers: bullets, lines of a dialogue, rows of a table, blanks and choices in a running text.

Only the key tells what is an item there. What could be one is counted in several ways (each blank and choice, each
line or row that has some, each entry of a list), and the first way that gives as many as the key has answers holds.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Role
from lint_rules.page.exercises import jumbles
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.drafts import Draft, DraftExercise
from lint_rules.page.exercises.gaps import gaps_in
from lint_rules.page.exercises.items import items_of, made_of
from lint_rules.page.exercises.key import ReadKey
from lint_rules.page.exercises.marks import Kind
from lint_rules.page.exercises.model import Answer, Exercise, Gap, Item, Key, Label, Place, WordBox
from lint_rules.page.exercises.sites import WRITING_LINE, Sites
from lint_rules.page.exercises.stream import Line

_GAP = lazy_re.compile("_{2,}")
_TWO = lazy_re.compile(r"\s+(?:…|\.{3})\s+")
_PICTURE = lazy_re.compile(r"\([^\W\d_]+\s+(\d{1,2})\)$")  # of a picture, a photo, a drawing
_STOP = lazy_re.compile(r"[.!?]\s+")
_LETTER = lazy_re.compile(r"[^\W\d_]")
_WIDE = lazy_re.compile(r"(?:[ \t]|\u00a0){3,}|\u00a0+")
_DASHES = ("–", "—", "→", "=")
_SIGN = lazy_re.compile("[•·▪◦‣*–—-]")
_ROW = 0
_FEWEST_LINES = 2
_NEVER = 9
_FEWEST_CELLS = 3
_REMARK = 3  # words of the shortest sentence that may be a remark


def to_fill(line: Line, said: str) -> bool:
    """Whether a line is a blank, or one word with letters to fill in (`k__chen`)."""
    if WRITING_LINE.fullmatch(line.text):
        return True
    words = [gap.word for gap in gaps_in(Place(line.passage, line.start, line.end), said=said) if gap.word is not None]
    return len(words) == 1 and words[0].text == line.text.strip()


def unlabelled(lines: Sequence[Line], said: str) -> tuple[list[tuple[Line, Gap]], tuple[Place, ...], tuple[Place, ...]]:
    """Blanks without labels, charts, and lines to write on."""
    gaps: list[tuple[Line, Gap]] = []
    charts: list[Place] = []
    writing: list[Place] = []
    for line in lines:
        place = Place(line.passage, line.start, line.end)
        if line.passage.cell is not None and not (to_fill(line, said) and _LETTER.search(line.text)):
            charts.append(place)
        elif WRITING_LINE.fullmatch(line.text):
            writing.append(place)
        else:
            gaps += [(line, gap) for gap in gaps_in(place, said=said)]
    return gaps, tuple(charts), tuple(writing)


def unnumbered(
    lines: Sequence[Line], gaps: Sequence[tuple[Line, Gap]], read: ReadKey, box: WordBox | None, instruction: str
) -> Exercise | None:
    """The exercise that unlabelled lines are, with the key's answers in order; with none where it has blanks, and
    nothing fits."""
    sites = Sites(read)
    for count in (_by_site, _by_line, _by_every_line, _by_sentence, _by_row_of_options, _by_bullet):
        drafts = count(lines, sites, instruction)
        answers = _by_picture(read, drafts) or _answers(read, len(drafts))
        if answers and not any(_is_remark(draft, answer) for draft, answer in zip(drafts, answers, strict=True)):
            answers = [_without_its_words(draft, answer) for draft, answer in zip(drafts, answers, strict=True)]
            one = DraftExercise(drafts, Kind.NUMBER, cloze=count is _by_site)
            items = items_of(one, answers, instruction)
            has_gaps = any(item.gaps for item in items)
            return Exercise(items, Key(tuple(answers), read.own), box=box if has_gaps else None, cloze=one.cloze)
    if not gaps:
        return None
    bare = [Item(Label("", gap.place.span), (Place(line.passage, line.start, line.end),), (gap,)) for line, gap in gaps]
    return Exercise(tuple(bare), Key((), read.own), box=box, cloze=True)


def _without_its_words(draft: Draft, answer: Answer) -> Answer:
    """`bell 2` for `____ bell`: an answer that says the words of its line again is what else it says."""
    shown = " ".join(_GAP.sub(" ", " ".join(place.text for place in draft.places)).split()).strip(".:").casefold()
    said = answer.text.rstrip(".").casefold()
    place = answer.place
    if shown and said.startswith(f"{shown} "):
        return replace(answer, place=Place(place.passage, place.start + len(shown) + 1, place.start + len(said)))
    if shown and said.endswith(f" {shown}"):
        return replace(answer, place=Place(place.passage, place.start, place.start + len(said) - len(shown) - 1))
    return answer


def _answers(read: ReadKey, count: int) -> list[Answer]:
    """The key's answers where there are as many as wanted, without labels, or numbered in the key alone."""
    if count < 1:
        return []
    entries = read.entries_for(count)
    if len(entries) == count and (count > 1 or len(read.entries) == 1):
        return list(entries)
    numbered = [answer for row in read.rows for answer in row]
    for row in (numbered, read.order, _parted(read.entries), _parted(numbered)):
        if len(row) == count > 1:
            return [replace(answer, label=None) for answer in row]
    return []


def _by_picture(read: ReadKey, drafts: Sequence[Draft]) -> list[Answer]:
    """The answers of a key that goes by the pictures which the items name: `c_p (picture 2)`."""
    named = [_PICTURE.search(draft.places[-1].text.rstrip()) for draft in drafts]
    numbers = [match[1] for match in named if match is not None]
    numbered = {answer.label.text: answer for row in read.rows for answer in row if answer.label is not None}
    if len(numbers) < len(drafts) or len(numbers) < 2 or set(numbers) != numbered.keys():
        return []
    return [replace(numbered[number], label=None) for number in numbers]


def _parted(answers: Sequence[Answer]) -> list[Answer]:
    """Answers of which one may be for two blanks: `Did … do`."""
    found: list[Answer] = []
    for answer in answers:
        at = answer.place.start
        for match in (*_TWO.finditer(answer.text), None):
            end = answer.place.start + match.start() if match else answer.place.end
            found.append(replace(answer, place=Place(answer.place.passage, at, end)))
            at = answer.place.start + match.end() if match else end
    return found


def _is_remark(draft: Draft, answer: Answer) -> bool:
    """Whether what should go into the middle of a sentence is a sentence of its own: `Each line has five ticks.`"""
    text = answer.text.strip()
    if len(text.split()) < _REMARK or not text[:1].isupper() or text[-1:] != ".":
        return False
    for place in draft.places:
        for gap in gaps_in(place):
            shown = {word for word in _words(place.passage.text[place.start : place.end]) if len(word) > 2}
            if gap.word is None and shown and not shown & set(_words(text)):
                return True
    return False


def _words(text: str) -> list[str]:
    return [word.casefold() for word in re.findall(r"[^\W\d_]+", text)]


def _draft(places: Sequence[Place]) -> Draft:
    return Draft(Label("", places[0].span), None, list(places))


def _by_site(lines: Sequence[Line], sites: Sites, _: str) -> list[Draft]:
    """Each blank and each choice is an item: it takes up the text between its neighbours; the only one of a table's
    row takes up the row."""
    drafts: list[Draft] = []
    for row, together in groupby(lines, key=_row_or_entry):
        group = [Place(line.passage, line.start, line.end) for line in together]
        several = [(place, sites.of(place)) for place in group]
        if row[0] == _ROW and sum(len(found) for _, found in several) == 1:
            drafts.append(_draft(group))
            continue
        for place, found in several:
            wide = [_WIDE.search(place.passage.text, a.end, b.start) for a, b in pairwise(found)]
            stops = [gap.start() if gap else site.start for gap, site in zip(wide, found[1:], strict=True)]
            edges = [gap.end() if gap else site.end for gap, site in zip(wide, found, strict=False)]
            edges, stops = [place.start, *edges], [*stops, place.end]
            for start, stop in zip(edges, stops, strict=True) if found else ():
                drafts.append(_draft([Place(place.passage, start, stop)]))
    return drafts


def _by_line(lines: Sequence[Line], sites: Sites, instruction: str) -> list[Draft]:
    """Each line, entry or row with something to do is an item."""
    drafts: list[Draft] = []
    for _, together in groupby(lines, key=_row_or_entry):
        group = [Place(line.passage, line.start, line.end) for line in together]
        told = any(sites.of(place) or WRITING_LINE.fullmatch(place.text) for place in group)
        if told or any(_is_jumble(place, sites.read, instruction) for place in group):
            drafts.append(_draft(group))
    return drafts


def _by_every_line(lines: Sequence[Line], sites: Sites, _: str) -> list[Draft]:
    """Each row of a table, or line with the same sign (• before it, a dash within), is an item, where one of them has
    lost its blank."""
    drafts: list[Draft] = []
    without = 0
    signs: set[str] = set()
    for row, together in groupby(lines, key=_row_or_entry):
        group = [Place(line.passage, line.start, line.end) for line in together]
        if not any(sites.of(place) for place in group):
            said = group[-1].text.rstrip()
            ends = (".", "!", "?", ")", *_DASHES)
            without += 1 if drafts and said.endswith(ends) and " " in said else _NEVER
        bullet = group[0].text[:1] if _SIGN.match(group[0].text) else ""
        dash = next((sign for sign in _DASHES if sign in group[0].text), bullet)
        signs.add("table" if row[0] == _ROW else dash)
        drafts.append(_draft(group))
    return drafts if without == 1 and len(drafts) > _FEWEST_LINES and len(signs) == 1 and "" not in signs else []


def _by_sentence(lines: Sequence[Line], sites: Sites, _: str) -> list[Draft]:
    """Each sentence of a paragraph is an item, where one of them has lost its blank: `A hen has legs.`"""
    if len(lines) != 1:
        return []
    passage, start, end = lines[0].passage, lines[0].start, lines[0].end
    stops = [match.end() for match in _STOP.finditer(passage.text, start, end)]
    places = [Place(passage, a, b) for a, b in pairwise([start, *stops, end]) if passage.text[a:b].strip()]
    having = [bool(sites.of(place)) for place in places]
    return [_draft([place]) for place in places] if having[:1] == [True] and having.count(False) == 1 else []


def _by_row_of_options(lines: Sequence[Line], sites: Sites, _: str) -> list[Draft]:
    """Each row of a table that has an answer of the key among its cells: `| new | old | big | red |`, key `old`."""
    rows = [
        [Place(line.passage, line.start, line.end) for line in together]
        for row, together in groupby(lines, key=_row_or_entry)
        if row[0] == _ROW
    ]
    rows = [row for row in rows if len(row) >= _FEWEST_CELLS and row[0].passage.role is not Role.HEAD]
    said = sites.read.entries_for(len(rows))
    if len(said) != len(rows) or len(rows) < _FEWEST_LINES:
        return []
    told = [
        plain(answer.text) in {plain(place.text) for place in row[1:]} for row, answer in zip(rows, said, strict=True)
    ]
    return [_draft(row) for row in rows] if sum(told) * 3 >= len(rows) * 2 else []


def _is_jumble(place: Place, read: ReadKey, instruction: str) -> bool:
    pieces = jumbles.words_in(place)
    if not pieces:
        return False
    return jumbles.asks_for_order(instruction) or any(made_of(pieces, line.text) for line in read.lines)


def _row_or_entry(line: Line) -> tuple[int, int, int]:
    cell, item = line.passage.cell, line.passage.item
    if cell is not None:
        return (_ROW, cell.table, cell.row)
    return (1, item.list, item.index) if item is not None else (2, id(line.passage), line.start)


def _by_bullet(lines: Sequence[Line], _: Sites, __: str) -> list[Draft]:
    """Each entry of the one list that a page has."""
    listed = [line for line in lines if line.passage.item is not None]
    lists = {line.passage.item.list for line in listed if line.passage.item is not None}
    if len(lists) != 1:
        return []
    groups = [
        [Place(line.passage, line.start, line.end) for line in together]
        for _, together in groupby(listed, key=_row_or_entry)
    ]
    return [_draft(group) for group in groups]
