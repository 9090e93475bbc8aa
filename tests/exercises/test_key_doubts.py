"""Answers that the script or the picture of their task speaks against, and those that nothing speaks against."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

LISTEN = """### 1 Listen and choose. {.listening audio=1.1}

1. When does the play begin?
   a at four o'clock  b at five o'clock  c at six o'clock
2. How much is a ticket?
   a two pounds  b three pounds  c four pounds
3. Where is the café?
   a behind the stairs  b under the roof  c next to the door
4. What is the bag like?
   a The bag is heavy.  b The bag is light.

::: {.audio track=1.1}
A: Hello! When does the play begin?

B: It begins at five o'clock. A ticket is four pounds.

A: And the café?

B: It is behind the stairs. Give me the bag. It's light.
:::

"""
COUNT = """### 1 Listen and write. {.listening audio=1.1}

| Day | Hats |
|---|---|
| 1 Monday | ____ |
| 2 Tuesday | ____ |
| 3 Wednesday | ____ |
| 4 Thursday | ____ |

::: {.audio track=1.1}
A: On Monday there are four hats, on Tuesday six, on Wednesday seven. On Thursday there are two.
:::

"""
ROOM = """### 1 Look. True or false?

::: art
A room. A round clock is on the wall. Three lamps are on the table. A cat is under the bench. Two actors in white
gloves are dancing.
:::

1. There is a clock on the wall.
2. There are {} lamps on the table.
3. The cat is {} the bench.
4. The actors are wearing gloves.

"""
PICTURES = """### 1 Match. {.reading}

::: art
Five small drawings. a: a duck. b: a bear. c: an owl. d: a fox. e: a fish.
:::

1. bear
2. fox
3. fish
4. owl
5. duck

"""
TICK = """### 1 Listen and tick. {.listening audio=1.1}

::: art
Rows of drawings. 1: a brown bear, b white bear, c red fox. 2: a blue frog, b green frog. 3: a blue fish, b yellow fish.
:::

1. a / b / c
2. a / b
3. a / b

::: {.audio track=1.1}
A: One. It's a brown bear.

A: Two. It's a green frog.

A: Three. It's a yellow fish.
:::

"""
WHERE = """### 1 Look and write. {.reading}

::: art
A roof. A bucket of water is under the table.
:::

1. Where is the bucket? ____

"""


COLOURS = """### 1 Look and answer. {.reading}

::: art
The friends at the door. Ailsa wears a yellow coat and blue boots. Tam has green boots.
:::

1. What colour are Ailsa's boots? ____
2. What colour are Tam's boots? ____

"""
SHELF = """### 1 Look at the shelf. Yes or no? {.reading}

::: art
On the top: two pumpkins and a pot of honey. It is not open. There are no onions, no flour and no spoons.
:::

1. There are MANY pumpkins.
2. There is some honey.
3. There aren't any onions.
4. There is some flour.
5. It is open.

"""
BESIDE = """### 1 Look and match. {.reading}

1. ![a boat](art/boat.svg){.drawing}
2. ![a duck](art/duck.svg){.drawing}
3. ![Lulu, the baby](art/lulu.svg){.drawing}
4. ![six buffalo on a boat](art/family.svg){.drawing}

a. family
b. duck
c. boat
d. baby

"""
BARS = """### 1 Look at the bar graph. Answer. {.reading}

::: art
Bar graph "Our winter sports". Skating 6. Skiing 4. Ice hockey 9. Snowshoes 3.
:::

1. How many children like skating best?
2. How many children like skiing best?
3. How many children are there?

"""
PLACES = """### 1 Look and circle. {.reading}

::: art
A letter lies on the box. Kuku the hen stands behind the basket. Oona sits on the floor under the desk.
:::

1. The letter is in / on the box.
2. Kuku is under / behind the basket.
3. Oona is ____ the desk. She's on the floor.

"""
ORDERS = """### 1 Listen and write the number. {.listening audio=1.1}

1. ![limes](art/limes.svg){.drawing} ____
2. ![bananas](art/bananas.svg){.drawing} ____
3. ![coconuts](art/coconuts.svg){.drawing} ____
4. ![oranges](art/oranges.svg){.drawing} ____

::: {.audio track=1.1}
A: One. Four limes, please.

B: Two. Six bananas, please.

A: Three. Two coconuts, please.
FOUR

:::

"""
SEEDS = """### 1 Listen and match. {.listening audio=1.1}

1. Tuli
2. Kito
3. Zizi
4. Mopo

a red | b green | c yellow | d brown

::: {.audio track=1.1}
TULI: Kito has got a brown one. I've got a yellow seed.

KITO: It's red.

ZIZI: Brown! It's brown! Is it green? No!

MOPO: It's green.
:::

"""
POCKETS = """### 1 Listen and say who. {.listening audio=1.1}

| Pim | Dax | Fenna |
|---|---|---|
| | | |

::: {.audio track=1.1}
PIM: I've got a button.

DAX: I've got a hole. I haven't got a pocket.

FENNA: I've got a pocket, but I haven't got a button.
:::

"""
ROOM_TWO = """### 1 Listen and draw. {.listening audio=1.1}

1. key
2. cup
3. towel
4. lamp

::: {.audio track=1.1}
A: Number one. Where is the key? It's on the rug.

A: Number two. Where is the cup? It's under the chair.

A: Number three. The towel is in the box.

A: Number four. The lamp is under the bed.
:::

"""
CLOTHES = """### 1 Listen and match. {.listening audio=1.1}

1. the hat
2. the boots
3. the gloves
4. the coat

a) next to the tree
b) under the leaves
c) behind the stone
d) between two trees

::: {.audio track=1.1}
A: 1 … Look! Your hat is under the leaves.

A: 2 … There are your boots. They are between two trees.

A: 3 … My gloves are behind the stone. I can see them!

A: 4 … And your coat is next to the tree.
:::

"""
PAIRS = """### 1 Listen and tick. {.listening audio=1.1}

1. a ☐ b ☐
2. a ☐ b ☐
3. a ☐ b ☐

::: art
Three pairs: 1 a a hat on a box, b a hat in a box; 2 a a cup under a chair, b a cup on a chair; 3 a a bag on a table, b
a bag under a table.
:::

::: {.audio track=1.1}
A: One. Where's the hat? It's in the box.

A: Two. Where's the cup? It's on the chair.

A: Three. Where's the bag? It's under the table.
:::

"""
ORDER = """### 1 Listen. Write the number. {.listening audio=1.1}

| | rolls | buns | pies |
|---|---|---|---|
| Orla | ____ | ____ | ____ |
| Tavi | ____ | ____ | ____ |

::: {.audio track=1.1}
MABS: Hello, Orla.

ORLA: Four rolls, please. And one pie. No buns, thank you.

TAVI: Two buns and six pies.

MABS: Two buns and six pies, Tavi. Here you are.
:::

"""
BOOTS = """### 1 Listen and colour. {.listening audio=1.1}

1. scarf
2. socks
3. boots
4. hat

::: {.audio track=1.1}
A: Number one. My scarf is orange.

A: Number two. What colour are your socks? My socks are purple.

A: Number three. Are they black? No! My boots are yellow.

A: Number four. My hat is pink.
:::

"""
TICKS = """### 1 Listen. Write ✓ or ✗. {.listening audio=1.1}

| | milk | eggs | soup |
|---|---|---|---|
| Mimba | | | |
| Pok | | | |

::: {.audio track=1.1}
TIKKO: Mimba, do you like milk?

MIMBA: No, I don't. But I like eggs, and I like soup.

TIKKO: And you, Pok? Do you like milk?

POK: Yes, I do! And I like eggs.

TIKKO: Do you like soup?

POK: No, I don't. It's hot!
:::

"""
FACES = TICKS.replace("| Mimba | | | |\n| Pok | | | |", "| 1 Mimba | milk | eggs |\n| 2 Pok | milk | soup |")
COUNTED = """### 1 Look and count. {.writing}

::: art
A big red machine with four wheels, six round buttons, two lamps and three small green bells.
:::

1. wheels ____
2. buttons ____
3. lamps ____
4. bells ____

"""
GARDEN = """### 1 Look and write. {.writing}

::: art
A hen is behind the table. A basket is next to the table. A pumpkin is between two pots. A snail sits on top of a big
leaf. A blue hut; next to it a tent.
:::

1. The hen is ____ the table.
2. The basket is ____ the table.
3. The pumpkin is ____ the two pots.
4. The snail is ____ the leaf.
5. The tent is ____ the hut.

"""
COINS = """### 1 Listen and write the number. {.listening audio=1.1}

1. the mango: ____ coins
2. the limes: ____ coins
3. the melon: ____ coins
4. the onions: ____ coins

::: {.audio track=1.1}
1. ORO: Good morning. They are four coins.
2. ORO: Two coins, please.
3. ORO: It's a big melon. It's six coins.
4. ORO: Here you are. Three coins.
:::

"""
BAGS = """### 1 Listen and choose. {.listening audio=1.1}

1. What is it?  a) a hat  b) a bag  c) a box
2. Which bag is heavy?  a) the red bag  b) the blue bag  c) the green bag
3. Where is the cat?  a) in the pot  b) in the box  c) in the bed
4. Who has got it?  a) Pim  b) Tam  c) Lou

::: {.audio track=1.1}
A: One. Look, a new bag!

A: Two. The red bag is light, and the blue bag is too. B: And the green bag? A: It's heavy!

A: Three. The cat sleeps in the box.

A: Four. It was Tam.
:::

"""
GIRLS = """### 1 Look. Yes or no? {.reading}

::: art
Ana, Ida and Bo in the snow. Ana wears a red scarf and boots. Ida wears boots. Bo flies a kite. A dog sleeps on a bench.
:::

1. Ana is wearing a scarf.
2. Bo flies a kite.
3. A dog sleeps on a bench.
4. The girls are wearing boots.
5. Ida wears boots.

"""
DOING = """### 1 Look at the picture. Answer. {.writing}

::: art
A wet evening. Nan is frying fish in the kitchen. Ida is drawing a poster under the roof. Bo is sleeping on a bench. A
goat is looking in through the door.
:::

1. What was Nan doing?
2. What was Ida doing?
3. What was Bo doing?
4. What was the goat doing?

"""
SPADE = """### 1 Look at the picture. Answer. {.speaking}

::: art
Two snails on a big leaf. Three hens by the fence. The spade leans on the barrow, which is empty. The ball lies on the
step of the shed.
:::

1. How many snails are there?
2. Where are the hens?
3. Where is the ball?
4. Where is the spade?

"""
SCARF = """### 1 Look and tick. {.reading}

::: art
It is wet. Nan has a blue coat and a green scarf. Tam has a red hat and brown boots. Odi has a yellow coat.
:::

1. Nan is wearing a red scarf. ☐ yes ☐ no
2. Tam is wearing a hat. ☐ yes ☐ no
3. Odi is wearing a coat. ☐ yes ☐ no
4. It is wet. ☐ yes ☐ no

"""
TINS = """### 1 Look at the pictures. Count. {.writing}

1. ![seven sticks](a.svg){.drawing} How many sticks? ____
2. ![ten tins in two rows](b.svg){.drawing} How many tins? ____
3. ![six drums](c.svg){.drawing} How many drums? ____

"""
ROWS = """### 1 Look. Yes or no? {.reading}

1. ![a black drum](a.svg){.drawing} It's a black drum.
2. ![a white spoon](b.svg){.drawing} It's a pink spoon.
3. ![a green box](c.svg){.drawing} It's a green box.
4. ![ten tins in two rows](d.svg){.drawing} ten tins

"""
CHEST = """### 1 Read and circle. {.reading}

1. ![Zama's mum with braids](a.svg){.drawing} This is my mum / dad.
2. ![Grandad Moss with a hat](b.svg){.drawing} This is my granny / grandad.
3. ![Tiro points to his chest](c.svg){.drawing} I'm / Who's Tiro.
4. ![Lulu, the baby](d.svg){.drawing} This is the baby / mum.

"""
COOK = """### 1 Look at the picture. Answer. {.writing}

::: art
Tam is reading a book. Mina is painting a wall. Lou stands at the stove with a big pot. Bo is singing on a box.
:::

1. What is Tam doing?
2. What is Mina doing?
3. What is Lou doing?
4. What is Bo doing?

"""
TURNS = """### 1 Listen and answer. {.listening audio=1.1}

1. What is on the bed?
2. What is on the table?
3. What is in the box?
4. What colour is it?
5. What have they got?

::: {.audio track=1.1}
1. MILO: My hat is on the bed.
2. TARA: My cup is on the table.
3. MILO: The red bag is in the box.
4. TARA: Yes, and we have cake.
:::

"""
FOUR = "\nB: Four. Five oranges, please."


@pytest.mark.parametrize(
    ("page", "answers", "wrong"),
    [
        (LISTEN, "1 c; 2 c; 3 a; 4 b", ["c"]),
        (LISTEN, "1 b; 2 c; 3 a; 4 a", ["a"]),
        (LISTEN, "1 b; 2 c; 3 a; 4 b", []),
        (LISTEN, "1 c; 2 a; 3 b; 4 b", []),  # three of them: another key, or another script
        (COUNT, "1 four; 2 six; 3 nine; 4 two", ["nine"]),
        (COUNT, "1 four; 2 six; 3 seven; 4 two", []),
        (COUNT, "1 four; 2 six; 3 nine; 4 twelve", []),
        (ROOM.format("four", "under"), "1 T; 2 T; 3 T; 4 T", ["T"]),
        (ROOM.format("three", "under"), "1 T; 2 F; 3 T; 4 T", ["F"]),
        (ROOM.format("three", "on"), "1 T; 2 T; 3 T; 4 T", ["T"]),
        (ROOM.format("three", "under"), "1 T; 2 T; 3 T; 4 T", []),
        (ROOM.format("four", "on"), "1 T; 2 F; 3 F; 4 T", []),
        (PICTURES, "1 b, 2 d, 3 c, 4 e, 5 a", ["c"]),  # two that have changed places: told once
        (PICTURES, "1 b, 2 d, 3 e, 4 c, 5 a", []),
        (PICTURES, "1 d, 2 c, 3 b, 4 a, 5 e", []),  # none fits: these are letters of something else
        (TICK, "1 a, 2 b, 3 a", ["a"]),
        (TICK, "1 a, 2 b, 3 b", []),
        (WHERE, "1 on the table", ["on the table"]),
        (WHERE, "1 under the table", []),
        (COLOURS, "1 green; 2 green", ["green"]),
        (COLOURS, "1 blue; 2 green", []),
        (COLOURS.replace("Tam has green boots", "Her boots are green"), "1 green; 2 pink", []),
        (COLOURS.replace("Ailsa's boots", "12"), "1 blue; 2 green", []),
        (BARS.replace("like skiing", "more like skiing"), "1 six; 2 two; 3 twenty-two", []),
        (PLACES.replace("behind the basket", "in front of the basket"), "1 on; 2 behind; 3 under", []),
        (COLOURS.replace("Tam has green boots", "Ailsa has red boots too"), "1 green; 2 pink", []),  # of two colours
        (SHELF.replace("MANY", "three"), "1 yes; 2 yes; 3 yes; 4 no; 5 no", ["yes"]),
        (SHELF.replace("MANY", "two"), "1 yes; 2 yes; 3 yes; 4 no; 5 no", []),
        (SHELF.replace("MANY", "three"), "1 no; 2 yes; 3 yes; 4 no; 5 no", []),
        (BESIDE, "1 c; 2 b; 3 a; 4 d", ["a"]),
        (BESIDE, "1 c; 2 b; 3 d; 4 a", []),
        (BARS, "1 six; 2 seven; 3 twenty-two", ["seven"]),
        (BARS, "1 six; 2 four; 3 twenty-two", []),
        (PLACES, "1 on; 2 under; 3 under", ["under"]),
        (PLACES, "1 on; 2 behind; 3 under", []),
        (ORDERS.replace("FOUR", FOUR), "1 4; 2 6; 3 3; 4 5", ["3"]),
        (ORDERS.replace("FOUR", FOUR), "1 4; 2 6; 3 2; 4 5", []),
        (ORDERS.replace("FOUR", ""), "1 4; 2 6; 3 2; 4 5", ["5"]),  # the script ends with number three
        (ORDERS.replace("FOUR", "And four! It's me: five oranges."), "1 4; 2 6; 3 2; 4 5", []),
        (WHERE.replace("under", "on a box, under"), "1 on the box", []),
        (TICKS, "Mimba: milk ✓, eggs ✓, soup ✓\nPok: milk ✓, eggs ✓, soup ✗", ["Mimba: milk ✓, eggs ✓, soup ✓"]),
        (FACES, "1 milk ☺, eggs ☺; 2 milk ☺, soup ☹", ["milk ☺, eggs ☺"]),
        (FACES, "1 milk ☹, eggs ☺; 2 milk ☺, soup ☹", []),
        (TICKS, "Mimba: milk ✗, eggs ✓, soup ✓\nPok: milk ✓, eggs ✓, soup ✗", []),
        (BOOTS, "1 orange, 2 purple, 3 black, 4 pink", ["black"]),
        (BOOTS, "1 orange, 2 purple, 3 yellow, 4 pink", []),
        (CLOTHES, "1 b; 2 d; 3 a; 4 c", ["a"]),
        (CLOTHES, "1 b; 2 d; 3 c; 4 a", []),
        (PAIRS, "1 b; 2 b; 3 a", ["a"]),
        (PAIRS, "1 b; 2 b; 3 b", []),
        (ORDER, "Orla: rolls 5, buns 0, pies 1\n\nTavi: rolls 0, buns 2, pies 6", ["rolls 5, buns 0, pies 1"]),
        (ORDER, "Orla: rolls 4, buns 0, pies 1\n\nTavi: rolls 0, buns 2, pies 6", []),
        (SEEDS, "1 c, 2 a, 3 d, 4 b", []),
        (SEEDS, "1 c, 2 b, 3 d, 4 a", ["b"]),  # two that have changed places: told once
        (SEEDS, "1 c, 2 a, 3 b, 4 b", ["b"]),
        (SEEDS, "1 a, 2 b, 3 c, 4 d", []),  # none fits: these are letters of something else
        (POCKETS, "Pim: button\nDax: hole\nFenna: button and pocket", ["button and pocket"]),
        (POCKETS, "Pim: button\nDax: hole\nFenna: pocket", []),
        (ROOM_TWO, "1 on the rug; 2 on the chair; 3 in the box; 4 under the bed", ["on the chair"]),
        (ROOM_TWO, "1 on the rug; 2 under the chair; 3 in the box; 4 under the bed", []),
        (COUNTED, "1 four; 2 five; 3 two; 4 three", ["five"]),
        (COUNTED, "1 four; 2 six; 3 two; 4 three", []),
        (GARDEN, "1 behind; 2 next to; 3 between; 4 under; 5 next to", ["under"]),
        (GARDEN, "1 behind; 2 next to; 3 between; 4 on; 5 next to", []),
        (
            DOING,
            "1. She was frying fish.\n2. She was drawing a poster.\n3. He was eating a pear.\n4. It was looking in.",
            ["He was eating a pear."],
        ),
        (DOING, "1. She was frying fish.\n2. She was drawing.\n3. He was sleeping.\n4. It was looking in.", []),
        (SPADE, "1 two\n2 by the fence\n3 in the barrow\n4 on the barrow", ["in the barrow"]),
        (SPADE, "1 two\n2 by the fence\n3 on the step\n4 on the barrow", []),
        (SCARF, "1 yes; 2 yes; 3 yes; 4 yes", ["yes"]),
        (SCARF, "1 no; 2 yes; 3 yes; 4 yes", []),
        (TINS, "1 seven; 2 ten; 3 six", []),
        (ROWS, "1 yes; 2 no; 3 yes; 4 yes", []),
        (ROWS, "1 yes; 2 yes; 3 yes; 4 yes", ["yes"]),
        (
            ROWS.replace("ten tins in two rows", "a pencil case").replace("ten tins", "It's a pencil."),
            "1 yes; 2 no; 3 yes; 4 no",
            [],
        ),
        (COOK, "1 reading a book; 2 painting a wall; 3 She is cooking soup; 4 He is singing.", []),
        (TURNS, "1 a hat; 2 a cup; 3 a bag; 4 red; 5 cake", []),
        (CHEST, "1 mum; 2 grandad; 3 I'm; 4 baby", []),
        (CHEST, "1 mum; 2 granny; 3 I'm; 4 baby", ["granny"]),
        (COINS, "1 4; 2 2; 3 8; 4 3", ["8"]),
        (COINS, "1 4; 2 2; 3 6; 4 3", []),
        (BAGS, "1 b; 2 c; 3 b; 4 b", []),  # the green bag is asked about, and is it
        (BAGS, "1 b; 2 c; 3 b; 4 a", ["a"]),
        (GIRLS, "1 yes; 2 yes; 3 yes; 4 yes; 5 yes", []),  # they are drawn by their names
        (GIRLS, "1 no; 2 yes; 3 yes; 4 yes; 5 yes", ["no"]),
        (ROOM_TWO, "1 on the rug; 2 on the chair; 3 in the bag; 4 under the bed", ["in the bag"]),
    ],
)
def test_what_script_or_picture_say_against_a_key(page: str, answers: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, page + key(answers))] == wrong


@pytest.mark.parametrize(
    ("page", "answers", "against"),
    [
        (LISTEN, "1 c; 2 c; 3 a; 4 b", "the script has “at five o'clock”, not “at six o'clock”"),
        (COUNT, "1 four; 2 six; 3 nine; 4 two", "the script has no 9"),
        (TICK, "1 a, 2 b, 3 a", "The key says “a” to number 3; what belongs to it is in picture b."),
    ],
)
def test_the_message_says_what_speaks_against_it(page: str, answers: str, against: str) -> None:
    ((_, message),) = said_of(RULE, page + key(answers))
    assert against in message
