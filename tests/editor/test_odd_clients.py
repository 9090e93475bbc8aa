"""The server with clients that are odd, hostile, or know little (LSP 3.17, byte by byte)."""

import json
import socket
import sys
import time

import pytest

from tests.commands.world import ONE, TWO, make_course, unit
from tests.editor.wire import VERSIONS, Wire

BAD = unit(2, "The kite is enormous.")
ON_A_DAY = """\
import sys
from contextlib import nullcontext
from datetime import date
from pathlib import Path
from types import SimpleNamespace
from lint_rules.editor.server import build_server
from lint_rules.session import tools
with tools(SimpleNamespace(english=None, no_cache=True)) as kit:
    build_server(kit, lambda: date.fromisoformat(Path(sys.argv[1]).read_text())).start_io()
"""


@pytest.fixture
def course(tmp_path):
    return make_course(tmp_path)


@pytest.fixture
def wires(warm):
    """Makes servers, and leaves none behind."""
    made: list[Wire] = []

    def make(*words: str, **more) -> Wire:
        made.append(Wire(*words, **more))
        return made[-1]

    yield make
    for wire in made:
        wire.kill()


def codes(found):
    return [one.get("code") for one in found]


def messages(wire: Wire, method: str):
    return [message["params"] for message in wire.said if message.get("method") == method]


def test_how_it_ends_is_told_by_its_status(wires):
    """LSP 3.17, exit: 0 after shutdown, else 1."""
    orderly, hasty, gone = wires(), wires(), wires()
    for wire in (orderly, hasty, gone):
        wire.start()
    assert orderly.close() == 0
    hasty.tell("exit")
    assert hasty.end() == 1
    gone.process.stdin.close()
    assert gone.end() == 1


def test_an_english_checker_that_hangs_delays_neither_findings_nor_goodbye(wires, course):
    with socket.socket() as deaf:
        deaf.bind(("127.0.0.1", 0))
        deaf.listen(8)  # takes calls, and never answers
        wire = wires("--english", f"http://127.0.0.1:{deaf.getsockname()[1]}")
        wire.start()
        uri = wire.open(course / TWO, BAD)
        assert "word-above-level" in codes(wire.found(uri))
        wire.tell("textDocument/didSave", {"textDocument": {"uri": uri}})
        wire.type(uri, unit(2), 2)
        assert "word-above-level" not in codes(wire.found(uri, 2))
        since = time.monotonic()
        assert wire.close() == 0
        assert time.monotonic() - since < 10


def test_nonsense_stops_nothing_and_every_request_is_answered(wires, course):
    wire = wires()
    before = wire.ask("textDocument/hover", {"textDocument": {"uri": "file:///x.md"}})
    assert before["error"]["code"] in (-32002, -32602)
    wire.start()
    uri = wire.open(course / TWO, BAD)
    for body in (b"{{{{{", b"[]", b"null", b"\xff\xfe", b'"jsonrpc"', b"{}", b"[" * 20_000):
        wire.raw(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
    wire.raw(b"hello\r\nContent-Length: abc\r\n\r\n")
    never = "file:///never/opened.md"
    for method, params in (
        ("textDocument/didOpen", {}),
        ("textDocument/didOpen", {"textDocument": {"uri": 5}}),
        ("textDocument/didChange", {"textDocument": {"uri": never, "version": 3}, "contentChanges": [{"text": "a"}]}),
        ("textDocument/didClose", {"textDocument": {"uri": never}}),
        ("textDocument/didSave", {"textDocument": {"uri": never}}),
        ("$/never/heard", None),
    ):
        wire.tell(method, params)
    place, page = {"line": 0, "character": 0}, {"textDocument": {"uri": uri}}
    far, before_all = {"line": 10**6, "character": 10**6}, {"line": -1, "character": -1}
    assert wire.ask("textDocument/hover", page | {"position": far})["result"] is None
    assert wire.ask("textDocument/hover", page | {"position": before_all})["error"]["code"] == -32602
    assert wire.ask("no/such", {})["error"]["code"] == -32601
    assert wire.ask("no/such")["error"]["code"] == -32601
    assert wire.ask("initialize", {"processId": None, "rootUri": None, "capabilities": {}})["error"]["code"] == -32600
    for method in ("documentSymbol", "foldingRange", "documentLink"):
        assert wire.ask(f"textDocument/{method}", {"textDocument": {"uri": never}})["result"] is None
    for method in ("hover", "definition", "completion"):
        params = {"textDocument": {"uri": never}, "position": place}
        assert wire.ask(f"textDocument/{method}", params)["result"] is None
    for arguments in ([], [uri, "x", 5, "a"]):
        params = {"command": "hornbook.letStand", "arguments": arguments}
        assert wire.ask("workspace/executeCommand", params)["error"]["code"] == -32602
    wire.type(uri, unit(2, "The kite is enormous and extraordinary."), 2)
    assert codes(wire.found(uri, 2)).count("word-above-level") == 2
    assert not messages(wire, "window/showMessage"), "nothing of this is the author's"
    assert wire.close() == 0


def test_a_client_that_declares_nothing_gets_nothing_that_it_cannot_use(wires, course):
    wire = wires()
    wire.start({})
    uri = wire.open(course / TWO, BAD.replace("**Time:** 40 minutes\n:::", "**Time:** 50 minutes\n:::", 1))
    found = wire.found(uri, None)
    assert "word-above-level" in codes(found)
    assert not any("relatedInformation" in one for one in found)
    word = next(one for one in found if one["code"] == "word-above-level")
    page = {"textDocument": {"uri": uri}}
    asked = page | {"range": word["range"], "context": {"diagnostics": [word]}}
    assert wire.ask("textDocument/codeAction", asked)["result"] == []
    lesson, activity = wire.ask("textDocument/documentSymbol", page)["result"]
    assert (lesson["name"], activity["containerName"]) == ("Lesson 1: Kites", "Lesson 1: Kites")
    hover = wire.ask("textDocument/hover", page | {"position": word["range"]["start"]})["result"]
    assert hover["contents"]["kind"] == "plaintext"
    assert "**" not in hover["contents"]["value"]
    assert wire.close() == 0
    asked_for = {message["method"] for message in wire.said if "method" in message and "id" in message}
    assert asked_for == set(), "no request that the client did not say it takes"
    assert all("version" not in said for said in messages(wire, "textDocument/publishDiagnostics"))


def test_a_client_of_commands_alone_can_let_a_word_stand(wires, course):
    """A client without action literals is offered commands; one without versioned edits gets them by address."""
    wire = wires()
    wire.answers["workspace/applyEdit"] = {"applied": True}
    wire.start({"workspace": {"applyEdit": True}})
    uri = wire.open(course / TWO, BAD)
    word = next(one for one in wire.found(uri, None) if one["code"] == "word-above-level")
    asked = {"textDocument": {"uri": uri}, "range": word["range"], "context": {"diagnostics": [word]}}
    (command,) = wire.ask("textDocument/codeAction", asked)["result"]
    assert command["command"] == "hornbook.letStand"
    call = {"command": command["command"], "arguments": command["arguments"]}
    wire.ask("workspace/executeCommand", call)
    (applied,) = messages(wire, "workspace/applyEdit")
    (change,) = applied["edit"]["changes"][uri]
    assert change["newText"].strip() == "<!-- stet word-above-level:  -->"
    wire.type(uri, BAD + "\n", 2)
    wire.ask("workspace/executeCommand", {"command": command["command"], "arguments": [uri, "word-above-level", 3, 4]})
    (said,) = messages(wire, "window/showMessage")
    assert "changed" in said["message"]


def test_a_flood_of_changes_ends_with_the_last_of_them(wires, course):
    wire = wires()
    wire.start()
    uri = wire.open(course / TWO, unit(2))
    last = 1_000
    for version in range(2, last):
        wire.type(uri, unit(2, "The kite is red. " * (version % 7 + 1)), version)
    wire.type(uri, BAD, last)
    assert "word-above-level" in codes(wire.found(uri, last))
    shown = [said["version"] for said in messages(wire, "textDocument/publishDiagnostics")]
    assert shown == sorted(shown)
    assert len(shown) < 100, "not every text of a flood is read"
    assert wire.close() == 0


def test_what_is_not_checked_is_said_in_the_log_once(wires, course, tmp_path_factory):
    outside = tmp_path_factory.mktemp("outside")
    wire = wires()
    wire.start()
    pages = (
        wire.open("untitled:Untitled-1", "# Hello\n"),
        wire.open(course / "README.md", "# Notes\n"),
        wire.open(outside / "page.md", "# Page\n"),
        wire.open("file://server/share/page.md", "# Page\n"),
    )
    for version in (2, 3):
        wire.type(pages[1], "# Notes\n" * version, version)
    uri = wire.open(course / TWO, BAD)
    wire.found(uri)
    while len(messages(wire, "window/logMessage")) < len(pages):
        wire.wait(lambda message: message.get("method") == "window/logMessage")
    wire.type(pages[1], "# Notes\n", 4)
    wire.found(pages[1], 4)
    said = [one["message"] for one in messages(wire, "window/logMessage")]
    assert len(said) == len(pages)
    assert any(one.startswith("untitled:Untitled-1 is not checked: it is not saved") for one in said)
    assert any("README.md is not checked: it is in no level's folder" in one for one in said)
    assert all("itself broke" not in json.dumps(one) for one in wire.said)


def test_a_unit_where_no_level_looks_is_marked(wires, course):
    (course / "drafts").mkdir()
    (course / "drafts/unit-07.md").write_text(unit(7), encoding="utf-8")
    wire = wires()
    wire.start()
    (found,) = wire.found(wire.open(course / "drafts/unit-07.md", unit(7)))
    assert "drafts/unit-07.md" in found["message"]


@pytest.mark.parametrize(("encoding", "mark"), [("utf-8", 3), ("utf-16", 1), ("utf-32", 1)])
def test_a_byte_order_mark_is_counted_as_the_editor_counts(encoding, mark, wires, course):
    wire = wires()
    capabilities = {"general": {"positionEncodings": [encoding]}} | VERSIONS
    assert wire.start(capabilities)["capabilities"]["positionEncoding"] == encoding
    text = "\ufeff# 😀 The enormous kite\n\n" + unit(2, "😀 The \ud800 kite is enormous.").split("---\n", 2)[2]
    found = wire.found(wire.open(course / TWO, text))
    lines = text.replace("\ud800", "\ufffd").split("\n")
    size = {"utf-8": 1, "utf-16": 2, "utf-32": 4}[encoding]
    codec = {"utf-8": "utf-8", "utf-16": "utf-16-le", "utf-32": "utf-32-le"}[encoding]
    words = []
    for one in found:
        start, end = one["range"]["start"], one["range"]["end"]
        if one.get("code") == "word-above-level":
            coded = lines[start["line"]].encode(codec)
            words.append(coded[start["character"] * size : end["character"] * size].decode(codec))
    assert words
    assert set(words) == {"enormous"}
    assert len("\ufeff".encode(codec)) // size == mark


def test_a_comment_lapses_on_its_day_while_the_server_runs(wires, course, tmp_path):
    day = tmp_path / "day"
    day.write_text("2027-02-28", encoding="utf-8")
    wire = wires(code=ON_A_DAY.replace("sys.argv[1]", repr(str(day))))
    wire.start()
    stet = "<!-- stet word-above-level until 2027-03-01: until the new art is in -->\n\n"
    uri = wire.open(course / TWO, unit(2, stet + "The kite is enormous."))
    assert "stet-lapsed" not in codes(wire.found(uri))
    # In one step: the server must not read the file while it is empty.
    tomorrow = tmp_path / "tomorrow"
    tomorrow.write_text("2027-03-01", encoding="utf-8")
    tomorrow.replace(day)
    assert "stet-lapsed" in codes(wire.found(uri)), "nobody typed, and the day has come"
    wire.tell("textDocument/didSave", {"textDocument": {"uri": uri}})
    assert "stet-lapsed" in codes(wire.found(uri))


def test_getting_ready_is_shown_where_the_editor_shows_what_goes_on(wires):
    wire = wires()
    wire.start({"window": {"workDoneProgress": True}})
    wire.wait(lambda m: m.get("method") == "$/progress" and m["params"]["value"]["kind"] == "end")
    kinds = [said["value"]["kind"] for said in messages(wire, "$/progress")]
    assert kinds == ["begin", "end"]


def test_a_fault_where_no_comment_can_stand_is_said_so(wires, course):
    wire = wires()
    wire.answers["workspace/applyEdit"] = {"applied": True}
    wire.start({"workspace": {"applyEdit": True}} | VERSIONS)
    text = unit(2).replace("unit: 2", "unit: two")
    uri = wire.open(course / TWO, text)
    fault = next(one for one in wire.found(uri) if one["code"] == "unreadable-manuscript")
    asked = {"textDocument": {"uri": uri}, "range": fault["range"], "context": {"diagnostics": [fault]}}
    command = wire.ask("textDocument/codeAction", asked)["result"][0]
    wire.ask("workspace/executeCommand", {"command": command["command"], "arguments": command["arguments"]})
    assert not messages(wire, "workspace/applyEdit")
    assert "No comment" in messages(wire, "window/showMessage")[0]["message"]


@pytest.mark.skipif(sys.platform == "win32", reason="needs signals")
def test_after_a_kill_another_server_finds_the_same(wires, course):
    first, second = wires(), wires()
    first.start()
    uri = first.open(course / TWO, BAD)
    first.kill()
    second.start()
    again = second.open(course / TWO, BAD)
    assert "word-above-level" in codes(second.found(again))
    assert again == uri
    assert sorted(path.name for path in course.iterdir()) == ["course.yaml", "level-1", "words"]


def test_one_unit_and_its_twin_are_both_shown(wires, course):
    wire = wires()
    wire.start()
    one, two = wire.open(course / ONE, unit(1)), wire.open(course / TWO, BAD)
    assert "word-above-level" in codes(wire.found(two))
    wire.tell("textDocument/didClose", {"textDocument": {"uri": two}})
    assert wire.found(two, None) == []
    wire.type(one, unit(1, "The kite is enormous."), 2)
    assert "word-above-level" in codes(wire.found(one, 2))
