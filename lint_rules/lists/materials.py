"""What a teacher brings: a row a thing, by unit and lesson, with quantities where the notes give them."""

import re
from collections.abc import Iterator

from lint_rules import lazy_re
from lint_rules.lists.book import PLACE, BookOfUnits, Cell, Column, Spot, Table, one_line, spots
from lint_rules.page.number_words import NUMBER_WORDS

_COLUMNS = (*PLACE, Column("quantity", 18), Column("what", 56))
_BETWEEN = lazy_re.compile(r"[,;•]\s*(?![^(]*\))|\s*\n\s*")
_NUMBER = lazy_re.compile(
    rf"(?P<many>(?:about\s+)?(?:\d+(?:[–-]\d+)?|{'|'.join(NUMBER_WORDS)}|a|an|some|a few|enough|one set of)"
    r"(?:\s*[×x])?)\s+(?P<what>\S.*)",
    re.I,
)
_SHARED = r"(?:each|every|the whole|all|a|an|per)?\s*(?:child|children|pair|group|pupil|team|table|class)s?\b"
_EACH = lazy_re.compile(
    rf"(?P<what>.+?)(?:\s*\((?P<said>[^)]*\b(?:for|per|to|a|an)\s+{_SHARED}[^)]*)\)"
    rf"|[\s,–-]+(?P<each>(?:for|per)\s+{_SHARED}.*))",
    re.I,
)


def materials(book: BookOfUnits) -> Iterator[Table]:
    """One table in teaching order. An amount is what the notes say, in their words."""
    yield Table("Materials", _COLUMNS, tuple(row for spot in spots(book) for row in _rows(spot)))


def _rows(spot: Spot) -> Iterator[tuple[Cell, ...]]:
    field = spot.part.field("Materials")
    for passage in field.passages if field else ():
        for piece in _BETWEEN.split(passage.text):
            thing = one_line(piece).strip(" .;:")
            thing = re.sub(r"^(?:and|also)\s+", "", thing)
            if thing:
                yield (*spot.cells, *_counted(thing))


def _counted(thing: str) -> tuple[str, str]:
    """How many, and of what: `6 paper plates`, `beads, one bag for each pair`."""
    each = _EACH.fullmatch(thing)
    if each is not None:
        number = _NUMBER.fullmatch(each["what"])
        many = number["many"] if number else ""
        return " ".join(f"{many} {each['said'] or each['each']}".split()), number["what"] if number else each["what"]
    number = _NUMBER.fullmatch(thing)
    if number is not None and number["many"].casefold() not in ("a", "an", "some"):
        return number["many"], number["what"]
    return "", thing
