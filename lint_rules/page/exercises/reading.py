"""Read an activity's page as exercises. What cannot be read as one stays prose.

Lines and labels (``stream``, ``marks``) give drafts of items (``labelled``, ``lettered``, ``tables``); the key
(``key``) is read for their labels; blanks, choices and jumbles (``gaps``, ``choices``, ``jumbles``) are then found in
each item (``items``), with its answer at hand; what is left of the page are word boxes (``boxes``), items that nothing
numbers (``unnumbered``), charts and lines to write on.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby, pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE, Activity, Passage, Role, Unit
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.boxes import box_of_lines, box_of_table, boxes_in_instruction, names_box
from lint_rules.page.exercises.bracketed_keys import take_bracketed
from lint_rules.page.exercises.drafts import Draft, DraftExercise
from lint_rules.page.exercises.headed import headed
from lint_rules.page.exercises.items import items_of
from lint_rules.page.exercises.key import ReadKey, read_key
from lint_rules.page.exercises.key_by_shape import key_by_shape
from lint_rules.page.exercises.labelled import draft_exercises
from lint_rules.page.exercises.marks import marks_in
from lint_rules.page.exercises.model import (
    Answer,
    Exercise,
    Exercises,
    Gap,
    Item,
    Key,
    Label,
    Option,
    Place,
    WordBox,
)
from lint_rules.page.exercises.part_keys import drafts_of_parts, parts_of_key
from lint_rules.page.exercises.parts import letters_of_parts
from lint_rules.page.exercises.said_around import without_item, without_reasons
from lint_rules.page.exercises.shared_keys import keys_of
from lint_rules.page.exercises.stream import Line, mended_passages, page_lines
from lint_rules.page.exercises.unnumbered import to_fill, unlabelled, unnumbered

_LETTER_AT_END = lazy_re.compile(r"\(([a-z])\)\W*$", re.I)
_LABEL_AT_END = lazy_re.compile(r"(?<=[^\W\d_])\s*[–=-]?\s+\(?(\d{1,2})\)?\W*$")
_FEWEST_STEPS = 3
_ANOTHER = 2  # labels of a key that no item has


def exercises_in(activity: Activity, unit: Unit) -> Exercises:
    """How the page of an activity reads as exercises."""
    mended = mended_passages(activity, unit)
    lines = page_lines(activity, unit, mended)
    drafts = draft_exercises(lines, marks_in(lines))
    key = keys_of(activity, unit)
    bracketed = take_bracketed(drafts, activity, unit) if not key else {}
    told = " ".join(passage.text for passage in key)
    _gaps_below(drafts, lines, told)
    left = _left_over(lines, drafts)
    kinds = tuple(dict.fromkeys(one.kind for one in drafts))
    if not key and len(drafts) == 1:
        key = key_by_shape(activity, [draft.label.key for draft in drafts[0].drafts], kinds, unit.source)
    read = read_key(key, kinds, unit.source, [[draft.label.text for draft in one.drafts] for one in drafts])
    drafts = [_turned_by_key(one, read) for one in drafts]
    named = None if any(_overlap(one, _labels(row)) for one in drafts for row in read.rows) else headed(left, read)
    if named is not None:
        taken = {item.label.span for item in named.items}
        left = [line for line in left if line.passage.span(line.start, line.end) not in taken]
    whole = _whole_tables(lines, left)
    boxes, left = _boxes(left, unit, whole, told, _under_names_of_boxes(activity, mended))
    boxes += list(boxes_in_instruction(activity.heading.passage))
    loose_gaps, charts, writing = unlabelled(left, told)
    instruction = activity.heading.passage.text
    heads = letters_of_parts(mended.get(id(one), one) for one in activity.part.passages)
    box = boxes[0] if len(boxes) == 1 else None
    by_part = _by_part(drafts, key, heads, unit)
    keys, loose = (by_part, ()) if by_part is not None else _shared_out(drafts, loose_gaps, read)
    keys = [Key(bracketed[at], own=False) if at in bracketed else one for at, one in enumerate(keys)]
    of_part = [_box_of(one, boxes, heads) for one in drafts]
    found = [_exercise(one, key, own, instruction) for one, key, own in zip(drafts, keys, of_part, strict=True)]
    if "picture-sentence" in activity.kinds:
        found = [replace(one, items=tuple(_pictured(item) for item in one.items)) for one in found]
    if named is not None:
        found, loose = [*found, replace(named, box=box)], ()
    elif not any(item.gaps for one in found for item in one.items):
        free = by_part is None and not any(key.answers or key.order for key in keys)
        rest = read if free else replace(read, rows=(), order=(), entries=(), lines=())
        other = unnumbered(left, loose_gaps, rest, box, instruction)
        if other is not None:
            found.append(other)
            loose = () if other.key.answers else loose
    if len(found) == 1:
        found = [_without_another_key(found[0])]
    return Exercises(
        activity, tuple(found), tuple(boxes), charts, writing, loose, read.own, read.passages, heads, mended
    )


def _without_another_key(exercise: Exercise) -> Exercise:
    """An exercise without its answers where its key has several labels that no item has: it is another activity's."""
    labels = {item.label.key for item in exercise.items}
    extra = [one for one in exercise.key.answers if one.label is not None and one.label.key not in labels]
    if len(extra) < _ANOTHER:
        return exercise
    return replace(exercise, items=tuple(replace(item, answer=None) for item in exercise.items))


def _box_of(one: DraftExercise, boxes: Sequence[WordBox], heads: Sequence[Place]) -> WordBox | None:
    """The one word box of an exercise: of its part of the page, where the page has parts."""
    starts = [head.span.start for head in heads]
    part = sum(start <= one.drafts[0].label.span.start for start in starts)
    own = [box for box in boxes if sum(start <= box.words[0].span.start for start in starts) in (part, 0)]
    return own[0] if len(own) == 1 else None


def _by_part(
    drafts: list[DraftExercise], passages: Sequence[Passage], heads: Sequence[Place], unit: Unit
) -> list[Key] | None:
    """The key of each exercise, where the key has a paragraph for each part of the page; None where it has not."""
    parts = parts_of_key(passages) if len(drafts) > 1 else []
    groups = drafts_of_parts(drafts, heads, len(parts)) if parts else []
    if not groups:
        return None
    keys = [Key((), own=False) for _ in drafts]
    for part, group in zip(parts, groups, strict=True):
        own = [drafts[at] for at in group]
        kinds = tuple(dict.fromkeys(one.kind for one in own))
        read = read_key(part, kinds, unit.source, [[draft.label.text for draft in one.drafts] for one in own])
        own = [_turned_by_key(one, read) for one in own]
        for at, one, key in zip(group, own, _shared_out(own, (), read)[0], strict=True):
            drafts[at], keys[at] = one, key
    return keys


def _gaps_below(drafts: Sequence[DraftExercise], lines: Sequence[Line], said: str) -> None:
    """A row of blanks under a row of labelled cells: each belongs to the cell above it."""
    above: dict[tuple[int, int, int], Draft] = {}
    for one in (draft for several in drafts for draft in several.drafts):
        marked = [one.label.mark] if one.label.mark is not None else []
        for over in (place.passage.cell for place in (*marked, *one.places)):
            if over is not None:
                above[over.table, over.row, over.column] = one
    filled = {
        (line.passage.cell.table, line.passage.cell.row)
        for line in lines
        if line.passage.cell is not None and not to_fill(line, said)
    }
    for line in lines:
        cell = line.passage.cell
        if cell is not None and (cell.table, cell.row) not in filled:
            draft = above.get((cell.table, cell.row - 1, cell.column))
            if draft is not None and not any(place.passage is line.passage for place in draft.places):
                draft.places.append(Place(line.passage, line.start, line.end))


def _left_over(lines: Sequence[Line], drafts: Sequence[DraftExercise]) -> list[Line]:
    """The lines that no item, option or column has taken."""
    taken = [place for one in drafts for draft in one.drafts for place in draft.places]
    taken += [option.place for one in drafts for draft in one.drafts for option in draft.options]
    taken += [option.place for one in drafts for option in one.column]
    by_passage: dict[int, list[Place]] = {}
    for place in taken:
        by_passage.setdefault(id(place.passage), []).append(place)
    return [
        line
        for line in lines
        if not any(p.start < line.end and line.start < p.end for p in by_passage.get(id(line.passage), ()))
    ]


def _whole_tables(lines: Sequence[Line], left: Sequence[Line]) -> frozenset[int]:
    """The tables of which nothing has been taken: only they can be a box of words."""
    kept = {id(line.passage) for line in left}
    tables = {line.passage.cell.table for line in left if line.passage.cell is not None}
    broken = {
        line.passage.cell.table for line in lines if line.passage.cell is not None and id(line.passage) not in kept
    }
    return frozenset(tables - broken)


def _under_names_of_boxes(activity: Activity, mended: Mapping[int, Passage]) -> frozenset[int]:
    """The passages that stand under a heading or an entry that names a box of words, by identity."""
    passages = activity.part.passages
    under = (two for one, two in pairwise(passages) if names_box(one.text) and two.role is not Role.CELL)
    return frozenset(id(mended.get(id(one), one)) for one in under)


def _boxes(
    lines: Sequence[Line], unit: Unit, whole: frozenset[int], said: str, named: frozenset[int]
) -> tuple[list[WordBox], list[Line]]:
    """The word boxes among some lines, and the lines that are left; ``said`` is what the key says, and ``named`` are
    passages under the name of a box."""
    boxes: list[WordBox] = []
    left: list[Line] = []
    for _, together in groupby(lines, key=_block):
        group = list(together)
        cell = group[0].passage.cell
        if cell is None:
            box = box_of_lines(group, unit, led=id(group[0].passage) in named)
        else:
            box = box_of_table([line.passage for line in group], said) if cell.table in whole else None
        if box is not None:
            boxes.append(box)
        else:
            left += group
    return boxes, left


def _block(line: Line) -> tuple[str, int]:
    """What lines of one paragraph, table or box have in common."""
    passage = line.passage
    if passage.cell is not None:
        return "table", passage.cell.table
    if passage.item is not None:
        return "list", passage.item.list
    return ("div", passage.div) if passage.div is not None else ("block", passage.block.start)


def _shared_out(
    drafts: Sequence[DraftExercise], gaps: Sequence[tuple[Line, Gap]], read: ReadKey
) -> tuple[list[Key], tuple[Answer, ...]]:
    """The key of each exercise, by the labels that they share; and what of it belongs to none."""
    keys = [Key((), read.own, crossed=read.crossed_out) for _ in drafts]
    loose: list[Answer] = []
    for row in read.rows:
        labels = _labels(row)
        steps = _steps(row, drafts)
        if steps is not None:
            keys[steps] = Key((), read.own, order=tuple(_as_step(answer) for answer in row))
            continue
        free = [at for at, key in enumerate(keys) if not key.answers]
        best = max(free, key=lambda at: (*_fit(drafts[at], labels), -at), default=None)
        behind = len(drafts) == 1 and drafts[0].behind and len(row) == len(drafts[0].drafts)
        if behind and not _overlap(drafts[0], labels):
            keys, _ = _in_order(drafts, keys, row, ())
        elif best is None or not _overlap(drafts[best], labels):
            begun = next((at for at, key in enumerate(keys) if _goes_on(drafts[at], key, labels)), None)
            if begun is None:
                loose += row
            else:
                keys[begun] = replace(keys[begun], answers=(*keys[begun].answers, *row))
        else:
            for at, part in _counted_on(best, row, drafts, keys):
                keys[at] = Key(part, read.own, crossed=read.crossed_out)
    if read.order:
        return _ordered(drafts, keys, read, gaps)
    if read.entries:
        wanted = len(gaps) if gaps else len(drafts[0].drafts) if len(drafts) == 1 else len(read.entries)
        return _in_order(drafts, keys, read.entries_for(wanted), gaps)
    return keys, tuple(loose)


def _ordered(
    drafts: Sequence[DraftExercise], keys: list[Key], read: ReadKey, gaps: Sequence[tuple[Line, Gap]]
) -> tuple[list[Key], tuple[Answer, ...]]:
    """A row of bare labels is the key of the exercise that has them; else its answers, in order."""
    labels = {answer.label.key for answer in read.order if answer.label}
    for at, one in enumerate(drafts):
        known = {d.label.key for d in one.drafts} | {o.label.key for o in one.column if o.label}
        if len(labels & known) * 2 > len(labels) and _repeats(read.order) <= 1:
            keys[at] = Key((), read.own, order=read.order)
            return keys, ()
    return _in_order(drafts, keys, tuple(Answer(answer.place) for answer in read.order), gaps)


def _counted_on(
    best: int, row: tuple[Answer, ...], drafts: Sequence[DraftExercise], keys: Sequence[Key]
) -> Iterator[tuple[int, tuple[Answer, ...]]]:
    """A row of answers for an exercise, and what of it belongs to another that counts on: 1 to 6 in a table, and 7 and
    8 below it."""
    own = {draft.label.key for draft in drafts[best].drafts}
    rest = tuple(answer for answer in row if answer.label is not None and answer.label.key not in own)
    for at, one in enumerate(drafts):
        theirs = {draft.label.key for draft in one.drafts}
        if rest and at != best and not keys[at].answers and own.isdisjoint(theirs) and _labels(rest) == theirs:
            yield best, tuple(answer for answer in row if answer not in rest)
            yield at, rest
            return
    yield best, row


def _goes_on(one: DraftExercise, key: Key, labels: set[str]) -> bool:
    """Whether labels are of items that a row before them has left out: parts A and B that number on."""
    return labels <= {draft.label.key for draft in one.drafts} and not labels & _labels(key.answers)


def _steps(row: Sequence[Answer], drafts: Sequence[DraftExercise]) -> int | None:
    """The one exercise whose lettered things a key puts in order: `1 C, 2 F, 3 A` of pictures A to F."""
    letters = [plain(_step_of(answer).text) for answer in row]
    if len(drafts) != 1 or len(row) < _FEWEST_STEPS or not all(answer.label is not None for answer in row):
        return None
    labels = {draft.label.key for draft in drafts[0].drafts}
    numbered = all(answer.label is not None and answer.label.text.isdigit() for answer in row)
    known = sum(letter in labels for letter in letters)
    bare = not any(draft.options for draft in drafts[0].drafts) and not drafts[0].column
    return 0 if numbered and bare and known == len(row) and not any(one.isdigit() for one in labels) else None


def _step_of(answer: Answer) -> Place:
    """The letter of a step: all that the key says, or in brackets at the end: `1. First, the boat came (c).`"""
    place = answer.place
    match = _LETTER_AT_END.search(place.passage.text, place.start, place.end)
    return Place(place.passage, *match.span(1)) if match else place


def _as_step(answer: Answer) -> Answer:
    place = _step_of(answer)
    return Answer(place, Label(plain(place.text), place.span, place))


def _repeats(order: Sequence[Answer]) -> int:
    labels = [answer.label.key for answer in order if answer.label]
    return len(labels) - len(set(labels))


def _turned_by_key(one: DraftExercise, read: ReadKey) -> DraftExercise:
    """Items to match the other way round, where the key goes by the labels of the other column: `a) week 3`."""
    column = {option.label.key: option for option in one.column if option.label is not None}
    row = next((row for row in read.rows if len(row) > 1 and _labels(row) == column.keys()), None)
    if row is None or _overlap(one, _labels(row)) or any(len(draft.places) != 1 for draft in one.drafts):
        return one
    drafts = [Draft(option.label, None, [option.place]) for option in column.values() if option.label is not None]
    options = [Option(draft.places[0], draft.label) for draft in one.drafts]
    return replace(one, drafts=drafts, column=options)


def _without_match(answer: Answer | None, draft: Draft, one: DraftExercise) -> Answer | None:
    """What goes into a blank, without the label of the line that it is matched with: `week 3`."""
    behind = _LABEL_AT_END.search(answer.text) if answer is not None else None
    labels = {option.label.key for option in one.column if option.label is not None}
    if answer is None or behind is None or behind[1] not in labels or "_" not in draft.places[0].text:
        return answer
    place = answer.place
    return replace(answer, place=Place(place.passage, place.start, place.start + behind.start()))


def _labels(row: Sequence[Answer]) -> set[str]:
    return {answer.label.key for answer in row if answer.label}


def _overlap(one: DraftExercise, labels: set[str]) -> int:
    return len(labels & {draft.label.key for draft in one.drafts})


def _fit(one: DraftExercise, labels: set[str]) -> tuple[int, bool]:
    """How many labels an exercise shares with a row of a key, and whether they are all that it has."""
    return _overlap(one, labels), labels == {draft.label.key for draft in one.drafts}


def _in_order(
    drafts: Sequence[DraftExercise], keys: list[Key], entries: tuple[Answer, ...], gaps: Sequence[tuple[Line, Gap]]
) -> tuple[list[Key], tuple[Answer, ...]]:
    """Answers without labels go to the items in order, where there are as many."""
    for at, one in enumerate(drafts):
        if len(one.drafts) == len(entries) > 1 and not gaps:
            labelled = zip(entries, one.drafts, strict=True)
            answers = tuple(Answer(answer.place, replace(draft.label, mark=None)) for answer, draft in labelled)
            keys[at] = Key(answers, keys[at].own)
            return keys, ()
    return keys, entries


def _pictured(item: Item) -> Item:
    """A sentence with one picture for a word of it, whose blank stands apart: the word goes where the picture is."""
    places = [(place, at) for place in item.prompt for at in _pictures_in(place)]
    apart = len(item.gaps) == 1 and all(
        not any(char.isalnum() for char in place.text) for place in item.prompt if place.holds(item.gaps[0].place)
    )
    if len(places) != 1 or not apart or item.answer is None or len(item.answer.text.split()) > 1:
        return item
    place, at = places[0]
    return replace(item, gaps=(Gap(Place(place.passage, at, at + 1)),))


def _pictures_in(place: Place) -> list[int]:
    return [at for at in range(place.start, place.end) if place.passage.text[at] == PICTURE]


def _exercise(one: DraftExercise, key: Key, box: WordBox | None, instruction: str) -> Exercise:
    by_label = {answer.label.key: answer for answer in reversed(key.answers) if answer.label}
    answers = [without_item(_without_match(by_label.get(draft.label.key), draft, one), draft) for draft in one.drafts]
    items = items_of(one, without_reasons(answers, one.drafts), instruction)
    box = box if any(item.gaps for item in items) else None
    return Exercise(items, key, tuple(one.column), box, one.cloze)
