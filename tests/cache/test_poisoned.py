"""What is kept between runs must not speak for a book that somebody else has sent."""

import sqlite3
from pathlib import Path

import pytest

from lint_rules.engine.cache.key_value_store import SCHEMA, open_store
from tests.commands.conftest import hornbook  # noqa: F401 - a fixture
from tests.commands.world import make_course


def empty_every_answer(cache: Path) -> int:
    """Give every unit the outcome of a clean one, as somebody would who writes to the file."""
    base = sqlite3.connect(cache / f"kept-{SCHEMA}.sqlite")
    rows = base.execute("SELECT key, value FROM kept").fetchall()
    with base:
        for key, _ in rows:
            base.execute("UPDATE kept SET value = (SELECT value FROM kept LIMIT 1) WHERE key = ?", (key,))
    base.close()
    return len(rows)


def test_an_entry_under_another_key_counts_as_not_there(tmp_path):
    with open_store(tmp_path) as one:
        one.put({b"a": b"clean", b"b": b"faults"})
    assert empty_every_answer(tmp_path) == 2
    with open_store(tmp_path) as one:
        assert list(one.get([b"a", b"b"]).values()) == [b"clean"]


def test_a_cache_inside_the_book_is_refused(hornbook, tmp_path, monkeypatch):  # noqa: F811
    root = make_course(tmp_path / "book")
    monkeypatch.setenv("HORNBOOK_CACHE", str(root / ".cache"))
    said = hornbook("book", root)
    assert "inside what is read" in said.err
    assert not (root / ".cache").exists()


@pytest.mark.parametrize("place", ["cache", "books/.cache"])
def test_a_cache_inside_the_repository_is_refused(hornbook, tmp_path, monkeypatch, place):  # noqa: F811
    (tmp_path / ".git").mkdir()
    root = make_course(tmp_path / "books" / "kites")
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path / place))
    hornbook("proof", root / "level-1" / "unit-01.md")
    assert not (tmp_path / place).exists()


def test_a_cache_beside_the_book_is_used(hornbook, tmp_path, monkeypatch):  # noqa: F811
    root = make_course(tmp_path / "book")
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path / "cache"))
    said = hornbook("book", root)
    assert "inside" not in said.err
    assert (tmp_path / "cache" / f"kept-{SCHEMA}.sqlite").exists()


def test_a_release_neither_reads_nor_fills_a_cache(hornbook, tmp_path, monkeypatch):  # noqa: F811
    root = make_course(tmp_path / "book")
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path / "cache"))
    hornbook("release", root)
    assert not (tmp_path / "cache").exists()
