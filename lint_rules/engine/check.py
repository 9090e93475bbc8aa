"""The core: course and units in, findings out. Pure: no disk, no network, no terminal.

``read_unit_rules`` runs the unit rules on one unit and keeps all that the book needs of it in an ``Outcome`` (plain
data: it can be cached by content). ``settle`` runs the book rules over the outcomes, applies severities and stets, and
works out lines and columns. Every front end goes through these two, so they cannot disagree.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property, partial

from lint_rules.course.model import Course
from lint_rules.course.versions import adopts
from lint_rules.engine.budget import Budget, BudgetSpent
from lint_rules.engine.extract_facts import facts_of
from lint_rules.engine.gather import Point, gather
from lint_rules.engine.suppression.stets import apply_stets
from lint_rules.facts import Spot, UnitFacts
from lint_rules.finding import Finding, Found, Severity, Status
from lint_rules.language.service import Request
from lint_rules.language.tokens import Mode
from lint_rules.manuscript.model import Passage, Role, Stet
from lint_rules.manuscript.pattern_table import pattern_passages, rows_of
from lint_rules.outline import Section, place_of, sections_of
from lint_rules.page.readings import Readings
from lint_rules.rule import Book, Need, Reading, Rule, RuleModule, StetReview
from lint_rules.source import Source, Span


@dataclass(frozen=True, slots=True)
class Broken:
    """A check that could not run: which rule, on which file ('' for the whole book), and why."""

    rule: str
    path: str
    why: str


@dataclass(frozen=True, slots=True)
class Outcome:
    """What reading one unit gave: raw findings by rule, checks that broke, facts, stets, and where its parts stand."""

    found: tuple[tuple[str, Found], ...]
    broken: tuple[Broken, ...]
    facts: UnitFacts
    stets: tuple[Stet, ...]
    sections: tuple[Section, ...]


@dataclass(frozen=True)
class Result:
    """A whole run: findings of every status, sorted, the checks that could not run, and the rules by name."""

    findings: tuple[Finding, ...]
    broken: tuple[Broken, ...] = ()
    facts: tuple[UnitFacts, ...] = ()  # of every unit that was read, in teaching order
    rules: Mapping[str, Rule] = field(default_factory=dict)
    stets: tuple[tuple[str, Stet, str], ...] = ()  # the unit's path, the stet, and the place it stands in

    @property
    def open(self) -> tuple[Finding, ...]:
        """The findings that count."""
        return tuple(finding for finding in self.findings if finding.status is Status.OPEN)

    @cached_property
    def points(self) -> tuple[Point, ...]:
        """The findings that count, gathered: what people see and count."""
        return gather(self.open, self.rules)


def request_of(passage: Passage, course: Course) -> Request:
    """What to ask the language room for a passage. The parse unit is the passage: a text is read alike everywhere."""
    mode = Mode.INSTRUCTION if passage.role is Role.INSTRUCTION else Mode.TEXT
    return Request(passage.text, mode, tuple(sorted(name for name in course.names if name in passage.text)))


def passages_to_analyse(readings: Readings) -> tuple[Passage, ...]:
    """What a whole unit asks of the language room: its passages as they are read and as they stand, in file order, and
    the rows of its pattern tables, and each activity's share of a key for the whole lesson or page.
    """
    passages = tuple(readings.unit.passages)
    rows = rows_of(pattern_passages(readings.unit, passages))
    items = (item for read in readings.exercises for exercise in read.exercises for item in exercise.items)
    shares = (item.answer.place.passage for item in items if item.answer is not None)
    return tuple(dict.fromkeys((*passages, *readings.done.passages, *rows, *shares)))


def requests_of(readings: Readings, course: Course) -> list[Request]:
    """What to ask the language room for a whole unit."""
    return [request_of(passage, course) for passage in passages_to_analyse(readings)]


def choose(rules: Sequence[RuleModule], course: Course, *, english: bool) -> tuple[RuleModule, ...]:
    """The rules of a run: those that the course has not switched off, without those that nobody gave a checker for."""
    return tuple(
        module
        for module in rules
        if course.rules.get(module.rule.name) != "off" and (english or Need.ENGLISH not in module.rule.needs)
    )


def read_unit_rules(
    reading: Reading,
    rules: Sequence[RuleModule],
    unavailable: Mapping[Need, str] | None = None,
    budget: Budget | None = None,
) -> Outcome:
    """Run the unit rules on one unit. A rule that breaks is noted and does not stop the others.

    ``unavailable`` says which needs cannot be met and why: rules with such a need are noted as broken.
    """
    unit = reading.unit
    found: list[tuple[str, Found]] = []
    broken: list[Broken] = []
    for module in rules:
        missing = next((need for need in module.rule.needs if unavailable and need in unavailable), None)
        if unavailable and missing is not None:
            broken.append(Broken(module.rule.name, unit.path, unavailable[missing]))
        elif budget is not None and budget.spent:
            broken.append(Broken(module.rule.name, unit.path, str(BudgetSpent())))
        elif module.find is not None:
            found += _guarded(module.rule.name, unit.path, partial(module.find, reading), broken)
    facts = _facts(reading, rules, broken)
    return Outcome(tuple(found), tuple(broken), facts, unit.stets, sections_of(unit))


def _facts(reading: Reading, rules: Sequence[RuleModule], broken: list[Broken]) -> UnitFacts:
    """The facts of a unit. When they cannot be drawn, the rules that need them could not run, and no other."""
    try:
        return facts_of(reading)
    except Exception as error:
        why = f"the facts of {reading.unit.path} could not be drawn ({type(error).__name__}: {error})"
        broken += [Broken(m.rule.name, reading.unit.path, why) for m in rules if m.find_in_book is not None]
        title = Spot(*reading.unit.title_span, reading.unit.front.title)
        return UnitFacts(reading.unit.path, reading.level.index, reading.unit.front.unit, title)


def settle(
    course: Course,
    outcomes: Mapping[str, Outcome],
    sources: Mapping[str, Source],
    rules: Sequence[RuleModule],
    today: date,
    *,
    whole_book: bool,
    all_names: Sequence[str],
) -> Result:
    """Run the book rules (for a whole book), weigh the findings, let stand what stets cover, and sort.

    ``rules`` are those of this run, ``all_names`` those that exist: a stet may name a rule that does not run today.
    """
    broken: list[Broken] = []
    facts: list[UnitFacts] = []
    for outcome in outcomes.values():
        broken += outcome.broken
        facts.append(outcome.facts)
    facts.sort(key=lambda f: (f.level, f.unit, f.path))
    of_book: dict[str, list[tuple[str, Found]]] = defaultdict(list)
    if whole_book:
        for name, item in _run_book_rules(Book(course, tuple(facts)), rules, broken):
            of_book[item.path or ""].append((name, item))
    settling = _Settling(course, {module.rule.name: module for module in rules}, today, whole_book, tuple(all_names))
    findings: list[Finding] = []
    for path, outcome in outcomes.items():
        findings += settling.settle_file(outcome, sources[path], [*outcome.found, *of_book[path]], broken)
    declared = {module.rule.name: module.rule for module in rules}
    stets = tuple(
        (path, stet, place_of(stet.span, outcome.sections))
        for path, outcome in sorted(outcomes.items())
        for stet in outcome.stets
    )
    return Result(tuple(sorted(findings, key=lambda f: f.order)), tuple(broken), tuple(facts), declared, stets)


def _run_book_rules(book: Book, rules: Sequence[RuleModule], broken: list[Broken]) -> list[tuple[str, Found]]:
    paths = {facts.path for facts in book.units}
    stuck = {note.rule for note in broken}  # facts that they need are not there, so they would cry wolf
    found: list[tuple[str, Found]] = []
    for module in rules:
        if module.find_in_book is not None and module.rule.name not in stuck:
            found += _guarded(module.rule.name, "", partial(module.find_in_book, book), broken)
    for name, item in found:
        if item.path not in paths:
            broken.append(Broken(name, "", f"it points into a file that was not read: {item.path}"))
    return [(name, item) for name, item in found if item.path in paths]


@dataclass(frozen=True, slots=True)
class _Settling:
    """What settling the files of one run has in common."""

    course: Course
    rules: Mapping[str, RuleModule]
    today: date
    whole_book: bool
    all_names: tuple[str, ...]

    def settle_file(
        self, outcome: Outcome, source: Source, items: Sequence[tuple[str, Found]], broken: list[Broken]
    ) -> list[Finding]:
        placed = [self._place(name, item, source, outcome.sections) for name, item in items]
        settled, used = apply_stets(sorted(placed, key=lambda f: f.order), outcome.stets, self.today)
        judged = self._judged(source.path, broken)
        unused = tuple(s for s in outcome.stets if s not in used and (s.rule in judged or s.rule not in self.all_names))
        review = StetReview(outcome.stets, unused, self.all_names, self.today)
        about: list[Finding] = []
        for name, module in self.rules.items():
            if module.find_in_stets is not None:
                run = partial(module.find_in_stets, review)
                about += [
                    self._place(name, item, source, outcome.sections)
                    for name, item in _guarded(name, source.path, run, broken)
                ]
        told = [finding for finding in settled if not self._is_quiet(finding)]
        return told + apply_stets(about, outcome.stets, self.today)[0]

    def _is_quiet(self, finding: Finding) -> bool:
        """Whether nobody is told: a note that nobody asked for. What a stet lets stand stays, with its reason."""
        open_note = finding.severity is Severity.NOTE and finding.status is Status.OPEN
        return open_note and self.rules[finding.rule].rule.quiet and finding.rule not in self.course.rules

    def _judged(self, path: str, broken: Sequence[Broken]) -> frozenset[str]:
        """The rules that have said all they have to say of a file: only their stets can be called unused."""
        stuck = {note.rule for note in broken if note.path in ("", path)}
        return frozenset(
            name
            for name, module in self.rules.items()
            if module.find_in_stets is None and (self.whole_book or module.find_in_book is None) and name not in stuck
        )

    def _place(self, name: str, item: Found, source: Source, sections: Sequence[Section]) -> Finding:
        return Finding(
            rule=name,
            severity=_severity(item, self.rules[name], self.course),
            path=source.path,
            span=Span(*item.span),
            start=source.position(item.span.start),
            end=source.position(item.span.end),
            text=item.text,
            message=item.message,
            mend=item.mend,
            place=place_of(item.span, sections),
            key=item.key,
            about=item.about,
        )


def _guarded(rule: str, path: str, run: Callable[[], Iterable[Found]], broken: list[Broken]) -> list[tuple[str, Found]]:
    """Collect what a rule yields; when it breaks, keep what it had found and note the break."""
    kept: list[tuple[str, Found]] = []
    try:
        for item in run():
            kept.append((rule, item))  # one by one: what came before the break is kept
    except Exception as error:  # a rule's bug must neither stop the others nor pass for a clean page
        broken.append(Broken(rule, path, f"{type(error).__name__}: {error}"))
    return kept


def _severity(item: Found, module: RuleModule, course: Course) -> Severity:
    """The course's word goes, but never above what the rule itself thought of a milder case.

    Without it a rule that is newer than what the course has adopted only advises: an upgrade never blocks a book.
    """
    usual = module.rule.severity
    own = item.severity or usual
    chosen = course.rules.get(module.rule.name)
    if chosen is None or chosen == "off":
        return own if adopts(course.adopted, module.rule.since) else Severity.NOTE
    wanted = Severity(chosen)
    return min(wanted, own, key=lambda s: s.weight) if own.weight < usual.weight else wanted
