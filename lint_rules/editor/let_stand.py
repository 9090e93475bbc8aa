"""Letting a finding stand: the comment that does it, at the place where it works."""

from collections.abc import Awaitable, Callable, Sequence

from lint_rules.editor.checker import Checked
from lint_rules.finding import Edit, Finding, Status
from lint_rules.source import Source, Span

_REASON = "one two three four"  # any reason, to see whether a comment would let something stand
CANNOT = "No comment can let this stand: none is read there. Mend it, or switch its rule off in course.yaml."


async def working_stet(
    source: Source, finding: Finding, check: Callable[[str], Awaitable[Checked]]
) -> tuple[Edit, int] | None:
    """The comment that lets a finding stand, where a check of the text with it shows that it does, and where in it the
    reason goes; None where no place works."""
    for at_end in (True, False):
        edit, reason = stet_edit(source, finding, at_end=at_end)
        reasoned = edit.text[:reason] + _REASON + edit.text[reason:]
        tried = await check(edited(source, edit, reasoned).text)
        if tried.report is not None and _stands(finding, tried.report.result.findings, edit, len(reasoned)):
            return edit, reason
    return None


def edited(source: Source, edit: Edit, text: str) -> Source:
    """A text after an edit, with ``text`` for what the edit brings."""
    whole = source.text[: edit.span.start] + text + source.text[edit.span.end :]
    return Source(source.path, whole, source.bom)


def stet_edit(source: Source, finding: Finding, *, at_end: bool) -> tuple[Edit, int]:
    """The comment that lets a finding stand, and where in it the reason goes (offset in the new text of the edit).

    It goes to the end of the line, or, where a line cannot take it (a heading, a table), on a line before.
    """
    line = source.position(finding.span.start).line
    span = source.line_span(line)
    head = f"<!-- stet {finding.rule}: "
    if at_end:
        return Edit(Span(span.end, span.end), f" {head} -->"), len(head) + 1
    end = "\r\n" if "\r\n" in source.text else "\n"
    return Edit(Span(span.start, span.start), f"{head} -->{end}{end}"), len(head)


def _stands(finding: Finding, findings: Sequence[Finding], edit: Edit, added: int) -> bool:
    start = finding.span.start + (added if edit.span.start <= finding.span.start else 0)
    return any(
        one.rule == finding.rule and one.span.start == start and one.status is Status.LET_STAND for one in findings
    )
