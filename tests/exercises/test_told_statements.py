"""Statements whose key says true where the texts tell the contrary, or false where they tell it; and the like that is
right. Invented sentences; what is right English is from memory."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

STORY = """### 1 Read. {.story .reading}

**1** Pim is a goat. It is night, and the boat is at the bridge. Two ducks sleep on a red roof.

**2** “I'm Tocko. I have a green hat and a big bag,” says Tocko. “My hat is old, but I like it.”

**3** Fenna is sad. She can sing, but she can't jump. There is a big yellow flower in her garden.

**4** The bag of the old woman is heavy. Pim carries the bread and Mina carries the eggs.

**5** Mina's brother opens the door. Kiri cleans the bus in the morning and the boat in the evening.

**6** “It's ten o'clock,” said Kiri. She pushed the green button and a light came on. Then Mina pushed the red lamp.

**7** “Hush has the drum,” says Pim. “Hush is a big cat. He likes a quiet river.”

**8** Kiri tastes the soup. Kiri doesn't like the soup. Mina sings like a bird.

**9** The goat chased a big black cat. At 6.45 the bus stopped. It left at 7.00.

### 2 True or false? {.reading}

1. Pim is a goat.
2. STATEMENT
3. The boat is at the bridge.

"""


@pytest.mark.parametrize(
    ("statement", "answer"),
    [
        ("Fenna can jump.", "true"),
        ("Fenna can't sing.", "true"),
        ("The flower is yellow.", "false"),
        ("Tocko's bag is small.", "true"),
        ("Tocko's bag is big.", "false"),
        ("Tocko has got a red hat.", "true"),
        ("Three ducks sleep on a red roof.", "true"),
        ("Two ducks sleep on a blue roof.", "true"),
        ("Mina pushed the green button.", "true"),
        ("Kiri pushed the red lamp.", "true"),
        ("Hush likes a loud river.", "true"),
        ("Is the boat at the bridge?", "No, it isn't."),
        ("Kiri likes the soup.", "true"),
        ("Kiri doesn't like the soup.", "false"),
        ("Kiri likes the soup.", "true (part 8)"),
    ],
)
def test_a_key_that_the_text_speaks_against_is_told(statement: str, answer: str) -> None:
    page = STORY.replace("STATEMENT", statement)
    answers = f"1 true\n2 {answer}\n3 true" if "No" not in answer else f"1 yes\n2 {answer}\n3 yes"
    ((words, message),) = said_of(RULE, page + key(answers))
    assert words == answer
    assert "the text" in message


@pytest.mark.parametrize(
    ("statement", "answer"),
    [
        ("Mina pushed the green button.", "false"),
        ("Kiri pushed the green button.", "true"),
        ("Fenna can jump.", "false"),
        ("Fenna can sing.", "true"),
        ("Fenna can sing. yes no", "true"),
        ("Fenna can sing. **yes** · **no**", "true"),
        ("The flower is yellow.", "true"),
        ("The old woman is heavy.", "false"),
        ("Tocko's bag is small.", "false"),
        ("Tocko's hat is old.", "true"),
        ("Kiri cleans the boat in the morning.", "false"),
        ("Mina opens the door.", "false"),
        ("Pim carries the eggs.", "false"),
        ("She is happy.", "true"),
        ("The boat is under the bridge.", "false"),  # at the bridge
        ("Mina Pim", "false"),  # who is for it, and who against?
        ("Fenna sometimes jumps.", "true"),
        ("The ducks are on the roof of the bus.", "false"),
        ("Why is Fenna sad?", "true"),
        ("Kiri likes the soup.", "false"),
        ("Kiri doesn't like the soup.", "true"),
        ("Mina likes a bird.", "false"),  # sings like one
        ("Mina likes a quiet river.", "true"),  # as Hush does
        ("The bus left at 7.00.", "true"),  # not: 45 the bus
        ("The bus left at 7.15.", "false"),
        ("The goat is small and white.", "true"),  # another is big and black
        ("Kiri likes the soup.", "true (she eats all of it)"),  # explained: no slip of the pen
    ],
)
def test_a_key_that_the_text_does_not_speak_against_is_let_alone(statement: str, answer: str) -> None:
    assert said_of(RULE, STORY.replace("STATEMENT", statement) + key(f"1 true\n2 {answer}\n3 true")) == []


def test_several_that_differ_are_another_key() -> None:
    page = STORY.replace("STATEMENT", "Fenna can jump.").replace(
        "3. The boat is at the bridge.", "3. Tocko's bag is small."
    )
    assert said_of(RULE, page + key("1 true\n2 true\n3 true")) == []
    assert len(said_of(RULE, page + key("1 true\n2 true\n3 false"))) == 1


def test_she_may_be_somebody_else() -> None:
    page = (
        "### 1 Read. {.story .reading}\n\n“Where's Lou?” says Mina.\n\nLou isn't eating a sandwich. She's eating a "
        "ticket!\n\n"
        "“That isn't Lou,” says Rafi. “It's a goat in a coat!”\n\n"
        "### 2 Read. Yes or no? {.reading}\n\n1. It's cold today.\n2. Rafi has got a hat.\n3. Lou is eating a ticket."
        "\n\n"
    )
    assert said_of(RULE, page + key("1 no\n2 yes\n3 no")) == []


RAIN = """### 1 Read. {.story}

"Oh no! It's wet!" says Emil. "I like rain!" says Nia. She puts a pot under a leaf. "I don't like rain," says Mr Pugh.

### 2 Yes or no? {.reading}

1. Nia QUITE likes rain.
2. Mr Pugh likes rain.
3. Nia puts a pot under a leaf.
4. The leaf is big.

"""


@pytest.mark.parametrize(
    ("statement", "answers", "found"),
    [
        ("Nia likes rain.", "1 yes\n2 no\n3 yes\n4 no", []),
        ("Nia doesn't like rain.", "1 yes\n2 no\n3 yes\n4 no", ["yes"]),
        ("Nia doesn't like rain.", "1 no\n2 no\n3 yes\n4 no", []),
        ("Nia likes rain.", "1 yes\n2 yes\n3 yes\n4 no", ["yes"]),
        ("Nia doesn't like rain.", "1 T\n2 F\n3 T\n4 NG", ["T"]),  # what the text does not give
    ],
)
def test_who_speaks_is_named_behind_what_is_said(statement: str, answers: str, found: list[str]) -> None:
    page = RAIN.replace("Nia QUITE likes rain.", statement)
    assert [words for words, _ in said_of(RULE, page + key(answers))] == found


QUALITIES = """### 1 Read. {.story .reading}

**1** Look at my hat. It's yellow. Is it a drum? It's a small blue train.

**2** Mr Oon gave the children a bag. He gave them three apples. His sister's kite is made of wood.

::: art
1 A boy in a yellow hat with two drums. 2 Two green kites; a boy under a tree. 3 Gabi, a white goat, comes.
4 Five plums in a bowl.
:::

### 2 Yes or no? {.reading}

1. The bag is heavy.
2. STATEMENT
3. Mr Oon gave the children a bag.

"""


@pytest.mark.parametrize(
    ("statement", "answer", "wrong"),
    [
        ("The hat is red.", "yes", ["yes"]),
        ("The hat is red.", "no", []),
        ("The hat is yellow.", "no", ["no"]),
        ("The train is big.", "yes", ["yes"]),
        ("The train is small.", "yes", []),
        ("The drum is red.", "yes", []),  # nothing is said of it
        ("Mr Oon gave them four apples.", "yes", ["yes"]),
        ("Mr Oon gave them three apples.", "yes", []),
        ("Mr Oon's kite is made of wood.", "no", []),  # his sister's
        ("Gabi is a white goat.", "no", ["no"]),  # the picture of the story
        ("Six plums are in a bowl.", "no", []),
        ("Six plums are in a bowl.", "yes", ["yes"]),
        ("Four plums are in a bowl.", "yes", ["yes"]),  # the fourth picture
    ],
)
def test_what_a_thing_is_like(statement: str, answer: str, wrong: list[str]) -> None:
    page = QUALITIES.replace("STATEMENT", statement)
    assert [words for words, _ in said_of(RULE, page + key(f"1 yes\n2 {answer}\n3 yes"))] == wrong


@pytest.mark.parametrize(
    ("text", "statement"),
    [
        ("The ball is on the table. It is red. Tom sees a cat.", "The table is brown."),
        ("The mouse runs past the elephant. It is very small. Tom sees a cat.", "The elephant is big."),
        ("Tom has a red hat. His sister has a hat with spots. Tom sees a cat.", "Anna has a green hat."),
        ("The bag was empty. Then Tom put apples in it. Tom sees a cat.", "The bag is full."),
        ("There is a small train here. There is another train there. Tom sees a cat.", "The train is big."),
        ("Tom has a little boat. It is his. Tom sees a cat.", "The boat is small."),
        ("In Picture 3C, the dog is big. Tom sees a cat.", "The dog is small."),
    ],
)
def test_a_quality_of_something_else_says_nothing(text: str, statement: str) -> None:
    page = f"### 1 Read. {{.story}}\n\n**1** {text} Tom is at home.\n\n### 2 True or false?\n\n1. Tom sees a cat.\n"
    page += f"2. {statement}\n3. Tom is at home.\n\n"
    assert said_of(RULE, page + key("1 true\n2 true\n3 true")) == []


def test_a_picture_that_the_task_is_about_is_what_counts() -> None:
    text = "### 1 Read. {.story}\n\n**1** The goat Bo is in front of the red tent. Bo is big. Bo is happy.\n\n"
    task = "1. Bo is big.\n2. Bo is behind the tent.\n3. Bo is happy.\n\n::: art\nBo behind the tent.\n:::\n\n"
    picture = "### 2 Look at the picture. Yes or no? {.reading}\n\n" + task
    assert said_of(RULE, text + picture + key("1 yes\n2 yes\n3 yes")) == []


PLAY = """### 1 Read. {.story .reading}

**Otto:** Look! A pea.

**Goat:** I like peas. I don't like bees! Go, bees!

**Sen:** I like plums, Kip!

### 2 Yes or no? {.reading}

1 Goat: I like peas. ____

2 Goat: I like bees. ____

3 Otto: I like plums. ____

"""


@pytest.mark.parametrize(("second", "wrong"), [("yes", ["yes"]), ("no", [])])
def test_what_somebody_says_of_himself_is_held_against_his_own_words(second: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, PLAY + key(f"1 yes\n2 {second}\n3 yes"))] == wrong
