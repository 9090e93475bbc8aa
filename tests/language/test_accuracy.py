"""What is found wrongly in sentences that people have labelled, exactly: the figures in DEVELOPERS.md come from these.

A line that is no longer wrong, or a new one, changes a figure: write the lists anew, read what has changed, and bring
the figures up to date.

    HORNBOOK_NEW_GOLDEN=1 python -m pytest -q tests/language/test_accuracy.py
"""

import os

import pytest

from lint_rules.language.grammar.structures import structures
from tests.language.course_english import FOLDER, HELD_BACK, NEW, TUNED_ON, Sentence, sentences
from tests.language.measure import Score, errors, find, scores

SETS = {path.stem: path for path in (TUNED_ON, HELD_BACK, *NEW)}


@pytest.fixture(scope="module")
def read() -> dict[str, tuple[list[Sentence], list[frozenset[str]]]]:
    items = {name: sentences(path) for name, path in SETS.items()}
    return {name: (some, find(some)) for name, some in items.items()}


@pytest.mark.parametrize("name", SETS)
def test_exactly_these_are_wrong(read, name: str) -> None:
    wrong = "\n".join(errors(*read[name])) + "\n"
    golden = FOLDER / "wrong" / f"{name}.txt"
    if os.environ.get("HORNBOOK_NEW_GOLDEN"):
        golden.write_text(wrong, encoding="utf-8", newline="\n")
    assert wrong == golden.read_text(encoding="utf-8")


@pytest.mark.parametrize("name", [one.name for one in structures() if one.sure])
def test_what_may_stop_a_commit_is_right_in_85_of_100(read, name: str) -> None:
    labels = [item.structures for items, _ in read.values() for item in items]
    found = [got for _, gots in read.values() for got in gots]
    score: Score = scores(labels, found)[name]
    assert score.found > 4
    assert score.precision >= 0.85
