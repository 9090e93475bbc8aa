"""Answers of a key that their own task speaks against: its script, its picture, its table, the words of a speaker."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from lint_rules.manuscript.model import PICTURE, Audience, Passage, Unit
from lint_rules.page.audio import heard_in
from lint_rules.page.exercises.answers import yes_or_no
from lint_rules.page.exercises.charted import (
    against_the_chart,
    from_another_cell,
    from_another_row,
    not_the_most,
    timed_otherwise,
)
from lint_rules.page.exercises.heard import (
    beyond_the_script,
    face_out_of_step,
    not_drawn,
    not_heard,
    not_word_for_word,
    verdict_out_of_step,
)
from lint_rules.page.exercises.model import Answer, Exercises, Item, Place
from lint_rules.page.exercises.number_codes import miscoded
from lint_rules.page.exercises.speakers import other_speaker
from lint_rules.page.exercises.statements import bare_statement
from lint_rules.unit_language.asked_who import done_by_another
from lint_rules.unit_language.coloured_letters import another_colour_heard
from lint_rules.unit_language.compared_statements import compared_otherwise
from lint_rules.unit_language.counted_in_lists import miscounted_in_list
from lint_rules.unit_language.counted_statements import miscounted
from lint_rules.unit_language.lettered_pictures import wrong_letters
from lint_rules.unit_language.numbers_matched import mismatched_numbers
from lint_rules.unit_language.out_of_step import out_of_step
from lint_rules.unit_language.pictured_statements import against_its_picture
from lint_rules.unit_language.placed_elsewhere import placed_elsewhere
from lint_rules.unit_language.quoted_in_keys import against_its_quotation
from lint_rules.unit_language.said_by_speakers import unsaid
from lint_rules.unit_language.seen_in_pictures import another_colour, another_place, another_word
from lint_rules.unit_language.swapped_meanings import exchanged
from lint_rules.unit_language.told_statements import told_otherwise

_SHORT = 10  # words of an item that a message can repeat


@dataclass(frozen=True, slots=True)
class Doubt:
    """An answer that something speaks against: the answer, what it answers (in words for a message), and what does;
    ``at`` is the part of it that is meant, where that is not the whole."""

    answer: Answer
    asked: str
    against: str
    at: Place | None = None

    @property
    def place(self) -> Place:
        """What is meant."""
        return self.at or self.answer.place

    def is_of(self, word: Place, read: Exercises) -> bool:
        """Whether it is about the item that has a word."""
        items = (item for exercise in read.exercises for item in exercise.items if item.answer is self.answer)
        return any(place.holds(word) for item in items for place in item.prompt)


def doubts(read: Exercises, unit: Unit) -> Iterator[Doubt]:
    """What speaks against answers of a page, each answer once."""
    seen: set[int] = set()
    for doubt in _all(read, unit):
        if id(doubt.answer) not in seen:
            seen.add(id(doubt.answer))
            yield doubt


def doubts_of_texts(read: Exercises, texts: Sequence[Passage], names: Collection[str]) -> Iterator[Doubt]:
    """What the texts of a lesson speak against: answers to statements of which they tell the contrary, and to who did
    it; ``names`` are those of the course."""
    for exercise in read.exercises:
        found = told_otherwise(exercise, texts)
        if found is not None:
            where = "picture" if found.drawn else "text"
            yield from _about(found.item, f"the {where} has “{found.sentence.rstrip('.')}”")
            continue
        item, sentence = (
            compared_otherwise(exercise.items, texts) or done_by_another(exercise.items, texts, names) or (None, "")
        )
        yield from _about(item, f"the text has “{sentence.rstrip('.')}”")


def _all(read: Exercises, unit: Unit) -> Iterator[Doubt]:
    answer = not_heard(read, unit) or not_word_for_word(read, unit)
    if answer is not None:
        yield Doubt(answer, _numbered(answer), "the script does not say it there")
    answer = not_drawn(read, unit)
    if answer is not None:
        yield Doubt(answer, _numbered(answer), "the picture does not show it there")
    answer, same = verdict_out_of_step(read, unit) or (None, False)
    if answer is not None:
        yield Doubt(answer, _numbered(answer), f"picture and script {'say the same' if same else 'differ'} there")
    answer, reply = face_out_of_step(read, unit) or (None, "")
    if answer is not None:
        yield Doubt(answer, _numbered(answer), f"the script has “{reply}” there")
    answer, end = beyond_the_script(read, unit) or (None, 0)
    if answer is not None:
        yield Doubt(answer, f"number {end + 1}", f"the script ends with number {end}")
    page = [one for one in read.activity.part.passages if one.audience is Audience.PUPIL]
    for exercise in read.exercises:
        items = [item for item in exercise.items if item.answer is not None and not item.example]
        item, heard = miscounted(exercise, heard_in(read.activity, unit), page) or (None, "")
        yield from _about(item, f"the script has “{heard}”")
        item, spelt = miscoded(exercise) or (None, "")
        yield from _about(item, f"its numbers spell “{spelt}”")
        matched = mismatched_numbers(exercise)
        for item, other in matched[:1]:
            yield from _about(item, f"what it matches is “{other}”")
        cited = against_its_quotation(exercise)
        if cited is not None and cited[0].answer is not None:
            item, at, quoted = cited
            yield Doubt(cited[0].answer, _asked(item), f"the key quotes “{quoted.rstrip('.')}” for it", at)
        item = against_its_picture(items, [yes_or_no(one.answer.text) if one.answer else None for one in items])
        yield from _about(item, "look at the picture beside it")
    item, who = other_speaker(read, unit.passages) or (None, "")
    yield from _about(item, f"in the text {who} says it")
    item, own = from_another_row(read) or from_another_cell(read) or timed_otherwise(read) or (None, "")
    yield from _about(item, f"the table has “{own}”")
    item, own = not_the_most(read) or (None, "")
    yield from _about(item, f"by the table it is {own}")
    item, own = against_the_chart(read) or (None, "")
    yield from _about(item, f"the chart has {own}")
    found = out_of_step(read, unit)
    if found is not None:
        yield Doubt(found.answer, _asked(found.item), found.against)
    counted = miscounted_in_list(read, unit)
    if counted is not None:
        yield Doubt(counted.answer, f"“{counted.thing}”", counted.there, counted.at)
    others = unsaid(read, unit)  # one, or two that have changed places: one slip, told once
    for one in others[:1]:
        said = ", and ".join(f"{other.who} says “{other.sentence.rstrip('.')}”" for other in others)
        yield Doubt(one.answer, one.who, said)
    item, shown = another_word(read) or another_colour(read) or another_place(read) or (None, "")
    yield from _about(item, f"its picture has “{shown}”")
    pair = exchanged(read)
    if pair is not None:
        against = f"“{pair.other_word}” goes better with it than “{pair.word}”, and the other way round"
        yield from _about(pair.one, against)
    item, clause = placed_elsewhere(read, unit) or (None, "")
    yield from _about(item, f"the picture has “{clause}”")
    item, colour = another_colour_heard(read, unit) or (None, "")
    yield from _about(item, f"the script has {colour} there")
    letters = wrong_letters(read, unit)
    for item, where in letters[:1]:
        swapped = ", and the other way round" if len(letters) > 1 else ""
        yield from _about(item, f"what belongs to it is {where}{swapped}")


def _about(item: Item | None, against: str) -> Iterator[Doubt]:
    if item is not None and item.answer is not None:
        yield Doubt(item.answer, _asked(item), against)


def _numbered(answer: Answer) -> str:
    return f"number {answer.label.text}" if answer.label is not None else "this"


def _asked(item: Item) -> str:
    blank = item.text.rstrip(" .?!_")
    whole = item.text if "_" in blank else bare_statement(item.text)  # There are ____ jars on the shelf.
    whole = whole.partition("☐")[0] if whole.partition("☐")[0].strip() else whole  # It is red. ☐ yes ☐ no
    said = whole.replace(PICTURE, "").replace("☐", "").strip()
    short = any(len(word) > 1 for word in said.split()) and len(said.split()) <= _SHORT
    said = said.strip(" ·|•")
    return f"“{said}”" if short or not item.label.text else f"number {item.label.text}"
