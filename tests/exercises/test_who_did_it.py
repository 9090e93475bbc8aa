"""Keys held against who speaks and who does something, against a table's cell and a code of numbers; and the like that
is right. Invented pages; what is right English is from memory."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

TALENTS = """### 1 Listen. Write can or can't. {.listening audio=1.1}

1. Mr Bix ____ juggle.
2. Mrs Plum ____ sing.
3. Nana Jo ____ skip.
4. Omar ____ play the drum.

::: {.audio track=1.1}
MR BIX: I can paint. But I can't juggle. Oh no!

MRS PLUM: Yes, I can juggle. But I can't sing.

NANA JO: I can skip. One, two, one, two!

OMAR: I can't play the drum. I can dance.
:::

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 can't\n2 can't\n3 can\n4 can't", []),
        ("1 can't\n2 can\n3 can\n4 can't", ["can"]),
        ("1 can't\n2 can't\n3 can't\n4 can't", ["can't"]),
        ("1 can't\n2 can't\n3 can\n4 can", ["can"]),
        ("1 can\n2 can\n3 can't\n4 can", []),  # all of them: another key
    ],
)
def test_what_somebody_says_of_himself(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, TALENTS + key(answers))] == found


COMIC = """### 1 Read the comic. {.story}

**Mrs Plum:** It isn't under my hat. I've got a banana under my hat!

**Omar:** A potato, a sock … no whistle!

**Tilda:** I can hear a whistle!

### 2 True or false? {.reading}

1. Mrs Plum has got a banana under her hat.
2. Omar has got a whistle.
3. Tilda can hear a whistle.

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1. It is **true**.\n2. It is **false**.\n3. It is **true**.", 0),
        ("1. It is **false**. She has got an egg.\n2. It is **false**.\n3. It is **true**.", 1),
        ("1. That's true.\n2. That's false.\n3. That's false.", 1),
    ],
)
def test_a_verdict_that_is_a_sentence(answers: str, found: int) -> None:
    assert len(said_of(RULE, COMIC + key(answers))) == found


STORY = """### 1 Read. {.story .reading}

Tobin had an idea. He went to the kitchen. Mr Sprat threw a rope. Then Ilka rang the bell. Ding, dong!

Hester saw the lights. Captain Wren saw the lights. “I can't hear the engine,” said Ilka.

### 2 Who was it? {.reading}

1. Who went to the kitchen?
2. Who rang the bell?
3. Who saw the lights?
4. Who threw a rope?

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 Tobin\n2 Ilka\n3 Hester\n4 Mr Sprat", []),
        ("1 Tobin\n2 Mr Sprat (ding, dong!)\n3 Hester\n4 Mr Sprat", ["Mr Sprat (ding, dong!)"]),
        ("1 Tobin\n2 Ilka\n3 Tobin\n4 Mr Sprat", []),  # two saw them, and perhaps he did, too
        ("1 Ilka\n2 Ilka\n3 Hester\n4 Mr Sprat", []),  # he is only “he”
        ("1 Tobin\n2 the girl with the drum\n3 Hester\n4 Mr Sprat", []),  # who may be Ilka
        ("1 Tobin\n2 Mr Sprat\n3 Hester\n4 Hester", []),  # two that differ are another key
    ],
)
def test_who_did_something(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, STORY + key(answers))] == found


TIMETABLE = """### 1 Read the timetable. {.reading}

| Harbour | Arrives | Leaves |
|---|---|---|
| Sallow | – | 8.00 pm |
| Brisk | 9.30 pm | 9.45 pm |
| Little Hob | 11.15 pm | 11.30 pm |

1. What time does it arrive at Little Hob?
2. What time does it leave Brisk?

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 At 11.15 pm. 2 At 9.45 pm.", []),
        ("1 At 11.30 pm. (look at the line) 2 At 9.45 pm.", ["11.15 pm"]),
        ("1 11.15 pm 2 It's 9.30 pm.", ["9.45 pm"]),
        ("1 At midnight. 2 At 9.45 pm.", []),  # no cell of the table
    ],
)
def test_the_cell_of_its_row_and_column(answers: str, found: list[str]) -> None:
    said = said_of(RULE, TIMETABLE + key(answers))
    assert len(said) == len(found)
    assert all(f"the table has “{cell}”" in message for (_, message), cell in zip(said, found, strict=True))


CODE = """### 1 Write the words. A is 1, B is 2. {.writing}

1. 20, 9, 4, 5 ____
2. 12 · 1 · 13 · 16 ____
3. 3, 8, 1, 9, 14 ____

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 tide; 2 lamp; 3 chain", []),
        ("1 tide; 2 lamp; 3 chair", ["chair"]),
        ("1 wheel; 2 lamp; 3 chair", []),  # another code
    ],
)
def test_numbers_that_spell_a_word(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, CODE + key(answers))] == found


VISIT = """### 1 Listen and choose. {.listening audio=1.1}

1. The jars are in the ____.
   a kitchen  b library  c garden
2. The honey goes to the ____.
   a neighbours  b teachers  c shop
3. The club wants a ____.
   a tent  b glass hive  c boat
4. Mrs Olm wants to plant ____.
   a roses  b sunflowers  c apple trees

::: {.audio track=1.1}
NADI: The jars are in the library. The honey goes to the neighbours.

MRS OLM: What do you want next year?

NADI: We want a glass hive. MORE
:::

"""


@pytest.mark.parametrize(
    ("more", "answers", "found"),
    [
        ("", "1 b\n2 a\n3 b\n4 b", ["b"]),
        ("And plants with yellow flowers.", "1 b\n2 a\n3 b\n4 b", ["b"]),
        ("We want a sunflower!", "1 b\n2 a\n3 b\n4 b", []),
        ("An apple is nice.", "1 b\n2 a\n3 b\n4 c", []),  # perhaps of its tree
        ("", "1 a\n2 b\n3 b\n4 b", []),  # nothing goes by this script
    ],
)
def test_a_script_that_has_none_of_the_options(more: str, answers: str, found: list[str]) -> None:
    page = VISIT.replace("MORE", more) + key(answers)
    said = [(words, message) for words, message in said_of(RULE, page) if "none of" in message]
    assert [words for words, _ in said] == found


def test_what_somebody_is_like_is_told_in_other_words() -> None:
    page = VISIT.replace("Mrs Olm wants to plant ____.", "Mrs Olm is ____.").replace("MORE", "")
    page = page.replace("roses", "frightened").replace("sunflowers", "hungry").replace("apple trees", "tired")
    assert said_of(RULE, page + key("1 b\n2 a\n3 b\n4 b")) == []


ORDERS = """### 1 Listen. How many? {.listening audio=1.1}

1. Mr Tolly: ____ buns
2. Mrs Reed: ____ pies
3. Miss Wick: ____ rolls
4. Dr Finch: ____ buns

::: {.audio track=1.1}
MR TOLLY: Give me eight buns.

MRS REED: Two pies, please.

MISS WICK: Six rolls!

DR FINCH: I'd like some buns.

PIA: How many buns do you want?

DR FINCH: Five, please.
:::

"""


def test_somebody_else_may_want_another_number_of_the_same() -> None:
    assert said_of(RULE, ORDERS + key("1 eight\n2 two\n3 six\n4 five")) == []


PICTURE = """### 1 Look and write the name. {.reading}

::: art
Drawing: the kitchen. Biscuit is eating from a red bowl. Smoke is sleeping on a chair. Moss is drinking. Tango is
dancing, and Moss looks at Tango, Smoke and Biscuit.
:::

1. ____ is eating.
2. ____ is sleeping.
3. ____ is drinking.
4. ____ is dancing.

"""


@pytest.mark.parametrize(
    ("answers", "found"),
    [
        ("1 Biscuit\n2 Smoke\n3 Moss\n4 Tango", []),
        ("1 Biscuit\n2 Moss\n3 Moss\n4 Tango", ["Moss"]),
        (
            "- 1 ____ is eating. → Biscuit\n- 2 ____ is sleeping. → Moss\n- 3 ____ is drinking. → Moss\n"
            "- 4 ____ is dancing. → Tango",
            ["Moss"],
        ),
        ("1 Smoke\n2 Biscuit\n3 Moss\n4 Tango", []),  # two that differ
    ],
)
def test_who_does_what_in_a_picture(answers: str, found: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, PICTURE + key(answers))] == found


LABELS = """### 1 Listen. How many? {.listening audio=1.1}

1. ____ plates
2. ____ cups
3. ____ forks
4. ____ spoons

::: {.audio track=1.1}
A: Eight plates, please. And six cups. I need three forks, too. MORE
:::

"""


@pytest.mark.parametrize(
    ("more", "against"),
    [("", "the script has no 10, and nothing of “spoons”"), ("And the spoons!", "the script has no 10")],
)
def test_a_message_says_what_is_never_told_of(more: str, against: str) -> None:
    ((_, message),) = said_of(RULE, LABELS.replace("MORE", more) + key("1 eight\n2 six\n3 three\n4 ten"))
    assert message.endswith(f"; {against}. Which is right?")
