"""Keys that quote the text behind each answer, tables where a row and a column meet, and numbers of one thing among
those of others: what is caught, and the like that is right. Invented pages."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

QUOTED = """### 1 Read. Choose A, B or C. {.reading}

1. What is the money for?
    A) a bridge
    B) the library
    C) a show
2. What did Mrs Hale see?
    A) three otters
    B) a truck
    C) dirty water
3. How much paper is there?
    A) six tons
    B) twenty tons
    C) thirty tons

"""
STATED = """### 1 True or false? {.reading}

1. Forty-two workers work at the mill.
2. Grandpa Joe worked under that whistle.
3. The town votes on the last day of April.

"""
TIDES = """### 1 Read the timetable. Answer. {.reading}

| Day | Low tide | High tide |
|---|---|---|
| Wednesday | 4.20 | 10.35 |
| Thursday | 5.05 | 11.20 |
| Friday | 5.50 | 12.05 |

1. What time is low tide on Thursday?
2. What time is high tide on Friday?
3. What time is low tide the day after Wednesday?

"""
BIRDS = """### 1 Listen and circle. {.listening audio=1.1}

1. Nia is on floor … **a** two **b** four **c** five
2. Emrys is on floor … **a** one **b** three **c** five
3. Dot is … **a** under a tree **b** on a bench **c** next to the gate
4. There are … birds. **a** four **b** five **c** six
5. The frog is … the chair. **a** on **b** behind **c** under

::: {.audio track=1.1}
NIA: I'm on floor two. There are four bees here. And Emrys? He is on floor five, next to the gate.

NIA: Dot is under a tree. There are six birds in the tree. Look, a frog behind the chair!
:::

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 B (“the money for the library”)\n2 A (“I saw three otters”)\n3 B (“twenty tons of old paper”)", []),
        ("1 B (“the money for the library”)\n2 A (“I saw three otters”)\n3 C (“twenty tons of old paper”)", ["C"]),
        ("1 B – “the money for the library”\n2 A – “we saw three otters”\n3 C – “twenty tons of old paper”", ["C"]),
        ("1 B (“the money for the library”)\n2 A (“I saw three otters”)\n3 C (“we have a lot of old paper”)", []),
        ("1 A (“the money for the library”)\n2 C (“I saw three otters”)\n3 C (“twenty tons of old paper”)", []),
        ("1 B (“the library”)\n2 A (“three otters”)\n3 C (“twenty tons”)", ["C"]),
    ],
    ids=[
        "right",
        "another option is quoted",
        "behind a dash",
        "no option is quoted",
        "several: misread",
        "word for word",
    ],
)
def test_an_answer_goes_with_what_the_key_quotes(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, QUOTED + key(answers))] == found


@pytest.mark.parametrize(
    ("first", "found"),
    [
        ("T (“Forty-two workers come every morning”)", []),
        ("T (“Thirty-two workers come every morning”)", ["T"]),
        ("F (“Thirty-two workers come every morning”)", []),
        ("T (“Nobody else is here today”)", []),
    ],
)
def test_a_statement_has_the_numbers_of_its_quotation(first: str, found: list[str]) -> None:
    answers = f"1 {first}\n2 T (“Joe worked under the whistle”)\n3 T (“On the last day of April the town votes”)"
    assert [words for words, _ in said_of(RULE, STATED + key(answers))] == found


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 5.05\n2 12.05\n3 5.05", []),
        ("1 5.50\n2 12.05\n3 5.05", ["5.50"]),
        ("1 5.05\n2 5.50\n3 5.05", ["5.50"]),
        ("1 5.05\n2 12.05\n3 4.20", []),
        ("1 five past five\n2 12.05\n3 5.05", []),
    ],
    ids=["right", "the row of another day", "the column beside", "the day after: not looked at", "in words"],
)
def test_where_a_row_and_a_column_meet(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, TIDES + key(answers))] == found


@pytest.mark.parametrize(("birds", "found"), [("c", []), ("a", ["a"])])
def test_a_number_of_one_thing_is_none_of_another(birds: str, found: list[str]) -> None:
    answers = f"1 a · 2 c · 3 a · 4 {birds} · 5 b"
    assert [words for words, _ in said_of(RULE, BIRDS + key(answers))] == found


@pytest.mark.parametrize(
    "said",
    ["Are there six birds in the tree? No, four!", "There are six birds. No, wait, four.", "Four. Not six birds!"],
)
def test_a_number_that_somebody_puts_right_is_let_alone(said: str) -> None:
    page = BIRDS.replace("There are six birds in the tree.", said)
    assert said_of(RULE, page + key("1 a · 2 c · 3 a · 4 a · 5 b")) == []


FIGURES = """### 1 Match. {.reading}

| 1 | 11 | a | twelve |
|---|---|---|---|
| 2 | 15 | b | thirteen |
| 3 | 13 | c | eleven |
| 4 | 12 | d | fifteen |

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [("1 c, 2 d, 3 b, 4 a", []), ("1 c, 2 b, 3 d, 4 a", ["b"]), ("1 a, 2 b, 3 d, 4 c", [])],
    ids=["right", "two have changed places: told once", "all differ: misread"],
)
def test_figures_and_words(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, FIGURES + key(answers))] == found


STORY = """### 1 Read. {.story}

A drum is louder than a whistle. They carried the old drum up the path. It was heavier than Button! Kiki's bell wasn't
older than the drum. Is the goat faster than Kiki?

### 2 Yes or no? {.reading}

1. FIRST
2. They went by bus.
3. It was sunny.

"""


@pytest.mark.parametrize(
    ("statement", "answer", "found"),
    [
        ("Button was heavier than the drum.", "yes", ["yes"]),
        ("Button was heavier than the drum.", "no", []),
        ("The drum was heavier than Button.", "yes", []),
        ("A whistle is louder than a drum.", "yes", ["yes"]),
        ("A drum is louder than a whistle.", "no", ["no"]),
        ("Kiki's bell was older than the drum.", "no", []),
        ("The goat is faster than Kiki.", "no", []),  # the text only asks
        ("The path was heavier than Kiki.", "yes", []),
        ("Button was lighter than the drum.", "yes", []),
    ],
)
def test_two_that_are_compared(statement: str, answer: str, found: list[str]) -> None:
    page = STORY.replace("FIRST", statement) + key(f"1 {answer}\n2 no\n3 no")
    assert [words for words, _ in said_of(RULE, page)] == found


def test_mistakes_to_find_have_no_text() -> None:
    page = (
        "There are fifty coins in the bag.\n\n### 1 Find the mistakes. Write. {.mistakes}\n\n1. It's forty coin.\n\n"
        + key("1 It's forty coins.")
    )
    assert said_of(RULE, page, "Read. {.reading}") == []


TOURS = """### 1 Read the timetable. True or false? {.reading}

| What | Where | Starts | Finishes |
|---|---|---|---|
| Small Wheels tour | Main door | 11.15 | 12.10 |
| Make a Ticket | Workshop | 1.30 | 2.30 |
| Crumb Train trip | Room Three | 3.40 | 4.10 |

1. The Small Wheels tour starts at quarter past eleven.
2. Make a Ticket WHEN at half past one.
3. The Crumb Train trip finishes at ten past four.

"""


@pytest.mark.parametrize(
    ("when", "answer", "found"),
    [
        ("finishes", "true", ["true"]),
        ("finishes", "false", []),
        ("starts", "true", []),
        ("starts", "false", ["false"]),
        ("doesn't start", "false", []),
        ("is over", "true", []),
    ],
)
def test_a_time_of_the_timetable(when: str, answer: str, found: list[str]) -> None:
    page = TOURS.replace("WHEN", when) + key(f"1 true\n2 {answer}\n3 true")
    assert [words for words, _ in said_of(RULE, page)] == found


SAID = """### 1 Read. {.story}

"Can we climb it?" asks Isla.

"Please dry your shoes," says the heron. "Hello," says Dod proudly. "I am on page nine. It is a very good page."

"What is this place?" asks Tam. "I am cold and wet," says the book.

::: {.audio track=1.1}
CHILDREN: I am cold and wet, but I do not cry!
:::

### 2 Who says it? {.reading}

1. "Can we climb it?" ____
2. "Please dry your shoes." ____
3. "It is a very good page." ____
4. "What is this place?" ____
5. "I am cold and wet." ____

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 Isla, 2 Morag, 3 Dod, 4 Tam, 5 the book", []),  # the heron is Morag
        ("1 Isla, 2 Morag, 3 Morag, 4 Tam, 5 the book", ["Morag"]),
        ("1 Isla, 2 the heron, 3 Dod, 4 Isla, 5 the book", ["Isla"]),
    ],
)
def test_what_is_said_goes_on_behind_who_says_it(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, SAID + key(answers))] == found


CATS = """### 1 Read the table. Answer. {.reading}

| | Pimenta | Lua | Faro |
|---|---|---|---|
| Age | 14 years | 6 years | 8 years |
| Tail | 28 cm | 30 cm | 25 cm |

1. Who has the longest tail?
2. Who has the shortest tail?
3. Who is the oldest?

"""
BOLTS = """I walked over the bridge and found three loose bolts. Then I ran home with two of my friends.

### 1 Read. Answer.

1. How many loose bolts did she find?

"""
COUNTED = """### 1 Count. Write. {.writing}

1. ____ carrots
2. ____ eggs
3. ____ banana

::: art
Three drawings with numbers: 1 three carrots. 2 two eggs. 3 one banana.
:::

"""
PLAN = """### 1 Listen and colour. {.listening audio=1.1}

1. ![box](art/box.svg){.drawing}
2. ![flag](art/flag.svg){.drawing}
3. ![hat](art/hat.svg){.drawing}
4. ![bell](art/bell.svg){.drawing}

::: {.audio track=1.1}
PIM: Number one is yellow.

PIM: Number two is green.

PIM: Number three is red.

PIM: Number four is blue.
:::

::: teacher
| Stage | Time | What you do |
|---|---|---|
| Listen | 6 min | Play the track twice. |
| Key | – | KEY |
:::
"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 Lua. 2 Faro. 3 Pimenta.", []),
        ("1 Pimenta has the longest tail. 2 Faro. 3 Pimenta.", ["Pimenta has the longest tail."]),
        ("1 Lua. 2 Lua. 3 Pimenta.", ["Lua."]),
        ("1 Lua. 2 Faro. 3 Lua.", []),  # what age has to do with old is not known
    ],
)
def test_who_has_the_most(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, CATS + key(answers.replace(". ", ".\n")))] == found


@pytest.mark.parametrize(
    ("answer", "found"), [("She found three loose bolts.", []), ("She found four loose bolts.", ["four"])]
)
def test_a_number_of_things_that_are_described(answer: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, BOLTS + key(f"1 {answer}"))] == found


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 yellow; 2 green; 3 red; 4 blue", []),
        ("1 yellow; 2 blue; 3 red; 4 blue", ["blue"]),
    ],
)
def test_a_key_in_the_row_of_a_plan(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, PLAN.replace("KEY", answers))] == found


@pytest.mark.parametrize(("eggs", "found"), [("two", []), ("three", ["three"])])
def test_the_number_of_a_drawing_counts_nothing(eggs: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, COUNTED + key(f"1 three. 2 {eggs}. 3 one."))] == found


def test_an_answer_is_doubted_once() -> None:
    page = "### 1 Look and count.\n\n::: art\nFour bells, three big drums and six big shakers.\n:::\n\n" + "".join(
        f"{at}. How many {thing} are there? ____\n" for at, thing in enumerate(("bells", "drums", "shakers"), 1)
    )
    assert [words for words, _ in said_of(RULE, f"{page}\n{key('1 four. 2 three. 3 seven.')}")] == ["seven"]


def test_who_asks_does_not_answer() -> None:
    page = SAID.replace('"Please dry your shoes," says the heron.', '"Is it wet?" asks Tam. "Please dry your shoes."')
    assert said_of(RULE, page + key("1 Isla, 2 Morag, 3 Dod, 4 Tam, 5 the book")) == []


FIVE = FIGURES.replace("| 4 | 12 | d | fifteen |", "| 4 | 12 | d | fifteen |\n| 5 | 20 | e | twenty |")


def test_of_three_that_differ_none_is_told() -> None:
    assert said_of(RULE, FIVE + key("1 c, 2 b, 3 a, 4 d, 5 e")) == []
    assert [words for words, _ in said_of(RULE, FIVE + key("1 c, 2 b, 3 d, 4 a, 5 e"))] == ["b"]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Look at the drum! It was heavier than Button.", ["yes"]),
        ("Look at the cat! It was heavier than Button.", []),  # nobody says so of the drum
        ("The drum was heavier than Button. Button was heavier than the drum.", []),  # both
        ("The drum wasn't heavier than Button.", []),
        ("The drum was heavier than Button in the end.", []),
        ("Was the drum heavier than Button?", []),
    ],
)
def test_whom_a_text_compares(text: str, found: list[str]) -> None:
    page = STORY.replace("It was heavier than Button!", text).replace("They carried the old drum up the path.", "")
    statement = page.replace("FIRST", "Button was heavier than the drum.")
    assert [words for words, _ in said_of(RULE, statement + key("1 yes\n2 no\n3 no"))] == found
