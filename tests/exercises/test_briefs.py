"""Which pictures an activity is about: its own, the ones it looks back at, or none."""

import pytest

from lint_rules.page.briefs import briefs_of
from tests.exercises.test_layouts import unit_of

FROG = "### 1 Look and say. {.speaking}\n\n::: art\nDrawing: a frog.\n:::\n\n"
HEN = "### 2 Look and colour. {.speaking}\n\n::: art\nDrawing: a hen.\n:::\n\n"
LETTERED = FROG.replace("### 1", "### A.") + HEN.replace("### 2", "### B.")
DECIMAL = FROG.replace("### 1", "### 1.1") + HEN.replace("### 2", "### 1.2")
BARE = FROG.replace("### 1 ", "### ")


@pytest.mark.parametrize(
    ("page", "drawn"),
    [
        (FROG + HEN + "### 3 Look at the picture. Write. {.writing}\n\n1. ____\n", ["Drawing: a hen."]),
        (FROG + HEN + "### 3 Look again. Write. {.writing}\n\n1. ____\n", ["Drawing: a hen."]),
        (FROG + HEN + "### 3 Look at the picture in activity 1. {.writing}\n\n1. ____\n", ["Drawing: a frog."]),
        (FROG + HEN + "### 3 Look at the pictures in exercise 9. {.writing}\n\n1. ____\n", []),
        (FROG + HEN + "### 3 Read. Write. {.writing}\n\n1. ____\n", []),
        (FROG + "### 2 Say. {.speaking}\n\nHello.\n\n### 3 Look back. {.writing}\n\n1. ____\n", ["Drawing: a frog."]),
        ("### 1 Say. {.speaking}\n\nHello.\n\n### 2 Look at the picture. {.writing}\n\n1. ____\n", []),
        (FROG + "### 2 Look at the picture. {.writing}\n\n::: art\nDrawing: a pig.\n:::\n", ["Drawing: a pig."]),
        (FROG + "### 2 Look at the picture. {.writing}\n\n![a pig](pig.png)\n\n1. ____\n", ["a pig"]),
        (LETTERED + "### C. Look at the picture in Task A. {.writing}\n\nYes.\n", ["Drawing: a frog."]),
        (DECIMAL + "### 1.3 Look at the picture in activity 1.1. {.writing}\n\nYes.\n", ["Drawing: a frog."]),
        (
            FROG + HEN + "### 3 Look at the picture. {.writing}\n\n1. ____\n\n::: teacher\n"
            "**Steps:** (1) Use the picture in activity 1.\n:::\n",
            ["Drawing: a frog."],
        ),
        (
            FROG + HEN + "### 3 Look at the picture. {.writing}\n\n1. ____\n\n::: teacher\n"
            "**Steps:** As in activity 1.\n:::\n",
            ["Drawing: a hen."],
        ),
        (BARE + HEN + "### 3 Look at the picture in task 1. {.writing}\n\nYes.\n", ["Drawing: a frog."]),
    ],
)  # fmt: skip
def test_the_pictures_that_an_activity_is_about(page: str, drawn: list[str]) -> None:
    unit = unit_of(page)
    assert [one.text for one in briefs_of([*unit.activities][-1], unit)] == drawn


def test_a_picture_of_the_lesson_before_is_not_looked_back_at() -> None:
    unit = unit_of(FROG + "## Lesson 2 {.lesson}\n\n### 1 Look at the picture. {.writing}\n\n1. ____\n")
    assert len(unit.lessons) > 1
    assert briefs_of([*unit.activities][-1], unit) == []


def test_a_picture_that_comes_later_is_not_looked_back_at() -> None:
    unit = unit_of("### 1 Look at the picture. {.writing}\n\n1. ____\n\n" + HEN)
    assert briefs_of(next(iter(unit.activities)), unit) == []
