"""One check of one open text: what the command line would say of it, as an editor shows it. No protocol in here but its
plain types; it runs on a worker thread."""

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from urllib.parse import unquote

from lsprotocol import types

from lint_rules.course.folder import COURSE_FILE, CourseOnDisk, FolderError, NoCourse, find_course, path_in_course
from lint_rules.course.problem import CourseProblem
from lint_rules.editor.open_courses import OpenCourses
from lint_rules.editor.positions import position_of, range_of, source_of
from lint_rules.engine.gather import Point
from lint_rules.exit_status import CannotRun
from lint_rules.finding import Severity
from lint_rules.manuscript.front_matter import read_front_matter
from lint_rules.reports.report import Report
from lint_rules.session import Tools, book_of_folder, proof_of_folder
from lint_rules.source import Source, Span

SOURCE = "hornbook"
_IN_NO_LEVEL = "it is in no level's folder, so it is not a unit"
_SEVERITIES = {
    Severity.STOP: types.DiagnosticSeverity.Error,
    Severity.QUERY: types.DiagnosticSeverity.Warning,
    Severity.NOTE: types.DiagnosticSeverity.Information,
}


@dataclass(frozen=True, slots=True)
class Checked:
    """What a check gave: diagnostics by file, and, where the text is a unit that was read, the report and the source.

    ``folder`` is the course it is in (None: in none that could be read), ``left_out`` why nothing was read, if so.
    """

    diagnostics: Mapping[Path, Sequence[types.Diagnostic]]
    report: Report | None = None
    source: Source | None = None
    folder: CourseOnDisk | None = None
    left_out: str = ""


@dataclass(slots=True)
class Checker:
    """Checks open texts; ``encoding`` is the unit in which the editor counts columns."""

    kit: Tools
    courses: OpenCourses
    encoding: str = "utf-16"
    today: Callable[[], date] = date.today
    said: dict[Path, frozenset[Path]] = field(default_factory=dict)  # root → files of its course that were spoken of

    def check(self, path: Path, text: str, buffers: Mapping[Path, str], *, english: bool) -> Checked:
        """What is found in an open file, and in the course's own files. Never raises: a bug is said, not silent."""
        try:
            return self._check(path, text, buffers, english=english)
        except Exception as error:  # the author must not take silence for a clean page
            logging.getLogger(__name__).exception("a check broke")
            said = _at_top(f"hornbook itself broke: {type(error).__name__}: {error}", types.DiagnosticSeverity.Error)
            return Checked({path: [said]})

    def _check(self, path: Path, text: str, buffers: Mapping[Path, str], *, english: bool) -> Checked:
        try:
            root = find_course(path)
            inside = path_in_course(root, path)
        except NoCourse as error:
            return Checked({path: list(_loose(path, text, str(error)))}, left_out="it is under no course")
        mine = {path_in_course(root, other): held for other, held in buffers.items() if other.is_relative_to(root)}
        mine[inside] = text
        try:
            folder = self.courses.folder(root, mine)
        except FolderError as error:
            return Checked({root / COURSE_FILE: [_at_top(str(error), types.DiagnosticSeverity.Error)]})
        own = self._of_course(folder, mine)
        kit = replace(self.kit, today=self.today(), english=self.kit.english if english else None)
        source = source_of(inside, text)
        if folder.course is None or any(problem.stops for problem in folder.problems):
            return Checked({path: [_unchecked(folder)], **own} if path not in own else own, folder=folder)
        if folder.course.level_of(inside) is None:
            in_none = "" if path in own or inside in _of_the_course(folder) else _IN_NO_LEVEL
            return Checked(own, folder=folder, left_out=in_none)
        report = proof_of_folder(folder, source, kit)
        found = [diagnostic(point, path, source, self.encoding) for point in report.points]
        found += [_broken(note.rule, note.why) for note in report.broken]
        return Checked({**own, path: found}, report, source, folder)

    def book(self, root: Path, buffers: Mapping[Path, str]) -> Mapping[Path, Sequence[types.Diagnostic]]:
        """What the rules for the whole book find, by file (asked when a file is saved)."""
        try:
            mine = {path_in_course(root, other): held for other, held in buffers.items() if other.is_relative_to(root)}
            folder = self.courses.folder(root, mine)
            kit = replace(self.kit, today=self.today(), english=None)  # no rule of a whole book asks about English
            report = book_of_folder(folder, {p: source_of(p, held) for p, held in mine.items()}, kit)
        except (FolderError, CannotRun):
            return {}  # said with each unit
        except Exception:
            logging.getLogger(__name__).exception("a check of the book broke")
            return {}
        of_book = {m.rule.name for m in self.kit.rules if m.find_in_book is not None and m.find is None}
        found: dict[Path, list[types.Diagnostic]] = {}
        for point in report.points:
            if point.rule in of_book:
                file = root / point.lead.path
                shown = diagnostic(point, file, report.sources[point.lead.path], self.encoding)
                found.setdefault(file, []).append(shown)
        return found

    def _of_course(self, folder: CourseOnDisk, buffers: Mapping[str, str]) -> dict[Path, list[types.Diagnostic]]:
        """What is wrong in course.yaml and the word lists, and what lies where no level looks for it; also nothing, in
        files that something was said of before."""
        found: dict[Path, list[types.Diagnostic]] = {gone: [] for gone in self.said.get(folder.root, frozenset())}
        for problem in (*folder.problems, *folder.strays, *folder.unreadable):
            file = folder.root / problem.path
            found.setdefault(file, []).append(self._problem(folder.root, problem, buffers))
        self.said[folder.root] = frozenset(file for file, said in found.items() if said)
        return found

    def _problem(self, root: Path, problem: CourseProblem, buffers: Mapping[str, str]) -> types.Diagnostic:
        severity = types.DiagnosticSeverity.Error if problem.stops else types.DiagnosticSeverity.Warning
        if problem.line == 0:
            return _at_top(problem.message, severity)
        text = buffers.get(problem.path)
        if text is None:
            try:
                text = (root / problem.path).read_bytes().decode("utf-8", "replace")
            except OSError:
                text = ""
        source = source_of(problem.path, text)
        line = min(problem.line, len(source.line_starts))
        start = min(source.line_starts[line - 1] + problem.column - 1, source.line_span(line).end)
        span = Span(start, max(source.line_span(line).end, start))
        return types.Diagnostic(range_of(span, source, self.encoding), problem.message, severity, source=SOURCE)


def diagnostic(point: Point, file: Path, source: Source, encoding: str) -> types.Diagnostic:
    """A point at its first place; an editor lists its other places in the file beneath it."""
    others = [
        types.DiagnosticRelatedInformation(
            types.Location(file.as_uri(), range_of(finding.span, source, encoding)), f"“{finding.text}”"
        )
        for finding in point.other_places
        if finding.path == point.lead.path
    ]
    return types.Diagnostic(
        range=range_of(point.lead.span, source, encoding),
        message=point.message,
        severity=_SEVERITIES[point.severity],
        code=point.rule,
        source=SOURCE,
        related_information=others or None,
    )


def path_of(uri: str) -> Path | None:
    """The file of a document; None for one that is not (yet) a file."""
    if not uri.startswith("file:"):
        return None
    rest = unquote(uri.removeprefix("file:"))
    if "\0" in rest:
        return None
    if rest.startswith("//"):
        machine, _, tail = rest.removeprefix("//").partition("/")
        rest = f"/{tail}" if machine in ("", "localhost") else rest
    if len(rest) > 2 and rest[0] == "/" and rest[2] == ":":
        rest = rest[1:]  # a drive
    return Path(rest)


def _loose(path: Path, text: str, why: str) -> Iterator[types.Diagnostic]:
    """A file under no course: nothing is said of it, unless it begins as a unit does."""
    front = read_front_matter(source_of(path.name, text))[0] if path.suffix.lower() == ".md" else None
    if front is not None and front.level and front.unit:
        yield _at_top(why, types.DiagnosticSeverity.Information)


def _of_the_course(folder: CourseOnDisk) -> frozenset[str]:
    """The course's own files, which are checked as what they are."""
    levels = folder.course.levels if folder.course is not None else ()
    return frozenset({COURSE_FILE, *(level.words_path for level in levels if level.words_path)})


def _unchecked(folder: CourseOnDisk) -> types.Diagnostic:
    """A unit of a course that cannot be read must not look clean."""
    first = next(iter(folder.problems), None)
    place = f"{first.path}, line {first.line}" if first is not None and first.line else COURSE_FILE
    return _at_top(f"This unit was not checked. First mend {place}.", types.DiagnosticSeverity.Warning)


def _broken(rule: str, why: str) -> types.Diagnostic:
    return _at_top(f"The check {rule} could not run: {why}", types.DiagnosticSeverity.Error)


def _at_top(message: str, severity: types.DiagnosticSeverity) -> types.Diagnostic:
    start = position_of(0, Source("", ""), "utf-16")
    return types.Diagnostic(types.Range(start, start), message, severity, source=SOURCE)
