"""Part of what was found in a book: the points of one unit, one rule, one weight. The book is judged as a whole."""

import argparse
import re
from collections.abc import Sequence
from dataclasses import replace
from difflib import get_close_matches

from lint_rules.engine.gather import Point
from lint_rules.exit_status import CannotRun
from lint_rules.finding import Severity, Status
from lint_rules.reports.report import Report
from lint_rules.rule import RuleModule

_ONLY = {"stops": Severity.STOP, "queries": Severity.QUERY, "notes": Severity.NOTE}


def narrowed(reports: Sequence[Report], arguments: argparse.Namespace, rules: Sequence[RuleModule]) -> list[Report]:
    """The reports with the points that were asked for. Raises CannotRun where there is no such unit or rule."""
    if arguments.rule is not None:
        _known_rule(arguments.rule, [module.rule.name for module in rules])
    units = [_paths(arguments.unit, report) for report in reports]
    if arguments.unit is not None and not any(units):
        raise CannotRun(f"--unit {arguments.unit}: there is no such unit. There are: {_names(reports)}.")
    severity = _ONLY.get(arguments.only or "")
    return [_part(report, paths, arguments.rule, severity) for report, paths in zip(reports, units, strict=True)]


def asked_for(arguments: argparse.Namespace) -> str:
    """What was asked for, in words; nothing where that is everything."""
    said = [arguments.only or "points"] if arguments.only or arguments.rule or arguments.unit else []
    said += [f"of the rule {arguments.rule}"] if arguments.rule else []
    said += [f"of unit {arguments.unit}"] if arguments.unit else []
    return " ".join(said)


def _part(report: Report, paths: frozenset[str] | None, rule: str | None, severity: Severity | None) -> Report:
    def wanted(point: Point) -> bool:
        in_unit = paths is None or not paths.isdisjoint(point.paths)
        return in_unit and (rule is None or rule in point.rules) and (severity is None or point.severity is severity)

    kept = {id(finding) for point in report.points if wanted(point) for finding in point.findings}
    findings = tuple(one for one in report.result.findings if one.status is not Status.OPEN or id(one) in kept)
    return replace(report, result=replace(report.result, findings=findings))


def _known_rule(name: str, names: Sequence[str]) -> None:
    if name not in names:
        near = get_close_matches(name, names, n=1)
        meant = f" Did you mean {near[0]}?" if near else " `hornbook rules` lists them."
        raise CannotRun(f"--rule {name}: there is no such rule.{meant}")


def _paths(named: str | None, report: Report) -> frozenset[str] | None:
    """The units that a name such as `level-1/4`, `4` or `level-1/unit-04.md` means; None where none is named."""
    if named is None:
        return None
    level, _, last = named.rpartition("/")
    wanted = re.fullmatch(r"(?:unit[- ]?)?0*(\d+)", last)
    number = int(wanted[1]) if wanted else None
    return frozenset(path for path in report.sources if path == named or report.path(path) == named) or frozenset(
        unit.path
        for unit in report.facts
        if unit.unit == number and level in ("", report.course.levels[unit.level].name)
    )


def _names(reports: Sequence[Report]) -> str:
    names = [f"{report.course.levels[unit.level].name}/{unit.unit}" for report in reports for unit in report.facts]
    return ", ".join(names[:12]) + (" …" if len(names) > 12 else "")
