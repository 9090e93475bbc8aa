"""What commands say on standard output: to a person through a console, to a program as UTF-8 in exact bytes."""

import os
import sys
from contextlib import suppress

from rich.console import Console


class _Console(Console):
    def on_broken_pipe(self) -> None:
        """The reader has seen enough (`hornbook book | head`): the run goes on, so that its exit status is true."""
        forget_output()


def console(*, soft_wrap: bool = True, markup: bool = False) -> Console:
    """A console for a person. Lines are not broken, and brackets are brackets, unless asked for otherwise."""
    return _Console(highlight=False, soft_wrap=soft_wrap, markup=markup)


def write_text(text: str) -> None:
    """Write for a program: UTF-8 with the line ends as they are, whatever the terminal's encoding."""
    buffer = getattr(sys.stdout, "buffer", None)
    try:
        sys.stdout.flush()
        if buffer is None:
            sys.stdout.write(text)
        else:
            buffer.write(text.encode("utf-8", "backslashreplace"))
            buffer.flush()
    except BrokenPipeError:
        forget_output()


def forget_output() -> None:
    """Send what is still to be said nowhere."""
    with suppress(OSError, ValueError):  # an output that is no file, or is closed
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
