"""The real English server, and a stand-in for one that misbehaves."""

import os
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest

from lint_rules.english.connect import connect
from lint_rules.language.service import English

REQUIRED = os.environ.get("HORNBOOK_TEST_ENGLISH_REQUIRED") == "1"
Answer = Callable[[BaseHTTPRequestHandler], None]


def without(reason: str) -> None:
    """Skip for a contributor who has no server; fail where it must be there."""
    if REQUIRED:
        pytest.fail(reason)
    pytest.skip(reason)


@pytest.fixture(scope="session")
def real_address() -> str:
    address = os.environ.get("HORNBOOK_TEST_ENGLISH", "")
    if not address:
        without("needs a LanguageTool server: see tests/languagetool/server.py, then set HORNBOOK_TEST_ENGLISH")
    return address


@pytest.fixture(scope="session")
def real_english(real_address: str) -> Iterator[English]:
    with connect(real_address) as english:
        yield english


@pytest.fixture(scope="session")
def installation() -> Path:
    """A LanguageTool installation of the tests' own; never the one of the user."""
    folder = os.environ.get("LTP_PATH", "")
    if not folder or not any(Path(folder).glob("LanguageTool-*/languagetool-server.jar")):
        without("needs a LanguageTool installation: see tests/languagetool/server.py, then set LTP_PATH")
    return Path(folder)


@contextmanager
def stand_in(answer: Answer) -> Iterator[tuple[str, list[str]]]:
    """A server on this machine that answers every request as told: its address, and the bodies that it was sent."""
    bodies: list[str] = []

    class Handler(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            answer(self)

        def do_POST(self) -> None:
            bodies.append(self.rfile.read(int(self.headers["Content-Length"])).decode())
            answer(self)

        def log_message(self, *_: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}", bodies
    finally:
        server.shutdown()
        thread.join()
        server.server_close()
