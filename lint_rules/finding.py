"""What a rule yields, and what a reader of the report gets."""

from dataclasses import dataclass
from enum import StrEnum

from lint_rules.source import Position, Span


class Severity(StrEnum):
    """How much a finding weighs: ``stop`` blocks a commit, ``query`` a release, ``note`` nothing."""

    STOP = "stop"
    QUERY = "query"
    NOTE = "note"

    @property
    def weight(self) -> int:
        """Order of severities: the greater, the heavier."""
        return {"stop": 3, "query": 2, "note": 1}[self.value]


@dataclass(frozen=True, slots=True)
class Edit:
    """Replace the stored text under ``span`` with ``text`` (an empty span inserts)."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Mend:
    """A safe change that answers a finding: what it does, in a few words, and its edits to that file."""

    title: str
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What a rule yields: a place in a unit's file, what a reader sees there, and the message for the author.

    ``severity`` is given only where this finding weighs less than the rule usually does (or differs by case);
    ``path`` only by rules that read the whole book. ``key`` says which one it is where its words do not (the
    target word that a unit's title is flagged for, the lemma of a word): by it findings are told apart when they are
    carried over. ``about`` says which of the rule's questions it is, where those are several (`no Steps`). By both,
    findings gather into points where their rule says so.
    """

    span: Span
    text: str
    message: str
    severity: Severity | None = None
    mend: Mend | None = None
    path: str | None = None
    key: str = ""
    about: str = ""


class Status(StrEnum):
    """Whether a finding counts: open, let stand by a stet, or carried over from before the course adopted hornbook."""

    OPEN = "open"
    LET_STAND = "let stand"
    CARRIED = "carried"


@dataclass(frozen=True, slots=True)
class Finding:
    """A finding with its place worked out. Sorted by path, line, column, rule."""

    rule: str
    severity: Severity
    path: str
    span: Span
    start: Position
    end: Position
    text: str
    message: str
    mend: Mend | None = None
    status: Status = Status.OPEN
    reason: str = ""
    place: str = ""  # place by its headings, free of line numbers: 'A hat / Listen and point.'
    key: str = ""
    about: str = ""

    @property
    def order(self) -> tuple[str, int, int, str, int, int, str]:
        """Sort key that every output uses."""
        return (self.path, self.start.line, self.start.column, self.rule, self.end.line, self.end.column, self.message)
