"""Two versions of a book side by side: units, lessons, words, grammar, minutes and findings that came and went."""

from collections import Counter
from collections.abc import Iterator

from lint_rules.finding import Status
from lint_rules.lists.book import BookOfUnits, Cell, Column, Table, UnitOfBook
from lint_rules.lists.contents import minutes_of

_COLUMNS = (Column("where", 26), Column("what", 16), Column("before", 48), Column("after", 48))


def changes(old: BookOfUnits, new: BookOfUnits) -> Iterator[Table]:
    """Two tables: the book, and its findings by rule. What is the same in both is left out."""
    yield Table("What has changed", _COLUMNS, (*_units(old, new), *_words(old, new)))
    yield Table("Findings by rule", (Column("rule", 30), Column("before", 8), Column("after", 8)), _findings(old, new))


def _units(old: BookOfUnits, new: BookOfUnits) -> Iterator[tuple[Cell, ...]]:
    before, after = ({one.name: one for one in book.units} for book in (old, new))
    for name in dict.fromkeys((*before, *after)):
        first, second = before.get(name), after.get(name)
        if first is None or second is None:
            yield name, "unit", first.unit.front.title if first else "", second.unit.front.title if second else ""
            continue
        for what, one, other in zip(_WHATS, _said(first), _said(second), strict=True):
            if one != other:
                yield name, what, one, other


_WHATS = ("title", "topics", "grammar", "lessons", "minutes", "activities")


def _said(of: UnitOfBook) -> tuple[Cell, ...]:
    front = of.unit.front
    lessons = ", ".join(lesson.heading.passage.text for lesson in of.unit.lessons)
    activities = sum(1 for _ in of.unit.activities)
    return front.title, ", ".join(front.topics), ", ".join(front.grammar), lessons, minutes_of(of.unit), activities


def _words(old: BookOfUnits, new: BookOfUnits) -> Iterator[tuple[Cell, ...]]:
    before, after = _by_level(old), _by_level(new)
    for level in dict.fromkeys((*before, *after)):
        gone = [word for word in before.get(level, ()) if word not in after.get(level, ())]
        come = [word for word in after.get(level, ()) if word not in before.get(level, ())]
        if gone or come:
            yield level, "target words", ", ".join(gone), ", ".join(come)


def _by_level(book: BookOfUnits) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for entry in book.course.words:
        found.setdefault(book.course.levels[entry.level].name, []).append(entry.word)
    return found


def _findings(old: BookOfUnits, new: BookOfUnits) -> tuple[tuple[Cell, ...], ...]:
    before, after = (Counter(f.rule for f in book.findings if f.status is Status.OPEN) for book in (old, new))
    rules = sorted({*before, *after})
    return tuple((rule, before[rule], after[rule]) for rule in rules if before[rule] != after[rule])
