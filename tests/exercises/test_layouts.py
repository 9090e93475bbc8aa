"""How exercises in a hundred layouts are read: tests/golden/exercises.txt, one outline after the other.

The exercises were written by hand, those of tuned.jsonl without sight of the program, those of fourth.jsonl before
anybody saw what it made of them. When a layout is read better on purpose,
write the file anew and read what has changed in it:

    python -m tests.exercises.test_layouts > tests/golden/exercises.txt
"""

from pathlib import Path

import pytest

from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.page.exercises.model import Exercises, Place
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.reports.outline_page import outline_page
from lint_rules.source import Source
from tests.exercises.measure import exercises

GOLDEN = Path(__file__).parent.parent / "golden" / "exercises.txt"
READ = [*exercises("tuned"), *exercises("fourth")]
_FRONT = "---\nlevel: level-1\nunit: 1\ntitle: Look\n---\n\n# Look\n\n## Lesson 1: Look {.words}\n\n"


def unit_of(activity: str) -> Unit:
    return read_unit(Source("level-1/unit-01.md", _FRONT + activity))


def read(activity: str) -> Exercises:
    unit = unit_of(activity)
    (one,) = unit.activities
    return exercises_in(one, unit)


def outlines() -> str:
    pages = []
    for one in READ:
        lines = outline_page(unit_of(one.activity), as_json=False).splitlines()[3:]
        pages.append(f"{one.id} ({one.layout})\n" + "".join(f"{line}\n" for line in lines))
    return "\n".join(pages)


def test_every_layout_is_read_as_written_down():
    assert outlines().splitlines() == GOLDEN.read_text(encoding="utf-8").splitlines()


def places_of(read_: Exercises) -> list[Place]:
    found = [word for box in read_.boxes for word in box.words]
    for exercise in read_.exercises:
        found += [option.place for option in exercise.column]
        found += [answer.place for answer in (*exercise.key.answers, *exercise.key.order)]
        for item in exercise.items:
            found += [*item.prompt, *(gap.place for gap in item.gaps)]
            found += [option.place for choice in item.choices for option in choice.options]
    return found


@pytest.mark.parametrize("one", READ, ids=lambda one: one.id)
def test_what_is_read_stands_in_the_file_where_it_says(one):
    unit = unit_of(one.activity)
    (activity,) = unit.activities
    for place in places_of(exercises_in(activity, unit)):
        written = unit.source.slice(place.span).replace("&nbsp;", "")
        assert "![" in written or letters(written) == letters(place.text)


def letters(text: str) -> str:
    return "".join(char for char in text if char.isalnum())


ACTIVITY = "### 1 Look and read. {.reading}\n\n"


def texts(read_: Exercises) -> list[list[tuple[str, str]]]:
    return [
        [(item.label.text, item.answer.text.strip("()") if item.answer else "") for item in one.items]
        for one in read_.exercises
    ]


@pytest.mark.parametrize(
    "page",
    [
        "Mina has a cat. A dog has 2 ears. B is for ball.\n",
        "At 10. Then at 11. We go home.\n",
        "Read the story.\n\nIn 1990 there were 2 cats. 3 dogs came.\n",
        "Mina: Is it red / blue?\n",
        "The bus is at 9.15 or 10.20.\n",
    ],
)
def test_prose_stays_prose(page):
    assert not read(ACTIVITY + page).exercises


@pytest.mark.parametrize(
    "page",
    [
        "::: answers\n1 a 2 b\n:::\n",
        "1.\n2.\n\n::: answers\n:::\n",
        "1. a)\n\n::: answers\n1\n:::\n",
        "| 1 | ____\n|---\n| ( | )\n\n::: answers\n1 (\n:::\n",
        "(1) ____ (2) ____ (1) ____ (0) ____\n\n::: answers\n2 2 2 2 1 1\n:::\n",
        "___ _ _ __ ( ____ ( ____ ) / / | · ☐ ☐\n\n::: answers\n/ , ; – →\n:::\n",
        "1 a b c d\n2 / / /\n3 [|]\n\n::: answers\n1–9 a\n:::\n",
        "".join(f"{number}. {'a / ' * 500}b\n" for number in range(1, 30)),
        "1. Pick. " + " ".join(f"**{chr(97 + n % 26)}** word{n}" for n in range(500)) + "\n",
    ],
)
def test_bad_input_is_read_as_far_as_it_goes(page):
    outline_page(unit_of(ACTIVITY + page), as_json=False)
    outline_page(unit_of(ACTIVITY + page), as_json=True)


KEYS = {
    "a row": "1 b 2 a 3 c",
    "a row with commas": "1 b, 2 a, 3 c",
    "dashes": "1 b – 2 a – 3 c",
    "brackets": "1 (b)  2 (a)  3 (c)",
    "attached": "1b 2a 3c",
    "behind": "b 1, a 2, c 3",
    "lines": "1 b\n2 a\n3 c",
    "a list": "1. b\n2. a\n3. c",
    "bold": "**1** b **2** a **3** c",
    "a lead": "Answers: 1 b 2 a 3 c",
}


@pytest.mark.parametrize("key", KEYS.values(), ids=KEYS)
def test_a_key_may_be_written_in_many_ways(key):
    page = "1. one\n2. two\n3. three\n\na) red  b) blue  c) green\n\n"
    assert texts(read(f"{ACTIVITY}{page}::: answers\n{key}\n:::\n")) == [[("1", "b"), ("2", "a"), ("3", "c")]]


def test_figures_in_answers_are_no_labels():
    page = "1. How much is the tea? ____\n2. And the cake? ____\n3. And the bread? ____\n\n"
    key = "::: answers\n1 2 coins 2 4 coins 3 3 coins\n:::\n"
    assert texts(read(ACTIVITY + page + key)) == [[("1", "2 coins"), ("2", "4 coins"), ("3", "3 coins")]]


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("1 br_ _d  2 sch_ _l\n\n::: answers\n1 bread 2 school\n:::\n", ["br_ _d", "sch_ _l"]),
        ("(1) l_m_n (2) _r_ng_\n\n::: answers\n(1) lemon (2) orange\n:::\n", ["l_m_n", "_r_ng_"]),
        ("1 _pple  2 b_ll_\n\n::: answers\n1 apple 2 balls\n:::\n", ["_pple", "b_ll_"]),
    ],
)
def test_blanks_that_markdown_takes_for_emphasis_are_blanks(page, words):
    (exercise,) = read(ACTIVITY + page).exercises
    assert [gap.word.text for item in exercise.items for gap in item.gaps if gap.word] == words


def test_numbers_may_stand_behind_their_gaps():
    page = "1. I ____ (1) six. You ____ (2) seven.\n2. He ____ (3) late.\n\n::: answers\n1 am 2 are 3 is\n:::\n"
    assert texts(read(ACTIVITY + page)) == [[("1", "am"), ("2", "are"), ("3", "is")]]


def test_numbers_of_a_table_may_run_down_its_columns():
    page = "| ed | t |\n|---|---|\n| 1 ____ | 3 ____ |\n| 2 ____ | 4 ____ |\n\n"
    key = "::: answers\n1 waited 2 counted 3 jumped 4 looked\n:::\n"
    found = read(ACTIVITY + page + key)
    assert [[item.text for item in one.items] for one in found.exercises] == [["____"] * 4]
    assert texts(found) == [[("1", "waited"), ("2", "counted"), ("3", "jumped"), ("4", "looked")]]


def test_numbers_of_a_table_mostly_run_along_its_rows():
    page = "| ed | t |\n|---|---|\n| 1 ____ | 2 ____ |\n| 3 ____ | 4 ____ |\n\n"
    key = "::: answers\n1 waited 2 jumped 3 counted 4 looked\n:::\n"
    assert texts(read(ACTIVITY + page + key)) == [[("1", "waited"), ("2", "jumped"), ("3", "counted"), ("4", "looked")]]


def test_emphasis_by_underscores_stays_emphasis():
    (exercise,) = read(ACTIVITY + "1. The _big_ cat is ____.\n2. A _red_ hat is ____.\n").exercises
    assert [item.text for item in exercise.items] == ["The big cat is ____.", "A red hat is ____."]


def test_a_key_in_the_notes_is_a_key():
    page = "1. He ____ happy.\n2. They ____ sad.\n\n::: teacher\n**Answers:** 1 is 2 are\n:::\n"
    assert texts(read(ACTIVITY + page)) == [[("1", "is"), ("2", "are")]]


if __name__ == "__main__":
    print(outlines(), end="")
