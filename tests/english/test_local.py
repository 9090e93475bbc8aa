"""A server of our own: started when needed, ended however the run ends, and plain words when it cannot be."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import psutil
import pytest

from lint_rules.english import launcher
from lint_rules.english.connect import connect
from lint_rules.language.service import EnglishUnavailable

pytest.importorskip("language_tool_python", reason="needs the extra hornbook[english]")

RUN = """
import signal, sys, time
if hasattr(signal, "SIGHUP"):  # a test run in the background is started deaf to these, and so are its children
    signal.signal(signal.SIGHUP, signal.SIG_DFL)
    signal.signal(signal.SIGINT, signal.default_int_handler)
from lint_rules.english.connect import connect
with connect("local") as english:
    if "stay" in sys.argv:
        english._start()  # without the four seconds that a first check takes
        print("started", flush=True)
        time.sleep(60)
    found = english.check(["I have got a umbrella."], "en-GB")
    print(found[0][0].rule, flush=True)
"""


@contextmanager
def run(*arguments: str, **environment: str) -> Iterator["subprocess.Popen[str]"]:
    process = subprocess.Popen(
        [sys.executable, "-c", RUN, *arguments],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, **environment},
    )
    try:
        yield process
    finally:
        process.kill()
        process.wait()
        process.stdout.close()


def servers_of(process: "subprocess.Popen[str]") -> list[psutil.Process]:
    children = psutil.Process(process.pid).children(recursive=True)
    return [child for child in children if "org.languagetool.server.HTTPServer" in words_of(child)]


def words_of(process: psutil.Process) -> list[str]:
    try:
        return process.cmdline()
    except (psutil.NoSuchProcess, psutil.ZombieProcess):  # it has ended between the list and the question
        return []


def gone(processes: list[psutil.Process]) -> bool:
    return not psutil.wait_procs(processes, timeout=15)[1]


@pytest.mark.english
@pytest.mark.skipif(os.name == "nt", reason="signals are for POSIX")
@pytest.mark.parametrize("name", ["SIGKILL", "SIGTERM", "SIGHUP", "SIGINT"])
def test_a_run_that_is_killed_leaves_no_server_behind(installation, name):
    with run("stay") as process:
        assert process.stdout.readline().strip() == "started"
        servers = servers_of(process)
        assert servers
        process.send_signal(getattr(signal, name))
        assert gone(servers)


@pytest.mark.english
def test_a_run_that_ends_leaves_no_server_behind_and_needs_no_proxy(installation):
    nowhere = "http://127.0.0.1:9"
    with run(HTTP_PROXY=nowhere, http_proxy=nowhere, ALL_PROXY=nowhere) as process:
        assert process.stdout.readline().strip() == "EN_A_VS_AN"
        servers = servers_of(process) if process.poll() is None else []
        assert process.wait(timeout=30) == 0
        assert gone(servers)


@pytest.mark.english
def test_a_server_that_dies_in_a_long_session_is_started_again(installation, real_english):
    with connect("local") as english:
        english._start()
        guard = psutil.Process(english._guard.pid)
        for server in guard.children():
            server.kill()
        assert gone([guard])
        assert english.check(["It's an kite."], "en-GB")[0]


@pytest.mark.english
def test_the_version_is_known_before_a_server_is_started(installation, real_english):
    with connect("local") as english:
        release = installation.glob("LanguageTool-*").__next__().name.removeprefix("LanguageTool-")
        assert english.version.startswith(f"LanguageTool {release} ")
        assert english._guard is None


@pytest.fixture
def broken(tmp_path: Path, monkeypatch) -> Path:
    """An installation and a Java that say what the test makes them say."""
    home = tmp_path / "lt" / "LanguageTool-6.8"
    home.mkdir(parents=True)
    (home / "languagetool-server.jar").write_bytes(b"")
    monkeypatch.setenv("LTP_PATH", str(home.parent))
    bin_ = tmp_path / "bin"
    bin_.mkdir()
    monkeypatch.setenv("PATH", f"{bin_}{os.pathsep}{os.environ['PATH']}")
    return bin_


def java(folder: Path, script: str, version: str = "17.0.1") -> None:
    text = f"""#!/bin/sh
if [ "$1" = "-version" ]; then echo 'openjdk version "{version}" 2021-10-19' >&2; exit 0; fi
echo "$@" >> "{folder}/calls"
{script}
"""
    (folder / "java").write_text(text)
    (folder / "java").chmod(0o755)


def unavailable() -> str:
    with connect("local") as english, pytest.raises(EnglishUnavailable) as error:
        english.check(["A kite."], "en-GB")
    return str(error.value)


@pytest.mark.skipif(os.name == "nt", reason="the stand-in is a shell script")
def test_a_server_that_cannot_start_is_tried_once_and_its_last_words_are_said(broken):
    java(broken, "echo 'Error: Invalid or corrupt jarfile'; exit 1")
    assert "could not be started on this machine: Error: Invalid or corrupt jarfile." in unavailable()
    assert len((broken / "calls").read_text().splitlines()) == 1


@pytest.mark.skipif(os.name == "nt", reason="the stand-in is a shell script")
def test_a_port_that_another_program_took_is_tried_again_a_few_times(broken):
    java(broken, "echo 'java.net.BindException: Address already in use'; exit 1")
    assert "Address already in use" in unavailable()
    calls = (broken / "calls").read_text().splitlines()
    assert len(calls) == launcher.TRIES
    assert len(set(calls)) > 1


@pytest.mark.skipif(os.name == "nt", reason="the stand-in is a shell script")
def test_a_server_that_never_gets_ready_is_given_up_and_ended(broken, monkeypatch):
    monkeypatch.setattr(launcher, "STARTS_WITHIN", 1)
    java(broken, f"echo $$ > {broken}/pid; exec sleep 60")
    assert "it was not ready after 1 seconds" in unavailable()
    assert not psutil.pid_exists(int((broken / "pid").read_text()))


@pytest.mark.skipif(os.name == "nt", reason="the stand-in is a shell script")
def test_an_old_java_is_said(broken):
    java(broken, "exit 1", version="11.0.1")
    assert "Java 17 or newer is needed" in unavailable()


def test_no_java_is_said(broken, monkeypatch):
    monkeypatch.setenv("PATH", str(broken))
    assert "no Java was found" in unavailable()


@pytest.mark.skipif(os.name == "nt", reason="the stand-in is a shell script")
def test_a_missing_installation_is_said_and_nothing_is_fetched(broken, monkeypatch, tmp_path):
    from language_tool_python import download_lt

    java(broken, "exit 1")
    monkeypatch.setenv("LTP_PATH", str(tmp_path / "empty"))
    monkeypatch.setattr(download_lt.requests, "get", lambda *_, **__: pytest.fail("it went to fetch"))
    said = unavailable()
    assert "There is no LanguageTool in" in said
    assert "downloads nothing by itself" in said


def test_the_command_that_the_message_gives_is_one_that_the_package_has():
    from language_tool_python.download_lt import LocalLanguageTool

    assert callable(LocalLanguageTool.from_version_name(launcher.RELEASE).download)


def test_without_the_package_the_message_names_the_extra(monkeypatch):
    monkeypatch.setitem(sys.modules, "language_tool_python", None)
    assert "pip install 'hornbook[english]'" in unavailable()
