"""From labels to drafts of items: which stretch of the page belongs to which label, and what stands apart as a column.

A draft's region runs from its label to the next one; the last one's to the end of its paragraph or row, with what is
nested in it, and as many more lines as the items before it have.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from lint_rules.page.exercises.cloze import cloze_chains, lost_number, numbers_behind
from lint_rules.page.exercises.marks import LINE, WEAK, Kind, Mark, chains, end_lines, label_of
from lint_rules.page.exercises.model import Label, Option, Place
from lint_rules.page.exercises.stream import Line

_EDGE = " \t\n\u00a0,;/|·•–—☐□▢◯○◻⬜❏❑"
_LETTER = re.compile(r"[^\W\d_]")
_OFFERED = 4  # words of the longest option in a cell of its own
_LEAD = re.compile(r"(?<!\S)([A-Z][^\W\d_]+) +$")


@dataclass(slots=True)
class Draft:
    """An item in the making: its label, the places it takes up, its lettered options."""

    label: Label
    mark: Mark | None
    places: list[Place] = field(default_factory=list)
    options: list[Option] = field(default_factory=list)
    more: list[Label] = field(default_factory=list)  # the same label again, where its blanks or options stand

    @property
    def bare(self) -> bool:
        """Whether it has no words of its own, but blanks or options."""
        return not any(_LETTER.search(place.text) for place in self.places)


@dataclass(slots=True)
class DraftExercise:
    """Drafts that count on from each other, and what they count with; ``cloze``: they stand in a running text;
    ``behind``: their labels end the lines that they stand on, as letters of pictures do (`sp__n (A)`)."""

    drafts: list[Draft]
    kind: Kind
    column: list[Option] = field(default_factory=list)
    cloze: bool = False
    behind: bool = False


def draft_exercises(lines: Sequence[Line], marks: Sequence[Mark]) -> list[DraftExercise]:
    """The exercises of a page as drafts, in file order."""
    grids = _grids(lines)
    marks = [mark for mark in marks if _table(lines[mark.line]) not in grids]
    behind = numbers_behind(lines, marks)
    cloze = behind or cloze_chains(lines, marks)
    used = {mark for chain in cloze for mark in chain}
    rest = [mark for mark in marks if mark not in used]
    inside = {id(lines[mark.line].passage) for mark in used}
    numbers = [chain for chain in chains(rest, Kind.NUMBER) if not _holds(chain, inside, lines)]
    found: list[DraftExercise] = [_cloze_exercise(chain, lines, behind=bool(behind)) for chain in cloze]
    if not numbers and not cloze:
        weak = chains(rest, Kind.NUMBER, WEAK)
        numbers = [chain for chain in weak if len(chain) > 2 and chain[0].strength == LINE]  # 1 red 2 blue 3 green
    if numbers or cloze:
        nested = _lettered(rest)[0] if cloze and not numbers else []
        parents = _parents(nested, lines)
        if parents:  # the options of a text's blanks, below it
            found.append(DraftExercise(parents, Kind.NUMBER))
            rest = [mark for mark in rest if all(mark not in chain for chain in nested)]
        _number_exercises(numbers, rest, lines, found)
    else:
        several, kind = _lettered(rest)
        parents = _parents(several, lines)
        if parents:
            return [DraftExercise(parents, Kind.NUMBER)]
        for chain in several:
            ends = end_lines(chain, lines)
            drafts = _before(chain, lines) if ends else _drafts(chain, rest, lines, options=False)
            found.append(DraftExercise(drafts, kind, behind=ends))
    return _merged(found)


def _before(chain: Sequence[Mark], lines: Sequence[Line]) -> list[Draft]:
    """Drafts of which each stands before its label."""
    rows = [lines[mark.line] for mark in chain]
    return [
        Draft(label_of(mark, lines), mark, [Place(row.passage, row.start, mark.first)])
        for mark, row in zip(chain, rows, strict=True)
    ]


def _holds(chain: Sequence[Mark], cloze: set[int], lines: Sequence[Line]) -> bool:
    """Whether numbered items are only the sentences of a cloze, whose own numbers the key goes by."""
    return all(mark.own for mark in chain) and any(id(lines[mark.line].passage) in cloze for mark in chain)


def _parents(several: Sequence[list[Mark]], lines: Sequence[Line]) -> list[Draft]:
    """Items that are nothing but lettered options (`1. a) ship b) sheep`): numbered by the list that they stand in."""
    found: list[Draft] = []
    for chain in several:
        items = [lines[mark.line].passage.item for mark in chain if mark.own]
        parent = items[0].parent if items and items[0] is not None else None
        if parent is None or len(items) < len(chain) or any(item is None or item.parent != parent for item in items):
            return []
        first = label_of(chain[0], lines)
        found.append(Draft(Label(str(parent[1] + 1), first.span), None, [], _options(chain, [chain], lines)))
    numbers = [int(draft.label.text) for draft in found]
    return found if numbers == list(range(1, len(numbers) + 1)) else []


def _grids(lines: Sequence[Line]) -> frozenset[int]:
    """Tables of single letters and figures (word squares, codes): nothing in them is a label."""
    texts: dict[int, list[str]] = {}
    for line in lines:
        if line.passage.cell is not None:
            texts.setdefault(line.passage.cell.table, []).append(line.text)
    return frozenset(
        table
        for table, several in texts.items()
        if len(several) > 3 and sum(len(text) <= 2 and text.isalnum() for text in several) * 5 >= 4 * len(several)
    )


def _table(line: Line) -> int:
    return line.passage.cell.table if line.passage.cell is not None else -1


def _lettered(rest: Sequence[Mark]) -> tuple[list[list[Mark]], Kind]:
    """The longest chains of letters, or of Roman numbers."""
    kinds = ((chains(rest, kind), kind) for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN))
    several, kind = sorted(kinds, key=_links)[-1]
    return [chain for chain in several if len(chain) > 1], kind


def _links(pair: tuple[list[list[Mark]], Kind]) -> tuple[int, bool]:
    return sum(len(chain) for chain in pair[0] if len(chain) > 1), pair[1] is Kind.ROMAN


def _number_exercises(
    numbers: Sequence[list[Mark]], rest: Sequence[Mark], lines: Sequence[Line], found: list[DraftExercise]
) -> None:
    for chain in numbers:
        found.append(DraftExercise(_drafts(chain, rest, lines, options=True), Kind.NUMBER))
    _headed_options(found, lines)
    taken = {option.label.span for one in found for draft in one.drafts for option in draft.options if option.label}
    if all(draft.options for one in found if not one.cloze for draft in one.drafts) and numbers:
        return
    links = {mark for chain in numbers for mark in chain}
    free = [m for m in rest if m not in links and not (m.label.isdigit() or label_of(m, lines).span in taken)]
    columns = [
        (chain, kind) for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN) for chain in chains(free, kind) if len(chain) > 1
    ]
    columns = [(chain, kind) for chain, kind in columns if not _speaks(chain, columns, lines)]
    columns = [(chain, kind) for chain, kind in columns if not _heads_parts(chain, numbers, lines)]
    if not columns or not found:
        return
    chain, _ = max(columns, key=lambda pair: len(pair[0]))
    owner = _owner(found, chain)
    owner.column = _options(chain, [*numbers, chain], lines, across=True)
    inside = [option.place for option in owner.column]
    marked = [option.label.mark for option in owner.column if option.label and option.label.mark]
    for one in found:
        if not one.cloze:
            for draft in one.drafts:
                draft.places = [part for place in draft.places for part in without(place, [*inside, *marked])]


def _speaks(chain: Sequence[Mark], columns: Sequence[tuple[list[Mark], Kind]], lines: Sequence[Line]) -> bool:
    """Whether letters are people who take turns: `A: … B: … A: …`."""
    colons = all(lines[mark.line].passage.text[mark.end : mark.end + 1] == ":" for mark in chain)
    letters = [mark.label for other, _ in columns for mark in other]
    return colons and any(letters.count(mark.label) > 1 for mark in chain)


def _heads_parts(chain: Sequence[Mark], numbers: Sequence[Sequence[Mark]], lines: Sequence[Line]) -> bool:
    """Whether letters only head the parts of a page: behind each but the last numbers begin (behind any, where the
    letters stand alone: A, B).
    """
    alone = all(lines[mark.line].text.strip(" .:)") == mark.label and not mark.own for mark in chain)
    begun = [any(one.order < links[0].order < other.order for links in numbers) for one, other in pairwise(chain)]
    return all(begun) or (alone and any(begun))


def _headed_options(found: Sequence[DraftExercise], lines: Sequence[Line]) -> None:
    """Options in a table whose columns are headed by letters: `| | A | B | C |`."""
    heads = {
        (cell.table, cell.column): line.passage
        for line in lines
        if (cell := line.passage.cell) is not None and cell.row == 0 and len(line.text) == 1 and line.text.isalpha()
    }
    for draft in (draft for one in found for draft in one.drafts if heads and not draft.options):
        headed = [
            (place, heads[cell.table, cell.column])
            for place in draft.places
            if (cell := place.passage.cell) is not None and (cell.table, cell.column) in heads
        ]
        texts = {place.text.casefold() for place, _ in headed if _LETTER.search(place.text)}
        if len(headed) > 1 and len(texts) > 1:
            draft.options = [Option(place, Label(head.text, head.span())) for place, head in headed]
            draft.places = [place for place in draft.places if all(place is not one for one, _ in headed)]


def _owner(found: Sequence[DraftExercise], chain: Sequence[Mark]) -> DraftExercise:
    """The exercise that a column belongs to: the one that it stands behind, else the first."""
    before = [one for one in found if one.drafts[0].mark is not None and one.drafts[0].mark.order < chain[0].order]
    return before[-1] if before else found[0]


def _cloze_exercise(chain: Sequence[Mark], lines: Sequence[Line], *, behind: bool = False) -> DraftExercise:
    drafts: list[Draft] = []
    chain = chain if behind else _with_leads(chain, lines)
    for at, mark in enumerate(chain):
        line = lines[mark.line]
        if behind:
            before = chain[at - 1] if at else None
            same = before is not None and lines[before.line].passage is line.passage
            start = before.last if before is not None and same else 0
            drafts.append(Draft(label_of(mark, lines), mark, [Place(line.passage, start, mark.first)]))
            continue
        following = chain[at + 1] if at + 1 < len(chain) else None
        end = len(line.passage.text)
        if following is not None and lines[following.line].passage is line.passage:
            end = following.first
        drafts.append(Draft(label_of(mark, lines), mark, [Place(line.passage, mark.last, end)]))
        lost = lost_number(mark, following, lines)
        if lost is not None:
            drafts.append(Draft(lost, None))
    return DraftExercise(drafts, Kind.NUMBER, cloze=True)


def _with_leads(chain: Sequence[Mark], lines: Sequence[Line]) -> Sequence[Mark]:
    """Marks with the word that leads each of them, where it is the same: `Frame 1 ____ Frame 2 ____`."""
    leads = [_LEAD.search(lines[mark.line].text[: max(0, mark.first - lines[mark.line].start)]) for mark in chain]
    if len(chain) < 2 or len({lead[1] if lead is not None else "" for lead in leads}) > 1:
        return chain
    return [
        replace(mark, first=lines[mark.line].start + lead.start()) if lead is not None else mark
        for mark, lead in zip(chain, leads, strict=True)
    ]


def _drafts(chain: Sequence[Mark], rest: Sequence[Mark], lines: Sequence[Line], *, options: bool) -> list[Draft]:
    found: list[Draft] = []
    chain = _with_leads(chain, lines)
    longest = 0
    for at, mark in enumerate(chain):
        last = at + 1 == len(chain)
        places = _region(mark, None if last else chain[at + 1], lines, longest)
        longest = max(longest, len({id(lines[mark.line].passage), *(id(place.passage) for place in places)}))
        draft = Draft(label_of(mark, lines), mark, places)
        if options:
            _take_options(draft, rest, lines, chain)
        found.append(draft)
    return found


def _region(mark: Mark, following: Mark | None, lines: Sequence[Line], longest: int) -> list[Place]:
    line = lines[mark.line]
    places = [Place(line.passage, mark.last if not mark.own else line.start, line.end)]
    if following is not None:
        for other in lines[mark.line + 1 : following.line + 1]:
            places.append(Place(other.passage, other.start, other.end))
        if following.own:
            places.pop()
        else:
            places[-1] = Place(places[-1].passage, places[-1].start, max(places[-1].start, following.first))
        return [place for place in places if place.text.strip()]
    seen = {id(line.passage)}
    for other in lines[mark.line + 1 :]:
        new = id(other.passage) not in seen
        if new and not _goes_with(line, other) and len(seen) >= longest:
            break
        in_table = other.passage.cell is not None and not _same_row(line, other)
        if new and in_table and (line.passage.cell is not None or len(seen) >= longest):
            break
        seen.add(id(other.passage))
        places.append(Place(other.passage, other.start, other.end))
    return [place for place in places if place.text.strip()]


def _goes_with(line: Line, other: Line) -> bool:
    """Whether a later passage belongs to the item that a line begins: nested in it, or in its row."""
    item, inner = line.passage.item, other.passage.item
    if item is not None and inner is not None:
        return inner == item or inner.parent == (item.list, item.index)
    return _same_row(line, other)


def _same_row(line: Line, other: Line) -> bool:
    a, b = line.passage.cell, other.passage.cell
    return a is not None and b is not None and (a.table, a.row) == (b.table, b.row)


def _take_options(draft: Draft, rest: Sequence[Mark], lines: Sequence[Line], numbers: Sequence[Mark]) -> None:
    """Lettered options within an item's own places: `a) yellow  b) pink`."""
    inside = [m for m in rest if not m.label.isdigit() and m is not draft.mark and _stands_in(m, draft.places, lines)]
    for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN):
        for chain in chains(inside, kind, WEAK):
            passages = {id(lines[mark.line].passage) for mark in chain}
            if len(passages) > 1 and any(mark.strength == WEAK and not mark.dressed for mark in chain):
                continue  # `It's got a tail.` beside `b a rabbit`: the one is an article
            options = _options(chain, [chain, numbers], lines)
            if len(options) > 1 and all(option.text for option in options):
                draft.options = options
                cut = [option.place for option in options]
                cut += [option.label.mark for option in options if option.label and option.label.mark]
                draft.places = [part for place in draft.places for part in without(place, cut)]
                return


def _stands_in(mark: Mark, places: Sequence[Place], lines: Sequence[Line]) -> bool:
    passage = lines[mark.line].passage
    return any(place.passage is passage and place.start <= mark.start <= place.end for place in places)


def _options(
    chain: Sequence[Mark], cuts: Sequence[Sequence[Mark]], lines: Sequence[Line], *, across: bool = False
) -> list[Option]:
    """The options of a chain: each runs to the next label in its passage, or in a table stands in the next cell."""
    stops = sorted({mark.order: mark for cut in cuts for mark in cut}.values(), key=lambda mark: mark.order)
    found = []
    for mark in chain:
        line = lines[mark.line]
        start = line.start if mark.own else mark.last
        later = [stop.first for stop in stops if stop.line == mark.line and not stop.own and stop.start > mark.start]
        place = trimmed(Place(line.passage, start, max(start, min([*later, line.end]))))
        next_is_label = any(other.line == mark.line + 1 for other in chain)
        in_row = mark.line + 1 < len(lines) and _same_row(line, lines[mark.line + 1])
        if across and not place.text and in_row and not next_is_label:
            other = lines[mark.line + 1]
            place = Place(other.passage, other.start, other.end)
        found.append(Option(place, label_of(mark, lines)))
    return found


def trimmed(place: Place) -> Place:
    """A place without what only divides it from its neighbours."""
    text = place.text
    start = place.start + len(text) - len(text.lstrip(_EDGE))
    return Place(place.passage, start, max(start, place.end - (len(text) - len(text.rstrip(_EDGE)))))


def without(place: Place, cut: Sequence[Place]) -> Iterator[Place]:
    """What is left of a place without some others."""
    inside = sorted((one.start, one.end) for one in cut if one.passage is place.passage)
    at = place.start
    for start, end in inside:
        if end <= at or start >= place.end:
            continue
        if place.passage.text[at:start].strip(_EDGE):
            yield Place(place.passage, at, start)
        at = end
    if place.passage.text[at : place.end].strip(_EDGE):
        yield Place(place.passage, at, place.end)


def _offers(one: DraftExercise) -> bool:
    """Whether a table's rows only offer words for the numbers of a text: `| (1) | go | goes | going |`."""
    places = [draft.places for draft in one.drafts]
    if one.cloze or any(draft.options for draft in one.drafts) or len({len(several) for several in places}) != 1:
        return False
    short = all(
        place.passage.cell is not None and "_" not in place.text and 0 < len(place.text.split()) <= _OFFERED
        for several in places
        for place in several
    )
    return short and len(places[0]) > 1


def _merged(found: list[DraftExercise]) -> list[DraftExercise]:
    """Two rows of the same labels are one exercise where one of them has nothing but blanks or options."""
    kept: list[DraftExercise] = []
    for one in found:
        labels = [draft.label.key for draft in one.drafts]
        offers = _offers(one)
        other = next(
            (
                other
                for other in kept
                if [draft.label.key for draft in other.drafts] == labels
                and (offers or all(d.bare for d in one.drafts) or all(d.bare for d in other.drafts))
            ),
            None,
        )
        if other is None:
            kept.append(one)
            continue
        for draft, more in zip(other.drafts, one.drafts, strict=True):
            if offers:
                draft.options = draft.options or [Option(trimmed(place)) for place in more.places]
                draft.more += [more.label, *more.more]
                continue
            draft.places += more.places
            draft.options = draft.options or more.options
            draft.more += [more.label, *more.more]
        other.column = other.column or one.column
    return sorted(kept, key=lambda one: one.drafts[0].mark.order if one.drafts[0].mark else (0, 0))
