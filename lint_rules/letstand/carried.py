"""Findings carried over: those that stood in a book on the day it took up hornbook.

Each entry is keyed on rule, file, place in the structure and quoted words, never on a line number. It covers as many
findings as it counts and no more, so that a second copy of an old fault is a new fault. A finding that has moved to
another place of the same file is still the old one.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from io import StringIO
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError

from lint_rules.finding import Finding, Status

CARRIED_FILE = "carried.yaml"
NEVER_CARRIED = ("unreadable-manuscript", "stet-without-reason", "stet-unused", "stet-lapsed")
_KEYS = ("rule", "path", "place", "words", "key")
_HEAD = """\
# Findings that stood in the book when it took up hornbook. They do not count; only new ones do.
# `hornbook carry` drops the entries whose finding is gone. Nothing is ever added to this list by itself.
"""


class BadCarried(Exception):
    """carried.yaml cannot be read; the message names file, line and cure."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One kind of old finding at one place, and how many of it there were."""

    rule: str
    path: str
    place: str
    words: str
    key: str = ""
    count: int = 1


def entry_key(finding: Finding) -> tuple[str, str, str, str, str]:
    """What a finding is known by from one version of a book to the next."""
    return (finding.rule, finding.path, finding.place, " ".join(finding.text.split()), finding.key)


def carry_over(findings: Iterable[Finding]) -> tuple[Entry, ...]:
    """Take the open findings of a book as entries, sorted."""
    counts = Counter(entry_key(f) for f in findings if f.status is Status.OPEN and f.rule not in NEVER_CARRIED)
    return tuple(Entry(*key, count=count) for key, count in sorted(counts.items()))


def apply_carried(
    findings: Sequence[Finding], entries: Sequence[Entry]
) -> tuple[tuple[Finding, ...], tuple[Entry, ...]]:
    """Mark the findings that entries cover; give back the findings, and the entries (with counts) that are still used.

    First come the findings at the very place of their entry, then those that have moved within their file.
    """
    left = Counter({(e.rule, e.path, e.place, e.words, e.key): e.count for e in entries})
    used: Counter[tuple[str, str, str, str, str]] = Counter()
    carried: set[int] = set()
    open_ones = [(i, f) for i, f in enumerate(findings) if f.status is Status.OPEN and f.rule not in NEVER_CARRIED]
    for index, finding in open_ones:
        key = entry_key(finding)
        if left[key] > used[key]:
            used[key] += 1
            carried.add(index)
    for index, finding in open_ones:
        if index not in carried:
            rule, path, _, words, own = entry_key(finding)
            moved = (k for k in sorted(left) if (k[0], k[1], k[3], k[4]) == (rule, path, words, own))
            found = next((k for k in moved if left[k] > used[k]), None)
            if found is not None:
                used[found] += 1
                carried.add(index)
    marked = tuple(replace(f, status=Status.CARRIED) if i in carried else f for i, f in enumerate(findings))
    return marked, tuple(Entry(*key, count=used[key]) for key in sorted(used) if used[key])


def read_carried(text: str) -> tuple[Entry, ...]:
    """Read carried.yaml. Raises BadCarried."""
    try:
        data = YAML(typ="safe").load(text)
    except MarkedYAMLError as error:
        line = error.problem_mark.line + 1 if error.problem_mark else 1
        raise BadCarried(f"{CARRIED_FILE}:{line}: this is not YAML ({error.problem}). Restore it from git.") from error
    except YAMLError as error:
        raise BadCarried(f"{CARRIED_FILE}:1: this is not YAML ({error}). Restore it from git.") from error
    if data is None:
        return ()
    if not isinstance(data, list):
        raise BadCarried(f"{CARRIED_FILE}:1: this should be a list of findings. Restore it from git.")
    return tuple(_entry(item, number) for number, item in enumerate(data, start=1))


def write_carried(entries: Sequence[Entry]) -> str:
    """The text of carried.yaml."""
    rows: list[dict[str, Any]] = []
    for entry in entries:
        row: dict[str, Any] = {"rule": entry.rule, "path": entry.path, "place": entry.place, "words": entry.words}
        if entry.key:
            row["key"] = entry.key
        if entry.count > 1:
            row["count"] = entry.count
        rows.append(row)
    yaml = YAML()
    yaml.width = 10_000
    yaml.indent(mapping=2, sequence=4, offset=2)
    out = StringIO()
    yaml.dump(rows, out)
    return _HEAD + out.getvalue()


def _entry(item: object, number: int) -> Entry:
    if not isinstance(item, dict) or not set(item) <= {*_KEYS, "count"} or not {"rule", "path"} <= set(item):
        raise BadCarried(
            f"{CARRIED_FILE}: entry {number} needs rule, path, place and words, and nothing else but key and count. "
            "Restore the file from git."
        )
    count = item.get("count", 1)
    if not isinstance(count, int) or isinstance(count, bool) or count < 1:
        raise BadCarried(f"{CARRIED_FILE}: the count of entry {number} should be a whole number from 1.")
    rule, path, place, words, key = (str(item.get(name) or "") for name in _KEYS)
    return Entry(rule, path, place, words, key, count)
