"""Numbers and places of an answer that its script or its picture has otherwise, and dictations that leave one out."""

import pytest

from lint_rules.engine.registry import load_rules
from lint_rules.page.heard_numbers import number_left_out
from tests.exercises.pieces.places import key, said_of
from tests.exercises.test_layouts import unit_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

SHOP = """### 1 Listen. Write T or F. {.listening audio=1.1}

1. Ilo wants six eggs. ____
2. There is some honey. ____
3. It is {} euros. ____

::: {.audio track=1.1}
MIRRE: Good morning. What would you like?

ILO: Four eggs, please. No, six eggs! Is there any honey?

MIRRE: No, there isn't. That's eight euros, please.
:::

"""
HUT = """### 1 Look at the picture. Write yes or no. {.reading}

::: art
Drawing: a hut. A pot is on the table. Three eggs are in a bowl. The milk is in the fridge. A cat sits under the bench.
:::

1. There is a pot on the table. ____
2. There are three eggs in the bowl. ____
3. There is some milk on the {}. ____
4. There is a cat under the {}. ____

"""
TOWER = """### 1 Listen and point. {.listening}

::: art
Drawing: a tower. A key is in the door. The microphone is on the shelf. The headphones are in the drawer of the desk.
:::

### 2 Look at the picture and choose. {.reading}

1. The key is ____ .
   a) in the door   b) on the desk
2. The microphone is ____ .
   a) in the drawer   b) on the shelf
3. The headphones are ____ .
   a) on the shelf   b) in the drawer

"""
DICTATION = (
    "### 1 Listen and write. {.listening audio=1.1}\n\n::: {.audio track=1.1}\n"
    "NARRATOR: 1 I know that knock.\n\nNARRATOR: 2 The knife is here.\n\nNARRATOR: 3 She made a knot.\n\n{}"
    "NARRATOR: 5 The key is lost.\n:::\n"
)


def filled(page: str, *words: str) -> str:
    """A page with words in its places."""
    for word in words:
        page = page.replace("{}", word, 1)
    return page


@pytest.mark.parametrize(
    ("page", "answers", "wrong"),
    [
        (filled(SHOP, "nine"), "1 T, 2 F, 3 T", ["T"]),
        (filled(SHOP, "nine"), "1 T, 2 F, 3 F", []),
        (filled(SHOP, "eight"), "1 T, 2 F, 3 T", []),
        (filled(SHOP, "more than nine"), "1 T, 2 F, 3 T", []),
        (filled(SHOP.replace("Four eggs, please. No, six eggs!", "Six eggs, please."), "eight"), "1 T, 2 F, 3 T", []),
        (filled(SHOP, "nine").replace("nine euros", "open at six o'clock"), "1 T, 2 F, 3 T", []),
        (
            filled(SHOP, "x")
            .replace("x euros", "six o'clock")
            .replace("MIRRE: Good", "MIRRE: It's four o'clock. Good"),
            "1 T, 2 F, 3 T",
            ["T"],
        ),
        (filled(HUT, "table", "bench"), "1 yes, 2 yes, 3 yes, 4 yes", ["yes"]),
        (filled(HUT, "table", "bench"), "1 yes, 2 yes, 3 no, 4 yes", []),
        (filled(HUT.replace("milk on", "milk in"), "fridge", "bench"), "1 yes, 2 yes, 3 yes, 4 yes", []),
        (TOWER, "1 a, 2 b, 3 a", ["a"]),
        (TOWER, "1 a, 2 b, 3 b", []),
    ],
)
def test_what_the_script_counts_and_the_picture_places_otherwise(page: str, answers: str, wrong: list[str]) -> None:
    found = said_of(RULE, page.split("\n", 2)[2] + key(answers), page.split("\n", 1)[0].removeprefix("### 1 "))
    assert [words for words, _ in found] == wrong


def left_out_of(script: str) -> int | None:
    page = f"### 1 Listen. {{.listening audio=1.1}}\n\n::: {{.audio track=1.1}}\n{script}\n:::\n"
    (activity,) = unit_of(page).activities
    left_out = number_left_out([one for one in activity.part.passages if one.speaker])
    return left_out[0] if left_out is not None else None


@pytest.mark.parametrize(
    ("turns", "missing"),
    [
        (["One, rain. Two, dad. Three, train. Four, play. Six, plant."], 5),
        (["One, rain. Two, dad. Three, train. Four, play. Five, tail."], None),
        (["One. It's windy today. Two. She's wet. Three. It's sunny. Five. He's hot. Six. It's rainy."], 4),
        (["1. Apple. 2. Egg. 3. Jam. 5. Carrot. 6. Bag."], 4),
        (["One, street.", "Two, tree.", "Three, grey.", "Five, two.", "Six, see."], 4),
        (["One, street.", "Two, tree.", "Three, grey.", "Four, two.", "Five, see."], None),
        (["1 – It's red.", "2 – It's big.", "3 – Four buttons.", "5 – It's a hat."], 4),
        (["1 – It's red.", "2 – It's big.", "3 – A bag. OK, four. A hen.", "5 – It's a hat."], None),
        (["One: light. Two: how.", "Three: night. Four: wet.", "Five: my."], None),
        (["One, two, three! Here we go.", "Two, please.", "Four, I think.", "Five, six."], None),
    ],
)
def test_words_that_are_counted_off_in_a_row(turns: list[str], missing: int | None) -> None:
    script = "\n\n".join(f"ODO: {turn}" for turn in turns)
    assert left_out_of(script) == missing


@pytest.mark.parametrize(("labels", "missing"), [((1, 2, 3, 5), 4), ((1, 2, 3, 4), None), ((1, 2, 4), None)])
def test_a_script_that_is_a_numbered_list_leaves_a_number_out(labels: tuple[int, ...], missing: int | None) -> None:
    script = "\n".join(f"{label}. ODO: Where is my key? It's on the box." for label in labels)
    assert left_out_of(script) == missing


@pytest.mark.parametrize(("labels", "missing"), [((1, 2, 3, 5), 4), ((1, 2, 3, 4), None)])
def test_a_number_before_who_speaks_counts(labels: tuple[int, ...], missing: int | None) -> None:
    script = "\n".join(f"{label} ODO: Where is it?\nIDA: It is there." for label in labels)
    assert left_out_of(script) == missing


@pytest.mark.parametrize(("fourth", "missing"), [("", True), ("NARRATOR: 4 He hurt his knee.\n\n", False)])
def test_a_dictation_that_leaves_a_number_out(fourth: str, missing: bool) -> None:
    (activity,) = unit_of(DICTATION.replace("{}", fourth)).activities
    left_out = number_left_out([one for one in activity.part.passages if one.speaker])
    assert (left_out is not None and left_out[0] == 4) is missing


FACES = """1. Odo – soup
2. Mirre – fish
3. Ilo – jam
4. Tansu – milk

::: {.audio track=1.1}
ODO: One. I'm Odo. Do I like soup? Yes, I do!

MIRRE: Two. Fish? No, I don't. I don't like fish.

ILO: Three. Jam? Yes, I do.

TANSU: Four. Milk? {}
:::

"""


@pytest.mark.parametrize(
    ("reply", "answers", "wrong"),
    [
        ("No, I don't.", "1 ☺ · 2 ☹ · 3 ☺ · 4 ☺", ["☺"]),
        ("No, I don't.", "1 ☺ · 2 ☹ · 3 ☺ · 4 ☹", []),
        ("No, I don't.", "1 yes · 2 no · 3 yes · 4 yes", ["yes"]),
        ("No, I don't.", "1 yes · 2 no · 3 yes · 4 no", []),
        ("Yes, I do.", "1 ☺ · 2 ☹ · 3 ☺ · 4 ☺", []),
        ("Hm! I don't know.", "1 ☺ · 2 ☹ · 3 ☺ · 4 ☺", []),
        ("Yes, I do. No, I don't!", "1 ☺ · 2 ☹ · 3 ☺ · 4 ☹", []),
    ],
)
def test_faces_go_with_what_is_replied(reply: str, answers: str, wrong: list[str]) -> None:
    found = said_of(RULE, FACES.replace("{}", reply) + key(answers), "Listen. Tick. {.listening audio=1.1}")
    assert [words for words, _ in found] == wrong


DOLLS = """| | long arms | short arms | big ears |
|---|---|---|---|
| 1 doll | | | |
| 2 bear | | | |
| 3 robot | | | |
| 4 clown | | | |

::: {.audio track=1.1}
TILA: One. Look at the doll. Has it got long arms?

TUK: No, it hasn't. It's got short arms.

TILA: Two. The bear has got big ears.

TILA: Three. The robot has got long arms.

TILA: Four. The clown has got big ears.
:::

"""


@pytest.mark.parametrize(
    ("answers", "wrong"),
    [
        ("1 long arms; 2 big ears; 3 long arms; 4 big ears", ["long arms"]),
        ("1 short arms; 2 big ears; 3 long arms; 4 big ears", []),
    ],
)
def test_what_is_only_asked_about_is_not_said(answers: str, wrong: list[str]) -> None:
    found = said_of(RULE, DOLLS + key(answers), "Listen. Tick. {.listening audio=1.1}")
    assert [words for words, _ in found] == wrong


ROWS = """1 bear · 2 boat · 3 bus · 4 ball

a ![boat](art/boat.svg) · b ![ball](art/ball.svg) · c ![bear](art/bear.svg) · d ![bus](art/bus.svg)

"""
TOYS = """1 balls ____ · 2 cars ____ · 3 dolls ____ · 4 bears ____

::: {.audio track=1.1}
ODO: 1. Balls! One, two, three. Three balls.

ILO: 2. Cars! One, two, three, four, five. Five cars.

ODO: 3. Dolls! One, two. Two dolls.

ILO: 4. Bears! One, two, three, four. Four bears.
:::

"""
FOOD = """1. a six apples  b seven apples
2. a eight eggs  b nine eggs
3. a ten bananas  b nine bananas

::: art
Drawing: 1 seven apples in a tree. 2 eight eggs in a box. 3 ten bananas on a plate.
:::

"""


@pytest.mark.parametrize(
    ("page", "answers", "wrong"),
    [
        (FOOD, "1 b, 2 b, 3 a", ["b"]),
        (FOOD, "1 b, 2 a, 3 a", []),
        (FOOD.replace("eight eggs in a box", "a box of eggs"), "1 b, 2 b, 3 a", []),
        (ROWS, "1 c, 2 a, 3 b, 4 d", ["b"]),
        (ROWS, "1 c, 2 a, 3 d, 4 b", []),
        (TOYS, "1 three, 2 four, 3 two, 4 four", ["four"]),
        (TOYS, "1 three, 2 five, 3 two, 4 four", []),
    ],
)
def test_rows_in_one_line(page: str, answers: str, wrong: list[str]) -> None:
    assert [
        words for words, _ in said_of(RULE, page + key(answers), "Listen and match. {.listening audio=1.1}")
    ] == wrong


PAIRS = """1. a ☐  b ☐
2. a ☐  b ☐
3. a ☐  b ☐

::: art
Pairs of drawings: 1 a a hen, b a fox; 2 a a big sock, b a small sock; 3 a a dirty shoe, b a clean shoe.
:::

::: {.audio track=1.1}
ILO: One. It's a fox.

ILO: Two. The sock is small.

ILO: Three. The shoe is dirty.
:::

"""
VERDICTS = """1. yes / no
2. yes / no
3. yes / no
4. yes / no

::: art
Four drawings: 1 a green sock, 2 a blue shoe, 3 a bar of soap, 4 a red dress.
:::

::: {.audio track=1.1}
ILO: One. It's a green sock.

ILO: Two. It's a red shoe.

ILO: Three. It's soap.

ILO: Four. It's a red dress.
:::

"""
KITES = """1. Nena
2. Boyet
3. Dado
4. Lola

a) a blue kite
b) a big yellow kite
c) a green kite with no tail
d) a red kite with a long tail

::: {.audio track=1.1}
NENA: Number one. My kite is red. It has a long tail.

BOYET: Number two. Is my kite red? No, it isn't red: it's blue.

DADO: Number three. It's very big and it's yellow.

LOLA: Number four. It's purple and it has no tail.
:::

"""
DRAWN = """1. I've got a drum.
2. I've got a guitar.
3. It's a box.
4. Three bags.
5. Is it a hat?

::: art
Five drawings: 1 Bia with a drum; 2 Fifo with a hat; 3 a blue box; 4 two bags; 5 a stamp.
:::

"""
SCORES = """1. Sack race, Lizards: a 3  b 5  c 8
2. Spoon race, Parrots: a 2  b 4  c 6
3. Egg race, Crabs: a 6  b 7  c 8
4. Hat race, Ants: a 1  b 9  c 4

::: {.audio track=1.1}
ILO: Number one. Five points for the Lizards!

ILO: Number two. Only two points for the Parrots.

ILO: Number three. There are six. Oh no! Seven points for the Crabs!

ILO: Number four. Nine points for the Ants!
:::

"""
COLOURED = """::: art
Four umbrellas, numbered 1 to 4, in outline.
:::

::: {.audio track=1.1}
ILO: Number one. It's got spots. Colour the spots green.

ILO: Number two. It's got stripes. Colour the stripes orange.

ILO: Number three. It's got a button. Colour the button purple.

ILO: Number four. It's got a hole. Don't colour the hole! Colour the umbrella pink.
:::

"""
CORRECTED = """1. seats ____
2. wheels ____
3. puppets ____

::: {.audio track=1.1}
ILO: Number 1. There are ten seats.

ILO: Number 2. There are six wheels.

ILO: Number 3. There are eleven puppets. No, wait! There are twelve!
:::

"""


@pytest.mark.parametrize(
    ("page", "answers", "wrong"),
    [
        (PAIRS, "1 b, 2 a, 3 a", ["a"]),
        (PAIRS, "1 b, 2 b, 3 a", []),
        (VERDICTS, "1 yes, 2 no, 3 yes, 4 yes", []),
        (VERDICTS, "1 yes, 2 yes, 3 yes, 4 yes", ["yes"]),
        (KITES, "1 d, 2 a, 3 b, 4 c", ["c"]),
        (KITES.replace("purple", "green"), "1 d, 2 a, 3 b, 4 c", []),
        (
            KITES.replace("Number two. Is my kite red? No, it isn't red: it's blue.", "Number two. It's pink."),
            "1 d, 2 a, 3 b, 4 c",
            [],
        ),
        (KITES.replace("It's purple and", "My brother has a yellow bike. It is new and"), "1 d, 2 a, 3 b, 4 c", []),
        (SCORES, "1 b, 2 a, 3 b, 4 b", []),
        (SCORES, "1 c, 2 a, 3 b, 4 b", ["c"]),
        (
            COLOURED.replace("Don't colour the hole!", "I don't know."),
            "1 green spots, 2 orange stripes, 3 purple button, 4 pink hole, white hole",
            ["pink hole, white hole"],
        ),
        (COLOURED, "1 green spots, 2 orange stripes, 3 purple button, 4 pink umbrella, white hole", []),
        (
            COLOURED.replace("Don't colour the hole! ", ""),
            "1 green spots, 2 orange stripes, 3 purple button, 4 pink hole, white hole",
            ["pink hole, white hole"],
        ),
        (CORRECTED, "1 ten, 2 six, 3 twelve", []),
        (CORRECTED.replace(" No, wait! There are twelve!", ""), "1 ten, 2 six, 3 twelve", ["twelve"]),
    ],
)
def test_what_is_heard_of_pairs_of_one_thing_of_stuff_and_of_what_a_speaker_corrects(
    page: str, answers: str, wrong: list[str]
) -> None:
    found = said_of(RULE, page + key(answers), "Listen and write. {.listening audio=1.1}")
    assert [words for words, _ in found] == wrong


@pytest.mark.parametrize(
    ("answers", "wrong"),
    [
        ("1 ✓, 2 ✗, 3 ✓, 4 ✗, 5 ✗", []),
        ("1 Yes. I've got a drum. 2 No. It's a hat. 3 Yes. It's a box. 4 Yes. Three bags. 5 No.", ["Yes. Three bags."]),
        ("1 ✓, 2 ✗, 3 ✗, 4 ✗, 5 ✗", ["✗"]),
    ],
)
def test_statements_are_held_against_the_picture_of_their_number(answers: str, wrong: list[str]) -> None:
    found = said_of(RULE, DRAWN + key(answers), "Look. Tick or cross. {.reading}")
    assert [words for words, _ in found] == wrong


RAGS = """1. Rags has got a long tail.
2. Rags has got long legs.
3. Rags is soft.
4. Rags is old.
5. Rags is dirty.

::: art
Rags is an old soft dog on a cushion. He has a long tail and short legs.
:::

"""


@pytest.mark.parametrize(("answers", "wrong"), [("1 T, 2 F, 3 T, 4 T, 5 F", []), ("1 F, 2 F, 3 T, 4 T, 5 F", ["F"])])
def test_he_is_whom_the_sentence_before_is_about(answers: str, wrong: list[str]) -> None:
    found = said_of(RULE, RAGS + key(answers), "Look at the picture. True or false? {.reading}")
    assert [words for words, _ in found] == wrong


PRICES = """1. The salt was {} cowries.
2. Gidi was at home.
3. There was rice.

::: {{.audio track=1.1}}
GIDI: I was at home. There was rice. It was ten cowries. Six for the rice and four for the salt. Your number? Eight.
:::

"""


ROOM = """1. Is there a lamp on the table?
2. Is there a cat on the bed?
3. Is there a ball under the chair?
4. Are there {} books on the shelf?

::: art
Scene 4: a lamp is on the table. A cat is on the bed. Three books are on the shelf. A ball is under the chair.
:::

"""


@pytest.mark.parametrize(("number", "wrong"), [("any", []), ("three", []), ("four", ["Yes, there are."])])
def test_questions_about_a_picture(number: str, wrong: list[str]) -> None:
    answers = "1 Yes, there is. 2 Yes, there is. 3 Yes, there is. 4 Yes, there are."
    found = said_of(RULE, ROOM.format(number) + key(answers), "Look. Yes or no? {.reading}")
    assert [words for words, _ in found] == wrong


@pytest.mark.parametrize(("number", "wrong"), [("four", []), ("eight", ["true"])])
def test_a_number_that_stands_alone_may_count_the_same(number: str, wrong: list[str]) -> None:
    found = said_of(
        RULE, PRICES.format(number) + key("1 true, 2 true, 3 true"), "Listen. True or false? {.listening audio=1.1}"
    )
    assert [words for words, _ in found] == wrong


WAVES = """1. Hello! / Clap!
2. Clap, Bia! / Sing, Bia!
3. I'm Sula. / I'm Moca.
4. It's green. / It's blue.
5. It's a bus. / It's a bird.

::: art
Five drawings: 1 Kito waves from the bus; 2 Bia with an open beak and music notes; 3 Moca with her name on a badge;
4 a green frog; 5 a pink bus.
:::

"""


def test_what_is_said_is_not_drawn() -> None:
    answers = "1 Hello! 2 Sing, Bia! 3 I'm Moca. 4 It's green. 5 It's a bus."
    assert said_of(RULE, WAVES + key(answers), "Look and circle. {.reading}") == []


AFTER = "\n### 3 Look. {.speaking}\n\n::: art\nThe headphones are on the shelf.\n:::\n"
BEFORE = "### 1 Look. {.speaking}\n\n::: art\nThe headphones are on the shelf.\n:::\n\n"


@pytest.mark.parametrize(
    ("page", "wrong"),
    [
        (TOWER + key("1 a, 2 b, 3 a") + AFTER, ["a"]),  # a picture that comes later is another one
        (BEFORE + TOWER.replace("### 1", "### 2", 1) + key("1 a, 2 b, 3 a"), ["a"]),  # the last one before
        (TOWER.replace("Look at the picture and", "Read and") + key("1 a, 2 b, 3 a"), []),
        (TOWER.replace("The headphones are in the drawer", "Headphones. A drawer") + key("1 a, 2 b, 3 a"), []),
    ],
)
def test_the_picture_of_a_lesson_is_the_last_one_before_the_task(page: str, wrong: list[str]) -> None:
    heading, rest = page.split("\n", 1)
    found = said_of(RULE, rest.lstrip("\n"), heading.removeprefix("### 1 "))
    assert [words for words, _ in found] == wrong


@pytest.mark.parametrize(("years", "wrong"), [("eight", []), ("seven", ["T"]), ("nine", [])])
def test_years_that_are_reckoned_from_two_dates_are_none_of_the_script(years: str, wrong: list[str]) -> None:
    page = (
        "### 1 Listen. Write T or F. {.listening audio=1.1}\n\n1. Odo is here. ____\n2. It is old. ____\n"
        f"3. They built it in {years} years. ____\n\n::: {{.audio track=1.1}}\n"
        "ODO: I'm Odo. They began in 1452 and ended in 1460. It is old. I have worked here for nine years.\n:::\n"
    )
    assert [words for words, _ in said_of(RULE, page + key("1 T\n2 T\n3 T"))] == wrong


@pytest.mark.parametrize(("asked", "wrong"), [("are there", ["six"]), ("are green", []), ("are not green", [])])
def test_some_of_the_things_of_a_picture_are_no_count_of_it(asked: str, wrong: list[str]) -> None:
    page = (
        "### 1 Count. {.writing}\n\n::: art\nDrawing: nine stones on a beach.\n:::\n\n"
        f"1. How many stones {asked}? ____\n\n"
    )
    assert [words for words, _ in said_of(RULE, page + key("1 six"))] == wrong


def test_what_can_be_seen_is_of_the_picture_and_what_you_have_is_not() -> None:
    page = (
        "### 1 Look. {.speaking}\n\n::: art\nDrawing: four coins on a table.\n:::\n\n1. How many coins PEOPLE? ____\n\n"
    )
    assert [words for words, _ in said_of(RULE, page.replace("PEOPLE", "can you see") + key("1 three"))] == ["three"]
    assert said_of(RULE, page.replace("PEOPLE", "have you got") + key("1 three")) == []


def test_a_number_to_phone_is_said_figure_by_figure() -> None:
    page = (
        "### 1 Listen. {.listening audio=1.1}\n\n1. It is ____ metres.\n2. They need ____ ropes.\n3. And ____ planks.\n"
        "4. It has ____ lamps.\n5. The number is ____.\n\n::: {.audio track=1.1}\nTEO: It's twenty-eight metres. We "
        "need forty ropes and fifteen planks. It has six lamps. The number is seven three zero, four four one.\n:::\n"
    )
    assert [words for words, _ in said_of(RULE, page + key("1 38\n2 40\n3 15\n4 6\n5 730441"))] == ["38"]
