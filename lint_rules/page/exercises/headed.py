"""Keys by names: `Winter: boots, scarf. Summer: shorts`, `Name: Fluff; Age: two`.

The names are those of the page: heads of the columns that words are sorted into, fields of a form, first cells of the
rows of a chart. A name of the key that the page has not, among others that it has, is one that nobody can find.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.manuscript.model import Role
from lint_rules.page.exercises.answers import plain
from lint_rules.page.exercises.gaps import gaps_in
from lint_rules.page.exercises.key import ReadKey
from lint_rules.page.exercises.model import Answer, Exercise, Gap, Item, Key, Label, Place
from lint_rules.page.exercises.stream import Line

_FIELD = lazy_re.compile(r"\s*(?:[☐•*–-]\s*)?(?P<name>[^\W\d_][^:_\n]{0,40}?)\s*:\s*(?=[^_]*__)")
_ONLY_BLANKS = lazy_re.compile(r"[_\s,;·|/–-]*")
_LINE = lazy_re.compile(r"_{2,}")
_BLANK = lazy_re.compile(r"[_\s]*")
_NAMED = lazy_re.compile(
    r"(?P<first>^|(?<=[.;])\s+)?(?<!\S)(?P<name>[^\s:.;,][^:.;,]{0,40}?)\s*(?P<sign>:(?=\s|$)|\s[–—=](?=\s))\s*"
)
_REMARK = lazy_re.compile(r"\.\s+(?=[A-Z]\S*(?:\s+\S+){3,}\.)")  # `4, 7. The honey is cheaper at stall 2.`
_EDGE = " \t\n.;,–—|·•"
_FEWEST = 2


@dataclass(frozen=True, slots=True)
class _Name:
    """A name on the page: where it stands, and the blanks that are its own; ``bold`` is the name where it is set in
    bold before its blanks, as somebody's who speaks is."""

    place: Place
    gaps: tuple[Gap, ...] = ()
    prompt: tuple[Place, ...] = ()
    bold: str = ""

    @property
    def text(self) -> str:
        return self.bold or self.place.text

    @property
    def key(self) -> str:
        return plain(self.text)


def headed(lines: Sequence[Line], read: ReadKey) -> Exercise | None:
    """The exercise whose key goes by names of the page; None where it does not."""
    fields = list(_fields(lines))
    rows = all(
        len(_LINE.findall(name.prompt[0].text)) > 1 and _ONLY_BLANKS.fullmatch(name.prompt[0].text) for name in fields
    )
    for names, sorting in ((list(_columns(lines)), True), (list(_groups(lines)), True), (fields, rows)):
        if len({name.key for name in names}) < len(names):
            continue
        for find in (_beneath, _answers, _leading) if sorting else (_answers,):
            answers = list(find(read, names))
            by_name = {plain(answer.label.text): answer for answer in reversed(answers) if answer.label}
            known = by_name.keys() & {name.key for name in names}
            two = (
                sorting and len(known) == 1 and len(by_name) == len(names) == _FEWEST
            )  # of two the one has another name
            if (len(known) < _FEWEST and not two) or len(known) * 2 < len(names):
                continue
            items = tuple(
                Item(Label(name.text, name.place.span), name.prompt, name.gaps, answer=by_name.get(name.key))
                for name in names
            )
            return Exercise(items, Key(tuple(answers), read.own), sorting=sorting)
    return None


def _columns(lines: Sequence[Line]) -> Iterator[_Name]:
    """The heads of a table of which nothing else is filled in."""
    tables = {line.passage.cell.table for line in lines if line.passage.cell is not None}
    for table in sorted(tables):
        cells = [line for line in lines if line.passage.cell is not None and line.passage.cell.table == table]
        heads = [line for line in cells if line.passage.role is Role.HEAD]
        if all(line in heads or _BLANK.fullmatch(line.text) for line in cells):
            for line in heads:
                if not _BLANK.fullmatch(line.text):
                    yield _Name(Place(line.passage, line.start, line.end))


def _groups(lines: Sequence[Line]) -> Iterator[_Name]:
    """Heads in bold with nothing but blanks below them."""
    heads = [at for at, line in enumerate(lines) if _is_head(line)]
    for at, end in pairwise([*heads, len(lines)]):
        below = lines[at + 1 : end]
        if below and all(_BLANK.fullmatch(line.text) for line in below):
            yield _Name(Place(lines[at].passage, lines[at].start, lines[at].end))


def _is_head(line: Line) -> bool:
    return line.first and any(start <= line.start and line.end <= end for start, end in line.passage.strong)


def _fields(lines: Sequence[Line]) -> Iterator[_Name]:
    """`Name: ____`; or a first cell with one blank behind it."""
    for line in lines:
        if line.passage.speaker and _ONLY_BLANKS.fullmatch(line.text) and "__" in line.text:
            prompt = Place(line.passage, line.start, line.end)
            yield _Name(prompt, tuple(gaps_in(prompt)), (prompt,), line.passage.speaker)
        match = _FIELD.match(line.passage.text, line.start, line.end)
        if match is not None:
            prompt = Place(line.passage, match.end(), line.end)
            yield _Name(Place(line.passage, *match.span("name")), tuple(gaps_in(prompt)), (prompt,))
    first = {
        (line.passage.cell.table, line.passage.cell.row): line
        for line in reversed(lines)
        if line.passage.cell is not None and line.passage.cell.column == 0
    }
    for line in lines:
        cell = line.passage.cell
        if cell is not None and cell.column == 1 and _BLANK.fullmatch(line.text):
            head = first.get((cell.table, cell.row))
            if head is not None and not _BLANK.fullmatch(head.text):
                prompt = Place(line.passage, line.start, line.end)
                yield _Name(Place(head.passage, head.start, head.end), tuple(gaps_in(prompt)), (prompt,))


def _answers(read: ReadKey, names: Sequence[_Name]) -> Iterator[Answer]:
    """What the key says behind each name; behind one that the page has not too, labelled as the key has it."""
    for line in read.lines:
        text = line.passage.text
        found: list[tuple[Place, str, int]] = []
        bold = _bold_name(line, names)
        if bold is not None:
            found.append(bold)
        for match in _NAMED.finditer(text, line.start, line.end):
            name = Place(line.passage, *match.span("name"))
            known = _known(name, names)
            if bold is not None and name.start < bold[2]:
                continue
            if known is not None:
                found.append((*known, match.end()))
            elif match["sign"] == ":" and (match["first"] is not None or match.start() == line.start):
                found.append((name, name.text, match.end()))
        for at, (name, label, begin) in enumerate(found):
            said = text[begin : found[at + 1][0].start if at + 1 < len(found) else line.end]
            said = _REMARK.split(said)[0]
            start = begin + len(said) - len(said.lstrip(_EDGE))
            stop = begin + len(said.rstrip(_EDGE))
            yield Answer(Place(line.passage, start, max(start, stop)), Label(label, name.span, name))


def _beneath(read: ReadKey, names: Sequence[_Name]) -> Iterator[Answer]:
    """What a key laid out as the page's own table has under each head."""
    heads: dict[tuple[int, int], Line] = {}
    begun: set[tuple[int, int]] = set()  # columns of which a cell has been told: it alone has the name
    for line in read.lines:
        cell = line.passage.cell
        if cell is not None and cell.row == 0:
            heads[cell.table, cell.column] = line
        elif cell is not None and (head := heads.get((cell.table, cell.column))) is not None:
            name = Place(head.passage, head.start, head.end)
            known = next((one.text for one in names if one.key == plain(head.text)), head.text)
            more = (cell.table, cell.column) in begun
            begun.add((cell.table, cell.column))
            yield Answer(Place(line.passage, line.start, line.end), None if more else Label(known, name.span, name))


def _leading(read: ReadKey, names: Sequence[_Name]) -> Iterator[Answer]:
    """Lines of a key that each begin with a name as the page has it, whatever stands behind it: `/əʊ/ goat, snow`."""
    found: list[Answer] = []
    for line in read.lines:
        text = line.text.casefold()
        begun = [one for one in names if text.startswith(one.text.casefold())]
        longest = max(begun, key=lambda one: len(one.text), default=None)
        if longest is None:
            return
        end = line.start + len(longest.text)
        said = line.passage.text[end : line.end]
        start = end + len(said) - len(said.lstrip(_EDGE + ":="))
        if start == end:
            return  # another word that only begins so
        name = Place(line.passage, line.start, end)
        stop = max(start, end + len(said.rstrip(_EDGE)))
        found.append(Answer(Place(line.passage, start, stop), Label(longest.text, name.span, name)))
    yield from found


def _bold_name(line: Line, names: Sequence[_Name]) -> tuple[Place, str, int] | None:
    """A name of the page that stands in bold at the start of a line: `**Seasons** spring, autumn`."""
    for start, end in line.passage.strong:
        here = Place(line.passage, start, end)
        if start == line.start and end < line.end:
            for one in names:
                if plain(here.text) == one.key:
                    return here, one.text, end
    return None


def _known(said: Place, names: Sequence[_Name]) -> tuple[Place, str] | None:
    """Where a name of the page stands in a range (at its end: `scarf Summer`), and the name as the page has it."""
    words = list(re.finditer(r"\S+", said.text))
    for word in words:
        here = Place(said.passage, said.start + word.start(), said.end)
        for one in names:
            if _is_same(plain(here.text), one.key):
                return here, one.text
    return None


def _is_same(said: str, name: str) -> bool:
    """Whether the key means a name of the page: `Day` for `Day of the club` too."""
    return bool(said) and (said == name or name.startswith(f"{said} ") or said.startswith(f"{name} "))
