"""Whatever happens to the cache, the run goes on and says the same."""

import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from lint_rules.engine.cache.key_value_store import SCHEMA
from tests.cache.support import DRAFT, copy_of, environment, findings
from tests.warm import command

FILE = f"kept-{SCHEMA}.sqlite"
pytestmark = pytest.mark.usefixtures("warm")
posix = pytest.mark.skipif(sys.platform == "win32", reason="limits and signals of POSIX")
# As the command, but everything is written the moment it is put, so that there is much to disturb.
STRICT = "import warnings; warnings.simplefilter('error'); "
RUNS = "import sys; from lint_rules.cli import main; sys.exit(main())"
EAGER = (
    "import sys; from lint_rules.engine.cache import key_value_store as store; store._WAITING = 0; "
    "from lint_rules.cli import main; "
)


@pytest.fixture(scope="module")
def course(tmp_path_factory) -> Path:
    return copy_of(DRAFT, tmp_path_factory.mktemp("course"))


@pytest.fixture(scope="module")
def truth(course, tmp_path_factory) -> str:
    """What a run says that keeps nothing."""
    done = subprocess.run(
        [sys.executable, "-W", "error", "-m", "lint_rules", "book", "--format", "json", "--no-cache"],
        cwd=course,
        env=environment(tmp_path_factory.mktemp("unused")),
        capture_output=True,
        encoding="utf-8",
        timeout=240,
    )
    assert not done.stderr
    assert len(findings(done.stdout)) > 10
    return done.stdout


@pytest.fixture(scope="module")
def timed(course, truth, tmp_path_factory) -> tuple[Path, float]:
    """A cache in which all is kept, and the seconds that filling it took."""
    folder = tmp_path_factory.mktemp("filled")
    first = time.monotonic()
    assert book(course, folder).stdout == truth
    return folder, time.monotonic() - first


@pytest.fixture(scope="module")
def filled(timed) -> Path:
    """A cache in which all is kept."""
    folder, _ = timed
    return folder


def book(course: Path, cache: Path | str, **settings: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a folder, as a user does, but with the model in memory."""
    return subprocess.run(
        command("book", "--format", "json", code=STRICT + RUNS),
        cwd=course,
        env=environment(cache, **settings),
        capture_output=True,
        encoding="utf-8",
        timeout=240,
    )


def started(course: Path, cache: Path, code: str = EAGER + "sys.exit(main(sys.argv[1:]))") -> "subprocess.Popen[str]":
    return subprocess.Popen(
        command("book", "--format", "json", code=STRICT + code),
        cwd=course,
        env=environment(cache),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    )


@pytest.mark.slow
def test_eight_runs_at_once(course, truth, tmp_path):
    runs = [started(course, tmp_path) for _ in range(8)]
    for run in runs:
        output, errors = run.communicate(timeout=240)
        assert (output, errors, run.returncode) == (truth, "", 1)
    assert book(course, tmp_path).stdout == truth


@posix
@pytest.mark.slow
def test_killed_in_the_middle(course, truth, timed, tmp_path):
    _, length = timed
    for share in (0.6, 0.8, 0.95):  # while it reads, or while it writes
        run = started(course, tmp_path)
        time.sleep(length * share)
        run.send_signal(signal.SIGKILL)
        run.communicate(timeout=60)
    done = book(course, tmp_path)
    assert (done.stdout, done.stderr) == (truth, "")


@posix
def test_killed_while_it_writes(course, truth, tmp_path):
    code = EAGER + (
        "import os, signal\n"
        "tidy = store._tidy\n"
        "def killed(base, count=[0]):\n"
        "    count[0] += 1\n"
        "    count[0] < 3 or os.kill(os.getpid(), signal.SIGKILL)\n"
        "    tidy(base)\n"
        "store._tidy = killed\n"
        "sys.exit(main(sys.argv[1:]))"
    )
    run = started(course, tmp_path, code)
    run.communicate(timeout=240)
    assert run.returncode == -signal.SIGKILL
    assert (tmp_path / FILE).exists()
    assert book(course, tmp_path).stdout == truth


@posix
def test_a_full_disk(course, truth, tmp_path):
    code = (
        "import resource, sys\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))\n"
        "from lint_rules.cli import main\n"
        "sys.exit(main(sys.argv[1:]))"
    )
    output, errors = started(course, tmp_path, code).communicate(timeout=240)
    assert (output, errors) == (truth, "")


def test_a_damaged_file(course, truth, filled, tmp_path):
    file = Path(shutil.copy(filled / FILE, tmp_path / FILE))
    data = bytearray(file.read_bytes())
    for at in range(5000, len(data), 997):
        data[at] ^= 0x20
    file.write_bytes(data)
    for _ in range(2):
        done = book(course, tmp_path)
        assert (done.stdout, done.stderr) == (truth, "")


def test_a_file_where_the_folder_should_be(course, truth, tmp_path):
    (tmp_path / "cache").write_text("in the way")
    done = book(course, tmp_path / "cache")
    assert (done.stdout, done.stderr) == (truth, "")


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="a folder that nobody can write into")
@pytest.mark.parametrize("settings", [{"HORNBOOK_CACHE": "/proc/hornbook"}, {"HOME": "/proc", "HORNBOOK_CACHE": ""}])
def test_nowhere_to_write(course, truth, settings):
    done = book(course, "", **{"XDG_CACHE_HOME": "", **settings})
    assert (done.stdout, done.stderr) == (truth, "")


@posix
def test_a_folder_without_leave_to_write(course, truth, tmp_path):
    tmp_path.chmod(0o555)
    done = book(course, tmp_path)
    tmp_path.chmod(0o755)
    assert (done.stdout, done.stderr) == (truth, "")
