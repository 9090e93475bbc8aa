"""The language server: what the command line finds, while the author writes.

Each change of a unit cancels the check that waits for it; a check runs on one worker thread of our own (the library
reads its input through its own pool) and is published only if the text has not changed meanwhile.
"""

import asyncio
import logging
import os
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from lsprotocol import types
from pygls.lsp.server import LanguageServer
from pygls.uris import to_fs_path

from lint_rules import __version__
from lint_rules.engine.gather import Point
from lint_rules.exit_status import CannotRun
from lint_rules.finding import Mend, Severity
from lint_rules.reports.report import Report
from lint_rules.session import Tools, proof_buffer
from lint_rules.source import BYTE_ORDER_MARK, EditorPosition, Source, Span

_WAIT = float(os.environ.get("HORNBOOK_SERVE_WAIT", "0.3"))  # seconds of rest before a text is checked
_SEVERITIES = {
    Severity.STOP: types.DiagnosticSeverity.Error,
    Severity.QUERY: types.DiagnosticSeverity.Warning,
    Severity.NOTE: types.DiagnosticSeverity.Information,
}


class UnitServer(LanguageServer):
    """One writer's editor: the texts that wait for a check, and what was last found in each."""

    def __init__(self, kit: Tools) -> None:
        # Full texts: the library splits lines otherwise than the protocol, which spoils partial changes.
        super().__init__("hornbook", __version__, text_document_sync_kind=types.TextDocumentSyncKind.Full)
        self.kit = kit
        self.worker = ThreadPoolExecutor(max_workers=1, thread_name_prefix="proof")
        self.waiting: dict[str, asyncio.Task[None]] = {}
        self.reports: dict[str, tuple[Report, Source]] = {}

    @property
    def encoding(self) -> str:
        """The units in which this editor counts columns."""
        return types.PositionEncodingKind(self.workspace.position_encoding or "utf-16").value

    def check_soon(self, uri: str) -> None:
        """Check a text once the author has paused."""
        self.forget(uri)
        self.waiting[uri] = asyncio.create_task(self._check(uri))

    def forget(self, uri: str) -> None:
        """Drop a check that waits."""
        task = self.waiting.pop(uri, None)
        if task is not None:
            task.cancel()

    async def _check(self, uri: str) -> None:
        await asyncio.sleep(_WAIT)
        document = self.workspace.get_text_document(uri)
        version, text, path = document.version, document.source, to_fs_path(uri)
        if path is None:
            return
        loop = asyncio.get_running_loop()
        diagnostics = await loop.run_in_executor(self.worker, self._diagnostics, uri, Path(path), text)
        if self.workspace.get_text_document(uri).version == version:
            self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, diagnostics, version))

    def _diagnostics(self, uri: str, path: Path, text: str) -> list[types.Diagnostic]:
        try:
            report = proof_buffer(path, text, self.kit)
        except CannotRun as error:
            return [_whole_file(line) for line in error.lines]
        except Exception as error:  # the author must not take silence for a clean page
            logging.getLogger(__name__).exception("a check broke")
            return [_whole_file(f"hornbook itself broke: {type(error).__name__}: {error}")]
        source = next(iter(report.sources.values()), Source(str(path), text.removeprefix(BYTE_ORDER_MARK)))
        self.reports[uri] = (report, source)
        encoding = self.encoding
        found = [_diagnostic(uri, point, source, encoding) for point in report.points]
        broken = [_whole_file(f"The check {note.rule} could not run: {note.why}") for note in report.broken]
        return found + broken


def _diagnostic(uri: str, point: Point, source: Source, encoding: str) -> types.Diagnostic:
    """A point at its first place; an editor lists its other places beneath it."""
    others = [
        types.DiagnosticRelatedInformation(
            types.Location(uri, _range(finding.span, source, encoding)), f"“{finding.text}”"
        )
        for finding in point.other_places
    ]
    return types.Diagnostic(
        range=_range(point.lead.span, source, encoding),
        message=point.message,
        severity=_SEVERITIES[point.severity],
        code=point.rule,
        source="hornbook",
        related_information=others or None,
    )


def _whole_file(message: str) -> types.Diagnostic:
    start = types.Position(0, 0)
    return types.Diagnostic(types.Range(start, start), message, types.DiagnosticSeverity.Error, source="hornbook")


def _range(span: Span, source: Source, encoding: str) -> types.Range:
    return types.Range(*(_position(source.editor_position(offset, encoding), source) for offset in span))


def _position(place: EditorPosition, source: Source) -> types.Position:
    """An editor that shows a byte order mark as a character counts it; the texts it sends then start with one."""
    return types.Position(place.line, place.character + (1 if source.bom and place.line == 0 else 0))


def _mend_action(
    uri: str, version: int | None, mend: Mend, source: Source, encoding: str, diagnostics: Sequence[types.Diagnostic]
) -> types.CodeAction:
    edits = [types.TextEdit(_range(edit.span, source, encoding), edit.text) for edit in mend.edits]
    document = types.OptionalVersionedTextDocumentIdentifier(uri, version)
    change = types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(document, list(edits))])
    return types.CodeAction(mend.title, kind=types.CodeActionKind.QuickFix, diagnostics=list(diagnostics), edit=change)


def build_server(kit: Tools) -> UnitServer:
    """The server with its features."""
    server = UnitServer(kit)

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: types.DidOpenTextDocumentParams) -> None:
        server.check_soon(params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: types.DidChangeTextDocumentParams) -> None:
        server.check_soon(params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    async def saved(params: types.DidSaveTextDocumentParams) -> None:
        for uri in server.workspace.text_documents:  # a saved course file or unit may change what others are held to
            server.check_soon(uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: types.DidCloseTextDocumentParams) -> None:
        uri = params.text_document.uri
        server.forget(uri)
        server.reports.pop(uri, None)
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))

    @server.feature(
        types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=[types.CodeActionKind.QuickFix])
    )
    def actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        uri = params.text_document.uri
        document = server.workspace.get_text_document(uri)
        report, source = server.reports.get(uri, (None, None))
        if report is None or source is None or source.text != document.source.removeprefix(BYTE_ORDER_MARK):
            return []  # the text has changed since: its places are not these any more
        encoding = server.encoding
        start, end = (
            source.editor_offset(EditorPosition(place.line, place.character), encoding)
            for place in (params.range.start, params.range.end)
        )
        return [
            _mend_action(uri, document.version, f.mend, source, encoding, [_diagnostic(uri, p, source, encoding)])
            for p in report.points
            for f in p.findings
            if f.mend is not None and f.span.start <= end and start <= f.span.end
        ]

    return server
