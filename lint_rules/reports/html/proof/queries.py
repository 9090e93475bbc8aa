"""The units of a book as a proof: the queries numbered through the book in reading order, each beside its words."""

from bisect import bisect_right
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from lint_rules.engine.gather import Point
from lint_rules.finding import Finding, Severity
from lint_rules.reports.fingerprints import fingerprints, fingerprints_of_points
from lint_rules.reports.html.passages import printable
from lint_rules.reports.html.proof.layout import Block, Line, Place, places_of
from lint_rules.reports.html.proof.marks import Mark, Passages, Segment, segments
from lint_rules.reports.report import Report
from lint_rules.reports.whereabouts import Whereabouts, whereabouts

_QUOTED = 90  # characters of the words that stand in no line of the page


@dataclass(frozen=True, slots=True)
class PlaceOf:
    """A place of a query: its unit and its name there, its line, where it leads to, the finding's own id, and its words
    where no line shows them."""

    unit: str
    name: str
    line: int
    path: str
    anchor: str
    id: str
    quoted: str = ""


@dataclass(frozen=True, slots=True)
class Query:
    """A point as the margin shows it: its number, its first place, the others; ``lessons`` and ``units`` filter it."""

    number: int
    id: str
    point: Point
    lead: PlaceOf
    others: tuple[PlaceOf, ...]
    lessons: str

    @property
    def units(self) -> str:
        """Paths inside the course, one a line."""
        return "\n".join(self.point.paths)

    @property
    def at(self) -> str:
        """Its first place in the file: line:column-line:column."""
        start, end = self.point.lead.start, self.point.lead.end
        return f"{start.line}:{start.column}-{end.line}:{end.column}"


@dataclass(slots=True)
class Margin:
    """What stands beside a block: queries that begin here, and further places of queries from elsewhere."""

    queries: list[Query] = field(default_factory=list)
    again: list[tuple[Query, PlaceOf]] = field(default_factory=list)


@dataclass(frozen=True)
class UnitProof:
    """A unit as it is set: what it is called, its places, and what stands in the margins and is marked in the texts."""

    path: str
    shown: str
    id: str
    where: Whereabouts
    level: str
    places: tuple[Place, ...]
    counts: Mapping[Severity, int]
    queries: tuple[Query, ...]
    _margins: Mapping[int, Margin]
    _marks: Mapping[int, Sequence[Mark]]

    def margin(self, block: Block) -> Margin | None:
        """What stands beside a block."""
        return self._margins.get(id(block))

    def segments(self, line: Line) -> list[Segment]:
        """A line's text, cut by its marks."""
        return list(segments(line.passage, self._marks.get(id(line.passage), ()))) if line.passage else []

    @property
    def lessons(self) -> Iterator[tuple[str, str]]:
        """Keys and names of the lessons."""
        for place in self.places:
            if place.number:
                yield f"{self.path}#{place.number}", place.name


class _Setting:
    """A unit's blocks by where they stand, while the queries are put beside them."""

    def __init__(self, where: Whereabouts) -> None:
        self.where = where
        self.places = places_of(where.unit)
        self.passages = Passages(list(where.unit.passages))
        self.blocks = [(block.start, block, place.number) for place in self.places for block in place.all_blocks]
        self.blocks.sort(key=lambda one: one[0])
        self._starts = [start for start, _, _ in self.blocks]
        self.margins: dict[int, Margin] = {}
        self.marks: dict[int, list[Mark]] = defaultdict(list)

    def block_at(self, offset: int) -> tuple[Block, int]:
        """The block that an offset of the file stands in, or that it comes after, and the number of its lesson."""
        _, block, lesson = self.blocks[max(0, bisect_right(self._starts, offset) - 1)]
        return block, lesson

    def margin_at(self, offset: int) -> Margin:
        return self.margins.setdefault(id(self.block_at(offset)[0]), Margin())

    def mark(self, finding: Finding, number: int, anchor: str) -> bool:
        """Mark a finding's words; say whether any line shows them."""
        found = self.passages.ranges(finding.span)
        for at, (passage, start, end) in enumerate(found):
            mark = Mark(start, end, number, finding.severity, "" if at else anchor)
            if mark not in self.marks[id(passage)]:
                self.marks[id(passage)].append(mark)
        return bool(found)


def proof_of(report: Report) -> tuple[UnitProof, ...]:
    """The units of a report, in teaching order; those that could not be read come last."""
    order = [facts.path for facts in report.facts]
    order += [path for path in sorted(report.sources) if path not in set(order)]
    settings = {path: _Setting(whereabouts(report.sources[path], report.course)) for path in order}
    queries = list(_queries(report, order, settings))
    return tuple(_unit(report, path, at, settings[path], queries) for at, path in enumerate(order, start=1))


def _unit(report: Report, path: str, at: int, setting: _Setting, queries: Sequence[Query]) -> UnitProof:
    here = tuple(query for query in queries if path in query.point.paths)
    level = report.course.level_of(path)
    return UnitProof(
        path,
        report.path(path),
        f"u-{at}",
        setting.where,
        f"{level.name} ({level.cefr})" if level else "",
        setting.places,
        Counter(query.point.severity for query in here),
        here,
        setting.margins,
        setting.marks,
    )


def _queries(report: Report, order: Sequence[str], settings: Mapping[str, _Setting]) -> Iterator[Query]:
    """The points in reading order, numbered; each is put beside its words on the way."""
    names = fingerprints_of_points(report.points, report.result.findings)
    own = {
        id(finding): f"f-{name[:16]}"
        for finding, name in zip(report.result.findings, fingerprints(report.result.findings), strict=True)
    }
    turn = {path: at for at, path in enumerate(order)}
    read = sorted(
        zip(report.points, names, strict=True), key=lambda one: (turn[one[0].lead.path], one[0].lead.span, one[0].rule)
    )
    for number, (point, name) in enumerate(read, start=1):
        places = [
            _place(finding, number, at, own[id(finding)], settings[finding.path])
            for at, finding in enumerate((point.lead, *point.other_places))
        ]
        lessons = dict.fromkeys(
            f"{finding.path}#{settings[finding.path].block_at(finding.span.start)[1]}" for finding in point.findings
        )
        query = Query(number, f"p-{name[:16]}", point, places[0], tuple(places[1:]), "\n".join(lessons))
        settings[point.lead.path].margin_at(point.lead.span.start).queries.append(query)
        _note_again(query, places, point, settings)
        yield query


def _note_again(query: Query, places: Sequence[PlaceOf], point: Point, settings: Mapping[str, _Setting]) -> None:
    """Name a query in the margin of its other lessons, once in each, and where no line shows its words."""

    def lesson(finding: Finding) -> tuple[str, int]:
        return finding.path, settings[finding.path].block_at(finding.span.start)[1]

    noted = {lesson(point.lead)}
    for finding, place in zip(point.other_places, places[1:], strict=True):
        if place.quoted or lesson(finding) not in noted:
            noted.add(lesson(finding))
            settings[finding.path].margin_at(finding.span.start).again.append((query, place))


def _place(finding: Finding, number: int, at: int, own: str, setting: _Setting) -> PlaceOf:
    anchor = f"m-{number}-{at}"
    marked = setting.mark(finding, number, anchor)
    words = " ".join(finding.text.split())
    quoted = "" if marked else words if len(words) <= _QUOTED else f"{words[:_QUOTED]} …"
    spot = setting.where.spot(finding.span.start)
    unit, name = printable(setting.where.short), printable(f"{spot.name[0].lower()}{spot.name[1:]}")
    return PlaceOf(unit, name, finding.start.line, finding.path, anchor if marked else own, own, printable(quoted))
