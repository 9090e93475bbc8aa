"""The time that reading an exercise takes grows with its length, not with the square of it: four times the lines take
about four times as long, never sixteen."""

import time

import pytest

from lint_rules.page.exercises.key_rows import numbered_letters
from lint_rules.page.exercises.reading import exercises_in
from lint_rules.page.exercises.stream import Line
from tests.exercises.test_layouts import unit_of

LINES = {
    "words that the key has": "I can see a goat, a cow or a hen today, said word{}.",
    "brackets": "He (is / are) here, and it (is / are) there.",
    "blanks": "I ____ see a goat, a cow or a hen today.",
    "nothing to do": "A goat stands here, and a cow is far away.",
}


def seconds(line: str, count: int) -> float:
    page = "\n".join(line.format(at) for at in range(count))
    key = "\n".join(f"word{at}" for at in range(count * 3 // 4))
    unit = unit_of(f"### 1 Read. Write. {{.writing}}\n\n{page}\n\n::: answers\n{key}\n:::\n")
    (activity,) = unit.activities
    took = []
    for _ in range(5):
        began = time.process_time()
        exercises_in(activity, unit)
        took.append(time.process_time() - began)
    return min(took)


@pytest.mark.parametrize("line", LINES.values(), ids=LINES.keys())
def test_a_page_four_times_as_long_takes_about_four_times_as_long(line):
    assert seconds(line, 400) < 12 * seconds(line, 100)


def test_a_row_of_pairs_with_a_remark_is_read_at_once():
    row = " ".join(f"{letter} {at}" for at, letter in enumerate("abcdefghijklmnopqrstuvwxyz", 1)) + " in any order"
    (passage,) = (one for one in unit_of(f"### 1 Match. {{.reading}}\n\n{row}\n").passages if one.text == row)
    began = time.process_time()
    assert list(numbered_letters([Line(passage, 0, len(row), first=True)])) == []
    assert time.process_time() - began < 1
