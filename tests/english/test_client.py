"""What the client makes of servers that misbehave, and of offsets counted as Java counts."""

import json
import time
from collections.abc import Callable
from http.server import BaseHTTPRequestHandler
from threading import Event
from urllib.parse import parse_qs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lint_rules.english import client
from lint_rules.english.client import EnglishClient, batches_of, shared_out
from lint_rules.language.service import EnglishUnavailable
from tests.english.conftest import stand_in

SOFTWARE = {"name": "LanguageTool", "version": "6.8", "buildDate": "today", "premium": False}


def says(status: int, body: object, **headers: str) -> Callable[[BaseHTTPRequestHandler], None]:
    data = body if isinstance(body, bytes) else json.dumps(body).encode()

    def answer(handler: BaseHTTPRequestHandler) -> None:
        handler.send_response(status)
        for name, value in headers.items():
            handler.send_header(name, value)
        handler.end_headers()
        handler.wfile.write(data)

    return answer


def reply(
    matches: list[dict[str, object]], *, incomplete: bool = False, language: str = "en-GB", **more: object
) -> dict[str, object]:
    warned = {"incompleteResults": incomplete}
    return {"software": SOFTWARE, "language": {"code": language}, "matches": matches, "warnings": warned, **more}


def match(offset: int, length: int) -> dict[str, object]:
    rule = {"id": "A_RULE", "category": {"id": "GRAMMAR"}}
    return {"offset": offset, "length": length, "message": "Wrong.", "rule": rule, "replacements": [{"value": "x"}]}


@pytest.mark.parametrize(
    ("answer", "says_so"),
    [
        (says(200, b"<html>Welcome to the printer</html>"), "not as a LanguageTool server does"),
        (says(200, {"hello": 1}), "not as a LanguageTool server does"),
        (says(200, reply([{"offset": "three"}])), "not as a LanguageTool server does"),
        (says(200, b"\xff\xfe\x00"), "not as a LanguageTool server does"),
        (says(200, b""), "not as a LanguageTool server does"),
        (says(200, reply([match(90, 4)])), "points outside the text"),
        (says(200, reply([match(-2, 4)])), "points outside the text"),
        (says(200, reply([], incomplete=True)), "checked only a part of the text"),
        (says(200, reply([], language="de-DE")), "asked for en-GB and checked de-DE"),
        (says(200, reply([], language="en-US")), "asked for en-GB and checked en-US"),
        (says(200, {"software": SOFTWARE, "matches": []}), "not as a LanguageTool server does"),
        (says(200, reply([], sentenceRanges=[[0, 4]])), "checked only the beginning"),
        (says(200, json.dumps(reply([]))[:-20].encode()), "not as a LanguageTool server does"),
        (says(500, b"Error: it broke"), "refused the text (HTTP 500: Error: it broke)"),
        (says(413, b"too long"), "HTTP 413"),
        (says(429, b""), "asked too much"),
        (says(401, b""), "will not let us in"),
        (says(404, b"<html>"), "is the path right?"),
        (says(302, b"", Location="http://example.org/"), "sends us on to http://example.org/"),
    ],
)
def test_a_server_that_misbehaves_is_said_plainly(answer, says_so):
    with stand_in(answer) as (url, _), pytest.raises(EnglishUnavailable) as error:
        EnglishClient(url, direct=True).check(["A kite. It is red, and it is far up in the sky."], "en-GB")
    assert says_so in str(error.value)
    assert url in str(error.value)


def test_a_slow_server_is_not_waited_for():
    heard_enough = Event()

    def dawdle(handler: BaseHTTPRequestHandler) -> None:
        heard_enough.wait(20)

    with stand_in(dawdle) as (url, _):
        began = time.monotonic()
        with pytest.raises(EnglishUnavailable, match=r"did not answer within 0\.2 seconds"):
            EnglishClient(url, direct=True, patience=0.2).check(["A kite."], "en-GB")
        waited = time.monotonic() - began
        heard_enough.set()
    assert waited < 10


def test_a_server_that_hangs_up_is_said_plainly():
    with (
        stand_in(lambda handler: handler.connection.close()) as (url, _),
        pytest.raises(EnglishUnavailable, match="does not answer"),
    ):
        EnglishClient(url, direct=True).check(["A kite."], "en-GB")


def test_no_server_is_said_plainly_and_asked_only_once(monkeypatch):
    with stand_in(says(200, reply([]))) as (url, _):
        pass  # gone now
    english = EnglishClient(url, direct=True)
    with pytest.raises(EnglishUnavailable, match="does not answer") as first:
        english.check(["A kite."], "en-GB")
    monkeypatch.setattr(english._opener, "open", lambda *_, **__: pytest.fail("asked again"))
    with pytest.raises(EnglishUnavailable) as second:
        english.check(["A hat."], "en-GB")
    assert second.value is first.value
    monkeypatch.undo()
    monkeypatch.setattr(client, "FORGETS", 0.0)
    with pytest.raises(EnglishUnavailable) as third:
        english.check(["A hat."], "en-GB")
    assert third.value is not first.value, "an editor that stays open asks again after a while"


def test_the_version_names_the_server_and_the_choice_of_checks_and_sends_no_text():
    with stand_in(says(200, {"software": SOFTWARE})) as (url, bodies):
        assert EnglishClient(url, direct=True).version == f"LanguageTool 6.8 (today) {client.checks_digest()}"
    assert bodies == []


def test_a_proxy_is_passed_by_for_a_server_on_this_machine(monkeypatch):
    for name in ("http_proxy", "HTTP_PROXY", "all_proxy", "ALL_PROXY"):
        monkeypatch.setenv(name, "http://127.0.0.1:9")
    with stand_in(says(200, reply([match(0, 1)]))) as (url, _):
        assert EnglishClient(url, direct=True).check(["A kite."], "en-GB")[0][0].rule == "A_RULE"


def test_many_texts_travel_in_few_requests_each_text_once():
    texts = [f"This is kite number {number}." for number in range(200)]
    with stand_in(says(200, reply([]))) as (url, bodies):
        assert EnglishClient(url, direct=True).check([*texts, *texts, "", "  "], "en-GB") == [()] * 402
    assert len(bodies) == 1
    sent = parse_qs(bodies[0])
    assert sent["text"] == ["\n\n".join(texts)]
    assert sent["language"] == ["en-GB"]
    assert "STYLE" in sent["disabledCategories"][0].split(",")
    assert "UPPERCASE_SENTENCE_START" in sent["disabledRules"][0].split(",")


def test_nothing_to_check_asks_nothing():
    with stand_in(says(500, b"")) as (url, bodies):
        assert EnglishClient(url, direct=True).check(["", " \n"], "en-GB") == [(), ()]
    assert bodies == []


@pytest.mark.parametrize(
    ("variety", "asked_as"), [("en-US", "en-US"), ("en-AU", "en-AU"), ("en-IE", "en-GB"), ("en", "en-GB")]
)
def test_a_variety_without_a_dictionary_of_its_own_is_read_as_british(variety, asked_as):
    with stand_in(says(200, reply([], language=asked_as))) as (url, bodies):
        EnglishClient(url, direct=True).check(["A kite."], variety)
    assert parse_qs(bodies[0])["language"] == [asked_as]


@given(st.lists(st.text(min_size=1).filter(str.strip), max_size=30))
def test_batches_hold_every_text_in_order_where_they_say(texts):
    batches = list(batches_of(texts))
    assert [text for batch in batches for text in batch.texts] == texts
    for batch in batches:
        for text, start in zip(batch.texts, batch.starts, strict=True):
            assert batch.joined[start : start + len(text)] == text


def test_batches_keep_to_their_size_and_a_longer_text_goes_alone():
    texts = ["x" * 3000] * 7 + ["y" * (client.BATCH + 5)]
    batches = list(batches_of(texts))
    assert [len(batch.texts) for batch in batches] == [2, 2, 2, 1, 1]


@given(st.lists(st.text(alphabet="ab 😀é𝒳", min_size=1), min_size=1, max_size=6), st.data())
def test_offsets_in_utf16_become_code_points_of_the_right_text(texts, data):
    (batch,) = batches_of(texts)
    index = data.draw(st.integers(0, len(texts) - 1))
    start = data.draw(st.integers(0, len(texts[index]) - 1))
    end = data.draw(st.integers(start + 1, len(texts[index])))
    first = batch.starts[index]
    offset = len(batch.joined[: first + start].encode("utf-16-le")) // 2
    length = len(texts[index][start:end].encode("utf-16-le")) // 2
    said = client._Match(offset, length, "Wrong.", client._RuleSaid("R", client._Named("C")))
    shares = shared_out(batch, [said])
    assert [(m.start, m.end) for m in shares[index]] == [(start, end)]
    assert sum(map(len, shares)) == 1


def test_a_match_over_two_texts_is_of_neither():
    (batch,) = batches_of(["one two", "three"])
    said = client._Match(4, 8, "Wrong.", client._RuleSaid("R", client._Named("C")))
    assert shared_out(batch, [said]) == [(), ()]
