"""From labels to drafts of items: which stretch of the page belongs to which label, and what stands apart as a column.

A draft's region runs from its label to the next one; the last one's to the end of its paragraph or row, with what is
nested in it, and as many more lines as the items before it have.
"""

from collections.abc import Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.page.exercises.cloze import cloze_chains, lost_number, numbers_behind
from lint_rules.page.exercises.drafts import Draft, DraftExercise, trimmed, without
from lint_rules.page.exercises.lettered import (
    heads_parts,
    in_one_line,
    lettered,
    options_of,
    owner_of,
    parents,
    speaks,
    take_options,
    without_speakers,
)
from lint_rules.page.exercises.marks import LINE, WEAK, Kind, Mark, chains, end_lines, label_of
from lint_rules.page.exercises.model import Option, Place
from lint_rules.page.exercises.parts import part_heads
from lint_rules.page.exercises.stream import Line
from lint_rules.page.exercises.tables import headed_options, rows_around, same_row, without_articles, without_figures

_OFFERED = 4  # words of the longest option in a cell of its own
_LEAD = lazy_re.compile(r"(?<!\S)([A-Z][^\W\d_]+) +$")


def draft_exercises(lines: Sequence[Line], marks: Sequence[Mark]) -> list[DraftExercise]:
    """The exercises of a page as drafts, in file order."""
    marks = without_articles(without_figures(marks, lines), lines)
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
        nested = lettered(rest)[0] if cloze and not numbers else []
        owners = parents(nested, lines)
        if owners:  # the options of a text's blanks, below it
            found.append(DraftExercise(owners, Kind.NUMBER))
            rest = [mark for mark in rest if all(mark not in chain for chain in nested)]
        _number_exercises(numbers, rest, lines, found)
    else:
        several, kind = lettered(rest)
        owners = parents(several, lines)
        if owners:
            return [DraftExercise(owners, Kind.NUMBER)]
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


def _number_exercises(
    numbers: Sequence[list[Mark]], rest: Sequence[Mark], lines: Sequence[Line], found: list[DraftExercise]
) -> None:
    rest = without_speakers(rest, lines)
    for chain in numbers:
        found.append(DraftExercise(_drafts(chain, rest, lines, options=True), Kind.NUMBER))
    headed_options(found, lines)
    taken = {option.label.span for one in found for draft in one.drafts for option in draft.options if option.label}
    if all(draft.options for one in found if not one.cloze for draft in one.drafts) and numbers:
        return
    links = {mark for chain in numbers for mark in chain}
    free = [m for m in rest if m not in links and not (m.label.isdigit() or label_of(m, lines).span in taken)]
    columns = [
        (chain, kind) for kind in (Kind.LOWER, Kind.UPPER, Kind.ROMAN) for chain in chains(free, kind) if len(chain) > 1
    ]
    columns = columns or [(chain, Kind.LOWER) for chain in in_one_line(free, lines)]
    columns = [(chain, kind) for chain, kind in columns if not speaks(chain, columns, lines)]
    columns = [(chain, kind) for chain, kind in columns if not heads_parts(chain, numbers, lines)]
    if not columns or not found:
        return
    chain, _ = max(columns, key=lambda pair: len(pair[0]))
    owner = owner_of(found, chain)
    owner.column = options_of(chain, [*numbers, chain], lines, across=True)
    inside = [option.place for option in owner.column]
    marked = [option.label.mark for option in owner.column if option.label and option.label.mark]
    for one in found:
        if not one.cloze:
            for draft in one.drafts:
                draft.places = [part for place in draft.places for part in without(place, [*inside, *marked])]


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
    heads = part_heads(lines, chain[0])
    longest = 0
    rows = rows_around(chain, lines)
    for at, mark in enumerate(chain):
        last = at + 1 == len(chain)
        places = rows[at] if rows else _region(mark, None if last else chain[at + 1], lines, longest, heads)
        longest = max(longest, len({id(lines[mark.line].passage), *(id(place.passage) for place in places)}))
        draft = Draft(label_of(mark, lines), mark, places)
        if options:
            take_options(draft, rest, lines, chain)
        found.append(draft)
    return found


def _region(
    mark: Mark, following: Mark | None, lines: Sequence[Line], longest: int, heads: Sequence[int]
) -> list[Place]:
    line = lines[mark.line]
    ends = [at for at in heads if at > mark.line and (following is None or at < following.line)]
    lines = lines[: ends[0]] if ends else lines
    places = [Place(line.passage, mark.last if not mark.own else line.start, line.end)]
    if following is not None:
        for other in lines[mark.line + 1 : following.line + 1]:
            places.append(Place(other.passage, other.start, other.end))
        if following.line >= len(lines):
            pass  # a part of its own begins between them
        elif following.own:
            places.pop()
        else:
            places[-1] = _up_to(following, places[-1])
        return [place for place in places if place.text.strip()]
    seen = {id(line.passage)}
    for other in lines[mark.line + 1 :]:
        new = id(other.passage) not in seen
        if new and not _goes_with(line, other) and len(seen) >= longest:
            break
        in_table = other.passage.cell is not None and not same_row(line, other)
        if new and in_table and (line.passage.cell is not None or len(seen) >= longest):
            break
        seen.add(id(other.passage))
        places.append(Place(other.passage, other.start, other.end))
    return [place for place in places if place.text.strip()]


def _up_to(following: Mark, place: Place) -> Place:
    """A place up to a label on its line, without the stroke before that: `1 a spoon / 2 a cup`."""
    end = max(place.start, following.first)
    bare = place.passage.text[place.start : end].rstrip()
    return Place(place.passage, place.start, place.start + len(bare) - 1 if bare.endswith(" /") else end)


def _goes_with(line: Line, other: Line) -> bool:
    """Whether a later passage belongs to the item that a line begins: nested in it, or in its row."""
    item, inner = line.passage.item, other.passage.item
    if item is not None and inner is not None:
        return inner == item or inner.parent == (item.list, item.index)
    return same_row(line, other)


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
