# ruff: noqa: E501 - each row is one exercise
"""The same exercise as different authors lay it out: it reads the same, its fault is found, and nothing else is said."""

from itertools import product

import pytest

from lint_rules.page.exercises.completed import completed
from lint_rules.page.exercises.model import Exercises
from lint_rules.page.readings import readings_of
from tests.exercises.taught import assert_caught, assert_left_alone, said_of
from tests.exercises.test_layouts import ACTIVITY, read, texts, unit_of


def key(text: str) -> str:
    return f"\n::: answers\n{text}\n:::\n"


def notes(text: str) -> str:
    return f"\n::: teacher\n{text}\n:::\n"


def chosen(page: Exercises) -> list[tuple[str, str]]:
    """Each item with the option, or the thing of the column, that its key takes."""
    found = []
    for exercise in page.exercises:
        for item in exercise.items:
            done = completed(item, exercise)
            (option,) = [one for one in (*done.chosen, done.matched) if one is not None]
            found.append((item.label.text, option.text))
    return found


def words_of_boxes(page: Exercises) -> list[list[str]]:
    return [[word.text for word in box.words] for box in page.boxes]


# Three things and their letters.
MATCHING = {
    "two lists": "1. an old spoon\n2. a green bottle\n3. a tin box\n\na. Ruta\n\nb. Mr Abel\n\nc. Yoko\n",
    "a table of four columns": "| | | | |\n|---|---|---|---|\n| 1 | an old spoon | a | Ruta |\n| 2 | a green bottle | b | Mr Abel |\n| 3 | a tin box | c | Yoko |\n",
    "a table with heads": "| Things | People |\n|---|---|\n| 1. an old spoon | a. Ruta |\n| 2. a green bottle | b. Mr Abel |\n| 3. a tin box | c. Yoko |\n",
    "numbers in bold": "**1** an old spoon\\\n**2** a green bottle\\\n**3** a tin box\n\n**a** Ruta\\\n**b** Mr Abel\\\n**c** Yoko\n",
    "in brackets": "(1) an old spoon\n\n(2) a green bottle\n\n(3) a tin box\n\n(a) Ruta\n\n(b) Mr Abel\n\n(c) Yoko\n",
    "in one line each": "1 an old spoon / 2 a green bottle / 3 a tin box\n\na Ruta / b Mr Abel / c Yoko\n",
    "bullets with Q": "- Q1 an old spoon\n- Q2 a green bottle\n- Q3 a tin box\n\n[a] Ruta   [b] Mr Abel   [c] Yoko\n",
    "a table with heads A and B": "| A | B |\n|---|---|\n| 1. an old spoon | a. Ruta |\n| 2. a green bottle | b. Mr Abel |\n| 3. a tin box | c. Yoko |\n",
    "a line block": "| 1 an old spoon\n| 2 a green bottle\n| 3 a tin box\n\n| a Ruta\n| b Mr Abel\n| c Yoko\n",
}
LETTERS = {
    "a table across": key("| 1 | 2 | 3 |\n|:-:|:-:|:-:|\n| c | a | b |"),
    "a table across with a first column": key("| Thing | 1 | 2 | 3 |\n|---|---|---|---|\n| Whose | c | a | b |"),
    "a table down": key("| No. | Answer |\n|---|---|\n| 1 | c |\n| 2 | a |\n| 3 | b |"),
    "a table down without heads": key("| 1 | c |\n|---|---|\n| 2 | a |\n| 3 | b |"),
    "a table in two blocks": key("| 1 | c | 3 | b |\n|---|---|---|---|\n| 2 | a |  |  |"),
    "answers and reasons": key(
        "| No. | Reason | Answer |\n|---|---|---|\n| 1 | She cooks. | c |\n| 2 | It is green. | a |\n| 3 | It is tin. | b |"
    ),
    "the things again in a table": key(
        "| Thing | Whose |\n|---|---|\n| 1 an old spoon | c |\n| 2 a green bottle | a |\n| 3 a tin box | b |"
    ),
    "a table by A and B": key("| A | B |\n|---|---|\n| 1 | c |\n| 2 | a |\n| 3 | b |"),
    "brackets": key("- Q1 [c]\n- Q2 [a]\n- Q3 [b]"),
    "a lead and no spaces": key("Ans.: 1c 2a 3b"),
    "a definition list": key("1\n:   c\n\n2\n:   a\n\n3\n:   b"),
    "sentences": notes("*Solutions:* 1 is (c), 2 is (a) and 3 is (b)."),
    "sentences with numbers": notes("The answers: number 1 is c, number 2 is a, and number 3 is b."),
    "the things again": key("**KEY**\n\n1 an old spoon – **c**\\\n2 a green bottle – **a**\\\n3 a tin box – **b**"),
    "a dash in the notes": notes("- Key - 1 c, 2 a, 3 b"),
    "under a heading of the notes": notes("#### Solution\n\n1 c 2 a 3 b"),
    "columns of spaces": key("**Key**\n\n1    c      2    a      3    b"),
    "slashes": key("1 c / 2 a / 3 b"),
}


@pytest.mark.parametrize(("page", "said"), list(product(MATCHING, LETTERS)))
def test_matching_reads_the_same_in_every_layout(page, said):
    found = read(ACTIVITY + MATCHING[page] + LETTERS[said])
    assert chosen(found) == [("1", "Yoko"), ("2", "Ruta"), ("3", "Mr Abel")]
    assert [item.text for exercise in found.exercises for item in exercise.items] == ["an old spoon", "a green bottle", "a tin box"]  # fmt: skip


OPTIONS = {
    "indented as Pandoc does": "(1) What can Yoko hear?\n\n    (a) a bell\n    (b) a horn\n\n(2) Where is Ruta?\n\n    (a) on a sofa\n    (b) at a desk\n",
    "each on its own": "(1) What can Yoko hear?\n\n    (a) a bell\n\n    (b) a horn\n\n(2) Where is Ruta?\n\n    (a) on a sofa\n\n    (b) at a desk\n",
    "a table": "| | | a | b |\n|---|---|---|---|\n| 1 | What can Yoko hear? | a bell | a horn |\n| 2 | Where is Ruta? | on a sofa | at a desk |\n",
    "strokes": "1) What can Yoko hear? a) a bell / b) a horn\n2) Where is Ruta? a) on a sofa / b) at a desk\n",
    "bold": "**1** What can Yoko hear?\\\n**a** a bell   **b** a horn\n\n**2** Where is Ruta?\\\n**a** on a sofa   **b** at a desk\n",
    "square brackets": "- Q1 What can Yoko hear?\n    - [a] a bell\n    - [b] a horn\n- Q2 Where is Ruta?\n    - [a] on a sofa\n    - [b] at a desk\n",
    "headings": "#### 1. What can Yoko hear?\n\n- a) a bell\n- b) a horn\n\n#### 2. Where is Ruta?\n\n- a) on a sofa\n- b) at a desk\n",
}
CHOICES = {
    "a table across": key("| 1 | 2 |\n|---|---|\n| b | a |"),
    "the options again": key("1 a a bell / **b a horn**\\\n2 **a on a sofa** / b at a desk"),
    "letters and texts": key("| Item | Letter | Text |\n|---|---|---|\n| 1 | b | a horn |\n| 2 | a | on a sofa |"),
    "ranges of words": key("1 a horn\n\n2 on a sofa"),
    "sentences": notes("Solutions: 1 is “a horn” and 2 is “on a sofa”."),
}


@pytest.mark.parametrize(("page", "said"), list(product(OPTIONS, CHOICES)))
def test_options_read_the_same_in_every_layout(page, said):
    assert chosen(read(ACTIVITY + OPTIONS[page] + CHOICES[said])) == [("1", "a horn"), ("2", "on a sofa")]


BOXES = {
    "a lead": "Word box: bowl · jar · plate\n\n",
    "a heading": "#### Word box\n\n- bowl\n- jar\n- plate\n\n",
    "an entry over a list": "- Words\n    - bowl\n    - jar\n    - plate\n\n",
    "a quote": "> *Words*\n>\n> bowl, jar, plate\n\n",
    "columns of spaces": "**Word box**\\\n**bowl     jar**\\\n**plate**\n\n",
    "a sentence": "The words in the box are bowl, jar and plate.\n\n",
    "a table with a caption": "| | | |\n|:-:|:-:|:-:|\n| bowl | jar | plate |\n\n: Word box\n\n",
    "a definition list": "Word box\n:   bowl, jar, plate\n\n",
    "brackets": "Words: [bowl / jar / plate]\n\n",
    "words to choose from": "Choose from these words: bowl, jar, plate.\n\n",
}
GAPS = "1) Jam is in a ____ .\n2) Soup is in a ____ .\n3) The pie is on a ____ .\n"


@pytest.mark.parametrize("box", BOXES)
def test_a_box_reads_the_same_in_every_layout(box):
    page = read(ACTIVITY + BOXES[box] + GAPS + key("1 jar 2 bowl 3 plate"))
    assert words_of_boxes(page) == [["bowl", "jar", "plate"]]
    assert texts(page) == [[("1", "jar"), ("2", "bowl"), ("3", "plate")]]


NO_BOXES = [
    "Can you …?          Friend 1     Friend 2\n\n",
    "The words are in your book.\n\n",
    "#### Words of thanks\n\nThank you, Mum.\n\n",
    "Words fly, things stay.\n\n",
]


@pytest.mark.parametrize("text", NO_BOXES)
def test_what_is_no_box_is_none(text):
    assert not read(ACTIVITY + text + GAPS).boxes


PARTS = {
    "bold": "**A** Write the word.\n\n1. We sit on it. ____\n2. It has pages. ____\n\n**B** Write about you.\n\n3. I am ____ .\n4. I like ____ .\n",
    "headings": "#### A Write the word.\n\n1. We sit on it. ____\n2. It has pages. ____\n\n#### B Write about you.\n\n3. I am ____ .\n4. I like ____ .\n",
    "tables": "#### A Write the word.\n\n| | | |\n|---|---|---|\n| 1 | We sit on it. | ____ |\n| 2 | It has pages. | ____ |\n\n#### B Write about you.\n\n| | |\n|---|---|\n| 3 | I am ____ . |\n| 4 | I like ____ . |\n",
    "dashes": "A – Write the word.\n\n1) We sit on it. ____\n2) It has pages. ____\n\nB – Write about you.\n\n3) I am ____ .\n4) I like ____ .\n",
    "part": "*Part A.* Write the word.\n\n(1) We sit on it. ____\n(2) It has pages. ____\n\n*Part B.* Write about you.\n\n(3) I am ____ .\n(4) I like ____ .\n",
    "bullets": "- **A** Write the word.\n    - Q1 We sit on it. ____\n    - Q2 It has pages. ____\n- **B** Write about you.\n    - Q3 I am ____ .\n    - Q4 I like ____ .\n",
}
OF_PARTS = {
    "a table": key(
        "| Part | Number | Answer |\n|---|---|---|\n| A | 1 | bench |\n|   | 2 | book |\n| B | 3–4 | own answers |"
    ),
    "one line": key("Ans.: A 1 bench / 2 book; B 3–4 own answers"),
    "nested": key("- **A**\n    - Q1 bench\n    - Q2 book\n- **B**\n    - Q3–4 own answers"),
    "sentences": notes("*Solutions:* In part A, 1 is “bench” and 2 is “book”. In part B, 3–4 are own answers."),
}


@pytest.mark.parametrize(("page", "said"), list(product(PARTS, OF_PARTS)))
def test_parts_read_the_same_in_every_layout(page, said):
    found = read(ACTIVITY + PARTS[page] + OF_PARTS[said])
    assert [pair for one in texts(found) for pair in one] == [("1", "bench"), ("2", "book"), ("3", "own answers"), ("4", "own answers")]  # fmt: skip
    assert not any(exercise.column for exercise in found.exercises)
    assert [item.text.split(".")[0] for one in found.exercises for item in one.items][1] == "It has pages"


@pytest.mark.parametrize("page", PARTS)
def test_the_letter_of_a_part_is_no_word(page):
    (activity,) = readings_of(unit_of(ACTIVITY + PARTS[page])).done.activities
    assert not [one.text for one in activity.part.passages if one.text.startswith(("A ", "B ", "A W", "B W"))]


def test_an_article_is_no_letter_of_a_part():
    (activity,) = readings_of(unit_of(ACTIVITY + "#### A Walk by the Sea\n\nWe walk.\n")).done.activities
    assert activity.part.passages[0].text == "A Walk by the Sea"


REPEATED = {
    "numbered": "1 The shelf **is** full.\\\n2 The cups **are** clean.\\\n3 My tea **is** cold.",
    "with a choice": "1 The shelf **is** / are full.\\\n2 The cups is / **are** clean.\\\n3 My tea **is** / are cold.",
}


@pytest.mark.parametrize(
    ("page", "said"),
    [
        ("1. The shelf ____ full.\n2. The cups ____ clean.\n3. My tea cold.\n", "numbered"),
        ("1. The shelf is / are full.\n2. The cups is / are clean.\n3. My tea is / are cold.\n", "with a choice"),
    ],
)
def test_a_key_that_repeats_the_sentences_says_what_is_in_bold(page, said):
    assert texts(read(ACTIVITY + page + key(REPEATED[said]))) == [[("1", "is"), ("2", "are"), ("3", "is")]]


@pytest.mark.parametrize(
    ("said", "answers"),
    [
        ("1 is 2 are", ["is", "are"]),
        ("1 is, 2 are", ["is", "are"]),
        ("1 is falling, 2 are going", ["is falling", "are going"]),
        ("1 is falling\n2 is going", ["is falling", "is going"]),
        ("kite (1), drum (2)", ["kite", "drum"]),
        ("kite (1)\ndrum (2)", ["kite", "drum"]),
        ("| 1 kite | 2 drum |\n|---|---|", ["kite", "drum"]),
        ("| 1 | kite |\n|---|---|\n\n2 drum", ["kite", "drum"]),
        ("1 kite (It flies.) 2 drum (It is loud.)", ["kite (It flies.", "drum (It is loud."]),
        ("| 1 | kite |\n|---|---|\n| 2 | drum |", ["kite", "drum"]),
        ("| 1st | 2nd |\n|---|---|\n| kite | drum |", ["kite", "drum"]),
        ("| Act. | Ans. |\n|---|---|\n| 7 | 1 kite, 2 drum |", ["kite", "drum"]),
        ("| 1 | kite | I like it. |\n|---|---|---|\n| 2 | drum | It is loud. |", ["kite", "drum"]),
    ],
)
def test_an_answer_is_cut_where_it_ends(said, answers):
    page = "1. Here ____ it.\n2. There ____ it.\n"
    assert [answer for one in texts(read(ACTIVITY + page + key(said))) for _, answer in one] == answers


@pytest.mark.parametrize(
    "text",
    [
        "**Steps:** Play it.\n\nAnswers: in pairs, then in class.",
        "The answers are on page 9.",
        "Solutions for noisy classes: whisper.",
        "Key words are on the board.",
        "Ask 1 child, then 2 children.",
    ],
)
def test_notes_that_say_no_answers_are_no_key(text):
    assert not read(f"{ACTIVITY}1. Here ____ it.\n2. There ____ it.\n{notes(text)}").keys


@pytest.mark.parametrize(
    ("page", "read_"),
    [
        ("| ____ | 1. It rings. |\n|---|---|\n| ____ | 2. It ticks. |\n", [("1", "bell"), ("2", "clock")]),
        ("i) It rings. ____\n\nii) It ticks. ____\n\niii) It beeps. ____\n", [("i", "bell"), ("ii", "clock"), ("iii", "phone")]),
        ("**A** It rings. ____\n\n**B** It ticks. ____\n", [("A", "bell"), ("B", "clock")]),
    ],
)  # fmt: skip
def test_labels_in_other_places(page, read_):
    said = "\n\n".join(f"{label}) {answer}" for label, answer in read_)
    assert texts(read(ACTIVITY + page + key(said))) == [read_]


def test_an_indented_option_stands_where_it_says():
    unit = unit_of(ACTIVITY + OPTIONS["indented as Pandoc does"])
    (activity,) = unit.activities
    assert not unit.problems
    for one in activity.part.passages:
        assert unit.source.slice(one.span()).split() == one.text.split()


@pytest.mark.parametrize("before", ["Look:", "1 Look.", "- (1) Look.\n\nHere:"])
def test_four_spaces_are_code_where_no_item_stands_above(before):
    unit = unit_of(f"{ACTIVITY}{before}\n\n    (a) in a box of the screen\n")
    assert [problem.message[:31] for problem in unit.problems] == ["This text begins with four spac"]


WRONG_LETTER = {
    "a table across": key("| 1 | 2 | 3 |\n|:-:|:-:|:-:|\n| c | z | b |"),
    "a table down": key("| No. | Answer |\n|---|---|\n| 1 | c |\n| 2 | z |\n| 3 | b |"),
    "brackets": key("- Q1 [c]\n- Q2 [z]\n- Q3 [b]"),
    "sentences": notes("*Solutions:* 1 is (c), 2 is (z) and 3 is (b)."),
}
HEAD = "### 1 Look and match. {.reading}\n\n"
WRITE = "### 1 Write the words. {.writing}\n\n"
PAIRED = [(list(MATCHING)[at % len(MATCHING)], said) for at, said in enumerate(LETTERS)]
CAUGHT = [
    *(("answers-mismatch", "z", HEAD + MATCHING[page] + wrong) for page, wrong in zip(MATCHING, [*WRONG_LETTER.values()] * 3, strict=False)),
    *(("answers-mismatch", "lamp", WRITE + box + GAPS + key("1 jar 2 lamp 3 plate")) for box in BOXES.values()),
    *(("answers-mismatch", "c", HEAD.replace("match", "choose") + page + key("| 1 | 2 |\n|---|---|\n| b | c |")) for page in OPTIONS.values()),
    ("answers-mismatch", "goed", HEAD + "1. Ruta (go / goes) home.\n2. We (go / goes) out.\n3. You (go / goes) up.\n" + key("| No. | Word |\n|---|---|\n| 1 | goes |\n| 2 | goed |\n| 3 | go |")),
    ("answers-mismatch", "spade", "### 1 Find the odd one out. {.odd-one-out}\n\n| 1 | bus | tram | leaf | van |\n|---|---|---|---|---|\n| 2 | oak | elm | fir | cup |\n| 3 | one | red | six | ten |\n" + key("1 leaf 2 spade 3 red")),
    ("answers-mismatch", "oak, elm, oak", "### 1 Sort the words. {.words}\n\ncrow, elm, fir, oak, swan\n\n| Trees | Birds |\n|---|---|\n| | |\n| | |\n| | |\n" + key("| Trees | Birds |\n|---|---|\n| oak, elm, oak | crow, swan |")),
    ("missing-gap", "My tea cold.", WRITE + "| No. | Sentence |\n|---|---|\n| 1 | The shelf ____ full. |\n| 2 | The cups ____ clean. |\n| 3 | My tea cold. |\n" + key(REPEATED["numbered"])),
    ("jumbled-mismatch", "a e b d", "### 1 Put the letters in order. {.writing}\n\n| | | |\n|---|---|---|\n| 1 | p l a e p | ____ |\n| 2 | a e b d | ____ |\n| 3 | g u s r a | ____ |\n" + key("| 1 | 2 | 3 |\n|---|---|---|\n| apple | bread | sugar |")),
]  # fmt: skip
LEFT_ALONE = [
    *(HEAD + MATCHING[page] + LETTERS[said] for page, said in PAIRED),
    *(WRITE + box + GAPS + key("1 jar 2 bowl 3 plate") for box in BOXES.values()),
    *(HEAD.replace("match", "choose") + OPTIONS[page] + CHOICES[list(CHOICES)[at % len(CHOICES)]] for at, page in enumerate(OPTIONS)),
    *(WRITE + PARTS[page] + OF_PARTS[list(OF_PARTS)[at % len(OF_PARTS)]] for at, page in enumerate(PARTS)),
    HEAD + "A. What is a fir?\n\n   1. a bird\n   2. a tree\n\nB. What is an elm?\n\n   1. a tree\n   2. a boat\n\nC. What is a swan?\n\n   1. a cup\n   2. a bird\n" + key("A 2, B 1, C 2"),
    "### 1 Find the odd one out. {.odd-one-out}\n\n| 1 | bus | tram | leaf | van |\n|---|---|---|---|---|\n| 2 | oak | elm | fir | cup |\n| 3 | one | red | six | ten |\n" + key("1 leaf 2 cup 3 red"),
    "### 1 Sort the words. {.words}\n\ncrow, elm, fir, oak, swan\n\n| Trees | Birds |\n|---|---|\n| | |\n| | |\n| | |\n" + key("| Trees | Birds |\n|---|---|\n| oak | crow |\n| elm | swan |\n| fir | |"),
    "### 1 Put the letters in order. {.writing}\n\n| | | |\n|---|---|---|\n| 1 | p l a e p | ____ |\n| 2 | a e b d r | ____ |\n| 3 | g u s r a | ____ |\n" + key("| 1 | 2 | 3 |\n|---|---|---|\n| apple | bread | sugar |"),
]  # fmt: skip


@pytest.fixture(scope="module")
def said_(language):
    return said_of(CAUGHT, LEFT_ALONE, language)


@pytest.mark.parametrize("at", range(len(CAUGHT)))
def test_a_fault_is_found_in_every_layout(said_, at):
    assert_caught(said_, at, CAUGHT)


@pytest.mark.parametrize("at", range(len(LEFT_ALONE)))
def test_nothing_is_said_of_what_is_right(said_, at):
    assert_left_alone(said_, at + len(CAUGHT))


def test_answers_sorted_under_heads_are_read_by_their_numbers():
    page = "### 1 Write the words. {.writing}\n\n1. A big bird: ____\n2. A small bird: ____\n3. A tree: ____\n\n"
    table = "| birds | trees |\n|---|---|\n| 1 swan | 3 oak |\n| 2 wren | |\n"
    (exercise,) = read(page + key(table)).exercises
    assert [item.answer.text for item in exercise.items if item.answer] == ["swan", "wren", "oak"]
