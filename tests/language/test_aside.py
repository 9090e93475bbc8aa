"""The language room in a process of its own says what the room in this process says, and never outlives the run."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator

import pytest

from lint_rules.engine import language_aside
from lint_rules.engine.language_aside import LanguageAside
from lint_rules.language.pipeline import SpacyLanguage
from lint_rules.language.service import Language, LanguageUnavailable, Request
from lint_rules.language.tokens import Mode

REQUESTS = [
    Request("Mina is flying a kite. Are there ____ clouds?", Mode.TEXT, ("Mina",)),
    Request("Listen, point and say.", Mode.INSTRUCTION),
    Request("Café — “naïve” 🪁 \u0000", Mode.TEXT),
    Request("", Mode.TEXT),
    Request("The boats have gone. " * 400, Mode.TEXT),  # more than a pipe holds
]


@pytest.fixture
def aside(language: Language) -> Iterator[LanguageAside]:
    room = LanguageAside(language)
    yield room
    room.rest()


def process_of(room: LanguageAside) -> "subprocess.Popen[bytes]":
    assert room._process is not None
    return room._process


def test_it_says_what_the_room_in_this_process_says(aside: LanguageAside, language: Language) -> None:
    here = language.analyse(REQUESTS)
    begun = [aside.begin(some) for some in (REQUESTS, REQUESTS[::-1], [], REQUESTS[:1])]
    assert [answers() for answers in begun] == [here, here[::-1], [], here[:1]]
    assert aside.analyse(REQUESTS) == here
    assert aside.version == language.version


@pytest.mark.parametrize("when", ["before", "while it works"])
def test_when_its_process_dies_this_one_answers(aside: LanguageAside, language: Language, when: str) -> None:
    assert aside.expect()
    if when == "before":
        process_of(aside).kill()
    begun = [aside.begin(REQUESTS), aside.begin(REQUESTS[:2])]
    process_of(aside).kill()
    assert [answers() for answers in begun] == [language.analyse(REQUESTS), language.analyse(REQUESTS[:2])]
    assert aside.analyse(REQUESTS) == language.analyse(REQUESTS)
    aside.rest()
    assert not aside.expect(), "what has failed once is not tried again"


@pytest.mark.parametrize(
    "code", ["", "raise SystemExit(3)", "print('no answer', flush=True); import sys; sys.stdin.read()"]
)
def test_what_is_no_answer_is_not_taken_for_one(
    aside: LanguageAside, language: Language, code: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    command = [sys.executable, "-c", code]
    other = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    monkeypatch.setattr(language_aside, "_start", lambda: other)
    answers = aside.begin(REQUESTS)
    assert answers() == language.analyse(REQUESTS)


def test_where_no_process_can_be_started_this_one_answers(
    aside: LanguageAside, language: Language, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "executable", "/no/such/python")
    assert not aside.expect()
    assert aside.analyse(REQUESTS) == language.analyse(REQUESTS)


def test_a_model_that_is_missing_is_named_with_its_cure(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HORNBOOK_MODEL", "no_such_model")
    room = LanguageAside(SpacyLanguage())
    for _ in range(2):
        with pytest.raises(LanguageUnavailable, match="pip install no-such-model"):
            room.analyse(REQUESTS)
    room.rest()


def test_it_rests_and_begins_again(aside: LanguageAside, language: Language) -> None:
    aside.rest()
    for _ in range(2):
        assert aside.analyse(REQUESTS[:2]) == language.analyse(REQUESTS[:2])
        process = process_of(aside)
        aside.rest()
        assert process.returncode is not None


@pytest.mark.parametrize("cores", [1, 2])
def test_one_core_has_no_room_aside(language: Language, cores: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(language_aside, "_cores", lambda: cores)
    with language_aside.language_aside(language) as room:
        assert (room is language) == (cores == 1)


@pytest.mark.skipif(not os.path.isdir("/proc"), reason="looks into /proc")
@pytest.mark.parametrize("sent", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_it_does_not_outlive_a_run_that_is_stopped(sent: signal.Signals) -> None:
    code = (
        "import time; from lint_rules.language.pipeline import SpacyLanguage\n"
        "from lint_rules.engine.language_aside import LanguageAside\n"
        "room = LanguageAside(SpacyLanguage()); room.expect(); print(room._process.pid, flush=True); time.sleep(60)\n"
    )
    command = [sys.executable, "-c", code]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as run:
        assert run.stdout is not None
        aside = int(run.stdout.readline())
        run.send_signal(sent)
        run.wait(timeout=20)
    until = time.monotonic() + 20  # it may be loading the model, and looks up only then
    while time.monotonic() < until and _lives(aside):
        time.sleep(0.1)
    assert not _lives(aside)


def _lives(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    with open(f"/proc/{process}/stat", encoding="ascii") as file:
        return file.read().rpartition(")")[2].split()[0] != "Z"
