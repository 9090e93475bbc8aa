"""A key that does not fit the items: an item without an answer, an answer without an item, a letter nobody can tick.

A teacher marks thirty books by the key in a break; a key that is one short, or says "c" where there are a and b, makes
thirty wrong marks. Items and answers are held together by their labels; an answer must be one of the item's options, of
the column to match, or of the word box; an order must have each step once. "Children's own answers" answers any item.
An activity without a key is left alone; `hornbook outline FILE` shows how a key was read. An answer outside its word
box is asked about. The rest is noted: in fresh courses two of some ninety were slips, the others keys misread.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.page.exercises.answers import alike, is_among, is_told_otherwise, letters_of, plain, range_of
from lint_rules.page.exercises.codes import letters_told, outside_code
from lint_rules.page.exercises.columns import in_column
from lint_rules.page.exercises.completed import is_option
from lint_rules.page.exercises.instructions import each_once, instruction_of
from lint_rules.page.exercises.model import Exercise, Exercises, Item, Slip
from lint_rules.page.exercises.names import heads_a_row, is_remark, other_name, sorted_wrongly
from lint_rules.page.exercises.orders import numbered, numbers_alone, put_in_order
from lint_rules.page.exercises.whose_key import is_of_another, leaves_to_children
from lint_rules.rule import Example, Reading, Rule
from lint_rules.source import Span
from lint_rules.unit_language.asked_items import asks_nothing, is_form, is_one_row
from lint_rules.unit_language.key_doubts import doubts

_ITEMS = "1. The kite is ____.\n2. The hat is ____.\n\n"
_OPTIONS = "1. What is it?\n    a) a kite\n    b) a hat\n\n"


def _key(text: str) -> str:
    return f"::: answers\n{text}\n:::\n"


RULE = Rule(
    name="answers-mismatch",
    family="exercises",
    severity=Severity.NOTE,
    cure="Give the key one answer for each item, labelled as the items are; or mend the items.",
    passes=(
        Example(
            "### 1 Listen. Write.\n\n| Where | Weather | Degrees |\n|---|---|---|\n| north | rain and ____ | ____ |\n"
            "| east | ____ | 9 |\n| west | ____ | 4 |\n\n" + _key("north: wind, 8; east: fog; west: sun"),
            why="a row with two blanks",
        ),
        Example("| | |\n|---|---|\n| 1 Is it a dog? | a No. |\n| 2 Is it a hat? | b Yes. |\n\n" + _key("1 b 2 a")),
        Example(
            "| | A | B | C |\n|---|---|---|---|\n| 1 Who? | ☐ | ☐ | ☐ |\n| 2 Why? | ☐ | ☐ | ☐ |\n"
            "| 3 When? | ☐ | ☐ | ☐ |\n\n" + _key("1 A, 2 A, 3 B"),
            why="boxes to tick",
        ),
        Example(_ITEMS + _key("1 red 2 blue")),
        Example(_ITEMS + _key("Children's own answers.")),
        Example(_ITEMS + _key("1 red\n\nThen children's own answers.")),
        Example(
            "::: words\nred, blue, big\n:::\n\n1. The kite is ____.\n2. The hat is ____.\n3. A dog is ____.\n"
            "4. s____d\n\n" + _key("1 red 2 blue 3 big 4 seed"),
            why="letters of a word are not from the box",
        ),
        Example(
            "1. Hats are ____.\n2. Kites ____.\n3. I can ____.\n\n" + _key("1 red 2 fly (3: children's own answers)"),
            why="left to the children",
        ),
        Example(_OPTIONS + _key("1 b")),
        Example("1. kite\n2. hat\n\na) red\nb) blue\n\n" + _key("1 b 2 a"), why="two columns to match"),
        Example("a) a kite\nb) a hat\n\n" + _key("a) yes\nb) no"), why="letters on both sides"),
        Example(_ITEMS + _key("1. red 2. blue"), why="to Markdown a list of one item"),
        Example(_ITEMS + _key("1. There are 2 cats.\n2. There are 3 cats."), why="figures in the answers"),
        Example(_OPTIONS + _key("1b")),
        Example(_OPTIONS + "::: teacher\n**Answers:** 1 b\n:::\n", why="a key in the notes"),
        Example(_ITEMS + "::: teacher\n**Answers:** In 5–10 minutes. See lesson 3 too.\n:::\n", why="no numbered key"),
        Example("1. How many?\n2. Why?\n\n" + _key("1. 3-4 hats\n2. 2 are red."), why="figures in the answers"),
        Example(_OPTIONS + _key("1 a kite"), why="an option in words"),
        Example("1. She *is / are* here. 2. We *is / are* here.\n\n" + _key("1 is 2 are"), why="items on one line"),
        Example(
            "Word box: go, play, run\n\n1. He ____ home.\n2. She ____ chess.\n3. It ____ fast.\n\n"
            + _key("1 goes 2 plays 3 runs"),
            why="words of the box change their form",
        ),
        Example("0. The sun is *hot*.\n1. Ice is ____.\n2. Fire is ____.\n\n" + _key("1 cold 2 hot"), why="an example"),
        Example(_ITEMS, why="no key"),
        Example("Draw a kite.\n\n" + _key("A kite with a tail."), why="nothing is numbered"),
        Example(
            "### 1 Listen. Write a letter next to each name. {.listening}\n\nPim ____ Tam ____\n\n"
            "a. singing\nb. cooking\nc. reading\n" + _key("- Pim: b – Pim was cooking.\n- Tam: a – Tam was singing."),
            why="letters that are written, one is left over",
        ),
        Example(
            "### 1 Read. Then number the sentences. {.reading}\n\n1. It is hot.\n2. It is cold.\n\nNow you.\n\n"
            "a. ____ It rains.\nb. ____ It snows.\nc. ____ It stops.\n"
            + _key("The order is b, c, a.\n\n1. It snows.\n2. It stops.\n3. It rains."),
            why="the key is of the other row",
        ),
    ),
    fails=(
        Example(
            "### 1 Number the sentences. {.reading}\n\na ____ It flies.\\\nb ____ It is new.\\\nc ____ It falls.\n\n"
            + _key("a 2 b 1 c «2»"),
            why="a number twice",
        ),
        Example(
            "### 1 Write F (farm) or S (sea). {.reading}\n\n1. a cow ____\n2. a shell ____\n3. a hen ____\n"
            "4. a boat ____\n\n" + _key("1 F 2 S 3 F 4 «B»"),
            why="no letter of the code",
        ),
        Example(
            "### 1 Put the pictures in order. {.story}\n\nPicture A: It rains.\nPicture B: It stops.\n"
            "Picture C: We sing.\n\n" + _key("1 «C, 2 A, 3 C»"),
            why="a picture twice",
        ),
        Example(
            "### 1 Do the crossword. {.game}\n\n**Across**\n\n1 It is wet. (4)\n\n3 It is hot. (4)\n\n**Down**\n\n"
            "1 It is red. (4)\n\n2 It is cold. (3)\n\n" + _key("Across: 1 rain, 3 fire\nDown: 1 rose, 2 ice, «4» moon"),
            why="no such clue",
        ),
        Example(
            "| | |\n|---|---|\n| 1 | It is ____. |\n| 2 | «We are ____.» |\n| 3 | I am ____. |\n\n"
            + _key("1 red\n3 sad"),
            why="a number in a cell of its own",
        ),
        Example(
            "### 1 Number the sentences. {.reading}\n\n☐ Hello!\n\n☐ Bye!\n\n☐ Here you are.\n\n☐ Thanks.\n\n"
            + _key("«1 – 4 – 2»"),
            why="boxes alone",
        ),
        Example(
            "### 1 Write the colours: *blue, red* or *white*. {.writing}\n\n**Boat 1** ____\n\n**Boat 2** ____\n\n"
            "**Boat 3** ____\n\n" + _key("1 blue\n2 red\n3 «green»"),
            why="the words stand in the instruction",
            weight=Severity.QUERY,
        ),
        Example("1. The kite is ____.\n«2». The hat is ____.\n\n" + _key("1 red"), why="an item without an answer"),
        Example(
            "1. Hats are ____.\n2. Kites ____.\n«3». We ____.\n4. I am ____.\n5. I can ____.\n\n"
            + _key("1 red\n\n2 fly\n\n4–5 Children's own answers."),
            why="an item without an answer before those left to the children",
        ),
        Example(_ITEMS + _key("1 red 2 blue «3» green"), why="an answer without an item"),
        Example(_ITEMS + _key("1. red 2. blue «3». green")),
        Example(
            "Word box: plate, shade, water\n\n1. Take a ____.\n2. Pour ____.\n3. Put it in the ____.\n\n"
            + _key("1 plate 2 water 3 «shadow»"),
            why="no form of shade",
            weight=Severity.QUERY,
        ),
        Example(_OPTIONS + _key("1 «c»"), why="a letter that is no option"),
        Example(_OPTIONS + _key("1«c»")),
        Example(_OPTIONS + "::: teacher\n**Answers:** 1 – «c»\n:::\n", why="a key in the notes"),
        Example("1. kite\n2. hat\n\na) red\nb) blue\n\n" + _key("1 b 2 «d»")),
        Example(
            "### 1 Read and match. {.reading}\n\n1. A hen. ____\n2. A fox. ____\n3. An owl. ____\n4. A cow. ____\n\n"
            + _key("1 b 2 d 3 a 4 «d»"),
            why="a letter twice, letters of pictures",
        ),
        Example(_OPTIONS + _key("1 «a boat»"), why="no option says so"),
        Example("1. She *is / are* here.\n2. We *is / are* here.\n\n" + _key("1 is 2 «am»"), why="not to choose from"),
        Example(
            "Word box: red, blue, green\n\n1. Grass is ____.\n2. The sky is ____.\n3. A plum is ____.\n\n"
            + _key("1 green 2 blue 3 «purple»"),
            why="not in the word box",
            weight=Severity.QUERY,
        ),
        Example(
            "Word box: has got, have got, hasn't got\n\n1. She ____ red hair.\n2. We ____ a boat.\n3. He ____ a hat.\n"
            "4. I ____ a drum.\n\n" + _key("1 has got\n\n2 have got\n\n3 hasn't got\n\n4 «haven't got»"),
            why="the form is what is to be chosen",
            weight=Severity.QUERY,
        ),
        Example(
            "Word box: gets, feeds, does, don't\n\n1. He ____ up.\n2. She ____ it.\n3. ____ he run?\n4. It ____ go.\n\n"
            + _key("1 gets\n\n2 feeds\n\n3 Does\n\n4 «doesn't»"),
            why="what is like it is another gap's",
            weight=Severity.QUERY,
        ),
        Example(
            "### 1 Put the sentences in order. {.reading}\n\na) It flies.\nb) It is new.\nc) It falls.\n\n"
            + _key("«b, a»"),
            why="a step too few",
        ),
        Example(
            "a) a kite\nb) a hat\n\n" + _key("«1». yes\n2. no"),
            why="letters in the book, numbers in the key",
            weight=Severity.NOTE,
        ),
        Example(_ITEMS + _key("1 red\n«1» blue"), why="the same number twice"),
        Example(
            "".join(
                f"### {at} Write.\n\n{_ITEMS}" + _key(f"1 red\n{'«1»' if at == 1 else '1'} blue") for at in (1, 2, 3)
            ),
            why="so much is wrong that the keys were read amiss: noted once",
            weight=Severity.NOTE,
        ),
    ),
)


_CROSSWORD = lazy_re.compile(r"\b(?:across|crossword)\b", re.I)
_SHORT_ANSWER = 2  # words
_FEWEST = 3
_MISREAD = 3  # slips of one unit's keys: in the judged courses a unit had two at most, and a key read amiss dozens
_MOST_EXTRA = 1  # several too many: all six in the judged courses were items that we had not read, so nothing is said
_BOX_SHARE = 3  # at least two of three answers are words of the box as it has them: else they change their form


def find(reading: Reading) -> Iterator[Found]:
    """Report what does not fit, activity by activity; where very much does not, that the keys were read amiss."""
    boxed, others = list(_boxes(reading)), list(_keys(reading))
    asked = [*boxed, *(one for one in others if one.severity is None)]
    if len(asked) < _MISREAD:
        yield from (replace(one, severity=Severity.QUERY) for one in boxed)
        yield from others
        return
    yield from (one for one in others if one.severity is not None)
    message = (
        f"The keys of this unit do not fit its items in {len(asked)} places, so hornbook reads them otherwise than "
        "they are meant, and checks little by them. `hornbook outline` shows how it reads them."
    )
    first = min(asked, key=lambda one: one.span)
    yield Found(first.span, first.text, message, Severity.NOTE)


def _boxes(reading: Reading) -> Iterator[Found]:
    for read in reading.readings.exercises:
        for exercise in read.exercises:
            yield from _box(exercise, instruction_of(read.activity))


def _keys(reading: Reading) -> Iterator[Found]:
    for read in reading.readings.exercises:
        instruction = read.activity.heading.passage.text
        yield from _found(numbers_alone(read, instruction))
        for exercise in read.exercises:
            yield from _labels(exercise, read)
            yield from _options(exercise)
            yield from _code(exercise, instruction)
            ordered = put_in_order(exercise, instruction), numbered(exercise, instruction)
            for slips in (sorted_wrongly(exercise), *ordered):
                yield from _found(slips)
            in_columns = list(in_column(exercise, instruction))
            # What the script says against one of two equal letters, key-against-text tells at that one.
            own = {id(item.answer) for item in exercise.items}
            doubted = doubts(read, reading.unit) if in_columns else ()
            told = [letters_of(doubt.answer.text) for doubt in doubted if id(doubt.answer) in own]
            yield from _found(slip for slip in in_columns if letters_of(slip.place.text) not in told)


def _found(slips: Iterable[Slip]) -> Iterator[Found]:
    for slip in slips:
        yield Found(slip.place.span, slip.place.text, slip.message)


def _labels(exercise: Exercise, read: Exercises) -> Iterator[Found]:
    items = [item for item in exercise.items if not item.example]
    if "make" in read.activity.kinds and not any(item.gaps or item.choices or item.jumble for item in items):
        return  # steps of something that is made
    labels = [item.label.key for item in items]
    answers = [answer for answer in exercise.key.answers if not is_remark(answer, exercise)]
    if not answers:
        yield from _other_labels(exercise, read, labels)
        yield from _another_count(exercise, read)
        return
    known = {item.label.key for item in exercise.items}
    crossword = any(_CROSSWORD.search(passage.text) for passage in (*read.keys, read.activity.heading.passage))
    if crossword:
        outside = {answer.label.key for answer in answers if answer.label} - known
        if len(outside) != 1 or len(answers) != len(known) + 1:
            return  # numbered by its squares
    answered = [answer.label.text for answer in answers if answer.label]
    if not answered or not labels[0]:
        return
    run = f"The items are {range_of([item.label.text for item in items])}, the key has {range_of(answered)}"
    extra = [answer for answer in answers if answer.label and answer.label.key not in known]
    without = [item for item in items if item.label.key not in {answer.label.key for answer in answers if answer.label}]
    twice = Counter(answer.label.key for answer in answers if answer.label)
    if sum(count > 1 for count in twice.values()) > 1:
        return  # two rows of the same numbers
    other = other_name(extra, without, exercise)
    if other is not None:
        yield from _found([other])
    if len(extra) > _MOST_EXTRA or (extra and without) or len(without) > max(1, len(items) // 6):
        return  # numbered in another way: nothing to hold against it
    weight = None if crossword or is_one_row(items, read) else Severity.NOTE
    counts: Counter[str] = Counter()
    for answer in answers:
        if answer.label is None:
            continue
        label = answer.label
        counts[label.key] += 1
        if counts[label.key] > 1:
            yield Found(label.span, label.text, f"The key answers {label.text} twice. Number this one anew.")
        elif label.key not in known and not (is_of_another(exercise, read, answers) or heads_a_row(label.key, read)):
            yield Found(label.span, label.text, f"{run}: there is no item {label.text} to answer.", weight)
    doubled = any(count > 1 for count in counts.values())
    missing = [item for item in items if item.label.key not in counts and not asks_nothing(item, items)]
    places = [labels.index(key) for key in counts if key in labels]
    if places != sorted(places):
        missing = []  # letters that are written elsewhere, in another order, and perhaps not all: b, e, a, d, c
    if not (exercise.key.own and leaves_to_children(read)) and not doubled and len(missing) * 2 <= len(items):
        for item in missing:
            place = _where(item)
            yield Found(
                *(place or (item.label.span, item.label.text)), f"{run}: item {item.label.text} has no answer.", weight
            )


def _where(item: Item) -> tuple[Span, str] | None:
    """The words of an item whose number has a cell of its own; None where it stands with them."""
    mark = item.label.mark
    cell = mark.passage.cell if mark is not None else None
    if mark is None or cell is None or not item.prompt or item.prompt[0].passage is mark.passage:
        return None
    return item.prompt[0].span, item.prompt[0].text


def _other_labels(exercise: Exercise, read: Exercises, labels: Sequence[str]) -> Iterator[Found]:
    """Letters in the book, numbers in the key, or the other way round."""
    loose = [answer for answer in read.loose if answer.label is not None]
    numbers = {answer.label.text.isdigit() for answer in loose if answer.label}
    if len(read.exercises) > 1 or len(loose) < 2 or len(numbers) != 1 or len(loose) != len(labels) or not all(labels):
        return
    if any(letters_of(answer.text) or plain(answer.text).isdigit() for answer in loose):
        return  # `1 c, 2 a`: an order of lettered things
    if labels[0].isdigit() not in numbers:
        shown, given = range_of(labels), range_of([answer.label.text for answer in loose if answer.label])
        label = loose[0].label  # told once: it is one decision
        if label is not None:
            message = f"The items are {shown}, the key has {given}: label the answers as the items are labelled."
            yield Found(label.span, label.text, message, Severity.NOTE)


def _another_count(exercise: Exercise, read: Exercises) -> Iterator[Found]:
    """A key without labels that has one answer too few or too many."""
    items = [item for item in exercise.items if not item.example and (item.gaps or item.choices)]
    loose = read.loose
    short = all(answer.label is None and 0 < len(answer.text.split()) <= _SHORT_ANSWER for answer in loose)
    if len(read.exercises) > 1 or len(items) < _FEWEST or len(items) != len(exercise.items) or not short:
        return
    if abs(len(loose) - len(items)) == 1 and any(item.label.text for item in items):
        first, last = loose[0].place, loose[-1].place
        if first.passage is last.passage:
            message = f"There are {len(items)} items, and the key has {len(loose)} answers. Give one for each."
            words = first.passage.text[first.start : last.end]
            yield Found(first.passage.span(first.start, last.end), words, message)


def _options(exercise: Exercise) -> Iterator[Found]:
    """An answer must be one of the options, by its letter or its words."""
    fits = [is_option(item) for item in exercise.items]
    told, wrong = sum(fit is not None for fit in fits), sum(fit is False for fit in fits)
    sure = wrong * 3 <= told or (wrong == 1 and told < 3)
    for item, fit in zip(exercise.items, fits, strict=True):
        answer = item.answer
        if answer is None or fit is not False or len(item.choices) != 1 or not sure:
            continue
        choice = item.choices[0]
        lettered = all(option.label is not None for option in choice.options)
        if not lettered and not any(fit is True for fit in fits):
            continue
        if is_told_otherwise(answer.text, choice.options):
            continue
        shown = ", ".join(option.label.text if option.label else f"“{option.text}”" for option in choice.options)
        message = f"Item {item.label.text} has the options {shown}; “{answer.text}” is none of them."
        yield Found(answer.place.span, answer.text, message)


def _box(exercise: Exercise, instruction: str) -> Iterator[Found]:
    """An answer must be a word of the box, where the answers are words of the box as it has them."""
    box = exercise.box
    if box is None or box.instead:
        return
    words = {plain(word.text) for word in box.words}
    given = [item.answer for item in exercise.items if item.answer is not None and item.gaps and not item.choices]
    outside = [answer for answer in given if not is_among(answer.text, words)]
    spelt = {id(item.answer) for item in exercise.items if any(gap.word is not None for gap in item.gaps)}
    outside = [answer for answer in outside if id(answer) not in spelt]  # s____d: letters of a word
    gaps = sum(len(item.gaps) for item in exercise.items)
    if len(outside) != 1 or len(given) < _BOX_SHARE or (gaps > len(words) and each_once(instruction)):
        return
    answer = outside[0]
    forms = sum(any(alike(one, other) for other in words - {one}) for one in words)
    left = words - {plain(one.text) for one in given}
    meant = left if len(left) <= 1 and gaps >= len(words) else words  # what no other gap takes
    if forms * 2 <= len(words) and any(is_form(plain(answer.text), word) for word in meant):
        return  # another form of a word of the box; not where forms are what is to be chosen: has got, hasn't got
    message = f"“{answer.text}” is not in the word box. Put it there, or give the word that is."
    yield Found(answer.place.span, answer.text, message)


def _code(exercise: Exercise, instruction: str) -> Iterator[Found]:
    """A letter must be one of those that the instruction gives: `Write F (farm) or S (seaside)`."""
    answer = outside_code(exercise, instruction)
    if answer is not None:
        told = ", ".join(letters_told(instruction))
        message = f"The instruction gives the letters {told}; “{answer.text}” is none of them."
        yield Found(answer.place.span, answer.text, message)
