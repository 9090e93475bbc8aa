"""Builds the editor's report from a run: plain values for the template, which escapes every one of them."""

import base64
import hashlib
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from importlib.resources import files

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup, escape

from lint_rules import __version__
from lint_rules.engine.gather import Point
from lint_rules.finding import Finding, Status
from lint_rules.reports.book_summary import levels_at_a_glance
from lint_rules.reports.fingerprints import fingerprints, fingerprints_of_points
from lint_rules.reports.html.passages import Line, passage_of, printable
from lint_rules.reports.html.pictures import findings_by_rule, lesson_times, structures, vocabulary_map, word_levels
from lint_rules.reports.html.pictures.figure import Figure
from lint_rules.reports.report import Report
from lint_rules.reports.rule_pages import summary_of
from lint_rules.reports.verdict import listed, switched_off, verdict
from lint_rules.rule import RuleModule

_CODE = re.compile(r"``?([^`]+)``?")
_PICTURES = (lesson_times, word_levels, structures, vocabulary_map, findings_by_rule)


@dataclass(frozen=True, slots=True)
class Shown:
    """A finding as the page shows it."""

    id: str
    finding: Finding
    path: str
    lines: list[Line]
    more: int

    @property
    def at(self) -> str:
        """Its place: line:column-line:column."""
        start, end = self.finding.start, self.finding.end
        return f"{start.line}:{start.column}-{end.line}:{end.column}"


@dataclass(frozen=True, slots=True)
class PointShown:
    """A point as the page shows it: its first place, the others, and the units that filters find it by."""

    id: str
    point: Point
    lead: Shown
    others: list[Shown]

    @property
    def units(self) -> str:
        """Paths inside the course, one a line."""
        return "\n".join(self.point.paths)


@dataclass(frozen=True, slots=True)
class UnitShown:
    """A unit with its points: what it is called, its path, and the path inside the course that filters go by ('' for
    what stands in several units)."""

    title: str
    path: str
    key: str
    points: list[PointShown]
    count: int = 0  # with those that stand in other units too


@dataclass(frozen=True, slots=True)
class NotChecked:
    """Something that was not checked, where, and why."""

    what: str
    where: str
    why: str


def html_report(report: Report, rules: Sequence[RuleModule], when: datetime) -> str:
    """The report as one HTML file; ``when`` is the day it shows."""
    shown = [
        Shown(f"f-{name[:16]}", finding, report.path(finding.path), *passage_of(finding, report.sources[finding.path]))
        for finding, name in zip(report.result.findings, fingerprints(report.result.findings), strict=True)
    ]
    points = list(_points(report, {id(one.finding): one for one in shown}))
    style, script = _own("page.css"), _own("page.js")
    environment = Environment(autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True)
    environment.filters["printable"] = printable
    environment.filters["prose"] = _prose
    fired = {one.finding.rule for one in shown}
    return environment.from_string(_own("page.html")).render(
        title=report.course.title or "Untitled course",
        version=__version__,
        day=f"{when.day} {when:%B %Y}",
        policy=f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; img-src data:; "
        "base-uri 'none'; form-action 'none'",
        style=Markup(style),
        script=Markup(script),
        verdict=verdict(report),
        levels=list(levels_at_a_glance(report)),
        units=len(report.sources),
        figures=list(_figures(report)),
        sections=list(_sections(report, points)),
        counts=report.count(),
        total=len(points),
        rules=[(module.rule.name, *summary_of(module)) for module in rules if module.rule.name in fired],
        fired=sorted({one.point.rule for one in points}),
        let_stand=[one for one in shown if one.finding.status is Status.LET_STAND],
        carried=[one for one in shown if one.finding.status is Status.CARRIED],
        not_checked=list(_not_checked(report)),
    )


def _prose(text: str) -> Markup:
    """A message with what stands in backquotes set as code."""
    return Markup(_CODE.sub(r"<code>\1</code>", str(escape(printable(text)))))


def _own(name: str) -> str:
    return files("lint_rules.reports.html").joinpath(name).read_text("utf-8")


def _hash(text: str) -> str:
    """What the Content Security Policy (W3C, level 3) lets run: this very text and no other."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode('utf-8')).digest()).decode('ascii')}'"


def _figures(report: Report) -> Iterator[Figure]:
    for picture in _PICTURES:
        figure = picture.figure(report)
        if figure is not None:
            yield figure


def _points(report: Report, shown: Mapping[int, Shown]) -> Iterator[PointShown]:
    for point, name in zip(report.points, fingerprints_of_points(report.points, report.result.findings), strict=True):
        others = [shown[id(finding)] for finding in point.other_places]
        yield PointShown(f"p-{name[:16]}", point, shown[id(point.lead)], others)


def _sections(report: Report, shown: Sequence[PointShown]) -> Iterator[UnitShown]:
    """What stands in several units, then the units: in teaching order, then those that could not be read."""
    several = [one for one in shown if len(one.point.paths) > 1]
    if several:
        yield UnitShown("Several units", "", "", several)
    order = [facts.path for facts in report.facts]
    order += [path for path in sorted(report.sources) if path not in set(order)]
    titles = {facts.path: _title(facts.unit, facts.title.text) for facts in report.facts}
    for path in order:
        here = [one for one in shown if path in one.point.paths]
        if here:
            title = titles.get(path) or "A unit that could not be read"
            mine = [one for one in here if len(one.point.paths) == 1]
            yield UnitShown(title, report.path(path), path, mine, len(here))


def _title(number: int, title: str) -> str:
    return f"Unit {number}: {title}" if number and title else title or (f"Unit {number}" if number else "")


def _not_checked(report: Report) -> Iterator[NotChecked]:
    where: dict[tuple[str, str], list[str]] = {}
    for note in sorted(report.broken, key=lambda note: (note.rule, note.path)):
        where.setdefault((note.rule, note.why), []).append(report.path(note.path) or "the whole book")
    for (rule, why), places in where.items():
        yield NotChecked(f"{rule} could not run", listed(places), why)
    for skipped in report.skipped:
        yield NotChecked("left out", skipped.path, skipped.why)
    for name, why in sorted(report.unchecked.items()):
        yield NotChecked(f"{name} was not asked for", "the whole book", why)
    for name in switched_off(report):
        yield NotChecked(f"{name} is switched off", "the whole book", "by course.yaml")
