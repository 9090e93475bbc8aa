"""How large each file may be that hornbook reads, in bytes, and the one way in which files are opened.

A file is looked at before it is read: a device, a pipe, a link that leaves the course, a file beyond its limit is
refused by kind, place and size, whatever its name says. The figures are common practice, no source: many times what the
largest course that we have seen needs. DEVELOPERS.md shows this table.
"""

import os
import stat
from pathlib import Path

LIMITS = {
    "course.yaml": 500_000,
    "word list": 5_000_000,  # some 100,000 rows
    "unit": 4_000_000,  # and 500,000 characters (engine/run.py)
    "carried.yaml": 1_000_000,  # some 10,000 findings; YAML is read slowly
    "house policy": 100_000,
    "earlier record": 50_000_000,
    "picture": 100_000_000,
}
HEAD = 2_000  # bytes of a file that are looked at to see whether it begins as a unit does


class Refused(Exception):
    """A file was not read; the message is the end of a sentence that begins with its name."""


class NotThere(Refused):
    """There is no such file."""


def kind_of(path: str) -> str:
    """Which of the limits holds for a path inside a course."""
    name = path.rpartition("/")[2]
    if path in ("course.yaml", "carried.yaml"):
        return path
    return {"csv": "word list", "md": "unit"}.get(name.rpartition(".")[2].lower(), "picture")


def read_bytes(file: Path, kind: str, within: Path | None = None, *, head: int | None = None) -> bytes:
    """The bytes of an ordinary file of a kind (or its first ``head``), which ``within`` must hold when it is given.

    Raises Refused, also when the file cannot be opened, or NotThere.
    """
    try:
        if within is not None and not file.resolve().is_relative_to(within.resolve()):
            raise Refused("is a link that leaves the course's folder; put the file itself there.")
        # Opening a pipe must not wait for a writer.
        handle = os.open(file, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as opened:
            about = os.fstat(handle)
            if stat.S_ISDIR(about.st_mode):
                raise Refused("is a folder; a file is wanted here.")
            if not stat.S_ISREG(about.st_mode):
                raise Refused("is not an ordinary file.")
            if head is not None:
                return opened.read(head)
            most = LIMITS[kind]
            data = opened.read(most + 1) if about.st_size <= most else None
            if data is None or len(data) > most:
                raise Refused(f"is larger than hornbook reads ({most:,} bytes for this kind of file: {kind}).")
            return data
    except FileNotFoundError:
        raise NotThere("is not there.") from None
    except IsADirectoryError:
        raise Refused("is a folder; a file is wanted here.") from None
    except PermissionError:
        raise Refused("may not be read: its permissions do not allow it.") from None
    except (OSError, RuntimeError, ValueError) as error:  # a loop of links; a name that the system does not allow
        why = (error.strerror if isinstance(error, OSError) else None) or str(error) or type(error).__name__
        raise Refused(f"cannot be read ({why}).") from error
