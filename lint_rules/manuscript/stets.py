"""Stet comments: their form, and the block each lets stand."""

import re
from bisect import bisect_right
from dataclasses import replace
from datetime import date

from lint_rules import lazy_re
from lint_rules.manuscript.contents import Contents, block_at
from lint_rules.manuscript.markdown import Comment
from lint_rules.manuscript.model import Stet
from lint_rules.source import Span

_STET = lazy_re.compile(r"<!--\s*stet\b(?P<body>[\s\S]*?)-->\Z", re.IGNORECASE)
_FORM = lazy_re.compile(r"(?P<head>[^:]*)(?P<colon>:?)(?P<reason>[\s\S]*)")
_RULE = lazy_re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
_TOO_WIDE = (
    "What follows holds whole activities, and a stet lets one block stand. Put it before the block that it is for."
)
_SAFETY = "missing-safety-note"
_WORDS_FOR_SAFETY = 4  # what a reason takes that another teacher can judge: house figure
_SHAPE = "Write <!-- stet RULE: reason --> or <!-- stet RULE until 2027-03-01: reason -->"


def is_lapsed(stet: Stet, today: date) -> bool:
    """Say whether a stet's day has come."""
    return stet.until is not None and today >= stet.until


def read_stet(text: str, span: Span, covers: Span | None) -> Stet | None:
    """Read a comment as a stet; None when it is another comment."""
    match = _STET.match(text)
    if match is None:
        return None
    form = _FORM.fullmatch(" ".join(match["body"].split()))
    assert form is not None  # the pattern matches everything
    words = form["head"].split()
    reason = form["reason"].strip()
    rule = words[0] if words else ""
    until: date | None = None
    fault = ""
    if not words:
        fault = f"It names no rule. {_SHAPE}."
    elif not _RULE.fullmatch(rule):
        fault = f"`{rule}` is not the name of a rule. {_SHAPE}, one rule in each comment."
    elif len(words) > 1 and words[1].casefold() == "until":
        until = _date(words[2]) if len(words) == 3 else None
        if until is None:
            fault = f"The date cannot be read. Write it as year-month-day: `until 2027-03-01`. {_SHAPE}."
    elif len(words) > 1 and not form["colon"]:
        fault = f"The colon between the rule and the reason is missing. {_SHAPE}."
    elif len(words) > 1:
        fault = f"Between the rule and the colon only `until` and a date may stand. {_SHAPE}, one rule in each comment."
    elif rule == _SAFETY and 0 < len(reason.split()) < _WORDS_FOR_SAFETY:
        fault = "So short a reason for leaving out a safety note tells nobody enough: say in four words or more why."
    return Stet(rule, reason, until, span, covers, fault)


def _date(text: str) -> date | None:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def read_stets(contents: Contents, comments: list[Comment]) -> tuple[Stet, ...]:
    """All the stets of a file, in file order."""
    comments = sorted(comments, key=lambda comment: comment.span)
    limits = _ends_of_divs(contents, comments)
    stets = [_own_line(contents, comment, limit) for comment, limit in zip(comments, limits, strict=True)]
    stets += [read_stet(comment.text, comment.span, comment.block) for comment in contents.comments]
    return tuple(sorted((stet for stet in stets if stet is not None), key=lambda stet: stet.span))


def _own_line(contents: Contents, comment: Comment, limit: int | None) -> Stet | None:
    """A stet on a line of its own. Before a part that holds whole activities it lets nothing stand."""
    covers = _covered(contents, comment, limit)
    stet = read_stet(comment.text, comment.span, covers)
    block = block_at(contents.blocks, comment.lines[1])
    if stet is None or covers is None or block is None or block.kind == "heading":
        return stet
    wide = any(block.span.covers(heading.span) for heading in contents.headings)
    return replace(stet, covers=None, fault=stet.fault or _TOO_WIDE) if wide else stet


def _covered(contents: Contents, comment: Comment, limit: int | None) -> Span | None:
    """A comment on a line of its own covers the next block of its div; inside a table, the table."""
    at = comment.span.start
    table = bisect_right(contents.tables, Span(at, at)) - 1
    if table >= 0 and at < contents.tables[table].end:
        return contents.tables[table]
    block = block_at(contents.blocks, comment.lines[1])
    if block is None or (limit is not None and block.span.start >= limit):
        return None
    return Span(at, block.span.end)


def _ends_of_divs(contents: Contents, comments: list[Comment]) -> list[int | None]:
    """For each comment, where the innermost div around it ends (None: it stands in none)."""
    ends: list[int | None] = []
    around: list[int] = []
    next_div = 0
    for comment in comments:
        at = comment.span.start
        while next_div < len(contents.divs) and contents.divs[next_div].span.start <= at:
            around.append(contents.divs[next_div].span.end)
            next_div += 1
        while around and around[-1] <= at:
            around.pop()
        ends.append(around[-1] if around else None)
    return ends
