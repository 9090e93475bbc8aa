"""The language server: what the command line finds, while the author writes, and what can be done about it."""

import asyncio
import gc
from collections.abc import Iterator, Sequence
from contextlib import suppress
from functools import partial
from pathlib import Path
from tempfile import gettempdir
from typing import Any

from lsprotocol import types
from pygls.exceptions import JsonRpcException
from pygls.lsp.server import LanguageServer

from lint_rules import __version__
from lint_rules.course.model import Course
from lint_rules.editor.actions import LET_STAND, SHOW_RULE, Asked, actions_for, stet_edit
from lint_rules.editor.checker import Checked, Checker, path_of
from lint_rules.editor.completion import completions
from lint_rules.editor.open_courses import OpenCourses
from lint_rules.editor.page_info import (
    entry_location,
    folds,
    kind_of_div,
    links,
    rule_hover,
    script_location,
    symbols,
    word_at,
    word_hover,
)
from lint_rules.editor.positions import offset_of, position_of, range_of, source_of
from lint_rules.editor.schedule import Schedule
from lint_rules.finding import Edit, Finding
from lint_rules.language.vocabulary.course_words import course_words
from lint_rules.manuscript.model import Unit
from lint_rules.manuscript.reading import read_unit
from lint_rules.session import Tools
from lint_rules.source import Source, Span

_REASON = "one two three four"  # any reason, to see whether a comment would let something stand
_WATCHED = ("**/course.yaml", "**/words/*.csv", "**/*.md", "**/carried.yaml")


class UnitServer(LanguageServer):
    """One writer's editor: its open texts, and what was last found in each."""

    def __init__(self, kit: Tools) -> None:
        # Full texts: the library splits lines otherwise than the protocol, which spoils partial changes.
        super().__init__("hornbook", __version__, text_document_sync_kind=types.TextDocumentSyncKind.Full)
        self.kit = kit
        self.checker = Checker(kit, OpenCourses(kit.rules))
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
        if document is None or path is None:
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
        self.text_document_publish_diagnostics(types.PublishDiagnosticsParams(name, list(diagnostics), version))

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

    def unit(self, uri: str) -> Unit:
        """An open text as a unit."""
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
        if checked is None or checked.source is None:
            return None
        text = source_of("", self.workspace.get_text_document(uri).source).text
        return checked if text == checked.source.text else None


def build_server(kit: Tools) -> UnitServer:
    """The server with its features."""
    server = UnitServer(kit)
    _follow_texts(server)
    _offer_actions(server)
    _show_pages(server)
    return server


def _follow_texts(server: UnitServer) -> None:
    @server.feature(types.INITIALIZED)
    async def initialized(_: types.InitializedParams) -> None:
        """Load the model before the first key, and ask to hear of changed files, where the editor can tell."""
        loop = asyncio.get_running_loop()
        loop.run_in_executor(server.schedule.workers, _warm_up, server)
        workspace = server.client_capabilities.workspace
        watching = workspace.did_change_watched_files if workspace else None
        if watching is not None and watching.dynamic_registration:
            watchers = [types.FileSystemWatcher(glob_pattern=pattern) for pattern in _WATCHED]
            options = types.DidChangeWatchedFilesRegistrationOptions(watchers)
            method = types.WORKSPACE_DID_CHANGE_WATCHED_FILES
            registration = types.Registration("hornbook-files", method, options)
            with suppress(JsonRpcException):  # files are looked at before every check besides
                await server.client_register_capability_async(types.RegistrationParams([registration]))

    @server.feature(types.TEXT_DOCUMENT_DID_OPEN)
    async def opened(params: types.DidOpenTextDocumentParams) -> None:
        server.schedule.soon(params.text_document.uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CHANGE)
    async def changed(params: types.DidChangeTextDocumentParams) -> None:
        uri = params.text_document.uri
        for other in server.workspace.text_documents:
            if _decides_for_others(uri) and other != uri:
                server.schedule.soon(other)
        server.schedule.soon(uri)

    @server.feature(types.TEXT_DOCUMENT_DID_SAVE)
    async def saved(params: types.DidSaveTextDocumentParams) -> None:
        for uri in server.workspace.text_documents:  # a saved course file or unit may change what others are held to
            server.schedule.soon(uri)
        await server.check_book(params.text_document.uri)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    async def files_changed(_: types.DidChangeWatchedFilesParams) -> None:
        for uri in server.workspace.text_documents:
            server.schedule.soon(uri)

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: types.DidCloseTextDocumentParams) -> None:
        uri = params.text_document.uri
        server.schedule.forget(uri)
        server.checked.pop(uri, None)
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))


def _warm_up(server: UnitServer) -> None:
    from lint_rules.language.service import LanguageUnavailable, Request
    from lint_rules.language.tokens import Mode

    try:
        server.kit.language.analyse([Request("The kite is red.", Mode.TEXT)])
    except LanguageUnavailable:
        return  # said with the first check
    gc.collect()
    gc.freeze()  # model and tables are there to stay: looking through them for garbage made every twentieth key slow


def _decides_for_others(uri: str) -> bool:
    return uri.endswith((".yaml", ".csv"))


def _offer_actions(server: UnitServer) -> None:
    kinds = [types.CodeActionKind.QuickFix, types.CodeActionKind.SourceFixAll]

    @server.feature(types.TEXT_DOCUMENT_CODE_ACTION, types.CodeActionOptions(code_action_kinds=kinds))
    def actions(params: types.CodeActionParams) -> list[types.CodeAction]:
        uri = params.text_document.uri
        checked = server.current(uri)
        if checked is None or checked.source is None:
            return []  # the text has changed since: its places are not these any more
        start, end = (
            offset_of(place, checked.source, server.encoding) for place in (params.range.start, params.range.end)
        )
        only = [str(getattr(kind, "value", kind)) for kind in params.context.only] if params.context.only else None
        version = server.workspace.get_text_document(uri).version
        found = list(actions_for(checked, Asked(uri, version, Span(start, end), only, server.encoding)))
        return [one for one in found if one.command is None or _can_show(server) or one.command.command == LET_STAND]

    @server.command(LET_STAND)
    async def let_stand(uri: str, rule: str, start: int, end: int) -> None:
        checked = server.current(uri)
        if checked is None or checked.report is None or checked.source is None:
            return
        place = Span(start, end)
        finding = next((f for f in checked.report.findings if f.rule == rule and f.span == place), None)
        if finding is not None:
            await _write_stet(server, uri, checked, finding)

    @server.command(SHOW_RULE)
    async def show_rule(rule: str) -> None:
        module = next((one for one in server.kit.rules if one.rule.name == rule), None)
        if module is None:
            return
        page = Path(gettempdir()) / f"hornbook-{rule}.md"
        page.write_text(f"# {rule}\n\n{module.page.strip()}\n", encoding="utf-8")
        params = types.ShowDocumentParams(page.as_uri(), take_focus=True)
        await server.window_show_document_async(params)


def _can_show(server: UnitServer) -> bool:
    window = server.client_capabilities.window
    return window is not None and window.show_document is not None and window.show_document.support


async def _write_stet(server: UnitServer, uri: str, checked: Checked, finding: Finding) -> None:
    """Write the comment where it works, which a check of the text with it shows, and put the cursor into its reason."""
    source, folder = checked.source, checked.folder
    assert source is not None
    assert folder is not None
    loop = asyncio.get_running_loop()
    for at_end in (True, False):
        edit, reason = stet_edit(source, finding, at_end=at_end)
        reasoned = edit.text[:reason] + _REASON + edit.text[reason:]
        tried = partial(server.checker.check, folder.root / source.path, _edited(source, edit, reasoned).text, {})
        other = await loop.run_in_executor(server.schedule.workers, partial(tried, english=False))
        if other.report is not None and not _still_there(finding, other.report.findings, edit, len(reasoned)):
            break
    change = types.TextEdit(range_of(edit.span, source, server.encoding), edit.text)
    document = types.OptionalVersionedTextDocumentIdentifier(uri, server.workspace.get_text_document(uri).version)
    edits = types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(document, [change])])
    await server.workspace_apply_edit_async(types.ApplyWorkspaceEditParams(edits, "let it stand"))
    if _can_show(server):
        place = position_of(edit.span.start + reason, _edited(source, edit, edit.text), server.encoding)
        await server.window_show_document_async(
            types.ShowDocumentParams(uri, take_focus=True, selection=types.Range(place, place))
        )


def _still_there(finding: Finding, findings: Sequence[Finding], edit: Edit, added: int) -> bool:
    start = finding.span.start + (added if edit.span.start <= finding.span.start else 0)
    return any(one.rule == finding.rule and one.span.start == start for one in findings)


def _edited(source: Source, edit: Edit, text: str) -> Source:
    whole = source.text[: edit.span.start] + text + source.text[edit.span.end :]
    return Source(source.path, whole, source.bom)


def _show_pages(server: UnitServer) -> None:
    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def outline(params: types.DocumentSymbolParams) -> list[types.DocumentSymbol]:
        return symbols(server.unit(params.text_document.uri), server.encoding)

    @server.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    def folding(params: types.FoldingRangeParams) -> list[types.FoldingRange]:
        return list(folds(server.unit(params.text_document.uri)))

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_LINK, types.DocumentLinkOptions())
    def linked(params: types.DocumentLinkParams) -> list[types.DocumentLink]:
        uri = params.text_document.uri
        return list(links(server.unit(uri), uri, server.encoding))

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def hover(params: types.HoverParams) -> types.Hover | None:
        lines, span = _hover(server, params.text_document.uri, params.position)
        if not lines:
            return None
        content = types.MarkupContent(types.MarkupKind.Markdown, "\n\n".join(lines))
        return types.Hover(content, span)

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def definition(params: types.DefinitionParams) -> types.Location | None:
        uri = params.text_document.uri
        unit = server.unit(uri)
        offset = offset_of(params.position, unit.source, server.encoding)
        checked, course = server.checked.get(uri), server.course(uri)
        script = script_location(unit, uri, offset, server.encoding)
        if script is not None or course is None or checked is None or checked.folder is None:
            return script
        found = word_at(unit, offset, course, course_words(course), server.kit.language)
        entry = (found[0].entry or found[0].elsewhere) if found else None
        return entry_location(entry, checked.folder.root) if entry is not None else None

    @server.feature(
        types.TEXT_DOCUMENT_COMPLETION, types.CompletionOptions(trigger_characters=[".", ":", "*", " ", "["])
    )
    def complete(params: types.CompletionParams) -> types.CompletionList:
        uri = params.text_document.uri
        unit = server.unit(uri)
        offset = offset_of(params.position, unit.source, server.encoding)
        found = completions(unit.source, offset, server.course(uri), kind_of_div(unit, offset))
        return types.CompletionList(is_incomplete=False, items=list(found))


def _hover(server: UnitServer, uri: str, place: types.Position) -> tuple[list[str], types.Range | None]:
    """What is to be said at a place: the rules that found something there, and the word."""
    unit = server.unit(uri)
    offset = offset_of(place, unit.source, server.encoding)
    lines: list[str] = []
    span: types.Range | None = None
    checked, course = server.current(uri), server.course(uri)
    for finding in _at(checked, offset):
        module = next((one for one in server.kit.rules if one.rule.name == finding.rule), None)
        if module is not None:
            lines.append(rule_hover(module))
            span = range_of(finding.span, unit.source, server.encoding)
    found = word_at(unit, offset, course, course_words(course), server.kit.language) if course is not None else None
    if found is not None and course is not None:
        word, where, structures = found
        lines.append(word_hover(word, course))
        if structures:
            lines.append(f"here: {structures}")
        span = span or range_of(where, unit.source, server.encoding)
    return lines, span


def _at(checked: Checked | None, offset: int) -> Iterator[Finding]:
    if checked is not None and checked.report is not None:
        first: dict[str, Any] = {}
        for finding in checked.report.findings:
            if finding.span.start <= offset <= finding.span.end:
                first.setdefault(finding.rule, finding)
        yield from first.values()
