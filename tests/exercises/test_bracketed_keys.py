"""Answers that stand in square brackets behind their items, and hints, which stand there too."""

from time import perf_counter

import pytest

from lint_rules.page.exercises.completed import completed, is_option
from lint_rules.page.exercises.reading import exercises_in
from tests.exercises.test_layouts import ACTIVITY, unit_of

BE = "1. There ____ a library.{}\n2. There ____ two cafés.{}\n3. There ____ a cinema.{}\n4. There ____ six trees.{}\n"
WHERE = "1. It is behind / between the pots.{}\n2. It is in front of / behind the box.{}\n3. It is next to / in it.{}\n"
TRUE = "1. Odo has a boat.{}\n2. It is red.{}\n3. It is old.{}\n"


def read(instruction: str, page: str, answers: list[str]) -> list[tuple[str, str]]:
    unit = unit_of(
        ACTIVITY.replace("### 1", f"### 1 {instruction}", 1).split("\n", 1)[0] + "\n\n" + page.format(*answers)
    )
    (activity,) = unit.activities
    return [
        (item.text.strip(), item.answer.text if item.answer is not None else "")
        for exercise in exercises_in(activity, unit).exercises
        for item in exercise.items
    ]


@pytest.mark.parametrize(
    ("instruction", "page", "answers"),
    [
        ("Write is, are or isn't.", BE, ["is", "are", "isn't", "are"]),
        ("Circle.", WHERE, ["between", "in front of", "next to"]),
        ("Yes or no?", TRUE, ["yes", "no", "no"]),
        ("True or false?", TRUE, ["T", "F", "T"]),
        ("Complete.", "::: words\nlibrary, café\n:::\n\n1. A {}\n2. Two {}\n3. Some {}\n", ["library", "café", "café"]),
    ],
)
def test_what_children_choose_is_the_answer_and_no_part_of_the_item(
    instruction: str, page: str, answers: list[str]
) -> None:
    found = read(instruction, page, [f" [{one}]" for one in answers])
    assert [answer for _, answer in found] == answers
    assert not any("[" in text for text, _ in found)


@pytest.mark.parametrize(
    ("instruction", "page", "behind"),
    [
        ("Write the verbs.", BE, [" [be]", " [be]", " [not be]", " [be]"]),
        ("Write is, are or isn't.", BE, [" [is]", "", "", ""]),
        ("Write the numbers and listen.", BE, [" [be]", " [be]", " [be]", " [be]"]),
        ("Yes or no?", TRUE, [" [page 12]", " [page 13]", " [page 14]"]),
    ],
)
def test_hints_and_remarks_are_no_answers(instruction: str, page: str, behind: list[str]) -> None:
    assert not any(answer for _, answer in read(instruction, page, behind))


DAYS = (
    "1. What day was it? a. Friday b. Saturday [{}]\n2. Where was she? a. home b. school [{}]\n"
    "3. Who? a. Odo b. Ilo [{}]\n"
)


def test_the_letter_of_an_option_is_the_answer_and_no_part_of_the_last_option() -> None:
    unit = unit_of("### 1 Listen and choose. {.listening}\n\n" + DAYS.format("b", "a", "b"))
    (activity,) = unit.activities
    (exercise,) = exercises_in(activity, unit).exercises
    chosen = [option.text for item in exercise.items for option in completed(item, exercise).chosen if option]
    assert chosen == ["Saturday", "home", "Ilo"]
    assert [option.text for option in exercise.items[0].choices[0].options] == ["Friday", "Saturday"]


def test_a_mark_behind_options_is_no_answer() -> None:
    unit = unit_of("### 1 Listen and choose. {.listening}\n\n" + DAYS.format("1", "1", "1"))
    (activity,) = unit.activities
    assert not any(item.answer for one in exercises_in(activity, unit).exercises for item in one.items)


@pytest.mark.parametrize(
    ("behind", "answers"), [("213", ["2", "1", "3"]), ("123", ["", "", ""]), ("113", ["", "", ""])]
)
def test_the_order_of_sentences_may_stand_behind_them(behind: str, answers: list[str]) -> None:
    page = "a) Then he tied it.\nb) First he found a rope.\nc) At last he slept.\n"
    lines = [f"{line} [{number}]" for line, number in zip(page.splitlines(), behind, strict=True)]
    assert [answer for _, answer in read("Put the day in order.", "\n".join(lines), [])] == answers


SHOP = "### {} {}\n\n1. the mango: ____ coins{}\n2. the lime: ____ coins{}\n3. the melon: ____ coins{}\n"
TOLD = "1. Where is it? ____{}\n2. What is it? ____{}\n3. Who is it? ____{}\n"


@pytest.mark.parametrize(
    ("task", "behind", "answers"),
    [
        ("Write the number.", ["4", "2", "8"], ["4", "2", "8"]),
        ("Write the number.", ["1", "1", "1"], ["", "", ""]),  # a mark each
        ("Write. The words in brackets help.", ["4", "2", "8"], ["", "", ""]),
        ("Write the verbs in the past.", ["go", "see", "eat"], ["", "", ""]),
    ],
)
def test_in_a_unit_that_answers_behind_its_items_every_blank_has_its_answer_there(task, behind, answers) -> None:
    first = "### 1 Write is, are or isn't. {.writing}\n\n" + BE.format(" [is]", " [are]", " [isn't]", " [are]")
    page = first + "\n" + SHOP.format(2, task, *(f" [{one}]" for one in behind))
    unit = unit_of(page)
    activity = list(unit.activities)[1]
    items = [item for exercise in exercises_in(activity, unit).exercises for item in exercise.items]
    assert [item.answer.text if item.answer is not None else "" for item in items] == answers
    alone = unit_of(SHOP.format(1, task, *(f" [{one}]" for one in behind)))
    (activity,) = alone.activities
    assert not any(item.answer for exercise in exercises_in(activity, alone).exercises for item in exercise.items)


def test_an_answer_straight_behind_its_blank_is_no_hint() -> None:
    found = read("True or false?", TRUE, [" ____ [T]", " ____ [F]", " ____ [T]"])
    assert [answer for _, answer in found] == ["T", "F", "T"]


def test_the_last_box_to_tick_may_go_on_with_the_sentence() -> None:
    page = "a) The box is ☐ red ☐ blue.\nb) The market is ☐ next to ☐ behind ☐ opposite the library.\n"
    unit = unit_of("### 1 Tick. {.reading}\n\n" + page + "\n::: answers\na blue (1) · b opposite (4)\n:::\n")
    (activity,) = unit.activities
    (exercise,) = exercises_in(activity, unit).exercises
    chosen = [completed(item, exercise).chosen[0] for item in exercise.items]
    assert [option.text for option in chosen if option is not None] == ["blue", "opposite the library"]
    assert all(is_option(item) for item in exercise.items)


def test_an_option_that_only_begins_with_an_answer_is_another_one() -> None:
    page = "a) The box **are / is not** red.\nb) Odo **are / is not** here.\n"
    unit = unit_of("### 1 Circle. {.reading}\n\n" + page + "\n::: answers\na is · b is\n:::\n")
    (activity,) = unit.activities
    (exercise,) = exercises_in(activity, unit).exercises
    chosen = [option for item in exercise.items for option in completed(item, exercise).chosen]
    assert not any(chosen)


def test_a_long_row_of_words_is_read_at_once() -> None:
    row = " · ".join("abcdefghijklmnopqrstuvwxyz" * 20)
    unit = unit_of(f"### 1 Say it. {{.sounds}}\n\n{row} (one is extra).\n\n1. one\n2. two\n3. three\n")
    began = perf_counter()
    for activity in unit.activities:
        exercises_in(activity, unit)
    assert perf_counter() - began < 5


@pytest.mark.parametrize(("behind", "answers"), [("two, in a tub, a snail", True), ("2, 2, 2", False)])
def test_what_stands_behind_questions_is_their_answer_in_such_a_unit(behind: str, answers: bool) -> None:
    first = "### 1 Write is, are or isn't. {.writing}\n\n" + BE.format(" [is]", " [are]", " [isn't]", " [are]")
    asked = (
        "### {} Look and answer. {{.speaking}}\n\n1. How many hens? [{}]\n2. Where is it? [{}]\n3. What is it? [{}]\n"
    )
    said = behind.split(", ")
    unit = unit_of(first + "\n" + asked.format(2, *said))
    activity = list(unit.activities)[1]
    items = [item for exercise in exercises_in(activity, unit).exercises for item in exercise.items]
    assert [item.answer.text if item.answer is not None else "" for item in items] == (said if answers else [""] * 3)
    alone = unit_of(asked.format(1, *said))
    (activity,) = alone.activities
    assert not any(item.answer for exercise in exercises_in(activity, alone).exercises for item in exercise.items)
