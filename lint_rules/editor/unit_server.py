"""The server's memory: one writer's editor, its open texts, and what was last found in each."""

import asyncio
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from urllib.parse import unquote

from lsprotocol import types
from pygls.lsp.server import LanguageServer

from lint_rules import __version__
from lint_rules.course.model import Course
from lint_rules.editor.checker import Checked, Checker, path_of
from lint_rules.editor.editor import Editor
from lint_rules.editor.open_courses import OpenCourses
from lint_rules.editor.positions import source_of
from lint_rules.editor.schedule import Schedule
from lint_rules.editor.wire_protocol import WireProtocol
from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.session import Tools

_EACH = 30.0  # seconds between two looks at the calendar


class UnitServer(LanguageServer):
    """One writer's editor: its open texts, and what was last found in each."""

    protocol: WireProtocol

    def __init__(self, kit: Tools, today: Callable[[], date]) -> None:
        # Full texts: the library splits lines otherwise than the protocol, which spoils partial changes.
        whole = types.TextDocumentSyncKind.Full
        super().__init__("hornbook", __version__, whole, protocol_cls=WireProtocol)
        self.kit = kit
        self.today = today
        self.editor = Editor()
        self.checker = Checker(kit, OpenCourses(kit.rules), today=today)
        self.left_out: dict[str, str] = {}  # why a document is not checked, as it was last said
        self.schedule = Schedule(self.check_now, kit.english is not None)
        self.checked: dict[str, Checked] = {}
        self.of_book: dict[Path, Sequence[types.Diagnostic]] = {}

    @property
    def encoding(self) -> str:
        """The units in which this editor counts columns."""
        return types.PositionEncodingKind(self.workspace.position_encoding or "utf-16").value

    def buffers(self) -> dict[Path, str]:
        """The open texts by file."""
        found = ((path_of(uri), document.source) for uri, document in self.workspace.text_documents.items())
        return {path: text for path, text in found if path is not None}

    async def check_now(self, uri: str, english: bool) -> None:
        """Check a document as it stands and show what is found, with the version that was read."""
        document = self.workspace.text_documents.get(uri)
        path = path_of(uri)
        if document is None:
            return
        if path is None:
            self.say_left_out(uri, "it is not saved in a course yet")
            return
        self.checker.encoding = self.encoding
        version, text, buffers = document.version, document.source, self.buffers()
        workers = self.schedule.english_workers if english else self.schedule.workers
        loop = asyncio.get_running_loop()
        checked = await loop.run_in_executor(workers, lambda: self.checker.check(path, text, buffers, english=english))
        now = self.workspace.text_documents.get(uri)
        if now is None or (english and now.version != version):
            return  # closed, or what is found does not fit the text any more
        self.checked[uri] = checked
        self.say_left_out(uri, checked.left_out)
        for file, diagnostics in {path: (), **checked.diagnostics}.items():
            every = [*diagnostics, *self.of_book.get(file, ())]
            if file == path:
                self.publish(file, every, version, uri)
            else:
                self.publish(file, every)

    def publish(
        self, file: Path, diagnostics: Sequence[types.Diagnostic], version: int | None = None, uri: str = ""
    ) -> None:
        """Show what was found in a file."""
        name = uri or next((u for u in self.workspace.text_documents if path_of(u) == file), file.as_uri())
        shown = self.editor.diagnostics(diagnostics)
        params = types.PublishDiagnosticsParams(name, shown, version if self.editor.versions else None)
        self.text_document_publish_diagnostics(params)

    def say_left_out(self, uri: str, why: str) -> None:
        """Say once, in the editor's log, why a document is not checked: silence would look like a clean page."""
        if self.left_out.get(uri, "") != why:
            self.left_out[uri] = why
            if why:
                said = types.LogMessageParams(types.MessageType.Info, f"{unquote(uri)} is not checked: {why}")
                self.window_log_message(said)

    def report_server_error(self, error: Exception, source: object) -> None:
        """A broken message is the log's, not a window before the author's page."""
        self.window_log_message(types.LogMessageParams(types.MessageType.Error, f"hornbook: {error}"))

    def check_all(self) -> None:
        """Check every open text again."""
        for uri in self.workspace.text_documents:
            self.schedule.soon(uri)

    async def watch_the_day(self) -> None:
        """Check every open text again when a new day begins: a comment may have been written until yesterday."""
        day = self.today()
        while True:
            await asyncio.sleep(_EACH if self.today is date.today else 0.1)
            if self.today() != day:
                day = self.today()
                self.check_all()

    async def check_book(self, uri: str) -> None:
        """Run the rules for the whole book, and show what they find with each unit's own findings."""
        checked, path = self.checked.get(uri), path_of(uri)
        if checked is None or checked.folder is None or path is None:
            return
        root, buffers = checked.folder.root, self.buffers()
        loop = asyncio.get_running_loop()
        found = await loop.run_in_executor(self.schedule.english_workers, lambda: self.checker.book(root, buffers))
        gone = [file for file in self.of_book if file.is_relative_to(root) and file not in found]
        self.of_book = {f: said for f, said in self.of_book.items() if not f.is_relative_to(root)} | dict(found)
        opened = {path_of(one): one for one in self.workspace.text_documents}
        for file in (*found, *gone):
            if file in opened:
                self.schedule.soon(opened[file])
            else:
                self.publish(file, self.of_book.get(file, ()))

    def unit(self, uri: str) -> Unit | None:
        """An open text as a unit; None for one that is not open."""
        if uri not in self.workspace.text_documents:
            return None
        path = path_of(uri)
        checked = self.checked.get(uri)
        inside = checked.source.path if checked is not None and checked.source is not None else (path or Path()).name
        return read_unit(source_of(inside, self.workspace.get_text_document(uri).source))

    def course(self, uri: str) -> Course | None:
        """The course that an open text was last checked in."""
        checked = self.checked.get(uri)
        return checked.folder.course if checked is not None and checked.folder is not None else None

    def current(self, uri: str) -> Checked | None:
        """What was last found in a text, if it is still that text."""
        checked = self.checked.get(uri)
        if checked is None or checked.source is None or uri not in self.workspace.text_documents:
            return None
        text = source_of("", self.workspace.get_text_document(uri).source).text
        return checked if text == checked.source.text else None
