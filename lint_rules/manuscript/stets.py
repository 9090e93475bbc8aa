"""Stet comments: their form, and the block each lets stand."""

import re
from datetime import date

from lint_rules.manuscript.comments import COMMENT
from lint_rules.manuscript.contents import Block, Contents, block_at
from lint_rules.manuscript.markdown import Comment
from lint_rules.manuscript.model import Stet
from lint_rules.source import Source, Span

_STET = re.compile(r"<!--\s*stet\b(?P<body>[\s\S]*?)-->\Z", re.IGNORECASE)
_FORM = re.compile(r"(?P<head>[^:]*)(?P<colon>:?)(?P<reason>[\s\S]*)")
_RULE = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
_SHAPE = "Write <!-- stet RULE: reason --> or <!-- stet RULE until 2027-03-01: reason -->"


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
    return Stet(rule, reason, until, span, covers, fault)


def _date(text: str) -> date | None:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def read_stets(source: Source, contents: Contents, comments: list[Comment]) -> tuple[Stet, ...]:
    """All the stets of a file, in file order."""
    stets = [read_stet(comment.text, comment.span, covered_by_line(contents, comment)) for comment in comments]
    for span, text, block in contents.comments:
        stets.append(read_stet(text, span, covered_in_line(contents, span, block)))
    found = [stet for stet in stets if stet is not None]
    return tuple(sorted(found, key=lambda stet: stet.span))


def covered_by_line(contents: Contents, comment: Comment) -> Span | None:
    """A comment on a line of its own covers the next block; inside a table, the table; before a heading, its line."""
    assert comment.lines is not None
    at = comment.span.start
    for block in contents.blocks:
        if block.kind == "table" and block.span.start <= at < block.span.end:
            return block.span
    block = block_at(contents.blocks, comment.lines[1])
    if block is None:
        return None
    limit = min((div.span.end for div in contents.divs if div.span.start <= at < div.span.end), default=None)
    if limit is not None and block.span.start >= limit:
        return None
    return Span(at, block.span.end)


def covered_in_line(contents: Contents, comment: Span, block: Span) -> Span:
    """A comment inside a line covers the block it stands in; in an item, the item."""
    items = [entry.span for entry in contents.blocks if entry.kind == "item" and entry.span.covers(comment)]
    inner = max(items, default=None)
    if inner is not None and inner.start <= block.start:
        return inner
    return Span(min(block.start, comment.start), max(block.end, comment.end))


__all__ = ["COMMENT", "Block", "read_stet", "read_stets"]
