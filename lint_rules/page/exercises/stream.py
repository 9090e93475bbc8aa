"""The page of an activity as a neutral stream: its lines, in file order, each a range of a passage."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from lint_rules import lazy_re
from lint_rules.manuscript.model import Activity, Audience, DivKind, Passage, Role, Unit
from lint_rules.page.exercises.blank_signs import with_signs
from lint_rules.page.exercises.lost_blanks import with_blanks, without_bullets
from lint_rules.page.exercises.model import Place
from lint_rules.page.exercises.shared_keys import keys_of
from lint_rules.source import Source

_PAGE = frozenset({Role.TEXT, Role.ITEM, Role.CELL, Role.HEAD, Role.TURN, Role.LINE, Role.CAPTION, Role.PANEL})
_DATE = lazy_re.compile(r"[0-9]{1,2}\.?\s+(?=[^\W\d_])")
_NUMBER = lazy_re.compile(r"\(?Q?\d{1,2}[.):]?\s")
_ENDS = ("?", ".", "…", "_")  # of a sentence: a chapter has a name
_DAYS = 7  # bare numbers of the shortest calendar
_BOLD = lazy_re.compile(r"[\s.):(]*")

_IN_CELL = lazy_re.compile(r"\(?([0-9]{1,2})[.):]?(?=\s)")
_FEWEST_DOWN = 4  # numbers that run down the columns of a table
_SQUARE = lazy_re.compile(r"(?<=__)([ \u00a0]*)\[([^\[\]\n]{1,40})\](?!\()")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the file within a passage. ``first``: it begins its passage, so its list's label is its own."""

    passage: Passage
    start: int
    end: int
    first: bool

    @property
    def text(self) -> str:
        """What a reader sees of it."""
        return self.passage.text[self.start : self.end]


def mended_passages(activity: Activity, unit: Unit) -> dict[int, Passage]:
    """The passages of the pupil's page as they are read where they have blanks that Markdown has taken for emphasis,
    or blanks in other signs than `____`, by identity."""
    page = [one for one in activity.part.passages if one.audience is Audience.PUPIL and one.role in _PAGE and one.text]
    entries = without_bullets(page, unit.source)
    blanks = [with_blanks(entries.get(id(passage), passage), unit.source) for passage in page]
    said = " ".join(passage.text for passage in keys_of(activity, unit))
    signs = with_signs(blanks, said)
    read = [_in_round_brackets(signs.get(id(passage), passage)) for passage in blanks]
    return {id(old): new for old, new in zip(page, read, strict=True) if new is not old}


def _in_round_brackets(passage: Passage) -> Passage:
    """A passage whose hints and options behind a blank stand in round brackets: `____ [is/are]`."""
    text = _SQUARE.sub(lambda match: f"{match[1]}({match[2]})", passage.text)
    return passage if text == passage.text else replace(passage, text=text)


def page_lines(activity: Activity, unit: Unit, mended: Mapping[int, Passage]) -> list[Line]:
    """The lines of the pupil's page; pattern sentences are no exercise. ``mended`` are passages to be read instead."""
    titles = frozenset(map(id, _numbered_titles(activity.part.passages)))
    wanted = (
        mended.get(id(passage), passage)
        for passage in activity.part.passages
        if passage.audience is Audience.PUPIL
        and (passage.role in _PAGE or id(passage) in titles)
        and DivKind.PATTERN not in unit.div_kinds(passage)
    )
    return _down_columns(list(lines_of(wanted, unit.source)))


def _down_columns(lines: list[Line]) -> list[Line]:
    """Lines of which a table's numbered cells stand behind its others, column by column, where the numbers run down one
    column and on in the next: `| 1 ____ | 4 ____ |`, `| 2 ____ | 5 ____ |`, `| 3 ____ | 6 ____ |`."""
    found: list[Line] = []
    for _, several in groupby(lines, lambda line: line.passage.cell.table if line.passage.cell is not None else -1):
        rows = list(several)
        numbered = [line for line in rows if line.passage.cell is not None and _IN_CELL.match(line.text)]
        columns = sorted(numbered, key=_column)
        if len({_column(line) for line in numbered}) > 1 and _counts_up(columns) and not _counts_up(numbered):
            moved = set(map(id, numbered))
            rows = [line for line in rows if id(line) not in moved] + columns
        found += rows
    return found


def _column(line: Line) -> int:
    return line.passage.cell.column if line.passage.cell is not None else 0


def _counts_up(cells: Sequence[Line]) -> bool:
    """Whether the numbers of several cells rise by one from cell to cell."""
    numbers = [int(match[1]) for line in cells if (match := _IN_CELL.match(line.text))]
    return len(numbers) >= _FEWEST_DOWN and numbers == list(range(numbers[0], numbers[0] + len(numbers)))


def _numbered_titles(passages: Sequence[Passage]) -> Sequence[Passage]:
    """Headings that are the items of a page, `#### 1. Who bakes rolls?`; none where anything else is numbered."""
    numbered = [
        passage
        for passage in passages
        if passage.audience is Audience.PUPIL
        and (_NUMBER.match(passage.text) if passage.item is None else passage.item.label.isdigit())
    ]
    titles = [passage for passage in numbered if passage.role is Role.TITLE and passage.text.endswith(_ENDS)]
    return titles if len(titles) > 1 and len(titles) == len(numbered) else ()


def lines_of(passages: Iterable[Passage], source: Source) -> Iterator[Line]:
    """Passages cut into the lines that they stand on in the file."""
    for passage in passages:
        start = 0
        for end in (*_breaks(passage, source), len(passage.text)):
            part = passage.text[start:end]
            if part.strip():
                left = start + len(part) - len(part.lstrip())
                yield Line(passage, left, left + len(part.strip()), left == 0)
            start = end + 1


def _breaks(passage: Passage, source: Source) -> Iterator[int]:
    if passage.cell is not None:  # the lines of a drawn table's cell are one
        return
    if not passage.text or "\n" not in source.text[passage.starts[0] : passage.ends[-1]]:
        return
    for at, char in enumerate(passage.text):
        if char.isspace() and "\n" in source.text[passage.starts[at] : passage.ends[at]]:
            yield at


def dates_in(cells: Iterable[Place]) -> Iterator[Place]:
    """The numbers of a calendar's days, where something stands behind them: `3 dentist` among `1`, `2`, `4`."""
    tables: dict[int, list[Place]] = {}
    for place in cells:
        if place.passage.cell is not None:
            tables.setdefault(place.passage.cell.table, []).append(place)
    for several in tables.values():
        if sum(place.text.strip().isdigit() for place in several) >= _DAYS:
            for place in several:
                match = _DATE.match(place.passage.text, place.start, place.end)
                if match is not None:
                    yield Place(place.passage, *match.span())


def is_bold(passage: Passage, start: int, end: int) -> bool:
    """Whether exactly a range (and a mark or space beside it) is set in bold."""
    text = passage.text
    for left, right in passage.strong:
        if left <= start and end <= right:
            return not (_BOLD.sub("", text[left:start]) or _BOLD.sub("", text[end:right]))
    return False


def is_led(passage: Passage, start: int, end: int) -> bool:
    """Whether a range is a head in bold, or a few words of one: `**Across** 2 hat`, `**Student B** 3 Friday`."""
    bare = passage.text[start:end].rstrip()
    return bare[:1].isupper() and any(left == start and start + len(bare) == right for left, right in passage.strong)
