"""Read an activity's page as exercises. What cannot be read as one stays prose.

Lines and labels (``stream``, ``marks``) give drafts of items (``drafts``); the key (``key``) is read for their labels;
blanks, choices and jumbles (``gaps``, ``choices``, ``jumbles``) are then found in each item, with its answer
at hand; what is left of the page are word boxes (``boxes``), charts and lines to write on.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from lint_rules.manuscript.model import Activity, Unit
from lint_rules.page.exercises import jumbles
from lint_rules.page.exercises.answers import alternatives, plain
from lint_rules.page.exercises.boxes import box_of_lines, box_of_table, boxes_in_instruction
from lint_rules.page.exercises.choices import choices_in
from lint_rules.page.exercises.completed import chosen_option
from lint_rules.page.exercises.drafts import Draft, DraftExercise, draft_exercises
from lint_rules.page.exercises.gaps import gaps_in
from lint_rules.page.exercises.key import ReadKey, read_key
from lint_rules.page.exercises.marks import marks_in
from lint_rules.page.exercises.model import Answer, Choice, Exercise, Exercises, Gap, Item, Key, Label, Place, WordBox
from lint_rules.page.exercises.stream import Line, key_passages, mended_passages, page_lines

_WRITING_LINE = re.compile(r"[_\s]+")
_LETTER = re.compile(r"[^\W\d_]")
_EXAMPLE = re.compile(r"\s*(?:example|e\.g\.|model)\b", re.I)
_JUMBLED = re.compile(r"\b(?:un)?jumbled?\b|\bmixed\b|\bscrambled?\b|\banagrams?\b|\bletters?\b[^.!?]*\border\b", re.I)
_LETTERS_ASKED = re.compile(r"\bletters?\b", re.I)


def exercises_in(activity: Activity, unit: Unit) -> Exercises:
    """How the page of an activity reads as exercises."""
    mended = mended_passages(activity, unit)
    lines = page_lines(activity, unit, mended)
    drafts = draft_exercises(lines, marks_in(lines))
    told = " ".join(passage.text for passage in key_passages(activity))
    _gaps_below(drafts, lines, told)
    left = _left_over(lines, drafts)
    whole = _whole_tables(lines, left)
    boxes, left = _boxes(left, unit, whole, told)
    boxes += list(boxes_in_instruction(activity.heading.passage))
    loose_gaps, charts, writing = _unlabelled(left, told)
    kinds = tuple(dict.fromkeys(one.kind for one in drafts))
    read = read_key(key_passages(activity), kinds, unit.source)
    keys, loose = _shared_out(drafts, loose_gaps, read)
    instruction = activity.heading.passage.text
    found = [
        _exercise(one, key, boxes[0] if len(boxes) == 1 else None, instruction)
        for one, key in zip(drafts, keys, strict=True)
    ]
    if loose_gaps and not any(item.gaps for one in found for item in one.items):
        found += _without_labels(loose_gaps, read, boxes[0] if len(boxes) == 1 else None)
        if found[-1].key.answers:
            loose = ()
    return Exercises(activity, tuple(found), tuple(boxes), charts, writing, loose, read.own, read.passages, mended)


def _gaps_below(drafts: Sequence[DraftExercise], lines: Sequence[Line], said: str) -> None:
    """A row of blanks under a row of labelled cells: each belongs to the cell above it."""
    above = {
        (place.passage.cell.table, place.passage.cell.row, place.passage.cell.column): draft
        for one in drafts
        for draft in one.drafts
        for place in draft.places
        if place.passage.cell is not None
    }
    filled = {
        (line.passage.cell.table, line.passage.cell.row)
        for line in lines
        if line.passage.cell is not None and not _to_fill(line, said)
    }
    for line in lines:
        cell = line.passage.cell
        if cell is not None and (cell.table, cell.row) not in filled:
            draft = above.get((cell.table, cell.row - 1, cell.column))
            if draft is not None and not any(place.passage is line.passage for place in draft.places):
                draft.places.append(Place(line.passage, line.start, line.end))


def _to_fill(line: Line, said: str) -> bool:
    """Whether a line is a blank, or one word with letters to fill in (`k__chen`)."""
    if _WRITING_LINE.fullmatch(line.text):
        return True
    words = [gap.word for gap in gaps_in(Place(line.passage, line.start, line.end), said=said) if gap.word is not None]
    return len(words) == 1 and words[0].text == line.text.strip()


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


def _boxes(lines: Sequence[Line], unit: Unit, whole: frozenset[int], said: str) -> tuple[list[WordBox], list[Line]]:
    """The word boxes among some lines, and the lines that are left; ``said`` is what the key says."""
    boxes: list[WordBox] = []
    left: list[Line] = []
    for _, together in groupby(lines, key=_block):
        group = list(together)
        cell = group[0].passage.cell
        if cell is None:
            box = box_of_lines(group, unit)
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


def _unlabelled(
    lines: Sequence[Line], said: str
) -> tuple[list[tuple[Line, Gap]], tuple[Place, ...], tuple[Place, ...]]:
    """Blanks without labels, charts, and lines to write on."""
    gaps: list[tuple[Line, Gap]] = []
    charts: list[Place] = []
    writing: list[Place] = []
    for line in lines:
        place = Place(line.passage, line.start, line.end)
        if line.passage.cell is not None and not (_to_fill(line, said) and _LETTER.search(line.text)):
            charts.append(place)
        elif _WRITING_LINE.fullmatch(line.text):
            writing.append(place)
        else:
            gaps += [(line, gap) for gap in gaps_in(place, said=said)]
    return gaps, tuple(charts), tuple(writing)


def _shared_out(
    drafts: Sequence[DraftExercise], gaps: Sequence[tuple[Line, Gap]], read: ReadKey
) -> tuple[list[Key], tuple[Answer, ...]]:
    """The key of each exercise, by the labels that they share; and what of it belongs to none."""
    keys = [Key(own=read.own, crossed=read.crossed_out) for _ in drafts]
    loose: list[Answer] = []
    for row in read.rows:
        labels = {answer.label.key for answer in row if answer.label}
        free = [at for at, key in enumerate(keys) if not key.answers]
        best = max(free, key=lambda at: (_overlap(drafts[at], labels), -at), default=None)
        if best is None or not _overlap(drafts[best], labels):
            loose += row
        else:
            keys[best] = Key(row, read.own, crossed=read.crossed_out)
    if read.order:
        labels = {answer.label.key for answer in read.order if answer.label}
        for at, one in enumerate(drafts):
            known = {d.label.key for d in one.drafts} | {o.label.key for o in one.column if o.label}
            if len(labels & known) * 2 > len(labels) and _repeats(read.order) <= 1:
                keys[at] = Key(own=read.own, order=read.order)
                return keys, ()
        in_order = tuple(Answer(answer.place) for answer in read.order)
        return _in_order(drafts, keys, in_order, gaps)
    if read.entries:
        wanted = len(gaps) if gaps else len(drafts[0].drafts) if len(drafts) == 1 else len(read.entries)
        return _in_order(drafts, keys, read.entries_for(wanted), gaps)
    return keys, tuple(loose)


def _repeats(order: Sequence[Answer]) -> int:
    labels = [answer.label.key for answer in order if answer.label]
    return len(labels) - len(set(labels))


def _overlap(one: DraftExercise, labels: set[str]) -> int:
    return len(labels & {draft.label.key for draft in one.drafts})


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


def _exercise(one: DraftExercise, key: Key, box: WordBox | None, instruction: str) -> Exercise:
    by_label = {answer.label.key: answer for answer in reversed(key.answers) if answer.label}
    items = tuple(_item(draft, by_label.get(draft.label.key), one, instruction) for draft in one.drafts)
    return Exercise(items, tuple(one.column), box if any(item.gaps for item in items) else None, key, one.cloze)


def _item(draft: Draft, answer: Answer | None, one: DraftExercise, instruction: str) -> Item:
    said = answer.text if answer is not None else ""
    lettered = (Choice(tuple(draft.options)),) if draft.options else ()
    inline = tuple(choice for place in draft.places for choice in choices_in(place, said))
    if one.cloze:
        inline = inline[:1]
    dots = bool(lettered or one.column)
    gaps = tuple(gap for place in draft.places for gap in gaps_in(place, dots=dots, said=said))
    if one.cloze:
        gaps = gaps[:1]
    if inline and said and not any(chosen_option(choice, said) for choice in inline):
        pieces = [piece for choice in inline for piece in (option.place for option in choice.options)]
        if len(pieces) > 2 and _made_of(pieces, said):
            inline = ()  # `(is / name / my / Ola)`: words to put in order
    jumble = None if inline or lettered else _jumble(draft, gaps, said, instruction)
    example = draft.label.text == "0" or any(_EXAMPLE.match(place.text) for place in draft.places[:1])
    more = tuple(draft.more)
    return Item(draft.label, tuple(draft.places), gaps, (*inline, *lettered), jumble, answer, example, more)


def _jumble(draft: Draft, gaps: Sequence[Gap], said: str, instruction: str) -> Place | None:
    asked = _LETTERS_ASKED.search(instruction) is not None
    for gap in gaps:
        if gap.hint is not None and gap.word is None and " " not in plain(gap.hint.text):
            letters = jumbles.letters_of(gap.hint.text)
            anagram = any(
                jumbles.letters_of(one) == letters and plain(one) != plain(gap.hint.text) for one in alternatives(said)
            )
            if anagram or asked:
                return gap.hint
    for place in draft.places:
        letters_place = jumbles.letters_in(place)
        if letters_place is not None and not any(gap.word is not None for gap in gaps):
            return letters_place
        bare = place.text.strip()
        if bare.isalpha() and len(bare) > 2 and len(draft.places) == 1 and said.isalpha() and bare != said:
            alike = jumbles.letters_of(bare) == jumbles.letters_of(said)
            if alike or _JUMBLED.search(instruction):
                return Place(
                    place.passage, place.start + place.text.index(bare), place.start + len(place.text.rstrip())
                )
        pieces = jumbles.words_in(place)
        if pieces and (jumbles.asks_for_order(instruction) or _made_of(pieces, said)):
            return Place(place.passage, pieces[0].start, pieces[-1].end)
    return None


def _made_of(pieces: Sequence[Place], said: str) -> bool:
    """Whether most of an answer's words are among some pieces, and it has as many words or nearly so."""
    given = jumbles.words_of(" ".join(piece.text for piece in pieces))
    answer = jumbles.words_of(alternatives(said)[-1]) if said else given
    shared = (given & answer).total()
    return bool(said) and len(answer) > 1 and shared * 3 >= 2 * max(given.total(), answer.total())


def _without_labels(gaps: Sequence[tuple[Line, Gap]], read: ReadKey, box: WordBox | None) -> Iterator[Exercise]:
    """Blanks that nothing numbers: an item each, with the key's entries in order where there are as many."""
    entries = read.entries_for(len(gaps)) or tuple(Answer(answer.place) for answer in read.order)
    if not entries and len(read.rows) == 1:  # `**Boat 1** ____`: numbered in words
        entries = read.rows[0]
    answers: Sequence[Answer | None] = entries if len(entries) == len(gaps) else [None] * len(gaps)
    items = tuple(
        Item(Label("", gap.place.span), (Place(line.passage, line.start, line.end),), (gap,), answer=answer)
        for (line, gap), answer in zip(gaps, answers, strict=True)
    )
    given = tuple(answer for answer in answers if answer is not None)
    yield Exercise(items, box=box, key=Key(given, read.own), cloze=True)
