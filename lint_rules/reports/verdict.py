"""Can this book go to press, and if not, what is in the way: the answer that the gate and the editor's report share.

A book can go when nothing is open that stops it, no question to its author is unanswered, no stet has lapsed, every
unit could be read and every check that was asked for has run.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from lint_rules.finding import Finding, Severity, Status
from lint_rules.reports.report import Report
from lint_rules.reports.weight import by_weight, in_words

LAPSED = "stet-lapsed"
UNREADABLE = "unreadable-manuscript"
GATE_RULES = frozenset({LAPSED, UNREADABLE})  # neither a course's settings nor a stet take these out of the way


@dataclass(frozen=True, slots=True)
class Hindrance:
    """One kind of thing that is in the way, in words; ``show`` is what to show of the findings (`severity=stop`)."""

    text: str
    show: str = ""


@dataclass(frozen=True, slots=True)
class Verdict:
    """Whether a book can go; what is in the way, the gravest first; what an editor should know besides."""

    can_go: bool
    hindrances: tuple[Hindrance, ...]
    besides: tuple[str, ...]
    what: str = "This book"

    @property
    def in_the_way(self) -> tuple[str, ...]:
        """What is in the way, in words."""
        return tuple(hindrance.text for hindrance in self.hindrances)

    @property
    def sentence(self) -> str:
        """The answer in one line."""
        return f"{self.what} can go." if self.can_go else f"{self.what} cannot go yet."


def verdict(report: Report) -> Verdict:
    """Judge a whole book as a release would."""
    hindrances = tuple(_in_the_way(report))
    return Verdict(not hindrances, hindrances, tuple(_besides(report)), report.part or "This book")


def reopen(report: Report) -> Report:
    """Count what no stet can let stand in a release: stets that have lapsed, and units that cannot be read."""

    def counts(finding: Finding) -> bool:
        return finding.rule == LAPSED or (finding.rule == UNREADABLE and finding.severity is Severity.STOP)

    findings = tuple(
        replace(finding, status=Status.OPEN, reason="") if counts(finding) else finding
        for finding in report.result.findings
    )
    return replace(report, result=replace(report.result, findings=findings))


def switched_off(report: Report) -> tuple[str, ...]:
    """The rules that the course has switched off, sorted."""
    return tuple(sorted(name for name, weight in report.course.rules.items() if weight == "off"))


def unread_units(report: Report) -> tuple[str, ...]:
    """Paths of the units that could not be read, or not in full, sorted."""
    return tuple(sorted({f.path for f in report.findings if f.rule == UNREADABLE and f.severity is Severity.STOP}))


def _in_the_way(report: Report) -> Iterator[Hindrance]:
    if report.broken:
        checks = sorted({note.rule for note in report.broken})
        yield Hindrance(f"{many(len(checks), 'check')} that could not run ({', '.join(checks)})")
    unread = unread_units(report)
    if unread:
        named = _some([report.path(path) for path in unread])
        yield Hindrance(f"{many(len(unread), 'unit')} that could not be read in full ({named})", f"rule={UNREADABLE}")
    if report.skipped:
        named = _some([skipped.path for skipped in report.skipped])
        yield Hindrance(f"{many(len(report.skipped), 'file or row', 'files or rows')} left out ({named})")
    for lack in report.lacks:
        yield Hindrance(f"{lack.what}: {lack.cure}")
    counted = [p for p in report.points if not (p.rule == UNREADABLE and p.severity is Severity.STOP)]
    stops = sum(point.severity is Severity.STOP for point in counted)
    lapsed = sum(point.rule == LAPSED for point in counted if point.severity is Severity.QUERY)
    queries = sum(point.severity is Severity.QUERY for point in counted) - lapsed
    if stops:
        yield Hindrance(f"{many(stops, 'stop')} to mend", "severity=stop")
    if queries:
        yield Hindrance(f"{many(queries, 'query', 'queries')} to answer", "severity=query")
    if lapsed:
        yield Hindrance(many(lapsed, "stet that has lapsed", "stets that have lapsed"), f"rule={LAPSED}")


def _some(names: Sequence[str]) -> str:
    """The first names of a list, and how many more there are."""
    names = list(dict.fromkeys(names))
    return ", ".join(names) if len(names) <= 3 else f"{', '.join(names[:2])} and {len(names) - 2} more"


def _besides(report: Report) -> Iterator[str]:
    notes = report.count()[Severity.NOTE]
    if notes:
        yield f"{many(notes, 'note')} for information"
    stood = len(report.with_status(Status.LET_STAND))
    if stood:
        weights = in_words(by_weight(report.with_status(Status.LET_STAND)))
        yield f"{many(stood, 'finding')} let stand, {'with its' if stood == 1 else 'each with a'} reason ({weights})"
    carried = len(report.with_status(Status.CARRIED))
    if carried:
        weights = in_words(by_weight(report.with_status(Status.CARRIED)))
        yield f"{many(carried, 'finding')} carried over from before the course took up hornbook ({weights})"
    if report.carried_gone:
        gone = many(
            sum(entry.count for entry in report.carried_gone), "carried finding that is", "carried findings that are"
        )
        yield f"{gone} gone; `hornbook carry` drops them from carried.yaml"
    reasons: dict[str, list[str]] = defaultdict(list)
    for name, why in sorted(report.unchecked.items()):
        reasons[why].append(name)
    for why, names in reasons.items():
        yield f"not checked: {listed(names)} ({why})"
    off = switched_off(report)
    if off:
        yield f"switched off in course.yaml: {listed(off)}"
    yield from report.told


def many(count: int, noun: str, plural: str = "") -> str:
    """A count with its noun: `1 stop`, `2 stops`."""
    return f"{count} {noun if count == 1 else plural or noun + 's'}"


def listed(parts: Iterable[str]) -> str:
    """Parts as a list in a sentence: `a, b and c`."""
    *most, last = parts
    return f"{', '.join(most)} and {last}" if most else last
