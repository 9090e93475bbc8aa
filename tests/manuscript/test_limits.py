"""Files no author writes: huge ones are read in a time that grows as they do, deep ones do not exhaust Python."""

import time

import pytest

from lint_rules.engine.run import LARGEST_UNIT
from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

HEAD = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: B\n\n### 1 C\n\n"
ACTIVITY = """### {number} Listen and point to **the** kite. {{.listening audio=1.{number}}}

The wind is bl**ow**ing. Where is my [kite](x)?

- one
- two

::: teacher
**Time:** 10 minutes
**Steps:** Play the audio twice. Children point.
:::

<!-- stet long-sentence: it is a quotation -->

Mina says it is here.

"""


def seconds(text: str) -> tuple[float, Unit]:
    start = time.process_time()
    unit = read_unit(Source("unit.md", text))
    return time.process_time() - start, unit


def activities(count: int) -> str:
    return HEAD + "".join(ACTIVITY.format(number=number) for number in range(2, count + 2))


def test_the_time_grows_as_the_file_does() -> None:
    seconds(activities(50))
    small, _ = seconds(activities(150))
    large, unit = seconds(activities(1200))
    assert len(list(unit.activities)) == 1201
    assert large < 8 * small * 3  # eight times the text; three for a busy machine


def test_a_file_as_large_as_any_that_is_read_is_read() -> None:
    text = activities(LARGEST_UNIT // len(ACTIVITY))
    _, unit = seconds(text)
    assert unit.problems == ()
    assert len(unit.stets) == len(list(unit.activities)) - 1


MANY = 3000


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("> " * MANY + "a", id="quotes"),
        pytest.param("- " * MANY + "a", id="lists on a line"),
        pytest.param("\n".join("  " * depth + "- a" for depth in range(300)), id="nested lists"),
        pytest.param("::: a\n" * MANY + "text\n\n" + ":::\n" * MANY, id="divs"),
        pytest.param("::: a\n\n" * MANY, id="unclosed divs"),
        pytest.param(":::\n\n" * MANY, id="surplus fences"),
        pytest.param("[" * MANY + "]" * MANY, id="brackets"),
        pytest.param("[a](b" * MANY, id="links"),
        pytest.param("![" * MANY + "](x)" * MANY, id="pictures in pictures"),
        pytest.param("*a **b _c " * MANY, id="emphasis"),
        pytest.param("*" * MANY + "a" + "*" * MANY, id="stars"),
        pytest.param("`" + "``a" * MANY, id="backticks"),
        pytest.param("<!-- a\n\n" * MANY, id="unclosed comments"),
        pytest.param("<" * MANY + "&" * MANY, id="brackets of tags"),
        pytest.param("#### a " + "{.x " * MANY + "}", id="braces"),
        pytest.param("[a]{.x " * MANY, id="spans"),
        pytest.param("|" + "a|" * MANY + "\n|" + "-|" * MANY + "\n", id="a wide table"),
        pytest.param("a) b\n" * MANY, id="options"),
        pytest.param("::: teacher\n" + "**Aim:** b\n" * MANY + ":::\n", id="fields"),
    ],
)
def test_odd_files_are_read_in_a_moment(text: str) -> None:
    took, _ = seconds(HEAD + text + "\n")
    assert took < 10  # measured: under a second each; a quadratic reading of these takes minutes


@pytest.mark.parametrize("text", ["> " * 500 + "Too deep.", "- " * 500 + "Too deep."])
def test_what_is_too_deep_to_be_read_is_reported(text: str) -> None:
    _, unit = seconds(HEAD + text + "\n")
    (problem,) = unit.problems
    assert "deep" in problem.message


def test_what_is_deep_but_readable_is_read() -> None:
    _, unit = seconds(HEAD + "> " * 25 + "Deep.\n\n" + "- " * 12 + "Nested.\n")
    assert unit.problems == ()
    assert [passage.text for passage in unit.passages][-2:] == ["Deep.", "Nested."]
