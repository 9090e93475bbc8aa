"""A stet covers one block: around a part that holds whole activities it covers nothing."""

import pytest

from lint_rules.manuscript.reading import read_unit
from lint_rules.source import Source

STET = "<!-- stet long-sentence: x -->"
HEAD = "---\nlevel: level-1\nunit: 1\ntitle: T\n---\n\n"


def only_stet(text: str):
    (stet,) = read_unit(Source("level-1/unit-01.md", HEAD + text)).stets
    return stet


@pytest.mark.parametrize(
    "text",
    [
        f"{STET}\n\n::: box\n# T\n\n## Lesson 1: L\n\n### 1 Look.\n\nText.\n:::\n",
        f"# T\n\n## Lesson 1: L\n\n{STET}\n\n::: {{.box}}\n### 1 Look.\n\nText.\n\n### 2 Read.\n\nText.\n:::\n",
        f"# T\n\n{STET}\n\n::: box\n::: box\n## Lesson 1: L\n\n### 1 Look.\n:::\n:::\n",
    ],
)
def test_around_activities_it_covers_nothing_and_says_so(text):
    stet = only_stet(text)
    assert stet.covers is None
    assert "one block" in stet.fault


@pytest.mark.parametrize(
    "text",
    [
        f"# T\n\n## Lesson 1: L\n\n{STET}\n\n### 1 Look.\n\nText.\n",
        f"# T\n\n{STET}\n\n## Lesson 1: L\n\n### 1 Look.\n\nText.\n",
        f"# T\n\n## Lesson 1: L\n\n### 1 Look.\n\n{STET}\n\n::: box\nOne.\n\n#### A small heading\n\n- two\n:::\n",
        f"# T\n\n## Lesson 1: L\n\n### 1 Look. {STET}\n\nText.\n",
    ],
)
def test_before_one_block_it_covers_that(text):
    stet = only_stet(text)
    assert stet.covers is not None
    assert stet.fault == ""
