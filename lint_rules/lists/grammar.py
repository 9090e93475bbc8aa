"""Where each structure is taught, met again and tested, and where it is used before it is taught."""

from collections.abc import Iterator

from lint_rules.lists.book import BookOfUnits, Cell, Column, Table

_COLUMNS = (
    Column("structure", 26),
    Column("taught", 22),
    Column("met again", 48),
    Column("tested", 34),
    Column("used before it is taught", 34),
)
_FREE = (Column("structure", 26), Column("met", 60), Column("tested", 34))


def grammar(book: BookOfUnits) -> Iterator[Table]:
    """The structures that units set out to teach, then those that children meet although no unit teaches them."""
    taught = _taught(book)
    names = {name for facts in book.facts for name in (*facts.structures, *facts.structures_tested)}
    rows = sorted(taught, key=lambda name: (taught[name], name))
    yield Table(
        "Grammar that units teach",
        _COLUMNS,
        tuple(_row(book, name, taught[name]) for name in rows),
        "Taught: the first unit whose front matter names it.",
    )
    free = sorted(names - set(taught), key=lambda name: (_met(book, name) or [len(book.facts)], name))
    yield Table(
        "Grammar that no unit teaches",
        _FREE,
        tuple((_shown(name), _units(book, _met(book, name)), _units(book, _tested(book, name))) for name in free),
        "Children meet it all the same.",
    )


def _taught(book: BookOfUnits) -> dict[str, int]:
    """The structures that units name, with the index of the first unit that does."""
    found: dict[str, int] = {}
    for index, of in enumerate(book.units):
        for label in of.unit.front.grammar:
            for name in book.structures_named(label):
                found.setdefault(name, index)
    return found


def _row(book: BookOfUnits, name: str, taught: int) -> tuple[Cell, ...]:
    met = _met(book, name)
    return (
        _shown(name),
        book.units[taught].name,
        _units(book, [index for index in met if index > taught]),
        _units(book, _tested(book, name)),
        _units(book, [index for index in met if index < taught]),
    )


def _met(book: BookOfUnits, name: str) -> list[int]:
    return [index for index, facts in enumerate(book.facts) if name in facts.structures]


def _tested(book: BookOfUnits, name: str) -> list[int]:
    return [index for index, facts in enumerate(book.facts) if name in facts.structures_tested]


def _units(book: BookOfUnits, indices: list[int]) -> str:
    """Units by level: `level-1: 1, 2; level-2: 4`."""
    levels: dict[str, list[str]] = {}
    for index in indices:
        of = book.units[index]
        levels.setdefault(of.level.name, []).append(str(of.unit.front.unit))
    return "; ".join(f"{level}: {', '.join(numbers)}" for level, numbers in levels.items())


def _shown(name: str) -> str:
    return name.replace("-", " ")
