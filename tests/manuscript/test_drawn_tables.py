"""Tables drawn with + and - and tables under dashes read as Pandoc reads them (Pandoc User's Guide, 'Tables')."""

import pytest

from lint_rules.manuscript.model import Role
from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source
from tests.manuscript.pandoc import MARKDOWN, pandoc_reads, we_read

FRONT = "---\nlevel: level-1\nunit: 1\ntitle: A\n---\n\n# A\n\n## Lesson 1: A {.words}\n\n### 1 Read. {.reading}\n\n"
WITH_TABLES = MARKDOWN.replace("-grid_tables-multiline_tables-simple_tables", "+grid_tables+simple_tables")

GRID = """\
+-----------------+----------+
| **Can you …?**  | Friend   |
|                 | number 1 |
+=================+==========+
| sing            |          |
+-----------------+----------+
| play a *tune*   | a ____   |
+-----------------+----------+
"""
BARE_GRID = "+-----+------+\n| hen | owl  |\n+-----+------+\n| red | grey |\n+-----+------+\n"
SIMPLE = """\
Can you …?       Friend 1   Friend 2
---------------  --------   --------
sing             ____       ____
play a *tune*
ride a **bike**             yes
"""


@pytest.mark.parametrize("table", [GRID, BARE_GRID, SIMPLE], ids=["grid", "grid without heads", "simple"])
def test_a_drawn_table_reads_as_pandoc_reads_it(table: str) -> None:
    text = f"{FRONT}Look.\n\n{table}\nThen write.\n"
    ours = [" ".join(shown.split()) for shown in we_read(text).texts]
    assert ours == [" ".join(shown.split()) for shown in pandoc_reads(text, WITH_TABLES).texts]


@pytest.mark.parametrize(
    ("table", "cells"),
    [
        (
            GRID,
            [
                (0, 0, "Can you …?"), (0, 1, "Friend number 1"), (1, 0, "sing"), (2, 0, "play a tune"),
                (2, 1, "a ____"),
            ],
        ),
        (BARE_GRID, [(1, 0, "hen"), (1, 1, "owl"), (2, 0, "red"), (2, 1, "grey")]),
        (
            SIMPLE,
            [
                (0, 0, "Can you …?"), (0, 1, "Friend 1"), (0, 2, "Friend 2"), (1, 0, "sing"), (1, 1, "____"),
                (1, 2, "____"), (2, 0, "play a tune"), (3, 0, "ride a bike"), (3, 2, "yes"),
            ],
        ),
    ],
)  # fmt: skip
def test_cells_stand_where_they_are_drawn(table: str, cells: list[tuple[int, int, str]]) -> None:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + table))
    read = [passage for passage in unit.passages if passage.cell is not None]
    assert [(one.cell.row, one.cell.column, " ".join(one.text.split())) for one in read if one.cell] == cells
    for passage in read:
        for word in passage.text.split():
            at = passage.text.index(word)
            assert unit.source.slice(passage.span(at, at + len(word))) == word
    assert not unit.problems


@pytest.mark.parametrize(
    "text",
    [
        "One line.\n\n---\n\nAnother line.\n",
        "A heading in two words\n--- ---\n\nText behind it.\n",
        "+-----+------+\n| hen | owl |\n+-----+------+\n",
        "We read -- and write -- a lot.\n",
    ],
)
def test_what_keeps_to_no_columns_is_no_table(text: str) -> None:
    unit = read_unit(Source("level-1/unit-01.md", FRONT + text))
    assert [passage for passage in unit.passages if passage.role is Role.CELL] == []


IN_A_DIV = "::: pattern\nPlans     Rules\n--------  ------\nI'm going  I must\n:::\n"
NO_FIRST_HEAD = (
    "         the lake way   the cave way\n-------  -------------  -------------\nlong?    9 miles        4 miles\n"
)


@pytest.mark.parametrize("table", [IN_A_DIV.replace("going  I", "go  I"), NO_FIRST_HEAD])
def test_a_table_ends_with_its_div_and_may_have_no_first_head(table: str) -> None:
    text = f"{FRONT}Look.\n\n{table}\nThen write.\n"
    ours = we_read(text)
    assert [" ".join(shown.split()) for shown in ours.texts] == [
        " ".join(shown.split()) for shown in pandoc_reads(text, WITH_TABLES).texts
    ]
    assert not read_unit(Source("level-1/unit-01.md", text)).problems
