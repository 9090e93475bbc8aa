"""Findings for a person at a terminal, and for a pipe in the GNU form ``path:line:column: severity: message [rule]``.

On a terminal the stops come first, then the queries and notes, each by unit, lesson and activity: one entry a point,
with its first source line and a marker under the words. What does not fit on the screen is counted, and it is said how
to see it. In a pipe (a hook, an editor's quickfix list) there is one line a finding.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from lint_rules.engine.gather import Point
from lint_rules.engine.suppression.carried import SAFETY
from lint_rules.finding import Finding, Severity, Status
from lint_rules.reports.page import Page, Part
from lint_rules.reports.report import Report
from lint_rules.reports.verdict import listed
from lint_rules.reports.whereabouts import Whereabouts, whereabouts
from lint_rules.said import one_line, printable

STYLES = {Severity.STOP: "bold red", Severity.QUERY: "bold yellow", Severity.NOTE: "cyan"}
_MOST_LINES = 12  # further places of a point that are named in each file
_MOST_UNITS = 6  # units that are named where not everything is shown
_WORDS = 2  # rows that the words of a finding take: the line, and the marker


def print_report(report: Report, page: Page, after: int = 0, how: str = "`--all` shows all") -> None:
    """Print the points of a report, or each of their findings where the page wants those.

    On a page that has an end, ``after`` rows are left for what is said below; ``how`` says how to see what is left out.
    """
    if page.each_place:
        for finding in report.findings:
            page.say(*_headline(report, finding))
    else:
        _print_points(report, page, after, how)
    for skipped in report.skipped:
        page.say(f"{printable(skipped.path)}: not checked: {printable(skipped.why)}")
    for said in broken_lines(report):
        page.say(said)


def _print_points(report: Report, page: Page, after: int, how: str) -> None:
    units = {path: whereabouts(report.sources[path], report.course) for path in {p.lead.path for p in report.points}}
    points = sorted(report.points, key=lambda point: -point.severity.weight)
    counts = report.count()
    below = after + len(report.skipped) + len(list(broken_lines(report)))
    said: tuple[Severity | None, str, str] = (None, "", "")
    for at, point in enumerate(points):
        unit = units[point.lead.path]
        here = (point.severity, point.lead.path, unit.spot(point.lead.span.start).name)
        lines = [*_heads(report, point, unit, said, here, counts), _message(point)]
        also: list[Part] = [(f"      also {places}", "dim")] if (places := _places(report, point)) else []
        rows = sum(page.rows(*line) for line in [*lines, also]) + _WORDS
        left = points[at:]
        if at and not page.has_room(rows + below + (3 if len(left) > 1 else 0)):
            for text in _left(left, units, how):
                page.say(text)
            return
        for line in lines:
            page.say(*line)
        page.show_words(report.sources[point.lead.path], point.lead)
        if also:
            page.say(*also)
        said = here


def _heads(
    report: Report,
    point: Point,
    unit: Whereabouts,
    before: tuple[Severity | None, str, str],
    here: tuple[Severity, str, str],
    counts: Counter[Severity],
) -> Iterator[list[Part]]:
    """The heads above a point that the point before it has not got: its weight, its unit, its lesson and activity."""
    if here[0] != before[0]:
        yield [(_HEADS[point.severity].format(_many(counts[point.severity], point.severity.value)), "bold")]
    if here[:2] != before[:2]:
        yield [(f"  {printable(unit.name)}", STYLES[point.severity]), ("  " + printable(report.path(here[1])), "dim")]
    if here != before:
        spot = unit.spot(point.lead.span.start)
        yield [f"    {spot.name}{f': {printable(spot.title)}' if spot.title else ''}"]


_HEADS = {
    Severity.STOP: "{}: to be mended before a commit",
    Severity.QUERY: "{}: to be answered before a release",
    Severity.NOTE: "{}, for information",
}


def _message(point: Point) -> list[Part]:
    return [
        (f"      line {point.lead.start.line}: ", "dim"),
        one_line(point.message),
        (f" [{', '.join(point.rules)}]", "dim"),
    ]


def _left(points: Sequence[Point], units: dict[str, Whereabouts], how: str) -> Iterator[str]:
    """What is not shown, where it is, and how to see it."""
    counts = Counter(point.severity for point in points)
    where = Counter(units[point.lead.path].short for point in points)
    named = [f"{printable(name)}: {count}" for name, count in where.most_common(_MOST_UNITS)]
    named += [f"{len(where) - _MOST_UNITS} units more"] if len(where) > _MOST_UNITS else []
    yield f"Not shown: {in_counts(counts)} ({'; '.join(named)}). {how[0].upper()}{how[1:]}."


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


def summary(reports: Sequence[Report], asked: str = "", of: int = 0) -> Iterator[str]:
    """The lines at the end of a run. ``asked`` says which of the book's points (``of``, altogether) are shown."""
    units = sum(len(report.sources) for report in reports)
    counts = {severity: sum(report.count()[severity] for report in reports) for severity in Severity}
    total = sum(counts.values())
    places = sum(len(report.findings) for report in reports)
    read = "1 unit read" if units == 1 else f"{units} units read"
    if asked:
        yield f"{read}. Shown: {asked}, {total} of {of} points."
    elif not total:
        yield f"{read}: nothing to mend."
    else:
        where = f", in {places} places" if places > total else ""
        yield f"{read}: {in_counts(counts)}{where}. {_stands_in_the_way(reports, counts)}"
    stood = sum(len(report.with_status(Status.LET_STAND)) for report in reports)
    carried = sum(len(report.with_status(Status.CARRIED)) for report in reports)
    if stood:
        yield f"Let stand, with a reason: {stood}."
    yield from _safety(reports)
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


def _stands_in_the_way(reports: Sequence[Report], counts: Mapping[Severity, int]) -> str:
    """What must be done before a commit (or, of a release, before that), in a sentence."""
    stops, queries = counts[Severity.STOP], counts[Severity.QUERY]
    asked = f"{_the(queries, 'query', 'wants', 'want')} an answer before a release" if queries else ""
    if any(report.blocking for report in reports) and stops:
        must = f"{_the(stops, 'stop', 'has', 'have')} to be mended before a commit"
        return f"T{must[1:]}; {asked}." if asked else f"T{must[1:]}."
    return f"Nothing keeps it from a commit; {asked}." if asked else "Nothing keeps it from a commit."


def _the(count: int, noun: str, one: str, several: str) -> str:
    return f"the {noun} {one}" if count == 1 else f"the {_many(count, noun)} {several}"


def in_counts(counts: Mapping[Severity, int]) -> str:
    """Counts by weight: `1 stop, 3 queries`."""
    return ", ".join(_many(counts[severity], severity.value) for severity in Severity if counts[severity])


def _safety(reports: Sequence[Report]) -> Iterator[str]:
    """What is let stand without a safety note and why, each place by itself; and who decides about safety."""
    stood = [
        (report.path(finding.path), finding.start.line, finding.reason)
        for report in reports
        for finding in report.with_status(Status.LET_STAND)
        if finding.rule == SAFETY
    ]
    for path, line, reason in dict.fromkeys(stood):
        yield f"  No safety note at {printable(path)}:{line}: {one_line(reason)}"
    if stood or any(finding.rule == SAFETY for report in reports for finding in report.findings):
        yield (
            "Safety: this prompts the usual caution and is no risk assessment. "
            "The school's policy, local rules and licensed practice decide."
        )


def _many(count: int, noun: str) -> str:
    plural = {"query": "queries"}.get(noun, noun + "s")
    return f"{count} {noun if count == 1 else plural}"


def _headline(report: Report, at: Finding) -> Iterator[Part]:
    line, column = at.start
    yield f"{printable(report.path(at.path))}:{line}:{column}: ", "dim"
    yield at.severity.value, STYLES[at.severity]
    yield f": {one_line(at.message)} "
    yield f"[{at.rule}]", "dim"


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
