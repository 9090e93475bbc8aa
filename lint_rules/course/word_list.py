"""A level's word list: CSV as people and spreadsheets write it, row by row into target words."""

import csv
import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from lint_rules import lazy_re
from lint_rules.course.model import PARTS_OF_SPEECH, WordEntry
from lint_rules.course.nodes import one_of
from lint_rules.course.problem import CourseProblem, did_you_mean, nearest, problem_at
from lint_rules.source import Source

COLUMNS = ("word", "part_of_speech", "topic", "unit")
OPTIONAL_COLUMNS = ("use", "note")
USES = ("say", "know")
_KNOWN = "known"
_SEEN = lazy_re.compile(  # what the note of a row may say of a word that children bring along
    r"\b(?:again|known|met|taught|learnt|learned|revis\w+|review\w*|recycled|comes?|from|of)\b[^,;.]{0,20}"
    r"\b(?:last year|(?:the )?year before|(?:the )?(?:last|previous|earlier) (?:year|book|level|course))\b",
    re.I,
)
_NOT_SEEN = lazy_re.compile(r"\b(?:not|never|new|different|instead)\b|n['’]t\b", re.I)
_BEFORE = ("0", "0.0")  # no unit of this course: words of the year before
# What the trade calls words that children produce, words that they only understand, and words that they bring along
# (common practice, no source).
_USE_IS = {
    "say": "say", "active": "say", "productive": "say", "produce": "say", "p": "say",
    "know": "know", "passive": "know", "receptive": "know", "recognise": "know", "recognize": "know",
    "understand": "know", "hear": "know", "read": "know", "listen": "know", "r": "know",
    "known": "known", "already known": "known", "review": "known", "revision": "known", "recycled": "known",
}  # fmt: skip
# What dictionaries and teachers write for a part of speech (common practice, no source).
_SHORT_FORMS = {
    "n": "noun", "v": "verb", "vb": "verb", "adj": "adjective", "adv": "adverb", "pron": "pronoun", "det": "determiner",
    "article": "determiner", "prep": "preposition", "conj": "conjunction", "num": "number", "numeral": "number",
    "int": "interjection", "interj": "interjection", "exclamation": "interjection", "phr": "phrase",
    "expression": "phrase", "phrasal verb": "verb", "question word": "pronoun", "possessive": "determiner",
    "modal": "verb", "auxiliary": "verb",
}  # fmt: skip
_SEPARATOR_LINE = lazy_re.compile(r"sep=(.)\s*")  # the first line that some spreadsheets write
_WHOLE = lazy_re.compile(r"(\d{1,6})(?:\.0+)?")  # a spreadsheet may keep a unit as 4.0


@dataclass(frozen=True, slots=True)
class _Row:
    """A row: the line it starts in, its cells as csv reads them, and where each of them starts in the file."""

    line: int
    cells: list[str]
    starts: list[int]

    def start(self, index: int) -> int:
        return self.starts[min(index, len(self.starts) - 1)]


@dataclass
class _ListReader:
    source: Source
    level: int
    level_name: str
    units: int
    problems: list[CourseProblem] = field(default_factory=list)
    columns: dict[str, int] = field(default_factory=dict)
    said: set[str] = field(default_factory=set)
    width: int = 0  # columns that the first row names, the house's own among them

    def say(self, offset: int, message: str, *, stops: bool = False, harmless: bool = False) -> None:
        self.problems.append(replace(problem_at(self.source, offset, message, stops=stops), harmless=harmless))

    def say_once(self, offset: int, message: str, *, harmless: bool = False) -> None:
        """Say at its first row what is the same in many: a habit of the house is one thing to answer."""
        if message not in self.said:
            self.said.add(message)
            self.say(offset, message, harmless=harmless)

    def read(self) -> Iterator[WordEntry]:
        rows = self.rows()
        header = next(rows, None)
        if header is None:
            self.say(0, f"The word list is empty; its first row must be {','.join(COLUMNS)}.", stops=True)
            return
        if not self.read_header(header):
            return
        seen: dict[tuple[str, str, int], int] = {}
        for row in rows:
            entry = self.entry(row)
            if entry is None:
                continue
            first = seen.setdefault((entry.word, entry.part_of_speech, entry.unit), row.line)
            if first == row.line:
                yield entry
            else:
                self.say(self.at(row, "word"), f"'{entry.word}' is already in line {first}, the same in every way.")

    def rows(self) -> Iterator[_Row]:
        """The rows that are not blank. A row that csv cannot read is a problem."""
        source, skipped = self.source, 0
        if source.text and (match := _SEPARATOR_LINE.fullmatch(source.line_text(1))):
            separator, skipped = match[1], 1
        else:
            separator = self.separator()
        spans = [*source.line_starts, len(source.text)]
        lines = [source.text[start:end] for start, end in pairwise(spans)][skipped:]
        reader = csv.reader(lines, delimiter=separator, strict=True)
        while True:
            line = reader.line_num + skipped + 1
            try:
                cells = next(reader)
            except StopIteration:
                return
            except csv.Error as error:
                rest_lost = "unexpected end" in str(error)
                self.say(source.line_starts[line - 1], _csv_fault(error), stops=rest_lost)
                continue
            if any(cell.strip() for cell in cells):
                start, end = source.line_starts[line - 1], spans[reader.line_num + skipped]
                yield _Row(line, cells, _cell_starts(source.text[start:end], start, separator))

    def separator(self) -> str:
        """The mark between cells: of comma, semicolon and tab the one that the first written line has most of."""
        first = next((line for line in self.source.text.splitlines() if line.strip()), "")
        return max(",;\t", key=first.count)

    def read_header(self, header: _Row) -> bool:
        known = COLUMNS + OPTIONAL_COLUMNS
        self.width = len(header.cells)
        names = [re.sub(r"[\s-]+", "_", cell.strip().casefold()) for cell in header.cells]
        absent = [name for name in known if name not in names]
        meant: set[str | None] = set()
        for index, (cell, name) in enumerate(zip(header.cells, names, strict=True)):
            if name not in known:
                self.other_column(header.start(index), cell.strip(), name, absent, meant)
            elif name in self.columns:
                self.say(header.start(index), f"There are two columns '{name}'; keep one of them.")
            else:
                self.columns[name] = index
        missing = [name for name in COLUMNS if name not in self.columns]
        if set(missing) - meant:  # what was misspelt has been said
            self.say(
                header.start(0),
                f"The first row must name the columns {','.join(COLUMNS)} (and use, note if you like);"
                f" missing: {', '.join(missing)}.",
            )
        if "word" in missing:
            self.say(header.start(0), "Without the column 'word' no word of this list could be read.", stops=True)
        return "word" in self.columns

    def other_column(self, at: int, written: str, name: str, absent: list[str], meant: set[str | None]) -> None:
        """A column of the house's own (a translation, a page); or one of ours, misspelt."""
        near = nearest(name, absent) if name else None
        if near in COLUMNS:
            meant.add(near)
            self.say(at, f"'{written}' is not a column of a word list. Did you mean '{near}'?")
        elif near:
            self.say(at, f"The column '{written}' is not read. Did you mean '{near}'?", harmless=True)

    def cell(self, row: _Row, column: str) -> str:
        index = self.columns.get(column)
        value = row.cells[index] if index is not None and index < len(row.cells) else ""
        whole = " ".join(unicodedata.normalize("NFC", value).split())
        return whole if whole.isprintable() else "".join(char for char in whole if char.isprintable())

    def unseen(self, row: _Row) -> None:
        """Say where a cell of ours holds a character that nobody can see: the word would never be found in a unit."""
        for column, index in self.columns.items():
            odd = (
                [char for char in row.cells[index] if not (char.isprintable() or char.isspace())]
                if index < len(row.cells)
                else []
            )
            if odd:
                message = f"This cell holds a character that nobody can see (U+{ord(odd[0]):04X}). Take it out."
                self.say(self.at(row, column), message)

    def at(self, row: _Row, column: str) -> int:
        return row.start(self.columns.get(column, 0))

    def entry(self, row: _Row) -> WordEntry | None:
        """The target word of a row, or None when the row cannot be used."""
        width = self.width
        if any(cell.strip() for cell in row.cells[width:]) and len(row.cells) > width:
            self.say(
                row.start(width),
                "This row has more cells than the first row has names. A text that contains the separator needs"
                ' quotation marks round it: "like, this".',
            )
            return None
        self.unseen(row)
        word = self.cell(row, "word")
        if not word:
            self.say(self.at(row, "word"), "This row has no word.")
            return None
        if not any(char.isalnum() for char in word):
            self.say(self.at(row, "word"), f"'{word}' is not a word.")
            return None
        use = _KNOWN if self.cell(row, "unit") in _BEFORE else self.use(row)
        return WordEntry(
            word=word,
            part_of_speech=self.part_of_speech(row),
            topics=tuple(dict.fromkeys(t for t in map(str.strip, self.cell(row, "topic").split("|")) if t)),
            unit=0 if use == _KNOWN else self.unit(row),
            use=use,
            note=self.cell(row, "note"),
            level=self.level,
            path=self.source.path,
            row=row.line,
        )

    def part_of_speech(self, row: _Row) -> str:
        written = self.cell(row, "part_of_speech")
        name = written.casefold()
        if not name or name in PARTS_OF_SPEECH:
            return name
        last = name.split()[-1]  # modal verb, plural noun
        for short in (name.rstrip("."), last):
            if short in _SHORT_FORMS or short in PARTS_OF_SPEECH:
                return _SHORT_FORMS.get(short, short)
        advice = did_you_mean(name, PARTS_OF_SPEECH) or f" It can be {one_of(PARTS_OF_SPEECH)}, or empty for any."
        message = f"'{written}' is not a part of speech that hornbook knows.{advice}"
        self.say_once(self.at(row, "part_of_speech"), message)
        return ""

    def unit(self, row: _Row) -> int:
        written = self.cell(row, "unit")
        if not written:
            return 0
        match = _WHOLE.fullmatch(written)
        if match is None or int(match[1]) == 0:
            message = f"The unit must be a whole number from 1, or empty, not '{written}'."
        elif self.units and int(match[1]) > self.units:
            units = "1 unit" if self.units == 1 else f"{self.units} units"
            message = f"There is no unit {match[1]}: course.yaml gives {self.level_name} {units}."
        else:
            return int(match[1])
        self.say(self.at(row, "unit"), message)
        return 0

    def use(self, row: _Row) -> str:
        written = self.cell(row, "use")
        note = self.cell(row, "note")
        if written and written.casefold() not in _USE_IS:
            self.say_once(
                self.at(row, "use"),
                f"'use' must be say (children produce the word), know (they only understand it) or known (they bring it"
                f" along), not '{written}'.",
                harmless=True,
            )
        if _SEEN.search(note) and not _NOT_SEEN.search(note):
            return _KNOWN
        return _USE_IS.get(written.casefold(), USES[0])


def read_word_list(
    source: Source, *, level: int, level_name: str, units: int
) -> tuple[tuple[WordEntry, ...], tuple[CourseProblem, ...]]:
    """Read a word list: its target words in file order, and everything that is wrong with it.

    ``units`` is how many units the level will have (0: not said). A problem stops the run when the rest of the list
    could not be read. A row with a wrong part of speech, unit or use is kept without it; a row without a word, or a
    second one alike, is left out. A row that children bring along is among the entries still: see ``parted``.
    """
    reader = _ListReader(source, level, level_name, units)
    entries = tuple(reader.read())
    return entries, tuple(sorted(reader.problems))


def _cell_starts(text: str, offset: int, separator: str) -> list[int]:
    """Where the cells of a row's text start in the file (RFC 4180: a cell in quotation marks may hold separators)."""
    cell = re.compile(rf'(?:"(?:[^"]|"")*")?[^{re.escape(separator)}\r\n]*(?:{re.escape(separator)}|$)')
    text = text.rstrip("\r\n")
    starts, at = [offset], 0
    while (match := cell.match(text, at)) and match[0].endswith(separator):
        at = match.end()
        starts.append(offset + at)
    return starts


def _csv_fault(error: csv.Error) -> str:
    said = str(error)
    if "unexpected end of data" in said:
        return 'A quotation mark (") opens in this row and is never closed; the rows after it were not read.'
    if "expected after" in said:
        return 'A quotation mark (") closes in the middle of a cell; inside a quoted cell, write a mark as "".'
    if "field larger" in said:
        return "A cell of this row is longer than a book; a quotation mark is probably not closed."
    return f"This row cannot be read ({said})."


def parted(entries: Sequence[WordEntry]) -> tuple[tuple[WordEntry, ...], tuple[str, ...]]:
    """Part the rows of all lists into target words, and words that children bring along and no row teaches."""
    targets = tuple(entry for entry in entries if entry.use != _KNOWN)
    taught = {entry.word.casefold() for entry in targets}
    known = (entry.word for entry in entries if entry.use == _KNOWN and entry.word.casefold() not in taught)
    return targets, tuple(dict.fromkeys(known))
