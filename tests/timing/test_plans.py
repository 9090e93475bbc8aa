"""The times of a lesson in a plan of its notes, and lengths told in prose (common practice, no source)."""

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.page.time_plans import plan_of, times_of, total_of
from lint_rules.page.times import Minutes
from lint_rules.source import Source

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n"


def lesson_of(notes: str, first: str = "", second: str = ""):
    activities = "".join(
        f"### {number} {what} {{.game}}\n\n" + (f"::: teacher\n{told}\n:::\n\n" if told else "")
        for number, what, told in ((1, "Fold a boat.", first), (2, "Race the boats.", second))
    )
    text = f"{FRONT}## Lesson 1: Boats {{.words}}\n\n::: teacher\n{notes}\n:::\n\n{activities}"
    return read_unit(Source("level-1/unit-01.md", text)).lessons[0]


def minutes(lesson) -> tuple[float | None, list[float | None]]:
    total = total_of(lesson)
    said = [one.minutes.low if one and one.minutes else None for one in times_of(lesson)]
    return (total.minutes.low if total and total.minutes else None), said


@pytest.mark.parametrize(
    "plan",
    [
        "| Activity | Minutes |\n|---|---|\n| 1 | 15 |\n| 2 | 20 |\n| Total | 40 |\n| Hello | 5 |",
        "| Our lesson | Time |\n|---|---|\n| Fold a boat. | 15 min |\n| Race the boats. | 20 min |\n| Hello | 5 min |\n"
        "| **Total** | **40 minutes** |",
        "| No. | What | Mins | Needs |\n|---|---|---|---|\n| | Hello | 5 | |\n| 1 | boats | 15 | paper |\n"
        "| 2 | race | 20 | a pond |\n| | In all | 40 | |",
    ],
)
def test_a_plan_tells_each_activity_and_what_is_beside_them(plan):
    lesson = lesson_of(plan)
    assert minutes(lesson) == (40, [15, 20])
    assert plan_of(lesson).beside == 5


def test_an_activity_that_says_its_time_itself_is_believed():
    lesson = lesson_of("| Activity | Minutes |\n|---|---|\n| 1 | 15 |\n| 2 | 20 |", "**Time:** 10 minutes")
    assert minutes(lesson) == (None, [10, 20])


@pytest.mark.parametrize(
    "told",
    [
        "15'. Fold together.",
        "**Notes (15 minutes)**\n\nFold together.",
        "NOTES – 15 MINUTES\n\nFold together.",
        "Allow fifteen minutes for this. Fold together.",
        "This activity takes fifteen minutes.",
        "#### Timing\n\n15 min",
        "Length\n:   Fifteen minutes",
    ],
)
def test_a_length_told_without_a_field_is_read(told):
    assert minutes(lesson_of("**Time:** 40 minutes", told))[1][0] == 15


@pytest.mark.parametrize(
    "told",
    [
        "They fold for 2 minutes and then look at the others' boats.",
        "After five minutes the first boat sinks. Then they fold a new one.",
        "**Steps:** Allow two minutes for each boat.",
        "Read the story of the 10 minute boat aloud.",
    ],
)
def test_minutes_within_what_is_done_are_no_length(told):
    assert minutes(lesson_of("**Time:** 40 minutes", told))[1][0] is None


def test_words_for_numbers_go_as_far_as_lessons_do():
    total = total_of(lesson_of("**Time:** thirty-seven minutes"))
    assert total is not None
    assert total.minutes == Minutes(37, 37)


@pytest.mark.parametrize(("told", "low", "high"), [("40", 40, 40), ("about 40", 40, 40), ("40–45", 40, 45)])
def test_a_field_that_is_named_in_minutes_needs_no_unit(told, low, high):
    total = total_of(lesson_of(f"**Minutes:** {told}"))
    assert total is not None
    assert total.minutes == Minutes(low, high)


def test_a_row_in_which_all_do_something_together_is_no_total():
    rows = "| Part | Minutes |\n|---|---|\n| 1 | 15 |\n| 2 | 20 |\n| Race all together | 5 |"
    assert minutes(lesson_of(rows)) == (None, [15, 20])
    assert minutes(lesson_of(rows + "\n| Together | 40 |"))[0] == 40


def test_a_plan_may_number_its_rows_otherwise_than_the_page():
    lesson = lesson_of(
        "| Step | Minutes |\n|---|---|\n| 1 Hello | 5 |\n| 2 Fold a boat | 15 |\n| 3 Race the boats | 20 |"
    )
    assert minutes(lesson) == (None, [15, 20])
    assert plan_of(lesson).beside == 5


@pytest.mark.parametrize(
    "notes", ["**Warm-up:** 5 minutes. Sing the hello song.", "Hello song (4 minutes).", "WARM-UP – 5 minutes"]
)
def test_the_time_of_a_part_is_not_the_lesson_s(notes):
    assert minutes(lesson_of(f"**Aim:** fold\n\n{notes}", "**Time:** 15 minutes", "**Time:** 20 minutes")) == (
        None,
        [15, 20],
    )


def test_a_line_to_cut_along_is_read_at_once():
    lesson = lesson_of("**Time:** 40 minutes", f"Cut here {'-' * 10_000} then fold.")
    assert minutes(lesson) == (40, [None, None])


def test_times_that_are_added_behind_a_total_stay_with_it():
    field = lesson_of("**Time:** 40 minutes. Hello song takes 4, tidy-up takes 3.").part.field("Time")
    assert field is not None
    assert [passage.text for passage in field.passages] == ["40 minutes. Hello song takes 4, tidy-up takes 3."]


def test_notes_of_the_last_activity_alone_are_its_own():
    own = "**Aim:** race\n\n**Time:** 15 minutes\n\n**Steps:** They race in pairs."
    lesson = lesson_of("", "", own)
    assert minutes(lesson) == (None, [None, 15])
    assert lesson.part.field("Aim") is None


def test_a_second_row_of_an_activity_adds_to_its_first():
    lesson = lesson_of(
        "| Activity | Minutes |\n|---|---|\n| 1 fold | 10 |\n| 1 colour | 5 |\n| 2 | 20 |\n| Total | 35 |"
    )
    assert minutes(lesson) == (35, [15, 20])


def test_a_plan_that_calls_the_activities_by_other_names_adds_nothing():
    rows = "| Hands | 1 Paper | 15 |\n| Legs | Game | 20 |\n| | Total | 40 |"
    plan = f"| Stage | Activity | Minutes |\n|---|---|---|\n{rows}"
    lesson = lesson_of(plan, "**Time:** 15 minutes", "**Time:** 20 minutes")
    assert plan_of(lesson).beside == 20
    unknown = lesson_of(plan.replace("1 Paper", "Paper"), "**Time:** 15 minutes", "**Time:** 20 minutes")
    assert plan_of(unknown).beside == 0
