"""Every key's default by CEFR band, each with where its figure is from. The figures stand in data/defaults.csv."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from lint_rules.course.model import Limits

LEVEL_BANDS = ("Pre-A1", "A1", "A2", "B1")  # the bands that a level of a course for children can have


@dataclass(frozen=True, slots=True)
class Default:
    """A row of the table: a key as written in course.yaml (``instruction.words``), its value by band, and its basis."""

    key: str
    values: dict[str, str]
    basis: str


@cache
def defaults() -> dict[str, Default]:
    """The table of defaults by key, in the table's order."""
    text = files("lint_rules.course").joinpath("data/defaults.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {row["key"]: Default(row["key"], {band: row[band] for band in LEVEL_BANDS}, row["basis"]) for row in rows}


def default_text(key: str, band: str) -> str:
    """A default as the table has it, e.g. '35-45'."""
    return defaults()[key].values[band]


def default_number(key: str, band: str) -> int:
    """A default that is a number; 0 where the table has none."""
    return int(default_text(key, band) or 0)


def default_range(key: str, band: str) -> tuple[int, int]:
    """A default that is a range, e.g. (35, 45) minutes."""
    low, high = default_text(key, band).split("-")
    return int(low), int(high)


def default_list(key: str, band: str) -> tuple[str, ...]:
    """A default that is a list."""
    return tuple(default_text(key, band).split("|")) if default_text(key, band) else ()


def default_limits(band: str) -> Limits:
    """The limits of a level of that band for which course.yaml sets none."""
    return Limits(
        lesson_minutes=default_range("lesson_minutes", band),
        instruction_words=default_number("instruction.words", band),
        instruction_steps=default_number("instruction.steps", band),
        sentence_words=default_number("sentence.words", band),
        text_words=default_number("text.words", band),
        recycle=default_number("recycle", band),
    )
