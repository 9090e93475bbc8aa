"""Numbers of things in keys that are lists, against the script or the picture. Invented sentences."""

import pytest

from lint_rules.engine.registry import load_rules
from tests.exercises.pieces.places import key, said_of

(RULE,) = [module for module in load_rules() if module.rule.name == "key-against-text"]

FARMS = """### 1 Listen and write in the chart. {.listening .writing audio=1.1}

| Box for | Kilos | Books |
|---|---|---|
| Mill Farm | ____ | ____ |
| Hill Farm | ____ | ____ |

::: {.audio track=1.1}
MINA: The box for Mill Farm is three kilos. There are eight books in it.

PIM: And the box for Hill Farm is five kilos. It has twelve books.
:::

"""
TABLE = """### 1 Count and write. {.writing}

::: art
A table. On it there are six tomatoes, four carrots, five onions and three bananas.
:::

"""


@pytest.mark.parametrize(
    ("page", "answers", "wrong"),
    [
        (FARMS, "Mill Farm 3 kilos, 8 books; Hill Farm 5 kilos, 10 books", ["10"]),
        (FARMS, "Mill Farm 3 kilos, 8 books; Hill Farm 5 kilos, 12 books", []),
        (FARMS, "Mill Farm 3 kilos, 7 books; Hill Farm 5 kilos, 10 books", []),  # two: another key
        (TABLE, "tomatoes 6, carrots 4, onions 4, bananas 3", ["4"]),
        (TABLE, "tomatoes 6, carrots 4, onions 5, bananas 3", []),
        (TABLE, "tomatoes 6, carrots 4, plums 4, bananas 3", []),  # nothing is said of plums
        (TABLE, "There are six tomatoes and four carrots on it, four onions and three bananas.", ["four"]),
    ],
)
def test_the_one_number_that_is_not_there(page: str, answers: str, wrong: list[str]) -> None:
    assert [words for words, _ in said_of(RULE, page + key(answers))] == wrong
