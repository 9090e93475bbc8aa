"""Findings for a person at a terminal, in the GNU form ``path:line:column: severity: message [rule]``.

On a terminal there is one entry a point: its message, broken between words, its first source line with a marker under
the words, and the other places. In a pipe (a hook, an editor's quickfix list) there is one line a finding.
"""

from collections.abc import Iterator, Sequence

from lint_rules.engine.gather import Point
from lint_rules.finding import Finding, Severity, Status
from lint_rules.reports.page import Page, Part
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import listed
from lint_rules.said import one_line, printable

STYLES = {Severity.STOP: "bold red", Severity.QUERY: "bold yellow", Severity.NOTE: "cyan"}
_MOST_LINES = 12  # further places of a point that are named in each file


def print_report(report: Report, page: Page) -> None:
    """Print the points of a report, one after the other, or each of their findings where the page wants those."""
    if page.each_place:
        for finding in report.findings:
            page.say(*_headline(report, finding, finding.severity, finding.message, finding.rule))
    else:
        for point in report.points:
            page.say(*_headline(report, point.lead, point.severity, point.message, ", ".join(point.rules)))
            page.show_words(report.sources[point.lead.path], point.lead)
            if also := _places(report, point):
                page.say((f"    also {also}", "dim"))
    for skipped in report.skipped:
        page.say(f"{printable(skipped.path)}: not checked: {printable(skipped.why)}")
    for said in broken_lines(report):
        page.say(said)


def broken_lines(report: Report) -> Iterator[str]:
    """The checks that could not run, each reason once: a checker that is down is down for every unit."""
    files: dict[tuple[str, str], list[str]] = {}
    for note in report.broken:
        files.setdefault((note.rule, note.why), []).append(report.path(note.path) if note.path else "the whole book")
    for (rule, why), paths in files.items():
        where = paths[0] if len(paths) == 1 else f"{len(paths)} files, first {paths[0]}"
        yield f"{where}: the check {rule} could not run: {one_line(why)}"


def print_summary(reports: Sequence[Report], page: Page) -> None:
    """Print what a writer wants to know at the end: does anything block, and what was not checked."""
    for line in summary(reports):
        page.say(line)


def summary(reports: Sequence[Report]) -> Iterator[str]:
    """The lines at the end of a run."""
    units = sum(len(report.sources) for report in reports)
    counts = {severity: sum(report.count()[severity] for report in reports) for severity in Severity}
    total = sum(counts.values())
    places = sum(len(report.findings) for report in reports)
    read = "1 unit read" if units == 1 else f"{units} units read"
    if not total:
        yield f"{read}: nothing to mend."
    else:
        parts = ", ".join(_many(count, severity.value) for severity, count in counts.items() if count)
        blocking = sum(len(report.blocking) for report in reports)
        verdict = f"{blocking} in the way" if blocking else "nothing in the way"
        where = f", in {places} places" if places > total else ""
        yield f"{read}: {parts}{where}; {verdict}."
    stood = sum(len(report.with_status(Status.LET_STAND)) for report in reports)
    carried = sum(len(report.with_status(Status.CARRIED)) for report in reports)
    if stood:
        yield f"Let stand, with a reason: {stood}."
    if carried:
        yield f"Carried over from before (carried.yaml): {carried}."
    gone = sum(entry.count for report in reports for entry in report.carried_gone)
    if gone:
        yield f"Carried findings that are gone: {gone}. `hornbook carry` drops them from carried.yaml."
    broken = {note.rule for report in reports for note in report.broken}
    if broken:
        yield f"{_many(len(broken), 'check')} could not run, so this is not the whole picture."
    yield from dict.fromkeys(line for report in reports for line in report.told)
    for name, why in sorted({item for report in reports for item in report.unchecked.items()}):
        yield f"Not checked: {name} ({why})."


def _many(count: int, noun: str) -> str:
    plural = {"query": "queries"}.get(noun, noun + "s")
    return f"{count} {noun if count == 1 else plural}"


def _headline(report: Report, at: Finding, severity: Severity, message: str, rules: str) -> Iterator[Part]:
    line, column = at.start
    yield f"{printable(report.path(at.path))}:{line}:{column}: ", "dim"
    yield severity.value, STYLES[severity]
    yield f": {one_line(message)} "
    yield f"[{rules}]", "dim"


def _places(report: Report, point: Point) -> str:
    """The further places of a point, by line: `line 12; level-1/unit-02.md: lines 3 and 9`."""
    by_file: dict[str, list[int]] = {}
    here = (point.lead.path, point.lead.start.line)
    for finding in point.other_places:
        if (finding.path, finding.start.line) != here:
            by_file.setdefault(finding.path, []).append(finding.start.line)
    said = []
    for path, numbers in by_file.items():
        lines = list(dict.fromkeys(numbers))
        shown = [str(line) for line in lines[:_MOST_LINES]]
        shown += [f"{len(lines) - _MOST_LINES} more"] if len(lines) > _MOST_LINES else []
        where = "" if path == point.lead.path else f"{printable(report.path(path))}: "
        said.append(f"{where}{'line' if len(lines) == 1 else 'lines'} {listed(shown)}")
    return "; ".join(said)
