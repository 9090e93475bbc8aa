"""The store by itself: it keeps, it forgets, and whatever is wrong with it, it only ever has less."""

import sqlite3
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from lint_rules.engine.cache import key_value_store as room
from lint_rules.engine.cache.key_value_store import SCHEMA, KeyValueStore, cache_folder, key_of, open_store

FILE = f"kept-{SCHEMA}.sqlite"


def keep(folder: Path, **values: bytes) -> None:
    with open_store(folder) as one:
        one.put({key_of(name): value for name, value in values.items()})


def look(folder: Path, *names: str) -> dict[str, bytes]:
    with open_store(folder) as one:
        found = one.get([key_of(name) for name in names])
        return {name: found[key_of(name)] for name in names if key_of(name) in found}


def test_what_is_put_is_there_the_next_time(tmp_path):
    keep(tmp_path, cat=b"miaow", dog=b"woof")
    assert look(tmp_path, "cat", "dog", "hen") == {"cat": b"miaow", "dog": b"woof"}


def test_what_is_put_is_there_at_once(tmp_path):
    with open_store(tmp_path) as one:
        one.put({key_of("cat"): b"miaow"})
        assert one.get([key_of("cat")]) == {key_of("cat"): b"miaow"}


def test_a_later_value_goes_before_an_earlier_one(tmp_path):
    keep(tmp_path, cat=b"miaow")
    keep(tmp_path, cat=b"purr")
    assert look(tmp_path, "cat") == {"cat": b"purr"}


def test_more_keys_than_one_question_can_hold(tmp_path):
    names = [f"word {number}" for number in range(2500)]
    with open_store(tmp_path) as one:
        one.put({key_of(name): name.encode() for name in names})
    assert look(tmp_path, *names) == {name: name.encode() for name in names}


def test_a_store_without_a_folder_keeps_nothing():
    with open_store(None) as one:
        one.put({key_of("cat"): b"miaow"})
        assert one.get([key_of("cat")]) == {}


def test_keys_tell_apart_what_is_cut_differently():
    assert len({key_of("ab", "c"), key_of("a", "bc"), key_of("abc"), key_of("abc", ""), key_of("", "abc")}) == 5
    assert key_of("a lone surrogate: \ud800")


def test_what_was_put_is_written_when_the_run_ends_in_an_error(tmp_path):
    def broken_run() -> None:
        with open_store(tmp_path) as one:
            one.put({key_of("cat"): b"miaow"})
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        broken_run()
    assert look(tmp_path, "cat") == {"cat": b"miaow"}


def test_a_long_run_writes_before_its_end(tmp_path, monkeypatch):
    monkeypatch.setattr(room, "_WAITING", 1000)
    first = KeyValueStore(tmp_path)
    first.put({key_of("cat"): bytes(2000)})
    assert look(tmp_path, "cat") == {"cat": bytes(2000)}
    first.close()


def test_a_thread_of_its_own_may_use_it(tmp_path):
    keep(tmp_path, cat=b"miaow")
    with open_store(tmp_path) as one, ThreadPoolExecutor(1) as thread:
        assert thread.submit(one.get, [key_of("cat")]).result() == {key_of("cat"): b"miaow"}
        thread.submit(one.put, {key_of("dog"): b"woof"}).result()
        thread.submit(one.write).result()
        assert look(tmp_path, "dog") == {"dog": b"woof"}


class TestDamage:
    def test_a_flipped_byte_inside_a_value_is_a_value_less(self, tmp_path):
        keep(tmp_path, cat=b"the cat sat on the mat", dog=b"woof")
        file = tmp_path / FILE
        data = file.read_bytes()
        at = data.index(b"the cat sat on the mat")
        file.write_bytes(data[: at + 4] + b"h" + data[at + 5 :])
        assert look(tmp_path, "cat", "dog") == {"dog": b"woof"}

    @pytest.mark.parametrize(
        "spoil",
        [
            lambda data: b"no database at all",
            lambda data: b"X" * 100 + data[100:],
            lambda data: data[: len(data) // 2],
            lambda data: data[:100],
            lambda data: data[:4096] + b"\xff" * (len(data) - 4096),
        ],
        ids=["another file", "bad header", "half", "header only", "bad pages"],
    )
    def test_a_damaged_file_is_set_aside_and_the_next_run_has_a_new_one(self, tmp_path, spoil):
        keep(tmp_path, **{f"word{number}": bytes(1000) for number in range(50)})
        file = tmp_path / FILE
        file.write_bytes(spoil(file.read_bytes()))
        names = [f"word{number}" for number in range(50)]
        for _ in range(2):  # some damage shows when the file is opened, some when it is read or written
            assert set(look(tmp_path, *names).values()) <= {bytes(1000)}
            keep(tmp_path, cat=b"miaow")
        assert look(tmp_path, "cat") == {"cat": b"miaow"}
        assert (tmp_path / f"{FILE}.damaged").exists()

    def test_an_empty_file_is_a_new_one(self, tmp_path):
        (tmp_path / FILE).touch()
        keep(tmp_path, cat=b"miaow")
        assert look(tmp_path, "cat") == {"cat": b"miaow"}

    def test_a_table_of_another_form_holds_nothing(self, tmp_path):
        base = sqlite3.connect(tmp_path / FILE)
        base.execute("CREATE TABLE kept (key TEXT, something REAL)")
        base.close()
        keep(tmp_path, cat=b"miaow")
        assert look(tmp_path, "cat") == {}

    def test_values_of_another_kind_are_not_there(self, tmp_path):
        keep(tmp_path, cat=b"miaow")
        base = sqlite3.connect(tmp_path / FILE)
        with base:
            base.execute("UPDATE kept SET value = 7")
        base.close()
        assert look(tmp_path, "cat") == {}


class TestNoRoom:
    def test_a_file_where_the_folder_should_be(self, tmp_path):
        (tmp_path / "cache").write_text("in the way")
        keep(tmp_path / "cache", cat=b"miaow")
        assert look(tmp_path / "cache" / "deeper", "cat") == {}
        assert (tmp_path / "cache").read_text() == "in the way"

    def test_a_folder_where_the_file_should_be(self, tmp_path):
        (tmp_path / FILE).mkdir()
        keep(tmp_path, cat=b"miaow")
        assert look(tmp_path, "cat") == {}

    def test_a_writer_that_holds_the_file(self, tmp_path, monkeypatch):
        monkeypatch.setattr(room, "_PATIENCE", 0.05)
        keep(tmp_path, cat=b"miaow")
        other = sqlite3.connect(tmp_path / FILE)
        other.execute("BEGIN IMMEDIATE")
        keep(tmp_path, dog=b"woof")
        assert look(tmp_path, "cat", "dog") in ({"cat": b"miaow"}, {})
        other.close()
        assert look(tmp_path, "cat") == {"cat": b"miaow"}


class TestSize:
    @pytest.fixture
    def clock(self, monkeypatch):
        """A clock that a test may set."""
        now = [1_800_000_000.0]
        monkeypatch.setattr(time, "time", lambda: now[0])
        return now

    def test_what_was_not_used_for_longest_goes_first(self, tmp_path, monkeypatch, clock):
        monkeypatch.setattr(room, "LARGEST", 100_000)
        keep(tmp_path, old=bytes(30_000), asked=bytes(30_000))
        clock[0] += 3 * 86_400
        assert look(tmp_path, "asked")
        clock[0] += 3 * 86_400
        keep(tmp_path, new=bytes(40_000))
        assert set(look(tmp_path, "old", "asked", "new")) == {"asked", "new"}

    def test_a_busy_day_is_bounded_too(self, tmp_path, monkeypatch, clock):
        monkeypatch.setattr(room, "LARGEST", 400_000)
        for number in range(100):
            clock[0] += 10
            keep(tmp_path, **{f"word{number}": bytes(20_000)})
        assert (tmp_path / FILE).stat().st_size < 800_000
        assert look(tmp_path, "word99")
        assert not look(tmp_path, "word1")

    def test_nothing_goes_while_there_is_room(self, tmp_path, clock):
        keep(tmp_path, old=b"x")
        clock[0] += 400 * 86_400
        keep(tmp_path, new=b"y")
        assert set(look(tmp_path, "old", "new")) == {"old", "new"}


class TestFolder:
    def test_the_user_names_it(self, monkeypatch, tmp_path):
        monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path / "mine"))
        assert cache_folder() == tmp_path / "mine"

    def test_else_it_is_the_users_cache_folder(self, monkeypatch, tmp_path):
        monkeypatch.delenv("HORNBOOK_CACHE", raising=False)
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
        monkeypatch.setattr("sys.platform", "linux")
        folder = cache_folder()
        assert folder is not None
        assert folder.is_absolute()
        assert "hornbook" in folder.parts

    def test_who_has_no_home_has_none(self, monkeypatch):
        monkeypatch.delenv("HORNBOOK_CACHE", raising=False)
        monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: Path("~/.cache/hornbook"))
        assert cache_folder() is None
