"""Starts a LanguageTool server on this machine for the length of a run, and ends it however the run ends.

What the package ``language-tool-python`` is used for: to find the installation, to judge the Java, and to say how the
server is called. It is GPL-3.0 and comes only with the extra ``hornbook[english]``; this is the one module that imports
it. Starting and ending are our own: the package's server outlives a run that is killed, and one that cannot start is
tried 918 times (``guard.py`` says how it is done here). Nothing is ever downloaded.
"""

import socket
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Self

from lint_rules.english.client import EnglishClient, checks_digest
from lint_rules.language.service import EnglishMatch, EnglishUnavailable

RELEASE = "6.8"
STARTS_WITHIN = 60  # seconds; measured: 1.1 s on two processors
TRIES = 3  # another program may take the port between our asking for one and the server's taking it
_READY = "Server started"
_MEMORY = "-Xmx1g"  # measured: 730 MB resident after a book
_NO_DELAY = "-Dsun.net.httpserver.nodelay=true"
_FETCH = (
    'python -c "from language_tool_python.download_lt import LocalLanguageTool;'
    f" LocalLanguageTool.from_version_name('{RELEASE}').download()\""
)


class LocalEnglish:
    """An English checker (``service.English``) that starts its own server when the first text is to be checked."""

    def __init__(self) -> None:
        self._installation: Any = None
        self._guard: subprocess.Popen[str] | None = None
        self._client: EnglishClient | None = None
        self._failure: EnglishUnavailable | None = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.stop()

    @property
    def version(self) -> str:
        """Which server and which of its checks, read off the installation: the server need not run for it."""
        return f"LanguageTool {self._found().version_name} local {checks_digest()}"

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        """One tuple of matches a text, in order, offsets in code points. Raises EnglishUnavailable."""
        if self._guard is not None and self._guard.poll() is not None:
            self.stop()  # the server came to an end by itself
        if self._client is None:
            self._client = EnglishClient(self._start(), direct=True)
        return self._client.check(texts, variety)

    def stop(self) -> None:
        """End the server, if one was started."""
        guard, self._guard, self._client = self._guard, None, None
        if guard is not None:
            _end(guard)

    def _found(self) -> Any:
        if self._failure is not None:
            raise self._failure
        if self._installation is None:
            try:
                self._installation = find_installation()
            except EnglishUnavailable as error:
                self._failure = error
                raise
        return self._installation

    def _start(self) -> str:
        installation = self._found()
        said = ""
        for _ in range(TRIES):
            port = _free_port()
            java, *rest = installation.get_server_cmd(port)
            self._guard, said = _guarded([java, _MEMORY, _NO_DELAY, *rest])
            if self._guard is not None:
                return f"http://127.0.0.1:{port}"
            if "Address already in use" not in said:
                break
        self._failure = EnglishUnavailable(f"The English checker could not be started on this machine: {said}.")
        raise self._failure


def find_installation() -> Any:
    """The newest LanguageTool that the package finds on this machine. Raises EnglishUnavailable, saying the cure."""
    try:
        from language_tool_python import download_lt, utils
    except ImportError as error:
        raise EnglishUnavailable(
            "To start an English checker on this machine, hornbook needs its extra: pip install 'hornbook[english]'."
        ) from error
    try:
        download_lt.confirm_java_compatibility()
    except ModuleNotFoundError as error:
        raise EnglishUnavailable(
            "To start an English checker on this machine, Java 17 or newer is needed, and no Java was found."
        ) from error
    except (SystemError, SystemExit, OSError, subprocess.SubprocessError) as error:
        raise EnglishUnavailable(
            f"To start an English checker on this machine, Java 17 or newer is needed. {error}"
        ) from error
    newest = download_lt.LocalLanguageTool.get_latest_installed_version()
    try:
        if newest is not None:
            newest.get_jar_path()
            return newest
    except FileNotFoundError:
        pass
    raise EnglishUnavailable(
        f"There is no LanguageTool in {utils.get_language_tool_download_path()} (the environment variable LTP_PATH"
        f" names another folder). hornbook downloads nothing by itself; this fetches it, once (some 250 MB): {_FETCH}"
    )


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def _guarded(command: Sequence[str]) -> "tuple[subprocess.Popen[str] | None, str]":
    """Start a command under guard: the guard, or None and what the command said when it failed."""
    guard = subprocess.Popen(
        [sys.executable, "-I", str(Path(__file__).with_name("guard.py")), str(STARTS_WITHIN), _READY, *command],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        encoding="utf-8",
        errors="replace",
        # Ctrl-C is ours: the guard must still be there to end the server. The one is for POSIX, the other for Windows.
        start_new_session=True,
        creationflags=getattr(subprocess, "CREATE_NEW_PROCESS_GROUP", 0),
    )
    assert guard.stdout is not None
    verdict, _, said = guard.stdout.readline().strip().partition(" ")
    if verdict == "started":
        return guard, ""
    _end(guard)
    return None, said.rstrip(".") or "its guard came to an end"


def _end(guard: "subprocess.Popen[str]") -> None:
    assert guard.stdin is not None
    assert guard.stdout is not None
    guard.stdin.close()
    try:
        guard.wait(timeout=10)
    except subprocess.TimeoutExpired:
        guard.kill()
        guard.wait()
    guard.stdout.close()
