"""A number, a yes or a no in the key that the text, the script or the picture of the task contradicts.

The pupil counts four ducks, the key says three; the e-mail sells thirty papers, and the key calls forty true; the story
says that Mimo is a cat, and the key says no. A wrong key is what publishers dread most: every class finds it, after the
book is printed. Numbers, statements that the text makes or denies word for word (or of somebody else), and words that a
numbered script does not say are the part of it that can be seen without understanding the text; so is the one answer
that is nowhere in the script or the picture of its task, where all the others are. Nothing is asked of
sums, of years, of what children count out of a text, nor where the number can be reckoned from those of the texts.
"""

import re
from collections.abc import Iterator, Sequence

from lint_rules import lazy_re
from lint_rules.finding import Found, Severity
from lint_rules.manuscript.model import Passage
from lint_rules.page.deliberate import is_wrong_on_purpose
from lint_rules.page.exercises.answers import plain, yes_or_no
from lint_rules.page.exercises.completed import completed, completed_sentence
from lint_rules.page.exercises.model import Exercise, Item
from lint_rules.page.exercises.statements import bare_statement, is_said, told_of
from lint_rules.page.exercises.unheard import never_heard
from lint_rules.page.number_words import numbers_in, spellings_of_figure
from lint_rules.rule import Example, Limit, Reading, Rule
from lint_rules.tables import words
from lint_rules.unit_language.asked_items import how_many
from lint_rules.unit_language.counted_things import miscounted_thing
from lint_rules.unit_language.key_doubts import Doubt, doubts, doubts_of_texts
from lint_rules.unit_language.option_support import better_option
from lint_rules.unit_language.texts_around import LARGE, Around, around_each, numbers_pictured, other_number, single

_BEHIND_GAP = lazy_re.compile(r"(?<=__) ([a-z]+)")
_COUNTED = "### 1 Count. {.writing}\n\n::: art\nDrawing: four ducks on a pond.\n:::\n\n1. How many ducks? ____\n\n"
_SOLD = "We wrote it on Monday. We sold thirty papers in our village, and fifteen in town.\n\n"
_PLAY = "Is Pim in the black hat? No! It's Mimo, my cat. Is the hat red? And the bag isn't empty, says Granny Oon.\n\n"

_SEEN = "### 1 Read. Circle yes or no.\n\n" + "".join(
    f"{number}. ![{shown}](art/{shown}.svg) It's a {said}. Yes / No\n"
    for number, (shown, said) in enumerate([("cat", "cat"), ("dog", "cow"), ("hen", "letter"), ("bee", "bee")], 1)
)
_WAITED = (
    "A friend sat beside me. At six o'clock Nela was waiting at the bus stop for her grandpa.\n\n"
    "### 1 Read. Choose.\n\n"
    "1. Who was Nela waiting for at the bus stop?\n   a) her mum\n   b) her cat\n   c) her grandpa\n"
)

_HEARD = (
    "### 1 Listen and colour. {.listening audio=1.7}\n\n::: {.audio track=1.7}\n"
    + "".join(
        f"TULI: Number {number}. It's a {thing}. It's {colour}.\n\n"
        for number, thing, colour in (
            ("one", "frog", "green"),
            ("two", "boat", "red"),
            ("three", "snake", "blue"),
            ("four", "bird", "yellow"),
        )
    )
    + ":::\n"
)
_AT_THE_END = (
    "### 1 Listen. {.listening audio=1.7}\n\n### 2 Read. Yes or no? {.reading}\n\nHere is Tuli. It is a frog.\n\n"
    "1. It runs. ____\n2. It sings. ____\n3. It is a frog. ____\n4. It is Tuli. ____\n5. It is red. ____\n\n"
    "::: answers\n1 no, 2 no, 3 yes, 4 yes, 5 no\n:::\n\n" + _HEARD.partition("\n\n")[2]
)
_READER = "Moss has got a hundred and twenty books, and his sister ninety.\n\n### 1 Read and write.\n\n"
_ASKED = (
    "“Perhaps he is busy,” said Tam.\n\n“Who comes here in this rain?” asked Nell.\n\n"
    "### 1 Who said it? Write the names. {.reading}\n\n1. “Who comes here in this rain?” ____\n"
    "2. “Perhaps he is busy.” ____\n"
)
_PRICES = (
    "### 1 Read the prices. Write. {.reading}\n\n| Food | Price |\n|---|---|\n| a jar of honey | 6 euros |\n"
    "| a jar of olives | 3 euros |\n| a bag of tomatoes | 2 euros 20 |\n\n1. How much is the honey? ____\n"
    "2. How much are the olives? ____\n3. How much are the tomatoes? ____\n"
)
_SEWN = (
    "Granny has got a needle and thread. She sews the button on the coat.\n\n"
    "### 1 Read. True or false?\n\n1. Clank sews the button on the coat.\n"
)
_FLOUR = (
    "### 1 Listen and write the number. {.listening audio=1.6}\n\n1. There are ____ eggs.\n"
    "2. There are ____ bags of flour.\n3. There are ____ plates.\n\n::: {.audio track=1.6}\n"
    "FENNO: There are eight eggs. There are five bags of flour. And there are four plates.\n:::\n"
)

_DRAWN = (
    "### 1 Listen. Yes or no?\n\n::: art\n1 green hat. 2 red kite. 3 blue fish. 4 big cat.\n:::\n\n1. yes / no\n"
    "2. yes / no\n3. yes / no\n4. yes / no\n\n::: {.audio track=1.1}\nA: One. A green hat.\n\nA: Two. It's an egg.\n\n"
    "A: Three. A fish. It's red.\n\nA: Four. It's a cat. It's big.\n:::\n\n"
)
_ROOM = (
    "### 1 Look. True or false?\n\n::: art\nA clock is on the wall. Three lamps are on the table. A cat is under the "
    "bench.\n:::\n\n1. There is a clock on the wall.\n2. There are four lamps on the table.\n"
    "3. There is a cat under the bench.\n4. There is a cat on the table.\n"
)
_MATCHED = (
    "### 1 Match. {.reading}\n\n::: art\na: a duck. b: a bear. c: an owl. d: a fox.\n:::\n\n1. bear\n2. fox\n3. duck\n"
    "4. owl\n"
)
_TREE = "Look! There is an old tree behind the school, and a cat in it.\n\n### 1 True or false?\n\n"

_SHOWN = (
    "### 1 Look and write.\n\n::: art\nFour boxes: 1 a red dress, 2 a big hat, 3 a green sock, 4 a black coat.\n:::\n\n"
    "1. a red ____\n2. a big ____\n3. a green ____\n4. a black ____\n"
)
_STOPPED = (
    "### 1 Listen and choose. {.listening audio=1.7}\n\n1. The clock stopped at ____.   A 7.20   B 7.40   C 8.20\n"
    "2. My coat is ____.   A blue   B green   C grey\n3. It needs ____.   A glue   B a nail   C a screw\n"
    "4. The dog is ____.   A old   B wet   C sad\n\n::: {.audio track=1.7}\nLARK: My clock stopped at twenty to eight. "
    "My coat is green, and my dog is wet.\n\nFINN: It needs a screw.\n:::\n"
)


def _key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


def _apart(key: str) -> str:
    """The page with its key, and the script behind it, in a lesson of its own."""
    heading, script = _HEARD.split("\n\n", 1)
    return f"{heading}\n{_key(key)}\n## Audio scripts\n\n{script}"


RULE = Rule(
    name="key-against-text",
    family="exercises",
    severity=Severity.QUERY,
    cure="Read the text and the key side by side, and mend the one that is wrong.",
    passes=(
        Example(_COUNTED + _key("1 four")),
        Example(_COUNTED.replace("Count", "How many more? Add two") + _key("1 six"), why="a sum"),
        Example(_SOLD + "### 1 True or false?\n\n1. They sold thirty papers. ____\n" + _key("1 true")),
        Example(_SOLD + "### 1 True or false?\n\n1. They sold forty papers. ____\n" + _key("1 false")),
        Example(_SOLD + "### 1 True or false?\n\n1. They sold forty-five papers. ____\n" + _key("1 true"), why="a sum"),
        Example(
            _COUNTED.replace("ducks?", "ducks do you know?") + _key("1 Own answers, e.g. 25 ducks"), why="anybody's"
        ),
        Example(_PLAY + "### 1 Yes or no?\n\n1. Mimo is a cat.\n2. Mimo is a dog.\n" + _key("1 yes\n2 no")),
        Example(
            "### 1 Yes or no?\n\n1. The small brown cat is in the old box.\n" + _key("1 no") + "\n### 2 Correct it.\n\n"
            "1. The small brown cat is in the old box. ____\n" + _key("1 The small brown cat is in the bag."),
            why="another exercise is no text",
        ),
        Example(
            "The cat is black but it has no tail, and Tom likes ducks. The bag of the old woman is heavy.\n\n"
            "### 1 Yes or no?\n\n1. The cat is black.\n2. The old woman is heavy.\n3. Tom likes ducks.\n"
            + _key("1 yes\n2 no\n3 yes"),
        ),
        Example(_PLAY + "### 1 Yes or no?\n\n1. The hat is red.\n" + _key("1 no"), why="the text only asks"),
        Example(_WAITED + _key("1 c")),
        Example(_WAITED.replace("mum", "friend") + _key("1 a"), why="the text has a friend, not far off"),
        Example(
            "**Ben:** That goose likes pea soup best of all things!\n\n### 1 Read. Choose.\n\n"
            "1. Who likes pea soup best of all?\n   a) Ben\n   b) Tam\n" + _key("1 b"),
            why="who speaks of another",
        ),
        Example(
            "We sold thirty papers in our village, and fifteen in town.\n\n### 1 How many? Write.\n\n"
            "| Mon | Tue | Wed |\n|---|---|---|\n| 4 | 6 | 9 |\n\n1. How many papers are there? ____\n" + _key("1 19"),
            why="reckoned from a table",
        ),
        Example(_SEEN + _key("1 Yes 2 No 3 No 4 Yes")),
        Example(_SEEN + _key("1 Yes 2 Yes 3 Yes 4 Yes"), why="the pictures may show more than they are called"),
        Example(_ASKED + _key("1 Nell\n2 Tam")),
        Example(_TREE + "1. The tree is behind the school.\n2. The tree is in the school.\n" + _key("1 T\n2 F")),
        Example(
            "The red ball is under the table. The blue ball is on it.\n\n### 1 True or false?\n\n"
            "1. The blue ball is on the table.\n2. The red ball is on the table.\n" + _key("1 T\n2 F"),
            why="another ball",
        ),
        Example(_ASKED + _key("1 Cousin Nell\n2 Tam")),
        Example(
            "Nilu and Otto go to the stage. A man is standing there. He is wearing a striped scarf.\n\n"
            "### 1 Yes or no?\n\n1. Mr Dray is wearing a striped scarf.\n" + _key("1 yes"),
            why="who he is stands elsewhere",
        ),
        Example(_PRICES + _key("1 6 euros\n2 3 euros\n3 2 euros 20")),
        Example(_PRICES + _key("1 6 euros\n2 9 euros\n3 6 euros"), why="two bags, and another sum"),
        Example(_HEARD + _key("1 green; 2 red; 3 blue; 4 yellow")),
        Example(_SHOWN + _key("1 dress, 2 hat, 3 sock, 4 coat")),
        Example(_STOPPED + _key("1 B 2 B 3 C 4 B"), why="twenty to eight is 7.40"),
        Example(_DRAWN + _key("1 yes; 2 no; 3 no; 4 yes")),
        Example(_SEWN.replace("1. Clank", "1. Granny") + _key("1 T")),
        Example(_READER + "1. How many books has Moss got? ____\n" + _key("1 120")),
        Example(_apart("1 green; 2 red; 3 blue; 4 yellow")),
        Example(_AT_THE_END, why="the lesson's scripts stand at its end: this one is Activity 1's"),
        Example(_FLOUR + _key("1 eight, 2 five, 3 four")),
        Example(_ROOM + _key("1 T; 2 F; 3 T; 4 F")),
        Example(_MATCHED + _key("1 b; 2 d; 3 a; 4 c")),
    ),
    fails=(
        Example(_COUNTED + _key("1 «three»")),
        Example(_SOLD + "### 1 True or false?\n\n1. They sold «forty» papers. ____\n" + _key("1 true")),
        Example(_PLAY + "### 1 Yes or no?\n\n1. Mimo is a cat.\n" + _key("1 «no»")),
        Example(
            "There is an owl in the old tree, and it sleeps all day.\n\n### 1 Read. Answer.\n\n"
            "1. Is there an owl in the old tree? ____\n" + _key("1 «no»")
        ),
        Example(_PLAY + "### 1 True or false?\n\n1. The bag is empty.\n" + _key("1 «true»")),
        Example(
            _SOLD + "### 1 Read and answer.\n\n1. How many papers did they sell? ____\n" + _key("1 They sold «forty».")
        ),
        Example(_HEARD + _key("1 green; 2 red; 3 «yellow»; 4 yellow"), why="it is blue"),
        Example(_SHOWN + _key("1 dress, 2 hat, 3 «shoe», 4 coat"), why="a sock is drawn there"),
        Example(_STOPPED + _key("1 «A» 2 B 3 C 4 B"), why="twenty to eight is 7.40"),
        Example(_apart("1 green; 2 red; 3 «yellow»; 4 yellow"), why="the script stands elsewhere"),
        Example(_DRAWN + _key("1 yes; 2 no; 3 «yes»; 4 yes"), why="blue is drawn, and red told of"),
        Example(_READER + "1. How many books has Moss got? ____\n" + _key("1 «150»")),
        Example(_SEWN + _key("1 «T»"), why="Granny sews it"),
        Example(_FLOUR + _key("1 eight, 2 «three», 3 four")),
        Example(_ROOM + _key("1 T; 2 «T»; 3 T; 4 F"), why="three lamps are drawn"),
        Example(_MATCHED + _key("1 b; 2 d; 3 «c»; 4 a"), why="two pictures have changed places: told once"),
        Example("Where is the hut? It's on a hill.\n\n### 1 True?\n\n1. The hut is on a hill.\n" + _key("1 «no»")),
        Example(_TREE + "1. The tree is in the school.\n" + _key("1 «T»"), why="it is behind it"),
        Example(_ASKED + _key("1 «Pip»\n2 Tam"), why="Nell asks"),
        Example(
            "Pipsa is small and white. She can sing. She can't climb.\n\n### 1 True or false?\n\n"
            "1. Pipsa can't sing.\n2. Pipsa can't climb.\n" + _key("1 «true»\n2 true"),
            why="she can",
        ),
        Example(_PRICES + _key("1 6 euros\n2 3 euros\n3 «6 euros»"), why="the price of the honey"),
        Example(_WAITED + _key("1 «a»"), why="the text has no mum"),
        Example(_SEEN + _key("1 Yes 2 No 3 «Yes» 4 Yes"), why="a hen is no letter"),
        Example(
            "### 1 Count.\n\n::: art\nDrawing: two boats, four birds, three cats and five hats.\n:::\n\n"
            "1. How many boats?\n2. How many birds?\n3. How many cats?\n4. How many hats?\n"
            + _key("1. Two boats.\n2. Four birds.\n3. «Four» cats.\n4. Five hats."),
            why="four is the number of birds",
        ),
        Example(
            "There is a cat on the roof of the school. It looks at the sky. Nela was waiting at the bus stop for her "
            "grandpa.\n\n" + _WAITED.partition("\n\n")[2] + _key("1 «b»"),
            why="the cat stands far from the words of the question",
        ),
        Example(
            "### 1 Read. {.story}\n\n**1** Is Pim next to the wall? There is a boat next to the wall.\n\n"
            "**2** He is home.\n\n"
            "### 2 True or false?\n\n1. There is a boat next to the wall.\n2. Pim is home.\n"
            + _key("1 «false»\n2 true"),
            why="the parts of the story have numbers",
        ),
    ),
    limits=(Limit("numbers from 13 on are not counted out of a text by children", "common practice, no source"),),
)

_SUM = lazy_re.compile(
    r"\b(?:add|sums?|plus|minus|more|left|altogether|in all|total|count on|maths|double|half)\b|[+×÷=]", re.I
)
_OPEN = lazy_re.compile(r"\bown\b|\be\.?g\b|\bor\b|/|\bexample\b", re.I)  # another answer may be right
_OF_THE_CHILD = lazy_re.compile(r"\byour\b|(?<!\bcan )\byou\b", re.I)  # not: How many coins can you see?
_POSSIBLE = lazy_re.compile(r"\b(?:can|could|may|wants?|needs?) (?:buy|have|get|take|eat|bring)\b", re.I)
_DENIED = lazy_re.compile(r"\b(?:not|never)\b|n['’]t\b", re.I)


def find(reading: Reading) -> Iterator[Found]:
    """Report numbers that the key holds for right and the texts do not have, where they have another."""
    for around in around_each(reading.unit, reading.readings.exercises):
        read, answered = around.read, around.answered
        if not (answered or read.loose) or _SUM.search(read.activity.heading.passage.text):
            continue
        of_letters = _has_letters_of_its_own(answered)
        of_texts = () if of_letters else doubts_of_texts(read, around.stating, reading.course.names)
        forgotten = never_heard(read, reading.unit, reading.course.names)  # audio-script says it
        told = {
            id(doubt.answer): doubt
            for doubt in (*of_texts, *doubts(read, reading.unit))
            if forgotten is None or not doubt.is_of(forgotten, read)
        }
        yield from map(_doubted, told.values())
        for one in () if is_wrong_on_purpose(read.activity) else read.exercises:
            items = [item for item in one.items if item.answer and not item.example and id(item.answer) not in told]
            found = [*_options(one, items, around), *_counted(items, around)]
            for item in items:
                numbers = list(_item(item, around))
                found += numbers or (() if of_letters else [*_statement(item, around), *_filled(item, one, around)])
            yield from {one.span: one for one in found}.values()  # each answer is doubted once


def _has_letters_of_its_own(answered: Sequence[Item]) -> bool:
    """Say whether F stands for something else than false: F (for) or A (against)."""
    letters = {plain(item.answer.text) for item in answered if item.answer is not None}
    return any(len(letter) == 1 and letter.isalpha() and letter not in ("t", "f", "y", "n") for letter in letters)


def _item(item: Item, around: Around) -> Iterator[Found]:
    answer = item.answer
    if answer is None:
        return
    prompt = " ".join(place.text for place in item.prompt)
    if _SUM.search(prompt) or _OPEN.search(answer.text) or _OF_THE_CHILD.search(prompt):
        return
    asked = how_many(prompt)
    counted = [asked] if asked else [thing for place in item.prompt for *_, thing in numbers_in(place.text) if thing]
    if around.has_figures and not any(map(around.shows_one_number, counted)):
        return
    if yes_or_no(answer.text):
        for place in () if _POSSIBLE.search(prompt) else item.prompt:
            for number, start, end, thing in numbers_in(place.text):
                other = other_number(number, thing, around, asked=False)
                if other is not None:
                    yield _found(place.passage, place.start + start, place.start + end, number, thing, other)
        return
    told = list(numbers_in(answer.text))
    if not told or _DENIED.search(answer.text):  # She didn't sell it for fifty. She sold it for twenty.
        return
    number, start, end, thing = told[0]
    if any(number == shown for place in item.prompt for shown in numbers_pictured(place)):
        return
    behind = _BEHIND_GAP.search(item.text)
    if behind is not None and single(behind[1]) in words("measures"):
        return  # a dime and a nickel ____ cents: a sum
    other = other_number(number, asked or thing, around, asked=bool(asked))
    if other is not None and (asked or number >= LARGE):
        at = answer.place.start + answer.place.text.index(answer.text)
        yield _found(answer.place.passage, at + start, at + end, number, asked or thing, other)


def _statement(item: Item, around: Around) -> Iterator[Found]:
    """A statement of the page that the key calls right or wrong, and the text, word for word, the other."""
    answer = item.answer
    keyed = None if answer is None else yes_or_no(answer.text)
    statement = bare_statement(item.text)
    said = None if keyed is None else is_said(statement, around.texts)
    other = told_of(statement, around.texts) if keyed and said is None and "?" not in item.text else ""
    if answer is not None and other:
        at = answer.place.start + answer.place.text.index(answer.text)
        message = f"The key says “{answer.text}” to “{statement}”; the text says it of {other}. Which is right?"
        yield Found(answer.place.passage.span(at, at + len(answer.text)), answer.text, message)
    if answer is None or said is None or said == keyed:
        return
    at = answer.place.start + answer.place.text.index(answer.text)
    text = "says that it is so" if said else "says that it is not so"
    message = f"The key says “{answer.text}” to “{statement}”, and the text of this lesson {text}. Which is right?"
    yield Found(answer.place.passage.span(at, at + len(answer.text)), answer.text, message)


def _filled(item: Item, exercise: Exercise, around: Around) -> Iterator[Found]:
    """A sentence as the key completes it, which the text denies word for word: you must, and you mustn't."""
    sentence = completed_sentence(item, exercise)
    # Where things are, only by the task's own script: the text may be about another picture.
    denied = sentence and (
        is_said(sentence, around.texts, places=False) is False or is_said(sentence, around.script, places=True) is False
    )
    if item.answer is not None and denied:
        message = (
            f"With the key this reads “{sentence}”, and the text of this lesson says the contrary. Which is right?"
        )
        yield Found(item.answer.place.span, item.answer.text, message)


def _options(exercise: Exercise, items: Sequence[Item], around: Around) -> Iterator[Found]:
    """An option far from the words of the question in the texts, where they have another beside them."""
    for item in items:
        if item.answer is None or len(item.choices) != 1 or item.choices[0].inline is not None:
            continue
        options = item.choices[0].options
        (chosen,) = completed(item, exercise).chosen or (None,)
        if chosen is None or chosen not in options:
            continue
        told = around.sentences
        other = better_option(item.text, [option.text for option in options], options.index(chosen), told)
        if other is not None:
            message = (
                f"The key gives “{chosen.text}”, and beside the words of the question the text of this lesson has "
                f"“{options[other].text}”. Which is right?"
            )
            yield Found(item.answer.place.span, item.answer.text, message)


def _doubted(doubt: Doubt) -> Found:
    """What the script, the picture, a table or a speaker of the task says against the key."""
    said = doubt.place
    message = f"The key says “{said.text}” to {doubt.asked}; {doubt.against}. Which is right?"
    return Found(said.span, said.text, message)


def _counted(items: Sequence[Item], around: Around) -> Iterator[Found]:
    """The one number that is not the picture's, of several things that a picture has and the key counts."""
    found = miscounted_thing(items, around)
    if found is not None:
        yield _found(found.answer.place.passage, found.start, found.end, found.number, found.thing, found.other)


def _found(passage: Passage, start: int, end: int, number: int, thing: str, other: int) -> Found:
    said = passage.text[start:end]
    of = f" {thing}" if thing else ""
    has = other if said[:1].isdigit() else next(iter(spellings_of_figure(str(other))), other)
    message = f"The key says {said}{of}, and the text or the picture of this task has {has}. Which is right?"
    return Found(passage.span(start, end), said, message)
