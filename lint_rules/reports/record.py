"""The release record: what was released, what it was checked with, and what was found, as one JSON object.

A publisher keeps it with the book. A second run on the same tree gives the same bytes but for the date; paths are those
from the top of the repository (from the course's folder, where there is none), and nothing of the machine is in it.
"""

import hashlib
import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from lint_rules import __version__
from lint_rules.engine.suppression.stets import lets_stand
from lint_rules.facts import UnitFacts
from lint_rules.finding import Finding, Severity, Status
from lint_rules.manuscript.model import Stet
from lint_rules.reports.report import Report, Skipped
from lint_rules.reports.verdict import switched_off, unread_units, verdict
from lint_rules.reports.weight import Weakened, by_weight

_COLUMNS = {Status.LET_STAND: "let_stand", Status.CARRIED: "carried"}


@dataclass(frozen=True, slots=True)
class CheckedWith:
    """What the book was checked with: language room, English checker (None: nobody named one), libraries, and the rules
    that a house has added, each with its version."""

    language: str
    english: str | None
    libraries: Mapping[str, str]
    added_rules: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FileRead:
    """A file of the course that was read: what it is, and its bytes (None: they could not be had)."""

    what: str  # 'course' | 'word list' | 'unit' | 'picture' | 'carried findings'
    path: str
    data: bytes | None


def release_record(
    report: Report,
    files: list[FileRead],
    checked_with: CheckedWith,
    when: datetime,
    git: tuple[str, bool] | None,
    lighter: Sequence[Weakened],
) -> dict[str, Any]:
    """The record of a run as plain data; ``when`` is in UTC.

    ``git`` is the commit and whether the tree was clean, ``lighter`` are the rules that the book weakens.
    """
    report = _inside_the_course(report)
    judged = verdict(report)
    course = report.course
    return {
        "hornbook": __version__,
        "finished": True,
        "date": when.strftime("%Y-%m-%dT%H:%M:%SZ"),
        "git": {"commit": git[0], "clean": git[1]} if git else None,
        "course": {
            "title": course.title,
            "variety": course.variety,
            "levels": [
                {
                    "name": level.name,
                    "cefr": level.cefr,
                    "units": sum(facts.level == level.index for facts in report.facts),
                    "units_planned": level.units,
                }
                for level in course.levels
            ],
        },
        **({"part": report.part} if report.part else {}),
        "verdict": {"can_go": judged.can_go, "in_the_way": list(judged.in_the_way)},
        "checked_with": {
            "language": checked_with.language,
            "english": checked_with.english,
            "libraries": dict(sorted(checked_with.libraries.items())),
            "added_rules": sorted(checked_with.added_rules),
        },
        "not_checked": list(_not_checked(report)),
        "settings": dict(sorted(course.rules.items())),
        "weakened": {row.rule: row.here for row in lighter},
        "counts": _counts(report),
        "rules": _by_rule(report),
        "stets": list(_stets(report)),
        "let_stand_by_weight": by_weight(report.with_status(Status.LET_STAND)),
        "carried": len(report.with_status(Status.CARRIED)),
        "carried_by_weight": by_weight(report.with_status(Status.CARRIED)),
        "target_words": len(course.words),
        "units": [_unit(report, facts) for facts in report.facts],
        "files": [_file(file, report.prefix) for file in sorted(files, key=lambda file: file.path)],
    }


def record_as_text(record: Mapping[str, Any]) -> str:
    """The record as it is written."""
    return json.dumps(record, ensure_ascii=False, indent=1) + "\n"


def _unit(report: Report, facts: UnitFacts) -> dict[str, Any]:
    return {
        "path": report.path(facts.path),
        "level": report.course.levels[facts.level].name,
        "unit": facts.unit,
        "title": facts.front_title,
        "words": facts.words_written,
    }


def _counts(report: Report) -> dict[str, int]:
    return {
        **{severity.value: report.count()[severity] for severity in Severity},
        "let_stand": len(report.with_status(Status.LET_STAND)),
        "carried": len(report.with_status(Status.CARRIED)),
    }


def _by_rule(report: Report) -> dict[str, dict[str, int]]:
    counts: dict[str, Counter[str]] = {}
    for point in report.points:
        counts.setdefault(point.rule, Counter())[point.severity.value] += 1
    for status in (Status.LET_STAND, Status.CARRIED):
        for finding in report.with_status(status):
            counts.setdefault(finding.rule, Counter())[_COLUMNS[status]] += 1
    names = (*(severity.value for severity in Severity), "let_stand", "carried")
    return {rule: {name: counts[rule][name] for name in names if counts[rule][name]} for rule in sorted(counts)}


def _not_checked(report: Report) -> Iterator[dict[str, str]]:
    for note in sorted(report.broken, key=lambda note: (note.rule, note.path, note.why)):
        yield {"what": note.rule, "where": report.path(note.path) if note.path else "the whole book", "why": note.why}
    for path in unread_units(report):
        yield {"what": "parts of the unit", "where": report.path(path), "why": "the unit could not be read in full"}
    for skipped in report.skipped:
        yield {"what": "the file", "where": skipped.path, "why": skipped.why}
    for name, why in sorted(report.unchecked.items()):
        yield {"what": name, "where": "the whole book", "why": why}
    for name in switched_off(report):
        yield {"what": name, "where": "the whole book", "why": "switched off in course.yaml"}


def _inside_the_course(report: Report) -> Report:
    """The report with every file called as it is from the top of the repository (else the course's folder)."""

    def called(row: Skipped) -> str:
        return f"{report.prefix}{row.inside}{f':{row.line}' if row.line else ''}" if row.inside else row.path

    skipped = tuple(replace(row, path=called(row)) for row in report.skipped)
    return replace(report, shown={path: report.prefix + path for path in report.sources}, skipped=skipped)


def _stets(report: Report) -> Iterator[dict[str, Any]]:
    left = list(report.with_status(Status.LET_STAND))
    for path, stet, place in report.result.stets:
        here = [finding for finding in left if finding.path == path]
        mine = [finding for finding in here if lets_stand(stet, finding) and finding.reason == stet.reason]
        left = [finding for finding in left if finding not in mine]
        line = report.sources[path].position(stet.span.start).line
        yield _stet(stet, report.path(path), line, place, mine)


def _stet(stet: Stet, path: str, line: int, place: str, mine: list[Finding]) -> dict[str, Any]:
    row: dict[str, Any] = {"rule": stet.rule, "path": path, "line": line, "place": place, "reason": stet.reason}
    if stet.until is not None:
        row["until"] = stet.until.isoformat()
    row["lets_stand"] = [finding.text for finding in mine]
    return row


def _file(file: FileRead, prefix: str) -> dict[str, str | None]:
    digest = None if file.data is None else hashlib.sha256(file.data).hexdigest()
    return {"path": prefix + file.path, "what": file.what, "sha256": digest}
