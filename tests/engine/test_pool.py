"""A pool says what this process says, leaves nothing out when it breaks, and no process behind."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from lint_rules.engine import pool_start
from lint_rules.engine.check import choose
from lint_rules.engine.pool import UnitPool
from lint_rules.engine.pool_start import UNITS_EACH
from lint_rules.engine.read_units import UnitReader
from lint_rules.engine.registry import load_rules
from lint_rules.engine.run import Job, run
from lint_rules.source import Source
from tests.cache.support import environment
from tests.commands.test_output import heeds_interrupts
from tests.commands.world import COURSE, WORDS, make_course, unit
from tests.support import TODAY, course_of, unit_sources

MANY = 2 * UNITS_EACH  # as many as KITES
KITES = ("red", "blue", "old", "new", "big", "small", "thin", "long", "good", "bad")
FILES = {"course.yaml": COURSE, "words/level-1.csv": WORDS} | {
    f"level-1/unit-{number:02}.md": unit(number, f"The {kite} kite is enormous.")
    for number, kite in enumerate(KITES, start=1)
}
processes = pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="looks into /proc")


@pytest.fixture
def sources(monkeypatch) -> list[Source]:
    monkeypatch.setattr(pool_start, "cores", lambda: 2)
    return unit_sources(FILES)


def pool_of(files: dict[str, str], store: Path | None = None) -> UnitPool:
    course = course_of(files)
    return UnitPool(course, choose(load_rules(), course, english=False), frozenset(), store)


def test_it_says_what_this_process_says(sources, language, tmp_path):
    one = pool_of(FILES, tmp_path)
    here = UnitReader(one.course, one.rules, language).read(sources)
    assert list(one.read(sources)) == list(here.values())
    assert any(outcome.found for outcome in here.values()), "else it shows nothing"
    assert list(tmp_path.glob("kept-*.sqlite")), "what was analysed is kept"


@pytest.mark.parametrize(("cores", "units"), [(1, MANY), (2, MANY - 1), (8, 1), (2, 0)])
def test_where_it_would_not_pay_there_is_none(sources, monkeypatch, cores, units):
    monkeypatch.setattr(pool_start, "cores", lambda: cores)
    assert list(pool_of(FILES).read(sources[:units])) == []


class Counted(UnitPool):
    """A pool that is of use for the first few units only."""

    def read(self, sources):
        yield from list(super().read(sources))[:3]


@pytest.mark.parametrize("kind", [UnitPool, Counted])
def test_a_run_reads_itself_what_the_pool_leaves(sources, language, kind):
    usual = pool_of(FILES)
    pooled = kind(usual.course, usual.rules, usual.files, usual.store)
    job = Job(usual.course, sources, load_rules(), language, TODAY, True)
    with_pool = Job(usual.course, sources, load_rules(), language, TODAY, True, pool=pooled)
    assert run(with_pool) == run(job)


def course_on_disk(folder: Path) -> Path:
    return make_course(folder, FILES)


# As the command does, but with two cores on any machine, and something done to the processes when the first has begun.
RUN = (
    "import os, sys\n"
    "from lint_rules.cli import main\n"
    "from lint_rules.engine import pool_start\n"
    "pool_start.cores = lambda: 2\n"
    "sys.exit(main(['book', '--no-cache', '--format', 'json']))\n"
)


def started(course: Path, code: str = RUN) -> "subprocess.Popen[str]":
    # An import that Ctrl-C breaks off leaves its file to the interpreter, which would warn of that.
    return subprocess.Popen(
        [sys.executable, "-W", "error", "-W", "ignore::ResourceWarning", "-c", code],
        cwd=course,
        env=environment(course / "cache"),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
        start_new_session=True,
        preexec_fn=heeds_interrupts,
    )


def of_session(session: int) -> set[int]:
    """The processes of a session that still run."""
    found = set()
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            name, _, rest = (folder / "stat").read_text(encoding="utf-8").rpartition(")")
        except OSError:
            continue
        state, _, _, its_session, *_ = rest.split()
        if int(its_session) == session and state != "Z":
            found.add(int(name.split()[0]))
    return found


def wait_for(session: int, fits, seconds: float = 120) -> set[int]:
    until = time.monotonic() + seconds
    while time.monotonic() < until and not fits(found := of_session(session)):
        time.sleep(0.05)
    return found


@processes
@pytest.mark.slow
@pytest.mark.parametrize("sent", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_a_run_that_is_stopped_is_not_clean_and_leaves_no_process(sent, tmp_path):
    run = started(course_on_disk(tmp_path))
    wait_for(run.pid, lambda found: len(found) >= 5)  # the run, two of the library's servers, two that read
    if sent == signal.SIGINT:
        os.killpg(run.pid, sent)  # as a terminal does
    else:
        run.send_signal(sent)
    output, errors = run.communicate(timeout=120)
    assert run.returncode not in (0, 1)
    assert sent != signal.SIGINT or errors == "hornbook: stopped.\n"
    assert output == ""
    assert wait_for(run.pid, lambda found: not found) == set()


@processes
@pytest.mark.slow
def test_when_its_processes_are_killed_the_run_says_the_same(tmp_path):
    course = course_on_disk(tmp_path)
    truth, errors = started(course).communicate(timeout=240)
    assert (errors, '"findings": []' in truth) == ("", False)
    run = started(course)
    while len(found := wait_for(run.pid, lambda found: len(found) >= 5)) >= 5:
        os.kill(max(found), signal.SIGKILL)  # the youngest: one that reads
        time.sleep(0.05)
        break
    output, errors = run.communicate(timeout=240)
    assert (output, errors) == (truth, "")
    assert wait_for(run.pid, lambda found: not found) == set()


@pytest.mark.slow
def test_where_no_process_can_be_started_the_run_says_the_same(tmp_path):
    course = course_on_disk(tmp_path)
    truth, _ = started(course).communicate(timeout=240)
    nobody = (
        "import concurrent.futures\n"
        "class NoPool:\n"
        "    def __init__(self, *_, **__):\n"
        "        raise OSError(11, 'no more processes')\n"
        "concurrent.futures.ProcessPoolExecutor = NoPool\n"
    )
    assert started(course, nobody + RUN).communicate(timeout=240)[0] == truth
