"""Activities numbered 1.2, by lesson and place or by unit and place, and keys that stand under such numbers."""

import pytest

from lint_rules.manuscript.model import Unit
from lint_rules.page.activity_numbers import numbers_of
from lint_rules.page.exercises.reading import exercises_in
from tests.exercises.test_layouts import unit_of

FIRST = "### {} Circle. {{.reading}}\n\n1. It is a bag / boat.\n2. It is a hen / cow.\n\n"
SECOND = "### {} Write. {{.writing}}\n\n1. one: ____\n2. two: ____\n\n"


def answers_of(unit: Unit) -> list[list[str]]:
    read = [exercises_in(activity, unit).exercises for activity in unit.activities]
    items = [[item for exercise in exercises for item in exercise.items] for exercises in read]
    return [[item.answer.text if item.answer is not None else "" for item in several] for several in items]


@pytest.mark.parametrize(
    "key",
    [
        "::: answers\n**2.1** 1 boat, 2 cow\n\n**2.2** 1 owl, 2 pig\n:::\n",
        "::: answers\n**2.1** 1 boat, 2 cow\\\n**2.2** 1 owl, 2 pig\n:::\n",
        "::: answers\n**2.1**\n\n1. boat\n2. cow\n\n**2.2**\n\n1. owl\n2. pig\n:::\n",
        "::: answers\n2.1 1 boat, 2 cow\n\n2.2 1 owl, 2 pig\n:::\n",
        "::: answers\nActivity 2.1: 1 boat, 2 cow\n\nActivity 2.2: 1 owl, 2 pig\n:::\n",
        "::: answers\n- **2.1** 1 boat, 2 cow\n- **2.2** 1 owl, 2 pig\n:::\n",
        "::: answers\n| Activity | Key |\n|---|---|\n| 2.1 | 1 boat, 2 cow |\n| 2.2 | 1 owl, 2 pig |\n:::\n",
    ],
)
def test_a_share_under_the_whole_number_is_that_activity_s(key: str) -> None:
    unit = unit_of(FIRST.format("2.1") + SECOND.format("2.2") + key)
    assert answers_of(unit) == [["boat", "cow"], ["owl", "pig"]]


def test_one_key_may_serve_all_lessons_of_a_unit() -> None:
    key = "::: answers\n**1.1** 1 boat, 2 cow\n\n**2.1** 1 owl, 2 pig\n:::\n"
    unit = unit_of(FIRST.format("1.1") + "## Lesson 2 {.lesson}\n\n" + SECOND.format("2.1") + key)
    assert answers_of(unit) == [["boat", "cow"], ["owl", "pig"]]


def test_an_activity_that_only_holds_the_key_of_others_has_none_of_its_own() -> None:
    key = "::: answers\n**2.1** 1 boat, 2 cow\n\n**2.2** 1 owl, 2 pig\n:::\n"
    unit = unit_of(FIRST.format("2.1") + SECOND.format("2.2") + "### 2.3 Play. {.game}\n\n1. one ____\n\n" + key)
    assert answers_of(unit)[2] == [""]


def test_a_key_without_a_number_belongs_to_its_own_activity() -> None:
    first = FIRST.format("2.1") + "::: answers\n**2.1** 1 boat, 2 cow\n:::\n\n"
    second = SECOND.format("2.2") + "::: answers\n1 owl, 2 pig\n:::\n\n"
    third = FIRST.format("2.3") + "::: answers\n**2.3** 1 bag, 2 hen\n:::\n\n::: answers\nAny order will do.\n:::\n"
    assert answers_of(unit_of(first + second + third)) == [["boat", "cow"], ["owl", "pig"], ["bag", "hen"]]


@pytest.mark.parametrize(
    ("first", "second", "key"),
    [
        ("1", "2", "::: answers\n**1** 1 boat, 2 cow\n\n**2** 1 owl, 2 pig\n:::\n"),  # whole numbers, as before
        ("2.1", "2.2", "::: answers\n1 2.50, 2 3.20\n:::\n"),  # prices are no activities
    ],
)
def test_other_numbers_are_read_as_before(first: str, second: str, key: str) -> None:
    unit = unit_of(FIRST.format(first) + SECOND.format(second) + key)
    found = answers_of(unit)
    assert found == ([["boat", "cow"], ["owl", "pig"]] if first == "1" else [["", ""], ["2.50", "3.20"]])


@pytest.mark.parametrize(
    ("heading", "number", "figure", "text"),
    [
        ("1.2 Listen.", "1.2", "2", "Listen."),
        ("Activity 2.14: Listen.", "Activity 2.14:", "14", "Listen."),
        ("3a Listen.", "3a", "3a", "Listen."),
        ("Listen to track 1.2.", "", "", "Listen to track 1.2."),
        ("2.5kg of flour", "", "", "2.5kg of flour"),
    ],
)
def test_the_number_of_an_activity(heading: str, number: str, figure: str, text: str) -> None:
    # Two headings make a habit: a number of two parts alone is a time, an amount.
    *_, activity = unit_of(
        f"### 1.1 Look.\n\nYes.\n\n### 1.9 Say.\n\nYes.\n\n### {heading} {{.reading}}\n\nYes.\n"
    ).activities
    assert (activity.heading.number, activity.heading.figure, activity.heading.passage.text) == (number, figure, text)


def test_a_lesson_s_activities_are_known_by_their_place_in_it() -> None:
    unit = unit_of(FIRST.format("3.1") + SECOND.format("3.2"))
    assert numbers_of(unit.lessons[0]) == {1, 2}


@pytest.mark.parametrize("heading", ["7.30 Getting up", "2.5 kilos of apples"])
def test_a_time_or_an_amount_that_opens_one_heading_is_no_number(heading: str) -> None:
    first, _ = unit_of(f"### {heading} {{.reading}}\n\nYes.\n\n### Look and say.\n\nYes.\n").activities
    assert (first.heading.number, first.heading.passage.text) == ("", heading)
