"""Findings as JUnit XML, the form in which build servers show test results.

There is no official schema; the shape is the one that readers agree on. A suite a unit; a case a point, in the
first unit where it is found: one that is in the way of a release is a failure, with all its places, a note passes, what
is let stand or carried over is skipped with its reason, a check that could not run is an error. A unit without any
finding has one case that passes. Cases are named by rule and words, not by line, so that a build server can tell a new
one from one that has moved; file (from the top of the repository) and line stand beside, as build servers read them.
"""

import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import dataclass, field

from lint_rules import lazy_re
from lint_rules.course.folder import COURSE_FILE
from lint_rules.engine.gather import Point
from lint_rules.finding import Finding, Status
from lint_rules.reports.report import Report
from lint_rules.said import harmless, one_line

_WHOLE_BOOK = "the whole book"
_MOST = 80  # characters of the words in a case's name
# XML 1.0 (W3C, fifth edition) §2.2: no document may hold these, not even as references.
_NOT_XML = lazy_re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class _Case:
    name: str
    kind: str = ""  # failure | error | skipped | '' (passes)
    type: str = ""
    message: str = ""
    text: str = ""
    file: str = ""
    line: int = 0


@dataclass(slots=True)
class _Suite:
    name: str
    classname: str
    cases: list[_Case] = field(default_factory=list)

    def count(self, kind: str) -> int:
        return sum(case.kind == kind for case in self.cases)


def junit_report(report: Report) -> bytes:
    """One run as JUnit XML, UTF-8."""
    suites = list(_suites(report))
    counts = _counts(suites)
    del counts["skipped"]  # the common schema knows it of a suite only
    top = ET.Element("testsuites", {"name": "hornbook", **counts})
    taken: set[tuple[str, str]] = set()
    for suite in suites:
        element = ET.SubElement(top, "testsuite", {"name": _plain(suite.name), **_counts([suite]), "time": "0"})
        for case in suite.cases:
            _add(element, suite.classname, case, taken)
    ET.indent(top, " ")
    whole: bytes = ET.tostring(top, encoding="UTF-8", xml_declaration=True)
    return whole + b"\n"


def _suites(report: Report) -> Iterator[_Suite]:
    suites = {path: _Suite(report.prefix + path, _classname(path)) for path in sorted(report.sources)}
    book = _Suite(_WHOLE_BOOK, "book")
    cases = [(_case_of_point(report, point), point.lead) for point in report.points]
    cases += [(_settled(report, f), f) for f in report.result.findings if f.status is not Status.OPEN]
    for case, at in sorted(cases, key=lambda one: one[1].order):
        suites[at.path].cases.append(case)
    for note in report.broken:
        suite = suites.get(note.path, book)
        suite.cases.append(_Case(f"{note.rule} could not run", "error", "could not run", note.why, note.why))
    for skipped in report.skipped:
        why, file = skipped.why, report.prefix + skipped.inside if skipped.inside else ""
        book.cases.append(_Case(f"{skipped.path} is read", "error", "not checked", why, why, file, skipped.line))
    for lack in report.lacks:
        said = f"{lack.what}: {lack.cure}"
        book.cases.append(_Case(lack.what, "failure", "release", said, said, report.prefix + COURSE_FILE, 1))
    for name, why in sorted(report.unchecked.items()):
        book.cases.append(_Case(f"{name} was not checked", "skipped", message=why))
    for suite in suites.values():
        if not suite.cases:
            suite.cases.append(_Case("nothing to mend"))
    yield from suites.values()
    if book.cases:
        yield book


def _case_of_point(report: Report, point: Point) -> _Case:
    text = "\n".join(_line(report, finding) for finding in point.findings)
    kind = "failure" if point.severity.weight >= report.blocks_from.weight else ""
    name = _name(point.lead)
    if len(point.findings) > 1 and point.about:
        name = f"{point.rule}: {_short(point.about[-1])}" if point.about[-1] else point.rule
    return _Case(name, kind, point.severity.value, point.message, text, *_at(report, point.lead))


def _at(report: Report, finding: Finding) -> tuple[str, int]:
    """File and line of a finding, as build servers read them."""
    return report.prefix + finding.path, finding.start.line


def _line(report: Report, finding: Finding) -> str:
    file, line = _at(report, finding)
    return harmless(
        one_line(f"{file}:{line}:{finding.start.column}: {finding.severity}: {finding.message} [{finding.rule}]")
    )


def _name(finding: Finding) -> str:
    words = _short(finding.text)
    name = f"{finding.rule}: {words}" if words else finding.rule
    return f"{name} ({finding.place})" if finding.place else name


def _short(text: str) -> str:
    words = " ".join(text.split())
    return words if len(words) <= _MOST else f"{words[: _MOST - 1]}…"


def _settled(report: Report, finding: Finding) -> _Case:
    name, text = _name(finding), _line(report, finding)
    if finding.status is Status.LET_STAND:
        said = f"let stand: {finding.reason}"
    else:
        said = "carried over from before (carried.yaml)"
    return _Case(name, "skipped", "", said, text, *_at(report, finding))


def _add(suite: ET.Element, classname: str, case: _Case, taken: set[tuple[str, str]]) -> None:
    """Add a case under a name that no other case of its class has: readers keep only the first of equal ones."""
    classname, plain = _plain(classname), _plain(case.name)
    name, number = plain, 1
    while (classname, name) in taken:
        number += 1
        name = f"{plain} ({number})"
    taken.add((classname, name))
    element = ET.SubElement(suite, "testcase", classname=classname, name=name, time="0")
    if case.file:
        element.set("file", _plain(case.file))
        if case.line:
            element.set("line", str(case.line))
    if case.kind:
        of_type = {"type": _plain(case.type)} if case.type else {}
        child = ET.SubElement(element, case.kind, {**of_type, "message": _plain(case.message)})
        child.text = _lines(case.text) or None
    elif case.text:
        ET.SubElement(element, "system-out").text = _lines(case.text)


def _counts(suites: list[_Suite]) -> dict[str, str]:
    names = {"failures": "failure", "errors": "error", "skipped": "skipped"}
    counts = {"tests": sum(len(suite.cases) for suite in suites)}
    counts |= {name: sum(suite.count(kind) for suite in suites) for name, kind in names.items()}
    return {name: str(count) for name, count in counts.items()}


def _classname(path: str) -> str:
    """`level-1/unit-01.md` as `level-1.unit-01`."""
    return path.removesuffix(".md").replace(".", "_").replace("/", ".")


def _lines(text: str) -> str:
    return "\n".join(_plain(line) for line in text.split("\n"))


def _plain(text: str) -> str:
    """A text as an attribute's value: in one line, without what XML does not allow or a terminal would obey."""
    return harmless(one_line(_NOT_XML.sub("\ufffd", text)))
