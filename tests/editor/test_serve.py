"""The language server as an editor talks to it (LSP 3.17): a real process over standard input and output."""

import asyncio

import pytest
import pytest_lsp
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities

from tests.commands.test_precommit import unit
from tests.warm import command

pytestmark = pytest.mark.usefixtures("warm")

CONFIG = ClientServerConfig(server_command=command("serve", "--stdio"))
COURSE = "title: Kites\nlevels:\n  - {name: level-1, cefr: A1, words: words/level-1.csv, unit_pattern: []}\n"
WORDS = "word,part_of_speech,topic,unit\nkite,noun,toys,1\nred,adjective,colours,1\n"
TYPED = "The kite is red and extraordinary."


@pytest.fixture
def course(tmp_path):
    (tmp_path / "course.yaml").write_text(COURSE, encoding="utf-8")
    for folder in ("level-1", "words"):
        (tmp_path / folder).mkdir()
    (tmp_path / "words/level-1.csv").write_text(WORDS, encoding="utf-8")
    return tmp_path


@pytest_lsp.fixture(config=CONFIG)
async def client(lsp_client: LanguageClient):
    lsp_client.applied = []
    lsp_client.published = []

    @lsp_client.feature(types.WORKSPACE_APPLY_EDIT)
    def apply(params: types.ApplyWorkspaceEditParams) -> types.ApplyWorkspaceEditResult:
        lsp_client.applied.append(params.edit)
        return types.ApplyWorkspaceEditResult(applied=True)

    @lsp_client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def register(params: types.RegistrationParams) -> None:
        pass

    await lsp_client.initialize_session(types.InitializeParams(capabilities=client_capabilities("visual-studio-code")))
    yield
    await lsp_client.shutdown_session()


class Page:
    """An open document of an editor."""

    def __init__(self, client: LanguageClient, file, text: str) -> None:
        file.write_text(text, encoding="utf-8")
        self.client, self.uri, self.text, self.version = client, file.as_uri(), text, 1
        item = types.TextDocumentItem(uri=self.uri, language_id="markdown", version=1, text=text)
        client.text_document_did_open(types.DidOpenTextDocumentParams(item))

    def type(self, text: str) -> None:
        self.text, self.version = text, self.version + 1
        identifier = types.VersionedTextDocumentIdentifier(version=self.version, uri=self.uri)
        whole = types.TextDocumentContentChangeWholeDocument(text)
        self.client.text_document_did_change(types.DidChangeTextDocumentParams(identifier, [whole]))

    def apply(self, edits) -> None:
        lines = self.text.split("\n")
        starts = [sum(len(line) + 1 for line in lines[:at]) for at in range(len(lines))]
        text = self.text
        for edit in sorted(edits, key=lambda e: (e.range.start.line, e.range.start.character), reverse=True):
            start, end = (starts[place.line] + place.character for place in (edit.range.start, edit.range.end))
            text = text[:start] + edit.new_text + text[end:]
        self.type(text)

    async def found(self, wanted=lambda found: True):
        """The diagnostics, once they are as wanted."""
        for _ in range(300):
            found = self.client.diagnostics.get(self.uri)
            if found is not None and wanted(found):
                return found
            await asyncio.sleep(0.1)
        raise AssertionError(f"never: {self.client.diagnostics.get(self.uri)}")

    def place(self, words: str) -> types.Position:
        at = self.text.index(words)
        return types.Position(self.text.count("\n", 0, at), at - self.text.rfind("\n", 0, at) - 1)

    async def actions(self, diagnostic, only=None):
        context = types.CodeActionContext([diagnostic], only=only)
        document = types.TextDocumentIdentifier(self.uri)
        params = types.CodeActionParams(document, diagnostic.range, context)
        return await self.client.text_document_code_action_async(params) or []


def about(word: str):
    return lambda found: any(d.code == "word-above-level" and word in d.message for d in found)


@pytest.mark.asyncio
async def test_a_writer_who_never_rests_sees_what_is_found(client, course):
    page = Page(client, course / "level-1/unit-01.md", unit(1))
    await page.found()
    seen = set()
    for length in range(1, len(TYPED) + 1):
        page.type(unit(1).replace("The kite is red.", TYPED[:length]))
        await asyncio.sleep(0.12)
        seen.add(str(client.diagnostics[page.uri]))
    assert len(seen) > 1, "while somebody types nothing appears"
    await page.found(about("extraordinary"))


@pytest.mark.asyncio
async def test_what_can_be_done_about_a_word(client, course):
    page = Page(client, course / "level-1/unit-01.md", unit(1).replace("The kite is red.", TYPED))
    found = next(d for d in await page.found(about("extraordinary")) if d.code == "word-above-level")
    titles = [action.title for action in await page.actions(found)]
    assert "Add “extraordinary” to words/level-1.csv" in titles
    assert "Add “extraordinary” to the course's words that every child here knows" in titles
    assert "Let it stand, and say why (word-above-level)" in titles
    assert await page.actions(found, only=[types.CodeActionKind.Refactor]) == []


@pytest.mark.asyncio
async def test_letting_a_word_stand_writes_the_comment_where_it_works(client, course):
    page = Page(client, course / "level-1/unit-01.md", unit(1).replace("The kite is red.", TYPED))
    found = next(d for d in await page.found(about("extraordinary")) if d.code == "word-above-level")
    action = next(a for a in await page.actions(found) if a.title.startswith("Let it stand"))
    assert action.title == "Let it stand, and say why (word-above-level)"
    at = page.text.index("extraordinary")  # the client library reads the command's arguments as text
    arguments = [page.uri, "word-above-level", at, at + len("extraordinary")]
    await client.workspace_execute_command_async(types.ExecuteCommandParams("hornbook.letStand", arguments=arguments))
    (change,) = client.applied[0].document_changes
    page.apply(change.edits)
    page.type(
        page.text.replace("<!-- stet word-above-level:  -->", "<!-- stet word-above-level: the story needs it -->")
    )
    await page.found(lambda found: not any(d.code in ("word-above-level", "stet-unused") for d in found))


@pytest.mark.asyncio
async def test_a_fault_of_the_course_is_shown_at_its_place_and_no_unit_looks_clean(client, course):
    page = Page(client, course / "level-1/unit-01.md", unit(1))
    await page.found()
    settings = Page(client, course / "course.yaml", COURSE)
    settings.type(COURSE.replace("cefr: A1", "cefr: A9"))
    (fault,) = await settings.found(lambda found: len(found) == 1)
    assert fault.range.start.line == 2
    await page.found(lambda found: len(found) == 1 and "course.yaml, line 3" in found[0].message)
    settings.type(COURSE)
    await settings.found(lambda found: not found)


@pytest.mark.asyncio
async def test_a_bad_row_of_a_list_is_shown_in_the_list(client, course):
    rows = Page(client, course / "words/level-1.csv", WORDS)
    page = Page(client, course / "level-1/unit-01.md", unit(1))
    await page.found()
    rows.type(WORDS + "hat,nuon,clothes,1\n")
    (fault,) = await rows.found(lambda found: len(found) == 1)
    assert fault.range.start.line == 3


@pytest.mark.asyncio
async def test_pages_under_no_course_are_left_alone_unless_they_look_like_units(client, tmp_path):
    readme = Page(client, tmp_path / "README.md", "# Notes\n")
    loose = Page(client, tmp_path / "loose.md", unit(1))
    (said,) = await loose.found(lambda found: len(found) == 1)
    assert "hornbook start" in said.message
    assert said.severity == types.DiagnosticSeverity.Information
    assert not await readme.found()


@pytest.mark.asyncio
async def test_an_untitled_page_is_no_error(client, course):
    item = types.TextDocumentItem(uri="untitled:Untitled-1", language_id="markdown", version=1, text="# Hello\n")
    client.text_document_did_open(types.DidOpenTextDocumentParams(item))
    page = Page(client, course / "level-1/unit-01.md", unit(1))
    await page.found()
    assert "untitled:Untitled-1" not in client.diagnostics


@pytest.mark.asyncio
async def test_the_page_is_outlined_folded_linked_and_explained(client, course):
    text = unit(1).replace("### 1 Look and read. {.reading}", "### 1 Look and read. {.reading audio=1.1}")
    text += "\n::: {.audio track=1.1}\nZOFI: It's a red kite!\n:::\n"
    page = Page(client, course / "level-1/unit-01.md", text)
    await page.found()
    document = types.TextDocumentIdentifier(page.uri)
    (lesson,) = await client.text_document_document_symbol_async(types.DocumentSymbolParams(document))
    assert lesson.name.startswith("Lesson 1")
    assert lesson.detail == "40 minutes"
    assert [child.name for child in lesson.children] == ["1 Look and read."]
    folds = await client.text_document_folding_range_async(types.FoldingRangeParams(document))
    assert any(fold.start_line == page.place("## Lesson 1").line for fold in folds)
    (link,) = await client.text_document_document_link_async(types.DocumentLinkParams(document))
    assert link.target.endswith(f"#L{page.place('::: {.audio').line + 1}")
    at = page.place("kite is red")
    hover = await client.text_document_hover_async(types.HoverParams(document, at))
    assert "taught in level-1, unit 1" in hover.contents.value
    row = await client.text_document_definition_async(types.DefinitionParams(document, at))
    assert row.uri.endswith("words/level-1.csv")
    assert row.range.start.line == 1


@pytest.mark.asyncio
@pytest.mark.parametrize(
    ("written", "offered"),
    [
        ("::: tea", "teacher"),
        ("### 2 Look. {.lis", "listening"),
        ("The ki", "kite"),
    ],
)
async def test_what_may_be_written_is_offered(written, offered, client, course):
    page = Page(client, course / "level-1/unit-01.md", unit(1))
    await page.found()
    page.type(f"{unit(1)}\n{written}")
    place = types.Position(page.text.count("\n"), len(written))
    params = types.CompletionParams(types.TextDocumentIdentifier(page.uri), place)
    found = await client.text_document_completion_async(params)
    assert offered in [item.label for item in found.items]
