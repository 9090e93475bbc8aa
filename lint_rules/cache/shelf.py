"""A shelf of values by key, in one SQLite file in the user's cache folder, that several runs may use at once.

The shelf may fail in any way (a full or read-only disk, a damaged file, another run that holds it): then it gives
nothing and takes nothing, and the run goes on without. Each value carries a digest, since SQLite does not notice a
flipped bit inside one; what does not fit its digest counts as not there. What a run adds is written at its end, in one
transaction.
"""

import hashlib
import os
import sqlite3
import time
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

SCHEMA = 1  # part of the file's name: another schema is another file
LARGEST = 256_000_000  # bytes of values; what was not used for longest goes first
_AT_ONCE = 500  # keys in one question: SQLite takes at most 999 in old versions
_DIGEST = 8
_DAY = 86_400
_PATIENCE = 2.0  # seconds to wait for another run
_TABLES = """
CREATE TABLE IF NOT EXISTS kept (key BLOB PRIMARY KEY, value BLOB NOT NULL, day INTEGER NOT NULL) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS tidied (day INTEGER NOT NULL);
"""


def cache_folder() -> Path:
    """The folder for what is kept: ``HORNBOOK_CACHE``, else the user's cache folder for hornbook."""
    named = os.environ.get("HORNBOOK_CACHE")
    if named:
        return Path(named)
    from platformdirs import user_cache_path

    return user_cache_path("hornbook", appauthor=False)


def key_of(*parts: bytes | str) -> bytes:
    """A key for what depends on these parts alone, in this order."""
    digest = hashlib.blake2b(digest_size=20)
    for part in parts:
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        digest.update(len(data).to_bytes(8, "big"))
        digest.update(data)
    return digest.digest()


class Shelf:
    """Values by key. ``get`` and ``put`` never raise; ``put`` is written by ``close``."""

    def __init__(self, folder: Path | None) -> None:
        """Open the shelf in a folder, or, for None, one that holds nothing and keeps nothing."""
        self._waiting: dict[bytes, bytes] = {}
        self._used: set[bytes] = set()
        self._today = int(time.time()) // _DAY
        self._base = None if folder is None else self._open(folder)

    def get(self, keys: Iterable[bytes]) -> dict[bytes, bytes]:
        """The values that are there."""
        wanted = list(dict.fromkeys(keys))
        found = {key: self._waiting[key] for key in wanted if key in self._waiting}
        if self._base is None:
            return found
        try:
            for some in _some(wanted):
                marks = ",".join("?" * len(some))
                for key, value, day in self._base.execute(
                    f"SELECT key, value, day FROM kept WHERE key IN ({marks})",
                    some,
                ):
                    if value[:_DIGEST] == _digest(value[_DIGEST:]):
                        found[key] = value[_DIGEST:]
                        if day != self._today:
                            self._used.add(key)
        except (sqlite3.Error, TypeError):
            self._give_up()
        return found

    def put(self, values: Mapping[bytes, bytes]) -> None:
        """Keep values."""
        if self._base is not None:
            self._waiting.update(values)

    def close(self) -> None:
        """Write what was put, and let go of the file."""
        if self._base is None:
            return
        try:
            with self._base:
                rows = [(key, _digest(value) + value, self._today) for key, value in self._waiting.items()]
                self._base.executemany("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)", rows)
                used = [(self._today, key) for key in self._used]
                self._base.executemany("UPDATE kept SET day = ? WHERE key = ?", used)
                self._tidy(self._base)
        except sqlite3.Error:
            pass
        self._give_up()

    def _open(self, folder: Path) -> sqlite3.Connection | None:
        file = folder / f"kept-{SCHEMA}.sqlite"
        for _ in range(2):
            try:
                folder.mkdir(parents=True, exist_ok=True)
                return _connected(file)
            except sqlite3.OperationalError:
                return None  # locked, read-only, no room: not this time
            except sqlite3.DatabaseError:
                # Damaged. Set aside rather than removed: another run may still have it open.
                for suffix in ("", "-wal", "-shm"):
                    with suppress(OSError):
                        os.replace(f"{file}{suffix}", f"{file}.damaged{suffix}")
            except OSError:
                return None
        return None

    def _tidy(self, base: sqlite3.Connection) -> None:
        """Once a day, when there is too much, drop what was not used for longest."""
        if base.execute("SELECT 1 FROM tidied WHERE day = ?", (self._today,)).fetchone():
            return
        base.execute("DELETE FROM tidied")
        base.execute("INSERT INTO tidied VALUES (?)", (self._today,))
        sizes = base.execute("SELECT day, SUM(LENGTH(value)) FROM kept GROUP BY day ORDER BY day DESC").fetchall()
        total = 0
        for day, size in sizes:
            total += size
            if total > LARGEST and day != self._today:
                base.execute("DELETE FROM kept WHERE day <= ?", (day,))
                return

    def _give_up(self) -> None:
        if self._base is not None:
            with suppress(sqlite3.Error):
                self._base.close()
        self._base = None


@contextmanager
def shelf(folder: Path | None) -> Iterator[Shelf]:
    """A shelf for the length of a run; what was put is written also when the run ends in an error."""
    one = Shelf(folder)
    try:
        yield one
    finally:
        one.close()


def _connected(file: Path) -> sqlite3.Connection:
    base = sqlite3.connect(file, timeout=_PATIENCE)
    try:
        base.execute("PRAGMA journal_mode = WAL")
        base.execute("PRAGMA synchronous = NORMAL")
        base.executescript(_TABLES)
        base.execute("SELECT key FROM kept LIMIT 1").fetchone()
    except BaseException:
        base.close()
        raise
    return base


def _some(keys: list[bytes]) -> Iterator[list[bytes]]:
    for start in range(0, len(keys), _AT_ONCE):
        yield keys[start : start + _AT_ONCE]


def _digest(value: bytes) -> bytes:
    return hashlib.blake2b(value, digest_size=_DIGEST).digest()
