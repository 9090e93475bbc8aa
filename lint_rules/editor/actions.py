"""What an author can do about a finding: mend it, let it stand, take the word into the course, read the rule's page."""

import csv
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import Any

from lsprotocol import types

from lint_rules import lazy_re
from lint_rules.course.folder import COURSE_FILE
from lint_rules.editor.checker import Checked, diagnostic
from lint_rules.editor.positions import position_of, range_of, source_of
from lint_rules.finding import Edit, Finding, Mend
from lint_rules.reports.report import Report
from lint_rules.source import Source, Span

LET_STAND, SHOW_RULE = "hornbook.letStand", "hornbook.showRule"
FIX_ALL = types.CodeActionKind.SourceFixAll.value
_OF_WORDS = frozenset(
    {"word-above-level", "word-before-taught", "unfamiliar-instruction-word", "english-error", "target-word-not-taught"}
)
_WORD = lazy_re.compile(r"[^\W\d_]+(?:[ '’-][^\W\d_]+)*")


@dataclass(frozen=True, slots=True)
class Asked:
    """What actions are asked for: a document at a version, the offsets that are marked, kinds that are wanted (None:
    all), and the columns of the editor."""

    uri: str
    version: int | None
    span: Span
    only: Sequence[str] | None
    encoding: str

    def wants(self, kind: str) -> bool:
        """Whether a kind of action is asked for (LSP 3.17: kinds are hierarchical)."""
        return self.only is None or any(kind == one or kind.startswith(f"{one}.") for one in self.only)


def actions_for(checked: Checked, asked: Asked) -> Iterator[types.CodeAction]:
    """The actions at a place, those that mend first."""
    report, source = checked.report, checked.source
    if report is None or source is None:
        return
    here = [f for f in report.findings if f.span.start <= asked.span.end and asked.span.start <= f.span.end]
    shown = {id(f): _shown(report, f, checked, asked) for f in here}
    if asked.wants("quickfix"):
        for finding in here:
            if finding.mend is not None:
                yield _mend(finding.mend, shown[id(finding)], source, asked)
        for finding in here:
            yield from _word_actions(finding, checked, asked, shown[id(finding)])
        for finding in _one_a_rule(here):
            title = f"Let it stand, and say why ({finding.rule})"
            arguments = [asked.uri, finding.rule, finding.span.start, finding.span.end]
            yield _command(title, LET_STAND, arguments, shown[id(finding)])
        for finding in _one_a_rule(here):
            yield _command(f"What is {finding.rule}?", SHOW_RULE, [finding.rule], shown[id(finding)])
    if asked.wants(FIX_ALL):
        mends = [finding.mend for finding in report.findings if finding.mend is not None]
        edits = _apart([edit for mend in mends for edit in mend.edits])
        if edits:
            mend = Mend(f"Make the safe mends of this unit ({len(mends)})", tuple(edits))
            yield _mend(mend, [], source, asked, kind=FIX_ALL)


def _shown(report: Report, finding: Finding, checked: Checked, asked: Asked) -> list[types.Diagnostic]:
    """The diagnostic that a finding is shown by."""
    assert checked.folder is not None
    assert checked.source is not None
    file = checked.folder.root / checked.source.path
    points = (point for point in report.points if finding in point.findings)
    return [diagnostic(point, file, checked.source, asked.encoding) for point in points]


def _one_a_rule(findings: Sequence[Finding]) -> list[Finding]:
    return list({finding.rule: finding for finding in reversed(findings)}.values())[::-1]


def _mend(
    mend: Mend, shown: Sequence[types.Diagnostic], source: Source, asked: Asked, kind: str = "quickfix"
) -> types.CodeAction:
    edits = [types.TextEdit(range_of(edit.span, source, asked.encoding), edit.text) for edit in mend.edits]
    document = types.OptionalVersionedTextDocumentIdentifier(asked.uri, asked.version)
    change = types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(document, list(edits))])
    return types.CodeAction(mend.title, kind=kind, diagnostics=list(shown), edit=change)


def _command(title: str, name: str, arguments: list[Any], shown: list[types.Diagnostic]) -> types.CodeAction:
    command = types.Command(title, name, arguments=arguments)
    return types.CodeAction(title, kind=types.CodeActionKind.QuickFix, diagnostics=shown, command=command)


def _word_actions(
    finding: Finding, checked: Checked, asked: Asked, shown: list[types.Diagnostic]
) -> Iterator[types.CodeAction]:
    """Ways to tell the course of a word: into its level's list, as a name, as a word that every child knows."""
    folder, source = checked.folder, checked.source
    if finding.rule not in _OF_WORDS or folder is None or folder.course is None or source is None:
        return
    word = finding.text.strip()
    if not _WORD.fullmatch(word):
        return
    level = folder.course.level_of(source.path)
    if level is not None and level.words_path and finding.rule != "target-word-not-taught":
        edit = _row(folder.root / level.words_path, word, asked.encoding)
        if edit is not None:
            title = f"Add “{word}” to {level.words_path}"
            yield types.CodeAction(title, kind=types.CodeActionKind.QuickFix, diagnostics=shown, edit=edit)
    keys = [("known", "words that every child here knows")]
    if word[:1].isupper():
        keys = [("characters", "characters"), ("places", "places"), *keys]
    for key, what in keys:
        edit = course_edit(folder.root / COURSE_FILE, key, word, asked.encoding)
        if edit is not None:
            title = f"Add “{word}” to the course's {what}"
            yield types.CodeAction(title, kind=types.CodeActionKind.QuickFix, diagnostics=shown, edit=edit)


def _row(path: Path, word: str, encoding: str) -> types.WorkspaceEdit | None:
    """A new row at the end of a word list; None where the list cannot be read."""
    source = _read(path)
    if source is None or not source.text.strip():
        return None
    head = source.line_text(1)
    separator = max(",;\t", key=head.count)
    columns = [cell.strip().strip('"').casefold() for cell in head.split(separator)]
    if "word" not in columns:
        return None
    out = StringIO()
    end = "\r\n" if "\r\n" in source.text else "\n"
    writer = csv.writer(out, delimiter=separator, lineterminator=end)
    writer.writerow([word if column == "word" else "" for column in columns])
    before = "" if source.text.endswith(("\n", "\r")) else end
    return _insert(path, source, len(source.text), before + out.getvalue(), encoding)


def course_edit(path: Path, key: str, word: str, encoding: str) -> types.WorkspaceEdit | None:
    """The course file with one more word in a list; None where that list is written in a way we do not know."""
    source = _read(path)
    if source is None:
        return None
    quoted = word if re.fullmatch(r"[^\W\d_]+(?:[ -][^\W\d_]+)*", word) else '"' + word.replace('"', '\\"') + '"'
    end = "\r\n" if "\r\n" in source.text else "\n"
    found = re.search(rf"^{key}[ \t]*:[ \t]*(?P<rest>.*)$", source.text, re.M)
    if found is None:
        first = re.search(r"^title[ \t]*:.*$", source.text, re.M)
        if first is None:
            return None
        return _insert(path, source, first.end(), f"{end}{key}: [{quoted}]", encoding)
    rest = found["rest"]
    flow = re.match(r"\[(?P<inner>[^\]\[#]*)\]", rest)
    if flow is not None:
        at = found.start("rest") + flow.end("inner")
        inner = flow["inner"].rstrip()
        return _insert(path, source, at, f", {quoted}" if inner and not inner.endswith(",") else quoted, encoding)
    block = re.match(r"[ \t]*(?:#.*)?\r?\n(?P<indent>[ \t]*)- ", source.text[found.start("rest") :])
    if block is not None:
        return _insert(path, source, found.end(), f"{end}{block['indent']}- {quoted}", encoding)
    return None


def _insert(path: Path, source: Source, at: int, text: str, encoding: str) -> types.WorkspaceEdit:
    place = position_of(at, source, encoding)
    document = types.OptionalVersionedTextDocumentIdentifier(path.as_uri(), None)
    edit = types.TextEdit(types.Range(place, place), text)
    return types.WorkspaceEdit(document_changes=[types.TextDocumentEdit(document, [edit])])


def _read(path: Path) -> Source | None:
    try:
        return source_of(path.name, path.read_bytes().decode("utf-8"))
    except (OSError, UnicodeDecodeError):
        return None


def _apart(edits: Sequence[Edit]) -> list[Edit]:
    """Edits that do not touch each other, in order; of two that do, the first."""
    kept: list[Edit] = []
    for edit in sorted(edits, key=lambda edit: edit.span):
        if not kept or kept[-1].span.end < edit.span.start:
            kept.append(edit)
    return kept
