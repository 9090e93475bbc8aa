"""A long run shows on a terminal how far it has come, and nowhere else."""

import os
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from lint_rules.reports.progress import Progress, WatchedEnglish, progress
from tests.cache.support import DRAFT, copy_of, environment, findings


def run_at_a_terminal(course: Path, cache: Path) -> tuple[str, str]:
    """Standard output in a pipe, and what a terminal behind standard error shows."""
    ours, theirs = os.openpty()
    run = subprocess.Popen(
        [sys.executable, "-m", "lint_rules", "book", "--format", "json"],
        cwd=course,
        env={**environment(cache), "TERM": "xterm-256color"},
        stdout=subprocess.PIPE,
        stderr=theirs,
        encoding="utf-8",
    )
    os.close(theirs)
    shown: list[bytes] = []

    def read() -> None:
        try:
            while data := os.read(ours, 4096):
                shown.append(data)
        except OSError:  # the other end is closed
            pass

    reader = threading.Thread(target=read)
    reader.start()
    output, _ = run.communicate(timeout=240)
    reader.join()
    os.close(ours)
    return output, b"".join(shown).decode("utf-8", "replace")


@pytest.mark.skipif(sys.platform == "win32", reason="a terminal of POSIX")
def test_a_long_run_at_a_terminal_counts_units(tmp_path):
    course = copy_of(DRAFT, tmp_path)
    for path in course.rglob("unit-*.md"):  # long enough on any machine: the same lessons, each time with other words
        front, lessons = path.read_text("utf-8").split("\n## ", 1)
        more = (lessons.replace("kite", f"kite{letter}") for letter in "abcdefgh")
        path.write_text("\n## ".join([front, lessons, *more]), encoding="utf-8")
    output, shown = run_at_a_terminal(course, tmp_path / "cache")
    assert "Units read" in shown
    assert findings(output)
    before = time.monotonic()
    output, shown = run_at_a_terminal(course, tmp_path / "cache")
    assert shown == "" or time.monotonic() - before > 1, "a short run shows nothing"
    assert findings(output)


def test_nobody_at_a_terminal_sees_nothing(capsys, monkeypatch):
    monkeypatch.setattr("lint_rules.reports.progress._AFTER", 0.0)
    with progress() as counts:
        counts.expect_units(2)
        counts.units_done(1)
    assert capsys.readouterr() == ("", "")


def test_both_counts_are_drawn(capsys, monkeypatch):
    counts = Progress()
    english = counts.watch(Silent())
    counts.expect_units(3)
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setenv("COLUMNS", "100")
    counts.show()
    counts.units_done(2)
    english.check(["It is a cat."] * 5, "en-GB")
    counts.stop()
    shown = capsys.readouterr().err
    assert "Units read" in shown
    assert "2/3" in shown
    assert "Texts checked for English" in shown
    assert "5/5" in shown


class Silent:
    version = "silent"

    def check(self, texts, variety):
        assert variety == "en-GB"
        return [() for _ in texts]


def test_english_is_asked_for_a_few_texts_at_a_time_in_order():
    told: list[tuple[int, int]] = []
    asked: list[int] = []

    class Echo:
        version = "echo 1"

        def check(self, texts, variety):
            asked.append(len(texts))
            return [(text,) for text in texts]

    texts = [f"text {number}" for number in range(450)]
    watched = WatchedEnglish(Echo(), lambda done, total: told.append((done, total)))
    assert watched.check(texts, "en-GB") == [(text,) for text in texts]
    assert asked == [200, 200, 50]
    assert told == [(0, 450), (200, 0), (200, 0), (50, 0)]
    assert watched.version == "echo 1"
