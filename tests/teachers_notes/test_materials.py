"""Which things steps use: 107 lines of steps as teachers' notes have them, labelled by hand."""

from pathlib import Path

import pytest

from lint_rules.language.service import Language, Request
from lint_rules.language.tokens import Mode
from lint_rules.safety.materials import is_listed, things, used_in

LINES = [
    tuple(line.rsplit(" |", 1))
    for line in (Path(__file__).parent / "materials.txt").read_text(encoding="utf-8").splitlines()
    if line.strip() and not line.startswith("#")
]


@pytest.mark.parametrize(("text", "wanted"), LINES)
def test_things_in_use_are_found_and_no_others(text: str, wanted: str, language: Language) -> None:
    analysis = language.analyse([Request(text, Mode.TEXT)])[0]
    found = {use.thing.name for use in used_in(text, analysis)}
    assert found == {name.strip() for name in wanted.split(",") if name.strip()}


def test_as_many_lines_need_no_listing_as_need_some() -> None:
    quiet = sum(not wanted.strip() for _, wanted in LINES)
    assert abs(quiet - len(LINES) / 2) < len(LINES) / 8


@pytest.mark.parametrize(
    ("thing", "materials"),
    [
        ("scissors", "paper, Scissors (round-ended)"),
        ("dice", "one die for each pair"),
        ("cards", "flashcards 1–12"),
        ("glue", "paper, sticky tape"),
        ("coloured pencils", "crayons or felt-tips"),
        ("worksheets", "a copy of page 80 for each child"),
    ],
)
def test_a_list_names_a_thing_in_other_words_too(thing: str, materials: str) -> None:
    row = next(row for row in things() if row.name == thing)
    assert is_listed(row, [materials])
    assert not is_listed(row, ["pencils, a map of the island"])
