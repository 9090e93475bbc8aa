"""What an editor says of itself when it starts (LSP 3.17, ClientCapabilities): only what it declares is used."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from lsprotocol import types


@dataclass(frozen=True, slots=True)
class Editor:
    """What one editor can do; nothing, unless it says so."""

    actions: bool = False  # takes code actions, not bare commands alone
    document_changes: bool = False
    applies_edits: bool = False
    shows_documents: bool = False
    shows_progress: bool = False
    related_places: bool = False
    versions: bool = False
    nested_symbols: bool = False
    markdown: bool = False
    tooltips: bool = False
    watches_files: bool = False

    @classmethod
    def of(cls, said: types.ClientCapabilities) -> "Editor":
        """Read what an editor declares."""
        page = said.text_document or types.TextDocumentClientCapabilities()
        workspace = said.workspace or types.WorkspaceClientCapabilities()
        window = said.window or types.WindowClientCapabilities()
        published = page.publish_diagnostics
        edits, watched = workspace.workspace_edit, workspace.did_change_watched_files
        formats = (page.hover.content_format if page.hover else None) or ()
        return cls(
            actions=bool(page.code_action and page.code_action.code_action_literal_support),
            document_changes=bool(edits and edits.document_changes),
            applies_edits=bool(workspace.apply_edit),
            shows_documents=bool(window.show_document and window.show_document.support),
            shows_progress=bool(window.work_done_progress),
            related_places=bool(published and published.related_information),
            versions=bool(published and published.version_support),
            nested_symbols=bool(page.document_symbol and page.document_symbol.hierarchical_document_symbol_support),
            markdown=types.MarkupKind.Markdown in formats,
            tooltips=bool(page.document_link and page.document_link.tooltip_support),
            watches_files=bool(watched and watched.dynamic_registration),
        )

    def edit(self, edit: types.WorkspaceEdit) -> types.WorkspaceEdit:
        """An edit as this editor takes it: with versions, or by address alone."""
        if self.document_changes or edit.document_changes is None:
            return edit
        changes: dict[str, list[types.TextEdit]] = {}
        for change in edit.document_changes:
            assert isinstance(change, types.TextDocumentEdit)
            texts = [types.TextEdit(one.range, one.new_text) for one in change.edits if isinstance(one, types.TextEdit)]
            changes.setdefault(change.text_document.uri, []).extend(texts)
        return types.WorkspaceEdit(changes={uri: list(edits) for uri, edits in changes.items()})

    def taken_actions(self, found: Iterable[types.CodeAction]) -> Iterator[types.CodeAction | types.Command]:
        """The actions that this editor can carry out, as it takes them."""
        for action in found:
            if action.command is not None:
                if self.runs(action.command.command):
                    yield action if self.actions else action.command
            elif self.actions and action.edit is not None:
                action.edit = self.edit(action.edit)
                action.diagnostics = self.diagnostics(action.diagnostics or ())
                yield action

    def runs(self, command: str) -> bool:
        """Whether a command can do its work: writing needs an editor that takes edits, showing one that shows."""
        return self.applies_edits if command == "hornbook.letStand" else self.shows_documents

    def diagnostics(self, found: Sequence[types.Diagnostic]) -> list[types.Diagnostic]:
        """Diagnostics without other places, where they cannot be shown."""
        if self.related_places:
            return list(found)
        for one in found:
            one.related_information = None
        return list(found)

    def symbols(
        self, found: Sequence[types.DocumentSymbol], uri: str, within: str | None = None
    ) -> list[types.DocumentSymbol] | list[types.SymbolInformation]:
        """An outline as a tree, or, where that cannot be shown, as a list."""
        if self.nested_symbols:
            return list(found)
        flat: list[types.SymbolInformation] = []
        for one in found:
            place = types.Location(uri, one.range)
            flat.append(types.SymbolInformation(place, one.name, one.kind, container_name=within))
            flat += self.symbols(one.children or (), uri, one.name)  # type: ignore[arg-type]
        return flat

    def text(self, paragraphs: Sequence[str]) -> types.MarkupContent:
        """Text to be shown, with or without marks."""
        whole = "\n\n".join(paragraphs)
        if self.markdown:
            return types.MarkupContent(types.MarkupKind.Markdown, whole)
        return types.MarkupContent(types.MarkupKind.PlainText, whole.replace("**", ""))

    def links(self, found: Iterable[types.DocumentLink]) -> Iterator[types.DocumentLink]:
        """Links, with their tooltips where those are shown."""
        for link in found:
            if not self.tooltips:
                link.tooltip = None
            yield link
