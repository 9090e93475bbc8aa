"""The language server: what the command line finds, while the author writes, and what can be done about it."""

import asyncio
import gc
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import date
from functools import partial
from pathlib import Path
from tempfile import gettempdir
from typing import Any

from lsprotocol import types
from pygls.exceptions import JsonRpcException

from lint_rules.editor.actions import LET_STAND, SHOW_RULE, Asked, actions_for
from lint_rules.editor.checker import Checked, path_of
from lint_rules.editor.completion import completions
from lint_rules.editor.editor import Editor
from lint_rules.editor.let_stand import CANNOT, edited, working_stet
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
from lint_rules.editor.positions import offset_of, position_of, range_of
from lint_rules.editor.unit_server import UnitServer
from lint_rules.finding import Finding
from lint_rules.language.vocabulary.course_words import course_words
from lint_rules.session import Tools
from lint_rules.source import Span

_WATCHED = ("**/course.yaml", "**/*.csv", "**/*.md", "**/carried.yaml")
_GONE = "The page has changed since this was found. Wait a moment, and ask again."


def build_server(kit: Tools, today: Callable[[], date] = date.today) -> UnitServer:
    """The server with its features; ``today`` says which day it is."""
    server = UnitServer(kit, today)
    _follow_texts(server)
    _offer_actions(server)
    _show_pages(server)
    return server


def _follow_texts(server: UnitServer) -> None:
    @server.feature(types.INITIALIZE)
    def initialize(params: types.InitializeParams) -> None:
        server.editor = Editor.of(params.capabilities)

    @server.feature(types.INITIALIZED)
    async def initialized(_: types.InitializedParams) -> None:
        """Load the model before the first key, and ask to hear of changed files, where the editor can tell."""
        warm = asyncio.create_task(_warm_up(server))
        if server.editor.watches_files:
            watchers = [types.FileSystemWatcher(glob_pattern=pattern) for pattern in _WATCHED]
            options = types.DidChangeWatchedFilesRegistrationOptions(watchers)
            method = types.WORKSPACE_DID_CHANGE_WATCHED_FILES
            registration = types.Registration("hornbook-files", method, options)
            with suppress(JsonRpcException):  # files are looked at before every check besides
                await server.client_register_capability_async(types.RegistrationParams([registration]))
        with suppress(asyncio.CancelledError):  # the editor has gone
            await warm
            await server.watch_the_day()

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
        server.check_all()  # a saved course file or unit may change what others are held to
        await server.check_book(params.text_document.uri)

    @server.feature(types.WORKSPACE_DID_CHANGE_WATCHED_FILES)
    async def files_changed(_: types.DidChangeWatchedFilesParams) -> None:
        server.check_all()

    @server.feature(types.TEXT_DOCUMENT_DID_CLOSE)
    async def closed(params: types.DidCloseTextDocumentParams) -> None:
        uri = params.text_document.uri
        server.schedule.forget(uri)
        server.checked.pop(uri, None)
        server.left_out.pop(uri, None)
        server.text_document_publish_diagnostics(types.PublishDiagnosticsParams(uri, []))
        server.check_all()  # what was typed there and not saved counts no more


async def _warm_up(server: UnitServer) -> None:
    """Load the model, and say so where an editor shows what goes on."""
    token, progress = "hornbook-warm-up", server.work_done_progress
    shown = server.editor.shows_progress
    if shown:
        try:
            await server.work_done_progress.create_async(token)
        except JsonRpcException:
            shown = False
    if shown:
        progress.begin(token, types.WorkDoneProgressBegin("hornbook", message="getting ready to read"))
    loop = asyncio.get_running_loop()
    await loop.run_in_executor(server.schedule.workers, _load_model, server)
    if shown:
        progress.end(token, types.WorkDoneProgressEnd(message="ready"))


def _load_model(server: UnitServer) -> None:
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
    def actions(params: types.CodeActionParams) -> list[types.CodeAction | types.Command]:
        uri = params.text_document.uri
        checked = server.current(uri)
        if checked is None or checked.source is None:
            return []  # the text has changed since: its places are not these any more
        start, end = (
            offset_of(place, checked.source, server.encoding) for place in (params.range.start, params.range.end)
        )
        only = [str(getattr(kind, "value", kind)) for kind in params.context.only] if params.context.only else None
        version = server.workspace.get_text_document(uri).version
        found = actions_for(checked, Asked(uri, version, Span(start, end), only, server.encoding))
        return list(server.editor.taken_actions(found))

    @server.command(LET_STAND)
    async def let_stand(uri: str, rule: str, start: int, end: int) -> None:
        await _let_stand(server, uri, rule, Span(start, end))

    @server.command(SHOW_RULE)
    async def show_rule(rule: str) -> None:
        module = next((one for one in server.kit.rules if one.rule.name == rule), None)
        if module is None:
            return
        page = Path(gettempdir()) / f"hornbook-{rule}.md"
        page.write_text(f"# {rule}\n\n{module.page.strip()}\n", encoding="utf-8")
        params = types.ShowDocumentParams(page.as_uri(), take_focus=True)
        await server.window_show_document_async(params)


async def _let_stand(server: UnitServer, uri: str, rule: str, place: Span) -> None:
    """Write the comment where it works, which a check of the text with it shows, and put the cursor into its reason."""
    checked, path = server.current(uri), path_of(uri)
    found = checked.report.findings if checked is not None and checked.report is not None else ()
    finding = next((one for one in found if one.rule == rule and one.span == place), None)
    if checked is None or checked.source is None or path is None or finding is None:
        server.window_show_message(types.ShowMessageParams(types.MessageType.Info, _GONE))
        return
    source, version, loop = checked.source, server.workspace.get_text_document(uri).version, asyncio.get_running_loop()

    async def check(text: str) -> Checked:
        tried = partial(server.checker.check, path, text, server.buffers(), english=False)
        return await loop.run_in_executor(server.schedule.workers, tried)

    stet = await working_stet(source, finding, check)
    if stet is None:
        server.window_show_message(types.ShowMessageParams(types.MessageType.Info, CANNOT))
        return
    edit, reason = stet
    change = types.TextEdit(range_of(edit.span, source, server.encoding), edit.text)
    document = types.OptionalVersionedTextDocumentIdentifier(uri, version)
    edits = server.editor.edit(types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(document, [change])]))
    if server.current(uri) is None:  # an edit without a version would land in a text that it was not made for
        server.window_show_message(types.ShowMessageParams(types.MessageType.Info, _GONE))
        return
    done = await server.workspace_apply_edit_async(types.ApplyWorkspaceEditParams(edits, "let it stand"))
    if done.applied and server.editor.shows_documents:
        cursor = position_of(edit.span.start + reason, edited(source, edit, edit.text), server.encoding)
        shown = types.ShowDocumentParams(uri, take_focus=True, selection=types.Range(cursor, cursor))
        await server.window_show_document_async(shown)


def _show_pages(server: UnitServer) -> None:
    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_SYMBOL)
    def outline(
        params: types.DocumentSymbolParams,
    ) -> list[types.DocumentSymbol] | list[types.SymbolInformation] | None:
        uri = params.text_document.uri
        unit = server.unit(uri)
        return server.editor.symbols(symbols(unit, server.encoding), uri) if unit is not None else None

    @server.feature(types.TEXT_DOCUMENT_FOLDING_RANGE)
    def folding(params: types.FoldingRangeParams) -> list[types.FoldingRange] | None:
        unit = server.unit(params.text_document.uri)
        return list(folds(unit)) if unit is not None else None

    @server.feature(types.TEXT_DOCUMENT_DOCUMENT_LINK, types.DocumentLinkOptions())
    def linked(params: types.DocumentLinkParams) -> list[types.DocumentLink] | None:
        uri = params.text_document.uri
        unit = server.unit(uri)
        return list(server.editor.links(links(unit, uri, server.encoding))) if unit is not None else None

    @server.feature(types.TEXT_DOCUMENT_HOVER)
    def hover(params: types.HoverParams) -> types.Hover | None:
        lines, span = _hover(server, params.text_document.uri, params.position)
        if not lines:
            return None
        return types.Hover(server.editor.text(lines), span)

    @server.feature(types.TEXT_DOCUMENT_DEFINITION)
    def definition(params: types.DefinitionParams) -> types.Location | None:
        uri = params.text_document.uri
        unit = server.unit(uri)
        if unit is None:
            return None
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
    def complete(params: types.CompletionParams) -> types.CompletionList | None:
        uri = params.text_document.uri
        unit = server.unit(uri)
        if unit is None:
            return None
        offset = offset_of(params.position, unit.source, server.encoding)
        found = completions(unit.source, offset, server.course(uri), kind_of_div(unit, offset))
        return types.CompletionList(is_incomplete=False, items=list(found))


def _hover(server: UnitServer, uri: str, place: types.Position) -> tuple[list[str], types.Range | None]:
    """What is to be said at a place: the rules that found something there, and the word."""
    unit = server.unit(uri)
    if unit is None:
        return [], None
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
