"""Hornbook in a process of its own that begins with the language model in memory, for tests of what it does, not of how
it starts: a copy of one process that has loaded the model, once for all tests of a test process.

`COMMAND` stands for `python -m lint_rules`, and `[*COMMAND, CODE, code]` for `python -c code`, once the fixture `warm`
has started that process. It is a small program (`warm_client.py`) that hands its arguments, folder, environment and
streams to a copy, and ends as the copy ends; when it is killed, so is the copy. Where the system cannot do that,
hornbook is started as ever.
"""

import gc
import importlib
import json
import os
import select
import signal
import socket
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, NoReturn

CODE = "-c"
CAN = hasattr(os, "pidfd_open") and hasattr(socket, "recv_fds")
_ADDRESS = Path(tempfile.gettempdir()) / f"hornbook-warm-{os.getpid()}"
_CLIENT = Path(__file__).with_name("warm_client.py")
COMMAND = [sys.executable, "-I", "-S", str(_CLIENT), str(_ADDRESS)] if CAN else [sys.executable, "-m", "lint_rules"]
_MOST = 1_000_000  # bytes of a call


def command(*arguments: str, code: str = "") -> list[str]:
    """How to call hornbook, or a program that uses it."""
    if code and not CAN:
        return [sys.executable, CODE, code, *arguments]
    return [*COMMAND, *([CODE, code] if code else []), *arguments]


@contextmanager
def started() -> Iterator[None]:
    """Have the process that is copied, which ends with this one at the latest."""
    if not CAN:
        yield
        return
    code = f"from tests.warm import serve; serve({str(_ADDRESS)!r})"
    call = [sys.executable, "-c", code]
    with subprocess.Popen(call, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=_CLIENT.parents[1]) as first:
        assert first.stdin is not None
        assert first.stdout is not None
        assert first.stdout.readline() == b"ready\n"
        yield
        first.stdin.close()
    _ADDRESS.unlink()


def serve(address: str) -> None:
    """Load the model, then make a copy for every call, until standard input ends."""
    import lint_rules.session
    from lint_rules.language.pipeline import SpacyLanguage

    room = SpacyLanguage()
    room.load()
    lint_rules.session.language_room = lambda: room
    for name in ("book", "proof", "serve"):
        importlib.import_module(f"lint_rules.commands.{name}")
    gc.freeze()
    with socket.socket(socket.AF_UNIX, socket.SOCK_SEQPACKET) as listening:
        listening.bind(address)
        listening.listen()
        print("ready", flush=True)
        while listening in select.select([listening, sys.stdin], [], [])[0]:
            connection, _ = listening.accept()
            if os.fork() == 0:
                listening.close()
                _keep(connection)
            connection.close()
            with suppress(ChildProcessError):
                while os.waitpid(-1, os.WNOHANG) != (0, 0):
                    pass


def _keep(connection: socket.socket) -> None:
    """Make a copy, see to it that it does not outlive its caller, and tell that how it ended."""
    data, streams, _, _ = socket.recv_fds(connection, _MOST, 3)
    copy = os.fork()
    if copy == 0:
        connection.close()
        _be(json.loads(data), streams)
    for stream in streams:
        os.close(stream)
    watched = os.pidfd_open(copy)
    if watched not in select.select([watched, connection], [], [])[0]:
        os.kill(copy, signal.SIGKILL)
    status = os.waitstatus_to_exitcode(os.waitpid(copy, 0)[1])
    with suppress(OSError):
        connection.send(str(status).encode())
    os._exit(0)


def _be(call: dict[str, Any], streams: list[int]) -> NoReturn:
    """Be the program that was called. Its end goes up through all that stands above, as in any program."""
    from lint_rules.cli import main

    for number, stream in enumerate(streams):
        os.dup2(stream, number)
        os.close(stream)
    sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115 - for as long as we run
    sys.stdout = open(1, "w", encoding="utf-8", closefd=False)  # noqa: SIM115
    sys.stderr = open(2, "w", encoding="utf-8", errors="backslashreplace", buffering=1, closefd=False)  # noqa: SIM115
    os.chdir(call["folder"])
    os.environ.clear()
    os.environ.update(call["environment"])
    sys.argv = ["hornbook", *call["arguments"]]
    if sys.argv[1] == CODE:
        code = sys.argv[2]
        sys.argv[:3] = [CODE]
        exec(code, {"__name__": "__main__"})
        sys.exit()
    sys.exit(main())
