# ruff: noqa: E501 - each row is one exercise
"""What the tenth set taught, in other layouts, each written before anybody saw what the program made of it: faults that
are found at their words, and beside them exercises of the same layouts of which nothing is said.
"""

import re

import pytest

from tests.exercises.measure import ABOUT_LEVEL, Exercise, findings_of


def _key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


CAUGHT = [
    # Tables with a column of numbers that are no labels.
    ("missing-gap", "You cut paper with it.", "### 1 Read and write. {.game}\n\n| | Clue | Letters | Word |\n|---|---|---|---|\n| 1 | You sleep in it. | 3 | ____ |\n| 2 | You cut paper with it. | 8 | |\n| 3 | You drink tea from it. | 3 | ____ |\n| 4 | You sit on it. | 5 | ____ |\n" + _key("1 bed\n2 scissors\n3 cup\n4 chair")),
    ("answers-mismatch", "It is white and cold.", "### 1 Do the puzzle. {.game}\n\n| No. | Clue | Word | Points |\n|---|---|---|---|\n| 1 | It barks. | ____ | 2 |\n| 2 | It is white and cold. | ____ | 3 |\n| 3 | It is wet. | ____ | 4 |\n\nThe secret word is ____.\n" + _key("1 dog\n3 sea\nSecret word: DIM")),
    ("answers-mismatch", "5", "### 1 Read the clues and write. {.game}\n\n| | Clue (number of letters) | |\n|---|---|---|\n| 1 | a big cat (4) | ____ |\n| 2 | a baby dog (5) | ____ |\n| 3 | a small bird (3) | ____ |\n| 4 | a farm animal (3) | ____ |\n" + _key("1 lion\n2 puppy\n3 hen\n4 cow\n5 goat")),
    # An item whose words of the key are printed already, on one of its two lines.
    ("missing-gap", "A: Where is the bus stop?", "### 1 In the street. Complete. {.speaking}\n\n1. A: Where is the bus stop?\n   B: Over there.\n2. A: When ____ it leave?\n   B: At two.\n3. A: How much ____ it?\n   B: Two coins.\n" + _key("1 is\n2 does\n3 is")),
    ("missing-gap", "B: Yes, I can.", "### 1 Complete the answers. {.speaking}\n\n1 A: Can you swim?\\\nB: No, I ____.\n\n2 A: Can you ski?\\\nB: Yes, I can.\n\n3 A: Do you sing?\\\nB: Yes, I ____.\n" + _key("1 can't 2 can 3 do")),
    ("missing-gap", "– She has a new bike.", "### 1 Complete. {.writing}\n\n1. Is he at home?\n   – No, he ____ at school.\n2. What has she got?\n   – She has a new bike.\n3. Are they late?\n   – Yes, they ____.\n4. Do you know him?\n   – No, I ____.\n" + _key("1. is\n2. has\n3. are\n4. don't")),
    # The second sentence is the one that should have the gap.
    ("missing-gap", "The box is under the bed.", "### 1 Write the second sentence so that it means the same. {.writing}\n\n1. This is my hat.\n   This hat is ____.\n2. The bed is over the box.\n   The box is under the bed.\n3. Ola is older than Bo.\n   Bo is ____ than Ola.\n" + _key("1 mine\n2 under\n3 younger")),
    ("missing-gap", "There is a pond in our garden.", "### 1 Finish the second sentence. {.test}\n\n1 Our school has a pool.\\\n→ There ____ in our school.\n\n2 Our garden has a pond.\\\n→ There is a pond in our garden.\n\n3 My room has two windows.\\\n→ There ____ in my room.\n" + _key("1 is a pool\n2 is a pond\n3 are two windows")),
    ("missing-gap", "I started to swim when I was six.", "### 1 Make one sentence. {.writing}\n\n1. It was cold. We went home.\\\nBecause it was cold, we ____.\n2. I was six. I started to swim.\\\nI started to swim when I was six.\n3. He was hungry. He ate a pie.\\\nHe ate a pie because ____.\n" + _key("1 went home\n2 when I was six\n3 he was hungry")),
    # A word that is spelt out whole among words with letters to fill in.
    ("missing-gap", "c h a i r", "### 1 Write the missing letters. {.writing}\n\n1 t _ b l _\\\n2 c h a i r\\\n3 b _ d\\\n4 l _ m p\n" + _key("1 table 2 chair 3 bed 4 lamp")),
    ("missing-gap", "goat", "### 1 Complete the words. {.writing}\n\n1. c\\_w\n2. h\\_n\n3. goat\n4. p\\_g\n" + _key("1 cow\n2 hen\n3 goat\n4 pig")),
    ("missing-gap", "s-n-o-w", "### 1 The weather. Fill in the letters. {.words}\n\n1. r-\\_-i-n\n2. s-n-o-w\n3. w-\\_-n-d\n4. s-\\_-n\n" + _key("1 rain, 2 snow, 3 wind, 4 sun")),
    # A box that nothing names.
    ("word-box-mismatch", "at · from · with", "### 1 Complete. Use each word once. {.writing}\n\nat · from · with\n\n1. I am ____ Wales.\n2. Come ____ me.\n3. We meet ____ six.\n4. I stay ____ home.\n" + _key("1 from\n2 with\n3 at\n4 at")),
    ("word-box-mismatch", "| When | Why | Who |", "### 1 Write the question words. Each word goes in one gap. {.writing}\n\n| When | Why | Who |\n|---|---|---|\n\n1. ____ are you sad? Because I'm ill.\n2. ____ is she? She's my aunt.\n3. ____ is the party? On Friday.\n4. ____ is it? Two coins.\n" + _key("1 Why\n2 Who\n3 When\n4 How much")),
    ("word-box-mismatch", "kite – drum – doll – ball", "### 1 Complete the sentences. {.writing}\n\nUse each word once.\n\nkite – drum – doll – ball\n\n- The ____ flies.\n- I hit the ____ with a stick.\n- We kick the ____.\n- My ____ has hair.\n- The ____ has wheels.\n" + _key("kite, drum, ball, doll, car")),
    ("word-box-mismatch", "foot", "### 1 Complete. {.words}\n\n| arm | leg | foot | ear |\n|---|---|---|---|\n\nUse all the words.\n\n1. I hear with my ____.\n2. My hand is at the end of my ____.\n3. My knee is in my ____.\n" + _key("1 ear\n2 arm\n3 leg")),
    # A head of the key that no column has.
    ("answers-mismatch", "Toys", "### 1 Write the words in the right column. {.words}\n\ndoll, pear, kite, plum\n\n| Fruit | Games |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("Fruit: pear, plum\nToys: doll, kite")),
    ("answers-mismatch", "Evening", "### 1 Sort. {.words}\n\nbreakfast, supper, lunch, toast, soup, milk\n\n**Morning**\n\n____\n\n____\n\n**Noon**\n\n____\n\n____\n\n**Night**\n\n____\n\n____\n" + _key("Morning: breakfast, toast\n\nNoon: lunch, soup\n\nEvening: supper, milk")),
    ("answers-mismatch", "Small", "### 1 Put the animals into the table. {.words}\n\nant · bee · cow · horse · hen · goose\n\n| Insects | Birds | Big animals |\n|---|---|---|\n| | | |\n| | | |\n" + _key("- Insects: ant, bee\n- Birds: hen, goose\n- Small animals: cow, horse")),
    # What there are names of.
    ("instruction-count-mismatch", "five instruments", "### 1 Look. Write the names of the five instruments. {.words}\n\n::: art\n1 a drum, 2 a flute, 3 a piano, 4 a harp\n:::\n\n1 ____   2 ____   3 ____   4 ____\n" + _key("1 drum 2 flute 3 piano 4 harp")),
    ("instruction-count-mismatch", "seven planets", "### 1 Label the seven planets. {.words}\n\n1. ____\n2. ____\n3. ____\n4. ____\n5. ____\n6. ____\n" + _key("1 Mercury 2 Venus 3 Mars 4 Saturn 5 Uranus 6 Neptune")),
    ("instruction-count-mismatch", "three tents", "### 1 Look at the three tents. Whose are they? {.reading}\n\n1 ____ tent\n\n2 ____ tent\n\n3 ____ tent\n\n4 ____ tent\n" + _key("1 Bo's 2 Ida's 3 Ola's 4 Mum's")),
    # There is or there are.
    ("key-makes-bad-english", "____ three goats and a cow on the hill.", "### 1 Write *There is* or *There are*. {.writing}\n\n1. ____ three goats and a cow on the hill.\n2. ____ a cow in the barn.\n" + _key("1 There is\n2 There is")),
    ("key-makes-bad-english", "There (is / are) some", "### 1 Circle. {.test}\n\n1. There (is / are) some apples in the bag.\n2. There (is / are) a fly in my soup.\n" + _key("1 is 2 is")),
    ("key-makes-bad-english", "____ two beds and a lamp", "### 1 *Is there* or *Are there*? {.writing}\n\n- ____ two beds and a lamp in your room?\n- ____ a mat on the floor?\n" + _key("Is there; Is there")),
    # Two that are right.
    ("two-right-answers", "The shoes are", "### 1 Choose. {.test}\n\n1. The shoes are *in / under* the wardrobe.\n2. He *go / goes* home.\n" + _key("1 under 2 goes")),
    ("two-right-answers", "We stayed in", "### 1 Choose. {.test}\n\n1. We stayed in ____ it was wet. a) because b) since c) but\n2. She ____ tea. a) like b) likes c) liking\n" + _key("1 a 2 b")),
    ("two-right-answers", "*begins / starts*", "### 1 Choose. {.test}\n\n1. It *begins / starts* at two.\n2. They *is / are* here.\n" + _key("1 starts 2 are")),
    # What the page says below its heading.
    ("word-box-mismatch", "red, blue, green", "### 1 Complete. {.writing}\n\nUse every word once only.\n\nWord box: red, blue, green\n\n1. Grass is ____.\n2. The sky is ____.\n3. A leaf is ____.\n4. A tomato is ____.\n" + _key("1 green 2 blue 3 green 4 red")),
    ("word-box-mismatch", "spoon", "### 1 Write. {.writing}\n\n::: box\ncup, spoon, pan\n\nYou need each word once.\n:::\n\n1. I drink from a ____.\n2. I fry eggs in a ____.\n" + _key("1 cup 2 pan")),
    # Stars, plus signs and numbers that Markdown takes for a list of its own.
    ("letter-gap-mismatch", "* g g s", "### 1 Each star is one letter. {.writing}\n\n1. h * n\n2. c * w\n3. * g g s\n" + _key("1 hen\n2 cow\n3 egg")),
    ("answers-mismatch", "Question 4", "### 1 Answer the questions. {.reading}\n\n**Question 1:** Who is ill?\n\n**Question 2:** Who helps?\n\n**Question 3:** Where is the cat?\n" + _key("Question 1: Bo\n\nQuestion 2: Ida\n\nQuestion 3: in the tree\n\nQuestion 4: at six")),
]  # fmt: skip

LEFT_ALONE = [
    # Tables with a column of numbers that are no labels.
    "### 1 Read and write. {.game}\n\n| | Clue | Letters | Word |\n|---|---|---|---|\n| 1 | You sleep in it. | 3 | ____ |\n| 2 | You read it. | 4 | ____ |\n| 3 | You drink tea from it. | 3 | ____ |\n| 4 | You sit on it. | 5 | ____ |\n\nThe first letters make a word: ____\n" + _key("1 bed\n2 book\n3 cup\n4 chair\nThe word: BBCC"),
    "### 1 Do the puzzle. {.game}\n\n| Clue | Number of letters | Word |\n|---|---|---|\n| 1 It barks. | 3 | ____ |\n| 2 It is white and cold. | 4 | ____ |\n| 3 It is hot and red. | 4 | ____ |\n\nThe secret word: ____\n" + _key("1 dog\n2 snow\n3 fire\nSecret word: DSF"),
    "### 1 Read. Write the animals. {.game}\n\n| | Legs | It says | Animal |\n|---|---|---|---|\n| a | 4 | moo | ____ |\n| b | 2 | quack | ____ |\n| c | 4 | baa | ____ |\n" + _key("a cow\nb duck\nc sheep"),
    "### 1 How many points? Write the words. {.game}\n\n| | Word | Points |\n|---|---|---|\n| 1 | a yellow fruit: ____ | 5 |\n| 2 | a red fruit: ____ | 6 |\n| 3 | a green fruit: ____ | 7 |\n\nMy points: ____\n" + _key("1 banana\n2 cherry\n3 lime"),
    "### 1 Write the numbers in words. {.words}\n\n| | | |\n|---|---|---|\n| 1 | 4 | ____ |\n| 2 | 5 | ____ |\n| 3 | 6 | ____ |\n" + _key("1 four\n2 five\n3 six"),
    # Dialogues in two lines.
    "### 1 In the street. Complete. {.speaking}\n\n1. A: ____ is the bus stop?\n   B: Over there.\n2. A: When ____ it leave?\n   B: At two.\n3. A: How much ____ it?\n   B: Two coins.\n" + _key("1 Where\n2 does\n3 is"),
    "### 1 Complete the answers. {.speaking}\n\n1 A: Can you swim?\\\nB: No, I ____.\n\n2 A: Can you ski?\\\nB: Yes, I ____.\n\n3 A: Do you sing?\\\nB: Yes, I ____.\n" + _key("1 can't 2 can 3 do"),
    "### 1 Read the questions. Then complete the answers. {.reading}\n\n1. A: Where is the cat?\n2. B: In the ____.\n3. A: Where is the dog?\n4. B: On the ____.\n" + _key("2 box\n4 mat"),
    "### 1 Listen and read. Complete. {.listening audio=1.1}\n\n1. A: Hello, Bo!\n   B: ____, Ida!\n2. A: How are you?\n   B: I'm fine, thanks.\n3. A: See you!\n   B: ____!\n" + _key("1 Hello 3 Bye"),
    # The second sentence.
    "### 1 Write the second sentence so that it means the same. {.writing}\n\n1. This is my hat.\n   This hat is ____.\n2. The bed is over the box.\n   The box is ____ the bed.\n3. Ola is older than Bo.\n   Bo is ____ than Ola.\n" + _key("1 mine\n2 under\n3 younger"),
    "### 1 Make one sentence. {.writing}\n\n1. It was cold. We went home. (because)\n2. I was six. I started to swim. (when)\n3. He was hungry. He ate a pie. (so)\n" + _key("1 We went home because it was cold.\n2 I started to swim when I was six.\n3 He was hungry, so he ate a pie."),
    "### 1 Finish the second sentence. {.test}\n\n0 I have a cat.\\\n→ There is a cat in my house.\n\n1 Our school has a pool.\\\n→ There ____ in our school.\n\n2 My room has two windows.\\\n→ There ____ in my room.\n" + _key("1 is a pool\n2 are two windows"),
    # Letters one by one.
    "### 1 Write the missing letters. {.writing}\n\n1 t _ b l _\\\n2 c h _ i r\\\n3 b _ d\\\n4 l _ m p\n" + _key("1 table 2 chair 3 bed 4 lamp"),
    "### 1 Write the words. {.writing}\n\n0. c a t → cat\n1. d o g → ____\n2. h e n → ____\n3. p i g → ____\n" + _key("1 dog\n2 hen\n3 pig"),
    "### 1 Put the letters in order. {.writing}\n\n1. g o d\n2. n e h\n3. g i p\n" + _key("1 dog\n2 hen\n3 pig"),
    "### 1 Write the letter that is too many. {.writing}\n\n1. c a t t ____\n2. d o o g ____\n3. h e n n ____\n" + _key("1 t\n2 o\n3 n"),
    "### 1 Say the alphabet. Write the missing letters. {.sounds}\n\n1. a b c _ e\n2. f g _ i j\n3. k l m n _\n" + _key("1 d\n2 h\n3 o"),
    # A box that nothing names.
    "### 1 Complete. Use each word once. {.writing}\n\nat · from · with\n\n1. I am ____ Wales.\n2. Come ____ me.\n3. We meet ____ six.\n" + _key("1 from\n2 with\n3 at"),
    "### 1 Complete. You can use a word twice. {.writing}\n\nat – from – with\n\n1. I am ____ Wales.\n2. Come ____ me.\n3. We meet ____ six.\n4. I stay ____ home.\n" + _key("1 from\n2 with\n3 at\n4 at"),
    "### 1 Write the question words. Each word goes in one gap. {.writing}\n\n| When | Why | Who |\n|---|---|---|\n\n1. ____ are you sad? Because I'm ill.\n2. ____ is she? She's my aunt.\n3. ____ is the party? On Friday.\n" + _key("1 Why\n2 Who\n3 When"),
    "### 1 Complete the table with your own words. Use each word once. {.writing}\n\n| red | blue | green |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n" + _key("Children's own answers."),
    "### 1 Read and complete. Use each word once. {.reading}\n\nSpring – a season of rain – is short. Then it gets hot.\n\nWord box: wet, hot\n\n1. Spring is ____.\n2. Summer is ____.\n" + _key("1 wet 2 hot"),
    # Heads of a key.
    "### 1 Write the words in the right column. {.words}\n\ndoll, pear, kite, plum\n\n| Fruit | Toys |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("Fruit: pear, plum\nToys: doll, kite"),
    "### 1 Put the animals into the table. {.words}\n\nant · bee · cow · horse · hen · goose\n\n| Insects | Birds | Big animals |\n|---|---|---|\n| | | |\n| | | |\n" + _key("- Insects: ant, bee\n- Birds: hen, goose\n- Big animals: cow, horse"),
    "### 1 Sort. {.words}\n\nbreakfast, supper, lunch, toast\n\n| Morning | Noon | Night |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n" + _key("Morning: breakfast, toast\nNoon: lunch\nNight: supper\nExtra: say when you eat soup."),
    "### 1 Sort the words. {.words}\n\nsun, bun, moon, spoon\n\n| u as in cup | oo as in boot |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("cup: sun, bun\nboot: moon, spoon"),
    # Numbers of things in an instruction.
    "### 1 Look. Write the names of the four instruments. {.words}\n\n::: art\n1 a drum, 2 a flute, 3 a piano, 4 a harp\n:::\n\n1 ____   2 ____   3 ____   4 ____\n" + _key("1 drum 2 flute 3 piano 4 harp"),
    "### 1 Read about the two farms. Answer the questions. {.reading}\n\nHill Farm has hens. Lake Farm has cows.\n\n1. Where are the hens? ____\n2. Where are the cows? ____\n3. Who has eggs? ____\n" + _key("1 on Hill Farm 2 on Lake Farm 3 Hill Farm"),
    "### 1 The two boys are six years old. Write their names. {.reading}\n\n1 ____\n\n2 ____\n" + _key("1 Bo 2 Jo"),
    "### 1 Look at the three boxes. Write five words for each. {.words}\n\n1 ____\n\n2 ____\n\n3 ____\n" + _key("Children's own answers."),
    "### 1 Write the five vowels. Then write four words with them. {.sounds}\n\n1 ____ 2 ____ 3 ____ 4 ____ 5 ____\n" + _key("1 a 2 e 3 i 4 o 5 u"),
    # There is or there are.
    "### 1 Write *There is* or *There are*. {.writing}\n\n1. ____ three goats and a cow on the hill.\n2. ____ a cow and two goats in the barn.\n3. ____ some milk in the jug.\n4. ____ a lot of mud.\n" + _key("1 There are\n2 There is\n3 There is\n4 There is"),
    "### 1 Write *There is* or *There are*. {.writing}\n\n1. ____ one pen and two books.\n2. ____ two of us.\n3. ____ ten minutes left.\n4. ____ two hours of rain.\n" + _key("1 There is\n2 There are\n3 There are\n4 There are"),
    "### 1 *is* or *are*? {.test}\n\n1. There ____ no sugar.\n2. There ____ no plums.\n3. There ____ a pair of shoes.\n" + _key("1 is 2 are 3 is"),
    # Where the page decides.
    "### 1 Look at the picture and choose. {.test}\n\n![A cat on a sofa](art/cat.svg){.drawing}\n\n1. The cat is *on / under* the sofa.\n2. It *is / are* black.\n" + _key("1 on 2 is"),
    "### 1 Choose. {.test}\n\n1. We stayed in *because / but* it was wet.\n2. It was wet *because / so* we stayed in.\n3. I sang *as / but* I was happy.\n" + _key("1 because 2 so 3 as"),
    "### 1 Choose. {.test}\n\n1. The fish is *in / under* the fridge: it must stay cold.\n2. My coat is *in / on* the hook.\n" + _key("1 in 2 on"),
    "### 1 Choose. {.test}\n\n1. The bird sat *on / in* the roof.\n2. She swam *under / on* the bridge.\n" + _key("1 on 2 under"),
    # What the page says below its heading.
    "### 1 Complete. {.writing}\n\nUse every word once only.\n\nWord box: red, blue, green\n\n1. Grass is ____.\n2. The sky is ____.\n3. A tomato is ____.\n" + _key("1 green 2 blue 3 red"),
    "### 1 Complete. {.writing}\n\nYou can only visit each farm once. Word for word it says so.\n\nWord box: red, blue, green\n\n1. Grass is ____.\n2. A leaf is ____.\n" + _key("1 green 2 green"),
    "### 1 Complete. {.writing}\n\nWord box: red, blue, green, black\n\n1. Grass is ____.\n2. The sky is ____.\n3. A leaf is ____.\n\nNow clap each word once.\n" + _key("1 green 2 blue 3 green"),
    # Stars, and questions that are numbered in bold.
    "### 1 Each star is one letter. {.writing}\n\n1. h * n\n2. c * w\n3. * g g\n" + _key("1 hen\n2 cow\n3 egg"),
    "### 1 Write the letters. {.writing}\n\n1. a p p l *\n2. * * g\n3. - r a i n\n" + _key("1 apple\n2 egg\n3 train"),
    "### 1 Answer the questions. {.reading}\n\n**Question 1:** Who is ill?\n\n**Question 2:** Who helps?\n\n**Question 3:** Where is the cat?\n" + _key("Question 1: Bo\n\nQuestion 2: Ida\n\nQuestion 3: in the tree"),
    "### 1 Answer. {.reading}\n\n**Question 1:** What are you?\n\n**Answer 1:** ____\n\n**Question 2:** Who is he?\n\n**Answer 2:** ____\n" + _key("Children's own answers."),
    # Headings and parts.
    "### 15 Test: Listen, read and write. {.test}\n\n1. The kite is ____.\n2. The hat is ____.\n3. The bag is ____.\n" + _key("1 red 2 blue 3 green"),
    "### 1 Game: Run, jump or hop. {.game}\n\n1. I ____ to school.\n2. We ____ in the park.\n3. They ____ fast.\n" + _key("1 walk 2 play 3 swim"),
    "### 1 Test. {.test}\n\n**A** Choose.\n\n1. It is …\n    a) a cat\n    b) a hat\n2. It has …\n    a) a tail\n    b) a tall\n\n**B** Write.\n\nname · red · This · I'm\n\n1. My ____ is Bo.\n2. ____ is my hat.\n3. It's ____.\n4. ____ six.\n" + _key("A\n1 a\n2 a\n\nB\n1 name\n2 This\n3 red\n4 I'm"),
]  # fmt: skip


def _exercises(activities: list[str]) -> list[Exercise]:
    return [Exercise(f"{at:02}", activity, "", (), "A2", "") for at, activity in enumerate(activities)]


@pytest.fixture(scope="module")
def said():
    return findings_of(_exercises([*(activity for _, _, activity in CAUGHT), *LEFT_ALONE]))


@pytest.mark.parametrize("at", range(len(CAUGHT)), ids=[f"{rule}: {words}" for rule, words, _ in CAUGHT])
def test_a_fault_is_found_at_its_words(said, at):
    rule, words, _ = CAUGHT[at]
    findings, text = said[f"{at:02}"]
    spans = [match.span() for match in re.finditer(re.escape(words), text)]
    at_words = [one for one in findings if any(one.span.start < end and start < one.span.end for start, end in spans)]
    assert rule in {finding.rule for finding in at_words}, findings
    assert {finding.rule for finding in findings if finding.rule not in ABOUT_LEVEL} == {rule}


@pytest.mark.parametrize("at", range(len(LEFT_ALONE)))
def test_nothing_is_said_of_what_is_right(said, at):
    findings, _ = said[f"{at + len(CAUGHT):02}"]
    assert [(one.rule, one.text) for one in findings if one.rule not in ABOUT_LEVEL] == []
