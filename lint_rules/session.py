"""What the reading commands share: the course from disk, a run over it, and the report that all formats show."""

import argparse
import os
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, ExitStack, contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from lint_rules.course.folder import (
    COURSE_FILE,
    CourseOnDisk,
    FolderError,
    NoCourse,
    find_course,
    path_in_course,
    prefix_in_repository,
    read_course_folder,
    read_file,
)
from lint_rules.course.model import Course
from lint_rules.course.problem import CourseProblem
from lint_rules.course.strays import begins_as_a_unit
from lint_rules.engine.cache.answers import RememberingEnglish, RememberingLanguage
from lint_rules.engine.cache.key_value_store import KeyValueStore, open_store
from lint_rules.engine.cache.outcomes import OutcomeMemory, versions
from lint_rules.engine.cache.place import folder_for
from lint_rules.engine.check import Result, choose
from lint_rules.engine.pool import UnitPool
from lint_rules.engine.registry import BadRule, load_rules
from lint_rules.engine.run import Job, run
from lint_rules.engine.suppression.carried import (
    CARRIED_FILE,
    BadCarried,
    Entry,
    apply_carried,
    follow_renames,
    read_carried,
)
from lint_rules.exit_status import BLOCKED, CANNOT_RUN, CLEAN, RULE_BROKE, CannotRun
from lint_rules.finding import Finding, Severity, Status
from lint_rules.language.grammar.labels import structures_of_label
from lint_rules.language.grammar.structures import STRUCTURE_NAMES
from lint_rules.language.service import English, EnglishMatch, EnglishUnavailable, Language
from lint_rules.reports.progress import Progress, progress
from lint_rules.reports.report import Report, Skipped
from lint_rules.reports.weight import is_lighter
from lint_rules.rule import Need, RuleModule
from lint_rules.source import Source


@dataclass(frozen=True)
class Tools:
    """What a run needs besides a course: the rules, the language room, an English checker if one was asked for."""

    rules: tuple[RuleModule, ...]
    language: Language
    english: English | None
    today: date
    kept: KeyValueStore
    versions: tuple[str, ...]
    progress: Progress

    def memory(self, course: Course, files: frozenset[str]) -> OutcomeMemory | None:
        """What is remembered of a course's units; nothing where nobody can say which checker answers."""
        try:
            checkers = (self.language.version, self.english.version if self.english else "")
        except EnglishUnavailable:
            return None
        return OutcomeMemory(self.kept, course, self.rules, (*self.versions, *checkers), files)

    def pool(self, course: Course, files: frozenset[str]) -> UnitPool | None:
        """Processes for the units of a book; none beside an English checker, for which every process would wait."""
        if self.english is not None:
            return None
        rules = choose(self.rules, course, english=False)
        return UnitPool(course, rules, files, self.kept.folder)

    def findings_again(self, report: Report, source: Source) -> tuple[Finding, ...]:
        """The open findings of one unit of a report, had it this text."""
        job = Job(report.course, [source], self.rules, self.language, self.today, False, self.english, report.files)
        settled = apply_carried(run(job).findings, report.carried_kept)
        return tuple(finding for finding in settled.findings if finding.status is Status.OPEN)


@contextmanager
def tools(arguments: argparse.Namespace) -> Iterator[Tools]:
    """Set up what a run needs, by the options that the reading commands have in common. Raises CannotRun."""
    try:
        rules = load_rules()
    except BadRule as error:
        raise CannotRun(str(error)) from error
    with ExitStack() as stack:
        kept = stack.enter_context(open_store(None if arguments.no_cache else folder_for(arguments)))
        counts = stack.enter_context(progress())
        english: English | None = None
        if arguments.english:
            try:
                connected = stack.enter_context(_connect(arguments.english))
                english = RememberingEnglish(counts.watch(connected), kept)
            except EnglishUnavailable as error:
                english = Unanswering(str(error))
        language = RememberingLanguage(language_room(), kept)
        decisive = () if arguments.no_cache else versions(rules)
        yield Tools(rules, language, english, date.today(), kept, decisive, counts)


def language_room() -> Language:
    """The language room of a run."""
    from lint_rules.language.pipeline import SpacyLanguage

    return SpacyLanguage()


def _connect(address: str) -> AbstractContextManager[English]:
    from lint_rules.english.connect import connect

    try:
        return connect(address)
    except ValueError as error:
        raise CannotRun(str(error)) from error


class Unanswering:
    """Stands for an English checker that could not be reached, so that the run goes on and says so."""

    version = "none"

    def __init__(self, why: str) -> None:
        self.why = why

    def check(self, texts: Sequence[str], variety: str) -> list[tuple[EnglishMatch, ...]]:
        raise EnglishUnavailable(self.why)


def open_course(place: Path, rules: Sequence[RuleModule]) -> CourseOnDisk:
    """Read the course that a folder or file is in. Raises CannotRun with every problem that stops the run."""
    try:
        root = find_course(place)
    except FolderError as error:
        raise CannotRun(str(error)) from error
    try:
        folder = read_course_folder(root, [module.rule.name for module in rules], STRUCTURE_NAMES, structures_of_label)
    except FolderError as error:
        raise CannotRun(_in_course(root, COURSE_FILE, str(error))) from error
    if folder.course is None or any(problem.stops for problem in folder.problems):
        raise CannotRun(*(_shown_problem(root, problem) for problem in folder.problems))
    return folder


def shown_path(root: Path, path: str) -> str:
    """A path inside a course as the reader calls it: from where the command was given."""
    full = root / path
    try:
        return Path(os.path.relpath(full)).as_posix()
    except ValueError:  # another drive
        return full.as_posix()


def book_report(place: Path, kit: Tools, blocks_from: Severity, insists: frozenset[str] = frozenset()) -> Report:
    """Read every unit of the course in a folder, by every rule. Raises CannotRun.

    ``insists`` names rules that the course's settings cannot make lighter.
    """
    if not place.exists():
        raise CannotRun(f"There is no folder {place}.")
    folder = open_course(place, kit.rules)
    _insist_on_units(folder)
    return _report(folder, folder.units, folder.unreadable, kit, blocks_from, whole_book=True, insists=insists)


def _insist_on_units(folder: CourseOnDisk) -> None:
    """Never call a course without units clean. Raises CannotRun."""
    if not folder.units and not folder.unreadable:
        assert folder.course is not None
        named = " or ".join(f"{level.name}/" for level in folder.course.levels)
        add = " and `git add` it" if os.environ.get("PRE_COMMIT") == "1" else ""
        where = shown_path(folder.root, ".")
        raise CannotRun(f"{where}: this course has no units yet. Put one into {named}unit-01.md{add}.")


def proof_reports(files: Sequence[str], kit: Tools, blocks_from: Severity) -> list[Report]:
    """Check some units (all of the course here, when none are named), a report a course.

    What cannot be read does not keep the rest from being read. Raises CannotRun when nothing can.
    """
    if not files:
        folder = open_course(Path("."), kit.rules)
        _insist_on_units(folder)
        return [_report(folder, folder.units, folder.unreadable, kit, blocks_from, whole_book=False)]
    wanted, strangers, faults = _by_course(files)
    reports = []
    for root, paths in sorted(wanted.items()):
        try:
            reports.append(_some(root, paths, kit, blocks_from))
        except CannotRun as error:
            faults += [Skipped(name, line) for name in [shown_path(root, COURSE_FILE)] for line in error.lines]
    if not reports and faults:
        raise CannotRun(*(fault.why for fault in faults))
    if not reports:
        return [Report(_NO_COURSE, Result(()), {}, {}, blocks_from, tuple(strangers))]
    first = reports[0]
    skipped = (*first.skipped, *strangers, *faults)
    return [replace(first, skipped=skipped, spoilt=first.spoilt or bool(faults)), *reports[1:]]


def _by_course(files: Sequence[str]) -> tuple[dict[Path, list[str]], list[Skipped], list[Skipped]]:
    """Files by the course they are in (paths inside it); those that are no concern of ours; what is wrong with others.

    In a hook a commit may hold Markdown that is under no course; unless it looks like a unit, that is nothing wrong.
    """
    wanted: dict[Path, list[str]] = defaultdict(list)
    strangers: list[Skipped] = []
    faults: list[Skipped] = []
    for name in dict.fromkeys(files):
        path = Path(name)
        if path.is_dir():
            why = f"{name} is a folder. Name unit files, or read the whole course with `hornbook book {name}`."
            faults.append(Skipped(name, why))
        elif not path.exists() and not path.is_symlink():
            faults.append(Skipped(name, f"There is no file {name}."))
        else:
            try:
                root = find_course(path)
                wanted[root].append(path_in_course(root, path))
            except NoCourse as error:
                if os.environ.get("PRE_COMMIT") == "1" and name.endswith(_TABLE):
                    continue
                if os.environ.get("PRE_COMMIT") == "1" and not begins_as_a_unit(path):
                    strangers.append(Skipped(name, "it is under no course and does not look like a unit"))
                else:
                    faults.append(Skipped(name, str(error)))
    return wanted, strangers, faults


_TABLE = ".csv"  # a hook is given them because word lists are tables; others are no concern of ours
_NO_COURSE = Course("", "en-GB", (6, 10), (), (), ())


def proof_of_folder(folder: CourseOnDisk, unit: Source, kit: Tools) -> Report:
    """Check a unit as it stands in an editor, saved or not, in a course that has been read."""
    return _report(folder, [unit], [], kit, Severity.STOP, whole_book=False)


def book_of_folder(folder: CourseOnDisk, held: Mapping[str, Source], kit: Tools) -> Report:
    """Check a whole course that has been read; ``held`` are units as they stand in an editor, by path."""
    units = [held.get(unit.path, unit) for unit in folder.units]
    return _report(folder, units, folder.unreadable, kit, Severity.STOP, whole_book=True)


def _some(
    root: Path,
    paths: Sequence[str],
    kit: Tools,
    blocks_from: Severity,
) -> Report:
    folder = open_course(root, kit.rules)
    assert folder.course is not None
    known = {source.path: source for source in folder.units}
    units: list[Source] = []
    unreadable: list[CourseProblem] = []
    skipped: list[Skipped] = []
    lists = {level.words_path for level in folder.course.levels if level.words_path}
    if any(path == COURSE_FILE or path in lists for path in paths):  # what all units are judged by has changed
        paths, unreadable = [unit.path for unit in folder.units], list(folder.unreadable)
    for path in dict.fromkeys(paths):
        if path.endswith(_TABLE) and os.environ.get("PRE_COMMIT") == "1":
            continue
        if folder.course.level_of(path) is None:
            skipped.append(Skipped(shown_path(root, path), "it is in no level's folder, so it is not a unit"))
            continue
        read = known.get(path) or read_file(root, path)
        if isinstance(read, Source):
            units.append(read)
        else:
            unreadable.append(read)
    report = _report(folder, units, unreadable, kit, blocks_from, whole_book=False)
    return replace(report, skipped=(*report.skipped, *skipped))


def _report(
    folder: CourseOnDisk,
    units: Sequence[Source],
    unreadable: Sequence[CourseProblem],
    kit: Tools,
    blocks_from: Severity,
    *,
    whole_book: bool,
    insists: frozenset[str] = frozenset(),
) -> Report:
    assert folder.course is not None
    settings = folder.course.rules.items()
    usual = {module.rule.name: module.rule.severity.value for module in kit.rules}
    kept = {name: weight for name, weight in settings if name not in insists or not is_lighter(weight, usual[name])}
    kept |= {name: usual[name] for name in insists if name not in kept}  # also what the course has not adopted
    course = folder.course if kept == dict(settings) else replace(folder.course, rules=kept)
    job = Job(
        course,
        units,
        kit.rules,
        kit.language,
        kit.today,
        whole_book,
        kit.english,
        folder.files,
        unreadable,
        kit.memory(course, folder.files) if kit.versions else None,
        kit.pool(course, folder.files),
        kit.progress.units_done,
    )
    kit.progress.expect_units(len(units))
    result = run(job)
    kit.kept.write()
    titles = {plan.path: plan.title for plan in course.plans} | {problem.path: "" for problem in folder.unreadable}
    entries = follow_renames(carried_entries(folder.root), titles)
    ran = {module.rule.name for module in choose(kit.rules, course, english=kit.english is not None)}
    stuck = {(note.rule, path) for note in result.broken for path in ([note.path] if note.path else titles)}
    spoilt = {f.path for f in result.findings if f.rule == "unreadable-manuscript" and f.severity is Severity.STOP}

    def judged(entry: Entry) -> bool:
        there = entry.path in titles and (entry.path in spoilt or (entry.rule, entry.path) in stuck)
        return entry.rule in ran and not there

    settled = apply_carried(result.findings, entries, judged)
    sources = {source.path: source for source in units}
    sources |= {problem.path: Source(problem.path, "") for problem in unreadable}
    return Report(
        folder.course,
        replace(result, findings=settled.findings),
        sources,
        {path: shown_path(folder.root, path) for path in sources},
        blocks_from,
        tuple(
            _skipped_row(folder.root, problem)
            for problem in (*folder.problems, *(folder.strays if whole_book else ()))
            if not problem.harmless
        ),
        {} if kit.english is not None else _unchecked(kit.rules, folder.course),
        root=folder.root,
        files=folder.files,
        carried_gone=settled.gone if whole_book else (),
        carried_kept=settled.kept,
        spoilt=not all(problem.harmless for problem in folder.problems),
        told=tuple(_shown_problem(folder.root, problem).rstrip(".") for problem in folder.problems if problem.harmless),
        prefix=prefix_in_repository(folder.root),
    )


def _unchecked(rules: Sequence[RuleModule], course: Course) -> Mapping[str, str]:
    """The checks that need an English checker, which nobody named."""
    names = [m.rule.name for m in rules if Need.ENGLISH in m.rule.needs and course.rules.get(m.rule.name) != "off"]
    return dict.fromkeys(names, "no English checker was named; see --english")


def carried_entries(root: Path) -> tuple[Entry, ...]:
    """The findings that the course carries over from before. Raises CannotRun."""
    if not (root / CARRIED_FILE).exists():
        return ()
    read = read_file(root, CARRIED_FILE)
    if isinstance(read, CourseProblem):
        raise CannotRun(_shown_problem(root, read))
    try:
        return read_carried(read.text)
    except BadCarried as error:
        raise CannotRun(shown_path(root, str(error))) from error


def status_of(reports: Sequence[Report], *, units_needed: bool = True) -> int:
    """Exit status of a run, the gravest first."""
    if any(report.broken for report in reports):
        return RULE_BROKE
    if any(report.spoilt for report in reports) or (units_needed and not any(report.sources for report in reports)):
        return CANNOT_RUN
    return BLOCKED if any(report.blocking for report in reports) else CLEAN


def _shown_problem(root: Path, problem: CourseProblem) -> str:
    where = shown_path(root, problem.path)
    if problem.line:
        return f"{where}:{problem.line}:{problem.column}: {problem.message}"
    return _in_course(root, problem.path, problem.message)


def _in_course(root: Path, path: str, message: str) -> str:
    """A message that names a path inside a course, to a reader who stands elsewhere."""
    where = shown_path(root, path)
    return message if where == path else f"{where}: {message}"


def _skipped_row(root: Path, problem: CourseProblem) -> Skipped:
    where = shown_path(root, problem.path)
    shown = f"{where}:{problem.line}:{problem.column}" if problem.line else where
    return Skipped(shown, problem.message, problem.path, problem.line)
