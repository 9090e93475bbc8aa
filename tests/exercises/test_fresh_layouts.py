# ruff: noqa: E501 - each row is one exercise
"""Layouts met on fresh courses and in the sixth and seventh set: how they are read, and what is nobody's word."""

import pytest

from lint_rules.manuscript.model import Role
from lint_rules.page.exercises.edits import filled_ranges
from tests.exercises.test_layouts import ACTIVITY, read, texts
from tests.exercises.test_readings import key, page_of
from tests.exercises.test_readings import read as read_as


def sentences(page: str, heading: str = ACTIVITY) -> list[str]:
    found = read_as(page, heading)
    return [p.text for p in page_of(found) if p.role is not Role.OPTION]


def words_with_gaps(page: str) -> list[str]:
    items = [item for one in read(ACTIVITY + page).exercises for item in one.items]
    return [gap.word.text if gap.word else "" for item in items for gap in item.gaps]


PICTURE = "![{}](art/a.svg){{.drawing}}"


@pytest.mark.parametrize(
    ("page", "words"),
    [
        pytest.param(f"1. t ____ n {PICTURE.format('tin')}\n2. si ____ {PICTURE.format('six')}\n3. ____ en {PICTURE.format('a hen')}\n", ["t ____ n", "si ____", "____ en"], id="by its picture"),
        pytest.param("1. j ____ m\n2. b ____ d\n" + key("1 a 2 e"), ["j ____ m", "b ____ d"], id="by a letter that is no word"),
        pytest.param("1. fr ____\n2. sp ____\n" + key("1 frog 2 spoon"), ["fr ____", "sp ____"], id="by the key and a piece without a vowel"),
        pytest.param("1. t ____ n\n2. p ____ g\n3. si ____\n", ["t ____ n", "p ____ g", "si ____"], id="by their company"),
        pytest.param("1. lun ____\n2. ____ irt\n" + key("1 ch 2 sh"), ["lun ____", "____ irt"], id="by the letters that the key has"),
        pytest.param("1. the sea ____\n2. at home ____\n" + key("1 is 2 do"), ["", ""], id="letters that are a word"),
        pytest.param("1. He ____\n2. We ____ it\n" + key("1 is 2 do"), ["", ""], id="small words are no pieces"),
        pytest.param("1. play ____\n2. stop ____\n" + key("1 played 2 stopped"), ["", ""], id="a word and its past"),
        pytest.param("1. cat ____\n2. dog ____\n\na) red  b) blue\n" + key("1 b 2 a"), ["", ""], id="a letter of a column"),
        pytest.param(f"1. a ____ {PICTURE.format('a tin')}\n2. my ____ {PICTURE.format('a cup')}\n", ["", ""], id="an article before the word of a picture"),
        pytest.param("1. You wear it. a _ _ _ _\n2. It is hot. f _ _ _\n" + key("1 apron 2 fire"), ["a _ _ _ _", "f _ _ _"], id="a first letter that is a word"),
        pytest.param("1. You wear it. a _ _ _\n2. It flies. a _ _ _ _\n" + key("1 cap 2 bird"), ["_ _ _", "_ _ _ _"], id="an article behind a sentence, by the key"),
        pytest.param("1. You wear it. a _ _ _\n2. It is hot. f _ _ _\n" + key("1 apron 2 fire"), ["a _ _ _", "f _ _ _"], id="a line too few"),
        pytest.param("1. I have a _ _ _.\n2. It is a _ _ _.\n" + key("1 cat 2 dog"), ["_ _ _", "_ _ _"], id="an article"),
        pytest.param("1. It is wet. a _ _ _\n2. It is hot. a _ _ _\n", ["a _ _ _", "a _ _ _"], id="behind a sentence, without a key"),
        pytest.param("| | |\n|---|---|\n| 1 | sp _ _ n |\n| 2 | pl _ t e |\n" + key("1 spoon 2 plates"), ["sp _ _ n", "pl _ t e"], id="pieces of a word, whatever the key"),
        pytest.param("1. my _ _ _\n2. his _ _ _\n" + key("1 cat 2 dog"), ["_ _ _", "_ _ _"], id="a word before single lines"),
    ],
)  # fmt: skip
def test_letters_around_a_blank_are_one_word_where_something_says_so(page, words):
    assert words_with_gaps(page) == words


@pytest.mark.parametrize(
    ("page", "read_"),
    [
        ("1. j ____ m\n2. b ____ d\n" + key("1 a 2 e"), ["jam", "bed"]),
        ("1. t ____ n\n2. b ____ k\n" + key("1 ow 2 oo"), ["town", "book"]),
        ("1. It can do this: fl ____ .\n2. It's not left. It's r ____ t!\n" + key("1 fly 2 right"), ["It can do this: fly.", "It's not left. It's right!"]),
        ("1. The torch is ____ [A smaller / B bigger] than mine.\n2. Yes, I ____ [A did / B do / C was].\n" + key("1 B 2 A"), ["The torch is bigger than mine.", "Yes, I did."]),
        ("1. It's Mr ____ .\n2. A hen, and my ____ .\n" + key("1 Moon 2 hat"), ["It's Mr Moon.", "A hen, and my hat."]),
        ("1. It's an ~~apple~~. ____\n2. They ~~has~~ cats. ____\n" + key("1 egg 2 have"), ["It's an egg.", "They have cats."]),
        ("1. The ~~dog~~ sleeps. (cats) ____\n2. The ~~hen~~ runs. (pigs) ____\n" + key("1 The cats sleep.\n2 The pigs run."), ["The dog sleeps.", "The cats sleep.", "The hen runs.", "The pigs run."]),
        ("We have ~~soop~~ ____ and ~~bred~~ ____.\n" + key("soup, bread"), ["We have soup and bread."]),
        ("quick + ly = ____\n\nun + happy = ____\n" + key("quickly, unhappy"), ["quickly", "unhappy"]),
        ("rain + ____ = ________\n\nsnow + ____ = ________\n" + key("raincoat, snowman"), ["raincoat", "snowman"]),
        ("1. 4 - 15 - 7 ____\n2. 3 - 1 - 20 ____\n" + key("1 dog 2 cat"), ["dog", "cat"]),
        ("1. I am 6 ____.\n2. It is 7 ____.\n" + key("1 today 2 now"), ["I am 6 today.", "It is 7 now."]),
        ("1. `ilikeplums` ____\n2. `hehasarobot` ____\n" + key("1 I like plums.\n2 He has a robot."), ["I like plums.", "He has a robot."]),
        ("`canyouswim`\n\n____\n\n`shesings`\n\n____\n" + key("Can you swim?\n\nShe sings."), ["Can you swim?", "She sings."]),
        ("1. Its Pips kite. ____\n2. i cant see ____\n" + key("1 It's Pip's kite.\n2 I can't see."), ["It's Pip's kite.", "I can't see."]),
        ("run → ru_____\n\nswim → swi_____\n" + key("running, swimming"), ["run", "running", "swim", "swimming"]),
        ("1. box → ____\n2. baby → ____\n" + key("1 boxes 2 babies"), ["box", "boxes", "baby", "babies"]),
        ("pilot\n\n:   She flies a ____.\n\ncook\n:   He makes ____.\n" + key("plane, soup"), ["pilot", "She flies a plane.", "cook", "He makes soup."]),
    ],
)  # fmt: skip
def test_what_a_child_ends_up_with(page, read_):
    assert sentences(page) == read_


def test_words_that_lead_a_number_belong_to_it():
    page = "**A** Hello!\n\n**B** Bye!\n\nFrame 1 ____ Frame 2 ____\n" + key("Frame 1 B, frame 2 A")
    assert [text for text in sentences(page) if "Frame" in text] == []
    page = "The hen (1) ____ in the (2) ____. It (3) ____.\n" + key("1 is 2 box 3 sings")
    assert sentences(page) == ["The hen is in the box. It sings."]


def test_the_days_of_a_calendar_are_numbered_by_no_words():
    days = "| " + " | ".join(str(day) for day in range(1, 8)) + " |"
    page = f"| Mo | Tu | We | Th | Fr | Sa | Su |\n|---|---|---|---|---|---|---|\n{days}\n| 8 | 9 | 10 party | 11 | 12 | 13 | 14 |\n\n"
    assert "party" in sentences(page + "a. When is it? On ____.\nb. What is it? A ____.\n" + key("a Wednesday b party"))
    chart = "| Name | Has |\n|---|---|\n| Ida | 2 dogs |\n| Bo | 3 |\n\n"
    assert "2 dogs" in sentences(chart + "1. Ida has ____.\n2. Bo has ____.\n" + key("1 two 2 three"))


def test_letters_that_a_key_gives_for_a_gap_are_no_words_of_the_key():
    found = read_as("1. two dish____\n2. four car____\n" + key("1 es 2 s"))
    (activity,) = found.done.activities
    assert [p.text for p in activity.part.passages if p.audience.value == "key"] == ["1 2"]
    found = read_as("**Across**\n\n2. It is wet.\n5. It is hot.\n" + key("Across: 2 table 5 hall"))
    (activity,) = found.done.activities
    assert [p.text for p in activity.part.passages if p.audience.value == "key"] == ["Across:", "table", "hall"]


@pytest.mark.parametrize("sign", ["/", "|", "||", "¦", "·", "•", "~", "◆", "★", "▸"])
def test_options_may_be_parted_by_any_sign(sign):
    page = f"1. They *live {sign} lives {sign} living* here.\n2. I (am {sign} is) six.\n" + key("1 live 2 am")
    items = [
        item
        for one in read(ACTIVITY + page.replace("|", "\\|") if "|" in sign else ACTIVITY + page).exercises
        for item in one.items
    ]
    assert [[option.text for option in choice.options] for item in items for choice in item.choices] == [
        ["live", "lives", "living"],
        ["am", "is"],
    ]


@pytest.mark.parametrize("sign", ["/", "¦", "·", "~", "◆", "→", "»", "+", ";", ","])
def test_words_of_a_box_may_be_parted_by_any_sign(sign):
    page = f"bird {sign} hat {sign} kite\n\n1. He has a ____.\n2. She has a ____.\n3. It is a ____.\n" + key(
        "1 hat 2 kite 3 bird"
    )
    assert [[word.text for word in box.words] for box in read(ACTIVITY + page).boxes] == [["bird", "hat", "kite"]]
    table = f"| bird {sign} hat {sign} kite |\n|---|\n\n1. He has a ____.\n2. It is a ____.\n" + key("1 hat 2 bird")
    assert [[word.text for word in box.words] for box in read(ACTIVITY + table).boxes] == [["bird", "hat", "kite"]]


def test_how_a_word_changes_is_no_box():
    assert read(ACTIVITY + "p → d → w\n\npig → _ig → _ig\n\n" + key("pig → dig → wig")).boxes == ()


@pytest.mark.parametrize(
    ("page", "jumbles"),
    [
        ("1. r » a » c → ____\n2. s » b » u → ____\n" + key("1 car 2 bus"), ["r » a » c", "s » b » u"]),
        ("1. ter + win ____\n2. mer + sum ____\n3. tumn ____\n" + key("1 winter 2 summer 3 autumn"), ["ter + win", "mer + sum", "tumn"]),
        ("1. ta · po · to ____\n2. ber · cu · cum ____\n3. co · broc ____\n" + key("1 potato 2 cucumber 3 broccoli"), ["ta · po · to", "ber · cu · cum", "co · broc"]),
        ("1. rain + coat ____\n2. foot + ball ____\n" + key("1 raincoat 2 football"), ["", ""]),
        ("1. happy + ly ____\n2. easy + ly ____\n" + key("1 happily 2 easily"), ["", ""]),
    ],
)  # fmt: skip
def test_parts_of_a_word_are_put_in_order(page, jumbles):
    items = [item for one in read(ACTIVITY + page).exercises for item in one.items]
    assert [item.jumble.text if item.jumble else "" for item in items] == jumbles


def test_numbers_and_letters_may_stand_in_circles():
    page = "① A hen lays\\\n② A bee makes\n\nⒶ sweet honey.\\\nⒷ two eggs.\n" + key("① Ⓑ ② Ⓐ")
    assert texts(read(ACTIVITY + page)) == [[("1", "Ⓑ"), ("2", "Ⓐ")]]
    assert sentences(page) == ["A hen lays two eggs.", "A bee makes sweet honey."]


def test_a_key_may_number_letters_in_any_order():
    page = "a ____ It flies.\\\nb ____ It is new.\\\nc ____ It falls.\n"
    assert texts(read(ACTIVITY + page + key("b 1, a 2, c 3"))) == [[("a", "2"), ("b", "1"), ("c", "3")]]
    assert texts(read(ACTIVITY + page + key("b – 1; a – 2"))) == [[("a", "2"), ("b", "1"), ("c", "")]]


@pytest.mark.parametrize(
    "rows",
    [
        "| (1) | go | goes |\n|---|---|---|\n| (2) | is | are |\n",
        "| | | |\n|---|---|---|\n| 1 | go | goes |\n| 2 | is | are |\n",
    ],
)
def test_a_table_may_offer_the_words_of_a_text(rows):
    page = "Every day he (1) ____ home, and they (2) ____ glad.\n\n" + rows + key("1 goes 2 are")
    (exercise,) = read(ACTIVITY + page).exercises
    assert [[option.text for option in choice.options] for item in exercise.items for choice in item.choices] == [
        ["go", "goes"],
        ["is", "are"],
    ]


def test_the_last_question_has_its_options_in_the_table_below_it():
    tables = [
        f"**{n} What is it?**\n\n| A {a} | B {b} |\n|---|---|\n" for n, a, b in ((1, "red", "blue"), (2, "old", "new"))
    ]
    (exercise,) = read(ACTIVITY + "\n".join(tables) + key("1 B 2 A")).exercises
    assert [len(item.choices) for item in exercise.items] == [1, 1]
    assert exercise.column == ()


def test_what_stands_in_a_blank_is_known_as_such():
    found = read_as("1. I have two ____ & a dog.\n2. It is a ____.\n" + key("1 cats 2 hen"))
    assert [[p.text[a:b] for a, b in filled_ranges(p)] for p in page_of(found)] == [["cats"], ["hen"]]
    assert filled_ranges(page_of(read_as("Ida &amp; Bo sing.\n"))[0]) == ()


def test_options_may_be_parted_by_a_bold_or():
    page = "1. I can fly. Am I a bee **or** an octopus **or** a pig?\n2. Is it red **or** blue?\n" + key(
        "1 a bee 2 blue"
    )
    items = [item for one in read(ACTIVITY + page).exercises for item in one.items]
    assert [[option.text for option in choice.options] for item in items for choice in item.choices] == [
        ["a bee", "an octopus", "a pig"],
        ["red", "blue"],
    ]


def test_brackets_set_in_bold_are_brackets():
    page = "Put on your (1) **[boots / soup]** and (2) **[sing / sings]**!\n" + key("1 boots, 2 sing")
    assert sentences(page) == ["Put on your boots and sing!"]


def test_a_sign_may_stand_before_the_first_option():
    page = "1 It is cold. Is it ◂ snow ▸ sand?\n\n2 We ◂ run ▸ runs home.\n" + key("1 snow 2 run")
    items = [item for one in read(ACTIVITY + page).exercises for item in one.items]
    assert [[option.text for option in choice.options] for item in items for choice in item.choices] == [
        ["snow", "sand"],
        ["run", "runs"],
    ]
    assert sentences(page) == ["It is cold. Is it snow?", "We run home."]


def test_a_word_before_its_letter_is_a_label_too():
    page = "Picture A: It rains.\nPicture B: It stops.\nPicture C: We sing.\n"
    (exercise,) = read("### 1 Put the pictures in order. {.reading}\n\n" + page + key("1 C, 2 A, 3 B")).exercises
    assert [(item.label.text, item.text) for item in exercise.items] == [
        ("A", "It rains."),
        ("B", "It stops."),
        ("C", "We sing."),
    ]
    assert [answer.text for answer in exercise.key.order] == ["C", "A", "B"]
    assert not read(ACTIVITY + "Look at picture A: it rains. In picture B: it stops.\n").exercises


def test_the_parts_of_a_crosswords_key_begin_anew():
    page = "**Across**\n\n1 It is wet. (4)\n\n3 It is hot. (4)\n\n**Down**\n\n1 It is red. (4)\n\n2 It is cold. (3)\n"
    assert texts(read(ACTIVITY + page + key("Across: 1 rain, 3 fire\nDown: 1 rose, 2 ice"))) == [
        [("1", "rain"), ("3", "fire")],
        [("1", "rose"), ("2", "ice")],
    ]


def test_quotation_marks_part_no_options():
    assert sentences("1. She says « hello » to me.\n2. He says « bye » to us.\n") == [
        "She says « hello » to me.",
        "He says « bye » to us.",
    ]


def test_the_word_for_a_picture_stands_where_the_picture_is():
    heading = "### 1 Write the word for each picture. {.picture-sentence}\n\n"
    page = f"1. A {PICTURE.format('frog')} jumps.\n2. I see an {PICTURE.format('owl')}!\n\n1 ____ 2 ____\n"
    assert sentences(page + key("1 frog 2 owl"), heading) == ["A frog jumps.", "I see an owl!"]


def test_the_last_of_several_groups_has_all_its_lines():
    page = "1\\\na It is hot.\\\nb It is cold.\n\n2\\\na We run.\\\nb We sing.\n" + key("1 b · 2 a")
    (exercise,) = read(ACTIVITY + page).exercises
    assert [len(choice.options) for item in exercise.items for choice in item.choices] == [2, 2]


def test_a_number_may_hang_on_its_letter_by_a_dash():
    page = "| | |\n|---|---|\n| 1 Hello! | a Fine. |\n| 2 How are you? | b Hi! |\n"
    assert texts(read(ACTIVITY + page + key("1–b 2–a"))) == [[("1", "b"), ("2", "a")]]
