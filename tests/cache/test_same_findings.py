"""A run that remembers says what a run that does not says, whatever has changed in between."""

import json
import os
from collections.abc import Callable, Sequence
from contextlib import nullcontext
from pathlib import Path

import pytest

from lint_rules.cli import main
from lint_rules.engine.read_units import UnitReader
from lint_rules.language.service import EnglishMatch, Language, Request
from lint_rules.language.tokens import Analysis
from tests.cache.support import DRAFT, EXAMPLE, append_to, copy_of, replace_in


class Run:
    """Runs of a command over one course, in this process."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def __call__(self, command: str, *arguments: Path | str) -> dict[str, object]:
        main([command, "--format", "json", *map(str, arguments)])
        output, errors = self._capsys.readouterr()
        assert not errors
        found: dict[str, object] = json.loads(output)
        return found


@pytest.fixture
def run(capsys, tmp_path, monkeypatch) -> Run:
    monkeypatch.setenv("HORNBOOK_CACHE", str(tmp_path / "cache"))
    monkeypatch.delenv("HORNBOOK_ENGLISH", raising=False)
    return Run(capsys)


class Listening:
    """The language room that all tests share; says which texts it is asked for."""

    def __init__(self, room: Language) -> None:
        self.room = room
        self.asked: list[str] = []

    @property
    def version(self) -> str:
        return self.room.version

    def analyse(self, requests: Sequence[Request]) -> list[Analysis]:
        self.asked += dict.fromkeys(request.text for request in requests)
        return self.room.analyse(requests)


@pytest.fixture(autouse=True)
def analysed(monkeypatch, language) -> list[str]:
    """The texts that the language room is asked for."""
    room = Listening(language)
    monkeypatch.setattr("lint_rules.session.language_room", lambda: room)
    return room.asked


@pytest.mark.parametrize(
    ("command", "course"), [("book", EXAMPLE), ("book", DRAFT), ("proof", DRAFT), ("words", DRAFT)]
)
def test_cold_and_warm_say_what_a_run_without_says(course, command, run, tmp_path, analysed, monkeypatch):
    folder = copy_of(course, tmp_path)
    monkeypatch.chdir(folder)
    without = run(command, "--no-cache")
    assert analysed
    assert run(command) == without
    analysed.clear()
    assert run(command) == without
    assert analysed == []


def test_one_changed_sentence_is_all_that_is_analysed(run, tmp_path, analysed):
    folder = copy_of(DRAFT, tmp_path)
    before = run("book", folder)
    analysed.clear()
    replace_in(folder / "level-1/unit-02.md", "It's a red kite.", "It's an economical kite.")
    after = run("book", folder)
    assert len(analysed) == 1
    assert "economical" in analysed[0]
    assert after == run("book", folder, "--no-cache")
    assert after == run("book", folder)
    assert after != before


def test_a_unit_by_itself_is_remembered_for_the_book(run, tmp_path, analysed):
    folder = copy_of(DRAFT, tmp_path)
    for unit in sorted(folder.glob("level-1/*.md")):
        run("proof", unit)
    analysed.clear()
    assert run("book", folder) == run("book", folder, "--no-cache")
    assert len(analysed) == len(run_texts(folder)), "only the run without"


def run_texts(folder: Path) -> list[str]:
    """The different texts of a course."""
    from lint_rules.course.folder import read_course_folder
    from lint_rules.engine.check import requests_of
    from lint_rules.language.grammar.labels import structures_of_label
    from lint_rules.language.grammar.structures import STRUCTURE_NAMES
    from lint_rules.manuscript.reading import read_unit
    from lint_rules.page.readings import readings_of

    read = read_course_folder(folder, [], STRUCTURE_NAMES, structures_of_label)
    assert read.course is not None
    return list(dict.fromkeys(r for unit in read.units for r in requests_of(readings_of(read_unit(unit)), read.course)))


def sharper_limit(folder: Path) -> None:
    append_to(folder / "course.yaml", "    sentence: {words: 4}\n")


def rule_off(folder: Path) -> None:
    append_to(folder / "course.yaml", "rules:\n  long-sentence: off\n")


def rule_heavier(folder: Path) -> None:
    append_to(folder / "course.yaml", "rules:\n  short-survey: stop\n")


def word_known(folder: Path) -> None:
    replace_in(folder / "course.yaml", "known: [ferry, captain]", "known: [ferry, captain, enormous]")


def name_added(folder: Path) -> None:
    replace_in(folder / "course.yaml", "[Mina, Rafi, Lou, Dot]", "[Mina, Rafi, Lou]")


def american(folder: Path) -> None:
    replace_in(folder / "course.yaml", "variety: en-GB", "variety: en-US")


def word_moved(folder: Path) -> None:
    file = folder / "words/level-1.csv"
    rows = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join(row.replace(",2,", ",1,") if row.startswith("kite,") else row for row in rows) + "\n")


def word_taken_out(folder: Path) -> None:
    file = folder / "words/level-1.csv"
    rows = file.read_text(encoding="utf-8").splitlines(keepends=True)
    file.write_text("".join(row for row in rows if not row.startswith("cake,")), encoding="utf-8")


def grammar_of_another_unit(folder: Path) -> None:
    replace_in(folder / "level-1/unit-02.md", "grammar: [can]", "grammar: [present simple]")


def art_file_gone(folder: Path) -> None:
    (folder / "art/cake.svg").unlink()


def art_file_new(folder: Path) -> None:
    (folder / "art/cake-box.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")


def unit_gone(folder: Path) -> None:
    (folder / "level-1/unit-02.md").unlink()


def unit_renamed(folder: Path) -> None:
    (folder / "level-1/unit-02.md").rename(folder / "level-1/unit-03.md")


def line_put_in_above(folder: Path) -> None:
    replace_in(folder / "level-1/unit-01.md", "\n---\n\n", "\n---\n\n\n")


def other_line_ends(folder: Path) -> None:
    file = folder / "level-1/unit-01.md"
    file.write_bytes(b"\xef\xbb\xbf" + file.read_bytes().replace(b"\n", b"\r\n"))


def stet_gone(folder: Path) -> None:
    replace_in(folder / "level-1/unit-02.md", "<!-- stet missing-recurring-activity", "<!-- missing-recurring-activity")


CHANGES: list[Callable[[Path], None]] = [
    sharper_limit,
    rule_off,
    rule_heavier,
    word_known,
    name_added,
    american,
    word_moved,
    word_taken_out,
    grammar_of_another_unit,
    art_file_gone,
    art_file_new,
    unit_gone,
    unit_renamed,
    line_put_in_above,
    other_line_ends,
    stet_gone,
]


@pytest.mark.parametrize("change", CHANGES, ids=lambda change: change.__name__.replace("_", " "))
def test_nothing_stale_after(change, run, tmp_path):
    folder = copy_of(DRAFT, tmp_path)
    before = run("book", folder)
    change(folder)
    after = run("book", folder)
    assert after == run("book", folder, "--no-cache")
    assert after != before, "this change has to show, or the test shows nothing"


def test_the_same_size_and_time_stamp_do_not_hide_a_change(run, tmp_path):
    folder = copy_of(DRAFT, tmp_path)
    unit = folder / "level-1/unit-01.md"
    before, stamp = run("proof", unit), unit.stat()
    replace_in(unit, "enormous cake", "handsome cake")
    os.utime(unit, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))
    assert unit.stat().st_size == stamp.st_size
    assert run("proof", unit) == run("proof", unit, "--no-cache") != before


def test_two_courses_with_the_same_unit_do_not_answer_for_each_other(run, tmp_path):
    one = copy_of(DRAFT, tmp_path / "one")
    other = copy_of(DRAFT, tmp_path / "other")
    word_taken_out(other)
    assert run("book", one)["findings"] != run("book", other)["findings"]
    assert [run("book", folder) for folder in (one, other)] == [
        run("book", folder, "--no-cache") for folder in (one, other)
    ]


class Told:
    """An English checker that says one thing of every text."""

    def __init__(self, version: str, message: str) -> None:
        self.version = version
        self.message = message
        self.asked: list[str] = []

    def check(self, texts, variety):
        self.asked += texts
        return [
            (EnglishMatch(0, 2, "HE_VERB_AGR", "GRAMMAR", self.message),) if text.startswith("It") else ()
            for text in texts
        ]


def test_another_version_of_the_english_checker_is_asked_anew(run, tmp_path, monkeypatch):

    folder = copy_of(DRAFT, tmp_path)

    def book(english: Told) -> str:
        monkeypatch.setattr("lint_rules.session._connect", lambda address: nullcontext(english))
        return json.dumps(run("book", folder, "--english", "http://127.0.0.1:1"))

    first, again, newer = Told("5.1", "first word"), Told("5.1", "never asked"), Told("5.2", "second word")
    assert "first word" in book(first)
    assert first.asked
    assert "first word" in book(again)
    assert not again.asked
    assert "second word" in book(newer)
    without = run("book", folder)
    assert "second word" not in json.dumps(without)
    assert without == run("book", folder, "--no-cache")


def test_without_the_cache_nothing_is_written(run, tmp_path):
    run("book", copy_of(DRAFT, tmp_path), "--no-cache")
    assert not (tmp_path / "cache").exists()


def test_a_unit_that_a_rule_broke_on_is_read_again(run, tmp_path, monkeypatch, capsys):
    folder = copy_of(DRAFT, tmp_path)
    unit = folder / "level-1/unit-01.md"
    with monkeypatch.context() as patch:
        patch.setattr("lint_rules.rules.language_level.long_sentence.find", _breaks)
        assert main(["proof", "--format", "json", str(unit)]) == 3
    capsys.readouterr()
    assert run("proof", unit) == run("proof", unit, "--no-cache")


def _breaks(reading):
    raise ZeroDivisionError
    yield


@pytest.fixture
def units_read(monkeypatch) -> list[str]:
    """The units that are read, not remembered."""
    paths: list[str] = []
    plain = UnitReader.read

    def read(self, sources):
        paths.extend(source.path for source in sources)
        return plain(self, sources)

    monkeypatch.setattr(UnitReader, "read", read)
    return paths


def test_another_picture_makes_only_units_that_lack_one_be_read_again(run, tmp_path, units_read):
    folder = copy_of(DRAFT, tmp_path)
    run("book", folder)
    before = sorted(set(units_read))
    units_read.clear()
    lacking = "level-1/unit-01.md"
    append_to(folder / lacking, "\n![a red box](../art/no-such-box.svg){.drawing}\n")
    run("book", folder)
    assert units_read == [lacking]
    units_read.clear()
    (folder / "art").mkdir(exist_ok=True)
    (folder / "art/one-more.svg").write_text("<svg/>", encoding="utf-8")
    assert run("book", folder) == run("book", folder, "--no-cache")
    assert units_read[: -len(before)] == [lacking]
    assert len(before) > 1
