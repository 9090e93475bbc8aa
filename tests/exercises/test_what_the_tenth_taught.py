# ruff: noqa: E501 - each row is one exercise
"""What the tenth set taught, in other layouts, each written before anybody saw what the program made of it: faults that
are found at their words, and beside them exercises of the same layouts of which nothing is said.
"""

import pytest

from tests.exercises.taught import assert_caught, assert_left_alone, said_of


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
    # A second handful.
    ('missing-gap', 'A: Have you got a pen?', '### 1 In class. Write one word in each gap. {.writing}\n\n1. A: Have you got a pen? B: Yes, here you are.\n2. A: ____ I open the window? B: Yes, of course.\n3. A: Can you ____ that, please? B: R-O-B-I-N.\n4. A: What ____ this word mean? B: A small bird.\n\n::: answers\n1 got\n2 Can\n3 spell\n4 does\n:::\n'),
    ('missing-gap', 'The soup was cooked by my aunt.', '### 1 Change the sentences into the passive. {.writing}\n\n1. The boys broke a window.\n    A window ____ by the boys.\n2. My aunt cooked the soup.\n    The soup was cooked by my aunt.\n3. A storm sank the ship.\n    The ship ____ by a storm.\n\n::: answers\n1. was broken\n2. was cooked\n3. was sunk\n:::\n'),
    ('missing-gap', 'm i l k', '### 1 Food: write the vowels. {.words}\n\n**1** br _ _ d **2** m i l k **3** ch _ _ s _ **4** r _ c _\n\n::: answers\n1 bread 2 milk 3 cheese 4 rice\n:::\n'),
    ('missing-gap', '3. elephant', '### 1 Which animals are they? Complete. {.words}\n\n1. z\\_br\\_\n2. l\\_\\_n\n3. elephant\n4. g\\_r\\_ff\\_\n\n::: answers\n1. zebra 2. lion 3. elephant 4. giraffe\n:::\n'),
    ('word-box-mismatch', 'up', '### 1 Complete the text with the words below. Use each word only once. {.writing}\n\n> up / down / across / through\n\nWe walk (1) ____ the hill. At the top we sit (2) ____. Then we go (3) ____ the bridge, (4) ____ the tunnel and (5) ____ the road.\n\n::: answers\n1 up, 2 down, 3 across, 4 through, 5 along\n:::\n'),
    ('word-box-mismatch', 'warm', "### 1 What's the weather like? {.writing}\n\n**cloudy** **warm** **windy** **wet**\n\nUse all four words.\n\n1. My kite flies well when it is ____.\n2. Take an umbrella: it is ____.\n3. I can't see the sun. It is ____.\n\n::: answers\n1 windy 2 wet 3 cloudy\n:::\n"),
    ('word-box-mismatch', '| his | her | our |', '### 1 Write the right word. Each word is used once. {.writing}\n\n| his | her | our |\n|---|---|---|\n\n1. Mr Pole loves ____ garden.\n2. Ada feeds ____ fish.\n3. We tidy ____ room.\n4. The boys clean ____ bikes.\n\n::: answers\n1 his\n2 her\n3 our\n4 their\n:::\n'),
    ('answers-mismatch', 'Sweet', '### 1 Sort the food. {.words}\n\nlemon, honey, chips, cake, crisps, vinegar\n\n| Sour | Sugary | Salty |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n\n::: answers\nSour: lemon, vinegar\n\nSweet: honey, cake\n\nSalty: chips, crisps\n:::\n'),
    ('instruction-count-mismatch', 'eight insects', '### 1 Write the names of the eight insects in the picture. {.words}\n\n1 ____________\n\n2 ____________\n\n3 ____________\n\n4 ____________\n\n5 ____________\n\n6 ____________\n\n7 ____________\n\n::: answers\n1 bee 2 fly 3 ant 4 wasp 5 beetle 6 moth 7 cricket\n:::\n'),
    ('instruction-count-mismatch', 'five tools', '### 1 Name the five tools. {.words}\n\n| 1 | 2 | 3 | 4 |\n|---|---|---|---|\n| ____ | ____ | ____ | ____ |\n\n::: answers\n1 saw\n2 hammer\n3 rake\n4 spade\n:::\n'),
    ('key-makes-bad-english', '____ six eggs and a jug', "### 1 Write *There's* or *There are*. {.writing}\n\n1. ____ six eggs and a jug in the kitchen.\n2. ____ a lamp and two chairs.\n\n::: answers\n1 There's\n2 There's\n:::\n"),
    ('key-makes-bad-english', '____ two pens and a ruler', '### 1 Finish the questions with *Is there* or *Are there*. {.writing}\n\n1 ____ two pens and a ruler in your case?\n2 ____ an owl in the tree?\n\n::: answers\n1 Is there 2 Is there\n:::\n'),
    ('two-right-answers', 'The puppy sleeps', '### 1 Choose. {.test}\n\n1 The puppy sleeps ____ the bed. a) under b) next to c) of\n2 We ____ at nine. a) start b) starts c) starting\n\n::: answers\n1 a 2 a\n:::\n'),
    ('two-right-answers', 'Sam went to bed early', '### 1 Circle. {.test}\n\n1. Sam went to bed early *because / as / but* he was tired.\n2. He *sleep / slept / sleeping* well.\n\n::: answers\n1 because 2 slept\n:::\n'),
    ('two-right-answers', 'Our dog sits', '### 1 Choose. {.test}\n\n1. Our dog sits *behind / next to* the armchair.\n2. I *am / is* six.\n\n::: answers\n1 behind\n2 am\n:::\n'),
    ('missing-gap', 'Ask and tell him.', "### 1 Use the prompt word. {.writing}\n\n1 Go and see her. (visit)\\\n____ her.\n\n2 Ask him and tell him. (and)\\\nAsk and tell him.\n\n3 Don't be loud. (quiet)\\\n____ quiet.\n\n::: answers\n1 Visit\n2 Ask and tell\n3 Be\n:::\n"),
    ('letter-gap-mismatch', '* p p l', '### 1 Each star is a letter. {.words}\n\n1. p * * r\n2. * p p l\n3. p l * m\n\n::: answers\n1 pear 2 apple 3 plum\n:::\n'),
    ('answers-mismatch', 'Sentence 4', '### 1 Correct the sentences. {.mistakes}\n\n**Sentence 1:** She have a cat.\n\n**Sentence 2:** I goes home.\n\n**Sentence 3:** They is here.\n\n::: answers\n**Sentence 1:** She has a cat.\n\n**Sentence 2:** I go home.\n\n**Sentence 3:** They are here.\n\n**Sentence 4:** We are late.\n:::\n'),
    # A third handful.
    ('word-box-mismatch', 'shelf', "### 1 Put the words into the sentences. Use every word. {.writing}\n\n| lamp | rug |\n|---|---|\n| shelf | sink |\n\n- There is a ____ on the floor.\n- Turn on the ____, it's dark.\n- Wash the cups in the ____.\n\n::: answers\nrug, lamp, sink\n:::\n"),
    ('word-box-mismatch', 'who – when – where', '### 1 Make the sentences complete. You need each word once. {.writing}\n\nwho – when – where\n\n1. The woman ____ teaches us is kind.\n2. This is the house ____ I was born.\n3. Call me ____ you are ready.\n4. The boy ____ won is my cousin.\n\n::: answers\n1 who 2 where 3 when 4 who\n:::\n'),
    ('word-box-mismatch', 'hear', '### 1 Our senses. {.writing}\n\n**Words:** see – hear – smell\n\n1. I ____ with my eyes.\n2. I ____ with my nose.\n\n*Use all the words.*\n\n::: answers\n1 see, 2 smell\n:::\n'),
    ('missing-gap', 'B: At half past two.', "### 1 Complete B's answers. {.speaking}\n\n1. A: When does school start?\n\n   B: At ____.\n\n2. A: When is lunch?\n\n   B: At half past two.\n\n3. A: When do you go to bed?\n\n   B: At ____.\n\n::: answers\n1 eight o'clock\n2 half past two\n3 nine o'clock\n:::\n"),
    ('missing-gap', 'He is too short to reach the shelf.', "### 1 Rewrite with *too* or *enough*. {.writing}\n\n| First sentence | Second sentence |\n|---|---|\n| 1 The box is so heavy that I can't lift it. | The box is ____ to lift. |\n| 2 He is not tall, so he can't reach the shelf. | He is too short to reach the shelf. |\n| 3 She is old, so she can drive. | She is ____ to drive. |\n\n::: answers\n1 too heavy\n2 too short\n3 old enough\n:::\n"),
    ('missing-gap', '5) finger', '### 1 Parts of the body: fill in the letters. {.words}\n\n1) h \\_ n d   2) f \\_ \\_ t   3) n \\_ s \\_   4) m \\_ \\_ t h   5) finger\n\n::: answers\n1 hand 2 foot 3 nose 4 mouth 5 finger\n:::\n'),
    ('answers-mismatch', 'Cold drinks', '### 1 Write the words in the menu. {.words}\n\ntea, juice, soup, coffee, salad, water\n\n| Hot drinks | Cool drinks | Food |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n\n::: answers\nHot drinks: tea, coffee\nCold drinks: juice, water\nFood: soup, salad\n:::\n'),
    ('answers-mismatch', 'd', '### 1 Who says it? {.listening audio=1.1}\n\n| | Speaker | Coins | What |\n|---|---|---|---|\n| a | Ola | 3 | ____ |\n| b | Bo | 5 | ____ |\n| c | Ida | 4 | ____ |\n\n::: answers\na pen\nb book\nc cap\nd bag\n:::\n'),
    ('instruction-count-mismatch', 'four fruits', '### 1 Label the four fruits. {.words}\n\n1 \\_\\_\\_\\_\\_\\_\n\n2 \\_\\_\\_\\_\\_\\_\n\n3 \\_\\_\\_\\_\\_\\_\n\n::: answers\n1 plum 2 pear 3 lime\n:::\n'),
    ('instruction-count-mismatch', 'six toys', '### 1 Look at the toy shop. Write the words for the six toys. {.words}\n\n1. ____ 2. ____ 3. ____ 4. ____ 5. ____\n\n::: answers\n1 doll 2 ball 3 kite 4 drum 5 train\n:::\n'),
    ('key-makes-bad-english', '____ four spoons', '### 1 Fill in *is* or *are*. {.test}\n\n1. There ____ four spoons and a fork on the tray.\n2. There ____ a cup on the tray.\n\n::: answers\n1 is\n2 is\n:::\n'),
    ('two-right-answers', 'The rabbit is', '### 1 Which word is right? {.test}\n\n1. The rabbit is (under / near) the chair.\n2. It (have / has) long ears.\n\n::: answers\n1 under 2 has\n:::\n'),
    ('two-right-answers', 'My socks are', '### 1 Underline. {.test}\n\n1. My socks are under / behind the bed.\n2. They is / are wet.\n\n::: answers\n1 under 2 are\n:::\n'),
    ('two-right-answers', 'The children stayed', '### 1 Choose a, b or c. {.test}\n\n1. The children stayed inside ____ there was a storm. a) because b) as c) so\n2. They ____ games. a) play b) played c) playing\n\n::: answers\n1 a 2 b\n:::\n'),
    ('duplicate-option', 'B: tall', '### 1 Choose. {.test}\n\n1. A giraffe is ____.\n   A: tall\n   B: tall\n   C: short\n2. A mouse is ____.\n   A: small\n   B: big\n   C: wide\n\n::: answers\n1 A 2 A\n:::\n'),
    # Names in bold before lines to write on.
    ('answers-mismatch', 'Indoors', '### 1 Where do you do it? Write the words in two lists. {.words}\n\nski, cook, camp, paint\n\n**Inside:** ____, ____\n\n**Outside:** ____, ____\n\n::: answers\nIndoors: cook, paint\n\nOutside: ski, camp\n:::\n'),
    ('answers-mismatch', 'glass', '### 1 Sort. {.words}\n\npen, cup, book, plate\n\n**School:** ____ ____\n\n**Kitchen:** ____ ____\n\n::: answers\nSchool: pen, book\n\nKitchen: cup, glass, plate\n:::\n'),
    # A last handful.
    ('word-box-mismatch', 'into', '### 1 Complete. {.writing}\n\nPut each word into one gap.\n\nWords: into, onto, past\n\n1. Jump ____ the box.\n2. Walk ____ the shop.\n\n::: answers\n1 onto 2 past\n:::\n'),
    ('missing-gap', '2 T: What day is it?', "### 1 In the classroom. {.speaking}\n\n1 T: What ____ is it? P: It's ten o'clock.\n\n2 T: What day is it? P: It's Monday.\n\n3 T: What ____ is it? P: It's red.\n\n::: answers\n1 time 2 day 3 colour\n:::\n"),
    ('two-right-answers', 'The teddy lies', '### 1 Choose. {.test}\n\n1. The teddy lies [under | behind] the sofa.\n2. I [has | have] two teddies.\n\n::: answers\n1 under\n2 have\n:::\n'),
    ('answers-mismatch', 'Past', '### 1 Write the verbs in the columns. {.writing}\n\ngo, went, sing, sang\n\n| Present | Before |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n\n::: answers\nPresent: go, sing\nPast: went, sang\n:::\n'),
    ('instruction-count-mismatch', 'nine numbers', '### 1 Write the words for the nine numbers. {.words}\n\n| | |\n|---|---|\n| 1 | ____ |\n| 2 | ____ |\n| 3 | ____ |\n| 4 | ____ |\n| 5 | ____ |\n| 6 | ____ |\n| 7 | ____ |\n| 8 | ____ |\n\n::: answers\n1 one 2 two 3 three 4 four 5 five 6 six 7 seven 8 eight\n:::\n'),
    ('key-makes-bad-english', '____ three ducks and a swan', '### 1 *was* or *were*? {.test}\n\n1. There ____ three ducks and a swan on the lake.\n2. There ____ a boat on the lake.\n\n::: answers\n1 was 2 was\n:::\n'),
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
    # A second handful.
    '### 1 In class. Write one word in each gap. {.writing}\n\n1. A: Have you ____ a pen? B: Yes, here you are.\n2. A: ____ I open the window? B: Yes, of course.\n3. A: Can you ____ that, please? B: R-O-B-I-N.\n\n::: answers\n1 got\n2 Can\n3 spell\n:::\n',
    "### 1 Choose the right answer. {.test}\n\n1. How old are you?\n   A: I'm nine.\n   B: I'm fine.\n2. Where do you live?\n   A: At night.\n   B: In a village.\n3. What's your name?\n   A: It's Ben.\n   B: He's Ben.\n\n::: answers\n1 A 2 B 3 A\n:::\n",
    "### 1 What do they say? Match. {.reading}\n\n1. Two friends meet. ____\n2. A boy is late. ____\n3. A girl drops a cup. ____\n\nA: Oh no!\nB: Hello!\nC: I'm sorry I'm late.\n\n::: answers\n1 B 2 C 3 A\n:::\n",
    '### 1 Read and answer. {.reading}\n\n| Animal | Legs | Eats |\n|---|---|---|\n| spider | 8 | flies |\n| frog | 4 | insects |\n| hen | 2 | seeds |\n\n1. How many legs has a frog got? ____\n2. What does a hen eat? ____\n3. Which animal has got eight legs? ____\n\n::: answers\n1 four 2 seeds 3 a spider\n:::\n',
    '### 1 Look at the prices and write. {.writing}\n\n| | Thing | Coins | |\n|---|---|---|---|\n| 1 | an apple | 2 | It costs ____ coins. |\n| 2 | a pie | 3 | It costs ____ coins. |\n| 3 | a cake | 4 | It costs ____ coins. |\n\n::: answers\n1 two\n2 three\n3 four\n:::\n',
    '### 1 Match the numbers. {.reading}\n\n| | | | |\n|---|---|---|---|\n| 1 | three plus one | 4 | a dozen |\n| 2 | two times five | 5 | four |\n| 3 | six plus six | 6 | ten |\n\n::: answers\n1–5, 2–6, 3–4\n:::\n',
    '### 1 Write the numbers. {.words}\n\n| 11 | 12 | 13 |\n|---|---|---|\n| ____ | ____ | ____ |\n\n::: answers\neleven, twelve, thirteen\n:::\n',
    '### 1 Complete with the words. Use each word once. There is one extra word. {.writing}\n\nup – down – across – through – along\n\n1. Climb ____ the tree.\n2. Walk ____ the bridge.\n3. The train goes ____ a tunnel.\n4. Come ____ from the roof!\n\n::: answers\n1 up 2 across 3 through 4 down\n:::\n',
    '### 1 Put the words in the right place. {.writing}\n\n| in | on | under |\n|---|---|---|\n\nYou can use a word more than once.\n\n1. The milk is ____ the glass.\n2. The bag is ____ the floor.\n3. Our feet are ____ the table.\n4. The picture is ____ the wall.\n\n::: answers\n1 in 2 on 3 under 4 on\n:::\n',
    "### 1 Read. Then write. {.reading}\n\nUse your ruler. Each word has a colour. Choose one word and draw it.\n\nred · blue · green\n\n1. My word is ____.\n2. I like ____.\n\n::: answers\nChildren's own answers.\n:::\n",
    "### 1 Sort the food. {.words}\n\nlemon, honey, chips, cake\n\n| Sour | Sweet | Salty |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n\n::: answers\nSour: lemon; Sweet: honey, cake; Salty: chips. Tip: let the children taste only with the school's permission.\n:::\n",
    '### 1 Sort the words by their sound. {.sounds}\n\ncat, cake, hat, name\n\n| short a | long a |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n\n::: answers\nshort: cat, hat\nlong: cake, name\n:::\n',
    '### 1 Write the words in the columns. {.words}\n\nrun, apple, swim, bread\n\n| Verbs | Nouns |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n\n::: answers\nverbs: run, swim\nnouns: apple, bread\n:::\n',
    '### 1 Write the names of the five days you go to school. {.writing}\n\n1 ____ 2 ____ 3 ____ 4 ____ 5 ____\n\n::: answers\n1 Monday 2 Tuesday 3 Wednesday 4 Thursday 5 Friday\n:::\n',
    '### 1 Look at the two pictures. Find the differences and write them. {.writing}\n\n1 ____________\n\n2 ____________\n\n3 ____________\n\n::: answers\n1 the hat 2 the dog 3 the tree\n:::\n',
    '### 1 Name the two seasons when it is cold, and say why. {.writing}\n\n1 ____________\n\n2 ____________\n\nWhy? ____________\n\n::: answers\n1 autumn 2 winter. Why: own answers\n:::\n',
    '### 1 Label the four parts of the plant. Then colour it in three colours. {.words}\n\n1 ____ 2 ____ 3 ____ 4 ____\n\n::: answers\n1 root 2 stem 3 leaf 4 flower\n:::\n',
    '### 1 Write *There is* or *There are*. {.writing}\n\n1. ____ a bed and two chairs in my room.\n2. ____ two chairs and a bed in my room.\n3. ____ lots of books on the shelf.\n4. ____ a lot of water in the bath.\n5. ____ nobody in the house.\n\n::: answers\n1 There is\n2 There are\n3 There are\n4 There is\n5 There is\n:::\n',
    '### 1 *Is there* or *Are there*? {.writing}\n\n1. ____ any milk and bread?\n2. ____ three cats and a dog?\n3. ____ enough chairs?\n4. ____ a lot of dogs in your street?\n5. ____ a picture of a king and a queen?\n\n::: answers\n1 Is there\n2 Are there\n3 Are there\n4 Are there\n5 Is there\n:::\n',
    '### 1 Choose. {.test}\n\n1. The cat sleeps *on / of* the bed.\n2. The books are *on / at* the shelf.\n3. She sits *in / between* an armchair.\n4. The shoes are *in / on* the box.\n\n::: answers\n1 on 2 on 3 in 4 in\n:::\n',
    '### 1 Choose. {.test}\n\n1. I like him *because / but* he is kind.\n2. He runs *as / because* fast as me.\n3. Why are you late? *Because / As* I missed the bus.\n4. I have lived here *since / because* I was six.\n\n::: answers\n1 because 2 as 3 Because 4 since\n:::\n',
    '### 1 Write the letters. {.words}\n\n1. * h i p\n2. b * * t\n3. * e a\n\n::: answers\n1 ship 2 boat 3 sea\n:::\n',
    '### 1 Choose. {.test}\n\n1. - a cat\n   - a cup\n2. - a dog\n   - a door\n\n::: answers\n1 a cat\n2 a dog\n:::\n',
    '### 1 Solve the riddles. {.game}\n\n**Riddle 1:** I have a face but no eyes.\n\n**Riddle 2:** I have teeth but I do not eat.\n\n::: answers\nRiddle 1: a clock\n\nRiddle 2: a comb\n:::\n',
    "### 1 Act it out. {.speaking}\n\n**Speaker 1:** Hello!\n\n**Speaker 2:** Hi! How are you?\n\n**Speaker 1:** I'm fine, thanks.\n",
    '### 1 Test. {.test}\n\n**A** Read and choose.\n\n1. Fish can *swim / fly*.\n2. Birds can *fly / drive*.\n\n**B** Put the words in order.\n\n3. is / This / hat / my\n4. like / you / Do / milk / ?\n\n**C** Write.\n\nsix – name\n\n5. My ____ is Rob.\n6. I am ____.\n\n::: answers\n1 swim 2 fly\n3 This is my hat. 4 Do you like milk?\n5 name 6 six\n:::\n',
    '### 1 Complete the story. {.writing}\n\n**A** The wind\n\n1. The wind was ____.\n2. It blew my hat ____.\n\n**B** The hat\n\n1. The hat flew over the ____.\n2. A ____ caught it.\n\n::: answers\nA 1 strong 2 away\nB 1 wall 2 dog\n:::\n',
    '### 1 Revision: Words, sounds and letters. {.test}\n\n1. A baby cat is a ____.\n2. Cat begins with ____.\n3. Hat rhymes with ____.\n\n::: answers\n1 kitten 2 c 3 cat\n:::\n',
    '### 1 Choose: *much, many* or *a lot of*. {.test}\n\n1. How ____ milk is there?\n2. How ____ eggs are there?\n3. There is ____ snow.\n\n::: answers\n1 much 2 many 3 a lot of\n:::\n',
    '### 1 Spell the words aloud. Then write them. {.speaking}\n\n1. d-o-g ____\n2. c-a-t ____\n3. h-e-n ____\n\n::: answers\n1 dog 2 cat 3 hen\n:::\n',
    '### 1 Read the letters. Which word is it? {.sounds}\n\n1. t r e e\n2. s t a r\n3. m o o n\n\n::: answers\n1 tree 2 star 3 moon\n:::\n',
    # A third handful.
    '### 1 Choose. {.test}\n\n1. A giraffe is ____.\n   A: tall\n   B: small\n   C: short\n2. A mouse is ____.\n   A: small\n   B: big\n   C: wide\n\n::: answers\n1 A 2 A\n:::\n',
    "### 1 Read the dialogue and choose. {.speaking}\n\n1. A: (Is / Are) you ready? B: Yes, I am.\n2. A: (Do / Does) he skate? B: No, he doesn't.\n3. A: (Was / Were) it cold? B: Yes, very.\n\n::: answers\n1 Are 2 Does 3 Was\n:::\n",
    "### 1 Put the words in order. {.speaking}\n\n1. A: you / are / how / ?  B: Fine.\n2. A: your / what's / name / ?  B: Eva.\n\n::: answers\n1 How are you? 2 What's your name?\n:::\n",
    "### 1 Complete B's answers. {.speaking}\n\n1. A: When does school start?\n\n   B: At ____.\n\n2. A: When is lunch?\n\n   B: At ____.\n\n::: answers\n1 eight o'clock\n2 half past two\n:::\n",
    "### 1 Rewrite with *too* or *enough*. {.writing}\n\n| First sentence | Second sentence |\n|---|---|\n| 1 The box is so heavy that I can't lift it. | The box is ____ to lift. |\n| 2 She is old, so she can drive. | She is ____ to drive. |\n\n::: answers\n1 too heavy\n2 old enough\n:::\n",
    '### 1 Numbers. Fill in the letters. {.words}\n\n1) _ n e   2) t w _   3) t h r _ _   4) f _ _ r   5) f i v _\n\n::: answers\n1 one 2 two 3 three 4 four 5 five\n:::\n',
    '### 1 Which letter is missing? Write the word. {.words}\n\n1. B _ R D ____\n2. F _ S H ____\n3. S H _ _ P ____\n\n::: answers\n1 bird 2 fish 3 sheep\n:::\n',
    "### 1 Measure and write. {.writing}\n\n| | How long? | How many centimetres? |\n|---|---|---|\n| 1 | your pen | ____ |\n| 2 | your book | ____ |\n| 3 | your desk | ____ |\n\n::: answers\nChildren's own answers.\n:::\n",
    '### 1 Complete the bus timetable. {.reading}\n\nBus 5 leaves at 2. Bus 6 leaves at 4. Bus 7 leaves at 3.\n\n| Bus | 5 | 6 | 7 |\n|---|---|---|---|\n| leaves at | ____ | ____ | ____ |\n\n::: answers\ntwo, four, three\n:::\n',
    '### 1 Do the sums. Write the words. {.writing}\n\n| 1 | 2 + 3 | ____ |\n|---|---|---|\n| 2 | 4 + 4 | ____ |\n| 3 | 9 - 2 | ____ |\n\n::: answers\n1 five\n2 eight\n3 seven\n:::\n',
    '### 1 Ages. Read and write. {.reading}\n\n| Name | Age | Sentence |\n|---|---|---|\n| Eva | 1 | Eva is ____. |\n| Rob | 2 | Rob is ____. |\n| Ian | 3 | Ian is ____. |\n\n::: answers\n1 one 2 two 3 three\n:::\n',
    '### 1 Complete. Use each word once. {.writing}\n\nwho – when – where\n\n1. The woman ____ teaches us is kind.\n2. This is the house ____ I was born.\n3. Call me ____ you are ready.\n\n::: answers\n1 who 2 where 3 when\n:::\n',
    '### 1 Complete. {.writing}\n\n**big** **small** **tall**\n\n1. An elephant is ____.\n2. A mouse is ____.\n3. A whale is ____.\n\n::: answers\n1 big 2 small 3 big\n:::\n',
    '### 1 Sing and clap. Then complete. {.song}\n\nClap, clap, clap! Stamp, stamp, stamp!\n\n1. We ____ our hands.\n2. We ____ our feet.\n\n::: answers\n1 clap 2 stamp\n:::\n',
    '### 1 Write each word in one gap. Some words go in two gaps. {.writing}\n\nis, are\n\n1. It ____ hot.\n2. We ____ late.\n3. He ____ ill.\n\n::: answers\n1 is 2 are 3 is\n:::\n',
    '### 1 Write the words in the menu. {.words}\n\ntea, juice, soup, coffee\n\n| Hot drinks | Cold drinks | Food |\n|---|---|---|\n| ____ | ____ | ____ |\n| ____ | ____ | ____ |\n\n::: answers\nHot: tea, coffee\nCold: juice\nFood: soup\n:::\n',
    '### 1 Fill in the form. {.writing}\n\nName: ____\n\nAge: ____\n\nTown: ____\n\nHobby: ____\n\n::: answers\nName: Eva Till. Age: nine. Town: Hill End. Hobby: chess. Accept other good answers.\n:::\n',
    "### 1 Complete the family tree. {.reading}\n\nAnn is Bob's mother. Bob is Cleo's father.\n\nAnn → Bob → Cleo\n\n1. Ann is Cleo's ____.\n2. Bob is Ann's ____.\n\n::: answers\n1 grandmother 2 son\n:::\n",
    '### 1 Label the picture. {.words}\n\n::: art\nA house with a roof, a door, two windows and a chimney.\n:::\n\n1 ____ 2 ____ 3 ____ 4 ____\n\n::: answers\n1 roof 2 door 3 window 4 chimney\n:::\n',
    '### 1 Look at the four seasons. Which three things do you wear in winter? {.speaking}\n\n1 ____ 2 ____ 3 ____\n\n::: answers\n1 hat 2 coat 3 boots\n:::\n',
    '### 1 Name two animals that fly, two that swim and two that run. {.words}\n\n1 ____ 2 ____\n\n3 ____ 4 ____\n\n5 ____ 6 ____\n\n::: answers\n1 bee 2 bird 3 fish 4 seal 5 dog 6 horse\n:::\n',
    '### 1 Write the names of the seven days. The first is done. {.words}\n\n0 Monday 1 ____ 2 ____ 3 ____ 4 ____ 5 ____ 6 ____\n\n::: answers\n1 Tuesday 2 Wednesday 3 Thursday 4 Friday 5 Saturday 6 Sunday\n:::\n',
    '### 1 Fill in *is* or *are*. {.test}\n\n1. There ____ a fork and four spoons on the tray.\n2. There ____ four people and a dog.\n3. There ____ one or two eggs.\n4. There ____ twenty minutes left.\n\n::: answers\n1 is\n2 are\n3 are\n4 are\n:::\n',
    '### 1 Where is it? Look and choose. {.reading}\n\n::: art\nA rabbit sits under a chair; a hat hangs on a hook.\n:::\n\n1. The rabbit is (under / near) the chair.\n2. The hat is (on / in) the hook.\n\n::: answers\n1 under 2 on\n:::\n',
    '### 1 Read. Choose. {.reading}\n\nTom hid in his room because he broke the cup. His socks were behind the bed and his bag was on the shelf.\n\n1. Tom hid (because / so) he broke the cup.\n2. The socks were (behind / under) the bed.\n3. The bag was (on / near) the shelf.\n\n::: answers\n1 because 2 behind 3 on\n:::\n',
    "### 1 Choose. {.test}\n\n1. She left *because / since* of the rain.\n2. It's *because / as* you are late.\n\n::: answers\n1 because 2 because\n:::\n",
    '### 1 Sentence by sentence. {.reading}\n\n**Sentence 1:** *The / A* sun is hot.\n\n**Sentence 2:** I have *a / an* apple.\n\n::: answers\n1 The 2 an\n:::\n',
    '### 1 Listen. {.listening audio=1.1}\n\n**Picture 1:** a ____ cat\n\n**Picture 2:** a ____ dog\n\n**Picture 3:** a ____ hen\n\n::: answers\n1 black 2 white 3 brown\n:::\n',
    '### 1 Quiz. {.test}\n\n**A.** Write.\n\n1. two + two = ____\n2. six + one = ____\n\n**B.** Circle.\n\n3. A cow *moos / barks*.\n4. A dog *moos / barks*.\n\n**C.** Answer.\n\n5. How are you? ____\n6. How old are you? ____\n\n::: answers\n1 four, 2 seven, 3 moos, 4 barks, 5 and 6 own answers\n:::\n',
    '### 1 Story: Read, think and answer. {.reading}\n\nMia has a hen. The hen is ill. Mia calls the vet.\n\n1. What has Mia got? ____\n2. Who does she call? ____\n\n::: answers\n1 a hen 2 the vet\n:::\n',
    '### 1 Spelling bee. {.sounds}\n\n1. A: How do you spell *tree*? B: T – R – ____ – ____\n2. A: How do you spell *book*? B: B – ____ – ____ – K\n\n::: answers\n1 E, E 2 O, O\n:::\n',
    '### 1 Make new words. {.words}\n\n1. s + hop = ____\n2. t + rain = ____\n\n::: answers\n1 shop 2 train\n:::\n',
    '### 1 Complete with *because* or *so*. {.writing}\n\n1. I was cold, ____ I put on a coat.\n2. I put on a coat ____ I was cold.\n\n::: answers\n1 so 2 because\n:::\n',
    # Names in bold before lines to write on.
    '### 1 Read and complete the card. {.reading}\n\nTom is nine. He lives in Hill End. He likes chess.\n\n**Name:** ____\n\n**Age:** ____\n\n**Town:** ____\n\n::: answers\nName: Tom. Age: nine. Town: Hill End.\n:::\n',
    "### 1 Write a dialogue. {.speaking}\n\n**Bo:** ____\n\n**Ida:** ____\n\n**Bo:** ____\n\n::: answers\nChildren's own answers.\n:::\n",
    "### 1 What do they say? {.speaking}\n\n**Bo:** ____\n\n**Ida:** I'm fine.\n\n::: answers\nBo: How are you?\n:::\n",
    '### 1 Sort. {.words}\n\npen, cup, book, plate\n\n**School:** ____ ____\n\n**Kitchen:** ____ ____\n\n::: answers\nSchool: pen, book\n\nKitchen: cup, plate\n:::\n',
    '### 1 Complete the cards. {.reading}\n\n**Name:** ____\\\n**Age:** ____\n\n**Name:** ____\\\n**Age:** ____\n\n::: answers\nName: Tom, Age: nine; Name: Eva, Age: six\n:::\n',
    # A last handful.
    '### 1 Choose A or B. {.reading}\n\n1. Where do fish live?\n\nA: in water\n\nB: in trees\n\n2. Where do bats sleep?\n\nA: in caves\n\nB: in the sea\n\n::: answers\n1 A, 2 A\n:::\n',
    "### 1 What is next? A: the boy, B: the girl. {.listening}\n\n1. A: I'm ____.\n2. B: I'm ____ too.\n3. A: Let's ____!\n\n::: answers\n1 cold 2 cold 3 go\n:::\n",
    "### 1 Read the notes A and B. Complete. {.reading}\n\nA: The pool is open.\n\nB: The pool is shut.\n\n1. Note A: you can ____.\n2. Note B: you can't ____.\n\n::: answers\n1 swim 2 swim\n:::\n",
    "### 1 How much is it? {.speaking}\n\n| | Item | Price | Question | Answer |\n|---|---|---|---|---|\n| 1 | hat | 5 | How much is the hat? | It's ____. |\n| 2 | cap | 4 | How much is the cap? | It's ____. |\n\n::: answers\n1 five coins\n2 four coins\n:::\n",
    '### 1 Crossword. {.game}\n\n| | Across | Letters |\n|---|---|---|\n| 1 | a pet that purrs | 3 |\n| 4 | a big bird | 5 |\n| 5 | it is in the sky at night | 4 |\n\n::: answers\n1 cat\n4 eagle\n5 moon\n:::\n',
    '### 1 Write the missing numbers. {.words}\n\n| 1 | 2 | ____ | 4 |\n|---|---|---|---|\n| ____ | 6 | 7 | ____ |\n\n::: answers\n3, 5, 8\n:::\n',
    '### 1 Complete with **a**, **an** or **the**. {.test}\n\n**a** **an** **the**\n\n1. I have ____ apple.\n2. ____ sun is hot.\n3. This is ____ cup.\n\n::: answers\n1 an 2 The 3 a\n:::\n',
    '### 1 Choose the words. You need each verb once in the past. {.writing}\n\ngo, see, eat\n\n1. We ____ to the lake.\n2. I ____ a swan.\n3. It ____ my bread.\n\n::: answers\n1 went 2 saw 3 ate\n:::\n',
    "### 1 Play. {.game}\n\nEach word is worth one point. You need all the cards.\n\nrun · jump · hop\n\n1. I can ____.\n2. I can't ____.\n\n::: answers\nChildren's own answers.\n:::\n",
    '### 1 Sort. {.words}\n\nrun, happy, sad\n\n| verbs | adjectives |\n|---|---|\n| ____ | ____ |\n| | ____ |\n\n::: answers\nverb: run\nadjective: happy, sad\n:::\n',
    "### 1 Write. {.writing}\n\n**Task 1:** My name is ____.\n\n**Task 2:** I am ____ years old.\n\n**Task 3:** I like ____.\n\n::: answers\nChildren's own answers.\n:::\n",
    '### 1 Look at the picture. Label the six things. {.words}\n\n![A desk](art/desk.svg){.drawing}\n\npen – lamp – book – cup – ruler – clock\n\n1 ____ 2 ____ 3 ____ 4 ____ 5 ____ 6 ____\n\n::: answers\n1 pen 2 lamp 3 book 4 cup 5 ruler 6 clock\n:::\n',
    "### 1 Name the three friends and say what they like. {.listening audio=1.1}\n\n1 ____ likes ____.\n2 ____ likes ____.\n3 ____ likes ____.\n\n::: {.audio track=1.1}\nEVA: I'm Eva. I like tea. Rob likes milk. Ian likes juice.\n:::\n\n::: answers\n1 Eva, tea 2 Rob, milk 3 Ian, juice\n:::\n",
    '### 1 Choose. {.test}\n\n1. There (was / were) a king and two queens.\n2. There (was / were) two queens and a king.\n3. There (was / were) lots of snow and ice.\n\n::: answers\n1 was 2 were 3 was\n:::\n',
    '### 1 Choose. {.test}\n\n1. The dog sleeps (in / at) its basket.\n2. The cat hid (under / on) the bed.\n3. The kitten fell (off / under) the bed.\n4. My book is (in / on) my bag.\n\n::: answers\n1 in 2 under 3 off 4 in\n:::\n',
    "### 1 Choose. {.test}\n\n1. I have sung (because / since) I was little.\n2. Tell me (because / if) it rains.\n3. That's (because / as) you are tall.\n\n::: answers\n1 since 2 if 3 because\n:::\n",
]  # fmt: skip


@pytest.fixture(scope="module")
def said(language):
    return said_of(CAUGHT, LEFT_ALONE, language)


@pytest.mark.parametrize("at", range(len(CAUGHT)), ids=[f"{rule}: {words}" for rule, words, _ in CAUGHT])
def test_a_fault_is_found_at_its_words(said, at):
    assert_caught(said, at, CAUGHT)


@pytest.mark.parametrize("at", range(len(LEFT_ALONE)))
def test_nothing_is_said_of_what_is_right(said, at):
    assert_left_alone(said, at + len(CAUGHT))
