"""The units that a course promises: those that are not there, and the part of a book that one level is."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lint_rules.course.model import Course, Level
from lint_rules.exit_status import CannotRun
from lint_rules.reports.report import Lack, Report


def missing_units(course: Course, part: str = "") -> Iterator[Lack]:
    """Units that course.yaml promises, or that are left out between others, and are not there.

    Ignored by git, not fetched, lost in a merge: a release must not go because nobody misses them.
    """
    for level in course.levels:
        if part not in ("", level.name):
            continue
        there = {plan.unit for plan in course.plans if plan.level == level.index and plan.unit}
        wanted = range(1, max(level.units, *there, 0) + 1) if there else range(1, level.units + 1)
        gone = [number for number in wanted if number not in there]
        cure = "add what is missing, or correct `units` in course.yaml"
        if not there:
            yield Lack(f"{level.name} has no units", f"{cure}; `--part LEVEL` releases another level alone")
        elif gone:
            yield Lack(f"{level.name}: {_units(gone)} of {wanted[-1]} {_is(gone)} not there", cure)


def unpromised(course: Course, part: str = "") -> Iterator[str]:
    """What cannot be missed, because nobody has said how many there are."""
    names = [level.name for level in course.levels if not level.units and part in ("", level.name)]
    if names:
        yield f"course.yaml does not say how many units {', '.join(names)} will have, so none can be missed at the end"


def part_of(report: Report, name: str) -> Report:
    """The report of one level of a book. Raises CannotRun when there is no such level."""
    level = _level(report.course, name)

    def is_ours(path: str) -> bool:
        return report.course.level_of(path) in (level, None)  # what stands in no level may belong to this one

    result = replace(
        report.result,
        findings=tuple(finding for finding in report.result.findings if is_ours(finding.path)),
        broken=tuple(note for note in report.broken if not note.path or is_ours(note.path)),
        facts=tuple(facts for facts in report.facts if facts.level == level.index),
    )
    inside = {shown: path for path, shown in report.shown.items()}
    return replace(
        report,
        result=result,
        sources={path: source for path, source in report.sources.items() if is_ours(path)},
        skipped=tuple(row for row in report.skipped if is_ours(inside.get(row.path, row.path))),
        carried_kept=tuple(entry for entry in report.carried_kept if is_ours(entry.path)),
        carried_gone=tuple(entry for entry in report.carried_gone if is_ours(entry.path)),
        part=level.name,
    )


def _level(course: Course, name: str) -> Level:
    level = course.level_named(name)
    if level is None:
        raise CannotRun(
            f"--part {name}: the course has no such level. It has {', '.join(x.name for x in course.levels)}."
        )
    return level


def _units(numbers: Sequence[int]) -> str:
    shown = [str(number) for number in numbers]
    if len(shown) == 1:
        return f"unit {shown[0]}"
    if len(shown) > 6:
        return f"{len(shown)} units ({', '.join(shown[:5])} …)"
    return f"units {', '.join(shown[:-1])} and {shown[-1]}"


def _is(numbers: Sequence[int]) -> str:
    return "is" if len(numbers) == 1 else "are"
