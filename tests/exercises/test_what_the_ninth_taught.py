# ruff: noqa: E501 - each row is one exercise
"""What the ninth set taught, in other layouts, each written before anybody saw what the program made of it: faults that
are found at their words, and beside them exercises of the same layouts of which nothing is said.
"""

import re

import pytest

from tests.exercises.measure import ABOUT_LEVEL, Exercise, findings_of


def _key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


CAUGHT = [
    # Letters of a code that the instruction explains.
    ("answers-mismatch", "X", "### 1 Write A (animal), P (plant) or T (thing). {.reading}\n\n1. a hen ____\n2. a rose ____\n3. a cup ____\n4. a tree ____\n" + _key("1 A 2 P 3 T 4 X")),
    ("answers-mismatch", "m", "### 1 Write *b* for a bird, *f* for a fish or *i* for an insect. {.writing}\n\n1. an owl ____\n2. a shark ____\n3. a bee ____\n4. a duck ____\n" + _key("1. b\n2. f\n3. i\n4. m")),
    ("answers-mismatch", "H", "### 1 When is it? Write W = winter, S = summer. {.reading}\n\n- We swim. ____\n- It snows. ____\n- It is hot. ____\n- We skate. ____\n" + _key("S, W, S, H")),
    ("answers-mismatch", "6 D", "### 1 Who says it? Write A, B or C. {.reading}\n\n1 I have a ship. ____\\\n2 I am a cook. ____\\\n3 I teach. ____\\\n4 I sail. ____\\\n5 I make soup. ____\\\n6 I have a class. ____\n" + _key("1 A, 2 B, 3 C, 4 A, 5 B, 6 D")),
    # Options without labels: nested, in lines, in any brackets, behind a sentence, in cells.
    ("duplicate-option", "a rope", "### 1 Choose. {.reading}\n\n1. What does it eat?\n    * a carrot\n    * a stone\n    * a shoe\n2. What do you climb?\n    * a rope\n    * a cup\n    * a rope\n" + _key("1. a carrot\n2. a rope")),
    ("duplicate-option", "red", "### 1 Choose. {.reading}\n\n1 What colour is snow?\\\nwhite\\\nred\\\nred\n\n2 What colour is grass?\\\nblue\\\ngreen\\\nwhite\n" + _key("1 white\n2 green")),
    ("duplicate-option", "{who; which; who}", "### 1 Choose. {.test}\n\n1. The girl {who; which; who} sings is my cousin.\n2. The cup {who; which; where} fell is old.\n" + _key("1 who\n2 which")),
    ("duplicate-option", "in, on, in", "### 1 Choose. {.test}\n\n1. My book is *in, on, in* my bag.\n2. We sing *at, on, to* Fridays.\n" + _key("1 in\n2 on")),
    ("duplicate-option", "a cat     a cat", "### 1 Read and choose. {.reading}\n\n1 It says miaow.     a cat     a cat     a cup\n\n2 It has two wheels.     a bike     a bed     a bee\n" + _key("1 a cat 2 a bike")),
    ("duplicate-option", "a spoon; a fork; a spoon", "### 1 Read and choose. {.reading}\n\n1 You eat soup with it. a spoon; a fork; a spoon\n\n2 You drink from it. a cup; a coat; a comb\n" + _key("1 a spoon 2 a cup")),
    ("duplicate-option", "a fish", "### 1 Choose. {.reading}\n\n| | | | |\n|---|---|---|---|\n| 1 It swims. | a fish | a cup | a fish |\n| 2 It barks. | a rose | a dog | a pen |\n" + _key("1 a fish\n2 a dog")),
    # Words with letter gaps that carry no number, or that something stands behind.
    ("letter-gap-mismatch", "sp\\_n", "### 1 Write one letter on each line. {.writing}\n\nf\\_rk (A)\n\nsp\\_n (B)\n\nc\\_p (C)\n\npl\\_te (D)\n" + _key("1 fork 2 spoon 3 cup 4 plate")),
    ("letter-gap-mismatch", "j\\_k\\_t", "### 1 One line for each letter. {.writing}\n\n- sh\\_e (picture 1)\n- j\\_k\\_t (picture 2)\n- h\\_t (picture 3)\n" + _key("1 shoe\n2 jacket\n3 hat")),
    ("letter-gap-mismatch", "m\\_th", "### 1 Write one letter on each line. {.writing}\n\nPicture 1: n\\_se\n\nPicture 2: m\\_th\n\nPicture 3: h\\_nd\n" + _key("1 nose\n2 mouth\n3 hand")),
    # A number of a text that is left out, with its gap.
    ("missing-gap", "It very cold.", "### 1 Complete. {.writing}\n\nHi Ola,\n\nWe (1) ____ at the lake. Dad (2) ____ a boat.\n\nIt very cold. But I (4) ____ every day, and Mum (5) ____ tea.\n" + _key("1 are 2 has 3 is 4 swim 5 makes")),
    ("missing-gap", "Yes, we a big one.", "### 1 Complete. {.speaking}\n\n- (1) ____ you have a garden?\n- Yes, we a big one.\n- (3) ____ there trees in it?\n- Yes, there (4) ____ ten.\n" + _key("1 Do, 2 have, 3 Are, 4 are")),
    # Words sorted under heads of any sort.
    ("answers-mismatch", "seed", "### 1 Sort the words. {.sounds sound=\"ɪ\" spelling=\"i\"}\n\nship, tree, fish, sheep, king, green\n\n| /ɪ/ | /iː/ |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n| ____ | ____ |\n" + _key("/ɪ/ ship, fish, king\n/iː/ tree, sheep, green, seed")),
    ("answers-mismatch", "cups", "### 1 Sort the words. {.writing}\n\nboxes, dogs, dishes, hats, buses\n\n| -s | -es |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("-s dogs, hats, cups\n-es boxes, dishes, buses")),
    ("answers-mismatch", "lamp", "### 1 Sort the words. {.writing}\n\nhen, chair, cow, sofa, goat\n\n| farm | living room |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("**farm** hen, cow, goat\n\n**living room** chair, sofa, lamp")),
    # Lines to write on, with a word to help beside them.
    ("instruction-count-mismatch", "five sentences", "### 1 Write five sentences about your day. {.writing}\n\n| | | Words |\n|---|---|---|\n| 1 | ________________ | get up |\n| 2 | ________________ | eat |\n| 3 | ________________ | walk |\n| 4 | ________________ | play |\n" + _key("Children's own answers.")),
    ("instruction-count-mismatch", "four sentences", "### 1 Write four sentences about your pet. {.writing}\n\n1 ____________________ (eat)\n\n2 ____________________ (run)\n\n3 ____________________ (sleep)\n" + _key("Children's own answers.")),
    ("instruction-count-mismatch", "three sentences", "### 1 Write three sentences about your school. {.writing}\n\n| big | 1 ________________ |\n|---|---|\n| old | 2 ________________ |\n" + _key("Children's own answers.")),
    # A number above one, and one thing.
    ("key-makes-bad-english", "three d____", "### 1 Finish the words. {.writing}\n\n1 My cousin has three d____.\n2 There is a h____ on the farm.\n3 I see a c____.\n" + _key("1 dog\n2 hen\n3 cow")),
    ("key-makes-bad-english", "b____", "### 1 Finish the words. {.writing}\n\n1. We have many b____ at home.\n2. I drink m____.\n" + _key("1 book 2 milk")),
    ("key-makes-bad-english", "te____", "### 1 The first two letters are given. {.writing}\n\n1 The baby has got four te____ now.\n2 I have got one no____.\n" + _key("1 tooth\n2 nose")),
    # What the key gets wrong by itself is marked in the key.
    ("key-makes-bad-english", "The people was", "### 1 Write the sentences. Use *was* or *were*. {.writing}\n\n1 The people / happy. ______________\n2 My dog / wet. ______________\n" + _key("1 The people was happy.\n2 My dog was wet.")),
    ("key-makes-bad-english", "older that", "### 1 Write the second sentence so that it means the same. {.writing}\n\n1. Ida is younger than Bo. (OLD)\\\nBo is ________ Ida.\n2. It is not hot. (COLD)\\\nIt ________.\n" + _key("1 older that\n2 is cold")),
    ("key-makes-bad-english", "My feet is", "### 1 Write. {.writing}\n\n1. my feet / cold ____________\n2. my nose / red ____________\n" + _key("1. My feet is cold.\n2. My nose is red.")),
    # Two that are right, whatever anybody knows.
    ("two-right-answers", "My cousin is (taller / shorter) than me.", "### 1 Choose. {.test}\n\n1. My cousin is (taller / shorter) than me.\n2. They (is / are) here.\n" + _key("1 taller 2 are")),
    ("two-right-answers", "Our new bag is very ____.", "### 1 Choose. {.test}\n\n1. Our new bag is very ____. a) heavy b) light c) heavier\n2. We ____ home. a) go b) goes c) going\n" + _key("1 a 2 a")),
    ("two-right-answers", "Bring *my / the* umbrella, please.", "### 1 Circle. {.test}\n\n1 Bring *my / the* umbrella, please.\n2 This is *Ida's / Ida* hat.\n" + _key("1 my 2 Ida's")),
    ("two-right-answers", "The kitten is sitting", "### 1 Choose. {.test}\n\n1. The kitten is sitting **on** or **under** the table.\n2. We get up **at** or **on** six.\n" + _key("1 on 2 at")),
    ("two-right-answers", "Gran (brought / gave) us biscuits yesterday.", "### 1 Underline. {.test}\n\n1. Gran (brought / gave) us biscuits yesterday.\n2. He (go / goes) home.\n" + _key("1 gave 2 goes")),
    ("two-right-answers", "Our bus can go very", "### 1 Circle. {.test}\n\n1 Our bus can go very *fast · fastly · quickly*.\n2 She *sing · sings · singing* well.\n" + _key("1 fast 2 sings")),
    ("two-right-answers", "I ____ tidy my room today.", "### 1 Choose. {.test}\n\n1. I ____ tidy my room today. A) should B) must C) am\n2. He ____ got a dog. A) have B) has C) is\n" + _key("1 B 2 B")),
    ("two-right-answers", "I (love / like) my granny's soup.", "### 1 Choose. {.test}\n\n1. I (love / like) my granny's soup.\n2. He (love / loves) cats.\n" + _key("1 love 2 loves")),
    ("two-right-answers", "My sister is (seven / eight).", "### 1 Choose. {.test}\n\n1. My sister is (seven / eight).\n2. These (is / are) pens.\n" + _key("1 seven 2 are")),
    # A second handful, of all sorts.
    ('two-right-answers', 'My brother has ____ cousins', '### 1 Choose. {.test}\n\n1 These ____ my gloves. a) is b) are c) be\n2 My brother has ____ cousins. a) three b) four c) thirds\n3 Where ____ you go? a) did b) was c) were\n\n::: answers\n1 b 2 a 3 a\n:::\n'),
    ('two-right-answers', "I (can / can't) swim.", "### 2 Underline. {.reading}\n\n1. I (can / can't) swim.\n2. There (is / are) a pond.\n3. She (have / has) a net.\n\n::: answers\n1 can\n2 is\n3 has\n:::\n"),
    ('two-right-answers', 'Our teacher is [nice | friendly | nicely]', '### 3 Circle the right word. {.test}\n\n1. He [go | goes | going] to the rink.\n2. Our teacher is [nice | friendly | nicely].\n3. Ice is [cold | colder | coldest] than rain.\n\n::: answers\n1. goes\n2. nice\n3. colder\n:::\n'),
    ('two-right-answers', 'We usually have ____ for breakfast.', '### 4 Choose. {.test}\n\n1. We usually have ____ for breakfast. A porridge B toast C spoon\n2. It ____ every day. A rain B rains C raining\n\n::: answers\n1 A\n2 B\n:::\n'),
    ('two-right-answers', 'This is my (brother / sister).', '### 5 Choose. {.reading}\n\n1. This is my (brother / sister).\n2. These (is / are) my friends.\n3. What is (you / your) name?\n\n::: answers\n1 brother, 2 are, 3 your\n:::\n'),
    ('two-right-answers', "I get up at", "### 6 Circle. {.test}\n\n1 I get up at ***six / seven*** o'clock.\n2 He ***get / gets*** up late.\n3 We have lunch ***in / at*** noon.\n\n::: answers\n1 six\n2 gets\n3 at\n:::\n"),
    ('two-right-answers', "She's wearing a", "### 8 Choose. {.test}\n\n1. She's wearing a ____ jumper. a) red b) blue c) run\n2. He ____ a hat. a) are wearing b) is wearing c) wearing\n\n::: answers\n1 a 2 b\n:::\n"),
    ('two-right-answers', 'They (walk / cycle) to school every day.', '### 10 Choose. {.test}\n\n1. They (walk / cycle) to school every day.\n2. He (walk / walks) home.\n3. Mum (drive / drives) to work.\n\n::: answers\n1 walk\n2 walks\n3 drives\n:::\n'),
    ('answers-mismatch', 'c S, d T', '### 11 Write S for sweet, B for bitter. {.reading}\n\na) honey ____  b) lemon peel ____\n\nc) jam ____  d) coffee ____\n\n::: answers\na S, b B, c S, d T\n:::\n'),
    ('answers-mismatch', 'Q5', '### 14 Answer the questions. {.reading}\n\nQ1 Who is Mo?\n\nQ2 Where is Mo?\n\nQ3 What is wet?\n\nQ4 When does it rain?\n\n::: answers\nQ1 a dog\n\nQ2 in the garden\n\nQ3 the grass\n\nQ4 at night\n\nQ5 on Sunday\n:::\n'),
    ('word-box-mismatch', '[roof] [wall] [door]', '### 18 Complete with the words. Each word goes in one gap. {.writing}\n\n[roof] [wall] [door]\n\nA bird is on the (1) ____. We knock at the (2) ____. A cat sits on the (3) ____. There are two (4) ____.\n\n::: answers\n1 roof, 2 door, 3 wall, 4 windows\n:::\n'),
    ('duplicate-option', '(the barn) (the barn)', '### 21 Where is it? {.reading}\n\n1. The cow is in\n   (the barn) (the barn) (the shop)\n2. The boat is in\n   (the bath) (the harbour) (the kitchen)\n\n::: answers\n1 the barn\n2 the harbour\n:::\n'),
    ('letter-gap-mismatch', 'g . . . t', '### 22 Write the missing letters. Each dot is a letter. {.writing}\n\n1 m . u s e\n2 h . r s e\n3 s h . . p\n4 g . . . t\n\n::: answers\n1 mouse\n2 horse\n3 sheep\n4 goat\n:::\n'),
    # A third handful.
    ('two-right-answers', "It (isn't / is not) cold.", "### 1 Choose. {.test}\n\n1. It (isn't / is not) cold.\n2. We (are / is) here.\n\n::: answers\n1 isn't 2 are\n:::\n"),
    ('two-right-answers', 'I (have / have got) a dog.', '### 2 Choose. {.test}\n\n1. I (have / have got) a dog.\n2. She (have / has) a cat.\n\n::: answers\n1 have got 2 has\n:::\n'),
    ('two-right-answers', 'They ____ breakfast at home.', '### 3 Choose. {.test}\n\n1. They ____ breakfast at home. a) eat b) have c) drink\n2. I ____ up at six. a) get b) gets c) got it\n\n::: answers\n1 b 2 a\n:::\n'),
    ('two-right-answers', 'We ____ a film yesterday.', '### 4 Choose. {.test}\n\n1. We ____ a film yesterday. a) saw b) watched c) looked\n2. I ____ ill last week. a) was b) were c) am\n\n::: answers\n1 b 2 a\n:::\n'),
    ('two-right-answers', 'My cousin plays', '### 5 Choose. {.test}\n\n1 My cousin plays *tennis | football | swimming*.\n2 We *go | goes* home.\n\n::: answers\n1 tennis\n2 go\n:::\n'),
    ('two-right-answers', 'We play the (piano / guitar).', '### 6 Choose. {.test}\n\n1. We play the (piano / guitar).\n2. He (play / plays) well.\n\n::: answers\n1 piano\n2 plays\n:::\n'),
    ('two-right-answers', '____ we go now?', '### 7 Choose. {.test}\n\n1. ____ we go now? A Shall B Should C Does\n2. ____ you like tea? A Do B Does C Are\n\n::: answers\n1 A 2 A\n:::\n'),
    ('two-right-answers', "You (mustn't / can't) eat in the library.", "### 8 Choose. {.test}\n\n1. You (mustn't / can't) eat in the library.\n2. He (doesn't / don't) eat meat.\n\n::: answers\n1 mustn't 2 doesn't\n:::\n"),
    ('two-right-answers', '(Somebody / Someone)', '### 9 Choose. {.test}\n\n1. (Somebody / Someone) is at the door.\n2. There (is / are) three pens.\n\n::: answers\n1 Someone 2 are\n:::\n'),
    ('two-right-answers', 'lots of', '### 10 Choose. {.test}\n\n1. There are ____ birds on the roof. a) a lot of b) lots of c) much\n2. He ____ my friend. a) is b) are c) be\n\n::: answers\n1 a 2 a\n:::\n'),
    ('two-right-answers', 'My new coat is', '### 11 Choose. {.test}\n\n1. My new coat is … A warm. B nice. C warmly.\n2. He … my friend. A is B are C be\n\n::: answers\n1 A 2 A\n:::\n'),
    ('two-right-answers', 'We are going to the', '### 12 Choose. {.test}\n\n1. We are going to the ***park / beach*** on Sunday.\n2. He ***is / are*** my friend.\n3. It ***rain / rains*** a lot.\n\n::: answers\n1 park\n2 is\n3 rains\n:::\n'),
    ('two-right-answers', 'My uncle works in a', '### 13 Choose. {.test}\n\n1. My uncle works in a ____. (hospital, school, hospitals)\n2. He ____ at six. (start, starts, starting)\n\n::: answers\n1 hospital\n2 starts\n:::\n'),
    ('answers-mismatch', '5 Y', '### 15 Read about the pets and write K (Kim) or L (Leo). {.reading}\n\nKim has a cat and a fish. Leo has a dog and two hens.\n\n1. ☐ a cat\n2. ☐ a dog\n3. ☐ hens\n4. ☐ a fish\n5. ☐ a pet that barks\n\n::: answers\n1 K 2 L 3 L 4 K 5 Y\n:::\n'),
    ('answers-mismatch', 'D', '### 16 Which sign? {.reading}\n\nSign A: No dogs!\n\nSign B: Wet floor!\n\nSign C: Quiet, please!\n\n1. You can fall here. ____\n2. Leave your puppy at home. ____\n3. Do not talk. ____\n\n::: answers\n1 B, 2 A, 3 D\n:::\n'),
    ('answers-mismatch', 'shelf', '### 17 Sort. {.writing}\n\nmilk · bread · juice · water · cheese\n\n**We eat it:** ____, ____\n\n**We drink it:** ____, ____, ____\n\n::: answers\nWe eat it: bread, cheese\n\nWe drink it: milk, juice, water, shelf\n:::\n'),
    ('word-box-mismatch', 'plate', '### 19 Complete. Use all the words. {.writing}\n\n**Words:** *knife*, *plate*, *fork*\n\n- We cut with a ____.\n- We eat pasta with a ____.\n\n::: answers\nknife, fork\n:::\n'),
    ('word-box-mismatch', 'wind ☁ rain ☁ snow', '### 20 Use the words in the cloud once each. {.writing}\n\n☁ wind ☁ rain ☁ snow ☁\n\n1. In the ____ my kite flies.\n2. The ____ is white.\n3. The ____ is loud: boom!\n4. I get wet in the ____.\n\n::: answers\n1 wind 2 snow 3 thunder 4 rain\n:::\n'),
    ('duplicate-option', 'eggs', '### 21 What does it lay? {.reading}\n\n1. A hen lays …\n\n   – eggs\n   – eggs\n   – milk\n\n2. A cow gives …\n\n   – wool\n   – milk\n   – honey\n\n::: answers\n1 eggs\n2 milk\n:::\n'),
    ('duplicate-option', 'left', '### 22 Choose. {.test}\n\n1. Turn → left / right / left ← at the shop.\n2. Go → along / on / at ← the road.\n\n::: answers\n1 left\n2 along\n:::\n'),
    ('duplicate-option', '"at"', '### 23 Choose. {.test}\n\n1. I\'m ____ home. "at", "in", "at"\n2. It\'s ____ Monday. "on", "in", "at"\n\n::: answers\n1 at\n2 on\n:::\n'),
    ('duplicate-option', '| hot | hot | wet |', '### 24 Choose. {.test}\n\n| | A | B | C |\n|---|---|---|---|\n| 1 Fire is … | hot | hot | wet |\n| 2 Ice is … | warm | cold | dry |\n\n::: answers\n1 A, 2 B\n:::\n'),
    ('letter-gap-mismatch', 'b\\*t\\*r', '### 25 Write the words. Each star is a letter. {.writing}\n\n1. m\\*lk\n2. b\\*t\\*r\n3. br\\*\\*d\n4. ch\\*\\*se\n\n::: answers\n1 milk\n2 butter\n3 bread\n4 cheese\n:::\n'),
    ('letter-gap-mismatch', 'w \\_ l', '### 26 Complete the words. {.writing}\n\n**1** d \\_ \\_ r **2** \\_ \\_ n d o w **3** r \\_ \\_ f **4** w \\_ l\n\n::: answers\n1 door 2 window 3 roof 4 wall\n:::\n'),
    ('letter-gap-mismatch', 'c\\_n\\_m', '### 27 Finish the words: one line, one letter. {.writing}\n\nWe keep money in a b\\_\\_k. We buy bread at a b\\_k\\_ry. We see films at the c\\_n\\_m.\n\n::: answers\nbank, bakery, cinema\n:::\n'),
    ('missing-gap', 'I lunch.', "### 28 Complete Ola's day. {.writing}\n\n| 7.00 | I ____ up. |\n|---|---|\n| 8.00 | I ____ to school. |\n| 1.00 | I lunch. |\n| 8.30 | I ____ to bed. |\n\n::: answers\nget, walk, have, go\n:::\n"),
    ('missing-gap', 'are you from', '### 29 Write the question words. {.writing}\n\nA: (1) ____ is your name?\\\nB: Mo.\\\nA: (2) ____ old are you?\\\nB: Nine.\\\nA: are you from?\\\nB: Wales.\\\nA: (4) ____ is that boy?\\\nB: My cousin.\n\n::: answers\n1 What, 2 How, 3 Where, 4 Who\n:::\n'),
    ('jumbled-mismatch', 'tafrk', '### 30 Things in the kitchen. {.writing}\n\nupc = ____   nap = ____   onops = ____   tafrk = ____\n\n::: answers\ncup, pan, spoon, fork\n:::\n'),
    ('instruction-count-mismatch', 'six sentences', '### 32 Read the six sentences. Tick the true ones. {.reading}\n\n1. Fish swim.\n2. Cats fly.\n3. Hens lay eggs.\n4. Cows sing.\n5. Dogs bark.\n\n::: answers\n1, 3, 5\n:::\n'),
    ('instruction-count-mismatch', 'ten words', '### 33 Match the ten words and pictures. {.reading}\n\n1 cup ____  2 pan ____  3 fork ____  4 bowl ____\n\n5 jug ____  6 tray ____  7 mug ____  8 plate ____\n\n::: answers\n1 a 2 c 3 b 4 d 5 h 6 g 7 f 8 e\n:::\n'),
    ('key-makes-bad-english', 'three ____', '### 34 Write the plural. {.writing}\n\none man → three ____\n\none child → two ____\n\none box → four ____\n\n::: answers\nmans, children, boxes\n:::\n'),
    ('key-makes-bad-english', 'Do Bo', '### 35 Write questions. {.writing}\n\n1. Bo / like / figs\n2. they / live / here\n\n::: answers\n1 Do Bo like figs?\n2 Do they live here?\n:::\n'),
    ('key-makes-bad-english', 'I like ____ hat.', '### 36 *this* or *these*? {.writing}\n\n1. I like ____ hat.\n2. I like ____ gloves.\n\n::: answers\n1 these 2 these\n:::\n'),
    ('key-makes-bad-english', 'more taller', '### 37 Finish. {.writing}\n\nA tree is ____ than a flower. (tall)\n\nA fox is ____ than a mouse. (big)\n\n::: answers\nmore taller; bigger\n:::\n'),
    ('key-makes-bad-english', 'We didn\'t ____ football', "### 38 Choose the verbs from the box. {.writing}\n\n| play | read | swim |\n|---|---|---|\n\n1. Look! Dad is ____ a book.\n2. We didn't ____ football yesterday.\n3. I can ____.\n\n::: answers\n1 reading 2 played 3 swim\n:::\n"),
    ('missing-gap', 'Dad the car', '### 25 Write the verbs. {.writing}\n\n• Mum ____ (clean) the bath.\n\n• Dad the car. (wash)\n\n• We ____ (help) them.\n\n::: answers\ncleans, washes, help\n:::\n'),
    # A fourth handful.
    ('answers-mismatch', '3–g', '### 1 Match the halves. {.reading}\n\n1 If it rains, …\n2 If you are hungry, …\n3 If the bus is late, …\n\na … eat a sandwich.\nb … we walk home.\nc … take an umbrella.\n\n::: answers\n1–c, 2–a, 3–g\n:::\n'),
    ('answers-mismatch', '4. A dog can read.', '### 2 Right or wrong? Tick (✓) or cross (✗). {.reading}\n\n1. A cow has wings. ☐\n2. A hen has two legs. ☐\n3. Fish can swim. ☐\n4. A dog can read. ☐\n\n::: answers\n1 ✗, 2 ✓, 3 ✓\n:::\n'),
    ('answers-mismatch', '(d)', '### 3 Who is it? {.reading}\n\n**(a)** She works in a hospital.\n\n**(b)** He mends cars.\n\n**(c)** She flies planes.\n\n::: answers\n(a) nurse (b) mechanic (c) pilot (d) vet\n:::\n'),
    ('answers-mismatch', 'A – C – E – D', '### 4 Put the pictures in order. {.reading}\n\n::: art\nFour pictures, A to D: a boy wakes up (A), eats (B), swims (C), sleeps (D).\n:::\n\nA He wakes up.\n\nB He eats.\n\nC He swims.\n\nD He sleeps.\n\n::: answers\nA – C – E – D\n:::\n'),
    ('answers-mismatch', '3. A text about rain', '### 5 Choose a title. {.reading}\n\n1. A long text about bees ____\n2. A text about tea ____\n3. A text about rain ____\n\n> Titles: A Busy insects · B A hot drink · C Wet days\n\n::: answers\n1 A\n2 B\n:::\n'),
    ('answers-mismatch', '3 P', '### 6 Write N, S, E or W. {.reading}\n\n1. The farm is ____ of the hill.\n2. The lake is ____ of the farm.\n3. The shop is ____ of the school.\n4. The sea is ____ of the town.\n\n::: answers\n1 N 2 E 3 P 4 W\n:::\n'),
    ('answers-mismatch', 'brown', '### 7 Complete the fact file with the words: legs, water, green. {.writing}\n\nA frog has four (1) ____. It lives near (2) ____. It is often (3) ____.\n\n::: answers\n1 legs 2 water 3 brown\n:::\n'),
    ('word-box-mismatch', 'sun ~ moon ~ star', '### 8 Choose the right word. Use every word once. {.writing}\n\n~ sun ~ moon ~ star ~ sky ~\n\n1. The ____ is hot.\n2. There is one small ____ near the moon.\n3. The ____ is blue.\n\n::: answers\n1 sun 2 star 3 sky\n:::\n'),
    ('word-box-mismatch', 'get, have, go', '### 10 Use each verb once: get, have, go. {.writing}\n\nI (1) ____ up at six. I (2) ____ breakfast. Then I (3) ____ my teeth and (4) ____ to school.\n\n::: answers\n1 get 2 have 3 brush 4 go\n:::\n'),
    ('duplicate-option', 'i. ten ii. six iii. ten', '### 12 Choose. {.test}\n\n1. Five and five is\n   i. ten ii. six iii. ten\n2. Two and two is\n   i. four ii. five iii. six\n\n::: answers\n1 i, 2 i\n:::\n'),
    ('duplicate-option', 'a goat', '### 13 Choose the animal. {.reading}\n\n**It gives us wool.** a goat, a sheep or a goat?\n\n**It gives us eggs.** a hen, a cow or a cat?\n\n::: answers\na sheep; a hen\n:::\n'),
    ('duplicate-option', '| new | old | big | old |', '### 15 Circle the opposite. {.test}\n\n| word | | | |\n|---|---|---|---|\n| new | old | big | old |\n| wet | dry | hot | red |\n\n::: answers\nold, dry\n:::\n'),
    ('duplicate-option', 'green', '### 16 Choose. {.test}\n\n1) Grass is _green_, _blue_ or _green_.\n\n2) The sun is _yellow_, _black_ or _pink_.\n\n::: answers\n1) green 2) yellow\n:::\n'),
    ('letter-gap-mismatch', 'S _ _ _ day', '### 17 Complete the days. One line is one letter. {.writing}\n\nM _ nday – T _ _ sday – Wedn _ sday – S _ _ _ day\n\n::: answers\nMonday, Tuesday, Wednesday, Sunday\n:::\n'),
    ('letter-gap-mismatch', 'str\\_b\\_rry', '### 19 Write the fruit. {.writing}\n\na) \\_pple\n\nb) p\\_\\_r\n\nc) str\\_b\\_rry\n\nd) pl\\_m\n\n::: answers\na apple b pear c strawberry d plum\n:::\n'),
    ('letter-gap-mismatch', 'd u □ k l', '### 20 Write one letter in each box. {.writing}\n\n1 c □ w\n2 s h □ □ p\n3 g □ □ t\n4 h □ r s e s\n5 d u □ k l\n\n::: answers\n1 cow 2 sheep 3 goat 4 horses 5 duck\n:::\n'),
    ('missing-gap', 'We to the', '### 21 Complete. {.writing}\n\n1. I got up. Then I ____ (wash) my face.\n2. We to the lake. (drive)\n3. Dad ____ (cook) lunch.\n4. We ____ (eat) it by the water.\n\n::: answers\n1 washed, 2 drove, 3 cooked, 4 ate\n:::\n'),
    ('missing-gap', 'big –', '### 22 Write the opposites. {.writing}\n\nhot – ____\n\nold – ____\n\nbig –\n\nlong – ____\n\n::: answers\ncold, new, small, short\n:::\n'),
    ('missing-gap', 'A fish has legs.', '### 23 Write numbers. {.writing}\n\nA spider has ____ legs. A hen has ____ legs. A fish has legs. A cow has ____ legs.\n\n::: answers\neight, two, no, four\n:::\n'),
    ('missing-gap', 'the hall. Come', "### 24 Complete the notice. {.writing}\n\nOur club meets (a) ____ Monday (b) ____ four o'clock (c) the hall. Come (d) ____ your friends!\n\n::: answers\na on, b at, c in, d with\n:::\n"),
    ('missing-gap', 'Mum works', "### 25 Put in *at, in* or *on*. {.writing}\n\n1. He's ____ home.\n2. Mum works a bank.\n3. The cups are ____ the shelf.\n\n::: answers\n1. at\n2. in\n3. on\n:::\n"),
    ('jumbled-mismatch', 'ermsu', '### 26 Seasons. {.writing}\n\n*ermsu* → s_____   *gnirsp* → s_____   *tuumna* → a_____\n\n::: answers\nsummer, spring, autumn\n:::\n'),
    ('jumbled-mismatch', 'go · we', '### 27 Order the words. {.writing}\n\n(1) swimming · like · I\n\n(2) go · we · Sundays · swimming\n\n(3) is · cold · the · water\n\n::: answers\n(1) I like swimming.\n(2) We go swimming on Sundays.\n(3) The water is cold.\n:::\n'),
    ('jumbled-mismatch', 'E-S-P-E-H-S', '### 28 Write the animals. {.writing}\n\nO-L-W = ____ ; A-T-B = ____ ; F-O-G-R = ____ ; E-S-P-E-H-S = ____\n\n::: answers\nowl, bat, frog, sheep\n:::\n'),
    ('jumbled-mismatch', 'time / what / it', '### 29 Write the questions. {.speaking}\n\n| 1 | time / what / it / ? |\n|---|---|\n| 2 | your / is / name / what / ? |\n| 3 | you / are / old / how / ? |\n\n::: answers\n1 What time is it?\n2 What is your name?\n3 How old are you?\n:::\n'),
    ('instruction-count-mismatch', 'five mistakes', '### 30 There are five mistakes in this text. Find them. {.mistakes}\n\nBo have a dog. It are brown. He like it. They goes out.\n\n::: answers\nhas, is, likes, go\n:::\n'),
    ('instruction-count-mismatch', 'three pictures', "### 31 Look at the three pictures. Write a sentence for each. {.writing}\n\n1. ________________\n2. ________________\n3. ________________\n4. ________________\n\n::: answers\nChildren's own answers.\n:::\n"),
    ('instruction-count-mismatch', 'seven days', '### 32 Write the seven days. {.writing}\n\n1 M____  2 T____  3 W____  4 T____  5 F____  6 S____\n\n::: answers\n1 Monday 2 Tuesday 3 Wednesday 4 Thursday 5 Friday 6 Saturday\n:::\n'),
    ('instruction-count-mismatch', 'three people', '### 33 Interview three people. {.survey}\n\n| Question | Person 1 | Person 2 |\n|---|---|---|\n| What do you eat? | | |\n| What do you drink? | | |\n'),
    ('instruction-count-mismatch', 'four words', '### 34 Circle the four words that rhyme with *cat*. {.sounds}\n\nhat, dog, mat, sun, rat\n\n::: answers\nhat, mat, rat\n:::\n'),
    ('key-makes-bad-english', "I'd like ____ banana.", "### 35 Complete with *a, an* or *some*. {.writing}\n\n1. I'd like ____ rice.\n2. I'd like ____ orange.\n3. I'd like ____ banana.\n\n::: answers\n1 some 2 an 3 an\n:::\n"),
    ('key-makes-bad-english', 'We ____ eat meat.', "### 36 *don't* or *doesn't*? {.writing}\n\n1. We ____ eat meat.\n2. Ola ____ drink tea.\n\n::: answers\n1 doesn't 2 doesn't\n:::\n"),
    ('key-makes-bad-english', 'the most big', '### 37 Write superlatives. {.writing}\n\n1. The whale is ____ animal in the sea. (big)\n2. It is ____ day of the year. (hot)\n\n::: answers\n1 the most big\n2 the hottest\n:::\n'),
    ('key-makes-bad-english', 'We can ____ (swim)', '### 38 Write the verb in the right form. {.writing}\n\nWe can ____ (swim) in the lake. Dad is ____ (sleep). Mum wants to ____ (read).\n\n::: answers\nswimming, sleeping, read\n:::\n'),
    ('key-makes-bad-english', 'I play with ____.', '### 39 Choose the pronoun. {.writing}\n\n1. I like Ida. I play with ____.\n2. This is Bo. ____ is my cousin.\n\n::: answers\n1 she 2 He\n:::\n'),
    ('key-makes-bad-english', 'Are Ida', '### 40 Make questions. {.writing}\n\n1. Ida is at home. → ____________?\n2. They are here. → ____________?\n\n::: answers\n1 Are Ida at home? 2 Are they here?\n:::\n'),
    ('key-makes-bad-english', 'was', '### 41 Write the sentences in the past. {.writing}\n\n* The dogs are wet. ______________\n* I am tired. ______________\n\n::: answers\nThe dogs was wet.\nI was tired.\n:::\n'),
    ('two-right-answers', "I've got a", "### 42 Choose. {.test}\n\n1. I've got a (big / small) dog.\n2. She (is / are) nine.\n\n::: answers\n1 big 2 is\n:::\n"),
    ('two-right-answers', 'The (boy / girl) is', '### 43 Choose. {.test}\n\n1. The (boy / girl) is in the garden.\n2. We (was / were) happy.\n\n::: answers\n1 boy\n2 were\n:::\n'),
    ('two-right-answers', "I don't like", "### 44 Choose. {.test}\n\n1. I don't like (snakes / spiders).\n2. I (like / likes) cats.\n3. He (has / have) a rat.\n\n::: answers\n1 spiders 2 like 3 has\n:::\n"),
    ('two-right-answers', 'Mum is', '### 46 Circle. {.test}\n\n1. Mum is (cooking / working / cooks).\n2. They (swims / swim).\n\n::: answers\n1 cooking 2 swim\n:::\n'),
    ('two-right-answers', "Let's go to the", "### 47 Circle. {.test}\n\n1. Let's go to the (park / zoo).\n2. They (swims / swim).\n\n::: answers\n1 park 2 swim\n:::\n"),
]  # fmt: skip

LEFT_ALONE = [
    # Letters of a code.
    "### 1 Write A (animal), P (plant) or T (thing). {.reading}\n\n1. a hen ____\n2. a rose ____\n3. a cup ____\n4. a tree ____\n" + _key("1 A 2 P 3 T 4 P"),
    "### 1 Write T (true) or F (false). {.reading}\n\n1. Fish swim. ____\n2. Cats bark. ____\n3. Dogs run. ____\n" + _key("1 T\n2 F – cats say miaow\n3 T"),
    "### 1 Write *a* or *an*. {.writing}\n\n1. ____ egg\n2. ____ hat\n3. ____ owl\n4. ____ cup\n" + _key("1 an 2 a 3 an 4 a"),
    "### 1 Where is it? Write F (farm), S (sea) or FS (farm and sea). {.reading}\n\n1. a cow ____\n2. a shell ____\n3. a dog ____\n4. a hen ____\n" + _key("1 F 2 S 3 FS 4 F"),
    "### 1 Look at letters A, B and C. Which letter comes next? {.writing}\n\n1. A, B, C, ____\n2. K, L, M, ____\n3. T, U, V, ____\n" + _key("1 D 2 N 3 W"),
    "### 1 Match the people to texts A–F. Write the letter. {.reading}\n\n1. Ida likes boats. ____\n2. Bo likes soup. ____\n3. Mo likes snow. ____\n\n**A** The lake  **B** The farm  **C** The kitchen  **D** The hill  **E** The river  **F** The shop\n" + _key("1 A 2 C 3 D"),
    # Options without labels.
    "### 1 Choose. {.reading}\n\n1. What does it eat?\n    * a carrot\n    * a stone\n    * a shoe\n2. What do you climb?\n    * a rope\n    * a cup\n    * a coat\n" + _key("1. a carrot\n2. a rope"),
    "### 1 Say and clap. {.game}\n\n1. Start.\n    - clap\n    - stamp\n    - clap\n2. Stop.\n    - stamp\n    - clap\n    - stamp\n",
    "### 1 What comes next? {.writing}\n\n1. red, blue, red, ____\n2. sun, sun, moon, ____\n" + _key("1 blue\n2 sun"),
    "### 1 What comes next? {.writing}\n\n1. red, blue, red, …\n2. sun, moon, moon, sun, …\n" + _key("1 blue\n2 moon"),
    "### 1 Put the words in order. {.writing}\n\n1. [the, cat, sees, the, dog]\n2. [is, the, hat, on, the, bed]\n" + _key("1 The cat sees the dog.\n2 The hat is on the bed."),
    "### 1 Answer. {.reading}\n\n1. It is very, very cold. Where is Ida, Bo?\n2. Who runs, runs, runs?\n" + _key("1 Ida is at home.\n2 The dog"),
    "### 1 Choose. {.test}\n\n1. The girl {who; which; where} sings is my cousin.\n2. The cup {who; which; where} fell is old.\n" + _key("1 who\n2 which"),
    # Words with letter gaps.
    "### 1 Write one letter on each line. {.writing}\n\nf\\_rk (A)\n\nsp\\_\\_n (B)\n\nc\\_p (C)\n\npl\\_te (D)\n" + _key("1 fork 2 spoon 3 cup 4 plate"),
    "### 1 One line for each letter. {.writing}\n\n- sh\\_e (picture 3)\n- j\\_ck\\_t (picture 1)\n- h\\_t (picture 2)\n" + _key("1 jacket\n2 hat\n3 shoe"),
    "### 1 Write one letter on each line. {.writing}\n\nPicture 1: n\\_se\n\nPicture 2: m\\_\\_th\n\nPicture 3: h\\_nd\n" + _key("1 nose\n2 mouth\n3 hand"),
    "### 1 Listen and write. One line is one letter. {.sounds sound=\"ɒ\" spelling=\"o\"}\n\n1 f _ x\n2 d _ g\n3 _ o t\n" + _key("1 fox\n2 dog\n3 hot"),
    "### 1 Say and write. {.sounds sound=\"æ\" spelling=\"a\"}\n\n1. c _ t\n2. h _ t\n3. b _ g\n" + _key("1 cat\n2 hat\n3 bag"),
    # Numbers of a text.
    "### 1 Complete. {.writing}\n\nHi Ola,\n\nWe (1) ____ at the lake. Dad (2) ____ a boat.\n\nIt (3) ____ very cold. But I (4) ____ every day, and Mum (5) ____ tea.\n" + _key("1 are 2 has 3 is 4 swim 5 makes"),
    "### 1 Complete. {.writing}\n\nIn room (1) ____ lives Ida. In room (2) ____ lives Bo. The room with number (5) is big.\n" + _key("1 one 2 two"),
    "### 1 Complete. {.speaking}\n\n- (1) ____ you have a garden?\n- Yes! Come and see.\n- (2) ____ there trees in it?\n- Yes, there (3) ____ ten.\n" + _key("1 Do, 2 Are, 3 are"),
    # Words to sort.
    "### 1 Sort the words. {.sounds sound=\"ɪ\" spelling=\"i\"}\n\nship, tree, fish, sheep, king, green\n\n| /ɪ/ | /iː/ |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n| ____ | ____ |\n" + _key("/ɪ/ ship, fish, king\n/iː/ tree, sheep, green"),
    "### 1 Sort the words. {.writing}\n\nboxes, dogs, dishes, hats\n\n| -s | -es |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("-s dogs, hats\n-es boxes, dishes"),
    "### 1 Sort the animals and the food. {.writing}\n\nhen, bread, cow, soup\n\n| Animals | Food |\n|---|---|\n| ____ | ____ |\n| ____ | ____ |\n" + _key("Animals may stand in any order.\n\nFood may stand in any order."),
    # Lines to write on.
    "### 1 Write four sentences about your day. {.writing}\n\n| | | Words |\n|---|---|---|\n| 1 | ________________ | get up |\n| 2 | ________________ | eat |\n| 3 | ________________ | walk |\n| 4 | ________________ | play |\n" + _key("Children's own answers."),
    "### 1 Complete the chart. Then write two sentences about your friend. {.writing}\n\n| | |\n|---|---|\n| 1 name | ________ |\n| 2 age | ________ |\n| 3 pet | ________ |\n| 4 hobby | ________ |\n" + _key("Children's own answers."),
    "### 1 Write three sentences about each animal. {.writing}\n\n| 1 | ________________ | the owl |\n|---|---|---|\n| 2 | ________________ | the fox |\n" + _key("Children's own answers."),
    # A number above one.
    "### 1 Finish the words. {.writing}\n\n1 My cousin has three d____.\n2 I have four s____.\n3 We see two f____.\n" + _key("1 dogs\n2 sheep\n3 fish"),
    "### 1 Finish the words. {.writing}\n\n1 It is two o____.\n2 I have twenty-t____ pens.\n3 It is a ten m____ walk.\n" + _key("1 o'clock\n2 two\n3 minute"),
    "### 1 Finish the words. {.writing}\n\n1 Bus number two g____ to school.\n2 The girls are nine, and both s____.\n3 Room six is b____.\n" + _key("1 goes\n2 sing\n3 big"),
    # What the key gives as a whole.
    "### 1 Write the sentences. Use *was* or *were*. {.writing}\n\n1 The people / happy. ______________\n2 My dog / wet. ______________\n" + _key("1 The people were happy.\n2 My dog was wet."),
    "### 1 Write the second sentence so that it means the same. {.writing}\n\n1. Ida is younger than Bo. (OLD)\\\nBo is ________ Ida.\n2. It is not hot. (COLD)\\\nIt ________.\n" + _key("1 older than\n2 is cold"),
    # Something decides: what everybody knows, a sentence beside, a contrast that is just taught, a picture.
    "### 1 Choose. {.test}\n\n1. My grandad is (older / younger) than me.\n2. A mouse is (bigger / smaller) than a cow.\n3. Ice is (colder / warmer) than water.\n4. Our cat is (bigger / smaller) than our horse.\n" + _key("1 older 2 smaller 3 colder 4 smaller"),
    "### 1 Choose. {.test}\n\n1. My sister is six and I am nine. My sister is (older / younger) than me.\n2. This bag is full of stones. My bag is (heavy / light).\n" + _key("1 younger 2 heavy"),
    "### 1 Look and choose. {.test}\n\n::: art\nA boy beside a tall girl.\n:::\n\n1. My cousin is (taller / shorter) than me.\n2. My bag is (big / small).\n" + _key("1 taller 2 big"),
    "### 1 Choose. {.test}\n\n1. My cousin is (taller / tallest) than me.\n2. Our bag is very (heavy / heavier).\n" + _key("1 taller 2 heavy"),
    "### 1 Choose. {.test}\n\n1. (My / The) sun is hot.\n2. I brush (my / the) teeth.\n3. She is (the / my) best singer in the class.\n4. What's (your / the) name?\n" + _key("1 The 2 my 3 the 4 your"),
    "### 1 Choose. {.test}\n\n1. The milk is (in / on) the cup.\n2. The book is (in / on) the desk lamp.\n3. The bird is (in / under) the sky.\n4. The clock is (on / under) the wall.\n" + _key("1 in 2 on 3 in 4 on"),
    "### 1 Choose. {.test}\n\n1. Mum (gave / did) us pancakes.\n2. He (made / gave) me a promise.\n3. She (bought / brought) me a book from the shop.\n4. The sun (gives / makes) us light.\n" + _key("1 gave 2 made 3 bought 4 gives"),
    "### 1 Choose. {.test}\n\n1. This car is very (fast / quickly).\n2. The dog is (quick / quickly).\n3. It is a (fast / quickly) train.\n" + _key("1 fast 2 quick 3 fast"),
    "### 1 Choose *must* or *should*. {.test}\n\n1. We (must / should) stop at a red light.\n2. You look tired. You (must / should) go to bed.\n3. I (must / should) wear a school jumper: it is a rule.\n" + _key("1 must 2 should 3 must"),
    "### 1 Choose. {.test}\n\n1. I (like / likes) soup.\n2. I don't want it. I (love / hate) soup.\n3. I (like / love) to swim, but he (hates / hate) it.\n" + _key("1 like 2 hate 3 like"),
    "### 1 Choose. {.test}\n\n1. I have got (two / ten) eyes.\n2. My week has (seven / nine) days.\n3. A spider has (six / eight) legs.\n4. My hand has (five / four) fingers.\n" + _key("1 two 2 seven 3 eight 4 five"),
    # A second handful, of all sorts.
    '### 1 Choose. {.test}\n\n1. My brother is (tall / tallest).\n2. We (can / can to) swim.\n3. She (like / likes) plums.\n\n::: answers\n1 tall 2 can 3 likes\n:::\n',
    "### 1 Choose. {.test}\n\n1. Penguins (can / can't) fly.\n2. Fish (can / can't) swim.\n3. Cows (can / can't) read.\n\n::: answers\n1 can't 2 can 3 can't\n:::\n",
    "### 1 Read and choose. {.reading}\n\nHi! I'm Ola. I'm nine. I've got two brothers and a dog. My sister is six.\n\n1. Ola is (nine / ten).\n2. I've got (two / three) brothers.\n3. My sister is (older / younger) than me.\n\n::: answers\n1 nine 2 two 3 younger\n:::\n",
    "### 1 Listen and circle. {.listening audio=1.1}\n\n1. I've got (two / three) cousins.\n2. My bag is (big / small).\n3. (This / That) is my hat.\n\n::: {.audio track=1.1}\nI've got two cousins. My bag is big. This is my hat.\n:::\n\n::: answers\n1 two 2 big 3 This\n:::\n",
    '### 1 Look at the picture and circle. {.reading}\n\n1. The cat is (on / under) the table.\n2. The ball is (in / on) the box.\n3. My bag is (old / new).\n\n::: answers\n1 on 2 in 3 old\n:::\n',
    '### 1 Circle the opposite. {.reading}\n\n1. big: small / tall / old\n2. hot: wet / cold / dry\n3. new: old / bad / thin\n\n::: answers\n1 small 2 cold 3 old\n:::\n',
    '### 1 Choose. {.test}\n\n1. There (is / are) two hens.\n2. I (am / is) six.\n3. The soup is (hot / hotly).\n4. It is (a / the) sun.\n\n::: answers\n1 are 2 am 3 hot 4 the\n:::\n',
    '### 1 Choose the correct word. {.test}\n\n1. I get up (at / on) seven.\n2. We go home (at / in) the evening.\n3. My birthday is (on / in) May.\n4. We play (on / at) Sundays.\n\n::: answers\n1 at 2 in 3 in 4 on\n:::\n',
    '### 1 Choose. {.test}\n\n1. My brother walks (slow / slowly).\n2. She sings (beautiful / beautifully).\n3. He is a (good / well) cook.\n4. She cooks (good / well).\n\n::: answers\n1 slowly 2 beautifully 3 good 4 well\n:::\n',
    "### 1 Which word is right? {.test}\n\n1. I'm not tall. I'm (short / long).\n2. My hair isn't short, it's (tall / long).\n3. My bag is full of books. It's very (heavy / light).\n\n::: answers\n1 short 2 long 3 heavy\n:::\n",
    '### 1 Match and write the letters. {.reading}\n\n**1** a farmer ____ **2** a baker ____ **3** a vet ____\n\n**A** helps sick animals **B** grows food **C** makes bread\n\n::: answers\n1 B 2 C 3 A\n:::\n',
    "### 1 Complete. Use *some* or *any*. {.writing}\n\n1. There isn't ____ milk.\n2. I've got ____ nuts.\n3. Have you got ____ figs?\n\n::: answers\n1 any 2 some 3 any\n:::\n",
    '### 1 Say it. Then write M (Monday) or T (Tuesday). {.reading}\n\n| Monday | Tuesday |\n|---|---|\n| swim | paint |\n| read | sing |\n\n1. We swim. ____\n2. We sing. ____\n3. We read. ____\n4. We paint. ____\n\n::: answers\n1 M 2 T 3 M 4 T\n:::\n',
    '### 1 Choose. {.test}\n\n1. My mum is (older / young) than me.\n2. I am (taller / taller than) my sister.\n3. This box is (heavy / heavier) than that one.\n\n::: answers\n1 older\n2 taller than\n3 heavier\n:::\n',
    '### 1 Who is it? Choose. {.reading}\n\n1. He teaches us. He is our (teacher / pilot).\n2. She flies a plane. She is a (pilot / vet).\n3. My (aunt / uncle) is a doctor. Her name is Jo.\n\n::: answers\n1 teacher 2 pilot 3 aunt\n:::\n',
    "### 1 Circle. {.test}\n\n1. Don't (run / running) in the hall.\n2. You (must / must to) wash your hands.\n3. We (should / shoulds) help.\n\n::: answers\n1 run 2 must 3 should\n:::\n",
    "### 1 Choose *must* or *mustn't*. {.test}\n\n1. You (must / mustn't) run by the pool.\n2. You (must / mustn't) wear a cap.\n\n::: answers\n1 mustn't 2 must\n:::\n",
    '### 1 Choose: *this, that, these* or *those*. {.test}\n\n1. Here! (This / Those) is my pen.\n2. (This / These) are my socks.\n3. (That / Those) is the moon.\n\n::: answers\n1 This 2 These 3 That\n:::\n',
    '### 1 Put in the words. {.writing}\n\n- on\n- under\n- in\n\n1. The fish is ____ the pond.\n2. The hat is ____ my head.\n3. The roots are ____ the tree.\n\n::: answers\n1 in 2 on 3 under\n:::\n',
    '### 1 Write the animals and count the letters. {.writing}\n\n1. c\\_w (3)\n2. h\\_rs\\_ (5)\n3. sh\\_\\_p (5)\n\n::: answers\n1 cow 2 horse 3 sheep\n:::\n',
    '### 1 Practise. {.speaking}\n\nStudent A: (1) ____ is your name?\n\nStudent B: My (2) ____ is Bo.\n\nStudent A: How (3) ____ are you?\n\nStudent B: I (4) ____ nine.\n\n::: answers\n1 What 2 name 3 old 4 am\n:::\n',
    "### 1 Number the pictures (1–4) and write a sentence for each picture. {.writing}\n\n1 ________________\n\n2 ________________\n\n3 ________________\n\n4 ________________\n\n::: answers\nChildren's own answers.\n:::\n",
    "### 1 Choose. {.test}\n\n1. I'd like (a / some) bread.\n2. I'd like (an / some) egg.\n3. (The / A) moon is white.\n4. I clean (my / the) teeth twice a day.\n\n::: answers\n1 some 2 an 3 The 4 my\n:::\n",
    "### 1 Choose a word for each sentence. {.test}\n\n1. The dog is chasing (its / the) tail.\n2. I lost (my / mine) key.\n3. That's (her / hers) towel.\n\n::: answers\n1 its 2 my 3 her\n:::\n",
    '### 1 Choose. {.test}\n\n1. Our teacher is very (friendly / friends).\n2. My friend is (tall / long).\n3. My coat is (long / tall).\n4. I am (cold / a cold).\n\n::: answers\n1 friendly 2 tall 3 long 4 cold\n:::\n',
    '### 1 Choose. {.test}\n\n1. My teacher is (older / younger) than me.\n2. My big sister is (older / younger) than me.\n3. Spain is (bigger / smaller) than Ireland.\n4. My cat is (smaller / bigger) than my dad.\n\n::: answers\n1 older 2 older 3 bigger 4 smaller\n:::\n',
    "### 1 Choose. {.test}\n\n1. We have got (one / two) cats.\n2. My brother is (six / sixth).\n3. We have lunch at (twelve / ten) o'clock.\n4. I have got (two / three) ears.\n\n::: answers\n1 two 2 six 3 twelve 4 two\n:::\n",
    "### 1 Choose. {.test}\n\n1. We have (soup / cereal) for breakfast.\n2. My rabbit eats (carrots / fish).\n3. I drink (milk / bread).\n4. I'd like a (sandwich / bread).\n\n::: answers\n1 cereal 2 carrots 3 milk 4 sandwich\n:::\n",
    "### 1 Choose. {.test}\n\n1. My mum's (sister / brother) is my aunt.\n2. My (brother / sister) is a boy.\n3. I've got a (sister / sisters).\n4. My (dad / mum) has got a beard.\n\n::: answers\n1 sister 2 brother 3 sister 4 dad\n:::\n",
    '### 1 Choose. {.test}\n\n1. My dad is a (cook / cooker).\n2. She is an (engineer / teacher).\n3. My aunt is a (driver / drive).\n4. A (baker / vet) makes bread.\n\n::: answers\n1 cook 2 engineer 3 driver 4 baker\n:::\n',
    "### 1 Choose. {.test}\n\n1. She's got an (orange / red) coat.\n2. Snow is (white / black).\n3. I've got (brown / browns) shoes.\n4. The sky is (blue / green).\n\n::: answers\n1 orange 2 white 3 brown 4 blue\n:::\n",
    "### 1 Choose. {.test}\n\n1. I (can / can't) fly like a bird.\n2. A cow (can / can't) sing.\n3. We (have / haven't) got ten heads.\n4. My brother (can / cans) swim.\n\n::: answers\n1 can't 2 can't 3 haven't 4 can\n:::\n",
    '### 1 Choose. {.test}\n\n1. We (must / should) wear a helmet on the ice.\n2. I (must / musts) go.\n3. You (should / must) stop at the red light now.\n\n::: answers\n1 must 2 must 3 must\n:::\n',
    '### 1 Choose. {.test}\n\n1. I (go / goes) to school by bus.\n2. We go to school by (bus / foot).\n3. Fish (swim / walk) in the sea.\n4. My brother sings (well / good).\n\n::: answers\n1 go 2 bus 3 swim 4 well\n:::\n',
    '### 1 Choose. {.test}\n\n1. (That / This) over there is my bag.\n2. (This / These) is my pen.\n3. (That / This) is the moon.\n\n::: answers\n1 That 2 This 3 That\n:::\n',
    '### 1 Choose. {.test}\n\n1. Ida is nine.\n2. Bo is seven.\n3. Ida is (older / younger) than Bo.\n4. Bo (is / are) in my class.\n\n::: answers\n3 older 4 is\n:::\n',
    # A third handful.
    "### 1 Choose. {.test}\n\n1. Yes, (I am / I'm).\n2. (It's / Its) tail is long.\n3. (Who's / Whose) bag is this?\n\n::: answers\n1 I am 2 Its 3 Whose\n:::\n",
    '### 1 Choose. {.test}\n\n1. I (have / have got) a shower at six.\n2. We (have / have got) lunch now.\n3. (Each / Every) of us has a pen.\n\n::: answers\n1 have 2 have 3 Each\n:::\n',
    "### 1 Choose. {.test}\n\n1. There isn't (many / a lot of) milk.\n2. I've got (much / a lot of) friends.\n3. There are (some / much) eggs.\n\n::: answers\n1 a lot of 2 a lot of 3 some\n:::\n",
    '### 1 Choose. {.test}\n\n1. We (watched / looked) a film.\n2. He (says / tells) me a story.\n3. I (hear / listen) to the radio.\n4. We (see / look) at the map.\n\n::: answers\n1 watched 2 tells 3 listen 4 look\n:::\n',
    '### 1 Choose. {.test}\n\n1. I play (football / swimming).\n2. We go (swimming / tennis).\n3. He plays (the piano / piano the).\n\n::: answers\n1 football 2 swimming 3 the piano\n:::\n',
    "### 1 Choose. {.test}\n\n1. (Shall / Does) we go?\n2. (Should / Do) he go?\n3. You (mustn't / don't have to) swim here: it's dangerous.\n\n::: answers\n1 Shall 2 Should 3 mustn't\n:::\n",
    '### 1 Choose. {.test}\n\n1. We sleep in a (bed / kitchen).\n2. We cook in the (kitchen / bathroom).\n3. Fish live in the (sea / tree).\n\n::: answers\n1 bed 2 kitchen 3 sea\n:::\n',
    "### 1 Choose. {.test}\n\n1. A doctor works in a (hospital / zoo).\n2. My aunt is a doctor. She works in a (hospital / farm).\n3. We buy bread at the (baker's / bank).\n\n::: answers\n1 hospital 2 hospital 3 baker's\n:::\n",
    '### 1 Write the number. {.reading}\n\n(one) (two) (three)\n\nWe have ____ dogs and ____ cat and ____ hens.\n\n::: answers\ntwo, one, three\n:::\n',
    '### 1 Read the signs. Write A, B or C. {.reading}\n\nSign A: No dogs!\n\nSign B: Wet floor!\n\nSign C: Quiet, please!\n\n1. You can fall here. ____\n2. Leave your puppy at home. ____\n3. Do not talk. ____\n\n::: answers\n1 B, 2 A, 3 C\n:::\n',
    '### 1 Look at Q1 and Q2. Then write. {.writing}\n\nQ1 Where do hens live?\n\nQ2 What do they eat?\n\n::: answers\nQ1 on a farm\n\nQ2 corn\n:::\n',
    '### 1 Spell the words aloud. {.speaking}\n\nh - e - n, c - o - w, p - i - g\n',
    '### 1 Finish the dialogue. {.speaking}\n\nA: (1) ____ is your name?\\\nB: Mo.\\\nA: (2) ____ old are you?\\\nB: Nine.\\\nA: And (3) ____ are you from?\\\nB: Wales.\n\n::: answers\n1 What, 2 How, 3 where\n:::\n',
    '### 1 Read the five sentences. Tick the true ones. {.reading}\n\n1. Fish swim.\n2. Cats fly.\n3. Hens lay eggs.\n4. Cows sing.\n5. Dogs bark.\n\n::: answers\n1, 3, 5\n:::\n',
    '### 1 Write *this* or *these*. {.writing}\n\n1. I like ____ hat.\n2. I like ____ gloves.\n\n::: answers\n1 this 2 these\n:::\n',
    "### 1 Choose the best word. {.test}\n\n1. It's raining. Take an (umbrella / ice cream).\n2. I'm hungry. I want a (sandwich / pillow).\n3. I'm tired. I want to (sleep / dance).\n\n::: answers\n1 umbrella 2 sandwich 3 sleep\n:::\n",
    '### 1 Sort. {.writing}\n\nmilk · bread · juice · water · cheese\n\n**We eat it:** ____, ____\n\n**We drink it:** ____, ____, ____\n\n::: answers\nWe eat it: bread, cheese\n\nWe drink it: milk, juice, water\n:::\n',
    # A fourth handful.
    '### 1 Read and choose. {.reading}\n\nBo is nine. Ida is seven.\n\n1. Ida is (older / younger) than Bo.\n2. Bo is (seven / nine).\n\n::: answers\n1 younger 2 nine\n:::\n',
    "### 1 Read. Choose. {.reading}\n\nI'm Bo. I've got two cats.\n\n1. I've got (two / three) cats.\n2. I (am / is) a boy.\n\n::: answers\n1 two 2 am\n:::\n",
    '### 1 Match the halves. {.reading}\n\n1 If it rains, …\n2 If you are hungry, …\n3 If the bus is late, …\n\na … eat a sandwich.\nb … we walk home.\nc … take an umbrella.\n\n::: answers\n1–c, 2–a, 3–b\n:::\n',
    '### 1 Tick (✓) or cross (✗). {.reading}\n\n1. A cow has wings. ☐\n2. A hen has two legs. ☐\n3. Fish can swim. ☐\n\n::: answers\n1 ✗, 2 ✓, 3 ✓\n:::\n',
    '### 1 Write N, S, E or W. {.reading}\n\n1. The farm is ____ of the hill.\n2. The lake is ____ of the farm.\n3. The shop is ____ of the school.\n4. The sea is ____ of the town.\n\n::: answers\n1 N 2 E 3 S 4 W\n:::\n',
    '### 1 Use each verb once: get, have, brush, go. {.writing}\n\nI (1) ____ up at six. I (2) ____ breakfast. Then I (3) ____ my teeth and (4) ____ to school.\n\n::: answers\n1 get 2 have 3 brush 4 go\n:::\n',
    '### 1 Choose the animal. {.reading}\n\n**It gives us wool.** a goat, a sheep or a fox?\n\n**It gives us eggs.** a hen, a cow or a cat?\n\n::: answers\na sheep; a hen\n:::\n',
    '### 1 Complete the days. One line is one letter. {.writing}\n\nM _ nday – T _ _ sday – Wedn _ sday – S _ nday\n\n::: answers\nMonday, Tuesday, Wednesday, Sunday\n:::\n',
    '### 1 Write the opposites. {.writing}\n\nhot – ____\n\nold – ____\n\nbig – ____\n\nlong – ____\n\n::: answers\ncold, new, small, short\n:::\n',
    '### 1 Write the animals. {.writing}\n\nO-L-W = ____ ; A-T-B = ____ ; F-O-G-R = ____ ; E-S-P-E-H = ____\n\n::: answers\nowl, bat, frog, sheep\n:::\n',
    '### 1 Interview two people. {.survey}\n\n| Question | Person 1 | Person 2 |\n|---|---|---|\n| What do you eat? | | |\n| What do you drink? | | |\n',
    '### 1 Circle the three words that rhyme with *cat*. {.sounds}\n\nhat, dog, mat, sun, rat\n\n::: answers\nhat, mat, rat\n:::\n',
    '### 1 Write the sentences in the past. {.writing}\n\n* The dogs are wet. ______________\n* I am tired. ______________\n\n::: answers\nThe dogs were wet.\nI was tired.\n:::\n',
    '### 1 Make questions. {.writing}\n\n1. Ida is at home. → ____________?\n2. They are here. → ____________?\n\n::: answers\n1 Is Ida at home? 2 Are they here?\n:::\n',
    "### 1 Choose. {.test}\n\n1. My cat is black and white. It's a (big / small) kitten of six weeks.\n2. I've got a (dog / dogs).\n3. The (boy / girl) is called Ida.\n\n::: answers\n1 small 2 dog 3 girl\n:::\n",
    "### 1 Complete the notice. {.writing}\n\nOur club meets (a) ____ Monday (b) ____ four o'clock (c) ____ the hall. Come (d) ____ your friends!\n\n::: answers\na on, b at, c in, d with\n:::\n",
    # What could be heard, asked or spelt wrongly.
    "### 1 Listen and circle. {.listening audio=1.1}\n\n1. I've got (two / three) cousins.\n2. My bag is (big / small).\n3. My aunt is a (vet / nurse).\n\n::: answers\n1 two 2 big 3 vet\n:::\n",
    '### 1 Ask your partner and circle. {.speaking}\n\n1. My friend likes (swimming / dancing).\n2. My friend goes to school by (bus / bike).\n\n::: answers\n1 swimming 2 bus\n:::\n',
    '### 1 Choose. {.test}\n\n1. Dad is (swimming / swiming).\n2. Mum is (cook / cooking).\n3. My friend likes (swim / swimming).\n4. We (went / go) to the park yesterday.\n\n::: answers\n1 swimming 2 cooking 3 swimming 4 went\n:::\n',
    '### 1 Choose. {.test}\n\n1. Is this (your / you) pen?\n2. My dad works in a (garage / bank): he mends cars.\n3. I play (football / judo).\n4. We (make / do) breakfast.\n\n::: answers\n1 your 2 garage 3 football 4 make\n:::\n',
    "### 1 Choose. {.test}\n\n1. (It's / Its) cold.\n2. (They're / Their) bikes are new.\n3. My brother (doesn't like / don't like) tea.\n4. We (aren't / isn't) late.\n\n::: answers\n1 It's 2 Their 3 doesn't like 4 aren't\n:::\n",
    "### 1 Choose. {.test}\n\n1. My sister is (nice / nicely).\n2. The (man / men) is tall.\n3. My (brother's / brothers) bag is red.\n4. We are (late / early) for school: it is half past nine.\n\n::: answers\n1 nice 2 man 3 brother's 4 late\n:::\n",
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
