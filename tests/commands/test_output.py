"""Whatever a terminal, a pipe or a disk is like, hornbook says what it has to say, or says that it cannot."""

import json
import os
import re
import signal
import struct
import subprocess
import sys
import time
from contextlib import suppress
from itertools import pairwise
from pathlib import Path
from threading import Thread

import pytest

from tests.commands.world import ONE, TWO, WORDS, make_course, process, unit

if os.name != "nt":
    import fcntl
    import termios

posix = pytest.mark.skipif(os.name == "nt", reason="a terminal of POSIX")
DRAFT = "example_manuscript/first_draft"
ROOT = Path(__file__).parents[2]
ODD = "The “kíte” is enormous 😀. My favorite color!"
ENCODINGS = [
    pytest.param({"PYTHONIOENCODING": "cp1252", "PYTHONUTF8": "0"}, id="a Windows code page"),
    pytest.param({"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"}, id="ASCII"),
    pytest.param({"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}, id="the C locale"),
]
BARE = [
    pytest.param({"HOME": None, "HORNBOOK_CACHE": None, "XDG_CACHE_HOME": "/dev/null/none"}, id="no home"),
    pytest.param({"HORNBOOK_CACHE": "/dev/null"}, id="a cache that cannot be"),
]


@pytest.fixture
def course(tmp_path, tmp_path_factory, monkeypatch):
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path_factory.getbasetemp() / "kept-for-processes"))
    return make_course(tmp_path / "book", {TWO: unit(2, ODD).replace("**Steps:** Show the page.\n", "")})


@pytest.mark.parametrize("around", ENCODINGS)
def test_every_terminal_is_spoken_to_and_json_is_utf_8(course, around):
    shown = process("book", cwd=course, env=around)
    assert shown.returncode == 0, shown.stderr
    assert b"enormous" in shown.stdout
    machine = process("book", "--format", "json", cwd=course, env=around)
    found = {one["text"] for one in json.loads(machine.stdout.decode("utf-8"))["findings"]}
    assert {"kíte", "enormous"} & found


@pytest.mark.parametrize("around", BARE)
def test_it_does_without_a_home_and_a_cache(course, around):
    shown = process("book", cwd=course, env=around)
    assert (shown.returncode, shown.stderr) == (0, b"")
    assert b"enormous" in shown.stdout


@pytest.mark.parametrize("around", ENCODINGS[:1])
def test_what_other_programs_read_is_utf_8_in_every_locale(course, around):
    level = process("level", "--lines", "--format", "json", cwd=course, env=around, given=ODD.encode())
    assert [word["text"] for word in json.loads(level.stdout.decode("utf-8"))["words"]][1] == "kíte"
    assert process("words", "--csv", "-", cwd=course, env=around).stdout.decode("utf-8").startswith("level,word,")
    assert "kíte" in process("mend", "--show", cwd=course, env=around).stdout.decode("utf-8")
    assert process("rules", "long-sentence", cwd=course, env=around).returncode == 0


@pytest.mark.skipif(os.name == "nt", reason="a shell")
@pytest.mark.parametrize("command", ["book", "proof --format json", "rules", "words", "words --csv -"])
def test_a_reader_who_goes_away_is_no_trouble(course, command):
    line = f"{sys.executable} -m lint_rules {command} | head -c 1 >/dev/null; exit ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", line], cwd=course, capture_output=True, timeout=120, check=False)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="Linux")
@pytest.mark.parametrize("command", ["book", "book --format json", "rules", "words --csv -", "level course.yaml"])
def test_a_full_disk_is_an_error(course, command):
    with open("/dev/full", "wb") as full:
        done = process(*command.split(), cwd=course, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 2
    assert done.stderr.decode().startswith("hornbook: what was found could not be written: ")
    assert done.stderr.count(b"\n") == 1


@pytest.mark.skipif(os.name == "nt", reason="a shell")
@pytest.mark.parametrize("command", ["book", "book --format json", "words --csv -"])
def test_a_closed_output_changes_nothing_about_the_status(course, command):
    line = f"{sys.executable} -m lint_rules {command} >&-"
    done = subprocess.run(["bash", "-c", line], cwd=course, capture_output=True, timeout=120, check=False)
    assert (done.returncode, done.stderr) == (0, b"")


def heeds_interrupts():
    """As at a terminal, also where these tests run in the background and were told to heed no Ctrl-C."""
    signal.signal(signal.SIGINT, signal.default_int_handler)


@pytest.mark.skipif(os.name == "nt", reason="POSIX signals")
def test_who_stops_it_gets_one_line(course):
    busy = make_course(course, {ONE: unit() + "\n\nThe kite is gigantic, and it is red." * 8_000})
    running = subprocess.Popen(
        [sys.executable, "-m", "lint_rules", "book", "--no-cache"],
        cwd=busy,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        preexec_fn=heeds_interrupts,
    )
    time.sleep(1.5)
    running.send_signal(signal.SIGINT)
    out, err = running.communicate(timeout=60)
    assert (running.returncode, out, err) == (2, b"", b"hornbook: stopped.\n")


def at_a_terminal(*arguments, cwd, rows=24, columns=80):
    """What a command shows on a terminal of that size, row by row without colours, and its status."""
    ours, theirs = os.openpty()
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
    around = {"TERM": "xterm", "COLUMNS": str(columns), "LINES": str(rows)}
    said = bytearray()

    def read():
        with suppress(OSError):
            while data := os.read(ours, 65536):
                said.extend(data)

    reader = Thread(target=read)
    reader.start()
    done = process(*arguments, cwd=cwd, env=around, capture_output=False, stdout=theirs, stderr=subprocess.DEVNULL)
    os.close(theirs)
    reader.join(timeout=30)
    os.close(ours)
    plain = re.sub(r"\x1b\[[0-9;]*m", "", said.decode("utf-8"))
    return plain.split("\r\n"), done.returncode


@posix
def test_a_terminal_has_its_lines_broken_between_words_and_a_pipe_has_them_whole(course):
    lines, status = at_a_terminal("proof", "--all", TWO, cwd=course)
    assert status == 0
    assert max(map(len, lines)) <= 80
    piped = process("proof", TWO, cwd=course).stdout.decode("utf-8").splitlines()
    assert max(map(len, piped)) > 80
    messages = [re.sub(r"^\S+:\d+:\d+: \w+: ", "", line) for line in piped]
    assert set(" ".join(messages).split()) <= set(" ".join(lines).split()), "no word is cut"


@posix
@pytest.mark.parametrize("rows", [24, 40, 60])
def test_a_terminal_is_filled_once_and_says_what_is_left_and_how_to_see_it(rows):
    lines, status = at_a_terminal("book", DRAFT, cwd=ROOT, rows=rows, columns=100)
    assert status == 1
    assert len(lines) <= rows
    (left,) = [line for line in lines if line.startswith("Not shown: ")]
    shown = sum(bool(re.match(r" {6}line \d+: ", line)) for line in lines)
    counted = sum(map(int, re.findall(r"(\d+) (?:stop|quer|note)", left.split("(")[0])))
    found = json.loads(process("book", DRAFT, "--format", "json", cwd=ROOT).stdout)
    assert shown + counted == len(found["points"])
    assert "`--all`" in " ".join(lines)


@posix
def test_stops_come_first_then_places_in_the_order_of_the_book():
    lines, _ = at_a_terminal("book", DRAFT, "--all", cwd=ROOT, columns=100)
    heads = [line for line in lines if re.match(r"\d+ (stop|quer|note)", line)]
    assert [head.split()[1].rstrip(":,") for head in heads] == ["stops", "queries", "notes"]
    first = lines[lines.index(heads[0]) : lines.index(heads[1])]
    assert first[1].startswith("  level-1, unit 1: A cake for the ferry")
    assert first[2] == "    Lesson 4, activity 1: Look and read."
    assert first[3].startswith("      line 197: “has eaten”")
    queries = lines[lines.index(heads[1]) : lines.index(heads[2])]
    units = [re.match(r"  level-1, unit (\d+)", line)[1] for line in queries if re.match(r"  level-1, unit", line)]
    assert units == ["1", "2"]
    numbers = [int(line.split()[1].rstrip(":")) for line in queries if re.match(r" {6}line \d", line)]
    assert sum(later < earlier for earlier, later in pairwise(numbers)) == 1  # once: where unit 2 begins


@pytest.mark.parametrize(
    ("arguments", "wanted"),
    [
        (["--only", "stops"], lambda point, paths: point["severity"] == "stop"),
        (["--unit", "level-1/2"], lambda point, paths: f"{DRAFT}/level-1/unit-02.md" in paths),
        (["--unit", "1"], lambda point, paths: f"{DRAFT}/level-1/unit-01.md" in paths),
        (["--rule", "long-sentence"], lambda point, paths: point["rule"] == "long-sentence"),
        (
            ["--rule", "word-above-level", "--only", "queries"],
            lambda point, paths: (point["rule"], point["severity"]) == ("word-above-level", "query"),
        ),
    ],
)
def test_part_of_a_book_is_shown_and_the_whole_is_judged(hornbook, monkeypatch, arguments, wanted):
    monkeypatch.chdir(ROOT)
    whole = hornbook("book", DRAFT, "--format", "json").json
    part = hornbook("book", DRAFT, "--format", "json", *arguments)
    assert part.status == 1

    def said(book):
        return [
            (point["rule"], point["message"])
            for point in book["points"]
            if wanted(point, [book["findings"][at]["path"] for at in point["findings"]])
        ]

    assert said(part.json) == said(whole) != []
    assert len(part.json["points"]) == len(said(whole))
    shown = hornbook("book", DRAFT, *arguments).out.splitlines()
    assert any(f"{len(said(whole))} of {len(whole['points'])} points" in line for line in shown)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["--unit", "level-1/9"], "There are: level-1/1, level-1/2"),
        (["--rule", "long-sentense"], "Did you mean long-sentence?"),
        (["--only", "all"], "--only"),
    ],
)
def test_a_part_that_is_not_there_is_an_error_with_a_cure(hornbook, monkeypatch, arguments, says):
    monkeypatch.chdir(ROOT)
    said = hornbook("book", DRAFT, *arguments)
    assert said.status == 2
    assert says in said.err


OUTPUTS = ["book --report", "release --sarif", "release --junit", "release --record", "release --report", "words --csv"]


@pytest.mark.parametrize("option", [*OUTPUTS, "words --xlsx"])
@pytest.mark.parametrize("name", ["", "level-1", "nowhere/out", "course.yaml", ONE, "words/level-1.csv"])
def test_an_output_never_takes_the_place_of_what_is_read(hornbook, tmp_path, monkeypatch, option, name):
    monkeypatch.chdir(make_course(tmp_path))
    said = hornbook(*option.split(), name)
    assert said.status == 2
    assert option.split()[1] in said.err
    assert (tmp_path / "words" / "level-1.csv").read_text() == WORDS
    assert (tmp_path / ONE).read_text() == unit()


def test_two_outputs_do_not_share_a_file_or_standard_output(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    assert "the same file" in hornbook("words", "--csv", "map", "--xlsx", "map").err
    assert hornbook("words", "--csv", "map.csv", "--xlsx", "map.xlsx").out == "Written: map.csv\nWritten: map.xlsx\n"
    assert hornbook("book", "--report", "report.html").out.endswith("Written: report.html\n")
    assert "standard output" in hornbook("words", "--csv", "-", "--format", "json").err


def test_a_unit_is_asked_for_by_its_number(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path))
    said = hornbook("words", "--unit", "one")
    assert (said.status, "a number is wanted, not 'one'" in said.err) == (2, True)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_that_may_not_be_written_is_named(hornbook, tmp_path, monkeypatch):
    monkeypatch.chdir(make_course(tmp_path / "book"))
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o555)
    for option in OUTPUTS:
        said = hornbook(*option.split(), closed / "out")
        assert said.status == 2
        assert "Permission denied" in said.err
    (tmp_path / "book").chmod(0o555)
    assert "carried.yaml" in hornbook("carry").err


def test_a_wrong_word_on_the_command_line_gets_one_sentence(hornbook):
    for words in (["prof"], ["proof", "--formt", "json"], ["book", "--format", "xml"], []):
        said = hornbook(*words)
        assert said.status == 2
        assert said.err.startswith("hornbook: ")
        assert said.err.count("\n") == 1
