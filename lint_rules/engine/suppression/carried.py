"""Findings carried over: those that stood in a book on the day it took up hornbook.

Each entry is keyed on rule, file, place in the structure and quoted words, never on a line number. It covers as many
findings as it counts and no more, so that a second copy of an old fault is a new fault. A finding that has moved to
another place of the same file is still the old one; so is one that says what it misses by a key (`the word basket`)
where only the words it is shown at have changed (the unit's title, say). A file that was renamed is known by its unit's
title.
"""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from io import StringIO
from typing import Any, NamedTuple

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError

from lint_rules.finding import Finding, Severity, Status

CARRIED_FILE = "carried.yaml"
# What a child could be hurt by stays on the table: it is mended, or let stand by somebody who says why.
SAFETY = "missing-safety-note"
NEVER_CARRIED = ("unreadable-manuscript", "stet-without-reason", "stet-unused", "stet-lapsed")
_HEAD = """\
# Findings that stood in the book when it took up hornbook. They do not count; only new ones do.
# `hornbook carry` drops the entries whose finding is gone. Nothing is ever added to this list by itself.
"""
_CURE = "Restore the file from git."
_Key = tuple[str, str, str, str, str]


class BadCarried(Exception):
    """carried.yaml cannot be read; the message names file, line and cure."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One kind of old finding at one place, and how many of it there were. ``title`` is that of the unit."""

    rule: str
    path: str
    place: str
    words: str
    key: str = ""
    count: int = 1
    title: str = ""

    @property
    def identity(self) -> _Key:
        """What a finding must be to be this one."""
        return (self.rule, self.path, self.place, self.words, self.key)


def key_of_finding(finding: Finding) -> _Key:
    """What a finding is known by from one version of a book to the next."""
    return (finding.rule, finding.path, finding.place, " ".join(finding.text.split()), finding.key)


class Settled(NamedTuple):
    """Findings with those that are carried marked so; the entries that still stand, and those whose finding is gone."""

    findings: tuple[Finding, ...]
    kept: tuple[Entry, ...]
    gone: tuple[Entry, ...]


def carry_over(findings: Iterable[Finding], titles: Mapping[str, str] | None = None) -> tuple[Entry, ...]:
    """Take the open findings of a book as entries, in their order. ``titles`` are those of its units, by path."""
    counts = Counter(key_of_finding(f) for f in findings if _may_be_carried(f))
    return tuple(Entry(*key, count=count, title=(titles or {}).get(key[1], "")) for key, count in counts.items())


def follow_renames(entries: Sequence[Entry], titles: Mapping[str, str]) -> tuple[Entry, ...]:
    """Give entries whose file is gone the path of the one file that is new to the list and has that unit's title.

    ``titles`` are those of all units of the course, by path ('' where a file has none or cannot be read).
    """
    known = {entry.path for entry in entries}
    new: dict[str, list[str]] = defaultdict(list)
    for path, title in titles.items():
        if title and path not in known:
            new[title].append(path)
    lost: dict[str, set[str]] = defaultdict(set)
    for entry in entries:
        if entry.path not in titles:
            lost[entry.title].add(entry.path)
    moved = {
        path: new[title][0]
        for title, paths in lost.items()
        for path in paths
        if len(paths) == 1 and len(new.get(title, ())) == 1
    }
    return tuple(replace(entry, path=moved.get(entry.path, entry.path)) for entry in entries)


def apply_carried(
    findings: Sequence[Finding], entries: Sequence[Entry], judged: Callable[[Entry], bool] = lambda entry: True
) -> Settled:
    """Mark the findings that entries cover, and say which entries (with counts) still stand.

    First come the findings at the very place of their entry, then those that have moved within their file, then those
    whose words have changed under the same key. Entries that this run could not judge (their check did not run, their
    file was not read) still stand.
    """
    merged: dict[_Key, Entry] = {}
    for entry in entries:
        before = merged.get(entry.identity)
        merged[entry.identity] = replace(entry, count=entry.count + (before.count if before else 0))
    left = Counter({key: entry.count for key, entry in merged.items()})
    carried: set[int] = set()
    waiting = [(index, key_of_finding(f)) for index, f in enumerate(findings) if _may_be_carried(f)]
    for seen_as in (_as_it_is, _without_place, _without_words):
        alike: dict[tuple[str, ...], list[_Key]] = defaultdict(list)
        for key in merged:
            alike[seen_as(key)].append(key)
        for index, key in waiting:
            old = next((old for old in alike[seen_as(key)] if left[old] > 0), None) if index not in carried else None
            if old is not None:
                left[old] -= 1
                carried.add(index)
    marked = tuple(replace(f, status=Status.CARRIED) if i in carried else f for i, f in enumerate(findings))
    gone = {key: left[key] if judged(entry) else 0 for key, entry in merged.items()}
    return Settled(
        marked,
        tuple(replace(e, count=e.count - gone[key]) for key, e in merged.items() if e.count > gone[key]),
        tuple(replace(e, count=gone[key]) for key, e in merged.items() if gone[key]),
    )


def _may_be_carried(finding: Finding) -> bool:
    if finding.status is not Status.OPEN or finding.rule in NEVER_CARRIED:
        return False
    return not is_safety_stop(finding)


def is_safety_stop(finding: Finding) -> bool:
    """Say whether a finding is a safety note missing where somebody could be hurt: no book carries that over."""
    return finding.rule == SAFETY and finding.severity is Severity.STOP


def _as_it_is(key: _Key) -> tuple[str, ...]:
    return key


def _without_place(key: _Key) -> tuple[str, ...]:
    rule, path, _, words, own = key
    return rule, path, words, own


def _without_words(key: _Key) -> tuple[str, ...]:
    rule, path, place, _, own = key
    return (rule, path, place, own) if own else key


def read_carried(text: str) -> tuple[Entry, ...]:
    """Read carried.yaml. Raises BadCarried."""
    for number, line in enumerate(text.splitlines(), start=1):
        if line.startswith(("<<<<<<<", ">>>>>>>")):
            raise BadCarried(
                f"{CARRIED_FILE}:{number}: git has left the marks of a merge here. Keep the entries of both sides, "
                "take out the lines with <<<<<<<, ======= and >>>>>>>, then run `hornbook carry`."
            )
    try:
        data = YAML(typ="safe").load(text)
    except MarkedYAMLError as error:
        line_number = error.problem_mark.line + 1 if error.problem_mark else 1
        raise BadCarried(f"{CARRIED_FILE}:{line_number}: this is not YAML ({error.problem}). {_CURE}") from error
    except (YAMLError, RecursionError, ValueError) as error:
        why = " ".join(str(error).split()) or type(error).__name__
        raise BadCarried(f"{CARRIED_FILE}:1: this is not YAML ({why}). {_CURE}") from error
    if data is None:
        return ()
    if _has_aliases(data):
        raise BadCarried(f"{CARRIED_FILE}:1: parts of this file stand for one another (YAML's aliases). {_CURE}")
    if not isinstance(data, list):
        raise BadCarried(f"{CARRIED_FILE}:1: this should be a list of files. {_CURE}")
    return tuple(entry for number, item in enumerate(data, start=1) for entry in _entries(item, number))


def _has_aliases(data: object) -> bool:
    """Say whether a list or a mapping is used twice: read out, a small file could become a huge one."""
    seen: set[int] = set()
    waiting = [data]
    while waiting:
        one = waiting.pop()
        if isinstance(one, dict | list):
            if id(one) in seen:
                return True
            seen.add(id(one))
            waiting += one.values() if isinstance(one, dict) else one
    return False


def write_carried(entries: Sequence[Entry]) -> str:
    """The text of carried.yaml: file by file, in order."""
    files: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for entry in entries:
        row: dict[str, Any] = {"rule": entry.rule, "words": entry.words}
        if entry.place:
            row["place"] = entry.place
        if entry.key:
            row["key"] = entry.key
        if entry.count > 1:
            row["count"] = entry.count
        files.setdefault((entry.path, entry.title), []).append(row)
    yaml = YAML()
    yaml.width = 1_000_000
    out = StringIO()
    rows = [{"file": path, "title": title, "findings": found} for (path, title), found in files.items()]
    yaml.dump(rows, out)
    return _HEAD + out.getvalue()


def _entries(item: object, number: int) -> Iterable[Entry]:
    findings = item.get("findings") if isinstance(item, dict) else None
    if not isinstance(item, dict) or not set(item) <= {"file", "title", "findings"} or not isinstance(findings, list):
        raise BadCarried(f"{CARRIED_FILE}: item {number} needs file, title and findings, and nothing else. {_CURE}")
    for row in findings:
        yield _entry(row, _text(item.get("file")), _text(item.get("title")))


def _entry(row: object, path: str, title: str) -> Entry:
    if not isinstance(row, dict) or "rule" not in row or not set(row) <= {"rule", "words", "place", "key", "count"}:
        raise BadCarried(
            f"{CARRIED_FILE}: a finding of {path} needs rule and words, and may have place, key and count. {_CURE}"
        )
    count = row.get("count", 1)
    if not isinstance(count, int) or isinstance(count, bool) or count < 1:
        raise BadCarried(f"{CARRIED_FILE}: the count of a finding of {path} should be a whole number from 1.")
    rule, place, words, key = (_text(row.get(name)) for name in ("rule", "place", "words", "key"))
    return Entry(rule, path, place, words, key, count, title)


def _text(value: object) -> str:
    return "" if value is None else str(value)
