"""Builds the marked proof from a run: plain values for the templates, which escape every one of them."""

import base64
import hashlib
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from importlib.resources import files
from typing import Any

from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup, escape

from lint_rules import __version__, lazy_re
from lint_rules.finding import Finding, Severity, Status
from lint_rules.reports.book_summary import levels_at_a_glance
from lint_rules.reports.fingerprints import fingerprints
from lint_rules.reports.html.passages import Line, passage_of, printable
from lint_rules.reports.html.pictures import findings_by_rule, lesson_times, structures, vocabulary_map, word_levels
from lint_rules.reports.html.pictures.figure import Figure
from lint_rules.reports.html.pictures.svg import legend_mark
from lint_rules.reports.html.proof.queries import PlaceOf, UnitProof, proof_of
from lint_rules.reports.html.proof.setting import set_line
from lint_rules.reports.html.where_to_start import by_rule, by_unit, first
from lint_rules.reports.report import Report
from lint_rules.reports.rule_pages import summary_of
from lint_rules.reports.verdict import listed, switched_off, verdict
from lint_rules.rule import RuleModule

_CODE = lazy_re.compile(r"``?([^`]+)``?")
_PICTURES = (lesson_times, word_levels, structures, vocabulary_map, findings_by_rule)
INDEX = "index.html"


@dataclass(frozen=True, slots=True)
class Shown:
    """A finding that does not count, as the page shows it."""

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
class NotChecked:
    """Something that was not checked, where, and why."""

    what: str
    where: str
    why: str


def html_report(report: Report, rules: Sequence[RuleModule], when: datetime) -> str:
    """The proof as one HTML file; ``when`` is the day it shows."""
    units = proof_of(report)
    return _rendered(report, rules, when, units, units, **_whole(report, units, {}))


def html_folder(report: Report, rules: Sequence[RuleModule], when: datetime) -> dict[str, str]:
    """The proof as an index and a page a unit, by the names of their files: each page for one writer."""
    units = proof_of(report)
    names = _file_names(units)
    pages = [(unit.where.name, names[unit.path], _in_words(unit)) for unit in units]
    whole = _whole(report, units, names) | {"pages": pages, "total": 0}
    made = {INDEX: _rendered(report, rules, when, (), units, **whole)}
    for unit in units:
        made[names[unit.path]] = _rendered(
            report, rules, when, (unit,), units, here=unit.path, names=names, only=unit.where.name
        )
    return made


def _whole(report: Report, units: Sequence[UnitProof], names: Mapping[str, str]) -> dict[str, Any]:
    """What only the page of the whole book has."""
    shown = [
        Shown(f"f-{name[:16]}", finding, report.path(finding.path), *passage_of(finding, report.sources[finding.path]))
        for finding, name in zip(report.result.findings, fingerprints(report.result.findings), strict=True)
        if finding.status is not Status.OPEN
    ]
    return {
        "verdict": verdict(report),
        "levels": list(levels_at_a_glance(report)),
        "figures": list(_figures(report)),
        "start": first(units, names),
        "starts": [by_unit(units, names), by_rule(report.points)] if not names else [by_unit(units, names)],
        "let_stand": [one for one in shown if one.finding.status is Status.LET_STAND],
        "carried": [one for one in shown if one.finding.status is Status.CARRIED],
        "not_checked": list(_not_checked(report)),
    }


def _rendered(
    report: Report,
    rules: Sequence[RuleModule],
    when: datetime,
    units: Sequence[UnitProof],
    all_units: Sequence[UnitProof],
    here: str = "",
    names: Mapping[str, str] | None = None,
    **more: Any,
) -> str:
    """A page of some units. ``names`` are the files of the units, where each has its own."""
    points = {query.number: query.point for unit in units for query in unit.queries}
    fired = {finding.rule for point in points.values() for finding in point.findings}
    style, script = _own("page.css"), _own("page.js")
    values: dict[str, Any] = {
        "title": report.course.title or "Untitled course",
        "version": __version__,
        "day": f"{when.day} {when:%B %Y}",
        "policy": f"default-src 'none'; style-src {_hash(style)}; script-src {_hash(script)}; img-src data:; "
        "base-uri 'none'; form-action 'none'",
        "style": Markup(style),
        "script": Markup(script),
        "units_read": len(all_units),
        "units": units,
        "at": _links(here, names or {}),
        "total": len(points),
        "counts": sorted(Counter(p.severity for p in points.values()).items(), key=lambda one: -one[0].weight),
        "fired": sorted({point.rule for point in points.values()}),
        "rules": [(module.rule.name, *summary_of(module)) for module in rules if module.rule.name in fired],
        "only": "",
        "back": INDEX if names else "",
        "pages": (),
        "verdict": None,
        "levels": (),
        "figures": (),
        "start": None,
        "starts": (),
        "let_stand": (),
        "carried": (),
        "not_checked": (),
    }
    return _environment().get_template("page.html").render(values | more)


def _environment() -> Environment:
    environment = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True, loader=FunctionLoader(_own)
    )
    environment.filters["printable"] = printable
    environment.filters["prose"] = _prose
    environment.globals["set_line"] = set_line
    environment.globals["legend_mark"] = legend_mark
    return environment


def _links(here: str, names: Mapping[str, str]) -> Any:
    """Gives the address of a place, or of what has an id in its unit, as seen from one unit's page."""

    def at(place: PlaceOf, other: str = "") -> str:
        page = names.get(place.path, "") if place.path != here else ""
        return f"{page}#{other or place.anchor}"

    return at


def _file_names(units: Sequence[UnitProof]) -> dict[str, str]:
    """A name for each unit's page, made from its path: `level-1-unit-02.html`, each once."""
    names: dict[str, str] = {}
    taken = {INDEX}
    for unit in units:
        stem = re.sub(r"[^a-z0-9]+", "-", unit.path.casefold().removesuffix(".md")).strip("-") or "unit"
        name, number = f"{stem}.html", 2
        while name in taken:
            name, number = f"{stem}-{number}.html", number + 1
        names[unit.path] = name
        taken.add(name)
    return names


def _in_words(unit: UnitProof) -> str:
    plural = {"query": "queries"}
    said = [
        f"{count} {weight.value if count == 1 else plural.get(weight.value, weight.value + 's')}"
        for weight in Severity
        if (count := unit.counts[weight])
    ]
    return ", ".join(said) or "nothing open"


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
