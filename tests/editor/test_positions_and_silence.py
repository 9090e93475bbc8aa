"""The language server, as an editor talks to it: a real process over standard input and output."""

import sys

import pytest
import pytest_lsp
from lsprotocol import types
from pytest_lsp import ClientServerConfig, LanguageClient, client_capabilities

from tests.commands.test_precommit import unit

CONFIG = ClientServerConfig(
    server_command=[sys.executable, "-m", "lint_rules", "serve"], server_env={"HORNBOOK_SERVE_WAIT": "0.05"}
)


@pytest.fixture
def course(tmp_path):
    (tmp_path / "course.yaml").write_text("title: Kites\nlevels:\n  - {name: level-1, cefr: A1, unit_pattern: []}\n")
    (tmp_path / "level-1").mkdir()
    return tmp_path


@pytest_lsp.fixture(params=["visual-studio-code", "neovim", "emacs"], config=CONFIG)
async def client(request, lsp_client: LanguageClient):
    @lsp_client.feature(types.CLIENT_REGISTER_CAPABILITY)
    def register(params: types.RegistrationParams) -> None:
        pass

    await lsp_client.initialize_session(types.InitializeParams(capabilities=client_capabilities(request.param)))
    yield
    await lsp_client.shutdown_session()


def open_unit(client: LanguageClient, file, text: str) -> str:
    file.write_text(text, encoding="utf-8")
    uri = file.as_uri()
    item = types.TextDocumentItem(uri=uri, language_id="markdown", version=1, text=text)
    client.text_document_did_open(types.DidOpenTextDocumentParams(text_document=item))
    return uri


@pytest.mark.asyncio
async def test_a_finding_is_published_at_its_words_and_goes_when_it_is_mended(client, course):
    bad = unit(1).replace("The kite is red.", "😀 The kite is red. <!-- stet no-such-rule: a test -->")
    uri = open_unit(client, course / "level-1/unit-01.md", bad)
    await client.wait_for_notification(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    found = [d for d in client.diagnostics[uri] if d.code == "stet-unused"]
    assert len(found) == 1
    line = bad.split("\n")[found[0].range.start.line]
    general = client.capabilities.general
    offered = general.position_encodings if general else None
    encoding = types.PositionEncodingKind(offered[0] if offered else "utf-16").value
    unit_size = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[encoding]
    codec = {"utf-8": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}[encoding]
    coded = line.encode(codec)[found[0].range.start.character * unit_size :]
    assert coded.decode(codec).startswith("<!-- stet")
    change = types.DidChangeTextDocumentParams(
        types.VersionedTextDocumentIdentifier(version=2, uri=uri),
        [types.TextDocumentContentChangeWholeDocument(unit(1))],
    )
    client.text_document_did_change(change)
    await client.wait_for_notification(types.TEXT_DOCUMENT_PUBLISH_DIAGNOSTICS)
    assert [d for d in client.diagnostics[uri] if d.code == "stet-unused"] == []
