"""Digests of code and tables, by content: nothing that was kept under another version may pass for this one's answer.

Nobody has to remember to raise a number. The price is some milliseconds a run.
"""

import os
from collections.abc import Iterator
from functools import cache
from hashlib import blake2b
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

_READ = (".py", ".csv", ".txt", ".yaml", ".json", ".npz")
_PACKED = ".npz"  # a ZIP file: at its end stand a check sum and the size of each of its parts
_DIRECTORY = 65_536  # bytes of the end that are read; the names of some hundred parts take a tenth of it
_HERE = Path(__file__).parent
# Rooms that are left out: no finding of a unit depends on how it is shown. The language room has a digest of its own.
_OUTSIDE = frozenset({"commands", "reports", "language"})


@cache
def digest_of(folder: Path, skipped: frozenset[str] = frozenset()) -> str:
    """A digest of the modules and tables in a folder, without some of its subfolders."""
    digest = blake2b(digest_size=16)
    for path in _files(str(folder), skipped):
        with open(path, "rb") as file:
            if path.endswith(_PACKED):
                file.seek(-min(os.path.getsize(path), _DIRECTORY), os.SEEK_END)
            data = file.read()
        name = os.path.relpath(path, folder).replace(os.sep, "/").encode()
        digest.update(b"%d %b %d " % (len(name), name, len(data)))
        digest.update(data)
    return digest.hexdigest()


def code_version() -> str:
    """A digest of all of hornbook's own code and tables that a unit's findings depend on, but for the language room."""
    return digest_of(_HERE, _OUTSIDE)


def language_version() -> str:
    """A digest of the language room's modules and tables."""
    return digest_of(_HERE / "language")


@cache
def version_of(distribution: str) -> str:
    """The installed version of a distribution, or '?'."""
    try:
        return version(distribution)
    except PackageNotFoundError:
        return "?"


def versions_of(*distributions: str) -> str:
    """Names and versions of distributions, in one line."""
    return ", ".join(f"{name} {version_of(name)}" for name in distributions)


def _files(folder: str, skipped: frozenset[str]) -> Iterator[str]:
    with os.scandir(folder) as found:
        entries = sorted(found, key=lambda entry: entry.name)
    for entry in entries:
        if entry.is_dir():
            if entry.name not in skipped and entry.name != "__pycache__":
                yield from _files(entry.path, frozenset())
        elif entry.name.endswith(_READ):
            yield entry.path
