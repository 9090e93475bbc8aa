"""Writing files whole or not at all."""

import errno
import os
import tempfile
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Replace a file in one step: a reader, or a run that is killed, sees the old file or the new one.

    The file's permissions are kept; a symbolic link is written through. Raises OSError, also where the file itself may
    not be written.
    """
    path = path.resolve()
    if path.exists() and not os.access(path, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(path))
    mode = path.stat().st_mode & 0o7777 if path.exists() else None
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, mode if mode is not None else 0o666 & ~_umask())
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
