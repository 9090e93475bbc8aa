"""Writing files whole or not at all, and never through a link."""

import errno
import os
import stat
import tempfile
from pathlib import Path


class NotWritten(OSError):
    """A place that nothing is written to: a link, a device, a folder."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(errno.EINVAL, why, str(path))


def check_place(path: Path, within: Path | None = None) -> None:
    """Say whether a file may be written: it is an ordinary file or not there yet, and no link leads elsewhere.

    Below ``within`` no folder on the way may be a link either. Raises NotWritten.
    """
    try:
        about = os.lstat(path)
    except FileNotFoundError:
        about = None
    if about is not None and stat.S_ISLNK(about.st_mode):
        raise NotWritten(path, "it is a link, and nothing is written through links")
    if about is not None and not stat.S_ISREG(about.st_mode):
        raise NotWritten(path, "it is no ordinary file")
    folder = Path(os.path.abspath(path)).parent
    if within is not None and folder.is_relative_to(within):
        below = folder.relative_to(within).parts
        if any(within.joinpath(*below[: n + 1]).is_symlink() for n in range(len(below))):
            raise NotWritten(path, "its folder is a link, and nothing is written through links")


def write_whole(path: Path, data: bytes, within: Path | None = None) -> None:
    """Replace a file in one step: a reader, or a run that is killed, sees the old file or the new one.

    The file's permissions are kept. Raises OSError, also where the file itself may not be written, or is a link.
    """
    check_place(path, within)
    if path.exists() and not os.access(path, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
    mode = path.stat().st_mode & 0o7777 if path.exists() else None
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:100]}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, mode if mode is not None else 0o666 & ~_umask())
        os.replace(name, path)  # a link that came in the meantime is replaced, not followed
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
