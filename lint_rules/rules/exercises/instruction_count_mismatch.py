"""An instruction that says a number which the page does not have: six questions where there are five.

Children count. With "Find seven colours" and five in the square the quick ones search on when they should be done.
Nothing is counted that children write freely (`Write three sentences about your friend`), nor what the page does not
number; a chart for a survey counts by the classmates that it has room for.
"""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Unit
from lint_rules.page.charts import charts_of
from lint_rules.page.exercises.answers import left_open, plain
from lint_rules.page.exercises.instructions import PEOPLE, Asked, asked_for, named_in, numbers_in, spare_words
from lint_rules.page.exercises.model import Exercises, Item, Place
from lint_rules.page.number_words import in_words
from lint_rules.rule import Example, Reading, Rule

_FIVE = "".join(f"{number}. {text}? ____\n" for number, text in enumerate(["Who", "What", "Where", "When", "Why"], 1))

RULE = Rule(
    name="instruction-count-mismatch",
    family="exercises",
    severity=Severity.QUERY,
    since="0.2",
    cure="Say the number that the page has, or give the page as many.",
    passes=(
        Example(f"### 1 Ask your partner five questions. {{.speaking}}\n\n{_FIVE}"),
        Example(f"### 1 Answer. Write two sentences about your family. {{.writing}}\n\n{_FIVE}", why="written freely"),
        Example("### 1 Find two animals. {.game}\n\n::: answers\ncat, dog, hen. Any two of these will do.\n:::\n"),
        Example(
            "### 1 Draw it. Write two sentences. {.writing}\n\nThere is ____ here. The ____ is ____.\n\n"
            "::: answers\nFor example: There is a cat here. The cat is old.\n:::\n",
            why="two sentences with three gaps",
        ),
        Example("### 1 Write six words. {.writing}\n\nGo!\n", why="the page numbers nothing"),
        Example("### 1 Write one word in each gap. {.writing}\n\n1. A ____ is red.\n2. A ____ is big.\n"),
        Example(f"### 1 Put three words together. {{.writing}}\n\n{_FIVE}", why="in each item"),
        Example(
            "### 1 Write. There is one extra word. {.writing}\n\nWord box: hat, kite, cat\n\n"
            "1. A ____ is warm.\n2. A ____ flies.\n\n::: answers\n1 hat 2 kite\n:::\n"
        ),
        Example(
            "### 1 Write. There are two extra words. {.writing}\n\nWord box: hat, kite, cat\n\n"
            "1. Two ____ are warm.\n2. A ____ flies.\n\n::: answers\n1 hats 2 kite\n:::\n",
            why="words change their form",
        ),
        Example("### 1 There are nine animals in the sea. Write two. {.game}\n\n::: answers\nseal, crab\n:::\n"),
        Example("### 1 Find two animals. {.game}\n\ncatdog\n\n::: answers\ncat, dog\n:::\n"),
        Example(
            "### 1 Find three mistakes. One sentence is right. {.mistakes}\n\n"
            "1. He go.\n2. I goes.\n3. We are.\n4. It are.\n"
        ),
        Example(
            "### 1 Circle two words with ee. {.sounds}\n\n1. tree, drum, feet\n2. green, mask, three\n"
            "3. flag, see, street\n4. sleep, loud, queen\n\n"
            "::: answers\n1. **tree** and **feet**\n2. **green** and **three**\n3. **see** and **street**\n"
            "4. **sleep** and **queen**\n:::\n",
            why="in each line",
        ),
        Example(f"### 1 Find the four strange words. {{.sounds}}\n\n{_FIVE}", why="among others"),
    ),
    fails=(
        Example(
            "### 1 Write. There are «two extra words». {.writing}\n\nWord box: hat, kite, cat\n\n"
            "1. A ____ is warm.\n2. A ____ flies.\n\n::: answers\n1 hat 2 kite\n:::\n"
        ),
        Example(
            "### 1 There are «three animals» in this line. Circle them. {.game}\n\nsealcrab\n\n"
            "::: answers\nseal, crab\n:::\n"
        ),
        Example(
            "### 1 Here are «three answers». Write the questions. {.writing}\n\n"
            "1. ____? – I'm six.\n2. ____? – I'm Ida.\n\n::: answers\n1 How old are you 2 Who are you\n:::\n"
        ),
        Example(
            "### 1 Write «three sentences» about your home. {.writing}\n\n1. ________\n2. ________\n", why="two lines"
        ),
        Example("### 1 Find «three words» about the sea. {.game}\n\nfishXboat\n\n::: answers\nfish, boat\n:::\n"),
        Example(f"### 1 Ask your partner «six questions». {{.speaking}}\n\n{_FIVE}"),
        Example("### 1 Find «three animals». {.game}\n\ncatdog\n\n::: answers\ncat, dog\n:::\n", why="by the key"),
        Example(
            "### 1 Ask «four friends». {.survey}\n\n| Name | Pet |\n|---|---|\n| | |\n| | |\n| | |\n", why="three"
        ),
    ),
)  # fmt: skip

_EACH_TIME = lazy_re.compile(
    r"\s+(?:together|side by side|(?:in|for|on|to|from|with|about|of|under|beside) (?:each|every)|each time)\b", re.I
)
_HELP = 3  # words of what helps with a line
_OF_CHILDREN = lazy_re.compile(r"\bown\b", re.I)  # children's own sentences, for example I went to the lake
_THOSE = lazy_re.compile(r"\s+(?:with|that|which)\b")  # find the five words with ee: among others
_ABOUT = lazy_re.compile(r"\babout\s+(?:the\s+|these\s+|your\s+)?$", re.I)
_COMPARED = lazy_re.compile(r"\b(?:differen\w+|compare|same|both|spot)\b", re.I)
_ONE_PERSON = lazy_re.compile(r"(?:person|friend|child|partner|pupil|classmate|student)\s*\d", re.I)
_NEAR = 3  # a number that is further off counts something else

_APART = lazy_re.compile(r"\b(?:strange|odd|different|wrong|other|false|silly|funny)\b", re.I)
_SOME_RIGHT = lazy_re.compile(r"\b(?:one|two|three|some)\b[^.!?]*\b(?:is|are)\s+(?:right|correct|true)\b", re.I)
_ANY_OF_THESE = lazy_re.compile(r"\bany\b[^.\n]{0,20}\bof (?:these|them|the)\b", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report numbers of instructions that the page does not have."""
    for read in reading.readings.exercises:
        passage = read.activity.heading.passage
        yield from _spare(read)
        if any(_ANY_OF_THESE.search(key.text) for key in read.keys):
            continue  # Any five of these will do: more are given than asked for
        by_number = [(asked, _counted(read, asked, reading.unit)) for asked in asked_for(passage.text)]
        by_number += [(asked, _writing_lines(read, asked)) for asked in named_in(passage.text)]
        for asked, counts in by_number:
            if _EACH_TIME.match(passage.text, asked.end) or _ABOUT.search(passage.text, 0, asked.start):
                continue  # Put two words together: in each item; write about two animals: in as many lines as it takes
            apart = _APART.search(passage.text, asked.start, asked.end) or _SOME_RIGHT.search(passage.text)
            if asked.verb.split()[0] in ("find", "circle", "underline") and not read.keys:
                apart = apart or _THOSE.match(passage.text, asked.end)
            if asked.number == _paragraphs(read) or apart:
                continue  # two strange words, or three mistakes and one that is right: among others
            if asked.noun == "pictures" and _COMPARED.search(passage.text):
                continue  # what is to be found in them is counted, not the pictures
            if counts and asked.number not in counts and min(abs(one - asked.number) for one in counts) <= _NEAR:
                there = in_words(min(counts, key=lambda one: (abs(one - asked.number), -one)))
                words = passage.text[asked.start : asked.end]
                message = f"The instruction says {in_words(asked.number)}; the page has {there}. Make them agree."
                yield Found(passage.span(asked.start, asked.end), words, message)


def _paragraphs(read: Exercises) -> int:
    """How many paragraphs have gaps: what a number may count, and is not held against."""
    items = [item for exercise in read.exercises for item in exercise.items if not item.example]
    return len({id(gap.place.passage) for item in items for gap in item.gaps})


def _spare(read: Exercises) -> Iterator[Found]:
    """`There are two extra words`: as many words of the box as no gap takes."""
    passage = read.activity.heading.passage
    told = spare_words(passage.text)
    with_box = [one for one in read.exercises if one.box is not None]
    if told is None or len(with_box) != 1 or len(read.boxes) != 1 or read.own:
        return
    number, start, end = told
    items = [item for item in with_box[0].items if item.gaps or item.answer is not None or item.example]
    used = {plain(item.answer.text) for item in items if item.answer is not None}
    shown = {plain(item.text) for item in items if item.example}
    words = [plain(word.text) for word in read.boxes[0].words]
    spare = [word for word in words if word not in used and not any(word in text for text in shown)]
    known = used <= set(words) and len(used) == sum(not item.example for item in items) > 1
    if known and len(spare) != number:
        message = (
            f"The instruction says {in_words(number)} left over; no gap takes {in_words(len(spare))} of the words."
        )
        yield Found(passage.span(start, end), passage.text[start:end], message)


def _counted(read: Exercises, asked: Asked, unit: Unit) -> set[int]:
    """What the number could count; of what is written freely the lines, if no other number counts them."""
    counts = _writing_lines(read) if asked.free else _counts(read, asked, unit)
    return counts if counts.isdisjoint(numbers_in(read.activity.heading.passage.text)) else set()


def _writing_lines(read: Exercises, named: Asked | None = None) -> set[int]:
    """The numbered lines to write on, where a page has nothing else but words to help beside them: they count even
    what is written freely. ``named`` are things that the lines name; what is only to be looked at stands beside each
    line: `1 ____ tent`."""
    if len(read.exercises) != 1 or read.lines:
        return set()
    items = read.exercises[0].items
    tables = {_table(place) for item in items for place in item.prompt}
    if any(_table(place) not in tables for place in read.charts):
        return set()
    if named is not None and named.verb == "look at":
        lines = all(_stands_beside(named.noun, item) for item in items)
    else:
        lines = all(_is_line(item) for item in items)
    return _with_done(read) if lines and len(items) > 1 else set()


def _with_done(read: Exercises) -> set[int]:
    """The number of all items; one more too where something stands before the first in its line: `0 Monday 1 ____`."""
    items = [item for exercise in read.exercises for item in exercise.items]
    mark = items[0].label.mark if items else None
    done = mark is not None and any(char.isalnum() for char in mark.passage.text[: mark.start])
    return {len(items), len(items) + done}


def _stands_beside(noun: str, item: Item) -> bool:
    """Whether an item is a line to write on and one of the things: `1 ____ tent`."""
    words = re.findall(r"[^\W\d_]+", item.text.casefold())
    return (
        len(item.gaps) == 1 and len(words) == 1 and words[0] in (noun, noun.removesuffix("s"), noun.removesuffix("es"))
    )


def _is_line(item: Item) -> bool:
    """Whether an item is a line to write on, right behind its number: no field of a form, no sentence with a gap."""
    if len(item.gaps) != 1 or item.choices:
        return False
    first, *beside = item.prompt
    gap = item.gaps[0]
    hint = gap.hint.text if gap.hint is not None else ""
    bare = first.holds(gap.place) and not any(char.isalnum() for char in first.text.replace(hint, " "))
    return bare and all(len(place.text.split()) <= _HELP for place in beside)


def _table(place: Place) -> int:
    return place.passage.cell.table if place.passage.cell is not None else -1


def _counts(read: Exercises, asked: Asked, unit: Unit) -> set[int]:
    """What the number could count: items, gaps, answers, words of a box, rows of a chart."""
    if asked.noun in PEOPLE:
        rooms = {chart.room for chart in charts_of(unit, read.activity) if chart.room > 1}
        heads = sum(_ONE_PERSON.fullmatch(place.text.strip()) is not None for place in read.charts)
        return {heads} if heads > 1 else rooms
    counts: set[int] = set()
    for exercise in read.exercises:
        items = [item for item in exercise.items if not item.example]
        counts |= {len(items), sum(len(item.gaps) for item in items), len(exercise.key.order)}
        counts |= {sum(len(item.prompt) > 0 for item in items), len(exercise.column)}
        counts.add(sum(len(item.answer.text.split(",")) for item in items if item.answer is not None))
        counts |= {len(choice.options) for item in items for choice in item.choices}
        each = {len(_entries(item.answer.text)) for item in items if item.answer is not None}
        counts |= each if len(each) == 1 else set()  # two words in each line
    counts |= _with_done(read)
    if not read.exercises or asked.verb.split()[0] in ("find", "circle", "underline", "tick", "there"):
        given = [answer for answer in read.loose if not (left_open(answer.text) or _OF_CHILDREN.search(answer.text))]
        each_of = [len(_entries(answer.text)) for answer in given]
        counts |= {len(given), sum(each_of), *each_of}
    if asked.noun == "questions" and not read.exercises:
        counts.add(len({_row(place) for place in read.charts if place.text.rstrip().endswith("?")}))
        counts.add(_listed_questions(read))
    if asked.noun == "sentences":
        counts.add(_sentences_with_gaps(read))
    counts |= {len(read.lines)} | {len(box.words) for box in read.boxes}
    pictures = len(read.activity.part.pictures) + sum(len(p.pictures) for p in read.activity.part.passages)
    return {*counts, pictures} - {0, 1} if counts - {0, 1} else set()


def _sentences_with_gaps(read: Exercises) -> int:
    """The sentences of the paragraphs with gaps: There is ____ here. The ____ is ____."""
    items = [item for exercise in read.exercises for item in exercise.items if not item.example]
    texts = {id(gap.place.passage): gap.place.passage.text for item in items for gap in item.gaps}
    return sum(len(re.findall(r"[.!?](?=\s|$)", text)) for text in texts.values())


def _listed_questions(read: Exercises) -> int:
    """The questions of the one list that a page has; 0 where it has several, or other things in it."""
    listed = [passage for passage in read.activity.part.passages if passage.item is not None]
    entries = {passage.item for passage in listed if passage.item is not None}
    one_list = len({item.list for item in entries}) == 1 and all(one.text.rstrip().endswith("?") for one in listed)
    return len(entries) if one_list else 0


def _row(place: Place) -> tuple[int, int]:
    cell = place.passage.cell
    return (cell.table, cell.row) if cell is not None else (0, place.passage.block.start)


def _entries(text: str) -> list[str]:
    """What an answer lists: by commas, or by dashes, dots and *and* where it has no comma."""
    between = "," if "," in text else r"\s[–—-]\s|[·•;/]|\sand\s"
    return [part for part in re.split(between, text) if plain(part)]
