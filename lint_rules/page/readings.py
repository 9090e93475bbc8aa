"""What a child ends up reading of a unit: its exercises done as their keys have them.

Each item is read with its blanks filled and its choices made, each option and each word of a box on its own; labels,
letters, fragments of words, signs of sounds, jumbles and what is wrong on purpose are no words of anybody. Where no key
says what is right, the first option stands in, and such a sentence is not held against grammar. The result is a unit of
ordinary passages, so that whoever reads words or sentences reads these and nothing of exercises.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from lint_rules import lazy_re
from lint_rules.manuscript.model import PICTURE, Activity, Audience, Lesson, Part, Passage, Role, Unit
from lint_rules.page.deliberate import is_wrong_on_purpose, wrong_in_part
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.choices import is_all, stands_behind
from lint_rules.page.exercises.completed import Completed, asks_another_form, completed, stands_in_sentence, word_with
from lint_rules.page.exercises.corrected import corrected
from lint_rules.page.exercises.drafts import without
from lint_rules.page.exercises.edits import Edits, Fill
from lint_rules.page.exercises.model import Exercise, Exercises, Gap, Item, Option, Place
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.page.exercises.stream import dates_in, page_lines
from lint_rules.page.exercises.sums import code_in, sum_in

_SOUND = lazy_re.compile(r"(?<!\w)/[^\s/]{1,12}/(?!\w)")
_SIGNS = lazy_re.compile(r"[☐□▢◯○◻⬜❏❑✓✗✔✘✕●•]+")
_PICTURE_FIRST = lazy_re.compile(
    rf"(?<![\w,]\s){PICTURE}\s+(?=[A-Z“\"])"
)  # it stands before a sentence, for no word of it
_BRACKETED = lazy_re.compile(r"\s*\([^()]*\)\s*$")
_TICKS = lazy_re.compile(r"[☐□▢◯○◻⬜❏❑]\s*")
_ARROWS = lazy_re.compile(r"\s*(?:→|←|↓|↑|=>|->|=)+\s*")
_HINT_BEHIND = lazy_re.compile(r"(?<=[.!?”\"])\s*\(\s*([^()\n]{1,40})\)\s*$")
_HINT_BETWEEN = lazy_re.compile(r"(?<=[.!?”\"])\s*\(\s*([^()\n]{1,40})\)\s+(?=[A-Z“\"_])")
_CAPITALS = lazy_re.compile(r"(?:(?<=[.!?”\"]\s)|(?<=[.!?”\"]))\s*([A-Z]{2,})(?=\s|$)")
_SPEAKER = lazy_re.compile(r"(?:^|(?<=\s))[A-Z][A-Z’'.-]+(?:\s[A-Z][A-Z’'.-]+){0,2}:\s")
_PARAGRAPH = lazy_re.compile(r"\s*[A-Z][\w’']*(?:,? [\w’'-]+){4}")  # behind the place of its title
_LETTERS_ALONE = lazy_re.compile(r"[^\W\d_]{1,2}(?:[\s,.·→–-]+[^\W\d_]{1,2})*")
_BLANKS = lazy_re.compile(r"_{2,}(?:\s*_{2,})*")
_SNAKE = 12  # letters of the shortest run of words without spaces
_SENTENCE = 3  # words of the shortest answer that can be a sentence of its own
_LONGEST_HALF = 15  # words of an option that ends a sentence: more are a text of its own
_SHORTEST = 3  # letters of a word that can be found among letters


@dataclass(frozen=True, slots=True, eq=False)
class Readings:
    """A unit as it stands, and (``done``) as a child ends up reading it. ``exercises`` is how each activity was read.

    ``unchecked`` are passages whose grammar says nothing: wrong options, words of boxes, and what no key completes.
    """

    unit: Unit
    done: Unit
    exercises: tuple[Exercises, ...]
    unchecked: frozenset[Passage]


def readings_of(unit: Unit) -> Readings:
    """Read a unit with its exercises done."""
    done = {id(activity): _Activity(exercises_in(activity, unit), unit) for activity in unit.activities}
    read = {key: one.read() for key, one in done.items()}

    def as_read(activities: Sequence[Activity]) -> tuple[Activity, ...]:
        return tuple(read[id(activity)] for activity in activities)

    lessons: tuple[Lesson, ...] = tuple(
        replace(lesson, activities=as_read(lesson.activities)) for lesson in unit.lessons
    )
    whole = replace(unit, lessons=lessons, opening_activities=as_read(unit.opening_activities))
    return Readings(
        unit,
        whole,
        tuple(one.read_as for one in done.values()),
        frozenset(passage for one in done.values() for passage in one.unchecked),
    )


class _Activity:
    """One activity while it is turned into what is read."""

    def __init__(self, read_as: Exercises, unit: Unit) -> None:
        self.read_as = read_as
        self.unit = unit
        self.unchecked: list[Passage] = []
        self._edits: dict[int, Edits] = {}

    def read(self) -> Activity:
        """The activity with its passages as they are read."""
        activity = self.read_as.activity
        wrong, in_part = is_wrong_on_purpose(activity), wrong_in_part(activity)
        for exercise in self.read_as.exercises:
            asked = {id(place.passage) for item in exercise.items for place in item.prompt}
            self._exercise(exercise, wrong=wrong or (bool(asked) and asked <= in_part))
        for box in self.read_as.boxes:
            for word in box.words:
                if word.passage.role not in (Role.PANEL, Role.INSTRUCTION):
                    edits = self._of(word.passage)
                    edits.apart.append(word)
                    edits.only_apart = True
        for head in self.read_as.heads:
            self._of(head.passage).cuts.append((head.start, head.end))
        self._signs()
        if not self._edits:
            return activity
        passages: list[Passage] = []
        for passage in activity.part.passages:
            as_read = self._passages(passage)
            passages += as_read
            self.unchecked += as_read if id(passage) in in_part else ()
        return replace(activity, part=_with(activity.part, tuple(passages)))

    def _passages(self, passage: Passage) -> Sequence[Passage]:
        edits = self._edits.get(id(self.read_as.mended.get(id(passage), passage)))
        if edits is None:
            return (passage,)
        found = list(edits.passages())
        apart = {place.span for place in edits.apart}
        self.unchecked += [
            one
            for one in found
            if edits.unchecked or (_is_short(one) and (one.role is Role.OPTION or one.span() in apart))
        ]
        return found

    def _of(self, passage: Passage) -> Edits:
        return self._edits.setdefault(id(passage), Edits(passage))

    def _exercise(self, exercise: Exercise, *, wrong: bool) -> None:
        used: set[int] = set()
        cut_up = any(gap.word is not None for item in exercise.items for gap in item.gaps)
        for item in exercise.items:
            if item.example and cut_up and not item.gaps:  # (0) h *a* mster
                for place in item.prompt:
                    self._of(place.passage).cuts.append((place.start, place.end))
                continue
            for mark in (label.mark for label in (item.label, *item.more)):
                if mark is None:
                    continue
                edits = self._of(mark.passage)
                if exercise.cloze:
                    edits.drop(mark.start, mark.end)
                else:
                    edits.cuts.append((mark.start, mark.end))
                    edits.items.append(mark.end)
            if wrong and not item.choices and not item.gaps and item.jumble is None:
                for place, fill in corrected(item):
                    self._of(place.passage).fills.append(fill)
                continue
            done = completed(item, exercise)
            self._no_sentence(item)
            self._choices(item, done, cloze=exercise.cloze)
            self._gaps(item, done)
            self._hints(item)
            self._jumble(item, done)
            if done.matched is not None and (self._joined(item, done.matched) or item.gaps):
                used.add(id(done.matched))
        self._key(exercise)
        for option in exercise.column:
            self._apart(option, read=id(option) not in used)

    def _no_sentence(self, item: Item) -> None:
        """Sums of pieces of words, codes, and what the key only writes anew with other marks and spaces."""
        said = item.answer.text if item.answer is not None else ""
        for place in item.prompt:
            for found in (sum_in(place), code_in(place)):
                if found is not None:
                    self._of(found.passage).cuts.append((found.start, found.end))
        whole = "".join(place.text for place in item.prompt)
        if item.gaps and said and _letters_of(whole) == _letters_of(said) and not item.choices:
            blanks = [gap.place for gap in item.gaps]
            for place in item.prompt:
                for left in without(place, blanks):
                    self._of(place.passage).cuts.append((left.start, left.end))

    def _key(self, exercise: Exercise) -> None:
        """What nobody reads of a key: letters that only together with the page are a word, the numbers of squares."""
        for item in exercise.items:
            words = [gap.word for gap in item.gaps if gap.word is not None]
            if item.answer is not None and len(words) == 1 == len(item.gaps):
                whole = word_with(words[0].text, item.answer.text)
                if whole is not None and plain(whole) != plain(item.answer.text):
                    place = item.answer.place
                    self._of(place.passage).drop(place.start, place.end)
        marks = [answer.label.mark for answer in exercise.key.answers if answer.label is not None]
        numbers = [mark.text.strip(" .):(") for mark in marks if mark is not None]
        counted = [str(at) for at in range(1, len(numbers) + 1)]
        if numbers != counted and all(number.isdigit() for number in numbers):
            for mark in marks:
                if mark is not None:
                    self._of(mark.passage).cuts.append((mark.start, mark.end))

    def _choices(self, item: Item, done: Completed, *, cloze: bool) -> None:
        for choice, chosen in zip(item.choices, done.chosen, strict=True):
            if choice.inline is None:
                taken = chosen or choice.options[0]
                inside = bool(item.gaps) or self._ends(item, taken, known=chosen is not None)
                for option in choice.options:
                    self._apart(option, read=not (inside and option is taken))
                continue
            inline = choice.inline
            edits = self._of(inline.passage)
            if any(gap.hint is not None and gap.hint.holds(inline) for gap in item.gaps):
                continue  # `____ (for / since) a week`: the blank is where it stands
            taken = chosen or choice.options[0]
            alone = not cloze and (is_all(choice, item) or stands_behind(choice))
            if alone:
                edits.cuts.append((inline.start, inline.end))
            else:
                shown = (taken.place.start, taken.place.end)
                behind = inline.passage.text[inline.end : inline.end + 1]
                closed = behind == ")" and "(" not in inline.text  # its number took the bracket before it
                edits.fills.append(Fill(inline.start, inline.end + closed, shown=shown))
                edits.unchecked = edits.unchecked or chosen is None
            edits.apart += [option.place for option in choice.options if alone or option is not taken]

    def _apart(self, option: Option, *, read: bool) -> None:
        edits = self._of(option.place.passage)
        if option.label is not None and option.label.mark is not None:
            mark = option.label.mark
            self._of(mark.passage).cuts.append((mark.start, mark.end))
        edits.cuts.append((option.place.start, option.place.end))
        if read:
            edits.apart.append(option.place)

    def _gaps(self, item: Item, done: Completed) -> None:
        lettered = next((choice for choice in item.choices if choice.inline is None), None)
        for gap, text in zip(item.gaps, done.filled, strict=True):
            edits = self._of(gap.place.passage)
            if "_" not in gap.place.text:  # what is struck out; its line to write on is no word
                for part in item.prompt:
                    for blank in _BLANKS.finditer(part.passage.text, part.start, part.end):
                        self._of(part.passage).drop(*blank.span())
            if stands_in_sentence(item, gap) or (done.matched is not None and _heads(gap)):
                edits.drop(gap.place.start, gap.place.end)
                continue
            place = (gap.place.start, gap.place.end)
            if text is None and lettered is not None:
                edits.unchecked = True
                text = lettered.options[0].text
            letter = gap.word is not None and " " in gap.word.text and "__" not in gap.word.text
            if text is not None and not (letter and len(_said(item)) == 1):
                edits.fills.append(Fill(*place, text, place, as_is=gap.word is not None))
            elif gap.word is not None:
                edits.drop(*place)
                edits.unchecked = True  # There's a m__se in a h__se: without its words it is no sentence
            if gap.hint is not None:
                self._hint(gap.hint, item, at=gap)
            before = gap.place.passage.text[: gap.place.start].rstrip()
            if (gap.word is not None and before[-1:] in (".", "!", "?")) or asks_another_form(item, gap):
                edits.cuts.append((gap.place.start, gap.place.start))
            if text and text.rstrip()[-1:] in (".", "!", "?") and len(text.split()) >= _SENTENCE:
                self._prompt_words(item, gap)

    def _prompt_words(self, item: Item, gap: Gap) -> None:
        """`Wren / a flute (+) ____`: words to make a sentence of stand apart from the sentence."""
        for place in item.prompt:
            before = place.passage.text[place.start : gap.place.start]
            if place.holds(gap.place) and "/" in before and item.jumble is None:
                edits = self._of(place.passage)
                edits.cuts.append((place.start, gap.place.start))
                at = place.start
                for part in before.split("/"):
                    bare = _BRACKETED.sub("", part)
                    left = at + len(part) - len(part.lstrip())
                    edits.apart.append(Place(place.passage, left, left + len(bare.strip())))
                    at += len(part) + 1

    def _hint(self, hint: Place, item: Item, *, at: Gap) -> None:
        edits = self._of(hint.passage)
        edits.drop(hint.start, hint.end)
        if item.jumble != hint and at.word is None:
            inner = hint.passage.text.index("(", hint.start) + 1
            closing = hint.passage.text.index(")", inner)
            edits.apart.append(Place(hint.passage, inner, closing))

    def _hints(self, item: Item) -> None:
        """What stands behind the sentence for the child to use: `An eagle is ____. (big)`, `… very ____. BRAVERY`."""
        if not item.gaps or (item.jumble is not None and item.jumble.text.startswith("(")):
            return
        for place in item.prompt:
            part = place.passage.text[: place.end]
            for pattern in (_HINT_BEHIND, _HINT_BETWEEN, _CAPITALS):
                match = pattern.search(part, place.start)
                if match is not None and not any(gap.hint and gap.hint.end >= match.end() for gap in item.gaps):
                    edits = self._of(place.passage)
                    edits.cuts.append(match.span())
                    edits.apart.append(Place(place.passage, *match.span(1)))

    def _jumble(self, item: Item, done: Completed) -> None:
        if item.jumble is None or any(gap.hint == item.jumble for gap in item.gaps):
            return
        edits = self._of(item.jumble.passage)
        place = (item.jumble.start, item.jumble.end)
        said = item.answer.text if item.answer is not None else ""
        filled = any(text for text in done.filled) and not any(stands_in_sentence(item, gap) for gap in item.gaps)
        if item.gaps and not filled:
            edits.fills.append(Fill(*place, said, place))
            return
        whole = next((one for one in item.prompt if one.holds(item.jumble) if item.jumble), None)
        end = place[1] if whole is None or item.gaps else whole.end
        edits.fills.append(Fill(place[0], end, "" if filled else said, place))

    def _ends(self, item: Item, option: Option, *, known: bool) -> bool:
        """`A baby cow is a | ☐ calf`: an item that breaks off is read with the option that ends it."""
        last = item.prompt[-1] if item.prompt else None
        text = last.text.rstrip() if last is not None else ""
        if last is None or len(text.split()) < 2 or not text[-1:].isalnum() or not option.text[:1].islower():
            return False
        end = last.start + len(text)
        edits = self._of(last.passage)
        edits.fills.append(Fill(end, last.end, f" {option.text}", (last.start, end)))
        edits.unchecked = edits.unchecked or not known
        return True

    def _joined(self, item: Item, option: Option) -> bool:
        """`If you mix blue and yellow, | you get green.`: the halves of a sentence are read as one."""
        if item.gaps or not item.prompt:
            return False
        last = item.prompt[-1]
        text = last.text.rstrip()
        if text[-1:] in (".", "!", "?", "=") or not option.text[:1].islower():
            return False
        if len(text.split()) < 2 and not text[:1].isupper():
            return False
        if not 2 <= len(option.text.split()) <= _LONGEST_HALF or option.text.rstrip()[-1:] not in (".", "!", "?"):
            return False
        end = last.start + len(text)
        self._of(last.passage).fills.append(Fill(end, last.end, f" {option.text}", (last.start, end)))
        return True

    def _signs(self) -> None:
        """What nobody reads as words: signs of sounds, ticks, arrows, names of speakers, letters by themselves."""
        is_exercise = bool(self.read_as.exercises or self.read_as.boxes)
        said = [plain(answer.text) for one in self.read_as.exercises for answer in one.key.answers]
        lines = page_lines(self.read_as.activity, self.unit, self.read_as.mended)
        for place in dates_in(self.read_as.charts):
            self._of(place.passage).cuts.append((place.start, place.end))
        for passage in {id(line.passage): line.passage for line in lines}.values():
            text = passage.text
            bare = text.strip()
            if passage.audience is not Audience.PUPIL:
                continue
            inside = passage.role is not Role.PANEL and any(
                len(one) >= _SHORTEST and one in bare.casefold() for one in said
            )
            snake = len(bare) >= _SNAKE and bare.isalpha() and inside
            snake = snake or (
                bare.isalpha() and any(" " in one and _letters_of(one) == _letters_of(bare) for one in said)
            )
            letters = passage.role is not Role.PANEL and _LETTERS_ALONE.fullmatch(bare) and len(bare) > len("I")
            grid = passage.role is Role.CELL and len(bare) == 1 and bare.isalpha()
            if snake or grid or (letters and " " in bare):
                self._of(passage).cuts.append((0, len(text)))
                continue
            boxes = list(_TICKS.finditer(text))
            if len(boxes) > 1 and id(passage) not in self._edits:
                edits = self._of(passage)
                edits.only_apart = True
                ends = [*(box.start() for box in boxes[1:]), len(text)]
                edits.apart += [Place(passage, box.end(), end) for box, end in zip(boxes, ends, strict=True)]
                continue
            if not is_exercise:
                continue
            for match in (*_SOUND.finditer(text), *_SIGNS.finditer(text)):
                self._of(passage).drop(*match.span())
            for match in _PICTURE_FIRST.finditer(text):
                self._of(passage).cuts.append((match.end(), match.end()))
            for match in (*_ARROWS.finditer(text), *_SPEAKER.finditer(text)):
                self._of(passage).cuts.append(match.span())


def _is_short(passage: Passage) -> bool:
    """Whether a passage is an option; a paragraph with a letter, to match with a heading, is a text."""
    return len(passage.text.split()) <= _LONGEST_HALF


def _letters_of(text: str) -> str:
    """The letters and figures of a text, whatever stands between them."""
    return "".join(char for char in text.casefold() if char.isalnum())


def _said(item: Item) -> str:
    return plain(item.answer.text) if item.answer is not None else ""


def _heads(gap: Gap) -> bool:
    """Say whether a blank is the place of a title before a paragraph: **1** ____ Listen to the forecast every day."""
    text = gap.place.passage.text
    before = text[: gap.place.start].rpartition("\n")[2]
    return not any(char.isalpha() for char in before) and _PARAGRAPH.match(text, gap.place.end) is not None


def _with(part: Part, passages: tuple[Passage, ...]) -> Part:
    return replace(part, passages=passages)
