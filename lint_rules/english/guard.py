"""Runs a program for as long as our own process lives: when that is gone, however it went, the program is ended.

Started as a process of its own (``python guard.py SECONDS WORD COMMAND …``) with a pipe as standard input. A process
that is killed cannot tidy up after itself, but the system closes its end of the pipe: the guard reads the end of the
file and ends the program. It says one line on standard output: ``started`` once the program has printed WORD, or
``failed`` and the program's last words. Uses the standard library alone.
"""

import contextlib
import os
import signal
import subprocess
import sys
import threading
from collections import deque
from types import FrameType


class _Herald:
    """Says the one line, and only one."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._said = False

    def say(self, line: str) -> None:
        with self._lock:
            if not self._said:
                self._said = True
                with contextlib.suppress(OSError):
                    print(line, flush=True)


def _listen(program: "subprocess.Popen[bytes]", word: bytes, herald: _Herald) -> None:
    assert program.stdout is not None
    last: deque[str] = deque(maxlen=8)
    for line in program.stdout:  # to the end: a program whose output nobody reads comes to a stop
        if word in line:
            herald.say("started")
        last.append(line.decode("utf-8", "replace").strip())
    herald.say("failed " + " / ".join(filter(None, last)))
    program.wait()
    os._exit(0)  # a program that came to an end needs no guard, and its end is seen by the guard's


def _leave(signum: int, frame: FrameType | None) -> None:
    raise SystemExit(0)


def main(arguments: list[str]) -> None:
    """Run the command of ``arguments`` until standard input ends."""
    seconds, word, *command = arguments
    herald = _Herald()
    for name in ("SIGTERM", "SIGHUP", "SIGINT", "SIGBREAK"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), _leave)
    program = subprocess.Popen(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    try:
        threading.Thread(target=_listen, args=(program, word.encode(), herald), daemon=True).start()
        timer = threading.Timer(float(seconds), herald.say, [f"failed it was not ready after {seconds} seconds"])
        timer.daemon = True
        timer.start()
        while sys.stdin.buffer.read(4096):
            pass
    finally:
        program.kill()
        program.wait()


if __name__ == "__main__":
    main(sys.argv[1:])
