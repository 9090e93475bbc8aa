"""A store of values by key, in one SQLite file in the user's cache folder, that several runs may use at once.

The store may fail in any way (a full or read-only disk, a damaged file, another run that holds it): then it gives
nothing and takes nothing, and the run goes on without. Each value carries a digest over its key and itself, since
SQLite does not notice a flipped bit, nor a value that was put under another key; what does not fit its digest counts as
not there. Who can write to the store can still make a digest: so it is never taken from the tree that is being read,
and a release does without. What a run adds is written a few megabytes at
a time and at its end, each time whole or not at all.
"""

import hashlib
import os
import sqlite3
import time
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

SCHEMA = 3  # part of the file's name: another schema is another file
LARGEST = 256_000_000  # bytes; what was not used for longest goes first
_KEPT_OF_IT = 0.75  # how much of that stays when it has been reached
_WAITING = 8_000_000  # bytes that wait to be written together
_AT_ONCE = 500  # keys in one question: SQLite takes at most 999 in old versions
_DIGEST = 8
_DAY = 86_400  # seconds: when something was used is written down once a day
_PAGES = ("page_count", "freelist_count", "page_size")
_DAMAGED = frozenset({sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB})
_PATIENCE = 2.0  # seconds to wait for another run
_TABLE = (
    "CREATE TABLE IF NOT EXISTS kept (key BLOB PRIMARY KEY, value BLOB NOT NULL, used INTEGER NOT NULL) WITHOUT ROWID"
)


def cache_folder() -> Path | None:
    """The folder for what is kept: ``HORNBOOK_CACHE``, else the user's cache folder; None where nobody has a home."""
    named = os.environ.get("HORNBOOK_CACHE")
    if named:
        return Path(named)
    from platformdirs import user_cache_path

    folder = user_cache_path("hornbook", appauthor=False)
    return folder if folder.is_absolute() else None


def file_in(folder: Path) -> Path:
    """The file of the store in a folder."""
    return folder / f"kept-{SCHEMA}.sqlite"


def key_of(*parts: bytes | str) -> bytes:
    """A key for what depends on these parts alone, in this order."""
    digest = hashlib.blake2b(digest_size=20)
    for part in parts:
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        digest.update(len(data).to_bytes(8, "big"))
        digest.update(data)
    return digest.digest()


class KeyValueStore:
    """Values by key. ``get``, ``put`` and ``close`` never raise; what was put is there for sure after ``close``."""

    def __init__(self, folder: Path | None) -> None:
        """Open the store in a folder, or, for None, one that holds nothing and keeps nothing."""
        self.folder = folder
        self._waiting: dict[bytes, bytes] = {}
        self._size = 0  # bytes of what waits
        self._used: set[bytes] = set()
        self._now = int(time.time())
        self._file = None if folder is None else file_in(folder)
        self._base: sqlite3.Connection | None = None
        if self._file is not None:
            self._open(self._file)

    def get(self, keys: Iterable[bytes]) -> dict[bytes, bytes]:
        """The values that are there."""
        wanted = list(dict.fromkeys(keys))
        found = {key: self._waiting[key] for key in wanted if key in self._waiting}
        if self._base is None:
            return found
        try:
            for some in _some([key for key in wanted if key not in found]):
                marks = ",".join("?" * len(some))
                for key, value, used in self._base.execute(
                    f"SELECT key, value, used FROM kept WHERE key IN ({marks})",
                    some,
                ):
                    if value[:_DIGEST] == _digest(key, value[_DIGEST:]):
                        found[key] = value[_DIGEST:]
                        if abs(self._now - used) > _DAY:
                            self._used.add(key)
        except (sqlite3.Error, TypeError) as error:
            self._give_up(error)
        return found

    def put(self, values: Mapping[bytes, bytes]) -> None:
        """Keep values."""
        if self._base is None:
            return
        self._waiting.update(values)
        self._size += sum(map(len, values.values()))
        if self._size > _WAITING:
            self.write()

    def close(self) -> None:
        """Write what was put, and let go of the file."""
        self.write()
        self._give_up()

    def write(self) -> None:
        """Write what was put so far."""
        if self._base is None or not (self._waiting or self._used):
            return
        try:
            with self._base:
                rows = [(key, _digest(key, value) + value, self._now) for key, value in self._waiting.items()]
                self._base.executemany("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)", rows)
                used = [(self._now, key) for key in self._used]
                self._base.executemany("UPDATE kept SET used = ? WHERE key = ?", used)
                _tidy(self._base)
        except sqlite3.Error as error:
            self._give_up(error)
        self._waiting.clear()
        self._used.clear()
        self._size = 0

    def _open(self, file: Path) -> None:
        for _ in range(2):
            try:
                file.parent.mkdir(parents=True, exist_ok=True)
                self._base = _connected(file)
            except sqlite3.Error as error:
                self._give_up(error)  # locked, read-only, no room: not this time; damaged: once more
                if not _is_damage(error):
                    return
            except (OSError, ValueError):
                return
            else:
                return

    def _give_up(self, error: Exception | None = None) -> None:
        """Let go of the file; what is damaged is set aside, not removed: another run may still have it open."""
        if self._base is not None:
            with suppress(sqlite3.Error):
                self._base.close()
        self._base = None
        if error is not None and _is_damage(error) and self._file is not None:
            for suffix in ("", "-wal", "-shm"):
                with suppress(OSError):
                    os.replace(f"{self._file}{suffix}", f"{self._file}.damaged{suffix}")


@contextmanager
def open_store(folder: Path | None) -> Iterator[KeyValueStore]:
    """A store for the length of a run; what was put is written also when the run ends in an error."""
    one = KeyValueStore(folder)
    try:
        yield one
    finally:
        one.close()


def _connected(file: Path) -> sqlite3.Connection:
    # A language server reads in a thread of its own, one at a time.
    base = sqlite3.connect(file, timeout=_PATIENCE, check_same_thread=False)
    try:
        base.execute("PRAGMA journal_mode = WAL")
        # Nobody waits for the disk: what a power cut leaves half written does not fit its digest, or is set aside.
        base.execute("PRAGMA synchronous = OFF")
        base.execute(_TABLE)
        base.execute("SELECT key FROM kept LIMIT 1").fetchone()
    except BaseException:
        base.close()
        raise
    return base


def _is_damage(error: Exception) -> bool:
    """Say whether SQLite found the file to be no database, or a broken one."""
    code = getattr(error, "sqlite_errorcode", 0)
    return code & 0xFF in _DAMAGED


def _tidy(base: sqlite3.Connection) -> None:
    """When there is too much, drop what was not used for longest."""
    pages, free, size = (base.execute(f"PRAGMA {name}").fetchone()[0] for name in _PAGES)
    if (pages - free) * size <= LARGEST:
        return
    room = LARGEST * _KEPT_OF_IT
    for key, length in base.execute("SELECT key, LENGTH(value) FROM kept ORDER BY used DESC, key").fetchall():
        room -= length
        if room < 0:
            base.execute("DELETE FROM kept WHERE key = ?", (key,))


def _some(keys: list[bytes]) -> Iterator[list[bytes]]:
    for start in range(0, len(keys), _AT_ONCE):
        yield keys[start : start + _AT_ONCE]


def _digest(key: bytes, value: bytes) -> bytes:
    return hashlib.blake2b(key + value, digest_size=_DIGEST).digest()
