"""A client that speaks the protocol (LSP 3.17) byte by byte, and so can say what no library would send."""

import contextlib
import json
import queue
import subprocess
import threading
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from tests.warm import command

PATIENCE = 60.0
VERSIONS = {"textDocument": {"publishDiagnostics": {"versionSupport": True}}}
Message = dict[str, Any]


class Wire:
    """A server of its own (under the fixture `warm`) and what it has said so far. Requests of the server are answered
    with nothing."""

    def __init__(self, *words: str, env: Mapping[str, str] | None = None, code: str = "") -> None:
        call = command(code=code) if code else command("serve", *words)
        self.process = subprocess.Popen(
            call, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=env
        )
        self.said: list[Message] = []
        self.errors = b""
        self.answers: dict[str, Any] = {}  # what the server's requests are answered with, by method
        self._news: queue.Queue[Message | None] = queue.Queue()
        self._ids = 0
        for target in (self._read, self._read_errors):
            threading.Thread(target=target, daemon=True).start()

    def _read(self) -> None:
        assert self.process.stdout is not None
        stream = self.process.stdout
        while True:
            length = 0
            while (line := stream.readline()) not in (b"\r\n", b""):
                if line.lower().startswith(b"content-length:"):
                    length = int(line.split(b":")[1])
            if not line:
                self._news.put(None)
                return
            self._news.put(json.loads(stream.read(length)))

    def _read_errors(self) -> None:
        assert self.process.stderr is not None
        for line in self.process.stderr:
            self.errors += line

    def raw(self, data: bytes) -> None:
        """Bytes as they are."""
        assert self.process.stdin is not None
        self.process.stdin.write(data)
        self.process.stdin.flush()

    def send(self, message: Any) -> None:
        """Anything that JSON can hold."""
        body = json.dumps(message).encode()  # half characters as \\ud800, as editors write them
        self.raw(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))

    def tell(self, method: str, params: Any = None) -> None:
        """A notification."""
        self.send({"jsonrpc": "2.0", "method": method} | ({} if params is None else {"params": params}))

    def ask(self, method: str, params: Any = None) -> Message:
        """A request and its answer."""
        self._ids += 1
        number = self._ids
        self.send({"jsonrpc": "2.0", "id": number, "method": method} | ({} if params is None else {"params": params}))
        return self.wait(lambda m: m.get("id") == number and "method" not in m)

    def wait(self, wanted: Callable[[Message], bool], patience: float = PATIENCE) -> Message:
        """The first message from now on that is wanted."""
        end = time.monotonic() + patience
        while True:
            try:
                message = self._news.get(timeout=max(end - time.monotonic(), 0.001))
            except queue.Empty:
                raise AssertionError(f"never said; said were {self.said[-5:]}; {self.errors.decode()}") from None
            if message is None:
                raise AssertionError(f"the server is gone: {self.errors.decode()}")
            self.said.append(message)
            if "method" in message and "id" in message:
                self.send({"jsonrpc": "2.0", "id": message["id"], "result": self.answers.get(message["method"])})
            if wanted(message):
                return message

    def start(self, capabilities: Any = None, **more: Any) -> Message:
        """The handshake; gives what the server says it can do. Without ``capabilities`` the client takes versions."""
        declared = VERSIONS if capabilities is None else capabilities
        answer = self.ask("initialize", {"processId": None, "rootUri": None, "capabilities": declared} | more)
        self.tell("initialized", {})
        return answer["result"]

    def open(self, file: Path | str, text: str, version: int = 1, language: str = "markdown") -> str:
        """Open a document; a path or an address."""
        uri = file if isinstance(file, str) else file.as_uri()
        document = {"uri": uri, "languageId": language, "version": version, "text": text}
        self.tell("textDocument/didOpen", {"textDocument": document})
        return uri

    def type(self, uri: str, text: str, version: int) -> None:
        """The document's new text."""
        document = {"uri": uri, "version": version}
        self.tell("textDocument/didChange", {"textDocument": document, "contentChanges": [{"text": text}]})

    def found(self, uri: str, version: int | None = 1) -> list[Message]:
        """The next diagnostics of a document, of a version or later."""

        def wanted(message: Message) -> bool:
            if message.get("method") != "textDocument/publishDiagnostics" or message["params"]["uri"] != uri:
                return False
            return version is None or message["params"].get("version", 0) >= version

        return list(self.wait(wanted)["params"]["diagnostics"])

    def close(self) -> int:
        """Say goodbye in order; gives the exit status."""
        self.ask("shutdown")
        self.tell("exit")
        return self.end()

    def end(self) -> int:
        """The exit status, once it is over."""
        assert self.process.stdin is not None
        try:
            return self.process.wait(timeout=PATIENCE)
        finally:
            self.kill()

    def kill(self) -> None:
        """No process stays behind, whatever a test came to."""
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        for stream in (self.process.stdin, self.process.stdout, self.process.stderr):
            if stream is not None:
                with contextlib.suppress(OSError):
                    stream.close()
